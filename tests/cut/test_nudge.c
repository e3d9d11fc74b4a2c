/* What causes the last step of cloth: worked by hand, and as a property. */
#include "bench.h"

static struct cut_nudge nudge(struct bench *bench)
{
    bench_plan(bench);
    return nudge_of(bench->arena, &bench->pattern, &bench->cloth);
}

/* 13 squares of 10 in: four strips and 1 in are 41, sold as 45. 40 1/2 would do
 * but for half an inch, and the last strip holds one square. */
static void test_one_piece(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.cloth.allowance = rational_whole(1);
    bench_add(&bench, 80, 80, 13);
    const struct cut_nudge found = nudge(&bench);
    assert_true(found.possible);
    assert_rational(bench.cloth.needed, 41, 1);
    assert_rational(bench.cloth.bought, 45, 1);
    assert_rational(found.less, 81, 2);
    assert_rational(found.over, 1, 2);
    assert_int_equal(found.pieces, 1);
    assert_int_equal(found.causes.count, 1);
    assert_int_equal(found.causes.items[0].count, 1);
}

/* Full strips of the same: four squares. */
static void test_a_strip(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.cloth.allowance = rational_whole(1);
    bench_add(&bench, 80, 80, 16);
    const struct cut_nudge found = nudge(&bench);
    assert_int_equal(found.pieces, 4);
}

/* Two sizes: 5 strips of 2 1/2 and 1 in are exactly 13 1/2, so nothing is over;
 * the whole last step of 4 1/2 would have to go, and that takes two strips, of
 * which the one of a single long piece is the first. */
static void test_two_strips(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.cloth.allowance = rational_whole(1);
    bench_add(&bench, 336, 20, 1);
    bench_add(&bench, 20, 20, 64);
    const struct cut_nudge found = nudge(&bench);
    assert_rational(bench.cloth.bought, 27, 2);
    assert_rational(found.over, 9, 2);
    assert_int_equal(found.pieces, 17);
    assert_int_equal(found.causes.count, 2);
}

/* An eighth of a yard is the least that is sold. */
static void test_the_least(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 20, 20, 3);
    assert_false(nudge(&bench).possible);
}

/* 56 squares of 2 1/2 fill a fat quarter of 18 x 21; two more are on a second
 * one. */
static void test_a_sheet(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(21));
    bench_sheets(&bench, 18);
    bench_add(&bench, 20, 20, 58);
    const struct cut_nudge found = nudge(&bench);
    assert_int_equal(bench.cloth.bought_sheets, 2);
    assert_true(found.possible);
    assert_int_equal(found.pieces, 2);
}

/* ---- against all sets of strips ---- */

/* The fewest pieces of strips that are `over` high together, by trying all. */
static size_t fewest(const struct fabric_plan *plan, size_t from, size_t left,
                     struct rational over, size_t pieces)
{
    if (rational_sign(over) <= 0)
        return pieces;
    if (from == plan->strips.count)
        return SIZE_MAX;
    const struct strip *strip = &plan->strips.items[from];
    size_t in_strip = 0, in_last = 0;
    for (size_t i = 0; i < strip->cuts.count; i++)
        in_strip += strip->cuts.items[i].count;
    for (size_t i = 0; i < strip->last.count; i++)
        in_last += strip->last.items[i].count;
    const bool last = left == 1 && strip->last.count > 0;
    const size_t next = left > 1 ? from : from + 1;
    const size_t room = left > 1 ? left - 1
                        : next < plan->strips.count
                            ? plan->strips.items[next].repeat
                            : 0;
    const size_t stay = fewest(plan, next, room, over, pieces);
    const size_t go =
        fewest(plan, next, room, rational_sub(over, strip->height),
               pieces + (last ? in_last : in_strip));
    return go < stay ? go : stay;
}

static void test_fewest(void **state)
{
    (void)state;
    size_t told = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct arena *arena = arena_create();
        struct unit_random random = {seed * 2654435761u + 7};
        struct bench bench;
        bench_start(&bench, arena, rational_whole(42));
        for (int64_t n = 1 + unit_below(&random, 3); n > 0; n--) {
            const int64_t width = 12 + unit_below(&random, 60);
            const int64_t height = 12 + unit_below(&random, 60);
            bench_add(&bench, width, height,
                      1 + (size_t)unit_below(&random, 30));
        }
        const struct cut_nudge found = nudge(&bench);
        if (bench_strips(&bench) <= 16 && rational_sign(found.less) > 0) {
            told++;
            const struct rational over =
                rational_sub(bench.cloth.needed, found.less);
            const size_t least = fewest(
                &bench.cloth, 0, bench.cloth.strips.items[0].repeat, over, 0);
            assert_int_equal(found.possible, least != SIZE_MAX);
            assert_int_equal(found.pieces, found.possible ? least : 0);
        }
        arena_destroy(arena);
    }
    assert_true(told > 20);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_piece),  cmocka_unit_test(test_a_strip),
        cmocka_unit_test(test_two_strips), cmocka_unit_test(test_the_least),
        cmocka_unit_test(test_a_sheet),    cmocka_unit_test(test_fewest),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
