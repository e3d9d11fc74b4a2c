/* What a photo's bytes are, by its signature and not by its name. Each is
 * decoded once, as only that tells that it can be (PNG: ISO/IEC 15948). Read
 * next: photo_jpeg.c. */
#include <png.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "photo_file.h"
#include "resolver.h"
#include "shortage.h"

/* More than any camera gives; a small file may claim to be huge. A side is as
 * long as Cairo can have it. A pixel takes four bytes when it is drawn, and a
 * progressive JPEG six while it is decoded. */
enum { PIXELS_MOST = 100 * 1000 * 1000, SIDE_MOST = 32767, PIXEL_BYTES = 6 };

/* ---- PNG ---- */

/* Decoded into memory that is given back at once. */
static const char *read_pixels(png_image *image)
{
    image->format = PNG_FORMAT_RGBA;
    unsigned char *pixels = malloc(PNG_IMAGE_SIZE(*image));
    if (pixels == NULL)
        end_out_of_memory(NULL);
    const bool good = png_image_finish_read(image, NULL, pixels, 0, NULL) &&
                      !PNG_IMAGE_FAILED(*image);
    free(pixels);
    return good ? NULL : PHOTO_DAMAGED;
}

static const char *photo_of_png(struct photo_bytes file, struct photo *photo)
{
    png_image image;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(&image, file.at, file.length))
        return PHOTO_DAMAGED;
    photo->width = image.width;
    photo->height = image.height;
    const char *problem = photo_size(photo);
    if (problem == NULL)
        problem = read_pixels(&image);
    png_image_free(&image);
    return problem;
}

/* Claimed sizes are compared before anything of that size is made. */
const char *photo_size(const struct photo *photo)
{
    const uint64_t pixels = (uint64_t)photo->width * photo->height;
    if (pixels > PIXELS_MOST)
        return "has more than 100 million pixels";
    if (photo->width > SIDE_MOST || photo->height > SIDE_MOST)
        return "is longer than 32,767 pixels";
    if (memory_to_be_had((size_t)pixels * PIXEL_BYTES))
        return NULL;
    char words[80];
    snprintf(words, sizeof words, "the photo of %u x %u pixels takes %u MB",
             photo->width, photo->height,
             (unsigned)(pixels * PIXEL_BYTES / 1000000) + 1);
    end_out_of_memory(words);
}

const char *photo_of_bytes(const char *bytes, size_t length,
                           struct photo *photo)
{
    static const unsigned char JPEG[] = {0xFF, 0xD8, 0xFF};
    static const unsigned char PNG[] = {0x89, 'P',  'N',  'G',
                                        '\r', '\n', 0x1A, '\n'};
    const struct photo_bytes file = {(const unsigned char *)bytes, length};
    *photo = (struct photo){.bytes = bytes, .length = length};
    if (length >= sizeof JPEG && memcmp(bytes, JPEG, sizeof JPEG) == 0)
        return photo_of_jpeg(file, photo);
    if (length >= sizeof PNG && memcmp(bytes, PNG, sizeof PNG) == 0)
        return photo_of_png(file, photo);
    return "is neither a PNG nor a JPEG file";
}
