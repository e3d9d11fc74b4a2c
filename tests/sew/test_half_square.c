/* Half-squares two at a time in all units, seams and sizes: the seam lies
 * beside the diagonal by a seam times the square root of 2, and what is trimmed
 * is exact all the same. A cloth that does not come out ends the program. */
#include <string.h>

#include "../unit.h"
#include "cloth.h"

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
    struct run *run =
        run_create(arena, source_create(arena, "t.xml", text, strlen(text)));
    const struct design *design = resolve_pattern(run, read_pattern(run));
    const struct sewn *sewn = sew_design(run, solve_design(run, design));
    assert_int_equal(diag_count(run, DIAG_ERROR), 0);
    return sewn;
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

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_all_units)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
