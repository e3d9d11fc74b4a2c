/* Lines and columns of a source. Both are needed only for printing, so the
 * rest of the program carries byte offsets and nothing else. */
#include "source.h"

#include <stdbool.h>
#include <string.h>

#include "character.h"

enum { TAB_STOP = 8, MARK_BYTES = 4096, QUOTE_CHARACTERS = 40 };

/* Does a line end with this byte? The CR of a CRLF does not end it yet. */
static bool ends_line(const char *bytes, size_t length, size_t i)
{
    if (bytes[i] == '\n')
        return true;
    return bytes[i] == '\r' && !(i + 1 < length && bytes[i + 1] == '\n');
}

/* Fills in the table of lines, which is why a place needs no walk over the
 * whole file. */
static void find_lines(struct arena *arena, struct source *source)
{
    /* Counted first: a growing list would take three times the memory. */
    size_t count = 1;
    for (size_t i = 0; i < source->length; i++)
        count += ends_line(source->bytes, source->length, i);

    uint32_t *starts = ARENA_ARRAY(arena, uint32_t, count);
    size_t line = 1; /* the first starts at 0, as does zeroed memory */
    for (size_t i = 0; i < source->length; i++)
        if (ends_line(source->bytes, source->length, i))
            starts[line++] = (uint32_t)(i + 1);
    source->line_starts = starts;
    source->line_count = count;
}

/* Moves one character on; `column` counts from 0. */
static struct column_mark step(const struct source *source,
                               struct column_mark at)
{
    const char *bytes = source->bytes + at.offset;
    const struct character c = character_at(bytes, source->length - at.offset);
    if (c.code == '\t')
        at.column += TAB_STOP - at.column % TAB_STOP;
    else
        at.column += (uint32_t)character_width(c);
    at.offset += c.size;
    return at;
}

/* Notes the column at the first character at or behind each multiple of
 * MARK_BYTES. One walk over the file here saves one over a line of megabytes
 * for each message about it. */
static void find_marks(struct arena *arena, struct source *source)
{
    const size_t count = source->length / MARK_BYTES + 1;
    struct column_mark *marks = ARENA_ARRAY(arena, struct column_mark, count);
    struct column_mark at = {0, 0};
    size_t filled = 0;
    while (filled < count) {
        if (at.offset >= filled * MARK_BYTES)
            marks[filled++] = at;
        if (at.offset >= source->length)
            break;
        const size_t before = at.offset;
        at = step(source, at);
        if (ends_line(source->bytes, source->length, before))
            at.column = 0;
    }
    source->marks = marks;
}

struct source *source_create(struct arena *arena, const char *name,
                             const char *bytes, size_t length)
{
    struct source *source = ARENA_NEW(arena, struct source);
    source->name = name;
    source->bytes = bytes;
    source->length = length;
    find_lines(arena, source);
    find_marks(arena, source);
    return source;
}

size_t source_line(const struct source *source, uint32_t offset)
{
    size_t low = 0; /* its start is at or before the offset, always */
    size_t high = source->line_count;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (source->line_starts[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low + 1;
}

struct span source_line_span(const struct source *source, size_t line)
{
    struct span span = {source->line_starts[line - 1],
                        (uint32_t)source->length};
    if (line == source->line_count)
        return span;
    /* Without its last byte, an LF or a CR, and without the CR of a CRLF. */
    span.end = source->line_starts[line] - 1;
    if (span.end > span.start && source->bytes[span.end] == '\n' &&
        source->bytes[span.end - 1] == '\r')
        span.end--;
    return span;
}

/* The last mark at or before the offset, or the start of the line where that
 * is nearer. */
static struct column_mark nearest_mark(const struct source *source,
                                       uint32_t line_start, uint32_t offset)
{
    size_t index = offset / MARK_BYTES;
    /* A mark inside a character lies a few bytes further on. */
    if (index > 0 && source->marks[index].offset > offset)
        index--;
    if (source->marks[index].offset > line_start)
        return source->marks[index];
    return (struct column_mark){line_start, 0};
}

struct place source_place(const struct source *source, uint32_t offset)
{
    const size_t line = source_line(source, offset);
    const struct span span = source_line_span(source, line);
    if (offset > span.end)
        offset = span.end;
    struct column_mark at = nearest_mark(source, span.start, offset);
    while (at.offset < offset) {
        const struct column_mark next = step(source, at);
        /* An offset inside a character means that character. */
        if (next.offset > offset)
            break;
        at = next;
    }
    return (struct place){line, at.column + 1};
}

/* How many bytes the first `limit` characters take. */
static size_t prefix_size(const char *text, size_t length, size_t limit)
{
    size_t size = 0;
    for (size_t i = 0; i < limit && size < length; i++)
        size += character_at(text + size, length - size).size;
    return size;
}

char *quoted(struct arena *arena, const char *text)
{
    static const char dots[] = "...";
    const size_t length = strlen(text);
    size_t shown = prefix_size(text, length, QUOTE_CHARACTERS);
    /* The dots are part of the 40, so that no quote is wider than that. */
    const bool cut = shown < length;
    if (cut)
        shown = prefix_size(text, length, QUOTE_CHARACTERS - strlen(dots));

    struct buffer buffer = buffer_in(arena);
    buffer_char(&buffer, '`');
    for (size_t i = 0; i < shown;) {
        const struct character c = character_at(text + i, length - i);
        /* An accent of the text must not look like the closing one. */
        if (c.code == '`')
            buffer_text(&buffer, "U+0060");
        else
            add_shown(&buffer, text + i, c);
        i += c.size;
    }
    buffer_text(&buffer, cut ? "...`" : "`");
    return buffer.bytes;
}
