/* What is left of a page on a copier that knows black and white only: each part
 * of a label, an arrow, a ring, a stitch, as it is seen in color, must be there
 * and apart from what lies around it. A function that looks at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_THRESHOLD_H
#define SEAMWRIGHT_TESTS_CHECK_THRESHOLD_H

#include <cairo.h>
#include <stdlib.h>

#include "../../src/render/draw.h"
#include "figures.h"
#include "known.h"

/* ---- pages as dots of 1/150 in ---- */

struct raster {
    int wide, high;
    unsigned char *red, *green, *blue;
};

static inline struct raster raster_of(struct visit *visit,
                                      const struct page *page)
{
    const double dots = 150.0 / 72.0;
    struct raster raster = {(int)(visit->book->width * dots),
                            (int)(visit->book->height * dots), NULL, NULL,
                            NULL};
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, raster.wide, raster.high);
    cairo_t *cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_scale(cairo, dots, dots);
    draw_page(cairo, visit->all->typeset, page);
    cairo_surface_flush(surface);
    const size_t count = (size_t)raster.wide * (size_t)raster.high;
    raster.red = ARENA_ARRAY(visit->scratch, unsigned char, count);
    raster.green = ARENA_ARRAY(visit->scratch, unsigned char, count);
    raster.blue = ARENA_ARRAY(visit->scratch, unsigned char, count);
    const unsigned char *data = cairo_image_surface_get_data(surface);
    const size_t stride = (size_t)cairo_image_surface_get_stride(surface);
    for (size_t i = 0; i < count; i++) {
        uint32_t dot;
        memcpy(&dot,
               data + i / (size_t)raster.wide * stride +
                   i % (size_t)raster.wide * 4,
               4);
        raster.red[i] = (unsigned char)(dot >> 16 & 255);
        raster.green[i] = (unsigned char)(dot >> 8 & 255);
        raster.blue[i] = (unsigned char)(dot & 255);
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return raster;
}

/* Light from 50 %: weights of ITU-R BT.601, as grey prints have them. */
static inline bool is_light(double red, double green, double blue)
{
    return 0.299 * red + 0.587 * green + 0.114 * blue >= 127.5;
}

/* ---- marks ---- */

/* A label in its figure; or the red of an arrow, a ring, a bow or stitches. */
static inline bool is_red_mark(const struct item *item)
{
    return (item->kind == ITEM_TEXT && is_turn(item)) ||
           (item->kind == ITEM_PATH && item->as.path.stroke > 0.0 &&
            is_red(item->as.path.stroke_color)) ||
           (item->kind == ITEM_PATH && is_head(&item->as.path));
}

static inline bool is_dark_label(const struct item *item)
{
    return is_label(item) && !is_red(item->as.text.style.color) &&
           is_light(255.0 - 255.0 * item->as.text.style.color.red,
                    255.0 - 255.0 * item->as.text.style.color.green,
                    255.0 - 255.0 * item->as.text.style.color.blue);
}

/* A page with marks of one kind alone, on white. */
static inline const struct page *
marks_alone(struct visit *visit, const struct page *page,
            bool (*is_mark)(const struct item *))
{
    struct page *alone = ARENA_NEW(visit->scratch, struct page);
    for (size_t i = 0; i < page->items.count; i++)
        if (is_mark(&page->items.items[i])) {
            struct item *item = LIST_ADD(visit->scratch, &alone->items);
            *item = page->items.items[i];
            if (item->kind == ITEM_TEXT)
                item->as.text.plate = false;
        }
    return alone;
}

/* ---- what hangs together ---- */

struct blob {
    size_t dots;         /* of it, in color */
    size_t kept;         /* of those, black on the copy */
    size_t around, free; /* dots near it, and those that are white there */
};

struct copy {
    const struct raster *color; /* the page */
    unsigned char *state;       /* of each dot: 1 a mark, 2 taken */
    size_t *stack;
};

/* Dots that the mark covers by half and whose color is the mark's: neither
 * hidden by what lies on it nor a rim. */
static inline void find_marks(const struct raster *color,
                              const struct raster *alone, unsigned char *state)
{
    const size_t count = (size_t)color->wide * (size_t)color->high;
    for (size_t i = 0; i < count; i++)
        state[i] = !is_light(alone->red[i], alone->green[i], alone->blue[i]) &&
                   abs(color->red[i] - alone->red[i]) < 48 &&
                   abs(color->green[i] - alone->green[i]) < 48 &&
                   abs(color->blue[i] - alone->blue[i]) < 48;
}

static inline bool copied_light(const struct copy *copy, size_t i)
{
    return is_light(copy->color->red[i], copy->color->green[i],
                    copy->color->blue[i]);
}

/* Two dots around it: half of the white below red lines. */
static inline void look_around(const struct copy *copy, size_t at,
                               struct blob *blob)
{
    const int wide = copy->color->wide;
    const int x = (int)at % wide, y = (int)at / wide;
    for (int dy = -2; dy <= 2; dy++)
        for (int dx = -2; dx <= 2; dx++) {
            if (x + dx < 0 || y + dy < 0 || x + dx >= wide ||
                y + dy >= copy->color->high)
                continue;
            const size_t i = (size_t)((y + dy) * wide + x + dx);
            if (copy->state[i] != 0)
                continue;
            blob->around++;
            blob->free += copied_light(copy, i);
        }
}

/* Takes all dots that hang together with one. */
static inline struct blob take_blob(const struct copy *copy, size_t start)
{
    const int wide = copy->color->wide;
    struct blob blob = {0, 0, 0, 0};
    size_t waiting = 0;
    copy->stack[waiting++] = start;
    copy->state[start] = 2;
    while (waiting > 0) {
        const size_t at = copy->stack[--waiting];
        blob.dots++;
        blob.kept += !copied_light(copy, at);
        look_around(copy, at, &blob);
        const int x = (int)at % wide, y = (int)at / wide;
        for (int n = 0; n < 9; n++) {
            const int nx = x + n % 3 - 1, ny = y + n / 3 - 1;
            if (nx < 0 || ny < 0 || nx >= wide || ny >= copy->color->high)
                continue;
            const size_t next = (size_t)(ny * wide + nx);
            if (copy->state[next] != 1)
                continue;
            copy->state[next] = 2;
            copy->stack[waiting++] = next;
        }
    }
    return blob;
}

/* Half of it is still black, and half of what is around it white. */
static inline bool survives(const struct blob *blob)
{
    return 2 * blob->kept >= blob->dots && 2 * blob->free >= blob->around;
}

/* ---- 18 ---- */

struct marks {
    size_t seen, left;
    double x, y; /* of the last one that is lost, in points */
};

/* Crumbs of a few dots are rims, no marks. */
static inline struct marks count_marks(struct visit *visit,
                                       const struct page *page,
                                       const struct raster *color,
                                       bool (*is_mark)(const struct item *))
{
    enum { CRUMB = 6 };
    const struct raster alone =
        raster_of(visit, marks_alone(visit, page, is_mark));
    const size_t count = (size_t)color->wide * (size_t)color->high;
    const struct copy copy = {color,
                              ARENA_ARRAY(visit->scratch, unsigned char, count),
                              ARENA_ARRAY(visit->scratch, size_t, count)};
    struct marks marks = {0, 0, 0.0, 0.0};
    find_marks(color, &alone, copy.state);
    for (size_t i = 0; i < count; i++) {
        if (copy.state[i] != 1)
            continue;
        const struct blob blob = take_blob(&copy, i);
        if (blob.dots < CRUMB)
            continue;
        marks.seen++;
        marks.left += survives(&blob);
        if (survives(&blob))
            continue;
        marks.x = (double)(i % (size_t)color->wide) * 72.0 / 150.0;
        marks.y = (double)(i / (size_t)color->wide) * 72.0 / 150.0;
    }
    return marks;
}

static inline size_t look_at_copy(struct visit *visit, size_t page)
{
    static bool (*const kinds[])(const struct item *) = {is_dark_label,
                                                         is_red_mark};
    static const char *const names[] = {"letters of labels",
                                        "arrows, rings and stitches"};
    const struct page *drawn = visit->book->pages.items[page];
    const struct raster color = raster_of(visit, drawn);
    size_t seen = 0;
    for (size_t k = 0; k < UNIT_COUNT(kinds); k++) {
        const struct marks marks = count_marks(visit, drawn, &color, kinds[k]);
        seen += marks.seen;
        if (marks.left < marks.seen)
            breach_at(visit, 18, page + 1,
                      "%zu of %zu %s are left, not that at "
                      "%.0f, %.0f",
                      marks.left, marks.seen, names[k], marks.x, marks.y);
    }
    return seen;
}

/* One paper is enough, as the other has the same figures. */
static inline void look_at_copies(struct visit *visit)
{
    struct arena *scratch = visit->scratch;
    size_t seen = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        if (visit->book->width < 600.0)
            return;
        visit->scratch = arena_create();
        seen += look_at_copy(visit, p);
        arena_destroy(visit->scratch);
    }
    visit->scratch = scratch;
    if (seen == 0)
        breach_at(visit, 18, 0, "no marks");
}

#endif
