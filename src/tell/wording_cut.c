/* Facts of the cutting plan as words: what a cut is for, in what cloth is sold.
 * Shared by pages, tables and data; programs read English, pages the pattern's
 * language. Read next: phrase.c. */
#include "buffer.h"
#include "trade.h"
#include "wording.h"

/* Adds to a list that may still be empty, for lists whose end is not known. */
static const char *listed(const struct wording *w, const char *text,
                          const char *next)
{
    return text == NULL ? next
                        : say(w->arena, w->phrases, "list.comma", "first", text,
                              "next", next, NULL);
}

const char *word_center(const struct wording *w)
{
    return say(w->arena, w->phrases,
               w->quilt->borders.count > 0 ? "purpose.center" : "layers.top",
               NULL);
}

/* The units and blocks that take a piece, then the borders at whose corners it
 * lies. The quilt takes it as its center. */
static const char *takers_text(const struct wording *w,
                               const struct cut_item *item)
{
    const char *center = word_center(w);
    const char *text = NULL;
    for (size_t i = 0; i < item->takers.count; i++) {
        const struct definition *taker = item->takers.items[i];
        text =
            listed(w, text, taker->kind == DEFINE_QUILT ? center : taker->name);
    }
    for (size_t i = 0; i < item->corners_of.count; i++)
        text =
            listed(w, text,
                   say(w->arena, w->phrases, "purpose.border-corners", "number",
                       say_count(w->arena, item->corners_of.items[i]), NULL));
    return text == NULL ? center : text;
}

/* As a page has it, in tables, too: what a hand trims to is read off a ruler. The
 * exact size is that of the piece in the data. */
static const char *trim_length(const struct wording *w, struct rational value)
{
    return rational_is_irrational(value) && !w->glyphs
               ? arena_printf(w->arena, "\u2248%s",
                              length_on_ruler(w->arena, value,
                                              w->design->pattern->units))
               : word_length(w, value);
}

/* A piece that no ruler cuts is trimmed behind it. */
static const char *piece_text(const struct wording *w,
                              const struct cut_item *item)
{
    const char *takers = takers_text(w, item);
    return item->trimmed
               ? say(w->arena, w->phrases, "purpose.trimmed", "purpose", takers,
                     "width", trim_length(w, item->trim_width), "height",
                     trim_length(w, item->trim_height), NULL)
               : takers;
}

const char *word_shape(const struct wording *w, enum patch_shape shape,
                       struct rational high)
{
    static const char *const keys[] = {
        [PATCH_TRIANGLE] = "shape.triangle",
        [PATCH_DIAMOND_RIGHT] = "shape.diamond",
        [PATCH_DIAMOND_LEFT] = "shape.diamond",
        [PATCH_HALF_HEXAGON] = "shape.half-hexagon",
        [PATCH_END_LEFT] = "shape.end-left",
        [PATCH_END_RIGHT] = "shape.end-right",
        [PATCH_STAR_DIAMOND] = "shape.star-diamond"};
    return say(w->arena, w->phrases, keys[shape], "high",
               word_length_unit(w, high), NULL);
}

const char *word_shaped_strip(const struct wording *w,
                              const struct cut_item *item,
                              const struct shaped_strip *strip, size_t times)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < item->shaped.count; i++) {
        size_t count = 0;
        for (size_t k = 0; k < strip->pieces.count; k++)
            count += strip->pieces.items[k] == i;
        if (count > 0)
            buffer_printf(&text, "%s%zu\u00a0%s",
                          text.length == 0 ? "" : ", ", count * times,
                          item->shaped.items[i].label);
    }
    return buffer_string(&text);
}

/* Sides and ends may be cut to two lengths, so they are told apart. */
static const char *border_text(const struct wording *w,
                               const struct cut_item *item)
{
    static const char *const keys[] = {[BORDER_ALL] = "purpose.border",
                                       [BORDER_SIDES] = "purpose.border-sides",
                                       [BORDER_ENDS] = "purpose.border-ends"};
    return say(w->arena, w->phrases, keys[item->part], "number",
               say_count(w->arena, item->border), NULL);
}

/* Borders are counted from the inside, as the finishing tells them. No default:
 * the compiler then asks for words where a new use is added. */
const char *word_purpose(const struct wording *w, const struct cut_item *item)
{
    switch (item->use) {
    case CUT_PIECE:
        break;
    case CUT_BORDER:
        return border_text(w, item);
    case CUT_BACKING:
        return say(w->arena, w->phrases, "purpose.backing", NULL);
    case CUT_BINDING:
        return say(w->arena, w->phrases, "purpose.binding", NULL);
    }
    return piece_text(w, item);
}

const char *word_cut_size(const struct wording *w, int fabric,
                          struct rational width, struct rational height)
{
    return w->design->fabrics.items[fabric].one_way
               ? word_size_unit(w, width, height)
               : word_size_unit(w, rational_min(width, height),
                                rational_max(width, height));
}

/* requires: no yardage, which has no sheets. */
const char *word_sheets(const struct wording *w, enum sold_as sold,
                        size_t count)
{
    static const char *const keys[] = {[SOLD_YARDAGE] = NULL,
                                       [SOLD_FAT_QUARTER] = "sheet.fat-quarter",
                                       [SOLD_FAT_EIGHTH] = "sheet.fat-eighth",
                                       [SOLD_TEN_INCH] = "sheet.ten-inch",
                                       [SOLD_FIVE_INCH] = "sheet.five-inch",
                                       [SOLD_STRIP] = "sheet.strip"};
    return say(w->arena, w->phrases, keys[sold], "count",
               say_count(w->arena, count), NULL);
}

/* ---- what is bought, for shops that know no inches ---- */

/* Rounded up, as what is bought may be larger than what is asked for, not smaller. */
static const char *in_centimetres(const struct wording *w,
                                  struct rational inches, int step)
{
    const struct rational length = rational_round_up(
        rational_mul(inches, length_factor(UNIT_IN, UNIT_CM)),
        rational_whole(step));
    return word_length_in(w, length, UNIT_CM);
}

/* Data has the plan's numbers alone, and so have patterns in centimetres. */
static bool is_told_twice(const struct wording *w)
{
    return w->glyphs && w->design->pattern->units == UNIT_IN;
}

/* Widths are measured on the bolt, with a tape. */
const char *word_bought_length(const struct wording *w, struct rational length)
{
    const char *text = word_length_unit(w, length);
    return is_told_twice(w) ? say(w->arena, w->phrases, "unit.bought", "size",
                                  text, "centimetres",
                                  in_centimetres(w, length, 1), NULL)
                            : text;
}

/* To what a shop cuts, as in metres_of. */
const char *word_bought_size(const struct wording *w, struct rational width,
                             struct rational height)
{
    const char *text = word_size_unit(w, width, height);
    if (!is_told_twice(w))
        return text;
    return say(w->arena, w->phrases, "unit.bought", "size", text, "centimetres",
               arena_printf(w->arena, "%s\u00a0×\u00a0%s",
                            in_centimetres(w, width, 5),
                            in_centimetres(w, height, 5)),
               NULL);
}

/* Quarters and eighths are cut in every shop; precuts have their inches for a name.
 */
const char *word_sheet_size(const struct wording *w,
                            const struct fabric_plan *plan)
{
    const enum sold_as sold = plan->bolt->sold;
    return sold == SOLD_FAT_QUARTER || sold == SOLD_FAT_EIGHTH
               ? word_bought_size(w, plan->strip_length, plan->sheet_height)
               : word_size_unit(w, plan->strip_length, plan->sheet_height);
}

/* Up to what a shop cuts of them: five centimetres (common practice). */
static struct rational metres_of(struct rational yards)
{
    return rational_round_up(
        rational_mul(yards, length_factor(UNIT_YD, UNIT_M)),
        rational_make(1, 20));
}

/* In metres, too, for languages whose shops know no yards. */
static const char *in_yards(const struct wording *w, struct rational yards,
                            struct rational metres)
{
    return say(w->arena, w->phrases, "unit.yards", "yards",
               word_length_in(w, yards, UNIT_YD), "metres",
               word_length_in(w, metres, UNIT_M), NULL);
}

const char *word_sold_step(const struct wording *w)
{
    const enum length_unit units = w->design->pattern->units;
    const enum length_unit shop = trade_shop_unit(units);
    return arena_printf(
        w->arena, "%s %s",
        word_length_in(w,
                       rational_mul(trade_length(TRADE_SOLD_STEP, units),
                                    length_factor(units, shop)),
                       shop),
        length_unit_name(shop));
}

/* Yards and metres, as a shop cuts. The plan has inches or centimetres, as the
 * pattern has them. Data has plain text, pages the words of their language. */
const char *word_yardage(const struct wording *w, struct rational length)
{
    const enum length_unit units = w->design->pattern->units;
    const enum length_unit shop = trade_shop_unit(units);
    const struct rational amount =
        rational_mul(length, length_factor(units, shop));
    if (shop == UNIT_YD && w->glyphs)
        return in_yards(w, amount, metres_of(amount));
    return arena_printf(w->arena, "%s %s", word_length_in(w, amount, shop),
                        length_unit_name(shop));
}

const char *word_yardage_more(const struct wording *w, struct rational bought,
                              struct rational more)
{
    const enum length_unit units = w->design->pattern->units;
    const struct rational factor = length_factor(units, UNIT_YD);
    const struct rational before = rational_mul(bought, factor);
    const struct rational yards = rational_mul(more, factor);
    if (trade_shop_unit(units) != UNIT_YD || !w->glyphs)
        return word_yardage(w, more);
    return in_yards(w, yards,
                    rational_sub(metres_of(rational_add(before, yards)),
                                 metres_of(before)));
}

/* In what this cloth is sold in. */
const char *word_amount(const struct wording *w, const struct fabric_plan *plan)
{
    if (plan->bolt->sold == SOLD_YARDAGE)
        return word_yardage(w, plan->bought);
    return arena_printf(w->arena, "%zu %s", plan->bought_sheets,
                        word_sheets(w, plan->bolt->sold, plan->bought_sheets));
}

const char *word_reserved(const struct wording *w,
                          const struct fabric_plan *plan)
{
    if (plan->bolt->sold == SOLD_YARDAGE)
        return rational_known(plan->reserved_bought)
                   ? word_yardage(w, plan->reserved_bought)
                   : "";
    return plan->reserved_sheets == 0
               ? ""
               : arena_printf(
                     w->arena, "%zu %s", plan->reserved_sheets,
                     word_sheets(w, plan->bolt->sold, plan->reserved_sheets));
}

/* A backing of a cloth of the quilt may be bought in one length with it; then
 * the amount stands in the row of that cloth, and this only points there. */
const char *word_backing_amount(const struct wording *w,
                                const struct backing_plan *backing)
{
    return backing->together
               ? say(w->arena, w->phrases, "materials.together", "letter",
                     fabric_letter(w->arena, backing->fabric), NULL)
               : word_yardage(w, backing->bought);
}
