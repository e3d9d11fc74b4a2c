/* Inside the planner: a linear programme that grows by columns, for sheets and
 * leftovers. Least cost, each row at least as much as is asked. */
#ifndef SEAMWRIGHT_LINEAR_H
#define SEAMWRIGHT_LINEAR_H

#include "simplex.h"

struct linear {
    struct arena *arena;
    /* First the surplus of each row, whose variable is -1 - row; then what was
     * added, whose variables count from 0. */
    LIST(struct simplex_column) columns;
    struct simplex simplex;
    uint64_t work;
};

void linear_init(struct linear *linear, struct arena *arena, size_t rows);

/* A column with an entry for each row. ensures: its variable. */
size_t linear_column(struct linear *linear, double cost, const double *entry);

/* Starts a row with a column that is alone in it, or with its surplus (-1): as
 * much of it as gives what is asked. */
void linear_start(struct linear *linear, size_t row, long column, double asked);

/* Solves over the columns that are there. ensures: `value` and `dual` of the
 * simplex; the cost. Call linear_start for each row before the first time. */
double linear_solve(struct linear *linear);

#endif
