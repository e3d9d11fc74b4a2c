/* Signs in figures: drawn, sewn and cut lines, pressing arrows, turns. */
#include "figure_parts.h"

#include <math.h>

static void draw_blade(const struct canvas *canvas, struct box *box,
                       struct point at, double ux, double uy, int side,
                       struct path_item line)
{
    enum { CORNERS = 12 };
    const double blade = MM(3.4), grip = MM(0.75), back = MM(1.5);
    const double vx = -uy * side, vy = ux * side;
    const struct point ring = {at.x - ux * back + vx * grip * 1.3,
                               at.y - uy * back + vy * grip * 1.3};
    const struct point tip = {at.x + ux * (blade - back) - vx * grip * 1.2,
                              at.y + uy * (blade - back) - vy * grip * 1.2};
    struct point points[CORNERS];
    for (int i = 0; i < CORNERS; i++) {
        const double turn = 2.0 * acos(-1.0) * i / CORNERS;
        points[i] = (struct point){ring.x - ux * grip + grip * cos(turn),
                                   ring.y - uy * grip + grip * sin(turn)};
    }
    box_polygon(canvas, box, points, CORNERS, line);
    box_stroke(canvas, box, ring.x, ring.y, tip.x, tip.y, line);
}

/* Scissors at the start of a cut, their blades open towards it: two strokes and
 * two rings, which may lie on any cloth. */
static void draw_scissors(const struct canvas *canvas, struct box *box,
                          struct point at, double ux, double uy)
{
    const struct path_item line = {.stroke = LINE_MIDDLE,
                                   .stroke_color = action_red};
    for (int side = -1; side <= 1; side += 2)
        draw_blade(canvas, box, at, ux, uy, side, casing(line.stroke));
    for (int side = -1; side <= 1; side += 2)
        draw_blade(canvas, box, at, ux, uy, side, line);
}

/* A casing parts a red line from any cloth; one that is drawn lies on the wrong
 * side, which is pale. */
static void draw_line(const struct canvas *canvas, struct box *box,
                      enum mark_kind kind, struct point from, struct point to)
{
    const struct path_item style = mark_style(kind);
    if (kind == MARK_SEWN || kind == MARK_CUT)
        box_stroke(canvas, box, from.x, from.y, to.x, to.y,
                   casing(style.stroke));
    box_stroke(canvas, box, from.x, from.y, to.x, to.y, style);
}

/* Where a seam ends, or a place that is measured. */
#define DOT_SIZE MM(1.3)

static void draw_dot(const struct canvas *canvas, struct box *box,
                     struct point at)
{
    enum { CORNERS = 16 };
    struct point points[CORNERS];
    for (int i = 0; i < CORNERS; i++) {
        const double turn = 2.0 * acos(-1.0) * i / CORNERS;
        points[i] = (struct point){at.x + DOT_SIZE / 2.0 * cos(turn),
                                   at.y + DOT_SIZE / 2.0 * sin(turn)};
    }
    box_polygon(canvas, box, points, CORNERS, casing(0.0));
    box_polygon(canvas, box, points, CORNERS,
                (struct path_item){
                    .filled = true, .fill = action_red, .role = ROLE_MARK});
}

void draw_mark(const struct canvas *canvas, struct box *box,
               enum mark_kind kind, struct point from, struct point to)
{
    if (kind == MARK_DOT) {
        draw_dot(canvas, box, from);
        return;
    }
    const double length = hypot(to.x - from.x, to.y - from.y);
    draw_line(canvas, box, kind, from, to);
    if (kind == MARK_CUT && length > MM(8.9)) {
        const double ux = (to.x - from.x) / length,
                     uy = (to.y - from.y) / length;
        draw_scissors(
            canvas, box,
            (struct point){from.x - ux * MM(1.2), from.y - uy * MM(1.2)}, ux,
            uy);
    }
}

/* ---- waste ---- */

static bool face_holds(const struct figure *figure,
                       const struct shown_face *shown, struct point p)
{
    bool left = false, right = false;
    for (size_t i = 0; i < shown->face.count; i++) {
        const struct point a = shown_point(figure, shown->face.points[i],
                                           shown->gap_x, shown->gap_y);
        const struct point b =
            shown_point(figure, shown->face.points[(i + 1) % shown->face.count],
                        shown->gap_x, shown->gap_y);
        const double side =
            (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        left |= side < 0.0;
        right |= side > 0.0;
    }
    return !(left && right);
}

/* The cloth that is seen there, or NULL. */
static const struct face *face_under(const struct figure *figure,
                                     const struct state *state, struct point p)
{
    for (size_t i = state->faces.count; i-- > 0;)
        if (face_holds(figure, &state->faces.items[i], p))
            return &state->faces.items[i].face;
    return NULL;
}

/* Beyond a diagonal cut lies a corner of the cloth: a triangle of one cloth, as
 * the square that was laid on covers it. */
void draw_waste(const struct figure *figure, struct box *box,
                const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *cut = &state->marks.items[i];
        const struct point p = shown_point(figure, cut->from, 0, 0);
        const struct point q = shown_point(figure, cut->to, 0, 0);
        const struct point corner = {
            cut->waste_x > 0 ? fmax(p.x, q.x) : fmin(p.x, q.x),
            cut->waste_y > 0 ? fmax(p.y, q.y) : fmin(p.y, q.y)};
        const struct point middle = {(p.x + q.x + corner.x) / 3.0,
                                     (p.y + q.y + corner.y) / 3.0};
        const struct face *face = cut->waste_x == 0 && cut->waste_y == 0
                                      ? NULL
                                      : face_under(figure, state, middle);
        if (face == NULL)
            continue;
        struct path_item waste =
            face_fill(figure->canvas, figure->colorway, face->fabric,
                      face->wrong_side, figure->shade);
        waste.fill = mixed(waste.fill, white, 0.66);
        waste.hatch = NULL;
        waste.role = ROLE_WASTE;
        const struct point points[3] = {
            {p.x - origin.left, p.y - origin.top},
            {q.x - origin.left, q.y - origin.top},
            {corner.x - origin.left, corner.y - origin.top}};
        box_polygon(figure->canvas, box, points, 3, waste);
    }
}

/* ---- lines ---- */

/* Lines to draw, to sew and to cut each have a style of their own, as they
 * often lie side by side on one piece. */
static void draw_marks(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *mark = &state->marks.items[i];
        struct point p =
            shown_point(figure, mark->from, mark->gap_x, mark->gap_y);
        struct point q =
            shown_point(figure, mark->to, mark->gap_x, mark->gap_y);
        p.x -= origin.left;
        p.y -= origin.top;
        q.x -= origin.left;
        q.y -= origin.top;
        if (mark->goes_on)
            draw_line(figure->canvas, box, mark->kind, p, q);
        else
            draw_mark(figure->canvas, box, mark->kind, p, q);
    }
}

/* Heads have one size, so that they are one sign: slender, three times as long
 * as wide. */
#define HEAD_LONG MM(2.7)
#define HEAD_WIDE (HEAD_LONG / 3.0)

/* `u` is the way to the tip. */
static void head_at(struct point tip, double ux, double uy,
                    struct point points[3])
{
    const double half = HEAD_WIDE / 2.0;
    const double x = tip.x - ux * HEAD_LONG, y = tip.y - uy * HEAD_LONG;
    points[0] = tip;
    points[1] = (struct point){x - uy * half, y + ux * half};
    points[2] = (struct point){x + uy * half, y - ux * half};
}

/* An arrow as it is drawn: its head, and the shaft from `from` to its neck. */
struct arrow {
    struct point from, neck, head[3];
};

/* requires: two points that differ, as the direction is divided by their
 * distance. */
static struct arrow arrow_of(struct point from, struct point to)
{
    const double length = hypot(to.x - from.x, to.y - from.y);
    const double ux = (to.x - from.x) / length, uy = (to.y - from.y) / length;
    const double neck = fmin(HEAD_LONG * 0.8, length);
    struct arrow arrow = {from, {to.x - ux * neck, to.y - uy * neck}, {{0, 0}}};
    head_at(to, ux, uy, arrow.head);
    return arrow;
}

static void draw_halo(const struct canvas *canvas, struct box *box,
                      const struct arrow *arrow)
{
    struct path_item halo = casing(0.0);
    halo.filled = true;
    halo.fill = white;
    box_stroke(canvas, box, arrow->from.x, arrow->from.y, arrow->neck.x,
               arrow->neck.y, casing(LINE_MIDDLE));
    box_polygon(canvas, box, arrow->head, 3, halo);
}

static void draw_ink(const struct canvas *canvas, struct box *box,
                     const struct arrow *arrow)
{
    const struct path_item shaft = {
        .stroke = LINE_MIDDLE, .stroke_color = action_red, .role = ROLE_MARK};
    box_stroke(canvas, box, arrow->from.x, arrow->from.y, arrow->neck.x,
               arrow->neck.y, shaft);
    box_polygon(canvas, box, arrow->head, 3,
                (struct path_item){
                    .filled = true, .fill = action_red, .role = ROLE_MARK});
}

/* A filled head on a shaft, which a short arrow lacks. */
void draw_arrow(const struct canvas *canvas, struct box *box, double x1,
                double y1, double x2, double y2)
{
    const struct arrow arrow =
        arrow_of((struct point){x1, y1}, (struct point){x2, y2});
    draw_halo(canvas, box, &arrow);
    draw_ink(canvas, box, &arrow);
}

/* Two opposed heads, which are as long as any: they stand back to back at the
 * nearest, and the halo of neither lies on the other. */
void draw_open_arrow(const struct canvas *canvas, struct box *box,
                     struct point at, double dx, double dy)
{
    const double longer = fmax(1.0, HEAD_LONG / hypot(dx, dy));
    const double x = dx * longer, y = dy * longer;
    const struct arrow arrows[2] = {
        arrow_of(at, (struct point){at.x + x, at.y + y}),
        arrow_of(at, (struct point){at.x - x, at.y - y})};
    for (int i = 0; i < 2; i++)
        draw_halo(canvas, box, &arrows[i]);
    for (int i = 0; i < 2; i++)
        draw_ink(canvas, box, &arrows[i]);
}

bool has_way(const struct canvas *canvas, int fabric)
{
    return canvas->design != NULL &&
           canvas->design->fabrics.items[fabric].one_way;
}

void draw_print(const struct canvas *canvas, struct box *box, double x,
                double y, unsigned eighths, double length, struct color color)
{
    const double angle = eighths * 3.14159265358979 / 4.0;
    const double ux = sin(angle), uy = -cos(angle), half = length / 2.0;
    const double head = length * 0.3;
    const struct path_item line = {.stroke = LINE_MIDDLE,
                                   .stroke_color = color};
    const struct point tip = {x + ux * half, y + uy * half};
    box_stroke(canvas, box, x - ux * half, y - uy * half, tip.x, tip.y, line);
    for (int side = -1; side <= 1; side += 2)
        box_stroke(canvas, box, tip.x - head * (ux + side * uy),
                   tip.y - head * (uy - side * ux), tip.x, tip.y, line);
}

/* Open at the lower right, where its head is; the number stands inside. Parts
 * of a circle in straight pieces. */
void draw_turned(const struct canvas *canvas, struct box *box, double x,
                 double y, double ring, unsigned quarters)
{
    enum { CORNERS = 30, ARC = 25 };
    static const char *const turns[] = {"", "\u00bc", "\u00bd", "\u00be"};
    const double radius = ring / 2.0, pi = acos(-1.0);
    struct point disc[CORNERS], arc[ARC + 1];
    for (int i = 0; i < CORNERS; i++)
        disc[i] = (struct point){
            x + (radius + LINE_BROAD) * cos(2.0 * pi * i / CORNERS),
            y + (radius + LINE_BROAD) * sin(2.0 * pi * i / CORNERS)};
    /* From straight below, clockwise, to the right. */
    for (int i = 0; i <= ARC; i++) {
        const double turn = pi * 0.55 + pi * 1.35 * i / ARC;
        arc[i] = (struct point){x + radius * cos(turn), y + radius * sin(turn)};
    }
    box_polygon(canvas, box, disc, CORNERS,
                (struct path_item){.filled = true, .fill = white});
    box_polygon(canvas, box, arc, ARC + 1,
                (struct path_item){.stroke = LINE_BROAD,
                                   .stroke_color = action_red,
                                   .role = ROLE_MARK});
    box->items.items[box->items.count - 1].as.path.closed = false;
    const struct point tip = arc[ARC];
    const double at = pi * 1.9, ux = -sin(at), uy = cos(at);
    struct point head[3];
    head_at((struct point){tip.x + ux * HEAD_LONG, tip.y + uy * HEAD_LONG}, ux,
            uy, head);
    box_polygon(canvas, box, head, 3,
                (struct path_item){
                    .filled = true, .fill = action_red, .role = ROLE_MARK});
    struct text_style style = ring < TURN_RING ? style_figure() : style_bold();
    style.align = ALIGN_CENTER;
    style.color = action_red;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, turns[quarters % 4], style, 0.0);
    box_label(canvas, box, x, y - extent.height / 2.0, turns[quarters % 4],
              style, 0.0, false);
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
    const struct path_item bow = {
        .stroke = LINE_MIDDLE, .stroke_color = action_red, .role = ROLE_MARK};
    const struct path_item halo = casing(bow.stroke);
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

/* Where the arrow of each seam stands, as it lies on the page. */
struct press_places {
    struct point *points; /* by mark */
    size_t count;
};

/* The distance to the nearest other arrow from a place of one. */
static double nearest_arrow(const struct press_places *places, size_t own,
                            struct point at)
{
    double nearest = HUGE_VAL;
    for (size_t i = 0; i < places->count; i++)
        if (i != own)
            nearest = fmin(nearest, hypot(at.x - places->points[i].x,
                                          at.y - places->points[i].y));
    return nearest;
}

static double room_around(struct extent extent, struct point at)
{
    return fmin(fmin(at.x - extent.left, extent.right - at.x),
                fmin(at.y - extent.top, extent.bottom - at.y));
}

/* At a corner that is cut at a slant, nearer to its inner end where the cloth
 * is too narrow in the middle for both heads of an arrow. */
static struct point at_corner(const struct figure *figure,
                              const struct press_mark *mark,
                              struct extent extent, struct point middle)
{
    const struct point end =
        shown_point(figure, mark->end, mark->gap_x, mark->gap_y);
    if (mark->across_x == 0 || mark->across_y == 0 || mark->x != 0 ||
        mark->y != 0 || room_around(extent, middle) * sqrt(2.0) > HEAD_LONG)
        return middle;
    const double x = (end.x - middle.x) / 2.0, y = (end.y - middle.y) / 2.0;
    const struct point one = {middle.x + x, middle.y + y};
    const struct point other = {middle.x - x, middle.y - y};
    return room_around(extent, one) > room_around(extent, other) ? one : other;
}

/* In the middle of its seam, unless two arrows are too near there to be read
 * and another part of the seam is free. */
static struct press_places press_places(const struct figure *figure,
                                        const struct state *state,
                                        struct extent extent)
{
    static const double slides[] = {0.5, -0.5, 0.25, -0.25, 0.75, -0.75};
    const size_t count = state->presses.count;
    struct press_places places = {
        ARENA_ARRAY(figure->canvas->arena, struct point, count + 1), count};
    for (size_t i = 0; i < count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        places.points[i] =
            at_corner(figure, mark, extent,
                      shown_point(figure, mark->at, mark->gap_x, mark->gap_y));
    }
    /* No figure has room for more: where all are crowded, none is moved, which
     * would take time that grows with their square. */
    enum { ROOM_FOR = 400 };
    for (size_t i = 0; i < count && count <= ROOM_FOR; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        const struct point middle = places.points[i];
        const struct point end =
            shown_point(figure, mark->end, mark->gap_x, mark->gap_y);
        const bool open = mark->x == 0 && mark->y == 0;
        const double apart = (open ? 2.0 : 1.0) * HEAD_LONG + 3.0;
        double nearest = nearest_arrow(&places, i, middle);
        for (size_t k = 0;
             nearest < apart && k < sizeof slides / sizeof slides[0]; k++) {
            const struct point at = {middle.x + slides[k] * (end.x - middle.x),
                                     middle.y + slides[k] * (end.y - middle.y)};
            nearest = nearest_arrow(&places, i, at);
            if (nearest >= apart)
                places.points[i] = at;
        }
    }
    return places;
}

/* Half the length of pressing arrows: short enough to keep them apart and on
 * the cloth. */
static double press_reach(const struct state *state,
                          const struct press_places *places,
                          struct extent extent)
{
    const double least = HEAD_LONG * 0.5;
    double reach = 11.0;
    for (size_t i = 0; i < state->presses.count && reach > least; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        const struct point at = places->points[i];
        if (mark->across_x != 0)
            reach = fmin(reach, fmin(at.x - extent.left, extent.right - at.x));
        if (mark->across_y != 0)
            reach = fmin(reach, fmin(at.y - extent.top, extent.bottom - at.y));
        for (size_t k = 0; k < i && reach > least; k++) {
            const struct point other = places->points[k];
            reach =
                fmin(reach, hypot(at.x - other.x, at.y - other.y) / 2.0 - 1.4);
        }
    }
    return fmax(reach, least);
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
    const struct press_places places = press_places(figure, state, origin);
    const double reach = press_reach(state, &places, origin);
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        struct point at = places.points[i];
        const bool open = mark->x == 0 && mark->y == 0;
        const double x = open ? mark->across_x : mark->x;
        const double y = open ? mark->across_y : mark->y;
        const double dx = x / hypot(x, y) * reach, dy = y / hypot(x, y) * reach;
        const double back = open ? 0.0 : drawn_back(at, origin, dx, dy);
        at.x -= origin.left + back * dx;
        at.y -= origin.top + back * dy;
        if (open) /* across the seam */
            draw_open_arrow(figure->canvas, box, at, dx, dy);
        else
            draw_arrow(figure->canvas, box, at.x - dx, at.y - dy, at.x + dx,
                       at.y + dy);
    }
}

/* ---- measured places ---- */

/* The length stands inside of the cloth, away from the corner, clear of the
 * line that runs from this place to the other one; not where it has no room, as
 * the text tells it, too. */
static void draw_reach(const struct figure *figure, struct box *box,
                       const struct edge_point *point, struct point at,
                       struct point other)
{
    const struct canvas *canvas = figure->canvas;
    const char *length = word_length_mark(figure->wording, point->reach);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, length, style, 0.0);
    const double gap = MM(1.4), high = extent.height, wide = extent.width;
    const double dx = fabs(other.x - at.x), dy = fabs(other.y - at.y);
    const bool level = point->x == 0;
    const double clear =
        level ? (high + gap) * dx / dy + gap : (wide + gap) * dy / dx + gap;
    const bool fits = level ? clear + wide < dx && 2.0 * (high + gap) < dy
                            : clear + high < dy && 2.0 * (wide + gap) < dx;
    if (!fits)
        return;
    const double x = level ? at.x + point->along_x * (clear + wide / 2.0)
                           : at.x + point->x * (gap + wide / 2.0);
    const double y = level ? at.y + point->y * (gap + high / 2.0)
                           : at.y + point->along_y * (clear + high / 2.0);
    box_label(canvas, box, x, y - high / 2.0, length, style, 0.0, true);
}

/* Two, at both ends of one line. */
static void draw_points(const struct figure *figure, struct box *box,
                        const struct state *state, struct extent origin)
{
    for (size_t i = 0; i < state->points.count; i++) {
        const struct edge_point *point = &state->points.items[i];
        const struct edge_point *next =
            &state->points.items[(i + 1) % state->points.count];
        struct point at = shown_point(figure, point->at, 0, 0);
        struct point other = shown_point(figure, next->at, 0, 0);
        at.x -= origin.left;
        at.y -= origin.top;
        other.x -= origin.left;
        other.y -= origin.top;
        draw_dot(figure->canvas, box, at);
        if (figure->wording != NULL)
            draw_reach(figure, box, point, at, other);
    }
}

/* What comes later lies on top: arrows cross lines, and must not be cut by
 * them. */
void draw_signs(const struct figure *figure, struct box *box,
                const struct state *state, struct extent origin)
{
    draw_marks(figure, box, state, origin);
    if (figure->parts != NULL)
        label_lines(figure, box, state, origin);
    draw_press(figure, box, state, origin);
    draw_turns(figure, box, state, origin);
    draw_points(figure, box, state, origin);
}
