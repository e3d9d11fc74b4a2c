/* What the design of the pages asks of a whole booklet, in both languages: how
 * much of a page figures take, short captions beside their figures, nothing
 * told twice, cutting drawn as it is told, the number of pages, and marks that
 * are left on a black and white copy. */
#include "check_cutting.h"
#include "check_layout.h"
#include "check_threshold.h"

/* ---- what is broken today ---- */

/* Why; what would mend it. */
#define FEW_FIGURES "few or small figures: scales, a page that is not full"
#define LONG_CAPTION "two or three sentences under a narrow frame"
#define TOLD_TWICE "one phrase in the lead of several steps"
#define MANY_PAGES "more pages than a booklet of its kind should have"
#define RIGHT_PAGE "its step is not kept for a left page"

static const struct known known[] = {
    {2, "en", "gull-rock throw", "3 4 6 11 12", FEW_FIGURES},
    {2, "en", "lantern-walk throw", "3 4 6 9 10 11", FEW_FIGURES},
    {2, "en", "turning-lamp throw", "7 11 12 13", FEW_FIGURES},
    {2, "en", "vane-harbor bed", "3 4 5 7 11 12", FEW_FIGURES},
    {2, "en", "vane-harbor throw", "3 4 6 10 11", FEW_FIGURES},
    {2, "de", "gull-rock throw", "1 4 5 7 12 13", FEW_FIGURES},
    {2, "de", "lantern-walk throw", "4 5 7 10 11 12", FEW_FIGURES},
    {2, "de", "turning-lamp throw", "5 8 11 12 13 14 15", FEW_FIGURES},
    {2, "de", "vane-harbor bed", "4 5 7 11 12 13", FEW_FIGURES},
    {2, "de", "vane-harbor throw", "4 5 7 11 12", FEW_FIGURES},
    {3, "en", "gull-rock throw", "6 7 8 10 11 12", LONG_CAPTION},
    {3, "en", "lantern-walk throw", "6 9 11", LONG_CAPTION},
    {3, "en", "turning-lamp throw", "8 10 11 13", LONG_CAPTION},
    {3, "en", "vane-harbor bed", "7 10 11 12", LONG_CAPTION},
    {3, "en", "vane-harbor throw", "6 9 10 11", LONG_CAPTION},
    {3, "de", "gull-rock throw", "7 8 11 12 13", LONG_CAPTION},
    {3, "de", "lantern-walk throw", "7 10 12", LONG_CAPTION},
    {3, "de", "turning-lamp throw", "8 9 12 15", LONG_CAPTION},
    {3, "de", "vane-harbor bed", "7 11 13", LONG_CAPTION},
    {3, "de", "vane-harbor throw", "7 10 11 12", LONG_CAPTION},
    {10, "en", "gull-rock throw", "6 9 10", TOLD_TWICE},
    {10, "en", "lantern-walk throw", "8 10", TOLD_TWICE},
    {10, "en", "turning-lamp throw", "9 10", TOLD_TWICE},
    {10, "en", "vane-harbor bed", "8 9 10", TOLD_TWICE},
    {10, "en", "vane-harbor throw", "7 8 9", TOLD_TWICE},
    {10, "de", "gull-rock throw", "7 9 10 11", TOLD_TWICE},
    {10, "de", "lantern-walk throw", "9", TOLD_TWICE},
    {10, "de", "turning-lamp throw", "10 11", TOLD_TWICE},
    {10, "de", "vane-harbor bed", "7 8 9 10", TOLD_TWICE},
    {10, "de", "vane-harbor throw", "7 8 9 10", TOLD_TWICE},
    {16, "en", "gull-rock throw", "0", MANY_PAGES},
    {16, "en", "vane-harbor bed", "0", MANY_PAGES},
    {16, "en", "vane-harbor throw", "9", RIGHT_PAGE},
    {16, "de", "gull-rock throw", "0", MANY_PAGES},
    {16, "de", "gull-rock throw", "11", RIGHT_PAGE},
    {16, "de", "lantern-walk throw", "0", MANY_PAGES},
    {16, "de", "lantern-walk throw", "9", RIGHT_PAGE},
    {16, "de", "turning-lamp throw", "0", MANY_PAGES},
    {16, "de", "turning-lamp throw", "11", RIGHT_PAGE},
    {16, "de", "vane-harbor bed", "0", MANY_PAGES},
    {16, "de", "vane-harbor throw", "0", MANY_PAGES},
    {0, NULL, NULL, NULL, NULL},
};

/* ---- the rules ---- */

static void test_figures_take_their_share(void **state)
{
    visit_booklets(state, look_at_figure_area);
}

static void test_captions_are_short(void **state)
{
    visit_booklets(state, look_at_caption_lines);
}

static void test_words_are_at_their_figure(void **state)
{
    visit_booklets(state, look_at_nearness);
}

static void test_nothing_is_told_twice(void **state)
{
    visit_booklets(state, look_at_repeats);
}

static void test_cells_and_counts_agree(void **state)
{
    visit_booklets(state, look_at_cutting);
}

static void test_booklets_are_short(void **state)
{
    visit_booklets(state, look_at_page_count);
}

static void test_a_copy_keeps_all_marks(void **state)
{
    visit_booklets(state, look_at_copies);
}

static int english_setup(void **state)
{
    all_booklets_in(state, "en");
    ((struct booklets *)*state)->known = known;
    return 0;
}

static int german_setup(void **state)
{
    all_booklets_in(state, "de");
    ((struct booklets *)*state)->known = known;
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_figures_take_their_share),
        cmocka_unit_test(test_captions_are_short),
        cmocka_unit_test(test_words_are_at_their_figure),
        cmocka_unit_test(test_nothing_is_told_twice),
        cmocka_unit_test(test_cells_and_counts_agree),
        cmocka_unit_test(test_booklets_are_short),
        cmocka_unit_test(test_a_copy_keeps_all_marks),
    };
    return cmocka_run_group_tests(tests, english_setup, booklets_teardown) +
           cmocka_run_group_tests(tests, german_setup, booklets_teardown);
}
