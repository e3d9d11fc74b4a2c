/* Cloth is a list of convex faces. All that is sewn here is straight, between
 * points that are fractions, so rational coordinates are enough and every proof
 * can ask for equality. Read next: work.c, whose words these are. */
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

/* Most lines lie along an axis, where half of the sum is nothing. */
struct rational half_plane_side(struct half_plane plane, struct vertex v)
{
    if (rational_sign(plane.a) == 0)
        return minus(times(plane.b, v.y), plane.c);
    if (rational_sign(plane.b) == 0)
        return minus(times(plane.a, v.x), plane.c);
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

/* Where the corners of a face lie; lost where that cannot be told within 64
 * bits. */
struct sides {
    bool inside, outside; /* some truly are */
    bool lost;
};

static struct sides sides_of(const struct face *face, struct half_plane plane)
{
    struct sides sides = {false, false, false};
    for (size_t i = 0; i < face->count; i++) {
        const struct rational at = half_plane_side(plane, face->points[i]);
        const int side = rational_sign(at);
        sides.inside |= side < 0;
        sides.outside |= side > 0;
        sides.lost |= !rational_known(at);
    }
    return sides;
}

/* Its area is unknown from here on, which the proofs find. */
static struct face lost_face(struct arena *arena, struct face face)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
    for (size_t i = 0; i < face.count; i++)
        points[i] = (struct vertex){rational_unknown(), rational_unknown()};
    face.points = points;
    return face;
}

/* One half-plane of the clipping of Sutherland and Hodgman, 1974. A face that
 * only touches the line with an edge or a point is gone. Most faces lie on one
 * side, and stay as they are or go. */
struct face face_clip(struct arena *arena, struct face face,
                      struct half_plane plane)
{
    const struct sides sides = sides_of(&face, plane);
    if (sides.lost)
        return lost_face(arena, face);
    if (!sides.inside)
        face.count = 0;
    if (!sides.inside || !sides.outside)
        return face;
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count + 2);
    size_t count = 0;
    for (size_t i = 0; i < face.count; i++) {
        const struct vertex here = face.points[i];
        const struct vertex next = face.points[(i + 1) % face.count];
        const struct rational at_here = half_plane_side(plane, here);
        const struct rational at_next = half_plane_side(plane, next);
        const int side = rational_sign(at_here),
                  next_side = rational_sign(at_next);
        if (side <= 0)
            points[count++] = here;
        if (side * next_side < 0)
            points[count++] = between(here, next, at_here, at_next);
    }
    face.points = points;
    face.count = count >= 3 ? count : 0;
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

void face_box(struct face face, struct vertex *low, struct vertex *high)
{
    *low = *high = face.points[0];
    for (size_t i = 1; i < face.count; i++) {
        low->x = rational_min(low->x, face.points[i].x);
        low->y = rational_min(low->y, face.points[i].y);
        high->x = rational_max(high->x, face.points[i].x);
        high->y = rational_max(high->y, face.points[i].y);
    }
}

/* Most pairs of faces are far apart: four comparisons save the clipping. */
static bool boxes_apart(struct face a, struct face b)
{
    struct vertex low_a, high_a, low_b, high_b;
    face_box(a, &low_a, &high_a);
    face_box(b, &low_b, &high_b);
    return rational_compare(high_a.x, low_b.x) <= 0 ||
           rational_compare(high_b.x, low_a.x) <= 0 ||
           rational_compare(high_a.y, low_b.y) <= 0 ||
           rational_compare(high_b.y, low_a.y) <= 0;
}

/* Clipped by each edge of the other in turn. */
struct face face_within(struct arena *arena, struct face face,
                        struct face other)
{
    for (size_t i = 0; i < other.count && face.count > 0; i++) {
        struct half_plane side = half_plane_left(
            other.points[i], other.points[(i + 1) % other.count]);
        /* Inside is where the other's points are. */
        struct rational within = rational_whole(0);
        for (size_t k = 0; k < other.count && rational_sign(within) == 0; k++)
            within = half_plane_side(side, other.points[k]);
        if (rational_sign(within) > 0)
            side = half_plane_other(side);
        face = face_clip(arena, face, side);
    }
    return face;
}

struct rational face_shared_area(struct arena *arena, struct face a,
                                 struct face b)
{
    return boxes_apart(a, b) ? rational_whole(0)
                             : face_double_area(face_within(arena, a, b));
}

bool cloth_known(const struct cloth *cloth)
{
    for (size_t i = 0; i < cloth->faces.count; i++)
        for (size_t k = 0; k < cloth->faces.items[i].count; k++) {
            const struct vertex v = cloth->faces.items[i].points[k];
            if (!rational_known(v.x) || !rational_known(v.y))
                return false;
        }
    return true;
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

struct outline outline_rectangle(struct arena *arena, struct rational x,
                                 struct rational y, struct rational width,
                                 struct rational height)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
    const struct rational right = plus(x, width), bottom = plus(y, height);
    points[0] = (struct vertex){x, y};
    points[1] = (struct vertex){right, y};
    points[2] = (struct vertex){right, bottom};
    points[3] = (struct vertex){x, bottom};
    return (struct outline){points, 4};
}

/* Clockwise, the outside is on the left hand: (dy, -dx) with y down, of which
 * only the signs are needed where a side lies along an axis. */
struct outline outline_grown(struct arena *arena, struct outline outline,
                             struct rational seam)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, outline.count);
    for (size_t i = 0; i < outline.count; i++)
        points[i] = outline.points[i];
    for (size_t i = 0; i < outline.count; i++) {
        const size_t next = (i + 1) % outline.count;
        const struct vertex p = outline.points[i], q = outline.points[next];
        const struct rational dx =
            rational_times(seam, rational_sign(minus(q.y, p.y)));
        const struct rational dy =
            rational_times(seam, rational_sign(minus(p.x, q.x)));
        points[i] =
            (struct vertex){plus(points[i].x, dx), plus(points[i].y, dy)};
        points[next] =
            (struct vertex){plus(points[next].x, dx), plus(points[next].y, dy)};
    }
    return (struct outline){points, outline.count};
}

struct cloth *cloth_cut(struct arena *arena, int fabric, struct outline outline,
                        struct rational width, struct rational height)
{
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = width;
    cloth->height = height;
    cloth_add(arena, cloth,
              (struct face){.fabric = fabric,
                            .points = outline.points,
                            .count = outline.count});
    return cloth;
}

struct cloth *cloth_rectangle(struct arena *arena, int fabric,
                              struct rational width, struct rational height)
{
    const struct rational zero = rational_whole(0);
    return cloth_cut(arena, fabric,
                     outline_rectangle(arena, zero, zero, width, height), width,
                     height);
}

/* An empty cloth, to be filled with changed faces and seams, for all of which
 * it has room. */
static struct cloth *same_size(struct arena *arena, const struct cloth *cloth)
{
    struct cloth *copy = ARENA_NEW(arena, struct cloth);
    copy->width = cloth->width;
    copy->height = cloth->height;
    copy->faces.capacity = cloth->faces.count;
    copy->faces.items = ARENA_ARRAY(arena, struct face, cloth->faces.count);
    copy->seams.capacity = cloth->seams.count;
    copy->seams.items = ARENA_ARRAY(arena, struct seam, cloth->seams.count);
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

struct cloth *cloth_mapped(struct arena *arena, const struct cloth *cloth,
                           point_map *map, const void *how)
{
    struct cloth *copy = same_size(arena, cloth);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, face.count);
        for (size_t k = 0; k < face.count; k++)
            points[k] = map(face.points[k], how);
        face.points = points;
        cloth_add(arena, copy, face);
    }
    for (size_t i = 0; i < cloth->seams.count; i++) {
        struct seam seam = cloth->seams.items[i];
        seam.from = map(seam.from, how);
        seam.to = map(seam.to, how);
        cloth_add_seam(arena, copy, seam);
    }
    return copy;
}

struct turn {
    struct rational width, height;
    struct orientation o;
};

static struct vertex turned_point(struct vertex v, const void *how)
{
    const struct turn *turn = how;
    return vertex_oriented(v, turn->width, turn->height, turn->o);
}

/* To where a seam is pressed, after the turn. */
static void turn_press(struct seam *seam, struct orientation o)
{
    if (o.mirror)
        seam->x = -seam->x;
    for (unsigned i = 0; i < o.turn; i++) {
        const int x = -seam->y;
        seam->y = seam->x;
        seam->x = x;
    }
}

/* The print of a face turns along. A mirror leaves it: only what the source
 * draws is mirrored here, and that is compared by fabric alone. */
struct cloth *cloth_oriented(struct arena *arena, const struct cloth *cloth,
                             struct orientation o)
{
    const struct turn turn = {cloth->width, cloth->height, o};
    struct cloth *turned = cloth_mapped(arena, cloth, turned_point, &turn);
    if (o.turn % 2 == 1) {
        turned->width = cloth->height;
        turned->height = cloth->width;
    }
    for (size_t i = 0; i < turned->faces.count; i++) {
        struct face *face = &turned->faces.items[i];
        face->turn = (face->turn + o.turn) % 4;
    }
    for (size_t i = 0; i < turned->seams.count; i++)
        turn_press(&turned->seams.items[i], o);
    return turned;
}

static struct vertex moved_point(struct vertex v, const void *how)
{
    const struct vertex *by = how;
    return (struct vertex){plus(v.x, by->x), plus(v.y, by->y)};
}

struct cloth *cloth_moved(struct arena *arena, const struct cloth *cloth,
                          struct rational x, struct rational y)
{
    const struct vertex by = {x, y};
    return cloth_mapped(arena, cloth, moved_point, &by);
}

/* Leaves the part of a seam that lies inside; false where there is none. */
static bool clip_seam(struct seam *seam, struct half_plane plane)
{
    const struct rational from = half_plane_side(plane, seam->from);
    const struct rational to = half_plane_side(plane, seam->to);
    const int at_from = rational_sign(from), at_to = rational_sign(to);
    if (at_from >= 0 && at_to >= 0)
        return false; /* outside, or along the edge, where another seam lies */
    if (at_from > 0)
        seam->from = between(seam->from, seam->to, from, to);
    else if (at_to > 0)
        seam->to = between(seam->from, seam->to, from, to);
    return true;
}

/* The finished size stays: it is the heap's affair what it becomes. */
struct cloth *cloth_inside(struct arena *arena, const struct cloth *cloth,
                           const struct half_plane *planes, size_t count)
{
    struct cloth *inside = same_size(arena, cloth);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        for (size_t k = 0; k < count && face.count > 0; k++)
            face = face_clip(arena, face, planes[k]);
        cloth_add(arena, inside, face);
    }
    for (size_t i = 0; i < cloth->seams.count; i++) {
        struct seam seam = cloth->seams.items[i];
        bool left = true;
        for (size_t k = 0; k < count && left; k++)
            left = clip_seam(&seam, planes[k]);
        if (left)
            cloth_add_seam(arena, inside, seam);
    }
    return inside;
}

struct cloth *cloth_clipped(struct arena *arena, const struct cloth *cloth,
                            struct half_plane plane)
{
    return cloth_inside(arena, cloth, &plane, 1);
}

/* From the side that ends in the first point on; inside is the right hand. */
struct cloth *cloth_within(struct arena *arena, const struct cloth *cloth,
                           struct outline outline)
{
    struct half_plane *planes =
        ARENA_ARRAY(arena, struct half_plane, outline.count);
    struct vertex p = outline.points[outline.count - 1];
    for (size_t i = 0; i < outline.count; i++) {
        const struct vertex q = outline.points[i];
        planes[i] = half_plane_other(half_plane_left(p, q));
        p = q;
    }
    return cloth_inside(arena, cloth, planes, outline.count);
}

static struct vertex scaled_point(struct vertex v, const void *how)
{
    const struct rational *factor = how;
    return (struct vertex){times(v.x, *factor), times(v.y, *factor)};
}

struct cloth *cloth_scaled(struct arena *arena, const struct cloth *cloth,
                           struct rational factor)
{
    struct cloth *scaled = cloth_mapped(arena, cloth, scaled_point, &factor);
    scaled->width = times(cloth->width, factor);
    scaled->height = times(cloth->height, factor);
    return scaled;
}

/* v reflected about the line through p and q: exact for rational points.
 * `along` is where the foot of the perpendicular lies between p (0) and q (1).
 */
static struct vertex reflected(struct vertex v, const void *how)
{
    const struct vertex *line = how;
    const struct vertex p = line[0], q = line[1];
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
    const struct vertex line[2] = {p, q};
    struct cloth *flipped = cloth_mapped(arena, cloth, reflected, line);
    flipped->seams.count = 0;
    for (size_t i = 0; i < flipped->faces.count; i++)
        flipped->faces.items[i].wrong_side ^= true;
    return flipped;
}
