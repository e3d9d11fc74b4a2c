/* The legend against all other figures of a booklet: what is drawn is
 * explained, and what is explained is drawn, in the same style. */
#include "figures.h"

/* The items of the legend: from its heading to the first step. */
struct legend {
    const struct page *page;
    size_t first, last;
};

static struct legend legend_of(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind != ITEM_TEXT ||
                strcmp(item->as.text.text, "How to read the figures") != 0)
                continue;
            size_t last = i;
            while (last < page->items.count &&
                   heading_number(&page->items.items[last]) == 0)
                last++;
            return (struct legend){page, i, last};
        }
    }
    fail_msg("%s: no legend", visit->where);
    return (struct legend){0};
}

/* The first thing drawn behind these words, or NULL where they are not said. */
static const struct path_item *sign_of(const struct legend *legend,
                                       const char *words)
{
    bool said = false;
    for (size_t i = legend->first; i < legend->last; i++) {
        const struct item *item = &legend->page->items.items[i];
        said |= item->kind == ITEM_TEXT &&
                strcmp(item->as.text.text, words) == 0;
        if (said && item->kind == ITEM_PATH)
            return &item->as.path;
    }
    return NULL;
}

/* Width, dashes and colour: what the eye goes by. */
static bool same_line(const struct path_item *a, const struct path_item *b)
{
    return a->stroke == b->stroke &&
           memcmp(a->dash, b->dash, sizeof a->dash) == 0 &&
           memcmp(&a->stroke_color, &b->stroke_color,
                  sizeof a->stroke_color) == 0;
}

static bool same_hatch(const struct path_item *a, const struct path_item *b)
{
    return a->hatch.angle == b->hatch.angle &&
           a->hatch.spacing == b->hatch.spacing &&
           a->hatch.dotted == b->hatch.dotted;
}

/* ---- marks ---- */

static const char *const mark_words[] = {
    [MARK_DRAWN] = "draw this line",
    [MARK_SEWN] = "sew along this line",
    [MARK_CUT] = "cut along this line",
    [MARK_FOLD] = "fold of the cloth"};

/* Is there a line of this style between the two ends of the mark? */
static bool mark_is_drawn(const struct drawn *drawn, const struct mark *mark,
                          const struct path_item *style)
{
    const struct point offset = offset_of(drawn, 0, 0);
    const struct point from = real_point(mark->from);
    const struct point to = real_point(mark->to);
    const struct point ends[2] = {{offset.x + from.x * drawn->scale,
                                   offset.y + from.y * drawn->scale},
                                  {offset.x + to.x * drawn->scale,
                                   offset.y + to.y * drawn->scale}};
    for (size_t i = 0; i < drawn->paths.count; i++) {
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        if (path->count == 2 && !path->closed &&
            edge(path->points[0], ends[0]) < 0.01 &&
            edge(path->points[1], ends[1]) < 0.01 && same_line(path, style))
            return true;
    }
    return false;
}

/* A strip is opened where a size comes in an odd number, or is longer than half
 * of the cloth; one that is joined with others is left whole. */
static bool opens_strips(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++)
        for (size_t k = 0; k < plan->strips.items[i].cuts.count; k++) {
            const struct strip_cut *cut = &plan->strips.items[i].cuts.items[k];
            if (!plan->items.items[cut->item].joined &&
                (cut->count % 2 == 1 ||
                 rational_compare(rational_times(cut->along, 2),
                                  plan->strip_length) > 0))
                return true;
        }
    return false;
}

static void look_at_marks(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    struct drawings drawings = drawings_of(visit);
    bool used[MARK_FOLD + 1] = {false};
    for (size_t i = 0; i < drawings.items.count; i++) {
        struct drawn *drawn = &drawings.items.items[i];
        if (!match_faces(visit, drawn))
            continue;
        for (size_t k = 0; k < drawn->state->marks.count; k++) {
            const struct mark *mark = &drawn->state->marks.items[k];
            const struct path_item *style =
                sign_of(&legend, mark_words[mark->kind]);
            used[mark->kind] = true;
            if (style == NULL || !mark_is_drawn(drawn, mark, style))
                breach(visit->breaches, "step %zu: \"%s\" has another style",
                       drawn->heap->step, mark_words[mark->kind]);
        }
    }
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++)
        used[MARK_FOLD] |= opens_strips(&visit->plan->fabrics[f]);
    for (int kind = MARK_DRAWN; kind <= MARK_FOLD; kind++)
        if (used[kind] != (sign_of(&legend, mark_words[kind]) != NULL))
            breach(visit->breaches, "\"%s\" is %s", mark_words[kind],
                   used[kind] ? "not explained" : "explained in vain");
}

static void test_marks_are_drawn_as_explained(void **state)
{
    visit_booklets(state, look_at_marks);
}

/* No two kinds of line look alike (ISO 128: a style for each role). */
static void look_at_kinds(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    for (int a = MARK_DRAWN; a <= MARK_FOLD; a++)
        for (int b = a + 1; b <= MARK_FOLD; b++) {
            const struct path_item *one = sign_of(&legend, mark_words[a]);
            const struct path_item *other = sign_of(&legend, mark_words[b]);
            if (one != NULL && other != NULL &&
                memcmp(one->dash, other->dash, sizeof one->dash) == 0)
                breach(visit->breaches, "\"%s\" and \"%s\" look alike",
                       mark_words[a], mark_words[b]);
        }
}

static void test_kinds_of_line_differ(void **state)
{
    visit_booklets(state, look_at_kinds);
}

/* ---- dashes and hatches of the whole booklet ---- */

typedef bool is_same(const struct path_item *a, const struct path_item *b);

static bool legend_has(const struct legend *legend,
                       const struct path_item *path, is_same *same)
{
    for (size_t i = legend->first; i < legend->last; i++)
        if (legend->page->items.items[i].kind == ITEM_PATH &&
            same(path, &legend->page->items.items[i].as.path))
            return true;
    return false;
}

static bool booklet_has(const struct visit *visit, const struct legend *legend,
                        const struct path_item *path, is_same *same)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const bool own = page == legend->page && i >= legend->first &&
                             i < legend->last;
            if (!own && page->items.items[i].kind == ITEM_PATH &&
                same(path, &page->items.items[i].as.path))
                return true;
        }
    }
    return false;
}

/* Both ways: what is used is explained, what is explained is used. */
static void look_at_path(struct visit *visit, const struct legend *legend,
                         const struct path_item *path, size_t page, bool own)
{
    const bool dashed = path->dash[0] > 0.0;
    const bool hatched = path->hatch.spacing > 0.0;
    if (dashed && !(own ? booklet_has(visit, legend, path, same_line)
                        : legend_has(legend, path, same_line)))
        breach(visit->breaches, "page %zu: dashes of %.1f, %.1f are %s", page,
               path->dash[0], path->dash[1], own ? "in vain" : "not explained");
    if (hatched && !(own ? booklet_has(visit, legend, path, same_hatch)
                         : legend_has(legend, path, same_hatch)))
        breach(visit->breaches, "page %zu: a hatch of %.1f degrees is %s", page,
               path->hatch.angle, own ? "in vain" : "not explained");
}

static void look_at_paths(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++)
            if (page->items.items[i].kind == ITEM_PATH)
                look_at_path(visit, &legend, &page->items.items[i].as.path,
                             p + 1, page == legend.page && i >= legend.first &&
                                        i < legend.last);
    }
}

static void test_each_style_is_in_the_legend(void **state)
{
    visit_booklets(state, look_at_paths);
}

/* ---- signs without a line of their own ---- */

static bool says(const struct legend *legend, const char *words)
{
    return sign_of(legend, words) != NULL;
}

static void expect_sign(struct visit *visit, const struct legend *legend,
                        const char *words, bool used)
{
    if (says(legend, words) != used)
        breach(visit->breaches, "\"%s\" is %s", words,
               used ? "not explained" : "explained in vain");
}

static void look_at_signs(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    struct drawings drawings = drawings_of(visit);
    bool wrong = false, open = false, press = false, turn = false;
    bool numbers = false;
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        for (size_t k = 0; k < drawn->state->faces.count; k++)
            wrong |= drawn->state->faces.items[k].face.wrong_side;
        for (size_t k = 0; k < drawn->state->presses.count; k++) {
            const struct press_mark *mark = &drawn->state->presses.items[k];
            open |= mark->x == 0 && mark->y == 0;
            press |= mark->x != 0 || mark->y != 0;
        }
        turn |= drawn->state->turns.count > 0;
    }
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            numbers |= is_seam_number(item) &&
                       !(visit->book->pages.items[p] == legend.page &&
                         i < legend.last);
        }
    expect_sign(visit, &legend, "wrong side: paler, dotted", wrong);
    expect_sign(visit, &legend, "press the seam this way", press);
    expect_sign(visit, &legend, "press the seam open", open);
    expect_sign(visit, &legend, "turn the piece over", turn);
    expect_sign(visit, &legend, "sew the seams in this order",
                numbers);
}

static void test_signs_are_explained(void **state)
{
    visit_booklets(state, look_at_signs);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_marks_are_drawn_as_explained),
        cmocka_unit_test(test_kinds_of_line_differ),
        cmocka_unit_test(test_each_style_is_in_the_legend),
        cmocka_unit_test(test_signs_are_explained),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
