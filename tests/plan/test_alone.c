/* Lists that are all that is asked for get more work and other searches: their
 * plans are as short as is known, and never longer than those among many. */
#include "../unit.h"
#include "roll.h"
#include "sheets.h"

/* List A5 of Hifi (1997), among those of Silva, Alvelos and Valerio de Carvalho
 * (2010). */
enum { A5_WIDTH = 132, A5_HEIGHT = 100, A5_SIZES = 20 };
static struct roll_size *list_a5(struct arena *arena)
{
    static const int64_t list[A5_SIZES][3] = {
        {18, 39, 4}, {13, 49, 2}, {27, 51, 1}, {65, 31, 3}, {45, 27, 2},
        {69, 21, 4}, {21, 63, 2}, {54, 41, 2}, {41, 31, 1}, {37, 22, 1},
        {29, 54, 1}, {47, 31, 2}, {18, 31, 3}, {21, 17, 1}, {19, 53, 1},
        {13, 41, 4}, {37, 12, 5}, {19, 29, 2}, {67, 17, 1}, {49, 31, 3}};
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, A5_SIZES);
    for (size_t i = 0; i < A5_SIZES; i++)
        sizes[i] = (struct roll_size){list[i][0], list[i][1],
                                      (size_t)list[i][2], false, ""};
    return sizes;
}

/* Trimmed and not turned. Three searches that know nothing of each other end at
 * 418, where 417 is known and no plan is shorter than 416. */
static void test_a_hard_list_is_as_short_as_is_known(void **state)
{
    struct arena *arena = arena_create();
    const struct roll_problem problem = {A5_WIDTH, true, list_a5(arena),
                                         A5_SIZES, false};
    const struct roll_plan *plan =
        plan_roll_alone(arena, &problem, roll_alone_work(&problem));
    assert_true(roll_plan_holds(&problem, plan));
    assert_in_range(plan->length, 416, 417);
    assert_in_range(plan->bound, 416, plan->length);
    arena_destroy(arena);
    (void)state;
}

/* Few sizes get the three searches that begin anew as well. */
static void test_few_sizes_are_never_longer(void **state)
{
    struct unit_random random = {20};
    size_t shorter = 0;
    for (int run = 0; run < 40; run++) {
        struct arena *arena = arena_create();
        struct roll_size sizes[16];
        const size_t count = 8 + unit_next(&random) % 9;
        for (size_t i = 0; i < count; i++)
            sizes[i] = (struct roll_size){
                13 + unit_below(&random, 53), 9 + unit_below(&random, 53),
                1 + unit_next(&random) % 5, run % 2 == 1, ""};
        const struct roll_problem problem = {132, true, sizes, count, false};
        const struct roll_plan *anew = plan_roll(arena, &problem, 3000000);
        const struct roll_plan *alone =
            plan_roll_alone(arena, &problem, 3000000);
        assert_true(roll_plan_holds(&problem, alone));
        assert_true(alone->length <= anew->length);
        assert_true(alone->bound >= anew->bound);
        shorter += alone->length < anew->length;
        arena_destroy(arena);
    }
    assert_true(shorter > 0);
    (void)state;
}

/* The fewest sheets that are published for A5 are 4, in either direction. With
 * a tenth of the usual work the first search stays at 5 across. */
static void test_sheets_are_as_few_as_is_published(void **state)
{
    struct arena *arena = arena_create();
    for (int down = 0; down < 2; down++) {
        const struct sheet_problem problem = {
            .width = A5_WIDTH,
            .height = A5_HEIGHT,
            .sizes = list_a5(arena),
            .count = A5_SIZES,
            .first = down == 1 ? SHEET_CUT_DOWN : SHEET_CUT_ACROSS};
        const struct sheet_plan *plan =
            plan_sheets_alone(arena, &problem, SHEET_WORK / 10);
        assert_true(sheet_plan_holds(&problem, plan));
        assert_int_equal(plan->count, 4);
        assert_int_equal(plan->bound, 4);
    }
    arena_destroy(arena);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_hard_list_is_as_short_as_is_known),
        cmocka_unit_test(test_few_sizes_are_never_longer),
        cmocka_unit_test(test_sheets_are_as_few_as_is_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
