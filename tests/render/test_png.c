/* Figures as PNG: the head is read byte by byte (ISO/IEC 15948), the picture by
 * libpng, and it shows what another program paints of the PDF. */
#include <png.h>

#include "figures.h"

static unsigned long number_at(const char *bytes)
{
    const unsigned char *b = (const unsigned char *)bytes;
    return (unsigned long)b[0] << 24 | (unsigned long)b[1] << 16 |
           (unsigned long)b[2] << 8 | b[3];
}

/* ensures: the data of the first chunk of that name, or NULL. */
static const char *chunk(struct rendered png, const char *name)
{
    for (size_t at = 8; at + 12 <= png.length;
         at += 12 + number_at(png.bytes + at))
        if (memcmp(png.bytes + at + 4, name, 4) == 0)
            return png.bytes + at + 8;
    return NULL;
}

/* requires: a PNG. The pixels are grey, one byte each. */
static struct picture read_png(struct arena *arena, struct rendered png)
{
    png_image image = {.version = PNG_IMAGE_VERSION};
    assert_true(
        png_image_begin_read_from_memory(&image, png.bytes, png.length));
    image.format = PNG_FORMAT_GRAY;
    unsigned char *grey =
        ARENA_ARRAY(arena, unsigned char, PNG_IMAGE_SIZE(image));
    assert_true(png_image_finish_read(&image, NULL, grey, 0, NULL));
    return (struct picture){(int)image.width, (int)image.height, grey};
}

static struct rendered png_of(const struct fixture *fixture,
                              const struct book *book, int dots)
{
    const struct rendered png =
        render_png(fixture->arena, fixture->typeset, book, dots);
    assert_null(png.problem);
    return png;
}

static void look_at_figure(const struct fixture *fixture,
                           const struct named_figure *named)
{
    const int dots = 72;
    const struct rendered png = png_of(fixture, named->book, dots);
    assert_memory_equal(png.bytes, "\x89PNG\r\n\x1a\n", 8);
    const char *head = chunk(png, "IHDR");
    assert_near((double)number_at(head), named->book->width, 1);
    assert_near((double)number_at(head + 4), named->book->height, 1);
    const char *resolution = chunk(png, "pHYs");
    assert_non_null(resolution);
    assert_near((double)number_at(resolution), dots / 0.0254, 0.5);
    assert_near((double)number_at(resolution + 4), dots / 0.0254, 0.5);
    assert_int_equal(resolution[8], 1); /* to the metre */
    assert_null(chunk(png, "tIME"));
    const struct picture picture = read_png(fixture->arena, png);
    /* Lines to color are gray. */
    const int ink = strcmp(named->name, "coloring") == 0 ? 230 : 128;
    int dark = 0;
    for (int i = 0; i < picture.width * picture.height; i++)
        dark += picture.grey[i] < ink;
    assert_true(dark > 20);
}

static void test_all_figures(void **state)
{
    visit_figures(state, look_at_figure);
}

static void test_size_goes_with_resolution(void **state)
{
    const struct fixture *fixture = *state;
    const struct book *book = hostile_page(fixture->arena);
    const int dots[] = {36, 150, 300, 600};
    for (size_t i = 0; i < COUNT(dots); i++) {
        const struct rendered png = png_of(fixture, book, dots[i]);
        const char *head = chunk(png, "IHDR");
        assert_int_equal(number_at(head), 300 * dots[i] / 72);
        assert_int_equal(number_at(head + 4), 240 * dots[i] / 72);
    }
}

/* Poppler paints the PDF of the same page; both lay the same ink in the same
 * places. */
static void test_picture_is_the_pdf(void **state)
{
    const struct fixture *fixture = *state;
    const struct book *book = hostile_page(fixture->arena);
    const struct picture wanted = paint(fixture, book);
    const struct picture found =
        read_png(fixture->arena, png_of(fixture, book, DPI));
    assert_int_equal(found.width, wanted.width);
    assert_int_equal(found.height, wanted.height);
    for (int y = 0; y < 240; y += 30)
        for (int x = 0; x < 300; x += 30)
            assert_near(ink(&found, x, y, 30, 30), ink(&wanted, x, y, 30, 30),
                        0.02);
    assert_true(ink(&found, 20, 20, 60, 40) > 0.3);
}

static void test_same_bytes_again(void **state)
{
    const struct fixture *fixture = *state;
    const struct book *book = hostile_page(fixture->arena);
    const struct rendered one = png_of(fixture, book, 150);
    const struct rendered two = png_of(fixture, book, 150);
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.bytes, two.bytes, one.length);
}

static void test_too_large_is_told(void **state)
{
    const struct fixture *fixture = *state;
    struct book *book = hostile_page(fixture->arena);
    book->width = 5000;
    const struct rendered png =
        render_png(fixture->arena, fixture->typeset, book, 600);
    assert_non_null(png.problem);
    assert_null(png.bytes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_all_figures),        CASE(test_size_goes_with_resolution),
        CASE(test_picture_is_the_pdf), CASE(test_same_bytes_again),
        CASE(test_too_large_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
