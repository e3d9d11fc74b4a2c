/* Whole strips from the linear programme: what is sure is fixed, the rest is
 * solved again (a dive); parts of the best plan are then taken away and solved
 * anew. */
#include "roll_search.h"

#include <string.h>

/* A generator with a fixed start (Marsaglia, xorshift, 2003): the same list
 * gives the same plan. */
static uint64_t next_random(struct roll_search *search)
{
    search->random ^= search->random << 13;
    search->random ^= search->random >> 7;
    search->random ^= search->random << 17;
    return search->random;
}

/* The start of the generator is 2 to the 64th over the golden ratio; any number
 * would do but zero, which xorshift never leaves. */
void roll_search_init(struct roll_search *search, struct arena *arena,
                      const struct roll_problem *problem)
{
    *search = (struct roll_search){.arena = arena,
                                   .random = 0x9E3779B97F4A7C15u,
                                   .best_length = INT64_MAX};
    roll_master_init(&search->master, arena, problem);
    size_t *demand = ARENA_ARRAY(arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        demand[i] = problem->sizes[i].demand;
    search->demand = demand;
    search->left = ARENA_ARRAY(arena, size_t, problem->count);
    search->made = ARENA_ARRAY(arena, size_t, problem->count);
    search->near =
        ARENA_ARRAY(arena, size_t, problem->count + ROLL_MOST_BRANCHES);
}

/* ---- the plan at hand ---- */

/* All that a strip costs: its width is bought anyway. */
static int64_t column_height(const struct roll_search *search, size_t column)
{
    const struct roll_master *master = &search->master;
    return master->heights.items[master->columns.items[column].height].height;
}

/* Added up anew each time, as patterns come and go in many places. */
static int64_t length_now(const struct roll_search *search)
{
    int64_t length = 0;
    for (size_t i = 0; i < search->now.count; i++)
        length += (int64_t)search->now.items[i].times *
                  column_height(search, search->now.items[i].column);
    return length;
}

/* Takes `times` strips of a column; what they make is no longer asked for. */
static void take(struct roll_search *search, size_t column, size_t times)
{
    struct roll_pick *pick = NULL;
    for (size_t i = 0; i < search->now.count && pick == NULL; i++)
        if (search->now.items[i].column == column)
            pick = &search->now.items[i];
    if (pick == NULL) {
        pick = LIST_ADD(search->arena, &search->now);
        *pick = (struct roll_pick){column, 0};
    }
    pick->times += times;
    const struct roll_column *pattern = &search->master.columns.items[column];
    for (size_t i = 0; i < pattern->part_count; i++) {
        const size_t size = pattern->parts[i].size;
        const size_t all = pattern->parts[i].count * times;
        search->left[size] -=
            all < search->left[size] ? all : search->left[size];
    }
}

/* Is any demand open? */
static bool anything_left(const struct roll_search *search)
{
    for (size_t i = 0; i < search->master.problem->count; i++)
        if (search->left[i] > 0)
            return true;
    return false;
}

/* What the plan at hand makes of each size. */
static void count_made(struct roll_search *search)
{
    memset(search->made, 0,
           search->master.problem->count * sizeof *search->made);
    for (size_t p = 0; p < search->now.count; p++) {
        const struct roll_pick *pick = &search->now.items[p];
        const struct roll_column *column =
            &search->master.columns.items[pick->column];
        for (size_t i = 0; i < column->part_count; i++)
            search->made[column->parts[i].size] +=
                column->parts[i].count * pick->times;
    }
}

/* How many strips of a pattern can go: pieces that are made beyond what is
 * asked are worth nothing. */
static size_t needless(const struct roll_search *search,
                       const struct roll_pick *pick)
{
    const struct roll_column *column =
        &search->master.columns.items[pick->column];
    size_t most = pick->times;
    for (size_t i = 0; i < column->part_count; i++) {
        const size_t size = column->parts[i].size;
        const size_t over = search->made[size] > search->demand[size]
                                ? search->made[size] - search->demand[size]
                                : 0;
        const size_t times = over / column->parts[i].count;
        most = times < most ? times : most;
    }
    return most;
}

/* From the end, as a pattern that goes is replaced by the last one, which was
 * looked at already. */
static void drop_needless(struct roll_search *search)
{
    count_made(search);
    for (size_t p = search->now.count; p-- > 0;) {
        struct roll_pick *pick = &search->now.items[p];
        const size_t times = needless(search, pick);
        const struct roll_column *column =
            &search->master.columns.items[pick->column];
        for (size_t i = 0; i < column->part_count; i++)
            search->made[column->parts[i].size] -=
                column->parts[i].count * times;
        pick->times -= times;
        if (pick->times == 0)
            *pick = search->now.items[--search->now.count];
    }
}

/* Into the memory that is there: an arena gives nothing back, and this runs
 * thousands of times. */
static void copy_picks(struct roll_search *search, struct roll_picks *to,
                       const struct roll_picks *from)
{
    to->count = 0;
    for (size_t i = 0; i < from->count; i++)
        *LIST_ADD(search->arena, to) = from->items[i];
}

/* Keeps the plan at hand where it is no longer than the best. */
static void keep_better(struct roll_search *search)
{
    drop_needless(search);
    const int64_t length = length_now(search);
    if (length > search->best_length)
        return;
    search->best_length = length;
    copy_picks(search, &search->best, &search->now);
}

struct roll_strip roll_search_strip(struct arena *arena,
                                    const struct roll_search *search,
                                    size_t pick, const size_t *original)
{
    const struct roll_master *master = &search->master;
    const struct roll_column *column =
        &master->columns.items[search->best.items[pick].column];
    const struct roll_height *height = &master->heights.items[column->height];
    struct roll_strip strip = {.height = height->height,
                               .repeat = search->best.items[pick].times};
    for (size_t i = 0; i < height->ways.count; i++) {
        const struct roll_way *way = &height->ways.items[i];
        if (column->made[way->size] > 0)
            *LIST_ADD(arena, &strip.cuts) = (struct roll_cut){
                original[way->size], column->made[way->size], way->along};
    }
    return strip;
}

/* ---- dives ---- */

/* Fixes the whole parts of the solution; where there are none, the strip with
 * the largest part, give or take chance. */
static void fix_some(struct roll_search *search)
{
    const struct roll_master *master = &search->master;
    const size_t rows = master->problem->count + master->branch_count;
    size_t chosen = 0;
    double most = -1.0;
    bool whole = false;
    /* Now and then by chance alone, one strip at a time: what the programme
     * thinks sure need not be so in whole strips. */
    const bool bold =
        search->best_length < INT64_MAX && next_random(search) % 3 == 0;
    const double noise = bold ? 0.001 : 0.0002;
    for (size_t row = 0; row < rows; row++) {
        if (master->simplex.basis[row] < 0 || master->simplex.value[row] < 1e-6)
            continue;
        const size_t column = (size_t)master->simplex.basis[row];
        const double value = master->simplex.value[row] + 1e-6;
        const size_t times = (size_t)value;
        const double part = value - (double)times +
                            (double)(next_random(search) % 1000) * noise;
        if (times > 0 && !bold) {
            take(search, column, times);
            whole = true;
        }
        if (part > most) {
            most = part;
            chosen = column;
        }
    }
    if (!whole && most >= 0.0)
        take(search, chosen, 1);
}

/* A strip by chance: patterns that no dual asks for may be what whole strips
 * need. False where its height takes nothing that is left. */
static bool take_by_chance(struct roll_search *search)
{
    struct roll_master *master = &search->master;
    const size_t count = master->problem->count;
    for (size_t i = 0; i < count; i++)
        master->worth[i] = 1 + (int64_t)(next_random(search) % 100);
    const size_t height = next_random(search) % master->heights.count;
    if (roll_knapsack(master, height, master->worth, search->left,
                      master->made) <= 0)
        return false;
    take(search, roll_master_column(master, height, master->made), 1);
    return true;
}

/* What the programme bought is nearly what it buys of what is left. */
static void begin_with_bought(struct roll_search *search)
{
    const struct roll_master *master = &search->master;
    const size_t rows = master->problem->count + master->branch_count;
    search->near_count = 0;
    for (size_t row = 0; search->warm && row < rows; row++)
        if (master->simplex.basis[row] >= 0 &&
            master->simplex.value[row] > 1e-6)
            search->near[search->near_count++] =
                (size_t)master->simplex.basis[row];
}

/* Now and then from strips of one size alone: another start ends at another
 * solution of the same value. */
static void solve_left(struct roll_search *search)
{
    if (!search->warm || next_random(search) % 4 == 0)
        roll_master_solve(&search->master, search->left);
    else
        roll_master_solve_from(&search->master, search->left, search->near,
                               search->near_count);
    begin_with_bought(search);
}

/* Completes the plan at hand for what is left. */
static void complete(struct roll_search *search)
{
    const bool random =
        search->best_length < INT64_MAX && next_random(search) % 4 == 0;
    while (anything_left(search)) {
        if (random && next_random(search) % 2 == 0 && take_by_chance(search))
            continue;
        solve_left(search);
        fix_some(search);
    }
}

/* The first strips come from what the master solved last. In the tree that
 * obeys the branches of one part, so that dives from different parts lead to
 * different plans. */
void roll_search_dive(struct roll_search *search)
{
    search->now.count = 0;
    memcpy(search->left, search->demand,
           search->master.problem->count * sizeof *search->left);
    search->master.good_bound = INT64_MAX;
    begin_with_bought(search);
    fix_some(search);
    complete(search);
    keep_better(search);
}

/* ---- renewal ---- */

/* Takes away a part of the strips of the best plan, by chance, from one in four
 * to all, and asks for their pieces again. */
static void take_away(struct roll_search *search)
{
    const uint64_t share = 1 + next_random(search) % 4;
    copy_picks(search, &search->now, &search->best);
    size_t kept = 0;
    search->near_count = 0;
    for (size_t p = 0; p < search->now.count; p++) {
        struct roll_pick pick = search->now.items[p];
        const size_t before = pick.times;
        for (size_t n = pick.times; n > 0; n--)
            if (next_random(search) % share == 0)
                pick.times--;
        if (pick.times < before &&
            search->near_count < search->master.problem->count)
            search->near[search->near_count++] = pick.column;
        if (pick.times > 0)
            search->now.items[kept++] = pick;
    }
    search->now.count = kept;
    count_made(search);
    for (size_t i = 0; i < search->master.problem->count; i++)
        search->left[i] = search->made[i] < search->demand[i]
                              ? search->demand[i] - search->made[i]
                              : 0;
}

/* Large neighborhood search (Shaw, 1998): most of a good plan is good, and what
 * is wrong is seldom in one strip alone. Equal plans are kept as well, so that
 * it moves on where nothing improves. */
void roll_search_renew(struct roll_search *search, uint64_t work)
{
    search->master.good_bound = INT64_MAX;
    while (search->best_length > search->bound && search->master.work < work) {
        search->master.work += 2000;
        take_away(search);
        complete(search);
        keep_better(search);
    }
}
