/* Arithmetic with roots in as many bits as it takes, and what must be decided
 * to the digit: signs of sums that are nearly nothing, whole numbers below.
 * GMP's own room. Its numbers live within one call; what stays is copied into
 * the store. */
#include <float.h>
#include <gmp.h>
#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "roots.h"
#include "shortage.h"

_Static_assert(sizeof(mp_limb_t) == sizeof(uint64_t) && GMP_NAIL_BITS == 0,
               "the store keeps limbs of 64 bits");

struct long_sum {
    mpz_t part[PARTS];
};

/* ---- memory ---- */

/* GMP would abort. Under the sanitizers malloc may still say no. */
static void *given(size_t size)
{
    void *memory = malloc(size);
    if (memory == NULL)
        end_out_of_memory(NULL);
    return memory;
}

static void *given_again(void *memory, size_t before, size_t size)
{
    (void)before;
    memory = realloc(memory, size);
    if (memory == NULL)
        end_out_of_memory(NULL);
    return memory;
}

static void begin(struct long_sum *x)
{
    mp_set_memory_functions(given, given_again, NULL);
    for (int i = 0; i < PARTS; i++)
        mpz_init(x->part[i]);
}

static void end(struct long_sum *x)
{
    for (int i = 0; i < PARTS; i++)
        mpz_clear(x->part[i]);
}

/* ---- from the store and to it ---- */

static void set_limbs(struct long_sum *x, const struct stored *stored)
{
    const uint64_t *limbs = stored->limbs;
    for (int i = 0; i < PARTS; i++) {
        const int count = abs(stored->words[i]);
        mpz_t there; /* read where they lie */
        mpz_roinit_n(there, limbs, stored->words[i]);
        mpz_set(x->part[i], there);
        limbs += count;
    }
}

static void begin_as(struct long_sum *x, struct rational a)
{
    begin(x);
    if (a.den > 0) {
        mpz_set_si(x->part[ONE], a.num);
        mpz_set_si(x->part[UNDER], a.den);
        return;
    }
    const struct stored *stored = stored_of(a);
    if (stored->limbs != NULL) {
        set_limbs(x, stored);
        return;
    }
    for (int i = 0; i < PARTS; i++)
        mpz_set_si(x->part[i], stored->part[i]);
}

/* Lowest terms, the denominator above 0. */
static void lower(struct long_sum *x)
{
    mpz_t common;
    mpz_init_set(common, x->part[UNDER]);
    for (int i = 0; i < UNDER && mpz_cmp_ui(common, 1) != 0; i++)
        mpz_gcd(common, common, x->part[i]);
    mpz_abs(common, common);
    if (mpz_sgn(x->part[UNDER]) < 0)
        mpz_neg(common, common);
    for (int i = 0; i < PARTS; i++)
        mpz_divexact(x->part[i], x->part[i], common);
    mpz_clear(common);
}

/* How many bits the longest part has. */
static size_t bits_of(const struct long_sum *x, int parts)
{
    size_t most = 0;
    for (int i = 0; i < parts; i++) {
        const size_t bits = mpz_sizeinbase(x->part[i], 2);
        most = bits > most ? bits : most;
    }
    return most;
}

static bool has_roots(const struct long_sum *x)
{
    return mpz_sgn(x->part[ROOT2]) != 0 || mpz_sgn(x->part[ROOT3]) != 0 ||
           mpz_sgn(x->part[ROOT6]) != 0;
}

/* The bound is that of short parts (roots_store.c), with two units more where
 * GMP cuts instead of rounding. Exponents are taken apart, so that no part is
 * too large for a double; a quotient that is, is left to the squares. */
static double estimate(const struct long_sum *x, double *slack)
{
    double half[PARTS], sum = 0, size = 0;
    long exponent[PARTS], most = LONG_MIN;
    for (int i = 0; i < PARTS; i++) {
        half[i] = mpz_get_d_2exp(&exponent[i], x->part[i]);
        if (i < UNDER && half[i] != 0 && exponent[i] > most)
            most = exponent[i];
    }
    for (int i = 0; i < UNDER; i++) {
        const double term = half[i] == 0 ? 0
                                         : ldexp(half[i] * roots_near[i],
                                                 (int)(exponent[i] - most));
        sum += term;
        size += fabs(term);
    }
    const int scale = (int)(most - exponent[UNDER]);
    *slack = ldexp(size / half[UNDER] * (8 * DBL_EPSILON), scale) + DBL_MIN;
    return ldexp(sum / half[UNDER], scale);
}

static struct rational store_long(const struct long_sum *x)
{
    uint64_t limbs[PARTS * (MOST_BITS / 64)];
    int words[PARTS];
    size_t count = 0;
    for (int i = 0; i < PARTS; i++) {
        const size_t size = mpz_size(x->part[i]);
        memcpy(&limbs[count], mpz_limbs_read(x->part[i]), size * sizeof *limbs);
        words[i] = mpz_sgn(x->part[i]) < 0 ? -(int)size : (int)size;
        count += size;
    }
    double slack;
    const double near = estimate(x, &slack);
    return store_wide(limbs, words, near, slack);
}

/* As all numbers are kept: whatever form holds a value, there is one. Ends the
 * sum. */
static struct rational kept(struct long_sum *x)
{
    lower(x);
    const size_t bits = bits_of(x, PARTS);
    struct rational result = rational_unknown();
    int64_t part[PARTS] = {0};
    for (int i = 0; i < PARTS && bits < 64; i++)
        part[i] = mpz_get_si(x->part[i]);
    if (!has_roots(x) && bits < 64)
        result = (struct rational){part[ONE], part[UNDER]};
    else if (bits <= SHORT_BITS)
        result = store_short(part);
    else if (bits <= MOST_BITS)
        result = store_long(x);
    end(x);
    return result;
}

__extension__ typedef unsigned __int128 unsigned_wide;

static void set_wide(mpz_t number, wide part)
{
    const unsigned_wide size =
        part < 0 ? -(unsigned_wide)part : (unsigned_wide)part;
    mpz_set_ui(number, (uint64_t)(size >> 64));
    mpz_mul_2exp(number, number, 64);
    mpz_add_ui(number, number, (uint64_t)size);
    if (part < 0)
        mpz_neg(number, number);
}

struct rational wide_keep(const wide part[PARTS])
{
    struct long_sum x;
    begin(&x);
    for (int i = 0; i < PARTS; i++)
        set_wide(x.part[i], part[i]);
    return kept(&x);
}

/* ---- arithmetic ---- */

/* x += y, or x -= y. */
static void accumulate(struct long_sum *x, const struct long_sum *y, bool minus)
{
    for (int i = 0; i < UNDER; i++) {
        mpz_mul(x->part[i], x->part[i], y->part[UNDER]);
        if (minus)
            mpz_submul(x->part[i], y->part[i], x->part[UNDER]);
        else
            mpz_addmul(x->part[i], y->part[i], x->part[UNDER]);
    }
    mpz_mul(x->part[UNDER], x->part[UNDER], y->part[UNDER]);
}

/* x *= y. */
static void multiply(struct long_sum *x, const struct long_sum *y)
{
    struct long_sum z;
    mpz_t term;
    begin(&z);
    mpz_init(term);
    for (int i = 0; i < UNDER; i++)
        for (int k = 0; k < UNDER; k++) {
            mpz_mul(term, x->part[i], y->part[k]);
            mpz_addmul_ui(z.part[i ^ k], term,
                          (unsigned long)roots_squared[i & k]);
        }
    mpz_mul(z.part[UNDER], x->part[UNDER], y->part[UNDER]);
    for (int i = 0; i < PARTS; i++)
        mpz_swap(x->part[i], z.part[i]);
    mpz_clear(term);
    end(&z);
}

static void begin_conjugate(struct long_sum *x, const struct long_sum *y,
                            int root)
{
    begin(x);
    for (int i = 0; i < PARTS; i++) {
        mpz_set(x->part[i], y->part[i]);
        if (i < UNDER && (i & root))
            mpz_neg(x->part[i], x->part[i]);
    }
}

/* x /= y, as in roots.c: x / y = x y' (y y')'' / (y y' (y y')''), where the
 * last is a fraction. All three keep their denominators. */
static void divide(struct long_sum *x, struct long_sum *y)
{
    struct long_sum other, opposite;
    begin_conjugate(&other, y, ROOT3);
    multiply(x, &other);
    multiply(y, &other);
    begin_conjugate(&opposite, y, ROOT2);
    multiply(x, &opposite);
    multiply(y, &opposite);
    for (int i = 0; i < UNDER; i++)
        mpz_mul(x->part[i], x->part[i], y->part[UNDER]);
    mpz_mul(x->part[UNDER], x->part[UNDER], y->part[ONE]);
    end(&other);
    end(&opposite);
}

struct rational wide_add(struct rational a, struct rational b)
{
    struct long_sum x, y;
    begin_as(&x, a);
    begin_as(&y, b);
    accumulate(&x, &y, false);
    end(&y);
    return kept(&x);
}

struct rational wide_mul(struct rational a, struct rational b)
{
    struct long_sum x, y;
    begin_as(&x, a);
    begin_as(&y, b);
    multiply(&x, &y);
    end(&y);
    return kept(&x);
}

struct rational wide_div(struct rational a, struct rational b)
{
    struct long_sum x, y;
    begin_as(&x, a);
    begin_as(&y, b);
    divide(&x, &y);
    end(&y);
    return kept(&x);
}

/* ---- signs ---- */

/* Of p + q √root, by the squares: where the signs differ, the longer one
 * wins. */
static int sign_of_pair(const mpz_t p, const mpz_t q, unsigned long root)
{
    const int one = mpz_sgn(p), other = mpz_sgn(q);
    if (one * other >= 0)
        return one != 0 ? one : other;
    mpz_t left, right;
    mpz_init(left);
    mpz_init(right);
    mpz_mul(left, p, p);
    mpz_mul(right, q, q);
    mpz_mul_ui(right, right, root);
    const int longer = mpz_cmp(left, right);
    mpz_clear(left);
    mpz_clear(right);
    return longer > 0 ? one : other; /* equal they cannot be */
}

/* x = P + Q √3 with P = a + b √2, Q = c + d √2. Where these differ in sign,
 * P² - 3 Q² = (a² + 2 b² - 3 c² - 6 d²) + 2 (a b - 3 c d) √2 tells which is
 * longer. */
static int sign_of(const struct long_sum *x)
{
    const int one = sign_of_pair(x->part[ONE], x->part[ROOT2], 2);
    const int other = sign_of_pair(x->part[ROOT3], x->part[ROOT6], 2);
    if (one * other >= 0)
        return one != 0 ? one : other;
    mpz_t whole, root, square;
    mpz_init(whole);
    mpz_init(root);
    mpz_init(square);
    static const long weights[UNDER] = {1, 2, -3, -6};
    for (int i = 0; i < UNDER; i++) {
        mpz_mul(square, x->part[i], x->part[i]);
        mpz_mul_si(square, square, weights[i]);
        mpz_add(whole, whole, square);
    }
    mpz_mul(root, x->part[ROOT3], x->part[ROOT6]);
    mpz_mul_si(root, root, -3);
    mpz_addmul(root, x->part[ONE], x->part[ROOT2]);
    mpz_mul_2exp(root, root, 1);
    const int longer = sign_of_pair(whole, root, 2);
    mpz_clear(whole);
    mpz_clear(root);
    mpz_clear(square);
    return longer > 0 ? one : other;
}

int wide_compare(struct rational a, struct rational b)
{
    struct long_sum x, y;
    begin_as(&x, a);
    begin_as(&y, b);
    accumulate(&x, &y, true);
    const int sign = sign_of(&x);
    end(&x);
    end(&y);
    return sign;
}

/* ---- whole numbers ---- */

/* below = at most the largest whole number <= x, and at most 7 less: each root
 * is cut to a whole number, which is off by less than 1. */
static void begin_below(mpz_t below, const struct long_sum *x)
{
    mpz_t root;
    mpz_init(root);
    mpz_init_set(below, x->part[ONE]);
    for (int i = ROOT2; i < UNDER; i++) {
        mpz_mul(root, x->part[i], x->part[i]);
        mpz_mul_si(root, root, roots_squared[i]);
        mpz_sqrt(root, root);
        if (mpz_sgn(x->part[i]) < 0)
            mpz_neg(root, root);
        mpz_add(below, below, root);
    }
    mpz_sub_ui(below, below, 3);
    mpz_fdiv_q(below, below, x->part[UNDER]);
    mpz_clear(root);
}

/* Is x at least this whole number? */
static bool reaches(const struct long_sum *x, const mpz_t number)
{
    struct long_sum y;
    begin_conjugate(&y, x, 0);
    mpz_submul(y.part[ONE], number, y.part[UNDER]);
    const bool above = sign_of(&y) >= 0;
    end(&y);
    return above;
}

bool wide_floor(struct rational a, int64_t *below)
{
    struct long_sum x;
    mpz_t number;
    begin_as(&x, a);
    begin_below(number, &x);
    do
        mpz_add_ui(number, number, 1);
    while (reaches(&x, number));
    mpz_sub_ui(number, number, 1);
    const bool fits = mpz_sizeinbase(number, 2) < 64;
    *below = fits                   ? mpz_get_si(number)
             : mpz_sgn(number) < 0 ? -INT64_MAX
                                    : INT64_MAX;
    mpz_clear(number);
    end(&x);
    return fits;
}

/* ---- doubles ---- */

/* sum = about x times 2^shift and its denominator: each of the roots is cut to a
 * whole number, so it is off by less than 3. */
static void add_shifted(mpz_t sum, const struct long_sum *x, mp_bitcnt_t shift)
{
    mpz_t root;
    mpz_init(root);
    mpz_mul_2exp(sum, x->part[ONE], shift);
    for (int i = ROOT2; i < UNDER; i++) {
        mpz_mul(root, x->part[i], x->part[i]);
        mpz_mul_si(root, root, roots_squared[i]);
        mpz_mul_2exp(root, root, 2 * shift);
        mpz_sqrt(root, root);
        if (mpz_sgn(x->part[i]) < 0)
            mpz_neg(root, root);
        mpz_add(sum, sum, root);
    }
    mpz_clear(root);
}

/* More and more digits of the roots are taken until 60 of the sum are sure: it
 * is not 0, so they come. Two cuts, one quotient: below 4 units of a double. */
double wide_near(struct rational a, double *slack)
{
    enum { SURE = 60, STEP = 64 };
    struct long_sum x;
    mpz_t sum;
    mp_bitcnt_t shift = 0;
    long above, under;
    begin_as(&x, a);
    mpz_init(sum);
    do
        add_shifted(sum, &x, shift += STEP);
    while (mpz_sizeinbase(sum, 2) < SURE);
    const double half = mpz_get_d_2exp(&above, sum) /
                        mpz_get_d_2exp(&under, x.part[UNDER]);
    const double near = ldexp(half, (int)(above - under - (long)shift));
    *slack = fabs(near) * (4 * DBL_EPSILON) + DBL_MIN;
    mpz_clear(sum);
    end(&x);
    return near;
}

/* ---- text ---- */

char *wide_coefficient(struct arena *arena, struct rational a, int part,
                       int *sign)
{
    struct long_sum x;
    begin_as(&x, a);
    *sign = mpz_sgn(x.part[part]);
    for (int i = 0; i < UNDER; i++)
        if (i != part)
            mpz_set_ui(x.part[i], 0);
    lower(&x);
    mpz_abs(x.part[part], x.part[part]);
    const size_t num = mpz_sizeinbase(x.part[part], 10);
    const size_t den = mpz_sizeinbase(x.part[UNDER], 10);
    char *text = arena_alloc(arena, num + den + 4);
    mpz_get_str(text, 10, x.part[part]);
    if (mpz_cmp_ui(x.part[UNDER], 1) != 0) {
        char *slash = text + strlen(text);
        *slash = '/';
        mpz_get_str(slash + 1, 10, x.part[UNDER]);
    }
    end(&x);
    return text;
}
