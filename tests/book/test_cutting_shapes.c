/* Drawings of strips from which shapes are cut, and their true outlines. */
#include <math.h>

#include "pages.h"

static const char star[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"reef\" title=\"Reef\">"
    "<fabrics><fabric id=\"kelp\"/><fabric id=\"sand\"/></fabrics>"
    "<colorway id=\"ebb\"><cloth fabric=\"kelp\" color=\"#224433\"/>"
    "<cloth fabric=\"sand\" color=\"#ccbb88\"/></colorway>"
    "<quilt id=\"mat\"><eight-pointed-star points=\"kelp\" corners=\"sand\" "
    "strip=\"2\"/></quilt></pattern>";

/* How often a page has the text. */
static size_t times_on(const struct page *page, const char *text)
{
    size_t times = 0;
    for (size_t i = 0; i < page->items.count; i++)
        times += page->items.items[i].kind == ITEM_TEXT &&
                 strcmp(page->items.items[i].as.text.text, text) == 0;
    return times;
}

/* Is the outline on it whose outer edges are a diamond of 2 in between its edges
 * and of 2 x root 2 = 2.83 along them? The middle of its line lies half of its
 * width inside. */
static bool has_diamond(const struct page *page)
{
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH || path->count != 4 ||
            !path->closed || path->filled)
            continue;
        const struct point a = path->points[0], b = path->points[1];
        const double side = hypot(b.x - a.x, b.y - a.y) / 72.0;
        const double within = 2.0 - path->stroke / 72.0;
        const double high = fabs(path->points[2].y - a.y) / 72.0;
        if (fabs(side - within * sqrt(2.0)) < 1e-3 &&
            fabs(high - within) < 1e-3 &&
            fabs(path->points[3].x - a.x) > 1.0)
            return true;
    }
    return false;
}

/* The distance of the cuts and the length along the edge once in the drawing,
 * however many strips and pieces it has. */
static void test_lengths_stand_once_in_the_drawing(void **state)
{
    const struct sample sample = sample_text(*state, star);
    const struct book *book = compose_book(
        *state, typeset_create(), phrases_load(*state, "en"), sample.design,
        &sample.plans->items.items[0], 0);
    size_t drawn = 0, outlines = 0;
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        if (!page->true_to_scale && times_on(page, "≈2⅞ in") == 1 &&
            times_on(page, "2 in") == 1)
            drawn++;
        if (page->true_to_scale && has_diamond(page))
            outlines++;
    }
    assert_int_equal(drawn, 1);
    assert_int_equal(outlines, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lengths_stand_once_in_the_drawing),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
