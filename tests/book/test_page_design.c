/* Rules of the page that hold for a whole booklet: the same on both papers, red
 * for what hands do alone, cloth in its shades, nothing on a label, sizes that
 * no line breaks. */
#include "check_design.h"

static void test_papers_have_the_same_pages(void **state)
{
    visit_booklets(state, look_at_papers);
}

static void test_red_is_what_hands_do(void **state)
{
    visit_booklets(state, look_at_all_red);
}

static void test_cloth_has_its_shades(void **state)
{
    visit_booklets(state, look_at_shades);
}

static void test_nothing_lies_on_a_label(void **state)
{
    visit_booklets(state, look_at_clear_labels);
}

static void test_no_line_breaks_a_size(void **state)
{
    visit_booklets(state, look_at_blanks);
}

static void test_lines_are_not_long(void **state)
{
    visit_booklets(state, look_at_lengths);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_papers_have_the_same_pages),
        cmocka_unit_test(test_red_is_what_hands_do),
        cmocka_unit_test(test_cloth_has_its_shades),
        cmocka_unit_test(test_nothing_lies_on_a_label),
        cmocka_unit_test(test_no_line_breaks_a_size),
        cmocka_unit_test(test_lines_are_not_long),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
