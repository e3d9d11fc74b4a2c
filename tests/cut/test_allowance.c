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
                     "</pattern>",
                     pattern, cloth));
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
    const struct fabric_plan *plan =
        plan_of(*state, "", "sold=\"fat-quarter\" allowance=\"0\"");
    assert_rational(plan->sheet_height, 18, 1);
    assert_rational(plan->strip_length, 21, 1);
    assert_int_equal(plan->bought_sheets, 1);
}

/* ---- what it lasts for ---- */

static struct squaring squaring_for(size_t strips, struct rational more)
{
    const struct bolt bolt = {.shrinkage = rational_whole(0)};
    struct strip strip = {.repeat = strips};
    const struct fabric_plan plan = {.bolt = &bolt,
                                     .strips = {&strip, 1, 1},
                                     .bought =
                                         rational_add(rational_whole(90), more),
                                     .cut_height = rational_whole(90)};
    return squaring_of(&plan, UNIT_IN);
}

/* Half an inch, then an eighth after every fourth strip: 21 strips take 1/2 and
 * five eighths. With an inch alone there are four, behind 5, 10, 15 and 20; 46
 * strips have them behind 10, 20, 30 and 40. */
static void test_squared_up_again(void **state)
{
    static const struct {
        size_t strips;
        int64_t eighths, first;
        size_t every, times;
    } cases[] = {
        {21, 9, 4, 4, 5},  {21, 8, 4, 5, 4},    {17, 8, 4, 4, 4},
        {46, 8, 4, 10, 4}, {46, 100, 4, 4, 11}, {5, 5, 4, 4, 1},
        {5, 4, 4, 5, 0},   {1, 3, 3, 4, 0},     {9, 0, 0, 9, 0},
    };
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct rational more = rational_make(cases[i].eighths, 8);
        const struct squaring found = squaring_for(cases[i].strips, more);
        assert_rational(found.first, cases[i].first, 8);
        assert_rational(found.again, 1, 8);
        assert_int_equal(found.every, cases[i].every);
        assert_int_equal(found.times, cases[i].times);
        assert_true(rational_compare(squaring_takes(&found), more) <= 0);
    }
}

/* What the ruler does not show is not promised: 3/16 are 1/8. */
static void test_squared_in_steps(void **state)
{
    (void)state;
    const struct squaring found = squaring_for(1, rational_make(3, 16));
    assert_rational(found.there, 1, 8);
    assert_rational(found.first, 1, 8);
    const struct squaring usual = usual_squaring(UNIT_CM);
    assert_rational(usual.first, 5, 4);
    assert_rational(usual.again, 1, 4);
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
        cmocka_unit_test(test_squared_up_again),
        cmocka_unit_test(test_squared_in_steps),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
