/* Pictures told as polygons: each is cut into triangles and painted over what
 * was there; what is seen in the end is compared with the cloth. A shape is any
 * simple polygon, but cloth knows convex faces only. Points are in the block's
 * local unit. Nothing here looks at cloth: picture.c compares. */
#include "picture.h"

#include <stdlib.h>

/* The picture that is being painted, and where its memory comes from. */
struct painter {
    struct run *run;
    struct arena *arena;
    struct picture *picture;
    size_t painted; /* triangles so far */
};

/* Twice the signed area of a triangle: > 0 where c is to the right of a-b. */
static struct rational turn_of(struct vertex a, struct vertex b,
                               struct vertex c)
{
    return rational_sub(
        rational_mul(rational_sub(b.x, a.x), rational_sub(c.y, a.y)),
        rational_mul(rational_sub(b.y, a.y), rational_sub(c.x, a.x)));
}

struct whole_box whole_box_of(struct face face)
{
    struct vertex low, high;
    face_box(face, &low, &high);
    /* What is not known is apart from nothing. */
    if (!rational_known(low.x) || !rational_known(low.y) ||
        !rational_known(high.x) || !rational_known(high.y))
        return (struct whole_box){INT64_MIN, INT64_MIN, INT64_MAX, INT64_MAX};
    return (struct whole_box){rational_floor(low.x), rational_floor(low.y),
                              rational_ceil(high.x), rational_ceil(high.y)};
}

bool boxes_apart(struct whole_box a, struct whole_box b)
{
    return a.right <= b.left || b.right <= a.left || a.bottom <= b.top ||
           b.bottom <= a.top;
}

/* What is left of an old face takes its place; further parts go to the end. */
static void keep_part(struct painter *painter, size_t place, bool *first,
                      struct face part)
{
    struct picture *picture = painter->picture;
    struct painted kept = picture->painted.items[place];
    kept.face = part;
    kept.box = whole_box_of(part);
    if (*first)
        *LIST_ADD(painter->arena, &picture->painted) = kept;
    else
        picture->painted.items[place] = kept;
    *first = true;
}

/* What a triangle covers of an older face is cut off along its three edges:
 * each edge cuts off a part that stays, and what is left is covered. */
static void cover(struct painter *painter, size_t place,
                  const struct vertex corners[3])
{
    struct painted *old = &painter->picture->painted.items[place];
    struct face rest = old->face;
    bool kept_one = false;
    old->face.count = 0;
    for (size_t k = 0; k < 3 && rest.count > 0; k++) {
        const struct half_plane outside =
            half_plane_left(corners[k], corners[(k + 1) % 3]);
        const struct face kept = face_clip(painter->arena, rest, outside);
        if (kept.count > 0)
            keep_part(painter, place, &kept_one, kept);
        rest = face_clip(painter->arena, rest, half_plane_other(outside));
    }
}

/* Paints one triangle (clockwise as seen): first what it covers goes, so that
 * painted faces never overlap and their areas add up. */
static void paint_triangle(struct painter *painter, struct vertex a,
                           struct vertex b, struct vertex c, int fabric,
                           struct span span)
{
    struct vertex *corners = ARENA_ARRAY(painter->arena, struct vertex, 3);
    corners[0] = a;
    corners[1] = b;
    corners[2] = c;
    const struct face face = {.fabric = fabric, .points = corners, .count = 3};
    const struct whole_box box = whole_box_of(face);
    const size_t count = painter->picture->painted.count;
    for (size_t i = 0; i < count; i++)
        if (painter->picture->painted.items[i].face.count > 0 &&
            !boxes_apart(painter->picture->painted.items[i].box, box))
            cover(painter, i, corners);
    *LIST_ADD(painter->arena, &painter->picture->painted) =
        (struct painted){face, span, box, painter->painted++};
}

/* For qsort: as painted. */
static int by_order(const void *left, const void *right)
{
    const struct painted *a = left, *b = right;
    return (a->order > b->order) - (a->order < b->order);
}

/* What is seen in the end, in the order of painting. */
static void keep_seen(struct picture *picture)
{
    size_t kept = 0;
    for (size_t i = 0; i < picture->painted.count; i++)
        if (picture->painted.items[i].face.count > 0)
            picture->painted.items[kept++] = picture->painted.items[i];
    picture->painted.count = kept;
    if (kept > 0)
        qsort(picture->painted.items, kept, sizeof(struct painted), by_order);
}

/* No other corner of the polygon lies in the triangle. A corner on the edge
 * counts as inside, so that no face has area 0. A flat or hollow corner is no
 * ear. */
static bool is_ear(const struct vertex *points, const size_t *left,
                   size_t count, size_t at)
{
    const struct vertex a = points[left[(at + count - 1) % count]];
    const struct vertex b = points[left[at]];
    const struct vertex c = points[left[(at + 1) % count]];
    if (rational_sign(turn_of(a, b, c)) <= 0)
        return false;
    for (size_t i = 0; i < count; i++) {
        const struct vertex p = points[left[i]];
        if (i == at || i == (at + 1) % count || i == (at + count - 1) % count)
            continue;
        if (rational_sign(turn_of(a, b, p)) >= 0 &&
            rational_sign(turn_of(b, c, p)) >= 0 &&
            rational_sign(turn_of(c, a, p)) >= 0)
            return false;
    }
    return true;
}

/* Cuts ears off until a triangle is left (Meisters, 1975). ensures: false where
 * the outline crosses itself. Quadratic in corners at best, cubic at worst:
 * shapes have a handful. */
static bool paint_polygon(struct painter *painter, const struct vertex *points,
                          size_t count, int fabric, struct span span)
{
    size_t *left = ARENA_ARRAY(painter->arena, size_t, count);
    for (size_t i = 0; i < count; i++)
        left[i] = i;
    while (count > 2) {
        size_t at = 0;
        while (at < count && !is_ear(points, left, count, at))
            at++;
        if (at == count)
            return false;
        paint_triangle(painter, points[left[(at + count - 1) % count]],
                       points[left[at]], points[left[(at + 1) % count]], fabric,
                       span);
        for (size_t i = at; i + 1 < count; i++)
            left[i] = left[i + 1];
        count--;
    }
    return true;
}

/* The corners of a shape, clockwise as seen. Twice the signed area is less than
 * 0 for the other way round; then the order is reversed. */
static struct vertex *shape_points(struct painter *painter,
                                   const struct picture_shape *shape)
{
    const size_t count = shape->point_count;
    struct vertex *points = ARENA_ARRAY(painter->arena, struct vertex, count);
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < count; i++)
        points[i] =
            (struct vertex){shape->points[2 * i], shape->points[2 * i + 1]};
    for (size_t i = 1; i + 1 < count; i++)
        area = rational_add(area, turn_of(points[0], points[i], points[i + 1]));
    if (rational_sign(area) >= 0)
        return points;
    for (size_t i = 0; i < count / 2; i++) {
        const struct vertex swap = points[i];
        points[i] = points[count - 1 - i];
        points[count - 1 - i] = swap;
    }
    return points;
}

/* ensures: false where it could not be painted; that was reported here or where
 * the value was read. */
static bool paint_shape(struct painter *painter,
                        const struct picture_shape *shape)
{
    if (shape->points == NULL || shape->fabric == NO_FABRIC)
        return false;
    const struct vertex *points = shape_points(painter, shape);
    if (paint_polygon(painter, points, shape->point_count, shape->fabric,
                      shape->element->name))
        return true;
    diag_report(painter->run, DIAG_PICTURE_TOKEN,
                value_span(shape->element, ATTR_POINTS),
                "the outline of this shape crosses itself or has no area");
    return false;
}

/* Together the shapes fill the block, no more and no less. Painted faces do not
 * overlap, so equal areas inside the outline mean that nothing is bare. */
static bool fills(struct painter *painter, const struct definition *block,
                  struct rational width, struct rational height)
{
    struct rational area = rational_whole(0);
    bool inside = true;
    for (size_t i = 0; i < painter->picture->painted.count; i++) {
        const struct face *face = &painter->picture->painted.items[i].face;
        area = rational_add(area, face_double_area(*face));
        for (size_t k = 0; k < face->count; k++)
            inside &= rational_sign(face->points[k].x) >= 0 &&
                      rational_sign(face->points[k].y) >= 0 &&
                      rational_compare(face->points[k].x, width) <= 0 &&
                      rational_compare(face->points[k].y, height) <= 0;
    }
    const struct rational whole =
        rational_times(rational_mul(width, height), 2);
    if (inside && rational_equal(area, whole))
        return true;
    struct diagnostic *d =
        diag_report(painter->run, DIAG_PICTURE_SIZE, block->picture->name,
                    inside ? "the shapes leave a part of `%s` bare"
                           : "a shape reaches outside of `%s`",
                    block->id);
    diag_note(painter->run, d, value_span(block->element, ATTR_ID),
              "`%s` is %s by %s", block->id,
              length_plain(painter->arena, width, UNIT_IN),
              length_plain(painter->arena, height, UNIT_IN));
    return false;
}

/* All shapes are looked at before giving up, so that one run tells all. */
struct picture *paint_picture(struct run *run, const struct sized *sized,
                              const struct definition *block)
{
    struct picture *picture = ARENA_NEW(run->arena, struct picture);
    struct painter painter = {run, run->arena, picture, 0};
    if (block->picture->text[0] != '\0') {
        diag_report(run, DIAG_STRAY_TEXT, block->picture->name,
                    "a picture is told as cells or as shapes, not as both");
        return NULL;
    }
    bool sound = true;
    for (size_t i = 0; i < block->shapes.count; i++)
        sound &= paint_shape(&painter, &block->shapes.items[i]);
    keep_seen(picture);
    return sound && fills(&painter, block,
                          sized->width[pictured_piece(block)->index],
                          sized->height[pictured_piece(block)->index])
               ? picture
               : NULL;
}
