/* What strips and sheets are drawn with: pale cloth, and red for what hands do.
 * Every piece is drawn where the plan places it; what is left over is hatched
 * and measured. Doubles are enough for drawing; every number that is printed
 * comes from the plan. Read next: cutting_figure.c. */
#include "cutting_cloth.h"

#include <math.h>

#include "told_cutting.h"
#include "figure_parts.h"

const struct canvas *canvas_of(const struct lying *lying)
{
    return &lying->view->booklet->flow.canvas;
}

/* As all cloth in work, so that red lines and labels show on it. */
struct path_item pale_cloth(const struct cloth_view *view)
{
    return face_fill(&view->booklet->flow.canvas, view->booklet->plan->colorway,
                     view->plan->fabric, false, SHADE_WORK);
}

/* Has a label room in the frame, upright or on its side? */
static bool label_fits(struct frame at, struct text_extent extent, bool upright)
{
    const double across = upright ? at.width : at.height;
    const double along = upright ? at.height : at.width;
    return across > extent.width + 1.5 && along >= extent.height;
}

/* Small enough for cloth, large enough for text: labels go only where they fit;
 * the words above the drawing name all cuts anyway. A label that lies on its
 * side tells that its piece does. */
void label_frame(const struct lying *lying, struct frame at, const char *text,
                 bool upright)
{
    const struct canvas *canvas = canvas_of(lying);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    /* Cloth that is drawn on its side is read on the page: only of a one-way
     * print it matters how a piece stands on it. */
    if (lying->on_side && !one_way(lying->view) && label_fits(at, extent, true))
        upright = true;
    if (!label_fits(at, extent, upright))
        return;
    const double x = at.x + at.width / 2.0, y = at.y + at.height / 2.0;
    /* The top of a label is where the arrow of its print points. */
    const bool left = lying->on_side && one_way(lying->view);
    if (upright)
        box_label(canvas, lying->box, x, y - extent.height / 2.0, text, style,
                  0.0, false);
    else if (left)
        box_label(canvas, lying->box, x - extent.height / 2.0, y, text, style,
                  -90.0, false);
    else
        box_label(canvas, lying->box, x + extent.height / 2.0, y, text, style,
                  90.0, false);
}

void red_line(const struct lying *lying, double x1, double y1, double x2,
              double y2)
{
    const struct path_item line = {
        .stroke = LINE_MIDDLE, .stroke_color = action_red, .role = ROLE_MARK};
    box_stroke(canvas_of(lying), lying->box, x1, y1, x2, y2,
               casing(line.stroke));
    box_stroke(canvas_of(lying), lying->box, x1, y1, x2, y2, line);
}

/* From the cloth to the page. Each place becomes a point by itself, so that
 * rounding does not add up along a strip. */
struct frame frame_at(const struct lying *lying, struct rational x,
                      struct rational y, struct rational width,
                      struct rational height)
{
    const double s = lying->scale;
    const double left = rational_double(x) * s, top = rational_double(y) * s;
    const double across = rational_double(width) * s;
    const double down = rational_double(height) * s;
    return lying->on_side
               ? (struct frame){lying->x + top, lying->y + left, down, across}
               : (struct frame){lying->x + left, lying->y + top, across, down};
}

/* Cloth that is left over, hatched, with its size where that fits. Half a point
 * is a rounding of drawing, not cloth. */
void draw_leftover(const struct lying *lying, struct frame at,
                   struct rational width, struct rational height)
{
    if (at.width < 0.5 || at.height < 0.5)
        return;
    struct path_item waste = waste_fill(canvas_of(lying));
    waste.stroke = 0.0;
    box_rectangle(canvas_of(lying), lying->box, at.x, at.y, at.width, at.height,
                  waste);
    const char *size = word_size(&lying->view->booklet->wording, width, height);
    struct text_style style = style_figure();
    const struct text_extent extent =
        typeset_measure(canvas_of(lying)->typeset, size, style, 0.0);
    if (at.width < extent.width + 8.0 || at.height < extent.height)
        return;
    style.align = ALIGN_CENTER;
    box_label(canvas_of(lying), lying->box, at.x + at.width / 2.0,
              at.y + (at.height - extent.height) / 2.0, size, style, 0.0, true);
}

/* A piece, its cloth and its label. */
void draw_piece(const struct lying *lying, const struct placed_piece *piece)
{
    const struct fabric_plan *plan = lying->view->plan;
    const struct cut_item *item = &plan->items.items[piece->item];
    const struct frame at =
        frame_at(lying, piece->x, piece->y, piece->width, piece->height);
    struct path_item fill = pale_cloth(lying->view);
    fill.stroke = 0.0;
    box_rectangle(canvas_of(lying), lying->box, at.x, at.y, at.width, at.height,
                  fill);
    label_frame(lying, at, item->label,
                rational_equal(piece->height, item->height) != lying->on_side);
}

/* A piece, and what its strip leaves above it. */
void draw_segment(const struct lying *lying, const struct placed_piece *piece,
                  struct rational height)
{
    const struct rational top = rational_add(piece->y, piece->height);
    const struct rational left = rational_sub(height, top);
    draw_piece(lying, piece);
    draw_leftover(lying, frame_at(lying, piece->x, top, piece->width, left),
                  piece->width, left);
}

/* Cuts around a piece that do not come with the edge of its strip: behind it,
 * and above it where the strip is higher. */
void cut_piece(const struct lying *lying, const struct placed_piece *piece,
               struct rational height, struct rational end)
{
    const struct frame at =
        frame_at(lying, piece->x, piece->y, piece->width, piece->height);
    const struct rational top = rational_add(piece->y, piece->height);
    const struct rational far = rational_add(piece->x, piece->width);
    if (rational_compare(top, height) < 0 && !lying->on_side)
        red_line(lying, at.x, at.y + at.height, at.x + at.width,
                 at.y + at.height);
    if (rational_compare(top, height) < 0 && lying->on_side)
        red_line(lying, at.x + at.width, at.y, at.x + at.width,
                 at.y + at.height);
    /* Across all of the strip: that cut comes first. */
    const struct frame all = frame_at(lying, piece->x, piece->y, piece->width,
                                      rational_sub(height, piece->y));
    if (rational_compare(far, end) < 0 && !lying->on_side)
        red_line(lying, all.x + all.width, all.y, all.x + all.width,
                 all.y + all.height);
    if (rational_compare(far, end) < 0 && lying->on_side)
        red_line(lying, all.x, all.y + all.height, all.x + all.width,
                 all.y + all.height);
}

/* Over the cells. */
void draw_outline(const struct lying *lying, double width, double height)
{
    const struct canvas *canvas = canvas_of(lying);
    box_rectangle(canvas, lying->box, lying->x, lying->y, width, height,
                  outline_wide());
}

/* The way of a one-way print, beside the cloth that it is drawn on: at the edge
 * of the drawing, so that letters of strips have their place between. */
void draw_way(const struct lying *lying, double height)
{
    const struct cloth_view *view = lying->view;
    if (!one_way(view))
        return;
    const double length = fmin(height, MM(6.5));
    if (lying->on_side)
        draw_print(canvas_of(lying), lying->box, lying->x + 13.0, ARROW - 5.0,
                   6, MM(6.5), ink);
    else
        draw_print(canvas_of(lying), lying->box, ARROW - 6.0,
                   lying->y + length / 2.0, 0, length, ink);
}

bool one_way(const struct cloth_view *view)
{
    return view->booklet->design->fabrics.items[view->plan->fabric].one_way;
}
