/* Inside the planner: the basis of a linear programme, which the revised
 * simplex method exchanges variable by variable. Least cost. What a variable is
 * and which one enters is the business of its users, since each knows its
 * columns in a way of its own: roll_master.c, and linear.c for sheets. */
#ifndef SEAMWRIGHT_SIMPLEX_H
#define SEAMWRIGHT_SIMPLEX_H

#include "basis.h"

/* A variable; `entries` only where they are not 0, each row at most once. */
struct simplex_column {
    long variable; /* any number by which its user knows it */
    double cost;
    const struct simplex_entry *entries;
    size_t count;
};

struct simplex {
    size_t rows;
    struct basis columns; /* those of the basis, by row */
    long *basis;          /* by row: its variable */
    double *cost;         /* of each basic variable */
    double *value;        /* how much of it is bought */
    double *dual;         /* what one more of each row would cost */
    double *asked;        /* by row */
    double *change;       /* scratch of a pivot */
    double *entering;
};

/* Memory for at most so many rows. */
void simplex_init(struct simplex *simplex, struct arena *arena, size_t rows);

/* Begins with so many rows, at most those that there is memory for. */
void simplex_begin(struct simplex *simplex, size_t rows);

/* Starts a row with a variable that is in no other row: as much of it as gives
 * what is asked. Started so, all rows make a diagonal basis. */
void simplex_start(struct simplex *simplex, size_t row, long variable,
                   double cost, double entry, double asked);

/* Starts all rows with other columns, by row. False where they are no basis.
 * Amounts below 0 are lifted to 0: they are taken for rounding. */
bool simplex_restart(struct simplex *simplex,
                     const struct simplex_column *columns, const double *asked);

/* Computes the duals of the basis. */
void simplex_duals(struct simplex *simplex);

/* Brings a variable into the basis for the one that falls to 0 first. False
 * where nothing limits it; then nothing was changed. */
bool simplex_pivot(struct simplex *simplex,
                   const struct simplex_column *column);

/* The cost of all that is bought. */
double simplex_total(const struct simplex *simplex);

#endif
