/* Echoes: each is the rim of the shape grown or shrunk at once by its whole
 * distance, so that nothing adds up from one to the next. */
#include "echo.h"

#include <math.h>

#include "geos_room.h"
#include "rim.h"

struct echoer {
    struct arena *arena;
    const struct echo_order *order;
    struct geos_room *room;
    const struct geos_body *body, *ground;
    spot_rings rings; /* of the shape */
    bool convex;
    LIST(struct echo_line) lines;
    size_t points, work;
    size_t sides, ground_sides; /* of what is echoed; of `ground` */
    struct fault fault;
};

static double spots_apart(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* From the shape, never from the echo before, so that roundings do not add up.
 */
static double distance_of(const struct echo_order *order, size_t echo)
{
    return number_double(order->first) +
           (double)(echo - 1) * number_double(order->spacing);
}

/* Three sides that close up in one point leave a side of a rounding between
 * them, or none: points that are one to the eye of all else are one. */
static struct geos_line without_stumps(struct arena *arena,
                                       struct geos_line line)
{
    const double stump = 1e-7;
    struct spot *kept = ARENA_ARRAY(arena, struct spot, line.count + 1);
    size_t count = 0;
    for (size_t i = 0; i < line.count; i++) {
        const struct spot at = line.points[i];
        const bool closes = line.closed && i + 1 == line.count;
        if ((count > 0 && spots_apart(kept[count - 1], at) < stump) ||
            (closes && count > 0 && spots_apart(kept[0], at) < stump))
            continue;
        kept[count++] = at;
    }
    return (struct geos_line){kept, count, line.closed};
}

/* Parts of one echo have its number; how many points there are is counted for
 * the limit. */
static void keep_lines(struct echoer *e, const geos_lines_list *found,
                       size_t echo, enum echo_side side)
{
    for (size_t i = 0; i < found->count; i++) {
        const struct geos_line line =
            without_stumps(e->arena, found->items[i]);
        e->points += line.count;
        if (line.count < 2)
            continue;
        *LIST_ADD(e->arena, &e->lines) =
            (struct echo_line){.points = line.points,
                               .count = line.count,
                               .closed = line.closed,
                               .number = echo,
                               .side = side};
    }
}

static void add_closed(struct arena *arena, struct spot_ring ring,
                       geos_lines_list *found)
{
    if (ring.count > 0)
        *LIST_ADD(arena, found) =
            (struct geos_line){ring.points, ring.count, true};
}

/* The rim at a distance of a shape: by its intervals, or where these do not
 * tell, by the union of the pieces. A convex shape needs neither: its sides are
 * moved inwards one by one. ensures: false where the library refused. */
static bool shape_rim(struct echoer *e, struct offset offset,
                      geos_lines_list *found)
{
    if (offset.inside && e->convex) {
        add_closed(e->arena,
                   offset_convex(e->arena, e->rings.items[0], offset.distance),
                   found);
        return true;
    }
    struct arena *scratch = arena_create();
    spot_rings rim = {0};
    const struct offset_pieces made =
        offset_pieces(scratch, e->rings.items, e->rings.count, offset);
    bool told = rim_of_pieces(e->arena, e->rings.items, e->rings.count, &made,
                              offset.inside, &rim);
    for (size_t i = 0; told && i < rim.count; i++)
        add_closed(e->arena, rim.items[i], found);
    e->work += told ? e->sides : 2 * e->sides;
    if (!told)
        told = (offset.inside ? geos_less : geos_with)(
            e->room, e->body, made.pieces.items, made.pieces.count, found);
    arena_destroy(scratch);
    return told;
}

/* The library puts lines together that cross each other, which takes it about so
 * much longer than a side that is moved takes us. */
enum { LINE_WORK = 8 };

/* The rim at a distance, clipped where it must be. */
static bool rim_at(struct echoer *e, double distance, bool inside,
                   geos_lines_list *found)
{
    const bool rounded = e->order->rounded;
    const struct offset offset = {distance, inside, rounded, ECHO_CHORD};
    geos_lines_list whole = {0};
    const bool clips = !inside && e->ground != NULL;
    geos_lines_list *const made = clips ? &whole : found;
    bool all =
        e->order->shape != NULL
            ? shape_rim(e, offset, made)
            : geos_line_rim(e->room, e->body, distance, rounded, ECHO_CHORD, made);
    e->work += (clips ? e->ground_sides : 0) +
               (e->order->shape == NULL ? LINE_WORK * e->sides : 0);
    for (size_t i = 0; clips && all && i < whole.count; i++)
        all = geos_clip(e->room, e->ground, &whole.items[i], found);
    return all;
}

/* One echo. ensures: false where there is none, or a fault. */
static bool add_echo(struct echoer *e, size_t echo, enum echo_side side)
{
    geos_lines_list found = {0};
    const bool inside = side == ECHO_INSIDE;
    const double distance = distance_of(e->order, echo);
    if (echo > ECHO_MOST || e->points > ECHO_MOST_POINTS ||
        e->work > ECHO_MOST_WORK) {
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

/* Of echoes without an end: is there one too many? Asked first, as making the
 * others would take long. */
static bool runs_over(struct echoer *e, enum echo_side side)
{
    geos_lines_list found = {0};
    return e->order->times == 0 &&
           rim_at(e, distance_of(e->order, ECHO_MOST + 1), side == ECHO_INSIDE,
                  &found) &&
           found.count > 0;
}

/* Echoes without an end end where none of the shape, or of the cloth around it,
 * is left. ensures: how many are there. */
static size_t add_side(struct echoer *e, enum echo_side side)
{
    const size_t times = e->order->times;
    size_t echo = 1;
    if (runs_over(e, side)) {
        e->fault.kind = FAULT_LIMIT;
        return 0;
    }
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
    echoes.work = e->work;
    if (e->fault.kind == FAULT_NONE) {
        echoes.items = e->lines.items;
        echoes.count = e->lines.count;
    }
    return echoes;
}

/* Corners of all rings, which are as many as sides. */
static size_t sides_of(const struct shape *shape)
{
    size_t sides = 0;
    for (size_t i = 0; i < shape->count; i++)
        sides += shape->rings[i].count;
    return sides;
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
        e.sides = sides_of(order->shape);
        e.convex = e.rings.count == 1 && ring_is_convex(e.rings.items[0]);
    }
    else
        e.sides = order->line_count;
    if (order->ground != NULL)
        e.ground_sides = sides_of(order->ground);
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

/* A point at a corner lies as far off as the sine of half its angle tells: with
 * a turn t between the sides, 1 / cos(t / 2), and where it is cut off,
 * beyond 20. */
static double farthest_point(const struct shape *shape)
{
    double most = 1;
    for (size_t r = 0; r < shape->count; r++)
        for (size_t i = 0; i < shape->rings[r].count; i++) {
            const struct shape_ring ring = shape->rings[r];
            const struct spot p = vertex_spot(ring.points[i]);
            const struct spot q =
                vertex_spot(ring.points[(i + 1) % ring.count]);
            const struct spot s =
                vertex_spot(ring.points[(i + 2) % ring.count]);
            const double turn =
                atan2((q.x - p.x) * (s.y - q.y) - (q.y - p.y) * (s.x - q.x),
                      (q.x - p.x) * (s.x - q.x) + (q.y - p.y) * (s.y - q.y));
            if (turn > 0)
                most = fmax(most, 1 / fmax(cos(turn / 2), 1.0 / 21));
        }
    return most;
}

double echo_reach(const struct echo_order *order)
{
    if (order->times == 0)
        return HUGE_VAL;
    return distance_of(order, order->times) *
           (order->rounded ? 1 : farthest_point(order->shape));
}
