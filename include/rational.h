/* owner: base
 *
 * Exact numbers: a 64-bit fraction in lowest terms.
 *
 * All seam arithmetic is done with these. A result that does not fit 64 bits
 * is *unknown* (its denominator is 0), and so is every result made from an
 * unknown: a check that meets one stays silent, because the cause has been
 * reported where it arose.
 */
#ifndef SEAMWRIGHT_RATIONAL_H
#define SEAMWRIGHT_RATIONAL_H

#include <stdbool.h>
#include <stdint.h>

struct rational {
    int64_t num;
    int64_t den; /* > 0, or 0 for unknown */
};

/* ensures: num/den in lowest terms, or unknown where den is 0. */
struct rational rational_make(int64_t num, int64_t den);
struct rational rational_whole(int64_t value);
struct rational rational_unknown(void);
bool rational_known(struct rational a);

struct rational rational_add(struct rational a, struct rational b);
struct rational rational_sub(struct rational a, struct rational b);
struct rational rational_mul(struct rational a, struct rational b);
/* ensures: unknown where b is 0. */
struct rational rational_div(struct rational a, struct rational b);
struct rational rational_times(struct rational a, int64_t factor);

/* requires: both known. ensures: negative, 0 or positive as a <, =, > b. */
int rational_compare(struct rational a, struct rational b);
/* requires: a known. ensures: -1, 0 or 1. */
int rational_sign(struct rational a);
/* ensures: true where both are known and equal. */
bool rational_equal(struct rational a, struct rational b);
/* requires: both known. */
struct rational rational_min(struct rational a, struct rational b);
struct rational rational_max(struct rational a, struct rational b);

/* requires: a known. ensures: the largest whole number <= a. */
int64_t rational_floor(struct rational a);
/* requires: a known. ensures: the smallest whole number >= a. */
int64_t rational_ceil(struct rational a);

/* requires: step > 0.
 * ensures: the smallest multiple of `step` that is >= a. */
struct rational rational_round_up(struct rational a, struct rational step);

/* The smallest multiple of `step` that is >= a + b * sqrt(2), decided by
 * comparing squares, so without rounding.
 * requires: b >= 0, step > 0. */
struct rational rational_round_up_root2(struct rational a, struct rational b,
                                        struct rational step);

/* a + b * sqrt(2) as a multiple of 1/1,000,000,000, rounded down: at most
 * 1e-9 below the true value. For the outline of cloth that is trimmed later,
 * never for a size that is printed. requires: b >= 0. */
struct rational rational_root2_below(struct rational a, struct rational b);

/* The greatest whole number that divides both; 0 only where both are 0.
 * requires: a, b >= 0. */
int64_t whole_common_divisor(int64_t a, int64_t b);

/* For drawing only. ensures: 0 for unknown. */
double rational_double(struct rational a);

#endif
