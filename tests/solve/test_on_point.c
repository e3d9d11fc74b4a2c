/* Sizes of settings on point against published charts, and from a wish. */
#include "../../src/solve/solver.h"
#include "../resolve/small.h"

/* A setting of 2 x 3 blocks of this side, solved; `more` goes into its tag. */
static struct small solve_setting(struct arena *arena, const char *side,
                                  const char *more)
{
    const struct small small = small_solve(
        arena, arena_printf(arena,
                            "<quilt id=\"mat\"><on-point across=\"2\" "
                            "down=\"3\" fabric=\"night\" %s><patch "
                            "fabric=\"flame\" %s/></on-point></quilt>",
                            more, side));
    expect_clean(&small);
    return small;
}

static const struct piece *setting_of(const struct small *small)
{
    return small->design->definitions.items[0]->root;
}

static const char *square_of(struct arena *arena, const struct small *small,
                             enum patch_shape shape)
{
    const struct on_point *of = setting_of(small)->on_point;
    const struct piece *triangle =
        shape == PATCH_QUARTERED ? of->side : of->corner;
    return length_plain(arena,
                        triangle_square(small->design->pattern, shape,
                                        small->sized->width[triangle->index]),
                        UNIT_IN);
}

/* Two charts: M. Hohn, Quilter's Cache, How to make setting triangles, 2002,
 * and lukas.is-a-geek.org/tani/chart.htm (4 only in the first, 11 and 13 only
 * in the second). They add 1 1/4 and 7/8 to rounded diagonals, where 1.2071 and
 * 0.8536 suffice: where `exact` differs, an eighth less than the chart is
 * enough, and is what is cut (derived). For 16 the charts' 23 7/8 comes of 1.414
 * for the root of 2; 24 is what their rule gives with all its digits. */
static void test_squares_are_those_of_the_charts(void **state)
{
    static const struct {
        const char *side, *side_square, *corner_square, *exact;
    } charts[] = {
        {"4", "7", "3 3/4", "6 7/8"},     {"5", "8 3/8", "4 1/2", NULL},
        {"6", "9 3/4", "5 1/8", NULL},    {"7", "11 1/4", "5 7/8", "11 1/8"},
        {"8", "12 5/8", "6 5/8", NULL},   {"9", "14", "7 1/4", NULL},
        {"10", "15 1/2", "8", "15 3/8"},  {"11", "16 7/8", "8 3/4", NULL},
        {"12", "18 1/4", "9 3/8", NULL},  {"13", "19 3/4", "10 1/8", "19 5/8"},
        {"14", "21 1/8", "10 7/8", NULL}, {"15", "22 1/2", "11 1/2", NULL},
        {"16", "23 7/8", "12 1/4", NULL}};
    for (size_t i = 0; i < UNIT_COUNT(charts); i++) {
        const struct small small = solve_setting(
            *state, arena_printf(*state, "width=\"%s\"", charts[i].side), "");
        const char *square = square_of(*state, &small, PATCH_QUARTERED);
        assert_string_equal(square, charts[i].exact != NULL
                                        ? charts[i].exact
                                        : charts[i].side_square);
        assert_string_equal(square_of(*state, &small, PATCH_HALVED),
                            charts[i].corner_square);
    }
}

/* What the rule of the charts gives, with all digits of the root: F * root 2 + 1
 * 1/4 and F / root 2 + 7/8, rounded up to eighths. The exact need is rounded up
 * as well, so the two differ for these F of 3 to 24 and no others (derived). No
 * square is short. */
static void test_exact_squares_against_the_rule(void **state)
{
    static const char sides[] = " 4 7 10 13 16 17 20 23 ";
    static const char corners[] = " 17 20 23 ";
    const struct rational eighth = rational_make(1, 8);
    const struct rational root = rational_root(2);
    for (int f = 3; f <= 24; f++) {
        const struct small small = solve_setting(
            *state, arena_printf(*state, "width=\"%d\"", f), "");
        const struct rational rules[2] = {
            rational_add(rational_times(root, f), rational_make(5, 4)),
            rational_add(rational_div(rational_whole(f), root),
                         rational_make(7, 8))};
        for (int k = 0; k < 2; k++) {
            const char *rule = length_plain(
                *state, rational_round_up(rules[k], eighth), UNIT_IN);
            const char *square =
                square_of(*state, &small, k == 0 ? PATCH_QUARTERED
                                                 : PATCH_HALVED);
            const bool differ = strstr(k == 0 ? sides : corners,
                                       arena_printf(*state, " %d ", f)) != NULL;
            assert_int_equal(strcmp(rule, square) != 0, differ);
        }
    }
}

/* With sashing, a block and its strip stand for a block: 9 1/2 and 2 give 11
 * 1/2 (Quilting Passion, On point, lesson 7). Triangles stay those of the
 * block, as strips and cornerstones reach the edge. */
static void test_sashing_counts_with_the_block(void **state)
{
    const struct small small = small_solve(
        *state, "<quilt id=\"mat\"><on-point across=\"2\" down=\"3\" "
                "fabric=\"night\"><patch fabric=\"flame\" width=\"9 1/2\"/>"
                "<sashing fabric=\"glow\" width=\"2\"><cornerstone "
                "fabric=\"flame\"/></sashing></on-point></quilt>");
    expect_clean(&small);
    const struct rational width =
        small.sized->width[setting_of(&small)->index];
    assert_true(rational_equal(
        width, rational_mul(rational_make(23, 2),
                            rational_times(rational_root(2), 2))));
}

/* 9 x 10 blocks of 6 in: 76.37 x 84.85 (American Patchwork & Quilting, Summer Salsa; 34 side
 * triangles). 4 x 5 of 5 in: 5 x 7 1/8 is printed where 35.355 is true, as the
 * diagonal was rounded before it was multiplied (American Patchwork & Quilting,
 * Spring Celebration, 2017). */
static void test_finished_sizes(void **state)
{
    static const struct {
        int across, down, side;
        double width, height;
    } published[] = {{9, 10, 6, 76.37, 84.85},
                     {8, 10, 6, 67.88, 84.85},
                     {4, 5, 5, 28.284, 35.355}};
    for (size_t i = 0; i < UNIT_COUNT(published); i++) {
        const struct small small = small_solve(
            *state,
            arena_printf(*state,
                         "<quilt id=\"mat\"><on-point across=\"%d\" "
                         "down=\"%d\" fabric=\"night\"><patch fabric=\"flame\" "
                         "width=\"%d\"/></on-point></quilt>",
                         published[i].across, published[i].down,
                         published[i].side));
        expect_clean(&small);
        const size_t index = setting_of(&small)->index;
        const struct rational width = small.sized->width[index];
        const struct rational height = small.sized->height[index];
        assert_float_equal(rational_double(width), published[i].width, 0.005);
        assert_float_equal(rational_double(height), published[i].height, 0.005);
        /* To the last digit: a turn by an eighth doubles the square. */
        assert_true(rational_equal(
            rational_mul(width, width),
            rational_whole(2 * (int64_t)published[i].across *
                           published[i].across * published[i].side *
                           published[i].side)));
        assert_true(rational_equal(rational_times(height, published[i].across),
                                   rational_times(width, published[i].down)));
    }
}

/* A setting that floats by e: its sides are e longer at both ends. */
static void test_a_setting_that_floats(void **state)
{
    const struct small small =
        solve_setting(*state, "width=\"6\"", "float=\"1/2\"");
    const struct on_point *of = setting_of(&small)->on_point;
    const struct rational root = rational_root(2), *width = small.sized->width;
    assert_true(rational_equal(
        width[setting_of(&small)->index],
        rational_add(rational_times(root, 12), rational_whole(1))));
    assert_true(rational_equal(
        width[of->side->index],
        rational_add(rational_whole(6), rational_div(root, rational_whole(2)))));
    assert_true(rational_equal(
        width[of->corner->index],
        rational_add(rational_times(root, 3), rational_whole(1))));
}

/* ---- from a wish ---- */

static void expect_side(struct arena *arena, const char *block,
                        const char *more, const char *side)
{
    const struct small small = solve_setting(arena, block, more);
    const struct piece *first = setting_of(&small)->on_point->blocks[0].piece;
    assert_string_equal(
        length_plain(arena, small.sized->width[first->index], UNIT_IN), side);
}

/* Of 2 x 3 blocks of F: 2.83 F by 4.24 F. Worked by hand: about 34 x 51 asks for
 * (2 * 34 + 3 * 51) / 13 = 17 on the diagonal of a block, 12.02 at its side. */
static void test_blocks_from_a_wish(void **state)
{
    expect_side(*state, "", "about=\"34 x 51\"", "12");
    expect_side(*state, "", "about=\"35 x 52\"", "12 1/4");
    expect_side(*state, "", "about=\"36 x 53\" float=\"1\"", "12");
    expect_side(*state, "", "about=\"30 x 40\"", "9 3/4"); /* 9.79 */
    expect_side(*state, "width=\"11 7/8\"", "about=\"34 x 51\"", "11 7/8");
    expect_side(*state, "finished=\"11 7/8\"", "about=\"34 x 51\"", "11 7/8");
}

/* Blocks of a grid of 5 come in steps of 5/8, of one of 3 and one of 5 in 15/8;
 * strips are taken off. */
static void test_a_wish_keeps_squares_on_the_ruler(void **state)
{
    static const struct {
        const char *pieces, *side;
    } cases[] = {
        {"<use block=\"five\"/>", "11 7/8"},
        {"<use block=\"five\"/><use block=\"three\"/>", "11 1/4"},
        {"<use block=\"five\"/><sashing fabric=\"glow\" width=\"1\">"
         "<cornerstone fabric=\"night\"/></sashing>",
         "11 1/4"}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small small = small_solve(
            *state,
            arena_printf(
                *state,
                "<block id=\"five\" grid=\"5\"><patch fabric=\"night\"/>"
                "</block><block id=\"three\" grid=\"3\"><patch "
                "fabric=\"glow\"/></block><quilt id=\"mat\"><on-point "
                "across=\"2\" down=\"3\" fabric=\"night\" about=\"34 x 51\">"
                "%s</on-point></quilt>",
                cases[i].pieces));
        expect_clean(&small);
        const struct definition *quilt = small.design->definitions.items[2];
        const struct piece *first = quilt->root->on_point->blocks[0].piece;
        assert_string_equal(length_plain(*state,
                                         small.sized->width[first->index],
                                         UNIT_IN),
                            cases[i].side);
    }
}

/* A wish that another number of blocks would meet better is told, once. */
static void test_a_wish_that_does_not_hold(void **state)
{
    static const char *const wrong[] = {
        "about=\"34 x 90\"", "about=\"60 x 51\"", "about=\"1/2\"",
        "about=\"60 x 12\""};
    for (size_t i = 0; i < UNIT_COUNT(wrong); i++) {
        const struct small small = small_solve(
            *state, arena_printf(*state,
                                 "<quilt id=\"mat\"><on-point across=\"2\" "
                                 "down=\"3\" fabric=\"night\" %s><patch "
                                 "fabric=\"flame\" width=\"12\"/></on-point>"
                                 "</quilt>",
                                 wrong[i]));
        assert_int_equal(small_count(&small, DIAG_STATEMENT), 1);
        assert_int_equal(small_errors(&small), 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_squares_are_those_of_the_charts),
        cmocka_unit_test(test_exact_squares_against_the_rule),
        cmocka_unit_test(test_sashing_counts_with_the_block),
        cmocka_unit_test(test_finished_sizes),
        cmocka_unit_test(test_a_setting_that_floats),
        cmocka_unit_test(test_blocks_from_a_wish),
        cmocka_unit_test(test_a_wish_keeps_squares_on_the_ruler),
        cmocka_unit_test(test_a_wish_that_does_not_hold),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
