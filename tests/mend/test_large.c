/* Work is counted: a source of 300 kB gets its mend within a few trials, one
 * of twice that gets none; many errors of one cause are one message. */
#include "../unit.h"

#include <string.h>

#include "buffer.h"
#include "mend.h"
#include "sewn.h"

enum { HELPED_BYTES = 300000, UNHELPED_BYTES = 600000, WORK_BYTES = 3200000 };

static void add_head(struct buffer *text, const char *reef, const char *surf)
{
    buffer_printf(text,
                  "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" "
                  "title=\"P\"><fabrics><fabric id=\"reef\" key=\"%s\"/>"
                  "<fabric id=\"surf\" key=\"%s\"/></fabrics>"
                  "<colorway id=\"c\"><cloth fabric=\"reef\" "
                  "color=\"#112233\"/><cloth fabric=\"surf\" "
                  "color=\"#ddeeff\"/></colorway>\n",
                  reef, surf);
}

static void add_block(struct buffer *text, size_t number, const char *second)
{
    buffer_printf(text,
                  "<block id=\"b%zu\" grid=\"3\"><row><patch fabric=\"reef\" "
                  "width=\"1\" height=\"3\"/><patch fabric=\"%s\" "
                  "width=\"2\"/></row><picture>\n r s s\n r s s\n r s s\n"
                  "</picture></block>\n",
                  number, second);
}

/* Rows of ten. */
static void add_quilt(struct buffer *text, size_t blocks)
{
    buffer_text(text, "<quilt id=\"q\"><column>\n");
    for (size_t i = 0; i < blocks; i++)
        buffer_printf(text, "%s<use block=\"b%zu\" finished=\"6\"/>%s",
                      i % 10 == 0 ? "<row>" : "", i,
                      i % 10 == 9 ? "</row>\n" : "");
    buffer_text(text, "</column></quilt></pattern>");
}

static const struct run *mended(struct arena *arena, const char *text,
                                size_t *trials)
{
    struct run *run = run_create(
        arena, source_create(arena, "large.xml", text, strlen(text)));
    const struct sized *sized =
        solve_design(run, resolve_pattern(run, read_pattern(run)));
    check_pictures(run, sized);
    assert_true(diag_count(run, DIAG_ERROR) > 0);
    *trials = mend_mistakes(run, sized);
    return run;
}

static const struct diagnostic *first_error(const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR)
            return sorted[i];
    return NULL;
}

/* Blocks of which the last but nine has a fabric that its picture has not. */
static const char *one_slip(struct arena *arena, size_t bytes)
{
    const size_t each = 195; /* at most, of what a block and its use take */
    const size_t blocks = bytes / each / 10 * 10 + 10;
    struct buffer text = buffer_in(arena);
    add_head(&text, "r", "s");
    for (size_t i = 0; i < blocks; i++)
        add_block(&text, i, i + 10 == blocks ? "reef" : "surf");
    add_quilt(&text, blocks);
    return buffer_string(&text);
}

static void test_helped_where_it_is_large(void **state)
{
    struct arena *arena = *state;
    const char *text = one_slip(arena, HELPED_BYTES);
    assert_true(strlen(text) >= HELPED_BYTES);
    size_t trials;
    const struct run *run = mended(arena, text, &trials);
    assert_int_equal(diag_count(run, DIAG_ERROR), 1);
    const struct diagnostic *d = first_error(run);
    assert_non_null(d->replacement);
    assert_string_equal(d->replacement, "surf");
    assert_true(trials > 0);
    /* Those that plan the cloth come on top. */
    assert_true((trials - 3) * strlen(text) <= WORK_BYTES);
}

static void test_asked_where_it_is_larger(void **state)
{
    struct arena *arena = *state;
    const char *text = one_slip(arena, UNHELPED_BYTES);
    assert_true(strlen(text) >= UNHELPED_BYTES);
    size_t trials;
    const struct run *run = mended(arena, text, &trials);
    assert_int_equal(trials, 0);
    assert_int_equal(diag_count(run, DIAG_ERROR), 1);
    assert_null(first_error(run)->replacement);
}

/* Every picture with the keys of its fabrics exchanged. */
static const char *other_keys(struct arena *arena, size_t blocks)
{
    struct buffer text = buffer_in(arena);
    add_head(&text, "s", "r");
    for (size_t i = 0; i < blocks; i++)
        add_block(&text, i, "surf");
    add_quilt(&text, blocks);
    return buffer_string(&text);
}

static void test_many_errors_have_one_cause(void **state)
{
    struct arena *arena = *state;
    size_t trials;
    for (size_t blocks = 20; blocks <= 140; blocks += 40) {
        const struct run *run =
            mended(arena, other_keys(arena, blocks), &trials);
        assert_int_equal(diag_count(run, DIAG_ERROR), 1);
        const struct diagnostic *d = first_error(run);
        assert_int_equal(d->code, DIAG_SWAPPED);
        assert_non_null(d->replacement);
        assert_true(d->mend_span.start <
                    (uint32_t)(strstr(run->source->bytes, "<block") -
                               run->source->bytes));
    }
    const struct run *run = mended(arena, other_keys(arena, 1000), &trials);
    assert_int_equal(trials, 0);
    assert_true(diag_count(run, DIAG_ERROR) >= 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_helped_where_it_is_large),
        cmocka_unit_test(test_asked_where_it_is_larger),
        cmocka_unit_test(test_many_errors_have_one_cause),
    };
    return cmocka_run_group_tests_name("large", tests, unit_arena,
                                       unit_arena_end);
}
