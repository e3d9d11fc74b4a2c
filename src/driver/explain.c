/* seamwright explain: what a message means and how it is mended. The texts
 * are templates/explain/NAME.txt, one for each name of the catalogue. */
#include <stdio.h>
#include <string.h>

#include "buffer.h"
#include "diag.h"
#include "driver.h"
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
static int name_width(void)
{
    size_t width = 0;
    for (int code = 0; code < DIAG_CODE_COUNT; code++) {
        const size_t length = strlen(diag_entry((enum diag_code)code)->name);
        width = length > width ? length : width;
    }
    return (int)width;
}

/* All names, in the order of the catalogue: by what they are about. */
static int list_names(struct arena *arena)
{
    struct buffer table = buffer_in(arena);
    const int width = name_width();
    for (int code = 0; code < DIAG_CODE_COUNT; code++) {
        const struct diag_entry *entry = diag_entry((enum diag_code)code);
        buffer_printf(&table, "%-*s  %-7s  %s\n", width, entry->name,
                      level_word(entry->level), entry->summary);
    }
    return write_output(buffer_string(&table), table.length);
}

/* A mistake in usage, so it is told on standard error without a place. */
static int unknown_name(struct arena *arena, const char *name)
{
    const char *names[DIAG_CODE_COUNT];
    for (int code = 0; code < DIAG_CODE_COUNT; code++)
        names[code] = diag_entry((enum diag_code)code)->name;
    const char *near = near_names(arena, name, names, DIAG_CODE_COUNT);
    fprintf(stderr, "seamwright: no message is called %s\n",
            quoted(arena, name));
    if (near != NULL)
        fprintf(stderr, "help: did you mean %s?\n", near);
    else
        fputs("help: 'seamwright explain' lists all names\n", stderr);
    return STATUS_USAGE;
}

/* Not every text below templates/explain/ need belong to a message of this
 * catalogue, so the catalogue is asked first. */
static bool is_listed(const char *name)
{
    for (int code = 0; code < DIAG_CODE_COUNT; code++)
        if (strcmp(diag_entry((enum diag_code)code)->name, name) == 0)
            return true;
    return false;
}

/* Every listed message has a text: a test asks for each, and one that is
 * missing here is a fault of ours. */
int command_explain(struct arena *arena, const struct options *options)
{
    if (options->file_count == 0)
        return list_names(arena);
    const char *name = options->files[0];
    if (!is_listed(name))
        return unknown_name(arena, name);
    const struct template_file *text =
        template_find(arena_printf(arena, "explain/%s.txt", name));
    if (text == NULL)
        internal_error("the message %s has no explanation", name);
    return write_output((const char *)text->bytes, text->length);
}
