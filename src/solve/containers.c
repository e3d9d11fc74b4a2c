/* Rows, columns and grids: finished sizes add up. Read next: diagonal.c. */
#include "solver.h"

/* As the cell lies in its container: a map may turn it. */
static variable cell_width(const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? height_of(cell->piece)
                                           : width_of(cell->piece);
}

/* As cell_width, for the other side. */
static variable cell_height(const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? width_of(cell->piece)
                                           : height_of(cell->piece);
}

/* A row is as high as each of its cells, and as wide as all together. Seams do
 * not appear: finished sizes add up exactly. */
static void row_sizes(struct system *system, const struct piece *piece,
                      bool local_grid)
{
    (void)local_grid;
    struct sum *sum =
        system_sum(system, width_of(piece), piece->element, "wide");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        system_equal(system, height_of(piece), cell_height(cell));
        system_term(system, sum, cell_width(cell), rational_whole(1),
                    cell->piece->element);
    }
}

/* The row's rule, turned. */
static void column_sizes(struct system *system, const struct piece *piece,
                         bool local_grid)
{
    (void)local_grid;
    struct sum *sum =
        system_sum(system, height_of(piece), piece->element, "high");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        system_equal(system, width_of(piece), cell_width(cell));
        system_term(system, sum, cell_height(cell), rational_whole(1),
                    cell->piece->element);
    }
}

/* A unit that is not square, as its own width and height say. Asked before
 * anything is solved, so only a unit that states both sides can be told to be
 * oblong. */
static bool oblong(const struct piece *piece)
{
    if (piece->target == NULL || piece->target->gridded)
        return false;
    const struct stated *width = &piece->target->width;
    const struct stated *height = &piece->target->height;
    return width->usable && height->usable &&
           !rational_equal(width->value, height->value);
}

/* Whether the unit lies turned by a quarter, by its map's turn and its own. */
static bool lies_across(const struct cell *cell)
{
    return (cell->orientation.turn + cell->piece->orientation.turn) % 2 == 1;
}

/* In one row of a grid an oblong unit lies one way only. Said here, because the
 * sums of all rows and columns would only echo it. ensures: false where it
 * reported. */
static bool row_turns_agree(struct system *system, const struct piece *piece,
                            size_t row)
{
    const struct cell *cells = &piece->cells.items[row * piece->across];
    for (size_t i = 1; i < piece->across; i++) {
        const struct definition *target = cells[i].piece->target;
        if (!oblong(cells[i].piece) || target != cells[0].piece->target ||
            lies_across(&cells[i]) == lies_across(&cells[0]))
            continue;
        /* Of two ways the rarer one is the slip. */
        size_t like_first = 0;
        for (size_t k = 0; k < piece->across; k++)
            like_first += cells[k].piece->target == target &&
                          lies_across(&cells[k]) == lies_across(&cells[0]);
        const struct cell *wrong =
            like_first * 2 >= piece->across ? &cells[i] : &cells[0];
        const struct cell *other = wrong == &cells[0] ? &cells[i] : &cells[0];
        struct diagnostic *d = report_in(
            system->run, system->sound, piece->owner, DIAG_USE_TURN,
            value_span(wrong->piece->element, ATTR_TURN),
            "`%s` does not fit its row: its neighbors lie a quarter turn "
            "otherwise",
            target->id);
        diag_note(system->run, d, other->span, "a neighbor in row %zu",
                  row + 1);
        return false;
    }
    return true;
}

/* Every row is as high as its first cell and every column as wide as its top
 * one. Sums run along the first row and the first column only: by these
 * equalities any other would say the same. */
static void grid_sizes(struct system *system, const struct piece *piece,
                       bool local_grid)
{
    (void)local_grid;
    if (piece->cells.count == 0 ||
        piece->cells.count != piece->across * piece->down) {
        silence_all(system, piece); /* its cells were reported */
        return;
    }
    for (size_t row = 0; row < piece->down; row++) {
        if (!row_turns_agree(system, piece, row)) {
            silence_all(system, piece);
            return;
        }
    }
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const size_t row = i / piece->across, column = i % piece->across;
        system_equal(system, cell_width(&piece->cells.items[column]),
                     cell_width(cell));
        system_equal(system,
                     cell_height(&piece->cells.items[row * piece->across]),
                     cell_height(cell));
    }
    struct sum *sum =
        system_sum(system, width_of(piece), piece->element, "wide");
    for (size_t i = 0; i < piece->across; i++)
        system_term(system, sum, cell_width(&piece->cells.items[i]),
                    rational_whole(1), piece->cells.items[i].piece->element);
    sum = system_sum(system, height_of(piece), piece->element, "high");
    for (size_t i = 0; i < piece->down; i++) {
        const struct cell *cell = &piece->cells.items[i * piece->across];
        system_term(system, sum, cell_height(cell), rational_whole(1),
                    cell->piece->element);
    }
}

const struct sizing sizing_row = {.sizes = row_sizes};
const struct sizing sizing_column = {.sizes = column_sizes};
const struct sizing sizing_grid = {.sizes = grid_sizes};
