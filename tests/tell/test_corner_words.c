/* The two ways of sewing a square across a corner, in the words of their step:
 * with a line that is drawn, or cut first; of one square and of two. */
#include "../book/pages.h"

/* Opposite corners are sewn together, in one action. */
#define AT(corner) "<corner at=\"" corner "\" fabric=\"sail\" size=\"1\"/>"
#define ONE AT("top-left")
#define ALIKE AT("top-left") AT("bottom-right")
#define ACROSS AT("top-left") AT("top-right")

static const char *booklet_of(struct arena *arena, const char *method,
                              const char *corners)
{
    const struct sample sample = sample_text(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"lee\" "
            "title=\"Lee\" units=\"in\" seam=\"1/4\" corner-method=\"%s\">"
            "<fabrics><fabric id=\"reef\"/><fabric id=\"sail\"/></fabrics>"
            "<colorway id=\"calm\"><cloth fabric=\"reef\" color=\"#1b3a4b\"/>"
            "<cloth fabric=\"sail\" color=\"#e9eef0\"/></colorway>"
            "<quilt id=\"mat\"><patch fabric=\"reef\" width=\"4\" "
            "height=\"4\">%s</patch></quilt></pattern>",
            method, corners));
    struct typeset *typeset = typeset_create();
    const char *text =
        all_text(arena, compose_book(arena, typeset, phrases_load(arena, "en"),
                                     sample.design,
                                     &sample.plans->items.items[0], false));
    typeset_destroy(typeset);
    return text;
}

static const struct {
    const char *corners;
    const char *drawn[3], *cut[2];
} cases[] = {
    {ONE,
     {"Draw its diagonal: \u2571\u00a0rising.", "Sew on the line.",
      "Cut off both layers, \u00bc\u00a0in outside the seam."},
     {"Lay the ruler's \u00bc\u00a0in line on the diagonal: \u2571\u00a0rising. Cut "
      "off the corner, both layers.",
      "Sew \u00bc\u00a0in from the cut edge."}},
    {ALIKE,
     {"Draw their diagonals", "Sew on the lines.",
      "Cut off both layers, \u00bc\u00a0in outside the seams."},
     {"Lay the ruler's \u00bc\u00a0in line on the diagonals: \u2571\u00a0rising. "
      "Cut "
      "off the corners, both layers.",
      "Sew \u00bc\u00a0in from the cut edges."}},
    {ACROSS,
     {"Draw each diagonal across its corner.", "Sew on the lines.",
      "Cut off both layers, \u00bc\u00a0in outside the seams."},
     {"Lay the ruler's \u00bc\u00a0in line on each diagonal, across the "
      "corner. "
      "Cut off the corners, both layers.",
      "Sew \u00bc\u00a0in from the cut edges."}},
};

static void test_each_way_has_its_words(void **state)
{
    static const struct {
        const char *method;
        bool drawn, cut;
    } ways[] = {{"drawn", true, false},
                {"cut-first", false, true},
                {"both", true, true}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        for (size_t k = 0; k < UNIT_COUNT(ways); k++) {
            const char *text =
                booklet_of(*state, ways[k].method, cases[i].corners);
            for (size_t n = 0; n < UNIT_COUNT(cases[i].drawn); n++)
                if ((strstr(text, cases[i].drawn[n]) != NULL) != ways[k].drawn)
                    fail_msg("%s: %s\n%s", ways[k].method, cases[i].drawn[n],
                             text);
            for (size_t n = 0; n < UNIT_COUNT(cases[i].cut); n++)
                if ((strstr(text, cases[i].cut[n]) != NULL) != ways[k].cut)
                    fail_msg("%s: %s\n%s", ways[k].method, cases[i].cut[n],
                             text);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_way_has_its_words),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
