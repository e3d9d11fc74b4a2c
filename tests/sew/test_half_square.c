/* Half-squares two, four and eight at a time in all units, seams and sizes: the
 * square root of 2 is in all of them, and what is trimmed is exact all the
 * same. A cloth that does not come out ends the program. */
#include <math.h>
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
                                  const char *line, const char *method)
{
    const char *text = arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\" "
        "units=\"%s\" seam=\"%s\"><fabrics><fabric id=\"mud\" key=\"m\"/>"
        "<fabric id=\"reed\" key=\"r\"/></fabrics><colorway id=\"a\">"
        "<cloth fabric=\"mud\" color=\"#112233\"/>"
        "<cloth fabric=\"reed\" color=\"#ddeeff\"/></colorway>"
        "<quilt id=\"q\"><half-square line=\"%s\" left=\"mud\" right=\"reed\" "
        "size=\"%s\" method=\"%s\"/></quilt></pattern>",
        units, seam, line, size, method);
    return sew_text(arena, text);
}

/* Half of the top is mud: its area is exact. */
static void assert_half_mud(const struct sewn_quilt *quilt)
{
    struct rational mud = rational_whole(0);
    for (size_t i = 0; i < quilt->cloth->faces.count; i++)
        if (quilt->cloth->faces.items[i].fabric == 0)
            mud = rational_add(mud,
                               face_double_area(quilt->cloth->faces.items[i]));
    assert_true(rational_equal(mud, rational_mul(quilt->width, quilt->height)));
}

static void test_all_units(void **state)
{
    static const char *const units[] = {"in", "cm"};
    static const char *const seams[] = {"1/4 in",  "3/8 in", "0.3 in",
                                        "0.75 cm", "5 mm",   "1 cm"};
    static const char *const sizes[] = {"1",   "2 in",  "4.5",   "6",
                                        "7.3", "15 cm", "6 1/3", "20"};
    static const char *const methods[] = {"two", "four", "eight"};
    size_t sewn_count = 0;
    for (size_t n = 0; n < 2 * 6 * 8 * 3 * 2; n++) {
        struct arena *arena = arena_create();
        const struct sewn *sewn =
            sew_one(arena, units[n % 2], seams[n / 2 % 6], sizes[n / 12 % 8],
                    n / 288 == 0 ? "rising" : "falling", methods[n / 96 % 3]);
        assert_half_mud(&sewn->quilts.items[0]);
        sewn_count++;
        arena_destroy(arena);
    }
    assert_int_equal(sewn_count, 576);
    (void)state;
}

/* Sizes and steps that share no divisor: numbers must not grow beyond 64 bits.
 */
static void test_odd_numbers(void **state)
{
    static const char *const cases[][4] = {
        {"in", "7 mm", "1/64", "24"},
        {"in", "0.75 cm", "1/64", "251/9"},
        {"in", "0.33 cm", "0.07", "23/2"},
        {"cm", "5/16 in", "1/4", "266775/9973"},
        {"cm", "0.33 cm", "1/64", "282880/9973"}};
    static const char *const methods[] = {"one", "two", "four", "eight"};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        for (size_t m = 0; m < UNIT_COUNT(methods); m++) {
            const char *seam = arena_printf(*state, "%s\" cutting-step=\"%s",
                                            cases[i][1], cases[i][2]);
            const struct sewn *sewn = sew_one(
                *state, cases[i][0], seam, cases[i][3], "falling", methods[m]);
            assert_half_mud(&sewn->quilts.items[0]);
        }
}

/* As large as a length may be. */
static void test_large_units(void **state)
{
    static const char *const methods[] = {"one", "two", "four", "eight"};
    static const char *const sizes[] = {"20000", "99999 1/2"};
    for (size_t i = 0; i < 8; i++)
        assert_half_mud(&sew_one(*state, "in", "1/4", sizes[i / 4], "rising",
                                 methods[i % 4])
                             ->quilts.items[0]);
}

/* What outgrows 64 bits on the way is sewn exactly all the same. */
static void test_fine(void **state)
{
    static const char *const methods[] = {"two", "eight"};
    for (size_t i = 0; i < UNIT_COUNT(methods); i++) {
        const char *text = arena_printf(
            *state,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" "
            "title=\"T\" cutting-step=\"3/13\" seam=\"0.0001\"><fabrics>"
            "<fabric id=\"a\"/><fabric id=\"b\"/></fabrics>"
            "<colorway id=\"c\"><cloth fabric=\"a\" color=\"#112233\"/>"
            "<cloth fabric=\"b\" color=\"#ddeeff\"/></colorway>"
            "<block id=\"k\" grid=\"9973\"><half-square line=\"falling\" "
            "left=\"a\" right=\"b\" method=\"%s\" "
            "size=\"9973\"/></block><quilt id=\"q\">"
            "<use block=\"k\" finished=\"80226.5062\"/></quilt></pattern>",
            methods[i]);
        struct run *run = run_create(
            *state, source_create(*state, "t.xml", text, strlen(text)));
        const struct design *design = resolve_pattern(run, read_pattern(run));
        const struct sized *sized = solve_design(run, design);
        if (diag_count(run, DIAG_ERROR) == 0)
            sew_design(run, sized);
        assert_int_equal(diag_count(run, DIAG_ERROR), 0);
    }
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
    assert_true(
        rational_equal(sewn->quilts.items[0].heaps.items[0].of.cut.width,
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

/* How many of those made at a time serve. Sixteen are needed. */
static void test_made_at_a_time(void **state)
{
    static const struct {
        const char *method, *print;
        size_t pairs;
    } cases[] = {{"one", "solid", 16},    {"two", "solid", 8},
                 {"four", "solid", 4},    {"eight", "solid", 2},
                 {"one", "one-way", 16},  {"two", "one-way", 16},
                 {"four", "one-way", 16}, {"eight", "one-way", 8}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *text = arena_printf(
            *state,
            HEAD "<quilt id=\"q\"><grid across=\"4\" down=\"4\"><half-square "
                 "line=\"falling\" left=\"a\" right=\"b\" size=\"4\" "
                 "method=\"%s\"/></grid></quilt></pattern>",
            cases[i].print, cases[i].method);
        const struct sewn *sewn = sew_text(*state, text);
        assert_int_equal(sewn->quilts.items[0].heaps.items[0].count,
                         cases[i].pairs);
    }
}

/* Fifteen leave one over. */
static void test_some_are_left_over(void **state)
{
    const char *text = arena_printf(
        *state,
        HEAD "<quilt id=\"q\"><grid across=\"5\" down=\"3\"><half-square "
             "line=\"falling\" left=\"a\" right=\"b\" size=\"4\" "
             "method=\"eight\"/></grid></quilt></pattern>",
        "solid");
    const struct sewn *sewn = sew_text(*state, text);
    assert_int_equal(sewn->quilts.items[0].heaps.items[0].count, 2);
}

/* Four at a time turn the print by half of a quarter, to the side to which the
 * line leans. */
static void test_four_slant_their_prints(void **state)
{
    static const char *const lines[] = {"rising", "falling"};
    for (size_t i = 0; i < 2; i++) {
        const char *text = arena_printf(
            *state,
            HEAD "<quilt id=\"q\"><half-square line=\"%s\" left=\"a\" "
                 "right=\"b\" size=\"4\" method=\"four\"/></quilt></pattern>",
            "one-way", lines[i]);
        const struct sewn *sewn = sew_text(*state, text);
        const struct cloth *cloth = sewn->quilts.items[0].cloth;
        for (size_t k = 0; k < cloth->faces.count; k++) {
            assert_true(cloth->faces.items[k].slanted);
            assert_int_equal(cloth->faces.items[k].turn, i == 0 ? 0 : 3);
        }
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

/* ---- marks ---- */

static double length_of(const struct mark *mark, double *x, double *y)
{
    *x = rational_double(mark->to.x) - rational_double(mark->from.x);
    *y = rational_double(mark->to.y) - rational_double(mark->from.y);
    return hypot(*x, *y);
}

/* From a point to the endless line of a mark. */
static double distance(const struct mark *line, struct vertex point)
{
    double x, y;
    const double length = length_of(line, &x, &y);
    return fabs(
               x * (rational_double(point.y) - rational_double(line->from.y)) -
               y * (rational_double(point.x) - rational_double(line->from.x))) /
           length;
}

/* Sewn a seam's width beside one of the diagonals, all along. */
static bool is_beside(const struct state *state, const struct mark *sewn)
{
    bool beside = false;
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *drawn = &state->marks.items[i];
        beside |= drawn->kind == MARK_DRAWN &&
                  fabs(distance(drawn, sewn->from) - 0.25) < 1e-6 &&
                  fabs(distance(drawn, sewn->to) - 0.25) < 1e-6;
    }
    return beside;
}

/* From edge to edge of the squares: `low` and `high` both ways. */
static bool reaches_edges(const struct mark *mark, double low, double high)
{
    const double ends[2][2] = {
        {rational_double(mark->from.x), rational_double(mark->from.y)},
        {rational_double(mark->to.x), rational_double(mark->to.y)}};
    for (int i = 0; i < 2; i++) {
        const double x = ends[i][0], y = ends[i][1];
        if (fmin(x, y) < low - 1e-9 || fmax(x, y) > high + 1e-9 ||
            (fabs(x - low) > 1e-9 && fabs(x - high) > 1e-9 &&
             fabs(y - low) > 1e-9 && fabs(y - high) > 1e-9))
            return false;
    }
    return true;
}

/* Two and eight at a time: two seams beside each diagonal that is drawn, and
 * cuts on the diagonals; eight are cut through the middle, too. Squares are as
 * large as their drawn diagonals, and lie a seam above and left of the finished
 * corner. */
static void test_marks(void **state)
{
    static const struct {
        const char *method;
        size_t drawn, cut;
    } cases[] = {{"two", 1, 1}, {"eight", 2, 4}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct sewn *sewn =
            sew_one(*state, "in", "1/4", "3", "falling", cases[i].method);
        const struct sewn_quilt *quilt = &sewn->quilts.items[0];
        const struct state *shown =
            &quilt->heaps.items[quilt->top].actions.items[0].before;
        double x, y, side = 0.0;
        size_t counts[3] = {0, 0, 0};
        for (size_t k = 0; k < shown->marks.count; k++)
            if (shown->marks.items[k].kind == MARK_DRAWN) {
                length_of(&shown->marks.items[k], &x, &y);
                side = fabs(x);
                counts[0]++;
            }
        for (size_t k = 0; k < shown->marks.count; k++) {
            const struct mark *mark = &shown->marks.items[k];
            assert_true(reaches_edges(mark, -0.25, side - 0.25));
            counts[1] += mark->kind == MARK_SEWN && is_beside(shown, mark);
            counts[2] += mark->kind == MARK_CUT;
        }
        assert_int_equal(counts[0], cases[i].drawn);
        assert_int_equal(counts[1], 2 * cases[i].drawn);
        assert_int_equal(counts[2], cases[i].cut);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_units),
        cmocka_unit_test(test_odd_numbers),
        cmocka_unit_test(test_large_units),
        cmocka_unit_test(test_fine),
        cmocka_unit_test(test_one_at_a_time_between_steps),
        cmocka_unit_test(test_a_one_way_pair_gives_one),
        cmocka_unit_test(test_made_at_a_time),
        cmocka_unit_test(test_some_are_left_over),
        cmocka_unit_test(test_four_slant_their_prints),
        cmocka_unit_test(test_mirrored_lookalikes),
        cmocka_unit_test(test_marks),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
