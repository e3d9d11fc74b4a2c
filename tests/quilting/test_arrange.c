/* The exact arrangement: figures of a known top, and random tops against a
 * second method: GEOS nodes and polygonizes the same lines in whole numbers.
 * Areas are summed exactly, modulo two primes. */
#include "noded.h"

__extension__ typedef unsigned __int128 wide;

/* ---- sums of fractions modulo a prime: too large for 64 bits ---- */

static uint64_t times(uint64_t a, uint64_t b, uint64_t prime)
{
    return (uint64_t)((wide)a * b % prime);
}

static uint64_t residue(struct rational value, uint64_t prime)
{
    uint64_t inverse = 1, base = (uint64_t)value.den % prime;
    for (uint64_t power = prime - 2; power > 0; power >>= 1) {
        if (power & 1)
            inverse = times(inverse, base, prime);
        base = times(base, base, prime);
    }
    const uint64_t size =
        (uint64_t)(value.num < 0 ? -value.num : value.num) % prime;
    const uint64_t part = times(size, inverse, prime);
    return value.num < 0 && part > 0 ? prime - part : part;
}

/* Twice the area of all faces, modulo the prime. */
static uint64_t area_residue(const struct arrangement *a, uint64_t prime)
{
    wide sum = 0;
    for (size_t f = 0; f < a->face_count; f++)
        for (size_t r = 0; r < a->faces[f].count; r++) {
            const struct arranged_ring ring = a->faces[f].rings[r];
            for (size_t i = 0; i < ring.count; i++) {
                const struct vertex p = a->points[ring.points[i]];
                const struct vertex q =
                    a->points[ring.points[(i + 1) % ring.count]];
                sum += times(residue(p.x, prime), residue(q.y, prime), prime);
                sum += prime -
                       times(residue(p.y, prime), residue(q.x, prime), prime);
            }
        }
    return (uint64_t)(sum % prime);
}

static void assert_area(const struct arrangement *a, int64_t width,
                        int64_t height)
{
    static const uint64_t primes[] = {2305843009213693951u, 2147483647u};
    for (size_t i = 0; i < UNIT_COUNT(primes); i++)
        assert_int_equal(area_residue(a, primes[i]),
                         (uint64_t)(2 * width * height) % primes[i]);
}

static void assert_figures(const struct arrangement *a, size_t points,
                           size_t pieces, size_t faces)
{
    assert_int_equal(a->fault.kind, FAULT_NONE);
    assert_int_equal(a->point_count, points);
    assert_int_equal(a->piece_count, pieces);
    assert_int_equal(a->face_count, faces);
    assert_area(a, 60, 72);
    assert_rings(a);
}

/* Counted by two independent programs before this one was written: an exact one
 * with all pairs, and GEOS in whole numbers. */
static void test_known_top(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_top(arena, &list);
    assert_int_equal(list.count, 2066 + 0);
    assert_figures(arrange_segments(arena, list.items, list.count), 942, 2426,
                   1485);
    add_to_plain(arena, &list, add_extended);
    assert_figures(arrange_segments(arena, list.items, list.count), 2283, 6692,
                   4410);
    add_to_plain(arena, &list, add_corner_lines);
    const struct arrangement *a =
        arrange_segments(arena, list.items, list.count);
    assert_figures(a, 15873, 35492, 19620);
    assert_sources(a, &list);
}

static void test_random_tops(void **state)
{
    (void)state;
    struct unit_random random = {20260930};
    size_t holes = 0, loose = 0;
    for (size_t i = 0; i < wanted_tops(); i++) {
        struct arena *arena = arena_create();
        segments list = {0};
        const struct extent extent = add_random_top(arena, &list, &random);
        const struct arrangement *a =
            arrange_segments(arena, list.items, list.count);
        assert_int_equal(a->fault.kind, FAULT_NONE);
        double area;
        assert_int_equal(a->face_count,
                         geos_faces(&list, 168, 1.0 / 1024, &area));
        assert_area(a, extent.high.x.num, extent.high.y.num);
        assert_true(fabs(area - (double)(extent.high.x.num *
                                         extent.high.y.num)) < 1e-6);
        assert_rings(a);
        assert_sources(a, &list);
        for (size_t f = 0; f < a->face_count; f++)
            holes += a->faces[f].count - 1;
        for (size_t p = 0; p < a->piece_count; p++)
            loose += a->pieces[p].right == a->pieces[p].left;
        arena_destroy(arena);
    }
    /* Else the sample would not ask what it is for. */
    assert_true(holes > wanted_tops() / 10 && loose > wanted_tops());
}

/* ---- by hand ---- */

static void add_rectangle(struct arena *arena, segments *list, int64_t left,
                          int64_t top, int64_t right, int64_t bottom)
{
    struct segment sides[4];
    extent_sides(level_extent(at(left, 1, top, 1), at(right, 1, bottom, 1)),
                 sides);
    for (size_t i = 0; i < 4; i++)
        *LIST_ADD(arena, list) = sides[i];
}

/* A square in a square in a square, a bridge from the second to the rim, a line
 * that floats in the innermost one: holes, a bridge, a part of its own. */
static void test_nested(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_rectangle(arena, &list, 0, 0, 10, 10);
    add_rectangle(arena, &list, 2, 2, 8, 8);
    add_rectangle(arena, &list, 3, 3, 7, 7);
    add_segment(arena, &list, at(0, 1, 5, 1), at(2, 1, 5, 1));
    add_segment(arena, &list, at(4, 1, 4, 1), at(5, 1, 6, 1));
    const struct arrangement *a =
        arrange_segments(arena, list.items, list.count);
    assert_int_equal(a->face_count, 3);
    assert_rings(a);
    double areas = 0;
    for (size_t f = 0; f < 3; f++) {
        const size_t rings = a->faces[f].count;
        const double area = a->faces[f].area;
        areas += area;
        assert_true((rings == 1 && area == 16) || (rings == 2 && area == 20) ||
                    (rings == 2 && area == 64));
    }
    assert_true(areas == 100);
    for (size_t p = 0; p < a->piece_count; p++)
        for (size_t s = a->pieces[p].first; s < a->pieces[p].last; s++)
            if (a->sources[s] >= 12) {
                assert_int_equal(a->pieces[p].right, a->pieces[p].left);
                assert_true(a->faces[a->pieces[p].right].area ==
                            (a->sources[s] == 12 ? 64 : 16));
            }
}

/* Segments of one line that overlap, twice the same and the other way round. */
static void test_overlaps(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_segment(arena, &list, at(0, 1, 0, 1), at(6, 1, 2, 1));
    add_segment(arena, &list, at(9, 1, 3, 1), at(3, 1, 1, 1));
    add_segment(arena, &list, at(3, 1, 1, 1), at(6, 1, 2, 1));
    add_segment(arena, &list, at(12, 1, 4, 1), at(15, 1, 5, 1));
    add_segment(arena, &list, at(1, 1, 1, 1), at(1, 1, 1, 1));
    const struct arrangement *a =
        arrange_segments(arena, list.items, list.count);
    assert_int_equal(a->point_count, 6);
    assert_int_equal(a->piece_count, 4);
    assert_int_equal(a->face_count, 0);
    assert_int_equal(arrangement_point(a, at(9, 1, 3, 1)) != SIZE_MAX, 1);
    assert_int_equal(arrangement_point(a, at(9, 1, 4, 1)), SIZE_MAX);
    size_t most = 0;
    for (size_t p = 0; p < 4; p++)
        if (a->pieces[p].last - a->pieces[p].first > most)
            most = a->pieces[p].last - a->pieces[p].first;
    assert_int_equal(most, 3);
}

/* A meeting misses a line by less than doubles hold, and is not on it. */
static void test_hair(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_segment(arena, &list, at(0, 1, 0, 1), at(1, 1, 1, 1));
    add_segment(arena, &list,
                at(1, 2, 1000000000000000001, 2000000000000000000),
                at(1, 2, 2, 1));
    assert_int_equal(arrange_segments(arena, list.items, 2)->point_count, 4);
    list.items[1].from = at(1, 2, 1, 2);
    assert_int_equal(arrange_segments(arena, list.items, 2)->point_count, 4);
    assert_int_equal(arrange_segments(arena, list.items, 2)->piece_count, 3);
}

/* Meetings that 64 bits do not hold are points like others: two lines that rise
 * and fall by some 1e-10 cross in one, six ends apart from it. */
static void test_wide(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_segment(arena, &list, at(0, 1, 0, 1), at(5, 1, 0, 1));
    add_segment(arena, &list, at(0, 1, 1, 3037000507), at(5, 1, 2, 3037000453));
    add_segment(arena, &list, at(0, 1, 3, 3037000493), at(5, 1, 1, 3037000583));
    const struct arrangement *a = arrange_segments(arena, list.items, 3);
    assert_int_equal(a->fault.kind, FAULT_NONE);
    assert_int_equal(a->point_count, 7);
    assert_int_equal(a->piece_count, 5);
}

/* Numbers that outgrow 1,024 bits are told, with the lines: slopes of 761 and
 * 741 bits have a difference that does. */
static void test_limit(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    const number zero = number_whole(0), one = number_whole(1);
    const number five = number_whole(5);
    const number from[2] = {power(3, 250), power(5, 170)};
    const number to[2] = {power(7, 130), power(11, 100)};
    add_segment(arena, &list, at(0, 1, 0, 1), at(5, 1, 0, 1));
    for (int i = 0; i < 2; i++)
        add_segment(
            arena, &list,
            (struct vertex){zero, number_div(one, from[i])},
            (struct vertex){five, number_div(one, to[i])});
    const struct arrangement *a = arrange_segments(arena, list.items, 3);
    assert_int_equal(a->fault.kind, FAULT_LIMIT);
    assert_int_equal(a->fault.first, 1);
    assert_int_equal(a->fault.second, 2);
    assert_int_equal(a->piece_count, 0);
}

/* Two squares that touch in a point keep to themselves in an outline; three in
 * a row are one ring. */
static void test_outline(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    add_rectangle(arena, &list, 0, 0, 9, 9);
    for (int64_t k = 3; k < 9; k += 3) {
        add_segment(arena, &list, at(k, 1, 0, 1), at(k, 1, 9, 1));
        add_segment(arena, &list, at(0, 1, k, 1), at(9, 1, k, 1));
    }
    const struct arrangement *a =
        arrange_segments(arena, list.items, list.count);
    assert_int_equal(a->face_count, 9);
    long checker[9], ring[9], row[9];
    for (size_t f = 0; f < 9; f++) {
        const int x = (int)a->faces[f].inside.x / 3;
        const int y = (int)a->faces[f].inside.y / 3;
        checker[f] = (x + y) % 2 == 0 ? 0 : -1;
        ring[f] = x != 1 || y != 1 ? 5 : 3;
        row[f] = y == 1 ? 2 : -1;
    }
    assert_int_equal(arrangement_outlines(arena, a, checker).count, 5);
    const labelled_rings around = arrangement_outlines(arena, a, ring);
    assert_int_equal(around.count, 3);
    assert_int_equal(around.items[0].label, 3);
    assert_false(around.items[1].hole);
    assert_true(around.items[2].hole);
    assert_true(ring_double_area(a, around.items[0].ring).num == 18);
    assert_true(ring_double_area(a, around.items[1].ring).num == 162);
    assert_true(ring_double_area(a, around.items[2].ring).num == -18);
    const labelled_rings one = arrangement_outlines(arena, a, row);
    assert_int_equal(one.count, 1);
    assert_int_equal(one.items[0].ring.count, 8);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known_top), cmocka_unit_test(test_random_tops),
        cmocka_unit_test(test_nested),    cmocka_unit_test(test_overlaps),
        cmocka_unit_test(test_hair),      cmocka_unit_test(test_wide),
        cmocka_unit_test(test_limit),     cmocka_unit_test(test_outline),
    };
    return cmocka_run_group_tests_name("arrange", tests, unit_arena,
                                       unit_arena_end);
}
