/* Pages in true size, measured on the page that another program paints, on
 * both papers: test squares, the seam, cut sizes. A page that is printed at 99
 * % must be found out by the same measuring. */
#include "compose.h"
#include "hand_made.h"
#include "plans.h"

static const double TOLERANCE = 0.2; /* mm */

/* The index of the page that is to be measured: there is one. */
static size_t scale_page_of(const struct book *book)
{
    size_t found = book->pages.count;
    for (size_t i = 0; i < book->pages.count; i++)
        if (book->pages.items[i]->true_to_scale) {
            assert_int_equal(found, book->pages.count);
            found = i;
        }
    assert_true(found < book->pages.count);
    return found;
}

/* That page as a printer of `dpi` would put it on paper. */
static struct picture paint_scale(const struct fixture *fixture,
                                  const struct book *book, int dpi)
{
    save(fixture, "scale.pdf", render(fixture, book));
    struct buffer bytes =
        run(fixture,
            arena_printf(fixture->arena,
                         "pdftoppm -r %d -gray -f %zu -l %zu scale.pdf", dpi,
                         scale_page_of(book) + 1, scale_page_of(book) + 1));
    struct picture picture = {0};
    int header = 0;
    assert_int_equal(sscanf(bytes.bytes, "P5 %d %d 255%*c%n", &picture.width,
                            &picture.height, &header),
                     2);
    picture.grey = (const unsigned char *)bytes.bytes + header;
    return picture;
}

static bool dark(const struct picture *picture, int x, int y)
{
    if (x < 0 || y < 0 || x >= picture->width || y >= picture->height)
        fail_msg("no line between here and the edge of the page");
    return picture->grey[y * picture->width + x] < 128;
}

/* From a blank place to the far side of the first line that is met, in pixels.
 * */
static int reach(const struct picture *picture, int x, int y, int dx, int dy)
{
    int steps = 0;
    while (!dark(picture, x + steps * dx, y + steps * dy))
        steps++;
    while (dark(picture, x + steps * dx, y + steps * dy))
        steps++;
    return steps - 1;
}

/* The outer size in mm of the rectangle around a place that is told in points:
 * across, or down. */
static double outer_size(const struct picture *picture, struct point inside,
                         bool down)
{
    const int x = (int)(inside.x * DPI / 72), y = (int)(inside.y * DPI / 72);
    const int dx = down ? 0 : 1, dy = down ? 1 : 0;
    return (reach(picture, x, y, dx, dy) + reach(picture, x, y, -dx, -dy) + 1) *
           25.4 / DPI;
}

/* Outlines of the page: closed, empty rectangles in the order of drawing. Only
 * where to look is taken from them; a place off the middle is clear of words.
 * */
static size_t outlines(const struct book *book, struct point *inside,
                       size_t most)
{
    const struct page *page = book->pages.items[scale_page_of(book)];
    enum { LEAST = 35 }; /* points: two seams are 36, the ornament is less */
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH || !path->closed ||
            path->filled || path->count != 4 || count == most ||
            fabs(path->points[2].y - path->points[0].y) < LEAST)
            continue;
        inside[count++] =
            (struct point){path->points[0].x * 0.75 + path->points[2].x * 0.25,
                           path->points[0].y * 0.75 + path->points[2].y * 0.25};
    }
    return count;
}

/* The largest fault of the two test squares, in mm. */
static double worst_square(const struct picture *picture,
                           const struct point *inside)
{
    double worst = 0;
    for (int i = 0; i < 2; i++)
        for (int down = 0; down < 2; down++)
            worst = fmax(worst, fabs(outer_size(picture, inside[i], down == 1) -
                                     (i == 0 ? 25.4 : 20.0)));
    return worst;
}

typedef void look(struct fixture *fixture, const struct sample *sample,
                  const struct book *book, bool a4);

static const char metric[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"kai\" title=\"Kai\" "
    "units=\"cm\" seam=\"0.75\"><fabrics><fabric id=\"tar\" key=\"t\"/>"
    "<fabric id=\"rope\" key=\"r\"/></fabrics><colorway id=\"dry\">"
    "<cloth fabric=\"tar\" color=\"#223344\"/>"
    "<cloth fabric=\"rope\" color=\"#ddccaa\"/></colorway>"
    "<quilt id=\"mat\"><row><patch fabric=\"tar\" width=\"8\" height=\"5\">"
    "<corner at=\"top-left\" fabric=\"rope\" size=\"3.5\"/></patch>"
    "<patch fabric=\"rope\" width=\"6.5\"/></row></quilt></pattern>";

/* The samples, the hostile one, and one in centimetres. */
static struct sample scale_sample(struct arena *arena, size_t index)
{
    return index <= SAMPLE_COUNT ? any_sample(arena, index)
                                 : sample_text(arena, metric);
}

/* The page in true size of the first booklet of each sample, on both papers. */
static void each_booklet(void **state, look *look_at)
{
    struct fixture *fixture = *state;
    for (size_t i = 0; i <= SAMPLE_COUNT + 1; i++)
        for (int a4 = 0; a4 < 2; a4++) {
            const struct sample sample = scale_sample(fixture->arena, i);
            look_at(fixture, &sample,
                    compose_book(fixture->arena, fixture->typeset,
                                 phrases_load(fixture->arena, "en"),
                                 sample.design, &sample.plans->items.items[0],
                                 a4 == 1),
                    a4 == 1);
        }
}

static void look_at_squares(struct fixture *fixture,
                            const struct sample *sample,
                            const struct book *book, bool a4)
{
    (void)sample;
    struct point inside[2];
    assert_int_equal(outlines(book, inside, 2), 2);
    const struct picture picture = paint_scale(fixture, book, DPI);
    assert_near(picture.width * 25.4 / DPI, a4 ? 210 : 215.9, 0.1);
    const double worst = worst_square(&picture, inside);
    if (worst > TOLERANCE)
        fail_msg("a test square is %.3f mm off", worst);
}

static void test_squares_measure(void **state)
{
    each_booklet(state, look_at_squares);
}

/* The same file put on paper at 99 %, as a viewer that scales would. */
static void look_at_shrunk(struct fixture *fixture, const struct sample *sample,
                           const struct book *book, bool a4)
{
    (void)sample;
    (void)a4;
    struct point inside[2];
    assert_int_equal(outlines(book, inside, 2), 2);
    const struct picture picture = paint_scale(fixture, book, DPI * 99 / 100);
    if (worst_square(&picture, inside) <= TOLERANCE)
        fail_msg("a page of 99 %% passes for a true one");
}

static void test_shrunk_page_is_found_out(void **state)
{
    each_booklet(state, look_at_shrunk);
}

/* Whether any piece of 4 in or 10 cm at most is cut. */
static bool has_small_piece(const struct sewn_quilt *quilt, double unit)
{
    const double most = unit == 10.0 ? 10.0 : 4.0;
    for (size_t h = 0; h < quilt->heaps.count; h++)
        if (quilt->heaps.items[h].technique == TECHNIQUE_CUT &&
            rational_double(quilt->heaps.items[h].of.cut.width) <= most &&
            rational_double(quilt->heaps.items[h].of.cut.height) <= most)
            return true;
    return false;
}

/* Sizes that stand beside a shape, along its side. */
static size_t upright_sizes(const struct page *page)
{
    size_t count = 0;
    for (size_t i = 0; i < page->items.count; i++)
        count += page->items.items[i].kind == ITEM_TEXT &&
                 page->items.items[i].as.text.angle == -90.0 &&
                 !page->items.items[i].as.text.plate;
    return count;
}

/* Every other outline is a cut size of the pattern; the sizes are read from the
 * cutting tables. Squares have one size, all else one along each side. */
static void look_at_shapes(struct fixture *fixture, const struct sample *sample,
                           const struct book *book, bool a4)
{
    (void)a4;
    enum { MOST = 40 };
    struct point inside[MOST];
    const size_t count = outlines(book, inside, MOST);
    const double unit = sample->design->pattern->units == UNIT_CM ? 10.0 : 25.4;
    const struct picture picture = paint_scale(fixture, book, DPI);
    const struct sewn_quilt *quilt = sample->plans->items.items[0].quilt;
    assert_int_equal(count > 2, has_small_piece(quilt, unit));
    size_t oblong = 0;
    for (size_t i = 2; i < count; i++) {
        const double width = outer_size(&picture, inside[i], false);
        const double height = outer_size(&picture, inside[i], true);
        bool found = false;
        for (size_t h = 0; h < quilt->heaps.count; h++) {
            const struct heap *heap = &quilt->heaps.items[h];
            found |= heap->technique == TECHNIQUE_CUT &&
                     fabs(rational_double(heap->of.cut.width) * unit - width) <=
                         TOLERANCE &&
                     fabs(rational_double(heap->of.cut.height) * unit -
                          height) <= TOLERANCE;
        }
        if (!found)
            fail_msg("%.2f x %.2f mm is no cut size", width, height);
        oblong += fabs(width - height) > 2.0 * TOLERANCE;
    }
    assert_int_equal(upright_sizes(book->pages.items[scale_page_of(book)]),
                     oblong);
}

static void test_shapes_are_cut_sizes(void **state)
{
    each_booklet(state, look_at_shapes);
}

/* From the edge line down to the needle's line, both measured at their middle:
 * the first dashed line of the page, and the last long one above it. */
static void look_at_seam(struct fixture *fixture, const struct sample *sample,
                         const struct book *book, bool a4)
{
    (void)a4;
    const struct page *page = book->pages.items[scale_page_of(book)];
    const struct path_item *edge = NULL, *needle = NULL;
    for (size_t i = 0; i < page->items.count && needle == NULL; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH || path->count != 2 ||
            path->points[1].x - path->points[0].x < 200)
            continue;
        if (path->dash[0] > 0.0)
            needle = path;
        else
            edge = path;
    }
    assert_non_null(edge);
    assert_non_null(needle);
    const struct picture picture = paint_scale(fixture, book, DPI);
    /* In the middle of the first dash that lies below the edge. */
    double dash = needle->points[0].x + needle->dash[0] / 2;
    while (dash < edge->points[0].x + 2)
        dash += needle->dash[0] + needle->dash[1];
    const int x = (int)(dash * DPI / 72);
    int from = (int)((edge->points[0].y - 2) * DPI / 72);
    /* Middle to middle: the blank between, and half of each line. */
    int blank = 0, lines = 0;
    while (!dark(&picture, x, from))
        from++;
    for (; dark(&picture, x, from); from++)
        lines++;
    for (; !dark(&picture, x, from); from++)
        blank++;
    for (; dark(&picture, x, from); from++)
        lines++;
    const double gap = (blank + lines / 2.0) * 25.4 / DPI;
    const double unit = sample->design->pattern->units == UNIT_CM ? 10.0 : 25.4;
    assert_near(gap, rational_double(sample->design->pattern->seam) * unit,
                TOLERANCE);
}

static void test_gauge_is_the_seam(void **state)
{
    each_booklet(state, look_at_seam);
}

/* Everything on the page lies in what A4 and letter share, 6.35 mm from its
 * edges, where no printer leaves it out. */
static void look_at_area(struct fixture *fixture, const struct sample *sample,
                         const struct book *book, bool a4)
{
    (void)sample;
    (void)fixture;
    (void)a4;
    const struct page *page = book->pages.items[scale_page_of(book)];
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        for (size_t k = 0;
             page->items.items[i].kind == ITEM_PATH && k < path->count; k++) {
            assert_true(path->points[k].x >= 18);
            assert_true(path->points[k].x <= 595.276 - 18);
            assert_true(path->points[k].y >= 18);
            assert_true(path->points[k].y <= 792 - 18);
        }
    }
}

static void test_drawing_fits_both_papers(void **state)
{
    each_booklet(state, look_at_area);
}

static void test_printers_are_asked_not_to_scale(void **state)
{
    struct fixture *fixture = *state;
    const struct sample sample = any_sample(fixture->arena, 0);
    struct book *book = compose_book(
        fixture->arena, fixture->typeset, phrases_load(fixture->arena, "en"),
        sample.design, &sample.plans->items.items[0], false);
    save(fixture, "asked.pdf", render(fixture, book));
    assert_prints(fixture, "qpdf --json asked.pdf",
                  "\"/PrintScaling\": \"/None\"");
    run(fixture, "qpdf --check asked.pdf");
    /* Only where a page needs it. */
    book->true_scale = false;
    save(fixture, "free.pdf", render(fixture, book));
    run(fixture, "! grep -a PrintScaling free.pdf");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_squares_measure),
        CASE(test_shrunk_page_is_found_out),
        CASE(test_shapes_are_cut_sizes),
        CASE(test_gauge_is_the_seam),
        CASE(test_drawing_fits_both_papers),
        CASE(test_printers_are_asked_not_to_scale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
