/* Labels in figures: names of parts, each where it lies clear of everything
 * else. Read next: figure_line.c. */
#include "figure_parts.h"

#include <math.h>

/* Sides of the part as it lies, in points. */
static double part_side(const struct figure *figure, size_t part, bool across)
{
    const struct heap *made =
        &figure->wording->quilt->heaps.items[figure->parts[part].heap];
    const bool turned = figure->parts[part].turn % 2 == 1;
    return rational_double(across != turned ? made->width : made->height) *
           figure->scale;
}

/* Does the text fit on all parts of its kind, upright or on its side? A part
 * has one name in a figure. */
static bool fits_all(const struct figure *figure, size_t heap, double length,
                     bool upright)
{
    for (size_t i = 0; i < figure->part_count; i++)
        if (figure->parts[i].heap == heap &&
            (length + 4.0 > part_side(figure, i, upright) ||
             10.0 > part_side(figure, i, !upright)))
            return false;
    return true;
}

/* ---- where a label lies clear of everything ---- */

static double distance_to(struct point p, struct point a, struct point b)
{
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length = dx * dx + dy * dy;
    double t =
        length > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length : 0.0;
    t = t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
    return hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/* What a label keeps clear of, as it lies on the page; measured once for all
 * places that are tried. */
struct shown_line {
    struct point from, to;
    double keep_off;
};
struct obstacles {
    LIST(struct shown_edges) faces;
    size_t part_end; /* of the labelled part no face comes from here on */
    LIST(struct shown_line) lines;
};

static void add_line(const struct figure *figure, struct obstacles *obstacles,
                     struct point from, struct point to, double keep_off)
{
    *LIST_ADD(figure->canvas->arena, &obstacles->lines) =
        (struct shown_line){from, to, keep_off};
}

/* The middle of the bow lies off the straight way by 0.225 of it
 * (figure_mark.c). */
static void add_turn(const struct figure *figure, struct obstacles *obstacles,
                     const struct turn_mark *turn)
{
    const struct point from = shown_point(figure, turn->from, 0, 0);
    const struct point to = shown_point(figure, turn->to, 0, 0);
    const double off = 0.225;
    const struct point top = {(from.x + to.x) / 2.0 + (to.y - from.y) * off,
                              (from.y + to.y) / 2.0 - (to.x - from.x) * off};
    add_line(figure, obstacles, from, top, 0.0);
    add_line(figure, obstacles, top, to, 0.0);
}

/* Lines that are drawn, their words, turns. */
static struct obstacles find_obstacles(const struct figure *figure,
                                       const struct state *state, int part)
{
    struct arena *arena = figure->canvas->arena;
    struct obstacles obstacles = {0};
    for (size_t i = 0; i < state->faces.count; i++) {
        *LIST_ADD(arena, &obstacles.faces) =
            face_edges(figure, &state->faces.items[i]);
        if (state->faces.items[i].part == part)
            obstacles.part_end = i + 1;
    }
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *mark = &state->marks.items[i];
        add_line(figure, &obstacles,
                 shown_point(figure, mark->from, mark->gap_x, mark->gap_y),
                 shown_point(figure, mark->to, mark->gap_x, mark->gap_y), 0.0);
        const struct line_label word = line_label(figure, state, i);
        if (word.text != NULL)
            add_line(figure, &obstacles, word.left, word.right,
                     word.height * 0.6);
    }
    for (size_t i = 0; i < state->turns.count; i++)
        add_turn(figure, &obstacles, &state->turns.items[i]);
    return obstacles;
}

/* Is a line surely no nearer to p than that? Told by the box around it. */
static bool is_beyond(struct point p, struct point a, struct point b,
                      double distance)
{
    const double left = a.x < b.x ? a.x : b.x, right = a.x < b.x ? b.x : a.x;
    const double top = a.y < b.y ? a.y : b.y, bottom = a.y < b.y ? b.y : a.y;
    const double slack = distance + 1e-6;
    return p.x < left - slack || p.x > right + slack || p.y < top - slack ||
           p.y > bottom + slack;
}

/* The lesser of `most` and how far p is from the edges; anything up to `enough`
 * where it is no more than that. */
static double room_to_edges(const struct shown_edges *face, struct point p,
                            double most, double enough)
{
    for (size_t i = 0; i < face->count && most > enough; i++) {
        const struct point a = face->points[i];
        const struct point b = face->points[i + 1 < face->count ? i + 1 : 0];
        if (!is_beyond(p, a, b, most))
            most = fmin(most, distance_to(p, a, b));
    }
    return most;
}

/* A face of the part ends at its extent at the latest, but for rounding. */
static double most_room(struct extent extent, struct point p)
{
    return fmin(fmin(p.x - extent.left, extent.right - p.x),
                fmin(p.y - extent.top, extent.bottom - p.y)) +
           1e-6;
}

/* How much room a label of this part has at p: below 0 where the part is not
 * seen. Seams inside the part do not matter, lines that are drawn do. Looked at
 * no closer where it is no more than `enough`. */
static double room_at(const struct obstacles *obstacles, int part,
                      struct point p, double enough)
{
    double room = -1.0;
    for (size_t i = 0; i < obstacles->faces.count; i++) {
        const struct shown_edges *face = &obstacles->faces.items[i];
        if (i >= obstacles->part_end && room <= enough)
            return room;
        if (face->part != part && room < 0.0)
            continue;
        const bool inside = inside_face(face, p);
        if (face->part == part && inside)
            room = fmax(room, room_to_edges(face, p, 1e9, enough));
        else if (face->part != part && inside)
            return -1.0; /* covered by what was laid later */
        else if (face->part != part)
            room = room_to_edges(face, p, room, -1.0);
    }
    for (size_t i = 0; i < obstacles->lines.count && room > enough; i++) {
        const struct shown_line *line = &obstacles->lines.items[i];
        if (!is_beyond(p, line->from, line->to, room + line->keep_off))
            room = fmin(room,
                        distance_to(p, line->from, line->to) - line->keep_off);
    }
    return room;
}

/* The place with the most room, from a grid of trials. Room that there is never
 * grows faster than one moves, so what the places before have tells how much
 * there can be; those where it cannot be more are not looked at.
 * ensures: false where the part lies under others. */
static bool roomiest(const struct obstacles *obstacles, int part,
                     struct extent e, struct point *best)
{
    enum { TRIALS = 24 };
    const double step_x = (e.right - e.left) / TRIALS;
    const double step_y = (e.bottom - e.top) / TRIALS;
    const double slack = 1e-6; /* for rounding */
    double most = -1.0;
    double beside[TRIALS]; /* room in the column before, at most */
    for (int k = 0; k < TRIALS; k++)
        beside[k] = HUGE_VAL;
    for (int i = 1; i < TRIALS; i++) {
        double above = HUGE_VAL;
        for (int k = 1; k < TRIALS; k++) {
            const struct point p = {e.left + (e.right - e.left) * i / TRIALS,
                                    e.top + (e.bottom - e.top) * k / TRIALS};
            double room =
                fmin(most_room(e, p), fmin(beside[k] + step_x, above + step_y));
            if (room > most + 0.01) {
                const double here = room_at(obstacles, part, p, most + 0.01);
                if (here > most + 0.01) {
                    most = here;
                    *best = p;
                }
                room = here < 0.0 ? HUGE_VAL : here + slack;
            }
            beside[k] = above = room;
        }
    }
    return most >= 0.0;
}

/* A part that is sewn of many pieces often has in its middle what tells it from
 * others, or which way it lies. */
static bool has_a_picture(const struct state *state, int part)
{
    enum { FEW = 6 };
    size_t faces = 0;
    for (size_t i = 0; i < state->faces.count; i++)
        faces += state->faces.items[i].part == part;
    return faces > FEW;
}

/* How far below the place `y` the mark of the part's turn lies; far away where
 * it has none. */
static double below_mark(const struct figure *figure, const struct state *state,
                         int part, double y)
{
    if (!figure->parts[part].marked)
        return HUGE_VAL;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part == part)
            return y - shown_point(figure, figure->parts[part].mark,
                                   shown->gap_x, shown->gap_y)
                           .y;
    }
    return HUGE_VAL;
}

/* Below the middle, in it or above it: the first that is clear of the mark for
 * the part's turn. ensures: false where none is. */
static bool clear_of_mark(const struct figure *figure,
                          const struct state *state, int part, double high,
                          struct extent e, bool low_first, double *y)
{
    const double middle = (e.top + e.bottom) / 2.0;
    const double low =
        fmin(middle + (e.bottom - e.top) * 0.32, e.bottom - high / 2.0 - 2.0);
    const double up =
        fmax(middle - (e.bottom - e.top) * 0.32, e.top + high / 2.0 + 2.0);
    const double tries[3] = {low_first ? low : middle, low_first ? up : low,
                             low_first ? middle : up};
    for (int i = 0; i < 3; i++) {
        *y = tries[i];
        if (fabs(below_mark(figure, state, part, *y)) >
            (TURN_RING + high) / 2.0 + 4.0)
            return true;
    }
    return false;
}

/* The largest patch of a part that holds the whole label with some air, clear
 * of the mark for the part's turn: there no seam runs through the letters.
 * ensures: false where there is none. */
static bool patch_point(const struct figure *figure, const struct state *state,
                        int part, struct figure_size label, struct point *best)
{
    const double air = 1.5, ring = TURN_RING / 2.0 + 1.5;
    double most = 0.0;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part != part)
            continue;
        const struct shown_edges edges = face_edges(figure, shown);
        struct point middle = {0.0, 0.0};
        for (size_t k = 0; k < edges.count; k++) {
            middle.x += edges.points[k].x / (double)edges.count;
            middle.y += edges.points[k].y / (double)edges.count;
        }
        bool holds = true;
        for (int corner = 0; corner < 4; corner++)
            holds &= inside_face(
                &edges,
                (struct point){middle.x + (corner % 2 == 0 ? -1 : 1) *
                                              (label.width / 2.0 + air),
                               middle.y + (corner < 2 ? -1 : 1) *
                                              (label.height / 2.0 + air)});
        if (figure->parts[part].marked) {
            const struct point mark = shown_point(
                figure, figure->parts[part].mark, shown->gap_x, shown->gap_y);
            holds &= fabs(mark.x - middle.x) > label.width / 2.0 + ring ||
                     fabs(mark.y - middle.y) > label.height / 2.0 + ring;
        }
        for (size_t k = 0; k < state->marks.count; k++) {
            const struct mark *mark = &state->marks.items[k];
            holds &=
                distance_to(
                    middle,
                    shown_point(figure, mark->from, mark->gap_x, mark->gap_y),
                    shown_point(figure, mark->to, mark->gap_x, mark->gap_y)) >
                hypot(label.width, label.height) / 2.0;
        }
        const double room = room_to_edges(&edges, middle, 1e9, -1.0);
        if (holds && room > most + 0.01) {
            most = room;
            *best = middle;
        }
    }
    return most > 0.0;
}

/* Of parts that lie apart a patch that holds the label, else the middle, or
 * below it on a part with a picture of its own. Where something is laid or
 * drawn on the part, the place with the most room, from a grid of trials. The
 * label stays on the part. */
static bool label_point(const struct figure *figure, const struct state *state,
                        const struct part_view *view, int part,
                        struct figure_size label, struct point *best)
{
    const struct extent e = view->extent;
    *best = (struct point){(e.left + e.right) / 2.0, (e.top + e.bottom) / 2.0};
    if (figure->gap > 0.0) {
        if (patch_point(figure, state, part, label, best))
            return true;
        const bool tall = e.bottom - e.top > 1.8 * (e.right - e.left);
        return clear_of_mark(figure, state, part, label.height, e,
                             !tall && has_a_picture(state, part), &best->y);
    }
    const struct obstacles obstacles = find_obstacles(figure, state, part);
    return roomiest(&obstacles, part, e, best);
}

/* The face of a part that is seen at a place, or NULL. */
static const struct face *seen_face(const struct figure *figure,
                                    const struct state *state, int part,
                                    struct point at)
{
    const struct face *seen = NULL;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        if (shown->part != part)
            continue;
        const struct shown_edges edges = face_edges(figure, shown);
        if (inside_face(&edges, at))
            seen = &shown->face;
    }
    return seen;
}

/* Dots of the wrong side would run through the letters: its ground alone lies
 * below a label there. */
static void clear_dots(const struct figure *figure, struct box *box,
                       const struct face *seen, struct point at,
                       struct extent origin, struct figure_size size)
{
    if (seen == NULL || !seen->wrong_side)
        return;
    struct path_item ground = face_fill(figure->canvas, figure->colorway,
                                        seen->fabric, true, figure->shade);
    ground.hatch = NULL;
    ground.stroke = 0.0;
    box_rectangle(figure->canvas, box, at.x - origin.left - size.width / 2.0,
                  at.y - origin.top - size.height / 2.0, size.width,
                  size.height, ground);
}

/* Beside the name of a piece whose print has a way. */
#define PRINT_LENGTH MM(3.4)
#define PRINT_ROOM MM(2.8)

/* From behind no print is seen: how such a piece lies, words tell. */
static bool shows_print(const struct figure *figure, const struct state *state,
                        int part)
{
    const struct heap *made =
        &figure->wording->quilt->heaps.items[figure->parts[part].heap];
    if (made->technique != TECHNIQUE_CUT ||
        !has_way(figure->canvas, made->of.cut.fabric))
        return false;
    for (size_t i = 0; i < state->faces.count; i++)
        if (state->faces.items[i].part == part &&
            state->faces.items[i].face.wrong_side)
            return false;
    return true;
}

static void label_print(const struct figure *figure, struct box *box,
                        const struct face *seen, double x, double y)
{
    if (seen != NULL)
        draw_print(figure->canvas, box, x, y,
                   seen->turn * 2 + (seen->slanted ? 1 : 0), PRINT_LENGTH, ink);
}

/* Do all parts come from the step that makes this one? */
static bool one_step(const struct figure *figure, const struct heap *made)
{
    for (size_t i = 0; i < figure->part_count; i++)
        if (figure->wording->quilt->heaps.items[figure->parts[i].heap].step !=
            made->step)
            return false;
    return true;
}

static bool has_room(const struct figure *figure, size_t heap, const char *name)
{
    const double length =
        typeset_measure(figure->canvas->typeset, name, style_figure(), 0.0)
            .width;
    return fits_all(figure, heap, length, true) ||
           fits_all(figure, heap, length, false);
}

/* Where the name has no room stand the fabrics of its cast, or the number of
 * the step that made the part, as the line of parts tells it, where there are
 * parts of other steps: the same number on all says nothing. ensures: NULL for
 * none. */
static const char *part_label(const struct figure *figure, size_t heap)
{
    const struct wording *w = figure->wording;
    const struct heap *made = &w->quilt->heaps.items[heap];
    const char *name = word_part(w, heap);
    if (made->step == 0 || has_room(figure, heap, name))
        return name;
    const struct cast *cast =
        made->names.count > 0 ? made->names.items[0].cast : NULL;
    const char *fabrics = word_cast(w, cast);
    if (fabrics != NULL && has_room(figure, heap, fabrics))
        return fabrics;
    return one_step(figure, made)
               ? NULL
               : say(figure->canvas->arena, w->phrases, "part.step", "step",
                     say_count(figure->canvas->arena, made->step), NULL);
}

void label_part(const struct figure *figure, struct box *box,
                const struct state *state, const struct part_view *view,
                int part, struct extent origin)
{
    const size_t heap = figure->parts[part].heap;
    const struct heap *made = &figure->wording->quilt->heaps.items[heap];
    const char *name = part_label(figure, heap);
    if (name == NULL)
        return;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    struct text_extent size =
        typeset_measure(figure->canvas->typeset, name, style, 0.0);
    const bool way = shows_print(figure, state, part);
    size.width += way ? PRINT_ROOM : 0.0;
    const bool upright = fits_all(figure, heap, size.width, true);
    struct point at;
    if ((!upright && !fits_all(figure, heap, size.width, false)) ||
        !label_point(figure, state, view, part,
                     (struct figure_size){upright ? size.width : size.height,
                                          upright ? size.height : size.width},
                     &at))
        return;
    const bool plate = made->technique != TECHNIQUE_CUT;
    const double wide = size.width + 2.0, high = size.height - 1.0;
    const struct face *seen = seen_face(figure, state, part, at);
    clear_dots(
        figure, box, seen, at, origin,
        (struct figure_size){upright ? wide : high, upright ? high : wide});
    const struct point to = {at.x - origin.left, at.y - origin.top};
    const double aside = way ? PRINT_ROOM / 2.0 : 0.0;
    const double print = (size.width - PRINT_ROOM) / 2.0 + 1.0;
    if (upright)
        box_label(figure->canvas, box, to.x - aside, to.y - size.height / 2.0,
                  name, style, 0.0, plate);
    else
        box_label(figure->canvas, box, to.x - size.height / 2.0, to.y + aside,
                  name, style, -90.0, plate);
    if (way)
        label_print(figure, box, seen, to.x + (upright ? print : 0.0),
                    to.y - (upright ? 0.0 : print));
}
