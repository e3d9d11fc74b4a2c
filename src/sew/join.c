/* Rows, columns and grids. Seams at finished edges: what lies beyond them, the
 * allowance, is hidden behind the neighbor and cut away here. Real cloth keeps
 * it; no figure shows it. Read next: meet.c. */
#include "bench.h"

/* Seams between neighbors side by side stand upright. */
const struct operation join_row = {
    .name = "join-row",
    .laid = LAID_ACROSS,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_LEFT) |
               PRESS_BIT(PRESS_RIGHT) | PRESS_BIT(PRESS_TOWARD_FABRIC)};

/* Seams between neighbors one above the other lie level. */
const struct operation join_column = {
    .name = "join-column",
    .laid = LAID_DOWN,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_UP) |
               PRESS_BIT(PRESS_DOWN) | PRESS_BIT(PRESS_TOWARD_FABRIC)};

/* Places add up finished sizes, seams have none. A mirrored container takes its
 * cells from the right; turns of cells are mirrored by build_cell. */
static struct ref build_join(struct sewer *sewer, const struct piece *piece,
                             struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_JOIN, &craft_row);
    const size_t across = piece->kind == PIECE_GRID  ? piece->across
                          : piece->kind == PIECE_ROW ? piece->cells.count
                                                     : 1;
    recipe.of.join.across = across;
    recipe.of.join.down = piece->cells.count / across;
    recipe.inputs.items =
        ARENA_ARRAY(sewer->run->arena, struct input, piece->cells.count);
    recipe.inputs.capacity = piece->cells.count;
    struct rational y = rational_whole(0);
    for (size_t row = 0; row < recipe.of.join.down; row++) {
        struct rational x = rational_whole(0);
        for (size_t column = 0; column < across; column++) {
            const size_t from = mirror ? across - 1 - column : column;
            const struct cell *cell = &piece->cells.items[row * across + from];
            const struct ref ref = build_cell(sewer, cell, factor, mirror);
            const struct input *input = add_input(sewer, &recipe, ref, x, y);
            x = rational_add(x, input_width(sewer, input));
        }
        y = rational_add(
            y,
            input_height(sewer, &recipe.inputs.items[recipe.inputs.count - 1]));
    }
    return find_or_add(sewer, &recipe);
}

static void key_join(struct sewer *sewer, struct buffer *key,
                     const struct heap *heap, unsigned turn)
{
    const size_t across = heap->of.join.across, down = heap->of.join.down;
    struct input *inputs = turned_inputs(sewer, heap, turn);
    buffer_printf(key, "%zu %zu ", turn % 2 == 1 ? down : across,
                  turn % 2 == 1 ? across : down);
    sort_inputs(inputs, heap->inputs.count);
    key_inputs(sewer, key, inputs, heap->inputs.count);
    if (across > 1)
        key_press(sewer, key, heap, turn, &join_row);
    if (down > 1)
        key_press(sewer, key, heap, turn, &join_column);
}

/* A part's cloth without the allowances that seams inside the heap take. An
 * edge on the heap's own outline keeps its allowance, for the seams of a later
 * heap. */
static struct cloth *joined_part(const struct bench *bench,
                                 const struct input *input,
                                 const struct cloth *cloth)
{
    const struct heap *heap = bench->heap;
    const struct rational one = rational_whole(1), zero = rational_whole(0);
    const struct rational minus = rational_whole(-1);
    const struct rational right =
        rational_add(input->x, input_width(bench->sewer, input));
    const struct rational bottom =
        rational_add(input->y, input_height(bench->sewer, input));
    struct half_plane planes[4];
    size_t count = 0;
    if (rational_sign(input->x) > 0)
        planes[count++] =
            (struct half_plane){minus, zero, rational_times(input->x, -1)};
    if (rational_sign(input->y) > 0)
        planes[count++] =
            (struct half_plane){zero, minus, rational_times(input->y, -1)};
    if (rational_compare(right, heap->width) < 0)
        planes[count++] = (struct half_plane){one, zero, right};
    if (rational_compare(bottom, heap->height) < 0)
        planes[count++] = (struct half_plane){zero, one, bottom};
    return cloth_inside(bench->arena, cloth, planes, count);
}

/* The seam before input `next`: on its left, or above its row. In a grid whose
 * seams nobody spoke of, rows go to and fro; the first goes to the right,
 * unless the plan has it otherwise. */
static void sew_joint(const struct bench *bench, struct action *action,
                      struct cloth *whole, size_t next)
{
    const struct heap *heap = bench->heap;
    const struct input *input = &heap->inputs.items[next];
    const bool across = action->operation == &join_row;
    const struct rational zero = rational_whole(0);
    const int row = (int)(next / heap->of.join.across);
    struct sewn_seam joint = {
        .next = next, .across_x = across ? 1 : 0, .across_y = across ? 0 : 1};
    if (across) {
        joint.seam.from = (struct vertex){input->x, input->y};
        joint.seam.to =
            moved(joint.seam.from, zero, input_height(bench->sewer, input));
        joint.before = next - 1;
        joint.row = row;
    } else {
        joint.seam.from = (struct vertex){zero, input->y};
        joint.seam.to = (struct vertex){heap->width, input->y};
        joint.before = next - heap->of.join.across;
    }
    if (across && heap->of.join.down > 1 && action->press.side == PRESS_RULE)
        joint.seam.x = (row % 2 == 0 ? 1 : -1) *
                       first_row_way(bench->sewer, heap, &join_row);
    cloth_add_seam(bench->arena, whole, sew_seam(bench, action, joint));
}

/* The parts of a join, as inputs lie: each by itself, and without the
 * allowances that its seams take. */
struct parts {
    const struct cloth **laid, **joined;
};

/* Parts lie a gap apart before; after, rows are whole but still apart. */
static void join_across(const struct bench *bench, struct cloth *whole,
                        const struct parts *parts)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, &join_row);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const int column = (int)(i % heap->of.join.across),
                  row = (int)(i / heap->of.join.across);
        add_part(bench, action, i);
        show(bench, &action->before, parts->laid[i], (int)i, column, row);
        show(bench, &action->after, parts->joined[i], WHOLE, 0, row);
        if (column > 0)
            sew_joint(bench, action, whole, i);
    }
}

/* A column shows its parts; a grid its rows, which join_across has made. */
static void join_down(const struct bench *bench, struct cloth *whole,
                      const struct parts *parts)
{
    struct heap *heap = bench->heap;
    const size_t across = heap->of.join.across;
    struct action *action = add_action(bench, &join_column);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t row = i / across;
        if (across == 1)
            add_part(bench, action, i);
        show(bench, &action->before,
             across == 1 ? parts->laid[i] : parts->joined[i],
             across == 1 ? (int)i : WHOLE, 0, (int)row);
        show(bench, &action->after, parts->joined[i], WHOLE, 0, 0);
        if (row > 0 && i % across == 0)
            sew_joint(bench, action, whole, i);
    }
}

/* Across, then down: a grid is two actions, its rows first. */
static void sew_join(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const size_t count = heap->inputs.count;
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    const struct parts parts = {
        ARENA_ARRAY(bench->arena, const struct cloth *, count),
        ARENA_ARRAY(bench->arena, const struct cloth *, count)};
    for (size_t i = 0; i < count; i++) {
        const struct input *input = &heap->inputs.items[i];
        parts.laid[i] = placed(bench, input);
        parts.joined[i] = joined_part(bench, input, parts.laid[i]);
        cloth_add_all(bench->arena, whole, parts.joined[i]);
    }
    if (heap->of.join.across > 1)
        join_across(bench, whole, &parts);
    if (heap->of.join.down > 1)
        join_down(bench, whole, &parts);
    heap->cloth = whole;
    if (!bench->sewer->counting)
        check_joints(bench->sewer, heap, parts.joined);
}

static unsigned join_presses(const struct piece *piece)
{
    const bool grid = piece->kind == PIECE_GRID;
    const bool across = grid ? piece->across > 1 : piece->kind == PIECE_ROW;
    const bool down = grid ? piece->down > 1 : piece->kind == PIECE_COLUMN;
    return (across ? join_row.presses : 0) | (down ? join_column.presses : 0);
}

/* One craft for the three; all their heaps are of the first row. */
#define JOIN_CRAFT                                                             \
    {                                                                          \
        .name = "join", .build = build_join, .key = key_join, .sew = sew_join, \
        .presses = join_presses                                                \
    }
const struct craft craft_row = JOIN_CRAFT, craft_column = JOIN_CRAFT,
                   craft_grid = JOIN_CRAFT;
