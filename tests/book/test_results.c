/* What stands around the figures of the steps: how many are made, the
 * unfinished size on two sides, numbers of seams, mirror images beside each
 * other. */
#include "check_results.h"

static void test_a_step_tells_its_count_once(void **state)
{
    visit_booklets(state, look_at_counts);
}

static void test_results_show_the_solved_size(void **state)
{
    visit_booklets(state, look_at_result_sizes);
}

static void test_seams_are_numbered_once(void **state)
{
    visit_booklets(state, look_at_numbers);
}

static void test_numbers_lie_in_their_gaps(void **state)
{
    visit_booklets(state, look_at_number_gaps);
}

static void test_mirror_images_stand_side_by_side(void **state)
{
    visit_booklets(state, look_at_mirrors);
}

static void test_lines_cross_no_number(void **state)
{
    visit_booklets(state, look_at_crossings);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_step_tells_its_count_once),
        cmocka_unit_test(test_results_show_the_solved_size),
        cmocka_unit_test(test_seams_are_numbered_once),
        cmocka_unit_test(test_numbers_lie_in_their_gaps),
        cmocka_unit_test(test_mirror_images_stand_side_by_side),
        cmocka_unit_test(test_lines_cross_no_number),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
