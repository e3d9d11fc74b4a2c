/* May assume room of DIMENSION_SPACE beside the outline. Read next: scale.c. */
#include "dimension.h"

#include <math.h>

/* From the outline to the line, from there on, half a tick. */
static const double off = MM(2.6), gap = MM(0.6), beyond = MM(1.0),
                    tick = MM(0.9);

void draw_dimension(const struct canvas *canvas, struct box *box, double x,
                    double y, double length, bool down, const char *text)
{
    const struct path_item fine = {.stroke = LINE_FINE, .stroke_color = grey};
    const double dx = down ? 0.0 : length, dy = down ? length : 0.0;
    const double left = down ? off : 0.0, up = down ? 0.0 : off;
    box_stroke(canvas, box, x - left, y - up, x - left + dx, y - up + dy, fine);
    for (int end = 0; end < 2; end++) {
        const double ex = x + end * dx, ey = y + end * dy;
        box_stroke(canvas, box, ex - (down ? gap : 0.0),
                   ey - (down ? 0.0 : gap), ex - left - (down ? beyond : 0.0),
                   ey - up - (down ? 0.0 : beyond), fine);
        box_stroke(canvas, box, ex - left - tick, ey - up + tick,
                   ex - left + tick, ey - up - tick, fine);
    }
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    /* Words that are wider than the line stand above its ends, and keep to the
     * box. */
    const double clear =
        off + extent.height + 1.0 + (extent.width > length ? beyond : 0.0);
    const double middle = fmax(x + dx / 2.0, extent.width / 2.0);
    box_label(canvas, box, down ? x - clear : middle,
              y + dy / 2.0 - (down ? 0.0 : clear), text, style,
              down ? -90.0 : 0.0, false);
}

void draw_dimension_below(const struct canvas *canvas, struct box *box,
                          double x, double y, double length, const char *text)
{
    const struct path_item fine = {.stroke = LINE_FINE, .stroke_color = grey};
    const double line = y + off;
    box_stroke(canvas, box, x, line, x + length, line, fine);
    for (int end = 0; end < 2; end++) {
        const double at = x + end * length;
        box_stroke(canvas, box, at, y + gap, at, line + beyond, fine);
        box_stroke(canvas, box, at - tick, line + tick, at + tick, line - tick,
                   fine);
    }
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    /* Words that are wider than the line stand below its ends. */
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    box_label(canvas, box, x + length / 2.0,
              line + 1.0 + (extent.width > length ? beyond : 0.0), text, style,
              0.0, false);
}

/* A point so far from another one. */
static struct point moved(struct point p, struct point way, double length)
{
    return (struct point){p.x + way.x * length, p.y + way.y * length};
}

/* How far from `to` a line meets its edge that runs from `from`, square to it. */
static double met_at(struct point from, struct point to, struct point up)
{
    return (from.x - to.x) * up.x + (from.y - to.y) * up.y;
}

double distance_space(struct point from, struct point to, struct point up)
{
    return to.y - moved(to, up, met_at(from, to, up) + off + beyond).y;
}

void draw_distance(const struct canvas *canvas, struct box *box,
                   struct point from, struct point to, struct point up,
                   const char *text)
{
    const struct path_item fine = {.stroke = LINE_FINE, .stroke_color = grey};
    const struct point begins[2] = {from, to};
    const struct point ends[2] = {
        moved(from, up, off), moved(to, up, met_at(from, to, up) + off)};
    for (int end = 0; end < 2; end++) {
        const struct point a = moved(begins[end], up, gap);
        const struct point b = moved(ends[end], up, beyond);
        box_stroke(canvas, box, a.x, a.y, b.x, b.y, fine);
        box_stroke(canvas, box, ends[end].x, ends[end].y - tick, ends[end].x,
                   ends[end].y + tick, fine);
    }
    box_stroke(canvas, box, ends[0].x, ends[0].y, ends[1].x, ends[1].y, fine);
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    const double aside = extent.width / 2.0 + 2.0;
    box_label(canvas, box,
              (ends[0].x + ends[1].x) / 2.0 + (up.x < 0.0 ? -aside : aside),
              (ends[0].y + ends[1].y) / 2.0 - extent.height, text, style, 0.0,
              false);
}
