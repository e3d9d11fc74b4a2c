/* Exact numbers: fractions of 64 bits, with 128 for products between; all that
 * is no such fraction goes on in roots.c. Read next: roots.h. */
#include "rational.h"

#include "roots.h"

/* What is rare stays out of the way of the rest: a function that calls nothing
 * but at its end needs no room on the stack. */
#define RARE __attribute__((noinline, cold))

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

/* By halving (Stein, 1967). requires: both above 0, b odd. */
static uint64_t odd_gcd(uint64_t a, uint64_t b)
{
    for (;;) {
        a >>= twos_in(a);
        if (a == b || a == 1)
            return a;
        if (a < b) {
            const uint64_t swap = a;
            a = b;
            b = swap;
        }
        a -= b;
    }
}

/* A division of 32 bits takes a third of the time of one of 64. */
static bool half_words(uint64_t a, uint64_t b)
{
    return (a | b) <= UINT32_MAX;
}

static uint64_t quotient(uint64_t a, uint64_t b)
{
    return half_words(a, b) ? (uint32_t)a / (uint32_t)b : a / b;
}

static uint64_t remainder_of(uint64_t a, uint64_t b)
{
    return half_words(a, b) ? (uint32_t)a % (uint32_t)b : a % b;
}

/* What both parts have in common of the odd part of the denominator. */
static uint64_t odd_common(uint64_t size, uint64_t odd)
{
    /* The rest is as small as the odd part, which takes few halvings. */
    const uint64_t rest = remainder_of(size, odd);
    return rest == 0 ? odd : odd_gcd(rest, odd);
}

/* What nearly all sums of lengths are: the parts fit. Rulers have powers of 2,
 * which are shifted away; what is odd is mostly 3. requires: den > 0. */
static struct rational reduce_short(int64_t num, int64_t den)
{
    if (num == 0)
        return (struct rational){0, 1};
    uint64_t size = num < 0 ? (uint64_t)-num : (uint64_t)num;
    uint64_t parts = (uint64_t)den;
    const int twos = twos_in(size | parts);
    size >>= twos;
    parts >>= twos;
    const uint64_t odd = parts >> twos_in(parts);
    const uint64_t common = odd == 1 ? 1 : odd_common(size, odd);
    if (common > 1) {
        size = quotient(size, common);
        parts = quotient(parts, common);
    }
    return (struct rational){num < 0 ? -(int64_t)size : (int64_t)size,
                             (int64_t)parts};
}

/* Lowest terms, positive denominator; stored where it does not fit. */
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
        return wide_keep((wide[PARTS]){[ONE] = num, [UNDER] = den});
    return (struct rational){(int64_t)num, (int64_t)den};
}

struct rational rational_make(int64_t num, int64_t den)
{
    return reduce(num, den);
}

struct rational rational_whole(int64_t value)
{
    return value < -INT64_MAX ? reduce(value, 1) : (struct rational){value, 1};
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

/* requires: both known. */
static bool any_stored(struct rational a, struct rational b)
{
    return (a.den | b.den) < 0;
}

bool rational_is_irrational(struct rational a)
{
    return a.den < 0 && stored_of(a)->irrational;
}

struct rational rational_root(int of)
{
    return store_short((int64_t[PARTS]){
        [ROOT2] = of == 2, [ROOT3] = of == 3, [ROOT6] = of == 6, [UNDER] = 1});
}

struct rational rational_roots(struct rational a, struct rational b,
                               struct rational c, struct rational d)
{
    const struct rational parts[UNDER] = {a, b, c, d};
    struct rational sum = a;
    for (int i = ROOT2; i < UNDER; i++)
        sum = rational_add(
            sum, rational_mul(parts[i], rational_root((int)roots_squared[i])));
    return sum;
}

/* So small that no product of two, nor the sum of two such, needs 128 bits:
 * numerators of 30 bits and a sign, denominators of 31. */
static bool both_short(struct rational a, struct rational b)
{
    const uint64_t least = UINT64_C(1) << 30;
    const uint64_t parts = ((uint64_t)a.num + least) |
                           ((uint64_t)b.num + least) | (uint64_t)a.den |
                           (uint64_t)b.den;
    return parts >> 31 == 0;
}

RARE static struct rational add_long(struct rational a, struct rational b)
{
    if (!both_known(a, b))
        return rational_unknown();
    if (any_stored(a, b))
        return roots_add(a, b);
    if (a.den == b.den)
        return reduce((wide)a.num + b.num, a.den);
    /* |num * den| < 2^126 each, so the sum fits 127 bits and a sign. */
    return reduce((wide)a.num * b.den + (wide)b.num * a.den,
                  (wide)a.den * b.den);
}

/* A whole number and a fraction in lowest terms have a sum in lowest terms. */
struct rational rational_add(struct rational a, struct rational b)
{
    if (!both_short(a, b))
        return add_long(a, b);
    if (!both_known(a, b))
        return rational_unknown();
    if (b.den == 1)
        return (struct rational){a.num + b.num * a.den, a.den};
    if (a.den == 1)
        return (struct rational){a.num * b.den + b.num, b.den};
    if (a.den == b.den)
        return reduce_short(a.num + b.num, a.den);
    return reduce_short(a.num * b.den + b.num * a.den, a.den * b.den);
}

RARE static struct rational sub_stored(struct rational a, struct rational b)
{
    return rational_add(a, roots_negative(b));
}

struct rational rational_sub(struct rational a, struct rational b)
{
    if (b.den < 0)
        return sub_stored(a, b);
    b.num = -b.num;
    return rational_add(a, b);
}

RARE static struct rational mul_long(struct rational a, struct rational b)
{
    if (any_stored(a, b))
        return roots_mul(a, b);
    return reduce((wide)a.num * b.num, (wide)a.den * b.den);
}

struct rational rational_mul(struct rational a, struct rational b)
{
    if (!both_known(a, b))
        return rational_unknown();
    if (!both_short(a, b))
        return mul_long(a, b);
    if (a.den == 1 && b.den == 1)
        return (struct rational){a.num * b.num, 1};
    return reduce_short(a.num * b.num, a.den * b.den);
}

RARE static struct rational div_long(struct rational a, struct rational b)
{
    if (any_stored(a, b))
        return roots_div(a, b);
    return reduce((wide)a.num * b.den, (wide)a.den * b.num);
}

struct rational rational_div(struct rational a, struct rational b)
{
    if (!both_known(a, b) || b.num == 0)
        return rational_unknown();
    if (!both_short(a, b))
        return div_long(a, b);
    const int64_t num = a.num * b.den, den = a.den * b.num;
    return den < 0 ? reduce_short(-num, -den) : reduce_short(num, den);
}

struct rational rational_times(struct rational a, int64_t factor)
{
    if (factor == -1 && a.den >= 0)
        return (struct rational){-a.num, a.den};
    return rational_mul(a, rational_whole(factor));
}

RARE static int compare_long(struct rational a, struct rational b)
{
    if (any_stored(a, b))
        return roots_compare(a, b);
    const wide left = (wide)a.num * b.den;
    const wide right = (wide)b.num * a.den;
    return (left > right) - (left < right);
}

int rational_compare(struct rational a, struct rational b)
{
    if (a.den == b.den && a.den >= 0)
        return (a.num > b.num) - (a.num < b.num);
    if (both_short(a, b)) {
        const int64_t left = a.num * b.den, right = b.num * a.den;
        return (left > right) - (left < right);
    }
    return compare_long(a, b);
}

int rational_sign(struct rational a)
{
    if (a.den < 0)
        return stored_of(a)->sign;
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

/* ensures: *below is the largest whole number <= a; false where it does not
 * fit. */
static bool whole_below(struct rational a, int64_t *below)
{
    if (a.den < 0)
        return roots_floor(a, below);
    const int64_t whole = a.num / a.den;
    *below = a.num % a.den < 0 ? whole - 1 : whole;
    return true;
}

static bool whole_above(struct rational a, int64_t *above)
{
    const bool fits = whole_below(rational_times(a, -1), above);
    *above = -*above; /* never the least number, which has no negative */
    return fits;
}

int64_t rational_floor(struct rational a)
{
    int64_t below;
    whole_below(a, &below);
    return below;
}

int64_t rational_ceil(struct rational a)
{
    int64_t above;
    whole_above(a, &above);
    return above;
}

struct rational rational_round_up(struct rational a, struct rational step)
{
    const struct rational steps = rational_div(a, step);
    int64_t count;
    if (!rational_known(steps) || !whole_above(steps, &count))
        return rational_unknown();
    return rational_times(step, count);
}

struct rational rational_round_up_root2(struct rational a, struct rational b,
                                        struct rational step)
{
    const struct rational exact =
        rational_add(a, rational_mul(b, rational_root(2)));
    return rational_round_up(exact, step);
}

struct rational rational_root2_below(struct rational a, struct rational b)
{
    const int64_t billion = 1000000000;
    const struct rational root =
        rational_mul(rational_times(b, billion), rational_root(2));
    int64_t below;
    if (!rational_known(root) || !whole_below(root, &below))
        return rational_unknown();
    return rational_add(a, rational_make(below, billion));
}

int64_t whole_common_divisor(int64_t a, int64_t b)
{
    return (int64_t)wide_gcd(a, b);
}

uint64_t rational_hash(struct rational a)
{
    if (a.den < 0)
        return stored_of(a)->hash;
    uint64_t h = (uint64_t)a.num * 0x9e3779b97f4a7c15u;
    h = (h ^ (h >> 29) ^ (uint64_t)a.den) * 0xbf58476d1ce4e5b9u;
    h = (h ^ (h >> 32)) * 0x94d049bb133111ebu;
    return h ^ (h >> 31);
}

double rational_double(struct rational a)
{
    if (a.den < 0)
        return stored_of(a)->near;
    return a.den == 0 ? 0.0 : (double)a.num / (double)a.den;
}
