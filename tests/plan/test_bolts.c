/* Lengths from rolls: the worked plans, small orders against a second search,
 * and all ends of planning. */
#include "../../src/plan/bolts_goals.h"
#include "../unit.h"
#include "bolts_cloths.h"
#include "bolts_instances.h"
#include "bolts_search.h"

enum { MOST_KINDS = 6 };

/* An order and all that its problem points at. */
struct order {
    struct bolt_cut cuts[MOST_KINDS];
    struct bolt_roll rolls[MOST_KINDS];
    struct bolts_problem problem;
    uint64_t random;
};

/* A number from `least` to `most` (a linear congruential generator; Knuth,
 * volume 2). */
static int64_t chance(struct order *order, int64_t least, int64_t most)
{
    order->random = order->random * 6364136223846793005u + 1442695040888963407u;
    return least +
           (int64_t)((order->random >> 33) % (uint64_t)(most - least + 1));
}

/* The problem finds its lists where the order lies in the end: see check_order.
 */
static void add_cut(struct order *order, int64_t length, size_t count)
{
    order->cuts[order->problem.cut_count++] = (struct bolt_cut){length, count};
}

static void add_roll(struct order *order, struct bolt_roll roll)
{
    order->rolls[order->problem.roll_count++] = roll;
}

/* A few cuts, at most 7 in all, from a shelf, whole bolts and rolls sold by
 * steps, so that a search through all plans ends. */
static struct order random_order(uint64_t seed)
{
    struct order order = {.random = seed * 0x9E3779B97F4A7C15u + 1};
    const int64_t fine = chance(&order, 1, 3);
    size_t cuts = 0;
    order.problem.keep = chance(&order, 0, 3) == 0 ? 0 : chance(&order, 1, 30);
    for (int64_t n = chance(&order, 1, 4); n > 0; n--) {
        const size_t count = (size_t)chance(&order, 1, 3);
        if (cuts + count > 7)
            break;
        add_cut(&order, chance(&order, 5, 40) * fine, count);
        cuts += count;
    }
    size_t age = 0;
    for (int64_t n = chance(&order, 1, 4); n > 0; n--)
        switch (chance(&order, 0, 5)) {
        case 0:
            add_roll(&order,
                     (struct bolt_roll){.length = chance(&order, 60, 120),
                                        .count = BOLT_WITHOUT_LIMIT,
                                        .cost = chance(&order, 1, 9)});
            break;
        case 1: {
            const int64_t step = chance(&order, 6, 20);
            add_roll(&order,
                     (struct bolt_roll){.length = step * chance(&order, 4, 9),
                                        .count = (size_t)chance(&order, 1, 3),
                                        .cost = chance(&order, 0, 1),
                                        .step = step,
                                        .step_cost = chance(&order, 1, 4)});
            break;
        }
        default:
            add_roll(&order,
                     (struct bolt_roll){.length = chance(&order, 20, 120),
                                        .count = (size_t)chance(&order, 1, 2),
                                        .age = age++});
        }
    return order;
}

/* Equal to the second search in every merit, and proven. */
static void check_order(struct order *order, uint64_t seed, uint64_t work)
{
    struct arena *arena = arena_create();
    struct bolts_search search;
    order->problem.cuts = order->cuts;
    order->problem.rolls = order->rolls;
    bolts_search_all(&search, &order->problem);
    const struct bolts_plan *plan = plan_bolts(arena, &order->problem, work);
    if (!search.found) {
        if (plan->end != BOLTS_NO_PLAN && plan->end != BOLTS_TOO_LONG)
            fail_msg("order %llu: end %d", (unsigned long long)seed,
                     (int)plan->end);
    } else {
        if (!bolts_hold(&order->problem, plan))
            fail_msg("order %llu does not hold", (unsigned long long)seed);
        for (size_t m = 0; m < BOLT_MERITS; m++)
            if (plan->merit[m] != search.best[m] || !plan->proven[m])
                fail_msg("order %llu, merit %zu: %lld, best %lld, bound %lld",
                         (unsigned long long)seed, m, (long long)plan->merit[m],
                         (long long)search.best[m], (long long)plan->bound[m]);
    }
    arena_destroy(arena);
}

/* Small enough for a search through all plans; with keeps, steps, limits and
 * ages that meet in every way. */
static void test_small_orders(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        struct order order = random_order(seed);
        check_order(&order, seed, BOLTS_WORK);
    }
}

/* By linear programmes alone, as many cuts are planned: no bound is above the
 * best plan, and the plan is the best one. */
static void test_bounds_of_small_orders(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        struct arena *arena = arena_create();
        struct order order = random_order(seed);
        struct bolts_search search;
        struct bolts_score bound = {{0}};
        struct bolts_answer answer = {0};
        order.problem.cuts = order.cuts;
        order.problem.rolls = order.rolls;
        bolts_search_all(&search, &order.problem);
        if (search.found) {
            struct bolts_store store = bolts_store_make(arena, &order.problem);
            const struct bolts_rest all = bolts_rest_all(arena, &store);
            const int64_t scale[] = {store.coin, store.unit, 1, 1};
            bolts_first(arena, &store, &all, &answer);
            assert_true(bolts_reach_by_programmes(arena, &store, 10000000,
                                                  &answer, &bound));
            for (size_t m = 0; m < BOLT_MERITS; m++)
                if (bound.of[GOAL_COST + m] * scale[m] > search.best[m] ||
                    answer.score.of[GOAL_COST + m] * scale[m] != search.best[m])
                    fail_msg("order %llu, merit %zu", (unsigned long long)seed,
                             m);
        }
        arena_destroy(arena);
    }
}

/* ---- a worked order ---- */

/* Of half inches: a bolt of 15 yd less 2 in at 93.00, ends kept from 18 in; two
 * lengths asked for, and two rolls on the shelf, where they are not 0. Kept is
 * what is left in ends that are not lost. */
static void check_cloth(const struct bolt_cut *cuts, size_t cut_count,
                        int64_t older, int64_t newer, const int64_t *merits,
                        int64_t kept)
{
    struct arena *arena = arena_create();
    const struct bolt_roll rolls[] = {
        {.length = older, .count = older > 0, .age = 0},
        {.length = newer, .count = newer > 0, .age = 1},
        {.length = 1076, .count = BOLT_WITHOUT_LIMIT, .cost = 9300}};
    const struct bolts_problem problem = {cuts, cut_count, rolls, 3, 36};
    const struct bolts_plan *plan = plan_bolts(arena, &problem, BOLTS_WORK);
    assert_true(bolts_hold(&problem, plan));
    int64_t left = 0;
    for (size_t u = 0; u < plan->uses.count; u++)
        if (plan->uses.items[u].left >= problem.keep)
            left +=
                plan->uses.items[u].left * (int64_t)plan->uses.items[u].repeat;
    for (size_t m = 0; m < BOLT_MERITS; m++) {
        assert_int_equal(plan->merit[m], merits[m]);
        assert_true(plan->proven[m]);
    }
    assert_int_equal(left, kept);
    arena_destroy(arena);
}

/* Six cloths of forty kits, worked by hand (derived; no published table has
 * such an order). C1: (2186 - 306) / 538 = 3.49, so four are bought; four bolts
 * are shorter than all cuts, so five rolls are opened; that loses nothing, and
 * 176 in of them are kept. */
static void test_c1_five_rolls_lose_nothing(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{163, 21}, {73, 13}};
    check_cloth(cuts, 2, 420, 192, (const int64_t[]){37200, 0, 5, 0}, 352);
}

/* 13 x 32 = 416 of 538 in: 122 stay. */
static void test_c2_one_bolt(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{64, 13}};
    check_cloth(cuts, 1, 0, 0, (const int64_t[]){9300, 0, 1, 0}, 244);
}

/* 9 x 32 = 288 of 300 in: 12 are lost, as less than 18 is not kept. */
static void test_c3_the_shelf_suffices(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{64, 9}};
    check_cloth(cuts, 1, 600, 0, (const int64_t[]){0, 24, 1, 0}, 0);
}

/* 840 1/2 in from two bolts of 538 in: 235 1/2 stay. */
static void test_c4_two_bolts_of_two_lengths(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{46, 21}, {55, 13}};
    check_cloth(cuts, 2, 0, 0, (const int64_t[]){18600, 0, 2, 0}, 471);
}

/* Four from 150 in, with 4 left, and five from 185 1/2 in, with 3 left. */
static void test_c5_two_of_the_shelf(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{73, 9}};
    check_cloth(cuts, 1, 300, 371, (const int64_t[]){0, 14, 2, 1}, 0);
}

/* 9 x 27 1/2 = 247 1/2 of 538 in: 290 1/2 stay. */
static void test_c6_most_of_a_bolt_stays(void **state)
{
    (void)state;
    const struct bolt_cut cuts[] = {{55, 9}};
    check_cloth(cuts, 1, 0, 0, (const int64_t[]){9300, 0, 1, 0}, 581);
}

/* What a shop buys by the half yard beside them: 74 in are 2 1/2 yd, 129 1/2
 * are 4 yd and 92 1/2 are 3 yd, in half inches (also worked by hand). */
static void test_half_yards_are_rounded_up(void **state)
{
    (void)state;
    const int64_t lengths[] = {148, 259, 185}, steps[] = {5, 8, 6};
    for (size_t i = 0; i < 3; i++) {
        struct arena *arena = arena_create();
        const struct bolt_cut cut = {lengths[i] / 37, 37};
        const struct bolt_roll roll = {.length = 1080,
                                       .count = BOLT_WITHOUT_LIMIT,
                                       .step = 36,
                                       .step_cost = 310};
        const struct bolts_problem problem = {&cut, 1, &roll, 1, 36};
        const struct bolts_plan *plan = plan_bolts(arena, &problem, BOLTS_WORK);
        assert_true(bolts_hold(&problem, plan));
        assert_int_equal(plan->merit[BOLT_COST], steps[i] * 310);
        assert_int_equal(plan->uses.items[0].taken, steps[i] * 36);
        arena_destroy(arena);
    }
}

/* ---- ends ---- */

static void test_what_cannot_be_planned(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct bolt_cut cuts[] = {{50, 2}, {70, 1}};
    /* As long as all cuts together, but 50 + 50 and 70 do not fit. */
    const struct bolt_roll rolls[] = {{.length = 90, .count = 2}};
    struct bolts_problem problem = {cuts, 2, rolls, 1, 0};
    assert_int_equal(plan_bolts(arena, &problem, BOLTS_WORK)->end,
                     BOLTS_NO_PLAN);
    const struct bolt_roll shorter = {.length = 69, .count = 9};
    problem.rolls = &shorter;
    const struct bolts_plan *plan = plan_bolts(arena, &problem, BOLTS_WORK);
    assert_int_equal(plan->end, BOLTS_TOO_LONG);
    assert_int_equal(plan->too_long, 1);
    problem.roll_count = 0;
    assert_int_equal(plan_bolts(arena, &problem, BOLTS_WORK)->end,
                     BOLTS_TOO_LONG);
    problem.cut_count = 0;
    plan = plan_bolts(arena, &problem, BOLTS_WORK);
    assert_int_equal(plan->end, BOLTS_PLANNED);
    assert_int_equal(plan->uses.count, 0);
    assert_true(bolts_hold(&problem, plan));
    arena_destroy(arena);
}

/* Two who ask for one length are served in their order. */
static void test_equal_lengths_stay_apart(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct bolt_cut cuts[] = {{30, 5}, {20, 0}, {30, 4}};
    const struct bolt_roll roll = {
        .length = 100, .count = BOLT_WITHOUT_LIMIT, .cost = 7};
    const struct bolts_problem problem = {cuts, 3, &roll, 1, 0};
    const struct bolts_plan *plan = plan_bolts(arena, &problem, BOLTS_WORK);
    assert_true(bolts_hold(&problem, plan));
    assert_int_equal(plan->merit[BOLT_COST], 21);
    assert_int_equal(plan->uses.items[0].parts.items[0].cut, 0);
    arena_destroy(arena);
}

/* Each of these changes to a plan that holds is told. */
static void test_wrong_plans_do_not_hold(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct bolt_cut cuts[] = {{30, 6}, {25, 2}};
    const struct bolt_roll rolls[] = {
        {.length = 100, .count = 2, .age = 1},
        {.length = 120, .count = BOLT_WITHOUT_LIMIT, .cost = 7}};
    const struct bolts_problem problem = {cuts, 2, rolls, 2, 12};
    struct bolts_plan *plan = plan_bolts(arena, &problem, BOLTS_WORK);
    struct bolt_use *use = &plan->uses.items[0];
    assert_true(bolts_hold(&problem, plan));
    int64_t *const numbers[] = {&use->taken,     &use->left,
                                &plan->merit[0], &plan->merit[1],
                                &plan->merit[2], &plan->merit[3]};
    size_t *const counts[] = {&use->repeat, &use->roll,
                              &use->parts.items[0].count,
                              &use->parts.items[0].cut};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        ++*numbers[i];
        assert_false(bolts_hold(&problem, plan));
        --*numbers[i];
    }
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        ++*counts[i];
        assert_false(bolts_hold(&problem, plan));
        --*counts[i];
    }
    plan->proven[BOLT_AGE] = !plan->proven[BOLT_AGE];
    assert_false(bolts_hold(&problem, plan));
    arena_destroy(arena);
}

/* ---- many cuts ---- */

static void test_cloths_of_orders(void **state)
{
    (void)state;
    size_t proven = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct arena *arena = arena_create();
        struct bolts_cloth cloth;
        cloth_make(&cloth, seed);
        const struct bolts_plan *plan =
            plan_bolts(arena, &cloth.problem, BOLTS_CLOTH_WORK);
        assert_true(bolts_hold(&cloth.problem, plan));
        proven += plan->proven[BOLT_COST];
        arena_destroy(arena);
    }
    assert_in_range(proven, 59, 60);
}

/* Invented, in the shape in which published instances are read: their values
 * follow from how they were made. */
static const char instances[] =
    "instance full-thirds\n" /* 20 rolls of three cuts without a gap */
    "rolls 20\nstock 100 *\n"
    "piece 44 2\npiece 42 3\npiece 41 2\npiece 40 2\npiece 39 3\n"
    "piece 38 3\npiece 37 2\npiece 36 1\npiece 35 3\npiece 34 5\n"
    "piece 33 2\npiece 32 6\npiece 31 7\npiece 30 6\npiece 29 3\n"
    "piece 28 2\npiece 27 2\npiece 26 6\nend\n"
    "instance shelf-first\n"
    "keep 20\nbought 1\nlost 0\nopened 3\n"
    "stock 110 1\nstock 75 1\nstock 200 * buy\n"
    "piece 55 3\npiece 50 4\nend\n"
    "instance no-way\ninfeasible\n"
    "stock 60 3\npiece 31 4\npiece 20 1\nend\n";

static void test_instances(void **state)
{
    (void)state;
    static struct bolts_instance instance;
    FILE *file =
        fmemopen((void *)(uintptr_t)instances, sizeof instances - 1, "r");
    size_t read = 0;
    while (instance_read(file, &instance)) {
        struct arena *arena = arena_create();
        const struct bolts_plan *plan =
            plan_bolts(arena, &instance.problem, BOLTS_WORK);
        read++;
        assert_int_equal(plan->end,
                         instance.infeasible ? BOLTS_NO_PLAN : BOLTS_PLANNED);
        if (!instance.infeasible)
            assert_true(bolts_hold(&instance.problem, plan));
        if (instance.fewest >= 0)
            assert_int_equal(plan->merit[BOLT_OPENED], instance.fewest);
        if (instance.opened >= 0) {
            assert_int_equal(plan->merit[BOLT_COST], instance.bought);
            assert_int_equal(plan->merit[BOLT_LOST], instance.lost);
            assert_int_equal(plan->merit[BOLT_OPENED], instance.opened);
        }
        arena_destroy(arena);
    }
    fclose(file);
    assert_int_equal(read, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_small_orders),
        cmocka_unit_test(test_bounds_of_small_orders),
        cmocka_unit_test(test_c1_five_rolls_lose_nothing),
        cmocka_unit_test(test_c2_one_bolt),
        cmocka_unit_test(test_c3_the_shelf_suffices),
        cmocka_unit_test(test_c4_two_bolts_of_two_lengths),
        cmocka_unit_test(test_c5_two_of_the_shelf),
        cmocka_unit_test(test_c6_most_of_a_bolt_stays),
        cmocka_unit_test(test_half_yards_are_rounded_up),
        cmocka_unit_test(test_what_cannot_be_planned),
        cmocka_unit_test(test_equal_lengths_stay_apart),
        cmocka_unit_test(test_wrong_plans_do_not_hold),
        cmocka_unit_test(test_cloths_of_orders),
        cmocka_unit_test(test_instances),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
