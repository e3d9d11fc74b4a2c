/* A table of few rows, gone through from the top. */
#include "vulgar.h"

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

/* The order is of no meaning; those that pages use come first. */
static const struct vulgar vulgars[] = {
    {"½", 1, 2}, {"⅓", 1, 3}, {"⅔", 2, 3},  {"¼", 1, 4}, {"¾", 3, 4},
    {"⅛", 1, 8}, {"⅜", 3, 8}, {"⅝", 5, 8},  {"⅞", 7, 8}, {"⅕", 1, 5},
    {"⅖", 2, 5}, {"⅗", 3, 5}, {"⅘", 4, 5},  {"⅙", 1, 6}, {"⅚", 5, 6},
    {"⅐", 1, 7}, {"⅑", 1, 9}, {"⅒", 1, 10},
};
enum { VULGAR_COUNT = sizeof vulgars / sizeof vulgars[0] };

static bool begins_with(const char *text, const char *end, const char *glyph)
{
    const size_t length = strlen(glyph);
    return (size_t)(end - text) >= length && memcmp(text, glyph, length) == 0;
}

const struct vulgar *vulgar_at(const char *text, const char *end)
{
    for (size_t i = 0; i < VULGAR_COUNT; i++) {
        if (begins_with(text, end, vulgars[i].glyph))
            return &vulgars[i];
    }
    return NULL;
}

/* Fifths and sevenths are rare in cloth, and some fonts lack them. */
static bool used_on_pages(int64_t den)
{
    return den == 2 || den == 3 || den == 4 || den == 8;
}

const char *vulgar_glyph(int64_t num, int64_t den)
{
    if (!used_on_pages(den))
        return NULL;
    for (size_t i = 0; i < VULGAR_COUNT; i++) {
        if (vulgars[i].num == num && vulgars[i].den == den)
            return vulgars[i].glyph;
    }
    return NULL;
}
