/* The text of a picture: rows of tokens, and the fabrics of their quarters. */
#include "small.h"

static const struct definition *block_of(struct small *s, struct arena *arena,
                                         const char *picture)
{
    *s = small_whole(
        arena, arena_printf(arena,
                            SMALL_HEAD "<block id=\"b\" grid=\"2\"><patch "
                                       "fabric=\"night\"/><picture>%s"
                                       "</picture></block></pattern>",
                            picture));
    return design_find(s->design, "b", DEFINE_BLOCK);
}

/* Quarters run clockwise from the top; a slash has its first key on the left. */
static void test_tokens(void **state)
{
    static const struct {
        const char *token;
        int quarters[4];
    } cases[] = {{"n", {0, 0, 0, 0}},
                 {"n/f", {0, 1, 1, 0}},
                 {"n\\f", {1, 1, 0, 0}},
                 {"n+f+g+f", {0, 1, 2, 1}}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct small s;
        const struct definition *b = block_of(&s, *state, cases[i].token);
        assert_int_equal(b->cells.count, 1);
        assert_true(b->cells.items[0].readable);
        assert_memory_equal(b->cells.items[0].quarters, cases[i].quarters,
                            sizeof cases[i].quarters);
    }
}

static void test_tokens_that_name_nothing(void **state)
{
    static const char *const tokens[] = {"x",   "n/",  "nf",      "n-f",
                                         "n/x", "/nf", "n+f/g+f", "n+f+g+f+n"};
    for (size_t i = 0; i < sizeof tokens / sizeof tokens[0]; i++) {
        struct small s;
        const struct definition *b = block_of(&s, *state, tokens[i]);
        assert_int_equal(b->cells.count, 1);
        if (b->cells.items[0].readable)
            fail_msg("`%s` was read", tokens[i]);
    }
}

/* A line is a row, blank lines and comments are none; each cell knows where it
 * stands. */
static void test_rows(void **state)
{
    struct small s;
    const struct definition *b =
        block_of(&s, *state, "\n  n f\n\n  <!-- of two -->\n  g n/f\n");
    static const size_t rows[] = {1, 1, 2, 2};
    static const char *const words[] = {"n", "f", "g", "n/f"};
    assert_int_equal(b->cells.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const struct picture_cell *cell = &b->cells.items[i];
        assert_int_equal(cell->row, rows[i]);
        assert_int_equal(cell->span.end - cell->span.start, strlen(words[i]));
        assert_memory_equal(s.text + cell->span.start, words[i],
                            strlen(words[i]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tokens),
        cmocka_unit_test(test_tokens_that_name_nothing),
        cmocka_unit_test(test_rows),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
