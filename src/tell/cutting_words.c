/* One cut a sentence: the label that it gives, how often the ruler is laid, at
 * which width, and where it stands at the last one. Lengths have their unit
 * once, in the line's head. Read next: cutting_notes.c. */
#include "told_cutting.h"

#include <string.h>

#include "buffer.h"
#include "trade.h"

/* ---- parts of sentences ---- */

/* The sentence for one, or for several of a kind. */
static const char *key_for(size_t count, const char *one, const char *several)
{
    return count == 1 ? one : several;
}

/* Joined strips bear the labels of all that is cut from them. */
const char *label_of_item(const struct wording *w, const struct cut_item *item)
{
    struct buffer text = buffer_in(w->arena);
    for (const char *c = item->label; *c != '\0'; c++)
        if (*c == ',' && c[1] == ' ') {
            buffer_text(&text, "/");
            c++;
        } else {
            buffer_printf(&text, "%c", *c);
        }
    return buffer_string(&text);
}

/* Is it cut lower than its strip? */
static bool is_trimmed(const struct strip_cut *cut, struct rational height)
{
    return cut->stack <= 1 && rational_compare(cut->across, height) < 0;
}

/* "Trim to 2." where the strip is higher than its pieces, "Slice each into 2 of
 * 12½." where they stand one above the other. */
static const char *finish_text(const struct wording *w,
                               const struct strip_cut *cut,
                               struct rational height)
{
    if (cut->stack > 1)
        return say(w->arena, w->phrases, "cutting.slice", "count",
                   say_count(w->arena, cut->count), "pieces",
                   say_count(w->arena, cut->stack), "height",
                   word_length(w, cut->across), NULL);
    return is_trimmed(cut, height)
               ? say(w->arena, w->phrases, "cutting.trim", "height",
                     word_length(w, cut->across), NULL)
               : "";
}

/* `from` is where the ruler stood, and comes to stand. */
static const char *cut_text(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct strip_cut *cut, struct rational *from)
{
    *from =
        rational_add(*from, rational_times(cut->along, (int64_t)cut->count));
    return say(w->arena, w->phrases,
               rational_equal(*from, cut->along) ? "cutting.cut"
                                                 : "cutting.cut-to",
               "label", label_of_item(w, &plan->items.items[cut->item]), "count",
               say_count(w->arena, cut->count), "along",
               word_length(w, cut->along), "to", word_length(w, *from), NULL);
}

/* The cuts of a strip of one height. */
struct row {
    const struct strip_cut *cuts;
    size_t count;
    struct rational height;
    struct rational room; /* for them along the strip; unknown: nothing may
                             keep the rest of it */
};

/* What borders keep of their strip until the top is measured: the first of them
 * stands for all. */
static const char *rest_text(const struct wording *w,
                             const struct fabric_plan *plan,
                             const struct row *row, size_t first,
                             struct rational rest)
{
    const struct cut_item *item = &plan->items.items[row->cuts[first].item];
    LIST(const char *) labels = {0};
    for (size_t i = first; i < row->count; i++) {
        const char *label =
            label_of_item(w, &plan->items.items[row->cuts[i].item]);
        *LIST_ADD(w->arena, &labels) =
            row->cuts[i].count == 1 ? label
                                    : arena_printf(w->arena, "%zu\u00a0%s",
                                                   row->cuts[i].count, label);
    }
    return say(w->arena, w->phrases, "cutting.border-rest", "labels",
               word_list(w, labels.items, labels.count), "rest",
               word_length(w, rest), "step", measuring_step(w, item), NULL);
}

/* Are both trimmed to one height? */
static bool trim_alike(const struct row *row, size_t i, size_t k)
{
    return is_trimmed(&row->cuts[i], row->height) &&
           is_trimmed(&row->cuts[k], row->height) &&
           rational_equal(row->cuts[i].across, row->cuts[k].across);
}

/* A size that lies both ways in a strip is not told by its label alone. */
static bool lies_once(const struct row *row, size_t index)
{
    for (size_t i = 0; i < row->count; i++)
        if (i != index && row->cuts[i].item == row->cuts[index].item)
            return false;
    return true;
}

/* "A2, A5 and A6": what is trimmed to the height of this one, which is the
 * first of them; "" where it is not, or where there are less than `least`. */
static const char *trimmed_with(const struct wording *w,
                                const struct fabric_plan *plan,
                                const struct row *row, size_t index,
                                size_t least)
{
    LIST(const char *) labels = {0};
    for (size_t i = 0; i < row->count; i++) {
        if (!trim_alike(row, i, index) || !lies_once(row, i))
            continue;
        if (i < index)
            return "";
        *LIST_ADD(w->arena, &labels) =
            label_of_item(w, &plan->items.items[row->cuts[i].item]);
    }
    return labels.count < least || !lies_once(row, index)
               ? ""
               : word_list(w, labels.items, labels.count);
}

/* Does one sentence tell its trim with that of others? */
static bool is_told_with(const struct row *row, size_t index)
{
    for (size_t i = 0; i < row->count; i++)
        if (i != index && trim_alike(row, i, index) && lies_once(row, i))
            return lies_once(row, index);
    return false;
}

/* A line a cut; what is trimmed to one height behind them, in one sentence. */
static void add_cuts(const struct wording *w, const struct fabric_plan *plan,
                     const struct row *row, struct told_cuts *told)
{
    struct rational at = rational_whole(0);
    bool kept = false;
    for (size_t i = 0; i < row->count; i++) {
        const bool rest =
            rational_known(row->room) && keeps_rest(plan, &row->cuts[i]);
        const char *text =
            !rest  ? cut_text(w, plan, &row->cuts[i], &at)
            : kept ? ""
                   : rest_text(w, plan, row, i, rational_sub(row->room, at));
        kept |= rest;
        if (!is_told_with(row, i))
            text =
                word_then(w, text, finish_text(w, &row->cuts[i], row->height));
        *LIST_ADD(w->arena, told) = (struct told_cut){NULL, text};
    }
    for (size_t i = 0; i < row->count; i++) {
        const char *labels = trimmed_with(w, plan, row, i, 2);
        if (labels[0] != '\0')
            *LIST_ADD(w->arena, told) = (struct told_cut){
                NULL, say(w->arena, w->phrases, "cutting.trim-several",
                          "labels", labels, "height",
                          word_length(w, row->cuts[i].across), NULL)};
    }
}

/* What is cut folded; where no cloth is left at the fold, the last two pieces
 * hang together there, and a ruler beside the fold would not part them. */
static void add_pairs(const struct wording *w, const struct fabric_plan *plan,
                      const struct strip_work *work, struct rational height,
                      struct told_cuts *told)
{
    const struct row pairs = {work->pairs.items, work->pairs.count, height,
                              rational_unknown()};
    add_cuts(w, plan, &pairs, told);
    if (reaches_fold(work))
        *LIST_ADD(w->arena, told) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.slit", "to",
                      word_length(w, work->folded), NULL)};
}

/* ---- strips across the cloth ---- */

/* How many pieces of each item the line gives, in the order of its cuts. */
static const char *gives_text(const struct wording *w,
                              const struct fabric_plan *plan,
                              const struct strip *strip, size_t times)
{
    struct buffer text = buffer_in(w->arena);
    const size_t own = strip->last.count > 0 ? 1 : 0;
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        if (plan->items.items[cut->item].shaped.count > 0) {
            buffer_printf(&text, "%s%s", i == 0 ? "" : ", ",
                          word_shapes(w, &plan->items.items[cut->item]));
            continue;
        }
        size_t count = cut->count * cut->stack * (strip->repeat - own);
        for (size_t k = 0; k < strip->last.count; k++)
            if (strip->last.items[k].item == cut->item)
                count += strip->last.items[k].count * cut->stack;
        buffer_printf(&text, "%s%zu\u00a0%s", i == 0 ? "" : ", ", count * times,
                      label_of_item(w, &plan->items.items[cut->item]));
    }
    return buffer_string(&text);
}

/* Is it deeper than a mat? Then cuts across it are longer than a ruler. */
static bool is_long(const struct wording *w, struct rational height)
{
    return rational_compare(
               height, trade_length(TRADE_MAT, w->design->pattern->units)) > 0;
}

/* How cuts are made that no ruler reaches along. Of folded cloth the marks lie
 * on the upper layer alike. */
static void add_long_cuts(const struct wording *w, struct rational height,
                          struct told_cuts *told)
{
    if (is_long(w, height))
        *LIST_ADD(w->arena, told) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.long-cuts", "length",
                      word_length(w, height), NULL)};
}

/* Cuts of one strip, folded ones first: through two layers, then what is opened
 * at the fold. */
static void add_work(const struct wording *w, const struct fabric_plan *plan,
                     const struct strip *strip, bool last,
                     struct told_line *line)
{
    const struct strip_work work = fold_strip(w->arena, plan, strip, last);
    const size_t alike =
        last ? 1 : strip->repeat - (strip->last.count > 0 ? 1 : 0);
    if (work.pairs.count > 0 && !last)
        add_long_cuts(w, strip->height, &line->cuts);
    add_pairs(w, plan, &work, strip->height, &line->cuts);
    if (work.singles.count == 0)
        return;
    *LIST_ADD(w->arena, &line->opened) = (struct told_cut){
        NULL, say(w->arena, w->phrases,
                  work.pairs.count > 0 ? "cutting.open" : "cutting.open-strip",
                  "opened", word_length_unit(w, work.opened), "count",
                  say_count(w->arena, alike), NULL)};
    if (work.pairs.count == 0 && !last)
        add_long_cuts(w, strip->height, &line->opened);
    const struct row singles = {work.singles.items, work.singles.count,
                                strip->height, work.opened};
    add_cuts(w, plan, &singles, &line->opened);
}

/* The last strip is cut as the others are, or told anew as a whole. */
static void add_last(const struct wording *w, const struct fabric_plan *plan,
                     const struct strip *strip, struct told_line *line)
{
    struct told_line last = {NULL};
    add_work(w, plan, strip, true, &last);
    const bool folded = line->opened.count > 0 && last.opened.count == 0;
    *LIST_ADD(w->arena, &line->last) = (struct told_cut){
        NULL, say(w->arena, w->phrases,
                  folded ? "cutting.last-folded" : "cutting.last", NULL)};
    for (size_t i = 0; i < last.cuts.count; i++)
        *LIST_ADD(w->arena, &line->last) = last.cuts.items[i];
    for (size_t i = 0; i < last.opened.count; i++)
        *LIST_ADD(w->arena, &line->last) = last.opened.items[i];
}

/* A strip that is wider than a mat is deep lies under no ruler. */
static void add_marking(const struct wording *w, const struct strip *strip,
                        struct told_line *line)
{
    if (is_long(w, strip->height))
        *LIST_ADD(w->arena, &line->cuts) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.long", "width",
                      word_length(w, strip->height), NULL)};
}

struct told_line tell_strip_line(const struct wording *w,
                                 const struct fabric_plan *plan,
                                 const struct strip *strip)
{
    const char *count = say_count(w->arena, strip->repeat);
    struct told_line line = {
        .head = say(w->arena, w->phrases, "cutting.strips", "count", count,
                    "width", word_length_unit(w, strip->height), NULL),
        .gives = gives_text(w, plan, strip, 1)};
    add_marking(w, strip, &line);
    if (is_left_whole(plan, strip)) {
        const struct cut_item *item =
            &plan->items.items[strip->cuts.items[0].item];
        if (item->shaped.count > 0) {
            tell_shapes(w, item, &line);
            return line;
        }
        *LIST_ADD(w->arena, &line.cuts) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.whole", "count", count,
                      "purpose", word_purpose(w, item), NULL)};
        return line;
    }
    if (strip->last.count > 0)
        *LIST_ADD(w->arena, &line.cuts) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.first-ones", "count",
                      say_count(w->arena, strip->repeat - 1), NULL)};
    add_work(w, plan, strip, false, &line);
    if (strip->last.count > 0)
        add_last(w, plan, strip, &line);
    return line;
}

/* ---- lengthwise cloth, rests, sheets ---- */

/* By item, as several strips may give pieces of one. */
static const char *sheet_gives(const struct wording *w,
                               const struct fabric_plan *plan,
                               const struct sheet *sheet)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t item = 0; item < plan->items.count; item++) {
        size_t count = 0;
        for (size_t i = 0; i < sheet->strips.count; i++) {
            const struct strip *strip = &sheet->strips.items[i];
            for (size_t k = 0; k < strip->cuts.count; k++)
                if (strip->cuts.items[k].item == item)
                    count += strip->cuts.items[k].count *
                             strip->cuts.items[k].stack * strip->repeat;
        }
        if (count > 0)
            buffer_printf(&text, "%s%zu\u00a0%s", text.length == 0 ? "" : ", ",
                          count * sheet->repeat,
                          label_of_item(w, &plan->items.items[item]));
    }
    return text.length == 0 ? "" : buffer_string(&text);
}

/* Folded selvage to selvage, cut along the selvages: each cut gives two. Pieces
 * that are shorter than the cloth are trimmed at its end. */
struct told_line tell_lengthwise_line(const struct wording *w,
                                      const struct fabric_plan *plan,
                                      const struct sheet *sheet)
{
    const struct strip_work work = fold_sheet(w->arena, plan, sheet);
    struct told_line line = {
        .head = say(w->arena, w->phrases,
                    key_for(sheet->repeat, "cutting.lengthwise",
                            "cutting.lengthwise-times"),
                    "height", word_length_unit(w, sheet->height), "count",
                    say_count(w->arena, sheet->repeat), NULL),
        .gives = sheet_gives(w, plan, sheet)};
    add_long_cuts(w, sheet->height, &line.cuts);
    add_pairs(w, plan, &work, sheet->height, &line.cuts);
    if (work.singles.count > 0)
        *LIST_ADD(w->arena, &line.opened) = (struct told_cut){
            NULL,
            say(w->arena, w->phrases,
                work.pairs.count > 0 ? "cutting.open" : "cutting.open-strip",
                "opened", word_length_unit(w, work.opened), "count", "1",
                NULL)};
    const struct row singles = {work.singles.items, work.singles.count,
                                sheet->height, rational_unknown()};
    add_cuts(w, plan, &singles, &line.opened);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *rest = &plan->sheets.items[i];
        if (!is_rest_of(rest, sheet))
            continue;
        const struct told_cut keep = {
            NULL,
            say(w->arena, w->phrases,
                key_for(rest->repeat, "cutting.keep", "cutting.keep-times"),
                "number", say_count(w->arena, rest_number(plan, rest)), "size",
                word_size_unit(w, rest->width, rest->height), "count",
                say_count(w->arena, rest->repeat), NULL)};
        if (line.opened.count > 0)
            *LIST_ADD(w->arena, &line.opened) = keep;
        else
            *LIST_ADD(w->arena, &line.cuts) = keep;
    }
    return line;
}

size_t rest_number(const struct fabric_plan *plan, const struct sheet *rest)
{
    size_t number = 0;
    for (const struct sheet *at = plan->sheets.items; at <= rest; at++)
        number += at->kind == SHEET_REST;
    return number;
}

const char *strip_letter(struct arena *arena, size_t index)
{
    return index < 26 ? arena_printf(arena, "%c", (char)('a' + index))
                      : arena_printf(arena, "%c%c",
                                     (char)('a' + (index / 26 - 1) % 26),
                                     (char)('a' + index % 26));
}

/* A strip of a sheet, then its cuts, a line each. Strips are wide however they
 * lie; which way that is, tells their length or where they come off. */
static void add_sheet_strips(const struct wording *w,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet, const char *key,
                             struct told_line *line)
{
    const struct rational length = sheet->down ? sheet->height : sheet->width;
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        *LIST_ADD(w->arena, &line->cuts) =
            (struct told_cut){strip_letter(w->arena, i),
                              say(w->arena, w->phrases, key, "count",
                                  say_count(w->arena, strip->repeat), "width",
                                  word_length_unit(w, strip->height), "length",
                                  word_length_unit(w, length), NULL)};
        const struct row row = {strip->cuts.items, strip->cuts.count,
                                strip->height, rational_unknown()};
        add_cuts(w, plan, &row, &line->cuts);
    }
}

/* Do strips off the end of a rest leave less than one squaring takes? */
static bool fills_rest(const struct wording *w, const struct sheet *rest)
{
    const struct squaring usual = usual_squaring(w->design->pattern->units);
    const struct rational length = rest->down ? rest->width : rest->height;
    size_t strips = 0;
    for (size_t k = 0; k < rest->strips.count; k++)
        strips += rest->strips.items[k].repeat;
    return strips > usual.every &&
           rational_compare(rational_sub(length, rest->used), usual.again) < 0;
}

/* The size comes first, so that one can make sure of the right cloth before it
 * is cut. */
struct told_line tell_rest_line(const struct wording *w,
                                const struct fabric_plan *plan,
                                const struct sheet *sheet)
{
    struct told_line line = {
        .head =
            say(w->arena, w->phrases,
                key_for(sheet->repeat, "cutting.rest", "cutting.rest-times"),
                "number", say_count(w->arena, rest_number(plan, sheet)), "size",
                word_size_unit(w, sheet->width, sheet->height), "count",
                say_count(w->arena, sheet->repeat), NULL),
        .gives = sheet_gives(w, plan, sheet)};
    if (fills_rest(w, sheet))
        line.head = word_then(
            w, line.head, say(w->arena, w->phrases, "cutting.rest-full", NULL));
    add_sheet_strips(w, plan, sheet,
                     sheet->down ? "cutting.rest-side" : "cutting.rest-end",
                     &line);
    return line;
}

struct told_line tell_sheet_line(const struct wording *w,
                                 const struct fabric_plan *plan,
                                 const struct sheet *sheet)
{
    const size_t layers = plan->bolt->layers;
    const char *key = sheet->repeat == 1 || layers == 1 ? "cutting.sheets"
                      : sheet->repeat <= layers ? "cutting.sheets-stacked"
                                                : "cutting.sheets-stacks";
    struct told_line line = {
        .head = say(w->arena, w->phrases, key, "count",
                    say_count(w->arena, sheet->repeat), "sheets",
                    word_sheets(w, plan->bolt->sold, sheet->repeat), "size",
                    word_size_unit(w, sheet->width, sheet->height), "layers",
                    say_count(w->arena, layers), NULL),
        .gives = sheet_gives(w, plan, sheet)};
    add_sheet_strips(w, plan, sheet, "cutting.sheet-strips", &line);
    return line;
}

const char *whole_line(const struct wording *w, const struct told_line *line)
{
    const char *text = line->head;
    for (size_t i = 0; i < line->cuts.count; i++)
        text = word_then(w, text, line->cuts.items[i].text);
    for (size_t i = 0; i < line->opened.count; i++)
        text = word_then(w, text, line->opened.items[i].text);
    for (size_t i = 0; i < line->last.count; i++)
        text = word_then(w, text, line->last.items[i].text);
    return text;
}

/* ---- of a whole cloth ---- */

/* The proof of the plan holds this to be the sum of its lines. */
const char *tell_count(const struct wording *w, const struct fabric_plan *plan)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        buffer_printf(&text, "%s", i == 0 ? "" : ", ");
        if (item->shaped.count > 0)
            buffer_printf(&text, "%s", word_shapes(w, item));
        else
            buffer_printf(&text, "%zu\u00a0%s", item->count,
                          label_of_item(w, item));
    }
    return say(w->arena, w->phrases, "cutting.count", "pieces",
               buffer_string(&text), NULL);
}

/* An odd number of pieces does not come off two layers. */
static bool is_opened(const struct fabric_plan *plan, const struct strip *strip)
{
    bool odd = false;
    for (size_t i = 0; i < strip->cuts.count; i++)
        odd |= strip->cuts.items[i].count % 2 == 1;
    return odd && plan->bolt->sold == SOLD_YARDAGE &&
           !is_whole_strip(plan, strip);
}

const char *tell_strips(const struct wording *w, const struct fabric_plan *plan,
                        const struct strip *strip)
{
    const struct strip one = {.height = strip->height,
                              .cuts.items = strip->cuts.items,
                              .cuts.count = strip->cuts.count,
                              .repeat = 1};
    const struct row row = {strip->cuts.items, strip->cuts.count,
                            strip->height, rational_unknown()};
    const char *trims = "";
    for (size_t i = 0; i < row.count; i++) {
        const char *labels = trimmed_with(w, plan, &row, i, 1);
        if (labels[0] == '\0')
            continue;
        const char *trim =
            say(w->arena, w->phrases, "cutting.offer-trim", "labels", labels,
                "height", word_length(w, row.cuts[i].across), NULL);
        trims = arena_printf(w->arena, "%s; %s", trims, trim);
    }
    if (is_opened(plan, strip))
        trims =
            arena_printf(w->arena, "%s; %s", trims,
                         say(w->arena, w->phrases, "cutting.offer-open", NULL));
    return say(w->arena, w->phrases, "cutting.offer-strips", "count",
               say_count(w->arena, strip->repeat), "width",
               word_length_unit(w, strip->height), "pieces",
               gives_text(w, plan, &one, 1), "trims", trims, NULL);
}
