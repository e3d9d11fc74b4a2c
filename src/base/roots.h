/* Numbers that are no fraction of 64 bits: (a + b√2 + c√3 + d√6) / e in whole
 * numbers, in lowest terms, e above 0. Each value is kept once, so that equal
 * numbers have one address, which stands in `num` of a `struct rational`.
 *
 * roots_store.c keeps them, roots.c works in 128 bits as long as the parts are
 * short, roots_wide.c in as many as it takes. Private to src/base.
 */
#ifndef SEAMWRIGHT_ROOTS_H
#define SEAMWRIGHT_ROOTS_H

#include "arena.h"
#include "rational.h"

__extension__ typedef __int128 wide;

/* The parts. The first four count 1, √2, √3 and √6 in this order, so that the
 * bits of an index say which roots are in it: a product of the parts i and k
 * belongs to part i ^ k, and i & k are the roots that become whole. */
enum { ONE, ROOT2, ROOT3, ROOT6, UNDER, PARTS };

enum {
    SHORT_BITS = 60,  /* of a part: sums of products then fit 128 bits */
    MOST_BITS = 1024, /* of a part: beyond that a number is unknown */
};

/* What a root squared leaves before the part: 1, 2, 3, 6. */
extern const int64_t roots_squared[UNDER];
/* The roots themselves, each the nearest double. */
extern const double roots_near[UNDER];

/* Constant once it is kept. Fractions that 64 bits do not hold are here, too:
 * their roots are 0. */
struct stored {
    struct stored *next; /* of one slot of the table */
    uint64_t hash;
    double near, slack; /* the true value lies within near ± slack */
    int sign;
    bool irrational;
    int64_t part[PARTS]; /* where `limbs` is NULL; each below 2^SHORT_BITS */
    const uint64_t *limbs; /* of all parts, one behind the other */
    int words[PARTS];      /* limbs of each part; negative as the part is */
};

/* requires: a.den < 0. */
static inline const struct stored *stored_of(struct rational a)
{
    return (const struct stored *)(intptr_t)a.num;
}

static inline struct rational of_stored(const struct stored *stored)
{
    return (struct rational){(int64_t)(intptr_t)stored, -1};
}

/* Is the size below 2^SHORT_BITS? */
static inline bool is_short(wide part)
{
    const wide most = (wide)1 << SHORT_BITS;
    return part < most && part > -most;
}

/* ---- roots_store.c ---- */

/* The number of these parts. requires: lowest terms, each short, no fraction
 * of 64 bits. */
struct rational store_short(const int64_t part[PARTS]);
/* The same of parts that are not all short; `near` and `slack` are told. */
struct rational store_wide(const uint64_t *limbs, const int words[PARTS],
                           double near, double slack);

/* ---- roots.c: known numbers, at least one of them stored ---- */

struct rational roots_add(struct rational a, struct rational b);
struct rational roots_negative(struct rational a);
struct rational roots_mul(struct rational a, struct rational b);
/* requires: b is not 0. */
struct rational roots_div(struct rational a, struct rational b);
int roots_compare(struct rational a, struct rational b);
/* The largest whole number <= a. ensures: false where 64 bits do not hold it;
 * *below is then the nearest that they hold. */
bool roots_floor(struct rational a, int64_t *below);

/* ---- roots_wide.c: any known numbers ---- */

/* These parts, not yet in lowest terms, the last not 0. */
struct rational wide_keep(const wide part[PARTS]);
struct rational wide_add(struct rational a, struct rational b);
struct rational wide_mul(struct rational a, struct rational b);
struct rational wide_div(struct rational a, struct rational b);
/* The sign of a - b, without a limit of bits. */
int wide_compare(struct rational a, struct rational b);
bool wide_floor(struct rational a, int64_t *below);
/* The value to 50 bits, whatever its terms take off each other, and how far it
 * may be off. requires: stored. */
double wide_near(struct rational a, double *slack);
/* One coefficient, "3/2", without its sign; *sign tells that: -1, 0, 1. */
char *wide_coefficient(struct arena *arena, struct rational a, int part,
                       int *sign);

#endif
