/* First plans: rolls in some order, each filled with the longest cuts that
 * still fit (first-fit decreasing), as often as that goes on. */
#include "bolts_store.h"

#include <stdlib.h>

/* In which order rolls are opened. Shelf means: costs nothing. */
enum first_rule {
    FIRST_SHELF_LONGEST,
    FIRST_SHELF_SHORTEST,
    FIRST_LONGEST,
    FIRST_CHEAPEST,
    FIRST_RULES
};

/* Is `a` to be opened before `b`? Both hold what is longest. */
static bool goes_before(const struct bolts_kind *a, const struct bolts_kind *b,
                        enum first_rule rule)
{
    /* A roll that costs nothing lies on the shelf, whatever it is called. */
    const bool bought = a->cost + a->step_cost > 0;
    if (rule != FIRST_LONGEST && bought != (b->cost + b->step_cost > 0))
        return !bought;
    if (rule == FIRST_SHELF_SHORTEST && !bought)
        return a->length < b->length;
    if (rule == FIRST_CHEAPEST && bought) {
        /* By the cost of all of it, for its length. */
        const int64_t one =
            a->cost + (a->step > 0 ? a->length / a->step * a->step_cost : 0);
        const int64_t other =
            b->cost + (b->step > 0 ? b->length / b->step * b->step_cost : 0);
        return (double)one * (double)b->length <
               (double)other * (double)a->length;
    }
    return a->length > b->length;
}

/* The next roll to be opened for the longest cut that is left. */
static size_t next_kind(const struct bolts_store *store,
                        const struct bolts_rest *rest, int64_t longest,
                        enum first_rule rule)
{
    /* Of kinds that go before no other, the first of the problem. */
    size_t best = SIZE_MAX;
    for (size_t k = 0; k < store->kinds; k++)
        if (rest->stock[k] > 0 && store->kind[k].length >= longest &&
            (best == SIZE_MAX ||
             goes_before(&store->kind[k], &store->kind[best], rule)))
            best = k;
    return best;
}

/* Fills one roll. gives: how often the rest allows it. */
static size_t fill_greedily(const struct bolts_store *store,
                            const struct bolts_rest *rest, size_t kind,
                            size_t from, size_t *made)
{
    /* Cuts longer than `from` are all planned, or fit in no roll that is left.
     */
    int64_t room = store->kind[kind].length;
    size_t times = rest->stock[kind];
    for (size_t i = 0; i < store->cuts; i++) {
        const size_t fit = (size_t)(room / store->length[i]);
        made[i] = i < from ? 0 : fit < rest->demand[i] ? fit : rest->demand[i];
        room -= (int64_t)made[i] * store->length[i];
        if (made[i] > 0 && rest->demand[i] / made[i] < times)
            times = rest->demand[i] / made[i];
    }
    return times;
}

/* A cut that no roll is left for is passed over. */
static void plan_by(struct arena *arena, struct bolts_store *store,
                    struct bolts_rest *rest, enum first_rule rule,
                    struct bolts_answer *answer)
{
    size_t *made = ARENA_ARRAY(arena, size_t, store->cuts);
    for (size_t i = 0; i < store->cuts;) {
        const size_t kind =
            rest->demand[i] == 0
                ? SIZE_MAX
                : next_kind(store, rest, store->length[i], rule);
        if (kind == SIZE_MAX) {
            i++;
            continue;
        }
        const size_t times = fill_greedily(store, rest, kind, i, made);
        bolts_pick_add(arena, store, answer, rest, kind, made, times);
        store->work += store->cuts + store->kinds;
    }
    bolts_answer_close(store, answer, rest);
}

/* No rule is best for all: a short shelf roll that just fits saves a long one,
 * and a long one may save two. Each is tried, since all of them together take
 * less time than one step of what comes after. */
void bolts_first(struct arena *arena, struct bolts_store *store,
                 const struct bolts_rest *rest, struct bolts_answer *answer)
{
    struct bolts_answer best = {0};
    for (enum first_rule rule = 0; rule < FIRST_RULES; rule++) {
        struct bolts_answer trial = {.score = answer->score};
        struct bolts_rest left = bolts_rest_all(arena, store);
        for (size_t i = 0; i < store->cuts; i++)
            left.demand[i] = rest->demand[i];
        for (size_t k = 0; k < store->kinds; k++)
            left.stock[k] = rest->stock[k];
        plan_by(arena, store, &left, rule, &trial);
        if (rule == 0 || bolts_score_compare(&trial.score, &best.score) < 0)
            best = trial;
    }
    answer->score = best.score;
    for (size_t p = 0; p < best.picks.count; p++)
        *LIST_ADD(arena, &answer->picks) = best.picks.items[p];
}
