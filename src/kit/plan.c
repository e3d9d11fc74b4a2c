/* An order becomes kits: which cloths, what each kit holds, what is cut of each
 * cloth, from which rolls, and what that costs. Each step reads what those
 * before it have made. Read next: cloths.c, contents.c, rolls.c. */
#include "planner.h"

#include <stdlib.h>
#include <string.h>

#include "trade.h"

/* Work for all cloths of an order together: some seconds at the worst. Most
 * cloths take a thousandth of their share. */
#define ORDER_WORK UINT64_C(6000000000)
#define LEAST_WORK UINT64_C(4000000)

/* An order of the command line has no source of its own to point into. */
struct span line_span(const struct order_line *line, enum attribute_id id)
{
    return line->element == NULL ? (struct span){0, 0}
                                 : value_span(line->element, id);
}

/* At the value that is wrong, or at the element where it lacks. */
struct span cloth_span(const struct order_cloth *cloth, enum attribute_id id)
{
    return value_span(cloth->element, id);
}

/* With its unit, as an order and its patterns may differ in that. */
const char *told_length(const struct planner *planner, struct rational length)
{
    return arena_printf(
        planner->arena, "%s %s",
        length_plain(planner->arena, length, planner->order->units),
        length_unit_name(planner->order->units));
}

/* As the shop calls it. */
const char *told_cloth(const struct planner *planner,
                       const struct kits_cloth *cloth)
{
    return quoted(planner->arena,
                  cloth->code[0] != '\0' ? cloth->code : cloth->name);
}

/* Lengths of one cloth become whole numbers by it. Held below 2^31, so that
 * sums of them stay within 64 bits. */
int64_t common_denominator(int64_t so_far, struct rational value)
{
    if (so_far == 0 || !rational_is_fraction(value))
        return 0;
    const int64_t factor = value.den / whole_common_divisor(so_far, value.den);
    return so_far > INT32_MAX / factor ? 0 : so_far * factor;
}

/* Exact, where the denominator is one of the value. */
int64_t in_units(struct rational value, int64_t denominator)
{
    return rational_floor(rational_times(value, denominator));
}

/* Lengths of trade in the units of the order: a yard is 36 in or 91.44 cm
 * exactly. */
struct rational sold_step(const struct order *order, enum order_sold sold,
                          struct rational bolt)
{
    const struct rational yard = length_factor(UNIT_YD, order->units);
    const struct rational meter = length_factor(UNIT_M, order->units);
    switch (sold) {
    case SELL_BOLT:
        return bolt;
    case SELL_YARD:
        return yard;
    case SELL_HALF_YARD:
        return rational_div(yard, rational_whole(2));
    case SELL_QUARTER_YARD:
        return rational_div(yard, rational_whole(4));
    case SELL_METER:
        return meter;
    case SELL_TENTH_METER:
        return rational_div(meter, rational_whole(10));
    case SELL_FAT_QUARTER:
    case SELL_PIECE:
        break;
    }
    return rational_whole(0);
}

/* ---- in which order cloth is fetched ---- */

/* qsort tells no context, so the texts stand with the index. */
struct pick {
    const struct kits_cloth *cloth;
    size_t index;
};

/* As hands walk along the shelves; equal ones stay in the order of the
 * lines. */
static int by_shelf(const void *a, const void *b)
{
    const struct pick *one = a, *other = b;
    const int shelf = strcmp(one->cloth->shelf, other->cloth->shelf);
    const int code = strcmp(one->cloth->code, other->cloth->code);
    const int name = strcmp(one->cloth->name, other->cloth->name);
    if (shelf != 0 || code != 0 || name != 0)
        return shelf != 0 ? shelf : code != 0 ? code : name;
    return one->index < other->index ? -1 : 1;
}

/* Only indexes are sorted, as contents point to cloths by theirs. */
static void sort_picks(struct planner *planner)
{
    const size_t count = planner->kits->cloths.count;
    struct pick *picks = ARENA_ARRAY(planner->arena, struct pick, count);
    size_t *sorted = ARENA_ARRAY(planner->arena, size_t, count);
    for (size_t i = 0; i < count; i++)
        picks[i] = (struct pick){&planner->kits->cloths.items[i], i};
    if (count > 1)
        qsort(picks, count, sizeof *picks, by_shelf);
    for (size_t i = 0; i < count; i++)
        sorted[i] = picks[i].index;
    planner->kits->picks = sorted;
}

/* ---- all of it ---- */

/* What is cut of one cloth, and where it comes from. Fat quarters are cut from
 * lengths, so they come before those are laid on rolls. */
static void plan_cloth(struct planner *planner, size_t cloth, uint64_t work)
{
    plan_pieces(planner, cloth);
    plan_strips(planner, cloth, work);
    add_spare(planner, cloth);
    plan_rolls(planner, cloth, work);
    if (diag_count(planner->run, DIAG_ERROR) > 0)
        return;
    fill_ledger(planner, cloth);
    price_cloth(planner, cloth);
}

/* An error ends the planning; warnings do not. */
static bool failed(const struct planner *planner)
{
    return diag_count(planner->run, DIAG_ERROR) > 0;
}

/* All that can be told of cloths is told before any of them is planned. */
struct kits *plan_kits(struct run *run, const struct order *order,
                       const struct kit_facts *const *facts)
{
    struct planner planner = {.run = run,
                              .arena = run->arena,
                              .order = order,
                              .facts = facts,
                              .kits = ARENA_NEW(run->arena, struct kits)};
    struct kits *kits = planner.kits;
    kits->order = order;
    kits->lines = ARENA_ARRAY(run->arena, struct kits_line, order->lines.count);
    for (size_t i = 0; i < order->lines.count; i++) {
        kits->lines[i].asked = &order->lines.items[i];
        kits->lines[i].facts = facts[i];
        kits->kit_count += order->lines.items[i].kits;
    }
    fill_contents(&planner);
    check_widths(&planner);
    check_stock(&planner);
    if (failed(&planner))
        return NULL;
    const uint64_t share =
        ORDER_WORK / (kits->cloths.count > 0 ? kits->cloths.count : 1);
    for (size_t i = 0; i < kits->cloths.count; i++)
        plan_cloth(&planner, i, share < LEAST_WORK ? LEAST_WORK : share);
    if (failed(&planner))
        return NULL;
    price_lines(&planner);
    weigh_lines(&planner);
    sort_picks(&planner);
    return failed(&planner) ? NULL : kits;
}
