/* owner: plan
 *
 * Lengths from rolls, in whole units: which cuts come from which roll, where
 * rolls differ in length, some lie on the shelf and others are bought (the
 * cutting stock problem in one dimension with unequal stock). It knows no
 * cloth: the caller chooses a unit of which all lengths are multiples, and one
 * of money, and takes allowances, end losses and flaws off before.
 *
 * A plan is judged by four merits, each a whole number, less is better, an
 * earlier one outweighs all later ones:
 *
 *   BOLT_COST    what is bought: `cost` of each roll opened, and `step_cost`
 *                for each step that is taken of one sold by length
 *   BOLT_LOST    the ends of opened rolls that are shorter than `keep`; an end
 *                of `keep` or more goes back to the shelf, and a roll that was
 *                not opened loses nothing
 *   BOLT_OPENED  rolls that are opened, bought ones among them
 *   BOLT_AGE     `age` of each roll opened, added up: older ones first
 *
 * Each has a bound that no plan goes below which is as good in all merits
 * before; it is computed in whole numbers alone. Merit k is proven where it
 * equals its bound and each merit before it is proven. Where one is not proven,
 * the bounds of the later ones hold for plans that are as good as this one in
 * the merits before.
 *
 * requires, of all functions: lengths above 0; no length, cost or age below 0;
 * a step divides the length of its roll and costs something; the lengths asked
 * for add up to less than BOLTS_MOST, and so do the costs and the ages of as
 * many rolls as there are cuts. No two cuts need be of different lengths.
 */
#ifndef SEAMWRIGHT_BOLTS_H
#define SEAMWRIGHT_BOLTS_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

/* Sums below it leave room for what is computed with them in 64 bits. */
#define BOLTS_MOST ((int64_t)1 << 40)

/* Of `bolt_roll.count`: as many as are wanted. */
#define BOLT_WITHOUT_LIMIT SIZE_MAX

/* `count` cuts of a length. */
struct bolt_cut {
    int64_t length;
    size_t count; /* 0 is allowed */
};

/* Rolls that are alike in all that counts. */
struct bolt_roll {
    int64_t length; /* that can be used */
    size_t count;   /* or BOLT_WITHOUT_LIMIT */
    int64_t cost;   /* of one that is opened; 0: it lies on the shelf */
    size_t age;     /* rank among the shelf's, 0 the oldest; 0 where bought */
    /* Sold by length: any multiple of `step` up to `length` may be taken, at
     * `step_cost` each (beside `cost`), and the roll ends there. 0: sold, or
     * lying there, as a whole. */
    int64_t step, step_cost;
};

struct bolts_problem {
    const struct bolt_cut *cuts;
    size_t cut_count;
    const struct bolt_roll *rolls;
    size_t roll_count;
    int64_t keep; /* an end of it, or longer, is not lost; 0: none is lost */
};

enum bolt_merit { BOLT_COST, BOLT_LOST, BOLT_OPENED, BOLT_AGE, BOLT_MERITS };

/* `count` cuts of one kind in a roll. */
struct bolt_part {
    size_t cut; /* index in the problem */
    size_t count;
};

/* `repeat` rolls that are opened and cut alike. */
struct bolt_use {
    size_t roll;                  /* index in the problem */
    LIST(struct bolt_part) parts; /* longest first; never empty */
    int64_t taken; /* the roll's length, or what is bought of it by steps */
    int64_t left;  /* `taken` less the cuts */
    size_t repeat;
};

enum bolts_end {
    BOLTS_PLANNED,
    BOLTS_TOO_LONG, /* a cut is longer than every roll: see `too_long` */
    BOLTS_NO_PLAN,  /* it is proven that the rolls do not suffice */
    BOLTS_NOT_FOUND /* no plan was found, but there may be one */
};

struct bolts_plan {
    enum bolts_end end;
    size_t too_long; /* index of the longest cut; of BOLTS_TOO_LONG only */
    /* All below only where BOLTS_PLANNED. Uses stand in the order of the
     * rolls, of one roll the fullest first. */
    LIST(struct bolt_use) uses;
    int64_t merit[BOLT_MERITS], bound[BOLT_MERITS];
    bool proven[BOLT_MERITS];
};

/* How much work may be spent on one problem: steps of the inner loops, about
 * a nanosecond each. Counted, not timed, so that one problem gives one plan on
 * every machine. So much is for one hard problem of a hundred lengths and more;
 * what an order asks of one cloth mostly takes a thousandth of it, and little
 * is gained by more than BOLTS_CLOTH_WORK. */
#define BOLTS_WORK ((uint64_t)4000000000)
#define BOLTS_CLOTH_WORK ((uint64_t)10000000)

/* ensures: never NULL. Without any cuts: BOLTS_PLANNED, nothing opened. */
struct bolts_plan *plan_bolts(struct arena *arena,
                              const struct bolts_problem *problem,
                              uint64_t work);

/* Judges a plan by itself, whoever made it: BOLTS_PLANNED, each cut as often as
 * it is asked for, no roll overfull or opened more often than it is there,
 * merits as they add up from the uses, none below its bound, and proven as is
 * said above. It does not judge the bounds. */
bool bolts_hold(const struct bolts_problem *problem,
                const struct bolts_plan *plan);

#endif
