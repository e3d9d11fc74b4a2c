/* Strips as hands cut them: folded, in pairs, what is odd from the opened end;
 * with a reserve of their length, stacked as high as the pattern says. */
#include "bench.h"

/* ---- the fold ---- */

static struct strip_work work_of(const struct bench *bench, size_t line,
                                 bool last)
{
    return fold_strip(bench->arena, &bench->cloth,
                      &bench->cloth.strips.items[line], last);
}

static void even_numbers_are_cut_folded(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 20, 20, 16); /* 2 1/2 in */
    bench_plan(&bench);
    const struct strip_work work = work_of(&bench, 0, false);
    assert_int_equal(work.pairs.count, 1);
    assert_int_equal(work.pairs.items[0].count, 8);
    assert_int_equal(work.singles.count, 0);
    assert_rational(work.folded, 20, 1);
    assert_rational(work.opened, 2, 1);
    /* One strip, its ends, eight cuts. */
    assert_int_equal(hand_cuts(&bench.cloth), 10);
}

static void odd_ones_come_from_the_fold(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 40, 40, 7); /* 5 in */
    bench_plan(&bench);
    const struct strip_work work = work_of(&bench, 0, false);
    assert_int_equal(work.pairs.items[0].count, 3);
    assert_int_equal(work.singles.items[0].count, 1);
    assert_rational(work.opened, 12, 1);
    const struct placement placed = place_strip(
        bench.arena, &bench.cloth, &bench.cloth.strips.items[0], false);
    for (size_t i = 0; i < placed.pieces.count; i++) {
        const struct placed_piece *piece = &placed.pieces.items[i];
        const bool across =
            rational_compare(piece->x, rational_whole(21)) < 0 &&
            rational_compare(rational_add(piece->x, piece->width),
                             rational_whole(21)) > 0;
        assert_true(!(piece->paired && across));
    }
}

static void long_pieces_open_their_strip(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 8 * 30, 20, 1);
    bench_add(&bench, 20, 20, 4);
    bench_plan(&bench);
    const struct strip_work work = work_of(&bench, 0, false);
    assert_int_equal(work.pairs.count, 0);
    assert_int_equal(work.singles.count, 2);
    assert_rational(work.opened, 42, 1);
}

/* A border is cut to its length when the top is measured: all else comes off
 * the strip before, folded where it pairs, and the border keeps the rest. */
static void borders_keep_the_rest(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 8 * 28, 20, 1);
    bench.cloth.items.items[0].use = CUT_BORDER;
    bench_add(&bench, 20, 20, 4);
    bench_plan(&bench);
    assert_int_equal(bench_strips(&bench), 1);
    const struct strip_work work = work_of(&bench, 0, false);
    assert_int_equal(work.pairs.count, 1);
    assert_int_equal(work.pairs.items[0].item, 1);
    assert_int_equal(work.pairs.items[0].count, 2);
    assert_int_equal(work.singles.count, 1);
    assert_int_equal(work.singles.items[0].item, 0);
    assert_true(keeps_rest(&bench.cloth, &work.singles.items[0]));
    assert_rational(work.opened, 32, 1);
    assert_true(cutplan_holds(&bench.cloth));
}

/* One that lies across its strip is as long as the strip is high. */
static void borders_across_a_strip_are_cut(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench_add(&bench, 8 * 28, 20, 1);
    bench.cloth.items.items[0].use = CUT_BORDER;
    const struct strip_cut along = {0, 1, 1, rational_whole(28),
                                    rational_make(5, 2)};
    const struct strip_cut across = {0, 1, 1, rational_make(5, 2),
                                     rational_whole(28)};
    assert_true(keeps_rest(&bench.cloth, &along));
    assert_false(keeps_rest(&bench.cloth, &across));
    /* Alone in its strip it leaves that whole, unless it is to be trimmed. */
    struct strip strip = {.height = rational_make(5, 2), .repeat = 1};
    *LIST_ADD(bench.arena, &strip.cuts) = along;
    assert_true(is_left_whole(&bench.cloth, &strip));
    strip.height = rational_whole(3);
    assert_false(is_left_whole(&bench.cloth, &strip));
    bench.cloth.items.items[0].use = CUT_PIECE;
    assert_false(keeps_rest(&bench.cloth, &along));
}

static void one_layer_is_never_folded(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.bolt.layers = 1;
    bench_add(&bench, 20, 20, 32);
    bench_plan(&bench);
    assert_int_equal(work_of(&bench, 0, false).pairs.count, 0);
    /* Two strips, each with its end and sixteen cuts. */
    assert_int_equal(hand_cuts(&bench.cloth), 2 + 2 * 17);
}

static void like_strips_are_stacked(void **state)
{
    static const size_t layers[] = {2, 4};
    static const size_t cuts[] = {4 + 4 * 9, 4 + 2 * 9};
    for (int i = 0; i < 2; i++) {
        struct bench bench;
        bench_start(&bench, *state, rational_whole(42));
        bench.bolt.layers = layers[i];
        bench_add(&bench, 20, 20, 64);
        bench_plan(&bench);
        assert_int_equal(bench_strips(&bench), 4);
        assert_int_equal(hand_cuts(&bench.cloth), cuts[i]);
    }
}

/* 36 of 3 1/2 in four strips: ten, ten, ten and six are cut folded, nine each
 * would be opened four times. */
static void lines_get_even_numbers(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.bolt.reserve = bench.cloth.reserve = rational_make(1, 2);
    bench.pattern.allowance = rational_whole(0);
    bench_add(&bench, 28, 28, 36);
    bench_add(&bench, 8 * 20, 8 * 8, 1);
    bench_plan(&bench);
    for (size_t i = 0; i < bench.cloth.strips.count; i++) {
        const struct strip *strip = &bench.cloth.strips.items[i];
        if (strip->cuts.items[0].item != 0)
            continue;
        assert_int_equal(strip->cuts.items[0].count % 2, 0);
        for (size_t k = 0; k < strip->last.count; k++)
            assert_int_equal(strip->last.items[k].count % 2, 0);
    }
}

/* ---- the reserve ---- */

/* Twelve of 3 1/2 in fill the width; one of them in another strip costs
 * nothing, as that cloth is bought anyway. */
static void reserve_is_kept_where_it_is_free(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.bolt.reserve = bench.cloth.reserve = rational_make(1, 2);
    bench_add(&bench, 28, 28, 12);
    bench_add(&bench, 20, 20, 4);
    bench_plan(&bench);
    for (size_t i = 0; i < bench.cloth.strips.count; i++)
        assert_true(rational_compare(
                        strip_spare(&bench.cloth, &bench.cloth.strips.items[i]),
                        rational_make(1, 2)) >= 0);
    assert_false(rational_known(bench.cloth.reserved_bought));
}

/* Thirty strips that take all of the width stay so, as the reserve would cost
 * cloth; what it would cost is known. */
static void reserve_that_costs_is_told(void **state)
{
    struct bench bench;
    bench_start(&bench, *state, rational_whole(42));
    bench.bolt.reserve = bench.cloth.reserve = rational_make(1, 2);
    bench_add(&bench, 28, 28, 360);
    bench_plan(&bench);
    assert_int_equal(bench_strips(&bench), 30);
    assert_rational(strip_spare(&bench.cloth, &bench.cloth.strips.items[0]), 0,
                    1);
    /* 33 strips, 115 1/2 in. */
    assert_rational(bench.cloth.reserved_bought, 117, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(even_numbers_are_cut_folded),
        cmocka_unit_test(odd_ones_come_from_the_fold),
        cmocka_unit_test(long_pieces_open_their_strip),
        cmocka_unit_test(borders_keep_the_rest),
        cmocka_unit_test(borders_across_a_strip_are_cut),
        cmocka_unit_test(one_layer_is_never_folded),
        cmocka_unit_test(like_strips_are_stacked),
        cmocka_unit_test(lines_get_even_numbers),
        cmocka_unit_test(reserve_is_kept_where_it_is_free),
        cmocka_unit_test(reserve_that_costs_is_told),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
