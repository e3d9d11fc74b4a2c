/* Uses of a unit or block. Read next: steps.c. */
#include "craft.h"

/* Each definition once. The first gives the heap its name, until it is counted
 * what the quilt takes (taken.c). */
static void add_name(struct sewer *sewer, struct heap *heap,
                     const struct definition *definition,
                     const struct cast *cast, bool mirror)
{
    for (size_t i = 0; i < heap->names.count; i++)
        if (heap->names.items[i].definition == definition)
            return;
    *LIST_ADD(sewer->run->arena, &heap->names) =
        (struct heap_name){definition, cast, mirror, 0};
    if (heap->names.count == 1) {
        heap->named = definition;
        heap->named_cast = cast;
        heap->named_mirror = mirror;
    }
}

/* A use is no work of its own: it names the heap of its target. The steps of
 * the target's assembly come first, so that they keep their order. */
static struct ref build_use(struct sewer *sewer, const struct piece *piece,
                            struct rational factor, bool mirror)
{
    const struct orientation o = orientation_compose(
        (struct orientation){0, mirror}, piece->orientation);
    const struct rational inner = use_scale(sewer->sized, piece, factor);
    const struct cast *around = enter_use(sewer, piece);
    follow_assembly(sewer, piece->target, inner, o.mirror);
    struct ref ref = build_heap(sewer, piece->target->root, inner, o.mirror);
    struct heap *heap = heap_at(sewer, ref.heap);
    add_name(sewer, heap, piece->target, sewer->cast, o.mirror);
    sewer->cast = around;
    ref.turn = (ref.turn + o.turn) % heap->symmetry;
    return ref;
}

/* Eight ways less the one it lies in. What is written is the likelier slip:
 * with only `mirror` written, mirrors come before turns. A quarter turn of what
 * is not square would not fit its place. */
static void try_orientations(struct slips *slips, const struct piece *piece)
{
    const bool square = rational_equal(slips->sized->width[piece->index],
                                       slips->sized->height[piece->index]);
    const bool mirror_first = piece->mirror_written && !piece->turn_written;
    for (unsigned n = 0; n < 8; n++) {
        const unsigned i = mirror_first ? (n + 4) % 8 : n;
        struct orientation o = piece->orientation;
        o.turn = (o.turn + i) % 4;
        o.mirror = i >= 4 ? !o.mirror : o.mirror;
        if (i == 0 || (i % 2 == 1 && !square))
            continue;
        slips->try_change(slips, (struct change){.kind = CHANGE_ORIENTATION,
                                                 .piece = piece,
                                                 .orientation = o});
    }
}

/* No key and no sewing: it is never a heap. */
const struct craft craft_use = {
    .name = "use", .build = build_use, .slips = try_orientations};
