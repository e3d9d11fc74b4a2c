/* The plan of one fabric. Lengthwise pieces take a length of the cloth for
 * themselves; what stays beside them is used first; all else comes from strips
 * across the cloth, or from sheets where the cloth is sold so. The planners
 * count in steps; here their plans become strips of exact sizes. Read next:
 * lengthwise.c, rests.c, settle.c, choose.c. */
#include "cutter.h"

/* Does the item fit the cloth in a way that it may lie? */
static bool fits(const struct fabric_plan *plan, const struct cut_item *item)
{
    for (int way = 0; way < (item->turns ? 2 : 1); way++) {
        const struct rational across = way == 0 ? item->width : item->height;
        const struct rational height = way == 0 ? item->height : item->width;
        if (rational_compare(across, plan->strip_length) <= 0 &&
            (plan->bolt->sold == SOLD_YARDAGE ||
             rational_compare(height, plan->sheet_height) <= 0))
            return item->count > 0;
    }
    return false;
}

/* reports: the piece, and how large the cloth is. A role without cloth of its
 * own has no place in the source. */
static void report_too_wide(struct cutter *cutter,
                            const struct fabric_plan *plan,
                            const struct cut_item *item)
{
    struct run *run = cutter->run;
    const enum length_unit units = cutter->pattern->units;
    const struct span span = plan->bolt->element == NULL
                                 ? (struct span){0, 0}
                                 : value_span(plan->bolt->element, ATTR_FABRIC);
    struct diagnostic *d =
        diag_report(run, DIAG_TOO_WIDE, span,
                    "a piece of %s x %s does not fit the cloth for `%s`",
                    length_plain(run->arena, item->width, units),
                    length_plain(run->arena, item->height, units),
                    cutter->design->fabrics.items[plan->fabric].id);
    const bool yardage = plan->bolt->sold == SOLD_YARDAGE;
    if (yardage)
        diag_note(run, d, (struct span){0, 0}, "the cloth is %s wide",
                  length_plain(run->arena, plan->strip_length, units));
    else
        diag_note(run, d, (struct span){0, 0}, "a %s here is %s x %s",
                  sheet_name(plan->bolt->sold, false),
                  length_plain(run->arena, plan->sheet_height, units),
                  length_plain(run->arena, plan->strip_length, units));
    diag_help(run, d,
              yardage ? "name a wider cloth, or piece it"
                      : "sell this cloth as sold=\"yardage\"");
}

/* ---- from steps to sizes ---- */

/* The cut of `count` pieces, turned where its side along the strip is the
 * item's height. */
static struct strip_cut cut_of(const struct fabric_plan *plan, size_t index,
                               bool turned, size_t count, size_t stack)
{
    const struct cut_item *item = &plan->items.items[index];
    return (struct strip_cut){index, count, stack,
                              turned ? item->height : item->width,
                              turned ? item->width : item->height};
}

/* ensures: a strip as the planner laid it. Which way a piece lies follows from
 * its side along, as in roll_across. */
struct strip strip_of(struct arena *arena, const struct fabric_plan *plan,
                      const struct step_list *list,
                      const struct roll_strip *laid)
{
    struct strip strip = {.repeat = laid->repeat};
    for (size_t i = 0; i < laid->cuts.count; i++) {
        const struct roll_cut *cut = &laid->cuts.items[i];
        const struct roll_size *size = &list->sizes[cut->size];
        const bool as_is =
            cut->along == size->width && size->height <= laid->height;
        *LIST_ADD(arena, &strip.cuts) =
            cut_of(plan, list->items[cut->size], !as_is, cut->count, 1);
    }
    settle_strip(&strip);
    return strip;
}

/* A sheet as it was planned in steps. `kind` and the size are the caller's. */
void fill_sheet(struct arena *arena, const struct fabric_plan *plan,
                const struct step_list *list,
                const struct sheet_pattern *pattern, struct sheet *sheet)
{
    sheet->down = pattern->down;
    sheet->repeat = pattern->repeat;
    sheet->used = rational_whole(0);
    for (size_t i = 0; i < pattern->strips.count; i++) {
        const struct sheet_strip *laid = &pattern->strips.items[i];
        struct strip *strip = LIST_ADD(arena, &sheet->strips);
        strip->repeat = laid->repeat;
        for (size_t k = 0; k < laid->cuts.count; k++) {
            const struct sheet_cut *cut = &laid->cuts.items[k];
            const struct roll_size *size = &list->sizes[cut->size];
            *LIST_ADD(arena, &strip->cuts) =
                cut_of(plan, list->items[cut->size], cut->along != size->width,
                       cut->beside, cut->stack);
        }
        settle_strip(strip);
        sheet->used = rational_add(
            sheet->used, rational_times(strip->height, (int64_t)strip->repeat));
    }
}

/* ---- all of a fabric ---- */

/* The pieces on sheets that are smaller by so much both ways. */
static struct sheet_problem problem_of(const struct fabric_plan *plan,
                                       const struct step_list *list,
                                       struct rational less)
{
    const struct rational width = rational_sub(plan->strip_length, less);
    const struct rational height = rational_sub(plan->sheet_height, less);
    return (struct sheet_problem){
        .width = rational_floor(rational_div(width, list->step)),
        .height = rational_floor(rational_div(height, list->step)),
        .sizes = list->sizes,
        .count = list->count,
        .first = SHEET_CUT_EITHER};
}

static void take_sheets(struct arena *arena, const struct step_list *list,
                        const struct sheet_plan *found,
                        struct fabric_plan *plan)
{
    plan->sheets.count = 0;
    for (size_t i = 0; i < found->sheets.count; i++) {
        struct sheet *sheet = LIST_ADD(arena, &plan->sheets);
        *sheet = (struct sheet){.kind = SHEET_BOUGHT,
                                .width = plan->strip_length,
                                .height = plan->sheet_height};
        fill_sheet(arena, plan, list, &found->sheets.items[i], sheet);
    }
}

/* Fat quarters and eighths come off a bolt, crooked at times. */
static bool sheets_keep_reserve(const struct fabric_plan *plan)
{
    if (plan->bolt->sold != SOLD_FAT_QUARTER &&
        plan->bolt->sold != SOLD_FAT_EIGHTH)
        return true;
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (rational_compare(
                rational_min(sheet_width_spare(&plan->sheets.items[i]),
                             sheet_height_spare(&plan->sheets.items[i])),
                plan->reserve) < 0)
            return false;
    return true;
}

/* Takes a plan that leaves the reserve at two sides of each sheet, where it is
 * no more of them, or tells how many it would be. ensures: the plan that is
 * taken. */
static const struct sheet_plan *
keep_sheet_reserve(struct cutter *cutter, const struct step_list *list,
                   const struct sheet_plan *found, struct fabric_plan *plan)
{
    if (cutter->amounts_only || sheets_keep_reserve(plan))
        return found;
    const struct sheet_problem smaller = problem_of(plan, list, plan->reserve);
    const struct sheet_plan *kept = smaller.width > 0 && smaller.height > 0
                                        ? choose_sheets(cutter, &smaller)
                                        : NULL;
    if (kept == NULL)
        return found;
    if (kept->count > found->count) {
        struct fabric_plan more = *plan;
        more.sheets.items = NULL;
        more.sheets.count = more.sheets.capacity = 0;
        take_sheets(cutter->run->arena, list, kept, &more);
        plan->reserved_sheets = kept->count;
        plan->reserved_plan.items = more.sheets.items;
        plan->reserved_plan.count = more.sheets.count;
        return found;
    }
    take_sheets(cutter->run->arena, list, kept, plan);
    return kept;
}

/* No length is left to choose here: sheets are bought whole. The plan by hand
 * is only compared; it exists wherever a plan does, as both ask that each size
 * fits on a sheet. */
static bool plan_sheet_cloth(struct cutter *cutter, struct fabric_plan *plan)
{
    struct arena *arena = cutter->run->arena;
    const struct step_list list = steps_of(arena, plan, false);
    const struct sheet_problem problem =
        problem_of(plan, &list, rational_whole(0));
    const struct sheet_plan *found = choose_sheets(cutter, &problem);
    if (found == NULL)
        return false;
    plan->least_sheets = found->bound;
    take_sheets(arena, &list, found, plan);
    found = keep_sheet_reserve(cutter, &list, found, plan);
    const struct sheet_plan *hand = plan_sheets_by_hand(arena, &problem);
    const struct sheet_effort effort = sheet_effort(found),
                              hand_effort = sheet_effort(hand);
    plan->effort = (struct cut_effort){effort.patterns + effort.strips,
                                       effort.settings, effort.trims};
    plan->hand_effort =
        (struct cut_effort){hand_effort.patterns + hand_effort.strips,
                            hand_effort.settings, hand_effort.trims};
    plan->hand_sheets = hand->count;
    return true;
}

/* The planner's numbers in the terms of the booklet. */
static struct cut_effort effort_of(struct roll_effort effort)
{
    return (struct cut_effort){effort.lines, effort.settings, effort.trims};
}

/* What each size by itself would take, lengthwise cloth included. */
static void plan_by_hand(struct cutter *cutter, struct fabric_plan *plan,
                         const struct way *way)
{
    if (way->list.count == 0) {
        plan->hand_bought = way_bought(cutter, way, 0);
        return;
    }
    const struct roll_plan *hand =
        plan_roll_by_hand(cutter->run->arena, &way->problem);
    plan->hand_bought = way_bought(cutter, way, hand->length);
    plan->hand_effort = effort_of(roll_effort(&way->problem, hand));
}

/* The strips of a way, and its rests behind the lengthwise cloth, the long ones
 * first. */
static void take_way(struct cutter *cutter, const struct way *way,
                     struct fabric_plan *plan)
{
    struct arena *arena = cutter->run->arena;
    const struct filling *filling = &way->filling;
    size_t *wanted = ARENA_ARRAY(arena, size_t, way->plan.items.count + 1);
    plan->items.items = way->plan.items.items;
    plan->items.count = way->plan.items.count;
    plan->items.capacity = way->plan.items.capacity;
    /* A list of its own: the way's may be the plan's. */
    plan->sheets.items = NULL;
    plan->sheets.count = plan->sheets.capacity = 0;
    for (size_t i = 0; i < way->plan.sheets.count; i++)
        *LIST_ADD(arena, &plan->sheets) = way->plan.sheets.items[i];
    /* The small ones first: they lie beside the line that leaves them, where a
     * large one takes the whole page. */
    for (int beside = 0; beside < 2; beside++)
        for (size_t i = 0; i < filling->rests.count; i++)
            if (filling->rests.items[i].foot == (beside == 0))
                *LIST_ADD(arena, &plan->sheets) = filling->rests.items[i];
    if (filling->choice.plan == NULL)
        return;
    for (size_t i = 0; i < filling->choice.plan->strips.count; i++)
        *LIST_ADD(arena, &plan->strips) = strip_of(
            arena, plan, &way->list, &filling->choice.plan->strips.items[i]);
    for (size_t i = 0; i < way->list.count; i++)
        wanted[way->list.items[i]] = filling->problem.sizes[i].demand;
    drop_surplus(arena, plan, wanted);
    even_strips(arena, plan);
    settle_strips(plan);
}

/* What is known of the choice: its effort, what less costs, what more saves. */
static void tell_choice(struct cutter *cutter, const struct way *way,
                        bool lengthwise, struct fabric_plan *plan)
{
    struct arena *arena = cutter->run->arena;
    const struct roll_choice *choice = &way->filling.choice;
    if (choice->plan == NULL)
        return;
    plan->effort = effort_of(choice->effort);
    plan->simply = choice->simply ? way->list.count : 0;
    if (choice->reserved > 0)
        plan->reserved_bought = way_bought(cutter, way, choice->reserved);
    for (size_t i = 0; choice->reserved_plan != NULL &&
                       i < choice->reserved_plan->strips.count;
         i++)
        *LIST_ADD(arena, &plan->reserved_strips) = strip_of(
            arena, plan, &way->list, &choice->reserved_plan->strips.items[i]);
    if (!lengthwise)
        plan->least_bought = way_bought(cutter, way, choice->bound);
    if (choice->offer == NULL)
        return;
    plan->offer.effort = effort_of(choice->offer_effort);
    for (size_t i = 0; i < choice->offer->strips.count; i++)
        *LIST_ADD(arena, &plan->offer.strips) =
            strip_of(arena, plan, &way->list, &choice->offer->strips.items[i]);
}

/* Only a plan without lengthwise cloth is proven: rests are used by a rule of
 * thumb. */
static bool plan_yardage(struct cutter *cutter, struct fabric_plan *plan)
{
    struct arena *arena = cutter->run->arena;
    if (!plan_lengthwise(cutter, plan))
        return false;
    const bool lengthwise = plan->sheets.count > 0;
    struct way way = start_way(arena, plan);
    plan_by_hand(cutter, plan, &way);
    if (!fill_apart(cutter, &way))
        return false;
    if (lengthwise) {
        plan->apart_bought = way.filling.bought;
        plan_jointly(cutter, &way);
    }
    struct rational eased;
    bool kept = true;
    if (lengthwise && !cutter->amounts_only)
        kept = keep_width_reserve(cutter, plan, &way, &eased);
    else if (!cutter->amounts_only)
        settle_way(cutter, &way);
    take_way(cutter, &way, plan);
    tell_choice(cutter, &way, lengthwise, plan);
    if (!kept)
        plan->reserved_bought = eased;
    return true;
}

/* Which pieces fit is settled first, so that all that do not are told. */
bool plan_fabric(struct cutter *cutter, struct fabric_plan *plan)
{
    bool sound = true;
    for (size_t i = 0; i < plan->items.count; i++)
        if (!fits(plan, &plan->items.items[i])) {
            report_too_wide(cutter, plan, &plan->items.items[i]);
            sound = false;
            break;
        }
    if (!sound || plan->items.count == 0 ||
        (cutter->amounts_only && !asks_amount(plan)))
        return sound;
    if (plan->bolt->sold == SOLD_YARDAGE ? plan_yardage(cutter, plan)
                                         : plan_sheet_cloth(cutter, plan))
        return true;
    internal_error("a piece that fits its cloth was not planned");
}
