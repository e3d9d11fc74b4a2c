/* One goal after the other: its bound, and plans until one meets it or the work
 * is done. A plan that is better in an earlier goal begins there again. Where
 * few cuts are asked for the dynamic programme answers all goals at once. */
#include "bolts_goals.h"

#include "bolts_master.h"

/* How much is tried before the next means; found by trying on some hundred
 * problems, and no plan is wrong by it. */
enum {
    /* Fewer steps than this are sooner done than a linear programme. */
    FEW_STEPS = 2000000,
    RENEW_STEPS = 200000
};

/* ---- bounds that need no programme ---- */

static int64_t asked_length(const struct bolts_store *store)
{
    int64_t length = 0;
    for (size_t i = 0; i < store->cuts; i++)
        length += store->length[i] * (int64_t)store->demand[i];
    return length;
}

/* The fewest rolls that are as long as all cuts together: the longest. */
static int64_t fewest_opened(const struct bolts_store *store)
{
    int64_t length = asked_length(store), opened = 0, below = INT64_MAX;
    while (length > 0) {
        int64_t longest = 0, there = 0;
        for (size_t k = 0; k < store->kinds; k++) {
            const struct bolts_kind *kind = &store->kind[k];
            if (kind->length >= below || kind->length < longest)
                continue;
            there = kind->length > longest ? 0 : there;
            longest = kind->length;
            there += (int64_t)kind->count;
        }
        if (longest == 0)
            break;
        /* As many of the longest as are needed, or are there. */
        const int64_t needed = (length + longest - 1) / longest;
        const int64_t taken = needed < there ? needed : there;
        opened += taken;
        length -= taken * longest;
        below = longest;
    }
    return opened;
}

/* What the shelf cannot give, at the least that a length of it costs. */
static int64_t least_cost(const struct bolts_store *store)
{
    int64_t length = asked_length(store);
    bolts_wide best = -1;
    /* All of the shelf is used up, without any end. */
    for (size_t k = 0; k < store->kinds; k++)
        if (store->kind[k].cost + store->kind[k].step_cost == 0) {
            const int64_t cuts = length / store->kind[k].length + 1;
            const int64_t there = (int64_t)store->kind[k].count;
            length -= store->kind[k].length * (there < cuts ? there : cuts);
        }
    for (size_t k = 0; k < store->kinds && length > 0; k++) {
        const struct bolts_kind *kind = &store->kind[k];
        if (kind->cost + kind->step_cost == 0)
            continue;
        const bolts_wide cost = kind->step > 0 ? kind->step_cost : kind->cost;
        const int64_t room = kind->step > 0 ? kind->step : kind->length;
        const bolts_wide all = (cost * length + room - 1) / room;
        best = best < 0 || all < best ? all : best;
    }
    return best > 0 ? (int64_t)best : 0;
}

/* Of a loss and of ages 0 is all that can be said at once. */
static struct bolts_score first_bounds(const struct bolts_store *store)
{
    struct bolts_score bound = {{0}};
    bound.of[GOAL_COST] = least_cost(store);
    bound.of[GOAL_OPENED] = fewest_opened(store);
    return bound;
}

/* ---- one goal ---- */

/* All rolls that a plan may open which is no worse than the best. */
static struct bolts_rest capped_rest(struct arena *arena,
                                     const struct bolts_master *master)
{
    const struct bolts_store *store = master->store;
    struct bolts_rest rest = bolts_rest_all(arena, store);
    for (size_t k = 0; k < store->kinds; k++)
        rest.stock[k] = bolts_most_opened(store, k, &master->best.score);
    return rest;
}

/* Is the best plan still as good as it was in the goals up to this one, and not
 * better? Else all begins anew. */
static bool is_as_good(const struct bolts_master *master,
                       const struct bolts_score *score, enum bolts_goal goal)
{
    for (size_t g = 0; g <= goal; g++)
        if (master->best.score.of[g] != score->of[g])
            return false;
    return true;
}

/* The dynamic programme over all that is asked for. False where it gave up. */
static bool answer_exactly(struct arena *arena, struct bolts_store *store,
                           const struct bolts_proof *proof, uint64_t steps,
                           struct bolts_answer *answer,
                           struct bolts_score *bound)
{
    const struct bolts_rest all = bolts_rest_all(arena, store);
    struct bolts_answer better = {0};
    const enum bolts_exact_end end =
        bolts_exact(arena, store, &all, &answer->score, proof, steps, &better);
    if (end == BOLTS_GAVE_UP)
        return false;
    if (end == BOLTS_BETTER)
        *answer = better;
    *bound = answer->score;
    return true;
}

/* The same with proofs of this goal and of all later ones: those of plans that
 * are as good as the best now. */
static bool prove_exactly(struct bolts_master *master,
                          struct bolts_programme programme, uint64_t steps,
                          struct bolts_score *bound)
{
    struct arena *scratch = arena_create();
    if (bolts_exact_steps(master->store, &programme.rest,
                          &master->best.score) == UINT64_MAX) {
        arena_destroy(scratch);
        return false;
    }
    /* Where goals before are equal the later ones decide, so each has a proof:
     * without them thousands of states stay that only differ in rolls opened.
     */
    programme.held = master->best.score;
    for (size_t g = programme.goal; g < BOLTS_GOALS; g++) {
        programme.goal = (enum bolts_goal)g;
        programme.enough = programme.held.of[g];
        bolts_master_solve(master, scratch, &programme, &master->proof[g]);
    }
    arena_destroy(scratch);
    return answer_exactly(master->arena, master->store, master->proof, steps,
                          &master->best, bound);
}

/* Dives and renewals by turns, until the goal is as good as its bound or a plan
 * is better. */
static void search_goal(struct bolts_master *master,
                        const struct bolts_programme *programme,
                        const struct bolts_solution *root, uint64_t work)
{
    const struct bolts_score before = master->best.score;
    const uint64_t begun = master->store->work;
    while (is_as_good(master, &before, programme->goal) &&
           master->store->work - begun < work) {
        bolts_dive(master, programme, root, true);
        const uint64_t dived = master->store->work - begun;
        while (is_as_good(master, &before, programme->goal) &&
               master->store->work - begun < dived + dived / 2)
            bolts_renew(master, RENEW_STEPS);
    }
}

/* Bound and plans of one goal. `work`: how much may be done for it. */
static void reach_goal(struct bolts_master *master, enum bolts_goal goal,
                       uint64_t work, struct bolts_score *bound)
{
    struct arena *scratch = arena_create();
    struct bolts_programme programme = {.rest = capped_rest(scratch, master),
                                        .goal = goal,
                                        .held = master->best.score,
                                        .enough = master->best.score.of[goal],
                                        .work = master->store->work + work};
    const struct bolts_solution root =
        bolts_master_solve(master, scratch, &programme, &master->proof[goal]);
    if (root.bound > bound->of[goal])
        bound->of[goal] = root.bound;
    const struct bolts_score before = master->best.score;
    if (bound->of[goal] < before.of[goal])
        bolts_dive(master, &programme, &root, false);
    if (bound->of[goal] < before.of[goal] &&
        is_as_good(master, &before, goal) &&
        !prove_exactly(master, programme, work, bound))
        search_goal(master, &programme, &root, work);
    arena_destroy(scratch);
}

/* Every goal meets its bound. */
static bool is_answered(const struct bolts_master *master,
                        const struct bolts_score *bound)
{
    return bolts_score_compare(&master->best.score, bound) == 0;
}

/* Goal by goal. Where a goal got better its bound still holds; where one before
 * it did, those of later ones do not. */
static void reach_all(struct bolts_master *master, uint64_t work,
                      struct bolts_score *bound)
{
    const struct bolts_store *store = master->store;
    const struct bolts_score first = *bound;
    for (size_t g = 0; g < BOLTS_GOALS;) {
        const struct bolts_score before = master->best.score;
        if (before.of[g] <= bound->of[g] || store->work >= work) {
            g++;
            continue;
        }
        reach_goal(master, (enum bolts_goal)g, (work - store->work) / 3, bound);
        size_t changed = 0;
        while (changed <= g &&
               master->best.score.of[changed] == before.of[changed])
            changed++;
        if (is_answered(master, bound))
            return;
        for (size_t later = changed + 1; later < BOLTS_GOALS; later++)
            bound->of[later] = first.of[later];
        g = changed;
    }
}

/* Of one kind, so few rolls cost so much, and are of one age. */
static void try_alike(struct arena *arena, struct bolts_store *store,
                      uint64_t work, struct bolts_answer *answer,
                      struct bolts_score *bound)
{
    /* The fewest rolls are the cheapest and the oldest, too; where ends are
     * lost, it is another plan that loses least, so this one is only where it
     * begins. */
    struct bolts_answer alike = {0};
    int64_t fewest = 0;
    const bool found = bolts_alike(arena, store, work, &alike, &fewest);
    if (found && bolts_score_compare(&alike.score, &answer->score) < 0)
        *answer = alike;
    if (fewest <= bound->of[GOAL_OPENED])
        return;
    bound->of[GOAL_OPENED] = fewest;
    bound->of[GOAL_COST] = fewest * store->kind[0].cost;
    bound->of[GOAL_AGE] = fewest * (int64_t)store->kind[0].age;
}

bool bolts_reach_by_programmes(struct arena *arena, struct bolts_store *store,
                               uint64_t work, struct bolts_answer *answer,
                               struct bolts_score *bound)
{
    struct bolts_master master;
    if (!bolts_master_init(&master, arena, store))
        return false;
    master.best = *answer;
    for (size_t p = 0; p < answer->picks.count; p++)
        bolts_master_add(&master, answer->picks.items[p].kind,
                         answer->picks.items[p].made);
    reach_all(&master, work, bound);
    *answer = master.best;
    return true;
}

void bolts_reach_goals(struct arena *arena, struct bolts_store *store,
                       uint64_t work, struct bolts_answer *answer,
                       struct bolts_score *bound)
{
    const struct bolts_rest all = bolts_rest_all(arena, store);
    *bound = first_bounds(store);
    bolts_first(arena, store, &all, answer);
    if (bolts_score_compare(&answer->score, bound) == 0)
        return;
    if (bolts_exact_steps(store, &all, &answer->score) <= FEW_STEPS &&
        answer_exactly(arena, store, NULL, UINT64_MAX, answer, bound))
        return;
    try_alike(arena, store, work / 2, answer, bound);
    if (bolts_score_compare(&answer->score, bound) == 0)
        return;
    bolts_reach_by_programmes(arena, store, work, answer, bound);
}
