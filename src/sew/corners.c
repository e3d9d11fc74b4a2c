/* Squares sewn across corners and flipped. A square on a corner, sewn across
 * and flipped: no triangle is cut, so no bias edge is handled (common
 * practice). Squares that do not overlap are sewn at one go. Read next:
 * diagonal.c. */
#include "bench.h"

/* A flap can only fold outwards, over its seam, or be opened. */
const struct operation corner_flip = {.name = "flip-corner",
                                      .laid = LAID_TOGETHER,
                                      .presses = PRESS_BIT(PRESS_OPEN) |
                                                 PRESS_BIT(PRESS_TOWARD_CORNER),
                                      .draws_line = true,
                                      .at_corner = true};
static const struct operation corner_cut = {
    .name = "cut-corner",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_CORNER),
    .draws_line = true,
    .at_corner = true};

/* ---- building ---- */

struct input *add_corner(struct sewer *sewer, struct heap *recipe, int fabric,
                         struct rational size, enum corner_place at)
{
    const bool right = at == TOP_RIGHT || at == BOTTOM_RIGHT;
    const bool bottom = at == BOTTOM_LEFT || at == BOTTOM_RIGHT;
    const struct rational zero = rational_whole(0);
    const struct ref square = build_cut(sewer, *recipe, fabric, size, size);
    struct input *input = add_input(
        sewer, recipe, square, right ? rational_sub(recipe->width, size) : zero,
        bottom ? rational_sub(recipe->height, size) : zero);
    input->at = at;
    input->method = recipe->piece->corner_method;
    return input;
}

/* Squares on the corners of what is there already. In the order of the source,
 * which matters where they overlap. */
struct ref build_corners(struct sewer *sewer, const struct piece *piece,
                         struct rational factor, bool mirror, struct ref base)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_CORNERS, &craft_corners);
    add_input(sewer, &recipe, base, rational_whole(0), rational_whole(0));
    for (size_t i = 0; i < piece->corners.count; i++) {
        const struct corner *corner = &piece->corners.items[i];
        add_corner(sewer, &recipe, cast_fabric(sewer, corner->fabric),
                   rational_mul(corner->size, factor),
                   corner_oriented(corner->at, (struct orientation){0, mirror}))
            ->method = corner->method;
    }
    return find_or_add(sewer, &recipe);
}

/* Does the square of `a` reach over that of `b` in one direction? */
static bool reaches(struct rational a, struct rational size_a,
                    struct rational b, struct rational margin)
{
    return rational_compare(b, rational_add(rational_add(a, size_a), margin)) <
           0;
}

/* Do two squares overlap, each with half of `margin` around it? */
static bool squares_overlap(const struct sewer *sewer, const struct input *a,
                            const struct input *b, struct rational margin)
{
    const struct rational size_a = input_width(sewer, a);
    const struct rational size_b = input_width(sewer, b);
    return reaches(a->x, size_a, b->x, margin) &&
           reaches(b->x, size_b, a->x, margin) &&
           reaches(a->y, size_a, b->y, margin) &&
           reaches(b->y, size_b, a->y, margin);
}

/* Corners whose squares do not overlap make the same whatever their order. Of
 * two that overlap, the later one lies on top. Finished squares are compared:
 * allowances that overlap are sewn away. */
static bool order_matters(const struct sewer *sewer, const struct heap *heap)
{
    const struct input *inputs = heap->inputs.items;
    for (size_t i = 1; i < heap->inputs.count; i++)
        for (size_t k = 1; k < i; k++)
            if (squares_overlap(sewer, &inputs[i], &inputs[k],
                                rational_whole(0)))
                return true;
    return false;
}

/* The base stays first: it is what they are sewn on. */
static void key_corners(struct sewer *sewer, struct buffer *key,
                        const struct heap *heap, unsigned turn)
{
    struct input *inputs = turned_inputs(sewer, heap, turn);
    if (!order_matters(sewer, heap))
        sort_inputs(inputs + 1, heap->inputs.count - 1);
    key_inputs(sewer, key, inputs, heap->inputs.count);
    for (size_t i = 1; i < heap->inputs.count; i++)
        buffer_printf(key, "%s %d ", corner_name(inputs[i].at),
                      (int)inputs[i].method);
    key_press(sewer, key, heap, turn, &corner_flip);
}

/* ---- sewing ---- */

struct flap {
    const struct input *input;
    struct vertex p, q; /* the drawn line, corner to corner of the square */
    struct half_plane inside; /* of the seam, away from the corner */
    int waste_x, waste_y;     /* towards the corner */
};

/* The line runs over the allowances, corner to corner of the cut square, as it
 * is drawn by hand; the seam itself lies on the part within the finished piece.
 */
static struct flap corner_flap(const struct bench *bench,
                               const struct input *input)
{
    struct flap flap = {.input = input};
    const struct rational size = input_width(bench->sewer, input);
    square_diagonal(bench, input->x, input->y, size, corner_line(input->at),
                    &flap.p, &flap.q);
    flap.waste_x = input->at == TOP_RIGHT || input->at == BOTTOM_RIGHT ? 1 : -1;
    flap.waste_y =
        input->at == BOTTOM_LEFT || input->at == BOTTOM_RIGHT ? 1 : -1;
    /* p is the left end, so the left hand is above the line. */
    const struct half_plane above = half_plane_left(flap.p, flap.q);
    flap.inside = flap.waste_y < 0 ? half_plane_other(above) : above;
    return flap;
}

/* The square as it is laid: right sides together, so its wrong side shows. Only
 * the flag: lying face down does not move a plain square. Its diagonal is drawn
 * and told as it lies, on the wrong side. */
static struct cloth *laid_square(const struct bench *bench,
                                 const struct flap *flap)
{
    struct cloth *square = placed(bench, flap->input);
    for (size_t i = 0; i < square->faces.count; i++)
        square->faces.items[i].wrong_side = true;
    return square;
}

/* Sew on the line, trim both layers, press the inner half over the seam. The
 * half towards the corner is trimmed off with what lay below it; the other
 * half, turned over the seam, covers just that corner. */
static struct cloth *flip_corner(const struct bench *bench,
                                 const struct cloth *base,
                                 const struct flap *flap)
{
    struct cloth *result = cloth_clipped(bench->arena, base, flap->inside);
    struct cloth *inner =
        cloth_clipped(bench->arena, laid_square(bench, flap), flap->inside);
    cloth_add_all(bench->arena, result,
                  cloth_flipped(bench->arena, inner, flap->p, flap->q));
    return result;
}

/* What is left of cloth when the corner is cut off first, a seam's width beyond
 * the diagonal. For looking at only, so the root of 2 may be rounded. */
static struct cloth *cut_off(const struct bench *bench,
                             const struct cloth *cloth, const struct flap *flap)
{
    const struct rational zero = rational_whole(0);
    const struct rational along =
        rational_times(diagonal_offset(bench), flap->waste_x);
    const struct half_plane cut = half_plane_left(moved(flap->p, along, zero),
                                                  moved(flap->q, along, zero));
    return cloth_clipped(bench->arena, cloth,
                         flap->waste_y < 0 ? half_plane_other(cut) : cut);
}

/* Both layers cut, the seam beside the cut edge; no line is drawn. */
static void show_cut(const struct bench *bench, struct state *state,
                     const struct flap *flap, size_t number)
{
    show(bench, state, cut_off(bench, laid_square(bench, flap), flap),
         (int)number, 0, 0);
    mark_line(bench, state, MARK_SEWN, flap->p, flap->q);
    mark_beside(bench, state, MARK_CUT, flap->p, flap->q, flap->waste_x,
                flap->waste_y);
    mark_turn(bench, state, flap->p, flap->q,
              input_width(bench->sewer, flap->input), flap->waste_x,
              flap->waste_y);
}

/* Below the squares of a cut way lies the base, its corners cut off as well. */
static void show_cut_base(const struct bench *bench, struct state *state,
                          const struct cloth *cloth, size_t first, size_t last)
{
    struct cloth *base =
        cloth_moved(bench->arena, cloth, rational_whole(0), rational_whole(0));
    for (size_t i = first; i < last; i++) {
        const struct flap flap =
            corner_flap(bench, &bench->heap->inputs.items[i]);
        base = cut_off(bench, base, &flap);
    }
    show(bench, state, base, first == 1 ? 0 : WHOLE, 0, 0);
    for (size_t i = first; i < last; i++) {
        const struct flap flap =
            corner_flap(bench, &bench->heap->inputs.items[i]);
        show_cut(bench, state, &flap, i);
    }
}

/* Lays one square and marks it, then sews and flips it. */
static void sew_corner(const struct bench *bench, struct action *action,
                       struct cloth **cloth, size_t number)
{
    const struct input *input = &bench->heap->inputs.items[number];
    const struct flap flap = corner_flap(bench, input);
    const struct rational size = input_width(bench->sewer, input);
    add_part(bench, action, number);
    if (input->method != CORNER_CUT_FIRST) {
        show(bench, &action->before, laid_square(bench, &flap), (int)number, 0,
             0);
        mark_seam(bench, &action->before, flap.p, flap.q, flap.waste_x,
                  flap.waste_y);
        mark_turn(bench, &action->before, flap.p, flap.q, size, flap.waste_x,
                  flap.waste_y);
    }
    *cloth = flip_corner(bench, *cloth, &flap);
    struct sewn_seam seam =
        diagonal_seam(input->x, input->y, size, corner_line(input->at));
    seam.next = number;
    seam.across_x = flap.waste_x;
    seam.across_y = flap.waste_y;
    cloth_add_seam(bench->arena, *cloth, sew_seam(bench, action, seam));
}

void sew_corner_batch(const struct bench *bench, struct cloth **cloth,
                      size_t first, size_t last)
{
    const enum corner_method method = bench->heap->inputs.items[first].method;
    struct action *action = add_action(
        bench, method == CORNER_CUT_FIRST ? &corner_cut : &corner_flip);
    add_part(bench, action, 0);
    action->at = bench->heap->inputs.items[first].at;
    action->line = corner_line(action->at);
    /* What has a corner already is no longer the piece that was cut. */
    if (method != CORNER_CUT_FIRST)
        show(bench, &action->before, *cloth, first == 1 ? 0 : WHOLE, 0, 0);
    if (method != CORNER_DRAWN)
        show_cut_base(bench,
                      method == CORNER_BOTH ? &action->other : &action->before,
                      *cloth, first, last);
    for (size_t i = first; i < last; i++)
        sew_corner(bench, action, cloth, i);
    show(bench, &action->after, *cloth, WHOLE, 0, 0);
}

/* Do their squares, as hands lay them, lie in each other's way? Cut squares on
 * opposite corners may meet with their tips, which lie on the inner side of
 * both seams. */
static bool in_the_way(const struct bench *bench, const struct input *a,
                       const struct input *b)
{
    const bool opposite = ((unsigned)a->at + 2) % 4 == (unsigned)b->at;
    return squares_overlap(bench->sewer, a, b,
                           opposite ? rational_whole(0)
                                    : rational_times(bench->seam, 2));
}

/* The corners from `first` on that are sewn one way and at one go; others are
 * sewn one after the other. ensures: the first corner that is left for the next
 * action. */
static size_t batch_end(const struct bench *bench, size_t first)
{
    const struct heap *heap = bench->heap;
    size_t last = first;
    for (; last < heap->inputs.count; last++)
        for (size_t k = first; k < last; k++)
            if (heap->inputs.items[last].method !=
                    heap->inputs.items[k].method ||
                in_the_way(bench, &heap->inputs.items[last],
                           &heap->inputs.items[k]))
                return last;
    return last;
}

/* `cloth` is the base as it looks after each action. */
static void sew_corners(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count;) {
        const size_t last = batch_end(bench, next);
        sew_corner_batch(bench, &cloth, next, last);
        next = last;
    }
    bench->heap->cloth = cloth;
}

/* ---- slips ---- */

static void try_corners(struct slips *slips, const struct piece *piece)
{
    for (size_t i = 0; i < piece->corners.count; i++) {
        for (unsigned at = 0; at < 4; at++)
            if (at != (unsigned)piece->corners.items[i].at)
                slips->try_change(slips,
                                  (struct change){.kind = CHANGE_CORNER_PLACE,
                                                  .piece = piece,
                                                  .at = (enum corner_place)at,
                                                  .first = i});
        for (size_t f = 0; f < fabric_numbers(slips->sized->design); f++)
            /* A fabric that is not there was reported as that. */
            if (piece->corners.items[i].fabric != NO_FABRIC &&
                may_name_fabric(slips->sized->design, piece->owner, (int)f) &&
                (int)f != piece->corners.items[i].fabric)
                slips->try_change(slips,
                                  (struct change){.kind = CHANGE_CORNER_FABRIC,
                                                  .piece = piece,
                                                  .fabric = (int)f,
                                                  .first = i});
    }
}

static unsigned corner_presses(const struct piece *piece)
{
    return piece->corners.count > 0 ? corner_flip.presses : 0;
}

const struct craft craft_corners = {.name = "corners",
                                    .key = key_corners,
                                    .sew = sew_corners,
                                    .slips = try_corners,
                                    .presses = corner_presses};
