/* Exact fractions. Intermediate products use 128 bits. */
#include "rational.h"

__extension__ typedef __int128 wide;

static wide wide_gcd(wide a, wide b)
{
    if (a < 0)
        a = -a;
    while (b != 0) {
        const wide rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* How often 2 divides it. requires: not 0. */
static int twos_in(uint64_t number)
{
    return __builtin_ctzll(number);
}

/* By halving (Stein, 1967). requires: both above 0. */
static uint64_t short_gcd(uint64_t a, uint64_t b)
{
    const int common = twos_in(a | b);
    a >>= twos_in(a);
    while (b != 0) {
        b >>= twos_in(b);
        if (a > b) {
            const uint64_t swap = a;
            a = b;
            b = swap;
        }
        b -= a;
    }
    return a << common;
}

/* What nearly all sums of lengths are: the parts fit, and the denominator is a
 * power of 2, as rulers have it. requires: den > 0. */
static struct rational reduce_short(int64_t num, int64_t den)
{
    if (num == 0)
        return (struct rational){0, 1};
    const uint64_t size = num < 0 ? (uint64_t)-num : (uint64_t)num;
    if ((den & (den - 1)) == 0) {
        const int twos = twos_in(size | (uint64_t)den);
        const int64_t part = (int64_t)(size >> twos);
        return (struct rational){num < 0 ? -part : part, den >> twos};
    }
    /* The rest is as small as the denominator, which takes few halvings. */
    const uint64_t rest = size % (uint64_t)den;
    if (rest == 0)
        return (struct rational){num / den, 1};
    const int64_t common = (int64_t)short_gcd(rest, (uint64_t)den);
    return common == 1 ? (struct rational){num, den}
                       : (struct rational){num / common, den / common};
}

/* Lowest terms, positive denominator; unknown where it does not fit. */
static struct rational reduce(wide num, wide den)
{
    if (den == 0)
        return rational_unknown();
    if (den < 0) {
        num = -num;
        den = -den;
    }
    if (den <= INT64_MAX && num <= INT64_MAX && num >= -INT64_MAX)
        return reduce_short((int64_t)num, (int64_t)den);
    const wide common = wide_gcd(num, den);
    if (common > 1) {
        num /= common;
        den /= common;
    }
    if (num > INT64_MAX || num < -INT64_MAX || den > INT64_MAX)
        return rational_unknown();
    return (struct rational){(int64_t)num, (int64_t)den};
}

struct rational rational_make(int64_t num, int64_t den)
{
    return reduce(num, den);
}

struct rational rational_whole(int64_t value)
{
    return reduce(value, 1);
}

struct rational rational_unknown(void)
{
    return (struct rational){0, 0};
}

bool rational_known(struct rational a)
{
    return a.den != 0;
}

static bool both_known(struct rational a, struct rational b)
{
    return a.den != 0 && b.den != 0;
}

/* So small that no product of two, nor the sum of two such, needs 128 bits. */
static bool both_short(struct rational a, struct rational b)
{
    enum { SHORT = 1 << 30 };
    return a.num < SHORT && a.num > -SHORT && b.num < SHORT && b.num > -SHORT &&
           a.den < SHORT && b.den < SHORT;
}

struct rational rational_add(struct rational a, struct rational b)
{
    if (!both_known(a, b))
        return rational_unknown();
    if (a.den == 1 && b.den == 1 && both_short(a, b))
        return (struct rational){a.num + b.num, 1};
    if (both_short(a, b))
        return a.den == b.den
                   ? reduce_short(a.num + b.num, a.den)
                   : reduce_short(a.num * b.den + b.num * a.den, a.den * b.den);
    if (a.den == b.den)
        return reduce((wide)a.num + b.num, a.den);
    /* |num * den| < 2^126 each, so the sum fits 127 bits and a sign. */
    return reduce((wide)a.num * b.den + (wide)b.num * a.den,
                  (wide)a.den * b.den);
}

struct rational rational_sub(struct rational a, struct rational b)
{
    b.num = -b.num;
    return rational_add(a, b);
}

struct rational rational_mul(struct rational a, struct rational b)
{
    if (!both_known(a, b))
        return rational_unknown();
    if (a.den == 1 && b.den == 1 && both_short(a, b))
        return (struct rational){a.num * b.num, 1};
    if (both_short(a, b))
        return reduce_short(a.num * b.num, a.den * b.den);
    return reduce((wide)a.num * b.num, (wide)a.den * b.den);
}

struct rational rational_div(struct rational a, struct rational b)
{
    if (!both_known(a, b))
        return rational_unknown();
    return reduce((wide)a.num * b.den, (wide)a.den * b.num);
}

struct rational rational_times(struct rational a, int64_t factor)
{
    return reduce((wide)a.num * factor, a.den);
}

int rational_compare(struct rational a, struct rational b)
{
    if (a.den == b.den)
        return (a.num > b.num) - (a.num < b.num);
    if (both_short(a, b)) {
        const int64_t left = a.num * b.den, right = b.num * a.den;
        return (left > right) - (left < right);
    }
    const wide left = (wide)a.num * b.den;
    const wide right = (wide)b.num * a.den;
    return (left > right) - (left < right);
}

int rational_sign(struct rational a)
{
    return (a.num > 0) - (a.num < 0);
}

bool rational_equal(struct rational a, struct rational b)
{
    return both_known(a, b) && a.num == b.num && a.den == b.den;
}

struct rational rational_min(struct rational a, struct rational b)
{
    return rational_compare(a, b) <= 0 ? a : b;
}

struct rational rational_max(struct rational a, struct rational b)
{
    return rational_compare(a, b) >= 0 ? a : b;
}

int64_t rational_floor(struct rational a)
{
    const int64_t quotient = a.num / a.den;
    return a.num % a.den < 0 ? quotient - 1 : quotient;
}

int64_t rational_ceil(struct rational a)
{
    const int64_t quotient = a.num / a.den;
    return a.num % a.den > 0 ? quotient + 1 : quotient;
}

struct rational rational_round_up(struct rational a, struct rational step)
{
    const struct rational steps = rational_div(a, step);
    if (!rational_known(steps))
        return rational_unknown();
    return rational_times(step, rational_ceil(steps));
}

/* Is m >= a + b * sqrt(2)?  With d = m - a: d >= 0 and d * d >= 2 * b * b.
 * ensures: true too where the squares do not fit; *fits tells. */
static bool reaches_root2(struct rational m, struct rational a,
                          struct rational b, bool *fits)
{
    const struct rational d = rational_sub(m, a);
    const struct rational twice = rational_times(rational_mul(b, b), 2);
    const struct rational square = rational_mul(d, d);
    *fits = both_known(square, twice);
    return !*fits ||
           (rational_sign(d) >= 0 && rational_compare(square, twice) >= 0);
}

struct rational rational_round_up_root2(struct rational a, struct rational b,
                                        struct rational step)
{
    /* Start at or below the answer (41/29 < sqrt(2)) and step up: 41/29 is
     * 0.0004 short, so there are few steps for any length of cloth. */
    const struct rational start =
        rational_add(a, rational_mul(b, rational_make(41, 29)));
    struct rational m = rational_round_up(start, step);
    bool fits = true;
    while (!reaches_root2(m, a, b, &fits))
        m = rational_add(m, step);
    return fits ? m : rational_unknown();
}

/* The whole part of the root of n, by bits. */
static wide wide_root(wide n)
{
    wide root = 0;
    for (wide bit = (wide)1 << 62; bit != 0; bit >>= 1) {
        if ((root + bit) * (root + bit) <= n)
            root += bit;
    }
    return root;
}

struct rational rational_root2_below(struct rational a, struct rational b)
{
    const int64_t billion = 1000000000;
    const struct rational c = rational_times(b, billion);
    if (!both_known(a, c) || c.num > INT64_MAX / 2)
        return rational_unknown();
    const wide square = (wide)c.num * c.num * 2 / ((wide)c.den * c.den);
    return rational_add(a, reduce(wide_root(square), billion));
}

int64_t whole_common_divisor(int64_t a, int64_t b)
{
    return (int64_t)wide_gcd(a, b);
}

double rational_double(struct rational a)
{
    return a.den == 0 ? 0.0 : (double)a.num / (double)a.den;
}
