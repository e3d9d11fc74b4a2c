/* Papers of an order as pages, on both papers and in both languages: nothing
 * lies off the page or over something else, type and lines are those of the
 * booklet, a table that goes on has its head again. Each rule finds a fault
 * that is put there. */
#include "compose_kits.h"
#include "kit_order.h"
#include "look.h"
#include "pages.h"
#include "structure.h"

/* Two lines that the sample has not: all in, and a cloth with many uses. */
static const char WIDE_ORDER[] =
    "<order xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" title=\"Pier kits "
    "for the long winter evenings of the rope makers\" date=\"2026-12-01\" "
    "currency=\"EUR\" over=\"1/2\" spare=\"10\" end-loss=\"2\" keep=\"18\">"
    "<line pattern=\"lantern-walk.xml\" quilt=\"throw\" colorway=\"dusk\" "
    "kits=\"120\" backing=\"in\" batting=\"in\" thread=\"in\"/>"
    "<line pattern=\"vane-harbor.xml\" quilt=\"bed\" colorway=\"pine\" "
    "kits=\"40\" style=\"cut\" binding=\"out\" price=\"1260.50\"/>"
    "<cloth code=\"DC-104\" color=\"#1d2540\" bolt=\"15 yd\" price=\"96\"/>"
    "<labels columns=\"2\" rows=\"5\" width=\"4\" height=\"2\" left=\"5/32\" "
    "top=\"1/2\" across=\"4 3/16\" down=\"2\"/></order>";

struct looking {
    struct arena *arena;
    struct typeset *typeset;
    const struct kits *kits[2];
};

/* Two orders, planned once. */
static int begin(void **state)
{
    struct arena *arena = arena_create();
    struct looking *looking = ARENA_NEW(arena, struct looking);
    *looking = (struct looking){
        arena, typeset_create(), {sample_kits(arena), NULL}};
    looking->kits[1] = kits_of_text(arena, WIDE_ORDER);
    *state = looking;
    return 0;
}

static int end(void **state)
{
    struct looking *looking = *state;
    typeset_destroy(looking->typeset);
    arena_destroy(looking->arena);
    return 0;
}

/* ---- one page ---- */

typedef void rule(struct breaches *breaches, struct looking *looking,
                  const struct book *book, const struct page *page);

/* A text whose paragraph wraps is as wide as its column. */
static struct quad quad_of(struct looking *looking, const struct item *item)
{
    return text_quad(looking->typeset, &item->as.text, true);
}

/* Half an inch from the edge is what printers reach; labels have their own. */
static void look_at_edges(struct breaches *breaches, struct looking *looking,
                          const struct book *book, const struct page *page)
{
    const double margin = page->true_to_scale ? 6.0 : MM(9.0);
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind != ITEM_TEXT)
            continue;
        const struct quad quad = quad_of(looking, item);
        for (int k = 0; k < 4; k++)
            if (quad.corner[k].x < margin ||
                quad.corner[k].x > book->width - margin ||
                quad.corner[k].y < margin ||
                quad.corner[k].y > book->height - margin + 3.0) {
                breach(breaches, "page %s: `%s` reaches the edge", page->label,
                       item->as.text.text);
                break;
            }
    }
}

/* A column's text must end before the next begins. */
static void look_at_overlaps(struct breaches *breaches, struct looking *looking,
                             const struct book *book, const struct page *page)
{
    (void)book;
    for (size_t i = 0; i < page->items.count; i++)
        for (size_t k = i + 1; k < page->items.count; k++) {
            const struct item *a = &page->items.items[i];
            const struct item *b = &page->items.items[k];
            if (a->kind != ITEM_TEXT || b->kind != ITEM_TEXT ||
                a->as.text.text[0] == '\0' || b->as.text.text[0] == '\0' ||
                fabs(a->as.text.y - b->as.text.y) > 200.0)
                continue;
            const struct quad one = quad_of(looking, a);
            const struct quad other = quad_of(looking, b);
            if (quad_overlap(&one, &other) > 0.3)
                breach(breaches, "page %s: `%s` lies over `%s`", page->label,
                       a->as.text.text, b->as.text.text);
        }
}

/* Four sizes of type. */
static void look_at_type(struct breaches *breaches, struct looking *looking,
                         const struct book *book, const struct page *page)
{
    (void)looking;
    (void)book;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        const double size =
            item->kind == ITEM_TEXT ? item->as.text.style.size : 9.5;
        if (size != 7.5 && size != 9.5 && size != 13.0 && size != 24.0)
            breach(breaches, "page %s: type of %.1f points", page->label, size);
    }
}

/* Three widths of line, and white casings a broad line wider. */
static void look_at_lines(struct breaches *breaches, struct looking *looking,
                          const struct book *book, const struct page *page)
{
    (void)looking;
    (void)book;
    static const double widths[] = {0.0, MM(0.18), MM(0.35), MM(0.7)};
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        bool known = item->kind != ITEM_PATH;
        for (size_t k = 0; k < sizeof widths / sizeof widths[0] && !known; k++)
            known = fabs(item->as.path.stroke - widths[k]) < 1e-6 ||
                    fabs(item->as.path.stroke - widths[k] - MM(0.7)) < 1e-6;
        if (!known)
            breach(breaches, "page %s: a line of %.3f points", page->label,
                   item->as.path.stroke);
    }
}

/* All rows of a page stand below a head that is on it, too. */
static void look_at_heads(struct breaches *breaches, struct looking *looking,
                          const struct book *book, const struct page *page)
{
    (void)looking;
    (void)book;
    bool table = false;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        const char *name =
            item->kind == ITEM_TAG_BEGIN ? item->as.tag.name : "";
        table |= strcmp(name, "Table") == 0;
        if (strcmp(name, "TR") == 0 && !table)
            breach(breaches, "page %s: rows without their head", page->label);
    }
}

/* ---- all of them ---- */

/* Page by page. */
static void look_at_book(struct breaches *breaches, struct looking *looking,
                         const struct book *book, rule *look)
{
    for (size_t i = 0; i < book->pages.count; i++)
        look(breaches, looking, book, book->pages.items[i]);
}

/* Both orders, both languages, both papers: 72 books. */
static void each_paper(struct looking *looking, rule *look)
{
    static const char *const languages[] = {"en", "de"};
    struct breaches breaches = {"", 0, 0};
    for (size_t n = 0; n < 8; n++)
        for (int paper = 0; paper < KIT_PAPERS; paper++) {
            struct arena *arena = arena_create();
            const struct book *book = compose_kit_paper(
                arena, looking->typeset, phrases_load(arena, languages[n % 2]),
                looking->kits[n / 4], (enum kit_paper)paper, n / 2 % 2 == 1);
            assert_non_null(book);
            assert_true(book->pages.count > 0);
            breaches.where = arena_printf(
                arena, "%s, %s, order %zu", languages[n % 2],
                kit_paper_file((enum kit_paper)paper), n / 4);
            breaches.told = 0;
            look_at_book(&breaches, looking, book, look);
            arena_destroy(arena);
        }
    assert_kept(&breaches);
}

static void nothing_reaches_an_edge(void **state)
{
    each_paper(*state, look_at_edges);
}

static void nothing_lies_over_another(void **state)
{
    each_paper(*state, look_at_overlaps);
}

static void type_has_four_sizes(void **state)
{
    each_paper(*state, look_at_type);
}

static void lines_have_three_widths(void **state)
{
    each_paper(*state, look_at_lines);
}

static void heads_stand_above_rows(void **state)
{
    each_paper(*state, look_at_heads);
}

/* ---- seeded faults ---- */

/* A fresh book, whose pages may be changed. */
static struct book *slips(struct looking *looking)
{
    return compose_kit_paper(looking->arena, looking->typeset,
                             phrases_load(looking->arena, "en"),
                             looking->kits[0], KIT_PAPER_SLIPS, false);
}

static struct text_item *text_named(struct book *book, const char *words)
{
    struct item_list *items = &book->pages.items[0]->items;
    for (size_t i = 0; i < items->count; i++)
        if (items->items[i].kind == ITEM_TEXT &&
            strcmp(items->items[i].as.text.text, words) == 0)
            return &items->items[i].as.text;
    fail_msg("there is no `%s`", words);
    return NULL;
}

/* How many breaches a rule finds, without telling them. */
static int found(struct looking *looking, const struct book *book, rule *look)
{
    struct breaches breaches = {NULL, 0, 0};
    look_at_book(&breaches, looking, book, look);
    return breaches.count;
}

/* One fault at a time: off the page, over another text, another size of
 * type, another line, rows outside a table. */
static void seeded_faults_are_found(void **state)
{
    struct looking *looking = *state;
    struct book *book = slips(looking);
    struct text_item *text = text_named(book, "Booklet");
    const struct text_item kept = *text;
    assert_int_equal(found(looking, book, look_at_edges), 0);
    text->x = book->width - 40.0;
    assert_true(found(looking, book, look_at_edges) > 0);
    *text = kept;
    text->y += 14.0;
    assert_true(found(looking, book, look_at_overlaps) > 0);
    *text = kept;
    text->style.size = 11.0;
    assert_int_equal(found(looking, book, look_at_type), 1);
    *text = kept;
    struct item_list *items = &book->pages.items[0]->items;
    for (size_t i = 0; i < items->count; i++)
        if (items->items[i].kind == ITEM_PATH &&
            items->items[i].as.path.stroke > 0.0) {
            items->items[i].as.path.stroke = 0.8;
            break;
        }
    assert_int_equal(found(looking, book, look_at_lines), 1);
    for (size_t i = 0; i < items->count; i++)
        if (items->items[i].kind == ITEM_TAG_BEGIN &&
            strcmp(items->items[i].as.tag.name, "Table") == 0)
            items->items[i].as.tag.name = "Div";
    assert_true(found(looking, book, look_at_heads) > 0);
}

/* ---- what is drawn ---- */

/* The bars of a cloth have one scale: each is as long as its roll, measured
 * against the longest. */
static void bars_are_to_scale(void **state)
{
    struct looking *looking = *state;
    const struct wording w = {looking->arena, NULL, NULL, true,
                              phrases_load(looking->arena, "en")};
    const struct contents contents = tell_kit_cutting(&w, looking->kits[0]);
    const struct book *book = compose_kit_paper(
        looking->arena, looking->typeset, w.phrases, looking->kits[0],
        KIT_PAPER_CUTTING, false);
    LIST(double) wanted = {0};
    for (size_t i = 0; i < contents.items.count; i++) {
        const struct content *content = &contents.items.items[i];
        if (content->kind == CONTENT_FIGURE)
            *LIST_ADD(looking->arena, &wanted) =
                GRID_WIDTH *
                rational_double(
                    rational_div(content->as.figure.roll->length,
                                 content->as.figure.roll->longest));
    }
    size_t bars = 0;
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct item_list *items = &book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++) {
            const struct path_item *path = &items->items[i].as.path;
            if (items->items[i].kind != ITEM_PATH || path->filled ||
                !path->closed || path->count != 4 ||
                fabs(path->points[2].y - path->points[0].y - MM(8.0)) > 0.01)
                continue;
            assert_true(bars < wanted.count);
            assert_true(fabs(path->points[2].x - path->points[0].x -
                             wanted.items[bars++]) < 0.01);
        }
    }
    assert_int_equal(bars, wanted.count);
    assert_true(bars > 10);
}

/* A card shows the quilt that the booklet of its pattern shows: as many shapes,
 * in the colors of its colorway; and the same from facts that were kept. */
static void cards_show_the_quilt(void **state)
{
    struct looking *looking = *state;
    struct arena *arena = looking->arena;
    const struct sample sample = sample_fresh(arena, SAMPLES[0]);
    const struct kit_facts_list *facts = kit_facts(arena, sample.plans);
    const char *kept = kit_facts_write(arena, facts), *at = kept;
    const struct kit_facts_list *again =
        kit_facts_read(arena, &at, kept + strlen(kept));
    assert_non_null(again);
    assert_string_equal(kit_facts_write(arena, again), kept);
    const struct kit_picture *picture = again->items.items[0].picture;
    const struct sewn_quilt *quilt = sample.plans->items.items[0].quilt;
    assert_int_equal(picture->shapes.count, quilt->cloth->faces.count);
    assert_int_equal(picture->height, KIT_PICTURE_SIDE);
    for (size_t i = 0; i < picture->shapes.count; i++) {
        const struct face *face = &quilt->cloth->faces.items[i];
        const struct kit_shape *shape = &picture->shapes.items[i];
        assert_int_equal(shape->fabric, face->fabric);
        for (size_t k = 0; k < face->count; k++)
            assert_true(fabs(picture->spots.items[shape->first + k].x *
                                 rational_double(quilt->height) /
                                 KIT_PICTURE_SIDE -
                             rational_double(face->points[k].x)) < 0.01);
    }
    /* One byte that is off may not be drawn. */
    char *broken = arena_copy(arena, kept, strlen(kept));
    broken[strlen(broken) / 2] = 'x';
    at = broken;
    assert_null(kit_facts_read(arena, &at, broken + strlen(broken)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_reaches_an_edge),
        cmocka_unit_test(nothing_lies_over_another),
        cmocka_unit_test(type_has_four_sizes),
        cmocka_unit_test(lines_have_three_widths),
        cmocka_unit_test(heads_stand_above_rows),
        cmocka_unit_test(seeded_faults_are_found),
        cmocka_unit_test(bars_are_to_scale),
        cmocka_unit_test(cards_show_the_quilt),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
