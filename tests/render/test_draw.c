/* Paths as they are drawn, judged by the pixels that another program paints
 * of the PDF: how much ink, and where. */
#include "hand_made.h"

/* A book of one page with one square of 2 in, for the hatches. */
static struct path_item *square_book(struct arena *arena, struct book **book)
{
    *book = new_book(arena);
    struct page *page = add_page(arena, *book, "1");
    return add_rectangle(arena, page, 100, 100, 144, 144);
}

static void test_hatch_covers_its_share(void **state)
{
    struct fixture *fixture = *state;
    const struct hatch *const hatches[] = {
        lines_at(fixture->arena, 45, 6, 1), lines_at(fixture->arena, 0, 4, 1),
        lines_at(fixture->arena, 90, 9, 0.5),
        lines_at(fixture->arena, -60, 5, 2),
        lines_at(fixture->arena, 30, 3, 0.5)};
    for (size_t i = 0; i < COUNT(hatches); i++) {
        struct book *book;
        square_book(fixture->arena, &book)->hatch = hatches[i];
        const struct picture picture = paint(fixture, book);
        assert_near(ink(&picture, 100, 100, 144, 144),
                    hatches[i]->width / hatches[i]->spacing, 0.012);
        /* Clipped: nothing of it beside the square. */
        assert_near(ink(&picture, 0, 0, 99, 792), 0, 0);
        assert_near(ink(&picture, 245, 0, 360, 792), 0, 0);
        assert_near(ink(&picture, 0, 245, 612, 540), 0, 0);
    }
}

static void test_dots_cover_their_share(void **state)
{
    struct fixture *fixture = *state;
    struct book *book;
    struct path_item *path = square_book(fixture->arena, &book);
    struct hatch *dots = lines_at(fixture->arena, 0, 6, 2);
    dots->dotted = true;
    path->hatch = dots;
    const struct picture picture = paint(fixture, book);
    /* One disc of diameter 2 in each cell of 6 by 6. */
    assert_near(ink(&picture, 100, 100, 144, 144), acos(-1) / 36, 0.01);
}

static void test_rising_hatch_rises(void **state)
{
    struct fixture *fixture = *state;
    struct book *book;
    square_book(fixture->arena, &book)->hatch =
        lines_at(fixture->arena, 45, 36, 2);
    const struct picture picture = paint(fixture, book);
    /* The line through the page's corner runs where x + y is 0; the fifth
     * one after it where x + y is 5 * 36 * sqrt(2). */
    const double sum = 5 * 36 * sqrt(2);
    assert_true(ink(&picture, 110 - 0.5, sum - 110 - 0.5, 1, 1) > 0.9);
    assert_true(ink(&picture, 140 - 0.5, sum - 140 - 0.5, 1, 1) > 0.9);
    assert_near(ink(&picture, 118, sum - 110 + 8, 3, 3), 0, 0);
}

static void test_neighbours_share_a_hatch(void **state)
{
    struct fixture *fixture = *state;
    struct book *whole;
    square_book(fixture->arena, &whole)->hatch =
        lines_at(fixture->arena, 37, 7, 1);
    struct book *halves = new_book(fixture->arena);
    struct page *page = add_page(fixture->arena, halves, "1");
    add_rectangle(fixture->arena, page, 100, 100, 60, 144)->hatch =
        lines_at(fixture->arena, 37, 7, 1);
    add_rectangle(fixture->arena, page, 160, 100, 84, 144)->hatch =
        lines_at(fixture->arena, 37, 7, 1);
    const struct picture one = paint(fixture, whole);
    const struct picture two = paint(fixture, halves);
    int different = 0;
    for (int i = 0; i < one.width * one.height; i++)
        different += abs(one.grey[i] - two.grey[i]) > 64 ? 1 : 0;
    /* Only pixels on the common edge may differ, and there are 600 of them. */
    assert_true(different < 600);
    assert_near(ink(&one, 100, 100, 144, 144), ink(&two, 100, 100, 144, 144),
                0.002);
}

static void test_dashes_end_whole(void **state)
{
    struct fixture *fixture = *state;
    struct book *book = new_book(fixture->arena);
    struct page *page = add_page(fixture->arena, book, "1");
    const struct point line[] = {{100, 200}, {287, 200}};
    struct path_item *path = add_path(fixture->arena, page, line, 2);
    path->stroke = 2;
    path->dash[0] = 12;
    path->dash[1] = 6;
    const struct picture picture = paint(fixture, book);
    assert_near(ink(&picture, 100, 199, 10, 2), 1, 0.05);
    assert_near(ink(&picture, 277, 199, 10, 2), 1, 0.05);
    /* Ten periods and a dash in 187 pt: 11 dashes of 12, drawn in a little. */
    assert_near(ink(&picture, 100, 199, 187, 2), 11.0 * 12 / 192, 0.02);
    assert_near(ink(&picture, 288, 190, 20, 20), 0, 0);
}

static void test_plate_hides_the_hatch(void **state)
{
    struct fixture *fixture = *state;
    for (int plate = 0; plate < 2; plate++) {
        struct book *book;
        square_book(fixture->arena, &book)->hatch =
            lines_at(fixture->arena, 45, 3, 1);
        struct text_item *text =
            add_text(fixture->arena, book->pages.items[0], 172, 150,
                     "l               l");
        text->style.align = ALIGN_CENTER;
        text->plate = plate == 1;
        const struct picture picture = paint(fixture, book);
        /* Between the letters, on the height of their middle. */
        assert_near(ink(&picture, 164, 155, 16, 5), plate == 1 ? 0 : 0.333,
                    0.05);
        assert_near(ink(&picture, 110, 200, 90, 30), 0.333, 0.02);
    }
}

static void test_text_turns_clockwise(void **state)
{
    struct fixture *fixture = *state;
    struct book *book = new_book(fixture->arena);
    struct page *page = add_page(fixture->arena, book, "1");
    add_text(fixture->arena, page, 300, 300, "mmmmmm")->angle = 90;
    const struct picture picture = paint(fixture, book);
    /* Turned by 90 degrees it runs down from (300, 300), to the left of it. */
    assert_true(ink(&picture, 285, 300, 15, 50) > 0.1);
    assert_near(ink(&picture, 300, 280, 80, 100), 0, 0);
    assert_near(ink(&picture, 280, 200, 80, 99), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_hatch_covers_its_share),
        CASE(test_dots_cover_their_share),
        CASE(test_rising_hatch_rises),
        CASE(test_neighbours_share_a_hatch),
        CASE(test_dashes_end_whole),
        CASE(test_plate_hides_the_hatch),
        CASE(test_text_turns_clockwise),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
