/* A source of several files: each place belongs to one of them. */
#include <string.h>

#include "../unit.h"
#include "buffer.h"
#include "printed.h"

static const char PATTERN[] = "<pattern>\n  <include/>\n</pattern>\n";
static const char BLOCKS[] = "\xEF\xBB\xBF<shared>\r\n\t<block/>\r\n</shared>";
static const char EMPTY[] = "";
static const char CLOTHS[] = "<shared>\n<cloth/></shared>";

static struct source *four_files(struct arena *arena)
{
    struct source *source =
        source_create(arena, "tide/mill.xml", PATTERN, strlen(PATTERN));
    source = source_with(arena, source, "tide/parts/blocks.xml", BLOCKS,
                         strlen(BLOCKS));
    source = source_with(arena, source, "tide/empty.xml", EMPTY, 0);
    return source_with(arena, source, "tide/cloths.xml", CLOTHS,
                       strlen(CLOTHS));
}

/* The offset of the `nth` place, from 0, of a text that a NUL may part. */
static uint32_t offset_of(const struct source *source, const char *text,
                          size_t nth)
{
    for (size_t at = 0; at + strlen(text) <= source->length; at++)
        if (memcmp(source->bytes + at, text, strlen(text)) == 0 && nth-- == 0)
            return (uint32_t)at;
    fail_msg("%s is not there", text);
    return 0;
}

static void assert_place(const struct source *source, uint32_t offset,
                         const char *name, size_t line, size_t column)
{
    const struct place place = source_place(source, offset);
    assert_string_equal(source_part(source, offset)->name, name);
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
    assert_int_equal(source_line(source, offset), line);
}

static void test_places(void **state)
{
    const struct source *source = four_files(*state);
    assert_place(source, 0, "tide/mill.xml", 1, 1);
    assert_place(source, (uint32_t)strlen(PATTERN), "tide/mill.xml", 4, 1);
    const uint32_t blocks = (uint32_t)strlen(PATTERN) + 1;
    assert_place(source, blocks, "tide/parts/blocks.xml", 1, 1);
    assert_place(source, offset_of(source, "<block/>", 0),
                 "tide/parts/blocks.xml", 2, 9);
    const uint32_t last = blocks + (uint32_t)strlen(BLOCKS);
    assert_int_equal(source->bytes[last], '\0');
    assert_place(source, last, "tide/parts/blocks.xml", 3, 10);
    assert_place(source, last + 1, "tide/empty.xml", 1, 1);
    assert_place(source, last + 2, "tide/cloths.xml", 1, 1);
    assert_place(source, offset_of(source, "<cloth/>", 0), "tide/cloths.xml", 2,
                 1);
    assert_place(source, (uint32_t)source->length, "tide/cloths.xml", 2, 18);
}

/* However often files are added, what was there before stays where it was. */
static void test_many_files(void **state)
{
    enum { FILES = 60 };
    const struct source *source =
        source_create(*state, "first.xml", PATTERN, strlen(PATTERN));
    for (int i = 0; i < FILES; i++) {
        const struct source *before = source;
        const char *text = arena_printf(*state, "\n<unit id=\"%d\"/>", i);
        source = source_with(*state, source, arena_printf(*state, "%d.xml", i),
                             text, strlen(text));
        assert_memory_equal(source->bytes, before->bytes, before->length + 1);
    }
    for (int i = 0; i < FILES; i++)
        assert_place(source,
                     offset_of(source, arena_printf(*state, "id=\"%d\"", i), 0),
                     arena_printf(*state, "%d.xml", i), 2, 7);
}

static void test_changed(void **state)
{
    const struct source *source = four_files(*state);
    const uint32_t block = offset_of(source, "<block/>", 0);
    const struct source *longer = source_changed(
        *state, source, (struct span){block, block + 8}, "<unit/>\n<block/>");
    assert_place(longer, offset_of(longer, "<block/>", 0),
                 "tide/parts/blocks.xml", 3, 1);
    assert_place(longer, offset_of(longer, "<cloth/>", 0), "tide/cloths.xml", 2,
                 1);
    assert_place(longer, offset_of(longer, "<include/>", 0), "tide/mill.xml", 2,
                 3);
    const uint32_t start = source_part(longer, block)->start;
    const struct source *empty = source_changed(
        *state, longer,
        (struct span){start, start + source_part(longer, block)->length}, "");
    assert_place(empty, start, "tide/parts/blocks.xml", 1, 1);
    assert_int_equal(source_part(empty, start)->length, 0);
    assert_place(empty, start + 1, "tide/empty.xml", 1, 1);
    assert_place(empty, offset_of(empty, "<cloth/>", 0), "tide/cloths.xml", 2,
                 1);
    /* At the very end of a file, and at the very start of one. */
    const uint32_t cloths = offset_of(empty, CLOTHS, 0);
    const struct source *more =
        source_changed(*state, empty, (struct span){cloths, cloths}, "\n");
    assert_place(more, offset_of(more, "<cloth/>", 0), "tide/cloths.xml", 3, 1);
    const struct source *full = source_changed(
        *state, more, (struct span){cloths - 1, cloths - 1}, "<shared/>");
    assert_place(full, offset_of(full, "<shared/>", 0), "tide/empty.xml", 1, 1);
    assert_place(full, offset_of(full, "<cloth/>", 0), "tide/cloths.xml", 3, 1);
    assert_string_equal(full->bytes +
                            source_part(full, (uint32_t)full->length)->start,
                        "\n<shared>\n<cloth/></shared>");
}

static void test_words_of_a_line(void **state)
{
    const struct source *source = four_files(*state);
    const uint32_t block = offset_of(source, "<block/>", 0);
    assert_string_equal(source_line_words(*state, source, block, block + 3),
                        "line 2");
    assert_string_equal(source_line_words(*state, source, block, 0),
                        "line 2 of `parts/blocks.xml`");
    assert_true(source_together(source, block, block + 8));
    assert_false(source_together(source, block, 0));
}

static struct run *told(void **state)
{
    struct run *run = run_create(*state, four_files(*state));
    const uint32_t block = offset_of(run->source, "block/", 0);
    const uint32_t cloth = offset_of(run->source, "cloth/", 0);
    struct diagnostic *d =
        diag_report(run, DIAG_LENGTH, (struct span){block, block + 5}, "odd");
    diag_note(run, d, (struct span){2, 3}, "from here");
    diag_note(run, d, (struct span){block, block + 1}, "beside");
    diag_mend(run, d, (struct span){cloth, cloth + 5}, "unit", "a unit");
    return run;
}

static void test_text(void **state)
{
    assert_string_equal(plain(told(state)),
                        "tide/parts/blocks.xml:2:10: error: odd [length]\n"
                        "    2 |         <block/>\n"
                        "      |          ^^^^^\n"
                        "tide/mill.xml:1:3: note: from here\n"
                        "tide/parts/blocks.xml:2:10: note: beside\n"
                        "help: a unit\n");
}

/* The mark of the byte order is no part of the shown line of any file. */
static void test_byte_order_mark(void **state)
{
    struct run *run = run_create(*state, four_files(*state));
    const uint32_t at = offset_of(run->source, "shared>", 0);
    diag_report(run, DIAG_LENGTH, (struct span){at, at + 6}, "odd");
    assert_string_equal(plain(run),
                        "tide/parts/blocks.xml:1:2: error: odd [length]\n"
                        "    1 | <shared>\n"
                        "      |  ^^^^^^\n");
}

static void test_json(void **state)
{
    const struct run *run = told(state);
    const struct diagnostic **sorted;
    assert_int_equal(diag_sorted(run, &sorted), 1);
    assert_string_equal(
        diag_json(run, sorted[0]),
        "{\"name\":\"length\",\"level\":\"error\","
        "\"file\":\"tide/parts/blocks.xml\",\"line\":2,\"column\":10,"
        "\"endLine\":2,\"endColumn\":15,\"offset\":15,\"endOffset\":20,"
        "\"message\":\"odd\",\"notes\":[{\"file\":\"tide/mill.xml\","
        "\"line\":1,\"column\":3,\"endLine\":1,\"endColumn\":4,\"offset\":2,"
        "\"endOffset\":3,\"message\":\"from here\"},{\"line\":2,\"column\":10,"
        "\"endLine\":2,\"endColumn\":11,\"offset\":15,\"endOffset\":16,"
        "\"message\":\"beside\"}],\"help\":\"a unit\",\"fix\":{"
        "\"file\":\"tide/cloths.xml\",\"line\":2,\"column\":2,\"endLine\":2,"
        "\"endColumn\":7,\"offset\":10,\"endOffset\":15,"
        "\"replacement\":\"unit\"}}");
}

static void test_unplaced(void **state)
{
    const struct source *bare = source_unplaced(*state, four_files(*state));
    assert_string_equal(bare->name, "mill.xml");
    assert_string_equal(bare->parts.items[1].name, "parts/blocks.xml");
    assert_string_equal(bare->parts.items[3].name, "cloths.xml");
}

/* No program can replace bytes of two files by one text. */
static void test_mend_over_two_files(void **state)
{
    struct run *run = run_create(*state, four_files(*state));
    struct diagnostic *d =
        diag_report(run, DIAG_LENGTH, (struct span){2, 3}, "odd");
    diag_mend(run, d, (struct span){2, offset_of(run->source, "<block/>", 0)},
              "x", "exchanged");
    assert_null(d->replacement);
    assert_string_equal(d->help, "exchanged");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places),
        cmocka_unit_test(test_many_files),
        cmocka_unit_test(test_changed),
        cmocka_unit_test(test_words_of_a_line),
        cmocka_unit_test(test_text),
        cmocka_unit_test(test_byte_order_mark),
        cmocka_unit_test(test_json),
        cmocka_unit_test(test_unplaced),
        cmocka_unit_test(test_mend_over_two_files),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
