/* The single characters for fractions that Unicode has (U+00BC to U+00BE and
 * U+2150 to U+215E), as UTF-8. */
#ifndef SEAMWRIGHT_VULGAR_H
#define SEAMWRIGHT_VULGAR_H

#include <stdint.h>

struct vulgar {
    const char *glyph;
    int num, den;
};

/* ensures: the fraction whose character `text` begins with, or NULL. Reads at
 * most up to `end`. */
const struct vulgar *vulgar_at(const char *text, const char *end);

/* ensures: the character for num/den, or NULL where pages do not use one.
 * Pages use halves, thirds, quarters and eighths: every bundled font has
 * them, and a reader tells them apart at small sizes. */
const char *vulgar_glyph(int64_t num, int64_t den);

#endif
