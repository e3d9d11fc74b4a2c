/* How much the booklets of a pattern may tell: cut sizes and steps of all
 * quilts, in each colorway, 15,000 together (templates/manual/limits.md). */
#include "buffer.h"

#include "../resolve/small.h"

enum { COLORWAYS = 500 };

/* A row of so many patches, each of a width of its own: as many cut sizes, and
 * one step. */
static struct small row_of(struct arena *arena, int patches)
{
    struct buffer text = {.arena = arena};
    buffer_text(&text, "<pattern xmlns=\"urn:seamwright:pattern:1\" "
                       "id=\"small\" title=\"Small\">\n"
                       "<fabrics><fabric id=\"night\"/></fabrics>");
    for (int i = 0; i < COLORWAYS; i++)
        buffer_printf(&text,
                      "<colorway id=\"c%d\"><cloth fabric=\"night\" "
                      "color=\"#1d2540\"/></colorway>\n",
                      i);
    buffer_text(&text, "<quilt id=\"throw\"><row>");
    for (int i = 1; i <= patches; i++)
        buffer_printf(&text,
                      "<patch fabric=\"night\" width=\"%d\" height=\"1\"/>", i);
    buffer_text(&text, "</row></quilt></pattern>\n");
    struct small s = small_whole(arena, text.bytes);
    small_finish(&s);
    return s;
}

static void test_what_booklets_tell(void **state)
{
    struct small s = row_of(*state, 29);
    expect_clean(&s);
    s = row_of(*state, 30);
    const struct diagnostic *d =
        expect_only(&s, DIAG_LIMIT, "<pattern", "pattern");
    assert_true(says(d, "more than 15000 cut sizes and steps"));
    assert_true(says(d, "30 cut sizes and 1 step in 1 quilt, each in 500 "
                        "colorways"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_booklets_tell),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
