/* Lengthwise cloth: pieces that run along the selvage stand side by side in
 * lengths of the cloth. Read next: rests.c, what stays beside them. */
#include "cutter.h"

/* A high strip of the roll is a length of cloth: its pieces stand in it side by
 * side, each as long as it is. */
static void add_lengthwise(struct cutter *cutter, struct fabric_plan *plan,
                           const struct strip *tall, size_t repeat, bool last)
{
    struct arena *arena = cutter->run->arena;
    struct sheet *sheet = LIST_ADD(arena, &plan->sheets);
    sheet->kind = SHEET_LENGTHWISE;
    sheet->down = true;
    sheet->width = plan->strip_length;
    sheet->height = sheet->used = rational_whole(0);
    sheet->repeat = repeat;
    const struct strip_cut *cuts = last ? tall->last.items : tall->cuts.items;
    const size_t count = last ? tall->last.count : tall->cuts.count;
    for (size_t i = 0; i < count; i++) {
        struct strip *strip = LIST_ADD(arena, &sheet->strips);
        strip->repeat = cuts[i].count;
        *LIST_ADD(arena, &strip->cuts) = (struct strip_cut){
            cuts[i].item, 1, 1, cuts[i].across, cuts[i].along};
        settle_strip(strip);
        sheet->used = rational_add(
            sheet->used, rational_times(strip->height, (int64_t)strip->repeat));
        sheet->height = rational_max(sheet->height, cuts[i].across);
    }
}

/* ensures: the length of cloth that lengthwise pieces take. False where one is
 * too wide. Shorter pieces may stand beside longer ones: borders of one quilt
 * differ little, and a length of its own for each would cost far more. */
bool plan_lengthwise(struct cutter *cutter, struct fabric_plan *plan)
{
    struct arena *arena = cutter->run->arena;
    size_t *wanted = ARENA_ARRAY(arena, size_t, plan->items.count + 1);
    const struct step_list list = steps_of(arena, plan, true);
    const struct roll_problem problem = {
        .width = rational_floor(rational_div(plan->strip_length, list.step)),
        .trimmed = true,
        .sizes = list.sizes,
        .count = list.count};
    if (list.count == 0)
        return true;
    const struct roll_plan *laid =
        plan_roll(arena, &problem, roll_work(&problem));
    if (laid == NULL || !roll_plan_holds(&problem, laid))
        return false;
    struct fabric_plan tall = *plan;
    for (size_t i = 0; i < laid->strips.count; i++)
        *LIST_ADD(arena, &tall.strips) =
            strip_of(arena, plan, &list, &laid->strips.items[i]);
    for (size_t i = 0; i < list.count; i++)
        wanted[list.items[i]] = list.sizes[i].demand;
    drop_surplus(arena, &tall, wanted);
    settle_strips(&tall);
    for (size_t i = 0; i < tall.strips.count; i++) {
        const struct strip *strip = &tall.strips.items[i];
        const size_t part = strip->last.count > 0 ? 1 : 0;
        if (strip->repeat > part)
            add_lengthwise(cutter, plan, strip, strip->repeat - part, false);
        if (part > 0)
            add_lengthwise(cutter, plan, strip, 1, true);
    }
    return true;
}

/* The length that is cut off the cloth besides strips across it. */
struct rational lengthwise_length(const struct fabric_plan *plan)
{
    struct rational length = rational_whole(0);
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_LENGTHWISE)
            length = rational_add(
                length, rational_times(plan->sheets.items[i].height,
                                       (int64_t)plan->sheets.items[i].repeat));
    return length;
}
