/* The way of the needle over the lines of a figure: arrows, numbers of its
 * legs, travel beside the lines, where paths start and end. Read next:
 * quilting_path.c. */
#include <math.h>
#include <stdlib.h>

#include "quilting_figure.h"

/* A part of the path that has one number: to the next turn, or as much of one
 * line as is stitched without a stop. */
struct leg {
    const struct quilted_route *route;
    size_t begin, end, number;
    double length; /* on paper */
};

struct legs {
    LIST(struct leg) items;
};

/* What lies there and must be seen: a number, a dot, the head of an arrow. */
struct plate {
    struct point at;
    double width, height;
};

struct way {
    const struct quilting_view *view;
    struct box *box;
    struct legs legs;
    LIST(struct plate) plates;
};

/* A straight part of a leg on paper, beside the line where it is travel. */
struct stretch {
    struct point from, to;
    double length;
    struct point along; /* one point long; where length is 0, none */
    bool travel;
};

/* ---- legs ---- */

/* Nobody sees which kind of travel it is. */
static bool is_travel(const struct path_step *step)
{
    return step->manner != PATH_STITCH;
}

static double step_length(const struct quilting_view *view,
                          const struct path_step *step)
{
    return view->scale *
           hypot(step->to.x - step->from.x, step->to.y - step->from.y);
}

/* Numbers go on over the threads of a figure. */
static void add_legs(struct way *way, const struct quilted_route *route,
                     bool by_turns)
{
    for (size_t i = 0, end = 0; i < route->steps.count; i = end) {
        end = by_turns ? route_turn_end(route, i, route->steps.count)
                       : route_leg_end(route, i);
        const size_t number = way->legs.items.count + 1;
        struct leg *leg = LIST_ADD(way->view->canvas->arena, &way->legs.items);
        *leg = (struct leg){route, i, end, number, 0.0};
        for (size_t k = i; k < end; k++)
            leg->length += step_length(way->view, &route->steps.items[k]);
    }
}

/* ---- stretches ---- */

/* Travel lies so far beside its line, to the right of who goes: there and back
 * are told apart. */
#define TRAVEL_BESIDE MM(1.1)

/* Is the place on the drawing, with room for a line? */
static bool is_on(const struct box *box, struct point p)
{
    const double least = MM(0.3);
    return p.x >= least && p.y >= least && p.x <= box->width - least &&
           p.y <= box->height - least;
}

/* Moved sideways, so far to the right. */
static struct stretch moved(struct stretch stretch, double right)
{
    const double x = -stretch.along.y * right, y = stretch.along.x * right;
    stretch.from = (struct point){stretch.from.x + x, stretch.from.y + y};
    stretch.to = (struct point){stretch.to.x + x, stretch.to.y + y};
    return stretch;
}

static struct stretch stretch_of(const struct way *way, const struct leg *leg,
                                 size_t begin, size_t end)
{
    const struct path_step *steps = leg->route->steps.items;
    struct stretch stretch = {
        .from = quilting_point(way->view, steps[begin].from),
        .to = quilting_point(way->view, steps[end - 1].to),
        .travel = is_travel(&steps[begin])};
    const double x = stretch.to.x - stretch.from.x;
    const double y = stretch.to.y - stretch.from.y;
    stretch.length = hypot(x, y);
    if (!(stretch.length > 0.0))
        return stretch;
    stretch.along = (struct point){x / stretch.length, y / stretch.length};
    if (!stretch.travel)
        return stretch;
    const struct stretch right = moved(stretch, TRAVEL_BESIDE);
    return is_on(way->box, right.from) && is_on(way->box, right.to)
               ? right
               : moved(stretch, -TRAVEL_BESIDE);
}

/* The longest of the leg; its arrow and its number stand at it. */
static struct stretch longest_stretch(const struct way *way,
                                      const struct leg *leg)
{
    struct stretch longest = {.length = -1.0};
    for (size_t i = leg->begin, end = 0; i < leg->end; i = end) {
        end = route_turn_end(leg->route, i, leg->end);
        const struct stretch one = stretch_of(way, leg, i, end);
        if (one.length > longest.length)
            longest = one;
    }
    return longest;
}

static struct point at_share(const struct stretch *stretch, double share)
{
    return (struct point){
        stretch->from.x + share * (stretch->to.x - stretch->from.x),
        stretch->from.y + share * (stretch->to.y - stretch->from.y)};
}

/* ---- lines ---- */

/* Stitches are solid, whatever pattern the thread has elsewhere: only travel is
 * dashed. Where an area is stitched by eye its sample is drawn, and no step, as
 * nobody stitches straight to its middle. */
static void draw_leg(const struct way *way, const struct leg *leg,
                     struct path_item style)
{
    for (size_t i = leg->begin, end = 0; i < leg->end; i = end) {
        end = route_turn_end(leg->route, i, leg->end);
        if (leg->route->steps.items[i].area != QUILTING_NONE)
            continue;
        const struct stretch s = stretch_of(way, leg, i, end);
        struct path_item line = style;
        line.dash[0] = 0.0;
        if (s.travel) {
            line.stroke = LINE_MIDDLE;
            line.stroke_color = ink;
            line.dash[0] = MM(0.9);
            line.dash[1] = MM(0.6);
            line.dash[2] = 0.0;
        }
        box_stroke(way->view->canvas, way->box, s.from.x, s.from.y, s.to.x,
                   s.to.y, line);
    }
}

/* ---- signs ---- */

static bool has_room(const struct way *way, struct plate plate)
{
    if (plate.at.x < plate.width / 2.0 || plate.at.y < plate.height / 2.0 ||
        plate.at.x + plate.width / 2.0 > way->box->width ||
        plate.at.y + plate.height / 2.0 > way->box->height)
        return false;
    for (size_t i = 0; i < way->plates.count; i++) {
        const struct plate *other = &way->plates.items[i];
        if (fabs(plate.at.x - other->at.x) <
                (plate.width + other->width) / 2.0 &&
            fabs(plate.at.y - other->at.y) <
                (plate.height + other->height) / 2.0)
            return false;
    }
    return true;
}

/* The head of an arrow in ink, its tip at that share of the way. ensures: was
 * there room? */
static bool try_arrow(struct way *way, const struct stretch *stretch,
                      double share)
{
    const double head = MM(1.8), half = MM(0.65);
    const struct point u = stretch->along, tip = at_share(stretch, share);
    const struct point back = {tip.x - u.x * head, tip.y - u.y * head};
    const struct point points[3] = {tip,
                                    {back.x - u.y * half, back.y + u.x * half},
                                    {back.x + u.y * half, back.y - u.x * half}};
    const struct plate plate = {
        {(tip.x + back.x) / 2.0, (tip.y + back.y) / 2.0},
        fabs(u.x) * head + fabs(u.y) * 2.0 * half,
        fabs(u.y) * head + fabs(u.x) * 2.0 * half};
    if (!has_room(way, plate))
        return false;
    box_polygon(way->view->canvas, way->box, points, 3,
                (struct path_item){.filled = true, .fill = ink});
    *LIST_ADD(way->view->canvas->arena, &way->plates) = plate;
    return true;
}

/* Towards its end, so that it tells which way. A short leg has none: the
 * numbers before and after it tell where it leads. */
static void draw_way_of(struct way *way, const struct leg *leg)
{
    static const double shares[] = {0.8, 0.7, 0.9, 0.6, 0.45};
    const struct stretch stretch = longest_stretch(way, leg);
    if (leg->route->steps.items[leg->begin].area != QUILTING_NONE ||
        stretch.length < MM(4.0))
        return;
    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++)
        if (try_arrow(way, &stretch, shares[i]))
            return;
}

/* On the line where it is long, beside it where it would be hidden. ensures:
 * whether there is room, and where. */
static bool find_room(const struct way *way, const struct stretch *stretch,
                      struct plate *plate)
{
    static const double shares[] = {0.5, 0.4, 0.6, 0.3, 0.7,
                                    0.2, 0.8, 0.1, 0.9};
    const double hides = fabs(stretch->along.x) * plate->width +
                         fabs(stretch->along.y) * plate->height;
    const double beside = fabs(stretch->along.y) * plate->width / 2.0 +
                          fabs(stretch->along.x) * plate->height / 2.0 +
                          MM(0.4);
    const bool long_enough = stretch->length > hides + MM(5.0);
    for (int side = long_enough ? 0 : 1; side < 3; side++)
        for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
            const struct stretch line =
                moved(*stretch, side == 0                        ? 0.0
                                : (side == 1) == stretch->travel ? beside
                                                                 : -beside);
            plate->at = at_share(&line, shares[i]);
            if (has_room(way, *plate))
                return true;
        }
    return false;
}

/* White, with round ends, as numbers of seams have discs: it hides the lines
 * below a number. */
static void draw_plate(const struct way *way, const struct plate *plate)
{
    enum { CORNERS = 24 };
    struct point points[CORNERS];
    const double radius = plate->height / 2.0;
    const double half = fmax(0.0, plate->width / 2.0 - radius);
    const double turn = 2.0 * acos(-1.0) / CORNERS;
    for (int i = 0; i < CORNERS; i++) {
        const double x = cos(turn * (i + 0.5)), y = sin(turn * (i + 0.5));
        points[i] =
            (struct point){plate->at.x + (x > 0.0 ? half : -half) + radius * x,
                           plate->at.y + radius * y};
    }
    box_polygon(way->view->canvas, way->box, points, CORNERS,
                (struct path_item){.filled = true, .fill = white});
}

/* A leg that gets no number counts all the same, so that a gap in the numbers
 * tells that there is one. */
static void draw_number_of(struct way *way, const struct leg *leg)
{
    const struct canvas *canvas = way->view->canvas;
    const struct stretch stretch = longest_stretch(way, leg);
    const char *text = say_count(canvas->arena, leg->number);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent size =
        typeset_measure(canvas->typeset, text, style, 0.0);
    struct plate plate = {.width = size.width + 4.0, .height = size.height};
    if (!find_room(way, &stretch, &plate))
        return;
    *LIST_ADD(canvas->arena, &way->plates) = plate;
    draw_plate(way, &plate);
    box_label(canvas, way->box, plate.at.x, plate.at.y - size.height / 2.0,
              text, style, 0.0, false);
}

/* The first leg and each tenth come first, then the long ones: where numbers
 * are left out, those that are left lead on. */
static int more_wanted(const void *one, const void *other)
{
    const struct leg *a = one, *b = other;
    const bool first = a->number == 1 || a->number % 10 == 0;
    const bool second = b->number == 1 || b->number % 10 == 0;
    if (first != second)
        return first ? -1 : 1;
    if (fabs(a->length - b->length) > MM(0.5) && !first)
        return a->length > b->length ? -1 : 1;
    return a->number < b->number ? -1 : a->number > b->number;
}

/* ---- ends ---- */

/* Starts are drawn last, so that a closed path, which ends where it starts,
 * shows its own. */
static void draw_ends(const struct quilting_view *view, struct box *box,
                      const struct quilted_route *route, double radius,
                      bool start)
{
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        const bool last = i + 1 == route->steps.count || (step + 1)->start;
        if (!(start ? step->start : last))
            continue;
        const struct point at =
            quilting_point(view, start ? step->from : step->to);
        draw_path_end(view->canvas, box, at, radius, start);
    }
}

/* Where paths start or end no number may lie. */
static void keep_ends_free(struct way *way, const struct quilted_route *route,
                           double radius)
{
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        if (step->start)
            *LIST_ADD(way->view->canvas->arena, &way->plates) =
                (struct plate){quilting_point(way->view, step->from),
                               2.0 * radius, 2.0 * radius};
        if (i + 1 == route->steps.count || (step + 1)->start)
            *LIST_ADD(way->view->canvas->arena, &way->plates) =
                (struct plate){quilting_point(way->view, step->to),
                               2.0 * radius, 2.0 * radius};
    }
}

/* ---- all of it ---- */

/* All lines lie below all signs. */
static void draw_legs(struct way *way, bool stitches)
{
    struct leg *legs = way->legs.items.items;
    const size_t count = way->legs.items.count;
    for (size_t i = 0; i < count; i++)
        if (stitches || is_travel(&legs[i].route->steps.items[legs[i].begin]))
            draw_leg(way, &legs[i],
                     thread_line(way->view->canvas, way->view->plan,
                                 way->view->colorway, legs[i].route->thread));
    for (size_t i = 0; i < count; i++)
        draw_way_of(way, &legs[i]);
    if (count > 1)
        qsort(legs, count, sizeof *legs, more_wanted);
    for (size_t i = 0; i < count; i++)
        draw_number_of(way, &legs[i]);
}

/* Paths of all routes together. */
static size_t count_starts(const struct quilted_route *routes, size_t count)
{
    size_t starts = 0;
    for (size_t i = 0; i < count; i++)
        starts += routes[i].starts;
    return starts;
}

void draw_path_ends(const struct quilting_view *view, struct box *box,
                    const struct quilted_route *routes, size_t count)
{
    const double radius = path_dot(count_starts(routes, count));
    for (int start = 0; start < 2; start++)
        for (size_t i = 0; i < count; i++)
            draw_ends(view, box, &routes[i], radius, start == 1);
}

void draw_path_way(const struct quilting_view *view, struct box *box,
                   const struct quilted_route *routes, size_t count,
                   bool by_turns)
{
    struct way way = {.view = view, .box = box, .legs = {.items = {0}}};
    for (size_t i = 0; i < count; i++) {
        add_legs(&way, &routes[i], by_turns);
        keep_ends_free(&way, &routes[i], path_dot(count_starts(routes, count)));
    }
    draw_legs(&way, !by_turns);
    draw_path_ends(view, box, routes, count);
}
