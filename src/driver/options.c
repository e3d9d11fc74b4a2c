/* The command line. getopt_long reads the words; here they become `struct
 * options`. To add an option: a code, a line in the table, a case (or a row in
 * take_flag), and a line of help. */
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "driver.h"
#include "phrase.h"

/* In one piece and as it is printed, so that it can be read here. */
static const char help_text[] =
    "Usage: seamwright COMMAND [OPTION]... FILE...\n"
    "A pattern source becomes a booklet that can be sewn from.\n"
    "\n"
    "  seamwright check FILE...   find every mistake, write nothing\n"
    "  seamwright build FILE      write booklets, tables and data\n"
    "  seamwright figure FILE [NAME]  one figure by itself, as SVG or PNG\n"
    "  seamwright list FILE       print the solved pattern as tables\n"
    "  seamwright plan LIST       plan the strips for a list of pieces\n"
    "  seamwright explain [NAME]  the manual: messages, subjects, elements\n"
    "\n"
    "  -o, --output FOLDER        where build writes (default: the name of "
    "FILE\n"
    "                             without its ending)\n"
    "  -o, --output OUT.svg|OUT.png  where figure writes (default: SVG on\n"
    "                             standard output)\n"
    "      --quilt ID             only this quilt\n"
    "      --colorway ID          only this colorway\n"
    "      --paper letter|a4      page size (default: letter; a4 for a pattern "
    "in\n"
    "                             centimetres)\n"
    "      --folding              build sheets for folding, too: two pages a "
    "side\n"
    "      --resolution DPI       dots to the inch of a PNG, 36 to 600 "
    "(default: 150)\n"
    "      --language en|de       of the booklets (default: the pattern's)\n"
    "      --json                 list as JSON, as pattern.json holds it\n"
    "      --cutting              list how each cloth is cut, and how near "
    "the\n"
    "                             next smaller amount is\n"
    "      --trimmed              plan pieces lower than their strip, too\n"
    "      --keep-grain           plan without turning pieces\n"
    "      --thorough             plan longer: a second or two, whatever the "
    "list\n"
    "      --diagnostics text|json  how mistakes are told\n"
    "      --color auto|always|never\n"
    "  -h, --help                 this text\n"
    "      --version              the version\n"
    "\n"
    "FILE may be - for standard input.\n"
    "Exit status: 0 clean, 1 mistakes in the source, 2 wrong usage, 3 out of\n"
    "memory or a stated limit, 4 input or output failed, 5 internal error.\n";

/* Beyond every character, so that none is taken for a short option. */
enum option_code {
    OPTION_QUILT = 256,
    OPTION_COLORWAY,
    OPTION_PAPER,
    OPTION_FOLDING,
    OPTION_RESOLUTION,
    OPTION_LANGUAGE,
    OPTION_JSON,
    OPTION_CUTTING,
    OPTION_TRIMMED,
    OPTION_KEEP_GRAIN,
    OPTION_THOROUGH,
    OPTION_DIAGNOSTICS,
    OPTION_COLOR,
    OPTION_VERSION
};

/* getopt_long takes a name cut short where only one begins so; a new name can
 * make a short form of an old one ambiguous. */
static const struct option long_options[] = {
    {"output", required_argument, NULL, 'o'},
    {"quilt", required_argument, NULL, OPTION_QUILT},
    {"colorway", required_argument, NULL, OPTION_COLORWAY},
    {"paper", required_argument, NULL, OPTION_PAPER},
    {"folding", no_argument, NULL, OPTION_FOLDING},
    {"resolution", required_argument, NULL, OPTION_RESOLUTION},
    {"language", required_argument, NULL, OPTION_LANGUAGE},
    {"json", no_argument, NULL, OPTION_JSON},
    {"cutting", no_argument, NULL, OPTION_CUTTING},
    {"trimmed", no_argument, NULL, OPTION_TRIMMED},
    {"keep-grain", no_argument, NULL, OPTION_KEEP_GRAIN},
    {"thorough", no_argument, NULL, OPTION_THOROUGH},
    {"diagnostics", required_argument, NULL, OPTION_DIAGNOSTICS},
    {"color", required_argument, NULL, OPTION_COLOR},
    {"version", no_argument, NULL, OPTION_VERSION},
    {"help", no_argument, NULL, 'h'},
    {NULL, 0, NULL, 0},
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

/* ensures: the status to leave with; one line says why, another where help is.
 */
static int usage(const char *problem, const char *word)
{
    complain("seamwright: %s%s%s\nTry 'seamwright --help'.\n", problem,
             word == NULL ? "" : ": ", word == NULL ? "" : word);
    return STATUS_USAGE;
}

/* The index of `word` in a list that ends with NULL, or -1. */
static int choice(const char *word, const char *const *list)
{
    for (int i = 0; list[i] != NULL; i++)
        if (strcmp(word, list[i]) == 0)
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

/* Options that are there or not. ensures: false where the code is none of them.
 */
static bool take_flag(int code, struct options *options)
{
    struct {
        int code;
        bool *flag;
    } flags[] = {
        {OPTION_CUTTING, &options->cutting},
        {OPTION_TRIMMED, &options->trimmed},
        {OPTION_KEEP_GRAIN, &options->keep_grain},
        {OPTION_THOROUGH, &options->thorough},
        {OPTION_FOLDING, &options->folding},
        {OPTION_JSON, &options->json},
    };
    for (size_t i = 0; i < sizeof flags / sizeof flags[0]; i++)
        if (flags[i].code == code)
            return *flags[i].flag = true;
    return false;
}

/* A language that there are no words for must not make half a booklet. */
static int take_language(struct options *options)
{
    options->language = optarg;
    return choice(optarg, phrase_languages()) < 0
               ? usage("--language is en or de, not", optarg)
               : -1;
}

/* ensures: -1 to go on, else the status to leave with.
 * A wrong choice may be stored: the run ends before anybody looks. */
static int take_option(int code, struct options *options)
{
    static const char *const papers[] = {"letter", "a4", NULL};
    static const char *const forms[] = {"text", "json", NULL};
    static const char *const colors[] = {"auto", "always", "never", NULL};
    int index;
    if (take_flag(code, options))
        return -1;
    switch (code) {
    case 'o':
        options->folder = optarg;
        return -1;
    case OPTION_QUILT:
        options->quilt = optarg;
        return -1;
    case OPTION_COLORWAY:
        options->colorway = optarg;
        return -1;
    case OPTION_PAPER:
        index = choice(optarg, papers);
        options->paper = index == 1 ? PAPER_A4 : PAPER_LETTER;
        options->paper_chosen = true;
        return index < 0 ? usage("--paper is letter or a4, not", optarg) : -1;
    case OPTION_RESOLUTION:
        options->resolution = resolution(optarg);
        return options->resolution < 0
                   ? usage("--resolution is from 36 to 600, not", optarg)
                   : -1;
    case OPTION_LANGUAGE:
        return take_language(options);
    case OPTION_DIAGNOSTICS:
        index = choice(optarg, forms);
        options->diagnostics_json = index == 1;
        return index < 0 ? usage("--diagnostics is text or json, not", optarg)
                         : -1;
    case OPTION_COLOR:
        index = choice(optarg, colors);
        options->color = index == 0 ? terminal_color() : index == 1;
        return index < 0
                   ? usage("--color is auto, always or never, not", optarg)
                   : -1;
    case OPTION_VERSION:
        return write_text("seamwright " SEAMWRIGHT_VERSION "\n");
    case 'h':
        return write_text(help_text);
    default:
        fputs("Try 'seamwright --help'.\n", stderr);
        return STATUS_USAGE; /* getopt has said what is wrong */
    }
}

/* Options may stand anywhere; the first other word is the command. Only the
 * words are looked at. Whether a file can be read, or a quilt is called so, is
 * told by who needs it. */
int read_options(int count, char **words, struct options *options)
{
    *options = (struct options){.color = terminal_color()};
    int code;
    while ((code = getopt_long(count, words, "o:h", long_options, NULL)) !=
           -1) {
        const int status = take_option(code, options);
        if (status >= 0)
            return status;
    }
    /* getopt has moved all options before the other words. */
    if (optind >= count)
        return usage("no command", NULL);
    options->command = words[optind];
    options->files = (const char *const *)words + optind + 1;
    options->file_count = count - optind - 1;
    static const char *const commands[] = {"check", "build",   "figure", "list",
                                           "plan",  "explain", NULL};
    if (choice(options->command, commands) < 0)
        return usage("no command is called", options->command);
    /* The one command that works without a file. */
    if (strcmp(options->command, "explain") == 0)
        return options->file_count > 1 ? usage("explain takes one name", NULL)
                                       : -1;
    if (options->file_count == 0)
        return usage("no file is named", NULL);
    /* A file, and perhaps the name of a figure. */
    if (strcmp(options->command, "figure") == 0)
        return options->file_count > 2
                   ? usage("figure takes a file and one name", NULL)
                   : -1;
    if (options->file_count > 1 && strcmp(options->command, "check") != 0)
        return usage("one file at a time for", options->command);
    return -1;
}
