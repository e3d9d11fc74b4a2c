/* Inside the planner: ways of lying, the knapsack of one strip, and the linear
 * programme over patterns (Gilmore and Gomory, 1961 and 1965). */
#ifndef SEAMWRIGHT_ROLL_MASTER_H
#define SEAMWRIGHT_ROLL_MASTER_H

#include "roll.h"

/* A size as it lies in strips of one height. */
struct roll_way {
    size_t size;
    int64_t along;
};

struct roll_height {
    int64_t height;
    LIST(struct roll_way) ways;
};

struct roll_column {
    size_t height;      /* index */
    const size_t *made; /* by size: pieces in one strip */
};

struct roll_master {
    struct arena *arena;
    const struct roll_problem *problem;
    LIST(struct roll_height) heights; /* rising */
    LIST(struct roll_column) columns; /* grows as patterns are found */
    /* the linear programme */
    double *inverse; /* of the basis, row by row */
    long *basis;     /* a column, or -1 - size for its surplus */
    double *value;   /* of each basic variable */
    double *dual;    /* worth of one piece of each size */
    /* scratch of the knapsack */
    int64_t *best;
    unsigned char *taken;
    uint64_t work;
};

/* ensures: a master over all heights; false where a size fits in none. */
bool roll_master_init(struct roll_master *master, struct arena *arena,
                      const struct roll_problem *problem);

/* The index of the pattern `made` in strips of a height, added if new. */
size_t roll_master_column(struct roll_master *master, size_t height,
                          const size_t *made);

/* Solves the programme for these demands (by size), finding patterns as they
 * are needed. ensures: its value, and `basis`, `value`, `dual`. */
double roll_master_solve(struct roll_master *master, const size_t *demand);

/* The most that one strip of a height can be worth, pieces at `worth` each,
 * at most `most` of a size. `made` gets the pattern, unless NULL. */
int64_t roll_knapsack(struct roll_master *master, size_t height,
                      const int64_t *worth, const size_t *most, size_t *made);

/* A length below which no plan can go, by the duals of the last solution in
 * whole numbers: sum of demand x worth over the best worth per height, up to
 * the next length that heights can add up to. */
int64_t roll_bound(struct roll_master *master, const size_t *demand);

#endif
