/* What is said of pieces with slanted edges: how many there are, and the lengths
 * by which they are cut from their strips. Sums by hand, beside each. */
#include "content.h"
#include "told_cutting.h"

#include "../book/sample.h"

#define HEAD                                                                   \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"reef\" title=\"Reef\">"     \
    "<fabrics><fabric id=\"kelp\" key=\"k\"/><fabric id=\"sand\" key=\"s\"/>"   \
    "</fabrics><colorway id=\"ebb\"><cloth fabric=\"kelp\" name=\"Moss\" "        \
    "color=\"#224433\"/><cloth fabric=\"sand\" name=\"Dune\" "                    \
    "color=\"#ccbb88\"/></colorway><quilt id=\"mat\" name=\"Mat\">"

/* Two rows: half hexagons, diamonds that lean either way, a triangle; ends. */
static const char triangles[] =
    HEAD "<triangles across=\"9\" down=\"2\" size=\"6\" ends=\"sand\">"
         "<patch fabric=\"kelp\" key=\"k\"/><patch fabric=\"sand\" key=\"s\"/>"
         "<map>k.3 k.2 s k.3 s s k.2 k.2 s k.2</map></triangles></quilt>"
         "</pattern>";

/* Strips of 3 in, by hand 2 1/2 + 2 x 1/4. */
static const char star[] =
    HEAD "<eight-pointed-star points=\"kelp\" corners=\"sand\" strip=\"3\"/>"
         "</quilt></pattern>";

static struct wording words_of(struct arena *arena, const struct sample *sample,
                               const char *language)
{
    return (struct wording){arena, sample->design,
                            sample->plans->items.items[0].quilt, true,
                            phrases_load(arena, language)};
}

/* ---- how many ---- */

/* Two half hexagons, four diamonds, four triangles, four ends; of the star eight
 * diamonds and four corners, its sides from one square. Strips are no pieces. */
static void test_shapes_are_counted_not_their_strips(void **state)
{
    const struct {
        const char *text, *count;
    } cases[] = {{triangles, "14 pieces"}, {star, "13 pieces"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct sample sample = sample_text(*state, cases[i].text);
        const struct wording w = words_of(*state, &sample, "en");
        const struct contents all =
            tell_glance(&w, &sample.plans->items.items[0]);
        const char *lead = all.items.items[0].as.heading.lead;
        assert_memory_equal(lead, cases[i].count, strlen(cases[i].count));
    }
}

/* ---- lengths ---- */

/* Is it one of the lines by which the first cloth is cut? */
static bool is_told(const struct wording *w, const struct fabric_plan *plan,
                    const char *wanted)
{
    bool told = false;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct told_line line =
            tell_strip_line(w, plan, &plan->strips.items[i]);
        for (size_t k = 0; k < line.cuts.count; k++)
            told |= strcmp(line.cuts.items[k].text, wanted) == 0;
    }
    return told;
}

/* With seams of 1/4 in, of pieces that are finished 6 in high: a diamond's cuts
 * lie 6 1/2 in apart, 6 1/2 x 2 / root 3 = 7.51 along the edge; a half hexagon
 * has edges of 24 / root 3 + 3 x 1/2 / root 3 = 14.72 and half of that, less a
 * seam's part, 7.22; a triangle with its tips of 6 3/4 x 2 / root 3 = 7.79. What
 * ends a row is 6 3/4 / root 3 + 1/4 = 4.15 long at one edge, 1/4 at the other.
 * A diamond of a star of strips of 3 in: 3 in apart, 3 x root 2 = 4.24. */
static void test_lengths_by_which_shapes_are_cut(void **state)
{
    static const struct {
        const char *text;
        int fabric;
        const char *english, *german;
    } cases[] = {
        {triangles, 0,
         "A2 and A3: parallel cuts 6½ in apart, measured square to them "
         "(≈7½ in along the edge).",
         "A2 und A3: parallele Schnitte im Abstand von 6½ Inch, "
         "rechtwinklig dazu gemessen (an der Kante ≈7½ Inch)."},
        {triangles, 0,
         "A1: ≈14¾ in along the long edge, ≈7¼ in along the short "
         "one.",
         "A1: lange Kante ≈14¾ Inch, kurze Kante ≈7¼ Inch."},
        {triangles, 1,
         "B1: ≈7¾ in along the edge, from point to point.",
         "B1: an der Kante ≈7¾ Inch, von Spitze zu Spitze."},
        {triangles, 1,
         "B2 and B3: ≈4⅛ in along the long edge, ¼ in along the "
         "short one; one end square to the edge.",
         "B2 und B3: lange Kante ≈4⅛ Inch, kurze Kante ¼ Inch; ein "
         "Ende rechtwinklig zur Kante schneiden."},
        {star, 0,
         "A1: parallel cuts 3 in apart, measured square to them "
         "(≈4¼ in along the edge).",
         "A1: parallele Schnitte im Abstand von 3 Inch, rechtwinklig dazu "
         "gemessen (an der Kante ≈4¼ Inch)."}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct sample sample = sample_text(*state, cases[i].text);
        const struct wording english = words_of(*state, &sample, "en");
        const struct wording german = words_of(*state, &sample, "de");
        const struct fabric_plan *plan =
            &sample.plans->items.items[0].fabrics[cases[i].fabric];
        if (!is_told(&english, plan, cases[i].english))
            fail_msg("not told: %s", cases[i].english);
        if (!is_told(&german, plan, cases[i].german))
            fail_msg("not told: %s", cases[i].german);
    }
}

/* Of strips of 2 in the true outline is drawn, which is 2 + 2 x root 2 = 4.83 in
 * wide, not the rectangle that it takes of its strip. */
static void test_true_outline_of_a_diamond(void **state)
{
    const struct sample sample = sample_text(
        *state, HEAD "<eight-pointed-star points=\"kelp\" corners=\"sand\" "
                     "strip=\"2\"/></quilt></pattern>");
    const struct wording w = words_of(*state, &sample, "en");
    const struct contents all = tell_scale(&w);
    size_t diamonds = 0;
    for (size_t i = 0; i < all.items.count; i++) {
        const struct content *content = &all.items.items[i];
        if (content->kind != CONTENT_FIGURE ||
            content->as.figure.drawing != DRAWING_SHAPE ||
            strcmp(content->as.figure.labels.items[0], "A1") != 0)
            continue;
        const struct told_figure *figure = &content->as.figure;
        assert_non_null(figure->shape);
        assert_true(rational_equal(
            figure->width,
            rational_add(rational_whole(2),
                         rational_times(rational_root(2), 2))));
        assert_true(rational_equal(figure->height, rational_whole(2)));
        diamonds++;
    }
    assert_int_equal(diamonds, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shapes_are_counted_not_their_strips),
        cmocka_unit_test(test_lengths_by_which_shapes_are_cut),
        cmocka_unit_test(test_true_outline_of_a_diamond),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
