/* A dense inverse is enough: there is a row for each size, no more. */
#include "linear.h"

#include <math.h>
#include <string.h>

enum { MOST_ROUNDS = 4000 };
/* Below it all is rounding. What is claimed is proven in whole numbers
 * elsewhere, so this decides only how long is searched. */
static const double tiny = 1e-9;

/* Memory for all that is square; columns come one by one. */
void linear_init(struct linear *linear, struct arena *arena, size_t rows)
{
    *linear = (struct linear){.arena = arena, .rows = rows};
    linear->inverse = ARENA_ARRAY(arena, double, rows *rows);
    linear->basis = ARENA_ARRAY(arena, long, rows);
    linear->value = ARENA_ARRAY(arena, double, rows);
    linear->dual = ARENA_ARRAY(arena, double, rows);
    linear->change = ARENA_ARRAY(arena, double, rows);
}

/* A column may join at any time: the basis does not hold it yet. */
size_t linear_column(struct linear *linear, double cost, const double *entry)
{
    *LIST_ADD(linear->arena, &linear->columns) =
        (struct linear_column){cost, entry};
    return linear->columns.count - 1;
}

/* A surplus takes away what is too much, so its entry is -1. A row begins with
 * a variable of its own, so that the inverse is diagonal and none has to be
 * computed. */
void linear_start(struct linear *linear, size_t row, long column, double asked)
{
    const double entry =
        column < 0 ? -1.0 : linear->columns.items[column].entry[row];
    memset(linear->inverse + row * linear->rows, 0,
           linear->rows * sizeof *linear->inverse);
    linear->inverse[row * linear->rows + row] = 1.0 / entry;
    linear->basis[row] = column < 0 ? -1 - (long)row : column;
    linear->value[row] = asked / entry;
}

/* dual = cost of basis x inverse. */
static void find_duals(struct linear *linear)
{
    const size_t rows = linear->rows;
    memset(linear->dual, 0, rows * sizeof *linear->dual);
    for (size_t row = 0; row < rows; row++) {
        const long column = linear->basis[row];
        const double cost =
            column < 0 ? 0.0 : linear->columns.items[column].cost;
        for (size_t i = 0; i < rows; i++)
            linear->dual[i] += cost * linear->inverse[row * rows + i];
    }
    linear->work += rows * rows;
}

/* The column, or surplus, that saves most for one of it; false if none. The
 * largest gain first (Dantzig's rule, 1963); gains below 1e-7 are rounding, and
 * following them could circle. */
static bool entering(struct linear *linear, long *column)
{
    double most = 1e-7;
    bool found = false;
    for (size_t i = 0; i < linear->rows; i++) {
        if (-linear->dual[i] <= most)
            continue;
        most = -linear->dual[i];
        *column = -1 - (long)i;
        found = true;
    }
    for (size_t c = 0; c < linear->columns.count; c++) {
        double gain = -linear->columns.items[c].cost;
        for (size_t i = 0; i < linear->rows; i++)
            gain += linear->dual[i] * linear->columns.items[c].entry[i];
        if (gain <= most)
            continue;
        most = gain;
        *column = (long)c;
        found = true;
    }
    linear->work += linear->rows * linear->columns.count;
    return found;
}

/* What one of the column changes in each row of the basis, and the row that
 * falls to 0 first; the number of rows where none does. */
static size_t leaving_row(struct linear *linear, long column, double *least)
{
    const size_t rows = linear->rows;
    size_t leaving = rows;
    for (size_t row = 0; row < rows; row++) {
        double sum = 0.0;
        if (column < 0)
            sum = -linear->inverse[row * rows + (size_t)(-1 - column)];
        for (size_t i = 0; column >= 0 && i < rows; i++)
            sum += linear->inverse[row * rows + i] *
                   linear->columns.items[column].entry[i];
        linear->change[row] = sum;
        if (sum <= tiny)
            continue;
        const double ratio = linear->value[row] / sum;
        /* Of equal ratios the larger pivot: it keeps the inverse exact. */
        if (leaving == rows || ratio < *least - tiny ||
            (ratio < *least + tiny && sum > linear->change[leaving])) {
            leaving = row;
            *least = ratio;
        }
    }
    return leaving;
}

/* Brings a column into the basis. False where nothing limits it, which does not
 * happen with costs of at least 0. */
static bool pivot(struct linear *linear, long column)
{
    const size_t rows = linear->rows;
    double least = 0.0;
    const size_t leaving = leaving_row(linear, column, &least);
    if (leaving == rows)
        return false;
    double *own = linear->inverse + leaving * rows;
    const double scale = linear->change[leaving];
    for (size_t i = 0; i < rows; i++)
        own[i] /= scale;
    for (size_t row = 0; row < rows; row++) {
        const double change = linear->change[row];
        if (row == leaving || fabs(change) < 1e-14)
            continue;
        for (size_t i = 0; i < rows; i++)
            linear->inverse[row * rows + i] -= change * own[i];
        linear->value[row] -= change * least;
        if (linear->value[row] < 0.0)
            linear->value[row] = 0.0;
    }
    linear->work += 2 * rows * rows;
    linear->value[leaving] = least;
    linear->basis[leaving] = column;
    return true;
}

/* The limit on rounds only guards against circling. */
double linear_solve(struct linear *linear)
{
    long column = 0;
    for (int round = 0; round < MOST_ROUNDS; round++) {
        find_duals(linear);
        if (!entering(linear, &column) || !pivot(linear, column))
            break;
    }
    double total = 0.0;
    for (size_t row = 0; row < linear->rows; row++)
        if (linear->basis[row] >= 0)
            total += linear->columns.items[linear->basis[row]].cost *
                     linear->value[row];
    return total;
}
