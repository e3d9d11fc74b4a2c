/* Streams of a PDF against zlib, which is what most readers have: it inflates
 * what is deflated here, and what it deflated is inflated. */
#include <string.h>
#include <zlib.h>

#include "../unit.h"
#include "pdf_deflate.h"

/* Letters that repeat now and then, as operators do. */
static void fill(char *bytes, size_t length)
{
    unsigned seed = 1;
    for (size_t i = 0; i < length; i++) {
        seed = seed * 1103515245u + 12345u;
        bytes[i] = i > 9 && seed >> 16 & 1 ? bytes[i - 9] : (char)(seed >> 24);
    }
}

static void test_inflated_by_zlib(void **state)
{
    struct arena *arena = arena_create();
    const size_t lengths[] = {0, 1, 1000, 70000, 1 << 20};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        char *plain = ARENA_ARRAY(arena, char, lengths[i] + 1);
        char *back = ARENA_ARRAY(arena, char, lengths[i] + 1);
        uLongf length = lengths[i] + 1;
        struct buffer out = buffer_in(arena);
        fill(plain, lengths[i]);
        buffer_text(&out, "x");
        pdf_deflate(&out, plain, lengths[i]);
        assert_int_equal(out.bytes[0], 'x');
        assert_int_equal(uncompress((Bytef *)back, &length,
                                    (const Bytef *)out.bytes + 1,
                                    out.length - 1),
                         Z_OK);
        assert_int_equal(length, lengths[i]);
        assert_memory_equal(back, plain, lengths[i]);
    }
    arena_destroy(arena);
    (void)state;
}

/* ensures: what zlib makes of the bytes at that level, and its length. */
static char *zlib_deflate(struct arena *arena, int level, char *plain,
                          size_t length, size_t *deflated)
{
    const size_t room = length + 1000;
    char *out = ARENA_ARRAY(arena, char, room);
    z_stream stream = {.next_in = (Bytef *)plain, .avail_in = (uInt)length};
    assert_int_equal(deflateInit2(&stream, level, Z_DEFLATED, MAX_WBITS, 8,
                                  Z_DEFAULT_STRATEGY),
                     Z_OK);
    stream.next_out = (Bytef *)out;
    stream.avail_out = (uInt)room;
    assert_int_equal(deflate(&stream, Z_FINISH), Z_STREAM_END);
    *deflated = stream.total_out;
    deflateEnd(&stream);
    return out;
}

/* Stored blocks, and all that deflating can take off: bytes of 0. */
static void test_deflated_by_zlib(void **state)
{
    struct arena *arena = arena_create();
    enum { LENGTH = 1 << 20 };
    for (int level = 0; level <= 9; level += 3)
        for (int zeros = 0; zeros < 2; zeros++) {
            char *plain = ARENA_ARRAY(arena, char, LENGTH);
            if (!zeros)
                fill(plain, LENGTH);
            size_t length = 0;
            const char *deflated =
                zlib_deflate(arena, level, plain, LENGTH, &length);
            struct buffer back = buffer_in(arena);
            assert_true(pdf_inflate(&back, deflated, length));
            assert_int_equal(back.length, LENGTH);
            assert_memory_equal(back.bytes, plain, LENGTH);
        }
    arena_destroy(arena);
    (void)state;
}

/* Other bytes, none, a stream that is cut short, and one with a wrong sum. */
static void test_refused(void **state)
{
    struct arena *arena = arena_create();
    struct buffer deflated = buffer_in(arena), out = buffer_in(arena);
    assert_false(pdf_inflate(&out, "no deflated bytes", 17));
    assert_false(pdf_inflate(&out, "", 0));
    pdf_deflate(&deflated, "0 0 m 1 1 l S", 13);
    assert_false(pdf_inflate(&out, deflated.bytes, deflated.length - 1));
    deflated.bytes[deflated.length - 1] ^= 1;
    assert_false(pdf_inflate(&out, deflated.bytes, deflated.length));
    assert_int_equal(out.length, 0);
    arena_destroy(arena);
    (void)state;
}

/* Whoever asks zlib as Cairo does gets blocks that are stored: the bytes
 * themselves stand in the stream. */
static void test_kept_plain(void **state)
{
    char plain[] = "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", out[200];
    z_stream stream = {.next_in = (Bytef *)plain,
                       .avail_in = (uInt)strlen(plain),
                       .next_out = (Bytef *)out,
                       .avail_out = sizeof out};
    assert_int_equal(deflateInit(&stream, Z_DEFAULT_COMPRESSION), Z_OK);
    assert_int_equal(deflate(&stream, Z_FINISH), Z_STREAM_END);
    assert_int_equal(stream.total_out, strlen(plain) + 11);
    assert_memory_equal(out + 7, plain, strlen(plain));
    deflateEnd(&stream);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_inflated_by_zlib),
        cmocka_unit_test(test_deflated_by_zlib),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_kept_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
