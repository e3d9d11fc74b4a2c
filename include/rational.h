/* owner: base
 *
 * Exact numbers: a + b√2 + c√3 + d√6 with fractions a, b, c, d. These are all
 * that cloth at 45, 60, 30, 22.5 and 15 degrees has (tan 22.5° = √2 - 1, tan 15°
 * = 2 - √3). Sums, products and quotients of them are such numbers again.
 *
 * All seam arithmetic is done with these. Nearly all are fractions of 64 bits in
 * lowest terms, which lie in the two words. Any other number lies in a store,
 * each value once, so that two numbers are equal where both their words are.
 * Where a part of it would have more than 1,024 bits, a result is *unknown*
 * (its denominator is 0), and so is every result made from an unknown: a check
 * that meets one stays silent, because the cause has been reported where it
 * arose.
 *
 * Who reads `num` and `den` asks rational_is_fraction before: of any other
 * number they are the address of what is stored and -1.
 */
#ifndef SEAMWRIGHT_RATIONAL_H
#define SEAMWRIGHT_RATIONAL_H

#include <stdbool.h>
#include <stdint.h>

#include "buffer.h"

struct rational {
    int64_t num;
    int64_t den; /* > 0: a fraction; 0: unknown; -1: num says where it lies */
};

/* ensures: num/den in lowest terms, or unknown where den is 0. */
struct rational rational_make(int64_t num, int64_t den);
struct rational rational_whole(int64_t value);
struct rational rational_unknown(void);
bool rational_known(struct rational a);

/* Known, and num/den is the number: a fraction that 64 bits hold. */
static inline bool rational_is_fraction(struct rational a)
{
    return a.den > 0;
}
/* Known, and no fraction at all. */
bool rational_is_irrational(struct rational a);

/* The root of 2, 3 or 6. requires: one of these. */
struct rational rational_root(int of);
/* a + b√2 + c√3 + d√6. */
struct rational rational_roots(struct rational a, struct rational b,
                               struct rational c, struct rational d);

struct rational rational_add(struct rational a, struct rational b);
struct rational rational_sub(struct rational a, struct rational b);
struct rational rational_mul(struct rational a, struct rational b);
/* ensures: unknown where b is 0. */
struct rational rational_div(struct rational a, struct rational b);
struct rational rational_times(struct rational a, int64_t factor);

/* Exact, however near the two are: where a double with a bound of its error
 * leaves it open, squares in whole numbers decide.
 * requires: both known. ensures: negative, 0 or positive as a <, =, > b. */
int rational_compare(struct rational a, struct rational b);
/* requires: a known. ensures: -1, 0 or 1. */
int rational_sign(struct rational a);
/* ensures: true where both are known and equal. */
bool rational_equal(struct rational a, struct rational b);
/* requires: both known. */
struct rational rational_min(struct rational a, struct rational b);
struct rational rational_max(struct rational a, struct rational b);

/* requires: a known. ensures: the largest whole number <= a; where 64 bits do
 * not hold it, the nearest that they hold. */
int64_t rational_floor(struct rational a);
/* The same for the smallest whole number >= a. */
int64_t rational_ceil(struct rational a);

/* requires: step > 0.
 * ensures: the smallest multiple of `step` that is >= a; unknown where 64 bits
 * do not hold how many steps that is. */
struct rational rational_round_up(struct rational a, struct rational step);

/* The smallest multiple of `step` that is >= a + b√2. requires: step > 0. */
struct rational rational_round_up_root2(struct rational a, struct rational b,
                                        struct rational step);

/* a + b√2 with the second term as a multiple of 1/1,000,000,000, rounded down:
 * at most 1e-9 below the true value. For the outline of cloth that is trimmed later,
 * never for a size that is printed. requires: b >= 0. */
struct rational rational_root2_below(struct rational a, struct rational b);

/* The greatest whole number that divides both; 0 only where both are 0.
 * requires: a, b >= 0. */
int64_t whole_common_divisor(int64_t a, int64_t b);

/* Equal numbers have one, in every run; all its bits are mixed. */
uint64_t rational_hash(struct rational a);

/* For drawing, and to sort out what is not near. ensures: within 1e-13 of its
 * size; 0 for unknown. */
double rational_double(struct rational a);

/* ---- text (roots_text.c) ---- */

/* The number in full, for data: "6", "3/2", "3/2+6√2-1/4√6", where the fraction
 * before a root is its factor; "?" for unknown. Equal numbers have equal
 * texts, in every run. */
char *rational_text(struct arena *arena, struct rational a);
/* The same with an r for the sign of the root: "3/2+6r2". */
char *rational_plain(struct arena *arena, struct rational a);
/* The same for keys: a fraction always has its denominator, "6/1", and unknown
 * is "0/0". */
void rational_key(struct buffer *key, struct rational a);
/* Reads what rational_text, rational_plain or rational_key made. ensures: unknown for anything
 * else. */
struct rational rational_read(const char *text, size_t length);

/* Gives up all numbers that are no fraction of 64 bits. For who has done with
 * a file and keeps none of its numbers. */
void rational_forget(void);

#endif
