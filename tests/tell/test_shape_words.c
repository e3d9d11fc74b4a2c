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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shapes_are_counted_not_their_strips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
