/* The legend against the figures of the steps: what is drawn there is
 * explained, and what is explained is drawn, in the same style. */
#include "check_legend.h"

static void test_marks_are_drawn_as_explained(void **state)
{
    visit_booklets(state, look_at_marks);
}

static void test_kinds_of_line_differ(void **state)
{
    visit_booklets(state, look_at_kinds);
}

static void test_each_style_is_in_the_legend(void **state)
{
    visit_booklets(state, look_at_paths);
}

static void test_signs_are_explained(void **state)
{
    visit_booklets(state, look_at_signs);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_marks_are_drawn_as_explained),
        cmocka_unit_test(test_kinds_of_line_differ),
        cmocka_unit_test(test_each_style_is_in_the_legend),
        cmocka_unit_test(test_signs_are_explained),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
