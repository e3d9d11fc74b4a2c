/* What stays beside lengthwise cloth is used before any strip is cut. Read
 * next: plan/leftovers.c, choose.c. */
#include "cutter.h"

/* What lengthwise cloth leaves: as sheets, which get their cuts later, and in
 * whole steps, rounded down. */
struct rests {
    LIST(struct sheet) sheets;
    struct leftover *kinds; /* by sheet */
};

static void add_rest(struct arena *arena, struct rests *rests, bool foot,
                     struct rational width, struct rational height,
                     size_t count)
{
    if (rational_sign(width) <= 0 || rational_sign(height) <= 0)
        return;
    struct sheet *rest = LIST_ADD(arena, &rests->sheets);
    rest->kind = SHEET_REST;
    rest->foot = foot;
    rest->width = width;
    rest->height = height;
    rest->repeat = count;
}

/* One beside the pieces of each sheet; with `feet` also what shorter pieces
 * leave at their ends. */
static struct rests rests_of(struct arena *arena,
                             const struct fabric_plan *plan,
                             struct rational step, bool feet)
{
    struct rests rests = {0};
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        add_rest(arena, &rests, false, rational_sub(sheet->width, sheet->used),
                 sheet->height, sheet->repeat);
        for (size_t k = 0; feet && k < sheet->strips.count; k++) {
            const struct strip *strip = &sheet->strips.items[k];
            add_rest(arena, &rests, true, strip->height,
                     rational_sub(sheet->height, strip->used),
                     strip->repeat * sheet->repeat);
        }
    }
    rests.kinds = ARENA_ARRAY(arena, struct leftover, rests.sheets.count + 1);
    for (size_t i = 0; i < rests.sheets.count; i++) {
        const struct sheet *rest = &rests.sheets.items[i];
        rests.kinds[i] = (struct leftover){
            rational_floor(rational_div(rest->width, step)),
            rational_floor(rational_div(rest->height, step)), rest->repeat};
    }
    return rests;
}

/* Rests that are alike and filled alike are one line of cutting. */
static void add_filled(struct arena *arena, struct filling *filling,
                       const struct sheet *sheet)
{
    for (size_t i = 0; i < filling->rests.count; i++)
        if (same_sheets(&filling->rests.items[i], sheet)) {
            filling->rests.items[i].repeat += sheet->repeat;
            return;
        }
    *LIST_ADD(arena, &filling->rests) = *sheet;
}

/* Takes what fits into rests from what is asked of the strips. */
static void use_rests(struct cutter *cutter, struct way *way, bool amount)
{
    struct arena *arena = cutter->run->arena;
    struct filling *filling = &way->filling;
    struct roll_problem problem = way->problem;
    const struct price price = {cutter, way->plan.bolt, way->fixed,
                                way->list.step};
    const struct rests rests =
        rests_of(arena, &way->plan, way->list.step, way->rule.feet);
    const size_t count = rests.sheets.count;
    if (count == 0)
        return;
    problem.trimmed = way->rule.trimmed;
    const struct leftover_plan *found =
        choose_leftovers(cutter, &problem, rests.kinds, count, way->rule.work,
                         amount ? &price : NULL);
    if (found == NULL)
        return;
    for (size_t i = 0; i < found->fill->uses.count; i++) {
        const struct leftover_use *use = &found->fill->uses.items[i];
        struct sheet sheet = rests.sheets.items[use->kind];
        fill_sheet(arena, &way->plan, &way->list, &use->pattern, &sheet);
        add_filled(arena, filling, &sheet);
    }
    filling->problem = found->rest;
    filling->problem.trimmed = way->problem.trimmed;
}

struct rational way_bought(const struct cutter *cutter, const struct way *way,
                           int64_t length)
{
    return sold_length(
        cutter,
        length_to_buy(
            way->plan.bolt,
            rational_add(way->fixed, rational_times(way->list.step, length))));
}

struct way start_way(struct arena *arena, const struct fabric_plan *plan)
{
    struct way way = {.plan = *plan, .list = steps_of(arena, plan, false)};
    way.problem = (struct roll_problem){.width = rational_floor(rational_div(
                                            plan->strip_length, way.list.step)),
                                        .folded = plan->bolt->layers > 1,
                                        .sizes = way.list.sizes,
                                        .count = way.list.count};
    way.fixed = rational_add(plan->allowance, lengthwise_length(plan));
    return way;
}

struct rational probe_way(const struct cutter *cutter, struct arena *arena,
                          const struct way *way, struct rest_rule rule)
{
    if (way->list.count == 0)
        return way_bought(cutter, way, 0);
    const struct rests rests =
        rests_of(arena, &way->plan, way->list.step, rule.feet);
    struct roll_problem problem = way->problem;
    problem.trimmed = rule.trimmed;
    if (rests.sheets.count == 0) {
        const struct roll_plan *roll = plan_roll(arena, &problem, rule.work);
        return roll == NULL ? rational_unknown()
                            : way_bought(cutter, way, roll->length);
    }
    const struct leftover_plan *found = plan_with_leftovers(
        arena, &problem, rests.kinds, rests.sheets.count, rule.work, NULL);
    return found == NULL ? rational_unknown()
                         : way_bought(cutter, way, found->roll->length);
}

/* The strips for what the rests do not give. */
static bool fill_roll(struct cutter *cutter, struct way *way, bool amount)
{
    struct filling *filling = &way->filling;
    filling->choice = choose_roll(cutter, &way->plan, &filling->problem,
                                  way->fixed, way->list.step, amount);
    if (filling->choice.plan == NULL)
        return false;
    filling->bought = way_bought(cutter, way, filling->choice.plan->length);
    return true;
}

/* By the rule of the way. */
static bool fill(struct cutter *cutter, struct way *way, bool amount)
{
    way->filling = (struct filling){.problem = way->problem,
                                    .bought = way_bought(cutter, way, 0)};
    if (way->list.count == 0)
        return true;
    /* Laying pieces into rests is a search, too. */
    if (!planned_simply(cutter, &way->problem))
        use_rests(cutter, way, amount);
    return fill_roll(cutter, way, amount);
}

/* Most ways are compared by what is bought, and only one is cut. A quilt that
 * is to be cut simply tells it by its simplest plan. */
bool fill_way(struct cutter *cutter, struct way *way, struct rest_rule rule)
{
    way->rule = rule;
    return fill(cutter, way, !cutter->pattern->simple);
}

/* The rests are searched for longer. Where other cloth would be bought then,
 * they stay as they were: `check` tells an amount without that search. */
void settle_way(struct cutter *cutter, struct way *way)
{
    struct way settled = *way;
    if (way->list.count == 0)
        return;
    if (fill(cutter, &settled, false) &&
        rational_equal(settled.filling.bought, way->filling.bought))
        *way = settled;
    else
        fill_roll(cutter, way, false);
}

static bool has_feet(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->sheets.count; i++)
        for (size_t k = 0; k < plan->sheets.items[i].strips.count; k++)
            if (rational_compare(plan->sheets.items[i].strips.items[k].used,
                                 plan->sheets.items[i].height) < 0)
                return true;
    return false;
}

/* Feet are small: they are cut from only where that saves cloth as sold. Rests
 * get as much work as each search for strips. */
bool fill_apart(struct cutter *cutter, struct way *way)
{
    const struct rest_rule rule = {.work = list_work(&way->problem) / 4};
    if (!fill_way(cutter, way, rule))
        return false;
    if (!has_feet(&way->plan))
        return true;
    struct way with = *way;
    if (fill_way(cutter, &with,
                 (struct rest_rule){.feet = true, .work = rule.work}) &&
        rational_compare(with.filling.bought, way->filling.bought) < 0)
        *way = with;
    return true;
}
