/* The help, of the program and of each command, from the tables. It fits 80
 * columns; a test says so. */
#include <stdio.h>
#include <string.h>

#include "buffer.h"
#include "commands.h"

/* Where the words of an option begin. */
enum { HELP_COLUMN = 29 };

/* "  -o, --output FOLDER        where ...", its further lines below the first.
 */
static void put_option(struct buffer *out, const struct option_row *row)
{
    const size_t start = out->length;
    if (row->letter != '\0')
        buffer_printf(out, "  -%c, --%s", row->letter, row->name);
    else
        buffer_printf(out, "      --%s", row->name);
    if (row->value != NULL)
        buffer_printf(out, " %s", row->value);
    const int taken = (int)(out->length - start);
    const int blanks = HELP_COLUMN - taken;
    buffer_printf(out, "%*s", blanks < 2 ? 2 : blanks, "");
    for (const char *c = row->help; *c != '\0'; c++) {
        buffer_char(out, *c);
        if (*c == '\n')
            buffer_printf(out, "%*s", HELP_COLUMN, "");
    }
    buffer_char(out, '\n');
}

/* Those that one of the commands takes. */
static void put_options(struct buffer *out, unsigned commands)
{
    size_t count;
    const struct option_row *rows = option_rows(&count);
    for (size_t i = 0; i < count; i++)
        if ((rows[i].commands & commands) != 0)
            put_option(out, &rows[i]);
}

static const char *program_help(struct arena *arena)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out,
                "Usage: seamwright COMMAND [OPTION]... FILE...\n"
                "A pattern source becomes a booklet that can be sewn from.\n"
                "\n");
    for (int id = 0; id < COMMAND_COUNT; id++) {
        const struct command_row *row = command_row((enum command_id)id);
        const int taken = (int)(strlen(row->name) + strlen(row->words));
        buffer_printf(&out, "  seamwright %s %s%*s%s\n", row->name, row->words,
                      taken > 13 ? 2 : 15 - taken, "", row->summary);
    }
    buffer_char(&out, '\n');
    put_options(&out, ~0U);
    buffer_text(&out, "\n"
                      "FILE may be - for standard input.\n"
                      "Exit status: 0 clean, 1 mistakes in the source, 2 wrong "
                      "usage, 3 out of\n"
                      "memory or a stated limit, 4 input or output failed, 5 "
                      "internal error;\n"
                      "of compare also 6: something changed.\n");
    return buffer_string(&out);
}

const char *help_text(struct arena *arena, enum command_id command)
{
    if (command == COMMAND_COUNT)
        return program_help(arena);
    const struct command_row *row = command_row(command);
    struct buffer out = buffer_in(arena);
    buffer_printf(&out, "Usage: seamwright %s [OPTION]... %s\n", row->name,
                  row->words);
    buffer_printf(&out, "%s: %s.\n\n", row->name, row->summary);
    put_options(&out, 1U << command);
    buffer_text(&out,
                "\n'seamwright explain commands' tells them at length.\n");
    return buffer_string(&out);
}
