/* Strips and sheets as they lie on the mat. Every piece is drawn where the plan
 * places it (cut/place.c); what is left over is hatched and measured. Doubles
 * are enough for drawing; every number that is printed comes from the plan.
 * Read next: cutting.c. */
#include <math.h>

#include "cutting.h"

/* A rectangle on the page. */
struct frame {
    double x, y, width, height;
};

/* Small enough for cloth, large enough for text: labels go only where they fit;
 * the words beside the drawing name all cuts anyway. */
static void label_frame(const struct cloth_view *view, struct box *box,
                        struct frame at, const char *text)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    /* Narrow pieces get the least size that is still read on paper. */
    struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    if (at.width <= extent.width + 4.0) {
        style.size = 7.0;
        extent = typeset_measure(canvas->typeset, text, style, 0.0);
    }
    if (at.width > extent.width + 1.5 && at.height >= extent.height)
        box_label(canvas, box, at.x + at.width / 2.0,
                  at.y + (at.height - extent.height) / 2.0, text, style, 0.0,
                  true);
}

/* Cloth that is left over, hatched, with its size where that fits. Half a point
 * is a rounding of drawing, not cloth. */
static void draw_leftover(const struct cloth_view *view, struct box *box,
                          struct frame at, struct rational width,
                          struct rational height)
{
    if (at.width < 0.5 || at.height < 0.5)
        return;
    const struct wording *w = &view->booklet->wording;
    box_rectangle(&view->booklet->flow.canvas, box, at.x, at.y, at.width,
                  at.height, waste_fill());
    label_frame(view, box, at, word_size(w, width, height));
}

/* A dimension without lines: the number stands beside what it measures. */
static void label_height(const struct cloth_view *view, struct box *box,
                         double right, double y, double height,
                         const char *text)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    struct text_style style = style_figure();
    if (text[0] == '\0')
        return;
    style.align = ALIGN_RIGHT;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    box_label(canvas, box, right, y + (height - extent.height) / 2.0, text,
              style, 0.0, true);
}

/* Places stay exact up to here: each becomes a point of the page by itself, so
 * that rounding does not add up along a strip. */
static struct frame frame_of(const struct cloth_view *view, double x, double y,
                             const struct placed_piece *piece)
{
    return (struct frame){x + rational_double(piece->x) * view->scale,
                          y + rational_double(piece->y) * view->scale,
                          rational_double(piece->width) * view->scale,
                          rational_double(piece->height) * view->scale};
}

/* In the colors of the cloth, so that nobody cuts from the wrong one. */
static void draw_pieces(const struct cloth_view *view, struct box *box,
                        double x, double y, const struct placement *placed)
{
    for (size_t i = 0; i < placed->pieces.count; i++) {
        const struct placed_piece *piece = &placed->pieces.items[i];
        const struct frame at = frame_of(view, x, y, piece);
        const struct point corners[4] = {{at.x, at.y},
                                         {at.x + at.width, at.y},
                                         {at.x + at.width, at.y + at.height},
                                         {at.x, at.y + at.height}};
        box_polygon(&view->booklet->flow.canvas, box, corners, 4,
                    face_fill_in(view->booklet->plan->colorway,
                                 view->plan->fabric, false, corners, 4));
        label_frame(view, box, at, view->plan->items.items[piece->item].label);
    }
}

/* What the segments of a strip leave above their pieces. */
static void draw_trims(const struct cloth_view *view, struct box *box, double x,
                       double y, const struct strip *strip, bool down)
{
    const double scale = view->scale;
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        const struct rational along =
            rational_times(cut->along, (int64_t)cut->count);
        const struct rational stack =
            rational_times(cut->across, (int64_t)cut->stack);
        const struct rational left = rational_sub(strip->height, stack);
        const double length = rational_double(along) * scale;
        const double from = rational_double(stack) * scale;
        const double rest = rational_double(left) * scale;
        const struct frame at = down
                                    ? (struct frame){x + from, y, rest, length}
                                    : (struct frame){x, y + from, length, rest};
        draw_leftover(view, box, at, down ? left : along, down ? along : left);
        x += down ? 0.0 : length;
        y += down ? length : 0.0;
    }
}

/* The fold lies in the middle; the bands at the ends are the selvages, which
 * are cut off. */
static void draw_cloth_marks(const struct cloth_view *view, struct box *box,
                             double x, double y, double width, double height)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct path_item band = selvage_fill();
    box_rectangle(canvas, box, x - SELVAGE_WIDTH, y, SELVAGE_WIDTH, height,
                  band);
    box_rectangle(canvas, box, x + width, y, SELVAGE_WIDTH, height, band);
    const double middle = x + width / 2.0;
    struct path_item halo = outline_narrow();
    halo.stroke = 2.4;
    halo.stroke_color = white;
    box_stroke(canvas, box, middle, y - 4.0, middle, y + height + 4.0, halo);
    box_stroke(canvas, box, middle, y - 4.0, middle, y + height + 4.0,
               mark_style(MARK_FOLD));
}

/* Texts over all lines, in the order in which they were put. */
static struct box *texts_last(const struct canvas *canvas,
                              const struct box *box)
{
    struct box *sorted = box_new(canvas, box->width, box->height);
    for (int texts = 0; texts < 2; texts++)
        for (size_t i = 0; i < box->items.count; i++)
            if ((box->items.items[i].kind == ITEM_TEXT) == (texts == 1))
                *LIST_ADD(canvas->arena, &sorted->items) = box->items.items[i];
    return sorted;
}

/* Drawn is a whole strip. A last one that is cut in part is the same with less
 * on it, and the words beside tell how much. */
struct box *draw_strip(const struct cloth_view *view, const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const double x = DIMENSION_WIDTH + SELVAGE_WIDTH, y = 5.0;
    const double width =
        rational_double(view->plan->strip_length) * view->scale;
    const double height = rational_double(strip->height) * view->scale;
    struct box *box =
        box_new(canvas, x + width + SELVAGE_WIDTH, height + 2.0 * y);
    const struct placement placed = place_strip(canvas->arena, strip, false);
    draw_pieces(view, box, x, y, &placed);
    draw_trims(view, box, x, y, strip, false);
    const struct rational left =
        rational_sub(view->plan->strip_length, strip->used);
    const double from = rational_double(strip->used) * view->scale;
    draw_leftover(view, box, (struct frame){x + from, y, width - from, height},
                  left, strip->height);
    box_rectangle(canvas, box, x, y, width, height, outline_wide());
    draw_cloth_marks(view, box, x, y, width, height);
    label_height(view, box, x - SELVAGE_WIDTH - 4.0, y, height,
                 word_length(&view->booklet->wording, strip->height));
    return texts_last(canvas, box);
}

/* The words stand once above all strips, which show the same marks. */
struct box *draw_strip_head(const struct cloth_view *view)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const double x = DIMENSION_WIDTH;
    const double width =
        rational_double(view->plan->strip_length) * view->scale +
        2.0 * SELVAGE_WIDTH;
    struct box *box = box_new(canvas, x + width, 11.0);
    const struct wording *w = &view->booklet->wording;
    const char *selvage = say(w->arena, w->phrases, "cutting.selvage", NULL);
    struct text_style style = style_small();
    box_label(canvas, box, x, 0.0, selvage, style, 0.0, false);
    style.align = ALIGN_CENTER;
    box_label(canvas, box, x + width / 2.0, 0.0,
              say(w->arena, w->phrases, "cutting.fold", NULL), style, 0.0,
              false);
    style.align = ALIGN_RIGHT;
    box_label(canvas, box, x + width, 0.0, selvage, style, 0.0, false);
    return box;
}

/* ---- sheets ---- */

/* One strip of a sheet, its first corner at x, y: what it leaves over, its
 * number in the order of cutting and its height. A strip that runs down has its
 * number above it, as there is no room beside it. */
static void draw_sheet_strip(const struct cloth_view *view, struct box *box,
                             const struct sheet *sheet,
                             const struct strip *strip, double x, double y,
                             const char *label)
{
    const double scale = view->scale;
    const struct rational length = sheet->down ? sheet->height : sheet->width;
    const struct rational left = rational_sub(length, strip->used);
    const double from = rational_double(strip->used) * scale;
    const double rest = rational_double(left) * scale;
    const double height = rational_double(strip->height) * scale;
    const struct canvas *canvas = &view->booklet->flow.canvas;
    draw_trims(view, box, x, y, strip, sheet->down);
    if (!sheet->down) {
        draw_leftover(view, box, (struct frame){x + from, y, rest, height},
                      left, strip->height);
        label_height(view, box, x - 5.0, y, height, label);
        return;
    }
    draw_leftover(view, box, (struct frame){x, y + from, height, rest},
                  strip->height, left);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, label, style, 0.0);
    if (label[0] != '\0' && height > extent.width)
        box_label(canvas, box, x + height / 2.0, y - extent.height - 2.0, label,
                  style, 0.0, true);
}

/* Cloth that a later number is cut from is not left over: plain, with its size.
 * ensures: false for what nothing is cut from. */
static bool draw_used_rest(const struct cloth_view *view, struct box *box,
                           const struct sheet *sheet, struct frame at,
                           struct rational width)
{
    bool used = false;
    for (size_t i = 0; i < view->plan->sheets.count; i++) {
        const struct sheet *rest = &view->plan->sheets.items[i];
        used |= sheet->kind == SHEET_LENGTHWISE && rest->kind == SHEET_REST &&
                rational_equal(rest->width, width) &&
                rational_equal(rest->height, sheet->height);
    }
    if (!used || at.width < 0.5)
        return false;
    struct path_item plain = outline_narrow();
    plain.filled = true;
    plain.fill = white;
    box_rectangle(&view->booklet->flow.canvas, box, at.x, at.y, at.width,
                  at.height, plain);
    label_frame(view, box, at,
                word_size(&view->booklet->wording, width, sheet->height));
    return true;
}

/* What stays of the sheet behind its strips. */
static void draw_sheet_rest(const struct cloth_view *view, struct box *box,
                            const struct sheet *sheet, double x, double y)
{
    const double used = rational_double(sheet->used) * view->scale;
    const double width = rational_double(sheet->width) * view->scale;
    const double height = rational_double(sheet->height) * view->scale;
    const struct rational left =
        rational_sub(sheet->down ? sheet->width : sheet->height, sheet->used);
    const struct frame beside = {x + used, y, width - used, height};
    if (sheet->down && !draw_used_rest(view, box, sheet, beside, left))
        draw_leftover(view, box, beside, left, sheet->height);
    if (!sheet->down)
        draw_leftover(view, box,
                      (struct frame){x, y + used, width, height - used},
                      sheet->width, left);
    box_rectangle(&view->booklet->flow.canvas, box, x, y, width, height,
                  outline_wide());
}

/* Like strips of a sheet stand side by side and share their number. */
struct box *draw_sheet(const struct cloth_view *view, const struct sheet *sheet,
                       size_t first)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const double x = DIMENSION_WIDTH, y = sheet->down ? 13.0 : 3.0;
    struct box *box =
        box_new(canvas, x + rational_double(sheet->width) * view->scale,
                y + rational_double(sheet->height) * view->scale + 3.0);
    const struct placement placed = place_sheet(canvas->arena, sheet);
    draw_pieces(view, box, x, y, &placed);
    double offset = 0.0;
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        const char *label =
            arena_printf(canvas->arena, "%zu: %s", first + i,
                         word_length(&view->booklet->wording, strip->height));
        for (size_t n = 0; n < strip->repeat; n++) {
            draw_sheet_strip(
                view, box, sheet, strip, x + (sheet->down ? offset : 0.0),
                y + (sheet->down ? 0.0 : offset), n == 0 ? label : "");
            offset += rational_double(strip->height) * view->scale;
        }
    }
    draw_sheet_rest(view, box, sheet, x, y);
    return box;
}
