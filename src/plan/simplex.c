/* A dense inverse is enough: there is a row for each size and each branch, no
 * more. */
#include "simplex.h"

#include <math.h>
#include <string.h>

/* Below it all is rounding. What is claimed is proven in whole numbers
 * elsewhere, so this decides only how long is searched. */
static const double tiny = 1e-9;

void simplex_init(struct simplex *simplex, struct arena *arena, size_t rows)
{
    *simplex = (struct simplex){.rows = rows};
    simplex->inverse = ARENA_ARRAY(arena, double, rows *rows);
    simplex->basis = ARENA_ARRAY(arena, long, rows);
    simplex->cost = ARENA_ARRAY(arena, double, rows);
    simplex->value = ARENA_ARRAY(arena, double, rows);
    simplex->dual = ARENA_ARRAY(arena, double, rows);
    simplex->change = ARENA_ARRAY(arena, double, rows);
}

/* The inverse is diagonal, so that none has to be computed. */
void simplex_start(struct simplex *simplex, size_t row, long variable,
                   double cost, double entry, double asked)
{
    double *line = simplex->inverse + row * simplex->rows;
    memset(line, 0, simplex->rows * sizeof *line);
    line[row] = 1.0 / entry;
    simplex->basis[row] = variable;
    simplex->cost[row] = cost;
    simplex->value[row] = asked / entry;
}

/* dual = cost of basis x inverse. */
void simplex_duals(struct simplex *simplex)
{
    const size_t rows = simplex->rows;
    memset(simplex->dual, 0, rows * sizeof *simplex->dual);
    for (size_t row = 0; row < rows; row++) {
        const double cost = simplex->cost[row];
        if (cost == 0.0)
            continue;
        const double *line = simplex->inverse + row * rows;
        for (size_t i = 0; i < rows; i++)
            simplex->dual[i] += cost * line[i];
    }
}

/* The row whose variable leaves when the column grows; the row count where
 * nothing limits it. Fills `change`. Of equal ratios the larger pivot is taken:
 * it keeps the inverse exact. */
static size_t leaving_row(struct simplex *simplex,
                          const struct simplex_column *column)
{
    const size_t rows = simplex->rows;
    size_t leaving = rows;
    double least = 0.0;
    for (size_t row = 0; row < rows; row++) {
        const double *line = simplex->inverse + row * rows;
        double sum = 0.0;
        for (size_t i = 0; i < column->count; i++)
            sum += line[column->entries[i].row] * column->entries[i].value;
        simplex->change[row] = sum;
        if (sum <= tiny)
            continue;
        const double ratio = simplex->value[row] / sum;
        if (leaving == rows || ratio < least - tiny ||
            (ratio < least + tiny && sum > simplex->change[leaving])) {
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
    const size_t leaving = leaving_row(simplex, column);
    if (leaving == rows)
        return false;
    const double *change = simplex->change;
    const double amount = simplex->value[leaving] / change[leaving];
    double *line = simplex->inverse + leaving * rows;
    for (size_t i = 0; i < rows; i++)
        line[i] /= change[leaving];
    for (size_t row = 0; row < rows; row++) {
        if (row == leaving || fabs(change[row]) < 1e-14)
            continue;
        double *other = simplex->inverse + row * rows;
        for (size_t i = 0; i < rows; i++)
            other[i] -= change[row] * line[i];
        simplex->value[row] -= change[row] * amount;
        if (simplex->value[row] < 0.0)
            simplex->value[row] = 0.0;
    }
    simplex->value[leaving] = amount;
    simplex->basis[leaving] = column->variable;
    simplex->cost[leaving] = column->cost;
    return true;
}

/* Makes row `at` of [matrix | inverse] a unit row and clears its column
 * elsewhere. False where no row has enough there: a basis that is none. Gauss
 * and Jordan; the largest entry is the pivot, as dividing by a small one would
 * blow up rounding. */
static bool eliminate(double *matrix, double *inverse, size_t rows, size_t at,
                      uint64_t *work)
{
    size_t best = at;
    for (size_t r = at; r < rows; r++)
        if (fabs(matrix[r * rows + at]) > fabs(matrix[best * rows + at]))
            best = r;
    if (fabs(matrix[best * rows + at]) < tiny)
        return false;
    const double scale = 1.0 / matrix[best * rows + at];
    for (size_t i = 0; i < rows; i++) {
        const double a = matrix[best * rows + i] * scale;
        const double b = inverse[best * rows + i] * scale;
        matrix[best * rows + i] = matrix[at * rows + i];
        inverse[best * rows + i] = inverse[at * rows + i];
        matrix[at * rows + i] = a;
        inverse[at * rows + i] = b;
    }
    for (size_t r = 0; r < rows; r++) {
        const double factor = matrix[r * rows + at];
        if (r == at || factor == 0.0)
            continue;
        *work += rows;
        for (size_t i = 0; i < rows; i++) {
            matrix[r * rows + i] -= factor * matrix[at * rows + i];
            inverse[r * rows + i] -= factor * inverse[at * rows + i];
        }
    }
    return true;
}

/* It does not inherit the rounding of the pivots that led to the basis. */
bool simplex_invert(struct simplex *simplex,
                    const struct simplex_column *columns, uint64_t *work)
{
    const size_t rows = simplex->rows;
    struct arena *scratch = arena_create();
    double *matrix = ARENA_ARRAY(scratch, double, rows *rows);
    memset(simplex->inverse, 0, rows * rows * sizeof *simplex->inverse);
    for (size_t c = 0; c < rows; c++) {
        for (size_t i = 0; i < columns[c].count; i++)
            matrix[columns[c].entries[i].row * rows + c] =
                columns[c].entries[i].value;
        simplex->basis[c] = columns[c].variable;
        simplex->cost[c] = columns[c].cost;
        simplex->inverse[c * rows + c] = 1.0;
    }
    bool regular = true;
    for (size_t at = 0; at < rows && regular; at++)
        regular = eliminate(matrix, simplex->inverse, rows, at, work);
    *work += 2 * rows * rows;
    arena_destroy(scratch);
    return regular;
}

double simplex_total(const struct simplex *simplex)
{
    double total = 0.0;
    for (size_t row = 0; row < simplex->rows; row++)
        total += simplex->cost[row] * simplex->value[row];
    return total;
}
