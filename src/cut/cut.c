/* The cutting stage: sewn to cutplans. One plan for each quilt and colorway, as
 * widths of cloth differ by colorway. All lengths are real, in the pattern's
 * unit. May assume that sewing reported no error. Order: items, then strips,
 * then what is bought, then what was stated of it. Read next: items.c. */
#include "cutter.h"

/* The allowance comes once a cloth, before shrinkage and rounding: the first
 * cut squares up the whole length. Sheets are counted, never rounded. */
void plan_amounts(struct cutter *cutter, struct fabric_plan *plan)
{
    plan->cut_height = plan->bought = plan->needed = rational_whole(0);
    for (size_t i = 0; i < plan->strips.count; i++)
        plan->cut_height =
            rational_add(plan->cut_height,
                         rational_times(plan->strips.items[i].height,
                                        (int64_t)plan->strips.items[i].repeat));
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        if (sheet->kind == SHEET_BOUGHT)
            plan->bought_sheets += sheet->repeat;
        if (sheet->kind == SHEET_LENGTHWISE)
            plan->cut_height = rational_add(
                plan->cut_height,
                rational_times(sheet->height, (int64_t)sheet->repeat));
    }
    if (plan->bolt->sold != SOLD_YARDAGE || plan->items.count == 0)
        return;
    plan->needed = length_to_buy(
        plan->bolt, rational_add(plan->cut_height, plan->allowance));
    plan->bought = sold_length(cutter, plan->needed);
    plan->offer.bought = rational_add(
        plan->bought, trade_length(TRADE_SOLD_STEP, cutter->pattern->units));
}

/* What backing or batting is larger at each side. */
static struct rational overage_of(const struct cutter *cutter,
                                  struct rational stated)
{
    return rational_known(stated)
               ? stated
               : trade_length(TRADE_OVERAGE, cutter->pattern->units);
}

/* Panels that run down the quilt or across it, and what they take. The last one
 * need be only as wide as is then missing. */
static void lay_panels(struct cutter *cutter, bool down)
{
    struct backing_plan *backing = &cutter->plan->backing;
    const struct rational across = down ? backing->width : backing->height;
    const struct rational join = rational_times(
        trade_length(TRADE_BACKING_SEAM, cutter->pattern->units), 2);
    backing->seams_vertical = down;
    backing->panels = strips_needed(across, backing->bolt->width, join);
    backing->panel_length = down ? backing->height : backing->width;
    backing->last_width = rational_round_up(
        rational_sub(across,
                     rational_times(rational_sub(backing->bolt->width, join),
                                    (int64_t)backing->panels - 1)),
        cutter->pattern->cutting_step);
    backing->last_width =
        rational_compare(backing->last_width, backing->bolt->width) > 0
            ? backing->bolt->width
            : backing->last_width;
    backing->bought = sold_length(
        cutter,
        length_to_buy(backing->bolt, rational_times(backing->panel_length,
                                                    (int64_t)backing->panels)));
}

/* Is anything else cut from the cloth of the backing? */
static bool top_uses(const struct cutter *cutter, int fabric)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    bool used = quilt->definition->binding_fabric == fabric;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        used |= quilt->heaps.items[i].count > 0 &&
                heap_fabric(&quilt->heaps.items[i]) == fabric;
    return used;
}

/* Batting first, as it is planned even where no cloth backs it. */
void plan_backing(struct cutter *cutter)
{
    struct cutplan *plan = cutter->plan;
    const struct definition *quilt = plan->quilt->definition;
    if (quilt->batting != NULL) {
        const struct rational extra = rational_times(
            overage_of(cutter, rational_known(quilt->batting_overage)
                                   ? quilt->batting_overage
                                   : quilt->backing_overage),
            2);
        plan->batting_wanted = true;
        plan->batting_width = rational_add(plan->quilt->width, extra);
        plan->batting_height = rational_add(plan->quilt->height, extra);
        plan->batting_gap = quilt->batting_gap;
    }
    if (quilt->backing == NULL || quilt->backing_fabric == NO_FABRIC)
        return;
    struct backing_plan *backing = &plan->backing;
    const struct rational extra =
        rational_times(overage_of(cutter, quilt->backing_overage), 2);
    backing->wanted = true;
    backing->fabric = quilt->backing_fabric;
    backing->bolt = &plan->colorway->bolts[backing->fabric];
    backing->width = rational_add(plan->quilt->width, extra);
    backing->height = rational_add(plan->quilt->height, extra);
    backing->together = quilt->backing_together &&
                        backing->bolt->sold == SOLD_YARDAGE &&
                        top_uses(cutter, backing->fabric);
    /* Both directions are tried: magazine patterns buy the one that takes less.
     * Equal lengths: seams run down the quilt. A one-way print runs along its
     * cloth, so only panels that run down show it upright. */
    backing->one_way = cutter->design->fabrics.items[backing->fabric].one_way;
    lay_panels(cutter, false);
    const struct rational across_length =
        rational_times(backing->panel_length, (int64_t)backing->panels);
    lay_panels(cutter, true);
    const struct rational down_length =
        rational_times(backing->panel_length, (int64_t)backing->panels);
    if (!backing->one_way && rational_compare(across_length, down_length) < 0)
        lay_panels(cutter, false);
}

/* What is cut and bought of one cloth. ensures: false where a piece does not
 * fit. A plan that fails its proof is a fault of ours. One that was made for
 * its amount is not the one that is printed, so its sizes are not kept. */
static bool plan_cloth(struct cutter *cutter, struct fabric_plan *plan)
{
    const struct fabric_plan asked = *plan;
    if (take_made_cloth(cutter, plan))
        return true;
    if (!plan_fabric(cutter, plan))
        return false;
    if (cutter->amounts_only && plan->strips.count + plan->sheets.count == 0)
        return true;
    if (!cutplan_holds(plan))
        internal_error("a cutting plan does not hold its pieces");
    plan_amounts(cutter, plan);
    if (cutter->amounts_only) {
        plan->strips.count = plan->sheets.count = 0;
        plan->cut_height = plan->needed = rational_unknown();
    }
    keep_made_cloth(cutter, &asked, plan);
    return true;
}

/* The strips of binding as they are planned, across the cloth and along it.
 * Joined they must give its length: n of them have n - 1 joins, each of which
 * takes their width. */
static void settle_binding(struct cutter *cutter)
{
    struct binding_plan *binding = &cutter->plan->binding;
    if (!binding->wanted)
        return;
    const struct fabric_plan *plan = &cutter->plan->fabrics[binding->fabric];
    struct rational length = binding->width;
    binding->strips = 0;
    binding->labels = NULL;
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->use != CUT_BINDING)
            continue;
        const struct rational along =
            item->lengthwise ? item->height : item->width;
        binding->strips += item->count;
        length = rational_add(
            length, rational_times(rational_sub(along, binding->width),
                                   (int64_t)item->count));
        binding->labels = binding->labels == NULL
                              ? item->label
                              : arena_printf(cutter->run->arena, "%s, %s",
                                             binding->labels, item->label);
    }
    if (rational_compare(length, binding->length) < 0)
        internal_error("strips of binding are too short together");
}

/* All that is to be cut, of each cloth. */
static void start_fabrics(struct cutter *cutter)
{
    const size_t fabrics = cutter->design->fabrics.count;
    cutter->plan->fabrics =
        ARENA_ARRAY(cutter->run->arena, struct fabric_plan, fabrics);
    for (size_t i = 0; i < fabrics; i++)
        measure_bolt(cutter, &cutter->plan->fabrics[i], (int)i);
    gather_items(cutter);
}

/* What the cloth of the backing takes with panels as they lie. */
static struct rational bought_together(struct cutter *cutter)
{
    struct cutter full = *cutter;
    full.amounts_only = false;
    start_fabrics(&full);
    struct fabric_plan *cloth =
        &cutter->plan->fabrics[cutter->plan->backing.fabric];
    return plan_cloth(&full, cloth) ? cloth->bought : rational_unknown();
}

/* Panels that are cut with the top: the direction that takes less is known only
 * when all of the cloth is planned. */
static void turn_panels(struct cutter *cutter)
{
    const struct backing_plan *backing = &cutter->plan->backing;
    if (!backing->together)
        return;
    const bool down = backing->seams_vertical;
    const struct rational bought = bought_together(cutter);
    if (!backing->one_way && rational_known(bought)) {
        lay_panels(cutter, !down);
        const struct rational turned = bought_together(cutter);
        if (!rational_known(turned) || rational_compare(turned, bought) >= 0)
            lay_panels(cutter, down);
    }
}

/* ensures: false where a piece fits no cloth; other cloths are planned all the
 * same, so that all are told. */
static bool plan_cloths(struct cutter *cutter, size_t quilt_number,
                        size_t quilt_count)
{
    const size_t fabrics = cutter->design->fabrics.count;
    bool sound = true;
    for (size_t i = 0; i < fabrics; i++)
        sound &= plan_cloth(cutter, &cutter->plan->fabrics[i]);
    for (size_t i = 0; i < fabrics && sound; i++)
        check_amounts(cutter, i, quilt_number, quilt_count);
    return sound;
}

/* The same up to the first error. Cloths of few items come first: what is off
 * there spares the longer plans. */
static bool plan_briefly(struct cutter *cutter, size_t quilt_number,
                         size_t quilt_count)
{
    const size_t fabrics = cutter->design->fabrics.count;
    struct fabric_plan *plans = cutter->plan->fabrics;
    bool *planned = ARENA_ARRAY(cutter->run->arena, bool, fabrics);
    for (size_t n = 0; n < fabrics; n++) {
        size_t next = fabrics;
        for (size_t i = 0; i < fabrics; i++)
            if (!planned[i] && (next == fabrics ||
                                plans[i].items.count < plans[next].items.count))
                next = i;
        planned[next] = true;
        if (!plan_cloth(cutter, &plans[next]))
            return false;
        check_amounts(cutter, next, quilt_number, quilt_count);
        if (diag_count(cutter->run, DIAG_ERROR) > 0)
            return false;
    }
    return true;
}

static void plan_one(struct cutter *cutter, size_t quilt_number,
                     size_t quilt_count)
{
    plan_backing(cutter);
    turn_panels(cutter);
    start_fabrics(cutter);
    if (cutter->run->brief ? plan_briefly(cutter, quilt_number, quilt_count)
                           : plan_cloths(cutter, quilt_number, quilt_count))
        settle_binding(cutter);
}

/* Are all fabrics sold alike in two colorways? */
static bool same_cloths(const struct design *design, size_t one, size_t other)
{
    for (size_t f = 0; f < design->fabrics.count; f++) {
        const struct bolt *a = &design->colorways.items[one].bolts[f];
        const struct bolt *b = &design->colorways.items[other].bolts[f];
        if (a->sold != b->sold || !rational_equal(a->width, b->width) ||
            !rational_equal(a->shrinkage, b->shrinkage))
            return false;
    }
    return true;
}

/* How many sizes all lists of the source have together, as cut from heaps: what
 * the work of planning is shared by. Colorways of equal cloth share their
 * plans, so each width of cloth counts once. */
static size_t sizes_of(const struct sewn *sewn)
{
    const struct design *design = sewn->sized->design;
    size_t sizes = 0;
    for (size_t q = 0; q < sewn->quilts.count; q++) {
        const struct sewn_quilt *quilt = &sewn->quilts.items[q];
        for (size_t i = 0; i < quilt->heaps.count; i++)
            sizes += quilt->heaps.items[i].technique == TECHNIQUE_CUT;
    }
    size_t unlike = 1;
    for (size_t k = 1; k < design->colorways.count; k++)
        unlike += !same_cloths(design, k - 1, k);
    return sizes * unlike;
}

/* By quilt, then by colorway: the order of booklets and tables. */
static struct cutplans *make_plans(struct run *run, const struct sewn *sewn,
                                   bool amounts_only)
{
    struct cutplans *plans = ARENA_NEW(run->arena, struct cutplans);
    const struct design *design = sewn->sized->design;
    struct choices choices = {.sizes = sizes_of(sewn)};
    plans->sewn = sewn;
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        for (size_t k = 0; k < design->colorways.count; k++) {
            struct cutplan *plan = LIST_ADD(run->arena, &plans->items);
            plan->quilt = &sewn->quilts.items[i];
            plan->colorway = &design->colorways.items[k];
            plan->all = plans;
            /* A cutter of its own for each plan, so that nothing is carried
             * over but what was chosen for a list of pieces, or for a cloth
             * that is sold alike. */
            struct cutter cutter = {run,  design,   design->pattern,
                                    plan, &choices, amounts_only};
            plan_one(&cutter, i, sewn->quilts.count);
            if (run->brief && diag_count(run, DIAG_ERROR) > 0)
                return plans;
        }
    }
    return plans;
}

struct cutplans *plan_cutting(struct run *run, const struct sewn *sewn)
{
    return make_plans(run, sewn, false);
}

void note_quilting(struct cutplans *plans, const struct quilted *quilted)
{
    for (size_t i = 0; i < plans->items.count; i++)
        plans->items.items[i].quilting =
            quilting_of(quilted, plans->items.items[i].quilt);
}

/* Strips and amounts are sizes, too: where the words name a size that is none
 * without them, all is planned. */
void check_cutting(struct run *run, const struct sewn *sewn)
{
    const struct cutplans *plans = make_plans(run, sewn, true);
    if (diag_count(run, DIAG_ERROR) == 0 && !numbers_known(run, plans))
        check_numbers(run, make_plans(run, sewn, false));
}
