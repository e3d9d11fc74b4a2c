/* How a quarter-square is sewn, in the words of its step: from two
 * half-squares, one or two at a time. Sizes and slack are worked out by hand.
 */
#include "../book/pages.h"

/* %s stand for the print of reef, for the four fabrics and for the method. */
static const char *booklet_of(struct arena *arena, const char *print,
                              const char *sides, const char *method)
{
    const struct sample sample = sample_text(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" "
            "title=\"Lee\" units=\"in\" seam=\"1/4\">"
            "<fabrics><fabric id=\"reef\" print=\"%s\"/><fabric id=\"surf\"/>"
            "<fabric id=\"kelp\"/><fabric id=\"dune\"/></fabrics>"
            "<colorway id=\"calm\"><cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
            "<cloth fabric=\"surf\" color=\"#e9eef0\"/>"
            "<cloth fabric=\"kelp\" color=\"#4d6b3c\"/>"
            "<cloth fabric=\"dune\" color=\"#d8c48f\"/></colorway>"
            "<quilt id=\"mat\"><quarter-square %s method=\"%s\" "
            "size=\"3\"/></quilt></pattern>",
            print, sides, method));
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(arena, typeset, phrases_load(arena, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const char *text = all_text(arena, book);
    typeset_destroy(typeset);
    return text;
}

static void assert_says(const char *text, const char *words)
{
    if (strstr(text, words) == NULL)
        fail_msg("no `%s` in: %s", words, text);
}

#define TWO "top=\"reef\" right=\"surf\" bottom=\"reef\" left=\"surf\""
#define FOUR "top=\"reef\" right=\"surf\" bottom=\"kelp\" left=\"dune\""

/* Halves of 3 + 1/2 + root 2 / 4 = 3.8536 are trimmed to 3 7/8. Sewn a quarter
 * from the diagonal, two of them make squares of 3 7/8 - root 2 / 4 = 3.5214.
 */
#define SIZE "3\u00bd\u00a0\u00d7\u00a03\u00bd\u00a0in"

static void test_two_are_trimmed(void **state)
{
    const char *text = booklet_of(*state, "solid", TWO, "two");
    assert_says(text, "on another, each fabric on the "
                      "other one. Push the seams together until they nest.");
    assert_says(text, "Sew \u00bc\u00a0in from the line, on both sides.");
    assert_says(text, "Cut on the line: this gives two.");
    assert_says(text, "Trim each to " SIZE
                      ": the seams in the corners, meeting in the middle.");
}

static void test_the_mirror_image_is_no_use(void **state)
{
    const char *text = booklet_of(*state, "solid", FOUR, "two");
    assert_says(text, "Cut on the line. The second is the mirror image of the "
                      "first: keep the one that is shown.");
    assert_says(text, "Trim it to " SIZE);
    text = booklet_of(*state, "one-way", FOUR, "two");
    assert_says(text, "Cut on the line. The prints of the second lie another "
                      "way: keep the one that is shown.");
    assert_says(text, "Trim it to " SIZE);
}

static void test_one_is_trimmed_beside_the_line(void **state)
{
    const char *text = booklet_of(*state, "solid", TWO, "one");
    assert_says(text, "Sew on the line.");
    assert_says(text, "Cut off both layers, \u00bc\u00a0in to the ");
}

/* A plain square, C1, lies below the half-square: no seams are to be matched. */
static void test_a_plain_half_lies_below(void **state)
{
    const char *text = booklet_of(
        *state, "solid",
        "top=\"kelp\" right=\"kelp\" bottom=\"reef\" left=\"surf\" "
        "plain=\"top-right\"",
        "two");
    assert_says(text, "Lay A1+B1 on C1.");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two_are_trimmed),
        cmocka_unit_test(test_the_mirror_image_is_no_use),
        cmocka_unit_test(test_one_is_trimmed_beside_the_line),
        cmocka_unit_test(test_a_plain_half_lies_below),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
