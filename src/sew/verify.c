/* The proof on the cloth itself: what was sewn is what the source draws, face
 * by face, in exact arithmetic. Nothing here mends or warns of the designer's
 * work, but for prints: what fails is a fault of ours, found before a booklet
 * could carry it. Read next: steps.c. */
#include "design_faces.h"
#include "picture.h"
#include "sewer.h"

/* Doubled, as face_double_area gives it. */
static struct rational cloth_area(const struct cloth *cloth)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < cloth->faces.count; i++)
        area = rational_add(area, face_double_area(cloth->faces.items[i]));
    return area;
}

/* Both cover the same rectangle once. They are the same where all that they
 * share, fabric by fabric, is the whole. Derived: faces of one cloth do not
 * overlap, so the shared areas add up to the whole only where each fabric lies
 * on itself. */
bool same_cloth(struct arena *arena, const struct cloth *a,
                const struct cloth *b)
{
    struct rational shared = rational_whole(0);
    for (size_t i = 0; i < a->faces.count; i++) {
        for (size_t k = 0; k < b->faces.count; k++) {
            const struct face one = a->faces.items[i];
            const struct face other = b->faces.items[k];
            if (one.fabric == other.fabric)
                shared =
                    rational_add(shared, face_shared_area(arena, one, other));
        }
    }
    return rational_equal(shared, cloth_area(a)) &&
           rational_equal(shared, cloth_area(b));
}

/* Every corner of every face on the inner side of every side of the outline. */
static bool lies_within(const struct cloth *cloth, struct outline outline)
{
    struct vertex p = outline.points[outline.count - 1];
    for (size_t side = 0; side < outline.count; side++) {
        const struct half_plane outside =
            half_plane_left(p, outline.points[side]);
        p = outline.points[side];
        for (size_t i = 0; i < cloth->faces.count; i++)
            for (size_t k = 0; k < cloth->faces.items[i].count; k++)
                if (rational_sign(half_plane_side(
                        outside, cloth->faces.items[i].points[k])) < 0)
                    return false;
    }
    return true;
}

/* Equal area inside the outline does not yet mean no overlap and no hole, but
 * verify_design shows those face by face for what has a name. */
void verify_outline(const struct sewer *sewer, const struct heap *heap)
{
    const struct outline whole = outline_grown(
        sewer->run->arena, heap->outline, sewer->sized->design->pattern->seam);
    const struct face face = {.points = whole.points, .count = whole.count};
    bool sound =
        rational_equal(cloth_area(heap->cloth), face_double_area(face)) &&
        lies_within(heap->cloth, whole);
    for (size_t i = 0; i < heap->cloth->faces.count; i++)
        sound &= !heap->cloth->faces.items[i].wrong_side;
    if (!sound)
        internal_error("a sewn piece of `%s` does not fill its outline",
                       heap->piece->owner->id);
}

/* What the source draws, at the heap's scale and as it lies. A heap of the
 * quilt's own pieces is real already. */
static struct cloth *drawn(struct arena *arena, const struct sewer *sewer,
                           const struct heap *heap, const struct piece *piece,
                           bool across)
{
    const struct cloth *cloth =
        design_faces(arena, sewer->sized, piece, NULL, 0);
    const struct rational factor =
        rational_div(across ? heap->height : heap->width, cloth->width);
    return cloth_oriented(arena, cloth_scaled(arena, cloth, factor),
                          (struct orientation){0, heap->named_mirror});
}

/* Everything is made in scratch memory: the proof of a large block takes far
 * more than the block. */
void verify_design(const struct sewer *sewer, const struct heap *heap)
{
    /* Larger ones are joined from parts that were verified. Pairs of faces are
     * compared, so time grows with the square. */
    enum { MANY_FACES = 1500 };
    const struct definition *definition =
        heap->named != NULL ? heap->named : sewer->quilt->definition;
    if (definition == NULL || heap->cloth->faces.count > MANY_FACES)
        return;
    const struct piece *piece =
        heap->technique == TECHNIQUE_BORDER ? heap->piece : definition->root;
    struct arena *scratch = arena_create();
    /* The design has no allowances, so those of the cloth are cut away. */
    const struct cloth *sewn =
        cloth_within(scratch, heap->cloth, heap->outline);
    /* A heap may lie turned against the source that named it. */
    bool same = false;
    for (unsigned turn = 0; turn < 4 && !same; turn++) {
        const struct cloth *turned = cloth_oriented(
            scratch, drawn(scratch, sewer, heap, piece, turn % 2 == 1),
            (struct orientation){turn, false});
        same = rational_equal(turned->width, sewn->width) &&
               rational_equal(turned->height, sewn->height) &&
               same_cloth(scratch, sewn, turned);
    }
    arena_destroy(scratch);
    if (!same)
        internal_error("the sewn `%s` is not what its source draws",
                       definition->id);
}

/* ---- prints with a direction ---- */

/* Places count, not lengths: each is one piece of cloth as it lies in the top.
 * reports: one message a fabric. */
void check_prints(struct sewer *sewer)
{
    struct run *run = sewer->run;
    const struct design *design = sewer->sized->design;
    for (size_t f = 0; f < design->fabrics.count; f++) {
        size_t places[4] = {0}, slanted = 0;
        if (!design->fabrics.items[f].one_way)
            continue;
        for (size_t i = 0; i < sewer->quilt->cloth->faces.count; i++) {
            const struct face *face = &sewer->quilt->cloth->faces.items[i];
            if (face->fabric != (int)f)
                continue;
            if (face->slanted)
                slanted++;
            else
                places[face->turn]++;
        }
        const size_t sideways = places[1] + places[3];
        const size_t off = sideways + places[2] + slanted;
        if (off == 0)
            continue;
        struct diagnostic *d = diag_report(
            run, DIAG_ONE_WAY_PRINT,
            value_span(design->fabrics.items[f].element, ATTR_PRINT),
            "in `%s`, %zu of %zu places of `%s` do not lie upright",
            sewer->quilt->definition->id, off, places[0] + off,
            design->fabrics.items[f].id);
        diag_note(run, d, (struct span){0, 0},
                  "%zu lie sideways, %zu upside down%s", sideways, places[2],
                  slanted == 0 ? ""
                               : arena_printf(run->arena, ", %zu at 45 degrees",
                                              slanted));
        diag_help(
            run, d, "%s",
            slanted > 0
                ? "method=\"two\" keeps the print straight in a half-square"
                : "cut those for the way they lie, or take a print "
                  "without a direction");
    }
}
