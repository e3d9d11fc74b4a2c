/* Inside the planner of bolts: the linear programme over ways to cut a roll
 * (Gilmore and Gomory, 1961 and 1963, from memory), for one goal, with those
 * before it held. */
#ifndef SEAMWRIGHT_BOLTS_MASTER_H
#define SEAMWRIGHT_BOLTS_MASTER_H

#include "bolts_fill.h"
#include "linear.h"

/* A way to cut a roll of a kind. */
struct bolts_pattern {
    size_t kind;
    const size_t *made; /* by cut */
    int64_t sum;
    uint64_t hash;
};

struct bolts_master {
    struct arena *arena;
    struct bolts_store *store;
    struct bolts_filler filler;
    LIST(struct bolts_pattern) patterns;   /* grows as they are found */
    struct bolts_answer best;              /* the best plan so far */
    struct bolts_proof proof[BOLTS_GOALS]; /* of the best bounds */
    uint64_t random;
};

/* A programme: what is asked for, and what goals before add up to. */
struct bolts_programme {
    struct bolts_rest rest;
    enum bolts_goal goal;
    struct bolts_score held; /* of the goals before */
    int64_t enough;          /* it may stop once the bound is there */
    uint64_t work;           /* or once so much is done in all */
};

struct bolts_solution {
    double *amount; /* by pattern; of those that are found later none */
    size_t count;
    int64_t bound;
    double value;
};

/* ensures: false where the rolls have too many sums. */
bool bolts_master_init(struct bolts_master *master, struct arena *arena,
                       struct bolts_store *store);

/* Adds a pattern, if it is new. */
void bolts_master_add(struct bolts_master *master, size_t kind,
                      const size_t *made);

/* Solves, finding patterns as they are needed. Keeps in `arena` what the
 * solution needs. Where `proof` is not NULL it gets what proves the bound. */
struct bolts_solution
bolts_master_solve(struct bolts_master *master, struct arena *arena,
                   const struct bolts_programme *programme,
                   struct bolts_proof *proof);

/* ---- whole plans, bolts_dive.c ---- */

/* A plan that begins with what the solution is sure of, and goes on with that
 * of what is left, down to few cuts; kept where it is better. `chance`: not
 * always the surest. */
bool bolts_dive(struct bolts_master *master,
                const struct bolts_programme *programme,
                const struct bolts_solution *root, bool chance);

/* Takes some rolls of the best plan away and plans them anew, exactly. */
bool bolts_renew(struct bolts_master *master, uint64_t steps);

#endif
