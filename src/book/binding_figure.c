/* Double-fold binding with mitred corners, the usual way (common practice),
 * drawn from its width and the seam. The quilt lies with its top right corner
 * in the figure; raw edges of the strip are level with its top edge. Read
 * next: finishing.c. */
#include <math.h>

#include "dimension.h"
#include "figure_parts.h"
#include "finishing_figures.h"

/* ---- what all figures share ---- */

/* Millimetres to the inch, the largest with which the folded strip is no wider
 * than this; smaller, seam and stitches could not be told apart any more. */
#define FOLDED_MOST MM(9.0)
#define SMALLEST 0.7
/* Millimetres on paper for an inch: round scales, the largest at which the
 * folded strip fits. In centimetres they are the same sizes on paper. */
static double detail_scale(const struct booklet *booklet, double folded,
                           double most)
{
    static const double steps[] = {16.0, 14.0, 12.0, 10.0, 8.0,
                                   7.0,  6.0,  5.0,  4.0};
    const double inch = booklet->design->pattern->units == UNIT_CM ? 2.54 : 1.0;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (MM(steps[i]) / inch * folded <= most)
            return MM(steps[i]) / inch;
    return most / folded;
}

/* The cloth at the top right corner of the quilt. */
static int corner_fabric(const struct cloth *cloth)
{
    double most = -1e9;
    int fabric = 0;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        for (size_t k = 0; k < face->count; k++) {
            const double at = rational_double(face->points[k].x) -
                              rational_double(face->points[k].y);
            if (at > most) {
                most = at;
                fabric = face->fabric;
            }
        }
    }
    return fabric;
}

/* A strip is doubled: it keeps 62 % of its color, which parts it from the quilt
 * even where both are of one cloth. */
static struct path_item doubled(const struct booklet *booklet, int fabric)
{
    struct path_item fill =
        face_fill(&booklet->flow.canvas, booklet->plan->colorway, fabric, false,
                  SHADE_DONE);
    const struct path_item edge = outline_wide();
    fill.fill = mixed(fill.fill, white, 0.38);
    fill.hatch = NULL;
    fill.stroke = edge.stroke;
    fill.stroke_color = edge.stroke_color;
    return fill;
}

/* All lengths of the details in points, at one scale: strip, folded strip and
 * seam. The quilt has the cloth of its corner, where binding is sewn. */
struct binding_view binding_view(struct booklet *booklet, double width,
                                 double size)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct colorway *colorway = booklet->plan->colorway;
    const struct binding_plan *plan = &booklet->plan->binding;
    const struct backing_plan *backing = &booklet->plan->backing;
    const double strip = rational_double(plan->width);
    const double share = fmax(size, SMALLEST);
    const double scale =
        detail_scale(booklet, strip / 2.0, FOLDED_MOST * share);
    struct binding_view view = {.booklet = booklet, .width = width};
    view.strip = strip * scale;
    view.folded = strip * scale / 2.0;
    view.seam = rational_double(booklet->design->pattern->seam) * scale;
    view.height = fmax(view.strip + view.folded + SPACE_LINE,
                       MM(28.0) * share);
    view.laid = doubled(booklet, plan->fabric);
    view.wrong = face_fill(canvas, colorway, plan->fabric, true, SHADE_WORK);
    view.wrong.stroke = LINE_MIDDLE;
    view.done = face_fill(canvas, colorway, plan->fabric, false, SHADE_DONE);
    view.quilt =
        face_fill(canvas, colorway, corner_fabric(booklet->quilt->cloth), false,
                  SHADE_WORK);
    view.back = (struct path_item){.filled = true, .fill = white};
    if (backing->wanted)
        view.back =
            face_fill(canvas, colorway, backing->fabric, false, SHADE_DONE);
    view.quilt.stroke = view.back.stroke = 0.0;
    return view;
}

/* The measure of the booklet, on which all its boxes are drawn. */
static const struct canvas *canvas_of(const struct binding_view *view)
{
    return &view->booklet->flow.canvas;
}

/* As large as all figures of the row. */
static struct box *view_box(const struct binding_view *view)
{
    return box_new(canvas_of(view), view->width, view->height);
}

/* It goes on to the left and below, where it has no line; to the right, too,
 * unless it ends there. */
static void draw_quilt(const struct binding_view *view, struct box *box,
                       double right, double top, struct path_item fill)
{
    const struct canvas *canvas = canvas_of(view);
    box_rectangle(canvas, box, 0.0, top, right, box->height - top, fill);
    box_stroke(canvas, box, 0.0, top, right, top, outline_wide());
    if (right < box->width)
        box_stroke(canvas, box, right, top, right, box->height, outline_wide());
}

/* Filled from end to end; edges above and below, and at an end that is one. */
static void draw_strip(const struct binding_view *view, struct box *box,
                       double from, double to, double top, bool begins,
                       bool ends)
{
    const struct canvas *canvas = canvas_of(view);
    const double bottom = top + view->folded;
    struct path_item fill = view->laid;
    fill.stroke = 0.0;
    box_rectangle(canvas, box, from, top, to - from, view->folded, fill);
    box_stroke(canvas, box, from, top, to, top, outline_wide());
    box_stroke(canvas, box, from, bottom, to, bottom, outline_wide());
    if (begins)
        box_stroke(canvas, box, from, top, from, bottom, outline_wide());
    if (ends)
        box_stroke(canvas, box, to, top, to, bottom, outline_wide());
}

/* A line of machine stitches. */
static void sew(const struct binding_view *view, struct box *box, double x1,
                double y1, double x2, double y2)
{
    draw_mark(canvas_of(view), box, MARK_SEWN, (struct point){x1, y1},
              (struct point){x2, y2});
}

/* Where sewing begins or ends. */
static void draw_stop(const struct binding_view *view, struct box *box,
                      double x, double y)
{
    enum { CORNERS = 12 };
    struct point points[CORNERS];
    for (int i = 0; i < CORNERS; i++) {
        const double turn = 2.0 * acos(-1.0) * i / CORNERS;
        points[i] =
            (struct point){x + MM(0.9) * cos(turn), y + MM(0.9) * sin(turn)};
    }
    struct path_item dot = casing(0.0);
    dot.filled = true;
    dot.fill = action_red;
    dot.role = ROLE_MARK;
    box_polygon(canvas_of(view), box, points, CORNERS, dot);
}

/* What is left out between two slanted lines. */
static void draw_break(const struct binding_view *view, struct box *box,
                       double x, double top, double bottom)
{
    const struct canvas *canvas = canvas_of(view);
    const double lean = MM(1.2), half = MM(0.7), over = MM(0.8);
    const struct point points[4] = {{x - half + lean, top - over},
                                    {x + half + lean, top - over},
                                    {x + half - lean, bottom + over},
                                    {x - half - lean, bottom + over}};
    box_polygon(canvas, box, points, 4,
                (struct path_item){.filled = true, .fill = white});
    box_stroke(canvas, box, points[0].x, points[0].y, points[3].x, points[3].y,
               outline_narrow());
    box_stroke(canvas, box, points[1].x, points[1].y, points[2].x, points[2].y,
               outline_narrow());
}

/* The seam with its unit, as the caption has it. */
static const char *seam_words(const struct binding_view *view)
{
    return word_length_unit(&view->booklet->wording,
                            view->booklet->design->pattern->seam);
}

/* Where the quilt ends at the right: an arrow stands beside it. */
static double right_edge(const struct binding_view *view)
{
    return view->width - MM(9.0);
}

/* ---- the strip ---- */

/* Two strips as an L. The seam leaves out the outer corner of the overlap, as
 * one through it would fold the strip back on itself. */
struct box *binding_join(const struct binding_view *view)
{
    const struct canvas *canvas = canvas_of(view);
    const struct binding_plan *plan = &view->booklet->plan->binding;
    struct box *box = view_box(view);
    const double w = view->strip, top = MM(4.0);
    const double left = view->width - w - MM(8.0);
    const double off = view->seam * sqrt(2.0);
    struct path_item upper = view->laid, waste = view->wrong;
    box_rectangle(canvas, box, 0.0, top, left + w, w, upper);
    box_rectangle(canvas, box, left, top, w, box->height - top, view->wrong);
    waste.fill = mixed(waste.fill, white, 0.66);
    waste.hatch = NULL;
    waste.role = ROLE_WASTE;
    const struct point corner[3] = {
        {left + off, top}, {left + w, top}, {left + w, top + w - off}};
    box_polygon(canvas, box, corner, 3, waste);
    sew(view, box, left, top, left + w, top + w);
    draw_mark(canvas, box, MARK_CUT,
              (struct point){left + off - MM(1.0), top - MM(1.0)},
              (struct point){left + w + MM(1.0), top + w - off + MM(1.0)});
    draw_turn(canvas, box,
              (struct point){left + w * 0.7, box->height - MM(2.0)},
              (struct point){left + w + MM(6.0), top + w + MM(1.0)});
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const char *label = view->booklet->plan->fabrics[plan->fabric]
                            .items.items[plan->item]
                            .label;
    const double height =
        typeset_measure(canvas->typeset, label, style, 0.0).height;
    box_label(canvas, box, left / 2.0, top + (w - height) / 2.0, label, style,
              0.0, true);
    return box;
}

/* The lower half goes up: raw edges are at the top, as they stay. */
struct box *binding_fold(const struct binding_view *view)
{
    const struct canvas *canvas = canvas_of(view);
    const struct wording *w = &view->booklet->wording;
    const char *raw = say(w->arena, w->phrases, "binding.raw-edges", NULL);
    const char *fold = say(w->arena, w->phrases, "binding.fold-edge", NULL);
    struct text_style style = style_size();
    style.color = ink;
    const struct text_extent a =
        typeset_measure(canvas->typeset, raw, style, 0.0);
    const struct text_extent b =
        typeset_measure(canvas->typeset, fold, style, 0.0);
    const double length = view->width - fmax(a.width, b.width) - SPACE_QUARTER;
    const double folded = view->height - view->folded;
    struct box *box = view_box(view);
    box_rectangle(canvas, box, 0.0, 0.0, length, view->strip, view->wrong);
    draw_mark(canvas, box, MARK_FOLD, (struct point){0.0, view->folded},
              (struct point){length, view->folded});
    draw_turn(canvas, box, (struct point){length * 0.55, view->strip - MM(2.0)},
              (struct point){length * 0.55, MM(2.0)});
    box_rectangle(canvas, box, 0.0, folded, length, view->folded, view->laid);
    box_label(canvas, box, length + SPACE_QUARTER, folded - a.height / 2.0, raw,
              style, 0.0, false);
    box_label(canvas, box, length + SPACE_QUARTER, view->height - b.height,
              fold, style, 0.0, false);
    return box;
}

/* ---- sewn to the front ---- */

/* The tail is longer than the figure: a break leaves out what it is more. */
struct box *binding_start(const struct binding_view *view, const char *tail)
{
    const struct canvas *canvas = canvas_of(view);
    struct box *box = view_box(view);
    const double top = DIMENSION_SPACE, end = MM(1.5);
    const double start = view->width * 0.52;
    draw_quilt(view, box, view->width, top, view->quilt);
    draw_strip(view, box, end, view->width, top, true, false);
    draw_break(view, box, view->width * 0.22, top, top + view->folded);
    /* The first stitch is clear of the dot. */
    sew(view, box, start + MM(1.9), top + view->seam, view->width,
        top + view->seam);
    draw_stop(view, box, start, top + view->seam);
    draw_dimension(canvas, box, end, top, start - end, false, tail);
    const double y = top + view->folded + MM(4.0);
    draw_arrow(canvas, box, start, y, start + MM(9.0), y);
    return box;
}

/* The strip hides the edge of the quilt, which is dashed; it goes on beyond. */
struct box *binding_stop(const struct binding_view *view)
{
    struct box *box = view_box(view);
    const double top = DIMENSION_SPACE, right = right_edge(view);
    const struct path_item hidden = {
        .stroke = LINE_FINE, .stroke_color = ink, .dash = {MM(1.6), MM(0.6)}};
    draw_quilt(view, box, right, top, view->quilt);
    draw_strip(view, box, 0.0, view->width, top, false, false);
    box_stroke(canvas_of(view), box, right, top, right, top + view->folded,
               hidden);
    sew(view, box, 0.0, top + view->seam, right - view->seam, top + view->seam);
    draw_stop(view, box, right - view->seam, top + view->seam);
    draw_dimension(canvas_of(view), box, right - view->seam, top, view->seam,
                   false, seam_words(view));
    return box;
}

/* The strip up to its fold, which runs down to the left from the corner. */
static void draw_to_corner(const struct binding_view *view, struct box *box,
                           double right, double top)
{
    const double f = view->folded;
    const struct point points[4] = {
        {-1.0, top}, {right, top}, {right - f, top + f}, {-1.0, top + f}};
    struct path_item fill = view->laid;
    const struct canvas *canvas = canvas_of(view);
    struct point inside[4] = {points[0], points[1], points[2], points[3]};
    inside[0].x = inside[3].x = 0.0;
    fill.stroke = 0.0;
    box_polygon(canvas, box, inside, 4, fill);
    box_stroke(canvas, box, 0.0, top, right, top, outline_wide());
    box_stroke(canvas, box, 0.0, top + f, right - f, top + f, outline_wide());
}

/* A fold that hands make and that must be seen. */
static void draw_crease(const struct binding_view *view, struct box *box,
                        double x1, double y1, double x2, double y2)
{
    box_stroke(canvas_of(view), box, x1, y1, x2, y2,
               (struct path_item){.stroke = LINE_BROAD, .stroke_color = ink});
}

/* A line at 45 degrees through the corner turns the strip from along the top
 * edge to along the right one, so that its raw edges stay in one line with it.
 */
struct box *binding_up(const struct binding_view *view)
{
    const struct canvas *canvas = canvas_of(view);
    struct box *box = view_box(view);
    const double f = view->folded, right = right_edge(view);
    /* The quilt below it, and above it room for the arrow. */
    const double below = fmin(MM(7.0), view->height / 4.0);
    const double top = view->height - f - below;
    draw_quilt(view, box, right, top, view->quilt);
    draw_to_corner(view, box, right, top);
    sew(view, box, 0.0, top + view->seam, right - f, top + view->seam);
    const struct point up[4] = {
        {right, top}, {right - f, top + f}, {right - f, 0.0}, {right, 0.0}};
    struct path_item fill = view->laid;
    fill.stroke = 0.0;
    box_polygon(canvas, box, up, 4, fill);
    box_stroke(canvas, box, right - f, top + f, right - f, 0.0, outline_wide());
    box_stroke(canvas, box, right, top, right, 0.0, outline_wide());
    draw_crease(view, box, right, top, right - f, top + f);
    draw_arrow(canvas, box, right + MM(4.0), top, right + MM(4.0), MM(3.0));
    box_label(canvas, box, right - f - MM(7.0), top + f + MM(1.0), "45\u00b0",
              style_figure(), 0.0, false);
    return box;
}

/* The second fold is level with the top edge: from there the next seam begins,
 * as the first one ended a seam before the corner. */
struct box *binding_down(const struct binding_view *view)
{
    const struct canvas *canvas = canvas_of(view);
    const struct wording *w = &view->booklet->wording;
    struct box *box = view_box(view);
    const double f = view->folded, right = right_edge(view), top = MM(5.0);
    struct text_style style = style_size();
    style.color = ink;
    style.align = ALIGN_CENTER;
    draw_quilt(view, box, right, top, view->quilt);
    draw_to_corner(view, box, right, top);
    sew(view, box, 0.0, top + view->seam, right - f, top + view->seam);
    struct path_item fill = view->laid;
    fill.stroke = 0.0;
    box_rectangle(canvas, box, right - f, top, f, box->height - top, fill);
    box_stroke(canvas, box, right - f, top, right - f, box->height,
               outline_wide());
    box_stroke(canvas, box, right, top, right, box->height, outline_wide());
    draw_crease(view, box, right - f, top, right, top);
    sew(view, box, right - view->seam, top, right - view->seam, box->height);
    draw_arrow(canvas, box, right + MM(4.0), top + MM(3.0), right + MM(4.0),
               box->height - MM(3.0));
    box_label(canvas, box, right - f / 2.0, top - MM(4.2),
              say(w->arena, w->phrases, "binding.fold-edge", NULL), style, 0.0,
              false);
    return box;
}

/* Both tails lie over each other by the width of the strip as cut, as a
 * diagonal seam takes so much of one of them (derived). */
struct box *binding_close(const struct binding_view *view)
{
    const struct canvas *canvas = canvas_of(view);
    struct box *box = view_box(view);
    const double top = DIMENSION_SPACE, middle = view->width / 2.0;
    const double half = view->strip / 2.0, free = half + MM(4.0);
    const double y = top + view->seam;
    draw_quilt(view, box, view->width, top, view->quilt);
    draw_strip(view, box, middle - half, view->width, top, true, false);
    draw_strip(view, box, 0.0, middle + half, top, false, true);
    sew(view, box, 0.0, y, middle - free, y);
    sew(view, box, middle + free, y, view->width, y);
    draw_stop(view, box, middle - free, y);
    draw_stop(view, box, middle + free, y);
    const struct path_item hidden = {
        .stroke = LINE_FINE, .stroke_color = ink, .dash = {MM(1.6), MM(0.6)}};
    box_stroke(canvas, box, middle - half, top, middle - half,
               top + view->folded, hidden);
    draw_dimension(canvas, box, middle - half, top, view->strip, false,
                   word_length_unit(&view->booklet->wording,
                                    view->booklet->plan->binding.width));
    draw_mark(canvas, box, MARK_CUT,
              (struct point){middle + half, top + view->folded + MM(5.0)},
              (struct point){middle + half, top - MM(0.5)});
    return box;
}

/* ---- the back ---- */

/* Slip stitches across an edge, from one point to another. */
static void draw_slips(const struct binding_view *view, struct box *box,
                       struct point from, struct point to)
{
    const struct path_item red = {
        .stroke = LINE_MIDDLE, .stroke_color = action_red, .role = ROLE_MARK};
    const double length = hypot(to.x - from.x, to.y - from.y);
    const double reach = MM(0.6), step = MM(2.4);
    for (double at = step / 2.0; at < length; at += step) {
        const double x = from.x + (to.x - from.x) * at / length;
        const double y = from.y + (to.y - from.y) * at / length;
        box_stroke(canvas_of(view), box, x - reach, y - reach, x + reach,
                   y + reach, casing(red.stroke));
        box_stroke(canvas_of(view), box, x - reach, y - reach, x + reach,
                   y + reach, red);
    }
}

/* White cloth with words on it, sewn on at the lower left. */
static void draw_name_label(const struct binding_view *view, struct box *box,
                            double left, double bottom)
{
    const struct canvas *canvas = canvas_of(view);
    const struct wording *w = &view->booklet->wording;
    const char *text = say(w->arena, w->phrases, "binding.label-words", NULL);
    struct text_style style = style_size();
    style.color = ink;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    const double pad = MM(1.2), high = extent.height + 2.0 * pad;
    struct path_item cloth = outline_narrow();
    cloth.filled = true;
    cloth.fill = white;
    box_rectangle(canvas, box, left, bottom - high, extent.width + 2.0 * pad,
                  high, cloth);
    box_label(canvas, box, left + pad, bottom - high + pad, text, style, 0.0,
              false);
}

/* Of the folded strip one seam lies under the stitches and one covers the edge
 * of the front; what is left covers the back, at least as much as the seam. */
struct box *binding_back(const struct binding_view *view, double width)
{
    const struct canvas *canvas = canvas_of(view);
    const double back = fmax(view->folded - 2.0 * view->seam, view->seam);
    struct box *box = box_new(canvas, width, view->height - MM(4.0));
    const double right = width - MM(2.0), top = MM(1.0);
    const struct point upper[4] = {{0.0, top},
                                   {right, top},
                                   {right - back, top + back},
                                   {0.0, top + back}};
    const struct point side[4] = {{right, top},
                                  {right, box->height},
                                  {right - back, box->height},
                                  {right - back, top + back}};
    box_rectangle(canvas, box, 0.0, top, right, box->height - top, view->back);
    box_polygon(canvas, box, upper, 4, view->done);
    box_polygon(canvas, box, side, 4, view->done);
    /* Above all that ends at it, which would cover half of it. */
    box_stroke(canvas, box, 0.0, top, right, top, outline_wide());
    box_stroke(canvas, box, right, top, right, box->height, outline_wide());
    struct path_item mitre = view->done;
    mitre.stroke = LINE_BROAD;
    mitre.filled = false;
    mitre.hatch = NULL;
    box_stroke(canvas, box, right, top, right - back, top + back, mitre);
    draw_slips(view, box, (struct point){0.0, top + back},
               (struct point){right - back, top + back});
    draw_slips(view, box, (struct point){right - back, top + back},
               (struct point){right - back, box->height});
    draw_name_label(view, box, MM(1.5), box->height - MM(3.0));
    return box;
}
