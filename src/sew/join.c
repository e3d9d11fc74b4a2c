/* Rows, columns and grids. Seams at finished edges: what lies beyond them, the
 * allowance, is hidden behind the neighbor and cut away here. Real cloth keeps
 * it; no figure shows it. Read next: meet.c. */
#include "bench.h"

/* A part's cloth without the allowances that seams inside the heap take. An
 * edge on the heap's own outline keeps its allowance, for the seams of a later
 * heap. */
static struct cloth *joined_part(const struct bench *bench,
                                 const struct input *input)
{
    const struct heap *heap = bench->heap;
    const struct rational one = rational_whole(1), zero = rational_whole(0);
    const struct rational minus = rational_whole(-1);
    const struct rational right =
        rational_add(input->x, input_width(bench->sewer, input));
    const struct rational bottom =
        rational_add(input->y, input_height(bench->sewer, input));
    struct cloth *cloth = placed(bench, input);
    if (rational_sign(input->x) > 0)
        cloth = cloth_clipped(
            bench->arena, cloth,
            (struct half_plane){minus, zero, rational_times(input->x, -1)});
    if (rational_sign(input->y) > 0)
        cloth = cloth_clipped(
            bench->arena, cloth,
            (struct half_plane){zero, minus, rational_times(input->y, -1)});
    if (rational_compare(right, heap->width) < 0)
        cloth = cloth_clipped(bench->arena, cloth,
                              (struct half_plane){one, zero, right});
    if (rational_compare(bottom, heap->height) < 0)
        cloth = cloth_clipped(bench->arena, cloth,
                              (struct half_plane){zero, one, bottom});
    return cloth;
}

/* Parts lie a gap apart before; after, rows are whole but still apart. */
static void join_across(const struct bench *bench,
                        const struct cloth *const *joined)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_JOIN_ROW);
    choose_press(bench->sewer, heap, action);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const int column = (int)(i % heap->across),
                  row = (int)(i / heap->across);
        add_part(bench, action, i);
        show(bench, &action->before, placed(bench, &heap->inputs.items[i]),
             (int)i, column, row);
        show(bench, &action->after, joined[i], WHOLE, 0, row);
        if (column > 0)
            press_join(bench->sewer, heap, action, i, false);
    }
}

/* A column shows its parts; a grid its rows, which join_across has made. */
static void join_down(const struct bench *bench,
                      const struct cloth *const *joined)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, ACTION_JOIN_COLUMN);
    choose_press(bench->sewer, heap, action);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t row = i / heap->across;
        const int part = heap->across == 1 ? (int)i : WHOLE;
        if (heap->across == 1)
            add_part(bench, action, i);
        show(bench, &action->before,
             heap->across == 1 ? placed(bench, &heap->inputs.items[i])
                               : joined[i],
             part, 0, (int)row);
        show(bench, &action->after, joined[i], WHOLE, 0, 0);
        if (row > 0 && i % heap->across == 0)
            press_join(bench->sewer, heap, action, i, true);
    }
}

/* The seams of the joints themselves, pressed as the marks say. A mark lies on
 * its seam: one before each part of a row, one above each row. Half a part's
 * side to each end of the mark makes the whole seam. */
static void add_joint_seams(const struct bench *bench, struct cloth *cloth)
{
    const struct heap *heap = bench->heap;
    const struct rational half = rational_make(1, 2);
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        const bool row = action->kind == ACTION_JOIN_ROW;
        size_t part = 0;
        for (size_t k = 0; k < action->after.presses.count; k++) {
            const struct press_mark *mark = &action->after.presses.items[k];
            part += part % heap->across == 0; /* no seam before the first */
            const struct rational reach = rational_mul(
                row ? input_height(bench->sewer, &heap->inputs.items[part])
                    : heap->width,
                half);
            const struct rational zero = rational_whole(0);
            const struct rational dx = row ? zero : reach;
            const struct rational dy = row ? reach : zero;
            cloth_add_seam(bench->arena, cloth,
                           (struct seam){moved(mark->at, rational_times(dx, -1),
                                               rational_times(dy, -1)),
                                         moved(mark->at, dx, dy), mark->x,
                                         mark->y, !action->pressed_by_rule});
            part++;
        }
    }
}

/* Across, then down: a grid is two actions, its rows first. */
void sew_join(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    const struct cloth **joined =
        ARENA_ARRAY(bench->arena, const struct cloth *, heap->inputs.count);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        joined[i] = joined_part(bench, &heap->inputs.items[i]);
        cloth_add_all(bench->arena, whole, joined[i]);
    }
    if (heap->across > 1)
        join_across(bench, joined);
    if (heap->down > 1)
        join_down(bench, joined);
    heap->cloth = whole;
    add_joint_seams(bench, whole);
    check_joints(bench->sewer, heap, joined);
}
