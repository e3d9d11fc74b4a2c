/* Inside the planner: lists of hundreds of sizes. */
#ifndef SEAMWRIGHT_ROLL_LARGE_H
#define SEAMWRIGHT_ROLL_LARGE_H

#include "roll.h"

/* ensures: a plan and its bound. requires: that there is one, and that each
 * size is asked for. `work` gets what was done. */
struct roll_plan *plan_large_roll(struct arena *arena,
                                  const struct roll_problem *problem,
                                  uint64_t *work);

#endif
