/* The designer's own face: as high as the bundled one, for titles only, never
 * beside it in one line, and whatever a damaged font that passed holds. */
#define _DEFAULT_SOURCE /* mkdtemp */
#include <cairo-pdf.h>
#include <math.h>
#include <stdlib.h>

#include "../resolve/fonts.h"
#include "pages.h"
#include "typeset.h"

static const char *const TEXTS[] = {
    "Saltglass Bay", "Hpgjy",        "What to buy", "1",
    "237",           "\u00c4ffchen", "Fi fl AV To", "Tide: 7"};

static const char TITLE[] = "Saltglass Bay";

static struct font font_from(struct arena *arena, const char *name)
{
    const struct font *font = font_passed(arena, font_copy(arena, name), TITLE);
    assert_non_null(font);
    return *font;
}

static double width_of(struct typeset *typeset, const char *text,
                       enum text_face face, double size)
{
    const struct text_style style = {face, size, ALIGN_LEFT, {0, 0, 0}};
    return typeset_measure(typeset, text, style, 0).width;
}

/* How high the ink of a text is, its padding with it. */
static double ink_height(struct typeset *typeset, struct arena *arena,
                         const char *text)
{
    const struct text_item item = {
        .text = text, .style = {FACE_DISPLAY, 100, ALIGN_LEFT, {0, 0, 0}}};
    size_t count;
    return typeset_lines(typeset, arena, &item, &count)[0].plate_height;
}

/* The bundled face, named as the designer's own: nothing is seen of that. */
static void test_same_face_is_the_same(void **state)
{
    const struct font font = font_from(*state, "Vollkorn-Bold");
    double widths[2][UNIT_COUNT(TEXTS)];
    for (int own = 0; own < 2; own++) {
        struct typeset *typeset = typeset_create_with(own == 1 ? &font : NULL);
        for (size_t i = 0; i < UNIT_COUNT(TEXTS); i++)
            widths[own][i] = width_of(typeset, TEXTS[i], FACE_DISPLAY, 24);
        typeset_destroy(typeset);
    }
    for (size_t i = 0; i < UNIT_COUNT(TEXTS); i++)
        if (fabs(widths[0][i] - widths[1][i]) > 0.001)
            fail_msg("%s: %.3f, not %.3f", TEXTS[i], widths[1][i],
                     widths[0][i]);
}

/* Another face has other widths; its capitals are as high, and what is no title
 * is set as before. */
static void test_capitals_are_as_high(void **state)
{
    const struct font font = font_from(*state, "NotoSans-Bold");
    double wide[2], high[2], body[2], lacking[2];
    for (int own = 0; own < 2; own++) {
        struct typeset *typeset = typeset_create_with(own == 1 ? &font : NULL);
        wide[own] = width_of(typeset, TITLE, FACE_DISPLAY, 24);
        body[own] = width_of(typeset, TITLE, FACE_BOLD, 24);
        /* No face has this letter: the whole line is that of the bundled one.
         */
        lacking[own] = width_of(typeset, "Saltglass \u0e01", FACE_DISPLAY, 24);
        high[own] = ink_height(typeset, *state, "H");
        typeset_destroy(typeset);
    }
    assert_true(fabs(wide[0] - wide[1]) > 1);
    /* Serifs reach a little below the line. */
    assert_true(fabs(high[0] - high[1]) < 0.5);
    assert_true(fabs(body[0] - body[1]) < 0.001);
    assert_true(fabs(lacking[0] - lacking[1]) < 0.001);
}

/* ---- damage ---- */

/* Draws the texts on a page of a PDF that is thrown away. ensures: what Cairo
 * says of it. */
static cairo_status_t draw_all(const struct font *font)
{
    struct typeset *typeset = typeset_create_with(font);
    cairo_surface_t *surface =
        cairo_pdf_surface_create_for_stream(NULL, NULL, 612, 792);
    cairo_t *cairo = cairo_create(surface);
    for (size_t i = 0; i < UNIT_COUNT(TEXTS); i++) {
        const struct text_item item = {
            .text = TEXTS[i],
            .x = 50,
            .y = 50 + 80 * (double)i,
            .width = 500,
            .style = {FACE_DISPLAY, 40, ALIGN_LEFT, {0, 0, 0}}};
        typeset_draw(typeset, cairo, &item);
    }
    cairo_show_page(cairo);
    cairo_status_t status = cairo_status(cairo);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    typeset_destroy(typeset);
    return status;
}

/* What passed although it is damaged is drawn as it is, without a fault. */
static void test_damaged_fonts_that_pass_are_drawn(void **state)
{
    (void)state;
    enum { FONTS = 120, CHANGES = 8 };
    struct unit_random random = {20261201};
    size_t drawn = 0;
    for (size_t i = 0; i < FONTS; i++) {
        struct arena *scratch = arena_create();
        const struct buffer bytes = font_copy(scratch, "Vollkorn-Bold");
        for (int k = 0; k < CHANGES; k++)
            bytes.bytes[300 + unit_below(&random, bytes.length - 300)] =
                (char)unit_next(&random);
        const struct font *font = font_passed(scratch, bytes, TITLE);
        if (font != NULL) {
            drawn++;
            assert_int_equal(draw_all(font), CAIRO_STATUS_SUCCESS);
        }
        arena_destroy(scratch);
    }
    assert_true(drawn > FONTS / 10);
}

/* ---- headings ---- */

/* All that a booklet sets in the face, but for its title, is made of the
 * letters that a face must have. */
static void look_at_headings(struct visit *visit)
{
    const char *letters = heading_letters(visit->book->language);
    const struct book *book = visit->book;
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT ||
                item->as.text.style.face != FACE_DISPLAY ||
                strcmp(item->as.text.text, visit->sample->design->title) == 0)
                continue;
            for (const char *c = item->as.text.text; *c != '\0';) {
                const unsigned char first = (unsigned char)*c;
                const size_t size = first < 0x80 ? 1 : first < 0xE0 ? 2 : 3;
                char letter[4] = {0};
                memcpy(letter, c, size);
                if (strstr(letters, letter) == NULL)
                    breach(visit->breaches, "no letter of headings: %s",
                           item->as.text.text);
                c += size;
            }
        }
}

static void test_headings_need_no_other_letters(void **state)
{
    (void)state;
    static const char *const languages[] = {"en", "de"};
    for (size_t i = 0; i < UNIT_COUNT(languages); i++) {
        void *all;
        all_booklets_in(&all, languages[i]);
        visit_booklets(&all, look_at_headings);
        booklets_teardown(&all);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_face_is_the_same),
        cmocka_unit_test(test_capitals_are_as_high),
        cmocka_unit_test(test_damaged_fonts_that_pass_are_drawn),
        cmocka_unit_test(test_headings_need_no_other_letters),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
