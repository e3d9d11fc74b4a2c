/* Squares sewn across corners and flipped. A square on a corner, sewn across
 * and flipped: no triangle is cut, so no bias edge is handled (common
 * practice). Squares that do not overlap are sewn at one go. Read next:
 * strips.c. */
#include "bench.h"

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

/* Do two squares overlap, seam allowances included? Then they are sewn one
 * after the other. Whole cut squares, as hands lay them; heaps.c asks about
 * finished ones, which decide what is seen. */
static bool squares_overlap(const struct bench *bench, const struct input *a,
                            const struct input *b)
{
    const struct rational seams = rational_times(bench->seam, 2);
    const struct rational size_a = input_width(bench->sewer, a);
    const struct rational size_b = input_width(bench->sewer, b);
    return rational_compare(
               a->x, rational_add(rational_add(b->x, size_b), seams)) < 0 &&
           rational_compare(
               b->x, rational_add(rational_add(a->x, size_a), seams)) < 0 &&
           rational_compare(
               a->y, rational_add(rational_add(b->y, size_b), seams)) < 0 &&
           rational_compare(
               b->y, rational_add(rational_add(a->y, size_a), seams)) < 0;
}

/* A mark points from the seam into the corner. */
static void press_corner(const struct bench *bench, struct action *action,
                         const struct flap *flap)
{
    const bool open = action->press.side == PRESS_OPEN;
    *LIST_ADD(bench->arena, &action->after.presses) =
        (struct press_mark){.at = middle(flap->p, flap->q),
                            .x = open ? 0 : flap->waste_x,
                            .y = open ? 0 : flap->waste_y,
                            .across_x = flap->waste_x,
                            .across_y = flap->waste_y};
}

/* One action: the corners from `first` on that do not overlap each other.
 * ensures: the first corner that is left for the next action. */
static size_t sew_corner_batch(const struct bench *bench, struct cloth **cloth,
                               size_t first)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_FLIP_CORNER);
    choose_press(bench->sewer, heap, action);
    add_part(bench, action, 0);
    action->at = heap->inputs.items[first].at;
    action->line = corner_line(action->at);
    /* What has a corner already is no longer the piece that was cut. */
    show(bench, &action->before, *cloth, first == 1 ? 0 : WHOLE, 0, 0);
    size_t last = first;
    for (; last < heap->inputs.count; last++) {
        const struct input *input = &heap->inputs.items[last];
        for (size_t k = first; k < last; k++)
            if (squares_overlap(bench, input, &heap->inputs.items[k]))
                goto laid;
        const struct flap flap = corner_flap(bench, input);
        add_part(bench, action, last);
        show(bench, &action->before, laid_square(bench, &flap), (int)last, 0,
             0);
        mark_seam(bench, &action->before, flap.p, flap.q, flap.waste_x,
                  flap.waste_y);
        const struct rational size = input_width(bench->sewer, input);
        mark_turn(bench, &action->before, flap.p, flap.q, size, flap.waste_x,
                  flap.waste_y);
        *cloth = flip_corner(bench, *cloth, &flap);
        press_corner(bench, action, &flap);
        add_diagonal_seam(bench, *cloth, action, input->x, input->y, size,
                          corner_line(input->at));
    }
laid:
    show(bench, &action->after, *cloth, WHOLE, 0, 0);
    return last;
}

/* `cloth` is the base as it looks after each action. */
void sew_corners(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count;)
        next = sew_corner_batch(bench, &cloth, next);
    bench->heap->cloth = cloth;
}
