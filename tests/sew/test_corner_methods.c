/* The two ways of sewing a square across a corner: other steps, the same
 * cloth. */
#include "geometry.h"

static const struct sewn_quilt *sew_corners_of(struct arena *arena,
                                               struct small *s,
                                               const char *pattern,
                                               const char *block,
                                               const char *corners)
{
    char *text = (char *)arena_printf(
        arena,
        SMALL_HEAD "<block id=\"b\" grid=\"4\" %s><patch fabric=\"night\" "
                   "width=\"4\" height=\"4\">%s</patch></block>"
                   "<quilt id=\"throw\"><use block=\"b\" finished=\"8\"/>"
                   "</quilt></pattern>",
        block, corners);
    if (pattern[0] != '\0') {
        char *seam = strstr(text, "seam=\"1/4\"");
        text = (char *)arena_printf(arena, "%.*s%s %s", (int)(seam - text),
                                    text, pattern, seam);
    }
    *s = small_whole(arena, text);
    s->sized = solve_design(s->run, s->design);
    assert_int_equal(diag_count(s->run, DIAG_ERROR), 0);
    s->sewn = sew_design(s->run, s->sized);
    return &s->sewn->quilts.items[0];
}

#define CORNER(at, method) \
    "<corner at=\"" at "\" fabric=\"flame\" size=\"1\" " method "/>"

static const struct heap *top_of(const struct sewn_quilt *quilt)
{
    return &quilt->heaps.items[quilt->top];
}

/* The corner's own word, then the block's, then the pattern's; drawn where none
 * of them speaks. */
static void test_who_says_the_method(void **state)
{
    static const struct {
        const char *pattern, *block, *corner, *operation;
    } cases[] = {
        {"", "", "", "flip-corner"},
        {"corner-method=\"cut-first\"", "", "", "cut-corner"},
        {"corner-method=\"cut-first\"", "corner-method=\"drawn\"", "",
         "flip-corner"},
        {"", "corner-method=\"cut-first\"", "", "cut-corner"},
        {"corner-method=\"cut-first\"", "corner-method=\"cut-first\"",
         "method=\"drawn\"", "flip-corner"},
        {"", "", "method=\"cut-first\"", "cut-corner"},
        {"", "corner-method=\"both\"", "", "flip-corner"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        struct small s;
        const char *corner =
            arena_printf(*state,
                         "<corner at=\"top-left\" fabric=\"flame\" size=\"1\" "
                         "%s/>",
                         cases[i].corner);
        const struct heap *heap = top_of(sew_corners_of(
            *state, &s, cases[i].pattern, cases[i].block, corner));
        assert_int_equal(heap->actions.count, 1);
        assert_string_equal(heap->actions.items[0].operation->name,
                            cases[i].operation);
    }
}

/* Whatever the way, the cloth is the same; only `both` shows a second way. */
static void test_the_same_cloth(void **state)
{
    static const char *const methods[] = {"drawn", "cut-first", "both"};
    GEOSContextHandle_t geos = geometry_start();
    const struct cloth *first = NULL;
    for (size_t i = 0; i < 3; i++) {
        struct small s;
        const struct heap *heap = top_of(sew_corners_of(
            *state, &s, "",
            arena_printf(*state, "corner-method=\"%s\"", methods[i]),
            CORNER("top-left", "") CORNER("bottom-right", "")));
        if (first == NULL)
            first = heap->cloth;
        assert_close(cloth_difference(geos, heap->cloth, first, 3), 0);
        const struct action *action = &heap->actions.items[0];
        assert_int_equal(action->seams.count, 2);
        assert_int_equal(action->other.faces.count > 0, i == 2);
        size_t drawn = 0;
        for (size_t k = 0; k < action->before.marks.count; k++)
            drawn += action->before.marks.items[k].kind == MARK_DRAWN;
        assert_int_equal(drawn, i == 1 ? 0 : 2);
    }
    GEOS_finish_r(geos);
}

/* Corners of one piece that are sewn in two ways are two actions, and pieces
 * that differ in the way alone are two heaps. */
static void test_ways_are_kept_apart(void **state)
{
    struct small s;
    const struct heap *heap = top_of(sew_corners_of(
        *state, &s, "", "",
        CORNER("top-left", "") CORNER("bottom-right",
                                      "method=\"cut-first\"")));
    assert_int_equal(heap->actions.count, 2);
    assert_string_equal(heap->actions.items[0].operation->name, "flip-corner");
    assert_string_equal(heap->actions.items[1].operation->name, "cut-corner");
    s = small_whole(
        *state,
        SMALL_HEAD "<quilt id=\"throw\"><row><patch fabric=\"night\" "
                   "width=\"4\" height=\"4\">" CORNER("top-left", "")
                       "</patch><patch fabric=\"night\" width=\"4\">" CORNER(
                           "top-left", "method=\"cut-first\"")
                           "</patch></row></quilt></pattern>");
    s.sized = solve_design(s.run, s.design);
    s.sewn = sew_design(s.run, s.sized);
    size_t corners = 0;
    for (size_t i = 0; i < s.sewn->quilts.items[0].heaps.count; i++)
        corners += s.sewn->quilts.items[0].heaps.items[i].technique ==
                   TECHNIQUE_CORNERS;
    assert_int_equal(corners, 2);
}

/* What is cut off first lies a seam's width beyond the diagonal: a corner of
 * C - s * sqrt 2 less than the square, on both edges (derived). */
static void test_the_cut(void **state)
{
    struct small s;
    const struct heap *heap = top_of(sew_corners_of(
        *state, &s, "", "", CORNER("top-left", "method=\"cut-first\"")));
    double least = 100;
    const struct state *before = &heap->actions.items[0].before;
    for (size_t i = 0; i < before->faces.count; i++)
        for (size_t k = 0; k < before->faces.items[i].face.count; k++) {
            const struct vertex v = before->faces.items[i].face.points[k];
            least = fmin(least, rational_double(v.x) + rational_double(v.y));
        }
    /* The square is 2 1/2 cut, its corner at (-1/4, -1/4): x + y on the cut is
     * -1/2 + 2 1/2 - 1/4 * sqrt 2. */
    assert_true(fabs(least - (-0.5 + 2.5 - 0.25 * sqrt(2))) < 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_who_says_the_method),
        cmocka_unit_test(test_the_same_cloth),
        cmocka_unit_test(test_ways_are_kept_apart),
        cmocka_unit_test(test_the_cut),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
