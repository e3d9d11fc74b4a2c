/* What stands in the cells of a table of claims. People fill it in, and
 * spreadsheets save it: what they do to numbers is told with its likely cause.
 * Read next: gather.c. */
#include "gather_parts.h"

#include <string.h>

#include "buffer.h"
#include "phrase.h"

/* ---- the head ---- */

static int column_of(const char *name)
{
    int column = 0;
    while (column < CLAIMS_COLUMNS &&
           strcmp(name, claims_column_name((enum claims_column)column)) != 0)
        column++;
    return column;
}

/* Names of columns are short, so that a slip is near to one alone. */
static const char *near_column(const struct csv_reader *reader,
                               const char *name)
{
    const char *names[CLAIMS_COLUMNS];
    for (int i = 0; i < CLAIMS_COLUMNS; i++)
        names[i] = claims_column_name((enum claims_column)i);
    return near_names(reader->run->arena, name, names, CLAIMS_COLUMNS);
}

/* A column of one's own is no mistake, but a name with a slip may be meant. */
static void tell_unknown(const struct csv_reader *reader,
                         const struct csv_text *cell)
{
    struct run *run = reader->run;
    struct diagnostic *d = diag_report(
        run, DIAG_CLAIMS_COLUMN, cell->span,
        "a table of claims has no column %s; it is passed over",
        quoted(run->arena, cell->text));
    const char *near = near_column(reader, cell->text);
    if (near != NULL)
        diag_help(run, d, "did you mean %s?", near);
}

/* Semicolons and quotes were understood before, so that what is left has the
 * wrong columns indeed. */
static bool tell_missing(const struct csv_reader *reader, const char *missing,
                         bool any)
{
    struct run *run = reader->run;
    struct diagnostic *d =
        any ? diag_report(run, DIAG_CLAIMS_TABLE, reader->row,
                          "the table lacks the columns %s", missing)
            : diag_report(run, DIAG_CLAIMS_TABLE, reader->row,
                          "this is no table of claims: its first row names "
                          "none of their columns");
    diag_help(run, d,
              any ? "add them from the claims.csv that was handed out; packets "
                    "of an older build are written anew"
                  : "name the claims.csv of a packet, as testers filled it in");
    return false;
}

/* Most often a file that was saved before anything was put in. */
static bool tell_empty(const struct csv_reader *reader)
{
    struct diagnostic *d =
        diag_report(reader->run, DIAG_CLAIMS_TABLE,
                    (struct span){reader->end, reader->end},
                    "the table is empty");
    diag_help(reader->run, d,
              "name the claims.csv of a packet, as testers filled it in");
    return false;
}

/* Where each known column stands; CSV_MOST_CELLS: nowhere. */
static bool find_columns(const struct csv_reader *reader, size_t *columns,
                         bool *any)
{
    struct run *run = reader->run;
    for (int i = 0; i < CLAIMS_COLUMNS; i++)
        columns[i] = CSV_MOST_CELLS;
    for (size_t i = 0; i < reader->cells.count; i++) {
        const struct csv_text *cell = &reader->cells.items[i];
        const int column = column_of(cell->text);
        if (column == CLAIMS_COLUMNS)
            continue;
        if (columns[column] != CSV_MOST_CELLS) {
            struct diagnostic *d = diag_report(
                run, DIAG_CLAIMS_TABLE, cell->span,
                "the column %s stands twice", quoted(run->arena, cell->text));
            diag_help(run, d, "leave one of them out");
            return false;
        }
        *any = true;
        columns[column] = i;
    }
    return true;
}

/* What lacks is told once, with all that lacks; what is unknown in each place.
 */
bool read_claims_head(struct csv_reader *reader, size_t *columns)
{
    struct run *run = reader->run;
    struct buffer missing = buffer_in(run->arena);
    bool any = false;
    if (!csv_next(reader))
        return !reader->failed && tell_empty(reader);
    if (!find_columns(reader, columns, &any))
        return false;
    for (size_t i = 0; any && i < reader->cells.count; i++)
        if (column_of(reader->cells.items[i].text) == CLAIMS_COLUMNS &&
            reader->cells.items[i].text[0] != '\0')
            tell_unknown(reader, &reader->cells.items[i]);
    for (int i = 0; i < CLAIMS_COLUMNS; i++)
        if (columns[i] == CSV_MOST_CELLS)
            buffer_printf(&missing, "%s`%s`", missing.length > 0 ? ", " : "",
                          claims_column_name((enum claims_column)i));
    return missing.length == 0 ||
           tell_missing(reader, buffer_string(&missing), any);
}

/* ---- numbers and words ---- */

bool tell_changed(const struct claims_row *row, enum claims_column column,
                  const char *message)
{
    struct diagnostic *d = diag_report(
        row->run, DIAG_CLAIMS_ROW, row->cells[column].span, "%s", message);
    diag_help(row->run, d,
              "take the cell from the claims.csv that was handed out");
    return false;
}

/* Whole numbers alone; one with a point or a blank in it was changed by a
 * spreadsheet. */
bool read_row_number(const struct claims_row *row, enum claims_column column,
                     size_t most, size_t *number)
{
    const struct csv_text *cell = &row->cells[column];
    size_t value = 0;
    const char *c = cell->text;
    for (; *c >= '0' && *c <= '9' && value <= most; c++)
        value = 10 * value + (size_t)(*c - '0');
    *number = value;
    if (*c == '\0' && c != cell->text && value <= most)
        return true;
    return tell_changed(row, column,
                        arena_printf(row->run->arena,
                                     "%s is a whole number up to %zu, not %s",
                                     claims_column_name(column), most,
                                     quoted(row->run->arena, cell->text)));
}

/* The words are those of the table in every language. */
bool read_row_kind(const struct claims_row *row, enum claim_kind *kind)
{
    const struct csv_text *cell = &row->cells[CLAIMS_KIND];
    for (int i = 0; i < CLAIM_KINDS; i++)
        if (strcmp(cell->text, claim_kind_name((enum claim_kind)i)) == 0) {
            *kind = (enum claim_kind)i;
            return true;
        }
    return tell_changed(
        row, CLAIMS_KIND,
        arena_printf(row->run->arena,
                     "kind is shown, asked, strips or size, not %s",
                     quoted(row->run->arena, cell->text)));
}

/* Letters of A to Z alone, as no answer has others. */
static bool begins_like(const char *text, const char *word)
{
    for (; *text != '\0'; text++, word++) {
        const char small =
            *text >= 'A' && *text <= 'Z' ? (char)(*text - 'A' + 'a') : *text;
        if (small != *word)
            return false;
    }
    return true;
}

/* In each language that packets are written in: the word, or its first letters
 * (which no two answers share). */
bool read_row_answer(const struct claims_row *row, enum claim_answer *answer)
{
    static const char *const keys[ANSWERS] = {
        [ANSWER_RIGHT] = "proof.right",
        [ANSWER_WRONG] = "proof.wrong",
        [ANSWER_UNCLEAR] = "proof.unclear"};
    enum { MOST_WORDS = 24 };
    struct arena *arena = row->run->arena;
    const struct csv_text *cell = &row->cells[CLAIMS_ANSWER];
    const char *words[MOST_WORDS];
    size_t count = 0;
    *answer = ANSWER_NONE;
    if (cell->text[0] == '\0')
        return true;
    for (const char *const *language = phrase_languages(); *language != NULL;
         language++) {
        const struct phrases *phrases = phrases_load(arena, *language);
        for (int i = ANSWER_RIGHT; i < ANSWERS && count < MOST_WORDS; i++) {
            words[count] = say(arena, phrases, keys[i], NULL);
            if (begins_like(cell->text, words[count++])) {
                *answer = (enum claim_answer)i;
                return true;
            }
        }
    }
    struct diagnostic *d =
        diag_report(row->run, DIAG_CLAIMS_ANSWER, cell->span,
                    "an answer is right, wrong, unclear or nothing, not %s",
                    quoted(arena, cell->text));
    const char *near = near_names(arena, cell->text, words, count);
    if (near != NULL)
        diag_help(row->run, d, "did you mean %s?", near);
    else
        diag_help(row->run, d, "put words of your own into `measure`");
    return false;
}

/* ---- measures ---- */

enum { MOST_THOUSANDTHS = 100000000 }; /* 1000 ft: no quilt has that */

/* A pattern is in one of two units. */
static bool read_unit(const struct claims_row *row)
{
    const struct csv_text *cell = &row->cells[CLAIMS_UNIT];
    if (strcmp(cell->text, "in") == 0 || strcmp(cell->text, "cm") == 0)
        return true;
    return tell_changed(
        row, CLAIMS_UNIT,
        arena_printf(row->run->arena,
                     "unit is in or cm where something is measured, not %s",
                     quoted(row->run->arena, cell->text)));
}

/* From `told` on, the columns stand in the order of the struct. */
bool read_row_measures(const struct claims_row *row,
                       struct claim_measure *measure)
{
    double *const lengths[] = {&measure->told,  &measure->narrow,
                               &measure->right, &measure->wide,
                               &measure->spread, &measure->bound};
    if (!read_unit(row))
        return false;
    for (int i = 0; i < CLAIMS_COLUMNS - CLAIMS_TOLD; i++) {
        size_t number;
        if (!read_row_number(row, (enum claims_column)(CLAIMS_TOLD + i),
                             MOST_THOUSANDTHS, &number))
            return false;
        *lengths[i] = (double)number / 1000;
    }
    return true;
}

/* With a point for a comma between digits, and without the sign for inches
 * behind it, which both are how people write and no other reading has. */
static char *plain_length(struct arena *arena, const char *text,
                          enum length_unit unit)
{
    static const char *const signs[] = {"\"", "''", "\u2033", "\u201d"};
    size_t length = strlen(text);
    char *plain = arena_copy(arena, text, length);
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        const size_t sign = strlen(signs[i]);
        if (unit == UNIT_IN && length > sign &&
            strcmp(plain + length - sign, signs[i]) == 0) {
            plain[length -= sign] = '\0';
            break;
        }
    }
    for (size_t i = 1; i + 1 < length; i++)
        if (plain[i] == ',' && strspn(plain + i - 1, "0123456789") == 1 &&
            strspn(plain + i + 1, "0123456789") > 0)
            plain[i] = '.';
    return plain;
}

/* What was meant is not guessed: 3. Aug may be 3/8 or 8/3. */
static bool unread(const struct claims_row *row, enum length_unit unit)
{
    const struct csv_text *cell = &row->cells[CLAIMS_MEASURE];
    struct arena *arena = row->run->arena;
    struct diagnostic *d = diag_report(
        row->run, DIAG_CLAIMS_MEASURE, cell->span,
        "a measure is one length in %s, not %s",
        unit == UNIT_CM ? "centimetres" : "inches",
        quoted(arena, cell->text));
    diag_help(row->run, d,
              unit == UNIT_IN
                  ? "write 8 3/8, 8.375 or 8\u215c; where a spreadsheet made a "
                    "date of it, format the column as text"
                  : "write 21.3 or 21,3; where a spreadsheet made a date of "
                    "it, format the column as text");
    return false;
}

/* As `list --strips`: what is further off was not cut or sewn as the test
 * asks. */
enum { MOST_STRIPS_OFF = 7 };

bool read_row_measure(const struct claims_row *row, enum claim_kind kind,
                      const struct claim_measure *measure, double *measured)
{
    const struct csv_text *cell = &row->cells[CLAIMS_MEASURE];
    struct arena *arena = row->run->arena;
    const enum length_unit unit =
        strcmp(row->cells[CLAIMS_UNIT].text, "cm") == 0 ? UNIT_CM : UNIT_IN;
    const char *plain = plain_length(arena, cell->text, unit);
    const struct length_result length =
        length_parse(plain, strlen(plain), unit);
    if (length.fault != LENGTH_OK)
        return unread(row, unit);
    *measured = rational_double(length.value);
    const double off = *measured - measure->right;
    if (kind != CLAIM_STRIPS ||
        (off < 0 ? -off : off) * MOST_STRIPS_OFF <= measure->right)
        return true;
    struct diagnostic *d =
        diag_report(row->run, DIAG_CLAIMS_MEASURE, cell->span,
                    "%s is too far from what the test strips make",
                    quoted(arena, cell->text));
    diag_help(row->run, d, "%s", row->cells[CLAIMS_TEXT].text);
    return false;
}
