/* Cloth is a list of convex faces. All that is sewn here is straight, at 0, 45
 * or 90 degrees, so rational coordinates are enough and every proof can ask for
 * equality. Read next: work.c, whose words these are. */
#include "cloth.h"

/* Short names, or geometry would not fit its lines. */
static struct rational plus(struct rational a, struct rational b)
{
    return rational_add(a, b);
}

static struct rational minus(struct rational a, struct rational b)
{
    return rational_sub(a, b);
}

static struct rational times(struct rational a, struct rational b)
{
    return rational_mul(a, b);
}

/* Written as a * x + b * y <= c, so that one test serves every line, whatever
 * its slope. */
struct half_plane half_plane_left(struct vertex p, struct vertex q)
{
    /* cross(q - p, v - p) <= 0, with y down, is the left hand. */
    const struct rational dx = minus(q.x, p.x), dy = minus(q.y, p.y);
    const struct rational a = rational_times(dy, -1);
    return (struct half_plane){a, dx, plus(times(a, p.x), times(dx, p.y))};
}

struct half_plane half_plane_other(struct half_plane plane)
{
    return (struct half_plane){rational_times(plane.a, -1),
                               rational_times(plane.b, -1),
                               rational_times(plane.c, -1)};
}

/* > 0 outside, 0 on the line. */
static struct rational outside(struct half_plane plane, struct vertex v)
{
    return minus(plus(times(plane.a, v.x), times(plane.b, v.y)), plane.c);
}

/* The point where the way from p to q crosses the line, by the distances of
 * both (signs differ, so the divisor is not 0). */
static struct vertex between(struct vertex p, struct vertex q,
                             struct rational at_p, struct rational at_q)
{
    const struct rational t = rational_div(at_p, minus(at_p, at_q));
    return (struct vertex){plus(p.x, times(t, minus(q.x, p.x))),
                           plus(p.y, times(t, minus(q.y, p.y)))};
}

/* One half-plane of the clipping of Sutherland and Hodgman, 1974. A face that
 * only touches the line with an edge or a point is gone: `inside` asks for a
 * corner that is truly inside. */
struct face face_clip(struct arena *arena, struct face face,
                      struct half_plane plane)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count + 2);
    size_t count = 0;
    bool inside = false;
    for (size_t i = 0; i < face.count; i++) {
        const struct vertex here = face.points[i];
        const struct vertex next = face.points[(i + 1) % face.count];
        const struct rational at_here = outside(plane, here);
        const struct rational at_next = outside(plane, next);
        const int side = rational_sign(at_here),
                  next_side = rational_sign(at_next);
        inside |= side < 0;
        if (side <= 0)
            points[count++] = here;
        if (side * next_side < 0)
            points[count++] = between(here, next, at_here, at_next);
    }
    face.points = points;
    face.count = inside && count >= 3 ? count : 0;
    return face;
}

/* Gauss's sum of trapezoids; the sign is the way round and is dropped. Doubled
 * areas stay without halves. */
struct rational face_double_area(struct face face)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < face.count; i++) {
        const struct vertex p = face.points[i];
        const struct vertex q = face.points[(i + 1) % face.count];
        area = plus(area, minus(times(p.x, q.y), times(q.x, p.y)));
    }
    return rational_sign(area) < 0 ? rational_times(area, -1) : area;
}

/* Most pairs of faces are far apart: four comparisons save the clipping. */
static bool boxes_apart(struct face a, struct face b)
{
    struct vertex low_a = a.points[0], high_a = low_a;
    struct vertex low_b = b.points[0], high_b = low_b;
    for (size_t i = 1; i < a.count; i++) {
        low_a.x = rational_min(low_a.x, a.points[i].x);
        low_a.y = rational_min(low_a.y, a.points[i].y);
        high_a.x = rational_max(high_a.x, a.points[i].x);
        high_a.y = rational_max(high_a.y, a.points[i].y);
    }
    for (size_t i = 1; i < b.count; i++) {
        low_b.x = rational_min(low_b.x, b.points[i].x);
        low_b.y = rational_min(low_b.y, b.points[i].y);
        high_b.x = rational_max(high_b.x, b.points[i].x);
        high_b.y = rational_max(high_b.y, b.points[i].y);
    }
    return rational_compare(high_a.x, low_b.x) <= 0 ||
           rational_compare(high_b.x, low_a.x) <= 0 ||
           rational_compare(high_a.y, low_b.y) <= 0 ||
           rational_compare(high_b.y, low_a.y) <= 0;
}

/* `a` is clipped by each edge of `b` in turn; what is left is shared. */
struct rational face_shared_area(struct arena *arena, struct face a,
                                 struct face b)
{
    if (boxes_apart(a, b))
        return rational_whole(0);
    for (size_t i = 0; i < b.count && a.count > 0; i++) {
        const struct vertex p = b.points[i];
        const struct vertex q = b.points[(i + 1) % b.count];
        struct half_plane side = half_plane_left(p, q);
        /* Inside is where the face's other points are. */
        struct rational within = rational_whole(0);
        for (size_t k = 0; k < b.count && rational_sign(within) == 0; k++)
            within =
                rational_sub(rational_add(rational_mul(side.a, b.points[k].x),
                                          rational_mul(side.b, b.points[k].y)),
                             side.c);
        if (rational_sign(within) > 0)
            side = half_plane_other(side);
        a = face_clip(arena, a, side);
    }
    return face_double_area(a);
}

void cloth_add(struct arena *arena, struct cloth *cloth, struct face face)
{
    if (face.count > 0)
        *LIST_ADD(arena, &cloth->faces) = face;
}

/* Faces and seams of `other`, in place; sizes stay those of `cloth`. */
void cloth_add_all(struct arena *arena, struct cloth *cloth,
                   const struct cloth *other)
{
    for (size_t i = 0; i < other->faces.count; i++)
        cloth_add(arena, cloth, other->faces.items[i]);
    for (size_t i = 0; i < other->seams.count; i++)
        cloth_add_seam(arena, cloth, other->seams.items[i]);
}

void cloth_add_seam(struct arena *arena, struct cloth *cloth, struct seam seam)
{
    *LIST_ADD(arena, &cloth->seams) = seam;
}

/* Faces reach a seam beyond the finished rectangle on all sides. */
struct cloth *cloth_rectangle(struct arena *arena, int fabric,
                              struct rational width, struct rational height,
                              struct rational seam)
{
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = width;
    cloth->height = height;
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
    const struct rational low = rational_times(seam, -1);
    const struct rational right = plus(width, seam),
                          bottom = plus(height, seam);
    points[0] = (struct vertex){low, low};
    points[1] = (struct vertex){right, low};
    points[2] = (struct vertex){right, bottom};
    points[3] = (struct vertex){low, bottom};
    cloth_add(arena, cloth, (struct face){fabric, false, points, 4, 0});
    return cloth;
}

/* An empty cloth, to be filled with changed faces. */
static struct cloth *same_size(struct arena *arena, const struct cloth *cloth)
{
    struct cloth *copy = ARENA_NEW(arena, struct cloth);
    copy->width = cloth->width;
    copy->height = cloth->height;
    return copy;
}

/* One clockwise quarter turn of a w x h rectangle: (x, y) to (h - y, x). */
struct vertex vertex_oriented(struct vertex v, struct rational width,
                              struct rational height, struct orientation o)
{
    if (o.mirror)
        v.x = minus(width, v.x);
    for (unsigned i = 0; i < o.turn; i++) {
        const struct vertex turned = {minus(height, v.y), v.x};
        const struct rational swap = width;
        width = height;
        height = swap;
        v = turned;
    }
    return v;
}

/* Where a seam lies, and to where it is pressed, after the turn. */
static struct seam oriented_seam(const struct cloth *cloth, size_t index,
                                 struct orientation o)
{
    struct seam seam = cloth->seams.items[index];
    seam.from = vertex_oriented(seam.from, cloth->width, cloth->height, o);
    seam.to = vertex_oriented(seam.to, cloth->width, cloth->height, o);
    if (o.mirror)
        seam.x = -seam.x;
    for (unsigned i = 0; i < o.turn; i++) {
        const int x = -seam.y;
        seam.y = seam.x;
        seam.x = x;
    }
    return seam;
}

/* The print of a face turns along. A mirror leaves it: only what the source
 * draws is mirrored here, and that is compared by fabric alone. */
struct cloth *cloth_oriented(struct arena *arena, const struct cloth *cloth,
                             struct orientation o)
{
    struct cloth *turned = same_size(arena, cloth);
    if (o.turn % 2 == 1) {
        turned->width = cloth->height;
        turned->height = cloth->width;
    }
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
        for (size_t k = 0; k < face.count; k++)
            points[k] =
                vertex_oriented(face.points[k], cloth->width, cloth->height, o);
        face.points = points;
        face.turn = (face.turn + o.turn) % 4;
        cloth_add(arena, turned, face);
    }
    for (size_t i = 0; i < cloth->seams.count; i++)
        cloth_add_seam(arena, turned, oriented_seam(cloth, i, o));
    return turned;
}

/* Presses are directions and stay. */
struct cloth *cloth_moved(struct arena *arena, const struct cloth *cloth,
                          struct rational x, struct rational y)
{
    struct cloth *moved = same_size(arena, cloth);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
        for (size_t k = 0; k < face.count; k++)
            points[k] = (struct vertex){plus(face.points[k].x, x),
                                        plus(face.points[k].y, y)};
        face.points = points;
        cloth_add(arena, moved, face);
    }
    for (size_t i = 0; i < cloth->seams.count; i++) {
        struct seam seam = cloth->seams.items[i];
        seam.from = (struct vertex){plus(seam.from.x, x), plus(seam.from.y, y)};
        seam.to = (struct vertex){plus(seam.to.x, x), plus(seam.to.y, y)};
        cloth_add_seam(arena, moved, seam);
    }
    return moved;
}

/* Keeps the part of a seam that lies inside. */
static void clip_seam(struct arena *arena, struct cloth *cloth,
                      struct seam seam, struct half_plane plane)
{
    const struct rational from = outside(plane, seam.from);
    const struct rational to = outside(plane, seam.to);
    const int at_from = rational_sign(from), at_to = rational_sign(to);
    if (at_from >= 0 && at_to >= 0)
        return; /* outside, or along the edge, where another seam lies */
    if (at_from > 0)
        seam.from = between(seam.from, seam.to, from, to);
    else if (at_to > 0)
        seam.to = between(seam.from, seam.to, from, to);
    cloth_add_seam(arena, cloth, seam);
}

/* The finished size stays: it is the heap's affair what it becomes. */
struct cloth *cloth_clipped(struct arena *arena, const struct cloth *cloth,
                            struct half_plane plane)
{
    struct cloth *clipped = same_size(arena, cloth);
    for (size_t i = 0; i < cloth->faces.count; i++)
        cloth_add(arena, clipped,
                  face_clip(arena, cloth->faces.items[i], plane));
    for (size_t i = 0; i < cloth->seams.count; i++)
        clip_seam(arena, clipped, cloth->seams.items[i], plane);
    return clipped;
}

/* v reflected about the line through p and q: exact for rational points.
 * `along` is where the foot of the perpendicular lies between p (0) and q (1).
 */
static struct vertex reflected(struct vertex v, struct vertex p,
                               struct vertex q)
{
    const struct rational dx = minus(q.x, p.x), dy = minus(q.y, p.y);
    const struct rational length = plus(times(dx, dx), times(dy, dy));
    const struct rational along = rational_div(
        plus(times(minus(v.x, p.x), dx), times(minus(v.y, p.y), dy)), length);
    const struct vertex foot = {plus(p.x, times(along, dx)),
                                plus(p.y, times(along, dy))};
    return (struct vertex){minus(rational_times(foot.x, 2), v.x),
                           minus(rational_times(foot.y, 2), v.y)};
}

/* Seams are left out: corner squares have none, and of a strip the flipped copy
 * is only shown. */
struct cloth *cloth_flipped(struct arena *arena, const struct cloth *cloth,
                            struct vertex p, struct vertex q)
{
    struct cloth *flipped = same_size(arena, cloth);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
        for (size_t k = 0; k < face.count; k++)
            points[k] = reflected(face.points[k], p, q);
        face.points = points;
        face.wrong_side = !face.wrong_side;
        cloth_add(arena, flipped, face);
    }
    return flipped;
}
