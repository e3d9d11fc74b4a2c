/* Photos as other programs see them in the PDF: the bytes of a JPEG untouched,
 * the pixels where they belong, turned as the camera was held. */
#include "hand_made.h"
#include "photos.h"

/* A page with one photo of 144 x 72 points, or 72 x 144 where it is turned. */
static struct book *photo_book(struct fixture *fixture, struct buffer bytes,
                               bool jpeg, unsigned turn)
{
    struct book *book = new_book(fixture->arena);
    struct page *page = add_page(fixture->arena, book, "1");
    /* As on a cover: Cairo 1.16 refuses a figure whose photo is the first mark
     * of its page. */
    begin_tag(fixture->arena, page, "P", NULL);
    add_text(fixture->arena, page, 300, 600, "The Turning Lamp");
    end_tag(fixture->arena, page, "P");
    begin_tag(fixture->arena, page, "Figure", "Photo of the quilt");
    struct image_item *image =
        &add_item(fixture->arena, page, ITEM_IMAGE)->as.image;
    *image = (struct image_item){jpeg, bytes.bytes, bytes.length, 16, 8, turn,
                                 100, 200, turn % 2 == 0 ? 144 : 72,
                                 turn % 2 == 0 ? 72 : 144};
    end_tag(fixture->arena, page, "Figure");
    return book;
}

static struct buffer bytes_of(struct fixture *fixture, bool jpeg)
{
    return jpeg ? jpeg_photo(fixture->arena) : png_photo(fixture->arena);
}

/* Dark is the left half as it is in the file; then it goes round clockwise. */
static void test_photo_lies_in_its_box(void **state)
{
    struct fixture *fixture = *state;
    static const struct point dark[4] = {
        {110, 210}, {110, 210}, {182, 210}, {110, 282}};
    static const struct point light[4] = {
        {182, 210}, {110, 282}, {110, 210}, {110, 210}};
    for (unsigned turn = 0; turn < 4; turn++)
        for (int jpeg = 0; jpeg < 2; jpeg++) {
            const struct picture picture = paint(
                fixture, photo_book(fixture, bytes_of(fixture, jpeg == 1),
                                    jpeg == 1, turn));
            assert_near(ink(&picture, dark[turn].x, dark[turn].y, 50, 50), 1,
                        0.01);
            assert_near(ink(&picture, light[turn].x, light[turn].y, 50, 50), 0,
                        0.01);
            /* Nothing of it beside the box. */
            assert_near(ink(&picture, 0, 100, 98, 300), 0, 0);
            assert_near(ink(&picture, 100, 100, 200, 98), 0, 0);
        }
}

/* Not decoded and coded anew: the file's own bytes lie in the PDF. */
static void test_jpeg_is_passed_through(void **state)
{
    struct fixture *fixture = *state;
    const struct buffer bytes = jpeg_photo(fixture->arena);
    const struct rendered pdf =
        render(fixture, photo_book(fixture, bytes, true, 0));
    assert_null(pdf.problem);
    bool found = false;
    for (size_t i = 0; !found && i + bytes.length <= pdf.length; i++)
        found = memcmp(pdf.bytes + i, bytes.bytes, bytes.length) == 0;
    assert_true(found);
    save(fixture, "photo.pdf", pdf);
    run(fixture, "qpdf --check photo.pdf");
    assert_prints(fixture, "pdfimages -list photo.pdf", "jpeg");
    assert_prints(fixture, "qpdf --qdf photo.pdf -",
                  "/Alt (Photo of the quilt)");
}

static void test_two_runs_agree(void **state)
{
    struct fixture *fixture = *state;
    for (int jpeg = 0; jpeg < 2; jpeg++) {
        const struct buffer bytes = bytes_of(fixture, jpeg == 1);
        const struct rendered one =
            render(fixture, photo_book(fixture, bytes, jpeg == 1, 0));
        const struct rendered two =
            render(fixture, photo_book(fixture, bytes, jpeg == 1, 0));
        assert_int_equal(one.length, two.length);
        assert_memory_equal(one.bytes, two.bytes, one.length);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_photo_lies_in_its_box),
        CASE(test_jpeg_is_passed_through),
        CASE(test_two_runs_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
