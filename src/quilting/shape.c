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
                (struct extent){corners[0].points[0], corners[0].points[0]};
        for (size_t i = 0; i < corners[r].count; i++)
            widen(&shape.extent, corners[r].points[i]);
    }
    return shape;
}

/* ---- the shapes of a rectangle ---- */

static struct spot_line extent_spots(struct extent e)
{
    return (struct spot_line){vertex_spot(e.low), vertex_spot(e.high)};
}

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

/* The seams in the rectangle and its sides; `index` tells which seams, the
 * sides come last. */
static struct arrangement *arrange_within(struct arena *arena,
                                          struct arena *scratch,
                                          const struct ground *ground,
                                          struct extent within)
{
    const size_t *near;
    const size_t seams = ground->cloth->seams.count;
    const size_t count =
        grid_within(ground->seams, extent_spots(within), &near);
    struct segment *segments = ARENA_ARRAY(scratch, struct segment, count + 4);
    size_t *index = ARENA_ARRAY(scratch, size_t, count + 4);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct seam *seam = &ground->cloth->seams.items[near[i]];
        const struct segment whole = {seam->from, seam->to};
        if (segment_within(whole, within, &segments[kept]))
            index[kept++] = near[i];
    }
    extent_sides(within, segments + kept);
    for (size_t i = 0; i < 4; i++)
        index[kept + i] = seams + i;
    struct arrangement *a = arrange_segments(arena, segments, kept + 4);
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

/* The base with the rings of the shape, for one that is cut off inside cloth.
 */
static struct arrangement *base_with_rings(struct arena *arena,
                                           const struct ground *ground,
                                           const struct shape *shape)
{
    LIST(struct segment) all = {0};
    for (size_t i = 0; i < ground->cloth->seams.count; i++) {
        const struct seam *seam = &ground->cloth->seams.items[i];
        *LIST_ADD(arena, &all) = (struct segment){seam->from, seam->to};
    }
    struct segment sides[4];
    extent_sides(ground->extent, sides);
    for (size_t i = 0; i < 4; i++)
        *LIST_ADD(arena, &all) = sides[i];
    for (size_t r = 0; r < shape->count; r++)
        for (size_t i = 0; i < shape->rings[r].count; i++)
            *LIST_ADD(arena, &all) = (struct segment){
                shape->rings[r].points[i],
                shape->rings[r].points[(i + 1) % shape->rings[r].count]};
    return arrange_segments(arena, all.items, all.count);
}

/* Marks the faces inside the shape. ensures: their area. */
static double mark_members(struct arena *arena, const struct arrangement *a,
                           const struct shape *shape, bool *member)
{
    const spot_rings rings = shape_spots(arena, shape);
    const struct spot_line box = extent_spots(shape->extent);
    double area = 0;
    for (size_t f = 0; f < a->face_count; f++) {
        const struct spot at = a->faces[f].inside;
        member[f] = at.x > box.from.x && at.x < box.to.x && at.y > box.from.y &&
                    at.y < box.to.y &&
                    spot_inside(rings.items, rings.count, at);
        area += member[f] ? a->faces[f].area : 0;
    }
    return area;
}

/* Labels with 0 all faces that hang together with one beside the members. */
static void label_around(const struct arrangement *a, const size_t *part,
                         const bool *member, bool *beside, long *label)
{
    for (size_t p = 0; p < a->piece_count; p++) {
        const long right = a->pieces[p].right, left = a->pieces[p].left;
        if (right < 0 || left < 0 || member[right] == member[left])
            continue;
        beside[part[member[right] ? left : right]] = true;
    }
    for (size_t f = 0; f < a->face_count; f++)
        label[f] = !member[f] && beside[part[f]] ? 0 : -1;
}

struct shapes shape_surroundings(struct arena *arena,
                                 const struct ground *ground,
                                 const struct shape *shape)
{
    struct arena *scratch = arena_create_roomy();
    const struct arrangement *a = ground->base;
    const size_t *part = ground->part;
    bool *member = ARENA_ARRAY(scratch, bool, a->face_count + 1);
    if (fabs(mark_members(scratch, a, shape, member) - shape->area) > 1e-6) {
        a = base_with_rings(scratch, ground, shape);
        size_t *parts = ARENA_ARRAY(scratch, size_t, a->face_count + 1);
        int *fabrics = ARENA_ARRAY(scratch, int, a->face_count + 1);
        member = ARENA_ARRAY(scratch, bool, a->face_count + 1);
        ground_parts(ground, a, fabrics, parts);
        mark_members(scratch, a, shape, member);
        part = parts;
    }
    bool *beside = ARENA_ARRAY(scratch, bool, a->face_count + 1);
    long *label = ARENA_ARRAY(scratch, long, a->face_count + 1);
    label_around(a, part, member, beside, label);
    const int none = NO_FABRIC;
    const struct shapes around =
        gather_shapes(arena, a, arrangement_outlines(scratch, a, label), &none);
    arena_destroy(scratch);
    return around;
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
