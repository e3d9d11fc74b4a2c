/* Colorways mostly differ in color alone: a cloth that is sold alike, and of
 * which the same is cut for the same quilt, is planned once. Read next:
 * strips.c. */
#include "cutter.h"

/* All of a cloth that a plan depends on, but for what `struct fabric_plan`
 * holds itself. */
static bool same_bolt(const struct bolt *a, const struct bolt *b)
{
    return a->sold == b->sold && a->layers == b->layers &&
           rational_equal(a->width, b->width) &&
           rational_equal(a->selvage, b->selvage) &&
           rational_equal(a->shrinkage, b->shrinkage);
}

/* Of one quilt and fabric, so that all else of an item is the same. */
static bool same_items(const struct fabric_plan *a, const struct fabric_plan *b)
{
    if (a->items.count != b->items.count)
        return false;
    for (size_t i = 0; i < a->items.count; i++) {
        const struct cut_item *one = &a->items.items[i];
        const struct cut_item *other = &b->items.items[i];
        if (one->use != other->use || one->count != other->count ||
            one->joined != other->joined ||
            one->lengthwise != other->lengthwise ||
            !rational_equal(one->width, other->width) ||
            !rational_equal(one->height, other->height))
            return false;
    }
    return true;
}

/* As they are asked for: measured, with their items, and not yet planned. */
static bool same_cloth(const struct fabric_plan *a, const struct fabric_plan *b)
{
    return a->fabric == b->fabric && same_bolt(a->bolt, b->bolt) &&
           rational_equal(a->strip_length, b->strip_length) &&
           rational_equal(a->sheet_height, b->sheet_height) &&
           rational_equal(a->allowance, b->allowance) &&
           rational_equal(a->reserve, b->reserve) && same_items(a, b);
}

bool take_made_cloth(const struct cutter *cutter, struct fabric_plan *plan)
{
    for (size_t i = 0; i < cutter->choices->cloths.count; i++) {
        const struct made_cloth *made = &cutter->choices->cloths.items[i];
        if (made->quilt != cutter->plan->quilt ||
            made->amount != cutter->amounts_only ||
            (made->amount && asks_amount(&made->asked) != asks_amount(plan)) ||
            !same_cloth(&made->asked, plan))
            continue;
        const struct bolt *bolt = plan->bolt;
        *plan = made->plan;
        plan->bolt = bolt;
        return true;
    }
    return false;
}

void keep_made_cloth(struct cutter *cutter, const struct fabric_plan *asked,
                     const struct fabric_plan *plan)
{
    *LIST_ADD(cutter->run->arena, &cutter->choices->cloths) =
        (struct made_cloth){cutter->plan->quilt, cutter->amounts_only, *asked,
                            *plan};
}
