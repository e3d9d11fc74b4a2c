/* The simple method: every plan holds, is no longer than each size by itself,
 * keeps near the area, and comes soon where lists are long. */
#include "../unit.h"
#include "roll.h"

enum { MOST = 3000, WIDTH = 336 };

/* Invented lists, some of like heights, with one size that is asked for often.
 */
static struct roll_problem random_list(struct arena *arena,
                                       struct unit_random *random, size_t count,
                                       uint64_t widest, bool trimmed)
{
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, count);
    const uint64_t heights = 1 + (uint64_t)unit_below(random, 60);
    for (size_t i = 0; i < count; i++)
        sizes[i] = (struct roll_size){
            .width = 1 + unit_below(random, widest),
            .height = 4 + 3 * unit_below(random, heights),
            .demand = (size_t)unit_below(random, i == 0 ? 5000 : 4),
            .turns = unit_below(random, 2) == 1};
    return (struct roll_problem){WIDTH, trimmed, sizes, count, false};
}

static void plans_hold_and_beat_the_hand(void **state)
{
    struct unit_random random = {11};
    for (int i = 0; i < 300; i++) {
        const struct roll_problem problem =
            random_list(*state, &random,
                        1 + (size_t)unit_below(&random, i % 10 == 0 ? 900 : 40),
                        WIDTH, i % 2 == 1);
        const struct roll_plan *plan = plan_roll_simply(*state, &problem);
        const struct roll_plan *hand = plan_roll_by_hand(*state, &problem);
        assert_non_null(plan);
        assert_true(roll_plan_holds(&problem, plan));
        assert_true(plan->length <= hand->length);
        assert_true(plan->bound == roll_area_bound(&problem));
    }
}

/* Hardly a strip is left half empty where no piece is wide. */
static void long_lists_come_near_their_area(void **state)
{
    struct unit_random random = {5};
    const struct roll_problem problem =
        random_list(*state, &random, MOST, WIDTH / 3, true);
    const struct roll_plan *plan = plan_roll_simply(*state, &problem);
    assert_true(plan->length * 100 <= plan->bound * 110);
}

/* By hand: 60 + 40 and 50 + 50. */
static void a_piece_goes_where_it_fills_best(void **state)
{
    const struct roll_size sizes[] = {{50, 10, 2, false, NULL},
                                      {60, 10, 1, false, NULL},
                                      {40, 10, 1, false, NULL}};
    const struct roll_problem problem = {100, false, sizes, 3, false};
    assert_int_equal(plan_roll_simply(*state, &problem)->length, 20);
}

/* An exact strip takes no lower piece, a trimmed one does. */
static void only_trimmed_strips_take_lower_pieces(void **state)
{
    const struct roll_size sizes[] = {{50, 10, 1, false, NULL},
                                      {50, 8, 1, false, NULL}};
    struct roll_problem problem = {100, false, sizes, 2, false};
    assert_int_equal(plan_roll_simply(*state, &problem)->length, 18);
    problem.trimmed = true;
    assert_int_equal(plan_roll_simply(*state, &problem)->length, 10);
}

static void a_piece_that_fits_nowhere_has_no_plan(void **state)
{
    const struct roll_size size = {101, 10, 1, false, NULL};
    const struct roll_problem problem = {100, false, &size, 1, false};
    assert_null(plan_roll_simply(*state, &problem));
}

/* A list is searched for where the work reaches for its square, up to parts. */
static void long_lists_want_more_work(void **state)
{
    (void)state;
    struct roll_problem problem = {.count = 10};
    assert_true(roll_searches(&problem, 4000000));
    assert_false(roll_searches(&problem, 3960000));
    problem.count = 600;
    assert_true(roll_searches(&problem, 1440000000));
    assert_false(roll_searches(&problem, 1400000000));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plans_hold_and_beat_the_hand),
        cmocka_unit_test(long_lists_come_near_their_area),
        cmocka_unit_test(a_piece_goes_where_it_fills_best),
        cmocka_unit_test(only_trimmed_strips_take_lower_pieces),
        cmocka_unit_test(a_piece_that_fits_nowhere_has_no_plan),
        cmocka_unit_test(long_lists_want_more_work),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
