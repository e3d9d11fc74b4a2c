/* Printing lengths, and that what is printed reads back as the same. */
#include <locale.h>
#include <string.h>

#include "../unit.h"
#include "length.h"

static struct rational q(int64_t num, int64_t den)
{
    return rational_make(num, den);
}

static void plain_inches_and_yards_are_fractions(void **state)
{
    assert_string_equal(length_plain(*state, q(5, 2), UNIT_IN), "2 1/2");
    assert_string_equal(length_plain(*state, q(5, 8), UNIT_IN), "5/8");
    assert_string_equal(length_plain(*state, q(6, 1), UNIT_IN), "6");
    assert_string_equal(length_plain(*state, q(0, 1), UNIT_IN), "0");
    assert_string_equal(length_plain(*state, q(10, 3), UNIT_YD), "3 1/3");
    assert_string_equal(length_plain(*state, q(-5, 2), UNIT_IN), "-2 1/2");
    assert_string_equal(length_plain(*state, q(-1, 64), UNIT_IN), "-1/64");
}

static void plain_metric_is_decimal_where_exact(void **state)
{
    assert_string_equal(length_plain(*state, q(635, 100), UNIT_CM), "6.35");
    assert_string_equal(length_plain(*state, q(5, 2), UNIT_MM), "2.5");
    assert_string_equal(length_plain(*state, q(1, 8), UNIT_M), "0.125");
    assert_string_equal(length_plain(*state, q(21, 1000), UNIT_CM), "0.021");
    assert_string_equal(length_plain(*state, q(2, 1), UNIT_CM), "2");
    assert_string_equal(length_plain(*state, q(0, 1), UNIT_CM), "0");
    assert_string_equal(length_plain(*state, q(1, 16), UNIT_CM), "1/16");
    assert_string_equal(length_plain(*state, q(7, 3), UNIT_CM), "2 1/3");
    assert_string_equal(length_plain(*state, q(-1, 4), UNIT_CM), "-0.25");
}

static void pages_get_fraction_characters(void **state)
{
    assert_string_equal(length_glyphs(*state, q(5, 2), UNIT_IN), "2½");
    assert_string_equal(length_glyphs(*state, q(7, 8), UNIT_IN), "⅞");
    assert_string_equal(length_glyphs(*state, q(10, 3), UNIT_YD), "3⅓");
    assert_string_equal(length_glyphs(*state, q(401, 32), UNIT_IN),
                        "12 17\u204432");
    assert_string_equal(length_glyphs(*state, q(1, 16), UNIT_IN), "1\u204416");
    assert_string_equal(length_glyphs(*state, q(12, 1), UNIT_IN), "12");
    assert_string_equal(length_glyphs(*state, q(0, 1), UNIT_IN), "0");
    assert_string_equal(length_glyphs(*state, q(635, 100), UNIT_CM), "6.35");
    assert_string_equal(length_glyphs(*state, q(7, 3), UNIT_CM), "2⅓");
    assert_string_equal(length_glyphs(*state, q(-1, 2), UNIT_IN), "\u2013½");
}

static void decimals_are_cut_towards_zero(void **state)
{
    assert_string_equal(rational_decimal(*state, q(21447, 1000000), 3),
                        "0.021");
    assert_string_equal(rational_decimal(*state, q(19999, 1000), 2), "19.99");
    assert_string_equal(rational_decimal(*state, q(-19999, 1000), 2), "-19.99");
    assert_string_equal(rational_decimal(*state, q(-1, 1000), 2), "0.00");
    assert_string_equal(rational_decimal(*state, q(7, 2), 0), "3");
    assert_string_equal(rational_decimal(*state, q(-7, 2), 0), "-3");
    assert_string_equal(rational_decimal(*state, q(2, 3), 30),
                        "0.666666666666666666666666666666");
    assert_string_equal(rational_decimal(*state, q(1, INT64_MAX), 20),
                        "0.00000000000000000010");
}

static void the_edges_of_64_bits_print(void **state)
{
    assert_string_equal(length_plain(*state, q(INT64_MAX, 1), UNIT_IN),
                        "9223372036854775807");
    assert_string_equal(length_plain(*state, q(-INT64_MAX, 2), UNIT_CM),
                        "-4611686018427387903.5");
    assert_string_equal(length_plain(*state, q(1, INT64_MAX), UNIT_CM),
                        "1/9223372036854775807");
    assert_string_equal(
        length_plain(*state, (struct rational){INT64_MIN, 1}, UNIT_IN),
        "-9223372036854775808");
}

static void unknown_prints_as_a_question(void **state)
{
    const struct rational none = rational_unknown();
    assert_string_equal(length_plain(*state, none, UNIT_IN), "?");
    assert_string_equal(length_glyphs(*state, none, UNIT_CM), "?");
    assert_string_equal(rational_decimal(*state, none, 2), "?");
}

/* A locale with a decimal comma changes nothing, where there is one. */
static void no_locale_takes_part(void **state)
{
    const char *const commas[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"};
    for (size_t i = 0; i < UNIT_COUNT(commas); i++) {
        setlocale(LC_ALL, commas[i]);
        assert_string_equal(length_plain(*state, q(5, 2), UNIT_CM), "2.5");
        assert_int_equal(length_parse("2.5", 3, UNIT_CM).fault, LENGTH_OK);
    }
    setlocale(LC_ALL, "C");
}

static void expect_same(const char *text, struct rational value,
                        enum length_unit unit)
{
    const struct length_result back = length_parse(text, strlen(text), unit);
    if (back.fault != LENGTH_OK || !rational_equal(back.value, value))
        fail_msg("`%s` read back with fault %d as %lld/%lld", text,
                 (int)back.fault, (long long)back.value.num,
                 (long long)back.value.den);
}

static void what_is_printed_reads_back(void **state)
{
    struct unit_random random = {161803};
    for (int i = 0; i < 20000; i++) {
        const int64_t den = unit_below(&random, i % 2 == 0 ? 64 : 10000) + 1;
        const struct rational value = q(unit_below(&random, 3000) * den +
                                            unit_below(&random, (uint64_t)den),
                                        den);
        const enum length_unit unit =
            (enum length_unit)unit_below(&random, UNIT_M + 1);
        const struct rational inches =
            rational_mul(value, length_factor(unit, UNIT_IN));
        if (rational_compare(inches, rational_whole(LENGTH_LIMIT_INCHES)) > 0)
            continue;
        expect_same(length_plain(*state, value, unit), value, unit);
        expect_same(length_glyphs(*state, value, unit), value, unit);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_inches_and_yards_are_fractions),
        cmocka_unit_test(plain_metric_is_decimal_where_exact),
        cmocka_unit_test(pages_get_fraction_characters),
        cmocka_unit_test(decimals_are_cut_towards_zero),
        cmocka_unit_test(the_edges_of_64_bits_print),
        cmocka_unit_test(unknown_prints_as_a_question),
        cmocka_unit_test(no_locale_takes_part),
        cmocka_unit_test(what_is_printed_reads_back),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
