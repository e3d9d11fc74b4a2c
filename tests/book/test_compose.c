/* The pages of all samples, for every quilt, colorway and paper, against the
 * rules of a printed page: where texts lie, how large they are, which lines
 * are drawn, in what order the steps come. */
#include "check_text.h"

static void test_no_text_leaves_the_page(void **state)
{
    visit_booklets(state, look_at_margins);
}

static void test_text_can_be_read(void **state)
{
    visit_booklets(state, look_at_type_sizes);
}

/* Names as long as a title page takes, one word longer than a column. */
#define LONG_NAME                                                     \
    "The quiet harbour at the end of the long summer, seen from the " \
    "breakwater by those who wait for the boats to come home with the tide"
static const char long_names[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"long\" title=\"" LONG_NAME
    "\" units=\"in\" seam=\"1/4\"><about designer=\"" LONG_NAME
    "\" publisher=\"" LONG_NAME "\" revision=\"" LONG_NAME
    "\" date=\"2026-11-02\" skill=\"confident\"><summary>" LONG_NAME
    "</summary></about><fabrics><fabric id=\"kelp\" key=\"k\" name=\"" LONG_NAME
    "\"/><fabric id=\"sand\" key=\"s\" name=\"Sand\"/></fabrics>"
    "<colorway id=\"ebb\" name=\"" LONG_NAME
    "\"><cloth fabric=\"kelp\" name=\"" LONG_NAME
    "\" color=\"#224433\" width=\"42\" code=\"" LONG_NAME
    "\"/><cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\" width=\"42\"/>"
    "</colorway><unit id=\"u\" name=\"" LONG_NAME
    "\"><row><patch fabric=\"kelp\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"sand\" width=\"4\"/></row></unit>"
    "<quilt id=\"q\" name=\"" LONG_NAME
    "\"><column><use unit=\"u\"/><use unit=\"u\" turn=\"180\"/></column>"
    "</quilt>"
    "</pattern>";

static void test_long_names_stay_on_the_page(void **state)
{
    const struct booklets *all = *state;
    struct booklets *own = ARENA_NEW(all->arena, struct booklets);
    own->arena = all->arena;
    own->typeset = all->typeset;
    own->phrases = all->phrases;
    const struct sample sample = sample_text(all->arena, long_names);
    add_visits(own, &sample);
    void *owner = own;
    visit_booklets(&owner, look_at_margins);
    visit_booklets(&owner, look_at_overlaps);
}

static void test_line_widths_are_of_the_series(void **state)
{
    visit_booklets(state, look_at_line_widths);
}

static void test_no_text_lies_on_another(void **state)
{
    visit_booklets(state, look_at_overlaps);
}

static void test_steps_come_in_order_with_their_figures(void **state)
{
    visit_booklets(state, look_at_steps);
}

static void test_no_page_is_nearly_empty(void **state)
{
    visit_booklets(state, look_at_page_fill);
}

static void test_labels_are_of_the_line_of_parts(void **state)
{
    visit_booklets(state, look_at_label_names);
}

static void test_each_cut_piece_is_told(void **state)
{
    visit_booklets(state, look_for_labels);
}

static void test_two_composes_agree(void **state)
{
    visit_booklets(state, look_twice);
}

static int german_setup(void **state)
{
    return booklets_in(state, "de");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_text_leaves_the_page),
        cmocka_unit_test(test_long_names_stay_on_the_page),
        cmocka_unit_test(test_text_can_be_read),
        cmocka_unit_test(test_line_widths_are_of_the_series),
        cmocka_unit_test(test_no_text_lies_on_another),
        cmocka_unit_test(test_steps_come_in_order_with_their_figures),
        cmocka_unit_test(test_no_page_is_nearly_empty),
        cmocka_unit_test(test_labels_are_of_the_line_of_parts),
        cmocka_unit_test(test_each_cut_piece_is_told),
        cmocka_unit_test(test_two_composes_agree),
    };
    /* Longer words need more room, so every language is looked at. */
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown) +
           cmocka_run_group_tests(tests, german_setup, booklets_teardown);
}
