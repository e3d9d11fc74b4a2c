/* The reserve: strips leave half an inch of their length, and lengthwise pieces
 * with what is cut from their rest half an inch of the width, where that takes
 * no more cloth as sold. */
#include "bench.h"

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

/* ---- strips ---- */

/* A one-way print, 42 wide, of which each strip is to leave half an inch. */
static void start_one_way(struct bench *bench, struct arena *arena)
{
    bench_start(bench, arena, rational_whole(42));
    bench->fabric.one_way = true;
    bench->cloth.reserve = rational_make(1, 2);
}

/* What the strips of the plan hold, those that only hold this item left out. */
static struct rational longest_but(const struct fabric_plan *plan, size_t item)
{
    struct rational longest = rational_whole(0);
    for (size_t i = 0; i < plan->strips.count; i++)
        if (plan->strips.items[i].cuts.items[0].item != item &&
            rational_compare(plan->strips.items[i].used, longest) > 0)
            longest = plan->strips.items[i].used;
    return longest;
}

/* Four of 10 1/2 fill a strip: two strips of an inch. Three a strip leave
 * 10 1/2, and three strips are no more cloth as sold. That the pieces may not
 * be turned gives none a strip for itself. */
static void test_pieces_that_do_not_turn(void **state)
{
    struct bench bench;
    start_one_way(&bench, *state);
    bench_add(&bench, 84, 8, 8);
    bench_plan(&bench);
    assert_int_equal(bench_strips(&bench), 3);
    assert_rational(longest_but(&bench.cloth, 1), 63, 2);
    assert_rational(bench.cloth.bought, 9, 2);
}

/* One of 41 3/4 takes all: it has a strip for itself and is not turned into
 * that of two tall ones, which has 6 in left: 42 + 2 and 3 in of small ones are
 * sold as 49 1/2. */
static void test_one_that_takes_all_is_not_turned(void **state)
{
    struct bench bench;
    start_one_way(&bench, *state);
    bench_add(&bench, 334, 16, 1);
    bench_add(&bench, 144, 336, 2);
    bench_add(&bench, 84, 8, 8);
    bench_plan(&bench);
    assert_rational(bench.cloth.cut_height, 47, 1);
    assert_rational(longest_but(&bench.cloth, 0), 36, 1);
    assert_rational(bench.cloth.bought, 99, 2);
}

/* ---- more to buy ---- */

/* Two strips of 4 and an inch are 9 of the 9 that are bought; one of 6 1/2 more
 * takes two steps of 4 1/2. With a tenth lost in the wash 13 1/2 takes 15, sold
 * as 18. */
static void test_more_to_buy(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.cloth.allowance = rational_whole(1);
    bench_add(&bench, 320, 32, 2);
    bench_plan(&bench);
    assert_rational(bench.cloth.bought, 9, 1);
    assert_rational(more_to_buy(&bench.cloth, rational_whole(0), UNIT_IN), 0,
                    1);
    assert_rational(more_to_buy(&bench.cloth, rational_make(1, 8), UNIT_IN), 9,
                    2);
    assert_rational(more_to_buy(&bench.cloth, rational_make(13, 2), UNIT_IN), 9,
                    1);
    assert_rational(more_to_buy(&bench.cloth, rational_make(9, 2), UNIT_IN), 9,
                    2);
    bench.bolt.shrinkage = rational_make(1, 10);
    assert_rational(more_to_buy(&bench.cloth, rational_make(9, 2), UNIT_IN), 9,
                    1);
}

/* ---- fat quarters, 21 by 18 ---- */

static void start_quarters(struct bench *bench, struct arena *arena)
{
    bench_start(bench, arena, rational_whole(21));
    bench_sheets(bench, 18);
    bench->cloth.reserve = rational_make(1, 2);
}

/* Four strips of 4 1/2 take all of the 18: three a quarter leave the reserve,
 * and take one more. */
static void test_quarters_take_all(void **state)
{
    struct bench bench;
    start_quarters(&bench, *state);
    bench_add(&bench, 36, 36, 16);
    bench_plan(&bench);
    assert_int_equal(bench.cloth.bought_sheets, 1);
    assert_int_equal(bench.cloth.reserved_sheets, 2);
}

/* Of 24 one quarter holds 16, so that two are bought: twelve from each leave
 * the reserve. */
static void test_quarters_keep_it(void **state)
{
    struct bench bench;
    start_quarters(&bench, *state);
    bench_add(&bench, 36, 36, 24);
    bench_plan(&bench);
    assert_int_equal(bench.cloth.bought_sheets, 2);
    assert_int_equal(bench.cloth.reserved_sheets, 0);
    for (size_t i = 0; i < bench.cloth.sheets.count; i++)
        assert_true(
            rational_compare(sheet_height_spare(&bench.cloth.sheets.items[i]),
                             bench.cloth.reserve) >= 0);
}

/* 48 1/2 and 51 1/2, twice: five strips of 42 less four diagonal joins of 2 are
 * 202, two more than that; five of 41 1/2 would be too short. */
static void test_joined_strips(void **state)
{
    struct small small = small_sew(
        *state, "<quilt id=\"q\"><grid across=\"8\" down=\"8\"><patch "
                "fabric=\"flame\" width=\"6\" height=\"6\"/></grid>"
                "<border fabric=\"night\" width=\"1 1/2\"/></quilt>");
    expect_clean(&small);
    const struct cutplans *plans = plan_cutting(small.run, small.sewn);
    const struct fabric_plan *plan = &plans->items.items[0].fabrics[0];
    assert_int_equal(plan->items.count, 1);
    const struct cut_item *item = &plan->items.items[0];
    assert_int_equal(item->count, 5);
    assert_rational(item->joined_spare, 2, 1);
    assert_int_equal(item->reserved_count, 6);
}

/* 50 by 42 lies along the strip only when it is turned, and then takes all
 * of it; the others leave two inches as they are turned, too. */
static void test_one_that_takes_all_turned(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.cloth.reserve = rational_make(1, 2);
    bench_add(&bench, 400, 336, 1);
    bench_add(&bench, 84, 80, 4);
    bench_plan(&bench);
    assert_rational(longest_but(&bench.cloth, 0), 40, 1);
    assert_false(rational_known(bench.cloth.reserved_bought));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pieces_that_do_not_turn),
        cmocka_unit_test(test_one_that_takes_all_is_not_turned),
        cmocka_unit_test(test_more_to_buy),
        cmocka_unit_test(test_quarters_take_all),
        cmocka_unit_test(test_quarters_keep_it),
        cmocka_unit_test(test_joined_strips),
        cmocka_unit_test(test_one_that_takes_all_turned),
        cmocka_unit_test(test_borders_take_all),
        cmocka_unit_test(test_rest_keeps_it),
        cmocka_unit_test(test_rest_takes_all),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
