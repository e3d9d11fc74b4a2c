/* Operations on virtual cloth: identities that hold exactly, and areas and
 * intersections against GEOS, on random polygons with sides along the axes
 * and at 45 degrees. */
#include "geometry.h"

enum { ROUNDS = 400 };

static struct rational quarter(int64_t n)
{
    return rational_make(n, 4);
}

static struct vertex at(int64_t x, int64_t y)
{
    return (struct vertex){quarter(x), quarter(y)};
}

/* A rectangle with its corners cut off at 45 degrees, some by nothing, so
 * that it may have fewer than eight corners. In quarters of an inch. */
static struct face octagon(struct arena *arena, struct unit_random *random,
                           int fabric)
{
    const int64_t x = unit_below(random, 60) - 20;
    const int64_t y = unit_below(random, 60) - 20;
    const int64_t w = 2 + unit_below(random, 40);
    const int64_t h = 2 + unit_below(random, 40);
    const int64_t most = (w < h ? w : h) / 2;
    int64_t cut[4];
    for (int i = 0; i < 4; i++)
        cut[i] = unit_below(random, (uint64_t)most + 1);
    const struct vertex all[8] = {
        at(x, y + cut[0]),         at(x + cut[0], y),
        at(x + w - cut[1], y),     at(x + w, y + cut[1]),
        at(x + w, y + h - cut[2]), at(x + w - cut[2], y + h),
        at(x + cut[3], y + h),     at(x, y + h - cut[3])};
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 8);
    size_t count = 0;
    for (size_t i = 0; i < 8; i++)
        if (!rational_equal(all[i].x, all[(i + 1) % 8].x) ||
            !rational_equal(all[i].y, all[(i + 1) % 8].y))
            points[count++] = all[i];
    return (struct face){
        .fabric = fabric, .points = points, .count = count};
}

/* A line through two points, along an axis or at 45 degrees. */
static void random_line(struct unit_random *random, struct vertex *p,
                        struct vertex *q)
{
    static const int ways[8][2] = {{1, 0},  {0, 1},  {1, 1},  {1, -1},
                                   {-1, 0}, {0, -1}, {-1, -1}, {-1, 1}};
    const int64_t way = unit_below(random, 8);
    const int64_t x = unit_below(random, 60) - 10;
    const int64_t y = unit_below(random, 60) - 10;
    const int64_t far = 1 + unit_below(random, 9);
    *p = at(x, y);
    *q = at(x + far * ways[way][0], y + far * ways[way][1]);
}

static struct cloth *random_cloth(struct arena *arena,
                                  struct unit_random *random)
{
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = quarter(4 + unit_below(random, 60));
    cloth->height = quarter(4 + unit_below(random, 60));
    for (int i = 0; i < 3; i++)
        cloth_add(arena, cloth, octagon(arena, random, i));
    cloth->faces.items[1].wrong_side = true;
    return cloth;
}

static struct rational cloth_double_area(const struct cloth *cloth)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < cloth->faces.count; i++)
        area = rational_add(area, face_double_area(cloth->faces.items[i]));
    return area;
}

static void assert_same_area(struct rational a, struct rational b)
{
    assert_true(rational_known(a));
    assert_rational(a, b.num, b.den);
}

/* Same faces, points, sides and size. */
static void assert_same_cloth(const struct cloth *a, const struct cloth *b)
{
    assert_true(rational_equal(a->width, b->width));
    assert_true(rational_equal(a->height, b->height));
    assert_int_equal(a->faces.count, b->faces.count);
    for (size_t i = 0; i < a->faces.count; i++) {
        const struct face *p = &a->faces.items[i], *q = &b->faces.items[i];
        assert_int_equal(p->fabric, q->fabric);
        assert_int_equal(p->wrong_side, q->wrong_side);
        assert_int_equal(p->count, q->count);
        for (size_t k = 0; k < p->count; k++) {
            assert_true(rational_equal(p->points[k].x, q->points[k].x));
            assert_true(rational_equal(p->points[k].y, q->points[k].y));
        }
    }
}

/* Which side is left: walking to the right, what is above (smaller y). */
static void test_left_hand(void **state)
{
    (void)state;
    static const struct {
        int from[2], to[2], left[2];
    } ways[] = {{{0, 0}, {4, 0}, {2, -1}}, {{4, 0}, {0, 0}, {2, 1}},
                {{0, 0}, {0, 4}, {1, 2}},  {{0, 4}, {4, 0}, {0, 0}},
                {{0, 0}, {4, 4}, {4, 0}},  {{4, 4}, {0, 0}, {0, 4}}};
    for (size_t i = 0; i < UNIT_COUNT(ways); i++) {
        const struct half_plane plane =
            half_plane_left(at(ways[i].from[0], ways[i].from[1]),
                            at(ways[i].to[0], ways[i].to[1]));
        const struct vertex left = at(ways[i].left[0], ways[i].left[1]);
        const struct rational side =
            rational_sub(rational_add(rational_mul(plane.a, left.x),
                                      rational_mul(plane.b, left.y)),
                         plane.c);
        assert_int_equal(rational_sign(side), -1);
    }
}

/* The two sides of a cut add up to the whole. */
static void test_clip_adds_up(void **state)
{
    struct unit_random random = {11};
    for (int i = 0; i < ROUNDS; i++) {
        const struct face face = octagon(*state, &random, 0);
        struct vertex p, q;
        random_line(&random, &p, &q);
        const struct half_plane left = half_plane_left(p, q);
        const struct face in = face_clip(*state, face, left);
        const struct face out = face_clip(*state, face, half_plane_other(left));
        assert_same_area(
            rational_add(face_double_area(in), face_double_area(out)),
            face_double_area(face));
        const struct face again = face_clip(*state, in, left);
        assert_same_area(face_double_area(again), face_double_area(in));
        assert_int_equal(
            face_clip(*state, in, half_plane_other(left)).count, 0);
    }
}

/* A line along an edge leaves all or nothing, without slivers. */
static void test_clip_along_edge(void **state)
{
    const struct cloth *cloth = cloth_rectangle(
        *state, 0, quarter(8), quarter(4));
    const struct half_plane above = half_plane_left(at(0, 4), at(8, 4));
    const struct face face = cloth->faces.items[0];
    assert_int_equal(face_clip(*state, face, above).count, 4);
    assert_int_equal(face_clip(*state, face, half_plane_other(above)).count, 0);
}

static void test_rectangle(void **state)
{
    const struct outline finished = outline_rectangle(
        *state, quarter(0), quarter(0), quarter(8), quarter(4));
    const struct cloth *cloth =
        cloth_cut(*state, 2, outline_grown(*state, finished, quarter(1)),
                  quarter(8), quarter(4));
    assert_int_equal(cloth->faces.items[0].fabric, 2);
    assert_false(cloth->faces.items[0].wrong_side);
    assert_same_area(cloth_double_area(cloth), rational_make(2 * 10 * 6, 16));
    assert_same_area(inner_double_area(*state, cloth),
                     rational_make(2 * 8 * 4, 16));
}

/* All eight: the area is kept, and the inverse brings everything back. */
static void test_orient(void **state)
{
    struct unit_random random = {22};
    for (int i = 0; i < ROUNDS; i++) {
        const struct cloth *cloth = random_cloth(*state, &random);
        const struct orientation o = {(unsigned)i % 4, i / 4 % 2 == 1};
        const struct orientation p = {(unsigned)unit_below(&random, 4),
                                      unit_below(&random, 2) == 1};
        const struct cloth *turned = cloth_oriented(*state, cloth, o);
        assert_same_area(cloth_double_area(turned), cloth_double_area(cloth));
        assert_same_area(inner_double_area(*state, turned),
                         inner_double_area(*state, cloth));
        assert_same_cloth(
            cloth_oriented(*state, turned, orientation_inverse(o)), cloth);
        assert_same_cloth(cloth_oriented(*state, turned, p),
                          cloth_oriented(*state, cloth,
                                         orientation_compose(p, o)));
    }
}

/* The corners of a 3 x 2 rectangle, by hand. */
static void test_orient_corners(void **state)
{
    (void)state;
    const struct rational w = rational_whole(3), h = rational_whole(2);
    const struct vertex top_left = {rational_whole(0), rational_whole(0)};
    static const int places[8][2] = {{0, 0}, {2, 0}, {3, 2}, {0, 3},
                                     {3, 0}, {2, 3}, {0, 2}, {0, 0}};
    for (unsigned i = 0; i < 8; i++) {
        const struct vertex v = vertex_oriented(
            top_left, w, h, (struct orientation){i % 4, i >= 4});
        assert_rational(v.x, places[i][0], 1);
        assert_rational(v.y, places[i][1], 1);
    }
}

/* Turned over twice about one line, cloth is as it was; once, it shows the
 * other side, mirrored, and the line's own points stay. */
static void test_flip(void **state)
{
    struct unit_random random = {33};
    for (int i = 0; i < ROUNDS; i++) {
        const struct cloth *cloth = random_cloth(*state, &random);
        struct vertex p, q;
        random_line(&random, &p, &q);
        const struct cloth *over = cloth_flipped(*state, cloth, p, q);
        assert_same_area(cloth_double_area(over), cloth_double_area(cloth));
        assert_true(over->faces.items[0].wrong_side);
        assert_false(over->faces.items[1].wrong_side);
        assert_same_cloth(cloth_flipped(*state, over, p, q), cloth);
        /* What lay on the left lies on the right now. */
        const struct half_plane left = half_plane_left(p, q);
        assert_same_area(
            cloth_double_area(cloth_clipped(*state, over, left)),
            cloth_double_area(
                cloth_clipped(*state, cloth, half_plane_other(left))));
    }
}

static void test_move(void **state)
{
    struct unit_random random = {44};
    const struct cloth *cloth = random_cloth(*state, &random);
    const struct cloth *there =
        cloth_moved(*state, cloth, quarter(7), quarter(-3));
    assert_rational(rational_sub(there->faces.items[0].points[0].x,
                                 cloth->faces.items[0].points[0].x), 7, 4);
    assert_same_cloth(cloth_moved(*state, there, quarter(-7), quarter(3)),
                      cloth);
}

/* ---- against GEOS ---- */

static void test_areas_by_geos(void **state)
{
    GEOSContextHandle_t geos = geometry_start();
    struct unit_random random = {55};
    for (int i = 0; i < ROUNDS; i++) {
        const struct face face = octagon(*state, &random, 0);
        GEOSGeometry *polygon = face_geometry(geos, face);
        assert_close(2 * geometry_area(geos, polygon),
                           rational_double(face_double_area(face)));
        GEOSGeom_destroy_r(geos, polygon);
    }
    GEOS_finish_r(geos);
}

/* Clipping one polygon by all sides of another is their intersection. */
static void test_intersections_by_geos(void **state)
{
    GEOSContextHandle_t geos = geometry_start();
    struct unit_random random = {66};
    size_t met = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const struct face a = octagon(*state, &random, 0);
        const struct face b = octagon(*state, &random, 1);
        struct face both = a;
        /* Its points run clockwise on the screen: inside is on the right. */
        for (size_t k = 0; k < b.count; k++)
            both = face_clip(*state, both,
                             half_plane_left(b.points[(k + 1) % b.count],
                                             b.points[k]));
        GEOSGeometry *p = face_geometry(geos, a), *q = face_geometry(geos, b);
        GEOSGeometry *common = GEOSIntersection_r(geos, p, q);
        assert_close(2 * geometry_area(geos, common),
                           rational_double(face_double_area(both)));
        if (both.count > 0) {
            met++;
            GEOSGeometry *ours = face_geometry(geos, both);
            GEOSGeometry *rest = GEOSSymDifference_r(geos, ours, common);
            assert_close(geometry_area(geos, rest), 0);
            GEOSGeom_destroy_r(geos, ours);
            GEOSGeom_destroy_r(geos, rest);
        }
        GEOSGeom_destroy_r(geos, p);
        GEOSGeom_destroy_r(geos, q);
        GEOSGeom_destroy_r(geos, common);
    }
    assert_in_range(met, ROUNDS / 10, ROUNDS - ROUNDS / 10);
    GEOS_finish_r(geos);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_left_hand),
        cmocka_unit_test(test_clip_adds_up),
        cmocka_unit_test(test_clip_along_edge),
        cmocka_unit_test(test_rectangle),
        cmocka_unit_test(test_orient),
        cmocka_unit_test(test_orient_corners),
        cmocka_unit_test(test_flip),
        cmocka_unit_test(test_move),
        cmocka_unit_test(test_areas_by_geos),
        cmocka_unit_test(test_intersections_by_geos),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
