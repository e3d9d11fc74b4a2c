/* The simplest plan within a budget of length. Some patterns are taken away
 * and their pieces laid out again in patterns of few sizes; what is no harder
 * to follow and fits the budget is kept (large neighborhood search, Shaw,
 * 1998). What a pattern wastes is measured against the duals of the linear
 * programme. */
#include <stdlib.h>
#include <string.h>

#include "roll_master.h"
#include "roll_plan.h"

enum { MOST_MIXED = 12, MOST_PATTERNS = 256 };

/* A pattern, its sizes in the order in which they were laid. */
struct simple {
    size_t height;
    size_t sizes[MOST_MIXED], counts[MOST_MIXED];
    int64_t along[MOST_MIXED];
    size_t mixed;
    size_t repeat;
};

/* A whole plan of such patterns, and what it costs in cloth and in work. */
struct layout {
    struct simple patterns[MOST_PATTERNS];
    size_t count;
    int64_t length;
    size_t effort;
};

/* `now` is the plan that is changed, `trial` the changed one, `best` the
 * simplest so far. */
struct simplifier {
    struct roll_master master;
    struct arena *arena;
    const double *dual;
    int64_t budget;
    struct layout *now, *trial, *best;
    size_t *left;
    double weight; /* length that one step of effort may cost, this round */
    uint64_t random;
};

static uint64_t chance(struct simplifier *s, uint64_t below)
{
    s->random ^= s->random << 13;
    s->random ^= s->random >> 7;
    s->random ^= s->random << 17;
    return s->random % below;
}

static int64_t height_of(const struct simplifier *s, size_t height)
{
    return s->master.heights.items[height].height;
}

/* ---- measuring ---- */

/* Like patterns are joined there, so lines are counted on the result. */
static struct roll_plan *as_plan(const struct simplifier *s,
                                 struct arena *arena,
                                 const struct layout *layout)
{
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    for (size_t i = 0; i < layout->count; i++) {
        const struct simple *pattern = &layout->patterns[i];
        struct roll_strip *strip = LIST_ADD(arena, &plan->strips);
        strip->height = height_of(s, pattern->height);
        strip->repeat = pattern->repeat;
        for (size_t k = 0; k < pattern->mixed; k++)
            *LIST_ADD(arena, &strip->cuts) = (struct roll_cut){
                pattern->sizes[k], pattern->counts[k], pattern->along[k]};
    }
    roll_plan_settle(plan);
    return plan;
}

/* Length and effort of a layout, by the same functions that print them. */
static void measure(const struct simplifier *s, struct layout *layout)
{
    struct arena *scratch = arena_create();
    const struct roll_plan *plan = as_plan(s, scratch, layout);
    const struct roll_effort effort = roll_effort(s->master.problem, plan);
    layout->length = plan->length;
    layout->effort = effort.lines + effort.settings + effort.trims;
    arena_destroy(scratch);
}

/* ---- laying out again ---- */

/* Pieces of a pattern that are still asked for; more are worth nothing. */
static size_t useful(const struct simplifier *s, const struct simple *pattern,
                     size_t k)
{
    const size_t made = pattern->counts[k] * pattern->repeat;
    const size_t left = s->left[pattern->sizes[k]];
    return made < left ? made : left;
}

/* A height that is set already costs no new ruler setting. */
static bool has_height(const struct layout *layout, size_t height)
{
    for (size_t i = 0; i < layout->count; i++)
        if (layout->patterns[i].height == height)
            return true;
    return false;
}

/* Waste against the duals, and the effort, in length; for each unit of worth
 * that the pattern delivers. */
static double score(const struct simplifier *s, const struct simple *pattern)
{
    double worth = 0.0;
    double steps = 1.0 + (has_height(s->trial, pattern->height) ? 0.0 : 1.0);
    for (size_t k = 0; k < pattern->mixed; k++) {
        worth += s->dual[pattern->sizes[k]] * (double)useful(s, pattern, k);
        bool told = false;
        for (size_t i = 0; i < k; i++)
            told |= pattern->along[i] == pattern->along[k];
        steps += told ? 0.0 : 1.0;
        /* A size that is finished needs no other line. */
        if (useful(s, pattern, k) == s->left[pattern->sizes[k]])
            steps -= 1.0;
    }
    const double length =
        (double)(height_of(s, pattern->height) * (int64_t)pattern->repeat);
    return worth <= 0.0 ? 1e18 : (length - worth + s->weight * steps) / worth;
}

/* Keeps the better pattern; a little noise breaks ties differently each time,
 * so that the search does not walk in a circle. */
static void consider(struct simplifier *s, struct simple pattern, size_t repeat,
                     struct simple *best, double *best_score)
{
    if (repeat == 0)
        return;
    pattern.repeat = repeat;
    const double noise = 1.0 + (double)chance(s, 1000) * 0.00005;
    const double value = score(s, &pattern) * noise;
    s->master.work += 20 * pattern.mixed;
    if (value < *best_score) {
        *best_score = value;
        *best = pattern;
    }
}

/* Repeats that finish one of the pattern's sizes, or nearly. */
static void try_repeats(struct simplifier *s, const struct simple *pattern,
                        struct simple *best, double *best_score)
{
    for (size_t k = 0; k < pattern->mixed; k++) {
        const size_t left = s->left[pattern->sizes[k]];
        const size_t count = pattern->counts[k];
        consider(s, *pattern, left / count, best, best_score);
        if (left % count != 0)
            consider(s, *pattern, left / count + 1, best, best_score);
    }
}

/* Width that the pattern leaves. */
static int64_t room_left(const struct simplifier *s,
                         const struct simple *pattern)
{
    int64_t room = s->master.problem->width;
    for (size_t k = 0; k < pattern->mixed; k++)
        room -= pattern->along[k] * (int64_t)pattern->counts[k];
    return room;
}

/* Fills the room of a pattern with one more size. */
static bool mix_in(struct simplifier *s, struct simple *pattern)
{
    const struct roll_height *height =
        &s->master.heights.items[pattern->height];
    const struct roll_way *way =
        &height->ways.items[chance(s, height->ways.count)];
    const int64_t room = room_left(s, pattern);
    for (size_t k = 0; k < pattern->mixed; k++)
        if (pattern->sizes[k] == way->size)
            return false;
    if (s->left[way->size] == 0 || way->along > room)
        return false;
    size_t fit = (size_t)(room / way->along);
    fit = fit < s->left[way->size] ? fit : s->left[way->size];
    pattern->sizes[pattern->mixed] = way->size;
    pattern->along[pattern->mixed] = way->along;
    pattern->counts[pattern->mixed] = fit;
    pattern->mixed++;
    return true;
}

/* Patterns that begin with this way of lying. */
static void try_way(struct simplifier *s, size_t height,
                    const struct roll_way *way, struct simple *best,
                    double *best_score)
{
    const size_t fit = (size_t)(s->master.problem->width / way->along);
    const size_t left = s->left[way->size];
    const size_t most = fit < left ? fit : left;
    struct simple alone = {.height = height, .mixed = 1};
    alone.sizes[0] = way->size;
    alone.along[0] = way->along;
    alone.counts[0] = most;
    try_repeats(s, &alone, best, best_score);
    for (int n = 0; n < 12; n++) {
        struct simple mixed = alone;
        mixed.counts[0] = 1 + chance(s, most);
        if (!mix_in(s, &mixed))
            continue;
        try_repeats(s, &mixed, best, best_score);
        while (mixed.mixed < MOST_MIXED && chance(s, 3) > 0) {
            size_t *count = &mixed.counts[mixed.mixed - 1];
            if (chance(s, 2) == 0)
                *count = 1 + chance(s, *count);
            if (!mix_in(s, &mixed))
                break;
        }
        if (mixed.mixed > 2)
            try_repeats(s, &mixed, best, best_score);
    }
}

/* The best pattern that holds this size, over all heights it can lie in. */
static bool lay_one(struct simplifier *s, size_t size)
{
    struct simple best = {0};
    double best_score = 1e18;
    for (size_t k = 0; k < s->master.heights.count; k++) {
        const struct roll_height *height = &s->master.heights.items[k];
        for (size_t i = 0; i < height->ways.count; i++)
            if (height->ways.items[i].size == size)
                try_way(s, k, &height->ways.items[i], &best, &best_score);
    }
    if (best.repeat == 0 || s->trial->count == MOST_PATTERNS)
        return false;
    for (size_t k = 0; k < best.mixed; k++)
        s->left[best.sizes[k]] -= useful(s, &best, k);
    s->trial->patterns[s->trial->count++] = best;
    return true;
}

/* Some size that is still asked for, by chance; the count where none is. */
static size_t size_left(struct simplifier *s)
{
    const size_t count = s->master.problem->count;
    const size_t from = chance(s, count);
    for (size_t i = 0; i < count; i++)
        if (s->left[(from + i) % count] > 0)
            return (from + i) % count;
    return count;
}

/* Until nothing is left. False where patterns run out, which the limit on
 * their number does to lists of hundreds of sizes. */
static bool lay_rest(struct simplifier *s)
{
    for (;;) {
        const size_t size = size_left(s);
        if (size == s->master.problem->count)
            return true;
        if (!lay_one(s, size))
            return false;
    }
}

/* ---- the search ---- */

/* What the patterns that stay do not make. */
static void ask_again(struct simplifier *s)
{
    const struct roll_problem *problem = s->master.problem;
    for (size_t i = 0; i < problem->count; i++)
        s->left[i] = problem->sizes[i].demand;
    for (size_t p = 0; p < s->trial->count; p++) {
        const struct simple *pattern = &s->trial->patterns[p];
        for (size_t k = 0; k < pattern->mixed; k++)
            s->left[pattern->sizes[k]] -= useful(s, pattern, k);
    }
}

/* One to four patterns go, or all of one height; now and then everything. */
static void take_some(struct simplifier *s)
{
    struct layout *trial = s->trial;
    const uint64_t way = chance(s, 8);
    if (way == 0) {
        trial->count = 0;
    } else if (way < 3 && trial->count > 0) {
        const size_t height = trial->patterns[chance(s, trial->count)].height;
        size_t kept = 0;
        for (size_t i = 0; i < trial->count; i++)
            if (trial->patterns[i].height != height)
                trial->patterns[kept++] = trial->patterns[i];
        trial->count = kept;
    } else {
        for (uint64_t n = 1 + chance(s, 4); n > 0 && trial->count > 0; n--) {
            const size_t gone = chance(s, trial->count);
            trial->count--;
            trial->patterns[gone] = trial->patterns[trial->count];
        }
    }
    ask_again(s);
}

/* Effort first: the last inch is worth little, a line less is. */
static bool better(const struct layout *a, const struct layout *b)
{
    return a->effort < b->effort ||
           (a->effort == b->effort && a->length <= b->length);
}

/* The weight of effort changes by chance: small ones find short plans, large
 * ones simple plans, and both lead to each other. */
static void search(struct simplifier *s, uint64_t work)
{
    const double mean = (double)s->budget / 40.0;
    while (s->master.work < work) {
        static const double weights[] = {0.0, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0};
        s->weight = mean * weights[chance(s, 7)];
        *s->trial = *s->now;
        take_some(s);
        s->master.work += 2000;
        if (!lay_rest(s))
            continue;
        measure(s, s->trial);
        if (s->trial->length > s->budget || !better(s->trial, s->now))
            continue;
        *s->now = *s->trial;
        if (better(s->now, s->best))
            *s->best = *s->now;
    }
}

/* The given plan as a layout; false where a pattern mixes more sizes. */
static bool start_from(struct simplifier *s, const struct roll_plan *plan)
{
    s->now->count = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        struct simple pattern = {.repeat = strip->repeat};
        while (height_of(s, pattern.height) != strip->height)
            pattern.height++;
        if (strip->cuts.count > MOST_MIXED || s->now->count == MOST_PATTERNS)
            return false;
        for (size_t k = 0; k < strip->cuts.count; k++) {
            pattern.sizes[k] = strip->cuts.items[k].size;
            pattern.counts[k] = strip->cuts.items[k].count;
            pattern.along[k] = strip->cuts.items[k].along;
            pattern.mixed++;
        }
        s->now->patterns[s->now->count++] = pattern;
    }
    measure(s, s->now);
    return s->now->length <= s->budget;
}

/* A layout made anew that fits the budget, if chance finds one. */
static bool start_anew(struct simplifier *s, uint64_t work)
{
    s->weight = 0.0;
    while (s->master.work < work) {
        s->trial->count = 0;
        ask_again(s);
        s->master.work += 2000;
        if (!lay_rest(s))
            continue;
        measure(s, s->trial);
        if (s->trial->length <= s->budget) {
            *s->now = *s->trial;
            return true;
        }
    }
    return false;
}

struct roll_plan *simplify_roll(struct arena *arena,
                                const struct roll_problem *problem,
                                const struct roll_plan *plan, int64_t budget,
                                uint64_t work)
{
    struct arena *scratch = arena_create();
    struct simplifier s = {
        .arena = scratch, .budget = budget, .random = 0x2545F4914F6CDD1Du};
    roll_master_init(&s.master, scratch, problem);
    s.left = ARENA_ARRAY(scratch, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        s.left[i] = problem->sizes[i].demand;
    roll_master_solve(&s.master, s.left);
    s.master.work = 0;
    s.dual = s.master.dual;
    s.now = ARENA_NEW(scratch, struct layout);
    s.trial = ARENA_NEW(scratch, struct layout);
    s.best = ARENA_NEW(scratch, struct layout);
    const struct roll_plan *hand = plan_roll_by_hand(scratch, problem);
    struct roll_plan *simple = NULL;
    if ((hand->length <= budget && start_from(&s, hand)) ||
        start_from(&s, plan) || start_anew(&s, work / 4)) {
        *s.best = *s.now;
        search(&s, work);
        simple = as_plan(&s, arena, s.best);
        simple->bound = plan->bound;
    }
    arena_destroy(scratch);
    return simple;
}
