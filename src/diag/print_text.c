/* Messages for people: head, source line, notes, mend. Colour only helps; the
 * text is the same without it. */
#include <stdint.h>

#include "character.h"
#include "diag.h"
#include "snippet.h"

/* More than anybody mends before trying again. */
enum { MOST_PRINTED = 200 };

#define STYLE_BOLD "\033[1m"

/* The empty span at 0 stands for the file, or for no place at all. */
static bool has_place(struct span span)
{
    return span.start != 0 || span.end != 0;
}

static const char *level_name(enum diag_level level)
{
    static const char *const names[] = {
        [DIAG_ERROR] = "error",
        [DIAG_WARNING] = "warning",
        [DIAG_REMARK] = "remark",
    };
    return names[level];
}

static const char *level_style(enum diag_level level)
{
    static const char *const styles[] = {
        [DIAG_ERROR] = "\033[1;31m",   /* red */
        [DIAG_WARNING] = "\033[1;35m", /* magenta */
        [DIAG_REMARK] = "\033[1;34m",  /* blue */
    };
    return styles[level];
}

/* Adds text that may hold what a user wrote, so nothing of it reaches the
 * terminal as a command. */
static void add_styled(struct buffer *buffer, bool color, const char *style,
                       const char *text)
{
    if (color)
        buffer_text(buffer, style);
    add_shown_text(buffer, text);
    if (color)
        buffer_text(buffer, STYLE_OFF);
}

/* Adds "file:line:column:", or "file:" for the file as a whole. */
static void add_place(struct buffer *buffer, bool color,
                      const struct source *source, struct span span)
{
    if (color)
        buffer_text(buffer, STYLE_BOLD);
    add_shown_text(buffer, source_part(source, span.start)->name);
    if (has_place(span)) {
        const struct place place = source_place(source, span.start);
        buffer_printf(buffer, ":%zu:%zu", place.line, place.column);
    }
    buffer_char(buffer, ':');
    if (color)
        buffer_text(buffer, STYLE_OFF);
    buffer_char(buffer, ' ');
}

/* Adds the first line, which must make sense without what follows it. */
static void add_head(struct buffer *buffer, bool color,
                     const struct source *source, const struct diagnostic *d)
{
    const struct diag_entry *entry = diag_entry(d->code);
    add_place(buffer, color, source, d->span);
    add_styled(buffer, color, level_style(entry->level),
               level_name(entry->level));
    add_styled(buffer, color, level_style(entry->level), ":");
    buffer_char(buffer, ' ');
    add_styled(buffer, color, STYLE_BOLD, d->message);
    buffer_printf(buffer, " [%s]\n", entry->name);
}

/* Adds "note: ..." or "help: ..." and the end of the line. */
static void add_hint(struct buffer *buffer, bool color, const char *kind,
                     const char *text)
{
    add_styled(buffer, color, STYLE_BOLD, kind);
    buffer_char(buffer, ' ');
    add_shown_text(buffer, text);
    buffer_char(buffer, '\n');
}

/* Adds one message: head, source line, the places that take part in the order
 * they were reported, and the mend last. */
static void add_diagnostic(struct buffer *buffer, bool color,
                           const struct source *source,
                           const struct diagnostic *d)
{
    add_head(buffer, color, source, d);
    if (has_place(d->span)) {
        const struct snippet snippet = {source, d->span, d->label, color};
        add_snippet(buffer, &snippet);
    }
    for (size_t i = 0; i < d->notes.count; i++) {
        const struct diag_note_text *note = &d->notes.items[i];
        if (has_place(note->span))
            add_place(buffer, color, source, note->span);
        add_hint(buffer, color, "note:", note->text);
    }
    if (d->help != NULL)
        add_hint(buffer, color, "help:", d->help);
}

/* How many messages of each level are printed: errors before all others. A
 * program gets all of them. */
static void share_out(const struct run *run, bool json, size_t shares[3])
{
    size_t room = json ? SIZE_MAX : MOST_PRINTED;
    for (int level = DIAG_ERROR; level <= DIAG_REMARK; level++) {
        const size_t count = diag_count(run, (enum diag_level)level);
        shares[level] = count < room ? count : room;
        room -= shares[level];
    }
}

void diag_print(const struct run *run, struct diag_style style, FILE *out)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    size_t shares[3], passed = 0;
    share_out(run, style.json, shares);
    for (size_t i = 0; i < count; i++) {
        size_t *share = &shares[diag_entry(sorted[i]->code)->level];
        if (*share == 0) {
            passed++;
            continue;
        }
        --*share;
        /* Each message has an arena of its own, so that ten thousand of them
         * need no more memory than one. */
        struct run one = *run;
        one.arena = arena_create();
        struct buffer buffer = buffer_in(one.arena);
        if (style.json) {
            buffer_text(&buffer, diag_json(&one, sorted[i]));
            buffer_char(&buffer, '\n');
        } else {
            add_diagnostic(&buffer, style.color, run->source, sorted[i]);
        }
        fwrite(buffer.bytes, 1, buffer.length, out);
        arena_destroy(one.arena);
    }
    if (passed > 0)
        fprintf(out, "%zu more messages; %d are shown\n", passed, MOST_PRINTED);
}
