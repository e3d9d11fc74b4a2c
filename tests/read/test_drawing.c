/* Maps and pictures as text: words, counts and groups, and the rows that they
 * make. */
#include "../unit.h"

#include <string.h>

#include "pattern.h"

/* What a text says, written out: rows by `|`, words by blanks; or the fault. */
static const char *written_out(struct arena *arena, const char *text)
{
    const struct source *source =
        source_create(arena, "small.xml", text, strlen(text));
    struct drawn_text drawn;
    if (!read_drawing(arena, source, (struct span){0, (uint32_t)strlen(text)},
                      &drawn))
        return arena_printf(arena, "! %s: %.*s", drawn.fault,
                            (int)(drawn.span.end - drawn.span.start),
                            text + drawn.span.start);
    const char *out = "";
    size_t row = 1;
    for (size_t i = 0; i < drawn.words.count; i++) {
        const struct drawn_word *word = &drawn.words.items[i];
        if (i == 0 || word->row != row)
            assert_int_equal(word->row, i == 0 ? 1 : row + 1);
        out = arena_printf(arena, "%s%s%.*s", out,
                           i == 0             ? ""
                           : word->row == row ? " "
                                              : "|",
                           (int)(word->span.end - word->span.start),
                           text + word->span.start);
        row = word->row;
    }
    return out;
}

static void test_written_out(void **state)
{
    static const struct {
        const char *text, *out;
    } cases[] = {
        {"", ""},
        {" a  b\n\n c.m90 <!-- d -->\n", "a b|c.m90"},
        {"3*a", "a a a"},
        {"2*(a b) a", "a b a b a"},
        {"1*(a)", "a"},
        {"2*(a 2*(b 2*c)d)e", "a b c c b c c d a b c c b c c d e"},
        /* A line in the group: each repeat is a row. */
        {"2*( a b\n c d )\ne", "a b|c d|a b|c d|e"},
        {"3*(a b\n)", "a b|a b|a b"},
        {"3*(\na b)", "a b|a b|a b"},
        {"x 2*(a\nb) y", "x a|b|a|b y"},
        {"2*( 2*(a\n) b )", "a|a|b|a|a|b"},
        /* None: one row, and so often in it. */
        {"a\n2*(b c)\nd", "a|b c b c|d"},
        /* A digit may be a key; what has no digits before * is a word. */
        {"3*4 4", "4 4 4 4"},
        {"a*b *c", "a*b *c"},
        {"2*n/f 2*n+f+g+f", "n/f n/f n+f+g+f n+f+g+f"},
        {"a\r\nb\rc", "a|b|c"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        assert_string_equal(written_out(*state, cases[i].text), cases[i].out);
}

static void test_faults(void **state)
{
    static const struct {
        const char *text, *fault;
    } cases[] = {
        {"a 2*(b", "! this `(` is never closed: ("},
        {"a b) 2*(", "! this `)` closes no group: )"},
        {"a (b)", "! this group has no count before it: ("},
        {"a 8(b)", "! this group has no count before it: ("},
        {"8* (b)", "! nothing follows this count: 8*"},
        {"2*(b 8*)", "! nothing follows this count: 8*"},
        {"8*", "! nothing follows this count: 8*"},
        {"x*(b)", "! this is no count: x"},
        {"-2*(b)", "! this is no count: -2"},
        {"*(b)", "! this is no count: *"},
        {"0*b", "! this is no count: 0"},
        {"10001*b", "! this is no count: 10001"},
        {"99999999999999999999999*b",
         "! this is no count: 99999999999999999999999"},
        {"a 3*()", "! this group is empty: 3*()"},
        {"2*(3*())", "! this group is empty: 3*()"},
        {"2*(a 10000*(b c d))", "! counts make more than 40000 cells here: 2"},
        {"10000*(10000*(10000*(10000*(10000*(10000*a)))))",
         "! counts make more than 40000 cells here: 10000"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        assert_string_equal(written_out(*state, cases[i].text), cases[i].fault);
}

/* So deep, and no deeper; so many, and no more. */
static void test_limits(void **state)
{
    const char *text = "a";
    for (size_t i = 0; i < DRAWING_DEPTH; i++)
        text = arena_printf(*state, "1*(%s)", text);
    assert_string_equal(written_out(*state, text), "a");
    text = arena_printf(*state, "1*(%s)", text);
    assert_string_equal(written_out(*state, text),
                        "! groups lie more than 20 deep inside each other: (");
    const struct source *source =
        source_create(*state, "small.xml", "8*(5000*a)", 10);
    struct drawn_text drawn;
    assert_true(read_drawing(*state, source, (struct span){0, 10}, &drawn));
    assert_int_equal(drawn.words.count, DRAWING_MOST);
    assert_int_equal(drawn.written, 1);
}

/* Each word and each count once, at its place. */
static void test_walks(void **state)
{
    const char *text = "2*( 3*a\n b ) c";
    const struct source *source =
        source_create(*state, "small.xml", text, strlen(text));
    const struct span content = {0, (uint32_t)strlen(text)};
    static const uint32_t words[] = {6, 9, 13}, counts[] = {0, 4};
    static const size_t ends[] = {0, 1, 0};
    uint32_t at = 0;
    struct span span;
    size_t lines;
    for (size_t i = 0; i < 3; i++) {
        assert_true(next_word(source, content, &at, &span, &lines));
        assert_int_equal(span.start, words[i]);
        assert_int_equal(span.end, words[i] + 1);
        assert_int_equal(lines, ends[i]);
    }
    assert_false(next_word(source, content, &at, &span, &lines));
    at = 0;
    for (size_t i = 0; i < 2; i++) {
        assert_true(next_count(source, content, &at, &span));
        assert_int_equal(span.start, counts[i]);
        assert_int_equal(span.end, counts[i] + 1);
    }
    assert_false(next_count(source, content, &at, &span));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_written_out),
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_walks),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
