/* The map of the steps: in columns where they fit, however closely. */
#include "pages.h"

/* Each unit takes the one before. Their names leave less than a point between
 * the last columns that are tried and the width of the panel. */
static const char *const names[] = {"Buoy Lantern", "Lighthouse",
                                    "Mole Rope Gangway", "Lantern Rope Keel",
                                    "Lighthouse Pier"};

static const char *chain(struct arena *arena)
{
    const char *text =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" title=\"Lee\">"
        "<fabrics><fabric id=\"reef\"/><fabric id=\"surf\"/></fabrics>"
        "<colorway id=\"calm\"><cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
        "<cloth fabric=\"surf\" color=\"#e9eef0\"/></colorway>\n";
    for (size_t i = 0; i < UNIT_COUNT(names); i++)
        text = arena_printf(
            arena,
            "%s<unit id=\"u%zu\" name=\"%s\" width=\"%zu\" height=\"1\"><row>"
            "%s<patch fabric=\"%s\"/></row></unit>\n",
            text, i, names[i], i + 2,
            i == 0 ? "<patch fabric=\"surf\" width=\"1\"/>"
                   : arena_printf(arena, "<use unit=\"u%zu\"/>", i - 1),
            i % 2 == 0 ? "reef" : "surf");
    return arena_printf(arena,
                        "%s<quilt id=\"mat\" name=\"Mat\"><column>"
                        "<use unit=\"u4\"/><use unit=\"u4\"/></column></quilt>"
                        "</pattern>\n",
                        text);
}

/* A text on the page, below a height. */
static const struct text_item *text_below(const struct page *page,
                                          const char *text, double y)
{
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind == ITEM_TEXT && item->as.text.y > y &&
            strcmp(item->as.text.text, text) == 0)
            return &item->as.text;
    }
    fail_msg("no text `%s`", text);
    return NULL;
}

/* What is needed later stands further to the right. */
static void test_columns_that_just_fit(void **state)
{
    const struct sample sample = sample_text(*state, chain(*state));
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(*state, typeset, phrases_load(*state, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const struct page *page = book->pages.items[1];
    const double top =
        text_below(page, "The steps: what each makes, and how many", 0.0)->y;
    double x = 0.0;
    for (size_t i = 0; i < UNIT_COUNT(names); i++) {
        const struct text_item *name = text_below(page, names[i], top);
        assert_true(name->x > x);
        x = name->x;
    }
    assert_true(text_below(page, "Quilt top", top)->x > x);
    typeset_destroy(typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_columns_that_just_fit),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
