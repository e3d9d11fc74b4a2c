/* Whole sheets: the floors of the linear programme are kept and the rest is
 * solved again, with sheets filled one after the other at values that are
 * corrected by what they waste (sequential value correction: Mukhacheva 1993,
 * Belov and Scheithauer 2007); then some sheets of the best plan are taken
 * apart and filled anew, until the bound is met or the work is spent. */
#include "sheets.h"

#include <string.h>

#include "sheet_master.h"
#include "sheet_plan.h"
#include "sheet_trial.h"

/* Values are areas times this, so that corrections are not rounded away. */
enum { FINE = 256, MOST_TAKEN = 6 };

struct search {
    const struct sheet_problem *problem;
    struct arena *arena;
    struct sheet_master master;
    struct sheet_trial best;
    double *value; /* by size: what a piece counts for at the moment */
    int64_t *worth;
    size_t *made;
    size_t *left;
    size_t bound;
    uint64_t random;
    uint64_t limit;
};

/* A generator with a fixed start (Marsaglia, xorshift, 2003): the same list
 * gives the same plan. */
static uint64_t chance(struct search *search, uint64_t below)
{
    search->random ^= search->random << 13;
    search->random ^= search->random >> 7;
    search->random ^= search->random << 17;
    return search->random % below;
}

/* The area of one piece. */
static double area_of(const struct search *search, size_t size)
{
    const struct roll_size *piece = &search->problem->sizes[size];
    return (double)piece->width * (double)piece->height;
}

/* The area of a sheet. */
static double sheet_area(const struct search *search)
{
    return (double)search->problem->width * (double)search->problem->height;
}

/* Is any piece open? */
static bool anything_left(const struct search *search)
{
    for (size_t i = 0; i < search->problem->count; i++)
        if (search->left[i] > 0)
            return true;
    return false;
}

/* Has all the work been done? */
static bool spent(const struct search *search)
{
    return sheet_work(&search->master) >= search->limit;
}

/* ---- sheets one after the other ---- */

/* Where the values start: areas, the large ones a little more, as they are
 * harder to place later; or what the linear programme says. Each with a little
 * chance. */
static void start_values(struct search *search, bool by_dual)
{
    /* In thousandths: from none, for the plan that values alone would give, to
     * three times as much, for plans that no value asks for. */
    static const uint64_t spreads[] = {1, 150, 300, 2000};
    const uint64_t spread = spreads[chance(search, 4)];
    for (size_t i = 0; i < search->problem->count; i++) {
        const double area = area_of(search, i);
        const double dual =
            search->master.linear.simplex.dual[i] * sheet_area(search);
        const double base = by_dual && dual > area / 2 ? dual : area;
        search->value[i] = base * (1.0 + 0.1 * area / sheet_area(search) +
                                   (double)chance(search, spread) * 0.001);
    }
}

/* Pieces of a sheet that wastes much were harder to place than was thought. */
static void correct_values(struct search *search)
{
    const double used = (double)sheet_made_area(search->problem, search->made);
    const double waste = sheet_area(search) / used;
    const double part = 0.1 + (double)chance(search, 400) * 0.001;
    for (size_t i = 0; i < search->problem->count; i++) {
        if (search->made[i] == 0)
            continue;
        const double corrected = area_of(search, i) * waste;
        search->value[i] += part * (corrected - search->value[i]);
    }
}

/* Can the sheets that are still allowed hold what is left, by area alone? */
static bool hopeless(const struct search *search, size_t sheets)
{
    return (double)sheet_made_area(search->problem, search->left) >
           sheet_area(search) * (double)sheets;
}

/* Fills sheets until nothing is left. False where more than `most` are needed;
 * `trial` is then unfinished. */
static bool fill_rest(struct search *search, struct sheet_trial *trial,
                      size_t most)
{
    const size_t sizes = search->problem->count;
    while (anything_left(search)) {
        if (hopeless(search, most - trial->count))
            return false;
        for (size_t i = 0; i < sizes; i++) {
            search->master.filler.turned[i] = chance(search, 2) == 1;
            search->worth[i] =
                search->left[i] == 0
                    ? 0
                    : 1 + (int64_t)(search->value[i] * (double)FINE);
        }
        struct sheet_pattern pattern;
        sheet_fill(&search->master.filler, trial->memory, search->worth,
                   search->left, search->made, &pattern);
        size_t repeat = sheet_repeats(sizes, search->made, search->left);
        /* Now and then only half of them: what is left over from many equal
         * sheets may not go together well. */
        if (repeat > 3 && chance(search, 2) == 0)
            repeat = (repeat + 1) / 2;
        repeat = repeat < most - trial->count ? repeat : most - trial->count;
        sheet_trial_add(trial, sizes, &pattern, search->made, repeat,
                        search->left);
        correct_values(search);
    }
    return true;
}

/* ---- by the linear programme ---- */

/* Takes the whole parts of the solution, clipped to what is asked; where there
 * are none, the sheet with the largest part, once. */
static void fix_some(struct search *search, struct sheet_trial *trial)
{
    const struct simplex *simplex = &search->master.linear.simplex;
    const size_t sizes = search->problem->count;
    bool whole = false;
    double most = -1.0;
    size_t chosen = 0;
    for (size_t row = 0; row <= sizes; row++) {
        /* One more turn for the largest part. */
        const bool last = row == sizes;
        if (last ? (whole || most < 0.0) : simplex->basis[row] < 0)
            continue;
        const size_t c = last ? chosen : (size_t)simplex->basis[row];
        const double value = last ? 1.0 : simplex->value[row] + 1e-6;
        size_t times = (size_t)value;
        if (!last && value > 1e-5 && value - (double)times > most) {
            most = value - (double)times;
            chosen = c;
        }
        for (; times > 0; times--) {
            const struct sheet_column *column =
                &search->master.columns.items[c];
            const struct sheet_pattern clipped =
                sheet_pattern_clip(trial->memory, sizes, &column->pattern,
                                   search->left, search->made);
            const size_t fits =
                sheet_repeats(sizes, search->made, search->left);
            const size_t repeat = fits < times ? fits : times;
            sheet_trial_add(trial, sizes, &clipped, search->made, repeat,
                            search->left);
            if (repeat == 0)
                break;
            whole = true;
            times -= repeat - 1;
        }
    }
}

/* A plan that follows the programme until few sheets are left for values. */
static bool dive(struct search *search, struct sheet_trial *trial, size_t most,
                 double rest)
{
    while (anything_left(search) && !spent(search)) {
        const double sheets = sheet_master_solve(&search->master, search->left);
        if (sheets <= rest)
            break;
        fix_some(search, trial);
    }
    start_values(search, true);
    return fill_rest(search, trial, most);
}

/* ---- the search ---- */

/* Sum of squares of what sheets hold: of plans with as many sheets, the one
 * that fills some well and one badly is nearer to losing a sheet. */
static double fullness(const struct search *search,
                       const struct sheet_trial *trial)
{
    double sum = 0.0;
    for (size_t i = 0; i < trial->used.count; i++) {
        const double part = (double)sheet_made_area(search->problem,
                                                    trial->used.items[i].made) /
                            sheet_area(search);
        sum += part * part * (double)trial->used.items[i].repeat;
    }
    return sum;
}

/* Keeps the trial where it is better or equal; ends the other. */
static void keep_better(struct search *search, struct sheet_trial *trial)
{
    struct sheet_trial *best = &search->best;
    const bool better =
        trial->count < best->count ||
        (trial->count == best->count &&
         fullness(search, trial) >= fullness(search, best) - 1e-9);
    if (better) {
        const struct sheet_trial old = *best;
        *best = *trial;
        *trial = old;
    }
    sheet_trial_end(trial);
}

/* The pattern whose sheets hold least. */
static size_t emptiest(const struct search *search)
{
    size_t found = 0;
    int64_t least = INT64_MAX;
    for (size_t i = 0; i < search->best.used.count; i++) {
        const int64_t area =
            sheet_made_area(search->problem, search->best.used.items[i].made);
        if (area >= least)
            continue;
        least = area;
        found = i;
    }
    return found;
}

/* A copy of the best plan without some sheets, most often with the emptiest
 * among them; their pieces are asked for again. */
static struct sheet_trial take_some(struct search *search, size_t taken)
{
    const size_t sizes = search->problem->count;
    struct sheet_trial trial = sheet_trial_begin();
    size_t *repeats =
        ARENA_ARRAY(trial.memory, size_t, search->best.used.count);
    for (size_t i = 0; i < search->best.used.count; i++)
        repeats[i] = search->best.used.items[i].repeat;
    memset(search->left, 0, sizes * sizeof *search->left);
    bool first = chance(search, 4) > 0;
    while (taken > 0) {
        const size_t at =
            first ? emptiest(search) : chance(search, search->best.used.count);
        first = false;
        if (repeats[at] == 0)
            continue;
        repeats[at]--;
        taken--;
        for (size_t i = 0; i < sizes; i++)
            search->left[i] += search->best.used.items[at].made[i];
    }
    /* What stays is added without asking for it. */
    size_t *none = ARENA_ARRAY(trial.memory, size_t, sizes);
    for (size_t i = 0; i < search->best.used.count; i++) {
        const struct sheet_used *used = &search->best.used.items[i];
        memset(none, 0, sizes * sizeof *none);
        sheet_trial_add(&trial, sizes, &used->pattern, used->made, repeats[i],
                        none);
    }
    return trial;
}

/* One part of the best plan, made anew. */
static void renew(struct search *search)
{
    const size_t all = search->best.count;
    size_t taken = 2 + chance(search, MOST_TAKEN - 1);
    /* Rarely all: to begin again, where that is no long work. */
    if (taken > all || chance(search, 40) == 0)
        taken = all < 40 ? all : MOST_TAKEN;
    struct sheet_trial trial = take_some(search, taken);
    const bool by_programme = chance(search, 12) == 0;
    bool done;
    if (by_programme) {
        done = dive(search, &trial, all, (double)chance(search, 4));
    } else {
        start_values(search, chance(search, 3) == 0);
        /* Half the time only one sheet less will do, which is given up early;
         * else an equal plan is taken, too, and leads on from there. */
        done = fill_rest(search, &trial, all - chance(search, 2));
    }
    if (done)
        keep_better(search, &trial);
    else
        sheet_trial_end(&trial);
}

/* Sets `left` to all that is asked for. */
static void ask_all(struct search *search)
{
    for (size_t i = 0; i < search->problem->count; i++)
        search->left[i] = search->problem->sizes[i].demand;
}

/* Half of the work may go into the programme, so that even a long list has
 * some left for whole sheets. */
static void begin_search(struct search *search)
{
    const size_t count = search->problem->count;
    search->value = ARENA_ARRAY(search->arena, double, count);
    search->worth = ARENA_ARRAY(search->arena, int64_t, count);
    search->made = ARENA_ARRAY(search->arena, size_t, count);
    search->left = ARENA_ARRAY(search->arena, size_t, count);
    sheet_master_init(&search->master, search->arena, search->problem);
    ask_all(search);
    search->master.limit = search->limit / 2;
    sheet_master_solve(&search->master, search->left);
    search->master.limit = search->limit;
    search->bound = sheet_bound(&search->master, search->left);
}

/* The programme once, with few and with many sheets left to values; then
 * parts of the best plan. */
static void run_search(struct search *search)
{
    for (int n = 0; n < 3 && search->best.count > search->bound; n++) {
        if (n > 0 && spent(search))
            return;
        struct sheet_trial trial = sheet_trial_begin();
        ask_all(search);
        if (dive(search, &trial, SIZE_MAX, n == 0 ? 1e9 : 3.0 * (2 - n)))
            keep_better(search, &trial);
        else
            sheet_trial_end(&trial);
    }
    while (search->best.count > search->bound && !spent(search))
        renew(search);
}

/* One search from the plan by hand, so that no plan is worse than that; its
 * plan is kept where it has fewer sheets than `best`. */
static void search_once(struct search *search, const struct sheet_plan *hand,
                        struct sheet_trial *best)
{
    search->best = sheet_trial_of(search->problem, hand);
    run_search(search);
    if (search->best.count < best->count) {
        const struct sheet_trial old = *best;
        *best = search->best;
        search->best = old;
    }
    sheet_trial_end(&search->best);
}

/* `more` searches share as much work again as the first one gets, each with
 * chances of its own: where one goes astray, another often does not (restarts;
 * Gomes, Selman and Kautz, 1998, from memory). */
static struct sheet_plan *plan_by_searches(struct arena *arena,
                                           const struct sheet_problem *problem,
                                           uint64_t work, uint64_t more)
{
    struct arena *scratch = arena_create();
    const struct sheet_plan *hand = plan_sheets_by_hand(scratch, problem);
    struct sheet_plan *plan = NULL;
    if (hand != NULL) {
        struct search search = {.problem = problem,
                                .arena = scratch,
                                .limit = work,
                                .random = 0x9E3779B97F4A7C15u};
        struct sheet_trial best = sheet_trial_of(problem, hand);
        begin_search(&search);
        search_once(&search, hand, &best);
        for (uint64_t i = 0; i < more && best.count > search.bound; i++) {
            search.limit = sheet_work(&search.master) + work / more;
            search.master.limit = search.limit;
            search_once(&search, hand, &best);
        }
        plan = sheet_trial_plan(arena, problem, &best);
        plan->bound = search.bound;
        sheet_trial_end(&best);
    }
    arena_destroy(scratch);
    return plan;
}

struct sheet_plan *plan_sheets(struct arena *arena,
                               const struct sheet_problem *problem,
                               uint64_t work)
{
    return plan_by_searches(arena, problem, work, 0);
}

struct sheet_plan *plan_sheets_alone(struct arena *arena,
                                     const struct sheet_problem *problem,
                                     uint64_t work)
{
    return plan_by_searches(arena, problem, work, 4);
}
