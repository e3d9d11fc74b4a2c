/* The cutting stage: sewn to cutplans. One plan for each quilt and colorway, as
 * widths of cloth differ by colorway. All lengths are real, in the pattern's
 * unit. May assume that sewing reported no error. Order: items, then strips,
 * then what is bought, then what was stated of it. Read next: items.c. */
#include "cutter.h"

/* Shops cut by the eighth of a yard, or by ten centimetres (common practice).
 * Up, always. */
struct rational sold_length(const struct cutter *cutter, struct rational length)
{
    const bool metric = cutter->pattern->units == UNIT_CM;
    return rational_round_up(length,
                             metric ? rational_whole(10) : rational_make(9, 2));
}

/* Yards and metres, as a shop cuts; `glyphs` for pages, else plain. */
char *yardage_text(struct arena *arena, const struct pattern *pattern,
                   struct rational bought, bool glyphs)
{
    const bool metric = pattern->units == UNIT_CM;
    const struct rational amount =
        rational_div(bought, rational_whole(metric ? 100 : 36));
    const enum length_unit unit = metric ? UNIT_M : UNIT_YD;
    return arena_printf(arena, "%s %s",
                        glyphs ? length_glyphs(arena, amount, unit)
                               : length_plain(arena, amount, unit),
                        metric ? "m" : "yd");
}

/* The allowance comes once a cloth, before rounding: the first cut squares up
 * the whole length. Sheets are counted, never rounded. */
void plan_amounts(struct cutter *cutter, struct fabric_plan *plan)
{
    plan->cut_height = rational_whole(0);
    for (size_t i = 0; i < plan->strips.count; i++)
        plan->cut_height =
            rational_add(plan->cut_height,
                         rational_times(plan->strips.items[i].height,
                                        (int64_t)plan->strips.items[i].repeat));
    plan->bought = rational_whole(0);
    for (size_t i = 0; i < plan->sheets.count; i++)
        plan->bought_sheets += plan->sheets.items[i].repeat;
    if (plan->bolt->fat_quarters || plan->items.count == 0)
        return;
    plan->allowance = cutter->pattern->allowance;
    plan->bought =
        sold_length(cutter, rational_add(plan->cut_height, plan->allowance));
}

/* A fat quarter: half a yard by half the width of cloth (American Patchwork &
 * Quilting, 2017); 50 cm in centimetres (common practice). Strips run along the
 * width of cloth, so that is the length of a strip. */
static void measure_bolt(struct cutter *cutter, struct fabric_plan *plan,
                         int fabric)
{
    plan->fabric = fabric;
    plan->bolt = &cutter->plan->colorway->bolts[fabric];
    plan->strip_length = plan->bolt->width;
    plan->sheet_height = rational_whole(0);
    plan->allowance = rational_whole(0);
    if (!plan->bolt->fat_quarters)
        return;
    plan->strip_length = rational_div(plan->bolt->width, rational_whole(2));
    plan->sheet_height = cutter->pattern->units == UNIT_CM ? rational_whole(50)
                                                           : rational_whole(18);
}

/* What backing or batting is larger at each side: 4 in or 10 cm is the lower
 * end of what long-arm quilters ask (published range 2 to 6 in). */
static struct rational overage_of(const struct cutter *cutter,
                                  const struct element *element)
{
    const struct value *overage =
        element == NULL ? NULL : value_of(element, ATTR_OVERAGE);
    return overage != NULL                     ? overage->number
           : cutter->pattern->units == UNIT_CM ? rational_whole(10)
                                               : rational_whole(4);
}

/* One way of laying the panels: how many, and the length they take. Each panel
 * gives one width of cloth, each join takes both allowances. */
static size_t panels_for(const struct cutter *cutter, const struct bolt *bolt,
                         struct rational across)
{
    /* A backing seam takes 1/2 in on each side (common practice). */
    return strips_needed(across, bolt->width,
                         cutter->pattern->units == UNIT_CM ? rational_make(5, 2)
                                                           : rational_whole(1));
}

/* Batting first, as it is planned even where no cloth backs it. */
void plan_backing(struct cutter *cutter)
{
    struct cutplan *plan = cutter->plan;
    const struct definition *quilt = plan->quilt->definition;
    if (quilt->batting != NULL) {
        const struct rational extra = rational_times(
            overage_of(cutter, value_of(quilt->batting, ATTR_OVERAGE) != NULL
                                   ? quilt->batting
                                   : quilt->backing),
            2);
        const struct value *gap = value_of(quilt->batting, ATTR_MAX_GAP);
        plan->batting_wanted = true;
        plan->batting_width = rational_add(plan->quilt->width, extra);
        plan->batting_height = rational_add(plan->quilt->height, extra);
        plan->batting_gap = gap == NULL ? rational_unknown() : gap->number;
    }
    if (quilt->backing == NULL || quilt->backing_fabric == NO_FABRIC)
        return;
    struct backing_plan *backing = &plan->backing;
    const struct rational extra =
        rational_times(overage_of(cutter, quilt->backing), 2);
    backing->wanted = true;
    backing->fabric = quilt->backing_fabric;
    backing->bolt = &plan->colorway->bolts[backing->fabric];
    backing->width = rational_add(plan->quilt->width, extra);
    backing->height = rational_add(plan->quilt->height, extra);
    /* Both directions are tried: magazine patterns buy the one that takes less.
     */
    const size_t down = panels_for(cutter, backing->bolt, backing->width);
    const size_t across = panels_for(cutter, backing->bolt, backing->height);
    const struct rational down_length =
        rational_times(backing->height, (int64_t)down);
    const struct rational across_length =
        rational_times(backing->width, (int64_t)across);
    /* Equal lengths: seams run down the quilt. */
    backing->seams_vertical = rational_compare(down_length, across_length) <= 0;
    backing->panels = backing->seams_vertical ? down : across;
    backing->panel_length =
        backing->seams_vertical ? backing->height : backing->width;
    backing->bought = sold_length(
        cutter, backing->seams_vertical ? down_length : across_length);
}

/* A list of several amounts has no single mend. */
static void report_amount(struct cutter *cutter, const struct value *stated,
                          const char *found, const char *wanted,
                          const char *replacement)
{
    struct diagnostic *d =
        diag_report(cutter->run, DIAG_YARDAGE, stated->span,
                    "`%s` takes %s of this cloth, not %s",
                    cutter->plan->quilt->definition->id, found, wanted);
    if (stated->list.count == 1)
        diag_mend(cutter->run, d, stated->span, replacement, "%s=\"%s\" holds",
                  stated->name.end - stated->name.start == 5 ? "yards"
                                                             : "fat-quarters",
                  replacement);
    else
        diag_help(cutter->run, d, "write %s in its place", replacement);
}

/* ensures: a list with an amount for each quilt, or NULL. reports: an amount in
 * what this cloth is not sold in, and lists of another length. */
static const struct value *stated_list(struct cutter *cutter,
                                       const struct fabric_plan *plan,
                                       enum attribute_id id, size_t quilt_count)
{
    const struct value *stated = value_of(plan->bolt->element, id);
    if (stated == NULL)
        return NULL;
    if (plan->bolt->fat_quarters != (id == ATTR_FAT_QUARTERS)) {
        struct diagnostic *d = diag_report(
            cutter->run, DIAG_YARDAGE, stated->name,
            "this cloth is sold %s, not %s",
            plan->bolt->fat_quarters ? "in fat quarters" : "as yardage",
            plan->bolt->fat_quarters ? "as yardage" : "in fat quarters");
        diag_help(cutter->run, d, "state it with %s=\"...\"",
                  plan->bolt->fat_quarters ? "fat-quarters" : "yards");
        return NULL;
    }
    if (stated->list.count == quilt_count)
        return stated;
    struct diagnostic *d = diag_report(cutter->run, DIAG_YARDAGE, stated->span,
                                       "there are %zu amounts for %zu quilts",
                                       stated->list.count, quilt_count);
    diag_help(cutter->run, d,
              "write one amount for each quilt in their order, with commas");
    return NULL;
}

/* Amounts are stated in the order of the quilts. Exact comparison: what is
 * stated is what a shop is asked for. */
/* A cloth that only backs the quilt is stated by its backing. */
static struct rational amount_of(const struct cutter *cutter,
                                 const struct fabric_plan *plan)
{
    const struct backing_plan *backing = &cutter->plan->backing;
    return plan->items.count == 0 && backing->wanted &&
                   backing->fabric == plan->fabric
               ? backing->bought
               : plan->bought;
}

void check_amounts(struct cutter *cutter, size_t quilt_number,
                   size_t quilt_count)
{
    struct arena *arena = cutter->run->arena;
    for (size_t i = 0; i < cutter->design->fabrics.count; i++) {
        const struct fabric_plan *plan = &cutter->plan->fabrics[i];
        /* A role without cloth was reported; there is nothing to compare. */
        if (plan->bolt->element == NULL)
            continue;
        const struct value *yards =
            stated_list(cutter, plan, ATTR_YARDS, quilt_count);
        const struct value *sheets =
            stated_list(cutter, plan, ATTR_FAT_QUARTERS, quilt_count);
        const struct rational yard =
            length_factor(UNIT_YD, cutter->pattern->units);
        const struct rational found =
            rational_div(amount_of(cutter, plan), yard);
        if (yards != NULL &&
            !rational_equal(yards->list.items[quilt_number], found)) {
            const char *right = length_plain(arena, found, UNIT_YD);
            report_amount(
                cutter, yards, arena_printf(arena, "%s yd", right),
                length_plain(arena, yards->list.items[quilt_number], UNIT_YD),
                right);
        }
        if (sheets != NULL &&
            !rational_equal(sheets->list.items[quilt_number],
                            rational_whole((int64_t)plan->bought_sheets))) {
            const char *right = arena_printf(arena, "%zu", plan->bought_sheets);
            report_amount(
                cutter, sheets, arena_printf(arena, "%s fat quarters", right),
                length_plain(arena, sheets->list.items[quilt_number], UNIT_IN),
                right);
        }
    }
}

/* ensures: false where a piece fits no cloth; other cloths are planned all the
 * same, so that all are told. A plan that fails its proof is a fault of ours.
 */
static bool plan_one(struct cutter *cutter, size_t quilt_number,
                     size_t quilt_count)
{
    const size_t fabrics = cutter->design->fabrics.count;
    cutter->plan->fabrics =
        ARENA_ARRAY(cutter->run->arena, struct fabric_plan, fabrics);
    for (size_t i = 0; i < fabrics; i++)
        measure_bolt(cutter, &cutter->plan->fabrics[i], (int)i);
    gather_items(cutter);
    bool sound = true;
    for (size_t i = 0; i < fabrics; i++) {
        struct fabric_plan *plan = &cutter->plan->fabrics[i];
        if (!plan_strips(cutter, plan)) {
            sound = false;
            continue;
        }
        if (!cutplan_holds(plan))
            internal_error("a cutting plan does not hold its pieces");
        plan_amounts(cutter, plan);
    }
    plan_backing(cutter);
    if (sound)
        check_amounts(cutter, quilt_number, quilt_count);
    return sound;
}

/* By quilt, then by colorway: the order of booklets and tables. */
struct cutplans *plan_cutting(struct run *run, const struct sewn *sewn)
{
    struct cutplans *plans = ARENA_NEW(run->arena, struct cutplans);
    const struct design *design = sewn->sized->design;
    plans->sewn = sewn;
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        for (size_t k = 0; k < design->colorways.count; k++) {
            struct cutplan *plan = LIST_ADD(run->arena, &plans->items);
            plan->quilt = &sewn->quilts.items[i];
            plan->colorway = &design->colorways.items[k];
            /* A cutter of its own for each plan, so that nothing is carried
             * over. */
            struct cutter cutter = {run, design, design->pattern, plan};
            plan_one(&cutter, i, sewn->quilts.count);
        }
    }
    return plans;
}
