/* What a search may take, and what of a cloth its plan depends on. */
#include "bench.h"

/* Twelve sizes get what a single list of twelve gets, six half of it, and fewer
 * no less. */
static void test_work_grows_with_the_sizes(void **state)
{
    (void)state;
    static const size_t counts[] = {1, 6, 9, 11, 12, 13, 40};
    static const uint64_t twelfths[] = {6, 6, 9, 11, 12, 12, 12};
    for (size_t i = 0; i < UNIT_COUNT(counts); i++) {
        const struct roll_problem problem = {.count = counts[i]};
        assert_int_equal(
            list_work(&problem),
            roll_work(&problem) / 12 * twelfths[i] +
                (twelfths[i] == 12 ? roll_work(&problem) % 12 : 0));
    }
}

/* Only strips of more than one layer are subcut folded. */
static void test_one_layer_has_no_fold(void **state)
{
    static const size_t layers[] = {1, 2, 4};
    for (size_t i = 0; i < UNIT_COUNT(layers); i++) {
        struct bench bench;
        bench_start(&bench, *state, rational_whole(42));
        bench.bolt.layers = layers[i];
        bench_add(&bench, 36, 20, 7);
        assert_int_equal(start_way(*state, &bench.cloth).problem.folded,
                         layers[i] > 1);
    }
}

/* ---- choices that are made before ---- */

static void start_random(struct bench *bench, struct arena *arena,
                         uint64_t seed)
{
    struct unit_random random = {seed};
    bench_start(bench, arena, rational_whole(42));
    const int64_t sizes = 4 + unit_below(&random, 5);
    for (int64_t i = 0; i < sizes; i++) {
        const int64_t width = 12 + unit_below(&random, 120);
        const int64_t height = 12 + unit_below(&random, 80);
        bench_add(bench, width, height, 1 + (size_t)unit_below(&random, 12));
    }
}

static bool same_strips(const struct fabric_plan *a,
                        const struct fabric_plan *b)
{
    if (a->strips.count != b->strips.count)
        return false;
    for (size_t i = 0; i < a->strips.count; i++) {
        const struct strip *left = &a->strips.items[i];
        const struct strip *right = &b->strips.items[i];
        if (!rational_equal(left->height, right->height) ||
            left->repeat != right->repeat ||
            left->cuts.count != right->cuts.count)
            return false;
        for (size_t k = 0; k < left->cuts.count; k++)
            if (left->cuts.items[k].item != right->cuts.items[k].item ||
                left->cuts.items[k].count != right->cuts.items[k].count)
                return false;
    }
    return true;
}

/* A cloth that is cut in one layer has the same pieces and is planned first:
 * the plan of the folded cloth is that which it has alone. */
static void test_layers_choose_for_themselves(void **state)
{
    size_t unlike = 0;
    for (uint64_t seed = 1; seed <= 30; seed++) {
        struct bench alone, single, folded;
        start_random(&alone, *state, seed);
        bench_plan(&alone);
        start_random(&single, *state, seed);
        single.bolt.layers = 1;
        bench_plan(&single);
        start_random(&folded, *state, seed);
        folded.cutter.choices = &single.choices;
        bench_plan(&folded);
        assert_true(same_strips(&folded.cloth, &alone.cloth));
        unlike += !same_strips(&single.cloth, &alone.cloth);
    }
    print_message("# %zu of 30 plans differ by layers\n", unlike);
    assert_true(unlike > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_work_grows_with_the_sizes),
        cmocka_unit_test(test_one_layer_has_no_fold),
        cmocka_unit_test(test_layers_choose_for_themselves),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
