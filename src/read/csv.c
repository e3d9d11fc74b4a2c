/* A table as RFC 4180 has it, and as spreadsheets write it. What is read is
 * not copied but for cells that have quotes or must end somewhere. */
#include "csv_table.h"

#include <string.h>

#include "buffer.h"
#include "character.h"

static const char byte_order_mark[] = "\xef\xbb\xbf";

/* Spans count from the first byte of all files. */
static const char *bytes_of(const struct csv_reader *reader)
{
    return reader->run->source->bytes;
}

/* The first fault ends the file: what comes behind it would be told wrongly. */
static void fail(struct csv_reader *reader, struct span span,
                 const char *message, const char *help)
{
    struct diagnostic *d =
        diag_report(reader->run, DIAG_CLAIMS_TABLE, span, "%s", message);
    diag_help(reader->run, d, "%s", help);
    reader->failed = true;
}

/* ---- the file ---- */

/* Spreadsheets write their own letters where they are not asked for UTF-8: a
 * half is then one byte. */
static void check_bytes(struct csv_reader *reader)
{
    struct arena *arena = reader->run->arena;
    for (uint32_t at = reader->at; at < reader->end;) {
        const char *bytes = bytes_of(reader) + at;
        const struct character c = character_at(bytes, reader->end - at);
        if (c.malformed || c.code == 0) {
            fail(reader, (struct span){at, at + 1},
                 arena_printf(arena, "byte %02X is no text in UTF-8",
                              (unsigned)(unsigned char)*bytes),
                 "save the table as `CSV UTF-8`, or with the character set "
                 "UTF-8");
            return;
        }
        at += c.size;
    }
}

/* The sign that the first line has most of, outside quotes. */
static char separator_of(const struct csv_reader *reader)
{
    static const char signs[] = {',', ';', '\t'};
    size_t counts[sizeof signs] = {0};
    bool quoted_part = false;
    for (uint32_t at = reader->at; at < reader->end; at++) {
        const char c = bytes_of(reader)[at];
        if (c == '"')
            quoted_part = !quoted_part;
        if (!quoted_part && (c == '\n' || c == '\r'))
            break;
        for (size_t i = 0; i < sizeof signs; i++)
            counts[i] += !quoted_part && c == signs[i];
    }
    size_t most = 0;
    for (size_t i = 1; i < sizeof signs; i++)
        if (counts[i] > counts[most])
            most = i;
    return signs[most];
}

struct csv_reader csv_open(struct run *run, const struct source_part *part)
{
    struct csv_reader reader = {
        .run = run, .at = part->start, .end = part->start + part->length};
    if (part->length >= 3 &&
        memcmp(run->source->bytes + part->start, byte_order_mark, 3) == 0)
        reader.at += 3;
    check_bytes(&reader);
    reader.separator = separator_of(&reader);
    return reader;
}

/* ---- cells ---- */

static bool at_end_of_cell(const struct csv_reader *reader)
{
    const char c = bytes_of(reader)[reader->at];
    return reader->at >= reader->end || c == reader->separator || c == '\n' ||
           c == '\r';
}

/* Blanks round a text come of typing and change nothing. */
static struct csv_text trimmed(const struct csv_reader *reader, uint32_t start,
                               uint32_t end)
{
    const char *bytes = bytes_of(reader);
    while (start < end && bytes[start] == ' ')
        start++;
    while (end > start && bytes[end - 1] == ' ')
        end--;
    return (struct csv_text){
        start == end ? ""
                     : arena_copy(reader->run->arena, bytes + start,
                                  end - start),
        {start, end}};
}

/* A quote inside it is most often the sign for inches. */
static void read_plain(struct csv_reader *reader, struct csv_text *cell)
{
    const uint32_t start = reader->at;
    while (!at_end_of_cell(reader)) {
        if (bytes_of(reader)[reader->at] == '"') {
            fail(reader, (struct span){reader->at, reader->at + 1},
                 "a quote stands inside a cell that has none around it",
                 "leave it out, or write the cell in quotes and this one "
                 "twice");
            return;
        }
        reader->at++;
    }
    *cell = trimmed(reader, start, reader->at);
}

/* What stands behind the closing quote belongs to no cell. */
static void end_quoted(struct csv_reader *reader, struct csv_text *cell)
{
    const uint32_t behind = reader->at;
    while (!at_end_of_cell(reader) && bytes_of(reader)[reader->at] == ' ')
        reader->at++;
    if (at_end_of_cell(reader))
        return;
    const uint32_t letter = reader->at;
    while (!at_end_of_cell(reader))
        reader->at++;
    fail(reader, (struct span){letter, reader->at},
         "this stands behind the quote that ends its cell",
         "a quote inside a cell in quotes is written twice");
    cell->span.end = behind;
}

/* Two quotes are one of the text; a single one ends the cell. */
static void read_quoted(struct csv_reader *reader, struct csv_text *cell)
{
    const char *bytes = bytes_of(reader);
    const uint32_t open = reader->at++;
    struct buffer text = buffer_in(reader->run->arena);
    for (; reader->at < reader->end; reader->at++) {
        if (bytes[reader->at] == '"') {
            if (bytes[reader->at + 1] != '"')
                break;
            reader->at++;
        }
        buffer_char(&text, bytes[reader->at]);
    }
    if (reader->at >= reader->end) {
        fail(reader, (struct span){open, open + 1},
             "the cell that this quote begins has no end",
             "end it with a quote, or leave this one out");
        return;
    }
    *cell = (struct csv_text){buffer_string(&text), {open + 1, reader->at}};
    reader->at++;
    end_quoted(reader, cell);
}

/* ---- rows ---- */

static void end_line(struct csv_reader *reader)
{
    const char *bytes = bytes_of(reader);
    if (reader->at < reader->end && bytes[reader->at] == '\r')
        reader->at++;
    if (reader->at < reader->end && bytes[reader->at] == '\n')
        reader->at++;
}

/* ensures: whether any cell of the row has a text. */
static bool read_row(struct csv_reader *reader)
{
    bool any = false;
    reader->cells.count = 0;
    reader->row.start = reader->at;
    for (;;) {
        struct csv_text cell = {"", {reader->at, reader->at}};
        if (reader->at < reader->end && bytes_of(reader)[reader->at] == '"')
            read_quoted(reader, &cell);
        else
            read_plain(reader, &cell);
        if (reader->failed)
            return false;
        *LIST_ADD(reader->run->arena, &reader->cells) = cell;
        any = any || cell.text[0] != '\0';
        if (reader->at >= reader->end ||
            bytes_of(reader)[reader->at] != reader->separator)
            break;
        if (reader->cells.count == CSV_MOST_CELLS) {
            fail(reader, (struct span){reader->at, reader->at + 1},
                 "a row has more than 100 cells",
                 "name the table of claims that proof wrote");
            return false;
        }
        reader->at++;
    }
    reader->row.end = reader->at;
    end_line(reader);
    return any;
}

/* Rows of empty cells are what a spreadsheet leaves below a table. */
bool csv_next(struct csv_reader *reader)
{
    while (!reader->failed && reader->at < reader->end) {
        if (!read_row(reader))
            continue;
        if (reader->rows++ < CSV_MOST_ROWS)
            return true;
        fail(reader, reader->row, "a table has at most 100000 rows",
             "name the table of claims that proof wrote");
    }
    return false;
}
