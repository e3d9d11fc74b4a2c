/* The eight symmetries of a square against 2 x 2 matrices of whole numbers.
 * Points are seen from the square's centre, x to the right and y down. */
#include <string.h>

#include "../unit.h"
#include "design.h"

struct matrix {
    int a, b, c, d; /* x' = a x + b y, y' = c x + d y */
};

struct point {
    int x, y;
};

static struct matrix product(struct matrix p, struct matrix q)
{
    return (struct matrix){p.a * q.a + p.b * q.c, p.a * q.b + p.b * q.d,
                           p.c * q.a + p.d * q.c, p.c * q.b + p.d * q.d};
}

static struct point applied(struct matrix m, struct point p)
{
    return (struct point){m.a * p.x + m.b * p.y, m.c * p.x + m.d * p.y};
}

/* Mirrored left to right first, then turned clockwise: with y down, a quarter
 * turn takes right (1, 0) to down (0, 1) and down to left. */
static struct matrix matrix_of(struct orientation o)
{
    const struct matrix mirror = {-1, 0, 0, 1}, turn = {0, -1, 1, 0};
    struct matrix m = {1, 0, 0, 1};
    if (o.mirror)
        m = mirror;
    for (unsigned i = 0; i < o.turn; i++)
        m = product(turn, m);
    return m;
}

static void assert_same(struct matrix p, struct matrix q)
{
    assert_memory_equal(&p, &q, sizeof p);
}

static struct orientation numbered(unsigned i)
{
    return (struct orientation){i % 4, i >= 4};
}

static void test_eight_differ(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 8; i++)
        for (unsigned k = 0; k < i; k++) {
            const struct matrix p = matrix_of(numbered(i));
            const struct matrix q = matrix_of(numbered(k));
            assert_memory_not_equal(&p, &q, sizeof p);
        }
}

static void test_compose(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 8; i++)
        for (unsigned k = 0; k < 8; k++) {
            const struct orientation both =
                orientation_compose(numbered(i), numbered(k));
            assert_in_range(both.turn, 0, 3);
            assert_same(matrix_of(both), product(matrix_of(numbered(i)),
                                                 matrix_of(numbered(k))));
        }
}

static void test_inverse(void **state)
{
    (void)state;
    const struct matrix one = {1, 0, 0, 1};
    for (unsigned i = 0; i < 8; i++) {
        const struct orientation back = orientation_inverse(numbered(i));
        assert_in_range(back.turn, 0, 3);
        const struct matrix m = matrix_of(numbered(i)), n = matrix_of(back);
        assert_same(product(m, n), one);
        assert_same(product(n, m), one);
    }
}

static struct point corner_point(enum corner_place at)
{
    static const struct point points[] = {
        [TOP_LEFT] = {-1, -1},
        [TOP_RIGHT] = {1, -1},
        [BOTTOM_RIGHT] = {1, 1},
        [BOTTOM_LEFT] = {-1, 1}};
    return points[at];
}

static void test_corners(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 8; i++)
        for (unsigned at = 0; at < 4; at++) {
            const struct point wanted =
                applied(matrix_of(numbered(i)), corner_point(at));
            const struct point found =
                corner_point(corner_oriented(at, numbered(i)));
            assert_memory_equal(&found, &wanted, sizeof found);
        }
}

static void test_sides(void **state)
{
    (void)state;
    static const struct point points[] = {[SIDE_TOP] = {0, -1},
                                          [SIDE_RIGHT] = {1, 0},
                                          [SIDE_BOTTOM] = {0, 1},
                                          [SIDE_LEFT] = {-1, 0}};
    for (unsigned i = 0; i < 8; i++)
        for (unsigned side = 0; side < 4; side++) {
            const struct point wanted =
                applied(matrix_of(numbered(i)), points[side]);
            const struct point found = points[side_oriented(side, numbered(i))];
            assert_memory_equal(&found, &wanted, sizeof found);
        }
}

/* A line is the same from both ends: (1, -1) rises, (1, 1) falls. */
static enum line_direction line_of(struct point way)
{
    return way.x * way.y < 0 ? LINE_RISING : LINE_FALLING;
}

static void test_lines(void **state)
{
    (void)state;
    static const struct point ways[] = {[LINE_RISING] = {1, -1},
                                        [LINE_FALLING] = {1, 1}};
    for (unsigned i = 0; i < 8; i++)
        for (unsigned line = 0; line < 2; line++)
            assert_int_equal(
                line_oriented(line, numbered(i)),
                line_of(applied(matrix_of(numbered(i)), ways[line])));
}

/* The line across a corner stands at a right angle to the way there, and it
 * goes along when the corner is turned. */
static void test_corner_lines(void **state)
{
    (void)state;
    for (unsigned at = 0; at < 4; at++) {
        const struct point way = corner_point(at);
        const struct point across = {-way.y, way.x};
        assert_int_equal(corner_line(at), line_of(across));
        for (unsigned i = 0; i < 8; i++)
            assert_int_equal(corner_line(corner_oriented(at, numbered(i))),
                             line_oriented(corner_line(at), numbered(i)));
    }
}

/* The words of the pattern language, in the order of the enumerations. */
static void test_words(void **state)
{
    (void)state;
    assert_string_equal(corner_name(TOP_LEFT), "top-left");
    assert_string_equal(corner_name(TOP_RIGHT), "top-right");
    assert_string_equal(corner_name(BOTTOM_RIGHT), "bottom-right");
    assert_string_equal(corner_name(BOTTOM_LEFT), "bottom-left");
    assert_string_equal(line_name(LINE_RISING), "rising");
    assert_string_equal(line_name(LINE_FALLING), "falling");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_eight_differ), cmocka_unit_test(test_compose),
        cmocka_unit_test(test_inverse),      cmocka_unit_test(test_corners),
        cmocka_unit_test(test_sides),        cmocka_unit_test(test_lines),
        cmocka_unit_test(test_corner_lines), cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
