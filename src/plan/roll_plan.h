/* Inside the planner: what all plans have in common. */
#ifndef SEAMWRIGHT_ROLL_PLAN_H
#define SEAMWRIGHT_ROLL_PLAN_H

#include "roll.h"

/* Takes needless pieces out, orders strips and cuts, joins like strips, adds up
 * the length and the surplus. */
void roll_plan_settle(struct arena *arena, const struct roll_problem *problem,
                      struct roll_plan *plan);

/* The piece's own side across a strip, as it lies with `along`. */
int64_t roll_across(const struct roll_size *size, int64_t along, int64_t strip);

#endif
