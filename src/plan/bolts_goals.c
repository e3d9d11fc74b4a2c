/* stub to be replaced */
#include "bolts_goals.h"

void bolts_reach_goals(struct arena *arena, struct bolts_store *store,
                       uint64_t work, struct bolts_answer *answer,
                       struct bolts_score *bound)
{
    const struct bolts_rest all = bolts_rest_all(arena, store);
    bolts_first(arena, store, &all, answer);
    struct bolts_answer better = {0};
    if (bolts_exact_steps(store, &all, &answer->score) > work)
        return;
    if (bolts_exact(arena, store, &all, &answer->score, &better))
        *answer = better;
    *bound = answer->score;
}
