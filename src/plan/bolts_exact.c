/* The best plan of few cuts, by a dynamic programme over single rolls: a state
 * is what is still asked for, and after each roll the best score of each state
 * is known. Scores add up in lexicographic order, so one wide number holds all
 * five of them.
 *
 * Two things make it short. An end that is lost (or any end, where none is
 * lost) is never as long as a cut that a later roll gives: that cut, taken from
 * this end instead, makes no merit worse. And a state is dropped where what it
 * came to, with a bound of what must come, is no better than a plan that is
 * known. */
#include "bolts_store.h"

#include <stdlib.h>
#include <string.h>

typedef bolts_wide wide;

/* Beyond these the tables would take hundreds of megabytes. */
enum {
    MOST_STATES = 1 << 21,
    MOST_KEPT = 1 << 24 /* states times rolls: where each came from */
};

/* One roll after the other. */
struct exact {
    const struct bolts_store *store;
    size_t levels; /* cuts that are asked for */
    size_t *cut, *demand;
    uint32_t *stride; /* by level: what one of it adds to the state */
    size_t states;
    size_t layers;
    size_t *kind; /* by layer */
    wide radix[BOLTS_GOALS], below;
    int64_t *capacity; /* by layer: of the rolls from it on */
    bool whole;        /* nothing may be missing */
    const struct bolts_proof *proof;
    struct bolts_score known; /* of the plan that is known */
    wide *gains[BOLTS_GOALS]; /* by layer: of the rolls from it on */
    wide *now, *next;
    uint32_t *from; /* by layer and state */
    /* of the state that goes on */
    uint32_t state;
    size_t *left;
    wide begun;
    const struct bolts_kind *roll;
    size_t roll_kind;
    uint32_t *came;
    uint64_t work, steps;
};

/* Above all keys: they stay below 2^120. */
static const wide never = (wide)1 << 124;

/* The goals as the digits of one number, the first one the highest, each in a
 * radix of its own; so keys add up as scores do, and compare as they do. */
static wide key_of(const struct exact *exact, const struct bolts_score *score)
{
    wide key = 0;
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        key = key * exact->radix[g] + score->of[g];
    return key;
}

/* How many rolls of each kind may be opened, and what all of them come to. */
static size_t count_layers(const struct bolts_store *store,
                           const struct bolts_rest *rest,
                           const struct bolts_score *below, size_t kind)
{
    size_t pieces = 0;
    for (size_t i = 0; i < store->cuts; i++)
        pieces += rest->demand[i];
    size_t most = rest->stock[kind] < pieces ? rest->stock[kind] : pieces;
    if (below != NULL) {
        const size_t opened = bolts_most_opened(store, kind, below);
        most = opened < most ? opened : most;
    }
    return most;
}

uint64_t bolts_exact_steps(const struct bolts_store *store,
                           const struct bolts_rest *rest,
                           const struct bolts_score *below)
{
    double states = 1.0, steps = 1.0, layers = 0.0;
    for (size_t i = 0; i < store->cuts; i++) {
        const double d = (double)rest->demand[i];
        states *= d + 1.0;
        steps *= (d + 1.0) * (d + 2.0) / 2.0;
    }
    for (size_t k = 0; k < store->kinds; k++)
        layers += (double)count_layers(store, rest, below, k);
    if (states > MOST_STATES || states * layers > MOST_KEPT ||
        steps * layers > 1e18)
        return UINT64_MAX;
    return (uint64_t)(steps * layers);
}

/* What costs most comes first, the longest of it: scores and rooms then tell
 * states apart early. */
static bool lies_before(const struct bolts_kind *a, const struct bolts_kind *b)
{
    const int64_t one = a->cost + a->step_cost, other = b->cost + b->step_cost;
    return one != other ? one > other : a->length > b->length;
}

/* Kinds in their order, each as often as it may be opened; what lies in all
 * layers from one on tells which states cannot become whole plans any more. */
static void lay_layers(struct arena *arena, struct exact *exact,
                       const struct bolts_rest *rest,
                       const struct bolts_score *below)
{
    const struct bolts_store *store = exact->store;
    size_t *order = ARENA_ARRAY(arena, size_t, store->kinds + 1);
    for (size_t k = 0; k < store->kinds; k++) {
        size_t at = k;
        for (; at > 0 &&
               lies_before(&store->kind[k], &store->kind[order[at - 1]]);
             at--)
            order[at] = order[at - 1];
        order[at] = k;
        exact->layers += count_layers(store, rest, below, k);
    }
    exact->kind = ARENA_ARRAY(arena, size_t, exact->layers + 1);
    exact->capacity = ARENA_ARRAY(arena, int64_t, exact->layers + 1);
    size_t layer = 0;
    for (size_t o = 0; o < store->kinds; o++)
        for (size_t n = count_layers(store, rest, below, order[o]); n > 0; n--)
            exact->kind[layer++] = order[o];
    for (layer = exact->layers; layer > 0; layer--)
        exact->capacity[layer - 1] =
            exact->capacity[layer] + store->kind[exact->kind[layer - 1]].length;
}

/* Room in one number for all scores that can come up. False where there is
 * none. */
static bool choose_radices(struct exact *exact, const struct bolts_score *below)
{
    const struct bolts_store *store = exact->store;
    struct bolts_score most;
    int64_t sum[BOLTS_GOALS] = {0};
    for (size_t i = 0; i < exact->levels; i++)
        sum[GOAL_MISSING] += (int64_t)exact->demand[i];
    for (size_t layer = 0; layer < exact->layers; layer++) {
        const struct bolts_kind *kind = &store->kind[exact->kind[layer]];
        const struct bolts_score full =
            bolts_score_of(store, exact->kind[layer], kind->length);
        const int64_t end =
            store->keep < kind->length ? store->keep : kind->length;
        sum[GOAL_COST] += full.of[GOAL_COST];
        sum[GOAL_LOST] += end;
        sum[GOAL_OPENED]++;
        sum[GOAL_AGE] += full.of[GOAL_AGE];
    }
    double all = 1.0;
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        /* A goal of a part may be below 0: then it must be less than that. */
        most.of[g] = sum[g] + llabs(below->of[g]);
        exact->radix[g] = (wide)most.of[g] + 1;
        all *= (double)most.of[g] + 1.0;
    }
    exact->below = key_of(exact, below);
    return all < 1e36; /* 2^120 */
}

/* A state is a number with a digit for each cut that is asked for: how many
 * are still to come. The first state has all of them, state 0 has none. */
static void lay_levels(struct arena *arena, struct exact *exact,
                       const struct bolts_rest *rest)
{
    const size_t cuts = exact->store->cuts;
    exact->cut = ARENA_ARRAY(arena, size_t, cuts + 1);
    exact->demand = ARENA_ARRAY(arena, size_t, cuts + 1);
    exact->stride = ARENA_ARRAY(arena, uint32_t, cuts + 1);
    exact->left = ARENA_ARRAY(arena, size_t, cuts + 1);
    exact->states = 1;
    for (size_t i = 0; i < cuts; i++) {
        if (rest->demand[i] == 0)
            continue;
        exact->cut[exact->levels] = i;
        exact->demand[exact->levels] = rest->demand[i];
        exact->stride[exact->levels++] = (uint32_t)exact->states;
        exact->states *= rest->demand[i] + 1;
    }
}

/* A roll from which so much is cut leads to a state. `least` is the shortest
 * cut that stays for later rolls. */
static void reach(struct exact *exact, int64_t sum, uint32_t taken,
                  int64_t least)
{
    const int64_t left = bolts_taken(exact->roll, sum) - sum;
    if (sum == 0 || (left >= least &&
                     (left < exact->store->keep || exact->store->keep == 0)))
        return;
    exact->work += 6;
    const struct bolts_score score =
        bolts_score_of(exact->store, exact->roll_kind, sum);
    /* Better than what led there before, and than the known plan: else it is
     * forgotten at once. */
    const wide key = exact->begun + key_of(exact, &score);
    const uint32_t to = exact->state - taken;
    if (key >= exact->next[to] || key >= exact->below)
        return;
    exact->next[to] = key;
    exact->came[to] = exact->state;
}

/* All that can be cut from the roll, the longest cuts chosen first. */
static void fill(struct exact *exact, size_t level, int64_t sum, uint32_t taken,
                 int64_t least)
{
    if (level == exact->levels) {
        reach(exact, sum, taken, least);
        return;
    }
    /* How many of this cut: from none to what fits or is left. */
    const int64_t length = exact->store->length[exact->cut[level]];
    const size_t left = exact->left[level];
    size_t most = (size_t)((exact->roll->length - sum) / length);
    most = most < left ? most : left;
    exact->work += most + 1;
    for (size_t n = 0; n <= most && exact->work < exact->steps; n++)
        fill(exact, level + 1, sum + (int64_t)n * length,
             taken + (uint32_t)n * exact->stride[level],
             n < left ? length : least);
}

/* Gets what is left in a state. gives: its length. */
static int64_t open_state(struct exact *exact, size_t state)
{
    int64_t length = 0;
    for (size_t level = exact->levels; level > 0; level--) {
        exact->left[level - 1] = state / exact->stride[level - 1];
        state %= exact->stride[level - 1];
        length += (int64_t)exact->left[level - 1] *
                  exact->store->length[exact->cut[level - 1]];
    }
    return length;
}

/* What rolls from a layer on can gain in each proof. */
static void lay_gains(struct arena *arena, struct exact *exact)
{
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        const struct bolts_proof *proof = &exact->proof[g];
        if (proof->scale == 0)
            continue;
        exact->gains[g] = ARENA_ARRAY(arena, wide, exact->layers + 1);
        for (size_t layer = exact->layers; layer > 0; layer--)
            exact->gains[g][layer - 1] =
                exact->gains[g][layer] + proof->gain[exact->kind[layer - 1]];
    }
}

/* The least that a goal comes to from here on, where goals before come to what
 * they do in the known plan: `left` is what that leaves of each. */
static int64_t least_left(const struct exact *exact, size_t layer, size_t goal,
                          const int64_t *left)
{
    const struct bolts_proof *proof = &exact->proof[goal];
    if (proof->scale == 0)
        return 0;
    /* The proof holds whatever was done before: it says what each cut is worth
     * at least, less what the rolls to come can gain on that. */
    wide bound = -exact->gains[goal][layer];
    for (size_t level = 0; level < exact->levels; level++)
        bound +=
            (wide)proof->worth[exact->cut[level]] * (int64_t)exact->left[level];
    for (size_t g = 0; g < goal; g++)
        bound += (wide)proof->factors.of[g] * left[g];
    return bound <= 0 ? 0
                      : (int64_t)((bound + proof->scale - 1) / proof->scale);
}

/* Can no plan that goes on from the state be better than the known one? */
static bool is_idle(const struct exact *exact, size_t layer)
{
    int64_t left[BOLTS_GOALS];
    wide key = exact->begun;
    if (exact->proof == NULL)
        return false;
    for (size_t g = BOLTS_GOALS; g > 0; g--) {
        left[g - 1] =
            exact->known.of[g - 1] - (int64_t)(key % exact->radix[g - 1]);
        key /= exact->radix[g - 1];
    }
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        /* Above what is left: worse. Below: nothing can be said. Equal: the
         * next goal decides, as this one can only be met. */
        const int64_t least = least_left(exact, layer, g, left);
        if (least != left[g])
            return least > left[g];
    }
    return true;
}

/* Each state may pass the roll over, or cut from it. */
static void run_layer(struct exact *exact, size_t layer)
{
    exact->roll_kind = exact->kind[layer];
    exact->roll = &exact->store->kind[exact->roll_kind];
    exact->came = exact->from + layer * exact->states;
    for (size_t state = 0; state < exact->states; state++) {
        /* The roll stays on the shelf. */
        exact->next[state] = exact->now[state];
        exact->came[state] = (uint32_t)state;
    }
    for (size_t state = 1; state < exact->states && exact->work < exact->steps;
         state++) {
        if (exact->now[state] >= exact->below)
            continue;
        const int64_t length = open_state(exact, state);
        if (exact->whole && length > exact->capacity[layer])
            continue;
        exact->state = (uint32_t)state;
        exact->begun = exact->now[state];
        if (!is_idle(exact, layer))
            fill(exact, 0, 0, 0, INT64_MAX);
        exact->work += 4;
    }
    exact->work += exact->states;
    wide *swap = exact->now;
    exact->now = exact->next;
    exact->next = swap;
}

/* The state in which the best plan ends: what is in it is missing. */
static size_t best_end(struct exact *exact)
{
    size_t best = exact->states;
    for (size_t state = 0; state < exact->states; state++) {
        if (exact->now[state] >= exact->below || (exact->whole && state > 0))
            continue;
        struct bolts_score missing = {{0}};
        open_state(exact, state);
        for (size_t level = 0; level < exact->levels; level++)
            missing.of[GOAL_MISSING] += (int64_t)exact->left[level];
        const wide key = exact->now[state] + key_of(exact, &missing);
        if (key >= exact->below)
            continue;
        exact->below = key;
        best = state;
    }
    return best;
}

/* Goes back from the end, roll by roll. */
static void walk_back(struct arena *arena, const struct exact *exact,
                      size_t state, const struct bolts_rest *rest,
                      struct bolts_answer *answer)
{
    const struct bolts_store *store = exact->store;
    struct bolts_rest left = bolts_rest_all(arena, store);
    size_t *made = ARENA_ARRAY(arena, size_t, store->cuts);
    memcpy(left.demand, rest->demand, store->cuts * sizeof *left.demand);
    memcpy(left.stock, rest->stock, store->kinds * sizeof *left.stock);
    for (size_t layer = exact->layers; layer > 0; layer--) {
        const size_t before = exact->from[(layer - 1) * exact->states + state];
        size_t taken = before - state;
        if (taken == 0)
            continue;
        memset(made, 0, store->cuts * sizeof *made);
        for (size_t level = exact->levels; level > 0; level--) {
            made[exact->cut[level - 1]] = taken / exact->stride[level - 1];
            taken %= exact->stride[level - 1];
        }
        bolts_pick_add(arena, store, answer, &left, exact->kind[layer - 1],
                       made, 1);
        state = before;
    }
    bolts_answer_close(store, answer, &left);
}

/* All layers. gives: the state in which the best plan ends; the count of states
 * where none is better. */
static size_t run(struct arena *arena, struct exact *exact)
{
    exact->now = ARENA_ARRAY(arena, wide, exact->states);
    exact->next = ARENA_ARRAY(arena, wide, exact->states);
    exact->from =
        ARENA_ARRAY(arena, uint32_t, exact->states * exact->layers + 1);
    if (exact->proof != NULL)
        lay_gains(arena, exact);
    for (size_t state = 0; state < exact->states; state++)
        exact->now[state] = never;
    /* All is asked for, and nothing was opened. */
    exact->now[exact->states - 1] = 0;
    for (size_t layer = 0; layer < exact->layers; layer++)
        run_layer(exact, layer);
    return best_end(exact);
}

enum bolts_exact_end bolts_exact(struct arena *arena, struct bolts_store *store,
                                 const struct bolts_rest *rest,
                                 const struct bolts_score *below,
                                 const struct bolts_proof *proof,
                                 uint64_t steps, struct bolts_answer *answer)
{
    if (bolts_exact_steps(store, rest, below) == UINT64_MAX)
        return BOLTS_GAVE_UP;
    struct arena *scratch = arena_create();
    struct exact exact = {.store = store,
                          .whole = below->of[GOAL_MISSING] == 0,
                          .proof = proof,
                          .known = *below,
                          .steps = steps};
    enum bolts_exact_end end = BOLTS_GAVE_UP;
    lay_levels(scratch, &exact, rest);
    lay_layers(scratch, &exact, rest, below);
    if (choose_radices(&exact, below)) {
        const size_t best = run(scratch, &exact);
        /* A run that was cut short has seen only a part of the plans. */
        if (exact.work < steps)
            end = best < exact.states ? BOLTS_BETTER : BOLTS_NONE_BETTER;
        if (end == BOLTS_BETTER)
            walk_back(arena, &exact, best, rest, answer);
    }
    store->work += exact.work;
    arena_destroy(scratch);
    return end;
}
