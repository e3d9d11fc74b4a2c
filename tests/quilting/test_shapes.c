/* Shapes, lines between their points, and symmetries, on stars among plain
 * blocks; figures are counted on paper, unions checked by GEOS. */
#include "stars.h"

#include <geos_c.h>
#include <math.h>

#include "connect.h"
#include "symmetry.h"

static const struct ground *top_of(struct arena *arena, int64_t across,
                                   int64_t down)
{
    return ground_of(arena, star_cloth(arena, across, down));
}

/* A star is one shape of 16 corners, 8 of them outer; its area is a square of 6
 * and eight wings. */
static void test_stars(void **state)
{
    const struct ground *g = top_of(*state, 3, 3);
    const struct shapes stars = find_shapes(*state, g, g->extent, FLAME);
    assert_int_equal(stars.fault.kind, FAULT_NONE);
    assert_int_equal(stars.count, 5);
    for (size_t i = 0; i < 5; i++) {
        const struct shape *star = &stars.items[i];
        assert_int_equal(star->count, 1);
        assert_int_equal(star->rings[0].count, 16);
        assert_true(star->area == 72);
        size_t outer = 0;
        for (size_t k = 0; k < 16; k++)
            outer += shape_corner_outer(star->rings[0], k);
        assert_int_equal(outer, 8);
    }
    /* Row by row, from the left. */
    assert_true(number_equal(stars.items[1].extent.low.x, rational_whole(24)));
    assert_true(number_equal(stars.items[2].extent.low.y, rational_whole(12)));
    const struct shapes one = find_shapes(*state, g, block_extent(1, 1), FLAME);
    assert_int_equal(one.count, 1);
    assert_true(one.items[0].area == 72);
}

/* A plain block is one shape in itself, whatever lies around it; half of it,
 * too, where the rectangle cuts through cloth. */
static void test_rectangle(void **state)
{
    const struct ground *g = top_of(*state, 3, 3);
    const struct shapes plain =
        find_shapes(*state, g, block_extent(1, 0), NIGHT);
    assert_int_equal(plain.count, 1);
    assert_int_equal(plain.items[0].rings[0].count, 4);
    const struct extent half = level_extent(at(12, 1, 0, 1), at(18, 1, 12, 1));
    const struct shapes cut = find_shapes(*state, g, half, NIGHT);
    assert_int_equal(cut.count, 1);
    assert_true(cut.items[0].area == 72);
    /* Around it lies the other half, and night through the whole top, but for
     * four squares and eight geese of 9 at the rim, which stars cut off. */
    const struct shapes around = shape_surroundings(*state, g, &cut.items[0]);
    assert_int_equal(around.count, 1);
    assert_true(fabs(around.items[0].area - (36 * 36 - 5 * 72 - 12 * 9 - 72)) <
                1e-9);
}

/* Of the night in one star's block: four corners and four geese, none of which
 * hangs together with another inside the block; outside they do. */
static void test_pieces(void **state)
{
    const struct ground *g = top_of(*state, 3, 3);
    const struct shapes night =
        find_shapes(*state, g, block_extent(1, 1), NIGHT);
    assert_int_equal(night.count, 8);
    const struct shapes all = find_shapes(*state, g, g->extent, NIGHT);
    double area = 0;
    for (size_t i = 0; i < all.count; i++)
        area += all.items[i].area;
    assert_true(fabs(area - (36 * 36 - 5 * 72)) < 1e-9);
    const struct shapes stars = find_shapes(*state, g, g->extent, FLAME);
    const struct shapes around = shape_surroundings(*state, g, &stars.items[2]);
    assert_int_equal(around.count, 1);
    /* What stars cut off at the rim does not hang together with it. */
    assert_true(fabs(around.items[0].area - (area - 12 * 9)) < 1e-9);
}

/* Random checkers: parts and areas by GEOS. */
static void test_random_checkers(void **state)
{
    struct unit_random random = {77};
    GEOSContextHandle_t geos = GEOS_init_r();
    for (int round = 0; round < 40; round++) {
        struct arena *arena = arena_create();
        struct cloth *cloth = ARENA_NEW(arena, struct cloth);
        cloth->width = cloth->height = rational_whole(24);
        GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r(geos);
        for (int64_t i = 0; i < 64; i++) {
            int64_t cell[4][2] = {{0, 0}, {3, 0}, {3, 3}, {0, 3}};
            const int64_t x = i % 8 * 3, y = i / 8 * 3;
            const int fabric = (int)unit_below(&random, 2);
            add_face(arena, cloth, fabric, cell, 4, x, y);
            add_seam(arena, cloth, x, y, x + 3, y);
            add_seam(arena, cloth, x, y, x, y + 3);
            if (fabric != FLAME)
                continue;
            GEOSGeometry *one = GEOSGeom_createRectangle_r(
                geos, (double)x, (double)y, (double)x + 3, (double)y + 3);
            GEOSGeometry *more = GEOSUnion_r(geos, all, one);
            GEOSGeom_destroy_r(geos, all);
            GEOSGeom_destroy_r(geos, one);
            all = more;
        }
        const struct ground *g = ground_of(arena, cloth);
        const struct shapes found = find_shapes(arena, g, g->extent, FLAME);
        assert_int_equal(found.count, GEOSGetNumGeometries_r(geos, all));
        double area = 0, sum = 0;
        GEOSArea_r(geos, all, &area);
        for (size_t i = 0; i < found.count; i++)
            sum += found.items[i].area;
        assert_true(fabs(area - sum) < 1e-9);
        GEOSGeom_destroy_r(geos, all);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* ---- points and lines between them ---- */

static void test_points(void **state)
{
    const struct ground *g = top_of(*state, 1, 1);
    const struct shapes star = find_shapes(*state, g, g->extent, FLAME);
    vertices points = {0};
    add_shape_points(*state, &star.items[0], POINTS_OUTER_CORNERS, &points);
    assert_int_equal(points.count, 8);
    add_shape_points(*state, &star.items[0], POINTS_CORNERS | POINTS_MIDDLES,
                     &points);
    assert_int_equal(points.count, 8 + 32);
    points.count = 0;
    add_shape_points(*state, &star.items[0], POINTS_CENTER, &points);
    assert_int_equal(points.count, 1);
    assert_true(vertex_equal(points.items[0], at(6, 1, 6, 1)));
}

/* Over the plain block among four stars: its eight ends of seams, which are the
 * points of the stars. */
struct across {
    const struct ground *ground;
    vertices points;
    struct connect_order order;
};

static struct across across_plain(struct arena *arena)
{
    struct across a = {.ground = top_of(arena, 5, 5)};
    const int64_t ends[8][2] = {{15, 24}, {21, 24}, {24, 27}, {24, 33},
                                {21, 36}, {15, 36}, {12, 33}, {12, 27}};
    for (size_t i = 0; i < 8; i++)
        *LIST_ADD(arena, &a.points) = at(ends[i][0], 1, ends[i][1], 1);
    a.order = (struct connect_order){a.points.items, a.points.items, 8,     8,
                                     NIGHT,          PAIR_ALL,       {0, 1}};
    return a;
}

/* All pairs but the four that lie along a side: 28 - 4, as all see each other.
 */
static void test_all_pairs(void **state)
{
    struct across a = across_plain(*state);
    struct connected_lines lines = connect_points(*state, a.ground, &a.order);
    assert_int_equal(lines.fault.kind, FAULT_NONE);
    /* Along a side the line runs in the seam, but with night at both hands. */
    assert_int_equal(lines.count, 28);
    a.order.pair = PAIR_NEAREST;
    lines = connect_points(*state, a.ground, &a.order);
    /* The nearest lie around a corner, 3 root 2 away. */
    assert_int_equal(lines.count, 4);
    a.order.pair = PAIR_FACING;
    assert_int_equal(connect_points(*state, a.ground, &a.order).count, 4);
}

/* Not over other cloth: from the center of the block to the far star's side,
 * but not to one behind a star. */
static void test_other_cloth(void **state)
{
    struct across a = across_plain(*state);
    const struct vertex from = at(18, 1, 30, 1);
    const struct vertex to[2] = {at(15, 1, 24, 1), at(15, 1, 12, 1)};
    a.order.from = &from;
    a.order.from_count = 1;
    a.order.to = to;
    a.order.to_count = 2;
    const struct connected_lines lines =
        connect_points(*state, a.ground, &a.order);
    assert_int_equal(lines.count, 1);
    assert_int_equal(lines.items[0].second, 0);
}

/* Walked from end to end, whatever hides one from the other. */
static bool sees(struct arena *arena, const struct ground *ground,
                 struct vertex from, struct vertex to, int into)
{
    if (vertex_equal(from, to) || !ground_opens(ground, from, to, into) ||
        !ground_opens(ground, to, from, into))
        return false;
    struct fault fault = {0};
    const stops found = ground_walk(arena, ground, from, to, &fault);
    for (size_t i = 0; i + 1 < found.count; i++)
        if (found.items[i].right != into || found.items[i].left != into)
            return false;
    return found.count > 1;
}

/* All corners and middles of all stars and of a piece between them: what one
 * sees of the others is what a walk to each of them tells, over both cloths. */
static void test_hidden_pairs(void **state)
{
    const struct ground *ground = top_of(*state, 5, 4);
    vertices points = {0};
    const struct shapes stars =
        find_shapes(*state, ground, ground->extent, FLAME);
    for (size_t i = 0; i < stars.count; i++)
        add_shape_points(*state, &stars.items[i],
                         POINTS_CORNERS | POINTS_MIDDLES, &points);
    for (int into = 0; into < 2; into++) {
        const struct connect_order order = {points.items,
                                            points.items,
                                            points.count,
                                            points.count,
                                            into == 0 ? NIGHT : FLAME,
                                            PAIR_ALL,
                                            {0, 1}};
        const struct connected_lines lines =
            connect_points(*state, ground, &order);
        size_t seen = 0;
        for (size_t i = 0; i < points.count; i++)
            for (size_t k = 0; k < i; k++) {
                struct arena *scratch = arena_create();
                seen += sees(scratch, ground, points.items[i], points.items[k],
                             order.into);
                arena_destroy(scratch);
            }
        assert_int_equal(lines.fault.kind, FAULT_NONE);
        assert_int_equal(lines.count, seen);
        assert_true(seen > 200);
    }
}

/* The nearest that walks tell, as unordered pairs, against those that rings of
 * places tell; a copy of a list is as good as the list. */
static void test_nearest_walked(void **state)
{
    const struct ground *ground = top_of(*state, 5, 4);
    vertices points = {0}, copy = {0};
    const struct shapes stars =
        find_shapes(*state, ground, ground->extent, FLAME);
    for (size_t i = 0; i < stars.count; i++)
        add_shape_points(*state, &stars.items[i], POINTS_OUTER_CORNERS,
                         &points);
    const size_t count = points.count;
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(*state, &copy) = points.items[i];
    bool *nearest = ARENA_ARRAY(*state, bool, count *count);
    for (size_t i = 0; i < count; i++) {
        double *away = ARENA_ARRAY(*state, double, count), least = HUGE_VAL;
        for (size_t k = 0; k < count; k++) {
            const struct spot a = vertex_spot(points.items[i]);
            const struct spot b = vertex_spot(points.items[k]);
            const bool seen =
                sees(*state, ground, points.items[i], points.items[k], NIGHT);
            away[k] = seen ? hypot(a.x - b.x, a.y - b.y) : HUGE_VAL;
            least = fmin(least, away[k]);
        }
        for (size_t k = 0; k < count; k++)
            if (away[k] < HUGE_VAL && away[k] <= least * (1 + 1e-9))
                nearest[i < k ? i * count + k : k * count + i] = true;
    }
    size_t told = 0;
    for (size_t i = 0; i < count * count; i++)
        told += nearest[i];
    struct connect_order order = {points.items, points.items, count, count,
                                  NIGHT,        PAIR_NEAREST, {0, 1}};
    assert_true(told > 20);
    assert_int_equal(connect_points(*state, ground, &order).count, told);
    order.to = copy.items;
    assert_int_equal(connect_points(*state, ground, &order).count, told);
}

/* Stops lie on the exact line, as far from the ends as was told; a line that is
 * too short for both is none. */
static void test_stop(void **state)
{
    struct across a = across_plain(*state);
    a.order.stop = rational_make(1, 4);
    struct connected_lines lines = connect_points(*state, a.ground, &a.order);
    assert_int_equal(lines.count, 28);
    for (size_t i = 0; i < lines.count; i++) {
        const struct connected_line *l = &lines.items[i];
        const struct vertex p = a.points.items[l->first];
        const struct vertex q = a.points.items[l->second];
        const struct spot f = vertex_spot(l->from), s = vertex_spot(p);
        const struct spot t = vertex_spot(l->to), e = vertex_spot(q);
        assert_int_equal(vertex_turn(p, q, l->from), 0);
        assert_int_equal(vertex_turn(p, q, l->to), 0);
        assert_true(fabs(hypot(f.x - s.x, f.y - s.y) - 0.25) < 1e-6);
        assert_true(fabs(hypot(t.x - e.x, t.y - e.y) - 0.25) < 1e-6);
    }
    a.order.stop = rational_whole(3);
    lines = connect_points(*state, a.ground, &a.order);
    /* Those around a corner (4.24) and along a side (6) are too short. */
    assert_int_equal(lines.count, 28 - 4 - 4);
}

/* ---- symmetry ---- */

static unsigned symmetries(struct arena *arena, const struct ground *ground)
{
    struct fault fault = {0};
    const unsigned held = top_symmetries(arena, ground, &fault);
    assert_int_equal(fault.kind, FAULT_NONE);
    return held;
}

static void test_symmetries(void **state)
{
    struct arena *arena = *state;
    assert_int_equal(symmetries(arena, top_of(arena, 3, 3)),
                     SYMMETRY_BIT(SYMMETRY_COUNT) - 1);
    /* Not square, and mirrored both ways. */
    assert_int_equal(symmetries(arena, top_of(arena, 3, 5)),
                     SYMMETRY_BIT(SYMMETRY_SAME) |
                         SYMMETRY_BIT(SYMMETRY_LEFT_RIGHT) |
                         SYMMETRY_BIT(SYMMETRY_TOP_BOTTOM) |
                         SYMMETRY_BIT(SYMMETRY_HALF_TURN));
    /* Stars at two corners that face each other. */
    assert_int_equal(
        symmetries(arena, top_of(arena, 2, 2)),
        SYMMETRY_BIT(SYMMETRY_SAME) | SYMMETRY_BIT(SYMMETRY_HALF_TURN) |
            SYMMETRY_BIT(SYMMETRY_FALLING) | SYMMETRY_BIT(SYMMETRY_RISING));
    /* One face of another fabric: of 9 blocks, the plain one at the top. */
    struct cloth *cloth = star_cloth(arena, 3, 3);
    for (size_t i = 0; i < cloth->faces.count; i++)
        if (ground_fabric(ground_of(arena, cloth), (struct spot){18, 6}) ==
                NIGHT &&
            vertex_equal(cloth->faces.items[i].points[0], at(12, 1, 0, 1)) &&
            vertex_equal(cloth->faces.items[i].points[2], at(24, 1, 12, 1)))
            cloth->faces.items[i].fabric = 2;
    assert_int_equal(symmetries(arena, ground_of(arena, cloth)),
                     SYMMETRY_BIT(SYMMETRY_SAME) |
                         SYMMETRY_BIT(SYMMETRY_LEFT_RIGHT));
}

/* Each motion of a rectangle by hand; as a whole they are closed. */
static void test_motions(void **state)
{
    (void)state;
    const number w = rational_whole(5), h = rational_whole(5);
    const struct vertex v = at(1, 1, 2, 1);
    static const int64_t images[SYMMETRY_COUNT][2] = {
        {1, 2}, {4, 2}, {1, 3}, {4, 3}, {3, 1}, {2, 4}, {2, 1}, {3, 4}};
    for (enum symmetry s = SYMMETRY_SAME; s < SYMMETRY_COUNT; s++) {
        const struct motion m = symmetry_motion(s, w, h);
        const struct vertex image = vertex_moved(m, v);
        assert_true(vertex_equal(image, at(images[s][0], 1, images[s][1], 1)));
        const struct spot spot = spot_moved(m, vertex_spot(v));
        assert_true(spot.x == (double)images[s][0] &&
                    spot.y == (double)images[s][1]);
        for (enum symmetry t = SYMMETRY_SAME; t < SYMMETRY_COUNT; t++) {
            const struct motion n = symmetry_motion(t, w, h);
            assert_true(vertex_equal(vertex_moved(motion_compose(n, m), v),
                                     vertex_moved(n, vertex_moved(m, v))));
        }
    }
    /* 3 wide, 5 tall, mirrored (2, 2), then turned once: (3, 2), laid at
     * 10, 20. */
    const struct motion laid =
        placing_motion((struct orientation){.turn = 1, .mirror = true},
                       rational_whole(3), rational_whole(5), at(10, 1, 20, 1));
    assert_true(vertex_equal(vertex_moved(laid, v), at(13, 1, 22, 1)));
}

static void test_images(void **state)
{
    const struct motion mirror = symmetry_motion(
        SYMMETRY_LEFT_RIGHT, rational_whole(10), rational_whole(10));
    struct spot_line lines[4] = {{{1, 1}, {3, 4}},
                                 {{9, 1}, {7, 4}},
                                 {{5, 0}, {5, 10}},
                                 {{6, 2}, {4, 2}}};
    assert_int_equal(line_without_image(*state, lines, 4, mirror), SIZE_MAX);
    lines[1].to.x += 1.0 / 64;
    assert_int_equal(line_without_image(*state, lines, 4, mirror), 0);
    lines[1].to.x -= 1.0 / 64 - 4e-7;
    assert_int_equal(line_without_image(*state, lines, 4, mirror), SIZE_MAX);
    lines[2].to.x += 1.0 / 64;
    assert_int_equal(line_without_image(*state, lines, 4, mirror), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_stars),
        cmocka_unit_test(test_rectangle),
        cmocka_unit_test(test_pieces),
        cmocka_unit_test(test_random_checkers),
        cmocka_unit_test(test_points),
        cmocka_unit_test(test_all_pairs),
        cmocka_unit_test(test_other_cloth),
        cmocka_unit_test(test_hidden_pairs),
        cmocka_unit_test(test_nearest_walked),
        cmocka_unit_test(test_stop),
        cmocka_unit_test(test_symmetries),
        cmocka_unit_test(test_motions),
        cmocka_unit_test(test_images),
    };
    return cmocka_run_group_tests_name("shapes", tests, unit_arena,
                                       unit_arena_end);
}
