/* Cutting: for each cloth the list of pieces, then its cuts in their order,
 * numbered, each as a line of text beside its drawing. Text and drawing come
 * from the same plan. Drawings are to scale, one scale a cloth, so that strips
 * can be compared by eye. Read next: cutting_figure.c, then steps.c. */
#include <math.h>
#include <string.h>

#include "buffer.h"
#include "cutting.h"
#include "structure.h"

/* Points: label, cut size, pieces, what for. Together the column. */
static const double piece_widths[4] = {52.0, 150.0, 70.0, 240.0};
/* Tables of more than FEW rows may break: as one piece they could leave half a
 * page empty before them. */
enum { TEXT_WIDTH = 158, STRIP_GAP = 8, FEW = 9 };

/* Short tables stay with the drawing behind them. Joined strips have no length
 * of their own yet, so they are told by height. */
static void add_item_row(struct booklet *booklet, const struct cut_item *item,
                         bool keep)
{
    const struct wording *w = &booklet->wording;
    const char *size =
        item->joined ? say(w->arena, w->phrases, "cutting.width-of-cloth",
                           "height", word_length_unit(w, item->height), NULL)
                     : word_size_unit(w, item->width, item->height);
    const char *cells[4] = {item->label, size,
                            arena_printf(w->arena, "%zu", item->count),
                            word_purpose(w, item)};
    const struct table_row row = {cells, piece_widths, 4, false, NULL};
    struct link use;
    struct box *box =
        table_row_linked(&booklet->flow.canvas, &row,
                         link_to_use(booklet, item, &use) ? &use : NULL);
    box->keep_with_next = keep;
    flow_add(&booklet->flow, box, 0.0);
}

/* The head of a table never stands alone. */
static void add_items(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    const char *head[4] = {say(w->arena, w->phrases, "cutting.label", NULL),
                           say(w->arena, w->phrases, "cutting.size", NULL),
                           say(w->arena, w->phrases, "cutting.pieces", NULL),
                           say(w->arena, w->phrases, "cutting.for", NULL)};
    const struct table_row row = {head, piece_widths, 4, true, NULL};
    struct box *box = table_row(&booklet->flow.canvas, &row);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 4.0);
    for (size_t i = 0; i < plan->items.count; i++)
        add_item_row(booklet, &plan->items.items[i], plan->items.count <= FEW);
}

/* "9 × A2, 2 × A5": no-break spaces, so that a count stays with its label.
 * Stacks count with all their pieces; trims_text tells how they are sliced. */
static const char *cuts_text(const struct booklet *booklet,
                             const struct fabric_plan *plan,
                             const struct strip_cut *cuts, size_t count)
{
    struct buffer text = buffer_in(booklet->wording.arena);
    for (size_t i = 0; i < count; i++) {
        buffer_printf(&text, "%s%zu\u00a0×\u00a0%s", i == 0 ? "" : ", ",
                      cuts[i].count * cuts[i].stack,
                      plan->items.items[cuts[i].item].label);
    }
    return buffer_string(&text);
}

/* "Trim A5 to 2 in." for pieces that are lower than their strip; what stands
 * in stacks is sliced to its size. */
static const char *trims_text(const struct booklet *booklet,
                              const struct fabric_plan *plan,
                              const struct strip *strip)
{
    const struct wording *w = &booklet->wording;
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        const struct rational stack =
            rational_times(cut->across, (int64_t)cut->stack);
        const char *label = plan->items.items[cut->item].label;
        if (cut->stack > 1)
            buffer_printf(&text, " %s",
                          say(w->arena, w->phrases, "cutting.slice", "label",
                              label, "height", word_length_unit(w, cut->across),
                              NULL));
        else if (rational_compare(stack, strip->height) < 0)
            buffer_printf(&text, " %s",
                          say(w->arena, w->phrases, "cutting.trim", "label",
                              label, "height", word_length_unit(w, cut->across),
                              NULL));
    }
    return text.length == 0 ? "" : buffer_string(&text);
}

/* One sentence or two for a strip and all that are like it. */
static const char *strip_text(const struct booklet *booklet,
                              const struct fabric_plan *plan,
                              const struct strip *strip)
{
    const struct wording *w = &booklet->wording;
    const char *height = word_length_unit(w, strip->height);
    const char *count = say_count(w->arena, strip->repeat);
    const struct cut_item *item = &plan->items.items[strip->cuts.items[0].item];
    if (item->joined && strip->cuts.count == 1)
        return say(w->arena, w->phrases, "cutting.whole-strips", "count", count,
                   "height", height, "label", item->label, NULL);
    const char *cuts =
        cuts_text(booklet, plan, strip->cuts.items, strip->cuts.count);
    const char *text =
        strip->last.count == 0
            ? say(w->arena, w->phrases, "cutting.strips", "count", count,
                  "height", height, "cuts", cuts, NULL)
            : say(w->arena, w->phrases, "cutting.strips-last", "count", count,
                  "height", height, "cuts", cuts, "last",
                  cuts_text(booklet, plan, strip->last.items,
                            strip->last.count),
                  NULL);
    return arena_printf(w->arena, "%s%s", text,
                        trims_text(booklet, plan, strip));
}

/* A number, text, and the drawing in the rest of the column. The words are also
 * the alternate description of the drawing, for those who have it read aloud
 * (ISO 32000-1, 14.9.3). */
static void add_line(struct booklet *booklet, size_t number, const char *text,
                     const struct box *drawing)
{
    enum { NUMBER_WIDTH = 20 };
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *words =
        box_text(canvas, text, style_body(), TEXT_WIDTH - NUMBER_WIDTH);
    struct box *box = box_new(canvas, canvas->width,
                              fmax(words->height + 3.0, drawing->height));
    struct text_style bold = style_bold();
    bold.align = ALIGN_RIGHT;
    box_in_list(box, ROLE_NUMBERED, false);
    begin_list_item(canvas, box, NUMBER_WIDTH - 6.0, 3.0,
                    arena_printf(canvas->arena, "%zu", number), bold);
    box_put(canvas, box, words, NUMBER_WIDTH, 3.0);
    put_figure(booklet, box, drawing, TEXT_WIDTH + STRIP_GAP, 0.0, text);
    end_list_item(canvas, box);
    flow_add(&booklet->flow, box, 4.0);
}

/* What is left of the column for cloth. */
static struct cloth_view view_of(struct booklet *booklet,
                                 const struct fabric_plan *plan)
{
    const double room = booklet->flow.canvas.width - TEXT_WIDTH - STRIP_GAP -
                        DIMENSION_WIDTH - 2.0 * SELVAGE_WIDTH;
    return (struct cloth_view){booklet, plan,
                               room / rational_double(plan->strip_length)};
}

/* Strips across the cloth, below a line of words for their ends. */
static void add_strips(struct booklet *booklet, const struct fabric_plan *plan,
                       size_t *number)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct cloth_view view = view_of(booklet, plan);
    if (plan->strips.count == 0)
        return;
    struct box *head = box_new(canvas, canvas->width, 11.0);
    put_figure(booklet, head, draw_strip_head(&view), TEXT_WIDTH + STRIP_GAP,
               0.0, "");
    head->keep_with_next = true;
    flow_add(&booklet->flow, head, 6.0);
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        struct box *drawn = draw_strip(&view, strip);
        const char *text = strip_text(booklet, plan, strip);
        name_cutting_figure(booklet, plan->fabric, *number, text, drawn);
        add_line(booklet, (*number)++, text, drawn);
    }
}

/* ---- lengthwise cloth, and what stays beside it ---- */

/* A strip of lengthwise cloth is one long piece, so its first cut tells all of
 * it. */
static const char *lengthwise_text(const struct booklet *booklet,
                                   const struct fabric_plan *plan,
                                   const struct sheet *sheet)
{
    const struct wording *w = &booklet->wording;
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        const struct strip_cut *cut = &strip->cuts.items[0];
        buffer_printf(&text, "%s%zu\u00a0×\u00a0%s, %s", i == 0 ? "" : "; ",
                      strip->repeat, plan->items.items[cut->item].label,
                      word_size_unit(w, cut->across, cut->along));
    }
    return say(
        w->arena, w->phrases,
        sheet->repeat == 1 ? "cutting.lengthwise" : "cutting.lengthwise-times",
        "height", word_length_unit(w, sheet->height), "count",
        say_count(w->arena, sheet->repeat), "cuts", buffer_string(&text), NULL);
}

/* The size comes first, so that one can make sure of the right cloth before it
 * is cut. */
static const char *rest_text(const struct booklet *booklet,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet)
{
    const struct wording *w = &booklet->wording;
    struct buffer text = buffer_in(w->arena);
    buffer_text(&text,
                say(w->arena, w->phrases,
                    sheet->repeat == 1 ? "cutting.rest" : "cutting.rest-times",
                    "size", word_size_unit(w, sheet->width, sheet->height),
                    "count", say_count(w->arena, sheet->repeat), NULL));
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        const char *const keys[2][2] = {
            {"cutting.rest-high", "cutting.rest-next-high"},
            {"cutting.rest-wide", "cutting.rest-next-wide"}};
        buffer_printf(
            &text, " %s%s",
            say(w->arena, w->phrases, keys[sheet->down][i > 0], "count",
                say_count(w->arena, strip->repeat), "height",
                word_length_unit(w, strip->height), "cuts",
                cuts_text(booklet, plan, strip->cuts.items, strip->cuts.count),
                NULL),
            trims_text(booklet, plan, strip));
    }
    return buffer_string(&text);
}

/* Long pieces are drawn smaller, so that the page holds them; rests hold many
 * small ones, which need the room. */
static void add_lengths(struct booklet *booklet, const struct fabric_plan *plan,
                        enum sheet_kind kind, size_t *number)
{
    const double most =
        flow_page_height(&booklet->flow) * (kind == SHEET_REST ? 0.6 : 0.36);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        if (sheet->kind != kind)
            continue;
        struct cloth_view view = view_of(booklet, plan);
        view.scale = fmin(view.scale, most / rational_double(sheet->height));
        const char *text = kind == SHEET_REST
                               ? rest_text(booklet, plan, sheet)
                               : lengthwise_text(booklet, plan, sheet);
        struct box *drawn = draw_sheet(&view, sheet, 1);
        name_cutting_figure(booklet, plan->fabric, *number, text, drawn);
        add_line(booklet, (*number)++, text, drawn);
    }
}

/* ---- sheets ---- */

/* "2: 3 strips, 4½ in high: 4 × A1." for each strip of a sheet. */
static const char *sheet_text(const struct booklet *booklet,
                              const struct fabric_plan *plan,
                              const struct sheet *sheet)
{
    const struct wording *w = &booklet->wording;
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        buffer_printf(
            &text, "%s%s%s", i == 0 ? "" : "\n",
            say(w->arena, w->phrases,
                sheet->down ? "cutting.sheet-wide" : "cutting.sheet-high",
                "number", say_count(w->arena, i + 1), "count",
                say_count(w->arena, strip->repeat), "height",
                word_length_unit(w, strip->height), "cuts",
                cuts_text(booklet, plan, strip->cuts.items, strip->cuts.count),
                NULL),
            trims_text(booklet, plan, strip));
    }
    return buffer_string(&text);
}

/* A sheet as it lies, and its cuts in words below. */
static struct box *sheet_box(struct booklet *booklet,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct cloth_view view = {
        booklet, plan,
        (width - DIMENSION_WIDTH) / fmax(rational_double(plan->strip_length),
                                         rational_double(plan->sheet_height))};
    const struct wording *w = &booklet->wording;
    const char *title =
        say(w->arena, w->phrases, "cutting.sheets", "count",
            say_count(w->arena, sheet->repeat), "sheets",
            word_sheets(w, plan->bolt->sold, sheet->repeat), NULL);
    const char *words = sheet_text(booklet, plan, sheet);
    struct box *drawn = draw_sheet(&view, sheet, 1);
    /* Sheets have no numbers on the page: they count in their order. */
    name_cutting_figure(booklet, plan->fabric,
                        (size_t)(sheet - plan->sheets.items) + 1, words, drawn);
    struct box *figure = box_new(canvas, drawn->width, drawn->height);
    put_figure(booklet, figure, drawn, 0.0, 0.0, words);
    struct box *parts[3] = {
        box_text(canvas, title, style_bold(), width), figure,
        box_numbered_lines(canvas, words, style_body(), width)};
    return box_stack(canvas, parts, 3, 4.0);
}

/* Two side by side are large enough for labels. */
static void add_sheets(struct booklet *booklet, const struct fabric_plan *plan)
{
    enum { ACROSS = 2 };
    const struct canvas *canvas = &booklet->flow.canvas;
    const double gap = 22.0;
    const double width = (canvas->width - gap * (ACROSS - 1)) / ACROSS;
    for (size_t i = 0; i < plan->sheets.count; i += ACROSS) {
        struct box *row[ACROSS];
        size_t count = 0;
        for (; count < ACROSS && i + count < plan->sheets.count; count++)
            row[count] =
                sheet_box(booklet, plan, &plan->sheets.items[i + count], width);
        flow_add(&booklet->flow, box_row(canvas, row, count, gap), 12.0);
    }
}

/* ---- what is told of the whole plan ---- */

/* A statement that holds: the bound was proven in whole numbers. */
static const char *proof_text(const struct booklet *booklet,
                              const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    if (plan->bolt->sold != SOLD_YARDAGE)
        return plan->least_sheets == plan->bought_sheets
                   ? say(w->arena, w->phrases, "cutting.fewest", NULL)
                   : "";
    if (!rational_known(plan->least_bought))
        return "";
    return rational_equal(plan->least_bought, plan->bought)
               ? say(w->arena, w->phrases, "cutting.least", NULL)
               : say(w->arena, w->phrases, "cutting.bound", "amount",
                     word_yardage(w, plan->least_bought), NULL);
}

/* Nobody should look for a better plan that was never searched for. */
static const char *simply_text(const struct booklet *booklet,
                               const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    return plan->simply == 0
               ? ""
               : say(w->arena, w->phrases, "cutting.simply", "count",
                     say_count(w->arena, plan->simply), NULL);
}

/* Says once a cloth how strips run and what hatching means. */
static void add_caption(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    const char *text =
        plan->bolt->sold == SOLD_YARDAGE
            ? say(w->arena, w->phrases, "cutting.caption", "width",
                  word_length_unit(w, plan->strip_length), "length",
                  word_length_unit(w, plan->cut_height), NULL)
            : say(w->arena, w->phrases, "cutting.caption-sheets", "sheet",
                  word_sheets(w, plan->bolt->sold, 1), "width",
                  word_length_unit(w, plan->strip_length), "height",
                  word_length_unit(w, plan->sheet_height), NULL);
    text = word_then(w, text, proof_text(booklet, plan));
    text = word_then(w, word_then(w, text, simply_text(booklet, plan)),
                     say(w->arena, w->phrases, "cutting.hatched", NULL));
    struct box *box = box_text(&booklet->flow.canvas, text, style_small(),
                               booklet->flow.canvas.width);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 8.0);
}

/* Simpler cutting for a little more cloth, all told. It has no drawing: two
 * drawings of one cloth could be mixed up at the mat. */
static void add_offer(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    if (plan->offer.strips.count == 0)
        return;
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < plan->offer.strips.count; i++) {
        const struct strip *strip = &plan->offer.strips.items[i];
        const char *trims = trims_text(booklet, plan, strip);
        buffer_printf(
            &text, "%s%zu × %s %s (%s%s)", i == 0 ? "" : "; ", strip->repeat,
            word_length(w, strip->height), word_unit(w),
            cuts_text(booklet, plan, strip->cuts.items, strip->cuts.count),
            trims[0] == '\0' ? "" : arena_printf(w->arena, ".%s", trims));
    }
    flow_paragraph(&booklet->flow,
                   say(w->arena, w->phrases, "cutting.offer", "more",
                       word_yardage(w, plan->offer.bought), "amount",
                       word_yardage(w, plan->bought), "lines",
                       say_count(w->arena, plan->offer.effort.lines), "before",
                       say_count(w->arena, plan->effort.lines), "strips",
                       buffer_string(&text), NULL));
}

/* Of a border: how many lengths come from the long strip, and by which seams.
 */
static const char *joined_key(const struct cut_item *item)
{
    const bool two = item->lengths.count == 2;
    const bool alike = item->labels[0] == item->labels[1];
    if (item->straight)
        return two     ? "cutting.join-two-straight"
               : alike ? "cutting.join-alike-straight"
                       : "cutting.join-four-straight";
    return two     ? "cutting.join-two"
           : alike ? "cutting.join-alike"
                   : "cutting.join-four";
}

/* What is cut from strips that are joined first. */
static void add_joined(struct booklet *booklet, const struct cut_item *item)
{
    const struct wording *w = &booklet->wording;
    const size_t count = item->lengths.count;
    const char *first = word_length_unit(w, item->lengths.items[0]);
    const char *number = say_count(w->arena, item->count);
    flow_paragraph(
        &booklet->flow,
        item->use == CUT_BINDING
            ? say(w->arena, w->phrases, "cutting.join-binding", "label",
                  item->label, "count", number, "first", first, NULL)
            : say(w->arena, w->phrases, joined_key(item), "label", item->label,
                  "count", number, "first", first, "first-label",
                  item->labels[0], "second",
                  word_length_unit(w, item->lengths.items[count - 1]),
                  "second-label", item->labels[1], "seam",
                  word_length_unit(w, w->design->pattern->seam), "purpose",
                  word_purpose(w, item), NULL));
}

/* Swatch and name, the table, then all cuts in their order. */
static void add_fabric(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *name = arena_printf(
        booklet->wording.arena, "%s: %s",
        booklet->design->fabrics.items[plan->fabric].name, plan->bolt->name);
    struct box *parts[2] = {
        swatch_box(booklet, plan->fabric, 20.0),
        box_heading(canvas, name, style_step(), canvas->width - 44.0, "Span")};
    const struct box *row = box_row(canvas, parts, 2, 8.0);
    struct box *heading = box_new(canvas, row->width, row->height);
    box_tag(canvas, heading, "H2", NULL);
    box_put(canvas, heading, row, 0.0, 0.0);
    box_tag_end(canvas, heading, "H2");
    heading->place = place_cloth(canvas->arena, plan->fabric);
    heading->keep_with_next = true;
    flow_add(&booklet->flow, heading, 20.0);
    add_items(booklet, plan);
    add_caption(booklet, plan);
    size_t number = 1;
    if (plan->bolt->sold == SOLD_YARDAGE) {
        add_lengths(booklet, plan, SHEET_LENGTHWISE, &number);
        add_lengths(booklet, plan, SHEET_REST, &number);
        add_strips(booklet, plan, &number);
    } else {
        add_sheets(booklet, plan);
    }
    for (size_t i = 0; i < plan->items.count; i++)
        if (plan->items.items[i].joined)
            add_joined(booklet, &plan->items.items[i]);
    add_offer(booklet, plan);
}

/* Cloth by cloth, as they lie on the table; what is not used is not there. */
void section_cutting(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    flow_section(&booklet->flow,
                 say(w->arena, w->phrases, "cutting.title", NULL), true);
    flow_paragraph(&booklet->flow,
                   say(w->arena, w->phrases, "cutting.intro", NULL));
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        if (booklet->plan->fabrics[i].items.count > 0)
            add_fabric(booklet, &booklet->plan->fabrics[i]);
}
