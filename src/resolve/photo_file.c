/* What a photo's bytes are, by its signature and not by its name. A JPEG goes
 * into the booklet as it is, so its markers are walked here (ITU-T T.81, annex
 * B); a PNG is decoded once, as only that tells that it can be (ISO/IEC 15948).
 */
#include <png.h>
#include <stdlib.h>
#include <string.h>

#include "resolver.h"

/* More than any camera gives; a small file may claim to be huge. */
enum { PIXELS_MOST = 100 * 1000 * 1000 };

static const char DAMAGED[] = "is damaged or cut short";

/* ---- JPEG ---- */

/* A part of the file, its bytes unsigned. */
struct bytes {
    const unsigned char *at;
    size_t length;
};

/* The high byte first: JPEG has no other order, Exif has this and its reverse.
 */
static unsigned big_16(const unsigned char *at)
{
    return (unsigned)at[0] << 8 | at[1];
}

/* Numbers of Exif (CIPA DC-008) lie in either order of bytes. */
static unsigned exif_16(const unsigned char *at, bool little)
{
    return little ? (unsigned)at[1] << 8 | at[0] : big_16(at);
}

/* The place of a directory comes from here, and a file may claim any: whoever
 * adds to it asks whether the sum has wrapped. */
static size_t exif_32(const unsigned char *at, bool little)
{
    return little ? (size_t)exif_16(at + 2, true) << 16 | exif_16(at, true)
                  : (size_t)big_16(at) << 16 | big_16(at + 2);
}

/* How the camera was held: tag 0x0112 of the first directory. Viewers of pages
 * do not look at it, so the page turns the photo. Mirrored values come from no
 * camera and count as upright. */
static unsigned exif_turn(struct bytes segment)
{
    enum { HEAD = 6, TAG = 0x0112, ENTRY = 12 };
    if (segment.length < HEAD + 8 || memcmp(segment.at, "Exif\0", HEAD) != 0)
        return 0;
    const unsigned char *tiff = segment.at + HEAD;
    const size_t length = segment.length - HEAD;
    const bool little = tiff[0] == 'I';
    const size_t directory = exif_32(tiff + 4, little);
    if (directory + 2 < directory || directory + 2 > length)
        return 0;
    const unsigned count = exif_16(tiff + directory, little);
    for (size_t i = 0; i < count; i++) {
        const size_t entry = directory + 2 + i * ENTRY;
        if (entry + ENTRY > length)
            return 0;
        if (exif_16(tiff + entry, little) != TAG)
            continue;
        const unsigned held = exif_16(tiff + entry + 8, little);
        return held == 6 ? 1 : held == 3 ? 2 : held == 8 ? 3 : 0;
    }
    return 0;
}

/* The frame header. Only what readers of pages must decode: Huffman codes, 8
 * bits, grey, colour or four inks. */
static const char *read_frame(unsigned marker, struct bytes segment,
                              struct photo *photo)
{
    if (segment.length < 6)
        return DAMAGED;
    photo->height = big_16(segment.at + 1);
    photo->width = big_16(segment.at + 3);
    const unsigned parts = segment.at[5];
    if (marker > 0xC2 || segment.at[0] != 8 ||
        (parts != 1 && parts != 3 && parts != 4))
        return "is a JPEG of a kind that pages cannot show";
    return photo->height == 0 || photo->width == 0 ? DAMAGED : NULL;
}

/* All start-of-frame markers; 0xC4, 0xC8 and 0xCC mean other things. */
static bool is_frame(unsigned marker)
{
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 &&
           marker != 0xC8 && marker != 0xCC;
}

/* The end marker, somewhere behind the start of the scan; cameras may write
 * more behind it. */
static bool has_end(struct bytes rest)
{
    for (size_t i = 0; i + 1 < rest.length; i++)
        if (rest.at[i] == 0xFF && rest.at[i + 1] == 0xD9)
            return true;
    return false;
}

/* Walks the segments up to the first scan. The picture itself is not decoded:
 * readers of pages do that. What is checked is what the page needs to know, and
 * that the end is there. ensures: NULL, or what is wrong. */
static const char *read_jpeg(struct bytes file, struct photo *photo)
{
    size_t at = 2;
    photo->jpeg = true;
    while (at + 4 <= file.length && file.at[at] == 0xFF) {
        const unsigned marker = file.at[at + 1];
        /* Fill bytes may stand before a marker. */
        if (marker == 0xFF) {
            at++;
            continue;
        }
        const size_t length = big_16(file.at + at + 2);
        if (length < 2 || at + 2 + length > file.length)
            return DAMAGED;
        const struct bytes segment = {file.at + at + 4, length - 2};
        const char *problem =
            is_frame(marker) ? read_frame(marker, segment, photo) : NULL;
        if (problem != NULL)
            return problem;
        if (marker == 0xE1 && photo->turn == 0)
            photo->turn = exif_turn(segment);
        at += 2 + length;
        if (marker == 0xDA) /* the scan */
            return photo->width > 0 &&
                           has_end((struct bytes){file.at + at,
                                                  file.length - at})
                       ? NULL
                       : DAMAGED;
    }
    return DAMAGED;
}

/* ---- PNG ---- */

/* Decoded into memory that is given back at once. */
static const char *read_png(struct bytes file, struct photo *photo)
{
    png_image image;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(&image, file.at, file.length))
        return DAMAGED;
    photo->width = image.width;
    photo->height = image.height;
    if ((uint64_t)image.width * image.height > PIXELS_MOST) {
        png_image_free(&image);
        return NULL; /* told by the caller */
    }
    image.format = PNG_FORMAT_RGBA;
    unsigned char *pixels = malloc(PNG_IMAGE_SIZE(image));
    const bool good = pixels != NULL &&
                      png_image_finish_read(&image, NULL, pixels, 0, NULL) &&
                      !PNG_IMAGE_FAILED(image);
    png_image_free(&image);
    free(pixels);
    return good ? NULL : DAMAGED;
}

/* Claimed sizes are compared before anything of that size is made. */
const char *photo_of_bytes(const char *bytes, size_t length,
                           struct photo *photo)
{
    static const unsigned char JPEG[] = {0xFF, 0xD8, 0xFF};
    static const unsigned char PNG[] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A,
                                        '\n'};
    const struct bytes file = {(const unsigned char *)bytes, length};
    const char *problem = "is neither a PNG nor a JPEG file";
    *photo = (struct photo){.bytes = bytes, .length = length};
    if (length >= sizeof JPEG && memcmp(bytes, JPEG, sizeof JPEG) == 0)
        problem = read_jpeg(file, photo);
    else if (length >= sizeof PNG && memcmp(bytes, PNG, sizeof PNG) == 0)
        problem = read_png(file, photo);
    if (problem == NULL &&
        (uint64_t)photo->width * photo->height > PIXELS_MOST)
        problem = "has more than 100 million pixels";
    return problem;
}
