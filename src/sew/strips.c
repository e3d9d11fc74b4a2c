/* Strips joined end to end by diagonal seams. Derived: the overlap of two
 * strips at a right angle is a square of their width, so every join shortens
 * the whole by one width. Read next: half_square.c. */
#include "bench.h"

/* Lay the next strip at a right angle, right sides together, sew across the
 * overlap from corner to corner, trim, press. */
static void join_strip(const struct bench *bench, struct cloth **cloth,
                       size_t next)
{
    struct heap *heap = bench->heap;
    const bool across = heap->piece->horizontal;
    const struct input *input = &heap->inputs.items[next];
    const struct rational width = across ? heap->height : heap->width;
    struct action *action = add_action(bench, ACTION_JOIN_DIAGONAL);
    action->line = heap->line;
    choose_press(bench->sewer, heap, action);
    struct vertex p, q;
    square_diagonal(bench, input->x, input->y, width, heap->line, &p, &q);
    const struct half_plane above = half_plane_left(p, q);
    /* What was sewn so far lies above the line, or, in a strip that runs
     * across and whose line falls, below it. */
    const bool so_far_above = !across || heap->line == LINE_RISING;
    const struct half_plane keep =
        so_far_above ? above : half_plane_other(above);
    struct cloth *strip = placed(bench, input);
    struct cloth *laid = cloth_flipped(bench->arena, strip, p, q);
    add_part(bench, action, next - 1);
    add_part(bench, action, next);
    show(bench, &action->before, *cloth, next == 1 ? 0 : WHOLE, 0, 0);
    show(bench, &action->before, laid, (int)next, 0, 0);
    const int waste_y = so_far_above ? 1 : -1;
    const int waste_x = heap->line == LINE_RISING ? waste_y : -waste_y;
    mark_seam(bench, &action->before, p, q, waste_x, waste_y);
    struct cloth *joined = cloth_clipped(bench->arena, *cloth, keep);
    cloth_add_all(bench->arena, joined,
                  cloth_clipped(bench->arena, strip, half_plane_other(keep)));
    *cloth = joined;
    show(bench, &action->after, joined, WHOLE, 0, 0);
    mark_turn(bench, &action->before, p, q, width, waste_x, waste_y);
    press_diagonal(bench->sewer, heap, action, middle(p, q), waste_x, waste_y,
                   next);
    add_diagonal_seam(bench, joined, action, input->x, input->y, width,
                      heap->line);
}

/* From the first strip on, one action a join. */
void sew_strips(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count; next++)
        join_strip(bench, &cloth, next);
    bench->heap->cloth = cloth;
}
