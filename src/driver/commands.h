/* What the program can be asked for: the one table of commands and the one of
 * options. Reading the command line, the help and the messages of wrong usage
 * come from them; tests/manual/run_usage.sh holds the manual to them. */
#ifndef SEAMWRIGHT_COMMANDS_H
#define SEAMWRIGHT_COMMANDS_H

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"

enum command_id {
    COMMAND_CHECK,
    COMMAND_BUILD,
    COMMAND_FIGURE,
    COMMAND_LIST,
    COMMAND_PLAN,
    COMMAND_KIT,
    COMMAND_PROOF,
    COMMAND_COMPARE,
    COMMAND_EXPLAIN,
    COMMAND_HELP,
    COMMAND_COUNT
};

struct command_row {
    const char *name;
    const char *words;    /* behind it: "FILE [NAME]" */
    const char *summary;  /* one line */
    int least, most;      /* how many words may stand behind it */
    const char *too_few;  /* said where words are missing */
    const char *too_many; /* said where there are too many */
};

/* Beyond every character, so that none is taken for a short option. */
enum option_id {
    OPTION_OUTPUT = 256,
    OPTION_QUILT,
    OPTION_COLORWAY,
    OPTION_PAPER,
    OPTION_FOLDING,
    OPTION_GREY,
    OPTION_PREVIEW,
    OPTION_RESOLUTION,
    OPTION_LANGUAGE,
    OPTION_JSON,
    OPTION_CUTTING,
    OPTION_QUILTING,
    OPTION_LEAST,
    OPTION_GATHER,
    OPTION_TESTERS,
    OPTION_TESTER,
    OPTION_TOLERANCE,
    OPTION_STRIPS,
    OPTION_TRIMMED,
    OPTION_KEEP_GRAIN,
    OPTION_THOROUGH,
    OPTION_KITS,
    OPTION_STYLE,
    OPTION_DIAGNOSTICS,
    OPTION_COLOR,
    OPTION_HELP,
    OPTION_VERSION
};

/* An option that means one thing to a command and another to the next has a row
 * for each. */
struct option_row {
    enum option_id id;
    char letter;                /* of the short form, or NUL */
    const char *name;           /* without dashes */
    const char *value;          /* what stands behind it, or NULL */
    const char *const *choices; /* all its values, ended by NULL; or NULL */
    unsigned commands;          /* a bit, 1 << enum command_id, for each */
    const char *help;           /* of one or more lines, parted by line feeds */
};

/* ensures: the row of the command. */
const struct command_row *command_row(enum command_id id);

/* ensures: the command that is called so, or COMMAND_COUNT. */
enum command_id find_command(const char *name);

/* ensures: the rows of all options, in the order of the help. */
const struct option_row *option_rows(size_t *count);

/* ensures: the first row of the option. */
const struct option_row *option_row(enum option_id id);

/* ensures: the commands that take the option, in any of its rows, as bits. */
unsigned option_commands(enum option_id id);

/* ensures: the values that the option may have, ended by NULL; NULL where it
 * has any, or none. */
const char *const *option_choices(const struct option_row *row);

/* ensures: the help of the command, or of the program for COMMAND_COUNT. */
const char *help_text(struct arena *arena, enum command_id command);

#endif
