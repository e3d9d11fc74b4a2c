/* The work of hands on virtual cloth: each kind of heap is a short program of
 * the operations in cloth.h, and what is seen before and after each action is
 * kept for the figures. May assume inputs whose own cloth is sewn. Read next:
 * bench.h. */
#include "bench.h"

/* One bench a heap; it lives as long as the sewing of that heap. */
static struct bench bench_for(struct sewer *sewer, struct heap *heap)
{
    return (struct bench){sewer, sewer->run->arena, heap,
                          sewer->sized->design->pattern->seam};
}

/* The size is set last, on a copy: programs cut and join without minding it.
 * Then the outline is proved, for every heap. */
void sew_heap(struct sewer *sewer, struct heap *heap)
{
    const struct bench bench = bench_for(sewer, heap);
    switch (heap->work) {
    case WORK_CUT:
        heap->cloth = cloth_rectangle(bench.arena, heap->fabric, heap->width,
                                      heap->height, bench.seam);
        return;
    case WORK_CORNERS:
        sew_corners(&bench);
        break;
    case WORK_DIAGONAL:
        sew_strips(&bench);
        break;
    case WORK_HALF_SQUARE:
        sew_half_square(&bench);
        break;
    case WORK_JOIN:
        sew_join(&bench);
        break;
    }
    struct cloth *cloth = cloth_moved(bench.arena, heap->cloth,
                                      rational_whole(0), rational_whole(0));
    cloth->width = heap->width;
    cloth->height = heap->height;
    heap->cloth = cloth;
    verify_outline(sewer, heap);
}
