/* The proof on the cloth itself: what was sewn is what the source draws, face
 * by face, in exact arithmetic. Nothing here mends or warns of the designer's
 * work, but for prints: what fails is a fault of ours, found before a booklet
 * could carry it. Read next: steps.c. */
#include <stdlib.h>

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

/* A face and the corners of the box around it. */
struct boxed {
    const struct face *face;
    struct vertex low, high;
};

/* From the left. */
static int compare_boxes(const void *first, const void *second)
{
    const struct boxed *a = first, *b = second;
    return rational_compare(a->low.x, b->low.x);
}

/* ensures: the boxes of all faces, from the left; `widest` is the width of the
 * widest. */
static struct boxed *boxes_of(struct arena *arena, const struct cloth *cloth,
                              struct rational *widest)
{
    const size_t count = cloth->faces.count;
    struct boxed *boxes = ARENA_ARRAY(arena, struct boxed, count + 1);
    *widest = rational_whole(0);
    for (size_t i = 0; i < count; i++) {
        struct boxed *box = &boxes[i];
        box->face = &cloth->faces.items[i];
        face_box(*box->face, &box->low, &box->high);
        *widest = rational_max(*widest, rational_sub(box->high.x, box->low.x));
    }
    qsort(boxes, count, sizeof *boxes, compare_boxes);
    return boxes;
}

/* The first box that begins at `x` or right of it. */
static size_t first_from(const struct boxed *boxes, size_t count,
                         struct rational x)
{
    size_t low = 0;
    while (low < count) {
        const size_t middle = low + (count - low) / 2;
        if (rational_compare(boxes[middle].low.x, x) < 0)
            low = middle + 1;
        else
            count = middle;
    }
    return low;
}

void report_too_fine(const struct sewer *sewer, const struct element *element)
{
    if (diag_count(sewer->run, DIAG_ERROR) == 0)
        diag_report(sewer->run, DIAG_LIMIT, element->name,
                    "the size of `%s` is too fine to be sewn exactly",
                    element_name(element->kind));
}

/* What a proof found. Nothing is proved of numbers that do not fit. */
enum proof { PROOF_HOLDS, PROOF_FAILS, PROOF_TOO_FINE };

/* Both cover the same rectangle once. They are the same where all that they
 * share, fabric by fabric, is the whole. Derived: faces of one cloth do not
 * overlap, so the shared areas add up to the whole only where each fabric lies
 * on itself. Only boxes that meet are looked at: what lies further left than
 * the widest face is wide, or begins right of a face, shares nothing with it.
 */
static enum proof compare_cloths(struct arena *arena, const struct cloth *a,
                                 const struct cloth *b)
{
    if (!cloth_known(a) || !cloth_known(b))
        return PROOF_TOO_FINE;
    struct rational widest, ignored, shared = rational_whole(0);
    const size_t count = b->faces.count;
    const struct boxed *others = boxes_of(arena, b, &widest);
    const struct boxed *boxes = boxes_of(arena, a, &ignored);
    for (size_t i = 0; i < a->faces.count; i++) {
        const struct boxed *one = &boxes[i];
        const struct rational from = rational_sub(one->low.x, widest);
        if (!rational_known(from))
            return PROOF_TOO_FINE;
        for (size_t k = first_from(others, count, from);
             k < count && rational_compare(others[k].low.x, one->high.x) < 0;
             k++)
            if (one->face->fabric == others[k].face->fabric &&
                rational_compare(others[k].low.y, one->high.y) < 0 &&
                rational_compare(one->low.y, others[k].high.y) < 0)
                shared =
                    rational_add(shared, face_shared_area(arena, *one->face,
                                                          *others[k].face));
    }
    if (!rational_known(shared))
        return PROOF_TOO_FINE;
    return rational_equal(shared, cloth_area(a)) &&
                   rational_equal(shared, cloth_area(b))
               ? PROOF_HOLDS
               : PROOF_FAILS;
}

bool same_cloth(struct arena *arena, const struct cloth *a,
                const struct cloth *b)
{
    return compare_cloths(arena, a, b) == PROOF_HOLDS;
}

/* Every corner of every face on the inner side of every side of the outline. */
static enum proof lies_within(const struct cloth *cloth, struct outline outline)
{
    struct vertex p = outline.points[outline.count - 1];
    for (size_t side = 0; side < outline.count; side++) {
        const struct half_plane outside =
            half_plane_left(p, outline.points[side]);
        p = outline.points[side];
        for (size_t i = 0; i < cloth->faces.count; i++)
            for (size_t k = 0; k < cloth->faces.items[i].count; k++) {
                const struct rational at =
                    half_plane_side(outside, cloth->faces.items[i].points[k]);
                if (!rational_known(at))
                    return PROOF_TOO_FINE;
                if (rational_sign(at) < 0)
                    return PROOF_FAILS;
            }
    }
    return PROOF_HOLDS;
}

static enum proof fills(const struct cloth *cloth, struct outline whole)
{
    const struct face face = {.points = whole.points, .count = whole.count};
    const struct rational area = cloth_area(cloth);
    const struct rational wanted = face_double_area(face);
    if (!rational_known(area) || !rational_known(wanted))
        return PROOF_TOO_FINE;
    return rational_equal(area, wanted) ? lies_within(cloth, whole)
                                        : PROOF_FAILS;
}

/* Equal area inside the outline does not yet mean no overlap and no hole, but
 * verify_design shows those face by face for what has a name. */
void verify_outline(const struct sewer *sewer, const struct heap *heap)
{
    /* A triangle is cut larger; what it becomes part of is proved. */
    if (heap->technique == TECHNIQUE_CUT &&
        heap->of.cut.shape != PATCH_WHOLE)
        return;
    const struct outline whole = outline_grown(
        sewer->scratch, heap->outline, sewer->sized->design->pattern->seam);
    /* Where the edge cuts cornerstones on point, their allowance ends a tenth of
     * an inch short of the corner of the next row: a notch within the seam. */
    const bool notched = heap->technique == TECHNIQUE_ON_POINT &&
                         heap->piece->on_point->sashed;
    const struct cloth *cloth =
        notched ? cloth_within(sewer->scratch, heap->cloth, heap->outline)
                : heap->cloth;
    const enum proof proof = fills(cloth, notched ? heap->outline : whole);
    bool sound = proof != PROOF_FAILS;
    for (size_t i = 0; i < heap->cloth->faces.count; i++)
        sound &= !heap->cloth->faces.items[i].wrong_side;
    if (!sound)
        internal_error("a sewn piece of `%s` does not fill its outline",
                       heap->piece->owner->id);
    if (proof == PROOF_TOO_FINE)
        report_too_fine(sewer, heap->piece->element);
}

/* What the source draws, at the heap's scale and as it lies. A heap of the
 * quilt's own pieces is real already. */
static const struct cloth *drawn(struct arena *arena, const struct sewer *sewer,
                                 const struct heap *heap,
                                 const struct piece *piece, bool across)
{
    struct cloth *cloth = design_faces(arena, sewer->sized, piece, NULL, 0);
    const struct cast *cast = heap->named_cast;
    if (cast != NULL)
        cloth = cloth_cast(arena, cloth, sewer->sized->design, cast->definition,
                           cast->fabrics);
    const struct rational factor =
        rational_div(across ? heap->height : heap->width, cloth->width);
    const struct cloth *scaled = cloth_scaled(arena, cloth, factor);
    return heap->named_mirror
               ? cloth_oriented(arena, scaled, (struct orientation){0, true})
               : scaled;
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
    enum proof proof = PROOF_FAILS;
    for (unsigned turn = 0; turn < 4 && proof == PROOF_FAILS; turn++) {
        const struct cloth *turned =
            drawn(scratch, sewer, heap, piece, turn % 2 == 1);
        if (turn > 0)
            turned = cloth_oriented(scratch, turned,
                                    (struct orientation){turn, false});
        if (!rational_known(turned->width) || !rational_known(turned->height))
            proof = PROOF_TOO_FINE;
        else if (rational_equal(turned->width, sewn->width) &&
                 rational_equal(turned->height, sewn->height))
            proof = compare_cloths(scratch, sewn, turned);
    }
    arena_destroy(scratch);
    if (proof == PROOF_TOO_FINE)
        report_too_fine(sewer, definition->element);
    if (proof == PROOF_FAILS)
        internal_error("the sewn `%s` is not what its source draws",
                       definition->id);
}

/* ---- prints with a direction ---- */

/* Does the face lie in the band of a mitred border? Its print turns with the
 * strips, as it is meant to. From the outside in: what reaches out of the
 * rectangle that a border goes round is of that border. */
static bool runs_round(const struct sewer *sewer, const struct face *face)
{
    const struct sewn_quilt *quilt = sewer->quilt;
    struct rational inset = rational_whole(0);
    struct vertex low, high;
    face_box(*face, &low, &high);
    for (size_t i = quilt->borders.count; i-- > 0;) {
        const struct border *border = quilt->borders.items[i].border;
        inset = rational_add(inset, border->width);
        const bool inside =
            rational_compare(low.x, inset) >= 0 &&
            rational_compare(low.y, inset) >= 0 &&
            rational_compare(high.x, rational_sub(quilt->width, inset)) <= 0 &&
            rational_compare(high.y, rational_sub(quilt->height, inset)) <= 0;
        if (!inside)
            return border->mitred;
    }
    return false;
}

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
            if (face->fabric != (int)f || runs_round(sewer, face))
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
