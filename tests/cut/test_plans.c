/* Random lists: every piece lies in one strip, inside its cloth; plans are
 * the same each time; and a plan that is broken is found out. */
#include "bench.h"

/* A list of up to ten sizes on yardage or on sheets. */
static void random_list(struct bench *bench, struct arena *arena, uint64_t seed)
{
    struct unit_random random = {seed * 2654435761u + 7};
    for (int i = 0; i < 8; i++)
        unit_next(&random);
    const bool sheets = unit_below(&random, 3) == 0;
    bench_start(bench, arena, rational_whole(sheets ? 21 : 42));
    if (sheets)
        bench_sheets(bench, 18);
    bench->fabric.one_way = unit_below(&random, 4) == 0;
    for (int64_t n = 1 + unit_below(&random, 10); n > 0; n--)
        bench_add(bench, 8 + unit_below(&random, 110),
                  8 + unit_below(&random, 110),
                  1 + (size_t)unit_below(&random, 60));
}

static struct rational strip_area(const struct fabric_plan *plan)
{
    return rational_mul(plan->cut_height, plan->strip_length);
}

static struct rational piece_area(const struct fabric_plan *plan)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        area = rational_add(
            area, rational_times(rational_mul(item->width, item->height),
                                 (int64_t)item->count));
    }
    return area;
}

/* Counted anew, apart from cutplan_holds: pieces, lengths, sheets. */
static void check_plan(const struct fabric_plan *plan)
{
    size_t placed[16] = {0}, in_sheets = 0, strips = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        struct rational used = rational_whole(0);
        strips += strip->repeat;
        assert_true(strip->repeat > 0);
        for (size_t k = 0; k < strip->cuts.count; k++) {
            const struct strip_cut cut = strip->cuts.items[k];
            const struct cut_item *item = &plan->items.items[cut.item];
            placed[cut.item] += cut.count * strip->repeat;
            used = rational_add(used, rational_times(item->width,
                                                     (int64_t)cut.count));
            assert_true(rational_equal(item->height, strip->height));
        }
        assert_true(rational_equal(used, strip->used));
        assert_true(rational_compare(used, plan->strip_length) <= 0);
    }
    for (size_t i = 0; i < plan->items.count; i++)
        assert_int_equal(placed[i], plan->items.items[i].count);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        struct rational used = rational_whole(0);
        for (size_t k = 0; k < sheet->strips.count; k++)
            used = rational_add(
                used, plan->strips.items[sheet->strips.items[k]].height);
        assert_true(rational_equal(used, sheet->used));
        assert_true(rational_compare(used, plan->sheet_height) <= 0);
        in_sheets += sheet->strips.count * sheet->repeat;
    }
    if (rational_sign(plan->sheet_height) > 0)
        assert_int_equal(in_sheets, strips);
}

enum { LISTS = 600 };

static void test_random_lists(void **state)
{
    (void)state;
    size_t on_sheets = 0;
    for (uint64_t seed = 1; seed <= LISTS; seed++) {
        struct arena *arena = arena_create();
        struct bench bench;
        random_list(&bench, arena, seed);
        bench_plan(&bench);
        check_plan(&bench.cloth);
        assert_true(rational_compare(piece_area(&bench.cloth),
                                     strip_area(&bench.cloth)) <= 0);
        on_sheets += bench.cloth.sheets.count > 0;
        arena_destroy(arena);
    }
    assert_in_range(on_sheets, LISTS / 6, LISTS / 2);
}

/* A print that runs one way keeps its width along the strip. */
static void test_one_way(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.fabric.one_way = true;
    bench_add(&bench, 16, 160, 5);
    bench_plan(&bench);
    assert_rational(bench.cloth.items.items[0].width, 2, 1);
    assert_rational(bench.cloth.cut_height, 20, 1);
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 16, 160, 5);
    bench_plan(&bench);
    assert_rational(bench.cloth.items.items[0].width, 20, 1);
    assert_rational(bench.cloth.cut_height, 6, 1);
}

static void assert_same_plan(const struct fabric_plan *a,
                             const struct fabric_plan *b)
{
    assert_int_equal(a->strips.count, b->strips.count);
    for (size_t i = 0; i < a->strips.count; i++) {
        const struct strip *p = &a->strips.items[i], *q = &b->strips.items[i];
        assert_true(rational_equal(p->height, q->height));
        assert_int_equal(p->repeat, q->repeat);
        assert_int_equal(p->cuts.count, q->cuts.count);
        for (size_t k = 0; k < p->cuts.count; k++) {
            assert_int_equal(p->cuts.items[k].item, q->cuts.items[k].item);
            assert_int_equal(p->cuts.items[k].count, q->cuts.items[k].count);
        }
    }
    assert_int_equal(a->sheets.count, b->sheets.count);
    assert_int_equal(a->bought_sheets, b->bought_sheets);
    assert_true(rational_equal(a->bought, b->bought));
}

static void test_same_each_time(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct arena *arena = arena_create();
        struct bench first, second;
        random_list(&first, arena, seed);
        random_list(&second, arena, seed);
        bench_plan(&first);
        bench_plan(&second);
        assert_same_plan(&first.cloth, &second.cloth);
        arena_destroy(arena);
    }
}

/* Twice as many of each never take less cloth. */
static void test_more_pieces(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 100; seed++) {
        struct arena *arena = arena_create();
        struct bench once, twice;
        random_list(&once, arena, seed);
        random_list(&twice, arena, seed);
        for (size_t i = 0; i < twice.cloth.items.count; i++)
            twice.cloth.items.items[i].count *= 2;
        bench_plan(&once);
        bench_plan(&twice);
        check_plan(&twice.cloth);
        assert_true(rational_compare(twice.cloth.cut_height,
                                     once.cloth.cut_height) >= 0);
        arena_destroy(arena);
    }
}

/* ---- broken plans ---- */

static void fresh_sheets(struct bench *bench, struct arena *arena)
{
    bench_start(bench, arena, rational_whole(21));
    bench_sheets(bench, 18);
    bench_add(bench, 52, 52, 7);
    bench_add(bench, 20, 20, 30);
    bench_plan(bench);
}

static void test_broken_plans(void **state)
{
    struct bench bench;
    fresh_sheets(&bench, *state);
    bench.cloth.items.items[0].count++;
    assert_false(cutplan_holds(&bench.cloth)); /* a piece too few */
    fresh_sheets(&bench, *state);
    bench.cloth.strips.items[0].repeat++;
    assert_false(cutplan_holds(&bench.cloth)); /* a strip too many */
    fresh_sheets(&bench, *state);
    bench.cloth.strip_length = rational_whole(19);
    assert_false(cutplan_holds(&bench.cloth)); /* narrower cloth */
    fresh_sheets(&bench, *state);
    bench.cloth.strips.items[0].height = rational_whole(6);
    assert_false(cutplan_holds(&bench.cloth)); /* a lower strip */
    fresh_sheets(&bench, *state);
    bench.cloth.sheet_height = rational_whole(13);
    assert_false(cutplan_holds(&bench.cloth)); /* lower sheets */
    fresh_sheets(&bench, *state);
    bench.cloth.sheets.count--;
    assert_false(cutplan_holds(&bench.cloth)); /* strips in no sheet */
}

/* What fits no way is told once, with the cloth's size. */
static void test_too_wide(void **state)
{
    struct small s = small_sew(
        *state, "<quilt id=\"q\"><patch fabric=\"night\" width=\"42\" "
                "height=\"50\"/></quilt>");
    expect_clean(&s);
    plan_cutting(s.run, s.sewn);
    assert_true(says(expect_only(&s, DIAG_TOO_WIDE, "<cloth fabric=\"night\"",
                                 "night"), "50 1/2 x 42 1/2"));
    s = small_sew(*state, "<quilt id=\"q\"><patch fabric=\"night\" "
                          "width=\"41 1/2\" height=\"50\"/></quilt>");
    plan_cutting(s.run, s.sewn);
    expect_clean(&s);
}

/* A sold amount that is stated holds, or is told with the right one: 82
 * squares of 6 1/2 take 91 in. */
static void test_stated_yards(void **state)
{
    static const char *const form =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"s\" title=\"S\" "
        "allowance=\"1/8\">\n<fabrics><fabric id=\"night\"/></fabrics>"
        "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"#000000\" "
        "yards=\"%s\"/></colorway><quilt id=\"q\"><grid across=\"41\" "
        "down=\"2\"><patch fabric=\"night\" width=\"6\" height=\"6\"/></grid>"
        "</quilt></pattern>";
    struct small s =
        small_whole(*state, arena_printf(*state, form, "2 5/8"));
    small_finish(&s);
    plan_cutting(s.run, s.sewn);
    expect_clean(&s);
    s = small_whole(*state, arena_printf(*state, form, "2 1/2"));
    small_finish(&s);
    plan_cutting(s.run, s.sewn);
    const struct diagnostic *d =
        expect_only(&s, DIAG_YARDAGE, "yards=\"2 1/2\"", "2 1/2");
    assert_string_equal(d->replacement, "2 5/8");
    s = small_whole(*state, arena_printf(*state, form, "2 5/8, 3"));
    small_finish(&s);
    plan_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"", "2 5/8, 3");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_lists),
        cmocka_unit_test(test_one_way),
        cmocka_unit_test(test_same_each_time),
        cmocka_unit_test(test_more_pieces),
        cmocka_unit_test(test_broken_plans),
        cmocka_unit_test(test_too_wide),
        cmocka_unit_test(test_stated_yards),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
