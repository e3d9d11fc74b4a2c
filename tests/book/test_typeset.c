/* Measuring and finding glyphs. What a drawn text looks like is tested with
 * the PDF back end. */
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "../unit.h"
#include "buffer.h"
#include "typeset.h"
#include <cairo.h>

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const struct text_style BODY = {FACE_REGULAR, 11, ALIGN_LEFT, {0, 0, 0}};
static const char SENTENCE[] =
    "Sew the two strips right sides together and press the seam.";

static int setup(void **state)
{
    *state = typeset_create();
    return 0;
}

static int teardown(void **state)
{
    typeset_destroy(*state);
    return 0;
}

static void assert_near(double value, double wanted, double tolerance)
{
    if (!(fabs(value - wanted) <= tolerance))
        fail_msg("%.5f is not within %.5f of %.5f", value, tolerance, wanted);
}

static double width_of(struct typeset *typeset, const char *text)
{
    return typeset_measure(typeset, text, BODY, 0).width;
}

static void assert_same_extent(struct text_extent a, struct text_extent b)
{
    assert_true(a.width >= b.width && a.width <= b.width);
    assert_true(a.height >= b.height && a.height <= b.height);
    assert_true(a.baseline >= b.baseline && a.baseline <= b.baseline);
    assert_int_equal(a.lines, b.lines);
}

static void test_same_measure_each_time(void **state)
{
    const struct text_extent first =
        typeset_measure(*state, SENTENCE, BODY, 90);
    /* Other texts between must leave no trace. */
    typeset_measure(*state, "\u2702 other", (struct text_style){.size = 31}, 7);
    assert_same_extent(first, typeset_measure(*state, SENTENCE, BODY, 90));
    typeset_destroy(*state);
    *state = typeset_create();
    assert_same_extent(first, typeset_measure(*state, SENTENCE, BODY, 90));
}

/* The advances are those of the font: Noto Sans 2.004 has 572 units for a
 * digit, 260 for a blank, of 1000 in the em (its hmtx table). */
static void test_widths_are_the_fonts(void **state)
{
    assert_near(width_of(*state, "0"), 0.572 * 11, 0.001);
    assert_near(width_of(*state, "0123456789"), 5.72 * 11, 0.01);
    assert_near(width_of(*state, "1 1") - width_of(*state, "11"), 0.26 * 11,
                0.01);
    const struct text_extent large = typeset_measure(
        *state, "0123456789", (struct text_style){.size = 110}, 0);
    assert_near(large.width, 5.72 * 110, 0.01);
}

static void test_faces_differ(void **state)
{
    double widths[3];
    for (int face = 0; face < 3; face++) {
        struct text_style style = BODY;
        style.face = (enum text_face)face;
        widths[face] = typeset_measure(*state, "Half-square", style, 0).width;
    }
    assert_true(widths[FACE_BOLD] > widths[FACE_REGULAR] + 1);
    assert_true(fabs(widths[FACE_ITALIC] - widths[FACE_REGULAR]) > 0.5);
}

/* Raised and lowered digits are narrower than the plain ones; the whole number
 * before the fraction is not touched. */
static void test_fraction_slash_makes_a_fraction(void **state)
{
    const double digit = width_of(*state, "0");
    const double slash = width_of(*state, "\u2044");
    const double fraction = width_of(*state, "17\u204432");
    assert_true(fraction < 4 * 0.7 * digit + slash);
    assert_near(width_of(*state, "12 17\u204432"),
                width_of(*state, "12 ") + fraction, 0.01);
    assert_near(width_of(*state, "17/32"), 4 * digit + width_of(*state, "/"),
                0.01);
}

static void test_wrapping(void **state)
{
    const double whole = width_of(*state, SENTENCE);
    const struct text_extent one =
        typeset_measure(*state, SENTENCE, BODY, whole + 1);
    const struct text_extent more =
        typeset_measure(*state, SENTENCE, BODY, 100);
    assert_int_equal(one.lines, 1);
    assert_near(one.width, whole, 0.01);
    assert_true(more.lines >= 4 && more.lines <= 6);
    assert_true(more.width <= 100);
    assert_true(more.width > 60);
    /* A word that is wider than the box is broken rather than let out. */
    const struct text_extent narrow =
        typeset_measure(*state, "lantern", BODY, 20);
    assert_true(narrow.lines > 1 && narrow.width <= 20);
    assert_int_equal(typeset_measure(*state, "a\nb\nc", BODY, 0).lines, 3);
}

/* Height depends on size and lines only, so a symbol from the second font does
 * not shift what lies below. */
static void test_heights(void **state)
{
    const struct text_extent plain = typeset_measure(*state, "a", BODY, 0);
    assert_near(plain.height, 1.3 * 11, 1e-9);
    /* The digits, 714 units high (OS/2 table), stand in the middle. */
    assert_near(plain.baseline - 0.714 * 11 / 2, plain.height / 2, 0.01);
    const struct text_extent symbol =
        typeset_measure(*state, "a \u2610\u2702", BODY, 0);
    assert_near(symbol.height, plain.height, 0);
    assert_near(symbol.baseline, plain.baseline, 0);
    assert_near(typeset_measure(*state, "a\nb", BODY, 0).height,
                2 * plain.height, 1e-9);
}

static void test_missing_glyphs(void **state)
{
    const struct {
        const char *text;
        int missing;
    } cases[] = {
        {"", 0},
        {"Plain words, 12 17\u204432 \u00d7 2\u00bd\u2033", 0},
        {"\u2153 \u2154 \u2159 \u215a \u215b \u215c \u215d \u215e \u2032", 0},
        {"\u2190\u2192\u2191\u2193 \u2212 \u2713\u2717 \u2610\u2611 "
         "\u25b2\u25b6 \u2702 \u21ba",
         0},
        {"\u0141\u00f3d\u017a \u0158\u00ed\u010dany \u00c5s \u00df", 0},
        {"\u2013 \u2014 \u201cso\u201d \u2018so\u2019 \u2026 \u20ac", 0},
        {"line\nbreak\tand tab", 0},
        {"\u7e2b", 1},
        {"a\u7e2b\u3044b", 2},
        {"\U0001F9F5", 1},
    };
    for (size_t i = 0; i < COUNT(cases); i++)
        if (typeset_missing_glyphs(*state, cases[i].text) != cases[i].missing)
            fail_msg("\"%s\": %d missing", cases[i].text,
                     typeset_missing_glyphs(*state, cases[i].text));
}

/* Draws on a small picture. ensures: the first and the last column with ink. */
static void draw_columns(struct typeset *typeset, struct text_item text,
                         int columns[2])
{
    cairo_surface_t *surface =
        cairo_image_surface_create(CAIRO_FORMAT_A8, 400, 60);
    cairo_t *cairo = cairo_create(surface);
    typeset_draw(typeset, cairo, &text);
    assert_int_equal(cairo_status(cairo), CAIRO_STATUS_SUCCESS);
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
    const unsigned char *pixels = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    columns[0] = columns[1] = -1;
    for (int i = 0; i < 400 * 60; i++) {
        const int column = i / 60, row = i % 60;
        if (pixels[row * stride + column] < 32)
            continue;
        if (columns[0] < 0)
            columns[0] = column;
        columns[1] = column;
    }
    cairo_surface_destroy(surface);
}

static void test_alignment(void **state)
{
    const double width = width_of(*state, "HHHHHH");
    const struct {
        enum text_align align;
        double box;  /* the item's width */
        double left; /* where the text should start; x is 200 */
    } cases[] = {
        {ALIGN_LEFT, 0, 200},
        {ALIGN_CENTER, 0, 200 - width / 2},
        {ALIGN_RIGHT, 0, 200 - width},
        {ALIGN_LEFT, 150, 200},
        {ALIGN_CENTER, 150, 275 - width / 2},
        {ALIGN_RIGHT, 150, 350 - width},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct text_item text = {.text = "HHHHHH",
                                 .x = 200,
                                 .y = 20,
                                 .width = cases[i].box,
                                 .style = BODY};
        text.style.align = cases[i].align;
        int columns[2];
        draw_columns(*state, text, columns);
        /* An H has about a point of room on each side. */
        assert_near(columns[0], cases[i].left + 1, 1.2);
        assert_near(columns[1], cases[i].left + width - 1.5, 1.5);
    }
}

/* Measures under a locale that was made into a fresh folder. */
static const char *use_locale(const char *folder, const char *name)
{
    char command[800];
    snprintf(command, sizeof command,
             "localedef -i %.5s -f UTF-8 '%s/%s' >'%s/log' 2>&1", name, folder,
             name, folder);
    const int made = system(command);
    setenv("LOCPATH", folder, 1);
    const char *locale = made == 0 ? setlocale(LC_ALL, name) : NULL;
    unsetenv("LOCPATH");
    return locale;
}

/* Turkish: a decimal comma, and other capitals of "i". */
static void test_other_locale(void **state)
{
    const char *base = getenv("TMPDIR");
    char folder[256], command[300];
    snprintf(folder, sizeof folder, "%s/seamwright-XXXXXX",
             base == NULL ? "/tmp" : base);
    assert_non_null(mkdtemp(folder));
    const struct text_extent first =
        typeset_measure(*state, SENTENCE, BODY, 90);
    setenv("PANGO_LANGUAGE", "ja", 1);
    const char *locale = use_locale(folder, "tr_TR.UTF-8");
    typeset_destroy(*state);
    *state = typeset_create();
    const struct text_extent second =
        typeset_measure(*state, SENTENCE, BODY, 90);
    setlocale(LC_ALL, "C");
    unsetenv("PANGO_LANGUAGE");
    snprintf(command, sizeof command, "rm -r -- '%s'", folder);
    assert_int_equal(system(command), 0);
    if (locale == NULL)
        skip();
    assert_same_extent(first, second);
}

#define CASE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

/* A byte sequence of any character that may stand in a source. */
static void add_character(struct buffer *text, uint32_t c)
{
    if (c < 0x80) {
        buffer_char(text, (char)c);
    } else if (c < 0x800) {
        buffer_char(text, (char)(0xC0 | c >> 6));
    } else {
        if (c < 0x10000) {
            buffer_char(text, (char)(0xE0 | c >> 12));
        } else {
            buffer_char(text, (char)(0xF0 | c >> 18));
            buffer_char(text, (char)(0x80 | (c >> 12 & 0x3F)));
        }
        buffer_char(text, (char)(0x80 | (c >> 6 & 0x3F)));
    }
    if (c >= 0x80)
        buffer_char(text, (char)(0x80 | (c & 0x3F)));
}

/* What is set is read back, and a letter that is lost ends the program: any
 * text must come through, whatever a box, a mark or a break in it makes of
 * lines. */
static void test_all_texts_are_read_back(void **state)
{
    static const uint32_t parts[][2] = {
        {' ', '~'},         {0x09, 0x0A},       {0xA0, 0x17F},
        {0x300, 0x36F},     {0x590, 0x6FF},     {0x900, 0x97F},
        {0x1100, 0x11FF},   {0x2000, 0x206F},   {0x2150, 0x21FF},
        {0x3040, 0x30FF},   {0xFB00, 0xFB4F},   {0xFE00, 0xFEFF},
        {0x1F300, 0x1F6FF}, {0xE0020, 0xE007F}, {'a', 'z'}};
    struct unit_random random = {20261129};
    for (int i = 0; i < 3000; i++) {
        struct arena *arena = arena_create();
        struct buffer text = buffer_in(arena);
        const int64_t length = unit_below(&random, 40);
        const int64_t kinds = 1 + unit_below(&random, UNIT_COUNT(parts));
        for (int64_t k = 0; k < length; k++) {
            const uint32_t *part =
                parts[(size_t)unit_below(&random, (uint64_t)kinds) *
                      (UNIT_COUNT(parts) - 1) / (size_t)kinds];
            add_character(&text, part[0] + (uint32_t)unit_below(
                                               &random, part[1] - part[0] + 1));
        }
        const struct text_style style = {.face = (enum text_face)(i % 3),
                                         .size = 7 + i % 5};
        const struct text_extent extent = typeset_measure(
            *state, buffer_string(&text), style, i % 2 == 0 ? 0 : 30 + i % 60);
        assert_true(extent.lines > 0);
        arena_destroy(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_same_measure_each_time),
        CASE(test_widths_are_the_fonts),
        CASE(test_faces_differ),
        CASE(test_fraction_slash_makes_a_fraction),
        CASE(test_wrapping),
        CASE(test_heights),
        CASE(test_missing_glyphs),
        CASE(test_alignment),
        CASE(test_other_locale),
        CASE(test_all_texts_are_read_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
