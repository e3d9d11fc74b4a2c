/* Inside the planner of bolts: what is asked for in its own small numbers, and
 * plans while they are searched. */
#ifndef SEAMWRIGHT_BOLTS_STORE_H
#define SEAMWRIGHT_BOLTS_STORE_H

#include "bolts.h"

__extension__ typedef __int128 bolts_wide;

/* The merits, behind one that stands before all: cuts that no roll gives. A
 * plan is whole where that is 0, so a plan is searched like a better one. */
enum bolts_goal {
    GOAL_MISSING,
    GOAL_COST,
    GOAL_LOST,
    GOAL_OPENED,
    GOAL_AGE,
    BOLTS_GOALS
};

struct bolts_score {
    int64_t of[BOLTS_GOALS];
};

/* A roll of the problem; rolls that no cut fits are left out. */
struct bolts_kind {
    int64_t length, cost, step, step_cost;
    size_t age, count; /* at most as many as there are cuts */
    size_t roll;       /* its index in the problem */
};

/* Lengths are divided by `unit` and costs by `coin`, the largest numbers that
 * divide them all: bounds are rounded up to whole ones of these. */
struct bolts_store {
    size_t cuts;
    int64_t *length; /* by cut, each once, longest first */
    size_t *demand;
    size_t kinds;
    struct bolts_kind *kind;
    int64_t keep, unit, coin;
    uint64_t work; /* done so far */
};

/* `times` rolls of a kind that are cut alike. */
struct bolts_pick {
    size_t kind, times;
    const size_t *made; /* by cut */
    int64_t sum;        /* of the cuts */
};

/* A plan, whole or not. */
struct bolts_answer {
    LIST(struct bolts_pick) picks;
    struct bolts_score score;
};

/* What is left to be planned. */
struct bolts_rest {
    size_t *demand; /* by cut */
    size_t *stock;  /* by kind */
};

/* What a sum is worth in a roll beside its cuts: `factor` for one of each goal.
 */
struct bolts_factors {
    int64_t of[BOLTS_GOALS];
};

/* Worths that prove a bound, in whole numbers: `scale` is one of the goal, or
 * 0 where there is none. For
 * any rest and rolls it is at least
 *   (worths of the rest + factors of what goals before still add
 *    - gain of each roll) / scale. */
struct bolts_proof {
    enum bolts_goal goal;
    int64_t scale;
    int64_t *worth; /* by cut */
    struct bolts_factors factors;
    bolts_wide *gain; /* by kind, at least 0 */
};

/* The problem without what it says twice. requires: each cut fits a roll. */
struct bolts_store bolts_store_make(struct arena *arena,
                                    const struct bolts_problem *problem);

/* What is taken of a roll from which so much is cut: all, or whole steps. */
int64_t bolts_taken(const struct bolts_kind *kind, int64_t sum);

/* What a roll adds to the score of a plan. */
struct bolts_score bolts_score_of(const struct bolts_store *store, size_t kind,
                                  int64_t sum);

/* Below 0 where `a` is better, above 0 where `b` is. */
int bolts_score_compare(const struct bolts_score *a,
                        const struct bolts_score *b);

/* All that the store asks for and has. */
struct bolts_rest bolts_rest_all(struct arena *arena,
                                 const struct bolts_store *store);

/* Adds rolls to an answer, which keeps a copy of `made`, and takes them from
 * the rest. */
void bolts_pick_add(struct arena *arena, const struct bolts_store *store,
                    struct bolts_answer *answer, struct bolts_rest *rest,
                    size_t kind, const size_t *made, size_t times);

/* Says that what is left is missing. */
void bolts_answer_close(const struct bolts_store *store,
                        struct bolts_answer *answer,
                        const struct bolts_rest *rest);

/* Rolls of a kind that any plan opens which is no worse than the score. */
size_t bolts_most_opened(const struct bolts_store *store, size_t kind,
                         const struct bolts_score *score);

/* ---- first plans, bolts_first.c ---- */

/* ensures: the best plan of some simple rules for the rest; added to `answer`,
 * and closed. */
void bolts_first(struct arena *arena, struct bolts_store *store,
                 const struct bolts_rest *rest, struct bolts_answer *answer);

/* ---- the dynamic programme, bolts_exact.c ---- */

/* At most how many steps it takes to look for a plan better than `below`;
 * UINT64_MAX where there are too many states. */
uint64_t bolts_exact_steps(const struct bolts_store *store,
                           const struct bolts_rest *rest,
                           const struct bolts_score *below);

enum bolts_exact_end { BOLTS_NONE_BETTER, BOLTS_BETTER, BOLTS_GAVE_UP };

/* Plans the rest as well as it can be planned, where that is better than
 * `below` by itself; then it is added to `answer`, and closed; else `answer` is
 * as it was. Gives up after `steps`. `proof`, by goal, tells what cannot become
 * better sooner; NULL: nothing does. */
enum bolts_exact_end bolts_exact(struct arena *arena, struct bolts_store *store,
                                 const struct bolts_rest *rest,
                                 const struct bolts_score *below,
                                 const struct bolts_proof *proof,
                                 uint64_t steps, struct bolts_answer *answer);

#endif
