/* What can be told apart on the pages: text from what lies behind it, lines
 * from their neighbours, patches from each other, in colour, in grey and as
 * people see them who lack red or green cones. Ratios are those of WCAG 2.2
 * (1.4.3: 4.5, large bold text 3; 1.4.11: lines and areas 3). */
#include "check_contrast.h"

/* Black on white is 21:1, and #767676 the lightest grey of 4.5:1 on white
 * (both well known from WCAG's own notes). */
static void test_ratio_agrees_with_published_ones(void **state)
{
    (void)state;
    const struct color black = {0.0, 0.0, 0.0}, snow = {1.0, 1.0, 1.0};
    const double six = 0x76 / 255.0, seven = 0x77 / 255.0;
    assert_true(fabs(ratio(black, snow) - 21.0) < 1e-9);
    assert_true(ratio((struct color){six, six, six}, snow) >= 4.5);
    assert_true(ratio((struct color){seven, seven, seven}, snow) < 4.5);
}

static void test_white_stays_white(void **state)
{
    (void)state;
    for (int sight = 0; sight < SIGHTS; sight++)
        for (int i = 0; i < 3; i++)
            assert_true(fabs(sights[sight][i][0] + sights[sight][i][1] +
                             sights[sight][i][2] - 1.0) < 1e-5);
}

static void test_text_stands_out(void **state)
{
    visit_booklets(state, look_at_texts);
}

static void test_lines_stand_out(void **state)
{
    visit_booklets(state, look_at_line_contrast);
}

static void test_neighbours_are_told_apart(void **state)
{
    visit_booklets(state, look_at_neighbours);
}

static void test_color_has_no_hatch(void **state)
{
    visit_booklets(state, look_for_hatches);
}

static void test_hatches_show_in_grey(void **state)
{
    visit_booklets(state, look_at_grey);
}

/* Neighbours by number, twice round the set: 30 degrees or twice the spacing;
 * lines away from the edges of patchwork; spacings of 1.5 to 6 mm. */
static void test_hatches_differ(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct color cloth = {0.4, 0.5, 0.6};
    struct path_item last = {.fill = cloth}, next = last;
    last.hatch = cloth_hatch(arena, 0, cloth);
    assert_null(last.hatch);
    for (int i = 1; i < 30; i++) {
        next.hatch = cloth_hatch(arena, i, cloth);
        assert_true(hatches_differ(&last, &next, SIGHT_FULL));
        assert_true(fmod(next.hatch->angle + 22.5, 45.0) == 0.0);
        const double spacing = next.hatch->spacing * 25.4 / 72.0;
        assert_true(spacing > 1.499 && spacing < 6.01);
        last = next;
    }
    for (int i = 0; i < 13; i++)
        for (int k = 0; k < i; k++) {
            last.hatch = cloth_hatch(arena, i, cloth);
            next.hatch = cloth_hatch(arena, k, cloth);
            assert_true(hatches_differ(&last, &next, SIGHT_FULL));
        }
    arena_destroy(arena);
}

/* Three lines fit, two do not; nor a row of ticks along a ribbon. */
static void test_small_areas_have_no_hatch(void **state)
{
    (void)state;
    const struct hatch hatch = {90.0, 4.0, 0.5, false, {0.0, 0.0, 0.0}};
    const struct point wide[] = {{0, 0}, {12.1, 0}, {12.1, 9}, {0, 9}};
    const struct point small[] = {{0, 0}, {11.9, 0}, {11.9, 9}, {0, 9}};
    const struct point ribbon[] = {{0, 0}, {90, 0}, {90, 5}, {0, 5}};
    assert_true(hatch_fits(&hatch, wide, 4));
    assert_false(hatch_fits(&hatch, small, 4));
    assert_false(hatch_fits(&hatch, ribbon, 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ratio_agrees_with_published_ones),
        cmocka_unit_test(test_white_stays_white),
        cmocka_unit_test(test_text_stands_out),
        cmocka_unit_test(test_lines_stand_out),
        cmocka_unit_test(test_neighbours_are_told_apart),
        cmocka_unit_test(test_color_has_no_hatch),
        cmocka_unit_test(test_hatches_show_in_grey),
        cmocka_unit_test(test_hatches_differ),
        cmocka_unit_test(test_small_areas_have_no_hatch),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
