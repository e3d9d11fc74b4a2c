/* The number in which the arrangement is exact: THE one place that names its
 * type. It is that of all sizes (rational.h), fractions or with roots: blocks on
 * point and triangles meet where no fraction is. Nearly all are fractions of 64
 * bits, which need no store. All else in this folder calls these operations and
 * knows no more of it. A result that leaves the type (1,024 bits in a part) is
 * unknown, and so is all that is made of it.
 */
#ifndef SEAMWRIGHT_NUMBER_H
#define SEAMWRIGHT_NUMBER_H

#include <math.h>

#include "sewn.h"
#include "spot.h"

typedef struct rational number;

static inline number number_whole(int64_t value)
{
    return rational_whole(value);
}
static inline number number_unknown(void)
{
    return rational_unknown();
}
static inline bool number_known(number a)
{
    return a.den != 0;
}
static inline number number_add(number a, number b)
{
    return rational_add(a, b);
}
static inline number number_sub(number a, number b)
{
    return rational_sub(a, b);
}
static inline number number_mul(number a, number b)
{
    return rational_mul(a, b);
}
static inline number number_div(number a, number b)
{
    return rational_div(a, b);
}
static inline number number_half(number a)
{
    return number_div(a, rational_whole(2));
}
static inline number number_negative(number a)
{
    return rational_times(a, -1);
}
/* requires: known. ensures: below 0, 0 or above 0. */
static inline int number_compare(number a, number b)
{
    return rational_compare(a, b);
}
static inline int number_sign(number a)
{
    return rational_sign(a);
}
static inline bool number_equal(number a, number b)
{
    return rational_equal(a, b);
}
static inline double number_double(number a)
{
    return rational_double(a);
}
/* What a scale must be a multiple of to make the number whole; 0 where no scale
 * of 64 bits does that. */
static inline int64_t number_parts(number a)
{
    return rational_is_fraction(a) ? a.den : 0;
}
/* The number times a scale, rounded to a whole one; exact where the scale is a
 * multiple of its parts and the product is below 2^53. */
static inline double number_scaled(number a, double scale)
{
    if (!rational_is_fraction(a))
        return round(number_double(a) * scale);
    const double times = scale / (double)a.den;
    return times == floor(times) ? (double)a.num * times
                                 : round(number_double(a) * scale);
}
static inline uint64_t number_hash(number a)
{
    return rational_hash(a);
}

/* ---- points ---- */

static inline bool vertex_known(struct vertex v)
{
    return number_known(v.x) && number_known(v.y);
}
static inline bool vertex_equal(struct vertex a, struct vertex b)
{
    return number_equal(a.x, b.x) && number_equal(a.y, b.y);
}
/* By x, then by y. requires: both known. */
static inline int vertex_compare(struct vertex a, struct vertex b)
{
    const int by_x = number_compare(a.x, b.x);
    return by_x != 0 ? by_x : number_compare(a.y, b.y);
}
static inline struct vertex vertex_middle(struct vertex a, struct vertex b)
{
    return (struct vertex){number_half(number_add(a.x, b.x)),
                           number_half(number_add(a.y, b.y))};
}
static inline struct spot vertex_spot(struct vertex v)
{
    return (struct spot){number_double(v.x), number_double(v.y)};
}
static inline uint64_t vertex_hash(struct vertex v)
{
    return number_hash(v.x) * 31 + (number_hash(v.y) ^ 0x2545f4914f6cdd1du);
}

#endif
