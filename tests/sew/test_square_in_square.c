/* Squares in squares: cut sizes against published ones, slack and reach against
 * what the cut pieces give, prints with a direction. */
#include <math.h>

#include "../resolve/small.h"

static const double root2 = 1.4142135623730951;

static struct small sew_square(struct arena *arena, const char *attributes)
{
    return small_sew(
        arena, arena_printf(arena,
                            "<quilt id=\"q\"><square-in-square center=\"night\" "
                            "corners=\"glow\" %s/></quilt>",
                            attributes));
}

static const struct sewn_quilt *quilt_of(const struct small *s)
{
    expect_clean(s);
    return &s->sewn->quilts.items[0];
}

static const struct heap *cut_of(const struct sewn_quilt *quilt, int fabric)
{
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].technique == TECHNIQUE_CUT &&
            quilt->heaps.items[i].of.cut.fabric == fabric)
            return &quilt->heaps.items[i];
    fail_msg("nothing is cut from fabric %d", fabric);
    return NULL;
}

/* A finished size in sixteenths; cut sizes in eighths, -1 for not published. */
static void assert_triangles(int64_t size, int64_t center, int64_t corner)
{
    struct arena *arena = arena_create();
    const struct small s = sew_square(
        arena, arena_printf(arena, "method=\"triangles\" size=\"%s\"",
                            length_plain(arena, rational_make(size, 16),
                                         UNIT_IN)));
    const struct sewn_quilt *quilt = quilt_of(&s);
    if (center >= 0)
        assert_rational(cut_of(quilt, 0)->of.cut.width, center, 8);
    assert_rational(cut_of(quilt, 2)->of.cut.width, corner, 8);
    assert_int_equal(cut_of(quilt, 0)->count, 1);
    assert_int_equal(cut_of(quilt, 2)->count, 2);
    arena_destroy(arena);
}

/* trade.md 5.1: F / 2 x 1.414 + 1/2 and F / 2 + 7/8, 12 from 9 and 6 7/8
 * ("Lesson 5 Square in a Square", slideblast.com); 5.2, its exercises computed:
 * 9, 6, 15; 5.3: 6 from 4 3/4 and 3 7/8 (A. Grossman Solomon, Craftsy,
 * craftsy.com/quilting/article/square-on-point). 5.6: finished legs of 3 5/8
 * are cut 4 1/2 (quiltingboard.com/8312481-post1.html) and of 4 1/4 5 1/8
 * (old.quiltube.com/forum, 9315). */
static void test_triangles_published(void **state)
{
    (void)state;
    assert_triangles(192, 72, 55);
    assert_triangles(144, 55, 43);
    assert_triangles(96, 38, 31);
    assert_triangles(240, 89, 67);
    assert_triangles(116, -1, 36);
    assert_triangles(136, -1, 41);
}

/* The rule for the corners at every quarter; the center is never too small, and
 * by less than a step too large. */
static void test_triangles_rule(void **state)
{
    (void)state;
    for (int64_t quarters = 4; quarters < 80; quarters++) {
        assert_triangles(4 * quarters, -1, quarters + 7);
        struct arena *arena = arena_create();
        const struct small s = sew_square(
            arena, arena_printf(arena, "method=\"triangles\" size=\"%s\"",
                                length_plain(arena, rational_make(quarters, 4),
                                             UNIT_IN)));
        const double center =
            rational_double(cut_of(quilt_of(&s), 0)->of.cut.width);
        const double exact = (double)quarters / 4.0 / root2 + 0.5;
        assert_true(center >= exact && center < exact + 0.125);
        arena_destroy(arena);
    }
}

/* + 1/2 for the square and for its four corners (squares and rectangles: K.
 * Combs, "Formulas for Quilters", 2002; corners: The Basics of Stitch and Flip,
 * canuckquilter.com, March 2024). */
static void test_corners(void **state)
{
    (void)state;
    for (int64_t quarters = 4; quarters < 40; quarters++) {
        struct arena *arena = arena_create();
        const struct small s = sew_square(
            arena, arena_printf(arena, "size=\"%s\"",
                                length_plain(arena, rational_make(quarters, 4),
                                             UNIT_IN)));
        const struct sewn_quilt *quilt = quilt_of(&s);
        assert_rational(cut_of(quilt, 0)->of.cut.width, quarters + 2, 4);
        assert_rational(cut_of(quilt, 2)->of.cut.width, quarters + 4, 8);
        assert_int_equal(cut_of(quilt, 2)->count, 4);
        assert_int_equal(quilt->heaps.items[quilt->top].actions.count, 2);
        arena_destroy(arena);
    }
}

/* ---- slack ---- */

static struct small sew_any(struct arena *arena, const char *units,
                            const char *seam, const char *size,
                            const char *prints[2])
{
    struct small s = small_whole(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\" "
            "units=\"%s\" seam=\"%s\"><fabrics><fabric id=\"mud\" "
            "print=\"%s\"/><fabric id=\"sand\"/><fabric id=\"reed\" "
            "print=\"%s\"/></fabrics>"
            "<colorway id=\"a\"><cloth fabric=\"mud\" color=\"#112233\"/>"
            "<cloth fabric=\"sand\" color=\"#445566\"/>"
            "<cloth fabric=\"reed\" color=\"#ddeeff\"/></colorway>"
            "<quilt id=\"q\"><square-in-square center=\"mud\" corners=\"reed\" "
            "method=\"triangles\" size=\"%s\"/></quilt></pattern>",
            units, seam, prints[0], prints[1], size));
    small_finish(&s);
    return s;
}

/* Sewn from what is cut, before it is trimmed: the seams lie half the center
 * less a seam from the middle, and beyond them a triangle as high as half its
 * long edge, less a seam. A corner of the whole is that far out on the
 * diagonal. */
static void assert_slack(const struct small *s)
{
    const struct sewn_quilt *quilt = quilt_of(s);
    const struct heap *heap = &quilt->heaps.items[quilt->top];
    const struct square_in_square *of = &heap->of.square_in_square;
    const double seam = rational_double(s->pattern->seam);
    const double unfinished = rational_double(heap->width) + 2.0 * seam;
    const double center = rational_double(cut_of(quilt, 0)->of.cut.width);
    const double corner = rational_double(cut_of(quilt, 2)->of.cut.width);
    const double out = center / 2.0 - seam + corner / root2 - seam;
    const double sewn = 2.0 * out / root2;
    const double point = (center / 2.0 - seam) * root2;
    const double step = rational_double(s->pattern->cutting_step);
    assert_true(sewn >= unfinished - 1e-9);
    assert_true(sewn < unfinished + 2.0 * step);
    assert_true(fabs(sewn - unfinished - rational_double(of->slack)) < 1e-6);
    assert_true(fabs(unfinished / 2.0 - point - rational_double(of->reach)) <
                1e-6);
    assert_true(rational_compare(of->reach, s->pattern->seam) <= 0);
    assert_true(rational_sign(of->reach) > 0);
}

static void test_slack(void **state)
{
    (void)state;
    static const char *const units[] = {"in", "cm"};
    static const char *const seams[] = {"1/4 in", "3/8 in", "0.3 in",
                                        "0.75 cm", "5 mm",  "1 cm"};
    static const char *const sizes[] = {"2",   "3 in",  "4.5",   "6",
                                        "7.3", "15 cm", "6 1/3", "20"};
    const char *plain[2] = {"solid", "solid"};
    size_t seen = 0;
    for (size_t i = 0; i < 2 * 6 * 8; i++) {
        struct arena *arena = arena_create();
        const struct small s = sew_any(arena, units[i % 2], seams[i / 2 % 6],
                                       sizes[i / 12], plain);
        assert_slack(&s);
        seen++;
        arena_destroy(arena);
    }
    assert_int_equal(seen, 96);
}

/* ---- prints ---- */

/* A center of triangles stands on its point, so a print of it cannot stand
 * upright, and that is told. The triangles can be cut so that theirs does. */
static void test_one_way_print(void **state)
{
    const char *on_center[2] = {"one-way", "solid"};
    const char *on_corners[2] = {"solid", "one-way"};
    const struct small center = sew_any(*state, "in", "1/4", "6", on_center);
    expect_clean(&center);
    assert_int_equal(small_count(&center, DIAG_ONE_WAY_PRINT), 1);
    const struct small corners = sew_any(*state, "in", "1/4", "6", on_corners);
    expect_clean(&corners);
    assert_int_equal(small_count(&corners, DIAG_ONE_WAY_PRINT), 0);
}

/* ---- slips ---- */

static void test_slips(void **state)
{
    static const struct {
        const char *center, *corners;
        enum diag_code code;
    } slips[] = {{"glow", "night", DIAG_SWAPPED},
                 {"flame", "glow", DIAG_WRONG_FABRIC},
                 {"night", "flame", DIAG_WRONG_FABRIC}};
    for (size_t i = 0; i < UNIT_COUNT(slips); i++) {
        const struct small s = small_sew(
            *state,
            arena_printf(*state,
                         "<block id=\"b\" grid=\"2\"><square-in-square "
                         "center=\"%s\" corners=\"%s\"/><picture>g/n n\\g\n"
                         "g\\n n/g</picture></block><quilt id=\"q\"><use "
                         "block=\"b\" finished=\"4\"/></quilt>",
                         slips[i].center, slips[i].corners));
        if (small_count(&s, slips[i].code) != 1)
            small_show(&s);
        assert_int_equal(small_count(&s, slips[i].code), 1);
        assert_int_equal(small_errors(&s), 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_triangles_published),
        cmocka_unit_test(test_triangles_rule),
        cmocka_unit_test(test_corners),
        cmocka_unit_test(test_slack),
        cmocka_unit_test(test_one_way_print),
        cmocka_unit_test(test_slips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
