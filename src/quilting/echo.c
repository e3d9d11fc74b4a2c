/* Echoes: each is the rim of the shape grown or shrunk at once by its whole
 * distance, so that nothing adds up from one to the next. */
#include "echo.h"

#include <math.h>

#include "geos_room.h"
#include "offset.h"

/* How far chords of rounded corners may leave their arc. */
static const double CHORD = 1.0 / 2000;

struct echoer {
    struct arena *arena;
    const struct echo_order *order;
    struct geos_room *room;
    const struct geos_body *body, *ground;
    spot_rings rings; /* of the shape */
    bool convex;
    LIST(struct echo_line) lines;
    size_t points;
    struct fault fault;
};

static double distance_of(const struct echo_order *order, size_t echo)
{
    return number_double(order->first) +
           (double)(echo - 1) * number_double(order->spacing);
}

static void keep_lines(struct echoer *e, const geos_lines_list *found,
                       size_t echo, enum echo_side side)
{
    for (size_t i = 0; i < found->count; i++) {
        const struct geos_line *line = &found->items[i];
        e->points += line->count;
        *LIST_ADD(e->arena, &e->lines) =
            (struct echo_line){.points = line->points,
                               .count = line->count,
                               .closed = line->closed,
                               .number = echo,
                               .side = side};
    }
}

/* The rim at a distance. A convex shape needs no library: its sides are moved
 * inwards one by one. ensures: false where the library refused. */
static bool rim_at(struct echoer *e, double distance, bool inside,
                   geos_lines_list *found)
{
    const struct echo_order *order = e->order;
    const struct offset offset = {distance, inside, order->rounded, CHORD};
    if (order->shape == NULL)
        return geos_line_rim(e->room, e->body, distance, order->rounded, CHORD,
                             e->ground, found);
    if (inside && e->convex) {
        const struct spot_ring left =
            offset_convex(e->arena, e->rings.items[0], distance);
        if (left.count > 0)
            *LIST_ADD(e->arena, found) =
                (struct geos_line){left.points, left.count, true};
        return true;
    }
    struct arena *scratch = arena_create();
    const spot_rings pieces =
        offset_pieces(scratch, e->rings.items, e->rings.count, offset);
    const bool made =
        inside ? geos_less(e->room, e->body, pieces.items, pieces.count, found)
               : geos_with(e->room, e->body, pieces.items, pieces.count,
                           e->ground, found);
    arena_destroy(scratch);
    return made;
}

/* One echo. ensures: false where there is none, or a fault. */
static bool add_echo(struct echoer *e, size_t echo, enum echo_side side)
{
    geos_lines_list found = {0};
    const bool inside = side == ECHO_INSIDE;
    const double distance = distance_of(e->order, echo);
    if (echo > ECHO_MOST || e->points > ECHO_MOST_POINTS) {
        e->fault.kind = FAULT_LIMIT;
        return false;
    }
    if (!rim_at(e, distance, inside, &found)) {
        e->fault.kind = FAULT_ROOM;
        return false;
    }
    keep_lines(e, &found, echo, side);
    return found.count > 0;
}

/* Outside echoes without an end end where none of the cloth is left. */
static size_t add_side(struct echoer *e, enum echo_side side)
{
    const size_t times = e->order->times;
    size_t echo = 1;
    while ((times == 0 || echo <= times) && add_echo(e, echo, side))
        echo++;
    return echo - 1;
}

/* Inside echoes that are there beyond those asked for are not counted: only
 * where fewer are there the figure says how many. */
static struct echoes make_echoes(struct echoer *e)
{
    struct echoes echoes = {0};
    const bool around_lines = e->order->shape == NULL;
    if (!around_lines && (e->order->side & ECHO_INSIDE))
        echoes.fit = add_side(e, ECHO_INSIDE);
    if (e->fault.kind == FAULT_NONE &&
        (around_lines || (e->order->side & ECHO_OUTSIDE))) {
        const size_t found = add_side(e, ECHO_OUTSIDE);
        if (around_lines || e->order->side == ECHO_OUTSIDE)
            echoes.fit = found;
    }
    echoes.fault = e->fault;
    if (e->fault.kind == FAULT_NONE) {
        echoes.items = e->lines.items;
        echoes.count = e->lines.count;
    }
    return echoes;
}

struct echoes echo_shape(struct arena *arena, const struct echo_order *order)
{
    struct echoer e = {.arena = arena, .order = order};
    const bool endless = order->times == 0 && order->ground == NULL &&
                         (order->shape == NULL || order->side != ECHO_INSIDE);
    if (order->times > ECHO_MOST || endless)
        return (struct echoes){.fault = {FAULT_LIMIT, 0, 0}};
    const struct shape *shapes[2];
    size_t count = 0;
    if (order->shape != NULL)
        shapes[count++] = order->shape;
    if (order->ground != NULL)
        shapes[count++] = order->ground;
    const double scale =
        geos_scale(shapes, count, order->lines,
                   order->shape != NULL ? 0 : order->line_count);
    e.room = geos_room_open(arena);
    e.body = order->shape != NULL
                 ? geos_polygon(e.room, order->shape, scale)
                 : geos_lines(e.room, order->lines, order->line_count, scale);
    if (order->shape != NULL) {
        e.rings = shape_spots(arena, order->shape);
        e.convex = e.rings.count == 1 && ring_is_convex(e.rings.items[0]);
    }
    if (order->ground != NULL)
        e.ground = geos_polygon(e.room, order->ground, scale);
    if (e.body == NULL || (order->ground != NULL && e.ground == NULL))
        e.fault.kind = FAULT_ROOM;
    const struct echoes echoes = e.fault.kind == FAULT_NONE
                                     ? make_echoes(&e)
                                     : (struct echoes){.fault = e.fault};
    geos_room_close(e.room);
    return echoes;
}
