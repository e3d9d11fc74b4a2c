/* How seams meet where cells of a join are sewn to each other: those that end
 * on one side of a joint in the place of one on the other side. Allowances that
 * lie to opposite sides nest. The joint runs through and so counts twice, as in
 * the warning of bulk. */
#include "facts.h"

/* Beyond that a cell is made of what was looked at already. */
enum { MANY_SEAMS = 20000, BULKY = 8 };

struct end {
    struct rational at; /* along the joint */
    int side;           /* along the joint, 0 for open */
};

struct ends {
    LIST(struct end) items;
};

/* A cell's place and size in its join. */
struct laid_cell {
    const struct input *input;
    const struct heap *heap;
};

static struct laid_cell cell_at(const struct wording *w,
                                const struct heap *join, size_t row,
                                size_t column)
{
    const struct input *input =
        &join->inputs.items[row * heap_across(join) + column];
    return (struct laid_cell){input, &w->quilt->heaps.items[input->heap]};
}

/* Turned clockwise with y down: (x, y) becomes (height - y, x). */
static struct vertex placed(const struct laid_cell *cell, struct vertex v)
{
    struct rational width = cell->heap->width, height = cell->heap->height;
    for (unsigned i = 0; i < cell->input->turn; i++) {
        const struct rational x = rational_sub(height, v.y);
        const struct rational swap = width;
        v.y = v.x;
        v.x = x;
        width = height;
        height = swap;
    }
    return (struct vertex){rational_add(v.x, cell->input->x),
                           rational_add(v.y, cell->input->y)};
}

/* The way along x or y that a seam of the cell is pressed. */
static int placed_side(const struct laid_cell *cell, const struct seam *seam,
                       bool level)
{
    int x = seam->x, y = seam->y;
    for (unsigned i = 0; i < cell->input->turn; i++) {
        const int turned = -y;
        y = x;
        x = turned;
    }
    return level ? x : y;
}

/* Seams of the cell that end on the line and do not run along it. */
static void cell_ends(const struct wording *w, const struct laid_cell *cell,
                      bool level, struct rational line, struct ends *ends)
{
    const struct cloth *cloth = cell->heap->cloth;
    if (cloth->seams.count > MANY_SEAMS)
        return;
    for (size_t i = 0; i < cloth->seams.count; i++) {
        const struct seam *seam = &cloth->seams.items[i];
        const struct vertex from = placed(cell, seam->from);
        const struct vertex to = placed(cell, seam->to);
        const bool begins = rational_equal(level ? from.y : from.x, line);
        const bool stops = rational_equal(level ? to.y : to.x, line);
        if (begins == stops)
            continue;
        const struct vertex end = begins ? from : to;
        *LIST_ADD(w->arena, &ends->items) =
            (struct end){level ? end.x : end.y, placed_side(cell, seam, level)};
    }
}

/* How many seams end in one place of a joint. */
static size_t ends_at(const struct ends *ends, struct rational at)
{
    size_t count = 0;
    for (size_t i = 0; i < ends->items.count; i++)
        count += rational_equal(ends->items.items[i].at, at);
    return count;
}

/* By the sides that two seams are pressed to. */
static enum meeting_kind kind_of(int a, int b)
{
    return a == 0 || b == 0 ? MEET_OPEN
           : a * b < 0      ? MEET_NESTED
                            : MEET_SAME_SIDE;
}

static void compare_ends(struct facts *facts, size_t heap,
                         const struct ends *before, const struct ends *after,
                         struct fact_list *list)
{
    for (size_t i = 0; i < before->items.count; i++) {
        const struct end *end = &before->items.items[i];
        for (size_t k = 0; k < after->items.count; k++)
            if (rational_equal(after->items.items[k].at, end->at))
                add_meeting(facts, heap,
                            kind_of(end->side, after->items.items[k].side),
                            list);
        if (ends_at(before, end->at) + ends_at(after, end->at) + 2 >= BULKY &&
            ends_at(after, end->at) > 0)
            add_meeting(facts, heap, MEET_EIGHT, list);
    }
}

/* Between cells side by side in one row. */
static void meet_beside(struct facts *facts, const struct window *window,
                        size_t row, struct fact_list *list)
{
    const struct wording *w = facts->w;
    const struct heap *join = &w->quilt->heaps.items[window->heap];
    for (size_t c = 1; c < window->across; c++) {
        struct ends before = {.items = {0}}, after = {.items = {0}};
        const struct laid_cell left =
            cell_at(w, join, row, window->column + c - 1);
        const struct laid_cell right =
            cell_at(w, join, row, window->column + c);
        cell_ends(w, &left, false, right.input->x, &before);
        cell_ends(w, &right, false, right.input->x, &after);
        compare_ends(facts, window->heap, &before, &after, list);
    }
}

/* All seams that end on the joint below or above a row of the window: those of
 * its cells, and those between them. */
static void row_ends(const struct wording *w, const struct window *window,
                     size_t row, struct rational line, struct ends *ends)
{
    const struct heap *join = &w->quilt->heaps.items[window->heap];
    for (size_t c = 0; c < window->across; c++) {
        const struct laid_cell cell = cell_at(w, join, row, window->column + c);
        cell_ends(w, &cell, true, line, ends);
        if (c == 0)
            continue;
        const struct seam *seam =
            seam_beside(join, row * heap_across(join) + window->column + c);
        *LIST_ADD(w->arena, &ends->items) =
            (struct end){cell.input->x, seam->x};
    }
}

/* Every place in which seams of two cells meet on the joint between them. */
void meeting_facts(struct facts *facts, const struct window *window,
                   struct fact_list *list)
{
    const struct heap *join = &facts->w->quilt->heaps.items[window->heap];
    for (size_t r = 0; r < window->down; r++) {
        const size_t row = window->row + r;
        meet_beside(facts, window, row, list);
        if (r == 0)
            continue;
        struct ends before = {.items = {0}}, after = {.items = {0}};
        const struct rational line =
            cell_at(facts->w, join, row, window->column).input->y;
        row_ends(facts->w, window, row - 1, line, &before);
        row_ends(facts->w, window, row, line, &after);
        compare_ends(facts, window->heap, &before, &after, list);
    }
}

/* The seams between the cells end where the later cell begins. */
static void side_ends(const struct wording *w, const struct joint_side *side,
                      bool level, struct rational line, struct ends *ends)
{
    for (size_t i = 0; i < side->count; i++) {
        const struct input *input = &side->cells[i];
        const struct laid_cell cell = {input,
                                       &w->quilt->heaps.items[input->heap]};
        if ((int)i != side->scrap)
            cell_ends(w, &cell, level, line, ends);
        if (i > 0)
            *LIST_ADD(w->arena, &ends->items) = (struct end){
                level ? input->x : input->y, side->seams.items[i - 1]};
    }
}

void joint_meeting(struct facts *facts, size_t heap, bool level,
                   struct rational line, const struct joint_side sides[2],
                   struct fact_list *list)
{
    struct ends before = {.items = {0}}, after = {.items = {0}};
    side_ends(facts->w, &sides[0], level, line, &before);
    side_ends(facts->w, &sides[1], level, line, &after);
    compare_ends(facts, heap, &before, &after, list);
}

const struct seam *seam_beside(const struct heap *heap, size_t cell)
{
    const size_t across = heap_across(heap);
    return &heap->actions.items[0]
                .seams.items[cell / across * (across - 1) + cell % across - 1]
                .seam;
}

const struct seam *seam_below(const struct heap *heap, size_t row)
{
    return &heap->actions.items[heap->actions.count - 1].seams.items[row].seam;
}
