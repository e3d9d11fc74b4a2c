/* Cutting, in two columns: for each cloth its amount, its lines in their order,
 * each over its drawing, and the count that closes it; then the labels of the
 * heaps. Words and drawings come from the same plan. Read next:
 * cutting_words.c, cutting_figure.c, cutting_labels.c. */
#include <math.h>
#include <string.h>

#include "buffer.h"
#include "cutting.h"
#include "structure.h"
#include "told_cutting.h"
#include "trade.h"

/* Points: where the number of a line stands, and its words; the space between
 * parts of a line, lines, and cloths. */
enum { NUMBER = 12, WORDS = 27, AIR = 3, LINE_GAP = 9, BLOCK_GAP = 14 };

static const char *said(const struct booklet *booklet, const char *key)
{
    const struct wording *w = &booklet->wording;
    return say(w->arena, w->phrases, key, NULL);
}

/* ---- boxes of a column ---- */

static struct box *add_half(struct booklet *booklet, struct box *box,
                            double space, const struct box *again)
{
    box->half = true;
    box->again = again;
    return flow_add(&booklet->flow, box, space);
}

/* A box to tick. */
static void put_tick(const struct canvas *canvas, struct box *box, double y)
{
    box_rectangle(canvas, box, 0.5, y + 2.5, 7.0, 7.0, outline_narrow());
}

/* Words below each other between two edges; what has a letter begins a strip,
 * and what follows it belongs to that. */
static double put_column(const struct canvas *canvas, struct box *box,
                         const struct told_cut *cuts, size_t count, double y,
                         double left, double right)
{
    enum { STEP = 11 };
    const bool lettered = count > 0 && cuts[0].letter != NULL;
    for (size_t i = 0; i < count; i++) {
        const double indent = !lettered                ? 0.0
                              : cuts[i].letter != NULL ? STEP
                                                       : 2.0 * STEP;
        const struct box *text =
            box_text(canvas, cuts[i].text, style_body(), right - left - indent);
        if (cuts[i].letter != NULL)
            box_tagged_label(canvas, box, "Span", left, y, cuts[i].letter,
                             style_bold());
        box_put(canvas, box, text, left + indent, y);
        y += text->height;
    }
    return y;
}

/* In two columns where the box is as wide as the page: the strips of the first
 * half beside the others. */
static double put_cuts(const struct canvas *canvas, struct box *box,
                       const struct told_cut *cuts, size_t count, double y,
                       bool wide)
{
    if (!wide || count < 4)
        return put_column(canvas, box, cuts, count, y, WORDS, box->width);
    size_t half = (count + 1) / 2;
    while (half < count && cuts[half].letter == NULL)
        half++;
    const double middle = (WORDS + box->width) / 2.0;
    const double first =
        put_column(canvas, box, cuts, half, y, WORDS, middle - 8.0);
    return fmax(first, put_column(canvas, box, cuts + half, count - half, y,
                                  middle, box->width));
}

/* Head and, on its right, what the line gives; below it where both are long. */
static double put_head(const struct canvas *canvas, struct box *box,
                       const struct told_line *line, double width)
{
    struct text_style bold = style_bold();
    const double room = width - WORDS;
    const double head =
        typeset_measure(canvas->typeset, line->head, style_body(), 0.0).width;
    const double gives =
        typeset_measure(canvas->typeset, line->gives, bold, 0.0).width;
    const bool beside = head + gives + 8.0 <= room;
    const struct box *text =
        box_text(canvas, line->head, style_body(), beside ? head + 2.0 : room);
    box_put(canvas, box, text, WORDS, 0.0);
    bold.align = ALIGN_RIGHT;
    const struct box *right =
        box_text(canvas, line->gives, bold, beside ? gives + 2.0 : room);
    box_put(canvas, box, right, width - right->width,
            beside ? 0.0 : text->height);
    return beside ? text->height : text->height + right->height;
}

/* A drawing under the words that it shows. The words are its alternate
 * description, too, for those who have it read aloud (ISO 32000-1, 14.9.3). */
static double put_drawing(struct booklet *booklet, struct box *box,
                          const struct box *drawing, const char *words,
                          double y)
{
    if (drawing == NULL)
        return y;
    put_figure(booklet, box, drawing, 0.0, y + 3.0, words);
    return y + 3.0 + drawing->height;
}

/* One numbered line: words and drawings, which never part. `drawings` are of
 * what is cut folded, and of what is opened; either may be NULL. */
static struct box *line_box(struct booklet *booklet,
                            const struct canvas *canvas, size_t number,
                            const struct told_line *line,
                            struct box *const drawings[2])
{
    struct box *box = box_new(canvas, canvas->width, 0.0);
    const char *words = whole_line(&booklet->wording, line);
    put_tick(canvas, box, 0.0);
    box_in_list(box, ROLE_NUMBERED, false);
    begin_list_item(canvas, box, NUMBER, 0.0, say_count(canvas->arena, number),
                    style_bold());
    const bool wide = canvas->width == booklet->flow.canvas.width;
    double y = put_head(canvas, box, line, box->width);
    y = put_cuts(canvas, box, line->cuts.items, line->cuts.count, y, wide);
    y = put_drawing(booklet, box, drawings[0], words, y);
    y = put_cuts(canvas, box, line->opened.items, line->opened.count,
                 line->opened.count > 0 ? y + AIR : y, wide);
    y = put_drawing(booklet, box, drawings[1], words, y);
    y = put_cuts(canvas, box, line->last.items, line->last.count,
                 line->last.count > 0 ? y + AIR : y, wide);
    end_list_item(canvas, box);
    box->height = y;
    return box;
}

/* ---- a cloth ---- */

/* Where a cloth's lines go: its number of the next line, and its head again,
 * for the top of a column. */
struct block {
    struct booklet *booklet;
    const struct fabric_plan *plan;
    struct canvas column;
    size_t number;
    const struct box *again;
};

/* The parts of a figure that can be asked for alone. */
static void name_line(const struct block *block, const struct told_line *line,
                      struct box *const drawings[2])
{
    struct booklet *booklet = block->booklet;
    for (int i = 0; i < 2; i++)
        if (drawings[i] != NULL)
            name_cutting_figure(booklet, block->plan->fabric, block->number,
                                whole_line(&booklet->wording, line),
                                drawings[i]);
}

static void add_line(struct block *block, const struct told_line *line,
                     struct box *const drawings[2])
{
    name_line(block, line, drawings);
    struct box *box = line_box(block->booklet, &block->column, block->number++,
                               line, drawings);
    add_half(block->booklet, box, LINE_GAP, block->again);
}

static void add_strips(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct fabric_plan *plan = block->plan;
    const struct cloth_view view = {booklet, plan, block->column.width};
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        const struct told_line line =
            tell_strip_line(&booklet->wording, plan, strip);
        struct box *const drawings[2] = {draw_folded_strip(&view, strip),
                                         draw_opened_strip(&view, strip)};
        add_line(block, &line, drawings);
    }
}

static void add_lengthwise(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct cloth_view view = {booklet, block->plan, block->column.width};
    for (size_t i = 0; i < block->plan->sheets.count; i++) {
        const struct sheet *sheet = &block->plan->sheets.items[i];
        if (sheet->kind != SHEET_LENGTHWISE)
            continue;
        const struct told_line line =
            tell_lengthwise_line(&booklet->wording, block->plan, sheet);
        struct box *const drawings[2] = {draw_lengthwise(&view, sheet), NULL};
        add_line(block, &line, drawings);
    }
}

/* Rests that are longer than the folded cloth are as wide as the page: they
 * hold many small pieces. */
static bool is_large(const struct fabric_plan *plan, const struct sheet *rest)
{
    return rational_compare(
               rational_times(rational_max(rest->width, rest->height), 2),
               plan->strip_length) > 0;
}

static void add_rests(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct canvas *whole = &booklet->flow.canvas;
    for (size_t i = 0; i < block->plan->sheets.count; i++) {
        const struct sheet *sheet = &block->plan->sheets.items[i];
        if (sheet->kind != SHEET_REST)
            continue;
        const bool large = is_large(block->plan, sheet);
        const struct cloth_view view = {
            booklet, block->plan, large ? whole->width : block->column.width};
        const struct told_line line =
            tell_rest_line(&booklet->wording, block->plan, sheet);
        struct box *const drawings[2] = {draw_sheet(&view, sheet), NULL};
        if (!large) {
            add_line(block, &line, drawings);
            continue;
        }
        name_line(block, &line, drawings);
        flow_add(&booklet->flow,
                 line_box(booklet, whole, block->number++, &line, drawings),
                 LINE_GAP);
    }
}

static void add_sheets(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct cloth_view view = {booklet, block->plan, block->column.width};
    for (size_t i = 0; i < block->plan->sheets.count; i++) {
        const struct sheet *sheet = &block->plan->sheets.items[i];
        const struct told_line line =
            tell_sheet_line(&booklet->wording, block->plan, sheet);
        struct box *const drawings[2] = {draw_sheet(&view, sheet), NULL};
        add_line(block, &line, drawings);
    }
}

/* ---- what is told of the whole plan ---- */

/* How many layers are cut at once, and what a red line is. */
static const char *layers_text(const struct booklet *booklet, size_t layers)
{
    return said(booklet, layers == 4   ? "cutting.layers-4"
                         : layers == 2 ? "cutting.layers-2"
                                       : "cutting.layers-1");
}

/* ---- what is told of the whole plan, continued ---- */

/* It stays with the line that follows. */
static void add_warning(struct block *block, const char *text,
                        struct text_style style)
{
    if (text[0] == '\0')
        return;
    struct box *box =
        box_text(&block->column, text, style, block->column.width);
    box->keep_with_next = true;
    add_half(block->booklet, box, 4.0, block->again);
}

/* The rule, swatch and name, at the right what is bought. */
static struct box *head_box(struct block *block, bool again)
{
    enum { SWATCH = 16, TOP = 7 };
    struct booklet *booklet = block->booklet;
    const struct canvas *canvas = &block->column;
    const struct wording *w = &booklet->wording;
    const char *name = block->plan->bolt->name;
    if (has_way(canvas, block->plan->fabric))
        name = say(w->arena, w->phrases, "cutting.one-way", "name", name, NULL);
    if (again)
        name =
            say(w->arena, w->phrases, "cutting.continued", "name", name, NULL);
    const char *amount = again ? "" : word_amount(w, block->plan);
    struct text_style right = style_body();
    right.align = ALIGN_RIGHT;
    const double amount_width =
        typeset_measure(canvas->typeset, amount, right, 0.0).width + 2.0;
    const struct box *swatch = swatch_box(booklet, block->plan->fabric, SWATCH);
    const double left = swatch->width + 8.0;
    struct box *title = box_text(canvas, name, style_step(),
                                 canvas->width - left - amount_width - 6.0);
    struct box *box =
        box_new(canvas, canvas->width,
                TOP + fmax(title->height, SWATCH) + (again ? LINE_GAP : 0.0));
    box_stroke(canvas, box, 0.0, 0.0, canvas->width, 0.0, outline_narrow());
    title = box_heading(canvas, name, style_step(), title->width,
                        again ? "P" : "H2");
    box_put(canvas, box, swatch, 0.0, TOP);
    box_put(canvas, box, title, left, TOP);
    if (amount[0] != '\0')
        box_put(canvas, box, box_text(canvas, amount, right, amount_width),
                canvas->width - amount_width, TOP + 1.5);
    return box;
}

/* What must be known before the first cut of this cloth: other layers than the
 * pattern's, little length for squaring up, lines that take all there is. */
static void add_warnings(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct wording *w = &booklet->wording;
    if (block->plan->bolt->sold != SOLD_YARDAGE) {
        add_warning(block, tell_tight_sheets(w, block->plan), style_bold());
        add_warning(block, tell_reserved(w, block->plan), style_small());
        return;
    }
    const char *const layers =
        block->plan->bolt->layers == booklet->design->pattern->layers
            ? ""
            : layers_text(booklet, block->plan->bolt->layers);
    add_warning(block, layers, style_body());
    add_warning(block, tell_squaring(w, block->plan), style_bold());
    add_warning(block, tell_tight(w, block->plan), style_bold());
    add_warning(block, tell_reserved(w, block->plan), style_small());
    add_warning(block, tell_late(w, block->plan), style_bold());
}

/* The count closes the lines; then what is joined, and what is known of the
 * plan. It stays with the last line. */
static void add_end(struct block *block)
{
    struct booklet *booklet = block->booklet;
    const struct fabric_plan *plan = block->plan;
    const struct canvas *canvas = &block->column;
    const struct wording *w = &booklet->wording;
    LIST(struct box *) parts = {0};
    const struct box *text = box_text(canvas, tell_count(w, plan), style_body(),
                                      canvas->width - NUMBER);
    struct box *count = box_new(canvas, canvas->width, text->height);
    put_tick(canvas, count, 0.0);
    box_put(canvas, count, text, NUMBER, 0.0);
    *LIST_ADD(canvas->arena, &parts) = count;
    for (size_t i = 0; i < plan->items.count; i++)
        if (plan->items.items[i].lengths.count > 0)
            *LIST_ADD(canvas->arena, &parts) = box_text(
                canvas,
                word_then(w,
                          tell_joined(w, booklet->plan, &plan->items.items[i]),
                          tell_tight_join(w, plan, &plan->items.items[i])),
                style_body(), canvas->width);
    const char *notes = word_then(
        w, word_then(w, tell_left_over(w, plan), tell_simply(w, plan)),
        tell_offer(w, plan));
    if (notes[0] != '\0')
        *LIST_ADD(canvas->arena, &parts) =
            box_text(canvas, notes, style_small(), canvas->width);
    booklet->flow.boxes.items[booklet->flow.boxes.count - 1]->keep_with_next =
        true;
    add_half(booklet, box_stack(canvas, parts.items, parts.count, 4.0),
             LINE_GAP, block->again);
}

static void add_fabric(struct booklet *booklet, const struct fabric_plan *plan)
{
    struct block block = {.booklet = booklet,
                          .plan = plan,
                          .column = flow_column(&booklet->flow),
                          .number = 1};
    struct box *head = head_box(&block, false);
    head->place = place_cloth(booklet->flow.canvas.arena, plan->fabric);
    head->keep_with_next = true;
    add_half(booklet, head, BLOCK_GAP, NULL);
    block.again = head_box(&block, true);
    add_warnings(&block);
    if (plan->bolt->sold == SOLD_YARDAGE) {
        add_lengthwise(&block);
        add_rests(&block);
        add_strips(&block);
    } else {
        add_sheets(&block);
    }
    add_end(&block);
}

/* ---- the section ---- */

/* How cloth is folded, beside its figure. */
static void add_intro(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct box *fold = draw_fold(booklet);
    const double left = fold->width + 14.0;
    const char *unit = said(booklet, booklet->design->pattern->units == UNIT_CM
                                         ? "cutting.unit-cm"
                                         : "cutting.unit-in");
    struct box *const texts[2] = {
        box_text(canvas, word_then(w, tell_intro(w), unit), style_body(),
                 columns_wide(8)),
        box_text(canvas, layers_text(booklet, booklet->design->pattern->layers),
                 style_body(), columns_wide(8))};
    const struct box *words = box_stack(canvas, texts, 2, 4.0);
    struct box *box =
        box_new(canvas, canvas->width, fmax(fold->height, words->height));
    put_figure(booklet, box, fold, 0.0, 0.0,
               said(booklet, "cutting.fold-words"));
    box_put(canvas, box, words, left, 0.0);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 8.0);
}

/* Cloth by cloth, as they lie on the table; what is not used is not there. */
void section_cutting(struct booklet *booklet)
{
    flow_section(&booklet->flow, said(booklet, "cutting.title"), "", true);
    add_intro(booklet);
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        if (booklet->plan->fabrics[i].items.count > 0)
            add_fabric(booklet, &booklet->plan->fabrics[i]);
    add_cutting_labels(booklet);
}
