/* Lengthwise pieces, their rests, binding and strips planned together. Each by
 * itself is laid in the least length; together, another layout may leave rests
 * that serve better, and binding may be cut along the selvage beside a border
 * in place of whole strips across. Such ways are tried shortly, and one that
 * takes less cloth as sold is planned to the end; so the joint plan is never
 * worse. Read next: plan/leftovers.c. */
#include <string.h>

#include "cutter.h"

struct search {
    struct cutter *cutter;
    struct way *best;
    struct rational
        least;     /* nothing less can do: of all pieces without a gap */
    size_t trials; /* that are left */
};

/* Trials are short: a part of what one list by itself is given. */
enum { MOST_TRIALS = 64, PART_OF_WORK = 16 };

/* All pieces side by side, as if nothing were left. Of binding no more than its
 * length must be there, whatever it is joined from. */
static struct rational area_bought(const struct cutter *cutter,
                                   const struct fabric_plan *plan)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        area = rational_add(
            area, item->use == CUT_BINDING
                      ? rational_mul(item->height, item->lengths.items[0])
                      : rational_times(rational_mul(item->width, item->height),
                                       (int64_t)item->count));
    }
    return sold_length(
        cutter,
        length_to_buy(plan->bolt,
                      rational_add(plan->allowance,
                                   rational_div(area, plan->strip_length))));
}

/* Until the trials are used up or the bound is met, which no plan can beat.
 * Amounts are compared as they are bought: less cloth that rounds to the same
 * amount is no gain. */
static bool searching(const struct search *search)
{
    return search->trials > 0 &&
           rational_compare(search->best->filling.bought, search->least) > 0;
}

/* With and without feet, in both kinds of strips. */
static void try_plan(struct search *search, const struct fabric_plan *plan)
{
    struct arena *arena = search->cutter->run->arena;
    for (int rule = 0; rule < 4 && searching(search); rule++) {
        struct arena *scratch = arena_create();
        struct way way = start_way(scratch, plan);
        const struct rest_rule how = {.feet = rule % 2 == 0,
                                      .trimmed = rule < 2,
                                      .work = roll_work(&way.problem) /
                                              PART_OF_WORK};
        const struct rational bought =
            probe_way(search->cutter, scratch, &way, how);
        arena_destroy(scratch);
        search->trials--;
        if (!rational_known(bought) ||
            rational_compare(bought, search->best->filling.bought) >= 0)
            continue;
        way = start_way(arena, plan);
        if (fill_way(search->cutter, &way, how) &&
            rational_compare(way.filling.bought, search->best->filling.bought) <
                0)
            *search->best = way;
    }
}

/* ---- binding beside lengthwise pieces ---- */

/* The item of whole strips of binding that may be cut along the cloth, too: no
 * print forbids it. `count` where there is none. */
static size_t binding_of(const struct cutter *cutter,
                         const struct fabric_plan *plan)
{
    size_t i = 0;
    while (i < plan->items.count &&
           (plan->items.items[i].use != CUT_BINDING ||
            !plan->items.items[i].joined ||
            cutter->design->fabrics.items[plan->fabric].one_way))
        i++;
    return i;
}

/* Binding is labelled last, so the next number is free. */
static const char *next_label(struct arena *arena, const char *label)
{
    const size_t letters = strcspn(label, "0123456789");
    size_t number = 0;
    for (const char *c = label + letters; *c != '\0'; c++)
        number = number * 10 + (size_t)(*c - '0');
    return arena_printf(arena, "%.*s%zu", (int)letters, label, number + 1);
}

/* How many strips of this length are to be joined to `whole` ones. Of n strips
 * all joins but one take their width. */
static int64_t lengthwise_strips(const struct cut_item *binding,
                                 struct rational length, size_t whole)
{
    const struct rational missing = rational_sub(
        rational_sub(binding->lengths.items[0], binding->height),
        rational_times(rational_sub(binding->width, binding->height),
                       (int64_t)whole));
    return rational_ceil(
        rational_div(missing, rational_sub(length, binding->height)));
}

/* A trial adds items and sheets, so these lists are copied; what they point to
 * is shared, as no trial changes it. */
static void copy_plan(struct arena *arena, const struct fabric_plan *from,
                      struct fabric_plan *to)
{
    *to = *from;
    to->items.items =
        ARENA_ARRAY(arena, struct cut_item, from->items.count + 1);
    to->items.capacity = from->items.count + 1;
    memcpy(to->items.items, from->items.items,
           from->items.count * sizeof *from->items.items);
    to->sheets.items = ARENA_ARRAY(arena, struct sheet, from->sheets.count + 1);
    to->sheets.capacity = from->sheets.count + 1;
    memcpy(to->sheets.items, from->sheets.items,
           from->sheets.count * sizeof *from->sheets.items);
}

/* Strips along the cloth in one of its lengths in place of strips across: there
 * stay `whole` of them. ensures: false where they do not fit. */
static bool lay_binding(struct arena *arena, struct fabric_plan *plan,
                        size_t index, size_t length, size_t whole)
{
    struct sheet *sheet = &plan->sheets.items[length];
    struct cut_item *binding = &plan->items.items[index];
    if (sheet->repeat > 1 ||
        rational_compare(sheet->height, binding->height) <= 0)
        return false;
    const int64_t strips = lengthwise_strips(binding, sheet->height, whole);
    const struct rational used =
        rational_add(sheet->used, rational_times(binding->height, strips));
    if (strips <= 0 || rational_compare(used, sheet->width) > 0)
        return false;
    struct cut_item along = *binding;
    along.count = (size_t)strips;
    along.width = binding->height;
    along.height = sheet->height;
    along.joined = false;
    along.lengthwise = true;
    binding->count = whole;
    size_t item = index;
    if (whole > 0) {
        along.label = next_label(arena, along.label);
        along.lengths.count = 0;
        item = plan->items.count;
        *LIST_ADD(arena, &plan->items) = along;
    } else {
        *binding = along;
    }
    const struct strip *before = sheet->strips.items;
    const size_t count = sheet->strips.count;
    sheet->strips.items = NULL;
    sheet->strips.count = sheet->strips.capacity = 0;
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(arena, &sheet->strips) = before[i];
    struct strip *strip = LIST_ADD(arena, &sheet->strips);
    strip->repeat = (size_t)strips;
    *LIST_ADD(arena, &strip->cuts) =
        (struct strip_cut){item, 1, 1, along.height, along.width};
    settle_strip(strip);
    sheet->used = used;
    return true;
}

/* Every number of whole strips, in every length of the cloth. */
static void try_binding(struct search *search, const struct fabric_plan *plan)
{
    struct arena *arena = search->cutter->run->arena;
    const size_t binding = binding_of(search->cutter, plan);
    if (binding == plan->items.count)
        return;
    for (size_t whole = 0; whole < plan->items.items[binding].count; whole++)
        for (size_t i = 0; i < plan->sheets.count && searching(search); i++) {
            struct fabric_plan split;
            copy_plan(arena, plan, &split);
            if (lay_binding(arena, &split, binding, i, whole))
                try_plan(search, &split);
        }
}

/* requires: `way` holds the plan of each by itself. The same layout with
 * binding beside it is tried first, then other layouts of the lengthwise
 * pieces. ensures: `way` takes no more cloth than before. */
void plan_jointly(struct cutter *cutter, struct way *way)
{
    struct search search = {cutter, way, area_bought(cutter, &way->plan),
                            MOST_TRIALS};
    const struct fabric_plan apart = way->plan;
    if (planned_simply(cutter, &way->problem) || !searching(&search))
        return;
    try_plan(&search, &apart);
    try_binding(&search, &apart);
    const struct layouts others = other_layouts(cutter->run->arena, &apart);
    for (size_t i = 0; i < others.list.count && searching(&search); i++) {
        struct fabric_plan plan = apart;
        plan.sheets.items = others.list.items[i].sheets.items;
        plan.sheets.count = plan.sheets.capacity =
            others.list.items[i].sheets.count;
        try_plan(&search, &plan);
        try_binding(&search, &plan);
    }
}
