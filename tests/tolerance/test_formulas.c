/* The formulas against the check values (cases.h): means within 0.02 standard
 * deviations or 0.0005 in, spreads within 3 %, chances within 0.01. */
#include "../book/sample.h"
#include "cases.h"

#include <math.h>

static const struct oversize none = {NO_HEAP, 0};

/* The rows of a nine-patch, the first and the last from one strip set. */
static struct expected two_sets(const struct sewing_case *c,
                                const struct expected *sides)
{
    const struct heap *heap = &c->quilt->heaps.items[c->heap];
    struct stacked_row rows[3];
    assert_int_equal(heap->inputs.count, 3);
    for (size_t i = 0; i < 3; i++)
        rows[i] = (struct stacked_row){
            sides[SIDES * heap->inputs.items[i].heap + ACROSS], 3, i % 2};
    return expected_stack(rows, 3);
}

static struct outcome outcome_from(struct expected e,
                                   const struct check_value *value)
{
    return (struct outcome){e.mean, sqrt(e.variance),
                            expected_within(&e, value->wanted, value->bound)};
}

/* As the report of the quilt tells it: only there is a point told. */
static struct outcome point_told(struct arena *arena,
                                 const struct sewing_case *c)
{
    const struct tolerance_report *report =
        report_tolerance(arena, c->small.pattern, c->quilt, rational_unknown());
    for (size_t i = 0; i < report->rows.count; i++)
        if (report->rows.items[i].point)
            return report->rows.items[i].outcomes.of[SEAM_RIGHT];
    fail_msg("no point is told");
    return (struct outcome){0, 0, 0};
}

static struct outcome told(struct arena *arena, const struct check_value *value)
{
    const struct sewing_case c = sewing_case(arena, value);
    const struct sums *sums = sums_of(arena, c.small.pattern, c.quilt);
    const struct expected *sides = sew_sums(
        arena, sums, &c.hand,
        value->look == LOOK_TRIMMED ? (struct oversize){c.heap, 0.5} : none);
    struct expected e = sides[SIDES * c.heap + ACROSS];
    switch (value->look) {
    case LOOK_PERSONS:
        return outcome_over_persons(sums, &c.hand, c.heap, ACROSS,
                                    value->wanted, value->bound);
    case LOOK_POINT:
        return point_told(arena, &c);
    case LOOK_SEWN:
        e = (struct expected){.mean = e.sewn, .variance = e.sewn_variance};
        break;
    case LOOK_TWO_SETS:
        e = two_sets(&c, sides);
        break;
    case LOOK_TRIMMED:
        e = sides[SIDES * c.quilt->whole + ACROSS];
        break;
    case LOOK_MEAN:
        break;
    }
    return outcome_from(e, value);
}

static void every_check_value(void **state)
{
    size_t bad = 0;
    for (size_t i = 0; i < UNIT_COUNT(check_values); i++) {
        const struct check_value *value = &check_values[i];
        const struct outcome o = told(*state, value);
        const bool holds =
            fabs(o.mean - value->mean) <= fmax(0.02 * value->spread, 0.0005) &&
            fabs(o.spread / value->spread - 1) <= 0.03 &&
            fabs(o.within - value->within) <= 0.01;
        bad += !holds;
        print_message("%s %s: %.5f %.5f %.4f, asked %.5f %.5f %.4f\n",
                      holds ? "  " : "!!", value->name, o.mean, o.spread,
                      o.within, value->mean, value->spread, value->within);
    }
    assert_int_equal(bad, 0);
}

/* A side of the whole of a quilt of one piece, sewn with a true seam. */
static struct expected side_of(struct arena *arena, const char *piece, int side,
                               struct hand *hand)
{
    const struct check_value value = {
        .body = arena_printf(arena, "<quilt id=\"mat\">%s</quilt>", piece),
        .true_seam = true};
    const struct sewing_case c = sewing_case(arena, &value);
    const struct sums *sums = sums_of(arena, c.small.pattern, c.quilt);
    *hand = c.hand;
    return sew_sums(arena, sums, &c.hand, none)[SIDES * c.heap + (size_t)side];
}

/* A half-rectangle that is a square, cut from squares as large, comes out as
 * the half-square does; drawn out, what is left to trim is what its triangles
 * have beyond those with a seam all round, by their inner circles, less half of
 * the fold across the slant. */
static void half_rectangles(void **state)
{
    struct hand hand;
    const struct expected square =
        side_of(*state,
                "<half-square line=\"rising\" left=\"night\" "
                "right=\"flame\" size=\"3\" cut=\"3 7/8\"/>",
                ACROSS, &hand);
    for (int side = ACROSS; side < SIDES; side++) {
        const struct expected half =
            side_of(*state,
                    "<half-rectangle line=\"rising\" left=\"night\" "
                    "right=\"flame\" width=\"3\" height=\"3\" room=\"0\" "
                    "cut=\"3 7/8\"/>",
                    side, &hand);
        assert_true(fabs(half.sewn - square.sewn) < 1e-12);
        assert_true(fabs(half.sewn_variance - square.sewn_variance) < 1e-12);
        const struct expected tall =
            side_of(*state,
                    "<half-rectangle line=\"falling\" left=\"night\" "
                    "right=\"flame\" width=\"2\" height=\"4\" cut=\"3 x 6\"/>",
                    side, &hand);
        const double own = side == ACROSS ? 2 : 4, slant = sqrt(20);
        const double least = 1 + 0.25 / ((6 - slant) / 2);
        const double fold = slant / (6 - own) / 2 * hand.fold;
        assert_true(fabs(tall.sewn - (own + 0.5 + own * (1.5 - least) - fold)) <
                    1e-9);
    }
}

/* Rows of 7, 5, 9, 4, 4 and 7 pieces with two slanted ends each, and half a
 * triangle with one at both ends of each row. */
static void slanted_ends(void **state)
{
    const struct sample sample =
        sample_fresh(*state, "tests/compare/sand-bar.xml");
    const struct tolerance_report *report =
        report_tolerance(*state, sample.design->pattern,
                         &sample.sewn->quilts.items[0], rational_unknown());
    assert_int_equal(report->bias_edges, 2 * (7 + 5 + 9 + 4 + 4 + 7) + 2 * 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_check_value),
                                       cmocka_unit_test(half_rectangles),
                                       cmocka_unit_test(slanted_ends)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
