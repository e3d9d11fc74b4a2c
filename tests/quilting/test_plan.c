/* The pass as a whole, on small quilts: where things lie after turns and
 * mirrors, areas and lengths that can be reckoned by hand, and amounts of
 * thread beside published ones. */
#include "../resolve/small.h"

#include <math.h>
#include <stdio.h>

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

/* The box around all lines. */
static void expect_box(const struct quilting_plan *plan, double left,
                       double top, double right, double bottom)
{
    double box[4] = {HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < plan->lines.count; i++)
        for (size_t k = 0; k < plan->lines.items[i].count; k++) {
            const struct spot at = plan->lines.items[i].points[k];
            box[0] = fmin(box[0], at.x);
            box[1] = fmin(box[1], at.y);
            box[2] = fmax(box[2], at.x);
            box[3] = fmax(box[3], at.y);
        }
    near(box[0], left);
    near(box[1], top);
    near(box[2], right);
    near(box[3], bottom);
}

/* A block of 6 by 6 whose eye, 2 by 1, lies 1 from the left and 2 from the top;
 * it is used as told, beside plain cloth of 6, with a border of 2 around. */
static const struct quilting_plan *plan_eye(struct arena *arena,
                                            const char *use)
{
    return planned(
        arena, arena_printf(
                   arena,
                   "<block id=\"face\" grid=\"6\"><column press=\"open\">"
                   "<patch fabric=\"night\" height=\"2\"/><row press=\"open\">"
                   "<patch fabric=\"night\" width=\"1\" height=\"1\"/>"
                   "<patch id=\"eye\" fabric=\"flame\" width=\"2\"/>"
                   "<patch fabric=\"night\" width=\"3\"/></row>"
                   "<patch fabric=\"night\" height=\"3\"/></column></block>"
                   "<quilt id=\"q\"><row press=\"open\">"
                   "<patch fabric=\"night\" width=\"6\" height=\"6\"/>"
                   "<use block=\"face\" finished=\"6\"%s/></row>"
                   "<border fabric=\"glow\" width=\"2\"/>"
                   "<quilting><thread id=\"t\" match=\"night\"/>"
                   "<ditch of=\"eye\" outline=\"yes\" thread=\"t\"/></quilting>"
                   "</quilt>",
                   use));
}

/* From (8, 2) of the top on: a box of x 1 to 3 and y 2 to 3 in the block,
 * turned clockwise in a square of 6 is one of x 6 - 3 to 6 - 2 and y 1 to 3,
 * and so on.
 */
static void test_turned_places(void **state)
{
    static const struct {
        const char *use;
        double left, top, right, bottom;
    } cases[] = {{"", 1, 2, 3, 3},
                 {" turn=\"90\"", 3, 1, 4, 3},
                 {" turn=\"180\"", 3, 3, 5, 4},
                 {" turn=\"270\"", 2, 3, 3, 5},
                 {" mirror=\"yes\"", 3, 2, 5, 3},
                 {" mirror=\"yes\" turn=\"90\"", 3, 3, 4, 5}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct quilting_plan *plan = plan_eye(*state, cases[i].use);
        expect_box(plan, 8 + cases[i].left, 2 + cases[i].top,
                   8 + cases[i].right, 2 + cases[i].bottom);
        near(plan->length, 6);
    }
}

/* ---- areas and fillers ---- */

/* A square of 4 in the middle of 12: echoes at 1/2 are squares of 5, 6 and 7;
 * what they leave of 144 - 16 is 144 - 49 for swirls. */
static void test_free_fill_beside_echoes(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        "<quilt id=\"q\"><grid across=\"3\" down=\"3\">"
        "<patch key=\"n\" fabric=\"night\" width=\"4\" height=\"4\"/>"
        "<patch key=\"f\" fabric=\"flame\"/>"
        "<map>n n n\nn f n\nn n n</map></grid>"
        "<quilting><thread id=\"t\" match=\"night\"/>"
        "<echo fabric=\"flame\" side=\"outside\" spacing=\"1/2\" times=\"3\" "
        "thread=\"t\"/><area fabric=\"night\"><fill with=\"swirls\" "
        "spacing=\"1/2\" thread=\"t\"/></area></quilting></quilt>");
    assert_int_equal(plan->lines.count, 3);
    assert_int_equal(plan->areas.count, 2);
    near(plan->by_found[FOUND_RULER], 4 * (5 + 6 + 7));
    near(plan->by_found[FOUND_FREE], (144 - 49) / 0.5);
    near(quilting_unmarked(plan), 1);
    assert_int_equal(plan->symmetry, 63); /* all that a square has */
}

/* The same square of 4, with rounded echoes: inside they have no round corner and
 * a ruler finds them; outside at 1/2 in all go round and are marked; at the
 * distance of the foot, 1/4 in, the foot finds those as well. */
static const struct quilting_plan *plan_rounded(struct arena *arena,
                                                const char *side,
                                                const char *spacing)
{
    return planned(
        arena,
        arena_printf(
            arena,
            "<quilt id=\"q\"><grid across=\"3\" down=\"3\">"
            "<patch key=\"n\" fabric=\"night\" width=\"4\" height=\"4\"/>"
            "<patch key=\"f\" fabric=\"flame\"/>"
            "<map>n n n\nn f n\nn n n</map></grid>"
            "<quilting><thread id=\"t\" match=\"night\"/>"
            "<echo fabric=\"flame\" side=\"%s\" spacing=\"%s\" times=\"3\" "
            "corners=\"rounded\" thread=\"t\"/></quilting></quilt>",
            side, spacing));
}

static void test_rounded_echoes_found(void **state)
{
    const struct quilting_plan *inside = plan_rounded(*state, "inside", "1/2");
    near(inside->by_found[FOUND_RULER], 4 * (3 + 2 + 1));
    near(quilting_unmarked(inside), 1);
    const struct quilting_plan *outside =
        plan_rounded(*state, "outside", "1/2");
    near(outside->by_found[FOUND_MARK], outside->length);
    const struct quilting_plan *foot = plan_rounded(*state, "outside", "1/4");
    near(foot->by_found[FOUND_FOOT], foot->length);
}

/* Of one quilt nothing is told: no plan, no message. */
static void test_nothing_told(void **state)
{
    struct small small =
        small_sew(*state, "<quilt id=\"q\"><patch fabric=\"night\" width=\"4\" "
                          "height=\"4\"/></quilt>");
    const struct quilted *quilted = plan_quilting(small.run, small.sewn);
    assert_null(quilted->plans.items[0].told);
    assert_int_equal(quilted->plans.items[0].lines.count, 0);
    assert_null(quilting_of(quilted, &small.sewn->quilts.items[0]));
}

/* Each eye has echoes on four sides that lead lines equally well: areas that are
 * images of each other follow sides that are, so that what is stated holds. */
static void test_lines_along_are_symmetric(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        "<block id=\"lamp\" grid=\"3\"><grid across=\"3\" down=\"3\">"
        "<patch key=\"n\" fabric=\"night\"/><patch key=\"f\" fabric=\"flame\"/>"
        "<map>n n n\nn f n\nn n n</map></grid></block>"
        "<quilt id=\"q\"><grid across=\"3\" down=\"3\">"
        "<use key=\"L\" block=\"lamp\" finished=\"6\"/>"
        "<patch key=\"o\" fabric=\"night\"/>"
        "<map>L o L\no L o\nL o L</map></grid><quilting travel=\"any\" "
        "symmetry=\"left-right top-bottom\"><thread id=\"t\" "
        "match=\"night\"/><ditch of=\"lamp\" thread=\"t\"/>"
        "<extend of=\"lamp\" into=\"night\" until=\"edge\" thread=\"t\"/>"
        "<echo id=\"halo\" of=\"lamp\" fabric=\"flame\" side=\"outside\" "
        "spacing=\"1/2\" thread=\"t\"/><area fabric=\"night\"><fill "
        "with=\"lines\" along=\"halo\" spacing=\"1/2\" thread=\"t\"/></area>"
        "</quilting></quilt>");
    assert_int_equal(plan->symmetry & (TOLD_LEFT_RIGHT | TOLD_TOP_BOTTOM),
                     TOLD_LEFT_RIGHT | TOLD_TOP_BOTTOM);
}

/* ---- thread ---- */

/* Yards of the thread above for a whole quilt with lines so far apart. */
static double yards_above(struct arena *arena, int width, int height, int parts)
{
    const struct quilting_plan *plan = planned(
        arena,
        arena_printf(arena,
                     "<quilt id=\"q\"><patch fabric=\"night\" width=\"%d\" "
                     "height=\"%d\"/><quilting travel=\"any\">"
                     "<thread id=\"t\" match=\"night\"/><area><fill "
                     "with=\"lines\" spacing=\"1/%d\" thread=\"t\"/></area>"
                     "</quilting></quilt>",
                     width, height, parts));
    return plan->amounts[0].above / 36;
}

/* Top thread for a whole quilt, light, medium and heavy: How Much Thread do I
 * Need for This Project?, newsletter April-May 2006, superiorthreads.com; sizes
 * of quilts as packages of batting tell them (common practice). Lines 1/2, 1/3
 * and 1/4 in apart; each start takes its tails, which the figures leave open.
 */
static void test_published_amounts(void **state)
{
    static const struct {
        int width, height;
        double yards[3];
    } quilts[] = {{45, 60, {200, 400, 600}},
                  {72, 90, {400, 800, 1200}},
                  {90, 108, {600, 1100, 1600}},
                  {120, 120, {700, 1300, 2000}}};
    for (size_t i = 0; i < sizeof quilts / sizeof quilts[0]; i++)
        for (int k = 0; k < 3; k++) {
            struct arena *scratch = arena_create();
            const double yards =
                yards_above(scratch, quilts[i].width, quilts[i].height, k + 2);
            const double share = yards / quilts[i].yards[k];
            printf("# %d x %d, lines 1/%d apart: %.0f yd, %.2f of %.0f\n",
                   quilts[i].width, quilts[i].height, k + 2, yards, share,
                   quilts[i].yards[k]);
            assert_true(share > 0.8 && share < 2.3);
            arena_destroy(scratch);
        }
    (void)state;
}

/* As a reader reckons from the table: line and travel take 1 1/2 times their
 * length of each thread, 15 % and 6 in a start come to it, all in whole yards;
 * bought is what lies above, and all that lies below of either thread. */
static void test_amounts_add_up(void **state)
{
    const struct quilting_plan *plan = planned(
        *state,
        "<quilt id=\"q\"><row press=\"open\">"
        "<patch fabric=\"night\" width=\"30\" height=\"41\"/>"
        "<patch fabric=\"flame\" width=\"23\"/></row>"
        "<quilting><thread id=\"a\" match=\"night\"/>"
        "<thread id=\"b\" match=\"flame\" below=\"a\"/>"
        "<area fabric=\"night\"><fill with=\"lines\" spacing=\"3/4\" "
        "thread=\"a\"/></area><area fabric=\"flame\"><fill with=\"swirls\" "
        "spacing=\"1\" thread=\"b\"/></area></quilting></quilt>");
    double below = 0;
    for (int i = 0; i < 2; i++) {
        const struct thread_amount *amount = &plan->amounts[i];
        const double inches = (amount->line + amount->travel) * 1.5 * 1.15 +
                              6 * (double)amount->starts;
        near(amount->above, 36 * ceil(inches / 36));
        near(amount->below, amount->above);
        below += amount->below;
    }
    near(plan->amounts[0].bought, plan->amounts[0].above + below);
    near(plan->amounts[1].bought, plan->amounts[1].above);
    assert_int_equal(plan->amounts[0].bobbins, (size_t)ceil(below / 36 / 70));
    assert_int_equal(plan->amounts[1].bobbins, 0);
}

/* The needle goes every way and comes back: the quilt lies as it lay. */
static void test_no_turn_by_eye(void **state)
{
    const struct quilting_plan *plan = planned(
        *state, "<quilt id=\"q\"><patch fabric=\"night\" width=\"8\" "
                "height=\"6\"/><quilting><thread id=\"t\" match=\"night\"/>"
                "<area><fill with=\"swirls\" spacing=\"1\" thread=\"t\"/>"
                "</area></quilting></quilt>");
    assert_int_equal(plan->starts, 1);
    assert_int_equal(plan->turns, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_turned_places),
        cmocka_unit_test(test_free_fill_beside_echoes),
        cmocka_unit_test(test_rounded_echoes_found),
        cmocka_unit_test(test_lines_along_are_symmetric),
        cmocka_unit_test(test_nothing_told),
        cmocka_unit_test(test_published_amounts),
        cmocka_unit_test(test_amounts_add_up),
        cmocka_unit_test(test_no_turn_by_eye),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
