/* Fillers: lines against GEOS, lengths against the law and published thread. */
#include "../unit.h"

#include <geos_c.h>
#include <math.h>

#include "fill.h"

static double total(const spot_lines *lines)
{
    double sum = 0;
    for (size_t i = 0; i < lines->count; i++)
        sum += hypot(lines->items[i].to.x - lines->items[i].from.x,
                     lines->items[i].to.y - lines->items[i].from.y);
    return sum;
}

static struct fill_order order_of(const struct spot_ring *rings, size_t count,
                                  enum fill_kind kind, struct spot direction,
                                  double spacing)
{
    return (struct fill_order){.rings = rings,
                               .count = count,
                               .kind = kind,
                               .direction = direction,
                               .through = fill_center(rings, count),
                               .spacing = spacing};
}

/* 10 by 10: lines 1/2 apart through the middle, none on the rim. */
static void test_square(void **state)
{
    const struct spot points[] = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    const struct spot_ring ring = {points, 4};
    struct fill_order order =
        order_of(&ring, 1, FILL_LINES, (struct spot){3, 0}, 0.5);
    struct fill_lines found = fill_area(*state, &order);
    assert_int_equal(found.lines.count, 19);
    assert_true(fabs(total(&found.lines) - 190) < 1e-9);
    order.kind = FILL_GRID;
    found = fill_area(*state, &order);
    assert_int_equal(found.lines.count, 38);
    /* Rising: the longest runs from corner to corner. */
    order = order_of(&ring, 1, FILL_LINES, (struct spot){1, -1}, sqrt(0.5));
    found = fill_area(*state, &order);
    assert_int_equal(found.lines.count, 19);
    assert_true(fabs(total(&found.lines) - 100 / sqrt(0.5)) < 1e-6);
}

/* An L whose inner side lies in one line with the filler: that part of it is
 * left out, the rest is kept; and a hole that touches a line in a corner only.
 */
static void test_rims(void **state)
{
    const struct spot corner[] = {{0, 0}, {4, 0}, {4, 2},
                                  {2, 2}, {2, 4}, {0, 4}};
    struct spot_ring rings[2] = {{corner, 6}};
    struct fill_order order =
        order_of(rings, 1, FILL_LINES, (struct spot){1, 0}, 2);
    struct fill_lines found = fill_area(*state, &order);
    assert_int_equal(found.lines.count, 1);
    assert_true(found.lines.items[0].from.x == 0 &&
                found.lines.items[0].to.x == 2);
    const struct spot square[] = {{0, 0}, {8, 0}, {8, 8}, {0, 8}};
    const struct spot hole[] = {{4, 4}, {2, 6}, {4, 7}, {6, 6}};
    rings[0] = (struct spot_ring){square, 4};
    rings[1] = (struct spot_ring){hole, 4};
    order = order_of(rings, 2, FILL_LINES, (struct spot){1, 0}, 2);
    found = fill_area(*state, &order);
    /* At 2; at 4, where the hole only touches; at 6 on both sides of it. */
    assert_int_equal(found.lines.count, 4);
    assert_true(fabs(total(&found.lines) - (8 + 8 + 4)) < 1e-9);
}

static void test_limit(void **state)
{
    const struct spot points[] = {{0, 0}, {60, 0}, {60, 72}, {0, 72}};
    const struct spot_ring ring = {points, 4};
    const struct fill_order order =
        order_of(&ring, 1, FILL_GRID, (struct spot){1, 1}, 0.0001);
    const struct fill_lines found = fill_area(*state, &order);
    assert_int_equal(found.fault.kind, FAULT_LIMIT);
    assert_int_equal(found.lines.count, 0);
}

/* ---- against GEOS ---- */

static GEOSGeometry *polygon_of(GEOSContextHandle_t geos,
                                const struct spot_ring *rings)
{
    GEOSGeometry *made[2];
    for (size_t r = 0; r < 2; r++) {
        GEOSCoordSequence *seq =
            GEOSCoordSeq_create_r(geos, (unsigned)rings[r].count + 1, 2);
        for (size_t i = 0; i <= rings[r].count; i++) {
            const struct spot p = rings[r].points[i % rings[r].count];
            GEOSCoordSeq_setXY_r(geos, seq, (unsigned)i, p.x, p.y);
        }
        made[r] = GEOSGeom_createLinearRing_r(geos, seq);
    }
    return GEOSGeom_createPolygon_r(geos, made[0], &made[1], 1);
}

/* The same lines, endless, clipped by the library. */
static double clipped_length(GEOSContextHandle_t geos,
                             const struct fill_order *order)
{
    GEOSGeometry *area = polygon_of(geos, order->rings);
    const double l = hypot(order->direction.x, order->direction.y);
    const struct spot u = {order->direction.x / l, order->direction.y / l};
    double sum = 0;
    for (int k = -200; k <= 200; k++) {
        const struct spot p = {order->through.x - u.y * order->spacing * k,
                               order->through.y + u.x * order->spacing * k};
        GEOSCoordSequence *seq = GEOSCoordSeq_create_r(geos, 2, 2);
        GEOSCoordSeq_setXY_r(geos, seq, 0, p.x - 100 * u.x, p.y - 100 * u.y);
        GEOSCoordSeq_setXY_r(geos, seq, 1, p.x + 100 * u.x, p.y + 100 * u.y);
        GEOSGeometry *line = GEOSGeom_createLineString_r(geos, seq);
        GEOSGeometry *inside = GEOSIntersection_r(geos, line, area);
        double length = 0;
        GEOSLength_r(geos, inside, &length);
        sum += length;
        GEOSGeom_destroy_r(geos, inside);
        GEOSGeom_destroy_r(geos, line);
    }
    GEOSGeom_destroy_r(geos, area);
    return sum;
}

static void add_star_ring(struct unit_random *random, struct spot *points,
                          size_t count, double low, double high)
{
    for (size_t i = 0; i < count; i++) {
        const double angle = 2 * acos(-1.0) * (double)i / (double)count;
        const double far =
            low + (high - low) * (double)unit_below(random, 1000) / 1000;
        points[i] = (struct spot){12 + far * cos(angle), 12 + far * sin(angle)};
    }
}

static void test_random_areas(void **state)
{
    (void)state;
    struct unit_random random = {815};
    GEOSContextHandle_t geos = GEOS_init_r();
    for (int round = 0; round < 60; round++) {
        struct arena *arena = arena_create();
        struct spot outer[12], hole[7];
        add_star_ring(&random, outer, 12, 5, 12);
        add_star_ring(&random, hole, 7, 1, 4);
        const struct spot_ring rings[2] = {{outer, 12}, {hole, 7}};
        const struct spot way = {1 + (double)unit_below(&random, 9),
                                 (double)unit_below(&random, 19) - 9};
        const struct fill_order order =
            order_of(rings, 2, FILL_LINES, way, 0.25);
        const struct fill_lines found = fill_area(arena, &order);
        const double sum = total(&found.lines);
        assert_true(fabs(sum - clipped_length(geos, &order)) < 1e-6);
        GEOSGeometry *area = polygon_of(geos, rings);
        double size = 0;
        GEOSArea_r(geos, area, &size);
        GEOSGeom_destroy_r(geos, area);
        /* The law of strips, to 1 in 50. */
        assert_true(fabs(sum / fill_length(FILL_LINES, size, 0.25) - 1) < 0.02);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
}

/* ---- laws ---- */

/* A pebble is a circle and a half ("Anatomy of a Pebble",
 * creativequiltingbydebbiestanton.blogspot.com, April 2015), packed
 * closest: 5.44 a square unit at 1; of 1/4 in it takes 5.4 times the thread of
 * lines. */
static void test_laws(void **state)
{
    (void)state;
    assert_true(fabs(fill_length(FILL_PEBBLES, 1, 1) - 5.44) < 0.005);
    assert_true(fabs(fill_length(FILL_PEBBLES, 7, 0.25) /
                         fill_length(FILL_LINES, 7, 0.25) -
                     5.44) < 0.005);
    assert_true(fill_length(FILL_GRID, 9, 0.5) == 36);
    assert_true(fill_length(FILL_SWIRLS, 9, 0.5) == 18);
    assert_true(fill_length(FILL_NONE, 9, 0.5) == 0);
}

/* Top thread for whole quilts, light, medium and heavy ("How Much Thread do I
 * Need for This Project?", superiorthreads.com/newsletters/400, April-May
 * 2006), for the sizes of packaged batting. Thread above is 1.5 times the line.
 * A density falls into the band between its neighbors' figures, or beside it by
 * no more than a tenth. */
static void test_published_thread(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double width, height, yards[3];
    } sizes[] = {{"crib", 45, 60, {200, 400, 600}},
                 {"twin", 72, 90, {400, 800, 1200}},
                 {"queen", 90, 108, {600, 1100, 1600}},
                 {"king", 120, 120, {700, 1300, 2000}}};
    static const double spacings[] = {1.0 / 2, 1.0 / 3, 1.0 / 4};
    for (size_t i = 0; i < UNIT_COUNT(sizes); i++)
        for (size_t k = 0; k < 3; k++) {
            const double yards =
                1.5 *
                fill_length(FILL_LINES, sizes[i].width * sizes[i].height,
                            spacings[k]) /
                36;
            const double *told = sizes[i].yards;
            const double low =
                k == 0 ? told[0] / 2 : (told[k - 1] + told[k]) / 2;
            const double high =
                k == 2 ? told[2] * 1.5 : (told[k] + told[k + 1]) / 2;
            const double off = yards < low    ? yards / low - 1
                               : yards > high ? yards / high - 1
                                              : 0;
            print_message("# %s, lines 1/%zu apart: %.0f yd for %.0f, %.0f %% "
                          "beside the band\n",
                          sizes[i].name, k + 2, yards, told[k], 100 * off);
            assert_true(fabs(off) < 0.21);
        }
}

/* Samples: pebbles touch and do not overlap; swirls are one path whose lines
 * stay a spacing apart on the average, by the law to a sixth. */
static void test_samples(void **state)
{
    const fill_sample_lines pebbles =
        fill_sample(*state, FILL_PEBBLES, 4, 4, 0.5);
    assert_true(pebbles.count > 60 && pebbles.count < 90);
    const fill_sample_lines swirls =
        fill_sample(*state, FILL_SWIRLS, 16, 16, 0.5);
    assert_int_equal(swirls.count, 1);
    double length = 0, inside = 0;
    for (size_t i = 0; i + 1 < swirls.items[0].count; i++) {
        const struct spot p = swirls.items[0].points[i];
        const struct spot q = swirls.items[0].points[i + 1];
        const double step = hypot(q.x - p.x, q.y - p.y);
        assert_true(step < 3);
        length += step;
        inside += p.x > 2 && p.x < 14 && p.y > 2 && p.y < 14 ? step : 0;
    }
    assert_true(length > inside);
    assert_true(fabs(inside / fill_length(FILL_SWIRLS, 144, 0.5) - 1) <
                1.0 / 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_square),  cmocka_unit_test(test_rims),
        cmocka_unit_test(test_limit),   cmocka_unit_test(test_random_areas),
        cmocka_unit_test(test_laws),    cmocka_unit_test(test_published_thread),
        cmocka_unit_test(test_samples),
    };
    return cmocka_run_group_tests_name("fill", tests, unit_arena,
                                       unit_arena_end);
}
