/* seamwright explain: the manual, and what a message means and how it is
 * mended. A message's text is templates/explain/NAME.txt, one for each name of
 * the catalogue. A name is asked for in this order: message, page, element,
 * attribute; where it means more than one, the other places are named. */
#include <stdio.h>
#include <string.h>

#include "buffer.h"
#include "diag.h"
#include "driver.h"
#include "manual.h"
#include "pattern.h"
#include "templates.h"

/* As in the messages themselves. */
static const char *level_word(enum diag_level level)
{
    switch (level) {
    case DIAG_ERROR:
        return "error";
    case DIAG_WARNING:
        return "warning";
    case DIAG_REMARK:
        return "remark";
    }
    return "";
}

/* ensures: the width of the longest name, so that the columns stand. */
static int name_width(const struct manual *manual)
{
    size_t width = 0;
    for (int code = 0; code < DIAG_CODE_COUNT; code++) {
        const size_t length = strlen(diag_entry((enum diag_code)code)->name);
        width = length > width ? length : width;
    }
    for (size_t i = 0; i < manual->pages.count; i++) {
        const size_t length = strlen(manual->pages.items[i].name);
        width = length > width ? length : width;
    }
    return (int)width;
}

/* Messages in the order of the catalogue, by what they are about; then the
 * subjects, as who looks for one is at the end of a long list. */
static int list_names(struct arena *arena, const struct manual *manual)
{
    struct buffer table = buffer_in(arena);
    const int width = name_width(manual);
    buffer_text(&table, "Messages\n");
    for (int code = 0; code < DIAG_CODE_COUNT; code++) {
        const struct diag_entry *entry = diag_entry((enum diag_code)code);
        buffer_printf(&table, "  %-*s  %-7s  %s\n", width, entry->name,
                      level_word(entry->level), entry->summary);
    }
    const char *part = "";
    for (size_t i = 0; i < manual->pages.count; i++) {
        const struct manual_page *page = &manual->pages.items[i];
        if (strcmp(page->part, part) != 0)
            buffer_printf(&table, "\n%s\n", page->part);
        part = page->part;
        buffer_printf(&table, "  %-*s  %s\n", width, page->name, page->summary);
    }
    return write_text(buffer_string(&table));
}

/* ensures: every name that there is, each once. */
static size_t all_names(struct arena *arena, const struct manual *manual,
                        const char ***names)
{
    size_t count = 0;
    const char **all = ARENA_ARRAY(arena, const char *,
                                   DIAG_CODE_COUNT + manual->pages.count +
                                       ELEMENT_COUNT + ATTRIBUTE_COUNT);
    for (int code = 0; code < DIAG_CODE_COUNT; code++)
        all[count++] = diag_entry((enum diag_code)code)->name;
    for (size_t i = 0; i < manual->pages.count; i++)
        all[count++] = manual->pages.items[i].name;
    for (int kind = 0; kind < ELEMENT_COUNT; kind++)
        all[count++] = element_name((enum element_kind)kind);
    for (int id = 0; id < ATTRIBUTE_COUNT; id++)
        all[count++] = attribute_name((enum attribute_id)id);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        size_t same = 0;
        while (same < kept && strcmp(all[same], all[i]) != 0)
            same++;
        if (same == kept)
            all[kept++] = all[i];
    }
    *names = all;
    return kept;
}

/* A mistake in usage, so it is told on standard error without a place. */
static int unknown_name(struct arena *arena, const struct manual *manual,
                        const char *name)
{
    const char **names;
    const size_t count = all_names(arena, manual, &names);
    const char *near = near_names(arena, name, names, count);
    complain("seamwright: no message, subject, element or attribute is called "
             "%s\n",
             quoted(arena, name));
    if (near != NULL)
        complain("help: did you mean %s?\n", near);
    else
        fputs("help: 'seamwright explain' lists all names\n", stderr);
    return STATUS_USAGE;
}

/* Every listed message has a text: a test asks for each, and one that is
 * missing here is a fault of ours. ensures: NULL where no message is called so;
 * not every text below templates/explain/ need belong to one. */
static const char *message_text(struct arena *arena, const char *name)
{
    int code = 0;
    while (code < DIAG_CODE_COUNT &&
           strcmp(diag_entry((enum diag_code)code)->name, name) != 0)
        code++;
    if (code == DIAG_CODE_COUNT)
        return NULL;
    const struct template_file *text =
        template_find(arena_printf(arena, "explain/%s.txt", name));
    if (text == NULL)
        internal_error("the message %s has no explanation", name);
    return (const char *)text->bytes;
}

static const char *find_page(const struct manual *manual, const char *name)
{
    for (size_t i = 0; i < manual->pages.count; i++)
        if (strcmp(manual->pages.items[i].name, name) == 0)
            return manual->pages.items[i].text;
    return NULL;
}

/* What an answer is put together from. */
struct answer {
    const struct manual *manual;
    const char *name;
    bool *told; /* by page */
    struct buffer out;
};

/* How many pages tell of the element or attribute, and one of them. */
static size_t pages_with(const struct answer *answer, bool attribute,
                         size_t *page)
{
    size_t count = 0, last = SIZE_MAX;
    for (size_t i = 0; i < answer->manual->entries.count; i++) {
        const struct manual_entry *entry = &answer->manual->entries.items[i];
        if (entry->attribute != attribute ||
            strcmp(entry->name, answer->name) != 0 || entry->page == last)
            continue;
        last = *page = entry->page;
        count++;
    }
    return count;
}

/* A blank line before what follows. */
static void end_part(struct buffer *out)
{
    if (out->length < 2 || strcmp(out->bytes + out->length - 2, "\n\n") != 0)
        buffer_char(out, '\n');
}

/* The page, or, of several, only what they say of it. ensures: false where no
 * page tells of it. */
static bool tell_entries(struct answer *answer, bool attribute)
{
    const struct manual *manual = answer->manual;
    size_t page = 0;
    const size_t pages = pages_with(answer, attribute, &page);
    if (pages == 1) {
        buffer_text(&answer->out, manual->pages.items[page].text);
        answer->told[page] = true;
    }
    for (size_t i = 0; pages > 1 && i < manual->entries.count; i++) {
        const struct manual_entry *entry = &manual->entries.items[i];
        if (entry->attribute != attribute ||
            strcmp(entry->name, answer->name) != 0)
            continue;
        if (attribute)
            buffer_printf(&answer->out, "## %s\n\n", entry->heading);
        buffer_text(&answer->out, entry->text);
        end_part(&answer->out);
    }
    return pages > 0;
}

/* The pages that tell of the name, too, below a blank line. */
static void tell_others(struct answer *answer)
{
    const char *before = "See also: ";
    for (size_t i = 0; i < answer->manual->entries.count; i++) {
        const struct manual_entry *entry = &answer->manual->entries.items[i];
        if (answer->told[entry->page] || strcmp(entry->name, answer->name) != 0)
            continue;
        if (before[0] != ' ')
            end_part(&answer->out);
        answer->told[entry->page] = true;
        buffer_printf(&answer->out, "%sseamwright explain %s\n", before,
                      answer->manual->pages.items[entry->page].name);
        before = "          ";
    }
}

int command_explain(struct arena *arena, const struct options *options)
{
    const struct manual *manual = read_manual(arena);
    if (options->file_count == 0)
        return list_names(arena, manual);
    const char *name = options->files[0];
    struct answer answer = {
        .manual = manual,
        .name = name,
        .told = ARENA_ARRAY(arena, bool, manual->pages.count + 1),
        .out = buffer_in(arena)};
    const char *text = message_text(arena, name);
    if (text == NULL)
        text = find_page(manual, name);
    for (size_t i = 0; i < manual->pages.count; i++)
        answer.told[i] = text != NULL && manual->pages.items[i].text == text;
    if (text != NULL)
        buffer_text(&answer.out, text);
    else if (name[0] == '\0' ||
             (!tell_entries(&answer, false) && !tell_entries(&answer, true)))
        return unknown_name(arena, manual, name);
    tell_others(&answer);
    return write_text(buffer_string(&answer.out));
}
