/* Inside the planner: plans of few lines. */
#ifndef SEAMWRIGHT_ROLL_SIMPLE_H
#define SEAMWRIGHT_ROLL_SIMPLE_H

#include "roll_master.h"

enum { MOST_MIXED = 12, MOST_PATTERNS = 256 };

/* A pattern, its sizes in the order in which they were laid. */
struct simple {
    size_t height;
    size_t sizes[MOST_MIXED], counts[MOST_MIXED];
    int64_t along[MOST_MIXED];
    size_t mixed;
    size_t repeat;
};

/* A whole plan of such patterns, and what it costs in cloth and in work. */
struct layout {
    struct simple patterns[MOST_PATTERNS];
    size_t count;
    int64_t length;
    size_t effort;
    size_t opened; /* strips, where they are subcut folded */
};

/* `now` is the plan that is changed, `trial` the changed one, `local` the
 * simplest of this descent, `first` where all descents begin. */
struct simplifier {
    struct roll_master master;
    struct arena *arena;
    struct arena *measured; /* empty between two layouts that are measured */
    const double *dual;
    int64_t budget;
    int64_t bound; /* no plan is shorter */
    size_t least;  /* no plan within the budget takes less effort */
    struct layout *now, *trial, *first, *local, *best;
    size_t *left;
    /* Length that the patterns to come may waste, measured by the duals. */
    double slack;
    double weight; /* length that one step of effort may cost, this round */
    uint64_t random;
    /* scratch of the filling of one strip */
    double *filled;
    unsigned char *chosen;
};

/* A number from 0 up to, but not, `below`. */
uint64_t simple_chance(struct simplifier *simplifier, uint64_t below);

/* In whole steps of the problem. */
int64_t simple_height(const struct simplifier *simplifier, size_t height);

/* Pieces of the pattern's part `k` that are still asked for; more are worth
 * nothing. */
size_t simple_useful(const struct simplifier *simplifier,
                     const struct simple *pattern, size_t k);

/* What the pattern wastes, measured by the duals. */
double simple_loss(const struct simplifier *simplifier,
                   const struct simple *pattern);

/* Adds the best pattern that holds this size, over all heights that it can lie
 * in. False where none fits the slack. */
bool simple_lay(struct simplifier *simplifier, size_t size);

#endif
