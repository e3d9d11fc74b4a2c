/* The pages around the work: cover, at a glance, coloring page. What they tell
 * is compared with the plans, in all samples, colorways and papers. */
#include "../render/photos.h"
#include "pages.h"
#include "words.h"

/* How often a text stands on a page, as a part of others or alone. */
static size_t told(const struct page *page, const char *text)
{
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++)
        count += page->items.items[i].kind == ITEM_TEXT &&
                 strstr(page->items.items[i].as.text.text, text) != NULL;
    return count;
}

static bool is_heading(const struct item *item, const char *heading)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size >= 12.0 &&
           strcmp(item->as.text.text, heading) == 0;
}

/* The page where a heading stands; the pages' count where none does. */
static size_t page_of(const struct book *book, const char *heading)
{
    size_t page = 0;
    while (page < book->pages.count) {
        const struct page *p = book->pages.items[page];
        for (size_t i = 0; i < p->items.count; i++)
            if (is_heading(&p->items.items[i], heading))
                return page;
        page++;
    }
    return page;
}

static void expect(struct visit *visit, bool holds, const char *what)
{
    if (!holds)
        breach(visit->breaches, "%s", what);
}

/* Every quilt and colorway, with exactly one of each marked where there are
 * several; all blocks with their counts; the pieces, added up from the heaps.
 * */
static void look_at_glance(struct visit *visit)
{
    const struct page *page = visit->book->pages.items[1];
    const struct wording *w = &visit->wording;
    const struct sewn *sewn = visit->sample->sewn;
    expect(visit, page_of(visit->book, "At a glance") == 1, "it is page 2");
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        const struct sewn_quilt *quilt = &sewn->quilts.items[i];
        const char *size = word_size_unit(w, quilt->width, quilt->height);
        expect(visit, told(page, size) >= 1, size);
    }
    expect(visit,
           told(page, "(this booklet)") == (sewn->quilts.count > 1 ? 1 : 0),
           "one size is marked");
    const size_t colorways = visit->sample->design->colorways.count;
    for (size_t i = 0; i < colorways; i++) {
        const char *name = visit->sample->design->colorways.items[i].name;
        expect(visit, told(page, name) >= 1, name);
    }
    expect(visit, told(page, "(here)") == (colorways > 1 ? 1 : 0),
           "one colorway is marked");
    size_t pieces = 0;
    for (size_t i = 0; i < visit->plan->quilt->heaps.count; i++) {
        const struct heap *heap = &visit->plan->quilt->heaps.items[i];
        const bool piece =
            heap->technique == TECHNIQUE_CUT && heap->of.cut.border == 0;
        pieces += piece ? heap->count : 0;
        if (heap->named != NULL && heap->named->kind == DEFINE_BLOCK)
            expect(visit,
                   told(page,
                        arena_printf(w->arena, "%zu block", heap->count)) >= 1,
                   heap->named->name);
    }
    expect(visit,
           told(page, arena_printf(w->arena, "%zu cut piece", pieces)) == 1,
           "the pieces are the heaps'");
}

static void test_glance_tells_the_pattern(void **state)
{
    visit_booklets(state, look_at_glance);
}

/* Nothing sharp before the cautions, and nothing told twice. */
static void look_at_order(struct visit *visit)
{
    const struct book *book = visit->book;
    const size_t cautions = page_of(book, "Cautions");
    expect(visit, cautions < book->pages.count, "there are cautions");
    expect(visit, cautions < page_of(book, "Cutting"), "cautions come first");
    size_t cutter = 0, machine = 0;
    for (size_t p = 0; p < book->pages.count; p++) {
        cutter += told(book->pages.items[p], "Rotary cutter:");
        machine += told(book->pages.items[p], "with a patchwork foot");
    }
    expect(visit, cutter == 1 && machine == 1, "cautions and tools stand once");
}

static void test_cautions_come_before_cutting(void **state)
{
    visit_booklets(state, look_at_order);
}

/* One page of lines alone, none of them thinner than 0.25 mm, gray; each block
 * once (which lines: test_cloth_edges.c). */
static void look_at_coloring(struct visit *visit)
{
    const struct book *book = visit->book;
    const size_t at = page_of(book, "Coloring page");
    expect(visit, at < book->pages.count, "there is a coloring page");
    const struct page *page = book->pages.items[at];
    size_t lines = 0;
    bool begun = false;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        begun = begun || is_heading(item, "Coloring page");
        if (item->kind != ITEM_PATH || !begun)
            continue;
        const struct path_item *path = &item->as.path;
        lines++;
        expect(visit, !path->filled && !(path->hatch.spacing > 0.0),
               "nothing is filled");
        expect(visit, path->stroke >= 0.25 * 72.0 / 25.4 - 0.001,
               "lines take pencil");
        expect(visit,
               path->stroke_color.red > 0.4 && path->stroke_color.red < 0.7,
               "lines are gray");
    }
    expect(visit, lines > 20, "something is drawn");
    expect(visit, told(page, visit->plan->quilt->definition->name) >= 1,
           "the quilt is named");
    for (size_t i = 0; i < visit->plan->quilt->heaps.count; i++) {
        const struct heap *heap = &visit->plan->quilt->heaps.items[i];
        if (heap->named != NULL && heap->named->kind == DEFINE_BLOCK)
            expect(visit, told(page, heap->named->name) >= 1,
                   heap->named->name);
    }
}

static void test_coloring_page_is_lines(void **state)
{
    visit_booklets(state, look_at_coloring);
}

/* How far down the gray lines of a page reach. */
static double reach_of(const struct page *page)
{
    double reach = 0.0;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH || path->filled)
            continue;
        for (size_t k = 0; k < path->count; k++)
            reach = fmax(reach, path->points[k].y);
    }
    return reach;
}

/* A top that is higher than wide ends above its name, at the foot of the page,
 * with a block above it or without. */
static void test_top_to_color_fills_its_page(void **state)
{
    static const char *const tops[] = {
        "<patch fabric=\"a\" width=\"18\" height=\"32\"/>",
        "<use block=\"tall\"/>"};
    struct booklets *all = *state;
    for (int block = 0; block < 2; block++) {
        const struct sample sample = sample_text(
            all->arena,
            arena_printf(
                all->arena,
                "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"plain\" "
                "title=\"Plain\" units=\"in\" seam=\"1/4\"><fabrics>"
                "<fabric id=\"a\"/><fabric id=\"b\"/></fabrics>"
                "<colorway id=\"w\"><cloth fabric=\"a\" color=\"#d8d2c8\" "
                "width=\"42\"/><cloth fabric=\"b\" color=\"#5a4632\" "
                "width=\"42\"/></colorway><block id=\"tall\"><column><patch "
                "fabric=\"a\" width=\"18\" height=\"16\"/><patch "
                "fabric=\"b\" height=\"16\"/></column></block>"
                "<quilt id=\"q\" name=\"Mat\"><column>%s<patch fabric=\"b\" "
                "height=\"14\"/></column></quilt></pattern>",
                tops[block]));
        for (int a4 = 0; a4 < 2; a4++) {
            const struct book *book = compose_book(
                all->arena, all->typeset, all->phrases, sample.design,
                &sample.plans->items.items[0], a4 == 1);
            const struct page *page =
                book->pages.items[page_of(book, "Coloring page")];
            /* 15 mm of head and 247 mm of page on both papers (look.h); a name
             * of 6.6 mm below the top. Spaces above may be drawn closer. */
            const double left =
                (15.0 + 247.0 - 6.6) * 72.0 / 25.4 - reach_of(page);
            assert_true(left > -0.1 && left < 14.0);
            assert_int_equal(told(page, "tall"), block);
        }
    }
}

/* The sewing begins a page, unless the last one is hardly begun: with so many
 * cloths the cutting ends anywhere. */
static void test_sewing_begins_a_page(void **state)
{
    struct booklets *all = *state;
    size_t moved = 0;
    for (int cloths = 1; cloths <= 8; cloths++) {
        const char *fabrics = "", *bolts = "", *rows = "";
        for (int i = 0; i < cloths; i++) {
            fabrics =
                arena_printf(all->arena, "%s<fabric id=\"f%d\"/>", fabrics, i);
            bolts = arena_printf(all->arena,
                                 "%s<cloth fabric=\"f%d\" color=\"#8090a0\"/>",
                                 bolts, i);
            rows = arena_printf(all->arena,
                                "%s<patch fabric=\"f%d\" width=\"8\" "
                                "height=\"2\"/>",
                                rows, i);
        }
        const struct sample sample = sample_text(
            all->arena,
            arena_printf(all->arena,
                         "<pattern xmlns=\"urn:seamwright:pattern:1\" "
                         "id=\"rows\" title=\"Rows\"><fabrics>%s</fabrics>"
                         "<colorway id=\"w\">%s</colorway><quilt id=\"q\" "
                         "name=\"Mat\"><row><column>%s</column><patch "
                         "fabric=\"f0\" width=\"3\"/></row></quilt></pattern>",
                         fabrics, bolts, rows));
        const struct book *book =
            compose_book(all->arena, all->typeset, all->phrases, sample.design,
                         &sample.plans->items.items[0], false);
        const struct page *page = book->pages.items[page_of(book, "Sewing")];
        for (size_t i = 0; i < page->items.count; i++)
            if (is_heading(&page->items.items[i], "Sewing")) {
                assert_true(page->items.items[i].as.text.y <
                            book->height * 0.46);
                moved += page->items.items[i].as.text.y > 100.0;
            }
    }
    assert_true(moved < 8);
}

/* ---- cover ---- */

static void look_at_cover(struct visit *visit)
{
    const struct page *page = visit->book->pages.items[0];
    const struct design *design = visit->sample->design;
    const char *const words[] = {design->title,
                                 word_words(&visit->wording,
                                            visit->plan->colorway,
                                            design->summary, NULL),
                                 design->designer,
                                 design->publisher,
                                 design->skill,
                                 visit->plan->colorway->name,
                                 visit->plan->quilt->definition->name};
    for (size_t i = 0; i < UNIT_COUNT(words); i++)
        expect(visit, told(page, words[i]) >= 1, words[i]);
    for (size_t i = 0; i < design->fabrics.count; i++)
        expect(visit, told(page, visit->plan->colorway->bolts[i].name) >= 1,
               "each cloth is named");
}

static void test_cover_tells_what_it_is(void **state)
{
    visit_booklets(state, look_at_cover);
}

/* Items of a kind on a page. */
static size_t items_of(const struct page *page, enum item_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++)
        count += page->items.items[i].kind == kind;
    return count;
}

/* A photo of 2 : 1 takes the place of the drawing, which goes to page 2. */
static void test_photo_takes_the_cover(void **state)
{
    struct booklets *all = *state;
    const struct sample sample = sample_file(SAMPLES[1]);
    const struct buffer bytes = jpeg_photo(all->arena);
    struct design design = *sample.design;
    for (unsigned turn = 0; turn < 2; turn++) {
        const struct photo photo = {true, bytes.bytes, bytes.length,
                                    16,   8,           turn};
        design.photo = &photo;
        for (int a4 = 0; a4 < 2; a4++) {
            const struct book *book = compose_book(
                all->arena, all->typeset, phrases_load(all->arena, "en"),
                &design, &sample.plans->items.items[0], a4 == 1);
            const struct page *cover = book->pages.items[0];
            const size_t faces =
                sample.plans->items.items[0].quilt->cloth->faces.count;
            assert_int_equal(items_of(cover, ITEM_IMAGE), 1);
            assert_true(items_of(cover, ITEM_PATH) < faces);
            assert_true(items_of(book->pages.items[1], ITEM_PATH) > faces);
            for (size_t i = 0; i < cover->items.count; i++) {
                const struct image_item *image =
                    &cover->items.items[i].as.image;
                if (cover->items.items[i].kind != ITEM_IMAGE)
                    continue;
                const double shape = image->width / image->height;
                assert_true(fabs(shape - (turn == 0 ? 2.0 : 0.5)) < 0.001);
                assert_true(image->x >= 49.9);
                assert_true(image->x + image->width <= book->width - 49.9);
                assert_true(image->y + image->height < book->height - 52.0);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_glance_tells_the_pattern),
        cmocka_unit_test(test_cautions_come_before_cutting),
        cmocka_unit_test(test_coloring_page_is_lines),
        cmocka_unit_test(test_top_to_color_fills_its_page),
        cmocka_unit_test(test_sewing_begins_a_page),
        cmocka_unit_test(test_cover_tells_what_it_is),
        cmocka_unit_test(test_photo_takes_the_cover),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
