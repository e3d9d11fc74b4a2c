/* What is sewn in a frame that is turned by an eighth: rows of a setting on
 * point, and every second diamond of a star. Read next: on_point.c. */
#include "bench.h"

/* A turn by an eighth divides by the root of 2; the rows' own corner lies the
 * float inside the setting's, a star's in its middle. */
struct vertex slanted_point(const struct heap *heap, struct vertex v)
{
    const struct rational root = rational_root(2);
    const struct rational excess =
        heap->technique == TECHNIQUE_STAR
            ? rational_div(heap->width, rational_whole(2))
            : heap->of.join.excess;
    return (struct vertex){
        rational_add(rational_div(rational_sub(v.x, v.y), root), excess),
        rational_add(rational_div(rational_add(v.x, v.y), root), excess)};
}

static int sign_of(int number)
{
    return (number > 0) - (number < 0);
}

void turn_eighth(int *x, int *y)
{
    const int turned_x = sign_of(*x - *y), turned_y = sign_of(*x + *y);
    *x = turned_x;
    *y = turned_y;
}

/* As cloth_mapped asks for it. */
static struct vertex slanted(struct vertex v, const void *how)
{
    return slanted_point(how, v);
}

/* A print turns along: by an eighth, or by the eighth that makes a quarter. */
struct cloth *slanted_cloth(const struct bench *bench,
                            const struct cloth *cloth)
{
    struct cloth *copy =
        cloth_mapped(bench->arena, cloth, slanted, bench->heap);
    for (size_t i = 0; i < copy->faces.count; i++) {
        struct face *face = &copy->faces.items[i];
        face->turn = (face->turn + face->slanted) % 4;
        face->slanted = !face->slanted;
    }
    for (size_t i = 0; i < copy->seams.count; i++)
        turn_eighth(&copy->seams.items[i].x, &copy->seams.items[i].y);
    return copy;
}
