/* Exact fractions: the rules of arithmetic, the edges of 64 bits, and that
 * what does not fit is unknown and stays so. */
#include "../unit.h"
#include "rational.h"

__extension__ typedef __int128 wide;

static struct rational q(int64_t num, int64_t den)
{
    return rational_make(num, den);
}

static void expect(struct rational found, int64_t num, int64_t den)
{
    assert_int_equal(found.num, num);
    assert_int_equal(found.den, den);
}

static void expect_unknown(struct rational found)
{
    assert_false(rational_known(found));
    assert_int_equal(found.den, 0);
}

static void fractions_are_in_lowest_terms(void **state)
{
    (void)state;
    expect(q(6, 8), 3, 4);
    expect(q(6, -8), -3, 4);
    expect(q(-6, -8), 3, 4);
    expect(q(0, -5), 0, 1);
    expect(q(7, 7), 1, 1);
    expect_unknown(q(1, 0));
    expect_unknown(q(0, 0));
}

static void sums_and_products(void **state)
{
    (void)state;
    expect(rational_add(q(5, 2), q(1, 3)), 17, 6);
    expect(rational_sub(q(1, 3), q(5, 2)), -13, 6);
    expect(rational_mul(q(-2, 3), q(9, 4)), -3, 2);
    expect(rational_div(q(-2, 3), q(4, -9)), 3, 2);
    expect(rational_times(q(5, 8), 4), 5, 2);
    expect_unknown(rational_div(q(1, 2), q(0, 1)));
}

/* Euclid's way, one remainder after the other. */
static int64_t divisor_by_remainders(int64_t a, int64_t b)
{
    return b == 0 ? a : divisor_by_remainders(b, a % b);
}

/* Of all sizes up to 63 bits, denominators that are powers of 2 among them: the
 * value stays, and nothing but 1 divides both parts. */
static void any_fraction_is_in_lowest_terms(void **state)
{
    (void)state;
    struct unit_random random = {7};
    for (int i = 0; i < 200000; i++) {
        int64_t part[2];
        for (int k = 0; k < 2; k++) {
            const int64_t bits = 1 + unit_below(&random, 62);
            part[k] = 1 + unit_below(&random, INT64_C(1) << bits);
        }
        if (i % 3 == 0)
            part[1] = INT64_C(1) << unit_below(&random, 62);
        const int64_t common = divisor_by_remainders(part[0], part[1]);
        expect(q(part[0], part[1]), part[0] / common, part[1] / common);
        expect(q(-part[0], part[1]), -part[0] / common, part[1] / common);
    }
}

static void order(void **state)
{
    (void)state;
    assert_true(rational_compare(q(1, 3), q(333333, 1000000)) > 0);
    assert_true(rational_compare(q(-1, 2), q(-1, 3)) < 0);
    assert_int_equal(rational_compare(q(2, 4), q(1, 2)), 0);
    expect(rational_min(q(7, 8), q(6, 7)), 6, 7);
    expect(rational_max(q(7, 8), q(6, 7)), 7, 8);
    assert_int_equal(rational_sign(q(-1, 9)), -1);
    assert_int_equal(rational_sign(q(0, 9)), 0);
    assert_int_equal(rational_sign(q(1, 9)), 1);
    assert_true(rational_equal(q(2, 4), q(1, 2)));
    assert_false(rational_equal(q(2, 4), q(1, 3)));
}

static void whole_numbers_below_and_above(void **state)
{
    (void)state;
    assert_int_equal(rational_floor(q(7, 2)), 3);
    assert_int_equal(rational_floor(q(-7, 2)), -4);
    assert_int_equal(rational_floor(q(-8, 2)), -4);
    assert_int_equal(rational_ceil(q(7, 2)), 4);
    assert_int_equal(rational_ceil(q(-7, 2)), -3);
    assert_int_equal(rational_ceil(q(8, 2)), 4);
    assert_int_equal(rational_floor(q(INT64_MAX, 2)), INT64_MAX / 2);
    assert_int_equal(rational_ceil(q(INT64_MAX, 2)), INT64_MAX / 2 + 1);
    assert_int_equal(rational_floor(q(-INT64_MAX, 2)), -(INT64_MAX / 2) - 1);
    assert_int_equal(rational_ceil(q(-INT64_MAX, 1)), -INT64_MAX);
    assert_int_equal(rational_floor(q(1, INT64_MAX)), 0);
    assert_int_equal(rational_ceil(q(1, INT64_MAX)), 1);
}

static void rounding_up_to_a_step(void **state)
{
    (void)state;
    expect(rational_round_up(q(23, 8), q(1, 8)), 23, 8);
    expect(rational_round_up(q(2301, 800), q(1, 8)), 3, 1);
    expect(rational_round_up(q(61, 10), q(1, 4)), 25, 4);
    expect(rational_round_up(q(-1, 3), q(1, 4)), -1, 4);
    expect(rational_round_up(q(0, 1), q(1, 8)), 0, 1);
    expect_unknown(rational_round_up(q(1, 0), q(1, 8)));
    expect_unknown(rational_round_up(q(INT64_MAX, 1), q(1, 8)));
    expect_unknown(rational_round_up(q(INT64_MAX, 2), q(INT64_MAX, 3)));
}

static void the_edges_of_64_bits(void **state)
{
    (void)state;
    expect(q(INT64_MAX, 1), INT64_MAX, 1);
    expect(q(-INT64_MAX, INT64_MAX), -1, 1);
    expect(q(INT64_MIN, 2), INT64_MIN / 2, 1);
    expect(q(INT64_MIN, INT64_MIN), 1, 1);
    expect(q(2, INT64_MIN), -1, INT64_C(1) << 62);
    expect_unknown(q(INT64_MIN, 1));
    expect_unknown(q(INT64_MIN, -1));
    expect_unknown(q(1, INT64_MIN));
    expect(rational_add(q(INT64_MAX, 1), q(-INT64_MAX, 1)), 0, 1);
    expect(rational_mul(q(INT64_MAX, 2), q(2, INT64_MAX)), 1, 1);
    expect(rational_div(q(INT64_MAX, 3), q(INT64_MAX, 2)), 2, 3);
    assert_true(rational_compare(q(1, INT64_MAX), q(1, INT64_MAX - 1)) < 0);
    assert_true(rational_compare(q(INT64_MAX, 1), q(-INT64_MAX, 1)) > 0);
}

static void what_does_not_fit_is_unknown(void **state)
{
    (void)state;
    expect_unknown(rational_add(q(INT64_MAX, 1), q(1, 1)));
    expect_unknown(rational_sub(q(-INT64_MAX, 1), q(1, 1)));
    expect_unknown(rational_add(q(1, INT64_MAX), q(1, INT64_MAX - 1)));
    expect_unknown(rational_mul(q(INT64_MAX, 1), q(2, 1)));
    expect_unknown(rational_mul(q(1, INT64_MAX), q(1, 2)));
    expect_unknown(rational_div(q(INT64_MAX, 1), q(1, 2)));
    expect_unknown(rational_times(q(INT64_MAX, 3), 4));
}

/* The least number has no negative, so that it must not get in by any door:
 * 0 - whole(INT64_MIN) would overflow. */
static void the_least_number_is_kept_out(void **state)
{
    (void)state;
    expect_unknown(rational_whole(INT64_MIN));
    expect_unknown(rational_times(q(1, 1), INT64_MIN));
    expect_unknown(rational_sub(q(0, 1), rational_whole(INT64_MIN)));
}

static void unknown_stays_unknown(void **state)
{
    (void)state;
    const struct rational none = rational_unknown();
    const struct rational one = rational_whole(1);
    expect_unknown(rational_add(none, one));
    expect_unknown(rational_add(one, none));
    expect_unknown(rational_sub(none, one));
    expect_unknown(rational_sub(one, none));
    expect_unknown(rational_mul(none, rational_whole(0)));
    expect_unknown(rational_mul(rational_whole(0), none));
    expect_unknown(rational_div(none, one));
    expect_unknown(rational_div(one, none));
    expect_unknown(rational_times(none, 0));
    assert_false(rational_equal(none, none));
    assert_false(rational_equal(none, one));
    assert_true(rational_double(none) == 0.0);
}

/* Random small fractions against the sums done over one common denominator. */
static void arithmetic_agrees_with_a_common_denominator(void **state)
{
    (void)state;
    struct unit_random random = {20260101};
    for (int i = 0; i < 20000; i++) {
        const int64_t a = unit_below(&random, 20001) - 10000;
        const int64_t b = unit_below(&random, 20001) - 10000;
        const int64_t m = unit_below(&random, 1000) + 1;
        const int64_t n = unit_below(&random, 1000) + 1;
        const struct rational sum = rational_add(q(a, m), q(b, n));
        assert_int_equal(sum.num * m * n, (a * n + b * m) * sum.den);
        const struct rational product = rational_mul(q(a, m), q(b, n));
        assert_int_equal(product.num * m * n, a * b * product.den);
        const int order = rational_compare(q(a, m), q(b, n));
        assert_int_equal((order > 0) - (order < 0),
                         (a * n > b * m) - (a * n < b * m));
        const int64_t below = rational_floor(q(a, m));
        assert_true(below * m <= a && a < (below + 1) * m);
        assert_int_equal(rational_ceil(q(a, m)), -rational_floor(q(-a, m)));
    }
}

/* ---- an oracle of 128 bits, which knows one way for all numbers ---- */

static struct rational oracle(wide num, wide den)
{
    wide a = num < 0 ? -num : num, b = den < 0 ? -den : den;
    if (den == 0)
        return (struct rational){0, 0};
    while (b != 0) {
        const wide rest = a % b;
        a = b;
        b = rest;
    }
    num = den < 0 ? -(num / a) : num / a;
    den = den < 0 ? -(den / a) : den / a;
    if (num > INT64_MAX || num < -INT64_MAX || den > INT64_MAX)
        return (struct rational){0, 0};
    return (struct rational){(int64_t)num, (int64_t)den};
}

static void expect_same(struct rational found, struct rational wanted)
{
    assert_int_equal(found.num, wanted.num);
    assert_int_equal(found.den, wanted.den);
}

static void oracle_agrees(struct rational a, struct rational b)
{
    const wide an = a.num, ad = a.den, bn = b.num, bd = b.den;
    expect_same(rational_add(a, b), oracle(an * bd + bn * ad, ad * bd));
    expect_same(rational_sub(a, b), oracle(an * bd - bn * ad, ad * bd));
    expect_same(rational_mul(a, b), oracle(an * bn, ad * bd));
    expect_same(rational_div(a, b), oracle(an * bd, bd == 0 ? 0 : ad * bn));
    expect_same(rational_times(a, b.num), oracle(an * bn, ad));
    expect_same(rational_whole(b.num), oracle(bn, 1));
    if (ad != 0 && bd != 0)
        assert_int_equal(rational_compare(a, b),
                         (an * bd > bn * ad) - (an * bd < bn * ad));
}

/* Where the ways part: words of 30 bits and a sign, of 31, 32 and 64. */
static void arithmetic_agrees_with_128_bits_at_the_edges(void **state)
{
    (void)state;
    static const int64_t sizes[] = {0,
                                    1,
                                    2,
                                    3,
                                    24,
                                    (1 << 30) - 1,
                                    1 << 30,
                                    (1 << 30) + 1,
                                    INT32_MAX,
                                    UINT32_MAX,
                                    INT64_C(1) << 31,
                                    INT64_C(1) << 32,
                                    (INT64_C(1) << 32) + 1,
                                    INT64_C(3) << 40,
                                    INT64_C(1) << 62,
                                    INT64_MAX - 1,
                                    INT64_MAX};
    enum { SIZES = sizeof sizes / sizeof sizes[0] };
    struct rational all[2 * SIZES * SIZES];
    size_t count = 0;
    for (size_t i = 0; i < SIZES; i++)
        for (size_t k = 0; k < SIZES; k++) {
            all[count++] = oracle(sizes[i], sizes[k]);
            all[count++] = oracle(-sizes[i], sizes[k]);
        }
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < count; k++)
            oracle_agrees(all[i], all[k]);
}

/* A number of up to so many bits, with some that rulers have. */
static int64_t any_part(struct unit_random *random, uint64_t most)
{
    const int64_t bits = unit_below(random, most + 1);
    const int64_t part = unit_below(random, INT64_C(1) << bits);
    switch (unit_below(random, 4)) {
    case 0:
        return INT64_C(1) << bits;
    case 1:
        return bits < 60 ? INT64_C(3) << bits : part;
    default:
        return part;
    }
}

static void arithmetic_agrees_with_128_bits(void **state)
{
    (void)state;
    static const uint64_t bits[] = {5, 12, 31, 33, 62};
    struct unit_random random = {11};
    for (int i = 0; i < 400000; i++) {
        struct rational pair[2];
        for (int k = 0; k < 2; k++) {
            const uint64_t most = bits[unit_below(&random, 5)];
            const int64_t num = any_part(&random, most);
            pair[k] = oracle(unit_below(&random, 2) ? num : -num,
                             any_part(&random, most));
        }
        if (i % 5 == 0)
            pair[1] = oracle(pair[1].num, pair[0].den);
        oracle_agrees(pair[0], pair[1]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fractions_are_in_lowest_terms),
        cmocka_unit_test(any_fraction_is_in_lowest_terms),
        cmocka_unit_test(sums_and_products),
        cmocka_unit_test(order),
        cmocka_unit_test(whole_numbers_below_and_above),
        cmocka_unit_test(rounding_up_to_a_step),
        cmocka_unit_test(the_edges_of_64_bits),
        cmocka_unit_test(what_does_not_fit_is_unknown),
        cmocka_unit_test(the_least_number_is_kept_out),
        cmocka_unit_test(unknown_stays_unknown),
        cmocka_unit_test(arithmetic_agrees_with_a_common_denominator),
        cmocka_unit_test(arithmetic_agrees_with_128_bits_at_the_edges),
        cmocka_unit_test(arithmetic_agrees_with_128_bits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
