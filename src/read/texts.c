/* Attributes that people read: names and titles, and the identifiers by which
 * the parts of a pattern name each other. Both are printed, become parts of
 * pages and file names, and are compared letter by letter, so what cannot be
 * seen or would be told otherwise than it is written has no place in them. */
#include <string.h>

#include "character.h"
#include "identifier.h"
#include "reader.h"

/* ensures: the place of the first character that ends a line or acts on a
 * terminal; `length` where there is none. */
static size_t find_break(const char *text, size_t length)
{
    size_t at = 0;
    while (at < length) {
        const struct character c = character_at(text + at, length - at);
        if (character_breaks(c))
            break;
        at += c.size;
    }
    return at;
}

/* reports: the character, with a blank as the mend where it was written as
 * itself and not as a reference. */
static void report_break(struct run *run, const char *name, struct value *value,
                         size_t at, size_t length)
{
    const struct character c = character_at(value->text + at, length - at);
    const struct span span = value_part(value, at, at + c.size);
    struct diagnostic *d =
        diag_report(run, DIAG_VALUE, span,
                    "%s=%s has U+%04X in it, which is no part of one line",
                    name, quoted(run->arena, value->text), (unsigned)c.code);
    if (span.start != value->span.start || span.end != value->span.end)
        diag_mend(run, d, span, " ",
                  "write a blank; pages break their lines "
                  "by themselves");
    else
        diag_help(run, d,
                  "write a blank; pages break their lines by "
                  "themselves");
    value->usable = false;
}

/* reports: text that is empty, longer than a line or two of a page, or not one
 * line. */
void read_line_of_text(struct run *run, const char *name, struct value *value)
{
    const size_t length = strlen(value->text);
    const size_t characters = character_count(value->text, length);
    if (strspn(value->text, " \t\r\n") == length) {
        value_not_usable(run, name, value, "a text: it is empty");
        return;
    }
    const size_t at = find_break(value->text, length);
    if (at < length) {
        report_break(run, name, value, at, length);
    } else if (characters > LIMIT_TEXT) {
        value->usable = false;
        diag_report(run, DIAG_VALUE, value->span,
                    "%s=%s has %zu characters; at most %d fit", name,
                    quoted(run->arena, value->text), characters, LIMIT_TEXT);
    }
}

/* Two ways of writing one letter look the same and would be two names.
 * reports: letters that are not composed, with the composed ones as mend. */
static void check_composed(struct run *run, const char *name,
                           struct value *value)
{
    const char *composed = identifier_composed(run->arena, value->text);
    if (strcmp(composed, value->text) == 0)
        return;
    value->usable = false;
    struct diagnostic *d =
        diag_report(run, DIAG_VALUE, value->span,
                    "%s=%s has a letter written as several characters", name,
                    quoted(run->arena, value->text));
    diag_note(run, d, (struct span){0, 0},
              "a name is written in composed characters (Unicode "
              "normalization form C), so that it is the same wherever it "
              "stands");
    diag_mend(run, d, value->span, composed, "composed it is %s",
              quoted(run->arena, composed));
}

/* reports: a character that identifier.h does not let pass. One that is not
 * seen is told by its number, or the message would puzzle its reader. */
static void report_no_name(struct run *run, const char *name,
                           struct value *value, size_t at)
{
    value->usable = false;
    const struct character c =
        character_at(value->text + at, strlen(value->text) - at);
    struct diagnostic *d = diag_report(
        run, DIAG_VALUE, value_part(value, at, at + c.size),
        "%s=%s is not a name: letters, digits, - _ and . without blanks", name,
        quoted(run->arena, value->text));
    if (character_hidden(c))
        diag_note(run, d, (struct span){0, 0},
                  "U+%04X stands in it, which is not seen", (unsigned)c.code);
}

/* reports: what is no name, or too long for one. */
void read_identifier(struct run *run, const char *name, struct value *value)
{
    const size_t length = strlen(value->text);
    const size_t at = identifier_length(value->text);
    const size_t characters = character_count(value->text, length);
    if (length == 0) {
        value_not_usable(run, name, value, "a name: it is empty");
    } else if (at < length) {
        report_no_name(run, name, value, at);
    } else if (characters > LIMIT_IDENTIFIER) {
        value->usable = false;
        diag_report(run, DIAG_VALUE, value->span,
                    "%s=%s has %zu characters; a name has at most %d", name,
                    quoted(run->arena, value->text), characters,
                    LIMIT_IDENTIFIER);
    } else {
        check_composed(run, name, value);
    }
}
