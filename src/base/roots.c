/* Arithmetic with roots while the parts are short: products of two parts, and
 * sums of those, fit 128 bits. What is longer goes to roots_wide.c.
 * Read next: roots_store.c. */
#include "roots.h"

#include <float.h>
#include <math.h>

/* The parts of a number on its way, in any terms. */
struct sum {
    wide part[PARTS];
};

/* ensures: false where a part is not short. */
static bool load(struct sum *x, struct rational a)
{
    if (a.den > 0) {
        *x = (struct sum){{[ONE] = a.num, [UNDER] = a.den}};
        return is_short(a.num) && is_short(a.den);
    }
    const struct stored *stored = stored_of(a);
    for (int i = 0; i < PARTS; i++)
        x->part[i] = stored->part[i];
    return stored->limbs == NULL;
}

/* Without its sign. */
static wide size_of(wide part)
{
    return part < 0 ? -part : part;
}

/* requires: both at least 0. */
static wide divisor(wide a, wide b)
{
    while (b != 0) {
        if (a <= INT64_MAX && b <= INT64_MAX)
            return whole_common_divisor((int64_t)a, (int64_t)b);
        const wide rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

static wide quotient(wide a, wide b)
{
    return a <= INT64_MAX && a >= -INT64_MAX && b <= INT64_MAX
               ? (int64_t)a / (int64_t)b
               : a / b;
}

/* Lowest terms, the denominator above 0. ensures: false where a part is not
 * short even so. */
static bool lower(struct sum *x)
{
    wide common = size_of(x->part[UNDER]);
    for (int i = 0; i < UNDER && common != 1; i++)
        common = divisor(common, size_of(x->part[i]));
    if (x->part[UNDER] < 0)
        common = -common;
    bool all_short = true;
    for (int i = 0; i < PARTS; i++) {
        if (common != 1)
            x->part[i] = common < 0 ? -quotient(x->part[i], -common)
                                    : quotient(x->part[i], common);
        all_short = all_short && is_short(x->part[i]);
    }
    return all_short;
}

/* Else it is a fraction. */
static bool has_roots(const struct sum *x)
{
    return x->part[ROOT2] != 0 || x->part[ROOT3] != 0 || x->part[ROOT6] != 0;
}

/* As all numbers are kept: a fraction of 64 bits is never in the store. */
static struct rational kept(struct sum *x)
{
    if (!lower(x))
        return wide_keep(x->part);
    if (!has_roots(x))
        return (struct rational){(int64_t)x->part[ONE],
                                 (int64_t)x->part[UNDER]};
    int64_t part[PARTS];
    for (int i = 0; i < PARTS; i++)
        part[i] = (int64_t)x->part[i];
    return store_short(part);
}

struct rational roots_add(struct rational a, struct rational b)
{
    struct sum x, y;
    if (!load(&x, a) || !load(&y, b))
        return wide_add(a, b);
    const wide p = x.part[UNDER], q = y.part[UNDER];
    for (int i = 0; i < UNDER; i++)
        x.part[i] = p == q ? x.part[i] + y.part[i]
                           : x.part[i] * q + y.part[i] * p;
    x.part[UNDER] = p == q ? p : p * q;
    return kept(&x);
}

/* No part can outgrow its room by that. */
struct rational roots_negative(struct rational a)
{
    return roots_mul(a, (struct rational){-1, 1});
}

/* requires: all parts short. */
static struct sum product(const struct sum *x, const struct sum *y)
{
    struct sum z = {{[UNDER] = x->part[UNDER] * y->part[UNDER]}};
    for (int i = 0; i < UNDER; i++) {
        if (x->part[i] == 0)
            continue;
        for (int k = 0; k < UNDER; k++)
            z.part[i ^ k] += x->part[i] * y->part[k] * roots_squared[i & k];
    }
    return z;
}

struct rational roots_mul(struct rational a, struct rational b)
{
    struct sum x, y;
    if (!load(&x, a) || !load(&y, b))
        return wide_mul(a, b);
    struct sum z = product(&x, &y);
    return kept(&z);
}

/* The number with one root the other way round: √2 or √3 becomes negative, and
 * with it √6. */
static struct sum conjugate(struct sum x, int root)
{
    for (int i = 0; i < UNDER; i++)
        if (i & root)
            x.part[i] = -x.part[i];
    return x;
}

/* 1 / y, by its conjugates: y times the one of √3 has no √3, that times its own
 * of √2 is a fraction. ensures: false where 128 bits might not do, or the
 * parts do not come out short. */
static bool inverse(const struct sum *y, struct sum *result)
{
    const wide most = (wide)1 << 25; /* then all below stays under 2^115 */
    for (int i = 0; i < PARTS; i++)
        if (size_of(y->part[i]) >= most)
            return false;
    const struct sum other = conjugate(*y, ROOT3);
    const struct sum without = product(y, &other);
    const struct sum opposite = conjugate(without, ROOT2);
    const wide norm = product(&without, &opposite).part[ONE];
    *result = product(&other, &opposite);
    /* Of the numerators alone: y = n / d, so 1 / y = d n' n'' / norm. */
    for (int i = 0; i < UNDER; i++)
        result->part[i] *= y->part[UNDER];
    result->part[UNDER] = norm;
    return lower(result);
}

struct rational roots_div(struct rational a, struct rational b)
{
    struct sum x, y, z;
    if (b.den > 0)
        return b.num > 0 ? roots_mul(a, (struct rational){b.den, b.num})
                         : roots_mul(a, (struct rational){-b.den, -b.num});
    if (!load(&x, a) || !load(&y, b) || !inverse(&y, &z))
        return wide_div(a, b);
    z = product(&x, &z);
    return kept(&z);
}

/* ---- order ---- */

/* A double and how far it may be off. A fraction has three roundings. */
static double estimate(struct rational a, double *slack)
{
    if (a.den < 0) {
        *slack = stored_of(a)->slack;
        return stored_of(a)->near;
    }
    const double near = (double)a.num / (double)a.den;
    *slack = fabs(near) * (2 * DBL_EPSILON);
    return near;
}

int roots_compare(struct rational a, struct rational b)
{
    if (a.num == b.num && a.den == b.den)
        return 0;
    double slack[2];
    const double left = estimate(a, &slack[0]), right = estimate(b, &slack[1]);
    /* The difference and this sum are rounded, too. */
    const double doubt = (slack[0] + slack[1]) * 2 +
                         (fabs(left) + fabs(right)) * DBL_EPSILON + DBL_MIN;
    if (fabs(left - right) > doubt)
        return left > right ? 1 : -1;
    return wide_compare(a, b);
}

bool roots_floor(struct rational a, int64_t *below)
{
    const struct stored *stored = stored_of(a);
    const double least = floor(stored->near - 2 * stored->slack);
    const double most = floor(stored->near + 2 * stored->slack);
    /* Below 2^52, halves are told apart, so that the two ends are good. */
    if (least != most || !(fabs(least) < 4503599627370496.0))
        return wide_floor(a, below);
    *below = (int64_t)least;
    return true;
}
