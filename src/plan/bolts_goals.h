/* Inside the planner of bolts: one merit after the other. */
#ifndef SEAMWRIGHT_BOLTS_GOALS_H
#define SEAMWRIGHT_BOLTS_GOALS_H

#include "bolts_store.h"

/* ensures: the best answer that is found within `work`, and bounds: that of a
 * goal holds for all plans that are as good in all goals before. */
void bolts_reach_goals(struct arena *arena, struct bolts_store *store,
                       uint64_t work, struct bolts_answer *answer,
                       struct bolts_score *bound);

/* The same from a first answer and from bounds, always by linear programmes:
 * for many cuts. ensures: false where rolls have too many sums; then nothing
 * was done. */
bool bolts_reach_by_programmes(struct arena *arena, struct bolts_store *store,
                               uint64_t work, struct bolts_answer *answer,
                               struct bolts_score *bound);

/* ---- rolls of one kind, bolts_alike.c ---- */

/* ensures: a plan, where all rolls are of one kind and enough are there; and
 * how few of them any plan opens, where they are of one kind. */
bool bolts_alike(struct arena *arena, struct bolts_store *store, uint64_t work,
                 struct bolts_answer *answer, int64_t *fewest);

#endif
