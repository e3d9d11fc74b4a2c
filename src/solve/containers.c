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

/* `equal` says that cells side by side are of one width. */
static void equal_widths(struct system *system, const struct piece *piece,
                         size_t count)
{
    for (size_t i = 1; piece->equal && i < count; i++)
        system_equal(system, cell_width(&piece->cells.items[0]),
                     cell_width(&piece->cells.items[i]));
}

/* Those one above the other, `by` cells apart in the list, of one height. */
static void equal_heights(struct system *system, const struct piece *piece,
                          size_t by)
{
    for (size_t i = by; piece->equal && i < piece->cells.count; i += by)
        system_equal(system, cell_height(&piece->cells.items[0]),
                     cell_height(&piece->cells.items[i]));
}

/* A row is as high as each of its cells, and as wide as all together. Seams do
 * not appear: finished sizes add up exactly. */
static void row_sizes(struct system *system, const struct piece *piece,
                      bool local_grid)
{
    (void)local_grid;
    equal_widths(system, piece, piece->cells.count);
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
    equal_heights(system, piece, 1);
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

/* Rows of a sashed grid: what lies below a cell is as wide. Strips that go all
 * the way across are no rows. */
static void align_rows(struct system *system, const struct piece *grid)
{
    const struct piece *first = NULL;
    for (size_t i = 0; i < grid->cells.count; i++) {
        const struct piece *row = grid->cells.items[i].piece;
        if (row->kind != PIECE_ROW || row->element != grid->element)
            continue;
        first = first == NULL ? row : first;
        for (size_t k = 0; k < row->cells.count; k++)
            system_equal(system, cell_width(&first->cells.items[k]),
                         cell_width(&row->cells.items[k]));
    }
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
    equal_widths(system, piece, piece->across);
    equal_heights(system, piece, piece->across);
    if (piece->aligned)
        align_rows(system, piece);
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

/* The side of the cells that `equal` divides the whole into; unknown where a
 * cell states its own, which was then meant. */
static struct rational divided(const struct sized *sized,
                               const struct piece *piece, bool wide)
{
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const bool across = wide != (cell->orientation.turn % 2 == 1);
        if (across ? cell->piece->width.written : cell->piece->height.written)
            return rational_unknown();
    }
    const struct cell *first = &piece->cells.items[0];
    return (wide != (first->orientation.turn % 2 == 1)
                ? sized->width
                : sized->height)[first->piece->index];
}

/* reports: `count` equal cells that no ruler cuts. Where the squares of the
 * grid around them are none either, those were told. */
static void check_equal_side(struct run *run, const struct sized *sized,
                             const struct piece *piece, size_t count, bool wide)
{
    const struct pattern *pattern = sized->design->pattern;
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    const struct rational side = divided(sized, piece, wide);
    for (size_t i = 0; rational_known(side) && i < scales->items.count; i++) {
        const struct rational square = scales->items.items[i].factor;
        const struct rational real = rational_mul(side, square);
        const struct rational whole = rational_times(real, (int64_t)count);
        if (!rational_known(whole) ||
            rational_div(real, pattern->cutting_step).den == 1 ||
            rational_div(square, pattern->cutting_step).den != 1)
            continue;
        const struct rational parts = rational_whole((int64_t)count);
        struct diagnostic *d =
            report_in(run, sized->sound, piece->owner, DIAG_RULER,
                      value_span(piece->element, ATTR_EQUAL),
                      "%zu cells %s %s are %s each, which no ruler cuts", count,
                      wide ? "across" : "down",
                      length_plain(run->arena, whole, pattern->units),
                      length_plain(run->arena, real, pattern->units));
        diag_note(
            run, d, (struct span){0, 0}, "cutting steps are %s",
            length_plain(run->arena, pattern->cutting_step, pattern->units));
        help_ruler(run, d, pattern, whole, parts, "sizes");
        return;
    }
}

static void check_equal(struct run *run, const struct sized *sized,
                        const struct piece *piece)
{
    if (!piece->equal || piece->cells.count == 0)
        return;
    if (piece->kind == PIECE_GRID) {
        check_equal_side(run, sized, piece, piece->across, true);
        check_equal_side(run, sized, piece, piece->down, false);
    } else {
        check_equal_side(run, sized, piece, piece->cells.count,
                         piece->kind == PIECE_ROW);
    }
}

const struct sizing sizing_row = {.sizes = row_sizes, .check = check_equal};
const struct sizing sizing_column = {.sizes = column_sizes,
                                     .check = check_equal};
const struct sizing sizing_grid = {.sizes = grid_sizes, .check = check_equal};
