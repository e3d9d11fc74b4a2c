/* What the steps of a border with blocks at its corners say. */
#include "../book/pages.h"

static const char source[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "
    "title=\"Pier\">\n<fabrics><fabric id=\"water\"/><fabric id=\"sail\"/>"
    "</fabrics>\n<colorway id=\"noon\">"
    "<cloth fabric=\"water\" color=\"#24566b\"/>"
    "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"
    "<quilt id=\"mat\" name=\"Mat\">"
    "<patch fabric=\"water\" width=\"12\" height=\"9\"/>"
    "<border fabric=\"sail\" width=\"2\" corners=\"blocks\">"
    "<patch fabric=\"water\" width=\"2\" height=\"2\"/></border>"
    "</quilt></pattern>\n";

/* Labels run in the order of sewing:
 * A1 is the center, A2 a corner; B1 runs along a side, B2 along the top. */
static void test_corner_blocks(void **state)
{
    const struct sample sample = sample_text(*state, source);
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(*state, typeset, phrases_load(*state, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const char *text = all_text(*state, book);
    assert_non_null(strstr(text,
                           "Measure the quilt top through its middle from "
                           "top to bottom: 9\u00bd\u00a0in is right. "
                           "If it measures otherwise, cut the strips to your "
                           "measure. Sew a strip B1, "));
    assert_non_null(
        strstr(text, "Sew A2 to both ends of the two strips B2 for top and"));
    assert_non_null(strstr(text, "border 1, corners"));
    assert_null(strstr(text, "border 1, corners, border 1, corners"));
    assert_non_null(strstr(text, "Sew the two rows to the top and the bottom"));
    typeset_destroy(typeset);
}

/* Two that are mitred as one: the strips are measured for before they are
 * joined, which is a step of its own for sides and for ends. A1 is the center.
 * By hand: 12 by 9 and twice 1 + 2; a strip reaches 3 and half of 1/2 beyond. */
static void test_mitred(void **state)
{
    const struct sample sample = sample_text(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "
        "title=\"Pier\">\n<fabrics><fabric id=\"water\"/>"
        "<fabric id=\"sail\"/></fabrics>\n<colorway id=\"noon\">"
        "<cloth fabric=\"water\" color=\"#24566b\"/>"
        "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"
        "<quilt id=\"mat\" name=\"Mat\">"
        "<patch fabric=\"water\" width=\"12\" height=\"9\"/>"
        "<border fabric=\"sail\" width=\"1\" corners=\"mitred\"/>"
        "<border fabric=\"water\" width=\"2\" corners=\"mitred\"/>"
        "</quilt></pattern>\n");
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(*state, typeset, phrases_load(*state, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    const char *text = all_text(*state, book);
    assert_non_null(strstr(text, "Borders 1 and 2, counted from the inside"));
    assert_non_null(strstr(text, "Border strips B1+A2"));
    assert_non_null(strstr(text,
                           "from top to bottom: 9\u00bd\u00a0in is "
                           "right. If it measures otherwise, cut the strips "
                           "longer or shorter by as much."));
    assert_non_null(strstr(text, "about 3\u00bc\u00a0in reaches beyond"));
    assert_non_null(strstr(text, "Pin where the seams of the strips meet."));
    assert_non_null(strstr(text, "Draw a line at 45 degrees"));
    assert_null(strstr(text, "reaches over"));
    typeset_destroy(typeset);
}

/* Patches and posts lie at the corners of the first border in turn, the patch
 * at all of the second: each is told once, and the patch at both. The third has
 * none. Labels run in the order of sewing: A1 is the center, A2 the patch, and
 * B1 the square of the post's corner. */
static void test_unlike_corners(void **state)
{
    const struct sample sample = sample_text(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "
        "title=\"Pier\">\n<fabrics><fabric id=\"water\"/>"
        "<fabric id=\"sail\"/></fabrics>\n<colorway id=\"noon\">"
        "<cloth fabric=\"water\" color=\"#24566b\"/>"
        "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"
        "<unit id=\"post\" name=\"Post\" width=\"2\" height=\"2\">"
        "<patch fabric=\"water\"><corner at=\"top-left\" fabric=\"sail\" "
        "size=\"1\"/></patch></unit>"
        "<quilt id=\"mat\" name=\"Mat\">"
        "<patch fabric=\"water\" width=\"12\" height=\"9\"/>"
        "<border fabric=\"sail\" width=\"2\" corners=\"blocks\">"
        "<patch fabric=\"water\"/><use unit=\"post\"/><use unit=\"post\"/>"
        "<patch fabric=\"water\"/></border>"
        "<border fabric=\"sail\" width=\"2\" corners=\"blocks\">"
        "<patch fabric=\"water\"/></border>"
        "<border fabric=\"sail\" width=\"3\"/></quilt></pattern>\n");
    struct typeset *typeset = typeset_create();
    const char *text =
        all_text(*state, compose_book(*state, typeset,
                                      phrases_load(*state, "en"), sample.design,
                                      &sample.plans->items.items[0], false));
    assert_non_null(strstr(text, "Sew A2 and Post to both ends of the two "
                                 "strips B3 for top and bottom"));
    assert_non_null(strstr(text, "Sew A2 to both ends of the two strips B5 for "
                                 "top and bottom"));
    assert_non_null(strstr(text, "Post, border 1, corners, border 2, corners"));
    assert_null(strstr(text, "border 3, corners"));
    typeset_destroy(typeset);
}

/* An oblong unit that the source turns: 12 by 9 unturned, and a seam on each
 * side. */
static void test_a_turned_center(void **state)
{
    const struct sample sample = sample_text(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "
        "title=\"Pier\">\n<fabrics><fabric id=\"water\"/>"
        "<fabric id=\"sail\"/></fabrics>\n<colorway id=\"noon\">"
        "<cloth fabric=\"water\" color=\"#24566b\"/>"
        "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"
        "<unit id=\"deck\" width=\"12\" height=\"9\"><row>"
        "<patch fabric=\"water\" width=\"4\"/><patch fabric=\"sail\"/></row>"
        "</unit><quilt id=\"mat\" name=\"Mat\">"
        "<use unit=\"deck\" turn=\"90\"/>"
        "<border fabric=\"sail\" width=\"2\"/></quilt></pattern>\n");
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_book(*state, typeset, phrases_load(*state, "en"), sample.design,
                     &sample.plans->items.items[0], false);
    assert_non_null(
        strstr(all_text(*state, book),
               "Turn the quilt center by 90 degrees clockwise first. "
               "It then lies 9\u00bd\u00a0\u00d7\u00a012\u00bd\u00a0"
               "in unfinished."));
    typeset_destroy(typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_corner_blocks),
        cmocka_unit_test(test_mitred),
        cmocka_unit_test(test_unlike_corners),
        cmocka_unit_test(test_a_turned_center),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
