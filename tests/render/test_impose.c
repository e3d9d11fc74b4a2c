/* Sheets for folding. The order is judged by folding: sheets are stacked as
 * they come from the printer, folded, and read leaf by leaf. */
#include <math.h>

#include "figures.h"

static const char NOTE[] = "Not to scale.";

/* A book whose pages tell their number, with words that wrap. */
static struct book *numbered_book(struct arena *arena, size_t count, bool a4)
{
    struct book *book = new_book(arena);
    book->width = a4 ? 595.276 : 612;
    book->height = a4 ? 841.890 : 792;
    for (size_t i = 0; i < count; i++) {
        struct page *page =
            add_page(arena, book, arena_printf(arena, "%zu", i + 1));
        begin_tag(arena, page, "P", NULL);
        add_text(arena, page, 50, 50, arena_printf(arena, "page %zu", i + 1));
        end_tag(arena, page, "P");
        struct text_item *text = add_text(
            arena, page, 60, 300,
            "Press the cloth, fold it and square up one end before you cut.");
        text->width = 120;
        text->style.align = ALIGN_RIGHT;
        add_rectangle(arena, page, 0, 0, book->width, book->height)->stroke = 1;
        page->true_to_scale = i % 3 == 0;
    }
    return book;
}

static struct book *folded(const struct fixture *fixture,
                           const struct book *book)
{
    return impose_folding(fixture->arena, fixture->typeset, book, NOTE);
}

/* What a reader sees on one half of a side: the page's number, 0 for none. */
static unsigned number_on(const struct book *sheets, size_t side, bool right)
{
    unsigned found = 0;
    const struct page *page = sheets->pages.items[side];
    for (size_t i = 0; i < page->items.count; i++) {
        const struct item *item = &page->items.items[i];
        unsigned number;
        if (item->kind != ITEM_TEXT ||
            (item->as.text.x > sheets->width / 2) != right ||
            sscanf(item->as.text.text, "page %u", &number) != 1)
            continue;
        assert_int_equal(found, 0); /* one page a half */
        found = number;
    }
    return found;
}

/* A photo keeps its bytes and its shape, and lies to the words of its page as
 * it did. Page 3 of four lies on the inner side, on the right. */
static void test_photos_get_smaller(void **state)
{
    static const char bytes[] = "as they are in the file";
    const struct fixture *fixture = *state;
    struct book *book = numbered_book(fixture->arena, 4, false);
    struct item *item = LIST_ADD(fixture->arena, &book->pages.items[2]->items);
    item->kind = ITEM_IMAGE;
    item->as.image = (struct image_item){
        .bytes = bytes, .x = 153, .y = 396, .width = 300, .height = 200};
    const struct book *sheets = folded(fixture, book);
    const struct image_item *photo = NULL;
    const struct text_item *words = NULL;
    for (size_t i = 0; i < sheets->pages.items[1]->items.count; i++) {
        const struct item *one = &sheets->pages.items[1]->items.items[i];
        if (one->kind == ITEM_IMAGE)
            photo = &one->as.image;
        if (one->kind == ITEM_TEXT && strcmp(one->as.text.text, "page 3") == 0)
            words = &one->as.text;
    }
    assert_non_null(photo);
    assert_non_null(words);
    assert_ptr_equal(photo->bytes, bytes);
    const double factor = photo->width / 300;
    assert_true(factor > 0.5 && factor < 0.8);
    assert_true(fabs(photo->height - 200 * factor) < 1e-9);
    assert_true(fabs(photo->x - words->x - (153 - 50) * factor) < 1e-9);
    assert_true(fabs(photo->y - words->y - (396 - 50) * factor) < 1e-9);
    assert_true(photo->x > sheets->width / 2);
}

/* Sheet k has the sides 2k (outer) and 2k + 1 (inner). In the folded stack a
 * leaf is half a sheet: first the right halves of the outer sides, from the
 * outermost sheet to the innermost, each with its back, which is the left half
 * of the inner side as the sheet is turned over its short edge; then the other
 * halves, from the innermost sheet out. */
static void test_folded_pages_follow(void **state)
{
    const struct fixture *fixture = *state;
    for (size_t count = 1; count <= 17; count++) {
        const struct book *sheets = folded(
            fixture, numbered_book(fixture->arena, count, count % 2 == 0));
        assert_int_equal(sheets->pages.count % 2, 0);
        const size_t stack = sheets->pages.count / 2;
        assert_true(4 * stack >= count && 4 * stack < count + 4);
        unsigned read[80];
        size_t at = 0;
        for (size_t k = 0; k < stack; k++) {
            read[at++] = number_on(sheets, 2 * k, true);
            read[at++] = number_on(sheets, 2 * k + 1, false);
        }
        for (size_t k = stack; k-- > 0;) {
            read[at++] = number_on(sheets, 2 * k + 1, true);
            read[at++] = number_on(sheets, 2 * k, false);
        }
        /* The last page is the back of the booklet, behind the blanks. */
        const size_t back = count > 1 ? at - 1 : 0;
        for (size_t i = 0; i < at; i++)
            assert_int_equal(read[i], i == back       ? count
                                      : i + 1 < count ? i + 1
                                                      : 0);
    }
}

/* Each frame of a page lies in its own half; marks lie beyond all frames. */
static void test_pages_lie_inside(void **state)
{
    const struct fixture *fixture = *state;
    for (int a4 = 0; a4 < 2; a4++) {
        const struct book *book = numbered_book(fixture->arena, 8, a4 == 1);
        const struct book *sheets = folded(fixture, book);
        assert_near(sheets->width, book->height, 0);
        assert_near(sheets->height, book->width, 0);
        for (size_t s = 0; s < sheets->pages.count; s++) {
            int frames = 0, marks = 0;
            double top = 0, bottom = sheets->height;
            for (int pass = 0; pass < 2; pass++)
                for (size_t i = 0; i < sheets->pages.items[s]->items.count;
                     i++) {
                    const struct item *item =
                        &sheets->pages.items[s]->items.items[i];
                    if (item->kind != ITEM_PATH)
                        continue;
                    const struct point *p = item->as.path.points;
                    if (pass == 0 && item->as.path.count == 4) {
                        const double half = sheets->width / 2;
                        const double left = p[0].x > half - 0.01 ? half : 0;
                        assert_true(p[0].x > left - 0.01);
                        assert_true(p[2].x < left + half + 0.01);
                        assert_near((p[2].x - p[0].x) / (p[2].y - p[0].y),
                                    book->width / book->height, 1e-9);
                        top = p[0].y;
                        bottom = p[2].y;
                        frames++;
                    } else if (pass == 1 && item->as.path.count == 2) {
                        assert_near(p[0].x, sheets->width / 2, 1e-9);
                        assert_true(
                            (p[0].y > 9 && p[1].y < top) ||
                            (p[0].y > bottom && p[1].y < sheets->height - 9));
                        marks++;
                    }
                }
            assert_int_equal(frames, 2);
            assert_int_equal(marks, 2);
        }
    }
}

/* The words, all of them, with the same breaks; and what is said below pages
 * that are to be measured. */
static void test_words_and_notes(void **state)
{
    const struct fixture *fixture = *state;
    const struct book *book = numbered_book(fixture->arena, 4, false);
    const struct book *sheets = folded(fixture, book);
    size_t count = 0;
    const struct text_item *wrapped =
        &book->pages.items[0]->items.items[3].as.text;
    const struct text_line *lines =
        typeset_lines(fixture->typeset, fixture->arena, wrapped, &count);
    assert_true(count > 2);
    int notes = 0;
    size_t found = 0;
    const double factor = 396.0 / 612;
    for (size_t i = 0; i < sheets->pages.items[0]->items.count; i++) {
        const struct item *item = &sheets->pages.items[0]->items.items[i];
        if (item->kind != ITEM_TEXT)
            continue;
        notes += strcmp(item->as.text.text, NOTE) == 0;
        /* The right half is page 1. */
        if (found < count && item->as.text.x > 396 &&
            strncmp(item->as.text.text, lines[found].text,
                    lines[found].length) == 0) {
            assert_int_equal(strlen(item->as.text.text), lines[found].length);
            assert_int_equal(item->as.text.style.align, ALIGN_LEFT);
            assert_near(item->as.text.width, 0, 0);
            assert_near(item->as.text.style.size, 11 * factor, 1e-9);
            assert_near(item->as.text.x, 396 + (60 + lines[found].x) * factor,
                        1e-6);
            found++;
        }
    }
    assert_int_equal(found, count);
    assert_int_equal(notes, 2); /* pages 4 and 1 */
}

static void test_outline_leads_to_the_page(void **state)
{
    const struct fixture *fixture = *state;
    for (size_t count = 1; count <= 13; count++) {
        struct book *book = numbered_book(fixture->arena, count, false);
        for (size_t i = 0; i < count; i++)
            *LIST_ADD(fixture->arena, &book->outline) =
                (struct outline_entry){"there", i, 50, 0};
        const struct book *sheets = folded(fixture, book);
        assert_int_equal(sheets->outline.count, count);
        for (size_t i = 0; i < count; i++) {
            const size_t side = sheets->outline.items[i].page;
            assert_true(number_on(sheets, side, false) == i + 1 ||
                        number_on(sheets, side, true) == i + 1);
        }
    }
}

/* A whole booklet, read out of the PDF by another program. */
static void test_booklet_prints(void **state)
{
    const struct fixture *fixture = *state;
    const struct sample sample = any_sample(fixture->arena, 0);
    const struct book *book = compose_book(
        fixture->arena, fixture->typeset, phrases_load(fixture->arena, "en"),
        sample.design, &sample.plans->items.items[0], false);
    save(fixture, "book.pdf", render(fixture, book));
    save(fixture, "sheets.pdf", render(fixture, folded(fixture, book)));
    run(fixture, "qpdf --check sheets.pdf >checked 2>&1");
    assert_prints(fixture, "pdfinfo sheets.pdf", "792 x 612 pts");
    /* All words of the one are the words of the other, but for the note below
     * the page that is true to scale. */
    run(fixture, "for f in book sheets; do pdftotext -raw $f.pdf - | "
                 "sed '/^Not to scale[.]/d' | tr -s ' \\f\\n' '\\n\\n\\n' | "
                 "LC_ALL=C sort >$f.words; done; "
                 "test $(wc -l <book.words) -gt 300");
    run(fixture, "cmp book.words sheets.words");
    run(fixture, "pdffonts sheets.pdf | awk 'NR > 2 && $(NF - 4) != \"yes\" "
                 "{ bad = 1 } END { exit bad }'");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_folded_pages_follow), CASE(test_pages_lie_inside),
        CASE(test_words_and_notes),     CASE(test_outline_leads_to_the_page),
        CASE(test_booklet_prints),      CASE(test_photos_get_smaller),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
