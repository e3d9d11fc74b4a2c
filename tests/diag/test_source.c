/* Lines, columns and quoting. The widths of characters are compared with
 * wcwidth of the C library, which is not used by the program itself. */
#define _XOPEN_SOURCE 700 /* for wcwidth */

#include <locale.h>
#include <string.h>
#include <wchar.h>

#include "../unit.h"
#include "buffer.h"
#include "source.h"

static struct source *source_of(void **state, const char *text)
{
    return source_create(*state, "lantern.xml", text, strlen(text));
}

static void assert_place(const struct source *source, uint32_t offset,
                         size_t line, size_t column)
{
    const struct place place = source_place(source, offset);
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
}

static void assert_line(const struct source *source, size_t line,
                        const char *text)
{
    const struct span span =
        source_line_span(source, source->parts.items, line);
    assert_int_equal(span.end - span.start, strlen(text));
    assert_memory_equal(source->bytes + span.start, text, strlen(text));
}

static void test_line_ends(void **state)
{
    static const char *const texts[] = {"ab\n\ncd\nlast",
                                        "ab\r\n\r\ncd\r\nlast",
                                        "ab\r\rcd\rlast", "ab\n\r\rcd\r\nlast"};
    for (size_t i = 0; i < UNIT_COUNT(texts); i++) {
        const struct source *source = source_of(state, texts[i]);
        assert_int_equal(source->parts.items->line_count, i == 3 ? 5 : 4);
        assert_line(source, 1, "ab");
        assert_line(source, 2, "");
        assert_line(source, source->parts.items->line_count - 1, "cd");
        assert_line(source, source->parts.items->line_count, "last");
        const uint32_t d = (uint32_t)(strchr(texts[i], 'd') - texts[i]);
        assert_place(source, d, source->parts.items->line_count - 1, 2);
        assert_place(source, (uint32_t)strlen(texts[i]),
                     source->parts.items->line_count, 5);
    }
}

static void test_line_end_belongs_to_its_line(void **state)
{
    const struct source *source = source_of(state, "ab\r\ncd\r\n");
    assert_place(source, 1, 1, 2);
    assert_place(source, 2, 1, 3); /* the CR */
    assert_place(source, 3, 1, 3); /* the LF */
    assert_place(source, 4, 2, 1);
    assert_int_equal(source->parts.items->line_count, 3);
    assert_line(source, 3, "");
    assert_place(source, 8, 3, 1);
    assert_place(source, 4000000000U, 3, 1); /* past the end */
}

static void test_empty_source(void **state)
{
    const struct source *source = source_of(state, "");
    assert_int_equal(source->parts.items->line_count, 1);
    assert_line(source, 1, "");
    assert_place(source, 0, 1, 1);
}

static void test_tabs_stop_every_eight(void **state)
{
    const struct source *source = source_of(state, "\ta\t1234567\t12345678\tz");
    assert_place(source, 0, 1, 1);
    assert_place(source, 1, 1, 9);
    assert_place(source, 3, 1, 17);
    assert_place(source, 11, 1, 25); /* seven and a tab fill one stop */
    assert_place(source, 20, 1, 41); /* eight and a tab fill two */
}

static void test_wide_and_combining(void **state)
{
    /* A wide sign, e with a combining acute, a four-byte wide sign. */
    const struct source *source = source_of(state, "\xE5\xB8\x83"
                                                   "e\xCC\x81"
                                                   "x\xF0\x9F\xA7\xB5"
                                                   "y");
    assert_place(source, 0, 1, 1);
    assert_place(source, 1, 1, 1); /* inside the first */
    assert_place(source, 3, 1, 3);
    assert_place(source, 4, 1, 4); /* the accent */
    assert_place(source, 6, 1, 4); /* x, as the accent takes no column */
    assert_place(source, 7, 1, 5);
    assert_place(source, 11, 1, 7);
}

static void test_malformed_bytes_count_one_each(void **state)
{
    static const char *const malformed[] = {
        "\x80x",             /* a lone continuation */
        "\xC0\xAFx",         /* overlong in two bytes */
        "\xE0\x80\xAFx",     /* overlong in three */
        "\xED\xA0\x80x",     /* a surrogate */
        "\xF4\x90\x80\x80x", /* past U+10FFFF */
        "\xE5\xB8x",         /* cut short */
        "\xFF\xFEx",
    };
    for (size_t i = 0; i < UNIT_COUNT(malformed); i++) {
        const struct source *source = source_of(state, malformed[i]);
        const uint32_t x = (uint32_t)strlen(malformed[i]) - 1;
        assert_place(source, x, 1, x + 1);
    }
}

static void test_past_line_65535(void **state)
{
    struct buffer buffer = buffer_in(*state);
    for (int i = 0; i < 70000; i++)
        buffer_text(&buffer, "ab\n");
    const struct source *source =
        source_create(*state, "long.xml", buffer.bytes, buffer.length);
    assert_int_equal(source->parts.items->line_count, 70001);
    assert_place(source, 3 * 65535 + 1, 65536, 2);
    assert_place(source, 3 * 69999, 70000, 1);
    assert_line(source, 69999, "ab");
}

/* The column of every byte, counted the slow way: from the line's start, with
 * the rules of the words in source.h for this text's four kinds of bytes. */
static void test_columns_in_a_long_line(void **state)
{
    struct buffer buffer = buffer_in(*state);
    for (int i = 0; i < 5000; i++)
        buffer_text(&buffer, i % 7 == 0 ? "\t" : i % 3 ? "\xE5\xB8\x83" : "a");
    buffer_text(&buffer, "\nnext");
    const struct source *source =
        source_create(*state, "wide.xml", buffer.bytes, buffer.length);
    size_t column = 1;
    uint32_t offset = 0;
    while (buffer.bytes[offset] != '\n') {
        const char c = buffer.bytes[offset];
        const uint32_t size = c == '\t' || c == 'a' ? 1 : 3;
        for (uint32_t i = 0; i < size; i++)
            assert_place(source, offset + i, 1, column);
        if (c == '\t')
            column = (column - 1) / 8 * 8 + 9;
        else
            column += c == 'a' ? 1 : 2;
        offset += size;
    }
    assert_true(offset > 2 * 4096);
    assert_place(source, offset + 3, 2, 3);
}

static void add_utf8(struct buffer *buffer, uint32_t code)
{
    if (code < 0x800) {
        buffer_char(buffer, (char)(0xC0 | code >> 6));
    } else {
        if (code < 0x10000) {
            buffer_char(buffer, (char)(0xE0 | code >> 12));
        } else {
            buffer_char(buffer, (char)(0xF0 | code >> 18));
            buffer_char(buffer, (char)(0x80 | (code >> 12 & 0x3F)));
        }
        buffer_char(buffer, (char)(0x80 | (code >> 6 & 0x3F)));
    }
    buffer_char(buffer, (char)(0x80 | (code & 0x3F)));
}

/* Every character from U+00A0 on that the C library knows, one a line. */
static void test_widths_against_the_library(void **state)
{
    if (setlocale(LC_CTYPE, "C.UTF-8") == NULL)
        skip();
    struct buffer buffer = buffer_in(*state);
    for (uint32_t code = 0xA0; code <= 0x10FFFF; code++) {
        if (code < 0xD800 || code > 0xDFFF)
            add_utf8(&buffer, code);
        buffer_char(&buffer, '\n');
    }
    const struct source *source =
        source_create(*state, "all.xml", buffer.bytes, buffer.length);
    size_t compared = 0;
    for (uint32_t code = 0xA0; code <= 0x10FFFF; code++) {
        const int known = wcwidth((wchar_t)code);
        if (known < 0)
            continue;
        const struct span line =
            source_line_span(source, source->parts.items, code - 0xA0 + 1);
        const size_t column = source_place(source, line.end).column;
        if (column != (size_t)known + 1)
            fail_msg("U+%04X: %zu columns, the library says %d", (unsigned)code,
                     column - 1, known);
        compared++;
    }
    setlocale(LC_CTYPE, "C");
    assert_true(compared > 100000);
}

static void test_quoted(void **state)
{
    struct arena *arena = *state;
    assert_string_equal(quoted(arena, "night"), "`night`");
    assert_string_equal(quoted(arena, ""), "``");
    assert_string_equal(quoted(arena, "a\nb\x1B[1m"), "`aU+000AbU+001B[1m`");
    assert_string_equal(quoted(arena, "\xE2\x80\xAE"
                                      "abc"),
                        "`U+202Eabc`");
    assert_string_equal(quoted(arena, "\xF3\xA0\x81\x81"), "`U+E0041`");
    assert_string_equal(quoted(arena, "a`b"), "`aU+0060b`");
    assert_string_equal(quoted(arena, "a\xFF"), "`a\xEF\xBF\xBD`");
}

static void test_quoted_is_cut_at_40(void **state)
{
    struct arena *arena = *state;
    static const char forty[] = "1234567890123456789012345678901234567890";
    assert_string_equal(quoted(arena, forty),
                        "`1234567890123456789012345678901234567890`");
    assert_string_equal(quoted(arena, arena_printf(arena, "%sx", forty)),
                        "`1234567890123456789012345678901234567...`");
    /* Characters count, not bytes: 40 of two bytes stay whole. */
    struct buffer buffer = buffer_in(arena);
    for (int i = 0; i < 40; i++)
        buffer_text(&buffer, "\xC3\xA9");
    assert_int_equal(strlen(quoted(arena, buffer.bytes)), 82);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_line_ends),
        cmocka_unit_test(test_line_end_belongs_to_its_line),
        cmocka_unit_test(test_empty_source),
        cmocka_unit_test(test_tabs_stop_every_eight),
        cmocka_unit_test(test_wide_and_combining),
        cmocka_unit_test(test_malformed_bytes_count_one_each),
        cmocka_unit_test(test_past_line_65535),
        cmocka_unit_test(test_columns_in_a_long_line),
        cmocka_unit_test(test_widths_against_the_library),
        cmocka_unit_test(test_quoted),
        cmocka_unit_test(test_quoted_is_cut_at_40),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
