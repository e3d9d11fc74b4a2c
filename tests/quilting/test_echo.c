/* Echoes: known shapes, and random ones, concave and with holes, judged by
 * plain distances to the sides of the shape, with no geometry library. */
#include "stars.h"

#include <math.h>
#include <stdlib.h>

#include "echo.h"

/* ---- plain distances ---- */

static double distance_to(struct spot a, struct spot b, struct spot at)
{
    const double x = b.x - a.x, y = b.y - a.y;
    const double along =
        ((at.x - a.x) * x + (at.y - a.y) * y) / (x * x + y * y);
    const double share = fmin(fmax(along, 0), 1);
    return hypot(a.x + share * x - at.x, a.y + share * y - at.y);
}

static double distance_to_rings(spot_rings rings, struct spot at)
{
    double least = HUGE_VAL;
    for (size_t r = 0; r < rings.count; r++)
        for (size_t i = 0; i < rings.items[r].count; i++)
            least = fmin(
                least,
                distance_to(
                    rings.items[r].points[i],
                    rings.items[r].points[(i + 1) % rings.items[r].count], at));
    return least;
}

/* How far the stretch lies from the nearest side that runs as it does. */
static double off_parallel(spot_rings rings, struct spot p, struct spot q,
                           double wanted)
{
    double least = HUGE_VAL;
    const double length = hypot(q.x - p.x, q.y - p.y);
    for (size_t r = 0; r < rings.count; r++)
        for (size_t i = 0; i < rings.items[r].count; i++) {
            const struct spot a = rings.items[r].points[i];
            const struct spot b =
                rings.items[r].points[(i + 1) % rings.items[r].count];
            const double x = b.x - a.x, y = b.y - a.y, side = hypot(x, y);
            const double from = fabs(x * (p.y - a.y) - y * (p.x - a.x)) / side;
            const double to = fabs(x * (q.y - a.y) - y * (q.x - a.x)) / side;
            if (length > 1e-5 || fabs(from - to) < 1e-6)
                least =
                    fmin(least, fmax(fabs(from - wanted), fabs(to - wanted)));
        }
    return least;
}

static double distance_to_echo(const struct echoes *e, size_t nth,
                               enum echo_side side, struct spot at)
{
    double least = HUGE_VAL;
    for (size_t k = 0; k < e->count; k++) {
        const struct echo_line *line = &e->items[k];
        if (line->number != nth || line->side != side)
            continue;
        for (size_t i = 0; i + !line->closed < line->count; i++)
            least = fmin(least,
                         distance_to(line->points[i],
                                     line->points[(i + 1) % line->count], at));
    }
    return least;
}

/* ---- what must hold ---- */

/* Each stretch runs beside a side at its distance, but for those that cut off a
 * very sharp point, some 20 times as far away; no point is nearer. */
static void assert_spacing(spot_rings rings, const struct echoes *e,
                           double spacing)
{
    for (size_t k = 0; k < e->count; k++) {
        const struct echo_line *line = &e->items[k];
        const double wanted = (double)line->number * spacing;
        assert_true(line->closed && line->count >= 3);
        for (size_t i = 0; i < line->count; i++) {
            const struct spot p = line->points[i];
            const struct spot q = line->points[(i + 1) % line->count];
            const struct spot middle = {(p.x + q.x) / 2, (p.y + q.y) / 2};
            assert_true(off_parallel(rings, p, q, wanted) < 1e-6 ||
                        distance_to_rings(rings, middle) > 15 * wanted);
            assert_true(distance_to_rings(rings, p) > wanted - 1e-6);
            assert_true(distance_to_rings(rings, middle) > wanted - 1e-6);
            assert_int_equal(spot_inside(rings.items, rings.count, middle),
                             line->side == ECHO_INSIDE);
        }
    }
}

/* The kite that a pointed corner at v adds, between its two sides: does the
 * point lie in it? `hand` is 1 for the right hand of the way, -1 for the left.
 */
static bool in_kite(struct spot before, struct spot v, struct spot after,
                    double hand, double far, struct spot at)
{
    const double l1 = hypot(v.x - before.x, v.y - before.y);
    const double l2 = hypot(after.x - v.x, after.y - v.y);
    const struct spot u = {(v.x - before.x) / l1, (v.y - before.y) / l1};
    const struct spot w = {(after.x - v.x) / l2, (after.y - v.y) / l2};
    if ((u.x * w.y - u.y * w.x) * hand > 0)
        return false; /* the sides close in on this hand */
    const struct spot to = {at.x - v.x, at.y - v.y};
    const double from_first = (u.x * to.y - u.y * to.x) * hand;
    const double from_second = (w.x * to.y - w.y * to.x) * hand;
    return u.x * to.x + u.y * to.y > -1e-9 && w.x * to.x + w.y * to.y < 1e-9 &&
           from_first < far + 1e-9 && from_second < far + 1e-9;
}

static bool in_any_kite(spot_rings rings, double hand, double far,
                        struct spot at)
{
    for (size_t r = 0; r < rings.count; r++) {
        const struct spot_ring ring = rings.items[r];
        for (size_t i = 0; i < ring.count; i++)
            if (in_kite(ring.points[(i + ring.count - 1) % ring.count],
                        ring.points[i], ring.points[(i + 1) % ring.count], hand,
                        far, at))
                return true;
    }
    return false;
}

static struct spot laid_off(struct spot a, struct spot b, double share,
                            double far)
{
    const double length = hypot(b.x - a.x, b.y - a.y);
    return (struct spot){a.x + share * (b.x - a.x) - far * (b.y - a.y) / length,
                         a.y + share * (b.y - a.y) +
                             far * (b.x - a.x) / length};
}

/* Points laid off from the sides: where none lies nearer, and no pointed corner
 * covers them, the echo runs through them. A hair further on none must lie
 * nearer either: halfway between sides that run alike an echo has closed up.
 * ensures: how many were asked. */
static size_t assert_none_lost(spot_rings rings, const struct echoes *e,
                               size_t nth, double spacing, enum echo_side side)
{
    const double far = (double)nth * spacing, hair = 1e-7;
    const double hand = side == ECHO_INSIDE ? 1 : -1;
    size_t asked = 0;
    for (size_t r = 0; r < rings.count; r++)
        for (size_t i = 0; i < rings.items[r].count; i++) {
            const struct spot a = rings.items[r].points[i];
            const struct spot b =
                rings.items[r].points[(i + 1) % rings.items[r].count];
            for (double share = 0.03; share < 1; share += 0.11) {
                const struct spot at = laid_off(a, b, share, hand * far);
                const struct spot on =
                    laid_off(a, b, share, hand * (far + hair));
                if (distance_to_rings(rings, at) < far - 1e-9 ||
                    distance_to_rings(rings, on) < far + hair / 2 ||
                    in_any_kite(rings, hand, far, at))
                    continue;
                assert_true(distance_to_echo(e, nth, side, at) < 1e-6);
                asked++;
            }
        }
    return asked;
}

/* ---- shapes ---- */

static struct shape shape_of(struct arena *arena, const int64_t (*points)[2],
                             size_t count, int64_t parts)
{
    struct vertex *v = ARENA_ARRAY(arena, struct vertex, count);
    struct shape_ring *ring = ARENA_NEW(arena, struct shape_ring);
    for (size_t i = 0; i < count; i++)
        v[i] = at(points[i][0], parts, points[i][1], parts);
    *ring = (struct shape_ring){v, count};
    return (struct shape){.rings = ring, .count = 1};
}

static struct echo_order order_of(const struct shape *shape, int64_t parts,
                                  enum echo_side side, size_t times)
{
    return (struct echo_order){.shape = shape,
                               .side = side,
                               .first = rational_make(1, parts),
                               .spacing = rational_make(1, parts),
                               .times = times};
}

/* Its inscribed circle has a radius of 12 (1 - root 2 / 2) = 3.5147 (derived):
 * 14 echoes at 1/4, of which the last holds 0.0013 square units, no 15th. */
static void test_half_square(void **state)
{
    const int64_t points[3][2] = {{0, 0}, {12, 12}, {0, 12}};
    const struct shape shape = shape_of(*state, points, 3, 1);
    struct echo_order order = order_of(&shape, 4, ECHO_INSIDE, 0);
    struct echoes e = echo_shape(*state, &order);
    assert_int_equal(e.fault.kind, FAULT_NONE);
    assert_int_equal(e.fit, 14);
    assert_int_equal(e.count, 14);
    const struct echo_line *last = &e.items[13];
    double area = 0;
    for (size_t i = 0; i < last->count; i++) {
        const struct spot p = last->points[i];
        const struct spot q = last->points[(i + 1) % last->count];
        area += (p.x * q.y - p.y * q.x) / 2;
    }
    assert_true(fabs(fabs(area) - 0.0013) < 0.0001);
    order.times = 15;
    assert_int_equal(echo_shape(*state, &order).fit, 14);
    order.times = 14;
    assert_int_equal(echo_shape(*state, &order).fit, 14);
}

/* A square of 3 √2 whose right half is a roof: at 1 1/2 its top and bottom sides
 * are gone, each in the point where those beside it meet. What is left of its
 * first echoes has five corners and three, turned by a quarter as well, and no
 * stump of a rounding. */
static void test_sides_that_close_up(void **state)
{
    const number half = rational_roots(number_whole(0), rational_make(3, 2),
                                       number_whole(0), number_whole(0));
    const int64_t house[5][2] = {{0, 0}, {1, 0}, {2, 1}, {1, 2}, {0, 2}};
    for (int turned = 0; turned < 2; turned++) {
        struct shape shape = shape_of(*state, house, 5, 1);
        struct vertex *points = (struct vertex *)shape.rings[0].points;
        for (int i = 0; i < 5; i++) {
            const number x = number_mul(half, points[i].x);
            const number y = number_mul(half, points[i].y);
            points[i] = turned == 0 ? (struct vertex){x, y}
                                    : (struct vertex){number_negative(y), x};
        }
        struct echo_order order = order_of(&shape, 1, ECHO_INSIDE, 2);
        order.first = order.spacing = rational_make(3, 4);
        const struct echoes e = echo_shape(*state, &order);
        assert_int_equal(e.count, 2);
        assert_int_equal(e.items[0].count, 5);
        assert_int_equal(e.items[1].count, 3);
        assert_spacing(shape_spots(*state, &shape), &e, 0.75);
    }
}

/* 6 by 8 with a waist of 0.6: two parts from the first echo at 1/4 on, none is
 * left at the seventh. */
static void test_hourglass(void **state)
{
    const int64_t points[6][2] = {{0, 0},   {60, 0}, {33, 40},
                                  {60, 80}, {0, 80}, {27, 40}};
    const struct shape shape = shape_of(*state, points, 6, 10);
    const struct echo_order order = order_of(&shape, 4, ECHO_INSIDE, 0);
    const struct echoes e = echo_shape(*state, &order);
    assert_int_equal(e.fit, 6);
    assert_int_equal(e.count, 12);
    assert_spacing(shape_spots(*state, &shape), &e, 0.25);
}

/* Outside of a square of 10, pointed: 48 around at 1; rounded: 40 and a circle
 * of chords. */
static void test_corners(void **state)
{
    const int64_t points[4][2] = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    const struct shape shape = shape_of(*state, points, 4, 1);
    struct echo_order order = order_of(&shape, 1, ECHO_OUTSIDE, 1);
    for (int rounded = 0; rounded < 2; rounded++) {
        order.rounded = rounded;
        const struct echoes e = echo_shape(*state, &order);
        assert_int_equal(e.count, 1);
        double around = 0;
        for (size_t i = 0; i < e.items[0].count; i++) {
            const struct spot p = e.items[0].points[i];
            const struct spot q = e.items[0].points[(i + 1) % e.items[0].count];
            around += hypot(q.x - p.x, q.y - p.y);
            const struct spot middle = {(p.x + q.x) / 2, (p.y + q.y) / 2};
            if (rounded)
                assert_true(distance_to_rings(shape_spots(*state, &shape),
                                              middle) > 1 - 1.0 / 2000);
        }
        assert_true(fabs(around - (rounded ? 40 + 2 * acos(-1.0) : 48)) <
                    (rounded ? 0.01 : 1e-9));
    }
}

/* Around a star, on the night alone, or along its rim: a line whose ends lie on
 * other cloth is clipped. */
static void test_ground(void **state)
{
    const struct ground *g = ground_of(*state, star_cloth(*state, 3, 3));
    const struct shapes stars = find_shapes(*state, g, g->extent, FLAME);
    const struct shapes around = shape_surroundings(*state, g, &stars.items[2]);
    assert_int_equal(around.count, 1);
    struct echo_order order = order_of(&stars.items[2], 2, ECHO_OUTSIDE, 12);
    order.ground = &around.items[0];
    const struct echoes e = echo_shape(*state, &order);
    assert_int_equal(e.fault.kind, FAULT_NONE);
    const spot_rings rim = shape_spots(*state, &around.items[0]);
    size_t open = 0;
    for (size_t k = 0; k < e.count; k++) {
        open += !e.items[k].closed;
        for (size_t i = 0; i + 1 < e.items[k].count; i++) {
            const struct spot p = e.items[k].points[i];
            const struct spot q = e.items[k].points[i + 1];
            const struct spot middle = {(p.x + q.x) / 2, (p.y + q.y) / 2};
            assert_true(ground_fabric(g, middle) == NIGHT ||
                        distance_to_rings(rim, middle) < 1e-9);
        }
    }
    /* The first runs free around the star. */
    assert_true(e.items[0].closed && e.items[1].number > 1 && open > 0);
    /* Without an end: until no night is left, which is the rim's corner. */
    order.times = 0;
    const struct echoes all = echo_shape(*state, &order);
    assert_int_equal(all.fault.kind, FAULT_NONE);
    assert_true(all.fit >= 12 && all.fit < 60);
}

/* What lies out of reach changes nothing. */
static void test_reach(void **state)
{
    const struct ground *g = ground_of(*state, star_cloth(*state, 7, 7));
    const struct shapes stars = find_shapes(*state, g, g->extent, FLAME);
    for (size_t i = 0; i < stars.count; i++) {
        struct echo_order order =
            order_of(&stars.items[i], 2, ECHO_OUTSIDE, 1 + i % 8);
        /* Points of 45 degrees reach 2.61 times as far. */
        assert_true(fabs(echo_reach(&order) / (0.5 * (double)(1 + i % 8)) -
                         1 / sin(acos(-1.0) / 8)) < 1e-9);
        const struct shapes all =
            shape_surroundings(*state, g, &stars.items[i]);
        const struct shapes near = shape_surroundings_within(
            *state, g, &stars.items[i], echo_reach(&order));
        assert_true(near.items[0].area < all.items[0].area);
        double lengths[2] = {0, 0};
        for (size_t k = 0; k < 2; k++) {
            order.ground = k == 0 ? &all.items[0] : &near.items[0];
            const struct echoes e = echo_shape(*state, &order);
            for (size_t n = 0; n < e.count; n++)
                for (size_t p = 0; p + !e.items[n].closed < e.items[n].count;
                     p++) {
                    const struct spot a = e.items[n].points[p];
                    const struct spot b =
                        e.items[n].points[(p + 1) % e.items[n].count];
                    lengths[k] += hypot(b.x - a.x, b.y - a.y);
                }
        }
        assert_true(lengths[0] > 10 && fabs(lengths[0] - lengths[1]) < 1e-6);
    }
    const struct echo_order endless =
        order_of(&stars.items[0], 2, ECHO_OUTSIDE, 0);
    assert_true(echo_reach(&endless) > 1e300);
}

static void test_around_line(void **state)
{
    const struct segment line = {at(2, 1, 3, 1), at(8, 1, 3, 1)};
    const struct echo_order order = {.lines = &line,
                                     .line_count = 1,
                                     .side = ECHO_BOTH,
                                     .first = rational_make(1, 3),
                                     .spacing = rational_make(1, 2),
                                     .times = 2};
    const struct echoes e = echo_shape(*state, &order);
    assert_int_equal(e.count, 2);
    for (size_t i = 0; i < e.items[1].count; i++)
        assert_true(fabs(fabs(e.items[1].points[i].y - 3) - 5.0 / 6) < 1e-9);
}

static void test_limits(void **state)
{
    const int64_t points[3][2] = {{0, 0}, {12, 12}, {0, 12}};
    const struct shape shape = shape_of(*state, points, 3, 1);
    struct echo_order order = order_of(&shape, 10000, ECHO_INSIDE, 0);
    assert_int_equal(echo_shape(*state, &order).fault.kind, FAULT_LIMIT);
    order.times = 1000;
    assert_int_equal(echo_shape(*state, &order).fault.kind, FAULT_LIMIT);
    /* A large shape with many corners, too, before much is made. */
    const struct ground *g = ground_of(*state, star_cloth(*state, 9, 9));
    const struct shapes night = find_shapes(*state, g, g->extent, NIGHT);
    for (size_t i = 0; i < night.count; i++) {
        order = order_of(&night.items[i], 10000, ECHO_INSIDE, 0);
        const struct echoes e = echo_shape(*state, &order);
        assert_int_equal(e.fault.kind, FAULT_LIMIT);
        assert_int_equal(e.count, 0);
    }
    order = order_of(&shape, 4, ECHO_OUTSIDE, 0);
    assert_int_equal(echo_shape(*state, &order).fault.kind, FAULT_LIMIT);
}

/* ---- random shapes ---- */

/* Cells with a diagonal, each half of a fabric by chance, on a grid of thirds,
 * sevenths or eighths; corners are moved to other points of a finer grid, so
 * that sides run every way. */
static struct shapes random_shapes(struct arena *arena,
                                   struct unit_random *random)
{
    static const int64_t grids[] = {3, 7, 8};
    const int64_t grid = grids[unit_below(random, 3)];
    const int64_t size = 3 + unit_below(random, 3);
    struct vertex corners[6][6];
    for (int64_t x = 0; x <= size; x++)
        for (int64_t y = 0; y <= size; y++) {
            const bool rim = x == 0 || y == 0 || x == size || y == size;
            const int64_t dx = rim ? 0 : unit_below(random, 9) - 4;
            const int64_t dy = rim ? 0 : unit_below(random, 9) - 4;
            corners[x][y] = at(12 * (13 * x + dx), grid * 13,
                               12 * (13 * y + dy), grid * 13);
        }
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = cloth->height = rational_make(12 * size, grid);
    for (int64_t x = 0; x < size; x++)
        for (int64_t y = 0; y < size; y++) {
            const struct vertex c[4] = {corners[x][y], corners[x + 1][y],
                                        corners[x + 1][y + 1],
                                        corners[x][y + 1]};
            for (size_t half = 0; half < 2; half++) {
                struct vertex *v = ARENA_ARRAY(arena, struct vertex, 3);
                v[0] = c[0];
                v[1] = c[1 + half];
                v[2] = c[2 + half];
                *LIST_ADD(arena, &cloth->faces) = (struct face){
                    .fabric = unit_below(random, 3) < 2 ? FLAME : NIGHT,
                    .points = v,
                    .count = 3};
                for (size_t i = 0; i < 3; i++)
                    *LIST_ADD(arena, &cloth->seams) =
                        (struct seam){.from = v[i], .to = v[(i + 1) % 3]};
            }
        }
    const struct ground *g = ground_of(arena, cloth);
    return find_shapes(arena, g, g->extent, FLAME);
}

/* Rings that touch themselves in a point make corners of a hair's breadth
 * there, which belong to both parts; they are left out of the sample. */
static bool touches_itself(const struct shape *shape)
{
    for (size_t r = 0; r < shape->count; r++)
        for (size_t i = 0; i < shape->rings[r].count; i++)
            for (size_t s = r; s < shape->count; s++)
                for (size_t k = s == r ? i + 1 : 0; k < shape->rings[s].count;
                     k++)
                    if (vertex_equal(shape->rings[r].points[i],
                                     shape->rings[s].points[k]))
                        return true;
    return false;
}

static size_t wanted_shapes(void)
{
    const char *text = getenv("SEAMWRIGHT_SHAPES");
    return text == NULL ? 200 : (size_t)atoi(text);
}

static void test_random_shapes(void **state)
{
    (void)state;
    struct unit_random random = {4711};
    size_t shapes = 0, holes = 0, touching = 0, asked = 0, lines = 0;
    while (shapes < wanted_shapes()) {
        struct arena *arena = arena_create();
        const struct shapes found = random_shapes(arena, &random);
        for (size_t i = 0; i < found.count; i++) {
            const struct shape *shape = &found.items[i];
            const spot_rings rings = shape_spots(arena, shape);
            const struct echo_order order = order_of(shape, 4, ECHO_BOTH, 4);
            const struct echoes e = echo_shape(arena, &order);
            assert_int_equal(e.fault.kind, FAULT_NONE);
            assert_spacing(rings, &e, 0.25);
            lines += e.count;
            shapes++;
            holes += shape->count > 1;
            touching += touches_itself(shape);
            for (size_t nth = 1; nth <= 4; nth++) {
                asked += assert_none_lost(rings, &e, nth, 0.25, ECHO_INSIDE);
                asked += assert_none_lost(rings, &e, nth, 0.25, ECHO_OUTSIDE);
            }
        }
        arena_destroy(arena);
    }
    print_message("# %zu shapes, %zu with holes, %zu that touch themselves, "
                  "%zu lines, %zu places asked\n",
                  shapes, holes, touching, lines, asked);
    assert_true(holes > 0 && touching > 0 && lines > 4 * shapes);
    assert_true(asked > 100 * shapes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_half_square),
        cmocka_unit_test(test_sides_that_close_up),
        cmocka_unit_test(test_hourglass),
        cmocka_unit_test(test_corners),
        cmocka_unit_test(test_ground),
        cmocka_unit_test(test_reach),
        cmocka_unit_test(test_around_line),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_random_shapes),
    };
    return cmocka_run_group_tests_name("echo", tests, unit_arena,
                                       unit_arena_end);
}
