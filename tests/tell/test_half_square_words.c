/* How half-squares are sewn two, four and eight at a time, in the words of
 * their step: what a one-way print leaves of them is told. */
#include "../book/pages.h"

static const char *words_of(struct arena *arena, const char *source)
{
    const struct sample sample = sample_text(arena, source);
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(arena, typeset, phrases_load(arena, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const char *text = all_text(arena, book);
    typeset_destroy(typeset);
    return text;
}

static const char *booklet_of(struct arena *arena, const char *print,
                              const char *method)
{
    return words_of(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" "
            "title=\"Lee\" units=\"in\" seam=\"1/4\">"
            "<about revision=\"7\"/>"
            "<fabrics><fabric id=\"reef\" print=\"%s\"/><fabric id=\"surf\"/>"
            "</fabrics><colorway id=\"calm\">"
            "<cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
            "<cloth fabric=\"surf\" color=\"#e9eef0\"/></colorway>"
            "<quilt id=\"mat\"><half-square line=\"rising\" left=\"reef\" "
            "right=\"surf\" size=\"3\" method=\"%s\"/></quilt></pattern>",
            print, method));
}

/* Two of one method, of other cloths: the second is told as one that is
 * known. */
static const char *pair_of(struct arena *arena, const char *method)
{
#define ONE(id, line, right)                                              \
    "<unit id=\"" id "\" width=\"3\" height=\"3\"><half-square line=\"" line \
    "\" left=\"reef\" right=\"" right "\" method=\"%s\"/></unit>"
    return words_of(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" "
            "title=\"Lee\" units=\"in\" seam=\"1/4\">"
            "<fabrics><fabric id=\"reef\"/><fabric id=\"surf\"/>"
            "<fabric id=\"kelp\"/></fabrics><colorway id=\"calm\">"
            "<cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
            "<cloth fabric=\"kelp\" color=\"#4d6b3c\"/>"
            "<cloth fabric=\"surf\" color=\"#e9eef0\"/></colorway>" ONE(
                "fin", "rising", "surf") ONE("gill", "falling", "kelp")
            "<quilt id=\"mat\"><row><use unit=\"fin\"/><use unit=\"gill\"/>"
            "</row></quilt></pattern>",
            method, method));
#undef ONE
}

static void test_what_serves(void **state)
{
    static const struct {
        const char *method, *all, *some;
    } cases[] = {
        {"two", "Cut on the line: this gives two.",
         "The print of the second stands on its head: keep the one that is "
         "shown."},
        {"four", "this gives four. Their edges are on the bias",
         "The print slants, in each of the four another way: keep the one"},
        {"eight", "then on the lines: this gives eight.",
         "The print lies as shown in two of the eight only: keep those."}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *solid = booklet_of(*state, "solid", cases[i].method);
        assert_non_null(strstr(solid, cases[i].all));
        assert_null(strstr(solid, cases[i].some));
        const char *printed = booklet_of(*state, "one-way", cases[i].method);
        assert_null(strstr(printed, cases[i].all));
        assert_non_null(strstr(printed, cases[i].some));
    }
}

/* What is shown before is told in short where one line can be named. Four at a
 * time are sewn round the edges, and eight along two lines: told in full. */
static void test_told_again(void **state)
{
    static const struct {
        const char *method, *again;
    } cases[] = {{"two", "Lay C1 on A1: \u2572\u00a0falling."},
                 {"four", "Lay C1 on A1. Sew along all four edges"},
                 {"eight", "Lay C1 on A1. Draw both diagonals on its "
                           "wrong side."}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *text = pair_of(*state, cases[i].method);
        if (strstr(text, cases[i].again) == NULL)
            fail_msg("no `%s` in: %s", cases[i].again, text);
    }
}

/* At the foot of each page; there is no date. */
static void test_revision_without_a_date(void **state)
{
    const char *text = booklet_of(*state, "solid", "two");
    assert_non_null(strstr(text, "Revision 7 "));
    assert_null(strstr(text, "Revision 7,"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_serves),
        cmocka_unit_test(test_told_again),
        cmocka_unit_test(test_revision_without_a_date),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
