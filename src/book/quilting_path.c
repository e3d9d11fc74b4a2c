/* One kind of area: its filler, and the path in it with numbers, starts, ends
 * and travel. Read next: quilting.c. */
#include <math.h>

#include "quilting_figure.h"

/* ---- what is seen ---- */

/* Takes in one more place. */
static void grow(struct area_bounds *bounds, struct spot p)
{
    bounds->least.x = fmin(bounds->least.x, p.x);
    bounds->least.y = fmin(bounds->least.y, p.y);
    bounds->most.x = fmax(bounds->most.x, p.x);
    bounds->most.y = fmax(bounds->most.y, p.y);
}

/* Lines that an area has of its own, and echoes that come to lie in it. */
static bool is_in(const struct quilted_line *line,
                  const struct quilted_area *area, size_t index)
{
    return line->area == index ||
           (line->area == QUILTING_NONE && line->stage == STAGE_ECHOES &&
            line_within(line, area));
}

/* Travel may run outside of the area, and an echo of a shape goes on through
 * all areas of the shape. */
static struct area_bounds bounds_of(const struct quilting_plan *plan,
                                    const struct quilted_kind *kind, bool path)
{
    const struct quilted_area *area = &plan->areas.items[kind->sample];
    struct area_bounds bounds = area_bounds(area);
    for (size_t i = 0; !path && i < plan->lines.count; i++)
        if (is_in(&plan->lines.items[i], area, kind->sample))
            for (size_t k = 0; k < plan->lines.items[i].count; k++)
                grow(&bounds, plan->lines.items[i].points[k]);
    for (size_t i = 0; path && i < kind->sequences.count; i++)
        for (size_t k = 0; k < kind->sequences.items[i].steps.count; k++) {
            grow(&bounds, kind->sequences.items[i].steps.items[k].from);
            grow(&bounds, kind->sequences.items[i].steps.items[k].to);
        }
    return bounds;
}

/* An inch is drawn at most so large. */
#define SCALE_MOST MM(14.0)
/* For dots and numbers that stand on the edge. */
#define EDGE MM(2.0)

/* As large as the room allows, but no texture gets larger than in life. */
static struct box *area_box(struct quilting_view *view,
                            const struct area_bounds *bounds, double width,
                            double height)
{
    const double across = bounds->most.x - bounds->least.x;
    const double down = bounds->most.y - bounds->least.y;
    view->left = bounds->least.x;
    view->top = bounds->least.y;
    view->x = view->y = EDGE;
    view->scale =
        fmin((width - 2.0 * EDGE) / across, (height - 2.0 * EDGE) / down);
    if (view->canvas->design->pattern->units != UNIT_CM)
        view->scale = fmin(view->scale, SCALE_MOST);
    return box_new(view->canvas, across * view->scale + 2.0 * EDGE,
                   down * view->scale + 2.0 * EDGE);
}

/* Lines that are worked out, or the sample of what is stitched by eye. */
static void draw_filler(const struct quilting_view *view, struct box *box,
                        size_t sample)
{
    const struct quilting_plan *plan = view->plan;
    const struct quilted_area *area = &plan->areas.items[sample];
    for (size_t i = 0; i < plan->lines.count; i++)
        if (is_in(&plan->lines.items[i], area, sample))
            draw_quilted_line(view, box, &plan->lines.items[i],
                              thread_line(view->canvas, plan, view->colorway,
                                          plan->lines.items[i].thread));
    if (area->fill == NULL || area->fill->thread == NO_ITEM)
        return;
    struct path_item style = thread_line(view->canvas, plan, view->colorway,
                                         (size_t)area->fill->thread);
    style.dash[0] = 0.0;
    draw_texture_in(view, box, area, 0.0, style);
}

/* Without any path: what it will look like. */
struct box *quilting_area(const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, size_t kind,
                          double width, double height)
{
    struct quilting_view view = quilting_view(canvas, plan, colorway);
    const struct quilted_kind *of = &plan->kinds.items[kind];
    const struct area_bounds bounds = bounds_of(plan, of, false);
    struct box *box = area_box(&view, &bounds, width, height);
    draw_area(&view, box, &plan->areas.items[of->sample]);
    draw_filler(&view, box, of->sample);
    return box;
}

/* ---- the path ---- */

/* Places of dots, and of numbers that were put. */
struct numbers {
    LIST(struct point) items;
};

/* Two digits are as wide. */
static bool has_room(const struct numbers *numbers, struct point at)
{
    for (size_t i = 0; i < numbers->items.count; i++) {
        const struct point p = numbers->items.items[i];
        if (fabs(p.x - at.x) < MM(4.6) && fabs(p.y - at.y) < MM(3.6))
            return false;
    }
    return true;
}

/* On paper. */
static struct point middle_of(const struct quilting_view *view,
                              const struct path_step *step)
{
    const struct point a = quilting_point(view, step->from);
    const struct point b = quilting_point(view, step->to);
    return (struct point){(a.x + b.x) / 2.0, (a.y + b.y) / 2.0};
}

/* A head of an arrow along the step, in ink. */
static void draw_way(const struct quilting_view *view, struct box *box,
                     const struct path_step *step)
{
    const struct point a = quilting_point(view, step->from);
    const struct point b = quilting_point(view, step->to);
    const double length = hypot(b.x - a.x, b.y - a.y);
    const double head = MM(1.8), half = MM(0.6), from = 0.8;
    if (length < MM(7.0))
        return;
    const double ux = (b.x - a.x) / length, uy = (b.y - a.y) / length;
    const struct point tip = {a.x + (b.x - a.x) * from,
                              a.y + (b.y - a.y) * from};
    const struct point back = {tip.x - ux * head, tip.y - uy * head};
    const struct point points[3] = {tip,
                                    {back.x - uy * half, back.y + ux * half},
                                    {back.x + uy * half, back.y - ux * half}};
    box_polygon(view->canvas, box, points, 3,
                (struct path_item){.filled = true, .fill = ink});
}

/* Stitches are solid here, whatever pattern the thread has elsewhere: only
 * travel is dashed. Where an area is stitched by eye its sample is drawn, and no
 * step, as nobody stitches straight to its middle. */
static void draw_step(const struct quilting_view *view, struct box *box,
                      const struct path_step *step, struct path_item style)
{
    const struct point a = quilting_point(view, step->from);
    const struct point b = quilting_point(view, step->to);
    struct path_item line = style;
    line.dash[0] = 0.0;
    if (step->area != QUILTING_NONE)
        return;
    if (step->manner != PATH_STITCH) {
        line.stroke_color = ink;
        line.dash[0] = MM(1.2);
        line.dash[1] = MM(0.8);
        line.dash[2] = 0.0;
    }
    box_stroke(view->canvas, box, a.x, a.y, b.x, b.y, line);
}

/* The first step of the leg, from its middle on, that has room for the number
 * of it. ensures: the leg's end where none has. */
static size_t step_for_number(const struct quilting_view *view,
                              const struct quilted_route *route, size_t begin,
                              size_t end, const struct numbers *numbers)
{
    const size_t count = end - begin;
    for (size_t i = 0; i < count; i++) {
        const size_t at = begin + (count / 2 + i) % count;
        if (has_room(numbers, middle_of(view, &route->steps.items[at])))
            return at;
    }
    return end;
}

/* On a plate, over the line that it numbers. */
static void draw_number_of(const struct quilting_view *view, struct box *box,
                           const struct path_step *step, size_t number,
                           struct numbers *numbers)
{
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct point at = middle_of(view, step);
    *LIST_ADD(view->canvas->arena, &numbers->items) = at;
    const char *text = say_count(view->canvas->arena, number);
    const struct text_extent size =
        typeset_measure(view->canvas->typeset, text, style, 0.0);
    if (step->area == QUILTING_NONE)
        draw_way(view, box, step);
    box_label(view->canvas, box, at.x, at.y - size.height / 2.0, text, style,
              0.0, true);
}

/* A closed path ends where it starts: the start is seen. */
static void draw_dots(const struct quilting_view *view, struct box *box,
                      const struct quilted_route *route)
{
    for (int start = 0; start < 2; start++)
        for (size_t i = 0; i < route->steps.count; i++) {
            const struct path_step *step = &route->steps.items[i];
            const bool last = i + 1 == route->steps.count || (step + 1)->start;
            if (start == 1 ? step->start : last)
                draw_path_end(
                    view->canvas, box,
                    quilting_point(view, start == 1 ? step->from : step->to),
                    path_dot(route->starts), start == 1);
        }
}

/* A leg that gets no number counts all the same, so that a gap in the numbers
 * tells that there is one. */
static void number_route(const struct quilting_view *view, struct box *box,
                         const struct quilted_route *route, size_t *number,
                         struct numbers *numbers)
{
    for (size_t i = 0, end = 0; i < route->steps.count; i = end) {
        end = route_leg_end(route, i);
        const size_t at = step_for_number(view, route, i, end, numbers);
        ++*number;
        if (at < end)
            draw_number_of(view, box, &route->steps.items[at], *number,
                           numbers);
    }
    draw_dots(view, box, route);
}

/* The lines of it; numbers keep off its ends. */
static void draw_route(const struct quilting_view *view, struct box *box,
                       const struct quilted_route *route,
                       struct numbers *numbers)
{
    const struct path_item style =
        thread_line(view->canvas, view->plan, view->colorway, route->thread);
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        draw_step(view, box, step, style);
        if (step->start)
            *LIST_ADD(view->canvas->arena, &numbers->items) =
                quilting_point(view, step->from);
        if (i + 1 == route->steps.count || (step + 1)->start)
            *LIST_ADD(view->canvas->arena, &numbers->items) =
                quilting_point(view, step->to);
    }
}

/* All lines lie below all numbers. Numbers go on over the threads of an area. */
struct box *quilting_sequence(const struct canvas *canvas,
                              const struct quilting_plan *plan,
                              const struct colorway *colorway, size_t kind,
                              double width, double height)
{
    struct quilting_view view = quilting_view(canvas, plan, colorway);
    const struct quilted_kind *of = &plan->kinds.items[kind];
    const struct quilted_area *area = &plan->areas.items[of->sample];
    const struct area_bounds bounds = bounds_of(plan, of, true);
    struct box *box = area_box(&view, &bounds, width, height);
    struct numbers numbers = {.items = {0}};
    size_t number = 0;
    draw_area(&view, box, area);
    if (of->texture_count > 0)
        draw_filler(&view, box, of->sample);
    for (size_t i = 0; i < of->sequences.count; i++)
        draw_route(&view, box, &of->sequences.items[i], &numbers);
    for (size_t i = 0; i < of->sequences.count; i++)
        number_route(&view, box, &of->sequences.items[i], &number, &numbers);
    return box;
}
