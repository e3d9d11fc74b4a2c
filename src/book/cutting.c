/* Cutting: for each cloth the list of pieces, and each strip as a line of text
 * beside its drawing. Text and drawing come from the same strip. Drawings are
 * to scale, one scale a cloth, so that strips can be compared by eye. Doubles
 * are enough for drawing; every number that is printed comes from the plan.
 * Read next: steps.c. */
#include <math.h>
#include <string.h>

#include "buffer.h"
#include "section.h"

/* Points: label, cut size, pieces, what for. Together the column. */
static const double piece_widths[4] = {52.0, 150.0, 70.0, 240.0};
enum { TEXT_WIDTH = 160, STRIP_GAP = 14, SHEET_SIDE = 30, FEW = 9 };

/* Short tables stay with the drawing behind them. Joined strips have no length
 * of their own yet, so they are told by height. */
static void add_item_row(struct booklet *booklet, const struct cut_item *item,
                         bool keep)
{
    const struct wording *w = &booklet->wording;
    const char *size =
        item->joined ? arena_printf(w->arena, "%s %s × width of cloth",
                                    word_length(w, item->height), word_unit(w))
                     : word_size_unit(w, item->width, item->height);
    const char *cells[4] = {item->label, size,
                            arena_printf(w->arena, "%zu", item->count),
                            item->purpose};
    const struct table_row row = {cells, piece_widths, 4, false, NULL};
    struct box *box = table_row(&booklet->flow.canvas, &row);
    box->keep_with_next = keep;
    flow_add(&booklet->flow, box, 0.0);
}

/* The head of a table never stands alone. */
static void add_items(struct booklet *booklet, const struct fabric_plan *plan)
{
    const char *head[4] = {"Label", "Cut size", "Pieces", "For"};
    const struct table_row row = {head, piece_widths, 4, true, NULL};
    struct box *box = table_row(&booklet->flow.canvas, &row);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 4.0);
    for (size_t i = 0; i < plan->items.count; i++)
        add_item_row(booklet, &plan->items.items[i], plan->items.count <= FEW);
}

/* "9 × A2, 2 × A5" No-break spaces: a count stays with its label. */
static const char *cuts_text(const struct booklet *booklet,
                             const struct fabric_plan *plan,
                             const struct strip *strip)
{
    struct buffer text = buffer_in(booklet->wording.arena);
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        buffer_printf(&text, "%s%zu\u00a0×\u00a0%s", i == 0 ? "" : ", ",
                      cut->count, plan->items.items[cut->item].label);
    }
    return buffer_string(&text);
}

/* One sentence for a strip and all that are like it. */
static const char *strip_text(const struct booklet *booklet,
                              const struct fabric_plan *plan,
                              const struct strip *strip)
{
    const struct wording *w = &booklet->wording;
    const char *height = arena_printf(
        w->arena, "%s %s", word_length(w, strip->height), word_unit(w));
    const struct cut_item *item = &plan->items.items[strip->cuts.items[0].item];
    if (item->joined)
        return arena_printf(w->arena, "Cut %zu strip%s, %s high (%s).",
                            strip->repeat, strip->repeat == 1 ? "" : "s",
                            height, item->label);
    return arena_printf(
        w->arena, "Cut %zu strip%s, %s high. Subcut %s%s.", strip->repeat,
        strip->repeat == 1 ? "" : "s", height,
        strip->repeat == 1 ? "" : "each: ", cuts_text(booklet, plan, strip));
}

/* How strips of one cloth are drawn. */
struct strip_view {
    struct booklet *booklet;
    const struct fabric_plan *plan;
    double scale; /* points for one unit */
    bool brief;   /* no sizes: inside a sheet */
};

/* Hatched, with its length where that fits. Half a point is a rounding of
 * drawing, not cloth. */
static void draw_leftover(const struct strip_view *view, struct box *box,
                          double x, double y, double width, double height,
                          struct rational length)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    if (width < 0.5)
        return;
    struct path_item waste = outline_narrow();
    waste.filled = true;
    waste.fill = white;
    waste.hatch = (struct hatch){45.0, 5.0, 0.5, false, grey};
    box_rectangle(canvas, box, x, y, width, height, waste);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const char *text = word_length(&view->booklet->wording, length);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    if (width > extent.width + 6.0 && height > extent.height)
        box_label(canvas, box, x + width / 2.0,
                  y + (height - extent.height) / 2.0, text, style, 0.0, true);
}

/* Only where it fits; the text beside the drawing names all cuts anyway. */
static void label_cut(const struct strip_view *view, struct box *box, double x,
                      double y, double width, double height, const char *text)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    if (width > extent.width + 4.0 && height >= extent.height)
        box_label(canvas, box, x + width / 2.0,
                  y + (height - extent.height) / 2.0, text, style, 0.0, true);
}

/* One strip at (x, y) of the box, its pieces in their order. Strips that are
 * repeated are drawn once. */
static void draw_strip(const struct strip_view *view, struct box *box,
                       const struct strip *strip, double x, double y)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const double height = rational_double(strip->height) * view->scale;
    const struct path_item fill =
        face_fill(view->booklet->plan->colorway, view->plan->fabric, false);
    const double start = x;
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        const struct cut_item *item = &view->plan->items.items[cut->item];
        const double width = rational_double(item->width) * view->scale;
        for (size_t k = 0; k < cut->count; k++) {
            box_rectangle(canvas, box, x, y, width, height, fill);
            label_cut(view, box, x, y, width, height, item->label);
            x += width;
        }
    }
    const struct rational left =
        rational_sub(view->plan->strip_length, strip->used);
    draw_leftover(view, box, x, y, rational_double(left) * view->scale, height,
                  left);
    box_rectangle(canvas, box, start, y,
                  rational_double(view->plan->strip_length) * view->scale,
                  height, outline_wide());
}

/* Text on the left; the drawing takes the rest of the column. */
static void add_strip(struct booklet *booklet, const struct fabric_plan *plan,
                      const struct strip *strip)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double room = canvas->width - TEXT_WIDTH - STRIP_GAP;
    const struct strip_view view = {
        booklet, plan, room / rational_double(plan->strip_length), false};
    struct box *text = box_text(canvas, strip_text(booklet, plan, strip),
                                style_body(), TEXT_WIDTH);
    const double height = rational_double(strip->height) * view.scale;
    struct box *box =
        box_new(canvas, canvas->width, fmax(text->height, height + 2.0));
    box_put(canvas, box, text, 0.0, 0.0);
    box_tag(canvas, box, "Figure", strip_text(booklet, plan, strip));
    draw_strip(&view, box, strip, TEXT_WIDTH + STRIP_GAP, 1.0);
    box_tag_end(canvas, box, "Figure");
    flow_add(&booklet->flow, box, 9.0);
}

/* Says once a cloth how strips run and what hatching means. */
static void add_caption(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    const char *width = arena_printf(
        w->arena, "%s %s", word_length(w, plan->strip_length), word_unit(w));
    struct box *box = box_text(
        &booklet->flow.canvas,
        plan->bolt->fat_quarters
            ? arena_printf(
                  w->arena,
                  "Each fat quarter is used as %s high and %s wide. Strips run "
                  "along the width. Hatched cloth is left over.",
                  arena_printf(w->arena, "%s %s",
                               word_length(w, plan->sheet_height),
                               word_unit(w)),
                  width)
            : arena_printf(
                  w->arena,
                  "Strips run from selvage to selvage, %s. Together they are "
                  "%s %s "
                  "high. Hatched cloth is left over; its length stands on it.",
                  width, word_length(w, plan->cut_height), word_unit(w)),
        style_small(), booklet->flow.canvas.width);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 8.0);
}

/* ---- fat quarters ---- */

/* The fat quarter as it lies: strips from the top down, what is left below. */
/* A strip of a sheet with its height beside it. */
static void draw_sheet_strip(const struct strip_view *view, struct box *box,
                             const struct strip *strip, double y)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const double height = rational_double(strip->height) * view->scale;
    struct text_style style = style_small();
    style.align = ALIGN_RIGHT;
    const char *text = word_length(&view->booklet->wording, strip->height);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    draw_strip(view, box, strip, SHEET_SIDE, y);
    box_label(canvas, box, SHEET_SIDE - 5.0, y + (height - extent.height) / 2.0,
              text, style, 0.0, false);
}

static struct box *sheet_box(struct booklet *booklet,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double across = width - SHEET_SIDE;
    const struct strip_view view = {
        booklet, plan, across / rational_double(plan->strip_length), true};
    const double height = rational_double(plan->sheet_height) * view.scale;
    const char *title = arena_printf(booklet->wording.arena,
                                     "Cut %zu like this.", sheet->repeat);
    struct box *heading = box_text(canvas, title, style_bold(), width);
    struct box *box = box_new(canvas, width, heading->height + 4.0 + height);
    box_put(canvas, box, heading, SHEET_SIDE, 0.0);
    double y = heading->height + 4.0;
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[sheet->strips.items[i]];
        draw_sheet_strip(&view, box, strip, y);
        y += rational_double(strip->height) * view.scale;
    }
    const struct rational left = rational_sub(plan->sheet_height, sheet->used);
    const double left_height = rational_double(left) * view.scale;
    if (left_height > 0.5)
        draw_leftover(&view, box, SHEET_SIDE, y, across, left_height, left);
    box_rectangle(canvas, box, SHEET_SIDE, heading->height + 4.0, across,
                  height, outline_wide());
    return box;
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

/* What is cut from strips that are joined first. Four lengths are a border: two
 * sides, two ends. */
static void add_joined(struct booklet *booklet, const struct cut_item *item)
{
    const struct wording *w = &booklet->wording;
    struct buffer lengths = buffer_in(w->arena);
    for (size_t i = 0;
         i<item->lengths.count; i += item->lengths.count> 1 ? 2 : 1)
        buffer_printf(&lengths, "%s%s%s %s", i == 0 ? "" : " and ",
                      item->lengths.count > 1 ? "2 of " : "",
                      word_length(w, item->lengths.items[i]), word_unit(w));
    flow_paragraph(&booklet->flow,
                   item->use == CUT_BINDING
                       ? arena_printf(w->arena,
                                      "%s: join the %zu strips end to end with "
                                      "diagonal seams for at "
                                      "least %s of binding.",
                                      item->label, item->count,
                                      buffer_string(&lengths))
                       : arena_printf(w->arena,
                                      "%s: join the %zu strips end to end with "
                                      "diagonal seams. From the "
                                      "long strip cut %s for %s.",
                                      item->label, item->count,
                                      buffer_string(&lengths), item->purpose));
}

/* Swatch and name, the table, then strips or sheets. */
static void add_fabric(struct booklet *booklet, const struct fabric_plan *plan)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const char *name = arena_printf(
        booklet->wording.arena, "%s: %s",
        booklet->design->fabrics.items[plan->fabric].name, plan->bolt->name);
    struct box *parts[2] = {
        swatch_box(booklet, plan->fabric, 20.0),
        box_heading(canvas, name, style_step(), canvas->width - 44.0, "H2")};
    struct box *heading = box_row(canvas, parts, 2, 8.0);
    heading->keep_with_next = true;
    flow_add(&booklet->flow, heading, 20.0);
    add_items(booklet, plan);
    add_caption(booklet, plan);
    if (plan->bolt->fat_quarters)
        add_sheets(booklet, plan);
    else
        for (size_t i = 0; i < plan->strips.count; i++)
            add_strip(booklet, plan, &plan->strips.items[i]);
    for (size_t i = 0; i < plan->items.count; i++)
        if (plan->items.items[i].joined)
            add_joined(booklet, &plan->items.items[i]);
}

/* Cloth by cloth, as they lie on the table; what is not used is not there. */
void section_cutting(struct booklet *booklet)
{
    flow_section(&booklet->flow, "Cutting", true);
    flow_paragraph(&booklet->flow, "Press the cloth and square up one end. Cut "
                                   "the strips of each cloth from "
                                   "the top of its list down, then subcut them "
                                   "from the left. Put the labels "
                                   "on the heaps as you cut.");
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        if (booklet->plan->fabrics[i].items.count > 0)
            add_fabric(booklet, &booklet->plan->fabrics[i]);
}
