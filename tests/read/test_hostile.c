/* Sources that are broken, huge or meant to hurt: each is refused with a
 * message, and none does more than that. */
#include "reading.h"

#include <stdio.h>

#include "buffer.h"
#include "files.h"
#include "sewn.h"

#define ROOT "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">"
#define REST                                                                 \
    "<fabrics><fabric id=\"f\"/></fabrics>"                                  \
    "<colorway id=\"c\"><cloth fabric=\"f\" color=\"#000000\"/></colorway>"  \
    "<quilt id=\"q\"><patch fabric=\"f\" width=\"4\" height=\"4\"/></quilt>" \
    "</pattern>\n"

/* What every reading keeps: no pattern only with a reason, and messages that
 * point into the source and can be printed. */
static void assert_told(struct reading reading)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(reading.run, &sorted);
    const size_t length = reading.run->source->length;
    if (reading.pattern == NULL)
        assert_true(diag_count(reading.run, DIAG_ERROR) > 0);
    for (size_t i = 0; i < count; i++) {
        assert_true(sorted[i]->span.start <= sorted[i]->span.end);
        assert_true(sorted[i]->span.end <= length);
        assert_true(sorted[i]->message[0] != '\0');
        assert_non_null(diag_json(reading.run, sorted[i]));
    }
}

static void assert_refused(void **state, const char *text, enum diag_code code,
                           size_t line, size_t column)
{
    const struct reading reading = read_text(state, text);
    assert_told(reading);
    assert_null(reading.pattern);
    assert_one_error(reading, code, line, column);
}

/* ---- document types and entities ---- */

static void test_document_types_are_refused(void **state)
{
    static const char *const types[] = {
        "<!DOCTYPE pattern>\n",
        "<!DOCTYPE pattern SYSTEM \"pattern.dtd\">\n",
        "<!DOCTYPE pattern PUBLIC \"-//A//B\" \"file:///etc/passwd\">\n",
        "<!DOCTYPE pattern [<!ENTITY a \"b\">]>\n",
        "<!DOCTYPE pattern [<!ENTITY a SYSTEM \"file:///etc/passwd\">]>\n",
        "<!DOCTYPE pattern [<!ENTITY % a SYSTEM \"file:///dev/zero\"> %a;]>\n"};
    for (size_t i = 0; i < UNIT_COUNT(types); i++)
        assert_refused(
            state,
            arena_printf(*state, "<!-- first -->\n%s" ROOT REST, types[i]),
            DIAG_DOCTYPE, 2, 1);
}

/* Ten to the ninth copies of a word, were entities looked into. */
static void test_entity_bomb(void **state)
{
    struct buffer bomb = buffer_in(*state);
    buffer_text(&bomb, "<!DOCTYPE pattern [<!ENTITY e0 \"foam\">");
    for (int i = 1; i < 10; i++) {
        buffer_printf(&bomb, "<!ENTITY e%d \"", i);
        for (int k = 0; k < 10; k++)
            buffer_printf(&bomb, "&e%d;", i - 1);
        buffer_text(&bomb, "\">");
    }
    buffer_text(&bomb, "]>" ROOT "<about><summary>&e9;</summary></about>" REST);
    assert_refused(state, buffer_string(&bomb), DIAG_DOCTYPE, 1, 1);
}

static void test_undeclared_entities(void **state)
{
    assert_refused(state,
                   ROOT "\n<about><summary>&bolt;</summary></about>" REST,
                   DIAG_XML_SYNTAX, 2, 23);
    const struct reading value =
        read_text(state, ROOT "\n<about designer=\"&bolt;\"/>" REST);
    assert_told(value);
    assert_null(value.pattern);
}

/* A processing instruction that asks for a catalog opens no file; the
 * pattern is read as if it were not there. */
static void test_catalogs_are_not_read(void **state)
{
    const struct reading reading = read_text(
        state, "<?oasis-xml-catalog catalog=\"file:///dev/zero\"?>" ROOT REST);
    assert_sound(reading);
}

/* ---- limits ---- */

static const char *repeated(struct arena *arena, const char *text, size_t count)
{
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; i < count; i++)
        buffer_text(&out, text);
    return buffer_string(&out);
}

static struct reading read_nested(void **state, size_t rows)
{
    return read_text(
        state, arena_printf(*state,
                            ROOT "<quilt id=\"q\">\n%s<patch fabric=\"f\" "
                                 "width=\"1\" height=\"1\"/>%s</quilt>"
                                 "<fabrics><fabric id=\"f\"/></fabrics>"
                                 "<colorway id=\"c\"><cloth fabric=\"f\" "
                                 "color=\"#000000\"/></colorway></pattern>",
                            repeated(*state, "<row>", rows),
                            repeated(*state, "</row>", rows)));
}

static void test_nesting(void **state)
{
    /* 64 levels with pattern, quilt and patch; then the patch is too deep,
     * then a row is. */
    assert_sound(read_nested(state, 61));
    assert_one_error(read_nested(state, 62), DIAG_LIMIT, 2, 62 * 5 + 1);
    assert_one_error(read_nested(state, 63), DIAG_LIMIT, 2, 62 * 5 + 1);
    assert_one_error(read_nested(state, 100000), DIAG_LIMIT, 2, 62 * 5 + 1);
}

static struct reading read_attributes_of(void **state, int count)
{
    struct buffer text = buffer_in(*state);
    buffer_text(&text, ROOT "\n<about");
    for (int i = 0; i < count; i++)
        buffer_printf(&text, " xmlns:a%d='urn:a=b'", i);
    buffer_text(&text, "/>" REST);
    return read_text(state, buffer_string(&text));
}

static void test_attributes_of_one_tag(void **state)
{
    assert_sound(read_attributes_of(state, 256));
    assert_one_error(read_attributes_of(state, 257), DIAG_LIMIT, 2, 1);
    assert_one_error(read_attributes_of(state, 300), DIAG_LIMIT, 2, 1);
    assert_one_error(read_attributes_of(state, 100000), DIAG_LIMIT, 2, 1);
}

/* The sanitizers measure the rest of the source at each strstr, so with them
 * the time grows by the square. */
#ifdef SEAMWRIGHT_CHECKED
enum { LARGEST = SOURCE_LIMIT_BYTES / 32 };
#else
enum { LARGEST = SOURCE_LIMIT_BYTES };
#endif

/* Sixteen MiB of many small elements: read, and not for ever. The limit on
 * the file itself is tried in tests/base. */
static void test_largest_source(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    struct buffer text = buffer_in(arena);
    buffer_text(&text, ROOT "<assembly of=\"q\">\n");
    while (text.length < LARGEST - 1000)
        buffer_text(&text,
                    "<step make=\"q\"><say>foam and salt</say></step>\n");
    buffer_text(&text, "</assembly>" REST);
    assert_true(text.length <= LARGEST);
    const struct reading reading = read_bytes(arena, text.bytes, text.length);
    assert_sound(reading);
    const struct element *assembly = reading.pattern->root->children.items[0];
    assert_true(assembly->children.count > LARGEST / 50);
    const struct element *last =
        assembly->children.items[assembly->children.count - 1];
    const struct place place =
        source_place(reading.run->source, value_span(last, ATTR_MAKE).start);
    assert_int_equal(place.line, assembly->children.count + 1);
    assert_int_equal(place.column, 13);
    arena_destroy(arena);
}

/* ---- bytes that are not UTF-8 text ---- */

static void assert_encoding(void **state, const char *bytes, size_t length,
                            size_t line, size_t column)
{
    const struct reading reading = read_bytes(*state, bytes, length);
    assert_told(reading);
    assert_null(reading.pattern);
    assert_one_error(reading, DIAG_ENCODING, line, column);
}

/* The bytes stand in a value at line 2, column 18. Malformed as by table 3-7
 * of the Unicode Standard. */
static void test_malformed_bytes(void **state)
{
    static const struct {
        const char *bytes;
        size_t length;
    } cases[] = {{"\0", 1},
                 {"\x80", 1},
                 {"\xBF", 1},
                 {"\xC0\x80", 2},
                 {"\xC1\xBF", 2},
                 {"\xE0\x80\x80", 3},
                 {"\xED\xA0\x80", 3},
                 {"\xF0\x80\x80\x80", 4},
                 {"\xF4\x90\x80\x80", 4},
                 {"\xF5\x80\x80\x80", 4},
                 {"\xE9", 1},
                 {"\xE2\x82", 2},
                 {"\xFE", 1},
                 {"\xFF", 1}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        struct buffer text = buffer_in(*state);
        buffer_text(&text, ROOT "\n<about designer=\"");
        buffer_add(&text, cases[i].bytes, cases[i].length);
        buffer_text(&text, "\"/>" REST);
        assert_encoding(state, text.bytes, text.length, 2, 18);
    }
}

/* Each first and last character of table 3-7, and U+FEFF inside the text. */
static void test_well_formed_bytes(void **state)
{
    const struct reading reading = read_text(
        state,
        ROOT "<about><summary>\xC2\x80\u07ff\u0800\ucfff\ud7ff\ue000\ufffd"
             "\ufeff\U00010000\U0010fffd</summary></about>" REST);
    assert_sound(reading);
}

static void test_characters_that_xml_has_not(void **state)
{
    static const char *const texts[] = {
        "\x01",   "\x1b[31m", "\xEF\xBF\xBE", "&#0;",
        "&#x1B;", "&#xD800;", "&#x110000;",   "&#xFFFFFFFFFFFFF;"};
    for (size_t i = 0; i < UNIT_COUNT(texts); i++) {
        const struct reading reading = read_text(
            state, arena_printf(*state, ROOT "\n<about designer=\"%s\"/>" REST,
                                texts[i]));
        assert_told(reading);
        assert_null(reading.pattern);
    }
}

static void test_other_encodings(void **state)
{
    static const char text[] = ROOT REST;
    struct buffer little = buffer_in(*state), big = buffer_in(*state);
    buffer_add(&little, "\xFF\xFE", 2);
    buffer_add(&big, "\xFE\xFF", 2);
    for (size_t i = 0; text[i] != '\0'; i++) {
        buffer_add(&little, (char[]){text[i], '\0'}, 2);
        buffer_add(&big, (char[]){'\0', text[i]}, 2);
    }
    assert_encoding(state, little.bytes, little.length, 1, 1);
    assert_encoding(state, big.bytes, big.length, 1, 1);
}

static void test_declared_encodings(void **state)
{
    static const char *const others[] = {
        "ISO-8859-1", "UTF-16", "UTF-7", "windows-1252", "EBCDIC-CP-US", "x"};
    for (size_t i = 0; i < UNIT_COUNT(others); i++) {
        const char *text = arena_printf(
            *state, "<?xml version='1.0' encoding='%s'?>" ROOT REST, others[i]);
        assert_encoding(state, text, strlen(text), 1, 31);
    }
    assert_sound(
        read_text(state, "<?xml version='1.0' encoding=\"utf-8\"?>" ROOT REST));
    assert_sound(read_text(state, "<?xml version='1.0'?>" ROOT REST));
}

/* A mark of UTF-8 with a declaration of another encoding is no less wrong.
 * The mark takes no column. */
static void test_declared_encoding_behind_mark(void **state)
{
    const char *text =
        "\xEF\xBB\xBF<?xml version='1.0' encoding='ISO-8859-1'?>" ROOT
        "<about designer=\"caf\u00e9\"/>" REST;
    assert_encoding(state, text, strlen(text), 1, 31);
}

/* ---- damage ---- */

static const char *read_sample(struct arena *arena, size_t *length)
{
    const struct file_content file =
        file_read(arena, "samples/lantern-walk.xml");
    assert_int_equal(file.fault, FILE_OK);
    *length = file.length;
    return file.bytes;
}

static void test_every_truncation_is_told(void **state)
{
    size_t length;
    const char *sample = read_sample(*state, &length);
    while (sample[length - 1] != '>')
        length--;
    for (size_t cut = 0; cut < length; cut++) {
        struct arena *arena = arena_create();
        const struct reading reading = read_bytes(arena, sample, cut);
        assert_told(reading);
        assert_null(reading.pattern);
        assert_int_equal(diag_count(reading.run, DIAG_ERROR), 1);
        arena_destroy(arena);
    }
}

/* The way of `check`, so that what reading lets pass is tried further on. */
static void run_stages(struct reading reading)
{
    assert_told(reading);
    if (reading.pattern == NULL)
        return;
    const struct design *design = resolve_pattern(reading.run, reading.pattern);
    const struct sized *sized = solve_design(reading.run, design);
    check_pictures(reading.run, sized);
    if (diag_count(reading.run, DIAG_ERROR) == 0)
        sew_design(reading.run, sized);
    assert_told(reading);
}

static void damage(struct unit_random *random, char *bytes, size_t length)
{
    static const char marks[] = "<>&\"'=/ !?-[];#:x09\n\t";
    char *at = &bytes[unit_below(random, length)];
    switch (unit_below(random, 4)) {
    case 0:
        *at = (char)(*at ^ (1 << unit_below(random, 8)));
        break;
    case 1:
        *at = marks[unit_below(random, sizeof marks - 1)];
        break;
    case 2:
        *at = bytes[unit_below(random, length)];
        break;
    default:
        *at = (char)unit_below(random, 256);
        break;
    }
}

static void test_random_damage(void **state)
{
    size_t length;
    const char *sample = read_sample(*state, &length);
    struct unit_random random = {20261102};
    for (int round = 0; round < 3000; round++) {
        struct arena *arena = arena_create();
        char *bytes = arena_copy(arena, sample, length);
        for (int64_t times = unit_below(&random, 3); times >= 0; times--)
            damage(&random, bytes, length);
        run_stages(read_bytes(arena, bytes, length));
        arena_destroy(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_document_types_are_refused),
        cmocka_unit_test(test_entity_bomb),
        cmocka_unit_test(test_undeclared_entities),
        cmocka_unit_test(test_catalogs_are_not_read),
        cmocka_unit_test(test_nesting),
        cmocka_unit_test(test_attributes_of_one_tag),
        cmocka_unit_test(test_largest_source),
        cmocka_unit_test(test_malformed_bytes),
        cmocka_unit_test(test_well_formed_bytes),
        cmocka_unit_test(test_characters_that_xml_has_not),
        cmocka_unit_test(test_other_encodings),
        cmocka_unit_test(test_declared_encodings),
        cmocka_unit_test(test_declared_encoding_behind_mark),
        cmocka_unit_test(test_every_truncation_is_told),
        cmocka_unit_test(test_random_damage),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
