/* Figures that stand alone: the same boxes as in the booklet, nothing outside
 * their page, and finished cloth without its seam allowances. */
#include "pages.h"

static struct figures figures_of(const struct visit *visit)
{
    const bool a4 = visit->book->width < 600.0;
    return compose_figures(visit->scratch, visit->all->typeset,
                           phrases_load(visit->scratch, "en"),
                           visit->sample->design, visit->plan, a4);
}

static bool is_drawn(const struct item *item)
{
    return item->kind == ITEM_PATH || item->kind == ITEM_TEXT;
}

static struct point place_of(const struct item *item)
{
    return item->kind == ITEM_TEXT
               ? (struct point){item->as.text.x, item->as.text.y}
               : item->as.path.points[0];
}

/* Whether b is a, moved by `by`. */
static bool same_item(const struct item *a, const struct item *b,
                      struct point by)
{
    if (a->kind != b->kind)
        return false;
    if (a->kind == ITEM_TEXT)
        return strcmp(a->as.text.text, b->as.text.text) == 0 &&
               fabs(a->as.text.x + by.x - b->as.text.x) < 1e-6 &&
               fabs(a->as.text.y + by.y - b->as.text.y) < 1e-6;
    if (a->as.path.count != b->as.path.count ||
        a->as.path.role != b->as.path.role)
        return false;
    for (size_t i = 0; i < a->as.path.count; i++)
        if (fabs(a->as.path.points[i].x + by.x - b->as.path.points[i].x) >
                1e-6 ||
            fabs(a->as.path.points[i].y + by.y - b->as.path.points[i].y) > 1e-6)
            return false;
    return true;
}

/* Only what is drawn: figures may have tags of their own. */
struct drawn {
    LIST(const struct item *) items;
};

static struct drawn drawn_items(struct arena *arena, const struct page *page)
{
    struct drawn drawn = {0};
    for (size_t i = 0; i < page->items.count; i++)
        if (is_drawn(&page->items.items[i]))
            *LIST_ADD(arena, &drawn.items) = &page->items.items[i];
    return drawn;
}

struct drawn_pages {
    LIST(struct drawn) items;
};

static struct drawn_pages drawn_pages(const struct visit *visit)
{
    struct drawn_pages pages = {0};
    for (size_t p = 0; p < visit->book->pages.count; p++)
        *LIST_ADD(visit->scratch, &pages.items) =
            drawn_items(visit->scratch, visit->book->pages.items[p]);
    return pages;
}

/* How many items from `start` of the figure follow each other on the page from
 * `at` on, all moved alike. */
static size_t run_length(const struct drawn *figure, size_t start,
                         const struct drawn *page, size_t at)
{
    const struct point from = place_of(figure->items.items[start]);
    const struct point to = place_of(page->items.items[at]);
    const struct point by = {to.x - from.x, to.y - from.y};
    size_t count = 0;
    while (start + count < figure->items.count &&
           at + count < page->items.count &&
           same_item(figure->items.items[start + count],
                     page->items.items[at + count], by))
        count++;
    return count;
}

/* Puts the figure together from runs of items of the booklet.
 * ensures: how many runs it takes, 0 where an item is nowhere. */
static size_t runs_in_booklet(const struct drawn_pages *pages,
                              const struct drawn *figure)
{
    size_t runs = 0;
    for (size_t start = 0; start < figure->items.count;) {
        size_t best = 0;
        for (size_t p = 0; p < pages->items.count; p++) {
            const struct drawn *page = &pages->items.items[p];
            for (size_t at = 0; at < page->items.count; at++) {
                const size_t run = run_length(figure, start, page, at);
                best = run > best ? run : best;
            }
        }
        if (best == 0)
            return 0;
        start += best;
        runs++;
    }
    return runs;
}

/* The letter before a caption. */
static bool is_letter(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.face == FACE_BOLD &&
           item->as.text.style.size == 9.5 && item->as.text.text[0] >= 'a' &&
           item->as.text.text[0] <= 'z' && item->as.text.text[1] == '\0';
}

/* How many rows of frames a step has: letters at one height are a row. A row of
 * one frame may have none. */
static size_t rows_of(const struct visit *visit, size_t step)
{
    size_t rows = 0, now = 0;
    double last = -1.0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t number = heading_number(item);
            now = number > 0 ? number : is_section(item) ? 0 : now;
            if (now != step || !is_letter(item) || item->as.text.y == last)
                continue;
            last = item->as.text.y;
            rows++;
        }
    return rows == 0 ? 1 : rows;
}

/* The quilt is one run, a row of frames of a step, too; a line of cutting one
 * for what is cut folded and one for what is opened. */
static void look_at_source(struct visit *visit)
{
    const struct figures figures = figures_of(visit);
    const struct drawn_pages pages = drawn_pages(visit);
    for (size_t i = 0; i < figures.items.count; i++) {
        const struct named_figure *named = &figures.items.items[i];
        const struct drawn drawn =
            drawn_items(visit->scratch, named->book->pages.items[0]);
        size_t most = 1, step = 0;
        if (sscanf(named->name, "step-%zu", &step) == 1)
            most = rows_of(visit, step);
        else if (strncmp(named->name, "cutting-", 8) == 0)
            most = strchr(named->name + 8, '-') == NULL ? 99 : 2;
        else if (strcmp(named->name, "quilt") != 0)
            continue;
        const size_t runs = runs_in_booklet(&pages, &drawn);
        if (runs == 0 || runs > most)
            breach(visit->breaches, "%s is made of %zu runs, not of %zu",
                   named->name, runs, most);
    }
}

static void test_figures_are_the_booklets(void **state)
{
    visit_booklets(state, look_at_source);
}

/* ---- names ---- */

static void look_at_names(struct visit *visit)
{
    const struct figures figures = figures_of(visit);
    size_t steps = 0;
    for (size_t i = 0; i < figures.items.count; i++) {
        const struct named_figure *named = &figures.items.items[i];
        steps += strncmp(named->name, "step-", 5) == 0;
        if (compose_figure(&figures, named->name) != named)
            breach(visit->breaches, "%s stands twice", named->name);
        if (named->title[0] == '\0' || named->book->pages.count != 1)
            breach(visit->breaches, "%s has no title or page", named->name);
    }
    if (steps != step_count(visit))
        breach(visit->breaches, "%zu figures for %zu steps", steps,
               step_count(visit));
    if (compose_figure(&figures, "step-0") != NULL ||
        compose_figure(&figures, "") != NULL)
        breach(visit->breaches, "a figure that is not there was found");
}

static void test_names_stand_once(void **state)
{
    visit_booklets(state, look_at_names);
}

/* ---- where things lie ---- */

static void look_at_places(struct visit *visit)
{
    const struct figures figures = figures_of(visit);
    for (size_t i = 0; i < figures.items.count; i++) {
        const struct book *book = figures.items.items[i].book;
        const struct drawn drawn =
            drawn_items(visit->scratch, book->pages.items[0]);
        for (size_t k = 0; k < drawn.items.count; k++) {
            const struct item *item = drawn.items.items[k];
            if (item->kind != ITEM_PATH)
                continue;
            for (size_t n = 0; n < item->as.path.count; n++) {
                const struct point p = item->as.path.points[n];
                if (!(p.x > 0 && p.x < book->width && p.y > 0 &&
                      p.y < book->height))
                    breach(visit->breaches, "%s: (%.2f, %.2f) is off the page",
                           figures.items.items[i].name, p.x, p.y);
            }
        }
    }
}

static void test_all_lies_on_the_page(void **state)
{
    visit_booklets(state, look_at_places);
}

static double area_of(const struct path_item *path)
{
    double area = 0.0;
    for (size_t i = 0; i < path->count; i++) {
        const struct point p = path->points[i];
        const struct point q = path->points[(i + 1) % path->count];
        area += (p.x * q.y - q.x * p.y) / 2.0;
    }
    return fabs(area);
}

/* Faces of a finished unit fill its outline, whose sides are as those of the
 * finished size; with allowances they would be larger. */
static void look_at_cloth(struct visit *visit)
{
    const struct figures figures = figures_of(visit);
    size_t seen = 0;
    for (size_t i = 0; i < figures.items.count; i++) {
        const struct named_figure *named = &figures.items.items[i];
        if (strncmp(named->name, "unit-", 5) != 0 &&
            strncmp(named->name, "block-", 6) != 0)
            continue;
        const struct drawn drawn =
            drawn_items(visit->scratch, named->book->pages.items[0]);
        double cloth = 0.0, outline = 0.0;
        for (size_t k = 0; k < drawn.items.count; k++) {
            const struct path_item *path = &drawn.items.items[k]->as.path;
            cloth += path->role == ROLE_CLOTH ? area_of(path) : 0.0;
            outline += path->role == ROLE_OUTLINE ? area_of(path) : 0.0;
        }
        if (!(fabs(cloth - outline) < 1e-6 * outline) || outline < 1000.0)
            breach(visit->breaches, "%s: cloth of %.3f in an outline of %.3f",
                   named->name, cloth, outline);
        seen++;
    }
    if (seen == 0)
        breach(visit->breaches, "no unit and no block");
}

static void test_finished_cloth_fills_its_outline(void **state)
{
    visit_booklets(state, look_at_cloth);
}

/* ---- labels on cloth that is drawn on its side ---- */

/* Lengthwise borders of a plain cloth and of a one-way print, each with a rest
 * that is used. */
static const char *const KILN =
    "<pattern xmlns='urn:seamwright:pattern:1' id='kiln' title='Kiln' "
    "units='cm'><fabrics><fabric id='clay'/><fabric id='leaf' "
    "print='one-way'/></fabrics><colorway id='c'><cloth fabric='clay' "
    "color='#b5653c'/><cloth fabric='leaf' color='#6d8b4e'/></colorway>"
    "<block id='tile'><grid across='2' down='2'><patch fabric='clay' width='6' "
    "height='6'/><patch fabric='leaf' width='6' height='6'/><patch "
    "fabric='leaf' width='6' height='6'/><patch fabric='clay' width='6' "
    "height='6'/></grid></block><quilt id='throw'><grid across='7' "
    "down='9'><use block='tile'/></grid><border fabric='clay' width='4' "
    "grain='lengthwise'/><border fabric='leaf' width='10'/></quilt></pattern>";

/* How many labels of pieces (as "B2") a figure has, each turned by `angle`. */
static size_t labels_turned(const struct figures *figures, const char *name,
                            double angle)
{
    const struct named_figure *named = compose_figure(figures, name);
    assert_non_null(named);
    const struct page *page = named->book->pages.items[0];
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        const char *text = item->kind == ITEM_TEXT ? item->as.text.text : "";
        if (text[0] < 'A' || text[0] > 'Z' || text[1] < '0' || text[1] > '9')
            continue;
        assert_true(item->as.text.angle == angle);
        count++;
    }
    return count;
}

/* Cloth without a way is labelled as it is read, narrow strips, too; a one-way
 * print so that the top of the label is its top, which lies left. */
static void test_labels_stand_as_they_are_read(void **state)
{
    const struct booklets *all = *state;
    struct arena *arena = arena_create();
    const struct sample kiln = sample_text(arena, KILN);
    const struct figures figures =
        compose_figures(arena, all->typeset, phrases_load(arena, "en"),
                        kiln.design, &kiln.plans->items.items[0], true);
    assert_true(labels_turned(&figures, "cutting-A-1", 0.0) >= 2);
    assert_true(labels_turned(&figures, "cutting-A-2", 0.0) > 50);
    assert_true(labels_turned(&figures, "cutting-B-1", -90.0) >= 1);
    assert_true(labels_turned(&figures, "cutting-B-2", -90.0) > 50);
    arena_destroy(arena);
}

/* Texts of one letter stand clear of the arrow above them: no line of the
 * figure ends within a letter's box. */
static void test_letters_keep_clear_of_the_way(void **state)
{
    const struct booklets *all = *state;
    struct arena *arena = arena_create();
    const struct sample kiln = sample_text(arena, KILN);
    const struct figures figures =
        compose_figures(arena, all->typeset, phrases_load(arena, "en"),
                        kiln.design, &kiln.plans->items.items[0], true);
    const struct named_figure *named = compose_figure(&figures, "cutting-B-2");
    const struct page *page = named->book->pages.items[0];
    size_t letters = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *letter = &page->items.items[i];
        if (letter->kind != ITEM_TEXT || strcmp(letter->as.text.text, "a") != 0)
            continue;
        letters++;
        const double x = letter->as.text.x, y = letter->as.text.y;
        for (size_t k = 0; k < page->items.count; k++) {
            const struct item *line = &page->items.items[k];
            for (size_t n = 0;
                 line->kind == ITEM_PATH && n < line->as.path.count; n++)
                assert_false(fabs(line->as.path.points[n].x - x) < 20.0 &&
                             line->as.path.points[n].y > y - 1.0 &&
                             line->as.path.points[n].y < y + 8.0);
        }
    }
    assert_true(letters > 3);
    arena_destroy(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_figures_are_the_booklets),
        cmocka_unit_test(test_names_stand_once),
        cmocka_unit_test(test_all_lies_on_the_page),
        cmocka_unit_test(test_finished_cloth_fills_its_outline),
        cmocka_unit_test(test_labels_stand_as_they_are_read),
        cmocka_unit_test(test_letters_keep_clear_of_the_way),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
