/* One page as PNG: painted by Cairo from the same items as a PDF, written by
 * libpng, which can say the resolution. No time is written, so the same book
 * gives the same bytes. */
#include <math.h>
#include <setjmp.h>

#include <png.h>

#include "buffer.h"
#include "draw.h"
#include "render.h"
#include "shortage.h"

/* Inches to metres: pHYs counts dots to the metre (PNG, 11.3.5.3). */
static const double METRE_INCHES = 1000.0 / 25.4;

/* Cairo's own limit for a side of a picture. */
enum { SIDE_LIMIT = 32767 };

/* On white, as a figure lies on paper: where a PNG is clear, dark text would be
 * lost on a dark page. ensures: a surface, and NULL or what went wrong. */
static cairo_surface_t *paint(struct typeset *typeset, const struct book *book,
                              int dots_per_inch, const char **problem)
{
    const double scale = dots_per_inch / 72.0;
    const double width = ceil(book->width * scale - 0.001);
    const double height = ceil(book->height * scale - 0.001);
    const bool fits = width <= SIDE_LIMIT && height <= SIDE_LIMIT;
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, fits ? (int)width : -1, fits ? (int)height : -1);
    cairo_t *cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_scale(cairo, scale, scale);
    draw_page(cairo, typeset, book->pages.items[0]);
    *problem = drawing_problem(cairo_status(cairo));
    cairo_destroy(cairo);
    cairo_surface_flush(surface);
    if (*problem == NULL)
        *problem = drawing_problem(cairo_surface_status(surface));
    return surface;
}

/* Receives the file in parts; the arena never fails. */
static void add_bytes(png_structp png, png_bytep bytes, png_size_t length)
{
    buffer_add(png_get_io_ptr(png), (const char *)bytes, length);
}

/* libpng would flush a file where it is not told otherwise. */
static void flush_nothing(png_structp png)
{
    (void)png;
}

/* Cairo keeps a pixel as one number, whatever the order of its bytes. One row
 * at a time, so that the picture is not held twice. */
static void write_rows(png_structp png, struct arena *arena,
                       cairo_surface_t *surface)
{
    const int width = cairo_image_surface_get_width(surface);
    const int height = cairo_image_surface_get_height(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    const unsigned char *data = cairo_image_surface_get_data(surface);
    png_bytep row = ARENA_ARRAY(arena, png_byte, (size_t)width * 3);
    for (int y = 0; y < height; y++) {
        const uint32_t *pixels =
            (const void *)(data + (size_t)y * (size_t)stride);
        for (int x = 0; x < width; x++)
            for (int k = 0; k < 3; k++)
                row[3 * x + k] = (png_byte)(pixels[x] >> (16 - 8 * k) & 0xFF);
        png_write_row(png, row);
    }
}

/* Colours are sRGB, as book.h tells them. All settings that the size of the
 * file depends on are the library's own: the same library, the same bytes. */
static void write_picture(png_structp png, png_infop info,
                          struct buffer *buffer, cairo_surface_t *surface,
                          int dots_per_inch)
{
    const png_uint_32 dots = (png_uint_32)lround(dots_per_inch * METRE_INCHES);
    png_set_write_fn(png, buffer, add_bytes, flush_nothing);
    png_set_IHDR(png, info, (png_uint_32)cairo_image_surface_get_width(surface),
                 (png_uint_32)cairo_image_surface_get_height(surface), 8,
                 PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_set_sRGB(png, info, PNG_sRGB_INTENT_RELATIVE);
    png_set_pHYs(png, info, dots, dots, PNG_RESOLUTION_METER);
    png_write_info(png, info);
    write_rows(png, buffer->arena, surface);
    png_write_end(png, info);
}

/* ensures: NULL, or what went wrong. libpng leaves by a long jump; nothing that
 * is changed between is looked at after it. */
static const char *encode(struct buffer *buffer, cairo_surface_t *surface,
                          int dots_per_inch)
{
    png_structp png =
        png_create_write_struct(PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
    png_infop info = png == NULL ? NULL : png_create_info_struct(png);
    if (info == NULL)
        end_out_of_memory(NULL);
    if (setjmp(png_jmpbuf(png))) {
        png_destroy_write_struct(&png, &info);
        return "the picture could not be encoded";
    }
    write_picture(png, info, buffer, surface, dots_per_inch);
    png_destroy_write_struct(&png, &info);
    return NULL;
}

/* Cairo fails where the picture is too large; it is asked once, at the end, as
 * it keeps its first problem. */
struct rendered render_png(struct arena *arena, struct typeset *typeset,
                           const struct book *book, int dots_per_inch)
{
    struct buffer buffer = buffer_in(arena);
    const char *problem;
    cairo_surface_t *surface = paint(typeset, book, dots_per_inch, &problem);
    if (problem == NULL)
        problem = encode(&buffer, surface, dots_per_inch);
    cairo_surface_destroy(surface);
    if (problem != NULL)
        return (struct rendered){.problem = problem};
    return (struct rendered){.bytes = buffer.bytes, .length = buffer.length};
}
