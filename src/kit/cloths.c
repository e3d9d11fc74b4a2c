/* The cloths of an order: what several patterns call by one code is one cloth,
 * bought and cut together; without a code, one of one name and color. What the
 * order says of it outweighs what patterns say. Read next: contents.c. */
#include "planner.h"

#include <string.h>

#include "trade.h"

/* ---- what the order says ---- */

/* A code is the shop's own word, so where there is one nothing else is
 * compared. Without a color the order means every cloth of that name. */
static bool is_of_fabric(const struct order_cloth *cloth,
                         const struct kit_fabric *fabric)
{
    if (fabric->code[0] != '\0')
        return strcmp(cloth->code, fabric->code) == 0;
    return cloth->code[0] == '\0' && strcmp(cloth->name, fabric->name) == 0 &&
           (cloth->color < 0 || cloth->color == fabric->color);
}

/* The first that fits: a second one of the same code was an error. */
static const struct order_cloth *stated_of(const struct order *order,
                                           const struct kit_fabric *fabric)
{
    for (size_t i = 0; i < order->cloths.count; i++)
        if (is_of_fabric(&order->cloths.items[i], fabric))
            return &order->cloths.items[i];
    return NULL;
}

/* Stock is named as cloths are: by the code, or by the name where there is
 * none. */
bool is_stock_of(const char *of, const struct kits_cloth *cloth)
{
    return strcmp(of, cloth->code[0] != '\0' ? cloth->code : cloth->name) == 0;
}

/* ---- prices ---- */

/* The price of one unit of length, as the pattern has it: of a yard or meter.
 */
static struct rational pattern_price(const struct planner *planner, size_t line,
                                     const struct kit_fabric *fabric)
{
    const enum length_unit shop = trade_shop_unit(planner->facts[line]->units);
    return fabric->sold != SOLD_YARDAGE
               ? rational_unknown()
               : rational_div(fabric->price,
                              length_factor(shop, planner->order->units));
}

/* How it is sold, and for how much. A price that the order does not state is
 * that of the pattern. */
static void fill_price(struct planner *planner, struct kits_cloth *cloth,
                       struct rational pattern)
{
    const struct order *order = planner->order;
    const struct order_cloth *stated = cloth->stated;
    cloth->sold = stated != NULL            ? stated->sold
                  : order->units == UNIT_CM ? SELL_METER
                                            : SELL_YARD;
    cloth->step = sold_step(order, cloth->sold,
                            stated == NULL ? rational_unknown() : stated->bolt);
    if (stated != NULL && rational_known(stated->price)) {
        cloth->price = stated->price;
        cloth->per_length = rational_div(cloth->price, cloth->step);
    } else if (!rational_known(cloth->per_length)) {
        cloth->per_length = pattern;
        cloth->price = cloth->sold == SELL_FAT_QUARTER
                           ? rational_unknown()
                           : rational_mul(pattern, cloth->step);
    }
}

/* ---- what patterns say ---- */

/* At the later line, since the first was no mistake when it was read. */
static void report_two(struct planner *planner, size_t line,
                       const struct kits_cloth *cloth,
                       const struct cloth_origin *origin, const char *what,
                       const char *first, const char *second)
{
    const struct order_line *lines = planner->order->lines.items;
    struct diagnostic *d = diag_report(
        planner->run, DIAG_KIT_CLOTH, line_span(&lines[line], ATTR_COLORWAY),
        "the cloth %s has two %s: %s and %s", told_cloth(planner, cloth), what,
        first, second);
    diag_note(planner->run, d, line_span(&lines[origin->line], ATTR_COLORWAY),
              "%s is that of this line", first);
    diag_help(planner->run, d, "one `cloth` in the order can say which holds");
}

/* As a source writes it, so that it can be looked for. */
static const char *color_text(struct arena *arena, long color)
{
    return arena_printf(arena, "#%06lx", (unsigned long)color);
}

/* reports: one code with two names, colors or prices, where the order does not
 * say which holds. */
static void compare(struct planner *planner, size_t line,
                    const struct kits_cloth *cloth,
                    const struct cloth_origin *origin,
                    const struct kit_fabric *fabric)
{
    struct arena *arena = planner->arena;
    const struct order_cloth *stated = cloth->stated;
    const struct kit_fabric *first = origin->fabric;
    const struct rational price = pattern_price(planner, line, fabric);
    if ((stated == NULL || stated->name[0] == '\0') &&
        strcmp(first->name, fabric->name) != 0)
        report_two(planner, line, cloth, origin, "names",
                   quoted(arena, first->name), quoted(arena, fabric->name));
    else if ((stated == NULL || stated->color < 0) &&
             first->color != fabric->color)
        report_two(planner, line, cloth, origin, "colors",
                   color_text(arena, first->color),
                   color_text(arena, fabric->color));
    else if ((stated == NULL || !rational_known(stated->price)) &&
             rational_known(origin->per_length) && rational_known(price) &&
             !rational_equal(origin->per_length, price))
        report_two(
            planner, line, cloth, origin, "prices",
            rational_decimal(arena, first->price, planner->order->digits),
            rational_decimal(arena, fabric->price, planner->order->digits));
}

/* ---- finding ---- */

/* Cloths without a code that the order tells by name alone are one, whatever
 * shade each pattern shows. */
static bool is_same(const struct kits_cloth *cloth,
                    const struct cloth_origin *origin,
                    const struct kit_fabric *fabric)
{
    if (fabric->code[0] != '\0')
        return strcmp(cloth->code, fabric->code) == 0;
    return cloth->code[0] == '\0' &&
           strcmp(origin->fabric->name, fabric->name) == 0 &&
           (origin->fabric->color == fabric->color ||
            (cloth->stated != NULL && is_of_fabric(cloth->stated, fabric)));
}

/* What the order says comes first. Numbers are filled in by those who look
 * at every line. */
static size_t add_cloth(struct planner *planner, size_t line,
                        const struct kit_fabric *fabric)
{
    const struct order_cloth *stated = stated_of(planner->order, fabric);
    struct kits_cloth *cloth = LIST_ADD(planner->arena, &planner->kits->cloths);
    *cloth = (struct kits_cloth){
        .stated = stated,
        .code = fabric->code,
        .name = stated != NULL && stated->name[0] != '\0' ? stated->name
                                                          : fabric->name,
        .supplier = stated == NULL ? "" : stated->supplier,
        .shelf = stated == NULL ? "" : stated->shelf,
        .fiber = stated == NULL ? "" : stated->fiber,
        .color = stated != NULL && stated->color >= 0 ? stated->color
                                                      : fabric->color,
        .width = rational_unknown(),
        .needed = rational_whole(0),
        .price = rational_unknown(),
        .per_length = rational_unknown()};
    *LIST_ADD(planner->arena, &planner->origins) =
        (struct cloth_origin){.line = line,
                              .fabric = fabric,
                              .per_length = rational_unknown(),
                              .widest_line = line};
    return planner->kits->cloths.count - 1;
}

/* Unless the order states the width, the narrowest that a pattern counts on
 * holds. */
static void narrow_down(struct planner *planner, size_t line,
                        struct kits_cloth *cloth,
                        const struct kit_fabric *fabric)
{
    const struct rational width =
        rational_mul(fabric->width, length_factor(planner->facts[line]->units,
                                                  planner->order->units));
    if (cloth->stated != NULL && rational_known(cloth->stated->width))
        cloth->width = cloth->stated->width;
    else if (!rational_known(cloth->width) ||
             rational_compare(width, cloth->width) < 0)
        cloth->width = width;
}

/* Linear: an order has some hundred cloths, and each fabric of a line asks
 * once. A cloth that was there is compared with what this pattern says. */
size_t find_cloth(struct planner *planner, size_t line,
                  const struct kit_fabric *fabric)
{
    struct kits *kits = planner->kits;
    size_t index = 0;
    while (index < kits->cloths.count &&
           !is_same(&kits->cloths.items[index], &planner->origins.items[index],
                    fabric))
        index++;
    if (index == kits->cloths.count)
        add_cloth(planner, line, fabric);
    struct kits_cloth *cloth = &kits->cloths.items[index];
    struct cloth_origin *origin = &planner->origins.items[index];
    const struct rational price = pattern_price(planner, line, fabric);
    compare(planner, line, cloth, origin, fabric);
    if (!rational_known(origin->per_length))
        origin->per_length = price;
    fill_price(planner, cloth, price);
    narrow_down(planner, line, cloth, fabric);
    return index;
}

/* ---- widths ---- */

/* Only the largest need counts; its line is kept for the message. */
void need_width(struct planner *planner, size_t cloth, size_t line,
                struct rational width)
{
    struct kits_cloth *of = &planner->kits->cloths.items[cloth];
    if (rational_compare(width, of->needed) <= 0)
        return;
    of->needed = width;
    planner->origins.items[cloth].widest_line = line;
}

/* After all lines, so that a cloth is told once, by what needs most of it. */
void check_widths(struct planner *planner)
{
    for (size_t i = 0; i < planner->kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &planner->kits->cloths.items[i];
        const struct order_line *line =
            &planner->order->lines.items[planner->origins.items[i].widest_line];
        if (rational_compare(cloth->needed, cloth->width) <= 0)
            continue;
        const bool stated =
            cloth->stated != NULL && rational_known(cloth->stated->width);
        struct diagnostic *d = diag_report(
            planner->run, DIAG_KIT_NARROW,
            stated ? cloth_span(cloth->stated, ATTR_WIDTH)
                   : line_span(line, ATTR_COLORWAY),
            "the cloth %s is %s wide, but kits need %s of it",
            told_cloth(planner, cloth), told_length(planner, cloth->width),
            told_length(planner, cloth->needed));
        diag_note(planner->run, d, line_span(line, ATTR_QUILT),
                  "`%s` is cut so wide", line->quilt);
        diag_help(planner->run, d,
                  stated ? "give the pattern's cloth this width, so that it is "
                           "planned anew"
                         : "state the width of the cloth in the order");
    }
}

/* ---- the shelf ---- */

/* A cloth that the order only describes may lie on the shelf unused. */
static bool is_known(const struct planner *planner, const char *of)
{
    for (size_t i = 0; i < planner->kits->cloths.count; i++)
        if (is_stock_of(of, &planner->kits->cloths.items[i]))
            return true;
    for (size_t i = 0; i < planner->order->cloths.count; i++) {
        const struct order_cloth *cloth = &planner->order->cloths.items[i];
        if (strcmp(of, cloth->code[0] != '\0' ? cloth->code : cloth->name) == 0)
            return true;
    }
    return false;
}

/* A shelf may hold what no kit needs, so that is no error: but a misspelt code
 * would leave a bolt lying. */
static void report_stock(struct planner *planner, const struct element *element,
                         const char *of)
{
    const size_t count = planner->kits->cloths.count;
    const char **names = ARENA_ARRAY(planner->arena, const char *, count);
    for (size_t i = 0; i < count; i++) {
        const struct kits_cloth *cloth = &planner->kits->cloths.items[i];
        names[i] = cloth->code[0] != '\0' ? cloth->code : cloth->name;
    }
    const struct span span = value_span(element, ATTR_STOCK_OF);
    struct diagnostic *d = diag_report(planner->run, DIAG_KIT_STOCK, span,
                                       "no cloth of this order is called %s",
                                       quoted(planner->arena, of));
    const char *near = nearest_name(of, names, count);
    if (near != NULL)
        diag_mend(planner->run, d, span, near, "did you mean of=\"%s\"?", near);
    else
        diag_help(planner->run, d,
                  "a `cloth` of that code says that it only lies there");
}

/* Bolts and counted pieces alike, each at its own place. */
void check_stock(struct planner *planner)
{
    const struct order *order = planner->order;
    for (size_t i = 0; i < order->bolts.count; i++)
        if (!is_known(planner, order->bolts.items[i].of))
            report_stock(planner, order->bolts.items[i].element,
                         order->bolts.items[i].of);
    for (size_t i = 0; i < order->pieces.count; i++)
        if (!is_known(planner, order->pieces.items[i].of))
            report_stock(planner, order->pieces.items[i].element,
                         order->pieces.items[i].of);
}
