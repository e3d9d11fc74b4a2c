/* What is said where the size that a use asks for, the grid of its block and
 * the pieces inside do not agree: one message a cause, at the place to mend. */
#include "../resolve/small.h"

#define BLOCK(attributes, inside)                                        \
    "<block id=\"star\" " attributes ">" inside "</block>\n"
#define UNIT(attributes, inside)                                         \
    "<unit id=\"wing\" " attributes ">" inside "</unit>\n"
#define P(sizes) "<patch fabric=\"night\" " sizes "/>"
/* 3 x 3 patches of 3: 9 squares each way. */
#define NINE "<grid across=\"3\" down=\"3\">" P("width=\"3\" height=\"3\" %s") \
    "</grid>"
/* Four of them, as separate uses, in a quilt that states its size. */
#define FOUR(use)                                                        \
    "<grid across=\"2\" down=\"2\">" use use use use "</grid>"

/* ---- the grid is wrong ---- */

/* 9 squares at 9 in: a square is 1, and a patch of 3 is cut 3 1/2. The grid of
 * 8 would make it 3 3/8 finished, and the ruler would have something to say
 * at other sizes. */
static void test_grid_is_blamed(void **state)
{
    static const struct {
        const char *grid, *finished, *cut;
        const char *right;
    } cases[] = {
        {"8", "9", "cut=\"3 1/2\"", "9"},
        {"8", "18", "cut=\"6 1/2\"", "9"},
        {"10", "9", "", "9"},
        {"8 x 9", "9", "", "9"}, /* its shape is not that of 9 */
        {"9 x 8", "18", "cut=\"6 1/2\"", "9"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *block = arena_printf(*state, BLOCK("grid=\"%s\"", NINE),
                                         cases[i].grid, cases[i].cut);
        const char *use = arena_printf(
            *state, "<use block=\"star\" finished=\"%s\"/>", cases[i].finished);
        const struct small s = small_solve(
            *state, arena_printf(*state, "%s<quilt id=\"throw\">" FOUR("%s")
                                 "</quilt>", block, use, use, use, use));
        const struct diagnostic *d = expect_only(
            &s, DIAG_SEAM_SUM, arena_printf(*state, "grid=\"%s\"",
                                            cases[i].grid), cases[i].grid);
        assert_string_equal(d->replacement, cases[i].right);
        assert_true(says(d, arena_printf(*state, "%s is asked for here",
                                         cases[i].finished)));
        assert_true(says(d, "3 + 3 + 3 = 9"));
        assert_int_equal(small_count(&s, DIAG_RULER), 0);
    }
}

/* Where the two sides are sums of other pieces, both are told. */
static void test_both_sums_are_told(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"8\"",
              "<column><row>" P("width=\"3\" height=\"4\"") P("width=\"3\"")
              P("width=\"3\"") "</row>" P("height=\"5\"") "</column>")
        "<quilt id=\"throw\">" "<use block=\"star\" finished=\"9\"/></quilt>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_SEAM_SUM, "grid=\"8\"", "8");
    assert_true(says(d, "3 + 3 + 3 = 9"));
    assert_true(says(d, "4 + 5 = 9"));
}

/* The quilt's size is that of the written blocks, not of the wrong grid. */
static void test_quilt_holds_beside_wrong_grid(void **state)
{
    const char *block =
        arena_printf(*state, BLOCK("grid=\"8 x 9\"", NINE), "");
    const struct small s = small_solve(
        *state, arena_printf(*state, "%s<quilt id=\"throw\" finished=\"18\">"
                             FOUR("<use block=\"star\" finished=\"9\"/>")
                             "</quilt>", block));
    expect_only(&s, DIAG_SEAM_SUM, "grid=\"8 x 9\"", "8 x 9");
}

/* Another mistake beside it is still told. */
static void test_other_mistake_beside_wrong_grid(void **state)
{
    const char *block = arena_printf(*state, BLOCK("grid=\"8\"", NINE),
                                     "cut=\"3\"");
    const struct small s = small_solve(
        *state, arena_printf(*state, "%s<quilt id=\"throw\"><use "
                             "block=\"star\" finished=\"9\"/></quilt>", block));
    expect_at(&s, DIAG_SEAM_SUM, "grid=\"8\"", "8");
    assert_string_equal(
        expect_at(&s, DIAG_STATEMENT, "cut=\"3\"", "3")->replacement,
        "3 1/2 x 3 1/2");
    assert_int_equal(small_errors(&s), 2);
}

/* Inside a unit of the block the sizes are squares as well. */
static void test_grid_of_units_is_blamed(void **state)
{
    const struct small s = small_solve(
        *state,
        UNIT("", P("width=\"3\" height=\"3\" cut=\"3 1/2\""))
        BLOCK("grid=\"8\"", "<grid across=\"3\" down=\"3\"><use "
              "unit=\"wing\"/></grid>")
        "<quilt id=\"throw\"><use block=\"star\" finished=\"9\"/></quilt>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_SEAM_SUM, "grid=\"8\"", "8");
    assert_string_equal(d->replacement, "9");
}

/* The picture is drawn in the squares of the grid, so it can decide. */
static void test_picture_decides(void **state)
{
    static const char *const drawn[] = {"n n n n n n n n\n",
                                        "n n n n n n n n n\n"};
    for (size_t i = 0; i < UNIT_COUNT(drawn); i++) {
        const char *picture = "";
        for (size_t row = 0; row < 8 + i; row++)
            picture = arena_printf(*state, "%s%s", picture, drawn[i]);
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("grid=\"8\"", "<half-square size=\"9\" "
                               "line=\"rising\" left=\"night\" "
                               "right=\"glow\"/><picture>%s</picture>")
                         "<quilt id=\"throw\"><use block=\"star\" "
                         "finished=\"9\"/></quilt>", picture));
        expect_only(&s, DIAG_SEAM_SUM, i == 0 ? "size=\"9\"" : "grid=\"8\"",
                    i == 0 ? "9" : "8");
    }
}

/* The row leaves the height open: what a square would be at the size that is
 * asked for decides. 9 in over 9 squares are squares of 1, over 8 of 1 1/8;
 * 16 in over 8 are squares of 2, and 9 squares of them no ruler cuts. */
static void test_one_side(void **state)
{
    static const struct {
        const char *finished;
        bool grid;
    } cases[] = {{"finished=\"9\"", true},
                 {"unfinished=\"9 1/2\"", true},
                 {"finished=\"8\"", false},
                 {"finished=\"16\"", false},
                 {"finished=\"72\"", false}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("grid=\"8\"", "<row>" P("width=\"3\"")
                               P("width=\"3\"") P("width=\"3\"") "</row>")
                         "<quilt id=\"throw\"><use block=\"star\" %s/>"
                         "</quilt>", cases[i].finished));
        const struct diagnostic *d =
            cases[i].grid
                ? expect_only(&s, DIAG_SEAM_SUM, "grid=\"8\"", "8")
                : expect_only(&s, DIAG_SEAM_SUM, "<row>", "row");
        if (cases[i].grid)
            assert_string_equal(d->replacement, "9");
    }
}

/* One half-square of another size changes both sides. At 9 in, squares of 1
 * speak for the grid. */
static void test_slip_of_both_sides(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"9\"", "<half-square size=\"8\" line=\"rising\" "
              "left=\"night\" right=\"glow\"/>")
        "<quilt id=\"throw\"><use block=\"star\" finished=\"9\"/></quilt>");
    expect_only(&s, DIAG_SEAM_SUM, "size=\"8\"", "8");
}

/* Nothing inside fixes the block, so the size that is asked for alone speaks
 * against the grid. */
static void test_open_block_of_another_shape(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"8 x 9\"", P(""))
        "<quilt id=\"throw\" finished=\"18\">"
        FOUR("<use block=\"star\" finished=\"9\"/>") "</quilt>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_SEAM_SUM, "grid=\"8 x 9\"", "8 x 9");
    assert_true(says(d, "9 is asked for here"));
    assert_true(says(d, "grid=\"8\" or grid=\"9\""));
}

/* ---- the grid is right ---- */

/* Only one side differs and the shape that is asked for is the grid's: a piece
 * is wrong. */
static void test_piece_is_blamed(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"8\"", "<row>" P("width=\"3\" height=\"8\"")
              P("width=\"3\"") P("width=\"3\"") "</row>")
        "<quilt id=\"throw\"><use block=\"star\" finished=\"9\"/></quilt>");
    expect_only(&s, DIAG_SEAM_SUM, "<row>", "row");
}

/* 12 over 5 squares is no ruler's size; over 6 it is. */
static void test_ruler_decides(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"6\"", "<half-square size=\"5\" line=\"rising\" "
              "left=\"night\" right=\"glow\"/>")
        "<quilt id=\"throw\"><use block=\"star\" finished=\"12\"/></quilt>");
    expect_only(&s, DIAG_SEAM_SUM, "size=\"5\"", "5");
}

/* Pieces and grid agree on 8 x 9: no square of 9 in can be made of them. */
static void test_finished_is_blamed(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"8 x 9\"", P("width=\"8\" height=\"9\""))
        "<quilt id=\"throw\" finished=\"18\"><grid across=\"2\" down=\"2\">"
        "<use id=\"first\" block=\"star\" finished=\"9\"/>"
        "<use block=\"star\" finished=\"9\"/>"
        "<use block=\"star\" finished=\"9\"/>"
        "<use block=\"star\" finished=\"9\"/></grid></quilt>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_STATEMENT, "id=\"first\"", "9\"/>");
    assert_true(says(d, "finished=\"8 x 9\" or finished=\"9 x 10 1/8\""));
}

/* Turned by a quarter, the size is still told as the block lies before. */
static void test_turned_use(void **state)
{
    for (int turn = 0; turn < 360; turn += 90) {
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("grid=\"8 x 9\"", P(""))
                         "<quilt id=\"throw\"><use block=\"star\" "
                         "finished=\"8 x 9\" turn=\"%d\"/></quilt>", turn));
        expect_clean(&s);
    }
}

/* ---- units come at their own size ---- */

#define OTHERWISE "a unit comes at its own size"

static void test_unit_at_another_size(void **state)
{
    static const struct {
        const char *unit, *use;
    } cases[] = {
        {UNIT("width=\"4\" height=\"4\"", P("")), "finished=\"6\""},
        {UNIT("width=\"4\" height=\"4\"", P("")), "unfinished=\"6 1/2\""},
        {UNIT("", P("width=\"4\" height=\"4\"")), "finished=\"6 x 4\""},
        {UNIT("", P("width=\"4\"")), "finished=\"6\""},
        {UNIT("", "<half-square size=\"4\" line=\"rising\" left=\"night\" "
              "right=\"glow\"/>"), "finished=\"6\""},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *use =
            arena_printf(*state, "<use unit=\"wing\" %s/>", cases[i].use);
        const struct small s = small_solve(
            *state,
            arena_printf(*state, "%s<quilt id=\"throw\" finished=\"16 x 12\">"
                         "<grid across=\"2\" down=\"3\"><use id=\"first\" "
                         "unit=\"wing\" %s/>%s%s%s%s%s</grid></quilt>",
                         cases[i].unit, cases[i].use, use, use, use, use,
                         use));
        const struct diagnostic *d =
            expect_only(&s, DIAG_STATEMENT, "id=\"first\"",
                        strchr(cases[i].use, '"') + 1);
        assert_true(says(d, OTHERWISE));
        assert_true(says(d, "wrap it in a block with a grid"));
    }
}

/* A unit that a block with a grid uses, too, has its sizes in squares. */
static void test_unit_of_a_gridded_block_at_another_size(void **state)
{
    const struct small s = small_solve(
        *state,
        UNIT("width=\"4\" height=\"4\"", P(""))
        BLOCK("grid=\"8\"", "<grid across=\"2\" down=\"2\"><use "
              "unit=\"wing\"/></grid>")
        "<quilt id=\"throw\"><row><use block=\"star\" finished=\"12\"/>"
        "<column><use unit=\"wing\" finished=\"6\"/><use unit=\"wing\" "
        "finished=\"6 x 6\"/></column></row></quilt>");
    assert_true(says(expect_only(&s, DIAG_STATEMENT, "finished=\"6\"", "6"),
                     OTHERWISE));
}

/* What the unit leaves open is fixed by its use, as ever. */
static void test_use_fixes_an_open_unit(void **state)
{
    const struct small s = small_solve(
        *state,
        UNIT("", "<row>" P("width=\"2\"") P("") "</row>")
        "<quilt id=\"throw\"><column><use id=\"a\" unit=\"wing\" "
        "finished=\"6 x 4\"/><use unit=\"wing\" mirror=\"yes\"/></column>"
        "</quilt>");
    expect_clean(&s);
    assert_rational(s.sized->width[small_piece(&s, "a")->index], 6, 1);
}

static void test_block_without_grid_at_another_size(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("", P("width=\"4\" height=\"4\""))
        "<quilt id=\"throw\"><use block=\"star\" finished=\"6\"/></quilt>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_STATEMENT, "finished=\"6\"", "6");
    assert_true(says(d, "a block without a grid comes at its own size"));
    assert_true(says(d, "give it a grid"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_grid_is_blamed),
        cmocka_unit_test(test_both_sums_are_told),
        cmocka_unit_test(test_quilt_holds_beside_wrong_grid),
        cmocka_unit_test(test_other_mistake_beside_wrong_grid),
        cmocka_unit_test(test_grid_of_units_is_blamed),
        cmocka_unit_test(test_picture_decides),
        cmocka_unit_test(test_one_side),
        cmocka_unit_test(test_slip_of_both_sides),
        cmocka_unit_test(test_open_block_of_another_shape),
        cmocka_unit_test(test_piece_is_blamed),
        cmocka_unit_test(test_ruler_decides),
        cmocka_unit_test(test_finished_is_blamed),
        cmocka_unit_test(test_turned_use),
        cmocka_unit_test(test_unit_at_another_size),
        cmocka_unit_test(test_unit_of_a_gridded_block_at_another_size),
        cmocka_unit_test(test_use_fixes_an_open_unit),
        cmocka_unit_test(test_block_without_grid_at_another_size),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
