/* What is printed for a message, as text and as JSON. */
#include <string.h>
#include <time.h>

#include "../unit.h"
#include "buffer.h"
#include "printed.h"

enum { LINE_COLUMNS = 100, LONG_BYTES = 4 * 1024 * 1024 };

/* The span of the first `part` in the source. */
static struct span span_of(const struct run *run, const char *part)
{
    const char *found = strstr(run->source->bytes, part);
    assert_non_null(found);
    const uint32_t start = (uint32_t)(found - run->source->bytes);
    return (struct span){start, start + (uint32_t)strlen(part)};
}

/* Without what lies between ESC and the next m. */
static const char *stripped(struct arena *arena, const char *text)
{
    struct buffer buffer = buffer_in(arena);
    for (; *text != '\0'; text++) {
        if (*text == '\033')
            text += strcspn(text, "m");
        else
            buffer_char(&buffer, *text);
    }
    return buffer_string(&buffer);
}

static void assert_printed(const struct run *run, const char *expected)
{
    const char *colored = printed(run, (struct diag_style){true, false});
    assert_string_equal(plain(run), expected);
    assert_non_null(strchr(colored, '\033'));
    assert_string_equal(stripped(run->arena, colored), expected);
}

static struct run *lantern_run(void **state)
{
    struct run *run = run_over(state, "<block>\n"
                                      "  <row>\n"
                                      "\t<patch width=\"1 1/2\"/>\n"
                                      "  </row>\n"
                                      "</block>\n");
    const struct span value = span_of(run, "1 1/2");
    struct diagnostic *d = diag_report(
        run, DIAG_LENGTH, value, "the row is %s wide, not %s", "6 1/2", "6");
    diag_label(run, d, "%s here", "1 1/2");
    diag_note(run, d, (struct span){0, 0}, "1 1/2 + 1 + 4 = %s", "6 1/2");
    diag_note(run, d, span_of(run, "</row>"), "the row ends here");
    diag_mend(run, d, value, "1", "width=\"%s\" makes the sum 6", "1");
    return run;
}

static void test_whole_message(void **state)
{
    assert_printed(
        lantern_run(state),
        "lantern.xml:3:23: error: the row is 6 1/2 wide, not 6 [length]\n"
        "    3 |         <patch width=\"1 1/2\"/>\n"
        "      |                       ^^^^^ 1 1/2 here\n"
        "note: 1 1/2 + 1 + 4 = 6 1/2\n"
        "lantern.xml:4:3: note: the row ends here\n"
        "help: width=\"1\" makes the sum 6\n");
}

static void test_the_file_as_a_whole(void **state)
{
    struct run *run = run_over(state, "<pattern/>");
    struct diagnostic *d = diag_report(run, DIAG_ENCODING, (struct span){0, 0},
                                       "the file is empty");
    diag_help(run, d, "write a pattern into it");
    assert_printed(run, "lantern.xml: error: the file is empty [encoding]\n"
                        "help: write a pattern into it\n");
}

static void test_several_lines_are_clipped(void **state)
{
    struct run *run = run_over(state, "<a\r\n  b>\r\n\r\n");
    diag_report(run, DIAG_VALUE, (struct span){1, 8}, "clipped");
    diag_report(run, DIAG_VALUE, (struct span){9, 9}, "at the line end");
    diag_report(run, DIAG_VALUE, (struct span){10, 12}, "an empty line");
    diag_report(run, DIAG_VALUE, (struct span){99, 90}, "past the end");
    assert_printed(run, "lantern.xml:1:2: error: clipped [value]\n"
                        "    1 | <a\n"
                        "      |  ^\n"
                        "lantern.xml:2:5: error: at the line end [value]\n"
                        "    2 |   b>\n"
                        "      |     ^\n"
                        "lantern.xml:3:1: error: an empty line [value]\n"
                        "    3 |\n"
                        "      | ^\n"
                        "lantern.xml:4:1: error: past the end [value]\n"
                        "    4 |\n"
                        "      | ^\n");
}

static void test_wide_and_combining(void **state)
{
    struct run *run = run_over(state, "\xEF\xBB\xBF\xE5\xB8\x83"
                                      "e\xCC\x81"
                                      "\xE5\xB8\x83=x");
    diag_report(run, DIAG_VALUE, (struct span){3, 6}, "a wide one");
    diag_report(run, DIAG_VALUE, (struct span){7, 9}, "an accent");
    diag_report(run, DIAG_VALUE, (struct span){13, 14}, "the x");
    assert_printed(run, "lantern.xml:1:1: error: a wide one [value]\n"
                        "    1 | \xE5\xB8\x83"
                        "e\xCC\x81"
                        "\xE5\xB8\x83=x\n"
                        "      | ^^\n"
                        "lantern.xml:1:4: error: an accent [value]\n"
                        "    1 | \xE5\xB8\x83"
                        "e\xCC\x81"
                        "\xE5\xB8\x83=x\n"
                        "      |   ^\n"
                        "lantern.xml:1:7: error: the x [value]\n"
                        "    1 | \xE5\xB8\x83"
                        "e\xCC\x81"
                        "\xE5\xB8\x83=x\n"
                        "      |       ^\n");
}

static void test_hidden_characters_are_seen(void **state)
{
    struct run *run = run_over(state, "a\x1B[2Jb\xE2\x80\xAE"
                                      "c\xFF"
                                      "d");
    diag_report(run, DIAG_VALUE, (struct span){6, 9}, "turned \x1B[1m text");
    diag_report(run, DIAG_VALUE, (struct span){11, 12}, "the d");
    assert_printed(run,
                   "lantern.xml:1:7: error: turned U+001B[1m text [value]\n"
                   "    1 | aU+001B[2JbU+202Ec\xEF\xBF\xBD"
                   "d\n"
                   "      |            ^^^^^^\n"
                   "lantern.xml:1:9: error: the d [value]\n"
                   "    1 | aU+001B[2JbU+202Ec\xEF\xBF\xBD"
                   "d\n"
                   "      |                    ^\n");
}

/* 250 columns: the window lies at the start, around the middle, at the end. */
static void test_long_line_is_cut(void **state)
{
    struct arena *arena = *state;
    struct buffer text = buffer_in(arena);
    for (int i = 0; i < 25; i++)
        buffer_printf(&text, "%9d,", i);
    struct run *run = run_of(arena, text.bytes, text.length);
    diag_report(run, DIAG_VALUE, (struct span){8, 9}, "zero");
    diag_report(run, DIAG_VALUE, (struct span){128, 130}, "twelve");
    diag_report(run, DIAG_VALUE, (struct span){248, 250}, "the last");
    diag_report(run, DIAG_VALUE, (struct span){250, 250}, "behind it");
    assert_printed(
        run,
        "lantern.xml:1:9: error: zero [value]\n"
        "    1 |         0,        1,        2,        3,        4,        5,"
        "        6,        7,      ...\n"
        "      |         ^\n"
        "lantern.xml:1:129: error: twelve [value]\n"
        "    1 | ...  8,        9,       10,       11,       12,       13,"
        "       14,       15,       16,  ...\n"
        "      |                                              ^^\n"
        "lantern.xml:1:249: error: the last [value]\n"
        "    1 | ...   16,       17,       18,       19,       20,       21,"
        "       22,       23,       24,\n"
        "      |                                                          "
        "                              ^^\n"
        "lantern.xml:1:251: error: behind it [value]\n"
        "    1 | ...   16,       17,       18,       19,       20,       21,"
        "       22,       23,       24,\n"
        "      |                                                          "
        "                                ^\n");
}

/* For each byte of a line: what stands above the carets is the span's text. */
static void test_carets_under_every_byte(void **state)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789";
    struct buffer text = buffer_in(*state);
    for (size_t i = 0; i < 3000; i++)
        buffer_char(&text, letters[i * i % 35]);
    for (uint32_t at = 0; at + 3 <= text.length; at++) {
        struct arena *arena = arena_create();
        struct run *run = run_of(arena, text.bytes, text.length);
        diag_report(run, DIAG_VALUE, (struct span){at, at + 3}, "x");
        const char *line = strchr(plain(run), '\n') + 1;
        const char *carets = strchr(line, '\n') + 1;
        assert_true(carets - line <= LINE_COLUMNS + 1);
        const size_t indent = strcspn(carets, "^");
        assert_int_equal(strcspn(carets + indent, "\n"), 3);
        assert_memory_equal(line + indent, text.bytes + at, 3);
        arena_destroy(arena);
    }
}

/* A copy of the text up to the line end. */
static const char *line_of(struct arena *arena, const char *text)
{
    return arena_copy(arena, text, strcspn(text, "\n"));
}

/* Checks the message about the 12 bytes at `at`: their first character stands
 * above the first caret, and there are as many carets as columns. */
static void check_mixed(const char *bytes, size_t length, uint32_t at)
{
    struct arena *arena = arena_create();
    struct run *run = run_of(arena, bytes, length);
    diag_report(run, DIAG_VALUE, (struct span){at, at + 12}, "x");
    const char *second = strchr(plain(run), '\n') + 1;
    const char *line = line_of(arena, second);
    const char *carets = line_of(arena, strchr(second, '\n') + 1);

    /* Places in the printed line itself, which has no tabs any more. */
    const struct source *shown =
        source_create(arena, "shown", line, strlen(line));
    const size_t indent = strcspn(carets, "^");
    uint32_t above = 0;
    while (source_place(shown, above).column < indent + 1)
        above++;
    assert_int_equal(line[above], bytes[at] == '\t' ? ' ' : bytes[at]);
    assert_int_equal(strlen(carets) - indent,
                     source_place(run->source, at + 12).column -
                         source_place(run->source, at).column);
    /* Cut at both ends, the line fills the width, whatever was cut. */
    const char *behind = strstr(line, "| ...");
    if (behind != NULL && strcmp(line + strlen(line) - 3, "...") == 0)
        assert_int_equal(source_place(shown, (uint32_t)strlen(line)).column,
                         LINE_COLUMNS + 1);
    if (behind != NULL)
        assert_int_not_equal(behind[5], '\xCC');
    arena_destroy(arena);
}

/* The first tab behind 1000 letters stands where the line's start says. */
static void test_tab_stops_far_out(void **state)
{
    struct buffer text = buffer_in(*state);
    for (size_t i = 0; i < 1500; i++)
        buffer_char(&text, 'a');
    buffer_text(&text, "\tb");
    struct run *run = run_of(*state, text.bytes, text.length);
    diag_report(run, DIAG_VALUE, (struct span){1497, 1501}, "x");
    /* Three letters, and from column 1500 to 1504 the tab. */
    assert_non_null(strstr(plain(run), " ^^^^^^^\n"));
}

/* Tabs, wide signs and accents in a line that is cut on both sides. */
static void test_mixed_long_line(void **state)
{
    static const char *const pieces[] = {"\t", "\xE5\xB8\x83", "e\xCC\x81",
                                         "k",  "\xE5\xB8\x83", "mn"};
    struct buffer text = buffer_in(*state);
    for (size_t i = 0; i < 2000; i++)
        buffer_text(&text, pieces[(i * i + i / 7) % 6]);
    for (uint32_t at = 0; at + 12 <= text.length; at++) {
        const unsigned char first = (unsigned char)text.bytes[at];
        const unsigned char behind = (unsigned char)text.bytes[at + 12];
        const bool starts = first < 0x80 || first == 0xE5;
        if (starts && (behind < 0x80 || behind == 0xE5))
            check_mixed(text.bytes, text.length, at);
    }
}

static void test_label_that_does_not_fit(void **state)
{
    struct arena *arena = *state;
    struct buffer text = buffer_in(arena);
    for (int i = 0; i < 90; i++)
        buffer_char(&text, 'a' + (char)(i % 26));
    struct run *run = run_of(arena, text.bytes, text.length);
    diag_label(run, diag_report(run, DIAG_VALUE, (struct span){80, 84}, "wide"),
               "%s", "a label of 26 columns wide");
    const char *text_printed = plain(run);
    assert_non_null(strstr(text_printed, "^^^^\n      | "));
    const char *last = strrchr(
        arena_copy(arena, text_printed, strlen(text_printed) - 1), '\n');
    assert_int_equal(strlen(last + 1), LINE_COLUMNS);
    assert_non_null(strstr(last, " a label of 26 columns wide"));
}

static size_t longest_line(const char *text)
{
    size_t longest = 0;
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        longest = length > longest ? length : longest;
        text += length + (text[length] == '\n');
    }
    return longest;
}

/* As many messages as are printed on one line of 4 MB: without bounds each would
 * walk it. */
static void test_line_of_four_megabytes(void **state)
{
    struct arena *arena = *state;
    char *text = arena_alloc(arena, LONG_BYTES);
    memset(text, 'q', LONG_BYTES);
    struct run *run = run_of(arena, text, LONG_BYTES);
    for (uint32_t i = 0; i < 200; i++) {
        const uint32_t at = LONG_BYTES - 1 - i * 20000;
        diag_report(run, DIAG_VALUE, (struct span){at, LONG_BYTES}, "long");
    }
    const clock_t start = clock();
    const char *out = plain(run);
    const clock_t spent = clock() - start;
    assert_int_equal(longest_line(out), LINE_COLUMNS);
    assert_true(strlen(out) < 200 * 3 * LINE_COLUMNS);
    /* Walking the line for each takes many seconds, the bounded work 10 ms. */
    assert_true(spent < CLOCKS_PER_SEC);
    assert_non_null(strstr(out, "lantern.xml:1:4194304: error: long"));
}

/* Errors come before all others, in their places; a program gets all. */
static void test_as_many_as_are_read(void **state)
{
    struct arena *arena = *state;
    char *text = arena_alloc(arena, 1000);
    memset(text, 'q', 1000);
    struct run *run = run_of(arena, text, 1000);
    for (uint32_t i = 0; i < 150; i++) {
        diag_report(run, DIAG_BULK, (struct span){i, i + 1}, "bulk");
        diag_report(run, DIAG_VALUE, (struct span){500 + i, 501 + i}, "value");
    }
    const char *out = plain(run);
    size_t remarks = 0, errors = 0;
    for (const char *at = out; (at = strstr(at, ": remark: ")) != NULL; at++)
        remarks++;
    for (const char *at = out; (at = strstr(at, ": error: ")) != NULL; at++)
        errors++;
    assert_int_equal(errors, 150);
    assert_int_equal(remarks, 50);
    assert_non_null(strstr(out, "\n100 more messages; 200 are shown\n"));
}

/* 4 MB of accents on one letter take one column, and still little space. */
static void test_accents_without_end(void **state)
{
    struct arena *arena = *state;
    char *text = arena_alloc(arena, LONG_BYTES);
    for (size_t i = 0; i < LONG_BYTES; i++)
        text[i] = i % 2 == 0 ? '\xCC' : '\x81';
    text[1] = text[0] = 'e';
    struct run *run = run_of(arena, text, LONG_BYTES);
    /* Its second byte, so that a careless cut would halve a character. */
    diag_report(run, DIAG_VALUE, (struct span){LONG_BYTES - 1, LONG_BYTES},
                "accents");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "accents");
    assert_true(strlen(plain(run)) < 8000);
    assert_null(strstr(plain(run), "\xEF\xBF\xBD"));
}

/* RFC 8259, enough to tell whether a value is one: gives what lies behind it,
 * or NULL. Strings must hold no control character. */
static const char *json_value(const char *c);

static const char *json_string(const char *c)
{
    for (c++; *c != '"'; c++) {
        if ((unsigned char)*c < 0x20 || *c == 0x7F)
            return NULL;
        if (*c != '\\')
            continue;
        c++;
        if (*c == 'u' && strspn(c + 1, "0123456789abcdef") >= 4)
            c += 4;
        else if (*c != '"' && *c != '\\')
            return NULL;
    }
    return c + 1;
}

static const char *json_members(const char *c, char close)
{
    if (c[1] == close)
        return c + 2;
    do {
        c++;
        if (close == '}') {
            c = *c == '"' ? json_string(c) : NULL;
            if (c == NULL || *c++ != ':')
                return NULL;
        }
        c = json_value(c);
    } while (c != NULL && *c == ',');
    return c != NULL && *c == close ? c + 1 : NULL;
}

static const char *json_value(const char *c)
{
    if (*c == '{')
        return json_members(c, '}');
    if (*c == '[')
        return json_members(c, ']');
    if (*c == '"')
        return json_string(c);
    const size_t digits = strspn(c, "0123456789");
    return digits > 0 ? c + digits : NULL;
}

static void test_json_of_a_whole_message(void **state)
{
    const char *out =
        printed(lantern_run(state), (struct diag_style){true, true});
    assert_string_equal(
        out,
        "{\"name\":\"length\",\"level\":\"error\",\"file\":\"lantern.xml\","
        "\"line\":3,\"column\":23,\"endLine\":3,\"endColumn\":28,"
        "\"offset\":31,\"endOffset\":36,"
        "\"message\":\"the row is 6 1/2 wide, not 6\","
        "\"label\":\"1 1/2 here\","
        "\"notes\":[{\"message\":\"1 1/2 + 1 + 4 = 6 1/2\"},"
        "{\"line\":4,\"column\":3,\"endLine\":4,\"endColumn\":9,"
        "\"offset\":42,\"endOffset\":48,\"message\":\"the row ends here\"}],"
        "\"help\":\"width=\\\"1\\\" makes the sum 6\","
        "\"fix\":{\"line\":3,\"column\":23,\"endLine\":3,\"endColumn\":28,"
        "\"offset\":31,\"endOffset\":36,\"replacement\":\"1\"}}\n");
    const char *end = json_value(out);
    assert_non_null(end);
    assert_string_equal(end, "\n");
}

static void test_json_leaves_out_what_is_absent(void **state)
{
    struct run *run = run_over(state, "<pattern/>");
    struct diagnostic *d =
        diag_report(run, DIAG_ENCODING, (struct span){0, 0}, "short");
    assert_string_equal(diag_json(run, d),
                        "{\"name\":\"encoding\",\"level\":\"error\","
                        "\"file\":\"lantern.xml\",\"message\":\"short\"}");
}

static void test_json_of_hostile_text(void **state)
{
    struct run *run = run_over(state, "x");
    struct diagnostic *d =
        diag_report(run, DIAG_VALUE, (struct span){0, 1}, "%s",
                    "\"\\\n\x7F\xE2\x80\xAE\xF3\xA0\x81\x81\xFF\xE5\xB8\x83");
    const char *json = diag_json(run, d);
    const char *end = json_value(json);
    assert_non_null(end);
    assert_string_equal(end, "");
    /* U+E0041 is the pair D8 40 | (0xE0041 - 0x10000) >> 10, DC 00 | 0x41. */
    assert_non_null(
        strstr(json, "\"message\":\"\\\"\\\\\\u000a\\u007f\\u202e\\udb40\\udc41"
                     "\xEF\xBF\xBD\xE5\xB8\x83\""));
}

static void report_hostile(struct run *run, char *text, size_t length,
                           struct unit_random *random)
{
    static const char *const pieces[] = {
        "\n", "\r", "\t", "\xE2\x80\xAE", "\xCC\x81", "\xE5\xB8\x83", "a"};
    for (size_t i = 0; i < length; i++) {
        const char *piece = pieces[unit_next(random) % 7];
        const size_t size = strlen(piece);
        text[i] = (char)unit_next(random);
        if (unit_next(random) % 4 != 0 && i + size <= length) {
            memcpy(text + i, piece, size);
            i += size - 1;
        }
    }
    const uint32_t limit = (uint32_t)length + 2;
    for (int i = 0; i < 20; i++) {
        const struct span span = {(uint32_t)(unit_next(random) % limit),
                                  (uint32_t)(unit_next(random) % limit)};
        struct diagnostic *d = diag_report(run, DIAG_VALUE, span, "m%d", i);
        diag_label(run, d, "%.20s", text);
        diag_note(run, d, (struct span){span.end, span.end + 1}, "n");
        diag_mend(run, d, span, text, "h");
    }
}

/* Printed text has no control but the line end, and each JSON line is one. */
static void test_hostile_bytes(void **state)
{
    (void)state;
    struct unit_random random = {20};
    for (int round = 0; round < 300; round++) {
        struct arena *arena = arena_create();
        const size_t length = unit_next(&random) % 3000;
        char *text = arena_alloc(arena, length + 1);
        struct run *run = run_of(arena, text, length);
        report_hostile(run, text, length, &random);
        /* The text has its lines only now. */
        run->source = source_create(arena, "h.xml", text, length);

        for (const char *c = plain(run); *c != '\0'; c++)
            assert_true((unsigned char)*c >= 0x20 || *c == '\n');
        const char *json = printed(run, (struct diag_style){false, true});
        while (*json != '\0') {
            json = json_value(json);
            assert_non_null(json);
            assert_int_equal(*json++, '\n');
        }
        arena_destroy(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whole_message),
        cmocka_unit_test(test_the_file_as_a_whole),
        cmocka_unit_test(test_several_lines_are_clipped),
        cmocka_unit_test(test_wide_and_combining),
        cmocka_unit_test(test_hidden_characters_are_seen),
        cmocka_unit_test(test_long_line_is_cut),
        cmocka_unit_test(test_carets_under_every_byte),
        cmocka_unit_test(test_mixed_long_line),
        cmocka_unit_test(test_tab_stops_far_out),
        cmocka_unit_test(test_label_that_does_not_fit),
        cmocka_unit_test(test_line_of_four_megabytes),
        cmocka_unit_test(test_as_many_as_are_read),
        cmocka_unit_test(test_accents_without_end),
        cmocka_unit_test(test_json_of_a_whole_message),
        cmocka_unit_test(test_json_leaves_out_what_is_absent),
        cmocka_unit_test(test_json_of_hostile_text),
        cmocka_unit_test(test_hostile_bytes),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
