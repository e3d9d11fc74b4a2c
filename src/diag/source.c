/* Lines and columns of a source. Both are needed only for printing, so the
 * rest of the program carries byte offsets and nothing else. Read next:
 * source_parts.c, where a source is made. */
#include "source_tables.h"

#include <string.h>

#include "character.h"

enum { QUOTE_CHARACTERS = 40 };

size_t source_line(const struct source *source, uint32_t offset)
{
    const struct source_part *part = source_part(source, offset);
    size_t low = 0; /* its start is at or before the offset, always */
    size_t high = part->line_count;
    while (high - low > 1) {
        const size_t middle = low + (high - low) / 2;
        if (part->line_starts[middle] <= offset - part->start)
            low = middle;
        else
            high = middle;
    }
    return low + 1;
}

struct span source_line_span(const struct source *source,
                             const struct source_part *part, size_t line)
{
    struct span span = {part->start + part->line_starts[line - 1],
                        part->start + part->length};
    if (line == part->line_count)
        return span;
    /* Without its last byte, an LF or a CR, and without the CR of a CRLF. */
    span.end = part->start + part->line_starts[line] - 1;
    if (span.end > span.start && source->bytes[span.end] == '\n' &&
        source->bytes[span.end - 1] == '\r')
        span.end--;
    return span;
}

/* The last mark at or before the offset, or the start of the line where that
 * is nearer. All count from the start of the file. */
static struct column_mark nearest_mark(const struct source_part *part,
                                       uint32_t line_start, uint32_t offset)
{
    size_t index = offset / MARK_BYTES;
    /* A mark inside a character lies a few bytes further on. */
    if (index > 0 && part->marks[index].offset > offset)
        index--;
    if (part->marks[index].offset > line_start)
        return part->marks[index];
    return (struct column_mark){line_start, 0};
}

struct place source_place(const struct source *source, uint32_t offset)
{
    const struct source_part *part = source_part(source, offset);
    const size_t line = source_line(source, offset);
    const struct span span = source_line_span(source, part, line);
    if (offset > span.end)
        offset = span.end;
    offset -= part->start;
    struct column_mark at =
        nearest_mark(part, span.start - part->start, offset);
    while (at.offset < offset) {
        const struct column_mark next =
            column_step(source->bytes + part->start, part->length, at);
        /* An offset inside a character means that character. */
        if (next.offset > offset)
            break;
        at = next;
    }
    return (struct place){line, at.column + 1};
}

const char *source_of_other(struct arena *arena, const struct source *source,
                            uint32_t offset, uint32_t from)
{
    if (source_together(source, offset, from))
        return "";
    const char *name =
        source_part(source, offset)->name + source_folder_length(source);
    return arena_printf(arena, " of %s", quoted(arena, name));
}

const char *source_line_words(struct arena *arena, const struct source *source,
                              uint32_t offset, uint32_t from)
{
    return arena_printf(arena, "line %zu%s", source_line(source, offset),
                        source_of_other(arena, source, offset, from));
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
