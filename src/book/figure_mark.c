/* Signs in figures: drawn, sewn and cut lines, pressing arrows, turns. */
#include "figure_parts.h"

#include <math.h>

/* Lines to draw, to sew and to cut each have a style of their own, as they
 * often lie side by side on one piece. */
static void draw_marks(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *mark = &state->marks.items[i];
        const struct point p = shown_point(figure, mark->from, 0, 0);
        const struct point q = shown_point(figure, mark->to, 0, 0);
        box_stroke(figure->canvas, box, p.x - origin.left, p.y - origin.top,
                   q.x - origin.left, q.y - origin.top, mark_style(mark->kind));
    }
}

/* A filled head, about 17 degrees to each side (0.31 is its tangent): it shows
 * the direction even where the shaft is too short to. requires: two points that
 * differ, as the direction is divided by their distance. */
void draw_arrow(const struct canvas *canvas, struct box *box, double x1,
                double y1, double x2, double y2)
{
    const double length = hypot(x2 - x1, y2 - y1);
    const double ux = (x2 - x1) / length, uy = (y2 - y1) / length;
    /* The head of a short arrow is in proportion. */
    const double head = fmin(7.0, length * 0.55), half = head * 0.31;
    const struct point points[3] = {
        {x2, y2},
        {x2 - ux * head - uy * half, y2 - uy * head + ux * half},
        {x2 - ux * head + uy * half, y2 - uy * head - ux * half}};
    const double neck_x = x2 - ux * head * 0.8, neck_y = y2 - uy * head * 0.8;
    struct path_item shaft = outline_narrow();
    shaft.stroke = 1.0;
    /* White around it, so that it shows on dark cloth. */
    struct path_item halo = {
        .stroke = 3.2, .stroke_color = white, .filled = true, .fill = white};
    box_stroke(canvas, box, x1, y1, neck_x, neck_y, halo);
    box_polygon(canvas, box, points, 3, halo);
    box_stroke(canvas, box, x1, y1, neck_x, neck_y, shaft);
    box_polygon(canvas, box, points, 3,
                (struct path_item){.filled = true, .fill = ink});
}

/* A flap turns over its seam: a bow with a head, beside the arrow for pressing
 * a style of its own. It is a quadratic curve of Bezier in straight pieces. The
 * last two are left to the head, which would sit on a blunt end otherwise;
 * polygons close themselves, so that this one is opened again. */
void draw_turn(const struct canvas *canvas, struct box *box, struct point from,
               struct point to)
{
    enum { STEPS = 12 };
    const double dx = to.x - from.x, dy = to.y - from.y;
    const struct point bend = {(from.x + to.x) / 2.0 + dy * 0.45,
                               (from.y + to.y) / 2.0 - dx * 0.45};
    struct point points[STEPS + 1];
    for (int i = 0; i <= STEPS; i++) {
        const double t = i / (double)STEPS, s = 1.0 - t;
        points[i] = (struct point){
            s * s * from.x + 2.0 * s * t * bend.x + t * t * to.x,
            s * s * from.y + 2.0 * s * t * bend.y + t * t * to.y};
    }
    struct path_item bow = outline_narrow();
    struct path_item halo = bow;
    halo.stroke = 3.0;
    halo.stroke_color = white;
    bow.dash[0] = 2.2;
    bow.dash[1] = 1.6;
    box_polygon(canvas, box, points, STEPS - 1, halo);
    box->items.items[box->items.count - 1].as.path.closed = false;
    box_polygon(canvas, box, points, STEPS - 1, bow);
    box->items.items[box->items.count - 1].as.path.closed = false;
    draw_arrow(canvas, box, points[STEPS - 3].x, points[STEPS - 3].y, to.x,
               to.y);
}

/* The figure's own coordinates begin anywhere; the box begins at 0. */
static void draw_turns(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->turns.count; i++) {
        struct point from =
            shown_point(figure, state->turns.items[i].from, 0, 0);
        struct point to = shown_point(figure, state->turns.items[i].to, 0, 0);
        from.x -= origin.left;
        from.y -= origin.top;
        to.x -= origin.left;
        to.y -= origin.top;
        draw_turn(figure->canvas, box, from, to);
    }
}

/* Only lines to draw have a word, and only where it fits: the text names them
 * anyway. */
static void label_lines(const struct figure *figure, struct box *box,
                        const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct line_label label = line_label(figure, state, i);
        if (label.text != NULL)
            box_label(figure->canvas, box, label.top.x - origin.left,
                      label.top.y - origin.top, label.text, label.style,
                      label.angle, true);
    }
}

/* Half the length of pressing arrows: short enough to keep them apart and on
 * the cloth. */
static double press_reach(const struct figure *figure,
                          const struct state *state, struct extent extent)
{
    double reach = 11.0;
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        const struct point at =
            shown_point(figure, mark->at, mark->gap_x, mark->gap_y);
        if (mark->across_x != 0)
            reach = fmin(reach, fmin(at.x - extent.left, extent.right - at.x));
        if (mark->across_y != 0)
            reach = fmin(reach, fmin(at.y - extent.top, extent.bottom - at.y));
        for (size_t k = 0; k < i; k++) {
            const struct press_mark *other = &state->presses.items[k];
            const struct point there =
                shown_point(figure, other->at, other->gap_x, other->gap_y);
            reach =
                fmin(reach, hypot(at.x - there.x, at.y - there.y) / 2.0 - 1.4);
        }
    }
    return fmax(reach, 3.0);
}

/* How far an arrow is drawn back so that its head stays on a narrow strip at
 * the edge of the cloth: `at` lies inside. */
static double drawn_back(struct point at, struct extent extent, double dx,
                         double dy)
{
    const double x = dx > 0.0   ? dx - (extent.right - at.x)
                     : dx < 0.0 ? -dx - (at.x - extent.left)
                                : 0.0;
    const double y = dy > 0.0   ? dy - (extent.bottom - at.y)
                     : dy < 0.0 ? -dy - (at.y - extent.top)
                                : 0.0;
    const double over = fmax(x, y) + 0.2;
    return over > 0.2 ? over / hypot(dx, dy) : 0.0;
}

/* All arrows of one state have one length: a longer one would seem to say
 * more. */
static void draw_press(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    const double reach = press_reach(figure, state, origin);
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        struct point at =
            shown_point(figure, mark->at, mark->gap_x, mark->gap_y);
        const bool open = mark->x == 0 && mark->y == 0;
        const double x = open ? mark->across_x : mark->x;
        const double y = open ? mark->across_y : mark->y;
        const double dx = x / hypot(x, y) * reach, dy = y / hypot(x, y) * reach;
        const double back = open ? 0.0 : drawn_back(at, origin, dx, dy);
        at.x -= origin.left + back * dx;
        at.y -= origin.top + back * dy;
        /* Open: two opposed heads, across the seam. */
        draw_arrow(figure->canvas, box, at.x - (open ? 0.0 : dx),
                   at.y - (open ? 0.0 : dy), at.x + dx, at.y + dy);
        if (open)
            draw_arrow(figure->canvas, box, at.x, at.y, at.x - dx, at.y - dy);
    }
}

/* What comes later lies on top: arrows cross lines, and must not be cut by
 * them. */
void draw_signs(const struct figure *figure, struct box *box,
                const struct state *state, struct extent origin)
{
    draw_marks(figure, box, state, origin);
    if (figure->heap != NULL)
        label_lines(figure, box, state, origin);
    draw_press(figure, box, state, origin);
    draw_turns(figure, box, state, origin);
}
