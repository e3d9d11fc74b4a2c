/* The columns are factored anew every so many exchanges, and the amounts are
 * computed from them: rounding never adds up. */
#include "simplex.h"

#include <math.h>
#include <string.h>

/* Below it all is rounding. What is claimed is proven in whole numbers
 * elsewhere, so this decides only how long is searched. */
static const double tiny = 1e-9;

void simplex_init(struct simplex *simplex, struct arena *arena, size_t rows)
{
    *simplex = (struct simplex){.rows = rows};
    basis_init(&simplex->columns, arena, rows);
    simplex->basis = ARENA_ARRAY(arena, long, rows);
    simplex->cost = ARENA_ARRAY(arena, double, rows);
    simplex->value = ARENA_ARRAY(arena, double, rows);
    simplex->dual = ARENA_ARRAY(arena, double, rows);
    simplex->asked = ARENA_ARRAY(arena, double, rows);
    simplex->change = ARENA_ARRAY(arena, double, rows);
    simplex->entering = ARENA_ARRAY(arena, double, rows);
}

void simplex_begin(struct simplex *simplex, size_t rows)
{
    simplex->rows = rows;
    simplex->columns.rows = rows;
}

void simplex_start(struct simplex *simplex, size_t row, long variable,
                   double cost, double entry, double asked)
{
    const struct simplex_entry own = {row, entry};
    basis_place(&simplex->columns, row, &own, 1);
    simplex->basis[row] = variable;
    simplex->cost[row] = cost;
    simplex->value[row] = asked / entry;
    simplex->asked[row] = asked;
}

/* Factors what was exchanged. False where it is no basis any more. */
static bool refresh(struct simplex *simplex)
{
    if (simplex->columns.factored)
        return true;
    if (!basis_factor(&simplex->columns))
        return false;
    basis_solve(&simplex->columns, simplex->asked, simplex->value);
    for (size_t row = 0; row < simplex->rows; row++)
        if (simplex->value[row] < 0.0)
            simplex->value[row] = 0.0;
    return true;
}

/* It does not inherit the rounding of the pivots that led to the basis. */
bool simplex_restart(struct simplex *simplex,
                     const struct simplex_column *columns, const double *asked)
{
    for (size_t row = 0; row < simplex->rows; row++) {
        basis_place(&simplex->columns, row, columns[row].entries,
                    columns[row].count);
        simplex->basis[row] = columns[row].variable;
        simplex->cost[row] = columns[row].cost;
        simplex->asked[row] = asked[row];
    }
    return refresh(simplex);
}

/* Those of an earlier basis stay where this one is none. */
void simplex_duals(struct simplex *simplex)
{
    if (refresh(simplex))
        basis_price(&simplex->columns, simplex->cost, simplex->dual);
}

/* The row whose variable leaves when the column grows; the row count where
 * nothing limits it. Of equal ratios the larger pivot is taken: it keeps the
 * factors exact. */
static size_t leaving_row(const struct simplex *simplex)
{
    const size_t rows = simplex->rows;
    size_t leaving = rows;
    double least = 0.0;
    for (size_t row = 0; row < rows; row++) {
        const double change = simplex->change[row];
        if (change <= tiny)
            continue;
        const double ratio = simplex->value[row] / change;
        if (leaving == rows || ratio < least - tiny ||
            (ratio < least + tiny && change > simplex->change[leaving])) {
            leaving = row;
            least = ratio;
        }
    }
    return leaving;
}

/* It does not happen with costs of at least 0 that nothing limits a variable.
 */
bool simplex_pivot(struct simplex *simplex, const struct simplex_column *column)
{
    const size_t rows = simplex->rows;
    if (!refresh(simplex))
        return false;
    memset(simplex->entering, 0, rows * sizeof *simplex->entering);
    for (size_t i = 0; i < column->count; i++)
        simplex->entering[column->entries[i].row] = column->entries[i].value;
    basis_solve(&simplex->columns, simplex->entering, simplex->change);
    const size_t leaving = leaving_row(simplex);
    if (leaving == rows)
        return false;
    const double amount = simplex->value[leaving] / simplex->change[leaving];
    for (size_t row = 0; row < rows; row++) {
        simplex->value[row] -= simplex->change[row] * amount;
        if (simplex->value[row] < 0.0)
            simplex->value[row] = 0.0;
    }
    simplex->value[leaving] = amount;
    simplex->basis[leaving] = column->variable;
    simplex->cost[leaving] = column->cost;
    basis_exchange(&simplex->columns, leaving, simplex->change, column->entries,
                   column->count);
    return true;
}

double simplex_total(const struct simplex *simplex)
{
    double total = 0.0;
    for (size_t row = 0; row < simplex->rows; row++)
        total += simplex->cost[row] * simplex->value[row];
    return total;
}
