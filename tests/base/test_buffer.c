/* Growing text and JSON strings (RFC 8259, section 7). */
#include <string.h>

#include "../unit.h"
#include "buffer.h"

static const char *json(void *arena, const char *text)
{
    struct buffer buffer = buffer_in(arena);
    buffer_json(&buffer, text);
    return buffer_string(&buffer);
}

static void an_empty_buffer_is_a_string(void **state)
{
    const struct buffer buffer = buffer_in(*state);
    assert_string_equal(buffer_string(&buffer), "");
    assert_int_equal(buffer.length, 0);
}

static void parts_come_in_order(void **state)
{
    struct buffer buffer = buffer_in(*state);
    buffer_text(&buffer, "a");
    buffer_char(&buffer, 'b');
    buffer_add(&buffer, "cX", 1);
    buffer_printf(&buffer, "%d%%", 12);
    buffer_add(&buffer, NULL, 0);
    assert_string_equal(buffer_string(&buffer), "abc12%");
    assert_int_equal(buffer.length, 6);
}

static void noughts_are_bytes_too(void **state)
{
    struct buffer buffer = buffer_in(*state);
    buffer_add(&buffer, "a\0b", 3);
    buffer_char(&buffer, '\0');
    assert_int_equal(buffer.length, 4);
    assert_memory_equal(buffer.bytes, "a\0b\0", 5);
}

static void growing_keeps_all(void **state)
{
    struct buffer buffer = buffer_in(*state);
    for (int i = 0; i < 100000; i++)
        buffer_char(&buffer, (char)('a' + i % 26));
    assert_int_equal(strlen(buffer_string(&buffer)), 100000);
    for (int i = 0; i < 100000; i++)
        assert_int_equal(buffer.bytes[i], 'a' + i % 26);
}

static void json_escapes_what_it_must(void **state)
{
    assert_string_equal(json(*state, ""), "\"\"");
    assert_string_equal(json(*state, "a\"b\\c/d"), "\"a\\\"b\\\\c/d\"");
    assert_string_equal(json(*state, "\x01\x1f"), "\"\\u0001\\u001f\"");
    /* Need not be escaped, but would act on a terminal. */
    assert_string_equal(json(*state, "\x7f\u202e\xC2\x9B\U000e0041"),
                        "\"\\u007f\\u202e\\u009b\\udb40\\udc41\"");
    assert_string_equal(json(*state, "2½ ✂"), "\"2½ ✂\"");
    for (char c = 1; c < 0x20; c++) {
        const char text[] = {c, '\0'};
        assert_null(strchr(json(*state, text), c));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_buffer_is_a_string),
        cmocka_unit_test(parts_come_in_order),
        cmocka_unit_test(noughts_are_bytes_too),
        cmocka_unit_test(growing_keeps_all),
        cmocka_unit_test(json_escapes_what_it_must),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
