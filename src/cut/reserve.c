/* Lengthwise cloth keeps the reserve of its width as strips keep it of their
 * length: all is planned once more for cloth that is narrower by it, and that
 * plan is taken where it is no more cloth as sold. Read next: strips.c. */
#include <string.h>

#include "cutter.h"

/* Is it wider than this, whichever way it may lie? Such a piece takes the width
 * that there is: a strip to be joined, or a panel of the backing. */
static bool takes_width(const struct cut_item *item, struct rational width)
{
    return rational_compare(item->width, width) > 0 &&
           (!item->turns || rational_compare(item->height, width) > 0);
}

/* The same pieces on the narrower cloth, of which nothing is laid yet; those
 * that take all of the width are told as if they fitted. */
static struct fabric_plan narrower(struct arena *arena,
                                   const struct fabric_plan *plan)
{
    struct fabric_plan narrow = *plan;
    narrow.strip_length = rational_sub(plan->strip_length, plan->reserve);
    narrow.reserve = rational_whole(0);
    narrow.sheets.items = NULL;
    narrow.sheets.count = narrow.sheets.capacity = 0;
    narrow.items.items =
        ARENA_ARRAY(arena, struct cut_item, plan->items.count + 1);
    narrow.items.capacity = plan->items.count + 1;
    memcpy(narrow.items.items, plan->items.items,
           plan->items.count * sizeof *plan->items.items);
    for (size_t i = 0; i < narrow.items.count; i++) {
        struct cut_item *item = &narrow.items.items[i];
        if (takes_width(item, narrow.strip_length)) {
            item->width = narrow.strip_length;
            item->turns = false;
        }
    }
    return narrow;
}

/* The pieces that were told narrower, as they are. Binding that is cut along
 * the cloth in their place has another size. */
static void restore_items(const struct fabric_plan *plan,
                          struct fabric_plan *narrow)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        struct cut_item *item = &narrow->items.items[i];
        if (!takes_width(&plan->items.items[i], narrow->strip_length) ||
            !rational_equal(item->width, narrow->strip_length))
            continue;
        item->width = plan->items.items[i].width;
        item->turns = plan->items.items[i].turns;
    }
}

/* A length of the whole cloth, its pieces where they were. */
static struct sheet widened(struct arena *arena,
                            const struct fabric_plan *narrow,
                            const struct sheet *sheet, struct rational width)
{
    struct sheet wide = *sheet;
    wide.width = width;
    wide.used = rational_whole(0);
    wide.strips.items = ARENA_ARRAY(arena, struct strip, sheet->strips.count);
    for (size_t i = 0; i < sheet->strips.count; i++) {
        struct strip *strip = &wide.strips.items[i];
        *strip = sheet->strips.items[i];
        struct strip_cut *cut = ARENA_NEW(arena, struct strip_cut);
        *cut = strip->cuts.items[0];
        cut->across = narrow->items.items[cut->item].width;
        strip->cuts.items = cut;
        settle_strip(strip);
        wide.used = rational_add(
            wide.used, rational_times(strip->height, (int64_t)strip->repeat));
    }
    return wide;
}

/* A way for the narrower cloth as one for the whole: the reserve stays beside
 * the pieces that lie lengthwise, in the rest of them. */
static void widen_way(struct arena *arena, const struct fabric_plan *plan,
                      struct way *way)
{
    struct fabric_plan *narrow = &way->plan;
    restore_items(plan, narrow);
    narrow->strip_length = plan->strip_length;
    struct sheet *sheets =
        ARENA_ARRAY(arena, struct sheet, narrow->sheets.count + 1);
    for (size_t i = 0; i < narrow->sheets.count; i++)
        sheets[i] = widened(arena, narrow, &narrow->sheets.items[i],
                            plan->strip_length);
    narrow->sheets.items = sheets;
    for (size_t i = 0; i < way->filling.rests.count; i++) {
        struct sheet *rest = &way->filling.rests.items[i];
        if (!rest->foot)
            rest->width = rational_add(rest->width, plan->reserve);
    }
}

/* Does the lengthwise cloth leave the reserve, with what is cut beside it? */
static bool keeps_width(const struct way *way, struct rational reserve)
{
    for (size_t i = 0; i < way->plan.sheets.count; i++) {
        const struct rational spare =
            width_spare(&way->plan.sheets.items[i], way->filling.rests.items,
                        way->filling.rests.count);
        if (rational_known(spare) && rational_compare(spare, reserve) < 0)
            return false;
    }
    return true;
}

/* A piece that takes the width only when it is turned cannot be told narrower:
 * it is not turned back. */
static bool turns_to_fit(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->items.count; i++)
        if (rational_compare(plan->items.items[i].width, plan->strip_length) >
            0)
            return true;
    return false;
}

/* The way for the narrower cloth. ensures: false where a piece does not fit. */
static bool start_narrow(struct cutter *cutter, const struct fabric_plan *plan,
                         struct way *way)
{
    struct fabric_plan narrow = narrower(cutter->run->arena, plan);
    if (turns_to_fit(plan) || !plan_lengthwise(cutter, &narrow))
        return false;
    *way = start_way(cutter->run->arena, &narrow);
    if (!fill_apart(cutter, way))
        return false;
    plan_jointly(cutter, way);
    return true;
}

bool keep_width_reserve(struct cutter *cutter, const struct fabric_plan *plan,
                        struct way *way, struct rational *eased)
{
    struct way kept;
    const bool asked = rational_sign(plan->reserve) > 0 &&
                       rational_compare(plan->reserve, plan->strip_length) < 0;
    const bool fits = asked && start_narrow(cutter, plan, &kept);
    *eased = rational_unknown();
    if (fits &&
        rational_compare(kept.filling.bought, way->filling.bought) <= 0) {
        settle_way(cutter, &kept);
        widen_way(cutter->run->arena, plan, &kept);
        *way = kept;
        return true;
    }
    settle_way(cutter, way);
    if (!asked || keeps_width(way, plan->reserve))
        return true;
    if (fits)
        *eased = kept.filling.bought;
    return false;
}
