/* Whole plans from solutions of the programme: what it buys whole is taken, the
 * rest is solved anew, until the dynamic programme can end it; and parts of the
 * best plan laid anew by the dynamic programme alone. */
#include "bolts_master.h"

#include <math.h>
#include <string.h>

/* So many steps of the dynamic programme end a dive. */
enum { DIVE_STEPS = 1500000 };

/* An amount between it and 1 is taken for 1. */
static const double nearly = 0.7;

/* What each search costs at least, for what is not counted. */
enum { LEAST_WORK = 1000 };

/* A number from 0 up to, but not, `below` (xorshift; Marsaglia, 2003). */
static uint64_t draw(struct bolts_master *master, uint64_t below)
{
    master->random ^= master->random << 13;
    master->random ^= master->random >> 7;
    master->random ^= master->random << 17;
    return (master->random >> 11) % below;
}

/* What a part of a plan may still add to be as good as the whole one; goals may
 * be below 0 here. */
static struct bolts_score difference(const struct bolts_score *a,
                                     const struct bolts_score *b)
{
    struct bolts_score score;
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        score.of[g] = a->of[g] - b->of[g];
    return score;
}

/* May a plan that begins with `score` still be better than the best? What comes
 * adds nothing below 0. */
static bool may_gain(const struct bolts_score *left)
{
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        if (left->of[g] != 0)
            return left->of[g] > 0;
    return false;
}

/* A rest that may be changed while the other stays. */
static struct bolts_rest copy_rest(struct arena *arena,
                                   const struct bolts_store *store,
                                   const struct bolts_rest *rest)
{
    struct bolts_rest copy = bolts_rest_all(arena, store);
    memcpy(copy.demand, rest->demand, store->cuts * sizeof *copy.demand);
    memcpy(copy.stock, rest->stock, store->kinds * sizeof *copy.stock);
    return copy;
}

/* The plan becomes the best, kept where the master is kept. Its ways of cutting
 * are patterns from now on. */
static void keep(struct bolts_master *master, const struct bolts_answer *answer)
{
    struct bolts_rest all = bolts_rest_all(master->arena, master->store);
    struct bolts_answer best = {0};
    for (size_t p = 0; p < answer->picks.count; p++) {
        const struct bolts_pick *pick = &answer->picks.items[p];
        bolts_pick_add(master->arena, master->store, &best, &all, pick->kind,
                       pick->made, pick->times);
        bolts_master_add(master, pick->kind, pick->made);
    }
    bolts_answer_close(master->store, &best, &all);
    master->best = best;
}

/* ---- dives ---- */

struct dive {
    struct bolts_master *master;
    struct arena *arena;
    struct bolts_programme programme;
    struct bolts_answer answer;
    bool chance;
};

/* How often the rest allows the pattern, at most `times`. */
static size_t allowed(const struct dive *dive,
                      const struct bolts_pattern *pattern, size_t times)
{
    const struct bolts_rest *rest = &dive->programme.rest;
    times =
        rest->stock[pattern->kind] < times ? rest->stock[pattern->kind] : times;
    for (size_t i = 0; i < dive->master->store->cuts; i++)
        if (pattern->made[i] > 0 && rest->demand[i] / pattern->made[i] < times)
            times = rest->demand[i] / pattern->made[i];
    return times;
}

/* The pattern is copied: more of them may be found while it is in use. */
static void take(struct dive *dive, size_t index, size_t times)
{
    const struct bolts_pattern pattern = dive->master->patterns.items[index];
    times = allowed(dive, &pattern, times);
    if (times > 0)
        bolts_pick_add(dive->arena, dive->master->store, &dive->answer,
                       &dive->programme.rest, pattern.kind, pattern.made,
                       times);
}

/* What is bought whole; where nothing is, one of what comes nearest. By chance
 * it is one of the others, and only a part of what is bought whole. */
static void take_surest(struct dive *dive,
                        const struct bolts_solution *solution)
{
    double most = 0.0;
    size_t surest = SIZE_MAX;
    bool taken = false;
    for (size_t p = 0; p < solution->count; p++) {
        double amount = solution->amount[p];
        if (amount <= 1e-6)
            continue;
        if (amount >= 1.0 - 1e-6 &&
            (!dive->chance || draw(dive->master, 4) > 0)) {
            take(dive, p, (size_t)(amount + 1e-6));
            taken = true;
            continue;
        }
        amount -= floor(amount);
        /* So near to one, and so many of them, that it is one in most plans:
         * one by one would take a programme for each. */
        if (amount > nearly) {
            take(dive, p, 1);
            taken = true;
            continue;
        }
        if (dive->chance)
            amount += (double)draw(dive->master, 1000) / 2500.0;
        if (amount > most) {
            most = amount;
            surest = p;
        }
    }
    if (!taken && surest != SIZE_MAX)
        take(dive, surest, 1);
}

/* What goals before may still add, and when the goal cannot be bettered. False
 * where that is so already. */
static bool set_goal(struct dive *dive)
{
    const struct bolts_score left =
        difference(&dive->master->best.score, &dive->answer.score);
    const enum bolts_goal goal = dive->programme.goal;
    /* Goals before must come out as in the best plan; a dive that has already
     * spent more on one of them is lost. */
    dive->programme.held = left;
    dive->programme.enough = left.of[goal];
    for (size_t g = 0; g < goal; g++)
        if (left.of[g] < 0)
            return false;
    return left.of[goal] > 0;
}

/* Ends the dive with the dynamic programme, where few cuts are left. */
static bool try_end(struct dive *dive, bool *ended)
{
    struct bolts_master *master = dive->master;
    const struct bolts_score left =
        difference(&master->best.score, &dive->answer.score);
    *ended = true;
    if (!may_gain(&left))
        return false;
    if (bolts_exact_steps(master->store, &dive->programme.rest, &left) >
        DIVE_STEPS) {
        *ended = false;
        return false;
    }
    if (bolts_exact(dive->arena, master->store, &dive->programme.rest, &left,
                    NULL, UINT64_MAX, &dive->answer) != BOLTS_BETTER)
        return false;
    keep(master, &dive->answer);
    return true;
}

/* Ends the dive by simple rules, where it cannot go on. */
static bool end_simply(struct dive *dive)
{
    struct bolts_master *master = dive->master;
    bolts_first(dive->arena, master->store, &dive->programme.rest,
                &dive->answer);
    if (bolts_score_compare(&dive->answer.score, &master->best.score) >= 0)
        return false;
    keep(master, &dive->answer);
    return true;
}

bool bolts_dive(struct bolts_master *master,
                const struct bolts_programme *programme,
                const struct bolts_solution *root, bool chance)
{
    struct arena *scratch = arena_create();
    struct dive dive = {.master = master,
                        .arena = scratch,
                        .programme = *programme,
                        .chance = chance};
    bool ended = false, better = false;
    dive.programme.rest = copy_rest(scratch, master->store, &programme->rest);
    master->store->work += LEAST_WORK;
    take_surest(&dive, root);
    for (;;) {
        const size_t before = dive.answer.picks.count;
        better = try_end(&dive, &ended);
        if (ended || !set_goal(&dive) || master->store->work >= programme->work)
            break;
        /* Programmes of a dive prove nothing that is told: they only end it
         * where the goal cannot become better. */
        const struct bolts_solution solution =
            bolts_master_solve(master, scratch, &dive.programme, NULL);
        if (solution.bound >= dive.programme.enough)
            break;
        take_surest(&dive, &solution);
        if (dive.answer.picks.count == before)
            break;
    }
    better = better || (!ended && end_simply(&dive));
    arena_destroy(scratch);
    return better;
}

/* ---- parts laid anew ---- */

/* Single rolls of the best plan are taken out by chance while what they hold,
 * with a roll more of each kind, is planned in so many steps. */
static void take_out(struct bolts_master *master, struct arena *arena,
                     uint64_t steps, size_t *kept, struct bolts_rest *rest)
{
    const struct bolts_store *store = master->store;
    /* Four that are too large in a row: mostly none fits any more. */
    const size_t picks = master->best.picks.count;
    size_t singles = 0, misses = 0;
    struct bolts_rest trial = copy_rest(arena, store, rest);
    for (size_t p = 0; p < picks; p++)
        singles += kept[p];
    while (singles > 0 && misses < 4) {
        size_t at = (size_t)draw(master, singles), p = 0;
        for (; at >= kept[p]; p++)
            at -= kept[p];
        const struct bolts_pick *pick = &master->best.picks.items[p];
        for (size_t i = 0; i < store->cuts; i++)
            trial.demand[i] = rest->demand[i] + pick->made[i];
        trial.stock[pick->kind]++;
        if (bolts_exact_steps(store, &trial, NULL) > steps) {
            trial.stock[pick->kind]--;
            misses++;
            continue;
        }
        memcpy(rest->demand, trial.demand, store->cuts * sizeof *rest->demand);
        rest->stock[pick->kind]++;
        kept[p]--;
        singles--;
    }
}

/* No stock at first but one that is not opened of each kind. */
static struct bolts_rest
begin_rest(struct arena *arena, const struct bolts_master *master, size_t *kept)
{
    const struct bolts_store *store = master->store;
    struct bolts_rest rest = bolts_rest_all(arena, store);
    for (size_t p = 0; p < master->best.picks.count; p++) {
        const struct bolts_pick *pick = &master->best.picks.items[p];
        kept[p] = pick->times;
        rest.stock[pick->kind] -= pick->times;
        for (size_t i = 0; i < store->cuts; i++)
            rest.demand[i] -= pick->made[i] * pick->times;
    }
    for (size_t k = 0; k < store->kinds; k++)
        rest.stock[k] = rest.stock[k] > 0 ? 1 : 0;
    return rest;
}

bool bolts_renew(struct bolts_master *master, uint64_t steps)
{
    struct bolts_store *store = master->store;
    struct arena *scratch = arena_create();
    const size_t picks = master->best.picks.count;
    size_t *kept = ARENA_ARRAY(scratch, size_t, picks + 1);
    struct bolts_rest rest = begin_rest(scratch, master, kept);
    take_out(master, scratch, steps, kept, &rest);
    struct bolts_answer answer = {0};
    struct bolts_rest all = bolts_rest_all(scratch, store);
    for (size_t p = 0; p < picks; p++)
        if (kept[p] > 0)
            bolts_pick_add(scratch, store, &answer, &all,
                           master->best.picks.items[p].kind,
                           master->best.picks.items[p].made, kept[p]);
    const struct bolts_score left =
        difference(&master->best.score, &answer.score);
    const bool better =
        may_gain(&left) && bolts_exact(scratch, store, &rest, &left, NULL,
                                       UINT64_MAX, &answer) == BOLTS_BETTER;
    store->work += store->cuts * picks + LEAST_WORK;
    if (better)
        keep(master, &answer);
    arena_destroy(scratch);
    return better;
}
