/* Numbers with roots: the constants of the trade, identities that hold for all
 * numbers, near misses that a double does not tell apart, text, and the store.
 */
#include <math.h>
#include <string.h>

#include "../unit.h"
#include "rational.h"

static struct rational q(int64_t num, int64_t den)
{
    return rational_make(num, den);
}

/* a + b√2 + c√3 + d√6 in whole numbers. */
static struct rational r(int64_t a, int64_t b, int64_t c, int64_t d)
{
    return rational_roots(q(a, 1), q(b, 1), q(c, 1), q(d, 1));
}

static void expect_text(struct rational value, const char *text)
{
    struct arena *arena = arena_create();
    assert_string_equal(rational_text(arena, value), text);
    if (rational_known(value))
        assert_true(rational_equal(rational_read(text, strlen(text)), value));
    arena_destroy(arena);
}

static void roots_multiply(void **state)
{
    (void)state;
    const struct rational two = rational_root(2), three = rational_root(3),
                          six = rational_root(6);
    assert_true(rational_equal(rational_mul(two, two), q(2, 1)));
    assert_true(rational_equal(rational_mul(three, three), q(3, 1)));
    assert_true(rational_equal(rational_mul(six, six), q(6, 1)));
    assert_true(rational_equal(rational_mul(two, three), six));
    assert_true(rational_equal(rational_mul(two, six), r(0, 0, 2, 0)));
    assert_true(rational_equal(rational_mul(three, six), r(0, 3, 0, 0)));
    assert_true(rational_equal(rational_div(six, two), three));
    assert_true(rational_equal(rational_div(q(1, 1), two),
                               rational_div(two, q(2, 1))));
    assert_false(rational_equal(two, three));
    assert_true(rational_is_irrational(two));
    assert_false(rational_is_irrational(q(2, 1)));
    assert_false(rational_is_irrational(rational_unknown()));
}

/* tan 22.5° = √2 - 1 and tan 15° = 2 - √3, with their reciprocals; tan 2x from
 * tan x gives 45° and 30°. */
static void tangents(void **state)
{
    (void)state;
    const struct rational one = q(1, 1);
    const struct rational eighth = r(-1, 1, 0, 0), twelfth = r(2, 0, -1, 0);
    assert_true(rational_equal(rational_div(one, eighth), r(1, 1, 0, 0)));
    assert_true(rational_equal(rational_div(one, twelfth), r(2, 0, 1, 0)));
    const struct rational tangent[] = {eighth, twelfth};
    const struct rational doubled[] = {
        one, rational_div(one, rational_root(3))};
    for (size_t i = 0; i < 2; i++)
        assert_true(rational_equal(
            rational_div(rational_times(tangent[i], 2),
                         rational_sub(one, rational_mul(tangent[i],
                                                        tangent[i]))),
            doubled[i]));
}

/* What the allowances of the trade are for a seam of a quarter: rounded up to
 * eighths 7/8, 1 1/4, 7/8 (the side of a 60-degree triangle), 5/8 (of a
 * 60-degree diamond), 3/4 (of a 45-degree diamond). Geometry; the first two in
 * K. Combs, Formulas for Quilters, 2002; the third: J. Wickell, About.com
 * Quilting, cutting shapes. */
static void allowances_of_the_trade(void **state)
{
    (void)state;
    const struct rational seam = q(1, 4), step = q(1, 8);
    const struct rational sizes[] = {
        rational_mul(seam, r(2, 1, 0, 0)), rational_mul(seam, r(2, 2, 0, 0)),
        rational_mul(seam, r(0, 0, 2, 0)),
        rational_div(rational_times(seam, 4), rational_root(3)),
        rational_mul(seam, r(0, 2, 0, 0))};
    const int64_t eighths[] = {7, 10, 7, 5, 6};
    for (size_t i = 0; i < UNIT_COUNT(sizes); i++)
        assert_true(rational_equal(rational_round_up(sizes[i], step),
                                   q(eighths[i], 8)));
}

/* ---- many numbers ---- */

static struct rational any(struct unit_random *random, int64_t most)
{
    struct rational part[4];
    for (int i = 0; i < 4; i++)
        part[i] = unit_below(random, 3) == 0
                      ? q(0, 1)
                      : q(unit_below(random, (uint64_t)(2 * most)) - most,
                          1 + unit_below(random, 24));
    return rational_roots(part[0], part[1], part[2], part[3]);
}

/* As in any field; equal numbers have equal words, whichever way they came. */
static void the_laws_hold(int64_t most, int rounds)
{
    struct unit_random random = {20260606};
    for (int i = 0; i < rounds; i++) {
        const struct rational a = any(&random, most), b = any(&random, most),
                              c = any(&random, most);
        assert_true(rational_equal(rational_add(a, b), rational_add(b, a)));
        assert_true(rational_equal(rational_mul(a, b), rational_mul(b, a)));
        assert_true(rational_equal(
            rational_mul(a, rational_add(b, c)),
            rational_add(rational_mul(a, b), rational_mul(a, c))));
        assert_true(rational_equal(rational_mul(rational_mul(a, b), c),
                                   rational_mul(a, rational_mul(b, c))));
        assert_true(rational_equal(rational_sub(rational_add(a, b), b), a));
        assert_int_equal(rational_compare(a, b),
                         rational_sign(rational_sub(a, b)));
        if (rational_sign(b) != 0)
            assert_true(rational_equal(rational_mul(rational_div(a, b), b), a));
        assert_true(rational_equal(rational_times(rational_times(a, -1), -1),
                                   a));
    }
}

static void laws_of_short_numbers(void **state)
{
    (void)state;
    the_laws_hold(50, 20000);
}

static void laws_of_long_numbers(void **state)
{
    (void)state;
    the_laws_hold(INT64_C(1) << 40, 3000);
    the_laws_hold(INT64_MAX / 2, 1000);
}

/* A long double of 64 bits tells these, which are not near. */
static void values_are_what_they_say(void **state)
{
    (void)state;
    const long double root2 = sqrtl(2), root3 = sqrtl(3), root6 = sqrtl(6);
    struct unit_random random = {5};
    for (int i = 0; i < 20000; i++) {
        int64_t p[4];
        for (int k = 0; k < 4; k++)
            p[k] = unit_below(&random, 2001) - 1000;
        const int64_t den = 1 + unit_below(&random, 64);
        const long double value =
            ((long double)p[0] + (long double)p[1] * root2 +
             (long double)p[2] * root3 + (long double)p[3] * root6) /
            (long double)den;
        const struct rational found =
            rational_div(r(p[0], p[1], p[2], p[3]), q(den, 1));
        assert_true(fabsl((long double)rational_double(found) - value) < 1e-11L);
        if (fabsl(value - roundl(value)) > 1e-9L) {
            assert_int_equal(rational_floor(found), (int64_t)floorl(value));
            assert_int_equal(rational_ceil(found), (int64_t)ceill(value));
            assert_int_equal(rational_sign(found), value > 0 ? 1 : -1);
        }
    }
}

/* ---- near misses ---- */

/* Convergents p / q of √2, √3: each is nearer than the one before, and they lie
 * above and below in turn. p - q √2 is 1e-38 at the end. */
static void convergents_take_turns(void **state)
{
    (void)state;
    struct rational p = q(1, 1), d = q(1, 1);
    for (int i = 0; i < 100; i++) {
        const struct rational line = rational_mul(d, rational_root(2));
        const struct rational miss = rational_sub(p, line);
        const int wanted = i % 2 == 0 ? -1 : 1;
        assert_int_equal(rational_sign(miss), wanted);
        assert_int_equal(rational_compare(p, line), wanted);
        assert_int_equal(rational_floor(miss), wanted < 0 ? -1 : 0);
        assert_int_equal(rational_ceil(miss), wanted < 0 ? 0 : 1);
        /* The norm of all of these is 1 or -1. */
        assert_true(rational_equal(
            rational_mul(miss, rational_add(p, line)), q(wanted, 1)));
        const struct rational next = rational_add(p, rational_times(d, 2));
        d = rational_add(d, p);
        p = next;
    }
}

/* Powers of a unit less than 1 go to nothing and are never it: (√3 - √2)^k is
 * a + d√6 or b√2 + c√3, all four in turn where √2 - 1 is a factor, too. */
static void small_powers_stay_above_nothing(void **state)
{
    (void)state;
    const struct rational bases[] = {r(0, -1, 1, 0), r(-1, 1, 0, 0),
                                     r(2, 0, -1, 0), r(5, 0, 0, -2)};
    for (size_t i = 0; i < UNIT_COUNT(bases); i++) {
        const struct rational other = bases[(i + 1) % UNIT_COUNT(bases)];
        struct rational power = q(1, 1);
        for (int k = 0; k < 60; k++) {
            const struct rational next =
                rational_mul(rational_mul(power, bases[i]), other);
            assert_true(rational_known(next));
            assert_int_equal(rational_sign(next), 1);
            assert_true(rational_compare(next, power) < 0);
            assert_int_equal(rational_compare(rational_times(next, -1), next),
                             -1);
            assert_int_equal(rational_floor(next), 0);
            assert_int_equal(rational_floor(rational_sub(q(7, 1), next)), 6);
            power = next;
        }
    }
}

/* n √2 against whole roots, as rulers ask for them. */
static void whole_numbers_below(void **state)
{
    (void)state;
    struct unit_random random = {77};
    for (int i = 0; i < 20000; i++) {
        const int64_t n = 1 + unit_below(&random, INT64_C(1) << 31);
        const int64_t below = rational_floor(r(0, n, 0, 0));
        const uint64_t square = 2 * (uint64_t)n * (uint64_t)n;
        assert_true((uint64_t)below * (uint64_t)below < square);
        assert_true((uint64_t)(below + 1) * (uint64_t)(below + 1) > square);
        assert_int_equal(rational_ceil(r(0, n, 0, 0)), below + 1);
        assert_int_equal(rational_floor(r(0, -n, 0, 0)), -below - 1);
    }
    assert_int_equal(rational_floor(rational_mul(r(0, INT64_MAX, 0, 0),
                                                 q(INT64_MAX, 1))),
                     INT64_MAX);
    assert_false(rational_known(rational_round_up(
        r(0, INT64_MAX, 0, 0), q(1, 8))));
}

/* ---- text and store ---- */

static void text_is_exact_and_comes_back(void **state)
{
    (void)state;
    expect_text(r(0, 6, 0, 0), "6√2");
    expect_text(r(0, 1, 0, 0), "√2");
    expect_text(r(0, 0, -1, 0), "-√3");
    expect_text(r(2, 0, -1, 0), "2-√3");
    expect_text(rational_roots(q(3, 2), q(6, 1), q(0, 1), q(-1, 4)),
                "3/2+6√2-1/4√6");
    expect_text(rational_roots(q(-1, 8), q(1, 3), q(-5, 7), q(1, 1)),
                "1/3√2-1/8-5/7√3+√6");
    expect_text(r(-1, 1, 0, 0), "√2-1");
    expect_text(r(-1, -1, 0, 0), "-1-√2");
    expect_text(q(-17, 2), "-17/2");
    expect_text(q(8, 1), "8");
    expect_text(rational_unknown(), "?");
    struct arena *arena = arena_create();
    assert_string_equal(rational_plain(arena, r(1, 0, 3, -1)), "1+3r3-r6");
    struct buffer key = buffer_in(arena);
    rational_key(&key, q(6, 1));
    buffer_char(&key, ' ');
    rational_key(&key, r(0, 6, 0, 0));
    buffer_char(&key, ' ');
    rational_key(&key, rational_unknown());
    assert_string_equal(buffer_string(&key), "6/1 6√2 0/0");
    arena_destroy(arena);
}

static void other_text_is_unknown(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "",     "?",    "-",     "+",      "+1",   "1+",    "1++2", "1-+2",
        "√",    "√5",   "2√",    "1/0",    "1/√2", "1/",    "/2",   "1 ",
        " 1",   "3r2",  "1,2",   "√2√3",   "0/0",  "1-√2x", "--1",  "1.5"};
    for (size_t i = 0; i < UNIT_COUNT(bad); i++)
        if (rational_known(rational_read(bad[i], strlen(bad[i]))))
            fail_msg("`%s` was read", bad[i]);
    char digits[1000];
    memset(digits, '9', sizeof digits);
    assert_true(rational_known(rational_read(digits, 308)));
    assert_false(rational_known(rational_read(digits, sizeof digits)));
}

static void unknown_stays_unknown(void **state)
{
    (void)state;
    const struct rational none = rational_unknown(), root = rational_root(2);
    assert_false(rational_known(rational_add(none, root)));
    assert_false(rational_known(rational_sub(root, none)));
    assert_false(rational_known(rational_mul(root, none)));
    assert_false(rational_known(rational_div(none, root)));
    assert_false(rational_known(rational_div(root, none)));
    assert_false(rational_known(rational_div(root, q(0, 1))));
    assert_false(rational_known(rational_round_up(none, root)));
    assert_false(rational_equal(none, root));
    assert_true(rational_equal(rational_mul(root, q(0, 1)), q(0, 1)));
}

/* Beyond 1,024 bits of a part. (1 + √2)^n grows by 1.27 bits a power. */
static void too_long_is_unknown(void **state)
{
    (void)state;
    struct rational power = q(1, 1);
    int count = 0;
    while (rational_known(power) && count < 2000) {
        power = rational_mul(power, r(1, 1, 0, 0));
        count++;
    }
    assert_in_range(count, 1024 / 1.28, 1024 / 1.27 + 2);
}

/* (√2 - 1)^n has parts of 1.27 n bits that nearly take each other off, short ones
 * and long ones; it is told by n products of a double that is right to 2^-53. */
static void doubles_of_small_differences(void **state)
{
    (void)state;
    struct rational power = rational_whole(1);
    double expected = 1;
    for (int n = 1; n <= 600; n++) {
        power = rational_mul(power, r(-1, 1, 0, 0));
        expected *= 0.41421356237309504880;
        const double found = rational_double(power);
        assert_true(fabs(found - expected) < 1e-14 * n * expected);
        const double above =
            rational_double(rational_add(power, rational_whole(1)));
        assert_true(fabs(above - 1 - expected) < 1e-14);
    }
    assert_true(expected > 0);
}

/* Equal numbers have one hash, however they were made; others, and other
 * orders of the same parts, have others. */
static void hashes_tell_values(void **state)
{
    (void)state;
    const struct rational all[] = {r(1, 2, 3, 4), r(2, 1, 3, 4), r(0, 1, 0, 0),
                                   r(1, 0, 0, 0), r(0, 0, 1, 0), r(0, 0, 0, 1)};
    enum { COUNT = sizeof all / sizeof all[0] };
    for (int i = 0; i < COUNT; i++)
        for (int k = 0; k < COUNT; k++)
            assert_int_equal(rational_hash(all[i]) == rational_hash(all[k]),
                             i == k);
    const uint64_t before = rational_hash(r(7, 5, 3, 2));
    rational_forget();
    assert_true(rational_hash(rational_mul(r(7, 5, 3, 2), r(1, 0, 0, 0))) ==
                before);
}

static void the_store_forgets_and_begins_anew(void **state)
{
    (void)state;
    for (int i = 0; i < 3; i++) {
        the_laws_hold(50, 500);
        rational_forget();
        rational_forget();
        assert_true(rational_equal(r(3, 1, 0, 0), r(3, 1, 0, 0)));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(roots_multiply),
        cmocka_unit_test(tangents),
        cmocka_unit_test(allowances_of_the_trade),
        cmocka_unit_test(laws_of_short_numbers),
        cmocka_unit_test(laws_of_long_numbers),
        cmocka_unit_test(values_are_what_they_say),
        cmocka_unit_test(convergents_take_turns),
        cmocka_unit_test(small_powers_stay_above_nothing),
        cmocka_unit_test(whole_numbers_below),
        cmocka_unit_test(text_is_exact_and_comes_back),
        cmocka_unit_test(other_text_is_unknown),
        cmocka_unit_test(unknown_stays_unknown),
        cmocka_unit_test(too_long_is_unknown),
        cmocka_unit_test(doubles_of_small_differences),
        cmocka_unit_test(hashes_tell_values),
        cmocka_unit_test(the_store_forgets_and_begins_anew),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    rational_forget();
    return failed;
}
