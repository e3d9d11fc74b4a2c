/* Columns of strips hold few sizes, so that triangles of them hold little more
 * than the columns themselves, whatever the number of rows. */
#include "basis.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Smaller ones are rounding of zeros. */
static const double nothing = 1e-13;

void basis_init(struct basis *basis, struct arena *arena, size_t rows)
{
    *basis = (struct basis){.arena = arena, .rows = rows};
    basis->columns = ARENA_ARRAY(arena, struct simplex_entries, rows);
    basis->row_of = ARENA_ARRAY(arena, size_t, rows);
    basis->place_of = ARENA_ARRAY(arena, size_t, rows);
    basis->diagonal = ARENA_ARRAY(arena, double, rows);
    basis->lower.ends = ARENA_ARRAY(arena, size_t, rows);
    basis->upper.ends = ARENA_ARRAY(arena, size_t, rows);
    basis->changes.ends = ARENA_ARRAY(arena, size_t, BASIS_CHANGES);
    basis->changed_place = ARENA_ARRAY(arena, size_t, BASIS_CHANGES);
    basis->changed_entry = ARENA_ARRAY(arena, double, BASIS_CHANGES);
    basis->step_of = ARENA_ARRAY(arena, size_t, rows);
    basis->row_count = ARENA_ARRAY(arena, size_t, rows);
    basis->order = ARENA_ARRAY(arena, size_t, rows);
    basis->line = ARENA_ARRAY(arena, double, rows);
    basis->by_step = ARENA_ARRAY(arena, double, rows);
}

void basis_place(struct basis *basis, size_t place,
                 const struct simplex_entry *entries, size_t count)
{
    struct simplex_entries *column = &basis->columns[place];
    column->count = 0;
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(basis->arena, column) = entries[i];
    basis->factored = false;
}

/* ---- triangles ---- */

static size_t start_of(const struct basis_columns *columns, size_t index)
{
    return index == 0 ? 0 : columns->ends[index - 1];
}

/* Takes from the line what the steps before make of it. */
static void lower_line(struct basis *basis, size_t steps, double *line)
{
    const struct simplex_entry *entries = basis->lower.all.items;
    for (size_t step = 0; step < steps; step++) {
        const double amount = line[basis->row_of[step]];
        if (amount == 0.0)
            continue;
        const size_t end = basis->lower.ends[step];
        for (size_t i = start_of(&basis->lower, step); i < end; i++)
            line[entries[i].row] -= entries[i].value * amount;
        basis->work += end - start_of(&basis->lower, step);
    }
}

/* Places by the entries of their columns, fewest first, by counting: those
 * with one come first and fill nothing. */
static void order_places(struct basis *basis)
{
    const size_t rows = basis->rows;
    size_t *order = basis->order, *from = basis->step_of;
    memset(basis->row_count, 0, rows * sizeof *basis->row_count);
    memset(from, 0, rows * sizeof *from);
    for (size_t place = 0; place < rows; place++) {
        const struct simplex_entries *column = &basis->columns[place];
        for (size_t i = 0; i < column->count; i++)
            basis->row_count[column->items[i].row]++;
        if (column->count < rows)
            from[column->count]++;
    }
    size_t sum = 0;
    for (size_t count = 0; count < rows; count++) {
        const size_t here = from[count];
        from[count] = sum;
        sum += here;
    }
    for (size_t place = 0; place < rows; place++) {
        const size_t count = basis->columns[place].count;
        order[count < rows ? from[count]++ : sum++] = place;
    }
}

/* The row that the step takes: of those with a tenth of the largest entry at
 * least, one with few entries, so that little is filled (Markowitz, 1957, from
 * memory). The row count where there is none. */
static size_t choose_row(const struct basis *basis)
{
    const size_t rows = basis->rows;
    double most = 0.0;
    for (size_t row = 0; row < rows; row++)
        if (basis->step_of[row] == SIZE_MAX && fabs(basis->line[row]) > most)
            most = fabs(basis->line[row]);
    size_t best = rows;
    for (size_t row = 0; most > 1e-9 && row < rows; row++)
        if (basis->step_of[row] == SIZE_MAX &&
            fabs(basis->line[row]) >= 0.1 * most &&
            (best == rows || basis->row_count[row] < basis->row_count[best]))
            best = row;
    return best;
}

/* Parts the line: rows that were taken belong to the upper triangle, the
 * others to the lower one. Clears it. */
static bool keep_line(struct basis *basis, size_t step)
{
    const size_t taken = choose_row(basis);
    if (taken == basis->rows)
        return false;
    const double diagonal = basis->line[taken];
    for (size_t row = 0; row < basis->rows; row++) {
        const double value = basis->line[row];
        basis->line[row] = 0.0;
        if (row == taken || fabs(value) < nothing)
            continue;
        if (basis->step_of[row] != SIZE_MAX)
            *LIST_ADD(basis->arena, &basis->upper.all) =
                (struct simplex_entry){basis->step_of[row], value};
        else
            *LIST_ADD(basis->arena, &basis->lower.all) =
                (struct simplex_entry){row, value / diagonal};
    }
    basis->diagonal[step] = diagonal;
    basis->row_of[step] = taken;
    basis->step_of[taken] = step;
    basis->lower.ends[step] = basis->lower.all.count;
    basis->upper.ends[step] = basis->upper.all.count;
    return true;
}

/* Column by column, from the left (Gilbert and Peierls, 1988, from memory). */
bool basis_factor(struct basis *basis)
{
    const size_t rows = basis->rows;
    basis->lower.all.count = 0;
    basis->upper.all.count = 0;
    basis->changes.all.count = 0;
    basis->changed = 0;
    basis->factored = false;
    order_places(basis);
    for (size_t row = 0; row < rows; row++)
        basis->step_of[row] = SIZE_MAX;
    memset(basis->line, 0, rows * sizeof *basis->line);
    for (size_t step = 0; step < rows; step++) {
        const size_t place = basis->order[step];
        const struct simplex_entries *column = &basis->columns[place];
        basis->place_of[step] = place;
        for (size_t i = 0; i < column->count; i++)
            basis->line[column->items[i].row] += column->items[i].value;
        lower_line(basis, step, basis->line);
        if (!keep_line(basis, step))
            return false;
    }
    basis->work += rows * rows;
    basis->factored = true;
    return true;
}

/* ---- equations ---- */

void basis_solve(struct basis *basis, const double *given, double *amounts)
{
    const size_t rows = basis->rows;
    double *line = basis->line, *by_step = basis->by_step;
    memcpy(line, given, rows * sizeof *line);
    lower_line(basis, rows, line);
    for (size_t step = 0; step < rows; step++)
        by_step[step] = line[basis->row_of[step]];
    for (size_t step = rows; step-- > 0;) {
        const double amount = by_step[step] / basis->diagonal[step];
        amounts[basis->place_of[step]] = amount;
        const size_t end = basis->upper.ends[step];
        for (size_t i = start_of(&basis->upper, step); amount != 0.0 && i < end;
             i++)
            by_step[basis->upper.all.items[i].row] -=
                basis->upper.all.items[i].value * amount;
    }
    for (size_t c = 0; c < basis->changed; c++) {
        const size_t place = basis->changed_place[c];
        const double amount = amounts[place] / basis->changed_entry[c];
        amounts[place] = amount;
        const size_t end = basis->changes.ends[c];
        for (size_t i = start_of(&basis->changes, c); amount != 0.0 && i < end;
             i++)
            amounts[basis->changes.all.items[i].row] -=
                basis->changes.all.items[i].value * amount;
    }
    basis->work += rows + basis->upper.all.count + basis->changes.all.count;
}

void basis_price(struct basis *basis, const double *given, double *worths)
{
    const size_t rows = basis->rows;
    double *line = basis->line, *by_step = basis->by_step;
    memcpy(line, given, rows * sizeof *line);
    for (size_t c = basis->changed; c-- > 0;) {
        double sum = line[basis->changed_place[c]];
        for (size_t i = start_of(&basis->changes, c);
             i < basis->changes.ends[c]; i++)
            sum -= basis->changes.all.items[i].value *
                   line[basis->changes.all.items[i].row];
        line[basis->changed_place[c]] = sum / basis->changed_entry[c];
    }
    for (size_t step = 0; step < rows; step++) {
        double sum = line[basis->place_of[step]];
        for (size_t i = start_of(&basis->upper, step);
             i < basis->upper.ends[step]; i++)
            sum -= basis->upper.all.items[i].value *
                   by_step[basis->upper.all.items[i].row];
        by_step[step] = sum / basis->diagonal[step];
    }
    for (size_t step = rows; step-- > 0;) {
        double sum = by_step[step];
        for (size_t i = start_of(&basis->lower, step);
             i < basis->lower.ends[step]; i++)
            sum -= basis->lower.all.items[i].value *
                   worths[basis->lower.all.items[i].row];
        worths[basis->row_of[step]] = sum;
    }
    basis->work += rows + basis->lower.all.count + basis->upper.all.count +
                   basis->changes.all.count;
}

void basis_exchange(struct basis *basis, size_t place, const double *amounts,
                    const struct simplex_entry *entries, size_t count)
{
    const bool more = basis->factored && basis->changed < BASIS_CHANGES &&
                      fabs(amounts[place]) > 1e-6;
    basis_place(basis, place, entries, count);
    if (!more)
        return;
    for (size_t i = 0; i < basis->rows; i++)
        if (i != place && fabs(amounts[i]) >= nothing)
            *LIST_ADD(basis->arena, &basis->changes.all) =
                (struct simplex_entry){i, amounts[i]};
    basis->changes.ends[basis->changed] = basis->changes.all.count;
    basis->changed_place[basis->changed] = place;
    basis->changed_entry[basis->changed++] = amounts[place];
    basis->factored = true;
}
