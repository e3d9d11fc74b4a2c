/* owner: diag
 *
 * The text of a source, which may be several files, and places in it.
 */
#ifndef SEAMWRIGHT_SOURCE_H
#define SEAMWRIGHT_SOURCE_H

#include <stdbool.h>
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

/* One file. Its tables count from its own start, so that they stay true where
 * an edit moves it. */
struct source_part {
    const char *name; /* as the user wrote it, or would */
    uint32_t start;   /* in the bytes of the source */
    uint32_t length;
    const uint32_t *line_starts; /* offset of the first byte of each line */
    size_t line_count;           /* at least 1 */
    /* One for every 4096 bytes. */
    const struct column_mark *marks;
};

/* The files lie one behind the other, a NUL behind each, so that a span is two
 * offsets whatever file it lies in, and no search for text leaves its file. */
struct source {
    const char *name; /* of the first file */
    const char *bytes;
    size_t length;                  /* without the last NUL */
    LIST(struct source_part) parts; /* at least 1 */
    char *growable; /* `bytes`, where others may be put behind them; or NULL */
    size_t room;    /* of `growable` */
};

/* Line and column from 1, in their file; columns count what a terminal shows:
 * wide characters by wcwidth, tab stops of 8, one for a malformed byte. */
struct place {
    size_t line, column;
};

/* requires: length below 2^28, so that columns fit, and a NUL behind it.
 * ensures: a source over `bytes`, which it does not copy. Lines end at LF,
 * CRLF or a lone CR; behind the last line end there is one more line. */
struct source *source_create(struct arena *arena, const char *name,
                             const char *bytes, size_t length);
/* ensures: a source with one file more; places in `source` stay what they are.
 * requires: of one source no two are made that live at one time. */
struct source *source_with(struct arena *arena, const struct source *source,
                           const char *name, const char *bytes, size_t length);
/* ensures: a source with `text` for the bytes of the span; files behind it
 * move. requires: a span within one file. */
struct source *source_changed(struct arena *arena, const struct source *source,
                              struct span span, const char *text);
/* ensures: the same source, its files named from the folder of the first. */
const struct source *source_unplaced(struct arena *arena,
                                     const struct source *source);
/* How much of the name of the source is its folder, with the slash: 0 for the
 * current one. */
size_t source_folder_length(const struct source *source);

/* The file that holds the offset; the NUL behind a file belongs to it. */
const struct source_part *source_part(const struct source *source,
                                      uint32_t offset);
/* Do both offsets lie in one file? */
bool source_together(const struct source *source, uint32_t a, uint32_t b);
/* The place of the character that holds the offset; a line end, and what lies
 * past it, count as the column behind the line. */
struct place source_place(const struct source *source, uint32_t offset);
/* The line (from 1) of its file that holds the offset. */
size_t source_line(const struct source *source, uint32_t offset);
/* The bytes of a line (from 1) of a file, without its end. */
struct span source_line_span(const struct source *source,
                             const struct source_part *part, size_t line);
/* " of `cloth.xml`" where the offset lies in another file than `from`, where
 * the caret stands; else "". The name counts from the folder of the source. */
const char *source_of_other(struct arena *arena, const struct source *source,
                            uint32_t offset, uint32_t from);
/* "line 7", and of which file where that is another one. */
const char *source_line_words(struct arena *arena, const struct source *source,
                              uint32_t offset, uint32_t from);

/* Text for a message: cut at 40 characters, control and bidirectional
 * characters shown as U+XXXX, with grave accents around. */
char *quoted(struct arena *arena, const char *text);

#endif
