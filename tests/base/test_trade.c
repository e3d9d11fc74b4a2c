/* The table of the trade against published tables and worked examples: each is
 * worked out from the table alone, and would not come out with another number.
 * Addresses are told at their checks. */
#include "../unit.h"
#include "trade.h"

static struct rational q(int64_t num, int64_t den)
{
    return rational_make(num, den);
}

static struct rational inches(enum trade_fact fact)
{
    return trade_length(fact, UNIT_IN);
}

/* How many whole pieces of `size` lie along `length`. */
static int64_t fit(struct rational length, struct rational size)
{
    return rational_floor(rational_div(length, size));
}

/* Quilt Blocks Easy Math, part 4, 2013, quiltmaker.com: a center of 6 is cut
 * 6 1/2, a unit of 3 sews to 3 1/2. Combs, 2002: finished + 1/2. */
static void seams(void **state)
{
    (void)state;
    const struct rational both = rational_times(inches(TRADE_SEAM), 2);
    assert_true(rational_equal(rational_add(q(6, 1), both), q(13, 2)));
    assert_true(rational_equal(rational_add(q(3, 1), both), q(7, 2)));
}

/* Side squares of setting triangles for blocks of 5 to 15: F x 1.414 + 1 1/4,
 * up to the step, in eighths as the chart of quilterscache.com (M. Hohn, 2002)
 * prints them. */
static void cutting_steps(void **state)
{
    static const int64_t chart[][2] = {{5, 67},   {6, 78},   {8, 101},
                                       {9, 112},  {10, 124}, {12, 146},
                                       {14, 169}, {15, 180}};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(chart); i++) {
        const struct rational need =
            rational_add(rational_times(q(1414, 1000), chart[i][0]), q(5, 4));
        assert_true(
            rational_equal(rational_round_up(need, inches(TRADE_CUTTING_STEP)),
                           q(chart[i][1], 8)));
    }
}

/* 40 to 42 are usable (stcroixquilters.com); frames that take four of 10 1/2
 * from each strip need all of 42 (bearcreekquiltingcompany.com, May 2014). Nine
 * of 4 1/2: modernquiltingbyb.com, February 2015. */
static void widths_of_cloth(void **state)
{
    (void)state;
    const struct rational width = inches(TRADE_CLOTH_WIDTH);
    assert_true(rational_compare(width, q(40, 1)) >= 0);
    assert_true(rational_compare(width, q(42, 1)) <= 0);
    assert_int_equal(fit(width, q(21, 2)), 4);
    assert_int_equal(fit(width, q(9, 2)), 9);
}

/* The ladder of eighths of a yard, in halves of an inch: Fraction conversions,
 * February 2014, catbirdquilts.wordpress.com. */
static void steps_of_yardage(void **state)
{
    static const int64_t ladder[] = {9, 18, 27, 36, 45, 54, 63, 72};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(ladder); i++)
        assert_true(rational_equal(
            rational_times(inches(TRADE_SOLD_STEP), (int64_t)i + 1),
            q(ladder[i], 2)));
    assert_int_equal(trade_shop_unit(UNIT_IN), UNIT_YD);
    assert_int_equal(trade_shop_unit(UNIT_CM), UNIT_M);
}

/* Squares from a fat quarter: the charts of quilterscache.com (published for 18
 * x 22, of which these are the same at 18 x 21), sizes in eighths. */
static void fat_quarters(void **state)
{
    static const int64_t chart[][2] = {
        {20, 56}, {23, 42}, {24, 42}, {28, 30}, {31, 20}, {32, 20}, {36, 16},
        {39, 12}, {40, 12}, {47, 9},  {48, 9},  {52, 6},  {55, 6}};
    (void)state;
    const struct rational half =
        rational_div(inches(TRADE_CLOTH_WIDTH), q(2, 1));
    for (size_t i = 0; i < UNIT_COUNT(chart); i++) {
        const struct rational size = q(chart[i][0], 8);
        assert_int_equal(fit(inches(TRADE_FAT_QUARTER), size) * fit(half, size),
                         chart[i][1]);
    }
    /* 18 high, and a fat eighth half of that: American Patchwork & Quilting,
     * 2017, allpeoplequilt.com. */
    assert_true(rational_equal(inches(TRADE_FAT_QUARTER), q(18, 1)));
    assert_true(rational_equal(rational_times(inches(TRADE_FAT_EIGHTH), 2),
                               inches(TRADE_FAT_QUARTER)));
}

/* 2 1/2-inch strips, 10-inch and 5-inch squares: 4-H fair book,
 * 4h.unl.edu/fairbook/static/quilting. Centimetres are the same cloth. */
static void precut_cloth(void **state)
{
    static const enum trade_fact facts[] = {TRADE_TEN_INCH, TRADE_FIVE_INCH,
                                            TRADE_STRIP};
    const struct rational sizes[] = {q(10, 1), q(5, 1), q(5, 2)};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(facts); i++) {
        assert_true(rational_equal(inches(facts[i]), sizes[i]));
        assert_true(rational_equal(
            trade_length(facts[i], UNIT_CM),
            rational_mul(sizes[i], length_factor(UNIT_IN, UNIT_CM))));
    }
}

/* A top of 60 x 80 takes a backing of 68 x 88 at least (cookingupquilts.com).
 * Two panels of 42 joined make 83: quiltingboard.com, thread t28279. */
static void backings(void **state)
{
    (void)state;
    const struct rational extra = rational_times(inches(TRADE_OVERAGE), 2);
    assert_true(rational_equal(rational_add(q(60, 1), extra), q(68, 1)));
    assert_true(rational_equal(rational_add(q(80, 1), extra), q(88, 1)));
    const struct rational joined =
        rational_sub(rational_times(inches(TRADE_CLOTH_WIDTH), 2),
                     rational_times(inches(TRADE_BACKING_SEAM), 2));
    assert_true(rational_equal(joined, q(83, 1)));
}

/* Five strips of binding are 12 1/2 in of cloth (sylviasquiltdepot.com), and
 * ten, not nine, go round 386 (American Patchwork & Quilting,
 * allpeoplequilt.com, a quilt of 96 1/2). The extra is among those that are
 * published, 0 to 24. */
static void bindings(void **state)
{
    (void)state;
    const struct rational strip = inches(TRADE_BINDING);
    const struct rational tail = inches(TRADE_BINDING_TAIL);
    assert_true(rational_equal(rational_times(strip, 5), q(25, 2)));
    const struct rational need = rational_add(q(386, 1), tail);
    for (int64_t n = 9; n <= 10; n++) {
        const struct rational yield =
            rational_sub(rational_times(inches(TRADE_CLOTH_WIDTH), n),
                         rational_times(strip, n - 1));
        assert_int_equal(rational_compare(yield, need) >= 0, n == 10);
    }
    assert_true(rational_sign(tail) >= 0);
    assert_true(rational_compare(tail, q(24, 1)) <= 0);
}

/* What the manual tells people who state nothing; most of it, and all of the
 * metric side, has no source but common practice. */
static void what_readers_are_told(void **state)
{
    static const struct {
        enum trade_fact fact;
        struct rational inches, centimetres;
    } told[] = {{TRADE_SEAM, {1, 4}, {3, 4}},
                {TRADE_CUTTING_STEP, {1, 8}, {1, 4}},
                {TRADE_SQUARING, {1, 1}, {5, 2}},
                {TRADE_CLOTH_WIDTH, {42, 1}, {106, 1}},
                {TRADE_SOLD_STEP, {9, 2}, {10, 1}},
                {TRADE_FAT_QUARTER, {18, 1}, {50, 1}},
                {TRADE_FAT_EIGHTH, {9, 1}, {25, 1}},
                {TRADE_OVERAGE, {4, 1}, {10, 1}},
                {TRADE_BINDING, {5, 2}, {13, 2}},
                {TRADE_BINDING_TAIL, {10, 1}, {25, 1}}};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(told); i++) {
        assert_true(rational_equal(inches(told[i].fact), told[i].inches));
        assert_true(rational_equal(trade_length(told[i].fact, UNIT_CM),
                                   told[i].centimetres));
    }
}

/* Metric numbers are habits of their own, so no more is asked than that they
 * mean the same thing: within a third of the conversion. */
static void rows_are_whole_and_alike(void **state)
{
    (void)state;
    for (int fact = 0; fact < TRADE_FACT_COUNT; fact++) {
        const struct rational cm = trade_length((enum trade_fact)fact, UNIT_CM);
        const struct rational same = rational_mul(
            inches((enum trade_fact)fact), length_factor(UNIT_IN, UNIT_CM));
        assert_true(rational_known(cm) && rational_known(same));
        assert_true(rational_sign(cm) > 0 && rational_sign(same) > 0);
        const struct rational ratio = rational_div(cm, same);
        assert_true(rational_compare(ratio, q(3, 4)) > 0);
        assert_true(rational_compare(ratio, q(4, 3)) < 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seams),
        cmocka_unit_test(cutting_steps),
        cmocka_unit_test(widths_of_cloth),
        cmocka_unit_test(steps_of_yardage),
        cmocka_unit_test(fat_quarters),
        cmocka_unit_test(precut_cloth),
        cmocka_unit_test(backings),
        cmocka_unit_test(bindings),
        cmocka_unit_test(what_readers_are_told),
        cmocka_unit_test(rows_are_whole_and_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
