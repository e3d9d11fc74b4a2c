/* Lists of which the shortest plan is known, few sizes and hundreds of them.
 * The bench bench_apart.c plans many more. The lists are invented. */
#include "../unit.h"
#include "apart.h"

/* The numbers that plans are to reach: within 1.5 % on all, as short on four of
 * five. */
static void shortest_plans_are_found(void **state)
{
    enum { LISTS = 60 };
    size_t equal = 0;
    for (uint64_t seed = 1; seed <= LISTS; seed++) {
        struct arena *arena = arena_create();
        const struct apart apart = apart_any(arena, seed);
        const struct roll_plan *plan =
            plan_roll(arena, &apart.problem, 100000000);
        assert_true(roll_plan_holds(&apart.problem, plan));
        assert_true(plan->bound <= apart.length);
        assert_true(plan->length * 1000 <= apart.length * 1015);
        equal += plan->length <= apart.length;
        arena_destroy(arena);
    }
    assert_true(equal * 5 >= LISTS * 4);
    (void)state;
}

/* As quilts ask for them: most sizes turn. */
static struct roll_problem quilt_list(struct arena *arena, size_t count)
{
    struct unit_random random = {count};
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, count);
    for (size_t i = 0; i < count; i++) {
        sizes[i].width = 4 + (int64_t)(unit_next(&random) % 47);
        sizes[i].height = 4 + (int64_t)(unit_next(&random) % 47);
        sizes[i].demand = 4 + unit_next(&random) % 97;
        sizes[i].turns = unit_next(&random) % 10 > 0;
        sizes[i].name = "";
    }
    return (struct roll_problem){.width = 168, .sizes = sizes, .count = count};
}

/* Exact and trimmed, by the bound that is proved with them. */
static void hundreds_of_sizes_come_within_a_hundredth(void **state)
{
    static const size_t counts[] = {131, 140, 260};
    for (size_t i = 0; i < 6; i++) {
        struct arena *arena = arena_create();
        struct roll_problem problem = quilt_list(arena, counts[i / 2]);
        problem.trimmed = i % 2 == 1;
        const struct roll_plan *plan = plan_roll(arena, &problem, 400000000);
        assert_true(roll_plan_holds(&problem, plan));
        assert_true(plan->bound >= roll_area_bound(&problem));
        assert_true(plan->length * 100 <= plan->bound * 101);
        arena_destroy(arena);
    }
    (void)state;
}

/* Hundreds of sizes whose strips have no gap: the sets that fill one are found.
 * Where strips were repeated, too many sets fill one to find them all. */
static void full_strips_are_found(void **state)
{
    for (uint64_t seed = 1; seed <= 7; seed++) {
        struct arena *arena = arena_create();
        struct apart apart = apart_list(arena, seed, APART_FULL, 120, 336);
        apart.problem.trimmed = seed % 2 == 0;
        assert_true(apart.problem.count > ROLL_MOST_SIZES);
        const struct roll_plan *plan =
            plan_roll(arena, &apart.problem, roll_work(&apart.problem));
        assert_true(roll_plan_holds(&apart.problem, plan));
        assert_true(plan->bound <= apart.length);
        assert_true(plan->length * 100 <=
                    apart.length * (apart.repeats == 1 ? 100 : 101));
        arena_destroy(arena);
    }
    (void)state;
}

/* So many heights that each has two or three strips: what no full strip takes
 * is turned until it fits. */
static void pieces_turn_until_strips_are_full(void **state)
{
    struct arena *arena = arena_create();
    struct apart apart = apart_list(arena, 2, APART_FULL, 290, 336);
    apart.problem.trimmed = false;
    assert_true(apart.problem.count > 600 && apart.repeats == 1);
    const struct roll_plan *plan =
        plan_roll(arena, &apart.problem, roll_work(&apart.problem));
    assert_true(roll_plan_holds(&apart.problem, plan));
    assert_true(plan->bound <= apart.length);
    assert_true(plan->length * 100 <= apart.length * 101);
    arena_destroy(arena);
    (void)state;
}

/* A size of which no full strip takes the last piece ends the search for full
 * strips only by the work that is counted: no two heights alike, so that some
 * sizes have few such strips, all of them chosen. */
static void sizes_without_a_further_full_strip_end(void **state)
{
    enum { SIZES = 300 };
    struct arena *arena = arena_create();
    struct unit_random random = {5};
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, SIZES);
    for (size_t i = 0; i < SIZES; i++)
        sizes[i] = (struct roll_size){12 + (int64_t)(unit_next(&random) % 300),
                                      12 + (int64_t)i,
                                      1 + unit_next(&random) % 12, true, ""};
    const struct roll_problem problem = {
        .width = 336, .sizes = sizes, .count = SIZES};
    const struct roll_plan *plan = plan_roll(arena, &problem, 400000000);
    assert_true(roll_plan_holds(&problem, plan));
    arena_destroy(arena);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shortest_plans_are_found),
        cmocka_unit_test(hundreds_of_sizes_come_within_a_hundredth),
        cmocka_unit_test(full_strips_are_found),
        cmocka_unit_test(pieces_turn_until_strips_are_full),
        cmocka_unit_test(sizes_without_a_further_full_strip_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
