/* Rolls of one kind alone: that is a plan of strips from a cloth as wide as the
 * roll is long, all of one height, so the planner of strips answers it. */
#include <string.h>

#include "bolts_goals.h"
#include "roll.h"

/* A strip is a roll, its pieces are cuts. The planner of strips may make more
 * of a size than is asked for; what nobody asked for is not cut. */
static void add_strip(struct arena *arena, const struct bolts_store *store,
                      const struct roll_strip *strip, size_t *made,
                      struct bolts_answer *answer, struct bolts_rest *rest)
{
    memset(made, 0, store->cuts * sizeof *made);
    for (size_t c = 0; c < strip->cuts.count; c++)
        made[strip->cuts.items[c].size] += strip->cuts.items[c].count;
    /* The last strips of a pattern may be asked for only in part. */
    for (size_t times = strip->repeat; times > 0;) {
        size_t whole = times, any = 0;
        for (size_t i = 0; i < store->cuts; i++) {
            if (made[i] > rest->demand[i])
                made[i] = rest->demand[i];
            if (made[i] > 0 && rest->demand[i] / made[i] < whole)
                whole = rest->demand[i] / made[i];
            any += made[i];
        }
        if (any == 0)
            return;
        bolts_pick_add(arena, store, answer, rest, 0, made, whole);
        times -= whole;
    }
}

/* Its bound is one in whole numbers, too. Where the shelf has fewer rolls than
 * the plan opens there may still be a plan, which is searched elsewhere. */
bool bolts_alike(struct arena *arena, struct bolts_store *store, uint64_t work,
                 struct bolts_answer *answer, int64_t *fewest)
{
    if (store->kinds != 1 || store->kind[0].step > 0)
        return false;
    struct arena *scratch = arena_create();
    struct roll_size *sizes =
        ARENA_ARRAY(scratch, struct roll_size, store->cuts);
    size_t *made = ARENA_ARRAY(scratch, size_t, store->cuts);
    struct bolts_rest rest = bolts_rest_all(scratch, store);
    for (size_t i = 0; i < store->cuts; i++)
        sizes[i] = (struct roll_size){.width = store->length[i],
                                      .height = 1,
                                      .demand = store->demand[i],
                                      .name = ""};
    const struct roll_problem problem = {
        .width = store->kind[0].length, .sizes = sizes, .count = store->cuts};
    const struct roll_plan *plan = plan_roll(scratch, &problem, work);
    *fewest = plan->bound;
    const bool enough = plan->length <= (int64_t)store->kind[0].count;
    for (size_t s = 0; enough && s < plan->strips.count; s++)
        add_strip(arena, store, &plan->strips.items[s], made, answer, &rest);
    if (enough)
        bolts_answer_close(store, answer, &rest);
    arena_destroy(scratch);
    return enough;
}
