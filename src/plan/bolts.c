/* From a problem to its plan: first plans by simple rules, then the best one
 * of few cuts by a dynamic programme, of many by linear programmes, merit by
 * merit. Read next: bolts_store.h. */
#include "bolts.h"

#include <stdlib.h>

#include "bolts_goals.h"
#include "bolts_store.h"

/* ---- what can be told at once ---- */

/* The longest cut that is longer than every roll; SIZE_MAX if none. */
static size_t find_too_long(const struct bolts_problem *problem)
{
    /* Of several the longest: whoever mends that has mended all of them. */
    int64_t longest = 0;
    size_t found = SIZE_MAX;
    for (size_t r = 0; r < problem->roll_count; r++)
        if (problem->rolls[r].count > 0 && problem->rolls[r].length > longest)
            longest = problem->rolls[r].length;
    for (size_t i = 0; i < problem->cut_count; i++) {
        const struct bolt_cut *cut = &problem->cuts[i];
        if (cut->count > 0 && cut->length > longest) {
            longest = cut->length;
            found = i;
        }
    }
    return found;
}

/* ---- back to the problem ---- */

/* Which cuts of the problem have the length, and how many each still lacks. */
struct handing {
    struct arena *arena;
    const struct bolts_problem *problem;
    const struct bolts_store *store;
    size_t *lacks; /* by cut of the problem */
    size_t *next;  /* by cut of the store: the one that is served now */
};

/* The cut of the problem that is served next where the store's is cut. */
static size_t serve(struct handing *handing, size_t cut)
{
    const int64_t length = handing->store->length[cut] * handing->store->unit;
    size_t *next = &handing->next[cut];
    while (handing->problem->cuts[*next].length != length ||
           handing->lacks[*next] == 0)
        (*next)++;
    return *next;
}

/* As many rolls as go on without another cut of the problem. */
static size_t alike(struct handing *handing, const size_t *made, size_t times)
{
    for (size_t i = 0; i < handing->store->cuts; i++) {
        if (made[i] == 0)
            continue;
        const size_t whole = handing->lacks[serve(handing, i)] / made[i];
        times = whole < times ? whole : times;
    }
    return times > 0 ? times : 1;
}

/* Cuts of one length go to those who ask for it in their order. */
static void add_parts(struct handing *handing, struct bolt_use *use, size_t cut,
                      size_t count)
{
    while (count > 0) {
        const size_t served = serve(handing, cut);
        const size_t lacks = handing->lacks[served] / use->repeat;
        const size_t given = lacks < count ? lacks : count;
        *LIST_ADD(handing->arena, &use->parts) =
            (struct bolt_part){served, given};
        handing->lacks[served] -= given * use->repeat;
        count -= given;
    }
}

/* A way of cutting may serve several cuts of the problem one after the other:
 * then it becomes several uses. */
static void add_uses(struct handing *handing, const struct bolts_pick *pick,
                     struct bolts_plan *plan)
{
    const struct bolts_store *store = handing->store;
    const struct bolts_kind *kind = &store->kind[pick->kind];
    for (size_t times = pick->times; times > 0;) {
        struct bolt_use *use = LIST_ADD(handing->arena, &plan->uses);
        use->roll = kind->roll;
        use->taken = bolts_taken(kind, pick->sum) * store->unit;
        use->left = use->taken - pick->sum * store->unit;
        use->repeat = alike(handing, pick->made, times);
        for (size_t i = 0; i < store->cuts; i++)
            add_parts(handing, use, i, pick->made[i]);
        times -= use->repeat;
    }
}

/* In the order of the rolls, the fullest first, then the longer cuts. */
static int in_order(const void *a, const void *b)
{
    const struct bolts_pick *one = a, *other = b;
    if (one->kind != other->kind)
        return one->kind < other->kind ? -1 : 1;
    return (one->sum < other->sum) - (one->sum > other->sum);
}

/* Patterns have no number here, so they are compared by what they make. */
static bool cut_alike(const struct bolts_store *store,
                      const struct bolts_pick *a, const struct bolts_pick *b)
{
    if (a->kind != b->kind)
        return false;
    for (size_t i = 0; i < store->cuts; i++)
        if (a->made[i] != b->made[i])
            return false;
    return true;
}

/* Rolls that are cut alike become one line. */
static void join_alike(const struct bolts_store *store,
                       struct bolts_answer *answer)
{
    size_t count = 0;
    for (size_t p = 0; p < answer->picks.count; p++) {
        struct bolts_pick *pick = &answer->picks.items[p];
        size_t same = 0;
        while (same < count &&
               !cut_alike(store, &answer->picks.items[same], pick))
            same++;
        if (same < count)
            answer->picks.items[same].times += pick->times;
        else
            answer->picks.items[count++] = *pick;
    }
    answer->picks.count = count;
    if (count > 1)
        qsort(answer->picks.items, count, sizeof *answer->picks.items,
              in_order);
}

/* What is kept is in the arena of the caller; the search goes with its own. */
static void hand_over(struct arena *arena, const struct bolts_problem *problem,
                      const struct bolts_store *store,
                      struct bolts_answer *answer, struct bolts_plan *plan)
{
    struct handing handing = {
        arena, problem, store,
        ARENA_ARRAY(arena, size_t, problem->cut_count + 1),
        ARENA_ARRAY(arena, size_t, store->cuts + 1)};
    for (size_t i = 0; i < problem->cut_count; i++)
        handing.lacks[i] = problem->cuts[i].count;
    join_alike(store, answer);
    for (size_t p = 0; p < answer->picks.count; p++)
        add_uses(&handing, &answer->picks.items[p], plan);
}

/* Merits in the numbers of the problem; proven one after the other. */
static void tell_merits(const struct bolts_store *store,
                        const struct bolts_score *score,
                        const struct bolts_score *bound,
                        struct bolts_plan *plan)
{
    const int64_t scale[BOLT_MERITS] = {[BOLT_COST] = store->coin,
                                        [BOLT_LOST] = store->unit,
                                        [BOLT_OPENED] = 1,
                                        [BOLT_AGE] = 1};
    bool proven = true;
    for (size_t m = 0; m < BOLT_MERITS; m++) {
        plan->merit[m] = score->of[GOAL_COST + m] * scale[m];
        plan->bound[m] = bound->of[GOAL_COST + m] * scale[m];
        proven = proven && plan->merit[m] == plan->bound[m];
        plan->proven[m] = proven;
    }
}

/* Without cuts there is nothing to open, and the empty plan is proven. */
struct bolts_plan *plan_bolts(struct arena *arena,
                              const struct bolts_problem *problem,
                              uint64_t work)
{
    struct bolts_plan *plan = ARENA_NEW(arena, struct bolts_plan);
    plan->too_long = find_too_long(problem);
    if (plan->too_long != SIZE_MAX) {
        plan->end = BOLTS_TOO_LONG;
        return plan;
    }
    struct arena *scratch = arena_create();
    struct bolts_store store = bolts_store_make(scratch, problem);
    struct bolts_score bound = {{0}};
    struct bolts_answer answer = {0};
    bolts_reach_goals(scratch, &store, work, &answer, &bound);
    if (answer.score.of[GOAL_MISSING] > 0) {
        plan->end =
            bound.of[GOAL_MISSING] > 0 ? BOLTS_NO_PLAN : BOLTS_NOT_FOUND;
    } else {
        plan->end = BOLTS_PLANNED;
        hand_over(arena, problem, &store, &answer, plan);
        tell_merits(&store, &answer.score, &bound, plan);
    }
    arena_destroy(scratch);
    return plan;
}
