/* The only file that asks GLib for the properties of characters. */
#include "identifier.h"

#include <glib.h>
#include <stdbool.h>
#include <string.h>

#include "character.h"

/* Letters and marks without a sign of their own (Default_Ignorable_Code_Point
 * of Unicode's DerivedCoreProperties.txt, without the format characters): two
 * names that differ in one look the same. */
static bool is_unseen(uint32_t code)
{
    static const struct {
        uint32_t first, last;
    } unseen[] = {{0x034F, 0x034F}, {0x115F, 0x1160},  {0x17B4, 0x17B5},
                  {0x180B, 0x180F}, {0x3164, 0x3164},  {0xFE00, 0xFE0F},
                  {0xFFA0, 0xFFA0}, {0xE0100, 0xE01EF}};
    for (size_t i = 0; i < sizeof unseen / sizeof unseen[0]; i++)
        if (code >= unseen[i].first && code <= unseen[i].last)
            return true;
    return false;
}

/* Below U+0080 this is the set that names always had: categories alone would
 * let no other sign pass. */
static bool may_stand(struct character c, bool first)
{
    if (c.malformed || is_unseen(c.code))
        return false;
    if (c.code < 0x80 && c.code != 0 && strchr("-_.", (int)c.code) != NULL)
        return !first;
    switch (g_unichar_type(c.code)) {
    case G_UNICODE_LOWERCASE_LETTER:
    case G_UNICODE_UPPERCASE_LETTER:
    case G_UNICODE_TITLECASE_LETTER:
    case G_UNICODE_MODIFIER_LETTER:
    case G_UNICODE_OTHER_LETTER:
        return true;
    case G_UNICODE_DECIMAL_NUMBER:
    case G_UNICODE_LETTER_NUMBER:
    case G_UNICODE_NON_SPACING_MARK:
    case G_UNICODE_SPACING_MARK:
        return !first;
    case G_UNICODE_CONTROL:
    case G_UNICODE_FORMAT:
    case G_UNICODE_UNASSIGNED:
    case G_UNICODE_PRIVATE_USE:
    case G_UNICODE_SURROGATE:
    case G_UNICODE_ENCLOSING_MARK:
    case G_UNICODE_OTHER_NUMBER:
    case G_UNICODE_CONNECT_PUNCTUATION:
    case G_UNICODE_DASH_PUNCTUATION:
    case G_UNICODE_CLOSE_PUNCTUATION:
    case G_UNICODE_FINAL_PUNCTUATION:
    case G_UNICODE_INITIAL_PUNCTUATION:
    case G_UNICODE_OTHER_PUNCTUATION:
    case G_UNICODE_OPEN_PUNCTUATION:
    case G_UNICODE_CURRENCY_SYMBOL:
    case G_UNICODE_MODIFIER_SYMBOL:
    case G_UNICODE_MATH_SYMBOL:
    case G_UNICODE_OTHER_SYMBOL:
    case G_UNICODE_LINE_SEPARATOR:
    case G_UNICODE_PARAGRAPH_SEPARATOR:
    case G_UNICODE_SPACE_SEPARATOR:
        return false;
    }
    return false;
}

size_t identifier_length(const char *text)
{
    const size_t length = strlen(text);
    size_t at = 0;
    while (at < length) {
        const struct character c = character_at(text + at, length - at);
        if (!may_stand(c, at == 0))
            break;
        at += c.size;
    }
    return at;
}

/* GLib's text into the arena. NULL comes for what is not UTF-8 alone. */
static const char *kept(struct arena *arena, const char *text, char *made)
{
    if (made == NULL)
        return text;
    const char *copy = arena_copy(arena, made, strlen(made));
    g_free(made);
    return copy;
}

const char *identifier_composed(struct arena *arena, const char *text)
{
    return kept(arena, text, g_utf8_normalize(text, -1, G_NORMALIZE_NFC));
}

/* Composed once more, as folding may take letters apart. */
const char *identifier_folded(struct arena *arena, const char *text)
{
    return identifier_composed(arena,
                               kept(arena, text, g_utf8_casefold(text, -1)));
}
