/* Inside the planner: which way each piece lies, in long exact lists. */
#ifndef SEAMWRIGHT_ROLL_TURN_H
#define SEAMWRIGHT_ROLL_TURN_H

#include "roll.h"

struct roll_turned {
    LIST(struct roll_strip) strips;
    int64_t length; /* INT64_MAX where nothing was tried */
};

/* ensures: the strips of a whole exact plan; none where there are too many
 * pieces of each size, or none that turns. Ends where a plan is as short as
 * `bound`. `work` gets what was done. */
struct roll_turned roll_turn(struct arena *arena,
                             const struct roll_problem *problem, int64_t bound,
                             uint64_t *work);

#endif
