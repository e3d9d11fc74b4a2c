/* Strips joined end to end by diagonal seams. Derived: the overlap of two
 * strips at a right angle is a square of their width, so every join shortens
 * the whole by one width. Read next: half_square.c. */
#include "bench.h"

static const struct operation join_diagonal = {
    .name = "join-diagonal",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC),
    .draws_line = true};

/* Neighbors overlap by the strip's width, so each starts that much before the
 * end of the last. A strip that runs down keeps its order in a mirror. */
static struct ref build_diagonal(struct sewer *sewer, const struct piece *piece,
                                 struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_DIAGONAL, &craft_diagonal);
    recipe.of.diagonal.line =
        line_oriented(piece->line, (struct orientation){0, mirror});
    const bool across = piece->horizontal;
    const struct rational strip = across ? recipe.height : recipe.width;
    const bool reversed = across && mirror;
    struct rational at = rational_whole(0);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const size_t from = reversed ? piece->cells.count - 1 - i : i;
        const struct ref ref =
            build_cell(sewer, &piece->cells.items[from], factor, mirror);
        const struct input *input =
            add_input(sewer, &recipe, ref, across ? at : rational_whole(0),
                      across ? rational_whole(0) : at);
        at = rational_sub(rational_add(at, across ? input_width(sewer, input)
                                                  : input_height(sewer, input)),
                          strip);
    }
    return find_or_add(sewer, &recipe);
}

/* Members in the order of reading after the turn. Their places do not tell it:
 * squares at both ends of a short strip lie at the same one. A clockwise turn
 * puts the first member of a strip down to the right, so that it is read last.
 */
static void sort_strip(struct input *inputs, const struct heap *heap,
                       unsigned turn)
{
    const bool reversed =
        turn == 2 || turn == (heap->piece->horizontal ? 3 : 1);
    for (size_t i = 0, k = heap->inputs.count; reversed && i + 1 < k; i++) {
        const struct input swap = inputs[i];
        inputs[i] = inputs[--k];
        inputs[k] = swap;
    }
}

static void key_diagonal(struct sewer *sewer, struct buffer *key,
                         const struct heap *heap, unsigned turn)
{
    struct input *inputs = turned_inputs(sewer, heap, turn);
    buffer_printf(key, "%d %s ", heap->piece->horizontal != (turn % 2 == 1),
                  line_name(line_oriented(heap->of.diagonal.line,
                                          (struct orientation){turn, false})));
    sort_strip(inputs, heap, turn);
    key_inputs(sewer, key, inputs, heap->inputs.count);
    key_press(sewer, key, heap, turn, &join_diagonal);
}

/* Lay the next strip at a right angle, right sides together, sew across the
 * overlap from corner to corner, trim, press. */
static void join_strip(const struct bench *bench, struct cloth **cloth,
                       size_t next)
{
    struct heap *heap = bench->heap;
    const bool across = heap->piece->horizontal;
    const struct input *input = &heap->inputs.items[next];
    const struct rational width = across ? heap->height : heap->width;
    struct action *action = add_action(bench, &join_diagonal);
    const enum line_direction line = heap->of.diagonal.line;
    action->line = line;
    struct vertex p, q;
    square_diagonal(bench, input->x, input->y, width, line, &p, &q);
    const struct half_plane above = half_plane_left(p, q);
    /* What was sewn so far lies above the line, or, in a strip that runs
     * across and whose line falls, below it. */
    const bool so_far_above = !across || line == LINE_RISING;
    const struct half_plane keep =
        so_far_above ? above : half_plane_other(above);
    struct cloth *strip = placed(bench, input);
    struct cloth *laid = cloth_flipped(bench->arena, strip, p, q);
    add_part(bench, action, next - 1);
    add_part(bench, action, next);
    show(bench, &action->before, *cloth, next == 1 ? 0 : WHOLE, 0, 0);
    show(bench, &action->before, laid, (int)next, 0, 0);
    const int waste_y = so_far_above ? 1 : -1;
    const int waste_x = line == LINE_RISING ? waste_y : -waste_y;
    mark_seam(bench, &action->before, p, q, waste_x, waste_y);
    struct cloth *joined = cloth_clipped(bench->arena, *cloth, keep);
    cloth_add_all(bench->arena, joined,
                  cloth_clipped(bench->arena, strip, half_plane_other(keep)));
    *cloth = joined;
    show(bench, &action->after, joined, WHOLE, 0, 0);
    mark_turn(bench, &action->before, p, q, width, waste_x, waste_y);
    struct sewn_seam seam = diagonal_seam(input->x, input->y, width, line);
    seam.before = next - 1;
    seam.next = next;
    seam.across_x = waste_x;
    seam.across_y = waste_y;
    cloth_add_seam(bench->arena, joined, sew_seam(bench, action, seam));
    name_pressed_cloth(bench, action);
}

/* From the first strip on, one action a join. */
static void sew_strips(const struct bench *bench)
{
    struct cloth *cloth = placed(bench, &bench->heap->inputs.items[0]);
    for (size_t next = 1; next < bench->heap->inputs.count; next++)
        join_strip(bench, &cloth, next);
    bench->heap->cloth = cloth;
}

static void try_line(struct slips *slips, const struct piece *piece)
{
    slips->try_change(slips,
                      (struct change){.kind = CHANGE_LINE, .piece = piece});
}

static unsigned diagonal_presses(const struct piece *piece)
{
    (void)piece;
    return join_diagonal.presses;
}

const struct craft craft_diagonal = {.name = "diagonal",
                                     .build = build_diagonal,
                                     .key = key_diagonal,
                                     .sew = sew_strips,
                                     .slips = try_line,
                                     .presses = diagonal_presses};
