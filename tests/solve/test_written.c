/* Decimals that no ruler has. */
#include "../resolve/small.h"

/* Rulers have halves of an inch, and of these again; or halves of a millimetre.
 */
static void test_decimals_on_rulers(void **state)
{
    static const struct {
        const char *units, *width;
        bool on_ruler;
    } cases[] = {{"in", "3.125", true}, {"in", "3.0625", true},
                 {"in", "3.2", false},  {"in", "3.05", false},
                 {"cm", "3.2", true},   {"cm", "3.05", true},
                 {"cm", "3.125", false}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        struct small s = small_whole(
            *state,
            arena_printf(
                *state,
                "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" "
                "title=\"Small\" units=\"%s\"><fabrics><fabric id=\"reed\"/>"
                "</fabrics><colorway id=\"dusk\"><cloth fabric=\"reed\" "
                "color=\"#55663f\"/></colorway><quilt id=\"throw\">"
                "<patch fabric=\"reed\" width=\"%s\" height=\"4\"/></quilt>"
                "</pattern>",
                cases[i].units, cases[i].width));
        s.sized = solve_design(s.run, s.design);
        const struct diagnostic **said;
        size_t off = 0;
        for (size_t k = 0, all = diag_sorted(s.run, &said); k < all; k++)
            off += strstr(said[k]->message, "is on no ruler") != NULL;
        assert_int_equal(off, !cases[i].on_ruler);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_decimals_on_rulers),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
