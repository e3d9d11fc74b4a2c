/* The pages around the work: cover, at a glance, coloring page. What they tell
 * is compared with the plans, in all samples, colorways and papers. */
#include "../render/photos.h"
#include "pages.h"
#include "told_step.h"
#include "words.h"

#define MM(millimetres) ((millimetres)*72.0 / 25.4)

/* Does the text hold the words? Blanks of either kind are the same: a page
 * binds numbers to their units. */
static bool holds(const char *text, const char *words)
{
    static const char NO_BREAK[] = "\u00a0";
    for (; *text != '\0'; text++) {
        const char *t = text, *w = words;
        while (*w != '\0') {
            const bool bound[2] = {strncmp(t, NO_BREAK, 2) == 0,
                                   strncmp(w, NO_BREAK, 2) == 0};
            if ((bound[0] ? ' ' : *t) != (bound[1] ? ' ' : *w))
                break;
            t += bound[0] ? 2 : 1;
            w += bound[1] ? 2 : 1;
        }
        if (*w == '\0')
            return true;
    }
    return false;
}

/* How often a text stands on a page, as a part of others or alone. */
static size_t told(const struct page *page, const char *text)
{
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++)
        count += page->items.items[i].kind == ITEM_TEXT &&
                 holds(page->items.items[i].as.text.text, text);
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

static void expect(struct visit *visit, bool is, const char *what)
{
    if (!is)
        breach(visit->breaches, "%s", what);
}

/* A count behind a name. */
static const char *times(struct arena *arena, size_t count)
{
    return arena_printf(arena, "\u00d7\u00a0%zu", count);
}

/* Each unit and block with the number, name and count of its step; each border
 * by its cloth. */
static void look_at_steps(struct visit *visit, const struct page *page)
{
    const struct wording *w = &visit->wording;
    const struct sewn_quilt *quilt = visit->plan->quilt;
    const struct told_steps steps = tell_steps(w);
    for (size_t i = 0; i < steps.items.count; i++) {
        const struct told_step *step = &steps.items.items[i];
        if (step->heap == quilt->top ||
            quilt->heaps.items[step->heap].technique == TECHNIQUE_BORDER)
            continue;
        expect(visit, told(page, step->title) >= 1, step->title);
        expect(visit, told(page, times(w->arena, step->count)) >= 1,
               step->title);
    }
    for (size_t i = 0; i < quilt->borders.count; i++) {
        const struct border *border = quilt->borders.items[i].border;
        const char *name =
            arena_printf(w->arena, "Border %zu, %s", border->number,
                         visit->plan->colorway->bolts[border->fabric].name);
        expect(visit, told(page, name) == 1, name);
    }
}

/* All cloths with what is bought of them. */
static void look_at_materials(struct visit *visit, const struct page *page)
{
    const struct wording *w = &visit->wording;
    for (size_t i = 0; i < visit->sample->design->fabrics.count; i++) {
        const struct fabric_plan *plan = &visit->plan->fabrics[i];
        if (plan->items.count == 0)
            continue;
        expect(visit, told(page, plan->bolt->name) >= 1, plan->bolt->name);
        expect(visit, told(page, word_amount(w, plan)) >= 1,
               "what is bought of it");
        expect(visit, told(page, word_length_unit(w, plan->bolt->width)) >= 1,
               "how wide it is");
    }
}

/* On one page: blocks and pieces, added up from the heaps; steps, borders,
 * materials. */
static void look_at_glance(struct visit *visit)
{
    const struct page *page = visit->book->pages.items[1];
    const struct wording *w = &visit->wording;
    const struct sewn_quilt *quilt = visit->plan->quilt;
    expect(visit, page_of(visit->book, "At a glance") == 1, "it is page 2");
    expect(visit, page_of(visit->book, "Materials") == 1, "so are materials");
    expect(visit, page_of(visit->book, "Safety") == 1, "and cautions");
    expect(visit,
           told(page, word_size_unit(w, quilt->width, quilt->height)) >= 1,
           "the size");
    size_t pieces = 0, blocks = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        const bool piece =
            heap->technique == TECHNIQUE_CUT && heap->of.cut.border == 0;
        pieces += piece ? heap->count : 0;
        if (heap->named != NULL && heap->named->kind == DEFINE_BLOCK)
            blocks += heap->count;
    }
    expect(visit, told(page, arena_printf(w->arena, "%zu block", blocks)) == 1,
           "the blocks are the heaps'");
    expect(visit, told(page, arena_printf(w->arena, "%zu piece", pieces)) == 1,
           "the pieces are the heaps'");
    look_at_steps(visit, page);
    look_at_materials(visit, page);
}

static void test_glance_tells_the_pattern(void **state)
{
    visit_booklets(state, look_at_glance);
}

/* Nothing sharp before the cautions, and nothing told twice. */
static void look_at_order(struct visit *visit)
{
    const struct book *book = visit->book;
    const size_t cautions = page_of(book, "Safety");
    expect(visit, cautions < book->pages.count, "there are cautions");
    expect(visit, cautions < page_of(book, "Cutting"), "cautions come first");
    static const char *const heads[] = {
        "Rotary cutter.", "Iron.", "Machine and pins.", "Infants.", "Makers."};
    for (size_t i = 0; i < UNIT_COUNT(heads); i++) {
        size_t count = 0;
        for (size_t p = 0; p < book->pages.count; p++)
            count += told(book->pages.items[p], heads[i]);
        expect(visit, count == 1, heads[i]);
    }
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
    if (at == book->pages.count) {
        expect(visit, at + 1 > most_pages(&visit->wording),
               "the booklet has no room for a coloring page");
        return;
    }
    expect(visit, book->pages.count <= most_pages(&visit->wording),
           "the coloring page is not one too many");
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
        expect(visit, !path->filled && !(path->hatch != NULL),
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
                                 "For intermediate quilters",
                                 visit->plan->quilt->definition->name};
    for (size_t i = 0; i < UNIT_COUNT(words); i++)
        expect(visit, told(page, words[i]) >= 1, words[i]);
    /* Colorways by pictures and names; of one alone, the cloths. */
    for (size_t i = 0; i < design->colorways.count; i++)
        expect(visit,
               design->colorways.count == 1 ||
                   told(page, design->colorways.items[i].name) == 1,
               "each colorway is named");
    for (size_t i = 0; i < design->fabrics.count; i++)
        expect(visit,
               design->colorways.count > 1 ||
                   told(page, visit->plan->colorway->bolts[i].name) == 1,
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

/* A photo of 2 : 1 takes the place of the drawing, which stands small below it.
 * It is as large as its panel, and never stretched. */
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
            assert_int_equal(items_of(cover, ITEM_IMAGE), 1);
            for (size_t i = 0; i < cover->items.count; i++) {
                const struct image_item *image =
                    &cover->items.items[i].as.image;
                if (cover->items.items[i].kind != ITEM_IMAGE)
                    continue;
                const double shape = image->width / image->height;
                assert_true(fabs(shape - (turn == 0 ? 2.0 : 0.5)) < 0.001);
                const double margin = (book->width - MM(182.0)) / 2.0;
                assert_true(image->x >= margin - 0.1);
                assert_true(image->x + image->width <=
                            book->width - margin + 0.1);
                assert_true(image->width > MM(181.0) ||
                            image->height > MM(100.0));
                assert_true(image->y + image->height < MM(262.0));
            }
        }
    }
}

/* Words of the figures on a page that begin with these. */
static size_t figures_told(const struct page *page, const char *words)
{
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        count += item->kind == ITEM_TAG_BEGIN &&
                 strcmp(item->as.tag.name, "Figure") == 0 &&
                 item->as.tag.alternative != NULL &&
                 strcmp(item->as.tag.alternative, words) == 0;
    }
    return count;
}

/* On both covers and nowhere else, told by the publisher's name or else the
 * designer's, never stretched. */
static void test_logo_stands_on_both_covers(void **state)
{
    struct booklets *all = *state;
    const struct sample sample = sample_file(SAMPLES[1]);
    const struct buffer bytes = jpeg_photo(all->arena);
    const struct photo logo = {true, bytes.bytes, bytes.length, 16, 8, 0};
    static const char *const cases[][3] = {
        {"Ivo Lindqvist", "Three Peaks", "Logo of Three Peaks"},
        {"Ivo Lindqvist", "", "Logo of Ivo Lindqvist"},
        {"", "", "Logo"}};
    struct design design = *sample.design;
    design.logo = &logo;
    for (size_t c = 0; c < UNIT_COUNT(cases); c++) {
        design.designer = cases[c][0];
        design.publisher = cases[c][1];
        const struct book *book = compose_book(
            all->arena, all->typeset, phrases_load(all->arena, "en"), &design,
            &sample.plans->items.items[0], 0);
        const size_t last = book->pages.count - 1;
        for (size_t p = 0; p <= last; p++) {
            const struct page *page = book->pages.items[p];
            const size_t wanted = p == 0 || p == last ? 1 : 0;
            assert_int_equal(items_of(page, ITEM_IMAGE), wanted);
            assert_int_equal(figures_told(page, cases[c][2]), wanted);
            for (size_t i = 0; i < page->items.count; i++) {
                const struct image_item *image = &page->items.items[i].as.image;
                if (page->items.items[i].kind != ITEM_IMAGE)
                    continue;
                assert_true(fabs(image->width / image->height - 2.0) < 0.001);
                assert_true(image->width <= MM(34.0) + 0.001);
            }
        }
    }
}

/* Title, heads of sections, numerals of steps: all that is set in the display
 * face. */
static void test_accent_colors_all_headings(void **state)
{
    struct booklets *all = *state;
    const struct sample sample = sample_file(SAMPLES[1]);
    struct design design = *sample.design;
    design.accent = (struct accent){true, 0.5, 0.2, 0.3};
    const struct book *book =
        compose_book(all->arena, all->typeset, phrases_load(all->arena, "en"),
                     &design, &sample.plans->items.items[0], 0);
    size_t seen = 0;
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT ||
                item->as.text.style.face != FACE_DISPLAY)
                continue;
            seen++;
            if (memcmp(&item->as.text.style.color, &design.accent.red,
                       sizeof(struct color)) != 0)
                fail_msg("not colored: %s", item->as.text.text);
        }
    assert_true(seen > 10);
}

/* ---- back cover ---- */

/* What each quilt needs of each cloth in each colorway; the sizes; and the
 * pages on which sections begin. */
static void look_at_back(struct visit *visit)
{
    const struct book *book = visit->book;
    const struct page *page = book->pages.items[book->pages.count - 1];
    const struct design *design = visit->sample->design;
    const struct wording *w = &visit->wording;
    expect(visit, page_of(book, "What to buy") + 1 == book->pages.count,
           "it is the last page");
    for (size_t i = 0; i < visit->sample->plans->items.count; i++) {
        const struct cutplan *plan = &visit->sample->plans->items.items[i];
        expect(visit,
               told(page, word_size_unit(w, plan->quilt->width,
                                         plan->quilt->height)) == 1,
               "each size once");
        expect(visit, told(page, word_yardage(w, plan->backing.bought)) >= 1,
               "backing");
        for (size_t f = 0; f < design->fabrics.count; f++) {
            const struct bolt *bolt = plan->fabrics[f].bolt;
            expect(visit, told(page, bolt->name) >= 1, bolt->name);
            expect(visit, told(page, bolt->code) >= 1, bolt->code);
            expect(visit, told(page, word_amount(w, &plan->fabrics[f])) >= 1,
                   bolt->name);
        }
    }
    static const char *const sections[] = {"At a glance", "Cutting", "Sewing",
                                           "Finishing", "Coloring page"};
    for (size_t i = 0; i < UNIT_COUNT(sections); i++) {
        size_t at = 0;
        if (page_of(visit->book, sections[i]) == visit->book->pages.count)
            continue; /* the coloring page: look_at_coloring */
        while (at < page->items.count &&
               (page->items.items[at].kind != ITEM_TEXT ||
                strcmp(page->items.items[at].as.text.text, sections[i]) != 0))
            at++;
        expect(visit, at < page->items.count, sections[i]);
        /* The number is the label in front of it. */
        while (at > 0 && page->items.items[--at].kind != ITEM_TEXT)
            continue;
        expect(visit,
               strcmp(page->items.items[at].as.text.text,
                      say_count(w->arena, page_of(book, sections[i]) + 1)) == 0,
               sections[i]);
    }
}

static void test_back_tells_what_to_buy(void **state)
{
    visit_booklets(state, look_at_back);
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
        cmocka_unit_test(test_accent_colors_all_headings),
        cmocka_unit_test(test_logo_stands_on_both_covers),
        cmocka_unit_test(test_back_tells_what_to_buy),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
