/* Half-squares two at a time in all units, seams and sizes: the seam lies
 * beside the diagonal by a seam times the square root of 2, and what is trimmed
 * is exact all the same. A cloth that does not come out ends the program. */
#include <string.h>

#include "../unit.h"
#include "cloth.h"

static const struct sewn *sew_text(struct arena *arena, const char *text)
{
    struct run *run =
        run_create(arena, source_create(arena, "t.xml", text, strlen(text)));
    const struct design *design = resolve_pattern(run, read_pattern(run));
    const struct sewn *sewn = sew_design(run, solve_design(run, design));
    assert_int_equal(diag_count(run, DIAG_ERROR), 0);
    return sewn;
}

static const struct sewn *sew_one(struct arena *arena, const char *units,
                                  const char *seam, const char *size,
                                  const char *line)
{
    const char *text = arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\" "
        "units=\"%s\" seam=\"%s\"><fabrics><fabric id=\"mud\" key=\"m\"/>"
        "<fabric id=\"reed\" key=\"r\"/></fabrics><colorway id=\"a\">"
        "<cloth fabric=\"mud\" color=\"#112233\"/>"
        "<cloth fabric=\"reed\" color=\"#ddeeff\"/></colorway>"
        "<quilt id=\"q\"><half-square line=\"%s\" left=\"mud\" right=\"reed\" "
        "size=\"%s\"/></quilt></pattern>",
        units, seam, line, size);
    return sew_text(arena, text);
}

static void test_all_units(void **state)
{
    static const char *const units[] = {"in", "cm"};
    static const char *const seams[] = {"1/4 in",  "3/8 in", "0.3 in",
                                        "0.75 cm", "5 mm",   "1 cm"};
    static const char *const sizes[] = {"1",   "2 in",  "4.5",   "6",
                                        "7.3", "15 cm", "6 1/3", "20"};
    size_t sewn_count = 0;
    for (size_t u = 0; u < 2; u++)
        for (size_t s = 0; s < 6; s++)
            for (size_t z = 0; z < 8; z++) {
                struct arena *arena = arena_create();
                const struct sewn *sewn =
                    sew_one(arena, units[u], seams[s], sizes[z],
                            (s + z) % 2 == 0 ? "rising" : "falling");
                const struct sewn_quilt *quilt = &sewn->quilts.items[0];
                /* Half of the top is mud: its area is exact. */
                struct rational mud = rational_whole(0);
                for (size_t i = 0; i < quilt->cloth->faces.count; i++)
                    if (quilt->cloth->faces.items[i].fabric == 0)
                        mud = rational_add(
                            mud,
                            face_double_area(quilt->cloth->faces.items[i]));
                assert_true(rational_equal(
                    mud, rational_mul(quilt->width, quilt->height)));
                sewn_count++;
                arena_destroy(arena);
            }
    assert_int_equal(sewn_count, 96);
    (void)state;
}

#define HEAD                                                            \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">" \
    "<fabrics><fabric id=\"a\" key=\"a\" print=\"%s\"/>"                \
    "<fabric id=\"b\" key=\"b\"/></fabrics><colorway id=\"c\">"         \
    "<cloth fabric=\"a\" color=\"#112233\"/>"                           \
    "<cloth fabric=\"b\" color=\"#ddeeff\"/></colorway>"

/* One at a time, at a size between two cutting steps. */
static void test_one_at_a_time_between_steps(void **state)
{
    const char *text = arena_printf(
        *state,
        HEAD "<quilt id=\"q\"><half-square line=\"rising\" left=\"b\" "
             "right=\"a\" method=\"one\" size=\"4/3\"/></quilt></pattern>",
        "solid");
    const struct sewn *sewn = sew_text(*state, text);
    assert_true(rational_equal(sewn->quilts.items[0].heaps.items[0].of.cut.width,
                               rational_make(15, 8)));
}

/* The second of a pair is the first turned by half: with a one-way print only
 * one of the two is what is asked for. */
static void test_a_one_way_pair_gives_one(void **state)
{
    static const char *const prints[] = {"solid", "one-way"};
    for (size_t i = 0; i < 2; i++) {
        const char *text = arena_printf(
            *state,
            HEAD "<quilt id=\"q\"><grid across=\"2\" down=\"1\"><half-square "
                 "line=\"rising\" left=\"a\" right=\"b\" size=\"4\"/></grid>"
                 "</quilt></pattern>",
            prints[i]);
        const struct sewn *sewn = sew_text(*state, text);
        assert_int_equal(sewn->quilts.items[0].heaps.items[0].count, i + 1);
    }
}

/* Two units that look alike in a mirror: each is proved against its own
 * source, not against that of the heap's first builder. */
static void test_mirrored_lookalikes(void **state)
{
    const char *text = arena_printf(
        *state,
        HEAD
        "<unit id=\"u\" width=\"3\" height=\"1\"><row><patch fabric=\"a\" "
        "width=\"2\"><corner at=\"top-left\" fabric=\"b\" size=\"1\"/></patch>"
        "<patch fabric=\"b\"/></row></unit><unit id=\"v\" width=\"2\" "
        "height=\"1\"><patch fabric=\"a\"><corner at=\"top-right\" "
        "fabric=\"b\" size=\"1\"/></patch></unit><quilt id=\"q\"><column>"
        "<use unit=\"u\" mirror=\"yes\"/><row><use unit=\"v\"/><patch "
        "fabric=\"a\" width=\"1\"/></row></column></quilt></pattern>",
        "solid");
    assert_int_equal(sew_text(*state, text)->quilts.count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_units),
        cmocka_unit_test(test_one_at_a_time_between_steps),
        cmocka_unit_test(test_a_one_way_pair_gives_one),
        cmocka_unit_test(test_mirrored_lookalikes),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
