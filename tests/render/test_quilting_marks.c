/* What is marked, in true size, on the page that another program paints: a line
 * lies as far from the outline as on the cloth, and where a sheet ends it goes
 * on at the same place of the next. */
#include "../book/mat.h"
#include "../book/sample.h"
#include "compose.h"
#include "hand_made.h"

static const double TRUE_TO = 0.2, JOINS_TO = 0.3; /* mm */

/* A mat of 12 in on sheets of 7: two across, two down. Its echo runs 3 in from
 * each side. */
enum { SHEETS = 4 };
static const double SIDE = 7.0, BESIDE = 3.0;

struct tile {
    struct picture picture;
    struct point corner; /* of its top left, in inches on the page */
};

/* ---- pages ---- */

/* Where the sheet lies on a page, in points; false for a page without one. Only
 * where to look is taken from it. */
static bool find_sheet(const struct fixture *fixture, const struct page *page,
                       struct point *corner)
{
    const struct item_list items = page_items(fixture->arena, page);
    for (size_t k = 0; k < items.count; k++) {
        const struct path_item *path = &items.items[k].as.path;
        if (items.items[k].kind != ITEM_PATH || !path->closed ||
            path->count != 4 || !(path->dash[0] > 0.0))
            continue;
        *corner = path->points[0];
        return true;
    }
    return false;
}

/* As a printer puts the page on paper. */
static struct picture paint_sheet(const struct fixture *fixture, size_t page)
{
    const struct buffer bytes = run(
        fixture,
        arena_printf(fixture->arena,
                     "pdftoppm -r %d -gray -f %zu -l %zu marks.pdf", DPI, page,
                     page));
    struct picture picture = {0};
    int header = 0;
    assert_int_equal(sscanf(bytes.bytes, "P5 %d %d 255%*c%n", &picture.width,
                            &picture.height, &header),
                     2);
    picture.grey = (const unsigned char *)bytes.bytes + header;
    return picture;
}

/* In their order: row by row. */
static void paint_sheets(const struct fixture *fixture, bool a4,
                         struct tile *sheets)
{
    const struct sample sample =
        sample_text(fixture->arena, mat_of(fixture->arena, 12));
    const struct book *book =
        compose_book(fixture->arena, fixture->typeset,
                     phrases_load(fixture->arena, "en"), sample.design,
                     &sample.plans->items.items[0], a4);
    size_t count = 0;
    save(fixture, "marks.pdf",
         render_pdf(fixture->arena, fixture->typeset, book));
    for (size_t p = 0; p < book->pages.count; p++) {
        struct point corner;
        if (!book->pages.items[p]->true_to_scale ||
            !find_sheet(fixture, book->pages.items[p], &corner))
            continue;
        assert_true(count < SHEETS);
        sheets[count].corner =
            (struct point){corner.x / 72.0, corner.y / 72.0};
        sheets[count++].picture = paint_sheet(fixture, p + 1);
    }
    assert_int_equal(count, SHEETS);
}

/* ---- measuring ---- */

/* From a blank place, in pixels, to the first dark one; and through it. */
static void walk(const struct picture *picture, int x, int y, int dx, int dy,
                 int *near, int *far)
{
    int steps = 0;
    for (int dark = 0; dark < 2; dark++)
        for (;; steps++) {
            const int px = x + steps * dx, py = y + steps * dy;
            if (px < 0 || py < 0 || px >= picture->width ||
                py >= picture->height)
                fail_msg("no line between here and the edge of the page");
            if ((picture->grey[py * picture->width + px] < 128) != (dark == 1)) {
                *(dark == 0 ? near : far) = steps;
                break;
            }
        }
}

/* From the middle of the line on one side of a place of the mat to that of the
 * line on the other, in mm. */
static double between(const struct tile *sheets, int row, int column,
                      struct point at, bool down)
{
    const struct tile *sheet = &sheets[2 * row + column];
    const int x = (int)((sheet->corner.x + at.x - column * SIDE) * DPI);
    const int y = (int)((sheet->corner.y + at.y - row * SIDE) * DPI);
    int near[2], far[2];
    for (int i = 0; i < 2; i++) {
        const int step = i == 0 ? -1 : 1;
        walk(&sheet->picture, x, y, down ? 0 : step, down ? step : 0, &near[i],
             &far[i]);
    }
    return ((near[0] + far[0] - 1) / 2.0 + (near[1] + far[1] - 1) / 2.0) *
           25.4 / DPI;
}

/* ---- tests ---- */

/* The four joins: upright ones are crossed by level lines 3 in from the top and
 * from the bottom, level ones by upright lines 3 in from left and right. Looked
 * at 0.4 in before and behind each join, clear of its number. */
static void test_sheets_are_true_and_join(void **state)
{
    static const double BEFORE = 6.6, BEHIND = 7.4, LOW = 1.5, HIGH = 10.5;
    for (int a4 = 0; a4 < 2; a4++) {
        struct tile sheets[SHEETS];
        double worst = 0.0, apart = 0.0;
        paint_sheets(*state, a4 == 1, sheets);
        for (int i = 0; i < 4; i++) {
            const bool upright = i < 2;
            const int second = i % 2;
            const double across = second == 0 ? LOW : HIGH;
            double found[2];
            for (int k = 0; k < 2; k++) {
                const double along = k == 0 ? BEFORE : BEHIND;
                found[k] = between(
                    sheets, upright ? second : k, upright ? k : second,
                    upright ? (struct point){along, across}
                            : (struct point){across, along},
                    upright);
                worst = fmax(worst, fabs(found[k] - BESIDE * 25.4));
            }
            apart = fmax(apart, fabs(found[0] - found[1]));
        }
        printf("# %s: %.3f mm off, %.3f mm apart at a join\n",
               a4 ? "A4" : "letter", worst, apart);
        assert_true(worst <= TRUE_TO);
        assert_true(apart <= JOINS_TO);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_sheets_are_true_and_join),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
