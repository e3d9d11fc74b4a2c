/* The simplest plan of as many sheets: some patterns are taken away and their
 * pieces laid out again on sheets of few sizes, each cut as often as it can be;
 * what is no harder to follow is kept (large neighborhood search, Shaw,
 * 1998). Of equally simple plans, the one that leaves the largest rectangle. */
#include <string.h>

#include "sheet_plan.h"
#include "sheet_trial.h"

/* How simple a plan is, and what it leaves. */
struct ease {
    size_t effort;
    int64_t rest;
};

/* The search at one moment. The plan at hand never needs more sheets than
 * `most`, so the search can be stopped at any time. */
struct simplifier {
    const struct sheet_problem *problem;
    struct sheet_filler filler;
    struct sheet_trial now;
    struct ease ease; /* of `now` */
    size_t most;      /* sheets */
    int64_t *worth;
    size_t *made;
    size_t *left;
    uint64_t work; /* beside that of the filler */
    uint64_t random;
};

/* As in the other searches: a fixed start. */
static uint64_t chance(struct simplifier *s, uint64_t below)
{
    s->random ^= s->random << 13;
    s->random ^= s->random >> 7;
    s->random ^= s->random << 17;
    return s->random % below;
}

/* By the same functions that print it, as like patterns are joined there. Only
 * the largest rest counts: one large piece of cloth is of use later, many small
 * ones are scraps. */
static struct ease measure(struct simplifier *s,
                           const struct sheet_trial *trial)
{
    struct arena *scratch = arena_create();
    const struct sheet_plan *plan =
        sheet_trial_plan(scratch, s->problem, trial);
    struct ease ease = {sheet_effort_total(sheet_effort(plan)), 0};
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const int64_t rest =
            sheet_pattern_rest(s->problem, &plan->sheets.items[i]);
        ease.rest = rest > ease.rest ? rest : ease.rest;
    }
    s->work += 10000 + 2000 * plan->sheets.count;
    arena_destroy(scratch);
    return ease;
}

/* Equal plans are taken as well: they lead away from where nothing improves. */
static bool no_worse(struct ease a, struct ease b)
{
    return a.effort < b.effort || (a.effort == b.effort && a.rest >= b.rest);
}

/* Some size that is still asked for; the count where none is. */
static size_t size_left(struct simplifier *s)
{
    const size_t count = s->problem->count;
    const size_t from = chance(s, count);
    for (size_t i = 0; i < count; i++)
        if (s->left[(from + i) % count] > 0)
            return (from + i) % count;
    return count;
}

/* Worths for the next sheet: one size, two, three, or all that are left. The
 * noise is coarse, so that other mixtures come each time. */
static void choose_sizes(struct simplifier *s, size_t first)
{
    const size_t count = s->problem->count;
    const uint64_t mixed = chance(s, 5);
    memset(s->worth, 0, count * sizeof *s->worth);
    for (size_t i = 0; i < count; i++) {
        const struct roll_size *size = &s->problem->sizes[i];
        const bool chosen = mixed > 2 || i == first;
        s->filler.turned[i] = chance(s, 2) == 1;
        if (chosen && s->left[i] > 0)
            s->worth[i] =
                size->width * size->height * (int64_t)(60 + chance(s, 60));
    }
    for (uint64_t n = 0; mixed <= 2 && n < mixed; n++) {
        const size_t other = size_left(s);
        const struct roll_size *size = &s->problem->sizes[other];
        s->worth[other] =
            size->width * size->height * (int64_t)(60 + chance(s, 60));
    }
}

/* Lays out what is left. False where it needs more sheets than there are. Each
 * sheet is cut as often as it can be at once: a pattern is told once, however
 * often it is cut. */
static bool lay_rest(struct simplifier *s, struct sheet_trial *trial)
{
    const size_t count = s->problem->count;
    for (;;) {
        const size_t first = size_left(s);
        if (first == count)
            return true;
        if (trial->count >= s->most)
            return false;
        struct sheet_pattern pattern;
        choose_sizes(s, first);
        sheet_fill(&s->filler, trial->memory, s->worth, s->left, s->made,
                   &pattern);
        size_t repeat = sheet_repeats(count, s->made, s->left);
        if (repeat > s->most - trial->count)
            repeat = s->most - trial->count;
        sheet_trial_add(trial, count, &pattern, s->made, repeat, s->left);
    }
}

/* A copy of the plan at hand without one to four of its patterns, or without
 * all; their pieces are asked for again. */
static struct sheet_trial take_some(struct simplifier *s)
{
    const size_t sizes = s->problem->count;
    const size_t patterns = s->now.used.count;
    struct sheet_trial trial = sheet_trial_begin();
    bool *gone = ARENA_ARRAY(trial.memory, bool, patterns);
    size_t *none = ARENA_ARRAY(trial.memory, size_t, sizes);
    const bool all = chance(s, 8) == 0;
    for (uint64_t n = 1 + chance(s, 4); n > 0; n--)
        gone[chance(s, patterns)] = true;
    memset(s->left, 0, sizes * sizeof *s->left);
    for (size_t i = 0; i < patterns; i++) {
        const struct sheet_used *used = &s->now.used.items[i];
        if (!all && !gone[i]) {
            memset(none, 0, sizes * sizeof *none);
            sheet_trial_add(&trial, sizes, &used->pattern, used->made,
                            used->repeat, none);
            continue;
        }
        for (size_t k = 0; k < sizes; k++)
            s->left[k] += used->made[k] * used->repeat;
    }
    return trial;
}

/* One part of the plan at hand laid out anew. Plans are swapped, not copied:
 * the one that is not kept goes with its memory. */
static void renew(struct simplifier *s)
{
    struct sheet_trial trial = take_some(s);
    s->work += 5000;
    if (lay_rest(s, &trial)) {
        const struct ease ease = measure(s, &trial);
        if (no_worse(ease, s->ease)) {
            const struct sheet_trial old = s->now;
            s->now = trial;
            s->ease = ease;
            trial = old;
        }
    }
    sheet_trial_end(&trial);
}

/* From the plan by hand where it needs no more sheets and is simpler. */
static void start(struct simplifier *s, struct arena *scratch,
                  const struct sheet_plan *plan)
{
    const struct sheet_plan *hand = plan_sheets_by_hand(scratch, s->problem);
    s->now = sheet_trial_of(s->problem, plan);
    s->ease = measure(s, &s->now);
    if (hand->count > plan->count)
        return;
    struct sheet_trial trial = sheet_trial_of(s->problem, hand);
    const struct ease ease = measure(s, &trial);
    if (no_worse(ease, s->ease)) {
        const struct sheet_trial old = s->now;
        s->now = trial;
        s->ease = ease;
        trial = old;
    }
    sheet_trial_end(&trial);
}

/* The number of sheets is a limit here, not an aim: it is proven or searched
 * for by plan_sheets, and a plan with fewer would be welcome. */
struct sheet_plan *simplify_sheets(struct arena *arena,
                                   const struct sheet_problem *problem,
                                   const struct sheet_plan *plan, uint64_t work)
{
    struct arena *scratch = arena_create();
    const size_t count = problem->count;
    struct simplifier s = {
        .problem = problem, .most = plan->count, .random = 0x2545F4914F6CDD1Du};
    sheet_filler_init(&s.filler, scratch, problem);
    s.worth = ARENA_ARRAY(scratch, int64_t, count);
    s.made = ARENA_ARRAY(scratch, size_t, count);
    s.left = ARENA_ARRAY(scratch, size_t, count);
    start(&s, scratch, plan);
    while (s.now.used.count > 0 && s.filler.work + s.work < work)
        renew(&s);
    struct sheet_plan *simple = sheet_trial_plan(arena, problem, &s.now);
    simple->bound = plan->bound;
    sheet_trial_end(&s.now);
    arena_destroy(scratch);
    return simple;
}
