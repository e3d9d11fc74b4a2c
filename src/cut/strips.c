/* First fit, highest first: each piece goes into the first strip of its height
 * that has room, else into a new one. Not the best packing, but one that a
 * person can follow with a ruler: strips of one height, each cut from the left.
 * cutplan_holds proves the result apart from how it was found. Read next:
 * book/cutting.c, which draws it. */
#include "cutter.h"

/* How many `length`s lie in `room`; 0 where none does. */
static size_t fit_count(struct rational room, struct rational length)
{
    const struct rational fits = rational_div(room, length);
    return rational_known(fits) && rational_sign(fits) > 0
               ? (size_t)rational_floor(fits)
               : 0;
}

/* Height of cloth that `item` takes when `along` lies along the strip. unknown
 * where it does not fit at all. */
static struct rational cloth_taken(const struct fabric_plan *plan,
                                   const struct cut_item *item,
                                   struct rational along,
                                   struct rational height)
{
    const size_t fits = fit_count(plan->strip_length, along);
    if (fits == 0 || (rational_sign(plan->sheet_height) > 0 &&
                      rational_compare(height, plan->sheet_height) > 0))
        return rational_unknown();
    return rational_times(height, (int64_t)((item->count + fits - 1) / fits));
}

/* Puts the longer or the shorter side along the strip, whichever takes less
 * cloth; the longer one if that is equal (fewer, lower strips to square up). A
 * one-way print keeps its width along the strip. Joined strips and one-way
 * prints are not turned. ensures: false where no way fits. */
static bool lay_item(const struct cutter *cutter,
                     const struct fabric_plan *plan, struct cut_item *item)
{
    const bool fixed =
        item->joined || cutter->design->fabrics.items[item->fabric].one_way;
    const struct rational lengths[2] = {
        rational_max(item->width, item->height),
        rational_min(item->width, item->height)};
    const struct rational as_is =
        cloth_taken(plan, item, item->width, item->height);
    if (fixed)
        return rational_known(as_is);
    const struct rational longer =
        cloth_taken(plan, item, lengths[0], lengths[1]);
    const struct rational shorter =
        cloth_taken(plan, item, lengths[1], lengths[0]);
    const bool use_shorter =
        rational_known(shorter) &&
        (!rational_known(longer) || rational_compare(shorter, longer) < 0);
    item->width = use_shorter ? lengths[1] : lengths[0];
    item->height = use_shorter ? lengths[0] : lengths[1];
    return rational_known(longer) || rational_known(shorter);
}

/* Highest first, then longest; the order of the tables breaks ties, so that
 * plans are the same on every machine. */
static bool comes_before(const struct fabric_plan *plan, size_t a, size_t b)
{
    const struct cut_item *x = &plan->items.items[a],
                          *y = &plan->items.items[b];
    int order = rational_compare(x->height, y->height);
    if (order == 0)
        order = rational_compare(x->width, y->width);
    return order != 0 ? order > 0 : a < b;
}

/* ensures: indexes of all items, first to be placed first. Insertion, as a
 * fabric has a few dozen items and mostly comes sorted by label. */
static size_t *sorted_items(struct cutter *cutter,
                            const struct fabric_plan *plan)
{
    size_t *order =
        ARENA_ARRAY(cutter->run->arena, size_t, plan->items.count + 1);
    for (size_t i = 0; i < plan->items.count; i++) {
        size_t k = i;
        for (; k > 0 && comes_before(plan, i, order[k - 1]); k--)
            order[k] = order[k - 1];
        order[k] = i;
    }
    return order;
}

/* One more cut in a strip, behind the others. */
static void put(struct cutter *cutter, struct strip *strip,
                const struct cut_item *item, size_t index, size_t count)
{
    struct strip_cut *cut = LIST_ADD(cutter->run->arena, &strip->cuts);
    *cut = (struct strip_cut){index, count};
    strip->used =
        rational_add(strip->used, rational_times(item->width, (int64_t)count));
}

/* Room in strips that are open already. Gives how many pieces are left. Strips
 * that stand for several are full. */
static size_t fill_open(struct cutter *cutter, struct fabric_plan *plan,
                        size_t index)
{
    const struct cut_item *item = &plan->items.items[index];
    size_t left = item->count;
    for (size_t i = 0; i < plan->strips.count && left > 0; i++) {
        struct strip *strip = &plan->strips.items[i];
        if (strip->repeat > 1 || !rational_equal(strip->height, item->height))
            continue;
        const size_t fits = fit_count(
            rational_sub(plan->strip_length, strip->used), item->width);
        const size_t count = fits < left ? fits : left;
        if (count > 0)
            put(cutter, strip, item, index, count);
        left -= count;
    }
    return left;
}

/* `repeat` strips with `each` of the item. */
static void add_strips(struct cutter *cutter, struct fabric_plan *plan,
                       size_t index, size_t each, size_t repeat)
{
    if (each == 0 || repeat == 0)
        return;
    const struct cut_item *item = &plan->items.items[index];
    struct strip *strip = LIST_ADD(cutter->run->arena, &plan->strips);
    strip->height = item->height;
    strip->used = rational_whole(0);
    strip->repeat = repeat;
    put(cutter, strip, item, index, each);
}

/* Full strips whose tail some later piece could use stay single, so that first
 * fit sees them; the rest is told as one line. `shortest` is the shortest piece
 * to come of this height, or unknown. */
static void place_item(struct cutter *cutter, struct fabric_plan *plan,
                       size_t index, struct rational shortest)
{
    const struct cut_item *item = &plan->items.items[index];
    const size_t left = fill_open(cutter, plan, index);
    const size_t fits = fit_count(plan->strip_length, item->width);
    const struct rational tail = rational_sub(
        plan->strip_length, rational_times(item->width, (int64_t)fits));
    const size_t full = left / fits;
    if (rational_known(shortest) && rational_compare(shortest, tail) <= 0)
        for (size_t i = 0; i < full; i++)
            add_strips(cutter, plan, index, fits, 1);
    else
        add_strips(cutter, plan, index, fits, full);
    add_strips(cutter, plan, index, left % fits, 1);
}

/* The shortest piece of this height that is still to be placed. Items are
 * sorted, so it is the last of its height. Whole strips (joined ones) fit no
 * tail. */
static struct rational shortest_after(const struct fabric_plan *plan,
                                      const size_t *order, size_t at)
{
    struct rational shortest = rational_unknown();
    const struct rational height = plan->items.items[order[at]].height;
    for (size_t i = at + 1; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[order[i]];
        if (rational_equal(item->height, height) && !item->joined)
            shortest = item->width;
    }
    return shortest;
}

/* The same pieces in the same order. */
static bool same_strip(const struct strip *a, const struct strip *b)
{
    if (!rational_equal(a->height, b->height) || a->cuts.count != b->cuts.count)
        return false;
    for (size_t i = 0; i < a->cuts.count; i++)
        if (a->cuts.items[i].item != b->cuts.items[i].item ||
            a->cuts.items[i].count != b->cuts.items[i].count)
            return false;
    return true;
}

/* Only neighbors: strips of one height stand together. */
static void merge_strips(struct fabric_plan *plan)
{
    size_t kept = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        if (kept > 0 &&
            same_strip(&plan->strips.items[kept - 1], &plan->strips.items[i]))
            plan->strips.items[kept - 1].repeat += plan->strips.items[i].repeat;
        else
            plan->strips.items[kept++] = plan->strips.items[i];
    }
    plan->strips.count = kept;
}

/* reports: the piece, as it would lie, and how large the cloth is. */
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
    if (plan->bolt->fat_quarters)
        diag_note(run, d, (struct span){0, 0}, "a fat quarter here is %s x %s",
                  length_plain(run->arena, plan->sheet_height, units),
                  length_plain(run->arena, plan->strip_length, units));
    else
        diag_note(run, d, (struct span){0, 0}, "the cloth is %s wide",
                  length_plain(run->arena, plan->strip_length, units));
    diag_help(run, d,
              plan->bolt->fat_quarters ? "sell this cloth as sold=\"yardage\""
                                       : "name a wider cloth, or piece it");
}

/* Strips into sheets: first fit, highest first. Each strip of a line goes its
 * own way; sheets that come out alike are told as one. */
static void plan_sheets(struct cutter *cutter, struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        for (size_t n = 0; n < strip->repeat; n++) {
            /* The first sheet that has room in height; cuts across it do not
             * matter, as every strip runs its whole width. */
            size_t k = 0;
            while (k < plan->sheets.count &&
                   rational_compare(
                       rational_add(plan->sheets.items[k].used, strip->height),
                       plan->sheet_height) > 0)
                k++;
            struct sheet *sheet =
                k < plan->sheets.count
                    ? &plan->sheets.items[k]
                    : LIST_ADD(cutter->run->arena, &plan->sheets);
            if (sheet->strips.count == 0) {
                sheet->used = rational_whole(0);
                sheet->repeat = 1;
            }
            *LIST_ADD(cutter->run->arena, &sheet->strips) = i;
            sheet->used = rational_add(sheet->used, strip->height);
        }
    }
}

/* By index of strip: strips that are alike were merged before. */
static bool same_sheet(const struct sheet *a, const struct sheet *b)
{
    if (a->strips.count != b->strips.count)
        return false;
    for (size_t i = 0; i < a->strips.count; i++)
        if (a->strips.items[i] != b->strips.items[i])
            return false;
    return true;
}

/* As merge_strips. */
static void merge_sheets(struct fabric_plan *plan)
{
    size_t kept = 0;
    for (size_t i = 0; i < plan->sheets.count; i++) {
        if (kept > 0 &&
            same_sheet(&plan->sheets.items[kept - 1], &plan->sheets.items[i]))
            plan->sheets.items[kept - 1].repeat++;
        else
            plan->sheets.items[kept++] = plan->sheets.items[i];
    }
    plan->sheets.count = kept;
}

/* Heights are settled first, for all items: sorting needs them. */
bool plan_strips(struct cutter *cutter, struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        struct cut_item *item = &plan->items.items[i];
        if (!lay_item(cutter, plan, item) || item->count == 0) {
            report_too_wide(cutter, plan, item);
            return false;
        }
    }
    const size_t *order = sorted_items(cutter, plan);
    for (size_t i = 0; i < plan->items.count; i++)
        place_item(cutter, plan, order[i], shortest_after(plan, order, i));
    merge_strips(plan);
    if (rational_sign(plan->sheet_height) > 0) {
        plan_sheets(cutter, plan);
        merge_sheets(plan);
    }
    return true;
}

/* Every strip lies in one sheet, and no sheet is overfull. */
static bool sheets_hold(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        size_t placed = 0;
        for (size_t k = 0; k < plan->sheets.count; k++)
            for (size_t n = 0; n < plan->sheets.items[k].strips.count; n++)
                if (plan->sheets.items[k].strips.items[n] == i)
                    placed += plan->sheets.items[k].repeat;
        if (placed != plan->strips.items[i].repeat)
            return false;
    }
    for (size_t k = 0; k < plan->sheets.count; k++)
        if (rational_compare(plan->sheets.items[k].used, plan->sheet_height) >
            0)
            return false;
    return true;
}

/* Three sums: pieces placed, lengths used, heights equal; then sheets. */
bool cutplan_holds(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        size_t placed = 0;
        for (size_t k = 0; k < plan->strips.count; k++)
            for (size_t c = 0; c < plan->strips.items[k].cuts.count; c++)
                if (plan->strips.items[k].cuts.items[c].item == i)
                    placed += plan->strips.items[k].cuts.items[c].count *
                              plan->strips.items[k].repeat;
        if (placed != plan->items.items[i].count)
            return false;
    }
    /* Lengths are added anew rather than taken from `used`, which the planner
     * itself kept. */
    for (size_t k = 0; k < plan->strips.count; k++) {
        const struct strip *strip = &plan->strips.items[k];
        struct rational used = rational_whole(0);
        for (size_t c = 0; c < strip->cuts.count; c++) {
            const struct cut_item *item =
                &plan->items.items[strip->cuts.items[c].item];
            if (!rational_equal(item->height, strip->height))
                return false;
            used = rational_add(
                used, rational_times(item->width,
                                     (int64_t)strip->cuts.items[c].count));
        }
        if (rational_compare(used, plan->strip_length) > 0)
            return false;
    }
    return rational_sign(plan->sheet_height) == 0 || sheets_hold(plan);
}
