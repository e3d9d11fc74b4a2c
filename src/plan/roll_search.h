/* Inside the planner: the search for whole strips. */
#ifndef SEAMWRIGHT_ROLL_SEARCH_H
#define SEAMWRIGHT_ROLL_SEARCH_H

#include "roll_master.h"

/* `times` strips of a pattern. */
struct roll_pick {
    size_t column, times;
};

struct roll_picks {
    struct roll_pick *items;
    size_t count, capacity;
};

/* The plan at hand and the best so far, as patterns of the master. */
struct roll_search {
    struct roll_master master;
    struct arena *arena;
    struct roll_picks now, best;
    int64_t best_length; /* INT64_MAX before the first plan */
    int64_t bound;       /* no plan is shorter */
    const size_t *demand;
    size_t *left, *made; /* by size; scratch */
    /* Programmes of a dive begin with patterns that are near to what they buy:
     * sooner done, so that more dives are made, but not all from elsewhere. */
    bool warm;
    size_t *near; /* these patterns; at most one a row */
    size_t near_count;
    uint64_t random;
};

/* requires: `problem` has a plan. */
void roll_search_init(struct roll_search *search, struct arena *arena,
                      const struct roll_problem *problem);

/* A whole plan that begins with what the solution of the master is sure of;
 * kept where it is no longer than the best. */
void roll_search_dive(struct roll_search *search);

/* Takes parts of the best plan away and plans them anew, until the best plan
 * meets the bound or the master has done `work`. */
void roll_search_renew(struct roll_search *search, uint64_t work);

/* Branch and price: proves bounds above that of the linear programme, and dives
 * on its way. Ends as above, or with the bound proved. */
void roll_search_branch(struct roll_search *search, uint64_t work);

/* A strip of the best plan; `original` says which size each one is there. */
struct roll_strip roll_search_strip(struct arena *arena,
                                    const struct roll_search *search,
                                    size_t pick, const size_t *original);

#endif
