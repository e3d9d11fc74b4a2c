/* Decoding and widths are done here and not by the C library, because its
 * answers hang on the locale and this program must print the same everywhere.
 */
#include "character.h"

#include <string.h>

#include "width_table.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const char replacement_character[] = "\xEF\xBF\xBD"; /* U+FFFD */

/* How many bytes a sequence has by its first byte; 0 where none starts so. */
static unsigned sequence_size(unsigned char first)
{
    if (first < 0x80)
        return 1;
    if (first >= 0xC2 && first <= 0xDF)
        return 2;
    if (first >= 0xE0 && first <= 0xEF)
        return 3;
    return first >= 0xF0 && first <= 0xF4 ? 4 : 0;
}

/* Rules out overlong forms, surrogates and what lies past U+10FFFF. */
static bool scalar_fits(uint32_t code, unsigned size)
{
    static const uint32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
    return code >= smallest[size] && code <= 0x10FFFF &&
           !(code >= 0xD800 && code <= 0xDFFF);
}

struct character character_at(const char *bytes, size_t length)
{
    const unsigned char *b = (const unsigned char *)bytes;
    const struct character broken = {b[0], 1, true};
    const unsigned size = sequence_size(b[0]);
    if (size == 1)
        return (struct character){b[0], 1, false};
    if (size == 0 || size > length)
        return broken;

    /* The first byte gives what its length mark leaves, the others six bits
     * each. */
    uint32_t code = b[0] & (0x7FU >> size);
    for (unsigned i = 1; i < size; i++) {
        if ((b[i] & 0xC0U) != 0x80)
            return broken;
        code = code << 6 | (b[i] & 0x3FU);
    }
    if (!scalar_fits(code, size))
        return broken;
    return (struct character){code, size, false};
}

size_t character_count(const char *bytes, size_t length)
{
    size_t count = 0;
    for (size_t at = 0; at < length; count++)
        at += character_at(bytes + at, length - at).size;
    return count;
}

/* Binary search; the ranges are sorted and apart. */
static bool in_ranges(const struct code_range *ranges, size_t count,
                      uint32_t code)
{
    size_t low = 0;
    size_t high = count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (code > ranges[middle].last)
            low = middle + 1;
        else
            high = middle;
    }
    return low < count && code >= ranges[low].first;
}

size_t character_width(struct character c)
{
    /* Below the first combining mark nothing is narrow or wide; a control
     * counts one column, as editors show it. */
    if (c.malformed || c.code < zero_width[0].first)
        return 1;
    if (in_ranges(zero_width, COUNT(zero_width), c.code))
        return 0;
    return in_ranges(double_width, COUNT(double_width), c.code) ? 2 : 1;
}

/* Controls could move the cursor or clear the screen; bidirectional marks turn
 * the order of what follows, so that a reader sees another text than the
 * compiler; the others are simply not seen, and a name that differs from
 * another in one of them would puzzle its writer. */
bool character_hidden(struct character c)
{
    /* Joiners U+200C and U+200D stay: scripts and signs are written with
     * them. */
    static const struct code_range hidden[] = {
        {0x0000, 0x001F},   {0x007F, 0x009F}, {0x00AD, 0x00AD},
        {0x061C, 0x061C},   {0x180E, 0x180E}, {0x200B, 0x200B},
        {0x200E, 0x200F},   {0x2028, 0x202E}, {0x2060, 0x206F},
        {0xFEFF, 0xFEFF},   {0xFFF9, 0xFFFB}, {0xFFFE, 0xFFFF},
        {0xE0000, 0xE007F},
    };
    return !c.malformed && in_ranges(hidden, COUNT(hidden), c.code);
}

bool character_breaks(struct character c)
{
    static const struct code_range breaks[] = {
        {0x0000, 0x001F}, {0x007F, 0x009F}, {0x2028, 0x2029}};
    return !c.malformed && in_ranges(breaks, COUNT(breaks), c.code);
}

size_t shown_width(struct character c)
{
    if (!character_hidden(c))
        return character_width(c);
    return c.code > 0xFFFF ? 7 : 6; /* of U+XXXXX or U+XXXX */
}

void add_shown(struct buffer *buffer, const char *bytes, struct character c)
{
    if (c.malformed)
        buffer_text(buffer, replacement_character);
    else if (character_hidden(c))
        buffer_printf(buffer, "U+%04X", (unsigned)c.code);
    else
        buffer_add(buffer, bytes, c.size);
}

/* The length is taken once: a text that is cut inside a character must not
 * make the decoder look past its end. */
void add_shown_text(struct buffer *buffer, const char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        const struct character c = character_at(text, left);
        add_shown(buffer, text, c);
        text += c.size;
        left -= c.size;
    }
}

size_t shown_text_width(const char *text)
{
    size_t left = strlen(text);
    size_t width = 0;
    while (left > 0) {
        const struct character c = character_at(text, left);
        width += shown_width(c);
        text += c.size;
        left -= c.size;
    }
    return width;
}
