/* owner: diag
 *
 * The text of one source file, and places in it.
 */
#ifndef SEAMWRIGHT_SOURCE_H
#define SEAMWRIGHT_SOURCE_H

#include <stddef.h>
#include <stdint.h>

#include "arena.h"

/* Bytes [start, end) of the source. An empty span at 0 means "the file". */
struct span {
    uint32_t start, end;
};

/* A column that is known without walking its line from the start, so that a
 * place in a line of megabytes is found as fast as any other. */
struct column_mark {
    uint32_t offset; /* where a character starts */
    uint32_t column; /* from 0 */
};

struct source {
    const char *name; /* as the user wrote it */
    const char *bytes;
    size_t length;
    const uint32_t *line_starts; /* offset of the first byte of each line */
    size_t line_count;           /* at least 1 */
    /* One for every 4096 bytes. */
    const struct column_mark *marks;
};

/* Line and column from 1; columns count what a terminal shows: wide
 * characters by wcwidth, tab stops of 8, one for a malformed byte. */
struct place {
    size_t line, column;
};

/* requires: length below 2^28, so that columns fit.
 * ensures: a source over `bytes`, which it does not copy. Lines end at LF,
 * CRLF or a lone CR; behind the last line end there is one more line. */
struct source *source_create(struct arena *arena, const char *name,
                             const char *bytes, size_t length);
/* The place of the character that holds the offset; a line end, and what lies
 * past it, count as the column behind the line. */
struct place source_place(const struct source *source, uint32_t offset);
/* The line (from 1) that holds the offset. */
size_t source_line(const struct source *source, uint32_t offset);
/* The bytes of a line (from 1), without its end. */
struct span source_line_span(const struct source *source, size_t line);

/* Text for a message: cut at 40 characters, control and bidirectional
 * characters shown as U+XXXX, with grave accents around. */
char *quoted(struct arena *arena, const char *text);

#endif
