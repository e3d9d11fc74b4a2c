/* Cells of a comma-separated table (RFC 4180). */
#include "csv_cell.h"

#include <string.h>

#include "character.h"

/* True where a spreadsheet may run the text as a formula: it begins with one of
 * the signs that start one, also in their full-width forms, or with a blank or
 * something unseen, which some programs pass over to find such a sign. */
static bool like_formula(const char *text)
{
    const size_t length = strlen(text);
    if (length == 0)
        return false;
    const struct character c = character_at(text, length);
    static const uint32_t starts[] = {'=',    '+',    '-',    '@',    ' ',
                                      0xA0,   0x202F, 0x205F, 0x3000, 0xFF1D,
                                      0xFF0B, 0xFF0D, 0xFF20};
    for (size_t i = 0; i < sizeof starts / sizeof starts[0]; i++)
        if (c.code == starts[i])
            return true;
    /* The general punctuation block begins with blanks. */
    return character_hidden(c) || (c.code >= 0x2000 && c.code <= 0x200F);
}

/* A cell that begins like a formula gets a leading apostrophe. A spreadsheet
 * would else run a cloth's name as a formula. Whether it is the first of its
 * row is seen from what was written last, so no caller has to count. */
void csv_cell(struct buffer *out, const char *text)
{
    if (out->length > 0 && out->bytes[out->length - 1] != '\n')
        buffer_char(out, ',');
    else if (text[0] == '\0')
        buffer_text(out, "\"\""); /* or the next would be the first */
    const bool formula = like_formula(text);
    const bool quote = formula || strpbrk(text, ",\"\r\n") != NULL;
    if (!quote) {
        buffer_text(out, text);
        return;
    }
    buffer_char(out, '"');
    if (formula)
        buffer_char(out, '\'');
    for (; *text != '\0'; text++) {
        if (*text == '"')
            buffer_char(out, '"');
        buffer_char(out, *text);
    }
    buffer_char(out, '"');
}

/* Both bytes, on every system: RFC 4180 asks for them. */
void csv_end_row(struct buffer *out)
{
    buffer_text(out, "\r\n");
}
