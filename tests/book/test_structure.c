/* The structure of every booklet of the samples as the display list has it:
 * what is told of figures, what belongs to nothing, and that elements stand on
 * the page in the order in which they are read. */
#include <glib.h>

#include "check_structure.h"

static void test_labels_are_told_of_figures(void **state)
{
    visit_booklets(state, look_at_alternatives);
}

static void test_only_running_lines_are_artifacts(void **state)
{
    visit_booklets(state, look_at_artifacts);
}

static void test_reading_goes_down_the_page(void **state)
{
    visit_booklets(state, look_at_order);
}

/* Numbers are bound to their units in it, which makes runs longer. */
static const struct told_text RUNS[] = {
    {"For one of 3 in: 4 × A12, 1 × ", NULL, NULL},
    {"A1", "cloth-1", "to A1"},
    {" and 2 × ", NULL, NULL},
    {"Wing (3)", "step-3", "to 3"},
    {" of 2½ in, of all that was made before, then ", NULL, NULL},
    {"A2", "cloth-2", "to A2"}};

/* What ends a line or a paragraph takes up to three bytes, and a line may end
 * before the byte that is asked for. All words are set, and it ends. */
static void test_separators_of_lines(void **state)
{
    static const char *const ENDS[] = {
        "\n",       "\r\n",   "\v",     "\f",
        "\xC2\x85", "\u2028", "\u2029", "\u2029\u2029\u2028"};
    struct booklets *all = *state;
    const struct canvas canvas = {all->arena, all->typeset, 150.0,
                                  false,      ink,          NULL};
    for (size_t i = 0; i < sizeof ENDS / sizeof ENDS[0]; i++) {
        const struct told_text runs[] = {
            {arena_printf(all->arena, "%sFoam%sReed ", ENDS[i], ENDS[i]), NULL,
             NULL},
            {"A2", "cloth-2", "to A2"},
            {ENDS[i], NULL, NULL}};
        const struct box *box =
            box_runs(&canvas, runs, 3, style_small(), canvas.width, "P");
        const char *words = "";
        for (size_t k = 0; k < box->items.count; k++)
            if (box->items.items[k].kind == ITEM_TEXT)
                words = arena_printf(all->arena, "%s%s", words,
                                     box->items.items[k].as.text.text);
        assert_non_null(strstr(words, "Foam"));
        assert_non_null(strstr(words, "Reed A2"));
    }
}

/* A line that is cut short is cut between characters, and Pango, which says so
 * where a text is not UTF-8, is never given half of one. */
static void test_fitted_between_characters(void **state)
{
    struct booklets *all = *state;
    const struct canvas canvas = {all->arena, all->typeset, 150.0,
                                  false,      ink,          NULL};
    const GLogLevelFlags before = g_log_set_always_fatal(
        (GLogLevelFlags)(G_LOG_LEVEL_WARNING | G_LOG_LEVEL_CRITICAL));
    static const char *const LETTERS[] = {"e", "\u00e9", "\u20ac", "\U0001d11e",
                                          "e\u00e9\u20ac"};
    for (size_t i = 0; i < sizeof LETTERS / sizeof LETTERS[0]; i++) {
        const char *text = "";
        for (int n = 0; n < 60; n++)
            text = arena_printf(all->arena, "%s%s", text, LETTERS[i]);
        const char *fitted =
            box_fitted(&canvas, text, style_small(), canvas.width);
        assert_true(g_utf8_validate(fitted, -1, NULL));
        assert_true(strlen(fitted) < strlen(text));
        assert_true(
            typeset_measure(all->typeset, fitted, style_small(), 0.0).width <=
            canvas.width);
        /* One letter more would not fit. */
        const char *longer = arena_printf(
            all->arena, "%.*s\u2026",
            (int)(g_utf8_offset_to_pointer(text, g_utf8_strlen(fitted, -1)) -
                  text),
            text);
        assert_true(
            typeset_measure(all->typeset, longer, style_small(), 0.0).width >
            canvas.width);
    }
    g_log_set_always_fatal(before);
}

/* The pieces of a text stand where the whole text has its words. */
static void test_pieces_make_the_whole(void **state)
{
    struct booklets *all = *state;
    const struct canvas canvas = {all->arena, all->typeset, 150.0,
                                  false,      ink,          NULL};
    const struct told_paragraph all_runs = {RUNS, sizeof RUNS / sizeof RUNS[0]};
    const char *text_of = content_words(all->arena, &all_runs);
    const char *whole = box_bind_units(&canvas, text_of);
    const struct box *plain =
        box_text(&canvas, text_of, style_small(), canvas.width);
    const struct box *box = box_runs(&canvas, RUNS, all_runs.count,
                                     style_small(), canvas.width, "P");
    assert_true(strlen(whole) > strlen(text_of));
    assert_true(plain->height > 15.0); /* of several lines */
    assert_true(box->height >= plain->height && box->height <= plain->height);
    const char *text = "", *linked = "";
    for (size_t i = 0; i < box->items.count; i++) {
        const struct item *item = &box->items.items[i];
        if (item->kind != ITEM_TEXT)
            continue;
        const struct text_place place = typeset_place(
            all->typeset, whole, style_small(), canvas.width, strlen(text));
        assert_true(fabs(place.x - item->as.text.x) < 0.01);
        assert_true(fabs(place.y - item->as.text.y) < 0.01);
        text = arena_printf(all->arena, "%s%s", text, item->as.text.text);
        const struct tag_item *tag = &box->items.items[i - 1].as.tag;
        if (strcmp(tag->name, "Link") == 0)
            linked = arena_printf(all->arena, "%s[%s %s]", linked,
                                  item->as.text.text, tag->attributes);
    }
    assert_string_equal(text, whole);
    assert_string_equal(linked, "[A1 dest='cloth-1'][Wing (3) dest='step-3']"
                                "[A2 dest='cloth-2']");
}

static void test_steps_and_cutting_are_linked(void **state)
{
    visit_booklets(state, look_at_links);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_labels_are_told_of_figures),
        cmocka_unit_test(test_only_running_lines_are_artifacts),
        cmocka_unit_test(test_reading_goes_down_the_page),
        cmocka_unit_test(test_separators_of_lines),
        cmocka_unit_test(test_fitted_between_characters),
        cmocka_unit_test(test_pieces_make_the_whole),
        cmocka_unit_test(test_steps_and_cutting_are_linked),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
