/* Echoes of shapes, of lines and of areas, each for itself. Read next:
 * regions.c. */
#include "echo.h"
#include "quilter.h"

#include <math.h>
#include <string.h>

/* The points are copied, as those of geometry live in lists that grow. */
struct quilted_line *add_line(struct quilter *quilter,
                              const struct told_item *item,
                              enum quilting_stage stage,
                              const struct spot *points, size_t count,
                              bool closed)
{
    struct spot *copy = ARENA_ARRAY(quilter->arena, struct spot, count + 1);
    double length = 0;
    for (size_t i = 0; i < count; i++) {
        copy[i] = points[i];
        if (i > 0)
            length += hypot(points[i].x - points[i - 1].x,
                            points[i].y - points[i - 1].y);
    }
    if (closed)
        length += hypot(points[0].x - points[count - 1].x,
                        points[0].y - points[count - 1].y);
    quilter->stretches += count - (closed ? 0 : 1);
    struct quilted_line *line = LIST_ADD(quilter->arena, &quilter->plan->lines);
    *line = (struct quilted_line){.item = item,
                                  .stage = stage,
                                  .thread = (size_t)item->thread,
                                  .points = copy,
                                  .count = count,
                                  .closed = closed,
                                  .length = length,
                                  .area = QUILTING_NONE};
    return line;
}

/* Each shape or area has a limit of its own; what many of them come to together
 * has this one. */
bool too_many_lines(struct quilter *quilter, const struct told_item *item)
{
    if (quilter->stretches <= QUILTING_MOST &&
        quilter->echo_work <= QUILTING_ECHO_WORK)
        return false;
    if (!quilter->failed)
        say_fault(quilter, item, (struct fault){FAULT_LIMIT, 0, 0});
    return true;
}

/* ---- what is echoed ---- */

/* To a multiple of 2^-20: nearer than 1e-6 in. */
static number rounded_number(double value)
{
    const int64_t parts = 1 << 20;
    return rational_make(llround(value * (double)parts), parts);
}

/* The lines that are named, in exact stretches. */
static segment_list lines_around(struct quilter *quilter,
                                 const struct told_item *item)
{
    segment_list segments = {0};
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        bool named = false;
        for (size_t k = 0; k < item->of.echo.around_count; k++)
            named |= line->item->index == (size_t)item->of.echo.around[k];
        for (size_t k = 0; named && k < line->count; k++) {
            const size_t next = (k + 1) % line->count;
            if (next == 0 && !line->closed)
                break;
            struct segment s;
            if (line->exact != NULL) {
                s = (struct segment){line->exact[k], line->exact[next]};
            } else {
                s.from.x = rounded_number(line->points[k].x);
                s.from.y = rounded_number(line->points[k].y);
                s.to.x = rounded_number(line->points[next].x);
                s.to.y = rounded_number(line->points[next].y);
            }
            *LIST_ADD(quilter->arena, &segments) = s;
        }
    }
    return segments;
}

/* ---- what comes of it ---- */

/* The fewest echoes that one shape holds, where that is fewer than were asked.
 */
struct fitting {
    bool short_of;
    size_t fit;
    struct spot at;
    struct shape shape; /* the first that holds so few */
};

/* The middle of the box: for words and for asking whether a shape is meant. */
static struct spot shape_middle(const struct shape *shape)
{
    return vertex_spot(vertex_middle(shape->extent.low, shape->extent.high));
}

/* The box around the echoes that were added from `first` on, and around what
 * was echoed. */
static struct spot_line band_box(const struct quilter *quilter,
                                 const struct echo_band *band, size_t first)
{
    struct spot_line box = {vertex_spot(band->shape.extent.low),
                            vertex_spot(band->shape.extent.high)};
    if (band->line_count > 0)
        box = (struct spot_line){vertex_spot(band->lines[0].from),
                                 vertex_spot(band->lines[0].to)};
    box = box_around(&box.from, 2);
    for (size_t i = first; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        const struct spot_line of_line = box_around(line->points, line->count);
        const struct spot corners[4] = {box.from, box.to, of_line.from,
                                        of_line.to};
        box = box_around(corners, 4);
    }
    return box;
}

/* What lies between the shape and its outermost echo is quilted, and no
 * filler goes over it again. */
static void add_band(struct quilter *quilter, const struct told_item *item,
                     const struct echo_order *order, const struct echoes *found,
                     size_t first)
{
    struct echo_band *band = LIST_ADD(quilter->arena, &quilter->bands);
    *band = (struct echo_band){.item = item,
                               .lines = order->lines,
                               .line_count = order->line_count,
                               .ground = order->ground};
    if (order->shape != NULL)
        band->shape = *order->shape;
    for (size_t i = 0; i < found->count; i++) {
        double *const reach = found->items[i].side == ECHO_INSIDE
                                  ? &band->inside
                                  : &band->outside;
        *reach = fmax(*reach, number_double(order->first) +
                                  (double)(found->items[i].number - 1) *
                                      number_double(order->spacing));
    }
    band->box = band_box(quilter, band, first);
}

/* ensures: false where there was a fault. */
static bool add_echoes(struct quilter *quilter, const struct told_item *item,
                       const struct echo_order *order, size_t area,
                       struct fitting *fitting)
{
    const struct echoes found = echo_shape(quilter->arena, order);
    quilter->echo_work += found.work;
    if (say_fault(quilter, item, found.fault))
        return false;
    if ((order->side & ECHO_INSIDE) != 0 && order->shape != NULL &&
        found.fit < item->of.echo.times &&
        (!fitting->short_of || found.fit < fitting->fit))
        *fitting = (struct fitting){true, found.fit, shape_middle(order->shape),
                                    *order->shape};
    const enum quilting_stage stage =
        area == QUILTING_NONE ? STAGE_ECHOES : STAGE_FILLERS;
    const size_t first = quilter->plan->lines.count;
    for (size_t i = 0; i < found.count; i++) {
        struct quilted_line *line =
            add_line(quilter, item, stage, found.items[i].points,
                     found.items[i].count, found.items[i].closed);
        line->area = area;
        line->echo = found.items[i].number;
        line->guide = found.items[i].number > 1 || area != QUILTING_NONE
                          ? GUIDE_LINE
                          : GUIDE_SEAM;
        line->beside = number_double(found.items[i].number > 1 ? order->spacing
                                                               : order->first);
    }
    if (found.count > 0)
        add_band(quilter, item, order, &found, first);
    return !too_many_lines(quilter, item);
}

/* What is the same for all shapes of an element. */
static struct echo_order order_of(const struct told_item *item)
{
    static const enum echo_side sides[] = {ECHO_INSIDE, ECHO_OUTSIDE,
                                           ECHO_BOTH};
    return (struct echo_order){.side = sides[item->of.echo.side],
                               .first = item->of.echo.first,
                               .spacing = item->of.echo.spacing,
                               .times = item->of.echo.times,
                               .rounded = item->of.echo.rounded};
}

/* Does the place hold the shape? In a border that is all of it, as a shape may
 * go round the quilt, with its middle where it is not: its corners and the
 * middles of its sides, as a side may run across what the border goes round. */
static bool holds_shape(const struct quilter *quilter,
                        const struct quilting_place *place,
                        const struct placement *placement,
                        const struct shape *shape)
{
    if (place->border == 0)
        return place_holds(quilter, place, placement, shape_middle(shape));
    for (size_t r = 0; r < shape->count; r++)
        for (size_t i = 0; i < shape->rings[r].count; i++) {
            const struct vertex *points = shape->rings[r].points;
            const struct vertex next = points[(i + 1) % shape->rings[r].count];
            const struct vertex middle = vertex_middle(points[i], next);
            if (!place_holds(quilter, place, placement,
                             vertex_spot(points[i])) ||
                !place_holds(quilter, place, placement, vertex_spot(middle)))
                return false;
        }
    return true;
}

/* All shapes of one place. */
static bool echo_place(struct quilter *quilter, const struct told_item *item,
                       const struct placement *placement, size_t area,
                       struct fitting *fitting, size_t *shapes_found)
{
    const struct shapes shapes = find_shapes(
        quilter->arena, quilter->ground, placement->extent, item->place.fabric);
    if (say_fault(quilter, item, shapes.fault))
        return false;
    for (size_t i = 0; i < shapes.count; i++) {
        const struct shape *shape = &shapes.items[i];
        struct echo_order order = order_of(item);
        if (!holds_shape(quilter, &item->place, placement, shape) ||
            (area != QUILTING_NONE &&
             !area_holds(quilter, area, shape_middle(shape))))
            continue;
        (*shapes_found)++;
        order.shape = shape;
        if (order.side != ECHO_INSIDE) {
            const struct shapes ground = shape_surroundings_within(
                quilter->arena, quilter->ground, shape, echo_reach(&order));
            if (say_fault(quilter, item, ground.fault))
                return false;
            order.ground = ground.count > 0 ? &ground.items[0] : NULL;
        }
        if (!add_echoes(quilter, item, &order, area, fitting))
            return false;
    }
    return true;
}

/* A spacing at which one echo fits: half of the asked one, or half of that, as
 * often as it takes. Tried as it is drawn; the first of its own stays. */
static void help_closer(struct quilter *quilter, struct diagnostic *d,
                        const struct told_item *item,
                        const struct fitting *fitting)
{
    enum { HALVINGS = 6 };
    struct echo_order order = {.shape = &fitting->shape,
                               .side = ECHO_INSIDE,
                               .spacing = item->of.echo.spacing,
                               .times = 1};
    for (int i = 0; i < HALVINGS; i++) {
        order.spacing = rational_div(order.spacing, rational_whole(2));
        order.first = order.spacing;
        const struct echoes found = echo_shape(quilter->arena, &order);
        if (found.fault.kind != FAULT_NONE || found.fit == 0)
            continue;
        const char *text = length_plain(quilter->arena, order.spacing,
                                        quilter->sized->design->pattern->units);
        diag_mend(quilter->run, d, value_span(item->element, ATTR_SPACING),
                  text, "spacing=\"%s\" has room for one", text);
        return;
    }
}

/* reports: more echoes than there is room for. */
static void say_full(struct quilter *quilter, const struct told_item *item,
                     const struct fitting *fitting)
{
    struct diagnostic *d =
        fitting->fit == 0
            ? say_error(quilter, DIAG_ECHO_FULL,
                        value_span(item->element, ATTR_SPACING),
                        "not one echo fits inside a shape")
            : say_error(quilter, DIAG_ECHO_FULL,
                        value_span(item->element, ATTR_ECHO_TIMES),
                        "%zu echoes are asked for, and %zu fit inside a shape",
                        item->of.echo.times, fitting->fit);
    diag_note(quilter->run, d, (struct span){0, 0},
              "the smallest shape lies at %s; an echo fits where a circle of "
              "twice its distance does",
              place_words(quilter, fitting->at));
    if (fitting->fit > 0 && item->limit.written)
        diag_mend(quilter->run, d, item->limit.span,
                  arena_printf(quilter->arena, "%zu", fitting->fit),
                  "times=\"%zu\" is as many as fit", fitting->fit);
    else if (fitting->fit == 0)
        help_closer(quilter, d, item, fitting);
}

/* Without `border` the whole shape is meant. Its name goes with its value: what
 * stands before the quote is an equals sign, with blanks as one likes, and the
 * name (XML 1.0, production 25). */
static void mend_border(struct quilter *quilter, struct diagnostic *d,
                        const struct told_item *item)
{
    enum { NAME = sizeof " border" - 1 };
    const struct span value = value_span(item->element, ATTR_BORDER);
    const char *bytes = quilter->run->source->bytes;
    unsigned start = value.start - 1; /* of what goes: the quote, so far */
    while (strchr(" \t\r\n=", bytes[start - 1]) != NULL)
        start--;
    diag_mend(quilter->run, d, (struct span){start - NAME, value.end + 1}, "",
              "without `border` the echoes follow all of it");
}

/* reports: cloth of the fabric that is not there, and which is. */
static void say_no_shape(struct quilter *quilter, const struct told_item *item,
                         const placement_list *places)
{
    const struct design *design = quilter->sized->design;
    const struct span span = value_span(item->element, ATTR_FABRIC);
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_SHAPE, span, "no cloth of `%s` lies there",
                  fabric_id(design, item->place.fabric));
    const struct shapes shapes = find_shapes(
        quilter->arena, quilter->ground, places->items[0].extent, NO_FABRIC);
    if (shapes.fault.kind != FAULT_NONE || shapes.count == 0 ||
        shapes.items[0].fabric == NO_FABRIC)
        return;
    const char *there = fabric_id(design, shapes.items[0].fabric);
    if (shapes.items[0].fabric == item->place.fabric) {
        diag_note(quilter->run, d, (struct span){0, 0},
                  "its cloth hangs together with cloth beyond the place, and "
                  "that is one shape");
        mend_border(quilter, d, item);
        return;
    }
    diag_note(quilter->run, d, (struct span){0, 0},
              "the first place has cloth of `%s`", there);
    diag_mend(quilter->run, d, span, there, "fabric=\"%s\" lies there", there);
}

/* Of an area without further words, its outline. */
static void echo_area(struct quilter *quilter, const struct told_item *item,
                      size_t area, struct fitting *fitting)
{
    const struct shape shape = shape_of_area(quilter, area);
    struct echo_order order = order_of(item);
    order.shape = &shape;
    add_echoes(quilter, item, &order, area, fitting);
}

/* Of lines, of the area that it stands in, or of shapes. An area whose shapes
 * lie elsewhere has no echoes, and that is no mistake. */
void draw_echoes(struct quilter *quilter, const struct told_item *item,
                 size_t area)
{
    struct fitting fitting = {0};
    if (item->of.echo.around_count > 0) {
        const segment_list lines = lines_around(quilter, item);
        struct echo_order order = order_of(item);
        order.lines = lines.items;
        order.line_count = lines.count;
        if (lines.count > 0)
            add_echoes(quilter, item, &order, area, &fitting);
    } else if (item->place.fabric == NO_FABRIC && area != QUILTING_NONE) {
        echo_area(quilter, item, area, &fitting);
    } else {
        const placement_list places = places_of(quilter, &item->place);
        size_t shapes = 0;
        for (size_t i = 0; i < places.count; i++)
            if (!echo_place(quilter, item, &places.items[i], area, &fitting,
                            &shapes))
                return;
        if (shapes == 0 && places.count > 0 && area == QUILTING_NONE)
            say_no_shape(quilter, item, &places);
    }
    if (fitting.short_of)
        say_full(quilter, item, &fitting);
}
