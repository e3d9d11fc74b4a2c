/* Lists of hundreds of sizes: the linear programme is solved once, for the
 * bound and for what pieces are worth. What it is sure of is taken, the rest is
 * laid strip by strip at these prices. Then strips that waste much are planned
 * anew with some others, as a small list of their own, over and over. */
#include "roll_large.h"

#include <math.h>
#include <string.h>

#include "roll_cover.h"
#include "roll_plan.h"
#include "roll_search.h"
#include "roll_turn.h"

/* The plan at hand, as strips. */
struct large {
    struct arena *arena;
    const struct roll_problem *problem;
    LIST(struct roll_strip) strips;
    int64_t length, bound;
    bool full;       /* most strips have no gap */
    int64_t covered; /* length of full strips that were found */
    uint64_t random, work;
    /* scratch of a small list */
    bool *taken;     /* by strip, of the list that is planned */
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

/* What is known of a plan while it is made: `sure` will not change any more,
 * `rest` makes what is left, at the prices of the moment. */
struct dive {
    struct large *large;
    struct arena *arena;
    struct roll_master master;
    LIST(struct roll_pick) sure, rest;
    LIST(size_t) patterns; /* of the rest */
    int64_t sure_length, rest_length;
    size_t *left, *open; /* by size: not in `sure`; in neither, for a moment */
    int64_t *worth;
    int64_t *value; /* by height: the worth of a strip, or more */
    double share;   /* of the last strip: its worth a unit of height; 0 before
                       the first look at all heights */
    double *price;  /* those that proved the best bound */
};

/* A strip with its pieces, in the arena of the plan. */
static struct roll_strip strip_of(struct dive *dive,
                                  const struct roll_pick *start)
{
    const struct roll_master *master = &dive->master;
    const struct roll_column *column = &master->columns.items[start->column];
    const struct roll_height *height = &master->heights.items[column->height];
    struct roll_strip strip = {.height = height->height,
                               .repeat = start->times};
    for (size_t i = 0; i < height->ways.count; i++) {
        const struct roll_way *way = &height->ways.items[i];
        if (column->made[way->size] > 0)
            *LIST_ADD(dive->large->arena, &strip.cuts) = (struct roll_cut){
                way->size, column->made[way->size], way->along};
    }
    return strip;
}

/* Keeps the plan at hand where it is shorter than all before. */
static void keep_shorter(struct dive *dive)
{
    struct large *large = dive->large;
    if (large->strips.count > 0 &&
        dive->sure_length + dive->rest_length >= large->length)
        return;
    large->length = dive->sure_length + dive->rest_length;
    large->strips.count = 0;
    for (size_t i = 0; i < dive->sure.count; i++)
        *LIST_ADD(large->arena, &large->strips) =
            strip_of(dive, &dive->sure.items[i]);
    for (size_t i = 0; i < dive->rest.count; i++)
        *LIST_ADD(large->arena, &large->strips) =
            strip_of(dive, &dive->rest.items[i]);
}

/* Of all heights, at what they were worth at last, that which is worth most for
 * what it costs. */
static size_t most_promising(const struct dive *dive)
{
    const struct roll_master *master = &dive->master;
    size_t best = 0;
    double most = 0.0;
    for (size_t k = 0; k < master->heights.count; k++) {
        const double share =
            (double)dive->value[k] / (double)master->heights.items[k].height;
        if (share <= most)
            continue;
        most = share;
        best = k;
    }
    return best;
}

/* A look at all heights fills a table of as many cells; with more than these it
 * is not done for each strip. */
enum { CELLS_MANY = 1000000 };

/* What the pattern in `made` of the master is worth. */
static int64_t worth_of(const struct dive *dive)
{
    int64_t worth = 0;
    for (size_t i = 0; i < dive->master.problem->count; i++)
        worth += dive->worth[i] * (int64_t)dive->master.made[i];
    return worth;
}

/* A strip of the last look at all heights, less what was taken since, that is
 * nearly as good as the last one taken. ensures: its height, or that there is
 * none. */
static bool near_height(struct dive *dive, size_t *height)
{
    struct roll_master *master = &dive->master;
    const struct roll_height *heights = master->heights.items;
    if (dive->share <= 0.0 ||
        (int64_t)master->problem->count * master->problem->width < CELLS_MANY)
        return false;
    for (;;) {
        const size_t k = most_promising(dive);
        const double least = 0.995 * dive->share * (double)heights[k].height;
        if ((double)dive->value[k] < least)
            return false;
        roll_swept_pattern(master, k, dive->open, master->made);
        dive->value[k] = worth_of(dive);
        if ((double)dive->value[k] < least)
            continue; /* too much of it was taken */
        dive->share = (double)dive->value[k] / (double)heights[k].height;
        *height = k;
        return true;
    }
}

/* The height whose best strip is worth most for what it costs; its pattern in
 * `made` of the master. What strips are worth only falls while pieces are
 * taken, so that a height is looked at anew only when it comes first. */
static size_t best_height(struct dive *dive)
{
    struct roll_master *master = &dive->master;
    if (master->problem->trimmed) {
        size_t near;
        if (near_height(dive, &near))
            return near;
        roll_sweep(master, dive->worth, dive->open);
        for (size_t k = 0; k < master->heights.count; k++)
            dive->value[k] = master->swept[k].worth;
        const size_t best = most_promising(dive);
        dive->share = (double)dive->value[best] /
                      (double)master->heights.items[best].height;
        roll_swept_pattern(master, best, dive->open, master->made);
        return best;
    }
    size_t looked_at = SIZE_MAX, best = most_promising(dive);
    while (best != looked_at) {
        dive->value[best] =
            roll_knapsack(master, best, dive->worth, dive->open, master->made);
        looked_at = best;
        best = most_promising(dive);
    }
    return best;
}

/* Takes strips of a pattern until one of its sizes is used up, or so many. */
static struct roll_pick take(struct dive *dive, size_t index, size_t most,
                             size_t *left)
{
    const struct roll_column *column = &dive->master.columns.items[index];
    struct roll_pick start = {index, most};
    for (size_t i = 0; i < column->part_count; i++) {
        const struct roll_part part = column->parts[i];
        if (left[part.size] / part.count < start.times)
            start.times = left[part.size] / part.count;
    }
    for (size_t i = 0; i < column->part_count; i++)
        left[column->parts[i].size] -= column->parts[i].count * start.times;
    return start;
}

static bool any_open(const struct dive *dive)
{
    for (size_t i = 0; i < dive->master.problem->count; i++)
        if (dive->open[i] > 0)
            return true;
    return false;
}

/* What is left, strip by strip, that with the most worth for its height first.
 */
static void lay_rest(struct dive *dive, const double *price)
{
    struct roll_master *master = &dive->master;
    const size_t count = master->problem->count;
    /* A piece without a price has to be laid, too. */
    for (size_t i = 0; i < count; i++)
        dive->worth[i] =
            1 + (price[i] > 0.0 ? (int64_t)(price[i] * 65536.0) : 0);
    for (size_t k = 0; k < master->heights.count; k++)
        dive->value[k] = INT64_MAX;
    memcpy(dive->open, dive->left, count * sizeof *dive->open);
    dive->rest.count = 0;
    dive->patterns.count = 0;
    dive->rest_length = 0;
    dive->share = 0.0;
    while (any_open(dive)) {
        const size_t height = best_height(dive);
        const size_t index = roll_master_column(master, height, master->made);
        const struct roll_pick start = take(dive, index, SIZE_MAX, dive->open);
        dive->rest_length +=
            master->heights.items[height].height * (int64_t)start.times;
        *LIST_ADD(dive->arena, &dive->rest) = start;
        *LIST_ADD(dive->arena, &dive->patterns) = index;
    }
    keep_shorter(dive);
}

static void make_sure(struct dive *dive, size_t column, size_t times)
{
    const struct roll_pick start = take(dive, column, times, dive->left);
    if (start.times == 0)
        return;
    dive->sure_length +=
        dive->master.heights.items[dive->master.columns.items[column].height]
            .height *
        (int64_t)start.times;
    *LIST_ADD(dive->arena, &dive->sure) = start;
}

/* The whole parts of the solution, then of the others those that are nearly
 * whole: a fifth of them at least. */
static void fix_some(struct dive *dive)
{
    const struct simplex *simplex = &dive->master.simplex;
    const size_t rows = dive->master.problem->count;
    size_t parts = 0, whole = 0;
    for (size_t row = 0; row < rows; row++) {
        const double times = simplex->value[row] + 1e-6;
        if (simplex->basis[row] < 0 || times < 0.01)
            continue;
        whole += times >= 1.0;
        parts++;
        if (times >= 1.0)
            make_sure(dive, (size_t)simplex->basis[row], (size_t)times);
    }
    for (double least = 0.95; whole * 5 < parts; least -= 0.05)
        for (size_t row = 0; row < rows && whole * 5 < parts; row++) {
            const double times = simplex->value[row];
            const double part = times - floor(times + 1e-6);
            if (simplex->basis[row] < 0 || part < least || part >= least + 0.05)
                continue;
            whole++;
            make_sure(dive, (size_t)simplex->basis[row], 1);
        }
}

/* Of what is left, the linear programme says what is sure, until nothing is
 * left; at each step what it says of the prices makes a plan. A gap of a
 * thousandth between its value and bound is left: to close it would take most
 * of the time, and strips have to be whole in the end. */
static void dive_down(struct dive *dive, uint64_t work)
{
    struct large *large = dive->large;
    for (size_t step = 0; dive->rest.count > 0 && dive->master.work < work &&
                          large->length > large->bound;
         step++) {
        const uint64_t share = step == 0 ? work / 3 : work / 16;
        roll_master_approach(&dive->master, dive->left, dive->patterns.items,
                             dive->patterns.count, dive->price,
                             step == 0 ? 0.0005 : 0.002,
                             dive->master.work + share);
        if (step == 0 && dive->sure.count == 0 &&
            dive->master.bound > large->bound)
            large->bound = dive->master.bound;
        fix_some(dive);
        lay_rest(dive, dive->master.simplex.dual);
    }
}

/* Full strips are sure. */
static void take_cover(struct dive *dive, const struct roll_cover *cover)
{
    struct roll_master *master = &dive->master;
    for (size_t i = 0; i < cover->strips.count; i++) {
        const struct roll_full *strip = &cover->strips.items[i];
        size_t height = 0;
        while (master->heights.items[height].height != strip->height)
            height++;
        memset(master->made, 0, master->problem->count * sizeof *master->made);
        for (size_t k = 0; k < strip->part_count; k++)
            master->made[strip->parts[k].size] = strip->parts[k].count;
        make_sure(dive, roll_master_column(master, height, master->made),
                  strip->times);
    }
}

/* Strips without a gap first, where they use most of the pieces up: what such
 * lists need is no price, but to know which pieces belong together. Then at the
 * prices of their areas: where strips fill well, no linear programme knows
 * better. */
static void begin(struct large *large, uint64_t work)
{
    const struct roll_problem *problem = large->problem;
    struct dive dive = {.large = large, .arena = arena_create()};
    roll_master_init(&dive.master, dive.arena, problem);
    dive.left = ARENA_ARRAY(dive.arena, size_t, problem->count);
    dive.open = ARENA_ARRAY(dive.arena, size_t, problem->count);
    dive.worth = ARENA_ARRAY(dive.arena, int64_t, problem->count);
    dive.value = ARENA_ARRAY(dive.arena, int64_t, dive.master.heights.count);
    dive.price = ARENA_ARRAY(dive.arena, double, problem->count);
    for (size_t i = 0; i < problem->count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        dive.left[i] = size->demand;
        dive.price[i] =
            (double)size->width * (double)size->height / (double)problem->width;
    }
    large->bound = roll_area_bound(problem);
    uint64_t spent = work / 3;
    const struct roll_cover cover = roll_cover(dive.arena, problem, &spent);
    large->covered = cover.length;
    large->full = cover.length * 4 >= large->bound * 3;
    if (large->full)
        take_cover(&dive, &cover);
    lay_rest(&dive, dive.price);
    dive_down(&dive, work - spent);
    large->work += dive.master.work + spent;
    arena_destroy(dive.arena);
}

/* Another plan, where full strips are not nearly all. It takes a second or two
 * of its own, which small lists cannot use as well.
 * gives: is it shorter? */
static bool turn_pieces(struct large *large, uint64_t work)
{
    if (large->problem->trimmed || large->length <= large->bound ||
        large->covered * 100 >= large->bound * 97)
        return false;
    const struct roll_turned turned =
        roll_turn(large->arena, large->problem, large->bound, &work);
    if (turned.length >= large->length)
        return false;
    large->length = turned.length;
    large->strips.count = 0;
    for (size_t i = 0; i < turned.strips.count; i++)
        *LIST_ADD(large->arena, &large->strips) = turned.strips.items[i];
    return true;
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

/* The first one behind a place by chance that is near this one; their count
 * where none is. */
static size_t near_one(struct large *large, const struct roll_strip *strip)
{
    const size_t count = large->strips.count, from = chance(large, count);
    for (size_t i = 0; i < count; i++) {
        const size_t at = (from + i) % count;
        if (!large->taken[at] &&
            are_near(large, strip, &large->strips.items[at]))
            return at;
    }
    return count;
}

/* Of some near ones, that which wastes most: where most strips are full, waste
 * meets waste by chance too seldom. */
static size_t wasteful_near(struct large *large, const struct roll_strip *strip)
{
    enum { TRIALS = 16 };
    size_t worst = near_one(large, strip);
    for (int i = 1; i < TRIALS && worst < large->strips.count; i++) {
        const size_t other = near_one(large, strip);
        if (other < large->strips.count &&
            waste_of(large, &large->strips.items[other]) >
                waste_of(large, &large->strips.items[worst]))
            worst = other;
    }
    return worst;
}

/* A wasteful strip and some that are near one of those chosen before, until
 * they hold enough sizes; of strips without a gap more of them, as what is left
 * lies in many heights. */
static void choose_strips(struct large *large, struct arena *scratch)
{
    const size_t count = large->strips.count;
    const size_t sizes = 8 + chance(large, large->full ? 140 : 24);
    size_t held = 0;
    large->taken = ARENA_ARRAY(scratch, bool, count);
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
        next = wasteful_near(large, near);
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

/* Strips of the small list in place of those that were chosen. */
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
    choose_strips(large, scratch);
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

/* Strips with their cuts, out of an arena that goes. */
static struct roll_plan *copy_plan(struct arena *arena,
                                   const struct large *large)
{
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    for (size_t i = 0; i < large->strips.count; i++) {
        const struct roll_strip *from = &large->strips.items[i];
        struct roll_strip *strip = LIST_ADD(arena, &plan->strips);
        *strip =
            (struct roll_strip){.height = from->height, .repeat = from->repeat};
        for (size_t k = 0; k < from->cuts.count; k++)
            *LIST_ADD(arena, &strip->cuts) = from->cuts.items[k];
    }
    roll_plan_settle(arena, large->problem, plan);
    plan->bound = large->bound;
    return plan;
}

/* Three quarters of the work for the dive: it finds what small lists cannot.
 * What strips make beyond the demand goes when the plan is settled; until then
 * small lists ask for it, too. Trimmed lists meet their bound within a
 * thousandth or so, and their steps take longer: they get less. Where strips
 * have no gap, steps are short and the last gaps hard to close: small lists get
 * more, unless pieces turned: that leaves nothing that they find. */
struct roll_plan *plan_large_roll(struct arena *arena,
                                  const struct roll_problem *problem,
                                  uint64_t *work)
{
    struct large large = {.arena = arena_create(),
                          .problem = problem,
                          .random = 0x9E3779B97F4A7C15u};
    large.smaller = ARENA_ARRAY(large.arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        large.smaller[i] = SIZE_MAX;
    const uint64_t most = problem->trimmed ? *work / 4 * 3 : *work;
    begin(&large, most / 4 * 3);
    const bool turned = turn_pieces(&large, most / 2 * 3);
    const uint64_t end = large.full && !problem->trimmed ? 3 * most : most;
    while (!turned && large.length > large.bound && large.work < end)
        plan_some(&large);
    *work = large.work;
    struct roll_plan *plan = copy_plan(arena, &large);
    arena_destroy(large.arena);
    return plan;
}
