/* A set of attributes or of kinds of element, by their numbers. Sets as bits:
 * "may it stand here" is one look, without a search. */
#ifndef SEAMWRIGHT_SET_H
#define SEAMWRIGHT_SET_H

#include <stdbool.h>
#include <stdint.h>

enum { SET_WORD_BITS = 64, SET_WORDS = 4, SET_LIMIT = 256 };

/* Of the numbers 0 to SET_LIMIT - 1. All zero is the empty set. */
struct set {
    uint64_t words[SET_WORDS];
};

_Static_assert(SET_LIMIT == SET_WORD_BITS * SET_WORDS, "a bit a number");

/* SET(a, b, ...) with 1 to 20 numbers that the compiler knows; a constant, so
 * that it may stand in a static table. A 21st does not compile. */
#define SET(...)                                                          \
    SET_OF_WORDS(__VA_ARGS__, SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT, \
                 SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT,   \
                 SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT,   \
                 SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT, SET_LIMIT,   \
                 SET_LIMIT, SET_LIMIT)
#define SET_OF_WORDS(...)                                          \
    {                                                              \
        {                                                          \
            SET_WORD(0, __VA_ARGS__), SET_WORD(1, __VA_ARGS__),    \
                SET_WORD(2, __VA_ARGS__), SET_WORD(3, __VA_ARGS__) \
        }                                                          \
    }
/* One word of it: what is no number of the set has no bit. */
#define SET_WORD(w, a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q, r, s, \
                 t, end, ...)                                                 \
    (SET_BIT(w, a) | SET_BIT(w, b) | SET_BIT(w, c) | SET_BIT(w, d) |          \
     SET_BIT(w, e) | SET_BIT(w, f) | SET_BIT(w, g) | SET_BIT(w, h) |          \
     SET_BIT(w, i) | SET_BIT(w, j) | SET_BIT(w, k) | SET_BIT(w, l) |          \
     SET_BIT(w, m) | SET_BIT(w, n) | SET_BIT(w, o) | SET_BIT(w, p) |          \
     SET_BIT(w, q) | SET_BIT(w, r) | SET_BIT(w, s) | SET_BIT(w, t) |          \
     SET_IS_END(end))
#define SET_BIT(w, number)                           \
    ((number) / SET_WORD_BITS == (w)                 \
         ? UINT64_C(1) << ((number) % SET_WORD_BITS) \
         : UINT64_C(0))
#define SET_IS_END(number) (sizeof(char[(number) == SET_LIMIT ? 1 : -1]) - 1)

/* All: requires: numbers below SET_LIMIT. */
static inline bool set_has(const struct set *set, unsigned number)
{
    const uint64_t word = set->words[number / SET_WORD_BITS];
    return (word >> number % SET_WORD_BITS & 1) != 0;
}

static inline void set_add(struct set *set, unsigned number)
{
    set->words[number / SET_WORD_BITS] |= UINT64_C(1) << number % SET_WORD_BITS;
}

#endif
