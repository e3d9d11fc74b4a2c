/* owner: plan
 *
 * Strips from a roll of cloth, in whole units: which pieces go side by side in
 * each strip so that the strips together take the least length, with a bound
 * that no plan of this kind can beat.
 *
 * Two stages: strips across the width, each subcut along its length. In an
 * exact plan every piece is as high as its strip; in a trimmed one it may be
 * lower, and is trimmed by one more cut. A pattern says how many pieces of each
 * size one strip holds; the last strips of a pattern may be cut only in part.
 */
#ifndef SEAMWRIGHT_ROLL_H
#define SEAMWRIGHT_ROLL_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

struct roll_size {
    int64_t width, height; /* along the strip and across it, as it lies */
    size_t demand;
    bool turns; /* may lie the other way: no print or grain forbids it */
    const char *name;
};

struct roll_problem {
    int64_t width; /* of the cloth between its selvages */
    bool trimmed;  /* pieces may be lower than their strip */
    const struct roll_size *sizes;
    size_t count;
    bool folded; /* strips are subcut folded, see roll_opened */
};

/* `count` pieces of one size in a strip. */
struct roll_cut {
    size_t size;
    size_t count;
    int64_t along; /* the piece's side along the strip */
};

struct roll_strip {
    int64_t height;
    LIST(struct roll_cut) cuts; /* longest first */
    size_t repeat;
};

struct roll_plan {
    LIST(struct roll_strip) strips; /* highest first */
    int64_t length;                 /* of all strips together */
    int64_t bound;                  /* no plan of this kind is shorter */
    /* By size: pieces that the strips give beyond what is asked for. The last
     * strips of a pattern are cut only in part, and leave them out. NULL where
     * nothing was said of it. */
    size_t *surplus;
};

/* What a person has to do: a line for each pattern, a ruler setting for each
 * height and for each width in a pattern, a trim for each lower size. */
struct roll_effort {
    size_t lines, settings, trims;
};

/* How much work may be spent: steps of the inner loops, about half a nanosecond
 * each here, so that so many take a second. Counted, not timed, so that one
 * list gives one plan on every machine. */
enum { ROLL_WORK = 2000000000 };

/* Of longer lists the linear programme is solved once, and strips are planned
 * anew a few at a time: its bound and they meet within a hundredth or so. They
 * are not simplified. */
enum { ROLL_MOST_SIZES = 130 };

/* What is worth spending on each of `plan_roll` and `simplify_roll`: less for
 * few sizes, ROLL_WORK for many. Up to 12 sizes a tenth of a second for both.
 */
uint64_t roll_work(const struct roll_problem *problem);

/* The same for `plan_roll` where one list is all that is asked for: of 20 to 60
 * sizes the shortest plans that are known take up to three times as much. */
uint64_t roll_alone_work(const struct roll_problem *problem);

/* The same for `simplify_roll` where one list is all that is asked for: a plan
 * of few lines takes longer to find than a short one, most where hardly more
 * cloth is sold than the shortest takes. Half a second for few sizes. */
uint64_t roll_simple_work(const struct roll_problem *problem);

/* ensures: a plan; NULL where a piece fits in no strip. */
struct roll_plan *plan_roll(struct arena *arena,
                            const struct roll_problem *problem, uint64_t work);

/* The same where one list is all that is asked for: of hard lists mostly a
 * shorter plan, where there is work enough (roll_alone_work). */
struct roll_plan *plan_roll_alone(struct arena *arena,
                                  const struct roll_problem *problem,
                                  uint64_t work);

/* Each size in strips of its own, the better way round. NULL as above. */
struct roll_plan *plan_roll_by_hand(struct arena *arena,
                                    const struct roll_problem *problem);

/* Without a search: the pieces, highest first, each into the strip that it
 * fills best. Grows little faster than the list. NULL as above. */
struct roll_plan *plan_roll_simply(struct arena *arena,
                                   const struct roll_problem *problem);

/* Is so much work enough to begin a search with? A list of n sizes takes some
 * 40,000 n^2 steps before its first plan, or 60 times that a size where it is
 * planned in parts. */
bool roll_searches(const struct roll_problem *problem, uint64_t work);

/* The simplest plan that is found within `budget` of length, starting from
 * `plan`, which must fit it; NULL for more than ROLL_MOST_SIZES. */
struct roll_plan *simplify_roll(struct arena *arena,
                                const struct roll_problem *problem,
                                const struct roll_plan *plan, int64_t budget,
                                uint64_t work);

/* Lengths below which there is no plan of this kind: of all pieces side by side
 * without a gap, which is soon found; and of the linear programme, which is
 * mostly that of the shortest plan. requires: that there is a plan. */
int64_t roll_area_bound(const struct roll_problem *problem);
int64_t roll_bound(const struct roll_problem *problem);

/* Some plan within a budget, another for each seed, or NULL where `work` does
 * not find one; `work` gets what was done. Its bound is not set. */
struct roll_plan *roll_plan_within(struct arena *arena,
                                   const struct roll_problem *problem,
                                   int64_t budget, uint64_t seed,
                                   uint64_t *work);

struct roll_effort roll_effort(const struct roll_problem *problem,
                               const struct roll_plan *plan);

/* How many strips must be opened, as one of their cuts is of an odd number of
 * pieces; those that one piece fills are not. Of two plans of equal effort,
 * that of a problem with `folded` strips opens fewer, as far as is soon found.
 */
size_t roll_opened(const struct roll_problem *problem,
                   const struct roll_plan *plan);

/* Lines, settings and trims below which there is no plan of this kind within
 * the budget with at most so many lines; 0 where there are too many sizes to
 * tell, SIZE_MAX where there is no such plan. */
size_t roll_least_effort(const struct roll_problem *problem, int64_t budget,
                         size_t lines);

/* A plan of that effort, the shortest that is found, its bound not set; NULL
 * where none is found. `best`: none of that effort is shorter, and of `folded`
 * strips none opens fewer. `effort` gets the least in any number of lines. */
struct roll_plan *roll_least_plan(struct arena *arena,
                                  const struct roll_problem *problem,
                                  int64_t budget, size_t *effort, bool *best);

/* Rebuilds the plan piece by piece. ensures: true where all demands are met,
 * every strip fits the width and every piece its strip, and the length and the
 * surplus are what the strips say. */
bool roll_plan_holds(const struct roll_problem *problem,
                     const struct roll_plan *plan);

#endif
