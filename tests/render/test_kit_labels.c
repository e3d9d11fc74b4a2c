/* Sheets of labels, measured on pages that another program paints at 300 dots
 * to the inch, to 0.2 mm. The four geometries are published or common practice;
 * they stand here a second time, in millimetres and worked out by hand, so that
 * nothing of the program's own places is asked. */
#include "../kit/ordered.h"

#include "compose_kits.h"
#include "hand_made.h"

static const double TOLERANCE = 0.2; /* mm */
/* Lines are 0.18 mm and lie inside the label; 2 mm stay free. */
static const double LINE = 0.18, AIR = 2.0;

struct geometry {
    const char *name, *attributes; /* in the order */
    bool a4;
    int columns, rows;
    double width, height, left, top, across, down; /* mm */
};

/* A and C: "Label templates" (wiki.trackandtrace.tools) and "Address labels A4"
 * (printreadykit.pages.dev), each put in the middle of its sheet; B and D from
 * memory. */
static const struct geometry GEOMETRIES[] = {
    {"A",
     "columns=\"3\" rows=\"10\" width=\"2 5/8\" height=\"1\" left=\"3/16\" "
     "top=\"1/2\" across=\"2 3/4\" down=\"1\" paper=\"letter\"",
     false, 3, 10, 66.675, 25.4, 4.7625, 12.7, 69.85, 25.4},
    {"B",
     "columns=\"2\" rows=\"5\" width=\"4\" height=\"2\" left=\"5/32\" "
     "top=\"1/2\" across=\"4 3/16\" down=\"2\" paper=\"letter\"",
     false, 2, 5, 101.6, 50.8, 3.96875, 12.7, 106.3625, 50.8},
    {"C",
     "columns=\"3\" rows=\"7\" width=\"63.5 mm\" height=\"38.1 mm\" "
     "left=\"7.25 mm\" top=\"15.15 mm\" across=\"66 mm\" down=\"38.1 mm\" "
     "paper=\"a4\"",
     true, 3, 7, 63.5, 38.1, 7.25, 15.15, 66.0, 38.1},
    {"D",
     "columns=\"2\" rows=\"4\" width=\"99.1 mm\" height=\"67.7 mm\" "
     "left=\"4.65 mm\" top=\"13.1 mm\" across=\"101.6 mm\" down=\"67.7 mm\" "
     "paper=\"a4\"",
     true, 2, 4, 99.1, 67.7, 4.65, 13.1, 101.6, 67.7}};

/* ---- pages ---- */

/* 37 kits of one line, so that no sheet is filled to its end. */
enum { KITS = 37 };

/* Two cloths, so that a label has two swatches. */
static const struct kits *kits_on(struct arena *arena,
                                  const struct geometry *geometry,
                                  const char *more)
{
    const struct ordered ordered = ordered_of(
        arena,
        arena_printf(arena,
                     "<order xmlns=\"urn:seamwright:pattern:1\" id=\"o\" "
                     "title=\"Quay kits\"><line pattern=\"p.xml\" "
                     "quilt=\"Mole\" colorway=\"Gull\" kits=\"%d\"/>"
                     "<labels %s %s/></order>",
                     KITS, geometry->attributes, more));
    assert_non_null(ordered.order);
    struct kit_facts *facts = facts_new(arena, "Mole", "Gull");
    facts_yardage(arena, facts, "N-1", 8);
    facts_yardage(arena, facts, "N-2", 4);
    const struct kit_facts *const all[] = {facts};
    const struct kits *kits = ordered_plan(&ordered, all);
    assert_non_null(kits);
    return kits;
}

/* Where a thing is in true size, the printer is asked not to scale it. */
static struct book *paper(const struct fixture *fixture,
                          const struct kits *kits, enum kit_paper kind)
{
    struct book *book = compose_kit_paper(
        fixture->arena, fixture->typeset, phrases_load(fixture->arena, "en"),
        kits, kind, false);
    assert_non_null(book);
    assert_true(book->true_scale);
    return book;
}

/* Page `page`, from 1, as it would come out on paper. */
static struct picture paint_page(const struct fixture *fixture,
                            const struct book *book, size_t page, double dpi)
{
    save(fixture, "labels.pdf",
         render_pdf(fixture->arena, fixture->typeset, book));
    const struct buffer bytes =
        run(fixture, arena_printf(fixture->arena,
                                  "pdftoppm -r %.0f -gray -f %zu -l %zu "
                                  "labels.pdf",
                                  dpi, page, page));
    struct picture picture = {0};
    int header = 0;
    assert_int_equal(sscanf(bytes.bytes, "P5 %d %d 255%*c%n", &picture.width,
                            &picture.height, &header),
                     2);
    picture.grey = (const unsigned char *)bytes.bytes + header;
    return picture;
}

/* ---- measuring ---- */

/* A walk that leaves the page has missed its line. */
static bool dark(const struct picture *picture, int x, int y)
{
    if (x < 0 || y < 0 || x >= picture->width || y >= picture->height)
        fail_msg("no line between here and the edge of the page");
    return picture->grey[y * picture->width + x] < 128;
}

/* From a blank place, in mm, to the middle of the step before the first line:
 * the place of the line's near edge, in mm. */
static double near_edge(const struct picture *picture, struct point from,
                        int dx, int dy)
{
    int x = (int)(from.x / 25.4 * DPI), y = (int)(from.y / 25.4 * DPI);
    assert_false(dark(picture, x, y));
    while (!dark(picture, x, y)) {
        x += dx;
        y += dy;
    }
    const int at = dx != 0 ? x : y, step = dx + dy;
    return (step < 0 ? at + 1 : at) * 25.4 / DPI;
}

/* Upper left, by rows from 0; in mm. */
static struct point corner_of(const struct geometry *g, int number)
{
    return (struct point){g->left + (number % g->columns) * g->across,
                          g->top + (number / g->columns) * g->down};
}

/* The most by which an edge of an outline lies off, over the whole sheet. */
static double worst_edge(const struct picture *picture,
                         const struct geometry *g)
{
    double worst = 0.0;
    for (int i = 0; i < g->columns * g->rows; i++) {
        const struct point corner = corner_of(g, i);
        /* Off the middle, clear of number and cross. */
        const struct point inside = {corner.x + g->width * 0.75,
                                     corner.y + g->height * 0.75};
        const double edges[][2] = {
            {near_edge(picture, inside, -1, 0) - LINE, corner.x},
            {near_edge(picture, inside, 1, 0) + LINE, corner.x + g->width},
            {near_edge(picture, inside, 0, -1) - LINE, corner.y},
            {near_edge(picture, inside, 0, 1) + LINE, corner.y + g->height}};
        for (size_t k = 0; k < COUNT(edges); k++)
            worst = fmax(worst, fabs(edges[k][0] - edges[k][1]));
    }
    return worst;
}

/* Has the place an outline? */
static bool crossed(const struct picture *picture, struct point middle)
{
    bool found = false;
    for (int d = -2; d <= 2; d++)
        found |= dark(picture, (int)(middle.x / 25.4 * DPI) + d,
                      (int)(middle.y / 25.4 * DPI) + 20);
    return found;
}

/* ---- the test page ---- */

/* All edges of all labels, and a cross in the middle of each. */
static void outlines_lie_on_labels(void **state)
{
    struct fixture *fixture = *state;
    for (size_t i = 0; i < COUNT(GEOMETRIES); i++) {
        const struct geometry *g = &GEOMETRIES[i];
        const struct book *book =
            paper(fixture, kits_on(fixture->arena, g, ""),
                  KIT_PAPER_LABELS_TEST);
        assert_int_equal(book->pages.count, 2);
        assert_int_equal(book->width > 600.0, !g->a4);
        const struct picture picture = paint_page(fixture, book, 2, DPI);
        const double worst = worst_edge(&picture, g);
        if (worst > TOLERANCE)
            fail_msg("%s: off by %.2f mm", g->name, worst);
        for (int k = 0; k < g->columns * g->rows; k++) {
            const struct point corner = corner_of(g, k);
            assert_true(crossed(&picture,
                                (struct point){corner.x + g->width / 2.0,
                                               corner.y + g->height / 2.0}));
        }
    }
}

/* A print at 99 %, and a sheet that lies half a millimetre off, are found by
 * the same measuring. */
static void what_is_off_is_found(void **state)
{
    struct fixture *fixture = *state;
    const struct geometry *g = &GEOMETRIES[2];
    const struct book *book = paper(
        fixture, kits_on(fixture->arena, g, ""), KIT_PAPER_LABELS_TEST);
    const struct picture small = paint_page(fixture, book, 2, DPI * 0.99);
    assert_true(worst_edge(&small, g) > 2.0 * TOLERANCE);
    struct geometry moved = *g;
    moved.left += 0.5;
    const struct picture picture = paint_page(fixture, book, 2, DPI);
    assert_true(worst_edge(&picture, &moved) > TOLERANCE);
}

/* What is read off the test page moves all labels. */
static void offsets_move_all(void **state)
{
    struct fixture *fixture = *state;
    for (size_t i = 0; i < COUNT(GEOMETRIES); i += 2) {
        struct geometry moved = GEOMETRIES[i];
        const struct book *book = paper(
            fixture,
            kits_on(fixture->arena, &GEOMETRIES[i],
                    "offset-x=\"1.5 mm\" offset-y=\"-0.75 mm\""),
            KIT_PAPER_LABELS_TEST);
        moved.left += 1.5;
        moved.top -= 0.75;
        const struct picture picture = paint_page(fixture, book, 2, DPI);
        assert_true(worst_edge(&picture, &moved) <= TOLERANCE);
    }
}

/* ---- labels ---- */

/* The label in whose printed area a place in mm lies; -1 for none. */
static int label_at(const struct geometry *g, double x, double y)
{
    const double free = AIR - TOLERANCE;
    for (int i = 0; i < g->columns * g->rows; i++) {
        const struct point corner = corner_of(g, i);
        if (x >= corner.x + free && x <= corner.x + g->width - free &&
            y >= corner.y + free && y <= corner.y + g->height - free)
            return i;
    }
    return -1;
}

/* Counts the labels of a sheet that are printed on. `stray`: gets how many dots
 * lie in no label's area. */
static size_t printed(const struct picture *picture, const struct geometry *g,
                      bool *used, size_t *stray)
{
    size_t count = 0;
    *stray = 0;
    memset(used, 0, (size_t)(g->columns * g->rows) * sizeof *used);
    for (int y = 0; y < picture->height; y++)
        for (int x = 0; x < picture->width; x++) {
            if (!dark(picture, x, y))
                continue;
            const int label =
                label_at(g, (x + 0.5) * 25.4 / DPI, (y + 0.5) * 25.4 / DPI);
            if (label < 0)
                (*stray)++;
            else
                used[label] = true;
        }
    for (int i = 0; i < g->columns * g->rows; i++)
        count += used[i];
    return count;
}

/* The first sheet was begun, the last is filled in part; nothing is printed
 * within 2 mm of an edge, or on a label that is gone. */
static void labels_fill_their_sheets(void **state)
{
    struct fixture *fixture = *state;
    enum { START = 4, MOST = 30 };
    for (size_t i = 0; i < COUNT(GEOMETRIES); i++) {
        const struct geometry *g = &GEOMETRIES[i];
        const int all = g->columns * g->rows;
        const struct book *book =
            paper(fixture, kits_on(fixture->arena, g, "start=\"4\""),
                  KIT_PAPER_LABELS);
        const size_t sheets =
            (size_t)((KITS + START - 1 + all - 1) / all);
        assert_int_equal(book->pages.count, sheets);
        size_t total = 0, stray;
        bool used[MOST];
        for (size_t page = 1; page <= sheets; page++) {
            const struct picture picture = paint_page(fixture, book, page, DPI);
            total += printed(&picture, g, used, &stray);
            assert_int_equal(stray, 0);
            for (int k = 0; page == 1 && k < START - 1; k++)
                assert_false(used[k]);
            for (int k = 0; page < sheets && k < all; k++)
                assert_true(used[k] || (page == 1 && k < START - 1));
        }
        assert_int_equal(total, KITS);
        /* Moved by 3 mm, dots would lie outside. */
        struct geometry moved = *g;
        moved.left += 3.0;
        const struct picture picture = paint_page(fixture, book, 1, DPI);
        printed(&picture, &moved, used, &stray);
        assert_true(stray > 0);
    }
}

/* Names that are far too long are cut, and stay in their label. */
static void long_names_stay_inside(void **state)
{
    struct fixture *fixture = *state;
    static const struct geometry small = {
        "small",
        "columns=\"5\" rows=\"13\" width=\"38.1 mm\" height=\"21.2 mm\" "
        "left=\"9.75 mm\" top=\"10.7 mm\" across=\"38.1 mm\" "
        "down=\"21.2 mm\" paper=\"a4\"",
        true, 5, 13, 38.1, 21.2, 9.75, 10.7, 38.1, 21.2};
    const struct kits *kits = kits_on(fixture->arena, &small, "");
    struct kit_facts *facts = ARENA_NEW(fixture->arena, struct kit_facts);
    *facts = *kits->lines[0].facts;
    facts->title = "Seventeen Lanterns over the Long Mole of Gullhaven Harbor";
    facts->quilt_name = "Largewallhangingforthechurch";
    kits->lines[0].facts = facts;
    const struct book *book = paper(fixture, kits, KIT_PAPER_LABELS);
    const struct picture picture = paint_page(fixture, book, 1, DPI);
    bool used[65];
    size_t stray;
    assert_int_equal(printed(&picture, &small, used, &stray), KITS);
    assert_int_equal(stray, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(outlines_lie_on_labels),
        CASE(what_is_off_is_found),
        CASE(offsets_move_all),
        CASE(labels_fill_their_sheets),
        CASE(long_names_stay_inside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
