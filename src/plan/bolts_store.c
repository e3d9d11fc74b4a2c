/* Cuts of one length are one cut, and all numbers are as small as they can be:
 * what a plan is searched for depends on different lengths and rolls, not on
 * how many there are. */
#include "bolts_store.h"

#include <stdlib.h>
#include <string.h>

/* Euclid's; 0 divides nothing and is passed over. */
static int64_t common_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        const int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* By length alone: cuts of one length become one, so their order is of no
 * account. */
static int longest_first(const void *a, const void *b)
{
    const struct bolt_cut *one = a, *other = b;
    return (one->length < other->length) - (one->length > other->length);
}

/* The cuts, each length once. gives: how many there are in all. */
static size_t take_cuts(struct arena *arena, struct bolts_store *store,
                        const struct bolts_problem *problem)
{
    struct bolt_cut *cuts =
        ARENA_ARRAY(arena, struct bolt_cut, problem->cut_count + 1);
    size_t total = 0;
    store->length = ARENA_ARRAY(arena, int64_t, problem->cut_count + 1);
    store->demand = ARENA_ARRAY(arena, size_t, problem->cut_count + 1);
    if (problem->cut_count > 0)
        memcpy(cuts, problem->cuts, problem->cut_count * sizeof *cuts);
    qsort(cuts, problem->cut_count, sizeof *cuts, longest_first);
    for (size_t i = 0; i < problem->cut_count; i++) {
        if (cuts[i].count == 0)
            continue;
        if (store->cuts == 0 ||
            store->length[store->cuts - 1] != cuts[i].length)
            store->length[store->cuts++] = cuts[i].length;
        store->demand[store->cuts - 1] += cuts[i].count;
        total += cuts[i].count;
    }
    return total;
}

/* A roll that the shortest cut does not fit is never opened. As each roll that
 * is opened gives a cut, no more of a kind are needed than there are cuts. */
static void take_kinds(struct arena *arena, struct bolts_store *store,
                       const struct bolts_problem *problem, size_t total)
{
    store->kind =
        ARENA_ARRAY(arena, struct bolts_kind, problem->roll_count + 1);
    for (size_t i = 0; i < problem->roll_count; i++) {
        const struct bolt_roll *roll = &problem->rolls[i];
        if (roll->count == 0 || store->cuts == 0 ||
            roll->length < store->length[store->cuts - 1])
            continue;
        store->kind[store->kinds++] = (struct bolts_kind){
            .length = roll->length,
            .cost = roll->cost,
            .step = roll->step,
            .step_cost = roll->step > 0 ? roll->step_cost : 0,
            .age = roll->age,
            .count = roll->count < total ? roll->count : total,
            .roll = i};
    }
}

/* An end that is a multiple of the unit is kept from the next multiple on. */
static void make_small(struct bolts_store *store)
{
    int64_t unit = 0, coin = 0;
    for (size_t i = 0; i < store->cuts; i++)
        unit = common_divisor(unit, store->length[i]);
    for (size_t k = 0; k < store->kinds; k++) {
        const struct bolts_kind *kind = &store->kind[k];
        unit = common_divisor(common_divisor(unit, kind->length), kind->step);
        coin =
            common_divisor(common_divisor(coin, kind->cost), kind->step_cost);
    }
    /* Of nothing at all the divisor is 0. */
    store->unit = unit > 0 ? unit : 1;
    store->coin = coin > 0 ? coin : 1;
    for (size_t i = 0; i < store->cuts; i++)
        store->length[i] /= store->unit;
    for (size_t k = 0; k < store->kinds; k++) {
        store->kind[k].length /= store->unit;
        store->kind[k].step /= store->unit;
        store->kind[k].cost /= store->coin;
        store->kind[k].step_cost /= store->coin;
    }
    store->keep = (store->keep + store->unit - 1) / store->unit;
}

struct bolts_store bolts_store_make(struct arena *arena,
                                    const struct bolts_problem *problem)
{
    struct bolts_store store = {.keep = problem->keep};
    const size_t total = take_cuts(arena, &store, problem);
    take_kinds(arena, &store, problem, total);
    make_small(&store);
    return store;
}

/* No more steps than the cuts need. */
int64_t bolts_taken(const struct bolts_kind *kind, int64_t sum)
{
    if (kind->step == 0)
        return kind->length;
    return (sum + kind->step - 1) / kind->step * kind->step;
}

/* More steps than the cuts need cost more, so they are never taken: cost is the
 * first merit. */
struct bolts_score bolts_score_of(const struct bolts_store *store, size_t k,
                                  int64_t sum)
{
    const struct bolts_kind *kind = &store->kind[k];
    const int64_t taken = bolts_taken(kind, sum), left = taken - sum;
    struct bolts_score score = {{0}};
    score.of[GOAL_COST] = kind->cost;
    if (kind->step > 0)
        score.of[GOAL_COST] += taken / kind->step * kind->step_cost;
    score.of[GOAL_LOST] = left < store->keep ? left : 0;
    score.of[GOAL_OPENED] = 1;
    score.of[GOAL_AGE] = (int64_t)kind->age;
    return score;
}

/* The first goal in which they differ decides. */
int bolts_score_compare(const struct bolts_score *a,
                        const struct bolts_score *b)
{
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        if (a->of[g] != b->of[g])
            return a->of[g] < b->of[g] ? -1 : 1;
    return 0;
}

/* One place more than is needed: an arena gives nothing for 0 bytes. */
struct bolts_rest bolts_rest_all(struct arena *arena,
                                 const struct bolts_store *store)
{
    struct bolts_rest rest = {ARENA_ARRAY(arena, size_t, store->cuts + 1),
                              ARENA_ARRAY(arena, size_t, store->kinds + 1)};
    for (size_t i = 0; i < store->cuts; i++)
        rest.demand[i] = store->demand[i];
    for (size_t k = 0; k < store->kinds; k++)
        rest.stock[k] = store->kind[k].count;
    return rest;
}

/* The score grows with each roll, so that a part of a plan has one, too. */
void bolts_pick_add(struct arena *arena, const struct bolts_store *store,
                    struct bolts_answer *answer, struct bolts_rest *rest,
                    size_t kind, const size_t *made, size_t times)
{
    size_t *copy = ARENA_ARRAY(arena, size_t, store->cuts);
    int64_t sum = 0;
    for (size_t i = 0; i < store->cuts; i++) {
        copy[i] = made[i];
        sum += (int64_t)made[i] * store->length[i];
        rest->demand[i] -= made[i] * times;
    }
    rest->stock[kind] -= times;
    *LIST_ADD(arena, &answer->picks) =
        (struct bolts_pick){kind, times, copy, sum};
    const struct bolts_score one = bolts_score_of(store, kind, sum);
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        answer->score.of[g] += one.of[g] * (int64_t)times;
}

/* Called once, when no roll is added any more. */
void bolts_answer_close(const struct bolts_store *store,
                        struct bolts_answer *answer,
                        const struct bolts_rest *rest)
{
    for (size_t i = 0; i < store->cuts; i++)
        answer->score.of[GOAL_MISSING] += (int64_t)rest->demand[i];
}

/* A roll that costs something is opened no more often than the score can pay;
 * one that costs nothing, no more often than rolls are opened where nothing
 * goes before that. */
size_t bolts_most_opened(const struct bolts_store *store, size_t k,
                         const struct bolts_score *score)
{
    const struct bolts_kind *kind = &store->kind[k];
    const int64_t least = kind->cost + kind->step_cost;
    int64_t most = (int64_t)kind->count;
    if (score->of[GOAL_MISSING] > 0)
        return kind->count;
    if (least > 0 && score->of[GOAL_COST] / least < most)
        most = score->of[GOAL_COST] / least;
    if (score->of[GOAL_COST] == 0 && score->of[GOAL_LOST] == 0 &&
        score->of[GOAL_OPENED] < most)
        most = score->of[GOAL_OPENED];
    return (size_t)most;
}
