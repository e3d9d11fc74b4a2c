/* The reserve of lengthwise cloth: its pieces and what is cut from their rest
 * leave half an inch of the width where that takes no more cloth as sold. */
#include "../resolve/small.h"
#include "cutter.h"

/* A center of 12 x 12 with a border of this finished width, cut lengthwise, and
 * `patches` of 6 x 6 as cut. */
static const struct fabric_plan *
plan_border(struct arena *arena, const char *width, int across, int down)
{
    struct small small = small_sew(
        arena,
        arena_printf(
            arena,
            "<quilt id=\"q\"><grid across=\"%d\" down=\"%d\">"
            "<row><patch fabric=\"night\" width=\"5 1/2\" height=\"5 1/2\"/>"
            "<patch fabric=\"flame\" width=\"5 1/2\"/></row></grid>"
            "<border fabric=\"night\" width=\"%s\" grain=\"lengthwise\"/>"
            "</quilt>",
            across, down, width));
    expect_clean(&small);
    struct cutplans *plans = plan_cutting(small.run, small.sewn);
    expect_clean(&small);
    const struct fabric_plan *plan = &plans->items.items[0].fabrics[0];
    assert_true(cutplan_holds(plan));
    return plan;
}

/* Of the first lengthwise sheet. */
static struct rational spare_of(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_LENGTHWISE)
            return width_spare(&plan->sheets.items[i], plan->sheets.items,
                               plan->sheets.count);
    fail_msg("no lengthwise cloth");
    return rational_unknown();
}

/* Four borders of 10 1/2 are 42: narrower cloth holds three, and the fourth
 * takes a length of its own. */
static void test_borders_take_all(void **state)
{
    const struct fabric_plan *plan = plan_border(*state, "10", 3, 6);
    assert_rational(spare_of(plan), 0, 1);
    assert_true(rational_known(plan->reserved_bought));
    assert_true(rational_compare(plan->reserved_bought, plan->bought) > 0);
}

/* Four borders of 4 1/2 leave 24, which is four patches: with the reserve three
 * lie side by side, and there is room for all of them behind each other. */
static void test_rest_keeps_it(void **state)
{
    const struct fabric_plan *plan = plan_border(*state, "4", 4, 6);
    const struct rational spare = spare_of(plan);
    assert_true(rational_compare(spare, rational_make(1, 2)) >= 0);
    assert_false(rational_known(plan->reserved_bought));
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_REST)
            assert_rational(plan->sheets.items[i].width, 24, 1);
}

/* As many patches as four beside each other just hold, are told as tight. */
static void test_rest_takes_all(void **state)
{
    const struct fabric_plan *plan = plan_border(*state, "4", 5, 8);
    assert_rational(spare_of(plan), 0, 1);
    assert_true(rational_compare(plan->reserved_bought, plan->bought) > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_borders_take_all),
        cmocka_unit_test(test_rest_keeps_it),
        cmocka_unit_test(test_rest_takes_all),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
