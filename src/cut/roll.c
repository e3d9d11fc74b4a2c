/* Whole strips from the linear programme: what is sure is fixed, the rest is
 * solved again (a dive); parts of the best plan are then taken away and solved
 * anew, as long as the work lasts or until the bound is met. */
#include <stdlib.h>
#include <string.h>

#include "roll_master.h"
#include "roll_plan.h"

/* ---- plans as lists of columns while they are searched ---- */

/* Repeats are held by column, so that patterns are compared by their index and
 * a plan is copied with one call. */
struct search {
    struct roll_master master;
    struct arena *arena;
    size_t *repeats; /* by column of the master: the plan at hand */
    size_t capacity;
    size_t *best;
    int64_t best_length;
    uint64_t random;
    uint64_t limit;
};

/* A generator with a fixed start (Marsaglia, xorshift, 2003): the same list
 * gives the same plan. */
static uint64_t next_random(struct search *search)
{
    search->random ^= search->random << 13;
    search->random ^= search->random >> 7;
    search->random ^= search->random << 17;
    return search->random;
}

/* Columns are added while the search runs; both plans grow with them. */
static void make_room(struct search *search)
{
    const size_t need = search->master.columns.count;
    if (need <= search->capacity)
        return;
    const size_t capacity = need * 2;
    size_t *repeats = ARENA_ARRAY(search->arena, size_t, capacity);
    size_t *best = ARENA_ARRAY(search->arena, size_t, capacity);
    for (size_t i = 0; i < search->capacity; i++) {
        repeats[i] = search->repeats[i];
        best[i] = search->best[i];
    }
    search->repeats = repeats;
    search->best = best;
    search->capacity = capacity;
}

/* In whole steps of the problem. */
static int64_t column_height(const struct search *search, size_t column)
{
    const struct roll_master *master = &search->master;
    return master->heights.items[master->columns.items[column].height].height;
}

static int64_t plan_length(const struct search *search, const size_t *repeats)
{
    int64_t length = 0;
    for (size_t i = 0; i < search->master.columns.count; i++)
        length += (int64_t)repeats[i] * column_height(search, i);
    return length;
}

/* Takes `times` strips of a column; what they make is no longer asked for. */
static void take(struct search *search, size_t column, size_t times,
                 size_t *left)
{
    make_room(search);
    search->repeats[column] += times;
    const size_t *made = search->master.columns.items[column].made;
    for (size_t i = 0; i < search->master.problem->count; i++) {
        const size_t all = made[i] * times;
        left[i] -= all < left[i] ? all : left[i];
    }
}

/* Is any demand open? */
static bool anything_left(const struct search *search, const size_t *left)
{
    for (size_t i = 0; i < search->master.problem->count; i++)
        if (left[i] > 0)
            return true;
    return false;
}

/* Fixes the whole parts of the solution; where there are none, the strip with
 * the largest part, give or take chance. */
static void fix_some(struct search *search, size_t *left)
{
    const struct roll_master *master = &search->master;
    size_t chosen = 0;
    double most = -1.0;
    bool whole = false;
    /* Now and then by chance alone, one strip at a time: what the programme
     * thinks sure need not be so in whole strips. */
    const bool bold =
        search->best_length < INT64_MAX && next_random(search) % 3 == 0;
    const double noise = bold ? 0.001 : 0.0002;
    for (size_t row = 0; row < master->problem->count; row++) {
        if (master->basis[row] < 0 || master->value[row] < 1e-6)
            continue;
        const size_t column = (size_t)master->basis[row];
        const double value = master->value[row] + 1e-6;
        const size_t times = (size_t)value;
        const double part = value - (double)times +
                            (double)(next_random(search) % 1000) * noise;
        if (times > 0 && !bold) {
            take(search, column, times, left);
            whole = true;
        }
        if (part > most) {
            most = part;
            chosen = column;
        }
    }
    if (!whole && most >= 0.0)
        take(search, chosen, 1, left);
}

/* A strip by chance: patterns that no dual asks for may be what whole strips
 * need. False where its height takes nothing that is left. */
static bool take_by_chance(struct search *search, size_t *left)
{
    struct roll_master *master = &search->master;
    const size_t count = master->problem->count;
    struct arena *scratch = arena_create();
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    size_t *made = ARENA_ARRAY(scratch, size_t, count);
    for (size_t i = 0; i < count; i++)
        worth[i] = 1 + (int64_t)(next_random(search) % 100);
    const size_t height = next_random(search) % master->heights.count;
    const bool some = roll_knapsack(master, height, worth, left, made) > 0;
    if (some)
        take(search, roll_master_column(master, height, made), 1, left);
    arena_destroy(scratch);
    return some;
}

/* Completes the plan at hand for what is left. */
static void dive(struct search *search, size_t *left)
{
    const bool random =
        search->best_length < INT64_MAX && next_random(search) % 4 == 0;
    while (anything_left(search, left)) {
        if (random && next_random(search) % 2 == 0 &&
            take_by_chance(search, left))
            continue;
        roll_master_solve(&search->master, left);
        make_room(search);
        fix_some(search, left);
    }
}

/* Pieces that are made beyond what is asked are worth nothing: a strip that
 * can go, goes. */
static void drop_needless(struct search *search)
{
    const struct roll_master *master = &search->master;
    const size_t count = master->problem->count;
    size_t *made = ARENA_ARRAY(search->arena, size_t, count);
    for (size_t c = 0; c < master->columns.count; c++)
        for (size_t i = 0; i < count; i++)
            made[i] += search->repeats[c] * master->columns.items[c].made[i];
    for (size_t c = master->columns.count; c-- > 0;) {
        while (search->repeats[c] > 0) {
            bool needless = true;
            for (size_t i = 0; i < count; i++)
                needless &= made[i] >= master->problem->sizes[i].demand +
                                           master->columns.items[c].made[i];
            if (!needless)
                break;
            search->repeats[c]--;
            for (size_t i = 0; i < count; i++)
                made[i] -= master->columns.items[c].made[i];
        }
    }
}

/* Keeps the plan at hand where it is no longer than the best. */
static void keep_better(struct search *search)
{
    drop_needless(search);
    const int64_t length = plan_length(search, search->repeats);
    if (length > search->best_length) {
        memcpy(search->repeats, search->best,
               search->capacity * sizeof *search->best);
        return;
    }
    search->best_length = length;
    memcpy(search->best, search->repeats,
           search->capacity * sizeof *search->best);
}

/* Takes away about a third of the strips, by chance, and asks for their pieces
 * again. */
static void take_away(struct search *search, size_t *left)
{
    const struct roll_master *master = &search->master;
    const size_t count = master->problem->count;
    /* From one in four to all. */
    const uint64_t share = 1 + next_random(search) % 4;
    size_t *made = ARENA_ARRAY(search->arena, size_t, count);
    for (size_t c = 0; c < master->columns.count; c++) {
        for (size_t n = search->repeats[c]; n > 0; n--)
            if (next_random(search) % share == 0)
                search->repeats[c]--;
        for (size_t i = 0; i < count; i++)
            made[i] += search->repeats[c] * master->columns.items[c].made[i];
    }
    for (size_t i = 0; i < count; i++) {
        const size_t demand = master->problem->sizes[i].demand;
        left[i] = made[i] < demand ? demand - made[i] : 0;
    }
}

/* A copy, since a dive counts it down. */
static size_t *demands(struct search *search)
{
    const struct roll_problem *problem = search->master.problem;
    size_t *demand = ARENA_ARRAY(search->arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        demand[i] = problem->sizes[i].demand;
    return demand;
}

/* From columns to strips, in the arena of the caller. */
static struct roll_plan *finished(struct search *search, struct arena *arena,
                                  int64_t bound)
{
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    const struct roll_master *master = &search->master;
    for (size_t c = 0; c < master->columns.count; c++) {
        if (search->best[c] == 0)
            continue;
        const struct roll_column *column = &master->columns.items[c];
        const struct roll_height *height =
            &master->heights.items[column->height];
        struct roll_strip *strip = LIST_ADD(arena, &plan->strips);
        strip->height = height->height;
        strip->repeat = search->best[c];
        for (size_t i = 0; i < height->ways.count; i++) {
            const struct roll_way *way = &height->ways.items[i];
            if (column->made[way->size] > 0)
                *LIST_ADD(arena, &strip->cuts) = (struct roll_cut){
                    way->size, column->made[way->size], way->along};
        }
    }
    plan->bound = bound;
    roll_plan_settle(plan);
    return plan;
}

/* The first dive follows the programme; all later ones start from a part of the
 * best plan. Stops at the bound or when the work is spent. */
struct roll_plan *plan_roll(struct arena *arena,
                            const struct roll_problem *problem, uint64_t work)
{
    struct roll_plan *hand = plan_roll_by_hand(arena, problem);
    if (hand == NULL)
        return NULL;
    struct arena *scratch = arena_create();
    struct search search = {.arena = scratch,
                            .random = 0x9E3779B97F4A7C15u,
                            .limit = work,
                            .best_length = INT64_MAX};
    roll_master_init(&search.master, scratch, problem);
    size_t *left = demands(&search);
    roll_master_solve(&search.master, left);
    const int64_t bound = roll_bound(&search.master, left);
    make_room(&search);
    dive(&search, left);
    keep_better(&search);
    while (search.best_length > bound && search.master.work < work) {
        take_away(&search, left);
        dive(&search, left);
        keep_better(&search);
    }
    struct roll_plan *plan = finished(&search, arena, bound);
    arena_destroy(scratch);
    /* Never worse than a person would do it. */
    if (hand->length >= plan->length)
        return plan;
    hand->bound = bound;
    return hand;
}
