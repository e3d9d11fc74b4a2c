/* A cloth is planned once for all colorways in which it is sold alike; and
 * where it is only asked whether amounts hold, up to the first that does not.
 */
#include "../resolve/small.h"
#include "cutplan.h"

/* Two sizes of the night and one of the glow. `first` and `second` are what is
 * written in the cloth of the night in either colorway, `glow` in that of the
 * glow of the first. */
static struct small small_colorways(struct arena *arena, const char *first,
                                    const char *second, const char *glow)
{
    static const char *const form =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"s\" title=\"S\" "
        "allowance=\"1/8\">\n<fabrics><fabric id=\"night\"/>"
        "<fabric id=\"glow\"/></fabrics>"
        "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"#000000\" %s/>"
        "<cloth fabric=\"glow\" color=\"#ffffff\" %s/></colorway>"
        "<colorway id=\"dawn\"><cloth fabric=\"night\" color=\"#000088\" %s/>"
        "<cloth fabric=\"glow\" color=\"#ffff88\"/></colorway>"
        "<quilt id=\"q\"><row><grid across=\"41\" down=\"2\">"
        "<patch fabric=\"night\" width=\"6\" height=\"6\"/></grid>"
        "<grid across=\"5\" down=\"4\"><patch fabric=\"glow\" width=\"3\" "
        "height=\"3\"/></grid>"
        "<grid across=\"5\" down=\"4\"><patch fabric=\"night\" width=\"3\" "
        "height=\"3\"/></grid></row></quilt></pattern>";
    struct small s =
        small_whole(arena, arena_printf(arena, form, first, glow, second));
    small_finish(&s);
    expect_clean(&s);
    return s;
}

/* The night of either colorway. */
static const struct fabric_plan *night_of(const struct cutplans *plans,
                                          size_t colorway)
{
    return &plans->items.items[colorway].fabrics[0];
}

static void test_planned_once(void **state)
{
    const struct small s =
        small_colorways(*state, "name=\"Ink\" price=\"12\"",
                        "name=\"Sea\" price=\"9\" code=\"7\"", "");
    const struct cutplans *plans = plan_cutting(s.run, s.sewn);
    const struct fabric_plan *dusk = night_of(plans, 0);
    const struct fabric_plan *dawn = night_of(plans, 1);
    assert_true(dusk->strips.count > 0);
    assert_ptr_equal(dawn->strips.items, dusk->strips.items);
    assert_true(rational_equal(dawn->bought, dusk->bought));
    /* Each is still bought as its own. */
    assert_string_equal(dusk->bolt->name, "Ink");
    assert_string_equal(dawn->bolt->name, "Sea");
}

/* Another cloth is another plan, the same as where it is the only one. */
static void test_unlike_cloth(void **state)
{
    static const char *const unlike[] = {
        "width=\"40\"",        "selvage=\"1/2\"", "shrinkage=\"5\"",
        "allowance=\"2\"",     "reserve=\"1\"",   "layers=\"1\"",
        "sold=\"fat-quarter\""};
    for (size_t i = 0; i < UNIT_COUNT(unlike); i++) {
        const struct small s = small_colorways(*state, "", unlike[i], "");
        const struct cutplans *plans = plan_cutting(s.run, s.sewn);
        const struct small both =
            small_colorways(*state, unlike[i], unlike[i], "");
        const struct cutplans *alone = plan_cutting(both.run, both.sewn);
        const struct fabric_plan *dawn = night_of(plans, 1);
        const struct fabric_plan *own = night_of(alone, 1);
        assert_ptr_not_equal(dawn->items.items,
                             night_of(plans, 0)->items.items);
        assert_true(rational_equal(dawn->bought, own->bought));
        assert_int_equal(dawn->bought_sheets, own->bought_sheets);
        assert_int_equal(dawn->strips.count, own->strips.count);
        assert_int_equal(dawn->effort.settings, own->effort.settings);
        assert_true(rational_equal(dawn->allowance, own->allowance));
        assert_true(rational_equal(dawn->reserve, own->reserve));
    }
}

/* A cloth without an amount is not planned for one; that of the other colorway
 * is. */
static void test_stated_in_one(void **state)
{
    struct small s = small_colorways(*state, "", "yards=\"1\"", "");
    check_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"1\"", "1");
    s = small_colorways(*state, "yards=\"1\"", "", "");
    check_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"1\"", "1");
    s = small_colorways(*state, "yards=\"1\"", "yards=\"2\"", "");
    check_cutting(s.run, s.sewn);
    assert_int_equal(small_count(&s, DIAG_YARDAGE), 2);
}

/* The glow has fewer items, so it is planned first, and ends it. */
static void test_brief(void **state)
{
    struct small s =
        small_colorways(*state, "yards=\"1\"", "yards=\"2\"", "yards=\"5\"");
    s.run->brief = true;
    check_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"5\"", "5");
    /* Nothing is left out where it is right. */
    s = small_colorways(*state, "yards=\"1\"", "yards=\"2\"", "yards=\"1/4\"");
    s.run->brief = true;
    check_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"1\"", "1");
    s = small_colorways(*state, "", "yards=\"2\"", "yards=\"1/4\"");
    s.run->brief = true;
    check_cutting(s.run, s.sewn);
    expect_only(&s, DIAG_YARDAGE, "yards=\"2\"", "2");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_planned_once),
        cmocka_unit_test(test_unlike_cloth),
        cmocka_unit_test(test_stated_in_one),
        cmocka_unit_test(test_brief),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
