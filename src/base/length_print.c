/* Printing lengths. All by whole numbers, so that no locale and no rounding
 * takes part. */
#include <string.h>

#include "buffer.h"
#include "length.h"
#include "vulgar.h"

__extension__ typedef unsigned __int128 wide;

/* An exact number as a page shows it: whole + num/den, and a sign. */
struct mixed {
    bool negative;
    uint64_t whole, num, den;
};

/* requires: a fraction. Unsigned, as the size of the least number does not
 * fit a signed one. */
static struct mixed mixed_from(struct rational value)
{
    const uint64_t size =
        value.num < 0 ? 0 - (uint64_t)value.num : (uint64_t)value.num;
    const uint64_t den = (uint64_t)value.den;
    return (struct mixed){value.num < 0, size / den, size % den, den};
}

/* Digits only: %llu groups nothing in any locale. */
static void add_number(struct buffer *out, uint64_t number)
{
    buffer_printf(out, "%llu", (unsigned long long)number);
}

/* "2 1/2" with the given slash; the blank and the whole only where needed. */
static void add_fraction(struct buffer *out, struct mixed m, const char *slash)
{
    if (m.whole > 0 || m.num == 0)
        add_number(out, m.whole);
    if (m.num == 0)
        return;
    if (m.whole > 0)
        buffer_char(out, ' ');
    add_number(out, m.num);
    buffer_text(out, slash);
    add_number(out, m.den);
}

/* The part behind the point, cut after `places` digits: long division, a
 * digit a step, so that any number of places is exact. */
static void add_decimals(struct buffer *out, struct mixed m, int places)
{
    wide rest = m.num;
    for (int i = 0; i < places; i++) {
        rest *= 10;
        buffer_char(out, (char)('0' + (int)(rest / m.den)));
        rest %= m.den;
    }
}

/* The fewest places, up to 3, that tell the number exactly; -1 for none. A
 * number that needs more comes from inches or from a division, and reads
 * better as a fraction. */
static int exact_places(struct mixed m)
{
    wide scaled = m.num;
    for (int places = 0; places <= 3; places++) {
        if (scaled % m.den == 0)
            return places;
        scaled *= 10;
    }
    return -1;
}

/* Rulers of inches are divided by halves, metric ones by tenths. */
static bool prints_decimals(enum length_unit unit)
{
    return unit == UNIT_CM || unit == UNIT_MM || unit == UNIT_M;
}

/* Adds the number as a decimal, where the unit wants that and it is exact. */
static bool add_metric(struct buffer *out, struct mixed m,
                       enum length_unit unit)
{
    const int places = exact_places(m);
    if (!prints_decimals(unit) || places < 0)
        return false;
    add_number(out, m.whole);
    if (places > 0)
        buffer_char(out, '.');
    add_decimals(out, m, places);
    return true;
}

/* To the nearest eighth, or millimetre. Unknown where that is too large. */
static struct rational on_ruler(struct rational value, enum length_unit unit)
{
    const int64_t parts = unit == UNIT_CM   ? 10
                          : unit == UNIT_MM ? 1
                          : unit == UNIT_M  ? 1000
                                            : 8;
    const struct rational half = rational_make(1, 2);
    const struct rational up =
        rational_sub(rational_times(value, parts), half);
    return rational_div(rational_round_up(up, rational_whole(1)),
                        rational_whole(parts));
}

/* What 64 bits do not hold is told in full, then as a ruler has it. */
static char *stored_plain(struct arena *arena, struct rational value,
                          enum length_unit unit)
{
    return arena_printf(arena, "%s (about %s)", rational_plain(arena, value),
                        length_on_ruler(arena, value, unit));
}

/* On pages, as a ruler has it. */
static char *stored_glyphs(struct arena *arena, struct rational value,
                           enum length_unit unit)
{
    return arena_printf(arena, "\u2248%s",
                        length_glyphs(arena, on_ruler(value, unit), unit));
}

char *length_plain(struct arena *arena, struct rational value,
                   enum length_unit unit)
{
    if (!rational_known(value))
        return arena_copy(arena, "?", 1);
    if (!rational_is_fraction(value))
        return stored_plain(arena, value, unit);
    struct buffer out = buffer_in(arena);
    const struct mixed m = mixed_from(value);
    if (m.negative)
        buffer_char(&out, '-');
    if (!add_metric(&out, m, unit))
        add_fraction(&out, m, "/");
    return out.bytes;
}

/* A fraction of 64 bits, or unknown, has one text for all who read. */
char *length_written(struct arena *arena, struct rational value,
                     enum length_unit unit)
{
    return !rational_known(value) || rational_is_fraction(value)
               ? length_plain(arena, value, unit)
               : rational_plain(arena, value);
}

char *length_exact(struct arena *arena, struct rational value,
                   enum length_unit unit)
{
    return !rational_known(value) || rational_is_fraction(value)
               ? length_plain(arena, value, unit)
               : rational_text(arena, value);
}

char *length_on_ruler(struct arena *arena, struct rational value,
                      enum length_unit unit)
{
    return length_plain(arena, on_ruler(value, unit), unit);
}

char *length_glyphs(struct arena *arena, struct rational value,
                    enum length_unit unit)
{
    if (!rational_known(value))
        return arena_copy(arena, "?", 1);
    if (!rational_is_fraction(value))
        return stored_glyphs(arena, value, unit);
    struct buffer out = buffer_in(arena);
    const struct mixed m = mixed_from(value);
    const char *glyph = vulgar_glyph((int64_t)m.num, (int64_t)m.den);
    if (m.negative)
        buffer_text(&out, "\u2013"); /* the fonts have no U+2212 */
    if (add_metric(&out, m, unit))
        return out.bytes;
    if (glyph == NULL) {
        add_fraction(&out, m, "\u2044");
        return out.bytes;
    }
    if (m.whole > 0)
        add_number(&out, m.whole);
    buffer_text(&out, glyph);
    return out.bytes;
}

/* Towards zero, to so many decimals. Unknown where 64 bits do not hold it. */
static struct rational cut_at(struct rational value, int places)
{
    int64_t parts = 1;
    for (int i = 0; i < places; i++)
        parts *= 10;
    const struct rational all = rational_times(value, parts);
    const int64_t whole =
        rational_sign(all) < 0 ? rational_ceil(all) : rational_floor(all);
    return whole == INT64_MAX || whole == -INT64_MAX
               ? rational_unknown()
               : rational_make(whole, parts);
}

char *rational_decimal(struct arena *arena, struct rational value, int places)
{
    if (!rational_known(value))
        return arena_copy(arena, "?", 1);
    if (!rational_is_fraction(value))
        return rational_decimal(arena, cut_at(value, places), places);
    struct buffer out = buffer_in(arena);
    const struct mixed m = mixed_from(value);
    add_number(&out, m.whole);
    if (places > 0)
        buffer_char(&out, '.');
    add_decimals(&out, m, places);
    /* What was cut to nothing has no sign: "-0.00" would be odd to read. */
    const bool zero = strspn(out.bytes, "0.") == out.length;
    return m.negative && !zero ? arena_printf(arena, "-%s", out.bytes)
                               : out.bytes;
}
