/* Offsets of straight sides, by plain plane geometry in doubles. */
#include "offset.h"

#include <math.h>

/* Of a side: its direction, and the way from it to its offset. */
struct moved_side {
    struct spot from, to;
    struct spot along; /* of length 1 */
    struct spot away;  /* of the length of the distance */
};

/* Made by one formula wherever it is asked, so that pieces which share a point
 * get the same bits. */
static struct moved_side side_of(struct spot_ring ring, size_t i,
                                 struct offset offset)
{
    const struct spot a = ring.points[i % ring.count];
    const struct spot b = ring.points[(i + 1) % ring.count];
    const double length = hypot(b.x - a.x, b.y - a.y);
    const struct spot along = {(b.x - a.x) / length, (b.y - a.y) / length};
    const double far = offset.inside ? offset.distance : -offset.distance;
    return (struct moved_side){a, b, along, {-along.y * far, along.x * far}};
}

static struct spot plus(struct spot a, struct spot b, double share)
{
    return (struct spot){a.x + share * b.x, a.y + share * b.y};
}

/* A convex piece, and as its outer sides those from point 1 to `outer`. */
static void add_piece(struct arena *arena, struct offset_pieces *pieces,
                      const struct spot *points, size_t count, size_t outer)
{
    struct spot *copy = ARENA_ARRAY(arena, struct spot, count);
    for (size_t i = 0; i < count; i++)
        copy[i] = points[i];
    *LIST_ADD(arena, &pieces->pieces) = (struct spot_ring){copy, count};
    for (size_t i = 1; i < outer; i++)
        *LIST_ADD(arena, &pieces->outer) =
            (struct spot_line){points[i], points[i + 1]};
}

/* The corner between two sides, out to where their offsets meet. A sharp one
 * ends 20 times the distance from its corner, measured along the sides. */
static void add_kite(struct arena *arena, struct offset_pieces *pieces,
                     struct moved_side one, struct moved_side next,
                     double distance)
{
    const double most = 20;
    const double cosine =
        one.along.x * next.along.x + one.along.y * next.along.y;
    /* The tangent of half the turn: how far the point lies along each side. */
    const double reach = sqrt(fmax(0, 1 - cosine) / fmax(1 + cosine, 1e-12));
    const double share = fmin(reach, most) * distance;
    const struct spot first = plus(one.to, one.away, 1);
    const struct spot last = plus(one.to, next.away, 1);
    const struct spot points[5] = {one.to, first, plus(first, one.along, share),
                                   plus(last, next.along, -share), last};
    const struct spot kite[4] = {points[0], first, points[2], last};
    if (reach <= most)
        add_piece(arena, pieces, kite, 4, 3);
    else
        add_piece(arena, pieces, points, 5, 4);
}

/* The corner as a fan whose chords leave their arc by no more than was told. */
static void add_fan(struct arena *arena, struct offset_pieces *pieces,
                    struct moved_side one, struct moved_side next,
                    struct offset offset)
{
    enum { MOST = 200 };
    const double cross =
        one.along.x * next.along.y - one.along.y * next.along.x;
    const double turn =
        atan2(cross, one.along.x * next.along.x + one.along.y * next.along.y);
    const double step =
        2 * sqrt(2 * offset.chord / fmax(offset.distance, offset.chord));
    const size_t chords =
        (size_t)fmin(fmax(ceil(fabs(turn) / step), 1), MOST - 2);
    struct spot points[MOST];
    points[0] = one.to;
    points[1] = plus(one.to, one.away, 1);
    for (size_t i = 1; i < chords; i++) {
        const double angle = turn * (double)i / (double)chords;
        const struct spot away = {
            one.away.x * cos(angle) - one.away.y * sin(angle),
            one.away.x * sin(angle) + one.away.y * cos(angle)};
        points[1 + i] = plus(one.to, away, 1);
    }
    points[1 + chords] = plus(one.to, next.away, 1);
    add_piece(arena, pieces, points, chords + 2, chords + 1);
}

/* Sides that turn away from the hand leave a gap between their rectangles. */
static bool opens(struct moved_side one, struct moved_side next, bool inside)
{
    const double cross =
        one.along.x * next.along.y - one.along.y * next.along.x;
    return inside ? cross < 0 : cross > 0;
}

struct offset_pieces offset_pieces(struct arena *arena,
                                   const struct spot_ring *rings, size_t count,
                                   struct offset offset)
{
    struct offset_pieces pieces = {0};
    for (size_t r = 0; r < count; r++)
        for (size_t i = 0; i < rings[r].count; i++) {
            const struct moved_side one = side_of(rings[r], i, offset);
            const struct moved_side next = side_of(rings[r], i + 1, offset);
            const struct spot rectangle[4] = {
                one.from, plus(one.from, one.away, 1),
                plus(one.to, one.away, 1), one.to};
            add_piece(arena, &pieces, rectangle, 4, 2);
            if (!opens(one, next, offset.inside))
                continue;
            if (offset.rounded)
                add_fan(arena, &pieces, one, next, offset);
            else
                add_kite(arena, &pieces, one, next, offset.distance);
        }
    return pieces;
}

/* ---- convex rings ---- */

/* A ring that turns right everywhere may still run around twice. */
bool ring_is_convex(struct spot_ring ring)
{
    const struct offset none = {.inside = true};
    double turned = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct moved_side one = side_of(ring, i, none);
        const struct moved_side next = side_of(ring, i + 1, none);
        const double turn =
            atan2(one.along.x * next.along.y - one.along.y * next.along.x,
                  one.along.x * next.along.x + one.along.y * next.along.y);
        if (turn < 0)
            return false;
        turned += turn;
    }
    /* Once around, not twice. */
    return turned < 7;
}

/* Cuts away what does not lie at the right hand of the side, moved inwards. */
static size_t cut_beside(struct moved_side side, const struct spot *points,
                         size_t count, struct spot *kept)
{
    const struct spot on = plus(side.from, side.away, 1);
    size_t left = 0;
    for (size_t i = 0; i < count; i++) {
        const struct spot p = points[i], q = points[(i + 1) % count];
        const double a =
            side.along.x * (p.y - on.y) - side.along.y * (p.x - on.x);
        const double b =
            side.along.x * (q.y - on.y) - side.along.y * (q.x - on.x);
        if (a >= 0)
            kept[left++] = p;
        if ((a > 0 && b < 0) || (a < 0 && b > 0)) {
            const struct spot way = {q.x - p.x, q.y - p.y};
            kept[left++] = plus(p, way, a / (a - b));
        }
    }
    return left;
}

/* A ring so wide has about this for twice its area over the way around it. */
bool ring_is_thin(struct spot_ring ring)
{
    double area = 0, around = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct spot p = ring.points[i];
        const struct spot q = ring.points[(i + 1) % ring.count];
        const struct spot o = ring.points[0];
        area += (p.x - o.x) * (q.y - o.y) - (p.y - o.y) * (q.x - o.x);
        around += hypot(q.x - p.x, q.y - p.y);
    }
    return ring.count < 3 || fabs(area) < 1e-6 * around;
}

struct spot_ring offset_convex(struct arena *arena, struct spot_ring ring,
                               double distance)
{
    const struct offset offset = {.distance = distance, .inside = true};
    struct spot *points = ARENA_ARRAY(arena, struct spot, 2 * ring.count + 2);
    struct spot *kept = ARENA_ARRAY(arena, struct spot, 2 * ring.count + 2);
    size_t count = ring.count;
    for (size_t i = 0; i < count; i++)
        points[i] = ring.points[i];
    for (size_t i = 0; i < ring.count && count > 0; i++) {
        count = cut_beside(side_of(ring, i, offset), points, count, kept);
        struct spot *swap = points;
        points = kept;
        kept = swap;
    }
    const struct spot_ring left = {points, count};
    return ring_is_thin(left) ? (struct spot_ring){points, 0} : left;
}
