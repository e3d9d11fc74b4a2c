/* Cloth for squaring up: stated by the pattern, by a cloth, and as nothing. A
 * patch of 8 x 8 1/2 is cut 8 1/2 x 9, in one strip of 8 1/2 with its longer
 * side along: two eighths of a yard are 9 in, three are 13 1/2. */
#include "../resolve/small.h"
#include "cutplan.h"

static const struct fabric_plan *plan_of(struct arena *arena,
                                         const char *pattern, const char *cloth)
{
    const struct small s = small_whole(
        arena,
        arena_printf(arena,
                     "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" "
                     "title=\"P\" %s><fabrics><fabric id=\"night\"/></fabrics>"
                     "<colorway id=\"c\"><cloth fabric=\"night\" "
                     "color=\"#123456\" %s/></colorway><quilt id=\"q\"><patch "
                     "fabric=\"night\" width=\"8 1/2\" height=\"8\"/></quilt>"
                     "</pattern>", pattern, cloth));
    struct small sewn = s;
    small_finish(&sewn);
    expect_clean(&sewn);
    return &plan_cutting(sewn.run, sewn.sewn)->items.items[0].fabrics[0];
}

static void test_stated(void **state)
{
    static const struct {
        const char *pattern, *cloth;
        int64_t allowance, needed, bought; /* halves of an inch */
    } cases[] = {
        {"", "", 2, 19, 27},
        {"allowance=\"0\"", "", 0, 17, 18},
        {"allowance=\"0 in\"", "", 0, 17, 18},
        {"", "allowance=\"0\"", 0, 17, 18},
        {"allowance=\"0\"", "allowance=\"1/2\"", 1, 18, 18},
        {"allowance=\"3\"", "allowance=\"0.0\"", 0, 17, 18},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct fabric_plan *plan =
            plan_of(*state, cases[i].pattern, cases[i].cloth);
        assert_rational(plan->allowance, cases[i].allowance, 2);
        assert_rational(plan->cut_height, 17, 2);
        assert_rational(plan->needed, cases[i].needed, 2);
        assert_rational(plan->bought, cases[i].bought, 2);
    }
}

/* Sheets lose nothing unless their cloth says so, and 0 says nothing. */
static void test_sheets(void **state)
{
    const struct fabric_plan *plan = plan_of(
        *state, "", "sold=\"fat-quarter\" allowance=\"0\"");
    assert_rational(plan->sheet_height, 18, 1);
    assert_rational(plan->strip_length, 21, 1);
    assert_int_equal(plan->bought_sheets, 1);
}

/* Less than nothing, and nothing elsewhere, is refused as ever. */
static void test_refused(void **state)
{
    static const char *const values[] = {"allowance=\"-1\"", "seam=\"0\"",
                                         "cutting-step=\"0\"",
                                         "allowance=\"none\""};
    for (size_t i = 0; i < UNIT_COUNT(values); i++) {
        const struct small s = small_whole(
            *state,
            arena_printf(*state,
                         "<pattern xmlns=\"urn:seamwright:pattern:1\" "
                         "id=\"p\" title=\"P\" %s><fabrics><fabric "
                         "id=\"night\"/></fabrics><colorway id=\"c\"><cloth "
                         "fabric=\"night\" color=\"#123456\"/></colorway>"
                         "<quilt id=\"q\"><patch fabric=\"night\" "
                         "width=\"8\" height=\"8\"/></quilt></pattern>",
                         values[i]));
        assert_int_equal(small_count(&s, DIAG_LENGTH), 1);
        assert_int_equal(small_errors(&s), 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_stated),
        cmocka_unit_test(test_sheets),
        cmocka_unit_test(test_refused),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
