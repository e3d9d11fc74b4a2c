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
    draw_area(&view, box, area);
    if (of->texture_count > 0)
        draw_filler(&view, box, of->sample);
    draw_path_way(&view, box, of->sequences.items, of->sequences.count, false);
    return box;
}

/* ---- on the page ---- */

struct path_room path_room(const struct told_figure *told)
{
    enum { MANY = 40, NARROW = 3, HALF = 6, MEASURE = 12 };
    static const double LONG = 3.5;
    const struct quilting_plan *plan = told->quilting;
    const struct quilted_kind *kind = &plan->kinds.items[told->kind];
    const struct area_bounds bounds =
        area_bounds(&plan->areas.items[kind->sample]);
    const double across = bounds.most.x - bounds.least.x;
    const double down = bounds.most.y - bounds.least.y;
    size_t steps = 0;
    for (size_t i = 0; i < kind->sequences.count; i++)
        steps += kind->sequences.items[i].steps.count;
    if (steps <= MANY)
        return (struct path_room){NARROW, PATH_MOST};
    if (across > LONG * down)
        return (struct path_room){MEASURE, PATH_MOST};
    if (down > LONG * across)
        return (struct path_room){NARROW, PATH_TALL};
    return (struct path_room){HALF, PATH_MOST};
}
