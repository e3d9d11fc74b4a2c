/* Lists of hundreds of sizes: the linear programme is solved once, for the
 * bound and for what pieces are worth. What it is sure of is taken, the rest is
 * laid strip by strip at these prices. Then strips that waste much are planned
 * anew with some others, as a small list of their own, over and over. */
#include "roll_large.h"

#include <string.h>

#include "roll_plan.h"
#include "roll_search.h"

/* The plan at hand, as strips. */
struct large {
    struct arena *arena;
    const struct roll_problem *problem;
    LIST(struct roll_strip) strips;
    int64_t length, bound;
    uint64_t random, work;
    /* scratch of a small list */
    bool *taken;     /* by strip */
    size_t *smaller; /* by size: its place in the small list, or SIZE_MAX */
    LIST(size_t) chosen;
};

/* Marsaglia, xorshift, 2003. */
static uint64_t chance(struct large *large, uint64_t below)
{
    large->random ^= large->random << 13;
    large->random ^= large->random >> 7;
    large->random ^= large->random << 17;
    return large->random % below;
}

/* ---- the first plan ---- */

/* So many pieces of each size are worth at the duals. */
static void find_worths(const struct roll_master *master, int64_t *worth)
{
    for (size_t i = 0; i < master->problem->count; i++) {
        const double dual = master->simplex.dual[i];
        worth[i] = dual > 0.0 ? (int64_t)(dual * 65536.0) : 0;
        /* A piece without a price has to be laid, too. */
        worth[i]++;
    }
}

/* Takes strips of the pattern in `made` as often as all of it is asked for. */
static void take_strips(struct large *large, const struct roll_height *height,
                        const size_t *made, size_t times, size_t *left)
{
    struct roll_strip *strip = LIST_ADD(large->arena, &large->strips);
    *strip = (struct roll_strip){.height = height->height, .repeat = times};
    for (size_t i = 0; i < height->ways.count; i++) {
        const struct roll_way *way = &height->ways.items[i];
        const size_t count = made[way->size];
        if (count == 0)
            continue;
        *LIST_ADD(large->arena, &strip->cuts) =
            (struct roll_cut){way->size, count, way->along};
        left[way->size] -=
            count * times < left[way->size] ? count * times : left[way->size];
    }
    large->length += height->height * (int64_t)times;
}

/* The whole parts of the solution. */
static void take_sure(struct large *large, const struct roll_master *master,
                      size_t *left)
{
    for (size_t row = 0; row < master->problem->count; row++) {
        const double times = master->simplex.value[row] + 1e-6;
        if (master->simplex.basis[row] < 0 || times < 1.0)
            continue;
        const struct roll_column *column =
            &master->columns.items[master->simplex.basis[row]];
        take_strips(large, &master->heights.items[column->height], column->made,
                    (size_t)times, left);
    }
}

/* How often a pattern fits into what is left. */
static size_t times_of(const struct roll_master *master, const size_t *made,
                       const size_t *left)
{
    size_t times = SIZE_MAX;
    for (size_t i = 0; i < master->problem->count; i++)
        if (made[i] > 0 && left[i] / made[i] < times)
            times = left[i] / made[i];
    return times == SIZE_MAX ? 0 : times;
}

/* The height whose best strip is worth most for what it costs; its pattern in
 * `made` of the master. */
static size_t best_height(struct roll_master *master, const int64_t *worth,
                          const size_t *left)
{
    const bool swept = master->problem->trimmed;
    size_t best = 0;
    double most = 0.0;
    if (swept)
        roll_sweep(master, worth, left);
    for (size_t k = 0; k < master->heights.count; k++) {
        const int64_t value = swept
                                  ? master->swept[k].worth
                                  : roll_knapsack(master, k, worth, left, NULL);
        const double share =
            (double)value / (double)master->heights.items[k].height;
        if (share <= most)
            continue;
        most = share;
        best = k;
    }
    if (swept)
        roll_swept_pattern(master, best, left, master->made);
    else
        roll_knapsack(master, best, worth, left, master->made);
    return best;
}

/* Strip by strip, that with the most worth for its height first. */
static void lay_rest(struct large *large, struct roll_master *master,
                     size_t *left)
{
    int64_t *worth = ARENA_ARRAY(large->arena, int64_t, master->problem->count);
    find_worths(master, worth);
    for (;;) {
        const size_t height = best_height(master, worth, left);
        const size_t times = times_of(master, master->made, left);
        if (times == 0)
            return;
        take_strips(large, &master->heights.items[height], master->made, times,
                    left);
    }
}

/* A gap of a thousandth between value and bound is left: to close it would
 * take most of the time, and strips have to be whole in the end. */
static void begin(struct large *large)
{
    struct arena *scratch = arena_create();
    const struct roll_problem *problem = large->problem;
    struct roll_master master;
    roll_master_init(&master, scratch, problem);
    size_t *left = ARENA_ARRAY(scratch, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        left[i] = problem->sizes[i].demand;
    master.good_gap = 0.001;
    roll_master_solve(&master, left);
    const int64_t area = roll_area_bound(problem);
    large->bound = master.bound > area ? master.bound : area;
    take_sure(large, &master, left);
    lay_rest(large, &master, left);
    large->work += master.work;
    arena_destroy(scratch);
}

/* ---- small lists ---- */

/* Cloth that a strip does not use, of all its repeats. */
static int64_t waste_of(const struct large *large,
                        const struct roll_strip *strip)
{
    int64_t waste = large->problem->width * strip->height;
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct roll_cut *cut = &strip->cuts.items[i];
        const struct roll_size *size = &large->problem->sizes[cut->size];
        waste -= size->width * size->height * (int64_t)cut->count;
    }
    return waste;
}

/* Of some strips by chance, that which wastes most. */
static size_t wasteful(struct large *large)
{
    enum { TRIALS = 4 };
    size_t worst = chance(large, large->strips.count);
    for (int i = 1; i < TRIALS; i++) {
        const size_t other = chance(large, large->strips.count);
        if (waste_of(large, &large->strips.items[other]) >
            waste_of(large, &large->strips.items[worst]))
            worst = other;
    }
    return worst;
}

/* Has a piece of `a` a side that is the height of `b`? */
static bool shares_side(const struct large *large, const struct roll_strip *a,
                        const struct roll_strip *b)
{
    for (size_t i = 0; i < a->cuts.count; i++) {
        const struct roll_size *size =
            &large->problem->sizes[a->cuts.items[i].size];
        if (size->height == b->height ||
            (size->turns && size->width == b->height))
            return true;
    }
    return false;
}

/* May pieces change between the strips? */
static bool are_near(struct large *large, const struct roll_strip *a,
                     const struct roll_strip *b)
{
    if (!large->problem->trimmed)
        return shares_side(large, a, b) || shares_side(large, b, a);
    const int64_t apart =
        a->height > b->height ? a->height - b->height : b->height - a->height;
    return apart * 6 <= a->height || chance(large, 8) == 0;
}

/* A wasteful strip and some that are near one of those chosen before, until
 * they hold enough sizes. */
static void choose_strips(struct large *large)
{
    const size_t count = large->strips.count;
    const size_t sizes = 8 + chance(large, 24);
    size_t held = 0;
    memset(large->taken, 0, count * sizeof *large->taken);
    large->chosen.count = 0;
    size_t next = wasteful(large);
    for (int trial = 0; trial < 40 && held < sizes; trial++) {
        if (next < count) {
            large->taken[next] = true;
            *LIST_ADD(large->arena, &large->chosen) = next;
            held += large->strips.items[next].cuts.count;
        }
        const struct roll_strip *near =
            &large->strips.items[large->chosen.items[chance(
                large, large->chosen.count)]];
        const size_t from = chance(large, count);
        next = count;
        for (size_t i = 0; i < count && next == count; i++) {
            const size_t at = (from + i) % count;
            if (!large->taken[at] &&
                are_near(large, near, &large->strips.items[at]))
                next = at;
        }
    }
}

/* What the chosen strips hold, as a list; `original` gets the sizes. */
static struct roll_problem small_list(struct large *large,
                                      struct arena *scratch, size_t *original)
{
    struct roll_problem small = *large->problem;
    struct roll_size *sizes =
        ARENA_ARRAY(scratch, struct roll_size, large->problem->count);
    small.count = 0;
    for (size_t c = 0; c < large->chosen.count; c++) {
        const struct roll_strip *strip =
            &large->strips.items[large->chosen.items[c]];
        for (size_t i = 0; i < strip->cuts.count; i++) {
            const struct roll_cut *cut = &strip->cuts.items[i];
            size_t *place = &large->smaller[cut->size];
            if (*place == SIZE_MAX) {
                *place = small.count++;
                original[*place] = cut->size;
                sizes[*place] = large->problem->sizes[cut->size];
                sizes[*place].demand = 0;
            }
            sizes[*place].demand += cut->count * strip->repeat;
        }
    }
    for (size_t i = 0; i < small.count; i++)
        large->smaller[original[i]] = SIZE_MAX;
    small.sizes = sizes;
    return small;
}

/* A strip of the small list in place of those that were chosen. */
static void put_strips(struct large *large, const struct roll_search *search,
                       const size_t *original)
{
    size_t kept = 0;
    for (size_t i = 0; i < large->strips.count; i++)
        if (!large->taken[i])
            large->strips.items[kept++] = large->strips.items[i];
    large->strips.count = kept;
    for (size_t p = 0; p < search->best.count; p++)
        *LIST_ADD(large->arena, &large->strips) =
            roll_search_strip(large->arena, search, p, original);
}

/* One small list; true where its strips are no longer than before. */
static void plan_some(struct large *large)
{
    struct arena *scratch = arena_create();
    choose_strips(large);
    int64_t length = 0;
    for (size_t c = 0; c < large->chosen.count; c++) {
        const struct roll_strip *strip =
            &large->strips.items[large->chosen.items[c]];
        length += strip->height * (int64_t)strip->repeat;
    }
    size_t *original = ARENA_ARRAY(scratch, size_t, large->problem->count);
    const struct roll_problem small = small_list(large, scratch, original);
    struct roll_search search;
    roll_search_init(&search, scratch, &small);
    search.random ^= chance(large, UINT32_MAX);
    roll_master_solve(&search.master, search.demand);
    search.bound = search.master.bound;
    large->work += 5000;
    if (search.bound < length) {
        roll_search_dive(&search);
        roll_search_renew(&search, 3 * search.master.work);
        if (search.best_length <= length) {
            put_strips(large, &search, original);
            large->length += search.best_length - length;
        }
    }
    large->work += search.master.work;
    arena_destroy(scratch);
}

/* Strips that make more than is asked for are found out when it is settled;
 * until then small lists ask for it, too. */
struct roll_plan *plan_large_roll(struct arena *arena,
                                  const struct roll_problem *problem,
                                  uint64_t *work)
{
    struct large large = {
        .arena = arena, .problem = problem, .random = 0x9E3779B97F4A7C15u};
    large.smaller = ARENA_ARRAY(arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        large.smaller[i] = SIZE_MAX;
    begin(&large);
    /* Never more than twice as many strips as at first. */
    size_t pieces = 0;
    for (size_t i = 0; i < problem->count; i++)
        pieces += problem->sizes[i].demand;
    large.taken = ARENA_ARRAY(arena, bool, pieces);
    while (large.length > large.bound && large.work < *work)
        plan_some(&large);
    *work = large.work;
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    for (size_t i = 0; i < large.strips.count; i++)
        *LIST_ADD(arena, &plan->strips) = large.strips.items[i];
    roll_plan_settle(arena, problem, plan);
    plan->bound = large.bound;
    return plan;
}
