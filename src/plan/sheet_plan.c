/* Plans of sheets: their order, their effort, the plan by hand. */
#include "sheet_plan.h"

#include <stdlib.h>

/* ---- order ---- */

/* As qsort wants it; a difference could overflow. */
static int compare_numbers(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

/* Longest segments first, as they are cut from the left; of these the highest
 * stacks. */
static int compare_cuts(const void *first, const void *second)
{
    const struct sheet_cut *a = first, *b = second;
    if (a->along != b->along)
        return -compare_numbers(a->along, b->along);
    const int64_t high = a->across * (int64_t)a->stack;
    const int64_t other = b->across * (int64_t)b->stack;
    if (high != other)
        return -compare_numbers(high, other);
    if (a->size != b->size)
        return compare_numbers((int64_t)a->size, (int64_t)b->size);
    return -compare_numbers((int64_t)a->stack, (int64_t)b->stack);
}

/* Highest first; like strips side by side. */
static int compare_strips(const void *first, const void *second)
{
    const struct sheet_strip *a = first, *b = second;
    if (a->height != b->height)
        return -compare_numbers(a->height, b->height);
    for (size_t i = 0; i < a->cuts.count && i < b->cuts.count; i++) {
        const struct sheet_cut *cut = &a->cuts.items[i];
        const struct sheet_cut *other = &b->cuts.items[i];
        const int order = compare_cuts(cut, other);
        if (order != 0)
            return order;
        if (cut->beside != other->beside)
            return cut->beside > other->beside ? -1 : 1;
    }
    return compare_numbers((int64_t)a->cuts.count, (int64_t)b->cuts.count);
}

/* Alike but for how often they are cut. */
int sheet_pattern_compare(const struct sheet_pattern *a,
                          const struct sheet_pattern *b)
{
    if (a->down != b->down)
        return a->down ? 1 : -1;
    for (size_t i = 0; i < a->strips.count && i < b->strips.count; i++) {
        const struct sheet_strip *strip = &a->strips.items[i];
        const struct sheet_strip *other = &b->strips.items[i];
        const int order = compare_strips(strip, other);
        if (order != 0)
            return order;
        if (strip->repeat != other->repeat)
            return strip->repeat > other->repeat ? -1 : 1;
    }
    return compare_numbers((int64_t)a->strips.count, (int64_t)b->strips.count);
}

/* Leaves out cuts of nothing and joins like cuts; the height becomes that of
 * the highest stack, so that no cloth is lost to a strip. */
static void settle_strip(struct sheet_strip *strip)
{
    size_t kept = 0;
    strip->height = 0;
    if (strip->cuts.count > 1)
        qsort(strip->cuts.items, strip->cuts.count, sizeof(struct sheet_cut),
              compare_cuts);
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct sheet_cut cut = strip->cuts.items[i];
        const int64_t high = cut.across * (int64_t)cut.stack;
        if (cut.beside == 0 || cut.stack == 0)
            continue;
        strip->height = high > strip->height ? high : strip->height;
        if (kept > 0 && compare_cuts(&strip->cuts.items[kept - 1], &cut) == 0)
            strip->cuts.items[kept - 1].beside += cut.beside;
        else
            strip->cuts.items[kept++] = cut;
    }
    strip->cuts.count = kept;
}

/* Like strips are joined after sorting, so that a block tells each strip
 * once. */
void sheet_pattern_settle(struct sheet_pattern *pattern)
{
    size_t kept = 0;
    for (size_t i = 0; i < pattern->strips.count; i++)
        settle_strip(&pattern->strips.items[i]);
    if (pattern->strips.count > 1)
        qsort(pattern->strips.items, pattern->strips.count,
              sizeof(struct sheet_strip), compare_strips);
    for (size_t i = 0; i < pattern->strips.count; i++) {
        const struct sheet_strip strip = pattern->strips.items[i];
        if (strip.cuts.count == 0 || strip.repeat == 0)
            continue;
        if (kept > 0 &&
            compare_strips(&pattern->strips.items[kept - 1], &strip) == 0)
            pattern->strips.items[kept - 1].repeat += strip.repeat;
        else
            pattern->strips.items[kept++] = strip;
    }
    pattern->strips.count = kept;
}

/* Lists point to their items, so an assignment alone would share them, and
 * settling one would reorder the other. */
struct sheet_pattern sheet_pattern_copy(struct arena *arena,
                                        const struct sheet_pattern *pattern)
{
    struct sheet_pattern copy = {.down = pattern->down,
                                 .repeat = pattern->repeat};
    for (size_t i = 0; i < pattern->strips.count; i++) {
        const struct sheet_strip *strip = &pattern->strips.items[i];
        struct sheet_strip other = {.height = strip->height,
                                    .repeat = strip->repeat};
        for (size_t k = 0; k < strip->cuts.count; k++)
            *LIST_ADD(arena, &other.cuts) = strip->cuts.items[k];
        *LIST_ADD(arena, &copy.strips) = other;
    }
    return copy;
}

/* Strips lie at one side, so all that is left of the room is one rectangle. */
int64_t sheet_pattern_rest(const struct sheet_problem *problem,
                           const struct sheet_pattern *pattern)
{
    int64_t room = pattern->down ? problem->width : problem->height;
    for (size_t i = 0; i < pattern->strips.count; i++)
        room -= pattern->strips.items[i].height *
                (int64_t)pattern->strips.items[i].repeat;
    return room * (pattern->down ? problem->height : problem->width);
}

/* For qsort. */
static int compare_patterns(const void *first, const void *second)
{
    const struct sheet_pattern *a = first, *b = second;
    return sheet_pattern_compare(a, b);
}

/* The emptiest sheet is kept for the end: what remains of it is remembered. */
static void put_emptiest_last(const struct sheet_problem *problem,
                              struct sheet_plan *plan)
{
    size_t emptiest = 0;
    for (size_t i = 1; i < plan->sheets.count; i++)
        if (sheet_pattern_rest(problem, &plan->sheets.items[i]) >
            sheet_pattern_rest(problem, &plan->sheets.items[emptiest]))
            emptiest = i;
    const struct sheet_pattern last = plan->sheets.items[emptiest];
    for (size_t i = emptiest; i + 1 < plan->sheets.count; i++)
        plan->sheets.items[i] = plan->sheets.items[i + 1];
    plan->sheets.items[plan->sheets.count - 1] = last;
}

/* Like sheets are joined; empty ones go, as nothing is cut from them. */
void sheet_plan_settle(const struct sheet_problem *problem,
                       struct sheet_plan *plan)
{
    size_t kept = 0;
    plan->count = 0;
    for (size_t i = 0; i < plan->sheets.count; i++)
        sheet_pattern_settle(&plan->sheets.items[i]);
    if (plan->sheets.count > 1)
        qsort(plan->sheets.items, plan->sheets.count,
              sizeof(struct sheet_pattern), compare_patterns);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet_pattern pattern = plan->sheets.items[i];
        if (pattern.strips.count == 0 || pattern.repeat == 0)
            continue;
        plan->count += pattern.repeat;
        if (kept > 0 &&
            sheet_pattern_compare(&plan->sheets.items[kept - 1], &pattern) == 0)
            plan->sheets.items[kept - 1].repeat += pattern.repeat;
        else
            plan->sheets.items[kept++] = pattern;
    }
    plan->sheets.count = kept;
    if (kept > 1)
        put_emptiest_last(problem, plan);
}

/* ---- effort ---- */

/* A strip of a plan, and the length it has there. */
struct told_strip {
    const struct sheet_strip *strip;
    bool down;
};

/* Strips across come apart from strips down: they are not equally long. */
static int compare_told(const void *first, const void *second)
{
    const struct told_strip *a = first, *b = second;
    const int order = compare_strips(a->strip, b->strip);
    return order != 0 ? order : (a->down > b->down) - (a->down < b->down);
}

/* Widths to set and cuts to trim in one strip. */
static void add_strip_effort(const struct sheet_strip *strip,
                             struct sheet_effort *effort)
{
    effort->strips++;
    for (size_t k = 0; k < strip->cuts.count; k++) {
        const struct sheet_cut *cut = &strip->cuts.items[k];
        effort->settings +=
            k == 0 || cut->along != strip->cuts.items[k - 1].along;
        effort->trims += cut->across * (int64_t)cut->stack < strip->height;
    }
}

/* Strips of all sheets are sorted together: a strip that is told on two
 * sheets is the same work, and one height of the ruler does for all strips of
 * it. */
struct sheet_effort sheet_effort(const struct sheet_plan *plan)
{
    struct sheet_effort effort = {.patterns = plan->sheets.count};
    size_t all = 0, count = 0;
    for (size_t i = 0; i < plan->sheets.count; i++)
        all += plan->sheets.items[i].strips.count;
    if (all == 0)
        return effort;
    struct arena *scratch = arena_create();
    struct told_strip *told = ARENA_ARRAY(scratch, struct told_strip, all);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet_pattern *pattern = &plan->sheets.items[i];
        for (size_t k = 0; k < pattern->strips.count; k++)
            told[count++] =
                (struct told_strip){&pattern->strips.items[k], pattern->down};
    }
    qsort(told, count, sizeof *told, compare_told);
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && compare_told(&told[i - 1], &told[i]) == 0)
            continue;
        effort.settings +=
            i == 0 || told[i - 1].strip->height != told[i].strip->height;
        add_strip_effort(told[i].strip, &effort);
    }
    arena_destroy(scratch);
    return effort;
}

/* Every step counts the same; the weights are a model, not a measurement. */
size_t sheet_effort_total(struct sheet_effort effort)
{
    return effort.patterns + effort.strips + effort.settings + effort.trims;
}

/* ---- by hand ---- */

/* One way of cutting sheets of one size alone. */
struct own_way {
    bool down;
    int64_t along, across;
    size_t beside, strips; /* pieces in a strip, strips on a sheet */
};

/* `count` pieces, row by row. */
static struct sheet_pattern own_pattern(struct arena *arena, size_t size,
                                        const struct own_way *way, size_t count)
{
    struct sheet_pattern pattern = {.down = way->down, .repeat = 1};
    const size_t parts[2][2] = {{count / way->beside, way->beside},
                                {1, count % way->beside}};
    for (size_t i = 0; i < 2; i++) {
        struct sheet_strip strip = {.height = way->across,
                                    .repeat = parts[i][0]};
        if (parts[i][0] * parts[i][1] == 0)
            continue;
        *LIST_ADD(arena, &strip.cuts) =
            (struct sheet_cut){size, parts[i][1], 1, way->along, way->across};
        *LIST_ADD(arena, &pattern.strips) = strip;
    }
    return pattern;
}

/* The way that puts most pieces on a sheet. ensures: false where none fits.
 * There are two first cuts and two ways to lie; prints and the kind of plan may
 * forbid some. */
static bool best_own_way(const struct sheet_problem *problem,
                         const struct roll_size *size, struct own_way *best)
{
    size_t most = 0;
    for (int n = 0; n < 4; n++) {
        const bool down = n % 2 == 1, turned = n / 2 == 1;
        if ((turned && !size->turns) ||
            (down && problem->first == SHEET_CUT_ACROSS) ||
            (!down && problem->first == SHEET_CUT_DOWN))
            continue;
        const bool swapped = down != turned;
        struct own_way way = {.down = down,
                              .along = swapped ? size->height : size->width,
                              .across = swapped ? size->width : size->height};
        const int64_t length = down ? problem->height : problem->width;
        const int64_t room = down ? problem->width : problem->height;
        way.beside = (size_t)(length / way.along);
        way.strips = (size_t)(room / way.across);
        if (way.beside * way.strips <= most)
            continue;
        most = way.beside * way.strips;
        *best = way;
    }
    return most > 0;
}

/* What a person does without a plan, and the floor no plan may fall below. The
 * last sheet of a size counts in full, as none is sold in part. */
struct sheet_plan *plan_sheets_by_hand(struct arena *arena,
                                       const struct sheet_problem *problem)
{
    struct sheet_plan *plan = ARENA_NEW(arena, struct sheet_plan);
    for (size_t i = 0; i < problem->count; i++) {
        const size_t demand = problem->sizes[i].demand;
        struct own_way way;
        if (demand == 0)
            continue;
        if (!best_own_way(problem, &problem->sizes[i], &way))
            return NULL;
        const size_t full = way.beside * way.strips;
        if (demand >= full) {
            struct sheet_pattern pattern = own_pattern(arena, i, &way, full);
            pattern.repeat = demand / full;
            *LIST_ADD(arena, &plan->sheets) = pattern;
        }
        if (demand % full > 0)
            *LIST_ADD(arena, &plan->sheets) =
                own_pattern(arena, i, &way, demand % full);
    }
    sheet_plan_settle(problem, plan);
    return plan;
}
