/* Numbers and names of an order. Lengths are in the unit of the order, amounts
 * of cloth as a shop cuts them. Read next: kit_held.c. */
#include "kit_words.h"

#include "trade.h"

/* ---- numbers ---- */

/* The order's unit, which may be another than a pattern's. */
static const char *unit_of(const struct kit_telling *t)
{
    return say(t->w->arena, t->w->phrases,
               t->kits->order->units == UNIT_CM ? "unit.centimetre"
                                                : "unit.inch",
               NULL);
}

/* The blank before the unit does not break. */
const char *kit_length(const struct kit_telling *t, struct rational length)
{
    return arena_printf(t->w->arena, "%s\u00a0%s",
                        word_length_in(t->w, length, t->kits->order->units),
                        unit_of(t));
}

/* No-break spaces, so that a size stays on one line. */
const char *kit_size(const struct kit_telling *t, struct rational width,
                     struct rational height)
{
    return arena_printf(t->w->arena, "%s\u00a0\u00d7\u00a0%s",
                        word_length_in(t->w, width, t->kits->order->units),
                        kit_length(t, height));
}

/* Eighths of a yard are what a shop cuts, centimetres of a metre. */
const char *kit_yardage(const struct kit_telling *t, struct rational length)
{
    const enum length_unit units = t->kits->order->units;
    const enum length_unit shop = trade_shop_unit(units);
    const struct rational amount =
        rational_mul(length, length_factor(units, shop));
    if (!rational_is_fraction(amount) ||
        (units == UNIT_CM ? 100 : 8) % amount.den)
        return kit_length(t, length);
    return say(t->w->arena, t->w->phrases, "kit.yardage", "amount",
               arena_printf(t->w->arena, "%s\u00a0%s",
                            word_length_in(t->w, amount, shop),
                            length_unit_name(shop)),
               "length", kit_length(t, length), NULL);
}

/* Rounded here, where it is printed. The sign is the language's. */
const char *kit_money(const struct kit_telling *t, struct rational value)
{
    const struct order *order = t->kits->order;
    if (!rational_known(value))
        return say(t->w->arena, t->w->phrases, "kit.no-price", NULL);
    const char *number = word_decimal(t->w, money_rounded(order, value),
                                      order->digits);
    return order->currency[0] == '\0'
               ? number
               : arena_printf(t->w->arena, "%s\u00a0%s", number,
                              order->currency);
}

/* To a tenth, half up as money is. */
const char *kit_percent(const struct kit_telling *t, struct rational part)
{
    if (!rational_known(part))
        return "";
    const struct order tenths = {.digits = 1};
    return say(t->w->arena, t->w->phrases, "kit.percent", "number",
               word_decimal(t->w,
                            money_rounded(&tenths, rational_times(part, 100)),
                            1),
               NULL);
}

/* ---- names ---- */

/* As the foot of the booklet has it, so that both are known to belong
 * together. */
const char *kit_line_name(const struct kit_telling *t, size_t line)
{
    const struct kit_facts *facts = t->kits->lines[line].facts;
    return say(t->w->arena, t->w->phrases, "page.foot", "title", facts->title,
               "quilt", facts->quilt_name, "colorway", facts->colorway_name,
               NULL);
}

/* The number leads to the slip, the name is for the eye. */
const char *kit_taker(const struct kit_telling *t, size_t line,
                      enum kits_cut_kind kind)
{
    if (line == KITS_SPARE)
        return say(t->w->arena, t->w->phrases, "kit.spare", NULL);
    if (line == KITS_PIECES)
        return say(t->w->arena, t->w->phrases,
                   kind == CUT_TO_SHEETS ? "kit.to-quarters" : "kit.to-pieces",
                   NULL);
    return say(t->w->arena, t->w->phrases, "kit.line", "number",
               say_count(t->w->arena, t->kits->lines[line].asked->number),
               "name", kit_line_name(t, line), NULL);
}

/* Two shops call two cloths alike, so the code stands with the name. */
const char *kit_cloth_name(const struct kit_telling *t,
                           const struct kits_cloth *cloth)
{
    return cloth->code[0] == '\0'
               ? cloth->name
               : say(t->w->arena, t->w->phrases, "list.comma", "first",
                     cloth->name, "next", cloth->code, NULL);
}

/* A length that is cut off in the shop is no bolt. */
const char *kit_roll_name(const struct kit_telling *t,
                          const struct kits_cloth *cloth,
                          const struct kits_roll *roll)
{
    struct arena *arena = t->w->arena;
    const struct phrases *phrases = t->w->phrases;
    const char *number = say_count(arena, roll->number);
    if (roll->bolt == NULL)
        return say(arena, phrases,
                   cloth->sold == SELL_BOLT ? "kit.new-bolt" : "kit.new-length",
                   "number", number, NULL);
    return roll->bolt->lot[0] == '\0'
               ? say(arena, phrases, "kit.shelf-bolt", "number", number, NULL)
               : say(arena, phrases, "kit.shelf-lot", "number", number, "lot",
                     roll->bolt->lot, NULL);
}

/* The date tells two orders of one name apart. */
const char *kit_order_name(const struct wording *w, const struct kits *kits)
{
    const struct order *order = kits->order;
    return order->date[0] == '\0'
               ? order->title
               : say(w->arena, w->phrases, "list.comma", "first", order->title,
                     "next", order->date, NULL);
}

/* As a line takes its cuts: the same words on all papers. */
const char *kit_line_title(const struct wording *w, const struct kits *kits,
                           size_t line)
{
    const struct kit_telling t = {w, kits};
    return kit_taker(&t, line, CUT_AS_YARDAGE);
}

/* It stands below the title of most papers, and in the description of the
 * file. */
const char *kit_order_lead(const struct wording *w, const struct kits *kits)
{
    return say(w->arena, w->phrases, "kit.lead", "order",
               kit_order_name(w, kits), "kits",
               say_count(w->arena, kits->kit_count), "lines",
               say_count(w->arena, kits->order->lines.count), NULL);
}

/* ---- papers ---- */

/* Named as the table of the same facts, where there is one, so that the two
 * lie beside each other in the folder. */
const char *kit_paper_file(enum kit_paper paper)
{
    static const char *const files[KIT_PAPERS] = {
        [KIT_PAPER_PURCHASE] = "purchase",
        [KIT_PAPER_COSTS] = "costs",
        [KIT_PAPER_PICKING] = "picking",
        [KIT_PAPER_CUTTING] = "bolts",
        [KIT_PAPER_COUNT] = "count",
        [KIT_PAPER_SLIPS] = "slips",
        [KIT_PAPER_LABELS_TEST] = "labels-test",
        [KIT_PAPER_LABELS] = "labels",
        [KIT_PAPER_CARDS] = "cards"};
    return files[paper];
}

/* A question that the paper answers, where there is one. */
const char *kit_paper_title(const struct wording *w, enum kit_paper paper)
{
    static const char *const keys[KIT_PAPERS] = {
        [KIT_PAPER_PURCHASE] = "kit.title-purchase",
        [KIT_PAPER_COSTS] = "kit.title-costs",
        [KIT_PAPER_PICKING] = "kit.title-picking",
        [KIT_PAPER_CUTTING] = "kit.title-cutting",
        [KIT_PAPER_COUNT] = "kit.title-count",
        [KIT_PAPER_SLIPS] = "kit.title-slips",
        [KIT_PAPER_LABELS_TEST] = "kit.title-labels-test",
        [KIT_PAPER_LABELS] = "kit.title-labels",
        [KIT_PAPER_CARDS] = "kit.title-cards"};
    return say(w->arena, w->phrases, keys[paper], NULL);
}

/* ---- cells ---- */

/* The letter is that of one quilt, so only papers of a single kit have it. */
void add_kit_cloth(const struct kit_telling *t, struct told_row *row,
                   const struct kits_cloth *cloth, const char *letter)
{
    struct told_cell *cell = add_words_cell(t->w, row, cloth->name);
    cell->swatch = (struct told_swatch){true, cloth->color, letter};
    if (cloth->code[0] != '\0')
        *LIST_ADD(t->w->arena, &cell->others) = cloth->code;
}

/* The box is drawn; the cell has no words. */
void add_ticks(const struct kit_telling *t, struct told_row *row, size_t ticks)
{
    add_words_cell(t->w, row, "")->ticks = ticks;
}

/* Columns that it reaches into have no cells of their own. */
void add_wide_cell(const struct kit_telling *t, struct told_row *row,
                   const char *text, size_t columns)
{
    add_words_cell(t->w, row, text)->more = columns - 1;
}
