/* What the tests of the back ends share: building a book by hand, running
 * other programs in a fresh folder, and looking at a page as a picture. The
 * functions are inline because no test uses all of them. */
#ifndef SEAMWRIGHT_TESTS_HAND_MADE_H
#define SEAMWRIGHT_TESTS_HAND_MADE_H

#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "buffer.h"
#include "render.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const struct color BLACK = {0, 0, 0};

struct fixture {
    struct arena *arena;
    struct typeset *typeset;
    char folder[256];
};

/* ---- a hand-made book ---- */

static inline struct item *add_item(struct arena *arena, struct page *page,
                                    enum item_kind kind)
{
    struct item *item = LIST_ADD(arena, &page->items);
    item->kind = kind;
    return item;
}

static inline void begin_tag(struct arena *arena, struct page *page,
                             const char *name, const char *alternative)
{
    struct item *item = add_item(arena, page, ITEM_TAG_BEGIN);
    item->as.tag = (struct tag_item){name, "", alternative, ROLE_NONE};
}

static inline void end_tag(struct arena *arena, struct page *page,
                           const char *name)
{
    add_item(arena, page, ITEM_TAG_END)->as.tag.name = name;
}

static inline struct text_item *add_text(struct arena *arena, struct page *page,
                                         double x, double y, const char *words)
{
    struct text_item *text = &add_item(arena, page, ITEM_TEXT)->as.text;
    *text = (struct text_item){.text = words, .x = x, .y = y};
    text->style = (struct text_style){FACE_REGULAR, 11, ALIGN_LEFT, BLACK};
    return text;
}

static inline struct path_item *add_path(struct arena *arena, struct page *page,
                                         const struct point *points,
                                         size_t count)
{
    struct path_item *path = &add_item(arena, page, ITEM_PATH)->as.path;
    struct point *copy = ARENA_ARRAY(arena, struct point, count);
    memcpy(copy, points, count * sizeof *points);
    *path = (struct path_item){.points = copy, .count = count};
    return path;
}

static inline struct path_item *add_rectangle(struct arena *arena,
                                              struct page *page, double x,
                                              double y, double width,
                                              double height)
{
    const struct point points[] = {
        {x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
    struct path_item *path = add_path(arena, page, points, 4);
    path->closed = true;
    return path;
}

static inline struct hatch *lines_at(struct arena *arena, double angle,
                                     double spacing, double width)
{
    struct hatch *hatch = ARENA_NEW(arena, struct hatch);
    *hatch = (struct hatch){angle, spacing, width, false, BLACK};
    return hatch;
}

static inline struct page *add_page(struct arena *arena, struct book *book,
                                    const char *label)
{
    struct page *page = ARENA_NEW(arena, struct page);
    page->label = label;
    *LIST_ADD(arena, &book->pages) = page;
    return page;
}

static inline struct book *new_book(struct arena *arena)
{
    struct book *book = ARENA_NEW(arena, struct book);
    book->width = 612;
    book->height = 792;
    book->title = "Lantern Walk \u2013 a bag in 2\u00bd hours";
    book->author = "The Testing Bench";
    book->subject = "Seams of our own";
    book->language = "en";
    book->date = "2031-05-17";
    return book;
}

/* ---- other programs, and files in the test's folder ---- */

static inline void save(const struct fixture *fixture, const char *name,
                        struct rendered pdf)
{
    if (pdf.problem != NULL)
        print_message("# %s\n", pdf.problem);
    assert_null(pdf.problem);
    const char *path =
        arena_printf(fixture->arena, "%s/%s", fixture->folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(pdf.bytes, 1, pdf.length, file), pdf.length);
    assert_int_equal(fclose(file), 0);
}

/* ensures: what the command printed. It runs in the test's folder and must
 * end well. */
static inline struct buffer run(const struct fixture *fixture,
                                const char *command)
{
    struct buffer output = buffer_in(fixture->arena);
    FILE *pipe = popen(arena_printf(fixture->arena, "cd '%s' && %s",
                                    fixture->folder, command),
                       "r");
    assert_non_null(pipe);
    char part[4096];
    for (size_t n; (n = fread(part, 1, sizeof part, pipe)) > 0;)
        buffer_add(&output, part, n);
    if (pclose(pipe) != 0)
        fail_msg("failed: %s", command);
    return output;
}

static inline void assert_prints(const struct fixture *fixture,
                                 const char *command, const char *wanted)
{
    const struct buffer output = run(fixture, command);
    if (strstr(buffer_string(&output), wanted) == NULL)
        fail_msg("`%s` does not print \"%s\" but:\n%s", command, wanted,
                 buffer_string(&output));
}

static inline struct rendered render(const struct fixture *fixture,
                                     const struct book *book)
{
    return render_pdf(fixture->arena, fixture->typeset, book);
}

/* One page as a grey picture, `DPI` pixels to the inch. */
enum { DPI = 300 };

struct picture {
    int width, height;
    const unsigned char *grey;
};

static inline struct picture paint(const struct fixture *fixture,
                                   const struct book *book)
{
    save(fixture, "picture.pdf", render(fixture, book));
    struct buffer bytes =
        run(fixture, "pdftoppm -r 300 -gray -f 1 -l 1 picture.pdf");
    struct picture picture = {0};
    int header = 0;
    assert_int_equal(sscanf(bytes.bytes, "P5 %d %d 255%*c%n", &picture.width,
                            &picture.height, &header), 2);
    assert_int_equal(bytes.length - (size_t)header,
                     picture.width * picture.height);
    picture.grey = (const unsigned char *)bytes.bytes + header;
    return picture;
}

/* The share of ink, 0 to 1, in a rectangle that is told in points. */
static inline double ink(const struct picture *picture, double x, double y,
                         double width, double height)
{
    const int left = (int)lround(x * DPI / 72), top = (int)lround(y * DPI / 72);
    const int right = (int)lround((x + width) * DPI / 72);
    const int bottom = (int)lround((y + height) * DPI / 72);
    double sum = 0;
    for (int row = top; row < bottom; row++)
        for (int column = left; column < right; column++)
            sum += 255 - picture->grey[row * picture->width + column];
    return sum / 255 / ((right - left) * (bottom - top));
}

static inline void assert_near(double value, double wanted, double tolerance)
{
    if (!(fabs(value - wanted) <= tolerance))
        fail_msg("%.5f is not within %.5f of %.5f", value, tolerance, wanted);
}

static inline int setup(void **state)
{
    struct arena *arena = arena_create();
    struct fixture *fixture = ARENA_NEW(arena, struct fixture);
    fixture->arena = arena;
    fixture->typeset = typeset_create();
    const char *base = getenv("TMPDIR");
    snprintf(fixture->folder, sizeof fixture->folder, "%s/seamwright-XXXXXX",
             base == NULL ? "/tmp" : base);
    unsetenv("SOURCE_DATE_EPOCH");
    *state = fixture;
    return mkdtemp(fixture->folder) == NULL;
}

static inline int teardown(void **state)
{
    struct fixture *fixture = *state;
    typeset_destroy(fixture->typeset);
    const int status = system(
        arena_printf(fixture->arena, "rm -r -- '%s'", fixture->folder));
    arena_destroy(fixture->arena);
    return status;
}

#define CASE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

#endif
