/* Pictures told as polygons: each is cut into triangles and painted over what
 * was there; what is seen in the end is compared with the cloth. A shape is any
 * simple polygon, but cloth knows convex faces only. Points are in the block's
 * local unit. Nothing here looks at cloth: picture.c compares. */
#include "picture.h"

/* The picture that is being painted, and where its memory comes from. */
struct painter {
    struct run *run;
    struct arena *arena;
    struct picture *picture;
};

/* Twice the signed area of a triangle: > 0 where c is to the right of a-b. */
static struct rational turn_of(struct vertex a, struct vertex b,
                               struct vertex c)
{
    return rational_sub(
        rational_mul(rational_sub(b.x, a.x), rational_sub(c.y, a.y)),
        rational_mul(rational_sub(b.y, a.y), rational_sub(c.x, a.x)));
}

/* Paints one triangle (clockwise as seen): first what it covers goes. What it
 * covers of older faces is cut off along its three edges, so painted faces
 * never overlap and their areas add up. */
static void paint_triangle(struct painter *painter, struct vertex a,
                           struct vertex b, struct vertex c, int fabric,
                           struct span span)
{
    const struct vertex corners[3] = {a, b, c};
    struct painted *old = painter->picture->painted.items;
    const size_t count = painter->picture->painted.count;
    painter->picture->painted.items = NULL;
    painter->picture->painted.count = painter->picture->painted.capacity = 0;
    for (size_t i = 0; i < count; i++) {
        struct face rest = old[i].face;
        /* Each edge cuts off a part that stays; what is left is covered. */
        for (size_t k = 0; k < 3 && rest.count > 0; k++) {
            const struct half_plane outside =
                half_plane_left(corners[k], corners[(k + 1) % 3]);
            const struct face kept = face_clip(painter->arena, rest, outside);
            if (kept.count > 0)
                *LIST_ADD(painter->arena, &painter->picture->painted) =
                    (struct painted){kept, old[i].span};
            rest = face_clip(painter->arena, rest, half_plane_other(outside));
        }
    }
    struct vertex *points = ARENA_ARRAY(painter->arena, struct vertex, 3);
    for (size_t k = 0; k < 3; k++)
        points[k] = corners[k];
    *LIST_ADD(painter->arena, &painter->picture->painted) = (struct painted){
        {.fabric = fabric, .points = points, .count = 3}, span};
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
    struct painter painter = {run, run->arena, picture};
    if (block->picture->text[0] != '\0') {
        diag_report(run, DIAG_STRAY_TEXT, block->picture->name,
                    "a picture is told as cells or as shapes, not as both");
        return NULL;
    }
    bool sound = true;
    for (size_t i = 0; i < block->shapes.count; i++)
        sound &= paint_shape(&painter, &block->shapes.items[i]);
    return sound && fills(&painter, block, sized->width[block->root->index],
                          sized->height[block->root->index])
               ? picture
               : NULL;
}
