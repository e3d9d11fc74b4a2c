/* Plans of strips: against exhaustive search on small lists, and as properties
 * of many random ones. The lists are invented. */
#include <stdlib.h>

#include "../unit.h"
#include "buffer.h"
#include "piece_list.h"
#include "roll_master.h"

static uint64_t seed = 1;

static size_t chance(size_t below)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return (size_t)(seed % below);
}

static struct roll_problem random_list(struct arena *arena, size_t most,
                                       size_t demand, int64_t width)
{
    struct roll_problem problem = {.width = width, .trimmed = chance(2) == 1};
    problem.count = 1 + chance(most);
    struct roll_size *sizes =
        ARENA_ARRAY(arena, struct roll_size, problem.count);
    for (size_t i = 0; i < problem.count; i++)
        sizes[i] = (struct roll_size){1 + (int64_t)chance((size_t)width),
                                      1 + (int64_t)chance((size_t)width),
                                      1 + chance(demand), chance(2) == 1, ""};
    problem.sizes = sizes;
    return problem;
}

/* ---- one strip, against all counts ---- */

static int64_t best_by_trial(const struct roll_master *master, size_t height,
                             const int64_t *worth, const size_t *most,
                             size_t from, int64_t room)
{
    const struct roll_height *strip = &master->heights.items[height];
    if (from == strip->ways.count)
        return 0;
    const struct roll_way *way = &strip->ways.items[from];
    int64_t best = 0;
    for (size_t n = 0; n <= most[way->size] && (int64_t)n * way->along <= room;
         n++) {
        const int64_t value =
            (int64_t)n * worth[way->size] +
            best_by_trial(master, height, worth, most, from + 1,
                          room - (int64_t)n * way->along);
        best = value > best ? value : best;
    }
    return best;
}

static void test_a_strip_is_filled_as_well_as_can_be(void **state)
{
    for (int n = 0; n < 400; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(arena, 4, 4, 20);
        struct roll_master master;
        assert_true(roll_master_init(&master, arena, &problem) ||
                    problem.count > 0);
        int64_t worth[4];
        size_t most[4], made[4];
        for (size_t i = 0; i < problem.count; i++) {
            worth[i] = 1 + (int64_t)chance(50);
            most[i] = problem.sizes[i].demand;
        }
        for (size_t k = 0; k < master.heights.count; k++) {
            const int64_t value = roll_knapsack(&master, k, worth, most, made);
            assert_int_equal(value, best_by_trial(&master, k, worth, most, 0,
                                                  problem.width));
            int64_t told = 0;
            for (size_t i = 0; i < problem.count; i++)
                told += worth[i] * (int64_t)made[i];
            assert_int_equal(told, value);
        }
        arena_destroy(arena);
    }
    (void)state;
}

/* ---- whole lists, against all plans of tiny ones ---- */

/* The least length for what is left: the first size that is left is put into
 * some strip, with every filling of the rest of that strip. */
static int64_t least_length(struct roll_master *master, size_t *left,
                            int64_t limit);

static int64_t fill_rest(struct roll_master *master, size_t height, size_t from,
                         int64_t room, size_t *left, int64_t limit)
{
    const struct roll_height *strip = &master->heights.items[height];
    if (from == strip->ways.count) {
        const int64_t rest = least_length(master, left, limit - strip->height);
        return rest + strip->height;
    }
    const struct roll_way *way = &strip->ways.items[from];
    int64_t best = INT32_MAX;
    const size_t most = left[way->size];
    for (size_t n = 0; n <= most && (int64_t)n * way->along <= room; n++) {
        left[way->size] = most - n;
        const int64_t value =
            fill_rest(master, height, from + 1, room - (int64_t)n * way->along,
                      left, best < limit ? best : limit);
        best = value < best ? value : best;
    }
    left[way->size] = most;
    return best;
}

static int64_t least_length(struct roll_master *master, size_t *left,
                            int64_t limit)
{
    size_t first = 0;
    while (first < master->problem->count && left[first] == 0)
        first++;
    if (first == master->problem->count)
        return 0;
    int64_t best = INT32_MAX;
    if (limit <= 0)
        return best;
    for (size_t k = 0; k < master->heights.count; k++) {
        const struct roll_height *strip = &master->heights.items[k];
        for (size_t i = 0; i < strip->ways.count; i++) {
            if (strip->ways.items[i].size != first)
                continue;
            left[first]--;
            const int64_t value =
                fill_rest(master, k, 0,
                          master->problem->width - strip->ways.items[i].along,
                          left, best < limit ? best : limit);
            left[first]++;
            best = value < best ? value : best;
        }
    }
    return best;
}

static void test_tiny_lists_are_planned_best(void **state)
{
    size_t met = 0, bound_met = 0, lists = 0;
    for (int n = 0; n < 150; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(arena, 3, 2, 9);
        struct roll_master master;
        const struct roll_plan *plan = plan_roll(arena, &problem, 60000000);
        if (plan != NULL) {
            roll_master_init(&master, arena, &problem);
            size_t left[3];
            for (size_t i = 0; i < problem.count; i++)
                left[i] = problem.sizes[i].demand;
            const int64_t least = least_length(&master, left, INT32_MAX);
            assert_true(roll_plan_holds(&problem, plan));
            assert_true(plan->bound <= least);
            assert_true(least <= plan->length);
            met += plan->length == least;
            bound_met += plan->bound == least;
            lists++;
        }
        arena_destroy(arena);
    }
    print_message("# %zu of %zu least, bound met %zu\n", met, lists, bound_met);
    assert_true(lists > 100);
    assert_int_equal(met, lists);
    assert_true(bound_met * 10 > lists * 7);
    (void)state;
}

/* ---- properties ---- */

static void test_many_lists(void **state)
{
    for (int n = 0; n < 300; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(arena, 12, 60, 84);
        const struct roll_plan *hand = plan_roll_by_hand(arena, &problem);
        const struct roll_plan *plan = plan_roll(arena, &problem, 400000);
        assert_int_equal(hand == NULL, plan == NULL);
        if (plan != NULL) {
            assert_true(roll_plan_holds(&problem, hand));
            assert_true(roll_plan_holds(&problem, plan));
            assert_true(plan->length <= hand->length);
            const struct roll_plan *again = plan_roll(arena, &problem, 400000);
            assert_int_equal(again->length, plan->length);
            assert_int_equal(again->strips.count, plan->strips.count);
        }
        arena_destroy(arena);
    }
    (void)state;
}

static size_t effort_of(const struct roll_problem *problem,
                        const struct roll_plan *plan)
{
    const struct roll_effort effort = roll_effort(problem, plan);
    return effort.lines + effort.settings + effort.trims;
}

static void test_simple_plans(void **state)
{
    for (int n = 0; n < 100; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(arena, 8, 60, 84);
        const struct roll_plan *hand = plan_roll_by_hand(arena, &problem);
        const struct roll_plan *plan = plan_roll(arena, &problem, 400000);
        if (plan != NULL) {
            const struct roll_plan *simple =
                simplify_roll(arena, &problem, plan, hand->length, 400000);
            assert_non_null(simple);
            assert_true(roll_plan_holds(&problem, simple));
            assert_true(simple->length <= hand->length);
            assert_true(effort_of(&problem, simple) <=
                        effort_of(&problem, hand));
        }
        arena_destroy(arena);
    }
    (void)state;
}

/* Ten thousand lists: never longer than by hand, whatever the work. */
static void test_never_worse_than_by_hand(void **state)
{
    size_t shorter = 0, proved = 0, plans = 0;
    for (int n = 0; n < 10000; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(arena, 8, 20, 48);
        const struct roll_plan *hand = plan_roll_by_hand(arena, &problem);
        const struct roll_plan *plan = plan_roll(arena, &problem, 60000);
        assert_int_equal(hand == NULL, plan == NULL);
        if (plan != NULL) {
            assert_true(roll_plan_holds(&problem, plan));
            assert_true(plan->length <= hand->length);
            plans++;
            shorter += plan->length < hand->length;
            proved += plan->length == plan->bound;
        }
        arena_destroy(arena);
    }
    print_message("# %zu plans, %zu shorter than by hand, %zu proved\n", plans,
                  shorter, proved);
    assert_true(shorter * 2 > plans);
    (void)state;
}

/* A plan that lacks a piece, or whose strip is too long, does not hold. */
static void test_the_proof_can_fail(void **state)
{
    struct arena *arena = *state;
    static const struct roll_size sizes[] = {{5, 4, 7, true, "a"},
                                             {9, 4, 3, false, "b"}};
    const struct roll_problem problem = {42, false, sizes, 2, false};
    struct roll_plan *plan = plan_roll(arena, &problem, 100000);
    assert_true(roll_plan_holds(&problem, plan));
    plan->strips.items[0].cuts.items[0].count--;
    assert_false(roll_plan_holds(&problem, plan));
    plan->strips.items[0].cuts.items[0].count += 9;
    assert_false(roll_plan_holds(&problem, plan));
}

/* ---- lists of pieces ---- */

static void test_lists_are_read(void **state)
{
    struct arena *arena = *state;
    const struct piece_list list = read_piece_list(
        arena,
        "# harbor mat\nwidth 42\nunit 8\n\n2.5 2-1/2 96 squares\n4.875 3 1\n",
        true);
    assert_null(list.problem_text);
    assert_int_equal(list.problem.count, 2);
    assert_int_equal(list.problem.width, 336);
    assert_int_equal(list.problem.sizes[0].width, 20);
    assert_int_equal(list.problem.sizes[1].width, 39);
    assert_string_equal(list.problem.sizes[0].name, "squares");
}

/* Mixed numbers as elsewhere in the language, names of several words, a mark of
 * the byte order, and words behind a hash. */
static void test_list_forms(void **state)
{
    const struct piece_list list = read_piece_list(
        *state, "\xEF\xBB\xBFwidth 42\n2 1/2 2 1/2 4 sun and moon \n2 4 3\n",
        true);
    assert_null(list.problem_text);
    assert_int_equal(list.problem.count, 2);
    assert_true(rational_equal(rational_times(list.step, list.problem.sizes[0].width),
                               rational_make(5, 2)));
    assert_true(rational_equal(rational_times(list.step, list.problem.sizes[0].height),
                               rational_make(5, 2)));
    assert_int_equal(list.problem.sizes[0].demand, 4);
    assert_string_equal(list.problem.sizes[0].name, "sun and moon");
    assert_int_equal(list.unit, UNIT_IN);
}

/* Written in centimetres, planned in centimetres. */
static void test_list_centimetres(void **state)
{
    const struct piece_list list =
        read_piece_list(*state, "6.5 6.5 4\nwidth 106cm\n1in 2 3\n", true);
    assert_null(list.problem_text);
    assert_int_equal(list.unit, UNIT_CM);
    assert_true(rational_equal(rational_times(list.step, list.problem.sizes[0].width),
                               rational_make(13, 2)));
    assert_true(rational_equal(rational_times(list.step, list.problem.sizes[1].width),
                               rational_make(127, 50)));
}

/* What is told, and where. */
static void test_list_messages(void **state)
{
    static const struct {
        const char *list, *told;
    } cases[] = {
        {"", "no line says the width of the cloth: width 42"},
        {"width 42\n", "the list has no pieces"},
        {"width 42\n2 1/2 4 squares\n",
         "line 2: behind the two lengths, `squares` is no count above 0"},
        {"width 42\n2 2 4 5 squares\n",
         "line 2: a size is two lengths, a count and a name, which does not "
         "begin with a digit: `5 squares`"},
        {"width 42\nwidth 44\n2 2 4\n",
         "line 2: `width` stands in line 1 already"},
        {"width 42 in wide\n2 2 4\n",
         "line 1: nothing is expected here: `in wide`"},
        {"width 42\n2 2 1000000\n",
         "line 2: a count of more than 999999 pieces"},
        {"width 10\n2 2 4\n12 11 1/2 1 moon\n",
         "line 3: `moon`, 12 by 11 1/2 is wider than the cloth"},
        {"width 21\nheight 18\n19 19 1\n",
         "line 3: a piece of 19 by 19 is larger than the sheet"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_string_equal(
            read_piece_list(*state, cases[i].list, true).problem_text,
            cases[i].told);
}

static void test_list_mistakes(void **state)
{
    static const char *const wrong[] = {"",
                                        "width 42\n",
                                        "2 2 3\n",
                                        "width x\n2 2 3\n",
                                        "width 0\n",
                                        "width 42\n2 2\n",
                                        "width 42\n2 2 0\n",
                                        "width 42\n2 -2 1\n",
                                        "width 42\n2 2 3.5\n",
                                        "width 42\n2 2 99999999999\n"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_non_null(read_piece_list(*state, wrong[i], true).problem_text);
}

/* As many sizes as there may be, and one more. */
static void test_list_limits(void **state)
{
    struct buffer text = buffer_in(*state);
    buffer_text(&text, "width 42\n");
    for (int i = 1; i <= 1000; i++)
        buffer_printf(&text, "%d/30 1 2 p\n", i);
    assert_null(
        read_piece_list(*state, buffer_string(&text), true).problem_text);
    struct buffer beside = buffer_in(*state);
    buffer_printf(&beside, "%sleftover 9 9 1\n", buffer_string(&text));
    assert_string_equal(
        read_piece_list(*state, buffer_string(&beside), true).problem_text,
        "more than 400 sizes beside leftovers");
    buffer_text(&text, "2 2 4\n");
    assert_string_equal(
        read_piece_list(*state, buffer_string(&text), true).problem_text,
        "line 1002: more than 1,000 sizes");
}

static void test_leftover_limits(void **state)
{
    struct buffer text = buffer_in(*state);
    buffer_text(&text, "width 42\n2 2 4\n");
    for (int i = 1; i <= 50; i++)
        buffer_printf(&text, "leftover 9 %d 1\n", i);
    assert_null(
        read_piece_list(*state, buffer_string(&text), true).problem_text);
    buffer_text(&text, "leftover 9 51 1\n");
    assert_non_null(
        read_piece_list(*state, buffer_string(&text), true).problem_text);
}

/* Lists beyond the limit of the other plans. With hardly any work there is a
 * plan, too, and the area is the least that is proved. */
static void test_long_lists(void **state)
{
    struct arena *arena = arena_create();
    struct roll_size sizes[300];
    int64_t area = 0;
    for (size_t i = 0; i < 300; i++) {
        sizes[i] =
            (struct roll_size){8 + (int64_t)chance(150), 8 + (int64_t)chance(150),
                               1 + chance(20), true, ""};
        area += sizes[i].width * sizes[i].height * (int64_t)sizes[i].demand;
    }
    const struct roll_problem problem = {336, true, sizes, 300, false};
    const struct roll_plan *plan = plan_roll(arena, &problem, 2000000);
    assert_non_null(plan);
    assert_true(roll_plan_holds(&problem, plan));
    assert_true(plan->bound >= (area + 335) / 336);
    assert_true(plan->length <= plan_roll_by_hand(arena, &problem)->length);
    assert_null(simplify_roll(arena, &problem, plan, plan->length, 1000));
    arena_destroy(arena);
    (void)state;
}

/* So many sizes on cloth of so many steps that not all heights are looked at for
 * each strip: within a hundredth of what is proved to be the least, trimmed. */
static void test_many_sizes_on_wide_cloth(void **state)
{
    enum { SIZES = 260, WIDTH = 4000 };
    struct arena *arena = arena_create();
    struct roll_size sizes[SIZES];
    for (size_t i = 0; i < SIZES; i++)
        sizes[i] = (struct roll_size){100 + (int64_t)chance(1900),
                                      60 + (int64_t)chance(900),
                                      1 + chance(30), true, ""};
    const struct roll_problem problem = {WIDTH, true, sizes, SIZES, true};
    const struct roll_plan *plan = plan_roll(arena, &problem, 20000000);
    assert_non_null(plan);
    assert_true(roll_plan_holds(&problem, plan));
    assert_true(plan->length * 100 <= plan->bound * 101);
    arena_destroy(arena);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_list_limits),
        cmocka_unit_test(test_leftover_limits),
        cmocka_unit_test(test_long_lists),
        cmocka_unit_test(test_many_sizes_on_wide_cloth),
        cmocka_unit_test(test_a_strip_is_filled_as_well_as_can_be),
        cmocka_unit_test(test_tiny_lists_are_planned_best),
        cmocka_unit_test(test_many_lists),
        cmocka_unit_test(test_simple_plans),
        cmocka_unit_test(test_never_worse_than_by_hand),
        cmocka_unit_test(test_the_proof_can_fail),
        cmocka_unit_test(test_lists_are_read),
        cmocka_unit_test(test_list_forms),
        cmocka_unit_test(test_list_centimetres),
        cmocka_unit_test(test_list_messages),
        cmocka_unit_test(test_list_mistakes),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
