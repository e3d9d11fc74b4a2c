/* Faces below, then outlines and labels, then lines, then pressing: what
 * matters to hands lies on top. Points from the box's corner; `origin` is what
 * is taken off. */
#include "figure.h"

#include <math.h>
#include <string.h>

/* ---- fills and lines ---- */

/* `share` of b, the rest of a. */
static struct color mixed(struct color a, struct color b, double share)
{
    return (struct color){a.red + (b.red - a.red) * share,
                          a.green + (b.green - a.green) * share,
                          a.blue + (b.blue - a.blue) * share};
}

/* Relative luminance (WCAG 2.2). */
static double lightness(struct color color)
{
    const double parts[3] = {color.red, color.green, color.blue};
    static const double weights[3] = {0.2126, 0.7152, 0.0722};
    double sum = 0.0;
    for (int i = 0; i < 3; i++)
        sum += weights[i] * (parts[i] <= 0.04045
                                 ? parts[i] / 12.92
                                 : pow((parts[i] + 0.055) / 1.055, 2.4));
    return sum;
}

/* The wrong side is paler and dotted, in every figure. */
struct path_item face_fill(const struct colorway *colorway, int fabric,
                           bool wrong_side)
{
    struct path_item path = outline_narrow();
    const struct bolt *bolt = &colorway->bolts[fabric];
    path.filled = true;
    path.fill = (struct color){bolt->red, bolt->green, bolt->blue};
    /* A dark line on dark cloth would not be seen (WCAG 2.1, 1.4.11). */
    if (!wrong_side && lightness(path.fill) < 0.12)
        path.stroke_color = (struct color){0.66, 0.68, 0.72};
    if (wrong_side) {
        path.fill = mixed(path.fill, white, 0.72);
        path.hatch = (struct hatch){45.0, 5.0, 0.9, true, grey};
    }
    return path;
}

struct path_item mark_style(enum mark_kind kind)
{
    struct path_item path = outline_narrow();
    switch (kind) {
    case MARK_SEWN: /* stitches */
        path.stroke = outline_wide().stroke;
        path.dash[0] = 4.0;
        path.dash[1] = 2.5;
        break;
    case MARK_CUT: /* long dash, dot */
        path.dash[0] = 9.0;
        path.dash[1] = 2.2;
        path.dash[2] = 1.0;
        path.dash[3] = 2.2;
        break;
    case MARK_DRAWN:
        break;
    }
    return path;
}

/* ---- geometry ---- */

struct extent {
    double left, top, right, bottom; /* points, with gaps */
};

static struct point shown_point(const struct figure *figure, struct vertex v,
                                int gap_x, int gap_y)
{
    return (struct point){
        rational_double(v.x) * figure->scale + gap_x * figure->gap,
        rational_double(v.y) * figure->scale + gap_y * figure->gap};
}

static void grow(struct extent *extent, struct point p)
{
    extent->left = fmin(extent->left, p.x);
    extent->top = fmin(extent->top, p.y);
    extent->right = fmax(extent->right, p.x);
    extent->bottom = fmax(extent->bottom, p.y);
}

static struct extent nothing(void)
{
    return (struct extent){1e9, 1e9, -1e9, -1e9};
}

/* Faces alone: marks never reach beyond the cloth that they lie on. */
static struct extent state_extent(const struct figure *figure,
                                  const struct state *state)
{
    struct extent extent = nothing();
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        for (size_t k = 0; k < shown->face.count; k++)
            grow(&extent, shown_point(figure, shown->face.points[k],
                                      shown->gap_x, shown->gap_y));
    }
    return extent;
}

struct figure_size figure_size(const struct figure *figure,
                               const struct state *state)
{
    const struct extent extent = state_extent(figure, state);
    return (struct figure_size){extent.right - extent.left,
                                extent.bottom - extent.top};
}

/* ---- drawing ---- */

/* Convex faces of sewn cloth have a handful of corners. */
static void draw_face(const struct figure *figure, struct box *box,
                      struct face face, int gap_x, int gap_y,
                      struct extent origin)
{
    struct point points[64];
    const size_t count = face.count < 64 ? face.count : 64;
    for (size_t i = 0; i < count; i++) {
        points[i] = shown_point(figure, face.points[i], gap_x, gap_y);
        points[i].x -= origin.left;
        points[i].y -= origin.top;
    }
    box_polygon(figure->canvas, box, points, count,
                face_fill(figure->colorway, face.fabric, face.wrong_side));
}

struct part_view {
    struct extent extent;
    double area; /* of its faces, to tell a rectangle */
};

static double polygon_area(const struct point *points, size_t count)
{
    double area = 0.0;
    for (size_t i = 0; i < count; i++) {
        const struct point p = points[i], q = points[(i + 1) % count];
        area += (p.x * q.y - q.x * p.y) / 2.0;
    }
    return fabs(area);
}

static void add_to_part(const struct figure *figure, struct part_view *part,
                        const struct shown_face *shown)
{
    struct point points[64];
    const size_t count = shown->face.count < 64 ? shown->face.count : 64;
    for (size_t i = 0; i < count; i++) {
        points[i] = shown_point(figure, shown->face.points[i], shown->gap_x,
                                shown->gap_y);
        grow(&part->extent, points[i]);
    }
    part->area += polygon_area(points, count);
}

/* Faces of one part that lie apart are parts of their own. */
static struct part_view part_view(const struct figure *figure,
                                  const struct state *state, int part,
                                  int gap_x, int gap_y)
{
    struct part_view view = {.extent = nothing()};
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part == part && shown->gap_x == gap_x &&
            shown->gap_y == gap_y)
            add_to_part(figure, &view, shown);
    }
    return view;
}

/* A rectangular part gets a wide outline, so that it reads as one piece. */
static void outline_part(const struct figure *figure, struct box *box,
                         const struct part_view *part, struct extent origin)
{
    const double width = part->extent.right - part->extent.left;
    const double height = part->extent.bottom - part->extent.top;
    if (fabs(width * height - part->area) > 0.01 * width * height)
        return;
    box_rectangle(figure->canvas, box, part->extent.left - origin.left,
                  part->extent.top - origin.top, width, height, outline_wide());
}

/* The name where it fits on all parts of its kind in the figure, else the
 * mark: a part has one name in a figure. */
static const char *part_name(const struct figure *figure, int part)
{
    const struct wording *w = figure->wording;
    const size_t heap = figure->heap->inputs.items[part].heap;
    const struct heap *made = &w->quilt->heaps.items[heap];
    const char *name = word_part(w, heap);
    const struct text_extent extent =
        typeset_measure(figure->canvas->typeset, name, style_figure(), 0.0);
    for (size_t i = 0; i < figure->heap->inputs.count; i++) {
        const struct input *input = &figure->heap->inputs.items[i];
        const struct rational width =
            input->turn % 2 == 1 ? made->height : made->width;
        if (input->heap == heap &&
            extent.width > rational_double(width) * figure->scale * 0.6)
            return word_mark(w, heap);
    }
    return name;
}

/* ---- where a label lies clear of everything ---- */

static double distance_to(struct point p, struct point a, struct point b)
{
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length = dx * dx + dy * dy;
    double t =
        length > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length : 0.0;
    t = fmax(0.0, fmin(1.0, t));
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/* Inside a convex face, and how far from its edges. */
static bool inside_face(const struct figure *figure,
                        const struct shown_face *shown, struct point p,
                        double *distance)
{
    int left = 0, right = 0;
    *distance = 1e9;
    for (size_t i = 0; i < shown->face.count; i++) {
        const struct point a = shown_point(figure, shown->face.points[i],
                                           shown->gap_x, shown->gap_y);
        const struct point b =
            shown_point(figure, shown->face.points[(i + 1) % shown->face.count],
                        shown->gap_x, shown->gap_y);
        const double cross =
            (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
        left += cross > 0.0;
        right += cross < 0.0;
        *distance = fmin(*distance, distance_to(p, a, b));
    }
    return left == 0 || right == 0;
}

/* The word along a drawn line: its direction. */
struct line_label {
    const char *text; /* NULL where there is no room, or no line */
    struct text_style style;
    struct point top;         /* middle of its top edge */
    struct point left, right; /* ends of its middle line */
    double height;
    double angle;
};

/* Is the cut that belongs to the line below it? Then the waste is, too, and
 * the word stands above. */
static bool word_above(const struct figure *figure, const struct state *state,
                       size_t line)
{
    const struct mark *drawn = &state->marks.items[line];
    for (size_t k = line + 1; k < state->marks.count; k++) {
        const struct mark *cut = &state->marks.items[k];
        if (cut->kind != MARK_CUT)
            continue;
        const double middle = shown_point(figure, cut->from, 0, 0).y +
                              shown_point(figure, cut->to, 0, 0).y;
        const double own = shown_point(figure, drawn->from, 0, 0).y +
                           shown_point(figure, drawn->to, 0, 0).y;
        return middle > own - 0.02;
    }
    return true;
}

/* The word repeats what the text says, at the line itself. */
static struct line_label line_label(const struct figure *figure,
                                    const struct state *state, size_t line)
{
    struct line_label label = {.style = style_figure()};
    const struct mark *drawn = &state->marks.items[line];
    const struct point p = shown_point(figure, drawn->from, 0, 0);
    const struct point q = shown_point(figure, drawn->to, 0, 0);
    const bool rising = q.y < p.y;
    const char *text = rising ? "rising" : "falling";
    label.style.size = 7.0;
    label.style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(figure->canvas->typeset, text, label.style, 0.0);
    if (drawn->kind != MARK_DRAWN ||
        hypot(q.x - p.x, q.y - p.y) < extent.width + 14.0)
        return label; /* the caption says it */
    label.text = text;
    label.height = extent.height;
    label.angle = rising ? -45.0 : 45.0;
    const double off =
        word_above(figure, state, line) ? -extent.height - 0.5 : 0.5;
    const double turn = label.angle * 3.14159265358979 / 180.0;
    /* Left of the middle: the turn of the flap is marked on the right. */
    const double along = 0.36, half = extent.width / 2.0;
    label.top = (struct point){p.x + (q.x - p.x) * along - sin(turn) * off,
                               p.y + (q.y - p.y) * along + cos(turn) * off};
    const struct point middle = {label.top.x - sin(turn) * extent.height / 2.0,
                                 label.top.y + cos(turn) * extent.height / 2.0};
    label.left = (struct point){middle.x - cos(turn) * half,
                                middle.y - sin(turn) * half};
    label.right = (struct point){middle.x + cos(turn) * half,
                                 middle.y + sin(turn) * half};
    return label;
}

/* How much room a label of this part has at p: below 0 where the part is not
 * seen. Seams inside the part do not matter, lines that are drawn do. */
static double room_at(const struct figure *figure, const struct state *state,
                      int part, struct point p)
{
    double room = -1.0;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        double distance;
        const bool inside = inside_face(figure, shown, p, &distance);
        if (shown->part == part && inside)
            room = fmax(room, distance);
        else if (shown->part != part && inside && room >= 0.0)
            return -1.0; /* covered by what was laid later */
        else if (shown->part != part && room >= 0.0)
            room = fmin(room, distance);
    }
    for (size_t i = 0; i < state->marks.count; i++)
        room = fmin(
            room, distance_to(
                      p, shown_point(figure, state->marks.items[i].from, 0, 0),
                      shown_point(figure, state->marks.items[i].to, 0, 0)));
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct line_label word = line_label(figure, state, i);
        if (word.text != NULL)
            room = fmin(room, distance_to(p, word.left, word.right) -
                                  word.height * 0.6);
    }
    for (size_t i = 0; i < state->turns.count; i++) {
        const struct turn_mark *turn = &state->turns.items[i];
        room = fmin(room, distance_to(p, shown_point(figure, turn->from, 0, 0),
                                      shown_point(figure, turn->to, 0, 0)));
    }
    return room;
}

/* The middle, unless something is laid or drawn on the part: then the place
 * with the most room, from a grid of trials. */
static bool label_point(const struct figure *figure, const struct state *state,
                        const struct part_view *view, int part,
                        struct point *best)
{
    const struct extent e = view->extent;
    *best = (struct point){(e.left + e.right) / 2.0, (e.top + e.bottom) / 2.0};
    if (state->marks.count == 0)
        return true;
    enum { TRIALS = 24 };
    double most = -1.0;
    for (int i = 1; i < TRIALS; i++) {
        for (int k = 1; k < TRIALS; k++) {
            const struct point p = {e.left + (e.right - e.left) * i / TRIALS,
                                    e.top + (e.bottom - e.top) * k / TRIALS};
            const double room = room_at(figure, state, part, p);
            if (room > most + 0.01) {
                most = room;
                *best = p;
            }
        }
    }
    return most >= 0.0; /* else it lies under another part */
}

static void label_part(const struct figure *figure, struct box *box,
                       const struct state *state, const struct part_view *view,
                       int part, struct extent origin)
{
    const char *name = part_name(figure, part);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent size =
        typeset_measure(figure->canvas->typeset, name, style, 0.0);
    struct point at;
    if (!label_point(figure, state, view, part, &at))
        return; /* the caption names it */
    box_label(figure->canvas, box, at.x - origin.left,
              at.y - origin.top - size.height / 2.0, name, style, 0.0, true);
}

/* Many like parts are labelled once for each kind. */
static bool label_wanted(const struct figure *figure,
                         const struct part_view *view, int part, bool *told)
{
    enum { FEW = 12 };
    const size_t heap = figure->heap->inputs.items[part].heap;
    const bool roomy = fmin(view->extent.right - view->extent.left,
                            view->extent.bottom - view->extent.top) > 24.0;
    const bool first = !told[heap];
    told[heap] = true;
    return first || (roomy && figure->heap->inputs.count <= FEW);
}

/* Faces of a part stand together in a state, so a change of part or gap begins
 * a new one. */
static void draw_parts(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    bool *told = figure->heap == NULL
                     ? NULL
                     : ARENA_ARRAY(figure->canvas->arena, bool,
                                   figure->wording->quilt->heaps.count);
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        draw_face(figure, box, shown->face, shown->gap_x, shown->gap_y, origin);
    }
    int part = WHOLE - 1, gap_x = 0, gap_y = 0;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part == part && shown->gap_x == gap_x &&
            shown->gap_y == gap_y)
            continue;
        part = shown->part;
        gap_x = shown->gap_x;
        gap_y = shown->gap_y;
        const struct part_view view =
            part_view(figure, state, part, gap_x, gap_y);
        outline_part(figure, box, &view, origin);
        if (figure->heap != NULL && part != WHOLE &&
            label_wanted(figure, &view, part, told))
            label_part(figure, box, state, &view, part, origin);
    }
}

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

/* Filled head: 15 degrees to each side of a 4 : 1 shape. */
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
 * a style of its own. */
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

static void draw_press(const struct figure *figure, struct box *box,
                       const struct state *state, struct extent origin)
{
    const double reach = press_reach(figure, state, origin);
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        struct point at =
            shown_point(figure, mark->at, mark->gap_x, mark->gap_y);
        at.x -= origin.left;
        at.y -= origin.top;
        const bool open = mark->x == 0 && mark->y == 0;
        const double x = open ? mark->across_x : mark->x;
        const double y = open ? mark->across_y : mark->y;
        const double dx = x / hypot(x, y) * reach, dy = y / hypot(x, y) * reach;
        /* Open: two opposed heads, across the seam. */
        draw_arrow(figure->canvas, box, at.x - (open ? 0.0 : dx),
                   at.y - (open ? 0.0 : dy), at.x + dx, at.y + dy);
        if (open)
            draw_arrow(figure->canvas, box, at.x, at.y, at.x - dx, at.y - dy);
    }
}

struct box *figure_state(const struct figure *figure, const struct state *state)
{
    const struct extent origin = state_extent(figure, state);
    struct box *box = box_new(figure->canvas, origin.right - origin.left,
                              origin.bottom - origin.top);
    draw_parts(figure, box, state, origin);
    draw_marks(figure, box, state, origin);
    if (figure->heap != NULL)
        label_lines(figure, box, state, origin);
    draw_press(figure, box, state, origin);
    draw_turns(figure, box, state, origin);
    return box;
}

/* No labels, marks or gaps: the quilt as it will hang. */
struct box *figure_cloth(const struct canvas *canvas,
                         const struct colorway *colorway,
                         const struct cloth *cloth, double width, double height)
{
    const double across = rational_double(cloth->width);
    const double down = rational_double(cloth->height);
    const double scale = fmin(width / across, height / down);
    const struct figure figure = {canvas, NULL, colorway, NULL, scale, 0.0};
    struct box *box = box_new(canvas, across * scale, down * scale);
    const struct extent origin = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < cloth->faces.count; i++)
        draw_face(&figure, box, cloth->faces.items[i], 0, 0, origin);
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height,
                  outline_wide());
    return box;
}
