/* Strips from which shapes are cut, opened, to scale: a red line for each cut,
 * a label in each piece. Read next: cutting_figure.c. */
#include <math.h>

#include "cutting_cloth.h"
#include "figure_parts.h"

/* Between two strips that are cut otherwise. */
#define STRIP_GAP MM(3.0)

/* From the strip to the page. */
static double point_x(const struct lying *lying, const struct cut_outline *o,
                      size_t corner)
{
    return lying->x +
           rational_double(o->coordinates[2 * corner]) * lying->scale;
}

/* The strip's upper edge is its y = 0. */
static double point_y(const struct lying *lying, const struct cut_outline *o,
                      size_t corner)
{
    return lying->y +
           rational_double(o->coordinates[2 * corner + 1]) * lying->scale;
}

/* Corners are at the strip's edges; an edge that joins two levels is cut. */
static void draw_edges(const struct lying *lying,
                       const struct cut_outline *outline, double length)
{
    for (size_t i = 0; i < outline->corners; i++) {
        const size_t next = (i + 1) % outline->corners;
        const double x1 = point_x(lying, outline, i);
        const double x2 = point_x(lying, outline, next);
        const double y1 = point_y(lying, outline, i);
        const double y2 = point_y(lying, outline, next);
        const bool at_end = fmax(x1, x2) < lying->x + 0.1 ||
                            fmin(x1, x2) > lying->x + length - 0.1;
        if (fabs(y1 - y2) > 0.1 && !at_end)
            red_line(lying, x1, y1, x2, y2);
    }
}

/* The cloth of one piece, and its label where there is room for it. */
static void draw_shape(const struct lying *lying, const struct cut_outline *o,
                       const char *label)
{
    struct point points[4];
    double x = 0.0, y = 0.0, area = 0.0;
    for (size_t i = 0; i < o->corners; i++)
        points[i] = (struct point){point_x(lying, o, i), point_y(lying, o, i)};
    struct path_item fill = pale_cloth(lying->view);
    fill.stroke = 0.0;
    box_polygon(canvas_of(lying), lying->box, points, o->corners, fill);
    /* The middle of its area, as a corner may be far out. */
    for (size_t i = 0; i < o->corners; i++) {
        const struct point p = points[i], q = points[(i + 1) % o->corners];
        const double part = p.x * q.y - q.x * p.y;
        area += part;
        x += (p.x + q.x) * part;
        y += (p.y + q.y) * part;
    }
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas_of(lying)->typeset, label, style, 0.0);
    if (fabs(area) / 2.0 < 3.0 * extent.width * extent.height)
        return;
    box_label(canvas_of(lying), lying->box, x / (3.0 * area),
              y / (3.0 * area) - extent.height / 2.0, label, style, 0.0, false);
}

/* First all cloth, hatched where nothing is cut from it, then the cuts. */
static void draw_strip(const struct lying *lying, const struct cut_item *item,
                       const struct shaped_strip *strip)
{
    const struct canvas *canvas = canvas_of(lying);
    const struct rational zero = rational_whole(0);
    const double length =
        rational_double(lying->view->plan->strip_length) * lying->scale;
    const struct frame all = frame_at(
        lying, zero, zero, lying->view->plan->strip_length, item->height);
    const struct placement placed = place_shapes(canvas->arena, item, strip);
    struct path_item waste = waste_fill(canvas);
    waste.stroke = 0.0;
    box_rectangle(canvas, lying->box, all.x, all.y, all.width, all.height,
                  waste);
    for (size_t i = 0; i < placed.pieces.count; i++)
        draw_shape(lying, placed.pieces.items[i].outline,
                   item->shaped.items[placed.pieces.items[i].item].label);
    for (size_t i = 0; i < placed.pieces.count; i++)
        draw_edges(lying, placed.pieces.items[i].outline, length);
    draw_outline(lying, all.width, all.height);
}

/* All at the scale at which the whole strip fills the column. */
struct box *draw_shapes(const struct cloth_view *view,
                        const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct cut_item *item =
        &view->plan->items.items[strip->cuts.items[0].item];
    const size_t count = item->shaped_strips.count;
    const double scale =
        (view->width - 1.0) / rational_double(view->plan->strip_length);
    const double height = rational_double(item->height) * scale;
    struct lying lying = {
        view,
        box_new(canvas, view->width, (height + STRIP_GAP) * (double)count + 2.0),
        0.5,
        1.0,
        scale,
        false};
    for (size_t i = 0; i < count; i++) {
        draw_strip(&lying, item, &item->shaped_strips.items[i]);
        lying.y += height + STRIP_GAP;
    }
    return lying.box;
}
