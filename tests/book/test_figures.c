/* The figures of all steps of the samples against the states of the sewn
 * cloth: sizes, fills, labels on their own parts, turns, arrows over their
 * seams. */
#include "check_figures.h"

static void test_captions_say_what_lies_there(void **state)
{
    visit_booklets(state, look_at_captions);
}

static void test_faces_show_their_cloth_and_side(void **state)
{
    visit_booklets(state, look_at_fills);
}

static void test_frames_share_the_scale(void **state)
{
    visit_booklets(state, look_at_scales);
}

static void test_parts_lie_apart(void **state)
{
    visit_booklets(state, look_at_part_gaps);
}

/* Small patches of a metric pattern are drawn large, and their seam allowances
 * with them. */
static const char metric[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"buoys\" "
    "title=\"Buoys\" units=\"cm\" seam=\"0.75\">"
    "<fabrics><fabric id=\"foam\" key=\"f\" name=\"Foam\"/>"
    "<fabric id=\"rust\" key=\"r\" name=\"Rust\"/></fabrics>"
    "<colorway id=\"noon\" name=\"Noon\">"
    "<cloth fabric=\"foam\" name=\"Chalk\" color=\"#eeeeee\" width=\"106\"/>"
    "<cloth fabric=\"rust\" name=\"Brick\" color=\"#993322\" width=\"106\"/>"
    "</colorway>"
    "<block id=\"buoy\" name=\"Buoy\"><grid across=\"2\" down=\"2\">"
    "<patch fabric=\"foam\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"rust\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"rust\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"foam\" width=\"4\" height=\"4\"/></grid></block>"
    "<quilt id=\"mat\" name=\"Mat\"><grid across=\"3\" down=\"3\">"
    "<use block=\"buoy\"/></grid></quilt></pattern>";

static void test_metric_parts_lie_apart(void **state)
{
    const struct booklets *all = *state;
    struct booklets *own = ARENA_NEW(all->arena, struct booklets);
    own->arena = all->arena;
    own->typeset = all->typeset;
    own->phrases = all->phrases;
    const struct sample sample = sample_text(all->arena, metric);
    add_visits(own, &sample);
    void *owner = own;
    visit_booklets(&owner, look_at_part_gaps);
    visit_booklets(&owner, look_at_fills);
    visit_booklets(&owner, look_at_scales);
}

static void test_labels_lie_on_what_they_name(void **state)
{
    visit_booklets(state, look_at_places);
}

static void test_a_name_is_of_one_part(void **state)
{
    visit_booklets(state, look_at_all_names);
}

static void test_each_turned_part_has_its_mark(void **state)
{
    visit_booklets(state, look_at_turns);
}

static void test_press_arrows_cross_their_seams(void **state)
{
    visit_booklets(state, look_at_presses);
}

static void test_arrows_keep_apart(void **state)
{
    visit_booklets(state, look_between_arrows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_captions_say_what_lies_there),
        cmocka_unit_test(test_faces_show_their_cloth_and_side),
        cmocka_unit_test(test_frames_share_the_scale),
        cmocka_unit_test(test_parts_lie_apart),
        cmocka_unit_test(test_metric_parts_lie_apart),
        cmocka_unit_test(test_labels_lie_on_what_they_name),
        cmocka_unit_test(test_a_name_is_of_one_part),
        cmocka_unit_test(test_each_turned_part_has_its_mark),
        cmocka_unit_test(test_press_arrows_cross_their_seams),
        cmocka_unit_test(test_arrows_keep_apart),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
