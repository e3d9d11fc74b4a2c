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
static void use_rests(struct cutter *cutter, const struct fabric_plan *plan,
                      const struct step_list *list, const struct rests *rests,
                      struct filling *filling)
{
    struct arena *arena = cutter->run->arena;
    const struct roll_problem *problem = &filling->problem;
    const size_t count = rests->sheets.count;
    if (count == 0)
        return;
    const struct leftover_plan *found = plan_with_leftovers(
        arena, problem, rests->kinds, count, roll_work(problem));
    if (found == NULL)
        return;
    if (!leftover_plan_holds(problem, rests->kinds, count, found))
        internal_error("a plan of leftovers does not hold its pieces");
    for (size_t i = 0; i < found->fill->uses.count; i++) {
        const struct leftover_use *use = &found->fill->uses.items[i];
        struct sheet sheet = rests->sheets.items[use->kind];
        fill_sheet(arena, plan, list, &use->pattern, &sheet);
        add_filled(arena, filling, &sheet);
    }
    filling->problem = found->rest;
}

/* ensures: a choice without a plan where a piece does not fit. */
static struct filling fill_cloth(struct cutter *cutter,
                                 const struct fabric_plan *plan,
                                 const struct step_list *list,
                                 const struct roll_problem *problem,
                                 struct rational fixed, bool feet)
{
    struct filling filling = {.problem = *problem};
    const struct rests rests =
        rests_of(cutter->run->arena, plan, list->step, feet);
    /* Laying pieces into rests is a search, too. */
    if (!planned_simply(cutter, problem))
        use_rests(cutter, plan, list, &rests, &filling);
    filling.choice =
        choose_roll(cutter, plan, &filling.problem, fixed, list->step);
    if (filling.choice.plan != NULL)
        filling.bought = sold_length(
            cutter, length_to_buy(
                        plan->bolt,
                        rational_add(fixed, rational_times(
                                                list->step,
                                                filling.choice.plan->length))));
    return filling;
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

/* Feet are small: they are cut from only where that saves cloth as sold. */
struct filling best_filling(struct cutter *cutter,
                            const struct fabric_plan *plan,
                            const struct step_list *list,
                            const struct roll_problem *problem,
                            struct rational fixed)
{
    const struct filling without =
        fill_cloth(cutter, plan, list, problem, fixed, false);
    if (without.choice.plan == NULL || !has_feet(plan))
        return without;
    const struct filling with =
        fill_cloth(cutter, plan, list, problem, fixed, true);
    return rational_compare(with.bought, without.bought) < 0 ? with : without;
}
