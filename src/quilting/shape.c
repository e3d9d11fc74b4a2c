/* Shapes out of exact arrangements: faces of one fabric are put together over
 * the pieces between them, and what is left around them are the rings. */
#include "shape.h"

#include <math.h>
#include <stdlib.h>

/* Points between stretches of one line go; a turn that cannot be told stays. */
static struct shape_ring corners_of(struct arena *arena,
                                    const struct arrangement *a,
                                    struct arranged_ring ring)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, ring.count);
    size_t count = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct vertex v = a->points[ring.points[i]];
        const struct vertex last =
            a->points[ring.points[(i + ring.count - 1) % ring.count]];
        const struct vertex next = a->points[ring.points[(i + 1) % ring.count]];
        if (vertex_turn(last, v, next) != 0)
            points[count++] = v;
    }
    return (struct shape_ring){points, count};
}

/* Exact, as places are compared with it. */
static void widen(struct extent *extent, struct vertex v)
{
    if (number_compare(v.x, extent->low.x) < 0)
        extent->low.x = v.x;
    if (number_compare(v.y, extent->low.y) < 0)
        extent->low.y = v.y;
    if (number_compare(v.x, extent->high.x) > 0)
        extent->high.x = v.x;
    if (number_compare(v.y, extent->high.y) > 0)
        extent->high.y = v.y;
}

/* Holes come out below 0, so that sums are areas. */
static double corner_ring_area(struct shape_ring ring)
{
    double sum = 0;
    const struct spot o = vertex_spot(ring.points[0]);
    for (size_t i = 1; i + 1 < ring.count; i++) {
        const struct spot p = vertex_spot(ring.points[i]);
        const struct spot q = vertex_spot(ring.points[i + 1]);
        sum += (p.x - o.x) * (q.y - o.y) - (p.y - o.y) * (q.x - o.x);
    }
    return sum / 2;
}

struct shape shape_of_rings(struct arena *arena, const struct arrangement *a,
                            const struct labelled_ring *rings, size_t count,
                            int fabric)
{
    struct shape_ring *corners = ARENA_ARRAY(arena, struct shape_ring, count);
    struct shape shape = {.fabric = fabric, .rings = corners, .count = count};
    for (size_t r = 0; r < count; r++) {
        corners[r] = corners_of(arena, a, rings[r].ring);
        shape.area += corner_ring_area(corners[r]);
        if (r == 0)
            shape.extent =
                level_extent(corners[0].points[0], corners[0].points[0]);
        for (size_t i = 0; i < corners[r].count; i++)
            widen(&shape.extent, corners[r].points[i]);
    }
    return shape;
}

/* ---- the shapes of a rectangle ---- */

/* As one reads: row by row. Two with one corner are told apart by their first
 * points, which are exact, so that the order is the same in each run. */
static int compare_shapes(const void *left, const void *right)
{
    const struct shape *a = left, *b = right;
    const int by_y = number_compare(a->extent.low.y, b->extent.low.y);
    const int by_x = number_compare(a->extent.low.x, b->extent.low.x);
    if (by_y != 0 || by_x != 0)
        return by_y != 0 ? by_y : by_x;
    return vertex_compare(a->rings[0].points[0], b->rings[0].points[0]);
}

/* Rings come label by label: each run of them is a shape. */
static struct shapes gather_shapes(struct arena *arena,
                                   const struct arrangement *a,
                                   labelled_rings rings, const int *fabric)
{
    LIST(struct shape) found = {0};
    for (size_t i = 0, end; i < rings.count; i = end) {
        for (end = i; end < rings.count &&
                      rings.items[end].label == rings.items[i].label;)
            end++;
        *LIST_ADD(arena, &found) = shape_of_rings(
            arena, a, rings.items + i, end - i, fabric[rings.items[i].label]);
    }
    if (found.count > 0)
        qsort(found.items, found.count, sizeof *found.items, compare_shapes);
    return (struct shapes){found.items, found.count, a->fault};
}

/* The seams in the extent and its sides; `index` tells which seams, the
 * sides come last. */
static struct arrangement *arrange_within(struct arena *arena,
                                          struct arena *scratch,
                                          const struct ground *ground,
                                          struct extent within)
{
    const size_t *near;
    const size_t seams = ground->cloth->seams.count;
    const size_t count =
        grid_within(ground->seams, extent_box(within), &near);
    struct segment *segments =
        ARENA_ARRAY(scratch, struct segment, count + EXTENT_CORNERS);
    size_t *index = ARENA_ARRAY(scratch, size_t, count + EXTENT_CORNERS);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct seam *seam = &ground->cloth->seams.items[near[i]];
        const struct segment whole = {seam->from, seam->to};
        if (segment_within(whole, within, &segments[kept]))
            index[kept++] = near[i];
    }
    extent_sides(within, segments + kept);
    for (size_t i = 0; i < EXTENT_CORNERS; i++)
        index[kept + i] = seams + i;
    struct arrangement *a =
        arrange_segments(arena, segments, kept + EXTENT_CORNERS);
    if (a->fault.kind != FAULT_NONE) {
        a->fault.first = index[a->fault.first];
        a->fault.second = index[a->fault.second];
    }
    return a;
}

struct shapes find_shapes(struct arena *arena, const struct ground *ground,
                          struct extent within, int fabric)
{
    struct arena *scratch = arena_create();
    struct arrangement *a = arrange_within(arena, scratch, ground, within);
    int *fabrics = ARENA_ARRAY(scratch, int, a->face_count + 1);
    size_t *part = ARENA_ARRAY(scratch, size_t, a->face_count + 1);
    long *label = ARENA_ARRAY(scratch, long, a->face_count + 1);
    ground_parts(ground, a, fabrics, part);
    for (size_t f = 0; f < a->face_count; f++) {
        const bool asked = fabric == NO_FABRIC || fabrics[f] == fabric;
        label[f] = asked && fabrics[f] != NO_FABRIC ? (long)part[f] : -1;
    }
    const struct shapes shapes =
        gather_shapes(arena, a, arrangement_outlines(arena, a, label), fabrics);
    arena_destroy(scratch);
    return shapes;
}

/* ---- what lies around a shape ---- */

/* A part of the base and the shape in a box, arranged anew. */
struct local {
    const struct ground *ground;
    struct arrangement *a;
    LIST(struct segment) segments;
    LIST(size_t)
    base;         /* the piece of the base that a segment is; SIZE_MAX for
                     sides of the shape and the box */
    bool *member; /* by face: it lies in the shape */
    size_t *part; /* by face: of the base */
};

/* The box around the shape, grown; a number for its reach that is exact and not
 * below it. */
static struct extent reach_box(const struct ground *ground,
                               const struct shape *shape, double reach)
{
    struct extent box = ground->extent;
    if (reach > 1e6)
        return box;
    const number far = number_whole((int64_t)ceil(reach) + 1);
    const struct vertex low = {number_sub(shape->extent.low.x, far),
                               number_sub(shape->extent.low.y, far)};
    const struct vertex high = {number_add(shape->extent.high.x, far),
                                number_add(shape->extent.high.y, far)};
    if (number_compare(low.x, box.low.x) > 0)
        box.low.x = low.x;
    if (number_compare(low.y, box.low.y) > 0)
        box.low.y = low.y;
    if (number_compare(high.x, box.high.x) < 0)
        box.high.x = high.x;
    if (number_compare(high.y, box.high.y) < 0)
        box.high.y = high.y;
    return box;
}

static void add_local(struct arena *scratch, struct local *l, struct segment s,
                      size_t base)
{
    *LIST_ADD(scratch, &l->segments) = s;
    *LIST_ADD(scratch, &l->base) = base;
}

/* The sides of the shape come with it, as it may be cut off inside cloth. */
static void arrange_local(struct arena *scratch, struct local *l,
                          const struct shape *shape, struct extent box)
{
    const size_t *near;
    const size_t count =
        grid_within(l->ground->pieces, extent_box(box), &near);
    const struct arrangement *base = l->ground->base;
    for (size_t i = 0; i < count; i++) {
        const struct arranged_piece *p = &base->pieces[near[i]];
        const struct segment whole = {base->points[p->from],
                                      base->points[p->to]};
        struct segment inside;
        if (segment_within(whole, box, &inside))
            add_local(scratch, l, inside, near[i]);
    }
    for (size_t r = 0; r < shape->count; r++)
        for (size_t i = 0; i < shape->rings[r].count; i++)
            add_local(
                scratch, l,
                (struct segment){
                    shape->rings[r].points[i],
                    shape->rings[r].points[(i + 1) % shape->rings[r].count]},
                SIZE_MAX);
    struct segment sides[4];
    extent_sides(box, sides);
    for (size_t i = 0; i < 4; i++)
        add_local(scratch, l, sides[i], SIZE_MAX);
    l->a = arrange_segments(scratch, l->segments.items, l->segments.count);
}

/* A face lies in that face of the base which has a piece of the base in common
 * with it, at the same hand; faces without one get theirs over pieces that the
 * base does not have. */
static void find_base_parts(struct local *l)
{
    const struct arrangement *a = l->a, *base = l->ground->base;
    for (size_t f = 0; f < a->face_count; f++)
        l->part[f] = SIZE_MAX;
    for (bool more = true, first = true; more; first = false) {
        more = first;
        for (size_t p = 0; p < a->piece_count; p++) {
            const struct arranged_piece *piece = &a->pieces[p];
            size_t from = SIZE_MAX;
            for (size_t s = piece->first; s < piece->last; s++)
                if (l->base.items[a->sources[s]] != SIZE_MAX)
                    from = l->base.items[a->sources[s]];
            const long right = piece->right, left = piece->left;
            if (from != SIZE_MAX) {
                const struct arranged_piece *whole = &base->pieces[from];
                if (right >= 0 && whole->right >= 0)
                    l->part[right] = l->ground->part[whole->right];
                if (left >= 0 && whole->left >= 0)
                    l->part[left] = l->ground->part[whole->left];
            } else if (right >= 0 && left >= 0 &&
                       (l->part[right] == SIZE_MAX) !=
                           (l->part[left] == SIZE_MAX)) {
                const bool lacks = l->part[right] == SIZE_MAX;
                l->part[lacks ? right : left] = l->part[lacks ? left : right];
                more = true;
            }
        }
    }
}

/* Marks the faces inside the shape. */
static void mark_members(struct arena *arena, const struct arrangement *a,
                         const struct shape *shape, bool *member)
{
    const spot_rings rings = shape_spots(arena, shape);
    const struct spot_line box = extent_box(shape->extent);
    for (size_t f = 0; f < a->face_count; f++) {
        const struct spot at = a->faces[f].inside;
        member[f] = at.x > box.from.x && at.x < box.to.x && at.y > box.from.y &&
                    at.y < box.to.y &&
                    spot_inside(rings.items, rings.count, at);
    }
}

/* Labels with 0 all faces of parts that have one beside the members. */
static void label_around(struct arena *scratch, const struct local *l,
                         long *label)
{
    const struct arrangement *a = l->a;
    bool *beside = ARENA_ARRAY(scratch, bool, l->ground->base->face_count + 1);
    for (size_t p = 0; p < a->piece_count; p++) {
        const long right = a->pieces[p].right, left = a->pieces[p].left;
        if (right < 0 || left < 0 || l->member[right] == l->member[left])
            continue;
        const size_t part = l->part[l->member[right] ? left : right];
        if (part != SIZE_MAX)
            beside[part] = true;
    }
    for (size_t f = 0; f < a->face_count; f++)
        label[f] = !l->member[f] && l->part[f] != SIZE_MAX && beside[l->part[f]]
                       ? 0
                       : -1;
}

struct shapes shape_surroundings_within(struct arena *arena,
                                        const struct ground *ground,
                                        const struct shape *shape, double reach)
{
    struct arena *scratch = arena_create();
    struct local l = {.ground = ground};
    arrange_local(scratch, &l, shape, reach_box(ground, shape, reach));
    l.member = ARENA_ARRAY(scratch, bool, l.a->face_count + 1);
    l.part = ARENA_ARRAY(scratch, size_t, l.a->face_count + 1);
    long *label = ARENA_ARRAY(scratch, long, l.a->face_count + 1);
    mark_members(scratch, l.a, shape, l.member);
    find_base_parts(&l);
    label_around(scratch, &l, label);
    const int none = NO_FABRIC;
    const struct shapes around = gather_shapes(
        arena, l.a, arrangement_outlines(scratch, l.a, label), &none);
    arena_destroy(scratch);
    return around;
}

struct shapes shape_surroundings(struct arena *arena,
                                 const struct ground *ground,
                                 const struct shape *shape)
{
    return shape_surroundings_within(arena, ground, shape, HUGE_VAL);
}

/* ---- questions ---- */

bool shape_corner_outer(struct shape_ring ring, size_t i)
{
    const size_t n = ring.count;
    return vertex_turn(ring.points[(i + n - 1) % n], ring.points[i],
                       ring.points[(i + 1) % n]) > 0;
}

spot_rings shape_spots(struct arena *arena, const struct shape *shape)
{
    spot_rings rings = {0};
    for (size_t r = 0; r < shape->count; r++) {
        const struct shape_ring ring = shape->rings[r];
        struct spot *points = ARENA_ARRAY(arena, struct spot, ring.count);
        for (size_t i = 0; i < ring.count; i++)
            points[i] = vertex_spot(ring.points[i]);
        *LIST_ADD(arena, &rings) = (struct spot_ring){points, ring.count};
    }
    return rings;
}

bool spot_inside(const struct spot_ring *rings, size_t count, struct spot at)
{
    bool inside = false;
    for (size_t r = 0; r < count; r++)
        for (size_t i = 0; i < rings[r].count; i++) {
            const struct spot p = rings[r].points[i];
            const struct spot q = rings[r].points[(i + 1) % rings[r].count];
            if ((p.y < at.y) != (q.y < at.y) &&
                at.x < p.x + (at.y - p.y) / (q.y - p.y) * (q.x - p.x))
                inside = !inside;
        }
    return inside;
}
