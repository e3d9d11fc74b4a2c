/* Names for people and for the program: what may stand in them, and how long
 * they may be, on both sides of each limit. */
#include "reading.h"

#include "buffer.h"
#include "reader.h"

/* A pattern with this title, this id, and this text. */
static struct reading read_words(void **state, const char *id,
                                 const char *title, const char *prose)
{
    return read_text(
        state,
        arena_printf(*state,
                     "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"%s\""
                     " title=\"%s\">\n<about><summary>%s</summary></about>"
                     "<fabrics><fabric id=\"foam\"/></fabrics>"
                     "<colorway id=\"coast\"><cloth fabric=\"foam\""
                     " color=\"#dfeaea\"/></colorway><quilt id=\"mat\">"
                     "<patch fabric=\"foam\" width=\"4\" height=\"6\"/>"
                     "</quilt></pattern>",
                     id, title, prose));
}

static const char *times(void **state, const char *text, size_t count)
{
    struct buffer out = buffer_in(*state);
    for (size_t i = 0; i < count; i++)
        buffer_text(&out, text);
    return buffer_string(&out);
}

static void assert_refused(struct reading reading, enum diag_code code)
{
    assert_int_equal(diag_count(reading.run, DIAG_ERROR), 1);
    assert_int_equal(diagnostic_at(reading, 0)->code, code);
}

/* Characters are counted, not bytes. */
static void test_longest_texts(void **state)
{
    static const char *const LETTERS[] = {"e", "\u00e9", "\u6c34",
                                          "\U0001d11e"};
    for (size_t i = 0; i < 4; i++) {
        const char *letter = LETTERS[i];
        assert_sound(
            read_words(state, "a", times(state, letter, LIMIT_TEXT), "-"));
        assert_refused(
            read_words(state, "a", times(state, letter, LIMIT_TEXT + 1), "-"),
            DIAG_VALUE);
        assert_sound(
            read_words(state, "a", "-", times(state, letter, LIMIT_PROSE)));
        assert_refused(
            read_words(state, "a", "-", times(state, letter, LIMIT_PROSE + 1)),
            DIAG_LIMIT);
        if (i == 3) /* a sign, which no identifier has */
            continue;
        assert_sound(read_words(state, times(state, letter, LIMIT_IDENTIFIER),
                                "-", "-"));
        assert_refused(read_words(state,
                                  times(state, letter, LIMIT_IDENTIFIER + 1),
                                  "-", "-"),
                       DIAG_VALUE);
    }
}

/* Blanks are folded before a text is measured. */
static void test_blanks_of_prose_are_folded_first(void **state)
{
    assert_sound(
        read_words(state, "a", "-", times(state, "e    \n", LIMIT_PROSE / 2)));
}

/* As themselves and as references; XML 1.0 has neither VT nor FF. */
static const char *const BREAKS[] = {"&#9;",   "&#10;",    "&#13;",  "\xC2\x85",
                                     "&#x85;", "\xC2\x9B", "\x7f",   "\u2028",
                                     "\u2029", "&#x2028;", "&#8233;"};

static void test_a_name_is_one_line(void **state)
{
    for (size_t i = 0; i < sizeof BREAKS / sizeof BREAKS[0]; i++) {
        const struct reading reading = read_words(
            state, "a", arena_printf(*state, "ebb%stide", BREAKS[i]), "-");
        assert_refused(reading, DIAG_VALUE);
    }
}

/* In a text they are blanks, as all others are. */
static void test_separators_in_prose_are_blanks(void **state)
{
    for (size_t i = 0; i < sizeof BREAKS / sizeof BREAKS[0]; i++) {
        const struct reading reading = read_words(
            state, "a", "-",
            arena_printf(*state, "ebb %s%s tide", BREAKS[i], BREAKS[i]));
        assert_sound(reading);
        const struct element *about = reading.pattern->root->children.items[0];
        const struct element *summary = about->children.items[0];
        assert_string_equal(summary->runs.items[0].text, "ebb tide");
    }
    const struct reading reading =
        read_words(state, "a", "-", "<![CDATA[ebb\u2029tide]]>");
    assert_string_equal(reading.pattern->root->children.items[0]
                            ->children.items[0]
                            ->runs.items[0]
                            .text,
                        "ebb tide");
}

/* Letters, marks and digits of any script. */
static void test_identifiers(void **state)
{
    static const char *const GOOD[] = {"a",
                                       "A1-_.b",
                                       "gr\u00f6\u00dfe",
                                       "\u6771\u4eac",
                                       "\u0915\u093f",
                                       "a\u0661",
                                       "\u05d0\u05d1",
                                       "a--",
                                       "a\u2160"};
    for (size_t i = 0; i < sizeof GOOD / sizeof GOOD[0]; i++)
        assert_sound(read_words(state, GOOD[i], "-", "-"));
    /* Format characters, unseen letters and marks, signs, blanks, a mark or a
     * digit in front, private use, unassigned, and letters not composed. */
    static const char *const BAD[] = {
        "",         "a b",         "1a",          "-a",
        "a\u202eb", "a\u200db",    "a\u200bb",    "\ufeffa",
        "a\u00adb", "a\u3164b",    "a\ufe0fb",    "a\u034fb",
        "\u0301a",  "a\u00bd",     "a\u20ac",     "a\u00a0b",
        "a\u3000b", "a\ue000",     "a\U000e0041", "a\u2066",
        "e\u0301",  "\u212b",      "a/b",         "a\u2028b",
        "\u0661a",  "\u1100\u1161"};
    for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++)
        assert_refused(read_words(state, BAD[i], "-", "-"), DIAG_VALUE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_longest_texts),
        cmocka_unit_test(test_blanks_of_prose_are_folded_first),
        cmocka_unit_test(test_a_name_is_one_line),
        cmocka_unit_test(test_separators_in_prose_are_blanks),
        cmocka_unit_test(test_identifiers),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
