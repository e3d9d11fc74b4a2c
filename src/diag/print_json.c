/* Messages for programs: the same facts as one JSON object (RFC 8259).
 *
 * Fields come in this order, and those that have nothing to tell are left
 * out:
 *
 *     name level file PLACE message label notes help fix
 *
 * PLACE is line, column, endLine, endColumn (from 1, columns as in the text;
 * the end is the first column behind) and offset, endOffset (bytes from 0).
 * A note is PLACE and message, a fix is PLACE and replacement; both begin with
 * a file of their own where theirs is another. A place counts in its file.
 */
#include "buffer.h"
#include "diag.h"

/* Every field ends with a comma; close_with takes the last one away.
 * Adds `"name":"text",`, or nothing where there is no text. */
static void add_field(struct buffer *buffer, const char *name, const char *text)
{
    if (text == NULL)
        return;
    buffer_printf(buffer, "\"%s\":", name);
    buffer_json(buffer, text);
    buffer_char(buffer, ',');
}

static void add_place(struct buffer *buffer, const struct source *source,
                      struct span span)
{
    const struct place start = source_place(source, span.start);
    const struct place end = source_place(source, span.end);
    const uint32_t first = source_part(source, span.start)->start;
    buffer_printf(buffer,
                  "\"line\":%zu,\"column\":%zu,"
                  "\"endLine\":%zu,\"endColumn\":%zu,"
                  "\"offset\":%u,\"endOffset\":%u,",
                  start.line, start.column, end.line, end.column,
                  (unsigned)(span.start - first), (unsigned)(span.end - first));
}

/* Adds the fields of a place; none for the file as a whole. */
static void add_known_place(struct buffer *buffer, const struct source *source,
                            struct span span)
{
    if (span.start != 0 || span.end != 0)
        add_place(buffer, source, span);
}

/* Adds the file of a place that lies in another file than the message. */
static void add_other_file(struct buffer *buffer, const struct source *source,
                           struct span span, struct span message)
{
    if (!source_together(source, span.start, message.start))
        add_field(buffer, "file", source_part(source, span.start)->name);
}

/* Ends an object or a list; every field before it has left a comma. */
static void close_with(struct buffer *buffer, const char *end)
{
    if (buffer->bytes[buffer->length - 1] == ',')
        buffer->length--;
    buffer_text(buffer, end);
}

/* Adds the list of notes, each an object, or nothing. */
static void add_notes(struct buffer *buffer, const struct source *source,
                      const struct diagnostic *d)
{
    if (d->notes.count == 0)
        return;
    buffer_text(buffer, "\"notes\":[");
    for (size_t i = 0; i < d->notes.count; i++) {
        const struct diag_note_text *note = &d->notes.items[i];
        buffer_char(buffer, '{');
        if (note->span.end != 0)
            add_other_file(buffer, source, note->span, d->span);
        add_known_place(buffer, source, note->span);
        add_field(buffer, "message", note->text);
        close_with(buffer, "},");
    }
    close_with(buffer, "],");
}

/* Adds what an editor can apply: the bytes to replace, and the new text. */
static void add_fix(struct buffer *buffer, const struct source *source,
                    const struct diagnostic *d)
{
    if (d->replacement == NULL)
        return;
    buffer_text(buffer, "\"fix\":{");
    add_other_file(buffer, source, d->mend_span, d->span);
    /* Always with its place: a fix may insert at the very start. */
    add_place(buffer, source, d->mend_span);
    add_field(buffer, "replacement", d->replacement);
    close_with(buffer, "},");
}

static const char *level_name(enum diag_level level)
{
    if (level == DIAG_ERROR)
        return "error";
    return level == DIAG_WARNING ? "warning" : "remark";
}

char *diag_json(const struct run *run, const struct diagnostic *d)
{
    const struct diag_entry *entry = diag_entry(d->code);
    struct buffer buffer = buffer_in(run->arena);
    buffer_char(&buffer, '{');
    add_field(&buffer, "name", entry->name);
    add_field(&buffer, "level", level_name(entry->level));
    add_field(&buffer, "file", source_part(run->source, d->span.start)->name);
    add_known_place(&buffer, run->source, d->span);
    add_field(&buffer, "message", d->message);
    add_field(&buffer, "label", d->label);
    add_notes(&buffer, run->source, d);
    add_field(&buffer, "help", d->help);
    add_fix(&buffer, run->source, d);
    close_with(&buffer, "}");
    return buffer.bytes;
}
