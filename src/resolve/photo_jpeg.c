/* A JPEG goes into the booklet as it is. Its markers are walked here for what
 * the page needs to know (ITU-T T.81, annex B); then the library decodes it
 * once, as only that tells that a reader of the page can. */
#include <setjmp.h>
#include <stdio.h>
#include <string.h>

#include <jpeglib.h>

#include <jerror.h>

#include "photo_file.h"
#include "shortage.h"

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
static unsigned exif_turn(struct photo_bytes segment)
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
static const char *read_frame(unsigned marker, struct photo_bytes segment,
                              struct photo *photo)
{
    if (segment.length < 6)
        return PHOTO_DAMAGED;
    photo->height = big_16(segment.at + 1);
    photo->width = big_16(segment.at + 3);
    const unsigned parts = segment.at[5];
    if (marker > 0xC2 || segment.at[0] != 8 ||
        (parts != 1 && parts != 3 && parts != 4))
        return "is a JPEG of a kind that pages cannot show";
    return photo->height == 0 || photo->width == 0 ? PHOTO_DAMAGED : NULL;
}

/* All start-of-frame markers; 0xC4, 0xC8 and 0xCC mean other things. */
static bool is_frame(unsigned marker)
{
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 &&
           marker != 0xC8 && marker != 0xCC;
}

/* Walks the segments up to the first scan: what the page needs to know. The
 * rest is for the library. ensures: NULL, or what is wrong. */
static const char *read_segments(struct photo_bytes file, struct photo *photo)
{
    size_t at = 2;
    while (at + 4 <= file.length && file.at[at] == 0xFF) {
        const unsigned marker = file.at[at + 1];
        /* Fill bytes may stand before a marker. */
        if (marker == 0xFF) {
            at++;
            continue;
        }
        const size_t length = big_16(file.at + at + 2);
        if (length < 2 || at + 2 + length > file.length)
            return PHOTO_DAMAGED;
        const struct photo_bytes segment = {file.at + at + 4, length - 2};
        const char *problem =
            is_frame(marker) ? read_frame(marker, segment, photo) : NULL;
        if (problem != NULL)
            return problem;
        if (marker == 0xE1 && photo->turn == 0)
            photo->turn = exif_turn(segment);
        at += 2 + length;
        if (marker == 0xDA) /* the scan */
            return photo->width > 0 ? NULL : PHOTO_DAMAGED;
    }
    return PHOTO_DAMAGED;
}

/* ---- decoding ---- */

/* One decoding. The library finds its own parts by the type, so they come
 * first. */
struct decoding {
    struct jpeg_error_mgr errors;
    struct jpeg_progress_mgr progress;
    jmp_buf back; /* where a fatal error goes */
    bool damaged;
};

static void on_fatal(j_common_ptr library)
{
    struct decoding *decoding = (struct decoding *)library->err;
    if (decoding->errors.msg_code == JERR_OUT_OF_MEMORY)
        end_out_of_memory(NULL);
    longjmp(decoding->back, 1);
}

/* The library fills up what is missing with grey and goes on. What can be shown
 * in full is no damage: bytes between segments, and a note on colours. */
static void on_message(j_common_ptr library, int level)
{
    struct decoding *decoding = (struct decoding *)library->err;
    const int code = decoding->errors.msg_code;
    if (level < 0 && code != JWRN_EXTRANEOUS_DATA && code != JWRN_ADOBE_XFORM)
        decoding->damaged = true;
}

/* A small file of thousands of scans would be read for minutes, here and by who
 * opens the booklet. No camera makes more than a dozen. */
static void on_progress(j_common_ptr library)
{
    enum { SCANS_MOST = 100 };
    struct decoding *decoding = (struct decoding *)library->err;
    if (((j_decompress_ptr)library)->input_scan_number > SCANS_MOST)
        longjmp(decoding->back, 1);
}

/* All codes are read. At an eighth of the size, as nobody looks at it. */
static void decode(j_decompress_ptr library, struct photo_bytes file)
{
    jpeg_mem_src(library, file.at, file.length);
    jpeg_read_header(library, TRUE);
    library->scale_num = 1;
    library->scale_denom = 8;
    jpeg_start_decompress(library);
    JSAMPARRAY row = library->mem->alloc_sarray(
        (j_common_ptr)library, JPOOL_IMAGE,
        library->output_width * (unsigned)library->output_components, 1);
    while (library->output_scanline < library->output_height)
        jpeg_read_scanlines(library, row, 1);
    jpeg_finish_decompress(library);
}

/* ensures: whether every code of the picture could be read. */
static bool decodes(struct photo_bytes file)
{
    struct decoding decoding = {.damaged = false};
    struct jpeg_decompress_struct library;
    library.err = jpeg_std_error(&decoding.errors);
    decoding.errors.error_exit = on_fatal;
    decoding.errors.emit_message = on_message;
    decoding.progress.progress_monitor = on_progress;
    if (setjmp(decoding.back) == 0) {
        jpeg_create_decompress(&library);
        library.progress = &decoding.progress;
        decode(&library, file);
    } else {
        decoding.damaged = true;
    }
    jpeg_destroy_decompress(&library);
    return !decoding.damaged;
}

const char *photo_of_jpeg(struct photo_bytes file, struct photo *photo)
{
    photo->jpeg = true;
    const char *problem = read_segments(file, photo);
    if (problem == NULL)
        problem = photo_size(photo);
    if (problem == NULL && !decodes(file))
        problem = PHOTO_DAMAGED;
    return problem;
}
