/* Inside the planner of sheets: what all plans have in common. */
#ifndef SEAMWRIGHT_SHEET_PLAN_H
#define SEAMWRIGHT_SHEET_PLAN_H

#include "sheets.h"

/* A copy that shares nothing with the pattern. */
struct sheet_pattern sheet_pattern_copy(struct arena *arena,
                                        const struct sheet_pattern *pattern);

/* Orders strips and cuts of a pattern, joins like ones, and leaves out what is
 * empty. */
void sheet_pattern_settle(struct sheet_pattern *pattern);

/* 0 where two settled patterns are cut alike. */
int sheet_pattern_compare(const struct sheet_pattern *a,
                          const struct sheet_pattern *b);

/* Settles all patterns and joins like ones; the sheet that leaves the largest
 * rectangle comes last. Counts the sheets. */
void sheet_plan_settle(const struct sheet_problem *problem,
                       struct sheet_plan *plan);

/* The rectangle above the last strip of a sheet, as an area. */
int64_t sheet_pattern_rest(const struct sheet_problem *problem,
                           const struct sheet_pattern *pattern);

/* Lays a pattern out piece by piece. `made` is added to. ensures: false where
 * a piece lies outside, over another, or is no piece of the list. */
bool sheet_pattern_holds(const struct sheet_problem *problem,
                         const struct sheet_pattern *pattern, size_t *made);

#endif
