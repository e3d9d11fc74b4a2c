/* All columns are kept, and all are looked at: there are few. */
#include "linear.h"

enum { MOST_ROUNDS = 4000 };

/* The surplus of a row takes away what is too much, and costs nothing. */
void linear_init(struct linear *linear, struct arena *arena, size_t rows)
{
    struct simplex_entry *entries =
        ARENA_ARRAY(arena, struct simplex_entry, rows);
    *linear = (struct linear){.arena = arena};
    simplex_init(&linear->simplex, arena, rows);
    for (size_t row = 0; row < rows; row++) {
        entries[row] = (struct simplex_entry){row, -1.0};
        *LIST_ADD(arena, &linear->columns) =
            (struct simplex_column){-1 - (long)row, 0.0, &entries[row], 1};
    }
}

/* Without zeros, as a sheet holds few sizes of many. A column may join at any
 * time: the basis does not hold it yet. */
size_t linear_column(struct linear *linear, double cost, const double *entry)
{
    const size_t rows = linear->simplex.rows;
    const size_t index = linear->columns.count - rows;
    struct simplex_entry *entries =
        ARENA_ARRAY(linear->arena, struct simplex_entry, rows);
    size_t count = 0;
    for (size_t row = 0; row < rows; row++)
        if (entry[row] < 0.0 || entry[row] > 0.0)
            entries[count++] = (struct simplex_entry){row, entry[row]};
    *LIST_ADD(linear->arena, &linear->columns) =
        (struct simplex_column){(long)index, cost, entries, count};
    return index;
}

void linear_start(struct linear *linear, size_t row, long column, double asked)
{
    const struct simplex_column *own =
        &linear->columns
             .items[column < 0 ? row : linear->simplex.rows + (size_t)column];
    simplex_start(&linear->simplex, row, own->variable, own->cost,
                  own->entries[0].value, asked);
}

/* The column that saves most for one of it; NULL if none. The largest gain
 * first (Dantzig's rule, 1963); gains below 1e-7 are rounding, and following
 * them could circle. */
static const struct simplex_column *entering(const struct linear *linear)
{
    const double *dual = linear->simplex.dual;
    const struct simplex_column *best = NULL;
    double most = 1e-7;
    for (size_t c = 0; c < linear->columns.count; c++) {
        const struct simplex_column *column = &linear->columns.items[c];
        double gain = -column->cost;
        for (size_t i = 0; i < column->count; i++)
            gain += dual[column->entries[i].row] * column->entries[i].value;
        if (gain <= most)
            continue;
        most = gain;
        best = column;
    }
    return best;
}

/* Work is counted as if no entry were 0. The limit on rounds only guards
 * against circling. */
double linear_solve(struct linear *linear)
{
    const size_t rows = linear->simplex.rows;
    for (int round = 0; round < MOST_ROUNDS; round++) {
        simplex_duals(&linear->simplex);
        linear->work += rows * linear->columns.count;
        const struct simplex_column *column = entering(linear);
        if (column == NULL || !simplex_pivot(&linear->simplex, column))
            break;
        linear->work += 2 * rows * rows;
    }
    return simplex_total(&linear->simplex);
}
