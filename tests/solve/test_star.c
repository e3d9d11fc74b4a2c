/* The pieces that eight-pointed stars are cut from, against published tables
 * and against what their geometry gives. */
#include <math.h>

#include "../resolve/small.h"

static const struct pattern inches = {
    .units = UNIT_IN, .seam = {1, 4}, .cutting_step = {1, 8}};

/* A table of thousandths, one of which (3.39949) is rounded up. */
static void assert_near(struct rational found, double wanted)
{
    if (fabs(rational_double(found) - wanted) > 0.0006)
        fail_msg("%.6g instead of %.6g", rational_double(found), wanted);
}

/* a + b * sqrt 2, in parts of `den`. */
static struct rational root_sum(int64_t a, int64_t b, int64_t den)
{
    return rational_add(rational_make(a, den),
                        rational_mul(rational_make(b, den), rational_root(2)));
}

/* techniques.md 2.12, derived there by itself: corner square, square of the
 * side triangles, strip. The exact square is what is rounded up. */
static void test_by_size(void **state)
{
    (void)state;
    static const struct {
        int64_t size;
        double corner, triangles, strip;
        int64_t eighths; /* the strip as cut */
    } rows[] = {{6, 2.257, 3.692, 1.743, 14},  {8, 2.843, 4.521, 2.157, 18},
                {9, 3.136, 4.935, 2.364, 19},  {10, 3.429, 5.349, 2.571, 21},
                {12, 4.015, 6.178, 2.985, 24}, {14, 4.601, 7.006, 3.400, 28},
                {16, 5.186, 7.835, 3.814, 31}, {18, 5.772, 8.663, 4.228, 34}};
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct star_cut cut =
            star_cut(&inches, rational_whole(rows[i].size));
        assert_near(cut.side, rows[i].corner - 0.5);
        assert_near(cut.height, rows[i].strip - 0.5);
        assert_rational(cut.strip, rows[i].eighths, 8);
        const struct rational square =
            triangle_square(&inches, PATCH_QUARTERED, cut.side);
        const double above = rational_double(square) - rows[i].triangles;
        assert_true(above > -0.0005 && above < 0.125);
        assert_true(rational_is_fraction(square));
        /* Two corners and a long edge are the block. */
        assert_true(rational_equal(
            rational_mul(cut.side,
                         rational_add(rational_whole(2), rational_root(2))),
            rational_whole(rows[i].size)));
    }
}

/* techniques.md 2.12: a strip rounded by e moves the block by 4.83 e, and 3 for
 * 12 makes 12.071. */
static void test_growth(void **state)
{
    (void)state;
    const struct star_cut cut = star_cut(&inches, rational_whole(12));
    assert_near(rational_add(rational_whole(12), cut.growth), 12.071);
    assert_near(rational_div(cut.growth, cut.excess), 4.828);
    assert_true(rational_equal(rational_add(rational_whole(12), cut.growth),
                               star_of_strip(&inches, rational_whole(3))));
}

/* techniques.md 2.13: stars from their strips; published are strips of 2 1/2,
 * four to a point, and 4 1/2 for stars "about 19" (What a Big Lone Star,
 * debbykratovilquilts.blogspot.com, November 2015). Nothing is rounded. */
static void test_by_strip(void **state)
{
    (void)state;
    static const struct {
        int64_t halves;
        double size;
    } rows[] = {{3, 4.828},  {4, 7.243},  {5, 9.657},
                {6, 12.071}, {7, 14.485}, {9, 19.314}};
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct rational strip = rational_make(rows[i].halves, 2);
        const struct rational size = star_of_strip(&inches, strip);
        assert_near(size, rows[i].size);
        assert_true(rational_equal(
            size, root_sum(rows[i].halves - 1, rows[i].halves - 1, 1)));
        const struct star_cut cut = star_cut(&inches, size);
        assert_true(rational_equal(cut.strip, strip));
        assert_int_equal(rational_sign(cut.excess), 0);
        assert_int_equal(rational_sign(cut.growth), 0);
    }
    /* 2.14, the same source: a = 5.657 for the diamond of four strips. */
    assert_near(
        star_cut(&inches, star_of_strip(&inches, rational_make(9, 2))).side,
        5.657);
}

/* techniques.md 2.15: a = 17 has four squares of 17 1/2 and one of 25 1/4, cut
 * twice; the star is 58.04 (Lone Star, part 5,
 * handcraftingwithlove.blogspot.com, September 2007). */
static void test_large(void **state)
{
    (void)state;
    const struct rational size = rational_mul(
        rational_whole(17), rational_add(rational_whole(2), rational_root(2)));
    assert_near(size, 58.042);
    const struct star_cut cut = star_cut(&inches, size);
    assert_rational(cut.side, 17, 1);
    assert_rational(cut_length(&inches, cut.side), 35, 2);
    assert_rational(triangle_square(&inches, PATCH_QUARTERED, cut.side), 101,
                    4);
}

/* techniques.md 2.16: 6 / 3.414 = 1.757. */
static void test_drafting(void **state)
{
    (void)state;
    assert_near(star_cut(&inches, rational_whole(6)).side, 1.757);
}

#define STAR(more) \
    "<eight-pointed-star points=\"night\" corners=\"glow\" " more "/>"

static struct rational width_of_star(void *arena, const char *body)
{
    const struct small s = small_solve(arena, body);
    expect_clean(&s);
    for (size_t i = 0; i < s.design->pieces.count; i++)
        if (s.design->pieces.items[i]->kind == PIECE_STAR)
            return s.sized->width[i];
    return rational_unknown();
}

/* By its size, by what stands beside it, by its strip alone; a strip that is
 * what its size asks for only states it. */
static void test_solved(void **state)
{
    assert_rational(width_of_star(*state, "<quilt id=\"q\">" STAR(
                                              "size=\"12\"") "</quilt>"),
                    12, 1);
    assert_rational(width_of_star(*state,
                                  "<quilt id=\"q\"><row>" STAR(
                                      "") "<patch fabric=\"glow\" width=\"2\" "
                                          "height=\"9\"/></row></quilt>"),
                    9, 1);
    assert_true(rational_equal(
        width_of_star(*state,
                      "<quilt id=\"q\">" STAR("strip=\"2 1/2\"") "</quilt>"),
        root_sum(4, 4, 1)));
    assert_rational(
        width_of_star(*state, "<quilt id=\"q\">" STAR(
                                  "size=\"12\" strip=\"3\"") "</quilt>"),
        12, 1);
}

/* In a block with a grid lengths are squares: there a strip is compared at the
 * size at which the block is sewn. */
static void test_in_a_grid(void **state)
{
    static const char body[] = "<block id=\"b\" grid=\"4\">" STAR(
        "strip=\"%s\"") "<picture><shape fabric=\"glow\" points=\"0,0 4,0 4,4 "
                        "0,4\"/></picture>"
                        "</block><quilt id=\"q\"><use block=\"b\" "
                        "finished=\"12\"/></quilt>";
    const struct small right =
        small_solve(*state, arena_printf(*state, body, "3"));
    expect_clean(&right);
    const struct small wrong =
        small_solve(*state, arena_printf(*state, body, "2 7/8"));
    expect_only(&wrong, DIAG_STATEMENT, "strip=\"2 7/8\"", "2 7/8");
}

/* A strip that its seams use up fixes no size, and is told alone. */
static void test_no_room(void **state)
{
    static const char *const strips[] = {"1/4", "1/2"};
    for (size_t i = 0; i < UNIT_COUNT(strips); i++) {
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         "<quilt id=\"q\">" STAR("strip=\"%s\"") "</quilt>",
                         strips[i]));
        expect_only(&s, DIAG_STATEMENT, "strip=", strips[i]);
    }
}

/* A growth of an eighth of an inch is remarked; nothing is said of 12. */
static void test_remark(void **state)
{
    const struct small large =
        small_solve(*state, "<quilt id=\"q\">" STAR("size=\"8\"") "</quilt>");
    assert_true(says(expect_only(&large, DIAG_STRIP_ROUNDED, "size=\"8\"", "8"),
                     "strip=\"2 1/8\""));
    const struct small small =
        small_solve(*state, "<quilt id=\"q\">" STAR("size=\"12\"") "</quilt>");
    assert_int_equal(small_count(&small, DIAG_STRIP_ROUNDED), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_by_size),   cmocka_unit_test(test_growth),
        cmocka_unit_test(test_by_strip),  cmocka_unit_test(test_large),
        cmocka_unit_test(test_drafting),  cmocka_unit_test(test_solved),
        cmocka_unit_test(test_in_a_grid), cmocka_unit_test(test_no_room),
        cmocka_unit_test(test_remark)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
