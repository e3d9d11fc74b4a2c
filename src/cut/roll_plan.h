/* Inside the planner: what all plans have in common. */
#ifndef SEAMWRIGHT_ROLL_PLAN_H
#define SEAMWRIGHT_ROLL_PLAN_H

#include "roll.h"

/* Orders strips and cuts, joins like strips, adds up the length. */
void roll_plan_settle(struct roll_plan *plan);

#endif
