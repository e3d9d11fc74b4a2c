/* Inside the planner of sheets: plans while they are searched. */
#ifndef SEAMWRIGHT_SHEET_TRIAL_H
#define SEAMWRIGHT_SHEET_TRIAL_H

#include "sheet_fill.h"

/* Sheets of one pattern. */
struct sheet_used {
    struct sheet_pattern pattern;
    const size_t *made; /* by size, of one sheet */
    size_t repeat;
};

/* `memory` holds all of it, so that a trial goes in one piece. */
struct sheet_trial {
    struct arena *memory;
    LIST(struct sheet_used) used;
    size_t count; /* of sheets */
};

struct sheet_trial sheet_trial_begin(void);
void sheet_trial_end(struct sheet_trial *trial);

/* Adds sheets; what they make is no longer asked for.
 * requires: `made` times `repeat` is within `left`. */
void sheet_trial_add(struct sheet_trial *trial, size_t sizes,
                     const struct sheet_pattern *pattern, const size_t *made,
                     size_t repeat, size_t *left);

/* How often a sheet can be cut within `left`; 0 where it makes nothing. */
size_t sheet_repeats(size_t sizes, const size_t *made, const size_t *left);

/* A copy that keeps to `left`: what is too much is taken out. `made` tells what
 * the copy makes.
 * requires: strips that do not repeat, as the filler gives them. */
struct sheet_pattern sheet_pattern_clip(struct arena *arena, size_t sizes,
                                        const struct sheet_pattern *pattern,
                                        const size_t *left, size_t *made);

/* A plan for the caller, settled. */
struct sheet_plan *sheet_trial_plan(struct arena *arena,
                                    const struct sheet_problem *problem,
                                    const struct sheet_trial *trial);

/* Copies a plan's patterns into a trial. */
struct sheet_trial sheet_trial_of(const struct sheet_problem *problem,
                                  const struct sheet_plan *plan);

/* The pieces that a sheet makes, as an area. */
int64_t sheet_made_area(const struct sheet_problem *problem,
                        const size_t *made);

#endif
