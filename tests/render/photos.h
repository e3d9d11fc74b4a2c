/* Photos that a test makes itself: a JPEG written bit by bit, and a PNG. */
#ifndef SEAMWRIGHT_TESTS_PHOTOS_H
#define SEAMWRIGHT_TESTS_PHOTOS_H

#include <cairo.h>
#include <stdbool.h>
#include <string.h>

#include "buffer.h"

/* Baseline JPEG (ITU-T T.81), grey, 16 x 8 pixels: the left block black, the
 * right one white. One quantum of 8, of which eight are
 * one grey step: -128 is black, 127 is white. Codes: a difference of 8 bits is
 * `10`, the end of a block is `0`. */
static inline struct buffer jpeg_photo(struct arena *arena)
{
    static const unsigned char head[] = {
        0xFF, 0xD8, /* start of image */
        0xFF, 0xC0, 0, 11, 8, 0, 8, 0, 16, 1, 1, 0x11, 0, /* 16 x 8, grey */
        0xFF, 0xC4, 0, 22, 0x00, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0, 0, 8, 9, /* DC: differences of 0, 8 and 9 bits */
        0xFF, 0xC4, 0, 20, 0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0, 0, /* AC: end of block */
        0xFF, 0xDA, 0, 8, 1, 1, 0x00, 0, 63, 0};
    /* 10 01111111 0 is -128, 10 11111111 0 is 255 more; then ones. */
    static const unsigned char scan[] = {0x9F, 0xD7, 0xFB, 0xFF, 0xD9};
    struct buffer bytes = buffer_in(arena);
    buffer_add(&bytes, (const char *)head, 2);
    static const unsigned char table[] = {0xFF, 0xDB, 0, 67, 0};
    buffer_add(&bytes, (const char *)table, sizeof table);
    for (int i = 0; i < 64; i++)
        buffer_char(&bytes, 8);
    buffer_add(&bytes, (const char *)head + 2, sizeof head - 2);
    buffer_add(&bytes, (const char *)scan, sizeof scan);
    return bytes;
}

/* The same with the mark of a camera that was held on its side: `held` as Exif
 * counts, in either order of bytes. */
static inline struct buffer held_photo(struct arena *arena, unsigned char held,
                                       bool little)
{
    unsigned char exif[] = {0xFF, 0xE1, 0, 34, 'E', 'x', 'i', 'f', 0, 0,
                            'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1,
                            0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, held,
                            0, 0, 0, 0, 0, 0};
    static const unsigned char turned[] = {'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0,
                                           0x12, 0x01, 3, 0, 1, 0, 0, 0};
    if (little) {
        memcpy(exif + 10, turned, sizeof turned);
        exif[28] = held;
        exif[29] = 0;
    }
    const struct buffer plain = jpeg_photo(arena);
    struct buffer bytes = buffer_in(arena);
    buffer_add(&bytes, plain.bytes, 2);
    buffer_add(&bytes, (const char *)exif, sizeof exif);
    buffer_add(&bytes, plain.bytes + 2, plain.length - 2);
    return bytes;
}

static inline cairo_status_t keep_bytes(void *closure,
                                        const unsigned char *bytes,
                                        unsigned int length)
{
    buffer_add(closure, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

/* 16 x 8 pixels, the left half black, the right half white. */
static inline struct buffer png_photo(struct arena *arena)
{
    struct buffer bytes = buffer_in(arena);
    cairo_surface_t *surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, 16, 8);
    unsigned char *pixels = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < 8; y++)
        memset(pixels + y * stride + 8 * 4, 0xFF, 8 * 4);
    cairo_surface_mark_dirty(surface);
    cairo_surface_write_to_png_stream(surface, keep_bytes, &bytes);
    cairo_surface_destroy(surface);
    return bytes;
}

#endif
