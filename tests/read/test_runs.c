/* The designer's words: texts between references, and where each of their
 * bytes comes from, whatever stands between. The XML library's own text, which
 * has no places, is the oracle for what the bytes say. */
#include "reading.h"

#include "buffer.h"

#define HEAD                                                                \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">\n"   \
    "<about><summary>"
#define TAIL                                                                \
    "</summary></about>\n<fabrics><fabric id=\"f\"/></fabrics>\n"           \
    "<colorway id=\"c\"><cloth fabric=\"f\" color=\"#000000\"/></colorway>" \
    "<quilt id=\"q\"><patch fabric=\"f\"/></quilt></pattern>\n"

static const struct element *summary_of(struct reading reading)
{
    assert_non_null(reading.pattern);
    return reading.pattern->root->children.items[0]->children.items[0];
}

static struct reading read_words(void **state, const char *words)
{
    return read_text(state, arena_printf(*state, HEAD "%s" TAIL, words));
}

/* All runs one behind the other, blanks folded across them, as `text` is. */
static const char *joined(struct arena *arena, const struct element *element)
{
    struct buffer text = buffer_in(arena);
    for (size_t i = 0; i < element->runs.count; i++)
        for (const char *c = element->runs.items[i].text; *c != '\0'; c++)
            if (*c != ' ' || (text.length > 0 &&
                              text.bytes[text.length - 1] != ' '))
                buffer_char(&text, *c);
    if (text.length > 0 && text.bytes[text.length - 1] == ' ')
        text.length--;
    return arena_copy(arena, text.length == 0 ? "" : text.bytes, text.length);
}

static void assert_run(const struct element *element, size_t index,
                       const char *text, const char *child)
{
    assert_true(index < element->runs.count);
    const struct text_run *run = &element->runs.items[index];
    assert_string_equal(run->text, text);
    assert_int_equal(run->length, strlen(text));
    if (child == NULL)
        assert_null(run->child);
    else
        assert_string_equal(text_of(run->child, ATTR_OF, "?"), child);
}

static void test_runs_stand_between_references(void **state)
{
    const struct reading reading =
        read_words(state, "\n  Sew <qty of=\"a\"/><size of=\"b\"></size>\n now,"
                          " in <cloth of=\"f\"/>. ");
    assert_sound(reading);
    const struct element *summary = summary_of(reading);
    assert_int_equal(summary->runs.count, 4);
    assert_run(summary, 0, "Sew ", "a");
    assert_run(summary, 1, "", "b");
    assert_run(summary, 2, " now, in ", "f");
    assert_run(summary, 3, ".", NULL);
    assert_int_equal(summary->children.items[2]->kind, ELEMENT_CLOTH_NAME);
    assert_string_equal(summary->text, "Sew now, in .");
}

static void test_text_alone_is_one_run(void **state)
{
    const struct element *summary =
        summary_of(read_words(state, "  Waves \t and foam "));
    assert_int_equal(summary->runs.count, 1);
    assert_run(summary, 0, "Waves and foam", NULL);
    assert_run(summary_of(read_words(state, "")), 0, "", NULL);
    assert_run(summary_of(read_words(state, " <!-- a --> ")), 0, "", NULL);
}

/* `found` of a run comes from the bytes `written` of the source. */
static void assert_place(struct reading reading, size_t index,
                         const char *found, const char *written)
{
    const struct text_run *run =
        &summary_of(reading)->runs.items[index];
    const char *at = strstr(run->text, found);
    assert_non_null(at);
    const char *bytes = reading.run->source->bytes;
    assert_ptr_equal(bytes + run->places[at - run->text],
                     strstr(bytes, written));
}

static void test_places_are_kept_through_all_that_xml_has(void **state)
{
    const struct reading reading = read_words(
        state, "<!-- 9 in --> one&#x20;&amp; <![CDATA[<two> &amp; ]]>"
               "<?mark 8 in?>th&#233;re\r\n<qty of=\"a\"/>"
               "<!-- <qty of=\"b\"/> -->f\u00f6ur &lt;<size of='c>d'/>"
               "&#x1F9F5;six");
    const struct element *summary = summary_of(reading);
    assert_int_equal(summary->runs.count, 3);
    assert_run(summary, 0, "one & <two> &amp; th\u00e9re ", "a");
    assert_string_equal(summary->runs.items[1].text, "f\u00f6ur <");
    assert_string_equal(summary->runs.items[2].text, "\U0001F9F5six");
    assert_place(reading, 0, "one", "one&");
    assert_place(reading, 0, "& <", "&amp; <!");
    assert_place(reading, 0, "<two", "<two");
    assert_place(reading, 0, "&amp;", "&amp; ]]");
    assert_place(reading, 0, "th", "th&#");
    assert_place(reading, 0, "\u00e9", "&#233;");
    assert_place(reading, 0, "re", "re\r\n");
    assert_place(reading, 1, "\u00f6", "\u00f6ur");
    assert_place(reading, 1, "<", "&lt;<size");
    assert_place(reading, 2, "\U0001F9F5", "&#x1F9F5;");
    assert_place(reading, 2, "six", "six<");
}

/* What hurts: nothing is lost, and each byte says what the source does. */
static void test_hostile_words_read_as_the_library_reads_them(void **state)
{
    static const char *const words[] = {
        "<![CDATA[]]>", "<![CDATA[ ]]>a", "a<![CDATA[ ]]>", "]] >",
        "<![CDATA[]]]]><![CDATA[>]]>", "&#13;&#10;&#9;a&#32;",
        "<!--a--><!--b-->", "<!---->a<!-- > -->b", "<?p ?>a<?q > ?>",
        "&lt;!-- a --&gt;", "a<qty of=\"b\"><!-- c --></qty>d",
        "<qty of=\"a\"/><qty of=\"b\"/>", "&quot;&apos;&gt;", "&#x10FFFF;",
        "a\r\rb\n\r c", "<![CDATA[<qty of=\"a\"/>]]>",
        "<size of=\"a\" as = 'cut' />x", "\u00a0a\u00a0"};
    for (size_t i = 0; i < UNIT_COUNT(words); i++) {
        const struct reading reading = read_words(state, words[i]);
        const struct element *summary = summary_of(reading);
        const char *ours = joined(*state, summary);
        if (strcmp(ours, summary->text) != 0)
            fail_msg("%s: \"%s\" instead of \"%s\"", words[i], ours,
                     summary->text);
        assert_int_equal(summary->runs.count, summary->children.count + 1);
        for (size_t r = 0; r < summary->runs.count; r++) {
            const struct text_run *run = &summary->runs.items[r];
            for (size_t b = 0; b < run->length; b++) {
                assert_true(run->places[b] >= summary->content.start);
                assert_true(run->places[b] < summary->content.end);
                assert_true(run->places[b] <= run->places[b + 1]);
            }
        }
    }
}

static void test_what_has_no_place_is_told(void **state)
{
    assert_one_error(read_words(state, "a <b>bold</b> <qty of=\"q\"/>"),
                     DIAG_UNKNOWN_ELEMENT, 2, 20);
    assert_one_error(read_words(state, "a <qty of=\"q\">b</qty>"),
                     DIAG_STRAY_TEXT, 2, 31);
    assert_one_error(read_words(state, "a <qty of=\"q\"><qty/></qty>"),
                     DIAG_UNKNOWN_ELEMENT, 2, 32);
    assert_one_error(read_words(state, "a <size/>"), DIAG_MISSING_ATTRIBUTE, 2,
                     20);
    assert_one_error(read_words(state, "a <qty of=\"q\" as=\"cut\"/>"),
                     DIAG_UNKNOWN_ATTRIBUTE, 2, 31);
    assert_one_error(read_words(state, "a <cloth fabric=\"f\" of=\"f\"/>"),
                     DIAG_UNKNOWN_ATTRIBUTE, 2, 26);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_runs_stand_between_references),
        cmocka_unit_test(test_text_alone_is_one_run),
        cmocka_unit_test(test_places_are_kept_through_all_that_xml_has),
        cmocka_unit_test(test_hostile_words_read_as_the_library_reads_them),
        cmocka_unit_test(test_what_has_no_place_is_told),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
