/* Which way a print runs is shown wherever its cloth is: at swatches, at pieces
 * that lie right side up, on strips, and explained once; and nowhere else. */
#include "pages.h"

#define PATTERN(print)                                                        \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "                \
    "title=\"Pier\">\n<fabrics><fabric id=\"water\" name=\"Water\"/>"         \
    "<fabric id=\"sail\" name=\"Sail\" print=\"" print "\"/></fabrics>\n"     \
    "<colorway id=\"noon\"><cloth fabric=\"water\" color=\"#24566b\"/>"       \
    "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"                 \
    "<block id=\"bay\" name=\"Bay\"><row><patch fabric=\"sail\" width=\"4\" " \
    "height=\"4\"/><patch fabric=\"water\" width=\"4\"/></row></block>\n"     \
    "<quilt id=\"throw\" name=\"Throw\"><grid across=\"3\" down=\"3\">"       \
    "<use block=\"bay\"/></grid></quilt>\n</pattern>\n"

static const struct book *compile(struct arena *arena, const char *text)
{
    const struct sample sample = sample_text(arena, text);
    return compose_book(arena, typeset_create(), phrases_load(arena, "en"),
                        sample.design, &sample.plans->items.items[0], 0);
}

/* The head of such an arrow: two short lines of one length that end in its tip,
 * behind the shaft, which ends there too. ensures: the shaft, or NULL. */
static const struct path_item *print_arrow(const struct page *page, size_t item)
{
    const struct path_item *lines[3];
    for (size_t k = 0; k < 3; k++) {
        if (item + k >= page->items.count ||
            page->items.items[item + k].kind != ITEM_PATH ||
            page->items.items[item + k].as.path.count != 2)
            return NULL;
        lines[k] = &page->items.items[item + k].as.path;
    }
    const struct point tip = lines[0]->points[1];
    for (int k = 1; k < 3; k++)
        if (hypot(lines[k]->points[1].x - tip.x,
                  lines[k]->points[1].y - tip.y) > 0.01)
            return NULL;
    return lines[0];
}

/* How many arrows of a print stand within 20 points at the right of a text that
 * reads so, on pages from `first` to `last`; all must run upwards. */
static size_t arrows_by(const struct book *book, const char *text, size_t first,
                        size_t last)
{
    size_t count = 0;
    for (size_t p = first; p <= last && p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct path_item *shaft = print_arrow(page, i);
            if (shaft == NULL)
                continue;
            assert_true(fabs(shaft->points[0].x - shaft->points[1].x) < 0.01);
            assert_true(shaft->points[0].y > shaft->points[1].y);
            for (size_t k = 0; k < page->items.count; k++) {
                const struct text_item *by = &page->items.items[k].as.text;
                if (page->items.items[k].kind == ITEM_TEXT &&
                    strcmp(by->text, text) == 0 &&
                    fabs(by->x + 10.0 - shaft->points[0].x) < 10.0 &&
                    fabs(by->y - shaft->points[1].y) < 10.0)
                    count++;
            }
        }
    }
    return count;
}

static void test_a_way_is_shown(void **state)
{
    const struct book *book = compile(*state, PATTERN("one-way"));
    enum { MATERIALS = 1, LAST = 20 };
    assert_true(arrows_by(book, "B", MATERIALS, MATERIALS) > 0);
    assert_true(arrows_by(book, "B1", MATERIALS, LAST) > 0);
    assert_int_equal(arrows_by(book, "A", MATERIALS, LAST), 0);
    assert_int_equal(arrows_by(book, "A1", MATERIALS, LAST), 0);
    const char *text = all_text(*state, book);
    assert_non_null(strstr(text, "Sail: blocks; a one-way print"));
    assert_non_null(strstr(text, "Sail, a one-way print"));
    assert_non_null(strstr(text, "way of a one-way print"));
}

static void test_other_prints_have_none(void **state)
{
    const struct book *book = compile(*state, PATTERN("all-over"));
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++)
            assert_null(print_arrow(book->pages.items[p], i));
    assert_null(strstr(all_text(*state, book), "one-way"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_way_is_shown),
        cmocka_unit_test(test_other_prints_have_none),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
