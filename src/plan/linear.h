/* Inside the planner of sheets: a linear programme that grows by columns. Least
 * cost, each row at least as much as is asked, by the revised simplex method.
 */
#ifndef SEAMWRIGHT_LINEAR_H
#define SEAMWRIGHT_LINEAR_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

struct linear_column {
    double cost;
    const double *entry; /* by row */
};

struct linear {
    struct arena *arena;
    size_t rows;
    LIST(struct linear_column) columns;
    double *inverse; /* of the basis, row by row */
    long *basis;     /* by row: a column, or -1 - row for its surplus */
    double *value;   /* of each basic variable */
    double *dual;    /* what one more of each row would cost */
    double *change;  /* scratch of a pivot */
    uint64_t work;
};

void linear_init(struct linear *linear, struct arena *arena, size_t rows);

/* ensures: its index. `entry` is kept, not copied. */
size_t linear_column(struct linear *linear, double cost, const double *entry);

/* Starts a row with a column that is alone in it, or with its surplus (-1). */
void linear_start(struct linear *linear, size_t row, long column, double asked);

/* Solves over the columns that are there. ensures: `value` and `dual`; the
 * cost. Call linear_start for each row before the first time. */
double linear_solve(struct linear *linear);

#endif
