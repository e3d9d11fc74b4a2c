/* Inside the planner: the basis of a linear programme, which the revised
 * simplex method exchanges variable by variable. Least cost. What a variable is
 * and which one enters is the business of its users, since each knows its
 * columns in a way of its own: roll_master.c, and linear.c for sheets. */
#ifndef SEAMWRIGHT_SIMPLEX_H
#define SEAMWRIGHT_SIMPLEX_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

/* What one of a variable adds to a row. */
struct simplex_entry {
    size_t row;
    double value;
};

/* A variable; `entries` only where they are not 0, each row at most once. */
struct simplex_column {
    long variable; /* any number by which its user knows it */
    double cost;
    const struct simplex_entry *entries;
    size_t count;
};

struct simplex {
    size_t rows;
    double *inverse; /* of the basis, row by row */
    long *basis;     /* by row: its variable */
    double *cost;    /* of each basic variable */
    double *value;   /* how much of it is bought */
    double *dual;    /* what one more of each row would cost */
    double *change;  /* scratch of a pivot */
};

/* Memory for at most so many rows; `rows` may then be set to fewer. */
void simplex_init(struct simplex *simplex, struct arena *arena, size_t rows);

/* Starts a row with a variable that is in no other row: as much of it as gives
 * what is asked. Started so, all rows make a diagonal basis. */
void simplex_start(struct simplex *simplex, size_t row, long variable,
                   double cost, double entry, double asked);

/* Computes the duals of the basis. */
void simplex_duals(struct simplex *simplex);

/* Brings a variable into the basis for the one that falls to 0 first. False
 * where nothing limits it; then nothing was changed. */
bool simplex_pivot(struct simplex *simplex,
                   const struct simplex_column *column);

/* The inverse of the basis afresh: `columns` by row, those of `basis`. Adds to
 * `work` the steps that it took. False where they are no basis. */
bool simplex_invert(struct simplex *simplex,
                    const struct simplex_column *columns, uint64_t *work);

/* The cost of all that is bought. */
double simplex_total(const struct simplex *simplex);

#endif
