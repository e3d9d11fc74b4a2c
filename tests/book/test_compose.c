/* The pages of all samples, for every quilt, colorway and paper, against the
 * rules of a printed page: where texts lie, how large they are, which lines
 * are drawn, in what order the steps come. */
#include "look.h"
#include "pages.h"

/* The measure of 182 mm is in the middle of both papers; text begins 15 mm below
 * the edge, and the foot's line ends 9 mm above it. */
static void look_at_margins(struct visit *visit)
{
    const struct book *book = visit->book;
    const double margin = (book->width - MM(182.0)) / 2.0;
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            const struct quad quad =
                text_quad(visit->all->typeset, &item->as.text, true);
            for (int k = 0; k < 4; k++) {
                const struct point at = quad.corner[k];
                if (at.x > margin - 0.5 && at.x < book->width - margin + 0.5 &&
                    at.y > MM(15.0) - 0.5 && at.y < book->height - MM(9.0))
                    continue;
                breach(visit->breaches, "page %zu: \"%s\" reaches %.1f, %.1f",
                       p + 1, item->as.text.text, at.x, at.y);
                break;
            }
        }
}

static void test_no_text_leaves_the_page(void **state)
{
    visit_booklets(state, look_at_margins);
}

/* Four sizes, and one more on the cover, which is fitted to its measure. */
static void look_at_sizes(struct visit *visit)
{
    static const double sizes[] = {7.5, 9.5, 13.0, 24.0};
    double cover = 0.0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            const double size = item->as.text.style.size;
            bool of_four = false;
            for (size_t k = 0; k < UNIT_COUNT(sizes); k++)
                of_four |= size == sizes[k];
            if (!of_four && p == 0 && (cover == 0.0 || cover == size)) {
                cover = size;
                of_four = true;
            }
            if (!of_four)
                breach(visit->breaches, "page %zu: \"%s\" is %.1f pt high",
                       p + 1, item->as.text.text, size);
            if (typeset_missing_glyphs(visit->all->typeset,
                                       item->as.text.text) > 0)
                breach(visit->breaches, "page %zu: \"%s\" lacks a glyph", p + 1,
                       item->as.text.text);
        }
}

static void test_text_can_be_read(void **state)
{
    visit_booklets(state, look_at_sizes);
}

/* Names as long as a title page takes, one word longer than a column. */
#define LONG_NAME                                                     \
    "The quiet harbour at the end of the long summer, seen from the " \
    "breakwater by those who wait for the boats to come home with the tide"
static const char long_names[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"long\" title=\"" LONG_NAME
    "\" units=\"in\" seam=\"1/4\"><about designer=\"" LONG_NAME
    "\" publisher=\"" LONG_NAME "\" revision=\"" LONG_NAME
    "\" date=\"2026-11-02\" skill=\"confident\"><summary>" LONG_NAME
    "</summary></about><fabrics><fabric id=\"kelp\" key=\"k\" name=\"" LONG_NAME
    "\"/><fabric id=\"sand\" key=\"s\" name=\"Sand\"/></fabrics>"
    "<colorway id=\"ebb\" name=\"" LONG_NAME
    "\"><cloth fabric=\"kelp\" name=\"" LONG_NAME
    "\" color=\"#224433\" width=\"42\" code=\"" LONG_NAME
    "\"/><cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\" width=\"42\"/>"
    "</colorway><unit id=\"u\" name=\"" LONG_NAME
    "\"><row><patch fabric=\"kelp\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"sand\" width=\"4\"/></row></unit>"
    "<quilt id=\"q\" name=\"" LONG_NAME
    "\"><column><use unit=\"u\"/><use unit=\"u\" turn=\"180\"/></column>"
    "</quilt>"
    "</pattern>";

static void look_at_overlaps(struct visit *visit);

static void test_long_names_stay_on_the_page(void **state)
{
    const struct booklets *all = *state;
    struct booklets *own = ARENA_NEW(all->arena, struct booklets);
    own->arena = all->arena;
    own->typeset = all->typeset;
    own->phrases = all->phrases;
    const struct sample sample = sample_text(all->arena, long_names);
    add_visits(own, &sample);
    void *owner = own;
    visit_booklets(&owner, look_at_margins);
    visit_booklets(&owner, look_at_overlaps);
}

/* Every other width of the series of ISO 128-20, from the thinnest that a home
 * printer holds: each twice the one before. */
static bool in_series(double points)
{
    static const double series[] = {0.18, 0.35, 0.7};
    for (size_t i = 0; i < UNIT_COUNT(series); i++)
        if (fabs(points * 25.4 / 72.0 - series[i]) < 0.005)
            return true;
    return false;
}

static bool is_white(struct color color)
{
    return color.red > 0.99 && color.green > 0.99 && color.blue > 0.99;
}

/* But for the cover, where lines only give depth. */
static void look_at_lines(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_PATH)
                continue;
            const struct path_item *path = &item->as.path;
            /* White is a halo around a line, not a line. */
            if (path->stroke > 0.0 && !is_white(path->stroke_color) &&
                !in_series(path->stroke))
                breach(visit->breaches, "page %zu: a line of %.3f pt", p + 1,
                       path->stroke);
            if (path->hatch.spacing > 0.0 && !path->hatch.dotted &&
                !in_series(path->hatch.width))
                breach(visit->breaches, "page %zu: a hatch of %.3f pt", p + 1,
                       path->hatch.width);
            for (size_t k = 0; k < path->count; k++)
                if (!isfinite(path->points[k].x) ||
                    !isfinite(path->points[k].y) || path->points[k].x < 18.0 ||
                    path->points[k].x > visit->book->width - 18.0 ||
                    path->points[k].y < 18.0 ||
                    path->points[k].y > visit->book->height - 18.0)
                    breach(visit->breaches, "page %zu: a point at %.1f, %.1f",
                           p + 1, path->points[k].x, path->points[k].y);
        }
}

static void test_line_widths_are_of_the_series(void **state)
{
    visit_booklets(state, look_at_lines);
}

struct placed {
    const struct text_item *text;
    struct quad whole, ink;
    bool label;
};

/* Two texts of a page may not lie in each other. Running text is compared by
 * its lines' whole height, labels of figures by their ink. */
static void compare_texts(struct visit *visit, size_t page,
                          const struct placed *a, const struct placed *b)
{
    const bool labels = a->label || b->label;
    const double depth = labels ? quad_overlap(&a->ink, &b->ink)
                                : quad_overlap(&a->whole, &b->whole);
    if (depth > 0.5)
        breach(visit->breaches, "page %zu: \"%.40s\" and \"%.40s\" by %.1f pt",
               page + 1, a->text->text, b->text->text, depth);
}

/* Lines of the display type have a sixth of its size more air on both sides than
 * its letters take. */
static struct quad line_quad(struct visit *visit, const struct text_item *text)
{
    struct quad quad = text_quad(visit->all->typeset, text, false);
    const double air =
        text->style.face == FACE_DISPLAY ? 0.16 * text->style.size : 0.0;
    for (int i = 0; i < 4; i++)
        quad.corner[i].y += i < 2 ? air : -air;
    return quad;
}

static void look_at_overlaps(struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        LIST(struct placed) texts = {0};
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind != ITEM_TEXT || item->as.text.text[0] == '\0')
                continue;
            *LIST_ADD(arena, &texts) = (struct placed){
                &item->as.text,
                line_quad(visit, &item->as.text),
                text_quad(visit->all->typeset, &item->as.text, true),
                is_label(item)};
        }
        for (size_t i = 0; i < texts.count; i++)
            for (size_t k = i + 1; k < texts.count; k++)
                compare_texts(visit, p, &texts.items[i], &texts.items[k]);
    }
}

static void test_no_text_lies_on_another(void **state)
{
    visit_booklets(state, look_at_overlaps);
}

/* Walks all items in reading order. Steps of finishing are numbered on. */
static void look_at_steps(struct visit *visit)
{
    size_t number = 0, heading_page = 0;
    bool figure_seen = true;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t step = heading_number(item);
            if (step > 0) {
                if (step != number + 1)
                    breach(visit->breaches, "step %zu behind %zu", step,
                           number);
                if (!figure_seen)
                    breach(visit->breaches, "step %zu has no figure", number);
                number = step;
                heading_page = p;
                figure_seen = false;
            } else if (!figure_seen && item->kind == ITEM_TAG_BEGIN &&
                       strcmp(item->as.tag.name, "Figure") == 0) {
                figure_seen = true;
                if (p != heading_page)
                    breach(visit->breaches,
                           "step %zu on page %zu, figure on "
                           "page %zu",
                           number, heading_page + 1, p + 1);
            }
        }
    if (number < step_count(visit) || number == 0)
        breach(visit->breaches, "%zu steps, not %zu", number,
               step_count(visit));
}

static void test_steps_come_in_order_with_their_figures(void **state)
{
    visit_booklets(state, look_at_steps);
}

/* At its head, not somewhere on it. */
static bool begins_section(const struct page *page)
{
    for (size_t i = 0; i < page->items.count; i++)
        if (page->items.items[i].kind == ITEM_TEXT)
            return is_section(&page->items.items[i]);
    return false;
}

/* How far down a page has marks, of the 247 mm below the head; the foot is none
 * of them. */
static double filled(struct visit *visit, const struct page *page)
{
    const double top = MM(15.0), bottom = visit->book->height - MM(14.0);
    double lowest = top;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        if (item->kind == ITEM_TEXT && item->as.text.y < bottom) {
            const struct quad q =
                text_quad(visit->all->typeset, &item->as.text, false);
            lowest = fmax(lowest, q.corner[2].y);
        }
        for (size_t k = 0; item->kind == ITEM_PATH && k < item->as.path.count;
             k++)
            lowest = fmax(lowest, item->as.path.points[k].y);
    }
    return (lowest - top) / MM(247.0);
}

/* Every page is used to 70 % of its height, but for the last one of a section,
 * which may end at a quarter, and two of each booklet, where what follows does not
 * fit in its smallest size: they end behind their middle. */
static void look_at_fill(struct visit *visit)
{
    size_t short_ones = 0;
    for (size_t p = 0; p + 1 < visit->book->pages.count; p++) {
        const double full = filled(visit, visit->book->pages.items[p]);
        const bool last = begins_section(visit->book->pages.items[p + 1]);
        short_ones += !last && full < 0.7;
        if (full < (last ? 0.25 : short_ones < 3 ? 0.5 : 0.7))
            breach(visit->breaches, "page %zu is %.0f %% full", p + 1,
                   100.0 * full);
    }
}

static void test_no_page_is_nearly_empty(void **state)
{
    visit_booklets(state, look_at_fill);
}

/* ---- labels ---- */

/* A name of its line of parts. */
static bool is_part_of(const struct visit *visit, size_t step, const char *text)
{
    const struct told_step *told = told_step(visit, step);
    for (size_t i = 0; i < told->parts.items.count; i++) {
        const size_t heap = told->parts.items.items[i].heap;
        const size_t made = visit->plan->quilt->heaps.items[heap].step;
        /* Where the name has no room, the step that made it. */
        if (strcmp(text, word_part(&visit->wording, heap)) == 0 ||
            (made > 0 &&
             strcmp(text, say(visit->all->arena, visit->all->phrases,
                              "part.step", "step",
                              say_count(visit->all->arena, made), NULL)) == 0))
            return true;
    }
    return false;
}

static bool is_direction(struct visit *visit, const char *text)
{
    struct arena *arena = visit->all->arena;
    return strcmp(text, say(arena, visit->all->phrases, "line.rising",
                            NULL)) == 0 ||
           strcmp(text, say(arena, visit->all->phrases, "line.falling",
                            NULL)) == 0;
}

/* In a figure of a step: a part of that step's line, or a direction. */
static void look_at_labels(struct visit *visit)
{
    size_t step = 0, figures = 0, seen = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t heading = heading_number(item);
            step = heading > 0 ? heading : is_section(item) ? 0 : step;
            figures += item->kind == ITEM_TAG_BEGIN &&
                       strcmp(item->as.tag.name, "Figure") == 0;
            figures -= item->kind == ITEM_TAG_END &&
                       strcmp(item->as.tag.name, "Figure") == 0;
            if (figures == 0 || !is_label(item) ||
                told_step(visit, step) == NULL)
                continue;
            seen++;
            if (!is_direction(visit, item->as.text.text) &&
                !is_part_of(visit, step, item->as.text.text))
                breach(visit->breaches, "page %zu, step %zu: label \"%s\"",
                       p + 1, step, item->as.text.text);
        }
    if (seen < step_count(visit))
        breach(visit->breaches, "%zu labels in all steps", seen);
}

static void test_labels_are_of_the_line_of_parts(void **state)
{
    visit_booklets(state, look_at_labels);
}

/* The other way round: each label of a cut piece is in a figure of a strip or
 * beside it, and each part of a step is named in that step. */
static void look_for_labels(struct visit *visit)
{
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++)
        for (size_t i = 0; i < visit->plan->fabrics[f].items.count; i++) {
            const char *label = visit->plan->fabrics[f].items.items[i].label;
            size_t found = 0;
            for (size_t p = 0; p < visit->book->pages.count; p++) {
                const struct page *page = visit->book->pages.items[p];
                for (size_t k = 0; k < page->items.count; k++)
                    found += page->items.items[k].kind == ITEM_TEXT &&
                             strstr(page->items.items[k].as.text.text, label) !=
                                 NULL;
            }
            /* In the table, in a strip, and where it is sewn. */
            if (found < 3)
                breach(visit->breaches, "%s is told %zu times", label, found);
        }
}

static void test_each_cut_piece_is_told(void **state)
{
    visit_booklets(state, look_for_labels);
}

/* ---- the same twice ---- */

static bool same_path(const struct path_item *a, const struct path_item *b)
{
    return a->count == b->count && a->closed == b->closed &&
           a->filled == b->filled &&
           memcmp(a->points, b->points, a->count * sizeof *a->points) == 0 &&
           memcmp(&a->fill, &b->fill, sizeof a->fill) == 0 &&
           memcmp(a->dash, b->dash, sizeof a->dash) == 0;
}

static bool same_text(const struct text_item *a, const struct text_item *b)
{
    return strcmp(a->text, b->text) == 0 &&
           memcmp(&a->x, &b->x, 4 * sizeof a->x) == 0 &&
           a->style.size == b->style.size && a->plate == b->plate;
}

static void look_twice(struct visit *visit)
{
    const struct book *again = compose_book(
        visit->all->arena, visit->all->typeset, visit->all->phrases,
        visit->sample->design, visit->plan, visit->book->width < 600.0);
    assert_int_equal(again->pages.count, visit->book->pages.count);
    assert_int_equal(again->outline.count, visit->book->outline.count);
    for (size_t p = 0; p < again->pages.count; p++) {
        const struct page *a = again->pages.items[p];
        const struct page *b = visit->book->pages.items[p];
        assert_int_equal(a->items.count, b->items.count);
        for (size_t i = 0; i < a->items.count; i++) {
            const struct item *x = &a->items.items[i], *y = &b->items.items[i];
            if (x->kind != y->kind ||
                (x->kind == ITEM_PATH &&
                 !same_path(&x->as.path, &y->as.path)) ||
                (x->kind == ITEM_TEXT && !same_text(&x->as.text, &y->as.text)))
                breach(visit->breaches, "page %zu, item %zu differs", p + 1, i);
        }
    }
}

static void test_two_composes_agree(void **state)
{
    visit_booklets(state, look_twice);
}

static int german_setup(void **state)
{
    return booklets_in(state, "de");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_text_leaves_the_page),
        cmocka_unit_test(test_long_names_stay_on_the_page),
        cmocka_unit_test(test_text_can_be_read),
        cmocka_unit_test(test_line_widths_are_of_the_series),
        cmocka_unit_test(test_no_text_lies_on_another),
        cmocka_unit_test(test_steps_come_in_order_with_their_figures),
        cmocka_unit_test(test_no_page_is_nearly_empty),
        cmocka_unit_test(test_labels_are_of_the_line_of_parts),
        cmocka_unit_test(test_each_cut_piece_is_told),
        cmocka_unit_test(test_two_composes_agree),
    };
    /* Longer words need more room, so every language is looked at. */
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown) +
           cmocka_run_group_tests(tests, german_setup, booklets_teardown);
}
