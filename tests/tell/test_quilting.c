/* What the section on quilting says of a small plan, told here once more by
 * hand: one lamp on a dark mat, its ditch, two echoes, swirls around it. */
#include "content.h"

#include "../book/sample.h"

#define FABRICS                                                                \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lamp\" title=\"Lamp\" "  \
    "units=\"in\" seam=\"1/4\"><fabrics><fabric id=\"night\" name=\"Night\"/>" \
    "<fabric id=\"flame\" name=\"Flame\"/></fabrics>"                          \
    "<colorway id=\"dusk\" name=\"Dusk\">"                                     \
    "<cloth fabric=\"night\" name=\"Ink\" color=\"#1d2b45\"/>"                 \
    "<cloth fabric=\"flame\" name=\"Ember\" color=\"#e0a030\"/>"
#define QUILT                                                            \
    "</colorway><block id=\"lamp\" name=\"Lamp\" grid=\"3\">"            \
    "<grid across=\"3\" down=\"3\"><patch key=\"n\" fabric=\"night\"/>"  \
    "<patch key=\"f\" fabric=\"flame\"/><map>\n n n n\n n f n\n n n n\n" \
    "</map></grid></block><quilt id=\"mat\" name=\"Mat\">"               \
    "<use block=\"lamp\" finished=\"12\"/><batting max-gap=\"4\"/>"      \
    "<binding fabric=\"flame\"/>"
#define TAIL "</quilt></pattern>"

static const char quilted[] = FABRICS
    "<spool thread=\"quiet\" name=\"Dark blue\" length=\"200yd\"/>" QUILT
    "<quilting><thread id=\"quiet\" match=\"night\"/>"
    "<thread id=\"spark\" match=\"flame\" below=\"quiet\"/>"
    "<ditch of=\"lamp\" between=\"flame night\" thread=\"quiet\"/>"
    "<echo of=\"lamp\" fabric=\"flame\" side=\"inside\" spacing=\"1/2\" "
    "times=\"2\" thread=\"spark\"/>"
    "<echo of=\"lamp\" fabric=\"flame\" side=\"outside\" spacing=\"1\" "
    "corners=\"rounded\" thread=\"quiet\"/>"
    "<area fabric=\"night\"><fill with=\"swirls\" spacing=\"1\" "
    "thread=\"quiet\"/></area></quilting>" TAIL;
/* The same mat with a grid from edge to edge. */
#define GRID(spacing)                                                   \
    FABRICS QUILT                                                       \
        "<quilting><thread id=\"quiet\" match=\"night\"/>"              \
        "<ditch of=\"lamp\" between=\"flame night\" "                   \
        "thread=\"quiet\"/>"                                            \
        "<connect of=\"lamp\" fabric=\"flame\" from=\"corners\" "       \
        "to=\"corners\" pair=\"all\" into=\"flame\" "                   \
        "thread=\"quiet\"/>"                                            \
        "<area fabric=\"night\"><fill with=\"grid\" spacing=\"" spacing \
        "\" thread=\"quiet\"/></area></quilting>" TAIL
static const char grid[] = GRID("1 1/2");
static const char plain[] = FABRICS QUILT TAIL;

/* The quilt in its only colorway. */
struct told {
    struct wording w;
    const struct cutplan *plan;
};

static struct told told_of(struct arena *arena, const char *text)
{
    struct sample *sample = ARENA_NEW(arena, struct sample);
    *sample = sample_text(arena, text);
    const struct cutplan *plan = &sample->plans->items.items[0];
    return (struct told){
        {arena, sample->design, plan->quilt, false, phrases_load(arena, "en")},
        plan};
}

/* The text of a cell of the part's table, by its row and column from 0. */
static const char *cell(const struct contents *all, enum content_part part,
                        size_t row, size_t column)
{
    const struct told_table *table =
        &content_of(all, part, CONTENT_TABLE)->as.table;
    assert_true(row < table->rows.count);
    assert_true(column < table->rows.items[row].cells.count);
    return table->rows.items[row].cells.items[column].text.text;
}

/* Not even a heading. */
static void test_plain_quilt_tells_nothing(void **state)
{
    const struct told told = told_of(*state, plain);
    assert_int_equal(tell_quilting(&told.w, told.plan).items.count, 0);
    assert_int_equal(tell_quilting_marks(&told.w, told.plan).items.count, 0);
}

/* The cloth of the lamp, 4 by 4, has no filler; around it lie 128 square
 * inches. The strip between it and the echo, 1 in wide and rounded, has 16 + pi
 * of them, so 108.9 in are left to swirls 1 in apart. */
static void test_areas(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting(&told.w, told.plan);
    const struct told_table *table =
        &content_of(&all, PART_AREAS, CONTENT_TABLE)->as.table;
    assert_int_equal(table->rows.count, 2);
    assert_string_equal(cell(&all, PART_AREAS, 0, 0), "a");
    assert_string_equal(cell(&all, PART_AREAS, 0, 1), "Ink");
    assert_string_equal(cell(&all, PART_AREAS, 0, 2),
                        "Swirls, about 1 in apart");
    assert_string_equal(cell(&all, PART_AREAS, 0, 3), "quiet");
    assert_string_equal(cell(&all, PART_AREAS, 0, 4), "1");
    assert_string_equal(cell(&all, PART_AREAS, 0, 5), "109 in");
    /* What has no filler has no letter, whatever its cloth. */
    assert_string_equal(cell(&all, PART_AREAS, 1, 0), "others");
    assert_string_equal(cell(&all, PART_AREAS, 1, 1), "");
    assert_string_equal(cell(&all, PART_AREAS, 1, 2), "No filler");
    assert_string_equal(cell(&all, PART_AREAS, 1, 3), "");
}

/* Ditch, echoes and fillers; no lines. */
static void test_stages_that_are_there(void **state)
{
    static const enum quilting_stage stages[] = {STAGE_DITCH, STAGE_ECHOES,
                                                 STAGE_FILLERS};
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting(&told.w, told.plan);
    size_t count = 0;
    for (size_t i = 0; i < all.items.count; i++)
        if (all.items.items[i].part == PART_STAGES &&
            all.items.items[i].kind == CONTENT_FIGURE) {
            assert_true(count < 3);
            assert_int_equal(all.items.items[i].as.figure.stage,
                             stages[count++]);
        }
    assert_int_equal(count, 3);
}

/* A square of 4 in has a ditch of 16 in; echoes at 1/2 and 1 in within it are
 * 12 and 8 in long. */
static void test_lines_and_how_they_are_found(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting(&told.w, told.plan);
    assert_string_equal(cell(&all, PART_LINES, 0, 0), "Ditch: Lamp");
    assert_string_equal(cell(&all, PART_LINES, 0, 1), "the seam itself");
    assert_string_equal(cell(&all, PART_LINES, 0, 4), "16 in");
    const struct told_table *table =
        &content_of(&all, PART_LINES, CONTENT_TABLE)->as.table;
    bool marked = false, seam = false, before = false, free = false;
    for (size_t i = 0; i < table->rows.count; i++) {
        const char *found = cell(&all, PART_LINES, i, 1);
        const char *length = cell(&all, PART_LINES, i, 4);
        marked |= strcmp(found, "a mark, from the pages in true size") == 0;
        seam |= strcmp(found, "a ruler, 1/2 in from the seam") == 0 &&
                strcmp(length, "12 in") == 0;
        before |= strcmp(found, "a ruler, 1/2 in from the line before") == 0 &&
                  strcmp(length, "8 in") == 0;
        free |= strcmp(found, "eye alone") == 0 &&
                strcmp(length, "109 in") == 0 &&
                strcmp(cell(&all, PART_LINES, i, 3), "") == 0;
    }
    assert_true(marked && seam && before && free);
}

/* 12 in by 12: lines 1 1/2 in apart from the middle, 6 in from each edge, come
 * to 1 1/2 in from it. */
static void test_where_lines_begin(void **state)
{
    const struct told told = told_of(*state, grid);
    const struct contents all = tell_quilting(&told.w, told.plan);
    const struct told_table *table =
        &content_of(&all, PART_LINES, CONTENT_TABLE)->as.table;
    bool begins = false, joins = false;
    for (size_t i = 0; i < table->rows.count; i++) {
        const char *found = cell(&all, PART_LINES, i, 1);
        begins |= strcmp(found, "a ruler, 1 1/2 in from the line before; the "
                                "first 1 1/2 in from a side of the area") == 0;
        joins |= strcmp(found, "a ruler from corners to corners, each to all "
                               "on its fabric") == 0;
    }
    assert_true(begins);
    assert_true(joins);
}

/* One spool of 200 yd does for the ditch, an echo and the swirls; the other
 * thread has none told. */
static void test_threads(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting(&told.w, told.plan);
    assert_string_equal(cell(&all, PART_THREADS, 0, 0), "quiet");
    assert_string_equal(cell(&all, PART_THREADS, 0, 1),
                        "Dark blue. Blends with Ink.");
    assert_non_null(strstr(cell(&all, PART_THREADS, 0, 8), ": 1 spool"));
    assert_string_equal(cell(&all, PART_THREADS, 1, 0), "spark");
    assert_string_equal(cell(&all, PART_THREADS, 1, 1),
                        "as Ember. Blends with Ember.");
    assert_string_equal(cell(&all, PART_THREADS, 1, 2), "20 in");
    assert_string_equal(cell(&all, PART_THREADS, 1, 7), "0");
    assert_null(strstr(cell(&all, PART_THREADS, 1, 8), "spool"));
    assert_non_null(strstr(cell(&all, PART_THREADS, 1, 8), "at least "));
}

/* 12 in less 1 to 4 %, to the nearest half. */
static void test_smaller_and_gap(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting(&told.w, told.plan);
    const char *text = content_words(
        *state, &content_of(&all, PART_FACTS, CONTENT_PARAGRAPH)->as.paragraph);
    assert_non_null(strstr(text, "measures 11 1/2 x 11 1/2 in to 12 x 12 in"));
    assert_non_null(strstr(text, "The batting allows 4 in."));
    assert_non_null(strstr(text, "Swirls are stitched by eye"));
}

/* The rounded echo runs over the cloth around the lamp alone. */
static void test_marks(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_quilting_marks(&told.w, told.plan);
    size_t count = 0;
    for (size_t i = 0; i < all.items.count; i++)
        if (all.items.items[i].part == PART_MARKS) {
            count++;
            assert_int_equal(all.items.items[i].as.figure.kind, 0);
            assert_string_equal(all.items.items[i].as.figure.caption,
                                "Area a: 1 area");
        }
    assert_int_equal(count, 1);
}

/* Binding has its own heading behind the section, layers keep theirs. */
static void test_finishing_goes_around_it(void **state)
{
    const struct told told = told_of(*state, quilted);
    const struct contents all = tell_finishing(&told.w, told.plan);
    size_t heads = 0;
    for (size_t i = 0; i < all.items.count; i++)
        heads += all.items.items[i].kind == CONTENT_HEADING;
    assert_int_equal(heads, 2);
    for (size_t i = 0; i < all.items.count; i++)
        for (size_t k = 0; all.items.items[i].part == PART_LAYERS &&
                           k < all.items.items[i].as.work.frames.count;
             k++)
            assert_int_not_equal(
                all.items.items[i].as.work.frames.items[k].drawing,
                DRAWING_QUILTING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plain_quilt_tells_nothing),
        cmocka_unit_test(test_areas),
        cmocka_unit_test(test_stages_that_are_there),
        cmocka_unit_test(test_lines_and_how_they_are_found),
        cmocka_unit_test(test_where_lines_begin),
        cmocka_unit_test(test_threads),
        cmocka_unit_test(test_smaller_and_gap),
        cmocka_unit_test(test_marks),
        cmocka_unit_test(test_finishing_goes_around_it),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
