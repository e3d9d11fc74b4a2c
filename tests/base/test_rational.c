/* Exact fractions: the rules of arithmetic, the edges of 64 bits, that what
 * does not fit goes on in more, and that unknown stays so. */
#include <string.h>

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

/* No fraction of 64 bits, but this one, and the same one each time. */
static void expect_longer(struct rational found, const char *text)
{
    struct arena *arena = arena_create();
    assert_true(rational_known(found));
    assert_false(rational_is_fraction(found));
    assert_false(rational_is_irrational(found));
    assert_string_equal(rational_text(arena, found), text);
    assert_true(rational_equal(found, rational_read(text, strlen(text))));
    arena_destroy(arena);
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
    expect_longer(rational_round_up(q(INT64_MAX, 2), q(INT64_MAX, 3)),
                  "18446744073709551614/3");
}

static void the_edges_of_64_bits(void **state)
{
    (void)state;
    expect(q(INT64_MAX, 1), INT64_MAX, 1);
    expect(q(-INT64_MAX, INT64_MAX), -1, 1);
    expect(q(INT64_MIN, 2), INT64_MIN / 2, 1);
    expect(q(INT64_MIN, INT64_MIN), 1, 1);
    expect(q(2, INT64_MIN), -1, INT64_C(1) << 62);
    expect_longer(q(INT64_MIN, 1), "-9223372036854775808");
    expect_longer(q(INT64_MIN, -1), "9223372036854775808");
    expect_longer(q(1, INT64_MIN), "-1/9223372036854775808");
    expect(rational_add(q(INT64_MAX, 1), q(-INT64_MAX, 1)), 0, 1);
    expect(rational_mul(q(INT64_MAX, 2), q(2, INT64_MAX)), 1, 1);
    expect(rational_div(q(INT64_MAX, 3), q(INT64_MAX, 2)), 2, 3);
    assert_true(rational_compare(q(1, INT64_MAX), q(1, INT64_MAX - 1)) < 0);
    assert_true(rational_compare(q(INT64_MAX, 1), q(-INT64_MAX, 1)) > 0);
}

static void what_does_not_fit_goes_on(void **state)
{
    (void)state;
    const struct rational most = q(INT64_MAX, 1), least = q(1, INT64_MAX);
    expect_longer(rational_add(most, q(1, 1)), "9223372036854775808");
    expect_longer(rational_sub(q(-INT64_MAX, 1), q(1, 1)),
                  "-9223372036854775808");
    expect_longer(rational_mul(most, q(2, 1)), "18446744073709551614");
    expect_longer(rational_mul(least, q(1, 2)), "1/18446744073709551614");
    expect_longer(rational_div(most, q(1, 2)), "18446744073709551614");
    expect_longer(rational_times(q(INT64_MAX, 2), 4), "18446744073709551614");
    /* And comes back. */
    expect(rational_sub(rational_add(most, most), most), INT64_MAX, 1);
    expect(rational_mul(rational_mul(least, least), most), 1, INT64_MAX);
    expect(rational_div(rational_mul(most, most), most), INT64_MAX, 1);
    assert_true(rational_compare(rational_add(most, q(1, 2)), most) > 0);
    assert_true(rational_compare(rational_mul(least, least), least) < 0);
    assert_int_equal(rational_floor(rational_add(most, most)), INT64_MAX);
    assert_int_equal(rational_floor(rational_times(most, -3)), -INT64_MAX);
    assert_int_equal(rational_floor(rational_mul(least, least)), 0);
    assert_int_equal(rational_ceil(rational_mul(least, least)), 1);
}

/* The least number has no negative in 64 bits, so it is none of theirs. */
static void the_least_number_has_a_negative(void **state)
{
    (void)state;
    expect_longer(rational_whole(INT64_MIN), "-9223372036854775808");
    expect_longer(rational_times(q(1, 1), INT64_MIN), "-9223372036854775808");
    expect_longer(rational_sub(q(0, 1), rational_whole(INT64_MIN)),
                  "9223372036854775808");
}

/* 1,024 bits are held, 1,025 are not. */
static void beyond_1024_bits_it_is_unknown(void **state)
{
    (void)state;
    struct rational power = q(1, 1);
    for (int i = 0; i < 1023; i++)
        power = rational_times(power, 2);
    assert_true(rational_known(power));
    expect(rational_div(power, power), 1, 1);
    expect_unknown(rational_times(power, 2));
    expect_unknown(rational_div(q(1, 2), power));
    expect_unknown(rational_add(power, power));
    assert_true(rational_known(rational_add(rational_sub(power, q(1, 1)), power)));
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

/* In lowest terms; den is 0 for unknown. */
struct wide_fraction {
    wide num, den;
};

static struct wide_fraction oracle(wide num, wide den)
{
    wide a = num < 0 ? -num : num, b = den < 0 ? -den : den;
    if (den == 0)
        return (struct wide_fraction){0, 0};
    while (b != 0) {
        const wide rest = a % b;
        a = b;
        b = rest;
    }
    return (struct wide_fraction){den < 0 ? -(num / a) : num / a,
                                  den < 0 ? -(den / a) : den / a};
}

static bool in_64_bits(struct wide_fraction value)
{
    return value.num <= INT64_MAX && value.num >= -INT64_MAX &&
           value.den <= INT64_MAX;
}

/* Of 64 bits. */
static struct rational given(wide num, wide den)
{
    const struct wide_fraction value = oracle(num, den);
    assert_true(in_64_bits(value));
    return (struct rational){(int64_t)value.num, (int64_t)value.den};
}

static void add_digits(struct buffer *out, wide value)
{
    if (value > 9)
        add_digits(out, value / 10);
    buffer_char(out, (char)('0' + (int)(value % 10)));
}

static void expect_same(struct rational found, struct wide_fraction wanted)
{
    if (in_64_bits(wanted)) {
        assert_int_equal(found.num, wanted.num);
        assert_int_equal(found.den, wanted.den);
        return;
    }
    struct arena *arena = arena_create();
    struct buffer out = buffer_in(arena);
    buffer_text(&out, wanted.num < 0 ? "-" : "");
    add_digits(&out, wanted.num < 0 ? -wanted.num : wanted.num);
    if (wanted.den != 1) {
        buffer_char(&out, '/');
        add_digits(&out, wanted.den);
    }
    assert_int_equal(found.den, -1);
    assert_string_equal(rational_text(arena, found), buffer_string(&out));
    arena_destroy(arena);
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
            all[count++] = given(sizes[i], sizes[k]);
            all[count++] = given(-sizes[i], sizes[k]);
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
            pair[k] = given(unit_below(&random, 2) ? num : -num,
                             any_part(&random, most));
        }
        if (i % 5 == 0)
            pair[1] = given(pair[1].num, pair[0].den);
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
        cmocka_unit_test(what_does_not_fit_goes_on),
        cmocka_unit_test(the_least_number_has_a_negative),
        cmocka_unit_test(beyond_1024_bits_it_is_unknown),
        cmocka_unit_test(unknown_stays_unknown),
        cmocka_unit_test(arithmetic_agrees_with_a_common_denominator),
        cmocka_unit_test(arithmetic_agrees_with_128_bits_at_the_edges),
        cmocka_unit_test(arithmetic_agrees_with_128_bits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
