/* How a half-rectangle is sewn, in the words of its step. Sizes are worked out
 * by hand from the finished sides, a seam of 1/4 in and the diagonal. */
#include "../book/pages.h"

/* %s stand for the print of reef and for what the half-rectangle has. */
static const char *booklet_of(struct arena *arena, const char *language,
                              const char *print, const char *half)
{
    const struct sample sample = sample_text(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" "
            "title=\"Lee\" units=\"in\" seam=\"1/4\">"
            "<fabrics><fabric id=\"reef\" name=\"Reef\" print=\"%s\"/>"
            "<fabric id=\"surf\" name=\"Surf\"/></fabrics>"
            "<colorway id=\"calm\"><cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
            "<cloth fabric=\"surf\" color=\"#e9eef0\"/></colorway>"
            "<quilt id=\"mat\"><half-rectangle left=\"reef\" right=\"surf\" "
            "%s/></quilt></pattern>",
            print, half));
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(arena, typeset, phrases_load(arena, language),
                     sample.design, &sample.plans->items.items[0], false);
    const char *text = all_text(arena, book);
    typeset_destroy(typeset);
    return text;
}

static void assert_says(const char *text, const char *words)
{
    if (strstr(text, words) == NULL)
        fail_msg("no `%s` in: %s", words, text);
}

static void assert_silent(const char *text, const char *words)
{
    if (strstr(text, words) != NULL)
        fail_msg("`%s` in: %s", words, text);
}

#define NB "\u00a0"
#define EIGHTH "\u215b" NB "in"

/* 2 x 4: tips (4 - 2) * 1/4 * (2 + 4 + 4.4721) / 8 = 0.6545, on a ruler 5/8;
 * the seam meets the edge 1/4 - 1/4 * 2/4 from the corner. */
static void test_corner_to_corner(void **state)
{
    const char *text = booklet_of(*state, "en", "solid",
                                  "line=\"rising\" width=\"2\" height=\"4\"");
    assert_says(text, "Cut A1 and B1 apart from corner to corner, right side "
                      "up: \u2571" NB "rising.");
    assert_says(text, "The other diagonal would give the mirror image, which "
                      "no turn makes right.");
    assert_says(text, "Lay a triangle of B1 on one of A1, long edges even.");
    assert_says(text, "At each end the narrow tip sticks out by about "
                      "\u215d" NB "in.");
    assert_says(text, "Sew \u00bc" NB "in from the long edge.");
    assert_says(text,
                "In two corners the seam runs \u00bc" NB "in inside both "
                "edges; it meets the short edges " EIGHTH " from the corners.");
    assert_silent(text, "print of the others");
}

/* 3 x 4 without room: the tips are 1/4 * (3 + 4 + 5) / 12 = 1/4, and the edge
 * is met at 1/4 - 1/4 * 3/4 = 1/16: no "about". */
static void test_exact(void **state)
{
    const char *text =
        booklet_of(*state, "en", "solid",
                   "line=\"falling\" width=\"4\" height=\"3\" room=\"0\"");
    assert_says(text, "corner to corner, right side up: \u2572" NB "falling.");
    assert_says(text, "the narrow tip sticks out by \u00bc" NB "in.");
    assert_says(text, "it meets the short edges 1\u204416" NB "in from");
}

/* 3 x 5 3/4: legs 3.6622 and 7.0193, with their room 3.9122 and 7.4985, are cut
 * 4 and 7 1/2. The triangle at a corner is (4 / 3 + 7.5 / 5.75) / 2 = 1.3188
 * times as large; 4 - 3 * 1.3188 = 0.0435 is left on the short edge. */
static void test_beside_corners(void **state)
{
    const char *text = booklet_of(
        *state, "en", "solid", "line=\"rising\" width=\"3\" height=\"5 3/4\"");
    assert_says(text, "from a short edge, about 1\u204416" NB
                      "in beside the corner, to the other one.");
}

static void test_square(void **state)
{
    const char *text = booklet_of(*state, "en", "solid",
                                  "line=\"rising\" width=\"3\" height=\"3\"");
    assert_says(text, "Their ends lie even, too.");
    assert_says(text, "the seam must run into both corners.");
}

/* The other half of each rectangle has its print on its head. */
static void test_print(void **state)
{
    const char *text = booklet_of(*state, "en", "one-way",
                                  "line=\"rising\" width=\"2\" height=\"4\"");
    assert_says(text, "Keep the left half of A1 and the right half of B1: the "
                      "print of the others stands on its head.");
    assert_says(text, "Trim it to");
}

static void test_german(void **state)
{
    const char *text = booklet_of(*state, "de", "solid",
                                  "line=\"rising\" width=\"2\" height=\"4\"");
    assert_says(text, "von Ecke zu Ecke durchschneiden");
    assert_says(text, "steht die schmale Spitze etwa \u215d" NB "Inch");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_corner_to_corner),
        cmocka_unit_test(test_exact),
        cmocka_unit_test(test_beside_corners),
        cmocka_unit_test(test_square),
        cmocka_unit_test(test_print),
        cmocka_unit_test(test_german),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
