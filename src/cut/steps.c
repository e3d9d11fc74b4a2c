/* Exact sizes as whole steps, for the planners: the largest step that divides
 * every size, so nothing is rounded; only sizes that would need steps finer
 * than the planners' tables can hold are rounded, and then so that no piece
 * comes out short. */
#include "cutter.h"

struct rational common_step(struct rational a, struct rational b)
{
    if (!rational_is_fraction(a) || !rational_is_fraction(b))
        return rational_unknown();
    const struct rational left = rational_times(rational_whole(a.num), b.den);
    const struct rational right = rational_times(rational_whole(b.num), a.den);
    if (!rational_is_fraction(left) || !rational_is_fraction(right))
        return rational_unknown();
    return rational_div(
        rational_whole(whole_common_divisor(left.num, right.num)),
        rational_times(rational_whole(a.den), b.den));
}

/* Coarser where the cloth would have too many steps, or where no exact step
 * can be told. */
static struct rational step_for(const struct fabric_plan *plan)
{
    struct rational step = plan->strip_length;
    if (rational_sign(plan->sheet_height) > 0)
        step = common_step(step, plan->sheet_height);
    for (size_t i = 0; i < plan->items.count; i++) {
        step = common_step(step, plan->items.items[i].width);
        step = common_step(step, plan->items.items[i].height);
    }
    const struct rational least =
        rational_div(plan->strip_length, rational_whole(MOST_STEPS));
    return rational_known(step) && rational_compare(step, least) >= 0 ? step
                                                                      : least;
}

struct step_list steps_of(struct arena *arena, const struct fabric_plan *plan,
                          bool lengthwise)
{
    struct step_list list = {.step = step_for(plan)};
    list.sizes = ARENA_ARRAY(arena, struct roll_size, plan->items.count + 1);
    list.items = ARENA_ARRAY(arena, size_t, plan->items.count + 1);
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->lengthwise != lengthwise)
            continue;
        list.items[list.count] = i;
        list.sizes[list.count++] = (struct roll_size){
            .width = rational_ceil(rational_div(item->width, list.step)),
            .height = rational_ceil(rational_div(item->height, list.step)),
            .demand = item->count,
            .turns = item->turns,
            .name = item->label};
    }
    return list;
}
