/* owner: base
 *
 * Lengths as a designer writes them, and as a page or a message prints them.
 *
 * Written: `2 1/2`, `2½`, `2-1/2`, `2.5`, `5/8`, with an optional unit `in`,
 * `cm`, `mm`, `yd`, `m` in small letters. A length in one unit becomes another
 * exactly (1 in = 2.54 cm, 1 yd = 36 in). Nothing here depends on the locale.
 *
 * In full, with blanks (also U+00A0, U+2009, U+202F) around each part:
 *
 *     length   = term { ("+" | "-" | U+2212) term } [unit]
 *     term     = number | [number] root
 *     root     = ("√" | "r") ("2" | "3" | "6")
 *     number   = digits | [digits] "." digits | fraction
 *              | digits ["-"] fraction
 *     fraction = digits slash digits | one of ½ ⅓ ⅔ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅕ ... ⅒
 *     slash    = "/" | U+2044
 *
 * Behind a whole number and its blank or hyphen, a fraction is less than one.
 * "1/2r2" is half the root of 2. A sum is not below 0.
 */
#ifndef SEAMWRIGHT_LENGTH_H
#define SEAMWRIGHT_LENGTH_H

#include <stddef.h>

#include "arena.h"
#include "rational.h"

enum length_unit { UNIT_IN, UNIT_CM, UNIT_MM, UNIT_YD, UNIT_M };

/* The name as written: "in", "cm", ... */
const char *length_unit_name(enum length_unit unit);

/* One unit of `from`, told in `to`. */
struct rational length_factor(enum length_unit from, enum length_unit to);

enum length_fault {
    LENGTH_OK,
    LENGTH_EMPTY,            /* nothing but blanks */
    LENGTH_NOT_A_NUMBER,     /* something that is no digit, sign or fraction */
    LENGTH_UNFINISHED,       /* "2 1/", "3.", "2 1", "66 x" */
    LENGTH_ZERO_DENOMINATOR, /* "1/0" */
    LENGTH_TOO_LARGE,        /* more than LENGTH_LIMIT_INCHES, or overflow */
    LENGTH_TOO_FINE,         /* a denominator or decimal beyond 1/10000 */
    LENGTH_UNKNOWN_UNIT,     /* letters that are no unit */
    LENGTH_NEGATIVE,         /* "-2" */
    LENGTH_IMPROPER          /* "2 5/4": a fraction of one or more */
};

enum { LENGTH_LIMIT_INCHES = 100000 };

struct length_result {
    enum length_fault fault;
    struct rational value; /* in the unit asked for; unknown on a fault */
    size_t start, end;     /* bytes that the fault is about */
};

/* Reads the whole of `text` as one length and gives it in `wanted`; a number
 * without a unit is in `wanted` already. */
struct length_result length_parse(const char *text, size_t length,
                                  enum length_unit wanted);

/* A size: "66 x 78", "66 × 78", or one length for a square. A unit behind the
 * second number serves for both. A unit behind the first alone is a fault
 * (LENGTH_UNFINISHED at the second), as it leaves open what the second is. */
struct size_result {
    enum length_fault fault;
    struct rational width, height;
    size_t start, end;
};
struct size_result size_parse(const char *text, size_t length,
                              enum length_unit wanted);

/* In plain ASCII for messages and data: "2 1/2", "6.35"; "?" for unknown.
 * Inches and yards print as fractions; centimetres, millimetres and metres as
 * decimals where three places are exact, else as a fraction. */
char *length_plain(struct arena *arena, struct rational value,
                   enum length_unit unit);

/* For a page: "2½", "12 17⁄32" (U+2044), "6.35". Halves, thirds, quarters and
 * eighths are single characters. */
char *length_glyphs(struct arena *arena, struct rational value,
                    enum length_unit unit);

/* A decimal, cut (towards zero) after `places` digits: "0.021". For slack and
 * money, where the text beside it says that it is rounded. */
char *rational_decimal(struct arena *arena, struct rational value, int places);

#endif
