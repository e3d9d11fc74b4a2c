/* Questions to extents. A rectangle is asked by its four numbers, as most are;
 * what has corners of its own by the side of each two on which a point lies.
 * Sides of no length have nothing outside. */
#include "extent.h"

#include <math.h>

#include "grid.h"

/* ---- corners ---- */

void extent_corners(struct extent extent, struct vertex corners[EXTENT_CORNERS])
{
    if (extent.corners != NULL) {
        for (int i = 0; i < EXTENT_CORNERS; i++)
            corners[i] = extent.corners[i];
        return;
    }
    corners[0] = extent.low;
    corners[1] = (struct vertex){extent.high.x, extent.low.y};
    corners[2] = extent.high;
    corners[3] = (struct vertex){extent.low.x, extent.high.y};
}

void extent_sides(struct extent extent, struct segment sides[EXTENT_CORNERS])
{
    struct vertex corners[EXTENT_CORNERS];
    extent_corners(extent, corners);
    for (int i = 0; i < EXTENT_CORNERS; i++)
        sides[i] =
            (struct segment){corners[i], corners[(i + 1) % EXTENT_CORNERS]};
}

struct extent extent_of_corners(struct arena *arena,
                                const struct vertex corners[EXTENT_CORNERS])
{
    struct vertex *own = ARENA_ARRAY(arena, struct vertex, EXTENT_CORNERS);
    struct extent extent = {corners[0], corners[0], own};
    for (int i = 0; i < EXTENT_CORNERS; i++) {
        own[i] = corners[i];
        extent.low = (struct vertex){rational_min(extent.low.x, own[i].x),
                                     rational_min(extent.low.y, own[i].y)};
        extent.high = (struct vertex){rational_max(extent.high.x, own[i].x),
                                      rational_max(extent.high.y, own[i].y)};
    }
    return extent;
}

/* ---- exact questions ---- */

bool extent_holds(struct extent e, struct vertex v)
{
    bool held = number_compare(v.x, e.low.x) >= 0 &&
                number_compare(v.y, e.low.y) >= 0 &&
                number_compare(v.x, e.high.x) <= 0 &&
                number_compare(v.y, e.high.y) <= 0;
    for (int i = 0; i < EXTENT_CORNERS && held && e.corners != NULL; i++)
        held = vertex_turn(e.corners[i], e.corners[(i + 1) % EXTENT_CORNERS],
                           v) >= 0;
    return held;
}

/* Both points lie in the line through two others that differ. */
static bool in_line(struct vertex one, struct vertex other, struct vertex a,
                    struct vertex b)
{
    return !vertex_equal(one, other) && vertex_turn(one, other, a) == 0 &&
           vertex_turn(one, other, b) == 0;
}

bool extent_along(struct extent e, struct vertex a, struct vertex b)
{
    for (int i = 0; i < EXTENT_CORNERS && e.corners != NULL; i++)
        if (in_line(e.corners[i], e.corners[(i + 1) % EXTENT_CORNERS], a, b))
            return true;
    return e.corners == NULL &&
           ((number_equal(a.x, b.x) && (number_equal(a.x, e.low.x) ||
                                        number_equal(a.x, e.high.x))) ||
            (number_equal(a.y, b.y) && (number_equal(a.y, e.low.y) ||
                                        number_equal(a.y, e.high.y))));
}

/* Keeps what of [*from, *to], shares of a way that moves `step` from `begin`,
 * does not come below `low`. Where that cannot be told both are unknown.
 * ensures: false where nothing is left. */
static bool keep_above(number begin, number step, number low, number *from,
                       number *to)
{
    const number room = number_sub(low, begin);
    if (number_known(step) && number_sign(step) == 0 && number_known(room))
        return number_sign(room) <= 0;
    const number at = number_div(room, step);
    if (!number_known(at) || !number_known(*from)) {
        *from = *to = number_unknown();
        return true;
    }
    if (number_sign(step) > 0)
        *from = number_compare(at, *from) > 0 ? at : *from;
    else
        *to = number_compare(at, *to) < 0 ? at : *to;
    return true;
}

/* On the exact line, whatever the share. */
static struct vertex point_along(struct segment s, number share)
{
    const number x = number_mul(number_sub(s.to.x, s.from.x), share);
    const number y = number_mul(number_sub(s.to.y, s.from.y), share);
    return (struct vertex){number_add(s.from.x, x), number_add(s.from.y, y)};
}

/* The point at a share, its own ends as they are. */
static struct vertex end_at(struct segment s, number share)
{
    if (number_known(share) && number_sign(share) == 0)
        return s.from;
    return number_equal(share, number_whole(1)) ? s.to : point_along(s, share);
}

/* By the four sides of a level rectangle. */
static bool keep_in_box(struct segment segment, struct extent extent,
                        number *from, number *to)
{
    const number x = number_sub(segment.to.x, segment.from.x);
    const number y = number_sub(segment.to.y, segment.from.y);
    return keep_above(segment.from.x, x, extent.low.x, from, to) &&
           keep_above(segment.from.y, y, extent.low.y, from, to) &&
           keep_above(number_negative(segment.from.x), number_negative(x),
                      number_negative(extent.high.x), from, to) &&
           keep_above(number_negative(segment.from.y), number_negative(y),
                      number_negative(extent.high.y), from, to);
}

/* By the sides between corners, whose right hands are inside. One without
 * length keeps all. */
static bool keep_in_corners(struct segment segment,
                            const struct vertex *corners, number *from,
                            number *to)
{
    const number zero = number_whole(0);
    bool kept = true;
    for (int i = 0; i < EXTENT_CORNERS && kept; i++) {
        const struct vertex a = corners[i];
        const struct vertex b = corners[(i + 1) % EXTENT_CORNERS];
        const number begin = vertex_aside(a, b, segment.from);
        const number end = vertex_aside(a, b, segment.to);
        kept = keep_above(begin, number_sub(end, begin), zero, from, to);
    }
    return kept;
}

/* By shares of its way (Liang and Barsky, 1984, and Cyrus and Beck, 1978, from
 * memory). */
bool segment_within(struct segment segment, struct extent extent,
                    struct segment *inside)
{
    number from = number_whole(0), to = number_whole(1);
    const bool kept =
        extent.corners == NULL
            ? keep_in_box(segment, extent, &from, &to)
            : keep_in_corners(segment, extent.corners, &from, &to);
    if (!kept || (number_known(from) && number_compare(from, to) >= 0))
        return false;
    *inside = (struct segment){end_at(segment, from), end_at(segment, to)};
    return true;
}

/* ---- where a line leaves ---- */

/* How much of the way is free before it comes to the bound, on one axis. */
static number free_share(number at, number step, number low, number high)
{
    const int sign = number_sign(step);
    return sign == 0 ? number_whole(INT32_MAX)
                     : number_div(number_sub(sign > 0 ? high : low, at), step);
}

struct vertex extent_exit(struct extent extent, struct vertex from,
                          struct vertex toward)
{
    const struct vertex nowhere = {number_unknown(), number_unknown()};
    const number x = number_sub(toward.x, from.x);
    const number y = number_sub(toward.y, from.y);
    if (!number_known(x) || !number_known(y))
        return nowhere;
    const number by_x = free_share(from.x, x, extent.low.x, extent.high.x);
    const number by_y = free_share(from.y, y, extent.low.y, extent.high.y);
    if (!number_known(by_x) || !number_known(by_y))
        return nowhere;
    const number share = number_compare(by_x, by_y) < 0 ? by_x : by_y;
    return (struct vertex){number_add(from.x, number_mul(x, share)),
                           number_add(from.y, number_mul(y, share))};
}

/* ---- in doubles ---- */

struct spot_line extent_box(struct extent extent)
{
    return (struct spot_line){vertex_spot(extent.low),
                              vertex_spot(extent.high)};
}


struct spot extent_middle(struct extent extent)
{
    return vertex_spot(vertex_middle(extent.low, extent.high));
}

/* How far left of the way from one spot to the other; 0 where there is none. */
static double left_of(struct spot from, struct spot to, struct spot at)
{
    const double x = to.x - from.x, y = to.y - from.y;
    const double length = hypot(x, y);
    return length > 0 ? (y * (at.x - from.x) - x * (at.y - from.y)) / length
                      : -HUGE_VAL;
}

double extent_off(struct extent extent, struct spot at)
{
    if (extent.corners == NULL) {
        const struct spot low = vertex_spot(extent.low);
        const struct spot high = vertex_spot(extent.high);
        const double x = fmax(low.x - at.x, at.x - high.x);
        const double y = fmax(low.y - at.y, at.y - high.y);
        return x > 0 && y > 0 ? hypot(x, y) : fmax(x, y);
    }
    double off = -HUGE_VAL, way = HUGE_VAL;
    for (int i = 0; i < EXTENT_CORNERS; i++) {
        const struct spot_line side = {
            vertex_spot(extent.corners[i]),
            vertex_spot(extent.corners[(i + 1) % EXTENT_CORNERS])};
        const double left = left_of(side.from, side.to, at);
        off = fmax(off, left);
        if (left > -HUGE_VAL)
            way = fmin(way, spot_to_line(at, side));
    }
    return off > 0 ? way : off;
}

bool extent_has(struct extent extent, struct spot at)
{
    return extent_off(extent, at) <= 1e-6;
}
