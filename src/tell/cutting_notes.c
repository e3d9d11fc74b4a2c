/* What is told of a whole cloth beside its lines: how to begin, what leaves
 * nothing to spare, what is left over. Read next: telling.c. */
#include "told_cutting.h"
#include "trade.h"

const char *tell_squaring(const struct wording *w,
                          const struct fabric_plan *plan)
{
    const enum length_unit units = w->design->pattern->units;
    const struct squaring squaring = squaring_of(plan, units),
                          usual = usual_squaring(units);
    if (squaring.every == usual.every &&
        rational_equal(squaring.first, usual.first))
        return "";
    const char *key = rational_sign(squaring.there) == 0
                          ? "cutting.square-never"
                      : squaring.times == 0 ? "cutting.square-once"
                                            : "cutting.square-less";
    return say(w->arena, w->phrases, key, "there",
               word_length_unit(w, squaring.there), "first",
               word_length_unit(w, squaring.first), "again",
               word_length_unit(w, squaring.again), "every",
               say_count(w->arena, squaring.every), NULL);
}

/* As it is done of all cloths that have enough. The phrase chooses by a count:
 * 1 where no cloth asks for less. */
const char *tell_intro(const struct wording *w, const struct cutplan *plan)
{
    const enum length_unit units = w->design->pattern->units;
    const struct squaring usual = usual_squaring(units);
    bool other = false;
    for (size_t i = 0; i < w->design->fabrics.count; i++)
        other |= plan->fabrics[i].bolt->sold == SOLD_YARDAGE &&
                 plan->fabrics[i].items.count > 0 &&
                 tell_squaring(w, &plan->fabrics[i])[0] != '\0';
    return say(w->arena, w->phrases, "cutting.intro", "first",
               word_length_unit(w, usual.first), "again",
               word_length_unit(w, usual.again), "every",
               say_count(w->arena, usual.every), "other", other ? "2" : "1",
               NULL);
}

/* What lines leave of a length of their cloth; those that leave as much are
 * told together. */
struct margin {
    LIST(const char *) lines;
    struct rational spare, of;
};
struct margins {
    LIST(struct margin) items;
};

static bool is_tight(const struct wording *w, const struct fabric_plan *plan,
                     struct rational spare)
{
    const struct rational tight = rational_min(
        plan->reserve, trade_length(TRADE_TIGHT, w->design->pattern->units));
    return rational_known(spare) && rational_compare(spare, tight) < 0;
}

/* Does a sheet leave less of its height than squaring up takes as the page
 * tells it: once at the beginning, and again behind every few strips? */
static bool lacks_squaring(const struct wording *w, const struct sheet *sheet)
{
    struct squaring squaring = usual_squaring(w->design->pattern->units);
    size_t strips = 0;
    for (size_t i = 0; i < sheet->strips.count; i++)
        strips += sheet->strips.items[i].repeat;
    squaring.times = strips > 0 ? (strips - 1) / squaring.every : 0;
    const struct rational takes = squaring_takes(&squaring);
    return !sheet->down &&
           rational_compare(sheet_height_spare(sheet), takes) < 0;
}

/* Lines of one margin are told together. */
static void note_margin(const struct wording *w, struct margins *margins,
                        size_t line, struct rational spare, struct rational of)
{
    size_t i = 0;
    while (i < margins->items.count &&
           !(rational_equal(margins->items.items[i].spare, spare) &&
             rational_equal(margins->items.items[i].of, of)))
        i++;
    if (i == margins->items.count)
        *LIST_ADD(w->arena, &margins->items) =
            (struct margin){.spare = spare, .of = of};
    *LIST_ADD(w->arena, &margins->items.items[i].lines) =
        say_count(w->arena, line);
}

/* Where it is tight. */
static void add_margin(const struct wording *w, const struct fabric_plan *plan,
                       struct margins *margins, size_t line,
                       struct rational spare, struct rational of)
{
    if (is_tight(w, plan, spare))
        note_margin(w, margins, line, spare, of);
}

/* A sentence for each. `all` and `some` are the phrases for those that leave
 * nothing and something; `sheets` is what is measured, or "". */
static const char *tell_margins(const struct wording *w,
                                const struct margins *margins, const char *all,
                                const char *some, const char *sheets)
{
    const char *text = "";
    for (size_t i = 0; i < margins->items.count; i++) {
        const struct margin *margin = &margins->items.items[i];
        text = word_then(
            w, text,
            say(w->arena, w->phrases,
                rational_sign(margin->spare) == 0 ? all : some, "sheets",
                sheets, "lines", say_count(w->arena, margin->lines.count),
                "number",
                word_list(w, margin->lines.items, margin->lines.count),
                "length", word_length_unit(w, margin->of), "spare",
                word_length_unit(w, margin->spare), NULL));
    }
    return text;
}

/* The least that lines of these strips leave of the width; strips that are
 * joined are asked by their items. */
static struct rational least_spare(const struct fabric_plan *plan,
                                   const struct strip *strips, size_t count)
{
    struct rational least = plan->strip_length;
    for (size_t i = 0; i < count; i++) {
        const struct rational spare = strip_spare(plan, &strips[i]);
        if (rational_known(spare))
            least = rational_min(least, spare);
    }
    return least;
}

/* By how much each of the strips may be shorter that are joined end to end. Of
 * binding all joins but one take the width of a strip. */
static struct rational joined_spare(const struct cut_item *item)
{
    const struct rational count = rational_whole((int64_t)item->count);
    struct rational spare = item->joined_spare;
    if (item->use == CUT_BINDING && item->lengths.count > 0)
        spare = rational_sub(
            rational_add(
                rational_mul(rational_sub(item->width, item->height), count),
                item->height),
            item->lengths.items[0]);
    if (!rational_known(spare) || rational_sign(spare) < 0)
        return rational_whole(0);
    return rational_div(spare, count);
}

/* What the widest of these strips takes, of strips that are joined as much as
 * their sum asks of each, and of lengthwise cloth what lies beside each other;
 * in whole cutting steps. */
static struct rational width_of(const struct wording *w,
                                const struct fabric_plan *plan,
                                const struct strip *strips, size_t count)
{
    struct rational spare = least_spare(plan, strips, count);
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->joined && item->count > 0)
            spare = rational_min(spare, joined_spare(item));
    }
    for (size_t i = 0; i < plan->sheets.count; i++) {
        if (plan->sheets.items[i].kind != SHEET_LENGTHWISE)
            continue;
        const struct rational left = width_spare(
            &plan->sheets.items[i], plan->sheets.items, plan->sheets.count);
        if (rational_known(left))
            spare = rational_min(spare, left);
    }
    return rational_round_up(rational_sub(plan->strip_length, spare),
                             w->design->pattern->cutting_step);
}

struct rational reserved_width(const struct wording *w,
                               const struct fabric_plan *plan)
{
    return width_of(w, plan, plan->reserved_strips.items,
                    plan->reserved_strips.count);
}

struct rational width_needed(const struct wording *w,
                             const struct fabric_plan *plan)
{
    return width_of(w, plan, plan->strips.items, plan->strips.count);
}

/* Lengthwise cloth has the first lines, strips the last ones. */
const char *tell_tight(const struct wording *w, const struct fabric_plan *plan)
{
    struct margins margins = {.items = {0}};
    size_t line = 1;
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_LENGTHWISE)
            add_margin(w, plan, &margins, line++,
                       width_spare(&plan->sheets.items[i], plan->sheets.items,
                                   plan->sheets.count),
                       plan->strip_length);
    for (size_t i = 0; i < plan->strips.count; i++)
        add_margin(w, plan, &margins, plan->sheets.count + 1 + i,
                   strip_spare(plan, &plan->strips.items[i]),
                   plan->strip_length);
    const char *text =
        tell_margins(w, &margins, "cutting.tight-all", "cutting.tight", "");
    /* A plan is told behind it, by itself. */
    if (text[0] == '\0' || !rational_known(plan->reserved_bought) ||
        plan->reserved_strips.count > 0)
        return text;
    return word_then(w, text,
                     say(w->arena, w->phrases, "cutting.ease", "amount",
                         word_reserved(w, plan), NULL));
}

/* Pieces that are sold cut to size are as they are; fat quarters and eighths
 * come off a bolt. */
const char *tell_tight_sheets(const struct wording *w,
                              const struct fabric_plan *plan)
{
    struct margins margins = {.items = {0}};
    if (plan->bolt->sold != SOLD_FAT_QUARTER &&
        plan->bolt->sold != SOLD_FAT_EIGHTH)
        return "";
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        add_margin(w, plan, &margins, i + 1, sheet_width_spare(sheet),
                   sheet->width);
        if (lacks_squaring(w, sheet))
            note_margin(w, &margins, i + 1, sheet_height_spare(sheet),
                        sheet->height);
        else
            add_margin(w, plan, &margins, i + 1, sheet_height_spare(sheet),
                       sheet->height);
    }
    return tell_margins(w, &margins, "cutting.tight-sheet-all",
                        "cutting.tight-sheet",
                        word_sheets(w, plan->bolt->sold, plan->bought_sheets));
}

/* Narrower cloth than a binding strip is scraps. */
static bool of_use(const struct wording *w, struct rational width,
                   struct rational height)
{
    const struct rational least =
        trade_length(TRADE_BINDING, w->design->pattern->units);
    return rational_compare(width, least) >= 0 &&
           rational_compare(height, least) >= 0;
}

static const char *add_left(const struct wording *w, const char *text,
                            size_t count, struct rational width,
                            struct rational height)
{
    if (count == 0 || !of_use(w, width, height))
        return text;
    const char *one =
        say(w->arena, w->phrases,
            count == 1 ? "cutting.left-piece" : "cutting.left-piece-times",
            "count", say_count(w->arena, count), "size",
            word_size_unit(w, width, height), NULL);
    return text[0] == '\0' ? one : arena_printf(w->arena, "%s; %s", text, one);
}

/* Lengthwise cloth from whose rest nothing is cut. */
static bool is_unused(const struct fabric_plan *plan, const struct sheet *sheet)
{
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (!plan->sheets.items[i].foot &&
            is_rest_of(&plan->sheets.items[i], sheet))
            return false;
    return sheet->kind == SHEET_LENGTHWISE;
}

/* The ends of lengthwise pieces that are shorter than their length of cloth,
 * but those that are kept. */
static const char *add_feet(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct sheet *sheet, const char *text)
{
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        const struct rational left = rational_sub(sheet->height, strip->used);
        bool kept = false;
        for (size_t k = 0; k < plan->sheets.count; k++) {
            const struct sheet *rest = &plan->sheets.items[k];
            kept |= rest->foot && rational_equal(rest->width, strip->height) &&
                    rational_equal(rest->height, left);
        }
        if (!kept)
            text = add_left(w, text, strip->repeat * sheet->repeat,
                            strip->height, left);
    }
    return text;
}

/* Of the cloth's length, without shrinkage: the allowance is not counted, nor
 * what squaring up takes beyond it. */
static struct rational end_left(const struct wording *w,
                                const struct fabric_plan *plan)
{
    const struct squaring squaring =
        squaring_of(plan, w->design->pattern->units);
    return rational_sub(
        rational_sub(plan->bought, plan->cut_height),
        rational_max(plan->allowance, squaring_takes(&squaring)));
}

/* Borders keep what their strip would leave. */
static bool gives_rest(const struct fabric_plan *plan,
                       const struct strip *strip)
{
    for (size_t i = 0; i < strip->cuts.count; i++)
        if (keeps_rest(plan, &strip->cuts.items[i]))
            return true;
    return false;
}

const char *tell_left_over(const struct wording *w,
                           const struct fabric_plan *plan)
{
    const char *text = "";
    if (plan->bolt->sold == SOLD_YARDAGE &&
        rational_sign(plan->bolt->shrinkage) == 0)
        text = add_left(w, text, 1, plan->strip_length, end_left(w, plan));
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        const struct rational spare = strip_spare(plan, strip);
        const size_t own = strip->last.count > 0 ? 1 : 0;
        if (!rational_known(spare) || gives_rest(plan, strip))
            continue;
        text = add_left(w, text, strip->repeat - own, spare, strip->height);
        const struct strip_work last =
            fold_strip(w->arena, plan, strip, own == 1);
        struct rational left = last.opened;
        for (size_t k = 0; k < last.singles.count; k++)
            left = rational_sub(
                left, rational_times(last.singles.items[k].along,
                                     (int64_t)last.singles.items[k].count));
        text = add_left(w, text, own, left, strip->height);
    }
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        const struct rational across = rational_sub(
            sheet->down ? sheet->width : sheet->height, sheet->used);
        if (sheet->kind == SHEET_LENGTHWISE)
            text = add_feet(w, plan, sheet, text);
        if (sheet->kind == SHEET_BOUGHT || is_unused(plan, sheet))
            text = add_left(w, text, sheet->repeat,
                            sheet->down ? across : sheet->width,
                            sheet->down ? sheet->height : across);
    }
    return text[0] == '\0' ? ""
                           : say(w->arena, w->phrases, "cutting.left-over",
                                 "pieces", text, NULL);
}

/* ---- where the fabric is narrower, or more is bought ---- */

const char *tell_strip_list(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct strip *strips, size_t count)
{
    const char *text = "";
    for (size_t i = 0; i < count; i++) {
        const char *one = tell_strips(w, plan, &strips[i]);
        text = i == 0 ? one : arena_printf(w->arena, "%s; %s", text, one);
    }
    return text;
}

/* "2 fat quarters, each: 3 strips, 4½ in wide (4 D2 each)". */
static const char *tell_sheet_list(const struct wording *w,
                                   const struct fabric_plan *plan,
                                   const struct sheet *sheets, size_t count)
{
    const char *text = "";
    for (size_t i = 0; i < count; i++) {
        const size_t repeat = sheets[i].repeat;
        const char *one =
            say(w->arena, w->phrases, "cutting.ease-sheet", "count",
                say_count(w->arena, repeat), "sheets",
                word_sheets(w, plan->bolt->sold, repeat), "strips",
                tell_strip_list(w, plan, sheets[i].strips.items,
                                sheets[i].strips.count),
                NULL);
        text = i == 0 ? one : arena_printf(w->arena, "%s. %s", text, one);
    }
    return text;
}

/* In place of all lines, where the fabric is narrower, or its sheets smaller,
 * than they ask for. */
const char *tell_reserved(const struct wording *w,
                          const struct fabric_plan *plan)
{
    if (plan->reserved_plan.count > 0)
        return tell_tight_sheets(w, plan)[0] == '\0'
                   ? ""
                   : say(w->arena, w->phrases, "cutting.ease-sheets", "amount",
                         word_reserved(w, plan), "strips",
                         tell_sheet_list(w, plan, plan->reserved_plan.items,
                                         plan->reserved_plan.count),
                         NULL);
    return plan->reserved_strips.count == 0 || tell_tight(w, plan)[0] == '\0'
               ? ""
               : say(w->arena, w->phrases, "cutting.ease-plan", "amount",
                     word_reserved(w, plan), "width",
                     word_length_unit(w, reserved_width(w, plan)), "strips",
                     tell_strip_list(w, plan, plan->reserved_strips.items,
                                     plan->reserved_strips.count),
                     NULL);
}

/* Strips that give the border only if the fabric is as wide as it should be. */
const char *tell_tight_join(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct cut_item *item)
{
    if (item->use != CUT_BORDER || item->reserved_count <= item->count ||
        plan->bolt->sold != SOLD_YARDAGE)
        return "";
    const struct rational more = more_to_buy(
        plan,
        rational_times(item->height,
                       (int64_t)(item->reserved_count - item->count)),
        w->design->pattern->units);
    return say(w->arena, w->phrases,
               rational_sign(more) == 0 ? "cutting.join-tight"
                                        : "cutting.join-tight-more",
               "spare", word_length_unit(w, item->joined_spare), "count",
               say_count(w->arena, item->reserved_count), "more",
               word_yardage_more(w, plan->bought, more), NULL);
}
