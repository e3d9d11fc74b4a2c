/* Rows and columns without a name, sewn to each other: a part cut out of both
 * is enough to try the seam between them, as two blocks of each are in a grid.
 * Cells that are cut out fill the same stretch of the joint. Read next:
 * making.c. */
#include "facts.h"

enum { MOST_CELLS = 2 }; /* of one side: they bring a seam between them */

/* One of the two that meet: the cells of it that touch the joint, in their
 * order along it, placed as they lie in the whole. */
struct neighbor {
    const struct input *input; /* of the join that has the joint */
    const struct heap *heap;
    bool is_join; /* whose cells may lie apart */
    bool flipped; /* it lies upside down */
    LIST(struct input) cells;
    LIST(size_t) own; /* by cell: its number in its own join */
};

/* A joint on its way, level or upright. */
struct joint {
    struct facts *facts;
    const struct window *window;
    bool level;
    struct neighbor sides[2];
};

/* Some cells of a side, one after the other. Where one at an end reaches further
 * than the other side, a scrap is sewn in its stead, as long as is needed: the
 * seam beside it is the same. */
enum { NO_CELL = -1 };
struct run_of_cells {
    size_t first, count;
    int scrap; /* which of them is one: 0, the last, or NO_CELL */
};

/* Of the quilt whose wording it is. */
static const struct heap *heap_of(const struct joint *joint, size_t heap)
{
    return &joint->facts->w->quilt->heaps.items[heap];
}

/* As it lies in its join: a quarter turn exchanges the sides. */
static struct rational placed_width(const struct joint *joint,
                                    const struct input *input)
{
    const struct heap *heap = heap_of(joint, input->heap);
    return input->turn % 2 == 0 ? heap->width : heap->height;
}

static struct rational placed_height(const struct joint *joint,
                                     const struct input *input)
{
    const struct heap *heap = heap_of(joint, input->heap);
    return input->turn % 2 == 0 ? heap->height : heap->width;
}

/* ---- sides ---- */

/* A cell of the side's join, where the side lies; upside down, it is counted
 * from the other corner. */
static struct input placed_cell(const struct joint *joint,
                                const struct neighbor *side,
                                const struct input *cell)
{
    struct input placed = *cell;
    if (side->flipped) {
        placed.turn = (cell->turn + 2) % 4;
        placed.x = rational_sub(rational_sub(side->heap->width, cell->x),
                                placed_width(joint, cell));
        placed.y = rational_sub(rational_sub(side->heap->height, cell->y),
                                placed_height(joint, cell));
    }
    placed.x = rational_add(placed.x, side->input->x);
    placed.y = rational_add(placed.y, side->input->y);
    return placed;
}

/* The row, or column, of its own join that touches the joint. */
static size_t touching(const struct joint *joint, const struct neighbor *side,
                       bool before)
{
    const size_t count = joint->level ? heap_down(side->heap)
                                      : heap_across(side->heap);
    return before != side->flipped ? count - 1 : 0;
}

/* In the order in which they lie along the joint, whichever way the join lies.
 */
static void add_cells(const struct joint *joint, struct neighbor *side, bool before)
{
    struct arena *arena = joint->facts->w->arena;
    const size_t across = heap_across(side->heap);
    const size_t count = joint->level ? across : heap_down(side->heap);
    const size_t line = touching(joint, side, before);
    for (size_t i = 0; i < count; i++) {
        const size_t along = side->flipped ? count - 1 - i : i;
        const size_t own = joint->level ? line * across + along
                                        : along * across + line;
        *LIST_ADD(arena, &side->own) = own;
        *LIST_ADD(arena, &side->cells) =
            placed_cell(joint, side, &side->heap->inputs.items[own]);
    }
}

/* A block, a unit or a piece is its own only cell; so is what lies on its side,
 * whose rows do not run along the joint. */
static struct neighbor side_of(const struct joint *joint, size_t cell, bool before)
{
    const struct heap *join = heap_of(joint, joint->window->heap);
    struct neighbor side = {.input = &join->inputs.items[cell]};
    side.heap = heap_of(joint, side.input->heap);
    side.is_join = has_windows(side.heap) && side.input->turn % 2 == 0;
    side.flipped = side.input->turn == 2;
    if (side.is_join) {
        add_cells(joint, &side, before);
    } else {
        *LIST_ADD(joint->facts->w->arena, &side.own) = cell;
        *LIST_ADD(joint->facts->w->arena, &side.cells) = *side.input;
    }
    return side;
}

/* ---- runs ---- */

static struct rational run_start(const struct joint *joint,
                                 const struct neighbor *side,
                                 struct run_of_cells run)
{
    const struct input *cell = &side->cells.items[run.first];
    return joint->level ? cell->x : cell->y;
}

static struct rational run_end(const struct joint *joint,
                               const struct neighbor *side,
                               struct run_of_cells run)
{
    const struct input *last = &side->cells.items[run.first + run.count - 1];
    return joint->level ? rational_add(last->x, placed_width(joint, last))
                        : rational_add(last->y, placed_height(joint, last));
}

/* The seam between a cell of the run and the next, as it lies in the whole. */
static int seam_side(const struct joint *joint, const struct neighbor *side,
                     size_t cell)
{
    const size_t a = side->own.items[cell], b = side->own.items[cell + 1];
    const size_t later = a > b ? a : b;
    const size_t across = heap_across(side->heap);
    const int way = joint->level ? seam_beside(side->heap, later)->x
                                 : seam_below(side->heap, later / across - 1)->y;
    return side->flipped ? -way : way;
}

/* Of a cell beside a scrap: how it lies, and the seam between the two. */
static void scrap_facts(const struct joint *joint, const struct neighbor *side,
                        struct run_of_cells run, struct window window,
                        struct fact_list *list)
{
    const size_t kept = run.first + (run.scrap == 0 ? 1 : 0);
    turn_fact(joint->facts, window.heap, side->own.items[kept], list);
    joint_facts(joint->facts, &window, list);
}

/* What lies between the cells of one side, as their own join has it. */
static void run_facts(const struct joint *joint, const struct neighbor *side,
                      struct run_of_cells run, struct fact_list *list)
{
    if (!side->is_join) {
        turn_fact(joint->facts, joint->window->heap, side->own.items[0], list);
        return;
    }
    const size_t a = side->own.items[run.first];
    const size_t b = side->own.items[run.first + run.count - 1];
    const size_t first = a < b ? a : b, across = heap_across(side->heap);
    const struct window window = {
        side->input->heap, first / across, first % across,
        joint->level ? run.count : 1, joint->level ? 1 : run.count};
    if (run.scrap != NO_CELL)
        scrap_facts(joint, side, run, window, list);
    else
        window_facts(joint->facts, &window, list);
}

/* All that ends on the joint, as far as the run reaches. */
static struct joint_side ends_of(const struct joint *joint,
                                 const struct neighbor *side,
                                 struct run_of_cells run)
{
    struct joint_side ends = {.cells = &side->cells.items[run.first],
                              .count = run.count,
                              .scrap = run.scrap};
    for (size_t i = 0; i + 1 < run.count; i++)
        *LIST_ADD(joint->facts->w->arena, &ends.seams) =
            seam_side(joint, side, run.first + i);
    return ends;
}

/* As long as the other side leaves room for, as high as the cell beside it; cut
 * with seam allowances. */
static void add_scrap(const struct joint *joint, struct trial *trial,
                      const struct run_of_cells runs[2], int s)
{
    const struct neighbor *side = &joint->sides[s];
    const struct pattern *pattern = joint->facts->w->design->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct input *kept =
        &side->cells.items[runs[s].first + (runs[s].scrap == 0 ? 1 : 0)];
    const struct run_of_cells *other = &runs[1 - s];
    const struct rational whole =
        rational_sub(run_end(joint, &joint->sides[1 - s], *other),
                     run_start(joint, &joint->sides[1 - s], *other));
    const struct rational width = placed_width(joint, kept);
    const struct rational height = placed_height(joint, kept);
    trial->scrap_width = rational_add(
        joint->level ? rational_sub(whole, width) : width, seams);
    trial->scrap_height = rational_add(
        joint->level ? height : rational_sub(whole, height), seams);
    trial->has_scrap = true;
}

/* Its facts are those of both runs and of the joint. What lies inside the cells
 * is added by who calls, as for all trials. */
static void add_cutout(const struct joint *joint, struct cutouts *out,
                       const struct run_of_cells runs[2])
{
    struct arena *arena = joint->facts->w->arena;
    const struct window *window = joint->window;
    const struct input *after = joint->sides[1].input;
    struct cutout *one = LIST_ADD(arena, &out->items);
    one->trial = (struct trial){.kind = TRIAL_CUTOUT,
                                .heap = window->heap,
                                .row = window->row,
                                .column = window->column,
                                .across = window->across,
                                .down = window->down,
                                .place = runs[0].first};
    for (int s = 0; s < 2; s++) {
        run_facts(joint, &joint->sides[s], runs[s], &one->facts);
        for (size_t i = 0; i < runs[s].count; i++)
            if ((int)i != runs[s].scrap)
                *LIST_ADD(arena, &one->trial.cells) =
                    joint->sides[s].cells.items[runs[s].first + i].heap;
        if (runs[s].scrap != NO_CELL)
            add_scrap(joint, &one->trial, runs, s);
    }
    const struct joint_side ends[2] = {
        ends_of(joint, &joint->sides[0], runs[0]),
        ends_of(joint, &joint->sides[1], runs[1])};
    joint_facts(joint->facts, window, &one->facts);
    joint_meeting(joint->facts, window->heap, joint->level,
                  joint->level ? after->y : after->x, ends, &one->facts);
}

/* Makes the outer cell of the longer run a scrap. ensures: false where one cell
 * alone is longer, or nothing of the outer one would be left. */
static bool shorten(const struct joint *joint, struct run_of_cells runs[2],
                    int longer, bool at_end)
{
    const struct neighbor *side = &joint->sides[longer];
    struct run_of_cells *run = &runs[longer];
    const struct run_of_cells kept = {run->first + (at_end ? 0 : 1),
                                      run->count - 1, NO_CELL};
    if (run->count != MOST_CELLS)
        return false;
    run->scrap = at_end ? (int)run->count - 1 : 0;
    const struct neighbor *other = &joint->sides[1 - longer];
    return at_end ? rational_compare(run_end(joint, other, runs[1 - longer]),
                                     run_end(joint, side, kept)) > 0
                  : rational_compare(run_start(joint, other, runs[1 - longer]),
                                     run_start(joint, side, kept)) < 0;
}

/* Do both sides begin and end in the same places, one of them shortened where
 * it is longer at one end? */
static bool fit(const struct joint *joint, struct run_of_cells runs[2])
{
    const struct neighbor *a = &joint->sides[0], *b = &joint->sides[1];
    const int starts = rational_compare(run_start(joint, a, runs[0]),
                                        run_start(joint, b, runs[1]));
    const int ends = rational_compare(run_end(joint, a, runs[0]),
                                      run_end(joint, b, runs[1]));
    return starts == 0 && ends == 0
               ? true
           : starts == 0 ? shorten(joint, runs, ends > 0 ? 0 : 1, true)
           : ends == 0   ? shorten(joint, runs, starts < 0 ? 0 : 1, false)
                         : false;
}

/* All runs of the one side with all of the other that lie across from them. */
static void match_runs(const struct joint *joint, struct cutouts *out)
{
    const size_t counts[2] = {joint->sides[0].cells.count,
                              joint->sides[1].cells.count};
    for (size_t i = 0; i < counts[0] * MOST_CELLS; i++)
        for (size_t k = 0; k < counts[1] * MOST_CELLS; k++) {
            struct run_of_cells runs[2] = {
                {i / MOST_CELLS, 1 + i % MOST_CELLS, NO_CELL},
                {k / MOST_CELLS, 1 + k % MOST_CELLS, NO_CELL}};
            if (runs[0].first + runs[0].count <= counts[0] &&
                runs[1].first + runs[1].count <= counts[1] && fit(joint, runs))
                add_cutout(joint, out, runs);
        }
}

/* Only where one of the two is a row or column without a name: else the two
 * neighbors are a trial as they are. */
struct cutouts cutouts_of(struct facts *facts, const struct window *window)
{
    struct cutouts out = {.items = {0}};
    struct joint joint = {facts, window, window->down == 2, {{.input = NULL}}};
    const struct heap *join = &facts->w->quilt->heaps.items[window->heap];
    const size_t across = heap_across(join);
    const size_t first = window->row * across + window->column;
    if (!has_windows(join) || window->across * window->down != 2)
        return out;
    joint.sides[0] = side_of(&joint, first, true);
    joint.sides[1] = side_of(&joint, first + (joint.level ? across : 1), false);
    if (joint.sides[0].is_join || joint.sides[1].is_join)
        match_runs(&joint, &out);
    return out;
}
