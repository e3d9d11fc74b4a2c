/* The simplest plan within a budget of length. Some patterns are taken away
 * and their pieces laid out again in patterns of few sizes; what is no harder
 * to follow and fits the budget is kept (large neighborhood search, Shaw,
 * 1998). What a pattern wastes is measured against the duals of the linear
 * programme. */
#include <math.h>
#include <string.h>

#include "roll_plan.h"
#include "roll_search.h"
#include "roll_simple.h"

/* ---- measuring ---- */

/* Like patterns are joined there, so lines are counted on the result. */
static struct roll_plan *as_plan(const struct simplifier *s,
                                 struct arena *arena,
                                 const struct layout *layout)
{
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    plan->strips.items =
        ARENA_ARRAY(arena, struct roll_strip, layout->count + 1);
    plan->strips.capacity = layout->count + 1;
    for (size_t i = 0; i < layout->count; i++) {
        const struct simple *pattern = &layout->patterns[i];
        struct roll_strip *strip = LIST_ADD(arena, &plan->strips);
        strip->height = simple_height(s, pattern->height);
        strip->repeat = pattern->repeat;
        strip->cuts.items = ARENA_ARRAY(arena, struct roll_cut, pattern->mixed);
        strip->cuts.count = strip->cuts.capacity = pattern->mixed;
        for (size_t k = 0; k < pattern->mixed; k++)
            strip->cuts.items[k] = (struct roll_cut){
                pattern->sizes[k], pattern->counts[k], pattern->along[k]};
    }
    roll_plan_settle(arena, s->master.problem, plan);
    return plan;
}

/* Length and effort of a layout, by the same functions that print them. */
static void measure(const struct simplifier *s, struct layout *layout)
{
    const struct roll_plan *plan = as_plan(s, s->measured, layout);
    const struct roll_effort effort = roll_effort(s->master.problem, plan);
    layout->length = plan->length;
    layout->effort = effort.lines + effort.settings + effort.trims;
    layout->opened =
        s->master.problem->folded ? roll_opened(s->master.problem, plan) : 0;
    arena_empty(s->measured);
}

/* ---- laying out again ---- */

/* Some size that is still asked for, by chance; the count where none is. */
static size_t size_left(struct simplifier *s)
{
    const size_t count = s->master.problem->count;
    const size_t from = simple_chance(s, count);
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
        if (!simple_lay(s, size))
            return false;
    }
}

/* ---- the search ---- */

/* What the patterns that stay do not make, and what they waste. */
static void ask_again(struct simplifier *s)
{
    const struct roll_problem *problem = s->master.problem;
    s->slack = (double)s->budget + 1e-6;
    for (size_t i = 0; i < problem->count; i++) {
        s->left[i] = problem->sizes[i].demand;
        s->slack -= s->dual[i] * (double)s->left[i];
    }
    for (size_t p = 0; p < s->trial->count; p++) {
        const struct simple *pattern = &s->trial->patterns[p];
        s->slack -= simple_loss(s, pattern);
        for (size_t k = 0; k < pattern->mixed; k++)
            s->left[pattern->sizes[k]] -= simple_useful(s, pattern, k);
    }
}

/* All patterns of one height go. */
static void take_height(struct layout *trial, size_t height)
{
    size_t kept = 0;
    for (size_t i = 0; i < trial->count; i++)
        if (trial->patterns[i].height != height)
            trial->patterns[kept++] = trial->patterns[i];
    trial->count = kept;
}

/* All patterns that hold one size go: it may do with fewer lines. */
static void take_size(struct layout *trial, size_t size)
{
    size_t kept = 0;
    for (size_t i = 0; i < trial->count; i++) {
        bool holds = false;
        for (size_t k = 0; k < trial->patterns[i].mixed; k++)
            holds |= trial->patterns[i].sizes[k] == size;
        if (!holds)
            trial->patterns[kept++] = trial->patterns[i];
    }
    trial->count = kept;
}

/* So many patterns go, by chance. */
static void take_any(struct simplifier *s, uint64_t n)
{
    struct layout *trial = s->trial;
    for (; n > 0 && trial->count > 0; n--) {
        const size_t gone = simple_chance(s, trial->count);
        trial->count--;
        trial->patterns[gone] = trial->patterns[trial->count];
    }
}

/* One to four patterns go, or those of one height or size and some more; now
 * and then everything. */
static void take_some(struct simplifier *s)
{
    struct layout *trial = s->trial;
    const uint64_t way = simple_chance(s, 16);
    if (way == 0) {
        trial->count = 0;
    } else if (way < 4 && trial->count > 0) {
        take_height(trial,
                    trial->patterns[simple_chance(s, trial->count)].height);
    } else if (way < 8) {
        take_size(trial, simple_chance(s, s->master.problem->count));
        take_any(s, simple_chance(s, 3));
    } else {
        take_any(s, 1 + simple_chance(s, 4));
    }
    ask_again(s);
}

/* Effort first: the last inch is worth little, a line less is. Then fewer
 * strips to open. */
static bool better(const struct layout *a, const struct layout *b)
{
    if (a->effort != b->effort)
        return a->effort < b->effort;
    return a->opened != b->opened ? a->opened < b->opened
                                  : a->length <= b->length;
}

/* Now and then a plan that is a step harder is gone on with: the way to simple
 * plans leads over others. */
static size_t may_rise(struct simplifier *s)
{
    return simple_chance(s, 32) == 0 ? 1 : 0;
}

/* Copies what is used of a layout. */
static void copy_layout(struct layout *to, const struct layout *from)
{
    memcpy(to->patterns, from->patterns, from->count * sizeof *from->patterns);
    to->count = from->count;
    to->length = from->length;
    to->effort = from->effort;
    to->opened = from->opened;
}

/* Changes the plan at hand by chance; false where it does not fit. The weight
 * of effort changes too: small ones find short plans, large ones simple plans,
 * and both lead to each other. */
static bool change(struct simplifier *s)
{
    static const double weights[] = {0.0, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0};
    s->weight = (double)s->budget / 40.0 * weights[simple_chance(s, 7)];
    copy_layout(s->trial, s->now);
    take_some(s);
    /* Copying and measuring. */
    s->master.work += 1000 + 150 * s->now->count;
    if (!lay_rest(s))
        return false;
    measure(s, s->trial);
    return s->trial->length <= s->budget;
}

/* A handful of pieces has few ways to lie, which chance soon comes to. */
static bool few_pieces(const struct roll_problem *problem)
{
    enum { PIECES_FEW = 16 };
    size_t pieces = 0;
    for (size_t i = 0; i < problem->count && pieces < PIECES_FEW; i++)
        pieces += problem->sizes[i].demand;
    return pieces < PIECES_FEW;
}

/* Goes on until none simpler was found for long. */
static void descend(struct simplifier *s, uint64_t work)
{
    const size_t sizes = s->master.problem->count;
    const size_t patience =
        few_pieces(s->master.problem) ? 150 : 600 + 4 * sizes * sizes;
    for (size_t since = 1; s->master.work < work && since < patience; since++) {
        if (since % 500 == 0)
            copy_layout(s->now, s->local);
        if (!change(s) || s->trial->effort > s->now->effort + may_rise(s))
            continue;
        copy_layout(s->now, s->trial);
        if (!better(s->now, s->local))
            continue;
        if (s->now->effort < s->local->effort)
            since = 0;
        copy_layout(s->local, s->now);
    }
}

/* The given plan as a layout; false where a pattern mixes more sizes. */
static bool start_from(struct simplifier *s, const struct roll_plan *plan)
{
    s->now->count = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        struct simple pattern = {.repeat = strip->repeat};
        while (simple_height(s, pattern.height) != strip->height)
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

/* Another plan that fits the budget, if the search finds one. */
static bool start_anew(struct simplifier *s, uint64_t work)
{
    struct arena *scratch = arena_create();
    const struct roll_plan *plan =
        roll_plan_within(scratch, s->master.problem, s->budget,
                         simple_chance(s, 1000000) + 1, &work);
    s->master.work += work;
    const bool fits = plan != NULL && start_from(s, plan);
    arena_destroy(scratch);
    return fits;
}

/* Several descents, some from the first plan and some from others, as each ends
 * somewhere else. A number of them without a simpler plan, and there is hardly
 * one. Where none can be, a shorter one is looked for in a few. */
static void search(struct simplifier *s, uint64_t work)
{
    enum { VAIN_DESCENTS = 40, FEW_DESCENTS = 4, SHORTER_DESCENTS = 2 };
    const int most =
        few_pieces(s->master.problem) ? FEW_DESCENTS : VAIN_DESCENTS;
    copy_layout(s->first, s->now);
    copy_layout(s->best, s->now);
    int vain = 0;
    while (s->master.work < work && vain++ < most) {
        const bool simplest = s->best->effort <= s->least;
        if (simplest &&
            ((s->best->length <= s->bound && s->best->opened == 0) ||
             vain > SHORTER_DESCENTS))
            return;
        if (vain % 2 == 1 || !start_anew(s, work / 20))
            copy_layout(s->now, s->first);
        copy_layout(s->local, s->now);
        descend(s, work);
        if (!better(s->local, s->best))
            continue;
        if (s->local->effort < s->best->effort ||
            s->local->opened < s->best->opened)
            vain = 0;
        copy_layout(s->best, s->local);
    }
}

/* To the next 840th, which halves, thirds, quarters up to eighths are: patterns
 * that waste the same are told apart by chance, not by rounding. */
static const double *even_duals(const struct roll_master *master,
                                struct arena *arena)
{
    double *dual = ARENA_ARRAY(arena, double, master->problem->count);
    for (size_t i = 0; i < master->problem->count; i++)
        dual[i] = nearbyint(master->simplex.dual[i] * 840.0) / 840.0;
    return dual;
}

struct roll_plan *simplify_roll(struct arena *arena,
                                const struct roll_problem *problem,
                                const struct roll_plan *plan, int64_t budget,
                                uint64_t work)
{
    if (problem->count > ROLL_MOST_SIZES)
        return NULL;
    /* Nothing is asked for. */
    if (plan->strips.count == 0)
        return plan_roll_by_hand(arena, problem);
    size_t least_effort;
    bool best;
    struct roll_plan *least =
        roll_least_plan(arena, problem, budget, &least_effort, &best);
    if (best) {
        least->bound = plan->bound;
        return least;
    }
    struct arena *scratch = arena_create();
    struct simplifier s = {.arena = scratch,
                           .measured = arena_create(),
                           .budget = budget,
                           .bound = plan->bound,
                           .least = least_effort,
                           .random = 0x2545F4914F6CDD1Du};
    roll_master_init(&s.master, scratch, problem);
    s.left = ARENA_ARRAY(scratch, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        s.left[i] = problem->sizes[i].demand;
    roll_master_solve(&s.master, s.left);
    s.master.work = 0;
    s.dual = even_duals(&s.master, scratch);
    s.filled = ARENA_ARRAY(scratch, double, (size_t)problem->width + 1);
    s.chosen =
        ARENA_ARRAY(scratch, unsigned char, 64 * ((size_t)problem->width + 1));
    s.now = ARENA_NEW(scratch, struct layout);
    s.trial = ARENA_NEW(scratch, struct layout);
    s.first = ARENA_NEW(scratch, struct layout);
    s.local = ARENA_NEW(scratch, struct layout);
    s.best = ARENA_NEW(scratch, struct layout);
    const struct roll_plan *hand = plan_roll_by_hand(scratch, problem);
    struct roll_plan *simple = NULL;
    if ((least != NULL && start_from(&s, least)) ||
        (hand->length <= budget && start_from(&s, hand)) ||
        start_from(&s, plan) || start_anew(&s, work / 4)) {
        search(&s, work);
        simple = as_plan(&s, arena, s.best);
        simple->bound = plan->bound;
    }
    arena_destroy(s.measured);
    arena_destroy(scratch);
    return simple;
}
