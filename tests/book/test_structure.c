/* The structure of every booklet of the samples as the display list has it:
 * what is told of figures, what belongs to nothing, and that elements stand on
 * the page in the order in which they are read. */
#include "pages.h"

#include <glib.h>

#include "structure.h"

/* The elements that are open at an item, innermost last. */
struct open_elements {
    const struct tag_item *tags[16];
    size_t count;
};

/* ensures: true where an element begins. */
static bool follow(struct open_elements *open, const struct item *item)
{
    if (item->kind == ITEM_TAG_BEGIN) {
        assert_true(open->count < 16);
        open->tags[open->count++] = &item->as.tag;
        return strcmp(item->as.tag.name, TAG_PLACE) != 0;
    }
    if (item->kind == ITEM_TAG_END) {
        assert_true(open->count > 0);
        assert_string_equal(open->tags[--open->count]->name, item->as.tag.name);
    }
    return false;
}

/* Calls for each item of the booklet, with what is open around it. */
static void each_item(struct visit *visit,
                      void (*look)(struct visit *, const struct open_elements *,
                                   const struct page *, size_t))
{
    struct open_elements open = {.count = 0};
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            follow(&open, &page->items.items[i]);
            look(visit, &open, page, i);
        }
    }
    assert_int_equal(open.count, 0);
}

/* ---- words for figures ---- */

static void look_at_figure(struct visit *visit,
                           const struct open_elements *open,
                           const struct page *page, size_t index)
{
    const struct item *item = &page->items.items[index];
    const struct tag_item *tag =
        open->count == 0 ? NULL : open->tags[open->count - 1];
    if (item->kind != ITEM_TEXT || tag == NULL ||
        strcmp(tag->name, "Figure") != 0)
        return;
    if (tag->alternative == NULL ||
        strstr(tag->alternative, item->as.text.text) == NULL)
        breach(visit->breaches, "page %s: `%s' is not told of its figure",
               page->label, item->as.text.text);
}

static void visit_figures(struct visit *visit)
{
    each_item(visit, look_at_figure);
}

static void test_labels_are_told_of_figures(void **state)
{
    visit_booklets(state, visit_figures);
}

/* ---- what belongs to nothing ---- */

/* Only the foot does, which stands below the column. */
static void look_at_text(struct visit *visit, const struct open_elements *open,
                         const struct page *page, size_t index)
{
    const struct item *item = &page->items.items[index];
    if (item->kind != ITEM_TEXT)
        return;
    const bool furniture = item->as.text.y > visit->book->height - 45.0;
    const char *name =
        open->count == 0 ? "" : open->tags[open->count - 1]->name;
    const char *const leaves[] = {"P",  "H1", "H2",  "Span",  "Link",
                                  "TH", "TD", "Lbl", "LBody", "Figure"};
    bool leaf = false;
    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++)
        leaf |= strcmp(name, leaves[i]) == 0;
    if (leaf == furniture)
        breach(visit->breaches, "page %s: `%s' stands in `%s'", page->label,
               item->as.text.text, name);
}

static void visit_texts(struct visit *visit)
{
    each_item(visit, look_at_text);
}

static void test_only_running_lines_are_artifacts(void **state)
{
    visit_booklets(state, visit_texts);
}

/* ---- order ---- */

/* The top left corner of what an element shows; `false` for an empty one. */
static bool corner_of(const struct page *page, size_t begin,
                      struct point *corner)
{
    int depth = 0;
    *corner = (struct point){1e9, 1e9};
    for (size_t i = begin; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        depth += item->kind == ITEM_TAG_BEGIN;
        depth -= item->kind == ITEM_TAG_END;
        if (depth == 0)
            break;
        if (item->kind == ITEM_TEXT &&
            item->as.text.style.align == ALIGN_LEFT) {
            corner->x = fmin(corner->x, item->as.text.x);
            corner->y = fmin(corner->y, item->as.text.y);
        }
        for (size_t k = 0; item->kind == ITEM_PATH && k < item->as.path.count;
             k++) {
            corner->x = fmin(corner->x, item->as.path.points[k].x);
            corner->y = fmin(corner->y, item->as.path.points[k].y);
        }
    }
    return corner->x < 1e9;
}

/* Down the page; where it goes up again, to the right. Corners of figures reach
 * a little over their boxes. */
static void visit_order(struct visit *visit)
{
    const double slack = 8.0;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        struct point last = {0.0, 0.0};
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            const char *const blocks = " P H1 H2 TR LI Figure ";
            struct point corner;
            if (item->kind != ITEM_TAG_BEGIN ||
                strstr(blocks, arena_printf(visit->all->arena, " %s ",
                                            item->as.tag.name)) == NULL ||
                !corner_of(page, i, &corner))
                continue;
            if (corner.y < last.y - slack && corner.x < last.x + slack)
                breach(visit->breaches,
                       "page %s: a %s at %.0f, %.0f is read behind %.0f, %.0f",
                       page->label, item->as.tag.name, corner.x, corner.y,
                       last.x, last.y);
            last = corner;
        }
    }
}

static void test_reading_goes_down_the_page(void **state)
{
    visit_booklets(state, visit_order);
}

/* ---- links ---- */

static const char *TEXT = "For one: 4 × A12, 1 × A1 and 2 × Wing (3) of all "
                          "that was made before, then A2";

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
    const struct link links[] = {{"A2", "cloth-2", "to A2"}};
    for (size_t i = 0; i < sizeof ENDS / sizeof ENDS[0]; i++) {
        const char *text = arena_printf(all->arena, "%sFoam%sReed A2%s",
                                        ENDS[i], ENDS[i], ENDS[i]);
        const struct box *box = box_linked(&canvas, text, style_small(),
                                           canvas.width, "P", links, 1);
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
    const struct link links[] = {{"A1", "cloth-1", "to A1"},
                                 {"Wing (3)", "step-3", "to 3"},
                                 {"gone", "step-9", "to nothing"},
                                 {"A2", "cloth-2", "to A2"}};
    const char *whole = box_bind_units(&canvas, TEXT);
    const struct box *plain =
        box_text(&canvas, TEXT, style_small(), canvas.width);
    const struct box *box =
        box_linked(&canvas, TEXT, style_small(), canvas.width, "P", links, 4);
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

/* Each step leads to all that it is made from. */
static void visit_links(struct visit *visit)
{
    size_t wanted = 0, found = 0;
    const struct told_steps steps = tell_steps(&visit->wording);
    for (size_t i = 0; i < steps.items.count; i++)
        wanted += steps.items.items[i].parts.items.count;
    for (size_t i = 0; i < visit->sample->design->fabrics.count; i++)
        wanted += visit->plan->fabrics[i].items.count;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++)
            found += page->items.items[i].kind == ITEM_TAG_BEGIN &&
                     strcmp(page->items.items[i].as.tag.name, "Link") == 0;
    }
    /* A name that is broken over two lines is two links; the contents on the
     * back cover have some. */
    enum { CONTENTS = 8 };
    if (found < wanted || found > wanted + wanted / 4 + CONTENTS)
        breach(visit->breaches, "%zu links for %zu parts and pieces", found,
               wanted);
}

static void test_steps_and_cutting_are_linked(void **state)
{
    visit_booklets(state, visit_links);
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
