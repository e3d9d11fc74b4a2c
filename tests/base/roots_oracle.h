/* Numbers with roots as intervals have them: read from their texts, looked at
 * with each sign of a root, their signs and whole numbers found by bounds that
 * come nearer until they agree. For test_roots_oracle.c, which says why that
 * proves anything. Nothing here asks the program but for the text. */
#ifndef SEAMWRIGHT_TESTS_ROOTS_ORACLE_H
#define SEAMWRIGHT_TESTS_ROOTS_ORACLE_H

#include <gmp.h>
#include <mpfi.h>
#include <mpfi_io.h>
#include <stdio.h>
#include <string.h>

#include "../unit.h"
#include "buffer.h"
#include "rational.h"

enum {
    SIGHTS = 4,    /* ++, -+, +-, -- of √2 and √3 */
    FINEST = 20000 /* bits of the roots themselves */
};

/* A number as its text has it. */
struct parts {
    mpq_t of[4]; /* 1, √2, √3, √6 */
};

/* What was met, so that a run can say that it met it. */
static struct {
    long near, wide, unknown, whole;
} met;

static mpfi_t roots[4]; /* 1, √2, √3, √6 as finely as any case asks for */

/* ---- reading texts ---- */

static inline void parts_begin(struct parts *p)
{
    for (int i = 0; i < 4; i++)
        mpq_init(p->of[i]);
}

static inline void parts_end(struct parts *p)
{
    for (int i = 0; i < 4; i++)
        mpq_clear(p->of[i]);
}

/* "3/2+6√2-1/4√6", term by term: digits are handed to GMP. */
static inline void parts_read(struct parts *p, const char *text)
{
    for (int i = 0; i < 4; i++)
        mpq_set_ui(p->of[i], 0, 1);
    for (const char *at = text; *at != '\0';) {
        const bool minus = *at == '-';
        at += minus || *at == '+';
        const size_t length = strspn(at, "0123456789/");
        char digits[2000] = "1";
        assert_true(length < sizeof digits);
        if (length > 0)
            snprintf(digits, sizeof digits, "%.*s", (int)length, at);
        at += length;
        int root = 0;
        if (strncmp(at, "√", strlen("√")) == 0) {
            at += strlen("√");
            root = *at == '2' ? 1 : *at == '3' ? 2 : 3;
            assert_true(*at == '2' || *at == '3' || *at == '6');
            at++;
        }
        assert_true(length > 0 || root > 0);
        assert_int_equal(mpq_set_str(p->of[root], digits, 10), 0);
        if (minus)
            mpq_neg(p->of[root], p->of[root]);
    }
}

/* What the program says that it holds. The text must be in lowest terms and
 * come back as the same number. */
static inline void parts_of(struct parts *p, struct rational value)
{
    struct arena *arena = arena_create();
    struct buffer key = buffer_in(arena);
    rational_key(&key, value);
    const char *text = buffer_string(&key);
    parts_read(p, text);
    for (int i = 0; i < 4; i++) {
        mpq_t lowest;
        mpq_init(lowest);
        mpq_set(lowest, p->of[i]);
        mpq_canonicalize(lowest);
        if (mpz_cmp(mpq_denref(lowest), mpq_denref(p->of[i])) != 0)
            fail_msg("not in lowest terms: %s", text);
        mpq_clear(lowest);
    }
    const char *again = rational_text(arena, value);
    if (!rational_equal(rational_read(text, strlen(text)), value) ||
        !rational_equal(rational_read(again, strlen(again)), value))
        fail_msg("does not come back: %s", text);
    met.wide += !rational_is_fraction(value) && strlen(text) > 80;
    arena_destroy(arena);
}

static inline bool parts_are_nothing(const struct parts *p)
{
    for (int i = 0; i < 4; i++)
        if (mpq_sgn(p->of[i]) != 0)
            return false;
    return true;
}

static inline bool parts_are_fraction(const struct parts *p)
{
    return mpq_sgn(p->of[1]) == 0 && mpq_sgn(p->of[2]) == 0 &&
           mpq_sgn(p->of[3]) == 0;
}

/* The least number that all denominators divide. */
static inline void denominator_of(mpz_t under, const struct parts *p)
{
    mpz_set_ui(under, 1);
    for (int i = 0; i < 4; i++)
        mpz_lcm(under, under, mpq_denref(p->of[i]));
}

/* How many bits the longest numerator has, over one denominator, with those of
 * the denominator: the program's limit is on each of them. */
static inline size_t bits_of(const struct parts *p)
{
    mpz_t under;
    mpz_init(under);
    denominator_of(under, p);
    size_t bits = 0;
    for (int i = 0; i < 4; i++) {
        const size_t own = mpz_sizeinbase(mpq_numref(p->of[i]), 2);
        bits = own > bits ? own : bits;
    }
    bits += mpz_sizeinbase(under, 2);
    mpz_clear(under);
    return bits;
}

/* ---- sights ---- */

/* value = p as one of the four sights has it, with the bits of value. */
static inline void look(mpfi_t value, const struct parts *p, int sight)
{
    mpfi_t term, root;
    const mpfr_prec_t bits = mpfi_get_prec(value);
    mpfi_init2(term, bits);
    mpfi_init2(root, bits);
    mpfi_set_ui(value, 0);
    for (int i = 0; i < 4; i++) {
        if (mpq_sgn(p->of[i]) == 0)
            continue;
        mpfi_set_q(term, p->of[i]);
        mpfi_set(root, roots[i]);
        mpfi_mul(term, term, root);
        const bool minus = ((sight & 1) && (i & 1)) != ((sight & 2) && (i & 2));
        if (minus)
            mpfi_sub(value, value, term);
        else
            mpfi_add(value, value, term);
    }
    mpfi_clear(term);
    mpfi_clear(root);
}

/* ---- order and whole numbers ---- */

/* The sign of what stands between two bounds; finer until they agree. */
static inline int sign_of(const struct parts *p)
{
    if (parts_are_nothing(p))
        return 0;
    mpfi_t value;
    mpfi_init2(value, 64);
    look(value, p, 0);
    for (mpfr_prec_t bits = 64; mpfi_has_zero(value); bits *= 2) {
        assert_true(bits < FINEST);
        met.near += bits == 64;
        mpfi_set_prec(value, bits * 2);
        look(value, p, 0);
    }
    const int sign = mpfi_is_pos(value) ? 1 : -1;
    mpfi_clear(value);
    return sign;
}

/* below = the largest whole number <= p, with as many bits as it takes. */
static inline void floor_of(mpz_t below, const struct parts *p)
{
    if (parts_are_fraction(p)) {
        mpz_fdiv_q(below, mpq_numref(p->of[0]), mpq_denref(p->of[0]));
        return;
    }
    mpz_t other;
    mpz_init(other);
    for (mpfr_prec_t bits = 64;; bits *= 2) {
        assert_true(bits <= FINEST);
        mpfi_t value;
        mpfr_t end;
        mpfi_init2(value, bits);
        mpfr_init2(end, bits);
        look(value, p, 0);
        mpfi_get_left(end, value);
        mpfr_get_z(below, end, MPFR_RNDD);
        mpfi_get_right(end, value);
        mpfr_get_z(other, end, MPFR_RNDD);
        mpfr_clear(end);
        mpfi_clear(value);
        if (mpz_cmp(below, other) == 0)
            break;
        met.whole += bits == 64;
    }
    mpz_clear(other);
}

/* Before all else; roots_end gives them up. */
static inline void roots_begin(void)
{
    static const unsigned long squares[] = {1, 2, 3, 6};
    for (int i = 0; i < 4; i++) {
        mpfi_init2(roots[i], FINEST);
        mpfi_set_ui(roots[i], squares[i]);
        mpfi_sqrt(roots[i], roots[i]);
    }
}

static inline void roots_end(void)
{
    for (int i = 0; i < 4; i++)
        mpfi_clear(roots[i]);
}

#endif
