/* GEOS behind a door: bodies of exact points as whole numbers go in, rims come
 * out. Its complaints go to handlers of our own context, its answer is then
 * NULL, and that comes back as false. Where it gets no memory the program ends
 * before it is told (include/shortage.h). Nothing it makes outlives a call, but
 * for bodies, which the room frees. Everything is asked in one thread.
 *
 * The order of what it makes is that of its own trees, the same for the same
 * input and the same version; what is drawn from it is sorted by the number of
 * the echo alone. */
#include "geos_room.h"

#include <geos_c.h>
#include <math.h>

#include "offset.h"

struct geos_body {
    GEOSGeometry *geometry;
    double scale;
    bool of_lines; /* straight stretches, cut where they meet */
    struct geos_body *next;
};

struct geos_room {
    struct arena *arena;
    GEOSContextHandle_t geos;
    struct geos_body *bodies;
};

/* A complaint needs no words: what was asked for comes back as NULL. */
static void hear_nothing(const char *message, void *data)
{
    (void)message;
    (void)data;
}

struct geos_room *geos_room_open(struct arena *arena)
{
    struct geos_room *room = ARENA_NEW(arena, struct geos_room);
    room->arena = arena;
    room->geos = GEOS_init_r();
    GEOSContext_setErrorMessageHandler_r(room->geos, hear_nothing, NULL);
    GEOSContext_setNoticeMessageHandler_r(room->geos, hear_nothing, NULL);
    return room;
}

void geos_room_close(struct geos_room *room)
{
    for (struct geos_body *b = room->bodies; b != NULL; b = b->next)
        GEOSGeom_destroy_r(room->geos, b->geometry);
    GEOS_finish_r(room->geos);
}

/* The room frees what it keeps, whichever way the caller leaves. */
static struct geos_body *keep_body(struct geos_room *room,
                                   GEOSGeometry *geometry, double scale)
{
    if (geometry == NULL)
        return NULL;
    struct geos_body *body = ARENA_NEW(room->arena, struct geos_body);
    *body = (struct geos_body){geometry, scale, false, room->bodies};
    room->bodies = body;
    return body;
}

/* ---- in ---- */

static void set_point(const struct geos_room *room, GEOSCoordSequence *seq,
                      size_t i, struct vertex v, double scale)
{
    GEOSCoordSeq_setXY_r(room->geos, seq, (unsigned)i,
                         number_scaled(v.x, scale), number_scaled(v.y, scale));
}

/* The library wants the first point again at the end. */
static GEOSGeometry *ring_geometry(struct geos_room *room,
                                   struct shape_ring ring, double scale)
{
    GEOSCoordSequence *seq =
        GEOSCoordSeq_create_r(room->geos, (unsigned)ring.count + 1, 2);
    if (seq == NULL)
        return NULL;
    for (size_t i = 0; i <= ring.count; i++)
        set_point(room, seq, i, ring.points[i % ring.count], scale);
    return GEOSGeom_createLinearRing_r(room->geos, seq);
}

/* Outer rings do, with y down; holes turn left. */
static bool ring_turns_right(struct shape_ring ring)
{
    double sum = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct spot p = vertex_spot(ring.points[i]);
        const struct spot q = vertex_spot(ring.points[(i + 1) % ring.count]);
        sum += p.x * q.y - p.y * q.x;
    }
    return sum > 0;
}

/* All outer rings, filled, less all holes, filled: so rings may touch. */
static GEOSGeometry *filled_rings(struct geos_room *room,
                                  const struct shape *shape, double scale,
                                  bool outer)
{
    GEOSGeometry **list =
        ARENA_ARRAY(room->arena, GEOSGeometry *, shape->count);
    unsigned count = 0;
    for (size_t r = 0; r < shape->count; r++) {
        if (ring_turns_right(shape->rings[r]) != outer)
            continue;
        GEOSGeometry *ring = ring_geometry(room, shape->rings[r], scale);
        GEOSGeometry *one =
            ring == NULL ? NULL
                         : GEOSGeom_createPolygon_r(room->geos, ring, NULL, 0);
        if (one != NULL)
            list[count++] = one;
    }
    GEOSGeometry *all =
        GEOSGeom_createCollection_r(room->geos, GEOS_MULTIPOLYGON, list, count);
    if (all == NULL)
        return NULL;
    /* A buffer of 0 mends rings that touch themselves. */
    GEOSGeometry *mended = GEOSisValid_r(room->geos, all) == 1
                               ? GEOSGeom_clone_r(room->geos, all)
                               : GEOSBuffer_r(room->geos, all, 0, 8);
    GEOSGeom_destroy_r(room->geos, all);
    return mended;
}

struct geos_body *geos_polygon(struct geos_room *room,
                               const struct shape *shape, double scale)
{
    GEOSGeometry *outer = filled_rings(room, shape, scale, true);
    GEOSGeometry *holes = filled_rings(room, shape, scale, false);
    GEOSGeometry *body = NULL;
    if (outer != NULL && holes != NULL)
        body = GEOSisEmpty_r(room->geos, holes) == 1
                   ? GEOSGeom_clone_r(room->geos, outer)
                   : GEOSDifference_r(room->geos, outer, holes);
    GEOSGeom_destroy_r(room->geos, outer);
    GEOSGeom_destroy_r(room->geos, holes);
    return keep_body(room, body, scale);
}

struct geos_body *geos_lines(struct geos_room *room,
                             const struct segment *lines, size_t count,
                             double scale)
{
    GEOSGeometry **list = ARENA_ARRAY(room->arena, GEOSGeometry *, count + 1);
    unsigned filled = 0;
    for (size_t i = 0; i < count; i++) {
        GEOSCoordSequence *seq = GEOSCoordSeq_create_r(room->geos, 2, 2);
        if (seq == NULL)
            continue;
        set_point(room, seq, 0, lines[i].from, scale);
        set_point(room, seq, 1, lines[i].to, scale);
        GEOSGeometry *one = GEOSGeom_createLineString_r(room->geos, seq);
        if (one != NULL)
            list[filled++] = one;
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(
        room->geos, GEOS_MULTILINESTRING, list, filled);
    if (all == NULL)
        return NULL;
    GEOSGeometry *joined = GEOSUnaryUnion_r(room->geos, all);
    GEOSGeom_destroy_r(room->geos, all);
    struct geos_body *body = keep_body(room, joined, scale);
    if (body != NULL)
        body->of_lines = true;
    return body;
}

/* ---- out ---- */

/* A closed line comes with its first point twice, to the last bit. */
static bool same_point(struct spot a, struct spot b)
{
    return a.x == b.x && a.y == b.y;
}

/* The points of a line in the pattern's unit; count 0 where it has none. */
static struct geos_line points_of(struct geos_room *room,
                                  const GEOSGeometry *line, double scale)
{
    const GEOSCoordSequence *seq = GEOSGeom_getCoordSeq_r(room->geos, line);
    unsigned count = 0;
    if (seq == NULL || !GEOSCoordSeq_getSize_r(room->geos, seq, &count))
        return (struct geos_line){0};
    struct spot *points = ARENA_ARRAY(room->arena, struct spot, count + 1);
    for (unsigned i = 0; i < count; i++) {
        GEOSCoordSeq_getXY_r(room->geos, seq, i, &points[i].x, &points[i].y);
        points[i].x /= scale;
        points[i].y /= scale;
    }
    const bool closed = count > 3 && same_point(points[0], points[count - 1]);
    return (struct geos_line){points, closed ? count - 1 : count, closed};
}

static bool read_line(struct geos_room *room, const GEOSGeometry *line,
                      double scale, geos_lines_list *lines)
{
    const struct geos_line read = points_of(room, line, scale);
    if (read.count > 1)
        *LIST_ADD(room->arena, lines) = read;
    return read.points != NULL;
}

/* All lines of a collection, however deep. */
static bool read_lines(struct geos_room *room, const GEOSGeometry *from,
                       double scale, geos_lines_list *lines)
{
    const int type = GEOSGeomTypeId_r(room->geos, from);
    if (type == GEOS_LINESTRING || type == GEOS_LINEARRING)
        return read_line(room, from, scale, lines);
    if (type == GEOS_POINT || type == GEOS_MULTIPOINT)
        return true;
    const int count = GEOSGetNumGeometries_r(room->geos, from);
    bool all = count >= 0;
    for (int i = 0; i < count && all; i++)
        all = read_lines(room, GEOSGetGeometryN_r(room->geos, from, i), scale,
                         lines);
    return all;
}

/* Meetings are rounded to a grid of less than 1e-7 in, so that sides which
 * close up on each other leave no gap of a rounding between them. */
static double grid_of(const struct geos_body *body)
{
    return body->scale * 0x1p-24;
}

/* Points in doubles as the library has them, `count` of them, beginning again
 * behind the last: what must be equal was made equal before it comes here. */
static GEOSCoordSequence *spot_sequence(struct geos_room *room,
                                        struct spot_ring from, size_t count,
                                        double scale)
{
    GEOSCoordSequence *seq =
        GEOSCoordSeq_create_r(room->geos, (unsigned)count, 2);
    for (size_t i = 0; seq != NULL && i < count; i++) {
        const struct spot p = from.points[i % from.count];
        GEOSCoordSeq_setXY_r(room->geos, seq, (unsigned)i, p.x * scale,
                             p.y * scale);
    }
    return seq;
}

/* One piece, filled. */
static GEOSGeometry *piece_geometry(struct geos_room *room,
                                    struct spot_ring piece, double scale)
{
    GEOSCoordSequence *seq = spot_sequence(room, piece, piece.count + 1, scale);
    GEOSGeometry *ring =
        seq == NULL ? NULL : GEOSGeom_createLinearRing_r(room->geos, seq);
    return ring == NULL ? NULL
                        : GEOSGeom_createPolygon_r(room->geos, ring, NULL, 0);
}

/* All polygons of the list in one, or NULL; they end. */
static GEOSGeometry *union_of(struct geos_room *room,
                              const struct geos_body *body, GEOSGeometry **list,
                              unsigned count)
{
    GEOSGeometry *all =
        GEOSGeom_createCollection_r(room->geos, GEOS_MULTIPOLYGON, list, count);
    if (all == NULL)
        return NULL;
    GEOSGeometry *joined = GEOSUnaryUnionPrec_r(room->geos, all, grid_of(body));
    GEOSGeom_destroy_r(room->geos, all);
    return joined;
}

/* All pieces in one, or NULL. */
static GEOSGeometry *joined_pieces(struct geos_room *room,
                                   const struct geos_body *body,
                                   const struct spot_ring *pieces, size_t count)
{
    GEOSGeometry **list = ARENA_ARRAY(room->arena, GEOSGeometry *, count + 1);
    unsigned filled = 0;
    for (size_t i = 0; i < count; i++) {
        list[filled] = piece_geometry(room, pieces[i], body->scale);
        filled += list[filled] != NULL;
    }
    return union_of(room, body, list, filled);
}

/* What lies beside one stretch, with square ends: a rectangle. */
static GEOSGeometry *rectangle_about(struct geos_room *room, struct spot a,
                                     struct spot b, double by, double scale)
{
    const double length = hypot(b.x - a.x, b.y - a.y);
    const double x = (b.x - a.x) / length * by, y = (b.y - a.y) / length * by;
    const struct spot corners[4] = {{a.x - x + y, a.y - y - x},
                                    {b.x + x + y, b.y + y - x},
                                    {b.x + x - y, b.y + y + x},
                                    {a.x - x - y, a.y - y + x}};
    return piece_geometry(room, (struct spot_ring){corners, 4}, scale);
}

/* The rectangles of all stretches in one. A buffer of the library makes the same
 * of lines that meet nowhere but in their ends; it looks through all parts for
 * each part, and took five times as long, and more than twice the time for
 * twice the lines. */
static GEOSGeometry *rectangles_about(struct geos_room *room,
                                      const struct geos_body *body,
                                      double distance)
{
    const int count = GEOSGetNumGeometries_r(room->geos, body->geometry);
    GEOSGeometry **list =
        ARENA_ARRAY(room->arena, GEOSGeometry *, (size_t)count + 1);
    unsigned made = 0;
    for (int i = 0; i < count; i++) {
        const struct geos_line line = points_of(
            room, GEOSGetGeometryN_r(room->geos, body->geometry, i), 1);
        if (line.count != 2)
            continue;
        list[made] = rectangle_about(room, line.points[0], line.points[1],
                                     distance * body->scale, 1);
        made += list[made] != NULL;
    }
    return union_of(room, body, list, made);
}

/* The rim of a line's surroundings. */
static GEOSGeometry *grown(struct geos_room *room, const struct geos_body *body,
                           double distance, bool rounded, double chord)
{
    /* So many chords to a quarter that each leaves its arc by `chord`. */
    const double step = sqrt(2 * chord / fmax(fabs(distance), chord));
    const int quarter = rounded ? (int)ceil(acos(0.0) / (2 * step)) + 1 : 8;
    if (body->of_lines && !rounded)
        return rectangles_about(room, body, distance);
    return GEOSBufferWithStyle_r(
        room->geos, body->geometry, distance * body->scale, quarter,
        rounded ? GEOSBUF_CAP_ROUND : GEOSBUF_CAP_SQUARE,
        rounded ? GEOSBUF_JOIN_ROUND : GEOSBUF_JOIN_MITRE, 20);
}

/* The parts of a line that was clipped begin where its ring did: joined again,
 * as far as they go on in each other. */
static GEOSGeometry *clipped(struct geos_room *room, GEOSGeometry *rim,
                             const struct geos_body *clip)
{
    GEOSGeometry *parts = GEOSIntersection_r(room->geos, rim, clip->geometry);
    if (parts == NULL)
        return NULL;
    const int type = GEOSGeomTypeId_r(room->geos, parts);
    if (type != GEOS_MULTILINESTRING)
        return parts;
    GEOSGeometry *merged = GEOSLineMerge_r(room->geos, parts);
    GEOSGeom_destroy_r(room->geos, parts);
    return merged;
}

typedef LIST(GEOSGeometry *) geometry_list;

/* Where sides close up on each other the union leaves rings of no width. */
static void add_thick_ring(struct geos_room *room, const GEOSGeometry *ring,
                           double scale, geometry_list *list)
{
    if (ring == NULL)
        return;
    const struct geos_line line = points_of(room, ring, scale);
    if (ring_is_thin((struct spot_ring){line.points, line.count}))
        return;
    GEOSGeometry *copy = GEOSGeom_clone_r(room->geos, ring);
    if (copy != NULL)
        *LIST_ADD(room->arena, list) = copy;
}

/* All rings of the polygons, but for those that are no thicker than a rounding;
 * what was made ends. */
static GEOSGeometry *thick_rings(struct geos_room *room, GEOSGeometry *made,
                                 double scale)
{
    geometry_list list = {0};
    const int count = GEOSGetNumGeometries_r(room->geos, made);
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *one = GEOSGetGeometryN_r(room->geos, made, i);
        if (GEOSGeomTypeId_r(room->geos, one) != GEOS_POLYGON ||
            GEOSisEmpty_r(room->geos, one) != 0)
            continue;
        add_thick_ring(room, GEOSGetExteriorRing_r(room->geos, one), scale,
                       &list);
        const int holes = GEOSGetNumInteriorRings_r(room->geos, one);
        for (int h = 0; h < holes; h++)
            add_thick_ring(room, GEOSGetInteriorRingN_r(room->geos, one, h),
                           scale, &list);
    }
    GEOSGeom_destroy_r(room->geos, made);
    return GEOSGeom_createCollection_r(room->geos, GEOS_MULTILINESTRING,
                                       list.items, (unsigned)list.count);
}

/* Reads the rim of what was made, and ends that. */
static bool read_rim(struct geos_room *room, const struct geos_body *body,
                     GEOSGeometry *made, geos_lines_list *lines)
{
    GEOSGeometry *rim =
        made == NULL ? NULL : thick_rings(room, made, body->scale);
    const bool all = rim != NULL && read_lines(room, rim, body->scale, lines);
    GEOSGeom_destroy_r(room->geos, rim);
    return all;
}

bool geos_line_rim(struct geos_room *room, const struct geos_body *body,
                   double distance, bool rounded, double chord,
                   geos_lines_list *lines)
{
    return read_rim(room, body, grown(room, body, distance, rounded, chord),
                    lines);
}

/* An operation of two bodies whose meetings are rounded to a grid. */
typedef GEOSGeometry *with_grid(GEOSContextHandle_t geos,
                                const GEOSGeometry *one,
                                const GEOSGeometry *other, double grid);

/* Two bodies that also touch give lines beside what they share, and those cannot
 * be joined with what lies beside lines: the polygons alone. What was made ends.
 */
static GEOSGeometry *polygons_of(struct geos_room *room, GEOSGeometry *made)
{
    geometry_list list = {0};
    if (made == NULL ||
        GEOSGeomTypeId_r(room->geos, made) != GEOS_GEOMETRYCOLLECTION)
        return made;
    const int count = GEOSGetNumGeometries_r(room->geos, made);
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *one = GEOSGetGeometryN_r(room->geos, made, i);
        if (GEOSGeomTypeId_r(room->geos, one) == GEOS_POLYGON)
            *LIST_ADD(room->arena, &list) = GEOSGeom_clone_r(room->geos, one);
    }
    GEOSGeom_destroy_r(room->geos, made);
    return GEOSGeom_createCollection_r(room->geos, GEOS_MULTIPOLYGON,
                                       list.items, (unsigned)list.count);
}

/* What two geometries make; both end. NULL where one is. */
static GEOSGeometry *made_of(struct geos_room *room,
                             const struct geos_body *body, GEOSGeometry *one,
                             GEOSGeometry *other, with_grid *operation)
{
    GEOSGeometry *made =
        one == NULL || other == NULL
            ? NULL
            : polygons_of(room,
                          operation(room->geos, one, other, grid_of(body)));
    GEOSGeom_destroy_r(room->geos, one);
    GEOSGeom_destroy_r(room->geos, other);
    return made;
}

/* Bodies stay in the room, what is made of them ends. */
static GEOSGeometry *copy_of(struct geos_room *room,
                             const struct geos_body *body)
{
    return GEOSGeom_clone_r(room->geos, body->geometry);
}

/* What the body and the pieces make. */
static GEOSGeometry *made_with(struct geos_room *room,
                               const struct geos_body *body,
                               const struct spot_ring *pieces, size_t count,
                               with_grid *operation)
{
    return made_of(room, body, copy_of(room, body),
                   joined_pieces(room, body, pieces, count), operation);
}

bool geos_less(struct geos_room *room, const struct geos_body *body,
               const struct spot_ring *pieces, size_t count,
               geos_lines_list *lines)
{
    return read_rim(
        room, body, made_with(room, body, pieces, count, GEOSDifferencePrec_r),
        lines);
}

bool geos_with(struct geos_room *room, const struct geos_body *body,
               const struct spot_ring *pieces, size_t count,
               geos_lines_list *lines)
{
    return read_rim(room, body,
                    made_with(room, body, pieces, count, GEOSUnionPrec_r),
                    lines);
}

/* ---- strips ---- */

/* Lines have no inside: what lies about them is all theirs. */
static GEOSGeometry *outer_strip(struct geos_room *room,
                                 const struct geos_body *body,
                                 const struct geos_strip *strip)
{
    GEOSGeometry *around =
        grown(room, body, strip->outside, strip->rounded, strip->chord);
    if (!strip->of_lines)
        around = made_of(room, body, around, copy_of(room, body),
                         GEOSDifferencePrec_r);
    return strip->ground == NULL
               ? around
               : made_of(room, body, around, copy_of(room, strip->ground),
                         GEOSIntersectionPrec_r);
}

/* Of a shape less itself drawn in. */
static GEOSGeometry *inner_strip(struct geos_room *room,
                                 const struct geos_body *body,
                                 const struct geos_strip *strip)
{
    return made_of(
        room, body, copy_of(room, body),
        grown(room, body, -strip->inside, strip->rounded, strip->chord),
        GEOSDifferencePrec_r);
}

struct geos_body *geos_beside_stretch(struct geos_room *room,
                                      struct segment stretch, double distance,
                                      double scale)
{
    const struct spot a = vertex_spot(stretch.from);
    const struct spot b = vertex_spot(stretch.to);
    return keep_body(room, rectangle_about(room, a, b, distance, scale), scale);
}

struct geos_body *geos_beside(struct geos_room *room,
                              const struct geos_body *body,
                              const struct geos_strip *strip)
{
    GEOSGeometry *made = NULL;
    if (!(strip->inside > 0))
        made = outer_strip(room, body, strip);
    else if (!(strip->outside > 0))
        made = inner_strip(room, body, strip);
    else
        made = made_of(room, body, inner_strip(room, body, strip),
                       outer_strip(room, body, strip), GEOSUnionPrec_r);
    return keep_body(room, made, body->scale);
}

/* Areas are many, and rounding to a grid costs ten times as much: what it would
 * take off a rim is thinner than a rounding, and left out when it is read. */
bool geos_rest(struct geos_room *room, const struct geos_body *body,
               struct geos_body *const *strips, size_t count, double *size,
               geos_lines_list *lines)
{
    GEOSGeometry *rest = copy_of(room, body);
    for (size_t i = 0; i < count && rest != NULL; i++) {
        GEOSGeometry *less =
            GEOSDifference_r(room->geos, rest, strips[i]->geometry);
        GEOSGeom_destroy_r(room->geos, rest);
        rest = less;
    }
    if (rest == NULL || GEOSArea_r(room->geos, rest, size) != 1) {
        GEOSGeom_destroy_r(room->geos, rest);
        return false;
    }
    *size /= body->scale * body->scale;
    return read_rim(room, body, rest, lines);
}

/* ---- clipping ---- */

bool geos_clip(struct geos_room *room, const struct geos_body *clip,
               const struct geos_line *line, geos_lines_list *lines)
{
    GEOSCoordSequence *seq = spot_sequence(
        room, (struct spot_ring){line->points, line->count},
        line->count + line->closed, clip->scale);
    GEOSGeometry *whole =
        seq == NULL ? NULL : GEOSGeom_createLineString_r(room->geos, seq);
    GEOSGeometry *inside = whole == NULL ? NULL : clipped(room, whole, clip);
    GEOSGeom_destroy_r(room->geos, whole);
    const bool all =
        inside != NULL && read_lines(room, inside, clip->scale, lines);
    GEOSGeom_destroy_r(room->geos, inside);
    return all;
}
