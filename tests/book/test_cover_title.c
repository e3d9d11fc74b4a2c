/* How large the title of the cover is set. */
#include "look.h"
#include "pages.h"

static const char *titled(struct arena *arena, const char *title)
{
    return arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" title=\"%s\">"
        "<fabrics><fabric id=\"reef\"/></fabrics><colorway id=\"calm\">"
        "<cloth fabric=\"reef\" color=\"#1b3a4b\"/></colorway><quilt "
        "id=\"mat\"><patch fabric=\"reef\" width=\"4\" height=\"4\"/></quilt>"
        "</pattern>\n",
        title);
}

static double width_at(struct typeset *typeset, const char *title, double size)
{
    return typeset_measure(typeset, title, style_cover(size), 0.0).width;
}

/* The size of the largest text on the cover, and its lines. */
static double size_of(struct arena *arena, struct typeset *typeset,
                      const char *title, int *lines)
{
    const struct sample sample = sample_text(arena, titled(arena, title));
    const struct book *book =
        compose_book(arena, typeset, phrases_load(arena, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const struct page *cover = book->pages.items[0];
    const struct text_item *largest = NULL;
    for (size_t i = 0; i < cover->items.count; i++) {
        const struct text_item *text = &cover->items.items[i].as.text;
        if (cover->items.items[i].kind == ITEM_TEXT &&
            (largest == NULL || text->style.size > largest->style.size))
            largest = text;
    }
    assert_string_equal(largest->text, title);
    *lines = typeset_measure(typeset, title, largest->style, MM(182.0)).lines;
    return largest->style.size;
}

/* A line holds it at 40 points and at no larger size: it takes one line. With
 * more letters it takes two, in a larger size. */
static void test_one_line_down_to_40_points(void **state)
{
    struct typeset *typeset = typeset_create();
    const char *title = "Lanterns of the Weir", *longer = title;
    while (width_at(typeset, longer, 41.0) <= MM(182.0))
        longer = arena_printf(*state, "%si", title = longer);
    while (width_at(typeset, longer, 40.0) <= MM(182.0))
        longer = arena_printf(*state, "%si", title = longer);
    assert_true(width_at(typeset, title, 40.0) <= MM(182.0));
    assert_true(width_at(typeset, title, 41.0) > MM(182.0));
    int lines;
    assert_true(size_of(*state, typeset, title, &lines) == 40.0);
    assert_int_equal(lines, 1);
    longer = arena_printf(*state, "%s Lock", title);
    assert_true(size_of(*state, typeset, longer, &lines) == 44.0);
    assert_int_equal(lines, 2);
    typeset_destroy(typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_line_down_to_40_points),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
