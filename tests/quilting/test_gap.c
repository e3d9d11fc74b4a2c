/* The largest gap, against known figures, against a second method (GEOS grows
 * the stitching by a radius: something is left of the quilt as long as a larger
 * circle fits), and against distances by exhaustion. */
#include <math.h>
#include <stdlib.h>

#include <geos_c.h>

#include "../unit.h"
#include "gap.h"

#define SLACK 0.001

struct lines {
    struct spot segments[20000][2];
    size_t count;
};

static struct lines *no_lines(struct arena *arena)
{
    return ARENA_NEW(arena, struct lines);
}

static void add(struct lines *lines, double x, double y, double to_x,
                double to_y)
{
    struct spot *segment = lines->segments[lines->count++];
    segment[0] = (struct spot){x, y};
    segment[1] = (struct spot){to_x, to_y};
}

static struct gap_input input_of(const struct lines *lines, double width,
                                 double height)
{
    return (struct gap_input){.width = width,
                              .height = height,
                              .segments =
                                  (const struct spot(*)[2])lines->segments,
                              .count = lines->count};
}

static enum gap_verdict verdict(struct arena *arena,
                                const struct gap_input *input, double limit,
                                struct gap *found)
{
    return gap_holds(arena, gap_grid(arena, input), limit, SLACK, found);
}

static struct gap largest(struct arena *arena, const struct gap_input *input)
{
    return gap_largest(arena, gap_grid(arena, input), 0, 1.0 / 64);
}

/* The figure encloses what is true, and is no wider than 1/64. */
static void assert_gap(struct gap gap, double truth)
{
    assert_true(gap.proved);
    assert_true(gap.most - gap.least <= 1.0 / 64);
    assert_true(gap.least <= truth + 1e-9);
    assert_true(gap.most >= truth - 1e-9);
}

/* ---- known figures ---- */

static void test_bare_quilt(void **state)
{
    /* Only the edge is sewn: the circle is as wide as the quilt is narrow. */
    const struct gap_input input = {.width = 60, .height = 72};
    const struct gap gap = largest(*state, &input);
    assert_gap(gap, 60);
    assert_true(fabs(gap.at.x - 30) < 0.05);
    assert_true(gap.at.y > 29.9 && gap.at.y < 42.1);
}

/* Parallel lines from edge to edge so far apart, in a direction. */
static struct gap_input parallel(struct arena *arena, double apart, double side,
                                 bool slanted)
{
    struct lines *lines = no_lines(arena);
    const double step = slanted ? apart * sqrt(2) : apart;
    for (double at = step; at < (slanted ? 2 : 1) * side; at += step)
        if (slanted)
            add(lines, fmin(at, side), fmax(0, at - side), fmax(0, at - side),
                fmin(at, side));
        else
            add(lines, at, 0, at, side);
    return input_of(lines, side, side);
}

/* Exactly max-gap apart passes, 1/500 more fails; lines upright and at 45
 * degrees, at spacings from dense quilting to the widest label. */
static void test_decision(void **state)
{
    static const double spacings[] = {0.5, 1, 2, 4, 8, 10};
    for (size_t i = 0; i < UNIT_COUNT(spacings); i++)
        for (int slanted = 0; slanted < 2; slanted++) {
            struct arena *arena = arena_create();
            const double limit = spacings[i], side = 6 * limit;
            struct gap found;
            struct gap_input input = parallel(arena, limit, side, slanted);
            assert_int_equal(verdict(arena, &input, limit, &found), GAP_HOLDS);
            assert_true(found.most <= limit + SLACK);
            input = parallel(arena, limit + 0.002, side + 0.012, slanted);
            assert_int_equal(verdict(arena, &input, limit, &found),
                             GAP_TOO_LARGE);
            assert_true(found.least > limit + SLACK);
            assert_true(found.least <= limit + 0.002 + 1e-9);
            arena_destroy(arena);
        }
    (void)state;
}

/* An open square of 10 in may stay open where a label says "up to 10 in apart":
 * backyardlongarmandquilting.com, Batting Education 101. */
static void test_open_square(void **state)
{
    struct lines *lines = no_lines(*state);
    for (int i = 1; i < 6; i++) {
        add(lines, 10 * i, 0, 10 * i, 60);
        add(lines, 0, 10 * i, 60, 10 * i);
    }
    const struct gap_input input = input_of(lines, 60, 60);
    struct gap found;
    assert_int_equal(verdict(*state, &input, 10, &found), GAP_HOLDS);
    assert_int_equal(verdict(*state, &input, 9.99, &found), GAP_TOO_LARGE);
    assert_gap(largest(*state, &input), 10);
}

/* The inscribed circle of a triangle: radius 2 * area / perimeter. */
static void test_triangles(void **state)
{
    struct lines *lines = no_lines(*state);
    add(lines, 0, 12, 12, 0);
    struct gap_input input = input_of(lines, 12, 12);
    assert_gap(largest(*state, &input), 24 - 12 * sqrt(2));
    lines = no_lines(*state);
    add(lines, 0, 3, 4, 0);
    add(lines, 0, 3, 4, 3); /* the other half is filled below */
    const struct spot half[] = {{4, 0}, {4, 3}, {0, 3}};
    const struct gap_ring ring = {half, 3};
    input = input_of(lines, 4, 3);
    input.rings = &ring;
    input.ring_count = 1;
    const struct gap gap = largest(*state, &input);
    assert_gap(gap, 2);
    assert_true(hypot(gap.at.x - 1, gap.at.y - 1) < 0.02);
}

/* A filled area holds within, its hole does not. */
static void test_filled(void **state)
{
    const struct spot outer[] = {{0, 0}, {40, 0}, {40, 30}, {0, 30}};
    const struct spot hole[] = {{10, 5}, {10, 12}, {22, 12}, {22, 5}};
    const struct gap_ring rings[] = {{hole, 4}, {outer, 4}};
    struct gap_input input = {
        .width = 40, .height = 30, .rings = rings, .ring_count = 2};
    assert_gap(largest(*state, &input), 7);
    const struct gap_grid *grid = gap_grid(*state, &input);
    assert_true(gap_distance(grid, (struct spot){5, 5}) == 0);
    assert_true(gap_distance(grid, (struct spot){30, 29}) == 0);
    assert_true(fabs(gap_distance(grid, (struct spot){12, 8}) - 2) < 1e-12);
    input.rings = &rings[1];
    input.ring_count = 1;
    assert_true(largest(*state, &input).most <= 1.0 / 64);
}

/* A line that ends inside the open part counts. */
static void test_line_ends_inside(void **state)
{
    struct lines *lines = no_lines(*state);
    add(lines, 5, 0, 5, 5);
    const struct gap_input input = input_of(lines, 10, 10);
    /* At (5, 5 + r): r to the end of the line, 5 - r to the edge below. At
     * (10 - r, 10 - r): a circle in the corner that touches the line's end,
     * (5 - r)^2 * 2 = r^2. */
    const double corner = 5 * sqrt(2) / (1 + sqrt(2));
    assert_gap(largest(*state, &input), 2 * corner);
}

/* Stitching beyond the quilt, twice, and of length 0. */
static void test_odd_lines(void **state)
{
    struct lines *lines = no_lines(*state);
    add(lines, -50, 4, 90, 4);
    add(lines, -50, 4, 90, 4);
    add(lines, 100, 100, 120, 100);
    add(lines, 2, 8, 2, 8);
    add(lines, -3, -2, -3, 20);
    const struct gap_input input = input_of(lines, 4, 12);
    assert_gap(largest(*state, &input), 4);
    const struct gap_grid *grid = gap_grid(*state, &input);
    assert_true(fabs(gap_distance(grid, (struct spot){2, 8.5}) - 0.5) < 1e-12);
}

/* ---- a second method ---- */

static void silent(const char *text, void *nothing)
{
    (void)text;
    (void)nothing;
}

static GEOSGeometry *line_of(GEOSContextHandle_t geos, const struct spot *ends,
                             size_t count)
{
    GEOSCoordSequence *sequence =
        GEOSCoordSeq_create_r(geos, (unsigned)count, 2);
    for (unsigned i = 0; i < count; i++)
        GEOSCoordSeq_setXY_r(geos, sequence, i, ends[i].x, ends[i].y);
    return GEOSGeom_createLineString_r(geos, sequence);
}

/* Whether GEOS leaves anything of the quilt when all stitching is grown by a
 * radius. Its circles are polygons within the true ones, by 1 in 13,000. */
static bool something_is_open(GEOSContextHandle_t geos,
                              const struct gap_input *input, double radius)
{
    const struct spot edge[] = {{0, 0},
                                {input->width, 0},
                                {input->width, input->height},
                                {0, input->height},
                                {0, 0}};
    GEOSGeometry **grown = calloc(input->count + 1, sizeof *grown);
    for (size_t i = 0; i <= input->count; i++) {
        GEOSGeometry *line = i < input->count
                                 ? line_of(geos, input->segments[i], 2)
                                 : line_of(geos, edge, 5);
        grown[i] = GEOSBuffer_r(geos, line, radius, 64);
        GEOSGeom_destroy_r(geos, line);
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(
        geos, GEOS_GEOMETRYCOLLECTION, grown, (unsigned)input->count + 1);
    GEOSGeometry *held = GEOSUnaryUnion_r(geos, all);
    GEOSGeometry *quilt =
        GEOSGeom_createRectangle_r(geos, 0, 0, input->width, input->height);
    GEOSGeometry *rest = GEOSDifference_r(geos, quilt, held);
    const bool open = GEOSisEmpty_r(geos, rest) == 0;
    GEOSGeom_destroy_r(geos, rest);
    GEOSGeom_destroy_r(geos, quilt);
    GEOSGeom_destroy_r(geos, held);
    GEOSGeom_destroy_r(geos, all);
    free(grown);
    return open;
}

static double any(struct unit_random *random, double below)
{
    return below * (double)unit_below(random, 1000001) / 1e6;
}

/* Lines of any length and direction; half of them on a grid, as lines of quilts
 * lie, so that many circles are equally large. */
static struct gap_input random_lines(struct arena *arena,
                                     struct unit_random *random)
{
    struct lines *lines = no_lines(arena);
    const double width = 4 + any(random, 8), height = 4 + any(random, 8);
    const bool whole = unit_below(random, 2) == 0;
    for (int64_t count = unit_below(random, 15); count > 0; count--) {
        double at[4];
        for (int i = 0; i < 4; i++) {
            at[i] = any(random, i % 2 ? height : width);
            at[i] = whole ? floor(at[i]) : at[i];
        }
        add(lines, at[0], at[1], at[2], at[3]);
    }
    return input_of(lines, width, height);
}

static double exhausted(const struct gap_input *input, struct spot place)
{
    double best = fmin(fmin(place.x, input->width - place.x),
                       fmin(place.y, input->height - place.y));
    for (size_t i = 0; i < input->count; i++) {
        const struct spot a = input->segments[i][0], b = input->segments[i][1];
        const double length = hypot(b.x - a.x, b.y - a.y);
        double apart = fmin(hypot(place.x - a.x, place.y - a.y),
                            hypot(place.x - b.x, place.y - b.y));
        const double along = length > 0 ? ((place.x - a.x) * (b.x - a.x) +
                                           (place.y - a.y) * (b.y - a.y)) /
                                              length
                                        : -1;
        if (along > 0 && along < length)
            apart = fabs((place.x - a.x) * (b.y - a.y) -
                         (place.y - a.y) * (b.x - a.x)) /
                    length;
        best = fmin(best, apart);
    }
    return best;
}

static void test_random_lines(void **state)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSContext_setNoticeMessageHandler_r(geos, silent, NULL);
    struct unit_random random = {2718281828};
    for (int i = 0; i < 300; i++) {
        struct arena *arena = arena_create();
        const struct gap_input input = random_lines(arena, &random);
        const struct gap_grid *grid = gap_grid(arena, &input);
        const struct gap gap = gap_largest(arena, grid, 0, 1.0 / 64);
        assert_true(gap.proved && gap.most - gap.least <= 1.0 / 64);
        const struct gap none = gap_largest(arena, grid, gap.most, 1.0 / 64);
        assert_true(none.proved &&
                    none.most <= fmax(gap.most, none.least + 1.0 / 64));
        const struct gap same =
            gap_largest(arena, grid, gap.least * 0.9, 1.0 / 64);
        assert_true(same.proved && fabs(same.most - gap.most) <= 1.0 / 64);
        assert_true(fabs(exhausted(&input, gap.at) - gap.least / 2) < 1e-9);
        assert_true(something_is_open(geos, &input, gap.least / 2 - 1e-4));
        assert_false(something_is_open(geos, &input, gap.most / 2 + 1e-3));
        struct gap found;
        assert_int_equal(gap_holds(arena, grid, gap.most, SLACK, &found),
                         GAP_HOLDS);
        assert_int_equal(
            gap_holds(arena, grid, gap.least - 2 * SLACK, SLACK, &found),
            GAP_TOO_LARGE);
        for (int place = 0; place < 50; place++) {
            const struct spot at = {any(&random, input.width),
                                    any(&random, input.height)};
            assert_true(fabs(gap_distance(grid, at) - exhausted(&input, at)) <
                        1e-9);
        }
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* The truth near to the limit: the decision lies between figures 1/500 apart
 * whatever the lines are. */
static void test_random_decisions(void **state)
{
    struct unit_random random = {31415926535};
    for (int i = 0; i < 200; i++) {
        struct arena *arena = arena_create();
        const struct gap_input input = random_lines(arena, &random);
        const struct gap_grid *grid = gap_grid(arena, &input);
        const struct gap fine = gap_largest(arena, grid, 0, 1e-7);
        assert_true(fine.proved && fine.most - fine.least <= 1e-7);
        struct gap found;
        assert_int_equal(gap_holds(arena, grid, fine.least, SLACK, &found),
                         GAP_HOLDS);
        assert_int_equal(
            gap_holds(arena, grid, fine.most - 2 * SLACK, SLACK, &found),
            GAP_TOO_LARGE);
        arena_destroy(arena);
    }
    (void)state;
}

/* ---- filled areas against GEOS ---- */

/* A star-shaped area around a place, with points at any distance. */
static struct gap_ring random_ring(struct arena *arena,
                                   struct unit_random *random, double x,
                                   double y, double least, double most)
{
    const size_t count = 3 + (size_t)unit_below(random, 8);
    struct spot *points = ARENA_ARRAY(arena, struct spot, count);
    const bool turned = unit_below(random, 2) == 0;
    for (size_t i = 0; i < count; i++) {
        const double angle = 2 * acos(-1) * (double)i / (double)count;
        const double far = least + any(random, most - least);
        points[turned ? count - 1 - i : i] =
            (struct spot){x + far * cos(angle), y + far * sin(angle)};
    }
    return (struct gap_ring){points, count};
}

static GEOSGeometry *ring_geometry(GEOSContextHandle_t geos,
                                   const struct gap_ring *ring)
{
    GEOSCoordSequence *sequence =
        GEOSCoordSeq_create_r(geos, (unsigned)ring->count + 1, 2);
    for (unsigned i = 0; i <= ring->count; i++)
        GEOSCoordSeq_setXY_r(geos, sequence, i, ring->points[i % ring->count].x,
                             ring->points[i % ring->count].y);
    return GEOSGeom_createLinearRing_r(geos, sequence);
}

/* 3 x 3 areas, some with a hole; each pair of rings is an outline and its hole
 * or nothing. */
static struct gap_input random_areas(struct arena *arena,
                                     struct unit_random *random,
                                     GEOSContextHandle_t geos,
                                     GEOSGeometry **areas)
{
    struct gap_ring *rings = ARENA_ARRAY(arena, struct gap_ring, 18);
    struct gap_input input = {.width = 12, .height = 12, .rings = rings};
    for (int i = 0; i < 9; i++) {
        const double x = 2 + 4 * (i % 3), y = 2 + 4 * (i / 3);
        const struct gap_ring outer =
            random_ring(arena, random, x, y, 1.2, 1.99);
        const struct gap_ring hole = random_ring(arena, random, x, y, 0.1, 0.5);
        const bool with_hole = unit_below(random, 2) == 0;
        GEOSGeometry *holes[] = {with_hole ? ring_geometry(geos, &hole) : NULL};
        areas[i] = GEOSGeom_createPolygon_r(geos, ring_geometry(geos, &outer),
                                            holes, with_hole ? 1 : 0);
        rings[input.ring_count++] = outer;
        if (with_hole)
            rings[input.ring_count++] = hole;
    }
    return input;
}

static double geos_distance(GEOSContextHandle_t geos, GEOSGeometry **areas,
                            struct spot place)
{
    double best =
        fmin(fmin(place.x, 12 - place.x), fmin(place.y, 12 - place.y));
    GEOSGeometry *point = GEOSGeom_createPointFromXY_r(geos, place.x, place.y);
    for (int i = 0; i < 9; i++) {
        double apart = 0;
        assert_int_equal(GEOSDistance_r(geos, areas[i], point, &apart), 1);
        best = fmin(best, apart);
    }
    GEOSGeom_destroy_r(geos, point);
    return best;
}

static void test_random_areas(void **state)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    struct unit_random random = {1414213562};
    for (int i = 0; i < 100; i++) {
        struct arena *arena = arena_create();
        GEOSGeometry *areas[9];
        const struct gap_input input =
            random_areas(arena, &random, geos, areas);
        const struct gap_grid *grid = gap_grid(arena, &input);
        const struct gap gap = gap_largest(arena, grid, 0, 1.0 / 64);
        assert_true(gap.proved && gap.most - gap.least <= 1.0 / 64);
        assert_true(fabs(geos_distance(geos, areas, gap.at) - gap.least / 2) <
                    1e-9);
        for (int place = 0; place < 300; place++) {
            const struct spot at = {any(&random, 12), any(&random, 12)};
            const double truth = geos_distance(geos, areas, at);
            assert_true(fabs(gap_distance(grid, at) - truth) < 1e-9);
            assert_true(truth <= gap.most / 2 + 1e-9);
        }
        for (int area = 0; area < 9; area++)
            GEOSGeom_destroy_r(geos, areas[area]);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* ---- several circles ---- */

static void test_circles(void **state)
{
    struct lines *lines = no_lines(*state);
    add(lines, 7, 0, 7, 10);
    add(lines, 16, 0, 16, 10);
    const struct gap_input input = input_of(lines, 20, 10);
    struct gap gaps[GAP_CIRCLES];
    const size_t count = gap_circles(*state, gap_grid(*state, &input), 3.5,
                                     0.001, GAP_CIRCLES, gaps);
    assert_true(count >= 3);
    assert_true(fabs(gaps[0].least - 9) < 0.01);
    assert_true(fabs(gaps[1].least - 7) < 0.01);
    for (size_t i = 0; i < count; i++) {
        assert_true(gaps[i].least > 3.5);
        assert_true(exhausted(&input, gaps[i].at) >= gaps[i].least / 2 - 1e-9);
        for (size_t k = 0; k < i; k++)
            assert_true(hypot(gaps[i].at.x - gaps[k].at.x,
                              gaps[i].at.y - gaps[k].at.y) >=
                        (gaps[i].least + gaps[k].least) / 2 - 1e-9);
    }
    assert_int_equal(
        gap_circles(*state, gap_grid(*state, &input), 3.5, 0.001, 2, gaps), 2);
    assert_int_equal(gap_circles(*state, gap_grid(*state, &input), 9.1, 0.001,
                                 GAP_CIRCLES, gaps),
                     0);
}

/* 15,000 short lines, as many as a large plan has: by the counted squares, not
 * by a clock (tests/bench/bench_quilting.c measures). */
static void test_many_lines(void **state)
{
    struct lines *lines = no_lines(*state);
    struct unit_random random = {99};
    while (lines->count < 15000) {
        const double x = any(&random, 59), y = any(&random, 71);
        add(lines, x, y, x + any(&random, 1), y + any(&random, 1));
    }
    const struct gap_input input = input_of(lines, 60, 72);
    const struct gap gap = largest(*state, &input);
    assert_true(gap.proved);
    assert_true(fabs(exhausted(&input, gap.at) - gap.least / 2) < 1e-9);
    /* No place of a raster of 2 in is farther. */
    for (int x = 0; x < 240; x += 8)
        for (int y = 0; y < 288; y += 8)
            assert_true(exhausted(&input, (struct spot){x / 4.0, y / 4.0}) <=
                        gap.most / 2 + 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bare_quilt),
        cmocka_unit_test(test_decision),
        cmocka_unit_test(test_open_square),
        cmocka_unit_test(test_triangles),
        cmocka_unit_test(test_filled),
        cmocka_unit_test(test_line_ends_inside),
        cmocka_unit_test(test_odd_lines),
        cmocka_unit_test(test_random_lines),
        cmocka_unit_test(test_random_decisions),
        cmocka_unit_test(test_random_areas),
        cmocka_unit_test(test_circles),
        cmocka_unit_test(test_many_lines),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
