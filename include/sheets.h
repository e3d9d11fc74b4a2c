/* owner: plan
 *
 * Pieces from identical sheets, such as fat quarters, in whole units: which
 * sheets are cut how, so that few sheets do, with a bound that no plan of this
 * kind can beat.
 *
 * Three stages: a sheet is cut into strips from edge to edge, a strip into
 * segments, a segment is sliced into equal pieces of one size; what is left
 * above the last slice is trimmed off. Strips run across the sheet, or down it.
 */
#ifndef SEAMWRIGHT_SHEETS_H
#define SEAMWRIGHT_SHEETS_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"
#include "roll.h"

/* Which way the first cuts of a sheet may run. */
enum sheet_first_cut { SHEET_CUT_EITHER, SHEET_CUT_ACROSS, SHEET_CUT_DOWN };

struct sheet_problem {
    int64_t width, height;
    const struct roll_size *sizes;
    size_t count;
    enum sheet_first_cut first;
};

/* `beside` equal segments side by side, each sliced into `stack` pieces. */
struct sheet_cut {
    size_t size;
    size_t beside, stack;
    int64_t along, across; /* the piece's sides along the strip and across */
};

struct sheet_strip {
    int64_t height;
    LIST(struct sheet_cut) cuts; /* longest first */
    size_t repeat;
};

struct sheet_pattern {
    bool down; /* strips run down: their heights add up to the width */
    LIST(struct sheet_strip) strips; /* highest first */
    size_t repeat;
};

struct sheet_plan {
    LIST(struct sheet_pattern) sheets; /* the one with most left comes last */
    size_t count;                      /* sheets that are cut */
    size_t bound;                      /* no plan of this kind has fewer */
};

/* What a person has to do: a line for each pattern of sheets and of strips, a
 * ruler setting for each height of strips and each width in a strip, a trim for
 * each cut that is lower than its strip. */
struct sheet_effort {
    size_t patterns, strips, settings, trims;
};

/* How much work may be spent: cells of the tables that are filled. SHEET_WORK
 * takes about 0.8 s here, SHEET_SIMPLE_WORK 0.1 s. A list that is all that is
 * asked for gets eight times that: it takes a tenth and more of the steps away.
 * Counted, not timed, so that one list gives one plan on every machine. */
enum {
    SHEET_WORK = 1600000000,
    SHEET_SIMPLE_WORK = 160000000,
    SHEET_SIMPLE_ALONE_WORK = 8 * SHEET_SIMPLE_WORK
};

/* ensures: a plan that makes exactly what is asked, of the fewest sheets that
 * are found within `work`; NULL where a piece fits on no sheet. */
struct sheet_plan *plan_sheets(struct arena *arena,
                               const struct sheet_problem *problem,
                               uint64_t work);

/* The same where one list is all that is asked for: never more sheets, for as
 * much work again where their fewest is not proved. */
struct sheet_plan *plan_sheets_alone(struct arena *arena,
                                     const struct sheet_problem *problem,
                                     uint64_t work);

/* Each size on sheets of its own, the better way round. NULL as above. */
struct sheet_plan *plan_sheets_by_hand(struct arena *arena,
                                       const struct sheet_problem *problem);

/* The plan of least effort that is found with no more sheets than `plan`; of
 * equal effort, the one that leaves the largest rectangle whole. */
struct sheet_plan *simplify_sheets(struct arena *arena,
                                   const struct sheet_problem *problem,
                                   const struct sheet_plan *plan,
                                   uint64_t work);

/* requires: a plan as the functions above give it. */
struct sheet_effort sheet_effort(const struct sheet_plan *plan);

/* All steps of an effort added up. */
size_t sheet_effort_total(struct sheet_effort effort);

/* Lays every piece out at its place. ensures: true where all are there exactly
 * as often as asked, none overlaps another, all lie inside their sheet and
 * strip, none is turned against its grain, and the count is right. */
bool sheet_plan_holds(const struct sheet_problem *problem,
                      const struct sheet_plan *plan);

/* Cloth that lies there already and costs nothing. */
struct leftover {
    int64_t width, height;
    size_t count;
};

/* A pattern for sheets of one kind of leftover. */
struct leftover_use {
    size_t kind;
    struct sheet_pattern pattern;
};

struct leftover_fill {
    LIST(struct leftover_use) uses;
    size_t *taken; /* by size: pieces that the leftovers give */
};

/* Fills each leftover with what is worth most, `worth` by size of the problem;
 * its demands are the limit, its width is not looked at. */
struct leftover_fill *plan_leftovers(struct arena *arena,
                                     const struct roll_problem *problem,
                                     const struct leftover *kinds, size_t count,
                                     const int64_t *worth);

/* Leftovers first, the rest from the roll; pieces must fit on the roll. */
struct leftover_plan {
    const struct leftover_fill *fill;
    struct roll_problem rest; /* the demands that the roll must meet */
    struct roll_plan *roll;   /* its bound holds with any use of leftovers */
    bool soon;                /* the goal was met, and no shorter one sought */
};

/* Asked once: how long may the roll be that is good enough, where none can be
 * shorter than the bound? */
struct leftover_goal {
    int64_t (*enough)(const void *asker, int64_t bound);
    const void *asker;
};

/* ensures: a plan, no longer than the roll alone for a quarter of the work, or
 * one that meets the goal (which may be NULL); NULL where a piece is wider than
 * the roll. */
struct leftover_plan *plan_with_leftovers(struct arena *arena,
                                          const struct roll_problem *problem,
                                          const struct leftover *kinds,
                                          size_t count, uint64_t work,
                                          const struct leftover_goal *goal);

/* The proof of such a plan, piece by piece, as for sheets. */
bool leftover_plan_holds(const struct roll_problem *problem,
                         const struct leftover *kinds, size_t count,
                         const struct leftover_plan *plan);

#endif
