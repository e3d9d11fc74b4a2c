/* owner: plan
 *
 * The least that covers everything: of candidates that each bring some facts at
 * a weight, those that bring all facts together at the least weight. Knows no
 * quilt. Whole numbers only, so what is claimed to be least is.
 */
#ifndef SEAMWRIGHT_COVER_H
#define SEAMWRIGHT_COVER_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

/* Compared by the first number, then by the second. */
struct cover_weight {
    int64_t first, second;
};

struct cover_candidate {
    LIST(size_t) facts; /* numbers below `facts` of the problem, each once */
    struct cover_weight weight;
};

struct cover_problem {
    size_t facts;
    LIST(struct cover_candidate) candidates;
    size_t most_work; /* looks at a candidate before the search gives up */
};

struct cover_plan {
    bool possible;                      /* some candidate brings each fact */
    LIST(size_t) chosen;                /* as the numbers of candidates rise */
    struct cover_weight weight, bound;  /* no cover weighs less than `bound` */
    bool least;                         /* the bound is reached */
    size_t facts_left, candidates_left; /* behind the reductions */
    size_t work;
};

/* Weighted set cover, exact up to `most_work`; the same plan on every run.
 * requires: weights that are 0 or more, each number below 2^40 and the sums of
 *   all below 2^62. ensures: a cover from which nothing can be left out, and a
 *   bound; where it is not possible, nothing is chosen. */
struct cover_plan plan_cover(struct arena *arena,
                             const struct cover_problem *problem);

/* ensures: below 0, 0 or above 0 as a is less than, equal to, more than b. */
int cover_compare(struct cover_weight a, struct cover_weight b);
struct cover_weight cover_add(struct cover_weight a, struct cover_weight b);

#endif
