/* The command line. getopt_long reads the words; here they become `struct
 * options`, by the tables of commands.c. A mistake is told with what may have
 * been meant: the nearest name among those that the command has. */
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "buffer.h"
#include "commands.h"
#include "diag.h"
#include "driver.h"

/* One option as it was written. */
struct given {
    const struct option_row *row;
    const char *value; /* or NULL */
};

/* The command line on its way. The arena goes when it is read; what `struct
 * options` keeps lies in the words themselves or in the tables. */
struct line {
    struct arena *arena;
    char **words;
    LIST(struct given) given;
    const char *unreadable;    /* the first word that is no option, or NULL */
    enum command_id command;   /* COMMAND_COUNT where none is known */
    const char *command_word;  /* NULL where none was written */
    const char *const *behind; /* the words behind the command */
    int behind_count;
};

/* NO_COLOR wins over everything but --color (no-color.org). */
static bool terminal_color(void)
{
    const char *none = getenv("NO_COLOR");
    const char *terminal = getenv("TERM");
    if ((none != NULL && none[0] != '\0') ||
        (terminal != NULL && strcmp(terminal, "dumb") == 0))
        return false;
    return isatty(STDERR_FILENO) == 1;
}

/* ensures: the status to leave with; one line says why, one what may have been
 * meant (or `help` is NULL), and one where more is told. */
static int usage(const struct line *line, const char *problem, const char *help)
{
    complain("seamwright: %s\n", problem);
    if (help != NULL)
        complain("help: %s\n", help);
    if (line->command == COMMAND_COUNT)
        complain("Try 'seamwright --help'.\n");
    else
        complain("Try 'seamwright %s --help'.\n",
                 command_row(line->command)->name);
    return STATUS_USAGE;
}

/* ensures: "did you mean ...?", or NULL. */
static const char *meant(const struct line *line, const char *word,
                         const char *const *names, size_t count)
{
    const char *near = near_names(line->arena, word, names, count);
    return near == NULL ? NULL
                        : arena_printf(line->arena, "did you mean %s?", near);
}

/* The names of a list that ends with NULL. */
static size_t count_names(const char *const *names)
{
    size_t count = 0;
    while (names[count] != NULL)
        count++;
    return count;
}

/* "--json", as it is written. */
static const char *dashed(const struct line *line, const struct option_row *row)
{
    return arena_printf(line->arena, "--%s", row->name);
}

/* ---- mistakes ---- */

static int unknown_command(const struct line *line, const char *word)
{
    const char *names[COMMAND_COUNT];
    for (int id = 0; id < COMMAND_COUNT; id++)
        names[id] = command_row((enum command_id)id)->name;
    return usage(line,
                 arena_printf(line->arena, "no command is called %s",
                              quoted(line->arena, word)),
                 meant(line, word, names, COMMAND_COUNT));
}

/* "list", "build and figure", "build, figure and list". */
static const char *commands_told(const struct line *line, unsigned commands)
{
    struct buffer out = buffer_in(line->arena);
    for (int id = 0; id < COMMAND_COUNT; id++) {
        if ((commands >> id & 1) == 0)
            continue;
        const bool last = commands >> id == 1;
        if (out.length > 0)
            buffer_text(&out, last ? " and " : ", ");
        buffer_text(&out, command_row((enum command_id)id)->name);
    }
    return buffer_string(&out);
}

/* ensures: the names of options that the commands have, dashes before them. */
static const char **option_names(const struct line *line, unsigned commands,
                                 size_t *found)
{
    size_t count;
    const struct option_row *rows = option_rows(&count);
    const char **names = ARENA_ARRAY(line->arena, const char *, count);
    *found = 0;
    for (size_t i = 0; i < count; i++)
        if ((rows[i].commands & commands) != 0)
            names[(*found)++] = dashed(line, &rows[i]);
    return names;
}

/* A name cut short that begins several, or that is nearly one of those that the
 * command has; else nearly one of another command. */
static const char *meant_option(const struct line *line, const char *word)
{
    const unsigned own =
        line->command == COMMAND_COUNT ? ~0U : 1U << line->command;
    size_t count, begun = 0;
    const char **names = option_names(line, own, &count);
    struct buffer begins = buffer_in(line->arena);
    for (size_t i = 0; i < count; i++)
        if (strlen(word) > 2 && strncmp(names[i], word, strlen(word)) == 0)
            buffer_printf(&begins, "%s%s", begun++ == 0 ? "" : " or ",
                          quoted(line->arena, names[i]));
    if (begun > 0)
        return arena_printf(line->arena, "did you mean %s?",
                            buffer_string(&begins));
    const char *help = meant(line, word, names, count);
    if (help != NULL)
        return help;
    names = option_names(line, ~0U, &count);
    const char *near = nearest_name(word, names, count);
    for (size_t i = 0; near != NULL && i < count; i++)
        if (names[i] == near)
            return arena_printf(
                line->arena, "did you mean %s of %s?",
                quoted(line->arena, near),
                commands_told(line,
                              option_commands(option_rows(&count)[i].id)));
    return NULL;
}

static int unknown_option(const struct line *line)
{
    const char *word = line->unreadable;
    const char *name = arena_copy(line->arena, word, strcspn(word, "="));
    return usage(line,
                 arena_printf(line->arena, "no option is called %s",
                              quoted(line->arena, name)),
                 meant_option(line, name));
}

/* An option that other commands have. */
static int foreign_option(const struct line *line, const struct option_row *row)
{
    const unsigned commands = option_commands(row->id);
    const char *command = command_row(line->command)->name;
    const char *told =
        row->letter == 0
            ? arena_printf(line->arena, "%s takes no --%s", command, row->name)
            : arena_printf(line->arena, "%s takes no --%s (-%c)", command,
                           row->name, row->letter);
    return usage(
        line, told,
        arena_printf(line->arena, "%s %s it", commands_told(line, commands),
                     (commands & (commands - 1)) == 0 ? "takes" : "take"));
}

/* "--paper is letter or a4, not `a5`" */
static int wrong_choice(const struct line *line, const struct given *given,
                        const char *const *choices)
{
    const size_t count = count_names(choices);
    struct buffer out = buffer_in(line->arena);
    buffer_printf(&out, "--%s is ", given->row->name);
    for (size_t i = 0; i < count; i++)
        buffer_printf(&out, "%s%s",
                      i == 0           ? ""
                      : i + 1 == count ? " or "
                                       : ", ",
                      choices[i]);
    buffer_printf(&out, ", not %s", quoted(line->arena, given->value));
    return usage(line, buffer_string(&out),
                 meant(line, given->value, choices, count));
}

/* ---- values ---- */

/* Letters of A to Z alone: no locale decides what is a choice. */
static bool same_letters(const char *a, const char *b)
{
    for (; *a != '\0' && *b != '\0'; a++, b++) {
        const int small = *a >= 'A' && *a <= 'Z' ? *a - 'A' + 'a' : *a;
        if (small != *b)
            return false;
    }
    return *a == *b;
}

/* The index of `word` in a list of small letters that ends with NULL, or -1.
 * Capitals are understood. */
static int choice(const char *word, const char *const *list)
{
    for (int i = 0; list[i] != NULL; i++)
        if (same_letters(word, list[i]))
            return i;
    return -1;
}

/* Coarser than 36 dots to the inch no label can be read; finer than 600 a page
 * takes hundreds of megabytes. ensures: the number, or -1. Digit by digit: atoi
 * would take 12x for 12. The bound is asked in the loop, so that no row of
 * digits overflows. */
static int resolution(const char *word)
{
    int value = 0;
    for (const char *c = word; *c != '\0'; c++) {
        if (*c < '0' || *c > '9' || value > 600)
            return -1;
        value = value * 10 + (*c - '0');
    }
    return value < 36 || value > 600 ? -1 : value;
}

/* ensures: a number from 1 to `most`, or -1. */
static long number_to(const char *word, long most)
{
    long value = 0;
    for (const char *c = word; *c != '\0'; c++) {
        if (*c < '0' || *c > '9' || value > most)
            return -1;
        value = value * 10 + (*c - '0');
    }
    return value < 1 || value > most ? -1 : value;
}

/* Options that are there or not. ensures: false where the option is none of
 * them. */
static bool take_flag(enum option_id id, struct options *options)
{
    struct {
        enum option_id id;
        bool *flag;
    } flags[] = {
        {OPTION_CUTTING, &options->cutting},
        {OPTION_QUILTING, &options->quilting},
        {OPTION_LEAST, &options->least},
        {OPTION_TOLERANCE, &options->tolerance},
        {OPTION_GATHER, &options->gather},
        {OPTION_TRIMMED, &options->trimmed},
        {OPTION_KEEP_GRAIN, &options->keep_grain},
        {OPTION_THOROUGH, &options->thorough},
        {OPTION_FOLDING, &options->folding},
        {OPTION_GREY, &options->grey},
        {OPTION_PREVIEW, &options->preview},
        {OPTION_JSON, &options->json},
    };
    for (size_t i = 0; i < sizeof flags / sizeof flags[0]; i++)
        if (flags[i].id == id)
            return *flags[i].flag = true;
    return false;
}

/* One of the values that the table has, by its index there. */
static void take_choice(enum option_id id, int index, const char *value,
                        struct options *options)
{
    if (id == OPTION_PAPER) {
        options->paper = index == 1 ? PAPER_A4 : PAPER_LETTER;
        options->paper_chosen = true;
    } else if (id == OPTION_LANGUAGE) {
        options->language = value;
    } else if (id == OPTION_DIAGNOSTICS) {
        options->diagnostics_json = index == 1;
    } else if (id == OPTION_STYLE) {
        options->style = index;
    } else if (id == OPTION_COLOR) {
        options->color = index == 0 ? terminal_color() : index == 1;
    }
}

static int wrong_value(const struct line *line, const struct given *given,
                       const char *what)
{
    return usage(line,
                 arena_printf(line->arena, "--%s %s, not %s", given->row->name,
                              what, quoted(line->arena, given->value)),
                 NULL);
}

/* ensures: -1 to go on, else the status to leave with. */
static int take_option(const struct line *line, const struct given *given,
                       struct options *options)
{
    const enum option_id id = given->row->id;
    const char *const *choices = option_choices(given->row);
    if (choices != NULL) {
        const int index = choice(given->value, choices);
        if (index < 0)
            return wrong_choice(line, given, choices);
        take_choice(id, index, choices[index], options);
    } else if (id == OPTION_OUTPUT) {
        options->folder = given->value;
    } else if (id == OPTION_QUILT) {
        options->quilt = given->value;
    } else if (id == OPTION_COLORWAY) {
        options->colorway = given->value;
    } else if (id == OPTION_RESOLUTION) {
        options->resolution = resolution(given->value);
        if (options->resolution < 0)
            return wrong_value(line, given, "is from 36 to 600");
    } else if (id == OPTION_STRIPS) {
        options->strips = given->value;
        options->tolerance = true;
        if (length_parse(given->value, strlen(given->value), UNIT_IN).fault !=
            LENGTH_OK)
            return wrong_value(line, given, "is a length, such as 3 7/16");
    } else if (id == OPTION_KITS) {
        options->kits = number_to(given->value, 10000);
        if (options->kits < 0)
            return wrong_value(line, given, "is from 1 to 10000");
    } else if (id == OPTION_TESTERS || id == OPTION_TESTER) {
        long *number =
            id == OPTION_TESTERS ? &options->testers : &options->tester;
        *number = number_to(given->value, 99);
        if (*number < 0)
            return wrong_value(line, given, "is from 1 to 99");
    } else if (!take_flag(id, options)) {
        internal_error("the option --%s has no case", given->row->name);
    }
    return -1;
}

/* ---- the words ---- */

/* The table as getopt_long wants it. */
static const struct option *long_options(struct arena *arena)
{
    size_t count;
    const struct option_row *rows = option_rows(&count);
    struct option *all = ARENA_ARRAY(arena, struct option, count + 1);
    for (size_t i = 0; i < count; i++)
        all[i] = (struct option){rows[i].name,
                                 rows[i].value == NULL ? no_argument
                                                       : required_argument,
                                 NULL, (int)rows[i].id};
    return all;
}

/* The row for what getopt gave: an id, or the letter of a short form. */
static const struct option_row *row_of(int code)
{
    size_t count;
    const struct option_row *rows = option_rows(&count);
    for (size_t i = 0; i < count; i++)
        if ((int)rows[i].id == code ||
            (rows[i].letter != 0 && rows[i].letter == code))
            return &rows[i];
    return NULL;
}

/* The word that a short option which is none stands in: `-json` is read as four
 * letters, and was meant as one name. */
static const char *word_of_letter(const struct line *line, int letter)
{
    for (char **word = line->words + 1; *word != NULL; word++)
        if ((*word)[0] == '-' && (*word)[1] != '-' &&
            strchr(*word, letter) != NULL)
            return *word;
    return "-";
}

/* getopt keeps silent: what is told names the command's own options, and the
 * command may come last. ensures: -1, or the status of a mistake that can be
 * told without it. */
static int read_words(struct line *line, int count)
{
    const struct option *all = long_options(line->arena);
    int code;
    opterr = 0;
    while ((code = getopt_long(count, line->words, ":o:h", all, NULL)) != -1) {
        const struct option_row *row =
            code == '?' || code == ':' ? row_of(optopt) : row_of(code);
        if (code == ':')
            return usage(line,
                         arena_printf(line->arena,
                                      "--%s needs a value behind it",
                                      row->name),
                         NULL);
        if (code == '?' && optopt > UINT8_MAX)
            return usage(
                line,
                arena_printf(line->arena, "--%s takes no value", row->name),
                NULL);
        if (code != '?')
            *LIST_ADD(line->arena, &line->given) = (struct given){row, optarg};
        else if (line->unreadable == NULL)
            line->unreadable = optopt == 0 ? line->words[optind - 1]
                                           : word_of_letter(line, optopt);
    }
    /* getopt has moved all options before the other words. */
    if (optind < count) {
        line->command_word = line->words[optind];
        line->command = find_command(line->command_word);
        line->behind = (const char *const *)line->words + optind + 1;
        line->behind_count = count - optind - 1;
    }
    return -1;
}

static bool was_given(const struct line *line, enum option_id id)
{
    for (size_t i = 0; i < line->given.count; i++)
        if (line->given.items[i].row->id == id)
            return true;
    return false;
}

static int print_help(const struct line *line, enum command_id command)
{
    const char *text = help_text(line->arena, command);
    return write_text(text);
}

/* --help and --version, before all else. ensures: the status to leave with, or
 * -1 where neither was asked for. */
static int answer(const struct line *line)
{
    const char *version = "seamwright " SEAMWRIGHT_VERSION "\n";
    const bool unknown =
        line->command_word != NULL && line->command == COMMAND_COUNT;
    if (was_given(line, OPTION_HELP) && !unknown)
        return print_help(line, line->command);
    if (was_given(line, OPTION_VERSION))
        return write_text(version);
    return -1;
}

/* The command `help`: of a command, or of the program. */
static int command_help(const struct line *line)
{
    if (line->behind_count == 0)
        return print_help(line, COMMAND_COUNT);
    const enum command_id told = find_command(line->behind[0]);
    return told == COMMAND_COUNT ? unknown_command(line, line->behind[0])
                                 : print_help(line, told);
}

/* ensures: -1 where the words behind the command are as many as it takes. */
static int count_words(const struct line *line)
{
    const struct command_row *row = command_row(line->command);
    if (line->behind_count < row->least)
        return usage(line, row->too_few, NULL);
    if (line->behind_count > row->most)
        return usage(line, row->too_many, NULL);
    return -1;
}

/* ensures: as read_options, of the words as getopt left them. */
static int take_line(const struct line *line, struct options *options)
{
    if (line->unreadable != NULL)
        return unknown_option(line);
    int status = answer(line);
    if (status >= 0)
        return status;
    if (line->command_word == NULL)
        return usage(line, "no command", NULL);
    if (line->command == COMMAND_COUNT)
        return unknown_command(line, line->command_word);
    for (size_t i = 0; i < line->given.count && status < 0; i++) {
        const struct given *given = &line->given.items[i];
        status = (option_commands(given->row->id) >> line->command & 1) == 0
                     ? foreign_option(line, given->row)
                     : take_option(line, given, options);
    }
    options->command = command_row(line->command)->name;
    options->files = line->behind;
    options->file_count = line->behind_count;
    if (status < 0)
        status = count_words(line);
    return status < 0 && line->command == COMMAND_HELP ? command_help(line)
                                                       : status;
}

/* Only the words are looked at. Whether a file can be read, or a quilt is
 * called so, is told by who needs it. Options may stand anywhere; the first
 * other word is the command. */
int read_options(int count, char **words, struct options *options)
{
    *options = (struct options){.color = terminal_color(), .style = -1};
    struct line line = {
        .arena = arena_create(), .words = words, .command = COMMAND_COUNT};
    int status = read_words(&line, count);
    if (status < 0)
        status = take_line(&line, options);
    arena_destroy(line.arena);
    return status;
}
