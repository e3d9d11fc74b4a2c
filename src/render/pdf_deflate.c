/* Each stream that Cairo deflates is inflated again, as something is put into
 * it (pdf_update.c), and deflated a second time, which is what most of the time
 * of a booklet went to. So Cairo's own streams are kept plain, and one library
 * that is made for whole blocks of memory does the work once. */
#include "pdf_deflate.h"

#include <libdeflate.h>
#include <stdlib.h>
#include <zlib.h>

#include "shortage.h"

/* Level 6 of 12: smaller than zlib's usual level by two in a hundred, in less
 * than half of its time. */
enum { LEVEL = 6 };

/* The name by which Cairo asks zlib for a deflater; this program's own stands
 * before the library's. What it gives is a stream like any other, whose blocks
 * are stored as they are (RFC 1951, 3.2.4). Where a linker binds Cairo to the
 * library's, all comes out the same, and later. */
int deflateInit_(z_streamp stream, int level, const char *version, int size)
{
    enum { USUAL_MEMORY = 8 };
    (void)level;
    return deflateInit2_(stream, Z_NO_COMPRESSION, Z_DEFLATED, MAX_WBITS,
                         USUAL_MEMORY, Z_DEFAULT_STRATEGY, version, size);
}

/* Under the sanitizers a library is told that there is no memory, and so are
 * we. */
static void *given(void *memory)
{
    if (memory == NULL)
        end_out_of_memory(NULL);
    return memory;
}

/* How long the plain bytes are is told nowhere. Where blocks are stored it is
 * the length that they have, else a few times that. */
bool pdf_inflate(struct buffer *plain, const char *deflated, size_t length)
{
    /* Deflating makes nothing smaller than this (zlib's technical notes). */
    enum { MOST_TIMES = 1032 };
    struct libdeflate_decompressor *inflater =
        given(libdeflate_alloc_decompressor());
    enum libdeflate_result result = LIBDEFLATE_INSUFFICIENT_SPACE;
    for (size_t times = 1; result == LIBDEFLATE_INSUFFICIENT_SPACE &&
                           times < (size_t)MOST_TIMES * 4;
         times *= 4) {
        const size_t room = length * times;
        char *bytes = given(malloc(room + 1));
        size_t got = 0;
        result = libdeflate_zlib_decompress(inflater, deflated, length, bytes,
                                            room, &got);
        if (result == LIBDEFLATE_SUCCESS)
            buffer_add(plain, bytes, got);
        free(bytes);
    }
    libdeflate_free_decompressor(inflater);
    return result == LIBDEFLATE_SUCCESS;
}

void pdf_deflate(struct buffer *out, const char *plain, size_t length)
{
    struct libdeflate_compressor *deflater =
        given(libdeflate_alloc_compressor(LEVEL));
    const size_t room = libdeflate_zlib_compress_bound(deflater, length);
    char *bytes = given(malloc(room));
    buffer_add(out, bytes,
               libdeflate_zlib_compress(deflater, plain, length, bytes, room));
    free(bytes);
    libdeflate_free_compressor(deflater);
}
