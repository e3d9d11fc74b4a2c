/* The PDF back end, judged by programs that are not its own: qpdf for the
 * form, poppler and mupdf for what a reader sees. Everything is written below
 * one fresh folder, which goes at the end. */
#include "hand_made.h"

static const struct color RED = {0.8, 0, 0};

/* Text in all its ways. */
static void add_words(struct arena *arena, struct page *page)
{
    begin_tag(arena, page, "H1", NULL);
    struct text_item *text = add_text(arena, page, 72, 30, "Lantern Walk");
    text->style.face = FACE_BOLD;
    text->style.size = 18;
    end_tag(arena, page, "H1");
    begin_tag(arena, page, "P", NULL);
    add_text(arena, page, 180, 72,
             "Cut 12 17\u204432 \u00d7 2\u00bd, 3\u215e and 4 1\u204464 in");
    add_text(arena, page, 180, 92,
             "Press \u2192 turn \u21ba tick \u2713 box \u2610 scissors \u2702 "
             "minus \u22122 triangle \u25b6");
    text = add_text(arena, page, 180, 112,
                    "Sew the two strips right sides together along the long "
                    "edge and press the seam towards the darker cloth.");
    text->width = 160;
    text->style.face = FACE_ITALIC;
    end_tag(arena, page, "P");
}

/* The 1-inch square, then hatches, plates, turns and dashes. */
static void add_drawings(struct arena *arena, struct page *page)
{
    begin_tag(arena, page, "Figure", "a square of 1 in (to measure)");
    add_rectangle(arena, page, 72, 72, 72, 72)->stroke = 0.5;
    add_rectangle(arena, page, 72, 220, 72, 72)->hatch =
        lines_at(arena, 45, 6, 0.5);
    add_rectangle(arena, page, 144, 241, 72, 72)->hatch =
        lines_at(arena, 45, 6, 0.5);
    add_rectangle(arena, page, 240, 220, 72, 72)->hatch =
        lines_at(arena, -45, 4, 0.5);
    struct path_item *path = add_rectangle(arena, page, 336, 220, 72, 72);
    struct hatch *dots = lines_at(arena, 0, 5, 1.2);
    dots->dotted = true;
    path->hatch = dots;
    path->stroke = 1.4;
    struct text_item *text = add_text(arena, page, 108, 250, "A1");
    text->plate = true;
    text->style.align = ALIGN_CENTER;
    text = add_text(arena, page, 276, 250, "jetty\n1\u00bc");
    text->plate = true;
    text->style.align = ALIGN_CENTER;
    text = add_text(arena, page, 180, 300, "turned 12 17\u204432");
    text->angle = -45;
    text->plate = true;
    end_tag(arena, page, "Figure");
}

static void add_lines(struct arena *arena, struct page *page)
{
    const struct point zigzag[] = {
        {72, 400}, {140, 360}, {200, 420}, {400, 360}};
    struct path_item *path = add_path(arena, page, zigzag, 4);
    path->stroke = 1.4;
    path->dash[0] = 12;
    path->dash[1] = 4;
    path->stroke_color = RED;
    path = add_rectangle(arena, page, 420, 330, 101, 77);
    path->stroke = 0.7;
    path->dash[0] = 17;
    path->dash[1] = 3;
    path->dash[2] = 0.7;
    path->dash[3] = 3;
    const struct point triangle[] = {{72, 520}, {250, 520}, {161, 440}};
    path = add_path(arena, page, triangle, 3);
    path->closed = true;
    path->filled = true;
    path->fill = (struct color){0.8, 0.85, 1};
    path->hatch = lines_at(arena, 60, 9, 0.5);
    path->stroke = 1.4;
    struct point curve[41];
    for (int i = 0; i < 41; i++)
        curve[i] = (struct point){400 + 80 * cos(i * 0.08),
                                  520 - 80 * sin(i * 0.08)};
    path = add_path(arena, page, curve, 41);
    path->stroke = 2;
    path->dash[0] = 6;
    path->dash[1] = 4;
    path->round_ends = true;
}

static struct book *sample_book(struct arena *arena)
{
    struct book *book = new_book(arena);
    struct page *page = add_page(arena, book, "cover");
    begin_tag(arena, page, "Document", NULL);
    add_words(arena, page);
    add_drawings(arena, page);
    add_lines(arena, page);
    page = add_page(arena, book, "1");
    begin_tag(arena, page, "Sect", NULL);
    begin_tag(arena, page, "Figure", "strip B, 2\u00bd in \\ (\U0001F9F5)");
    add_rectangle(arena, page, 100, 100, 501.75, 36)->stroke = 0.5;
    end_tag(arena, page, "Figure");
    begin_tag(arena, page, "Figure", NULL);
    struct text_item *text = add_text(arena, page, 500, 200, "rightmost");
    text->style.align = ALIGN_RIGHT;
    text = add_text(arena, page, 300, 200, "middle");
    text->style.align = ALIGN_CENTER;
    add_text(arena, page, 100, 200, "leftmost");
    end_tag(arena, page, "Figure");
    end_tag(arena, page, "Sect");
    end_tag(arena, page, "Document");
    *LIST_ADD(arena, &book->outline) =
        (struct outline_entry){"Before you cut", 0, 30, 0};
    *LIST_ADD(arena, &book->outline) =
        (struct outline_entry){"The strip", 1, 100, 1};
    *LIST_ADD(arena, &book->outline) =
        (struct outline_entry){"The end", 1, 200, 0};
    return book;
}

static void save_sample(const struct fixture *fixture)
{
    save(fixture, "book.pdf", render(fixture, sample_book(fixture->arena)));
}

/* ---- the file ---- */

static void test_form(void **state)
{
    const struct rendered pdf = render(*state,
        sample_book(((struct fixture *)*state)->arena));
    save(*state, "book.pdf", pdf);
    assert_memory_equal(pdf.bytes, "%PDF-1.5\n", 9);
    assert_prints(*state, "qpdf --check book.pdf",
                  "No syntax or stream encoding errors found");
    assert_prints(*state, "pdfinfo book.pdf", "Pages:           2\n");
    assert_prints(*state, "pdfinfo book.pdf", "Tagged:          yes\n");
}

static void assert_same(struct rendered a, struct rendered b)
{
    assert_null(a.problem);
    assert_null(b.problem);
    assert_int_equal(a.length, b.length);
    assert_memory_equal(a.bytes, b.bytes, a.length);
}

static void test_same_bytes(void **state)
{
    struct fixture *fixture = *state;
    const struct book *book = sample_book(fixture->arena);
    const struct rendered first = render(fixture, book);
    assert_same(first, render(fixture, book));
    /* A typesetter made anew, its files under other numbers. */
    typeset_destroy(fixture->typeset);
    const int taken = dup(0);
    fixture->typeset = typeset_create();
    if (taken >= 0)
        close(taken);
    assert_same(first, render(fixture, book));
}

/* A locale with a decimal comma, made for the test where none is installed. */
static void test_same_bytes_in_other_locale(void **state)
{
    struct fixture *fixture = *state;
    const struct book *book = sample_book(fixture->arena);
    const struct rendered first = render(fixture, book);
    const char *make = arena_printf(
        fixture->arena,
        "localedef -i de_DE -f UTF-8 '%s/de_DE.UTF-8' >'%s/log' 2>&1",
        fixture->folder, fixture->folder);
    const int made = system(make);
    setenv("LOCPATH", fixture->folder, 1);
    const char *locale = setlocale(LC_ALL, "de_DE.UTF-8");
    unsetenv("LOCPATH");
    if (made != 0 || locale == NULL)
        skip();
    assert_string_equal(localeconv()->decimal_point, ",");
    const struct rendered second = render(fixture, book);
    setlocale(LC_ALL, "C");
    assert_same(first, second);
}

static void assert_date(const struct fixture *fixture, const char *date,
                        const char *wanted)
{
    struct book *book = sample_book(fixture->arena);
    book->date = date;
    save(fixture, "book.pdf", render(fixture, book));
    assert_prints(fixture, "TZ=UTC pdfinfo -isodates book.pdf",
                  arena_printf(fixture->arena, "CreationDate:    %s\n",
                               wanted));
    assert_prints(fixture, "mutool show book.pdf trailer/Info/CreationDate",
                  "(D:");
}

static void test_date(void **state)
{
    assert_date(*state, "2031-05-17", "2031-05-17T00:00:00Z");
    assert_date(*state, NULL, "2000-01-01T00:00:00Z");
    assert_date(*state, "2031-5-17", "2000-01-01T00:00:00Z");
    setenv("SOURCE_DATE_EPOCH", "951827696", 1);
    assert_date(*state, "2031-05-17", "2000-02-29T12:34:56Z");
    setenv("SOURCE_DATE_EPOCH", "soon", 1);
    assert_date(*state, "2031-05-17", "2031-05-17T00:00:00Z");
    unsetenv("SOURCE_DATE_EPOCH");
}

static void test_metadata(void **state)
{
    save_sample(*state);
    const char *const facts[] = {
        "Title:           Lantern Walk \u2013 a bag in 2\u00bd hours\n",
        "Author:          The Testing Bench\n",
        "Subject:         Seams of our own\n",
        "Creator:         seamwright\n",
    };
    for (size_t i = 0; i < COUNT(facts); i++)
        assert_prints(*state, "pdfinfo -enc UTF-8 book.pdf", facts[i]);
}

/* Words that mean something in a PDF are only words in a title. */
static void test_hostile_title(void **state)
{
    struct fixture *fixture = *state;
    struct book *book = sample_book(fixture->arena);
    book->title = "a) >> endobj (b /CreationDate (1) \\";
    book->subject = "endobj startxref 1 trailer xref 0 2";
    save(fixture, "book.pdf", render(fixture, book));
    assert_prints(fixture, "qpdf --check book.pdf", "No syntax");
    assert_prints(fixture, "TZ=UTC pdfinfo -isodates book.pdf",
                  "Title:           a) >> endobj (b /CreationDate (1) \\\n");
    assert_prints(fixture, "TZ=UTC pdfinfo -isodates book.pdf",
                  "CreationDate:    2031-05-17T00:00:00Z\n");
    assert_prints(fixture, "mutool show book.pdf trailer/Info/CreationDate",
                  "(D:20310517000000Z)");
}

static void test_fonts_embedded(void **state)
{
    save_sample(*state);
    struct buffer list = run(*state, "pdffonts book.pdf | tail -n +3");
    int fonts = 0;
    char *rest = NULL;
    for (char *line = strtok_r(list.bytes, "\n", &rest); line != NULL;
         line = strtok_r(NULL, "\n", &rest), fonts++)
        if (strstr(line, " yes yes yes ") == NULL)
            fail_msg("not embedded, subset and mapped: %s", line);
    /* Three faces and the symbols. */
    assert_true(fonts >= 4);
}

static void test_outline_and_labels(void **state)
{
    save_sample(*state);
    const char *const lines[] = {
        "-\t\"Before you cut\"\t#page=1&zoom=100,0,30\n",
        "|\t\t\"The strip\"\t#page=2&zoom=100,0,100\n",
        "|\t\"The end\"\t#page=2&zoom=100,0,200\n",
    };
    for (size_t i = 0; i < COUNT(lines); i++)
        assert_prints(*state, "mutool show book.pdf outline", lines[i]);
    assert_prints(*state, "mutool show book.pdf trailer/Root/PageLabels",
                  "/P (cover)");
}

#define TREE "mutool show book.pdf trailer/Root/StructTreeRoot/K/1/K/"

static void test_accessibility(void **state)
{
    save_sample(*state);
    assert_prints(*state, "mutool show book.pdf trailer/Root/Lang", "(en)");
    assert_prints(*state, "mutool show book.pdf trailer/Root",
                  "/DisplayDocTitle true");
    /* Heading, paragraph, figure, section: the tree of the sample. */
    assert_prints(*state, TREE "1/S", "/H1");
    assert_prints(*state, TREE "3/Alt", "a square of 1 in \\(to measure\\)");
    /* UTF-16BE of the words, with a pair for the character beyond U+FFFF. */
    assert_prints(*state, TREE "4/K/1/Alt",
                  "<FEFF0073007400720069007000200042002C0020003200BD0020006900"
                  "6E0020005C00200028D83EDDF50029>");
    assert_prints(*state, TREE "4/K/2/S", "/Figure");
    assert_prints(*state, TREE "4/K/2/Alt", "null");
}

/* ---- what stands on the page ---- */

/* The box of the n-th word `word` (from 0), as poppler sees it. */
static void find_word(const struct fixture *fixture, const char *word,
                      double box[4])
{
    const struct buffer list = run(fixture, "pdftotext -bbox book.pdf -");
    const char *found = strstr(
        buffer_string(&list), arena_printf(fixture->arena, ">%s<", word));
    if (found == NULL)
        fail_msg("no word %s", word);
    while (*found != '\n')
        found--;
    assert_int_equal(sscanf(found,
                            " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" "
                            "yMax=\"%lf\"",
                            &box[0], &box[1], &box[2], &box[3]), 4);
}

static void test_words_lie_where_they_should(void **state)
{
    save_sample(*state);
    const struct text_style style = {FACE_REGULAR, 11, ALIGN_LEFT, BLACK};
    struct typeset *typeset = ((struct fixture *)*state)->typeset;
    const struct text_extent middle =
        typeset_measure(typeset, "middle", style, 0);
    double box[4];
    find_word(*state, "leftmost", box);
    assert_near(box[0], 100, 0.1);
    find_word(*state, "rightmost", box);
    assert_near(box[2], 500, 0.1);
    find_word(*state, "middle", box);
    assert_near((box[0] + box[2]) / 2, 300, 0.1);
    assert_near(box[2] - box[0], middle.width, 0.1);
    /* The fraction slash keeps the number in one word, the blank before it. */
    find_word(*state, "17\u204432", box);
    const struct text_extent before =
        typeset_measure(typeset, "Cut 12 ", style, 0);
    assert_near(box[0], 180 + before.width, 0.1);
    /* The second line of the wrapped text. */
    find_word(*state, "together", box);
    assert_near(box[0], 180, 0.1);
}

static void test_baseline(void **state)
{
    save_sample(*state);
    const struct text_style style = {FACE_REGULAR, 11, ALIGN_LEFT, BLACK};
    const struct text_extent extent = typeset_measure(
        ((struct fixture *)*state)->typeset, "leftmost", style, 0);
    struct buffer text =
        run(*state, "mutool draw -q -F stext book.pdf 2 2>stext.log");
    const char *origin = strstr(text.bytes, "x=\"100\" y=\"");
    assert_non_null(origin);
    double y = 0;
    assert_int_equal(sscanf(origin, "x=\"100\" y=\"%lf\"", &y), 1);
    assert_near(y, 200 + extent.baseline, 0.01);
}

static void test_text_extracts(void **state)
{
    save_sample(*state);
    const char *const texts[] = {
        "Cut 12 17\u204432 \u00d7 2\u00bd, 3\u215e and 4 1\u204464 in",
        "Press \u2192 turn \u21ba tick \u2713 box \u2610 scissors \u2702 "
        "minus \u22122 triangle \u25b6",
        "Sew the two strips right sides together along the long edge and "
        "press the seam towards the darker cloth.",
    };
    for (size_t i = 0; i < COUNT(texts); i++)
        assert_prints(*state, "pdfinfo -enc UTF-8 -struct-text book.pdf",
                      texts[i]);
}

static void test_inch_is_exact(void **state)
{
    save_sample(*state);
    assert_prints(*state, "mutool draw -q -F trace book.pdf 1 2>trace.log",
                  "transform=\"1 0 0 1 0 0\">\n"
                  "        <moveto x=\"72\" y=\"72\"/>\n"
                  "        <lineto x=\"144\" y=\"72\"/>\n"
                  "        <lineto x=\"144\" y=\"144\"/>\n"
                  "        <lineto x=\"72\" y=\"144\"/>\n"
                  "        <closepath/>\n");
    assert_prints(*state, "mutool draw -q -F trace book.pdf 2 2>trace.log",
                  "<lineto x=\"601.75\" y=\"136\"/>");
}

/* ---- mistakes ---- */

static struct page *blank_page(struct arena *arena, struct book **book)
{
    *book = new_book(arena);
    return add_page(arena, *book, "1");
}

static void assert_problem(const struct fixture *fixture,
                           const struct book *book, const char *words)
{
    const struct rendered pdf = render(fixture, book);
    assert_non_null(pdf.problem);
    assert_non_null(strstr(pdf.problem, words));
    assert_null(pdf.bytes);
}

static void test_bad_tags_are_told(void **state)
{
    struct arena *arena = ((struct fixture *)*state)->arena;
    struct book *book;
    struct page *page = blank_page(arena, &book);
    /* Cairo 1.16 leaks the label of a page that fails. */
    page->label = NULL;
    begin_tag(arena, page, "Nonsense", NULL);
    add_text(arena, page, 72, 72, "words");
    end_tag(arena, page, "Nonsense");
    assert_problem(*state, book, "page 1: invalid tag");
    page = blank_page(arena, &book);
    begin_tag(arena, page, "P", NULL);
    end_tag(arena, page, "Div");
    assert_problem(*state, book, "page 1: tag Div ends where P is open");
    begin_tag(arena, blank_page(arena, &book), "P", NULL);
    assert_problem(*state, book, "tag P is left open");
    end_tag(arena, blank_page(arena, &book), "P");
    assert_problem(*state, book, "page 1: tag P was not begun");
}

static void test_lost_figure_is_told(void **state)
{
    /* The library drops the tags of a page without a mark, so the words for
     * this figure would go to the next. */
    struct arena *arena = ((struct fixture *)*state)->arena;
    struct book *book;
    struct page *page = blank_page(arena, &book);
    begin_tag(arena, page, "Figure", "nothing");
    end_tag(arena, page, "Figure");
    assert_problem(*state, book, "lost a Figure");
}

static void test_link_to_nowhere_is_told(void **state)
{
    struct arena *arena = ((struct fixture *)*state)->arena;
    struct book *book;
    struct page *page = blank_page(arena, &book);
    /* A link that is the root breaks the file of Cairo 1.16. */
    begin_tag(arena, page, "Document", NULL);
    begin_tag(arena, page, TAG_PLACE, NULL);
    page->items.items[1].as.tag.attributes = "name='here' x=72 y=72";
    end_tag(arena, page, TAG_PLACE);
    begin_tag(arena, page, "Link", "to here");
    page->items.items[3].as.tag.attributes = "dest='here'";
    add_text(arena, page, 72, 72, "here");
    end_tag(arena, page, "Link");
    end_tag(arena, page, "Document");
    const char *problem = render(*state, book).problem;
    if (problem != NULL)
        fail_msg("%s", problem);
    page->items.items[3].as.tag.attributes = "dest='her'";
    assert_problem(*state, book, "a link to no place: dest='her'");
}

/* The operators of a page are read back, so what is outside all elements shows
 * as an artifact to a program that is not ours. */
static void test_artifacts(void **state)
{
    save_sample(*state);
    assert_prints(*state, "mutool show book.pdf pages/1/Contents",
                  "/Artifact BMC");
    assert_prints(*state, "mutool show book.pdf trailer/Root/Metadata",
                  "/Subtype /XML");
}

static void test_missing_outline_page_is_told(void **state)
{
    struct arena *arena = ((struct fixture *)*state)->arena;
    struct book *book;
    blank_page(arena, &book);
    *LIST_ADD(arena, &book->outline) =
        (struct outline_entry){"Nowhere", 1, 0, 0};
    assert_problem(*state, book, "outline: `Nowhere`");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_form),
        CASE(test_same_bytes),
        CASE(test_same_bytes_in_other_locale),
        CASE(test_date),
        CASE(test_metadata),
        CASE(test_hostile_title),
        CASE(test_fonts_embedded),
        CASE(test_outline_and_labels),
        CASE(test_accessibility),
        CASE(test_words_lie_where_they_should),
        CASE(test_baseline),
        CASE(test_text_extracts),
        CASE(test_inch_is_exact),
        CASE(test_bad_tags_are_told),
        CASE(test_lost_figure_is_told),
        CASE(test_link_to_nowhere_is_told),
        CASE(test_artifacts),
        CASE(test_missing_outline_page_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
