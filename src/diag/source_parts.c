/* The files of a source: put behind each other, changed by an edit, and
 * measured once, so that no place needs a walk over a whole file. */
#include <string.h>

#include "character.h"
#include "source_tables.h"

enum { TAB_STOP = 8 };

/* ---- the tables of one file ---- */

/* Does a line end with this byte? The CR of a CRLF does not end it yet. */
static bool ends_line(const char *bytes, size_t length, size_t i)
{
    if (bytes[i] == '\n')
        return true;
    return bytes[i] == '\r' && !(i + 1 < length && bytes[i + 1] == '\n');
}

static void find_lines(struct arena *arena, const char *bytes,
                       struct source_part *part)
{
    /* Counted first: a growing list would take three times the memory. */
    size_t count = 1;
    for (size_t i = 0; i < part->length; i++)
        count += ends_line(bytes, part->length, i);

    uint32_t *starts = ARENA_ARRAY(arena, uint32_t, count);
    size_t line = 1; /* the first starts at 0, as does zeroed memory */
    for (size_t i = 0; i < part->length; i++)
        if (ends_line(bytes, part->length, i))
            starts[line++] = (uint32_t)(i + 1);
    part->line_starts = starts;
    part->line_count = count;
}

struct column_mark column_step(const char *bytes, size_t length,
                               struct column_mark at)
{
    const struct character c =
        character_at(bytes + at.offset, length - at.offset);
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
static void find_marks(struct arena *arena, const char *bytes,
                       struct source_part *part)
{
    const size_t count = part->length / MARK_BYTES + 1;
    struct column_mark *marks = ARENA_ARRAY(arena, struct column_mark, count);
    struct column_mark at = {0, 0};
    size_t filled = 0;
    while (filled < count) {
        if (at.offset >= filled * MARK_BYTES)
            marks[filled++] = at;
        if (at.offset >= part->length)
            break;
        const size_t before = at.offset;
        at = column_step(bytes, part->length, at);
        if (ends_line(bytes, part->length, before))
            at.column = 0;
    }
    part->marks = marks;
}

static void measure(struct arena *arena, const struct source *source,
                    struct source_part *part)
{
    find_lines(arena, source->bytes + part->start, part);
    find_marks(arena, source->bytes + part->start, part);
}

/* ---- sources ---- */

/* Adds the file that the last bytes are. */
static void add_part(struct arena *arena, struct source *source,
                     const char *name, size_t start)
{
    struct source_part *part = LIST_ADD(arena, &source->parts);
    part->name = name;
    part->start = (uint32_t)start;
    part->length = (uint32_t)(source->length - start);
    measure(arena, source, part);
}

struct source *source_create(struct arena *arena, const char *name,
                             const char *bytes, size_t length)
{
    struct source *source = ARENA_NEW(arena, struct source);
    source->name = name;
    source->bytes = bytes;
    source->length = length;
    add_part(arena, source, name, 0);
    return source;
}

/* The list of the other one may grow apart from it. */
static struct source *copy_of(struct arena *arena, const struct source *other)
{
    struct source *source = ARENA_NEW(arena, struct source);
    *source = *other;
    memset(&source->parts, 0, sizeof source->parts);
    for (size_t i = 0; i < other->parts.count; i++)
        *LIST_ADD(arena, &source->parts) = other->parts.items[i];
    return source;
}

/* Twice what is needed, so that many small files are not copied many times. */
static void make_room(struct arena *arena, struct source *source, size_t needed)
{
    if (source->room >= needed)
        return;
    source->room = needed * 2;
    source->growable = arena_alloc(arena, source->room);
    memcpy(source->growable, source->bytes, source->length);
    source->bytes = source->growable;
}

struct source *source_with(struct arena *arena, const struct source *source,
                           const char *name, const char *bytes, size_t length)
{
    struct source *larger = copy_of(arena, source);
    const size_t start = source->length + 1;
    make_room(arena, larger, start + length + 1);
    larger->growable[start - 1] = '\0';
    memcpy(larger->growable + start, bytes, length);
    larger->growable[start + length] = '\0';
    larger->length = start + length;
    add_part(arena, larger, name, start);
    return larger;
}

struct source *source_changed(struct arena *arena, const struct source *source,
                              struct span span, const char *text)
{
    const size_t put = strlen(text);
    const size_t behind = source->length - span.end;
    struct source *changed = copy_of(arena, source);
    changed->length = span.start + put + behind;
    changed->room = 0; /* no more than is needed */
    changed->growable = arena_alloc(arena, changed->length + 1);
    memcpy(changed->growable, source->bytes, span.start);
    memcpy(changed->growable + span.start, text, put);
    memcpy(changed->growable + span.start + put, source->bytes + span.end,
           behind);
    changed->bytes = changed->growable;
    for (size_t i = 0; i < changed->parts.count; i++) {
        struct source_part *part = &changed->parts.items[i];
        if (part->start > span.start) {
            part->start += (uint32_t)put - (span.end - span.start);
        } else if (span.start <= part->start + part->length) {
            part->length += (uint32_t)put - (span.end - span.start);
            measure(arena, changed, part);
        }
    }
    return changed;
}

size_t source_folder_length(const struct source *source)
{
    const char *slash = strrchr(source->name, '/');
    return slash == NULL ? 0 : (size_t)(slash + 1 - source->name);
}

const struct source *source_unplaced(struct arena *arena,
                                     const struct source *source)
{
    const size_t folder = source_folder_length(source);
    struct source *unplaced = copy_of(arena, source);
    for (size_t i = 0; i < unplaced->parts.count; i++)
        unplaced->parts.items[i].name += folder;
    unplaced->name += folder;
    return unplaced;
}

/* ---- which file ---- */

const struct source_part *source_part(const struct source *source,
                                      uint32_t offset)
{
    size_t i = source->parts.count - 1;
    while (source->parts.items[i].start > offset)
        i--;
    return &source->parts.items[i];
}

bool source_together(const struct source *source, uint32_t a, uint32_t b)
{
    return source_part(source, a) == source_part(source, b);
}
