/* The pass on settings on point and rows of triangles: where blocks lie after
 * an eighth of a turn, and lengths, ends and areas that plain geometry gives.
 */
#include "../resolve/small.h"

#include <math.h>

#include "quilting.h"

static const struct quilting_plan *planned(struct arena *arena,
                                           const char *body)
{
    struct small small = small_sew(arena, body);
    expect_clean(&small);
    const struct quilted *quilted = plan_quilting(small.run, small.sewn);
    expect_clean(&small);
    assert_int_equal(quilted->plans.count, 1);
    return &quilted->plans.items[0];
}

static void near(double value, double expected)
{
    if (fabs(value - expected) > 1e-6)
        fail_msg("%.9f is not %.9f", value, expected);
}

/* ---- places ---- */

/* Two by two on point, of plain cloth of 6, with what is told in the middle. */
static const char *around(struct arena *arena, const char *definition,
                          const char *middle, const char *quilting)
{
    return arena_printf(
        arena,
        "%s<quilt id=\"q\"><on-point across=\"2\" down=\"2\" fabric=\"glow\">"
        "%s<patch key=\"n\" fabric=\"night\" width=\"6\" height=\"6\"/>"
        "<map>n n\n f\nn n</map></on-point>"
        "<quilting><thread id=\"t\" match=\"night\"/>%s</quilting></quilt>",
        definition, middle, quilting);
}

/* A block of 6 whose eye, 2 by 1, lies 1 from the left and 2 from the top. */
#define FACE                                                     \
    "<block id=\"face\" grid=\"6\"><column press=\"open\">"      \
    "<patch fabric=\"night\" height=\"2\"/><row press=\"open\">" \
    "<patch fabric=\"night\" width=\"1\" height=\"1\"/>"         \
    "<patch id=\"eye\" fabric=\"flame\" width=\"2\"/>"           \
    "<patch fabric=\"night\" width=\"3\"/></row>"                \
    "<patch fabric=\"night\" height=\"3\"/></column></block>"

/* A corner of the eye, from the middle of the block on: mirrored first, then
 * turned clockwise by quarters, then by an eighth. Told here by sines. */
static struct spot laid(int mirror, int quarters, double x, double y)
{
    const double angle = (quarters + 0.5) * acos(0.0);
    x = mirror ? 3 - x : x - 3;
    y -= 3;
    return (struct spot){6 * sqrt(2) + x * cos(angle) - y * sin(angle),
                         6 * sqrt(2) + x * sin(angle) + y * cos(angle)};
}

static bool is_end_of_line(const struct quilting_plan *plan, struct spot at)
{
    for (size_t i = 0; i < plan->lines.count; i++)
        for (size_t k = 0; k < plan->lines.items[i].count; k++) {
            const struct spot p = plan->lines.items[i].points[k];
            if (hypot(p.x - at.x, p.y - at.y) < 1e-9)
                return true;
        }
    return false;
}

/* All four corners of the eye are ends, and no more is stitched than its way
 * around. */
static void test_turned_places(void **state)
{
    for (int mirror = 0; mirror < 2; mirror++)
        for (int quarters = 0; quarters < 4; quarters++) {
            const char *use = arena_printf(
                *state,
                "<use key=\"f\" block=\"face\" finished=\"6\" turn=\"%d\" "
                "mirror=\"%s\"/>",
                90 * quarters, mirror ? "yes" : "no");
            const struct quilting_plan *plan =
                planned(*state, around(*state, FACE, use,
                                       "<ditch of=\"eye\" outline=\"yes\" "
                                       "thread=\"t\"/>"));
            near(plan->length, 6);
            for (int x = 1; x <= 3; x += 2)
                for (int y = 2; y <= 3; y++)
                    assert_true(
                        is_end_of_line(plan, laid(mirror, quarters, x, y)));
        }
}

/* Level lines are rows: the block in the middle is the second's first. Its
 * outline is 24 around, all of it seams. */
static void test_rows_are_level(void **state)
{
    const char *block = "<block id=\"face\" grid=\"6\">"
                        "<patch fabric=\"flame\"/></block>";
    const char *use = "<use key=\"f\" block=\"face\" finished=\"6\"/>";
    const struct quilting_plan *plan =
        planned(*state, around(*state, block, use,
                               "<ditch of=\"face\" row=\"2\" column=\"1\" "
                               "outline=\"yes\" thread=\"t\"/>"));
    near(plan->length, 24);
    assert_true(is_end_of_line(plan, (struct spot){6 * sqrt(2), 3 * sqrt(2)}));
    struct small small =
        small_sew(*state, around(*state, block, use,
                                 "<ditch of=\"face\" row=\"1\" outline=\"yes\" "
                                 "thread=\"t\"/>"));
    plan_quilting(small.run, small.sewn);
    expect_only(&small, DIAG_NO_SHAPE, "row=\"1\"", "1");
}

/* Of a sashed setting strips and cornerstones have places, too: each stone is 4
 * around, 8 of the 12 are cut in half by the edge, which is no seam. */
static void test_sashing_has_places(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        "<unit id=\"stone\" width=\"1\" height=\"1\">"
        "<patch fabric=\"night\"/></unit>"
        "<quilt id=\"q\"><on-point across=\"2\" down=\"2\" fabric=\"glow\">"
        "<patch fabric=\"night\" width=\"6\" height=\"6\"/>"
        "<sashing fabric=\"flame\" width=\"1\"><cornerstone>"
        "<use unit=\"stone\" finished=\"1\"/></cornerstone></sashing>"
        "</on-point><quilting><thread id=\"t\" match=\"night\"/>"
        "<ditch of=\"stone\" outline=\"yes\" thread=\"t\"/></quilting>"
        "</quilt>");
    near(plan->length, 4 * 4 + 8 * 2);
}

/* ---- lines ---- */

/* A seam through the middle of the block goes on through the blocks beside it:
 * 6 each way, along the rows; where each begins and ends is exact. */
static void test_extended(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        around(*state,
               "<block id=\"pair\" grid=\"2\"><row press=\"open\">"
               "<patch fabric=\"flame\" width=\"1\" height=\"2\"/>"
               "<patch fabric=\"glow\" width=\"1\"/></row></block>",
               "<use key=\"f\" block=\"pair\" finished=\"6\"/>",
               "<extend of=\"pair\" between=\"flame glow\" into=\"night\" "
               "until=\"seam\" thread=\"t\"/>"));
    assert_int_equal(plan->lines.count, 2);
    near(plan->length, 12);
    size_t exact = 0;
    for (size_t i = 0; i < plan->lines.count; i++)
        for (int k = 0; k < 2; k++) {
            const struct vertex v = plan->lines.items[i].exact[k];
            exact += strcmp(rational_text(*state, v.x), "21/2√2") == 0 &&
                     strcmp(rational_text(*state, v.y), "3/2√2") == 0;
        }
    assert_int_equal(exact, 1);
}

/* A square of 6 that stands on a corner, between four others: three echoes run
 * over these as far as they are wide, and end where other cloth begins at its
 * corners. What symmetries it has the plan has, too. */
static void test_echoes(void **state)
{
    const struct quilting_plan *plan = planned(
        *state, around(*state, "", "<patch key=\"f\" fabric=\"flame\"/>",
                       "<echo fabric=\"flame\" side=\"outside\" "
                       "spacing=\"1/2\" times=\"3\" thread=\"t\"/>"));
    near(plan->length, 3 * 4 * 6);
    assert_int_equal(plan->symmetry, plan->top_symmetry);
    assert_int_equal(plan->symmetry, 63); /* all that a square has */
}

/* From the four corners of that square to the middle: its diagonals, told from
 * corner to corner. */
static void test_connected(void **state)
{
    const struct quilting_plan *plan = planned(
        *state, around(*state, "", "<patch key=\"f\" fabric=\"flame\"/>",
                       "<connect fabric=\"flame\" from=\"corners\" "
                       "to=\"corners\" pair=\"all\" into=\"flame\" "
                       "thread=\"t\"/>"));
    assert_int_equal(plan->lines.count, 2);
    near(plan->length, 2 * 6 * sqrt(2));
}

/* Stitched in all its seams, a setting of blocks of 6 leaves circles of 6: in
 * its blocks, as those in its triangles are smaller. */
static void test_gap(void **state)
{
    const struct quilting_plan *plan = planned(
        *state, around(*state, "", "<patch key=\"f\" fabric=\"flame\"/>",
                       "<ditch between=\"night glow\" thread=\"t\"/>"
                       "<ditch between=\"flame night\" thread=\"t\"/>"));
    assert_true(plan->gap_known);
    assert_true(plan->gap.least <= 6 + 1e-9 && plan->gap.most >= 6 - 1e-9);
    assert_true(plan->gap.most - plan->gap.least <= 1.0 / 64 + 1e-9);
}

/* ---- triangles ---- */

/* Rows of 4 in: a triangle has 16 / √3 square inches; three stand in a row, two
 * in a column. */
static void test_rows_of_triangles(void **state)
{
    static const struct {
        const char *place;
        double triangles;
    } cases[] = {{"row=\"2\"", 3}, {"column=\"2\"", 2}, {"column=\"3\"", 2}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct quilting_plan *plan = planned(
            *state,
            arena_printf(
                *state,
                "<quilt id=\"q\"><triangles across=\"3\" down=\"2\" size=\"4\" "
                "ends=\"glow\"><patch key=\"n\" fabric=\"night\"/>"
                "<patch key=\"f\" fabric=\"flame\"/>"
                "<map>n f n\nf n f</map></triangles>"
                "<quilting><thread id=\"t\" match=\"night\"/>"
                "<area %s fabric=\"night\"><fill with=\"swirls\" "
                "spacing=\"1/2\" thread=\"t\"/></area>"
                "<area %s fabric=\"flame\"><fill with=\"swirls\" "
                "spacing=\"1/2\" thread=\"t\"/></area>"
                "</quilting></quilt>",
                cases[i].place, cases[i].place));
        near(plan->by_found[FOUND_FREE],
             cases[i].triangles * 16 / sqrt(3) / 0.5);
    }
}

/* Halves at the ends lie in their rows. */
static void test_ends_lie_in_rows(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        "<quilt id=\"q\"><triangles across=\"3\" down=\"2\" size=\"4\" "
        "ends=\"glow\"><patch fabric=\"night\"/></triangles>"
        "<quilting><thread id=\"t\" match=\"night\"/>"
        "<ditch between=\"night glow\" row=\"2\" thread=\"t\"/>"
        "<area row=\"2\" column=\"1\" fabric=\"glow\"><fill with=\"swirls\" "
        "spacing=\"1/2\" thread=\"t\"/></area></quilting></quilt>");
    /* Two seams of a side each, and no others. */
    near(plan->by_found[FOUND_SEAM], 2 * 8 / sqrt(3));
    assert_int_equal(plan->lines.count, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_turned_places),
        cmocka_unit_test(test_rows_are_level),
        cmocka_unit_test(test_sashing_has_places),
        cmocka_unit_test(test_extended),
        cmocka_unit_test(test_echoes),
        cmocka_unit_test(test_connected),
        cmocka_unit_test(test_gap),
        cmocka_unit_test(test_rows_of_triangles),
        cmocka_unit_test(test_ends_lie_in_rows),
    };
    return cmocka_run_group_tests_name("aslant", tests, unit_arena,
                                       unit_arena_end);
}
