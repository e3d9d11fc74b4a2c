/* The tables. To add an option: its id, a row here, a case in options.c, and
 * its item in templates/manual/commands.md. Read next: options.c. */
#include "commands.h"

#include <string.h>

#include "phrase.h"

static const struct command_row commands[COMMAND_COUNT] = {
    [COMMAND_CHECK] = {.name = "check",
                       .words = "FILE...",
                       .summary = "find every mistake, write nothing",
                       .least = 1,
                       .most = 1 << 30,
                       .too_few = "no file is named"},
    [COMMAND_BUILD] = {.name = "build",
                       .words = "FILE",
                       .summary = "write booklets, tables and data",
                       .least = 1,
                       .most = 1,
                       .too_few = "no file is named",
                       .too_many = "one file at a time for build"},
    [COMMAND_FIGURE] = {.name = "figure",
                        .words = "FILE [NAME]",
                        .summary = "one figure by itself, as SVG or PNG",
                        .least = 1,
                        .most = 2,
                        .too_few = "no file is named",
                        .too_many = "figure takes a file and one name"},
    [COMMAND_LIST] = {.name = "list",
                      .words = "FILE",
                      .summary = "print the solved pattern as tables",
                      .least = 1,
                      .most = 1,
                      .too_few = "no file is named",
                      .too_many = "one file at a time for list"},
    [COMMAND_PLAN] = {.name = "plan",
                      .words = "LIST",
                      .summary = "plan the strips for a list of pieces",
                      .least = 1,
                      .most = 1,
                      .too_few = "no file is named",
                      .too_many = "one file at a time for plan"},
    [COMMAND_KIT] = {.name = "kit",
                     .words = "ORDER",
                     .summary = "plan kits: what is bought, cut and packed",
                     .least = 1,
                     .most = 1,
                     .too_few = "no file is named",
                     .too_many = "one file at a time for kit"},
    [COMMAND_PROOF] = {.name = "proof",
                       .words = "FILE...",
                       .summary = "write a packet for a tester: claims to tick",
                       .least = 1,
                       .most = 1 << 30,
                       .too_few = "no file is named"},
    [COMMAND_COMPARE] = {.name = "compare",
                         .words = "OLD NEW",
                         .summary = "what changed for those who have the old",
                         .least = 2,
                         .most = 2,
                         .too_few = "compare takes two files: old and new",
                         .too_many = "compare takes two files: old and new"},
    [COMMAND_EXPLAIN] = {.name = "explain",
                         .words = "[NAME]",
                         .summary = "the manual: messages, subjects, elements",
                         .most = 1,
                         .too_many = "explain takes one name"},
    [COMMAND_HELP] = {.name = "help",
                      .words = "[COMMAND]",
                      .summary = "this text, or the options of a command",
                      .most = 1,
                      .too_many = "help takes one command"},
};

/* Commands as bits of a row. */
enum {
    CHECK = 1 << COMMAND_CHECK,
    BUILD = 1 << COMMAND_BUILD,
    FIGURE = 1 << COMMAND_FIGURE,
    LISTING = 1 << COMMAND_LIST,
    PLAN = 1 << COMMAND_PLAN,
    KIT = 1 << COMMAND_KIT,
    PROOF = 1 << COMMAND_PROOF,
    COMPARE = 1 << COMMAND_COMPARE,
    /* that read a pattern */
    SOURCES = CHECK | BUILD | FIGURE | LISTING | KIT | PROOF | COMPARE,
    ALL = (1 << COMMAND_COUNT) - 1
};

static const char *const papers[] = {"letter", "a4", NULL};
static const char *const styles[] = {"yardage", "fat-quarters", "strips", "cut",
                                     NULL};
static const char *const forms[] = {"text", "json", NULL};
static const char *const colors[] = {"auto", "always", "never", NULL};

/* getopt_long takes a name cut short where only one begins so; a new name can
 * make a short form of an old one ambiguous. */
static const struct option_row options[] = {
    {OPTION_OUTPUT, 'o', "output", "FOLDER", NULL, BUILD,
     "where build writes (default: the name of FILE\nwithout its ending)"},
    {OPTION_OUTPUT, 'o', "output", "OUT.svg|OUT.png", NULL, FIGURE,
     "where figure writes (default: SVG on\nstandard output)"},
    {OPTION_OUTPUT, 'o', "output", "FOLDER", NULL, KIT,
     "where kit writes (default: the name of ORDER\nwithout its ending)"},
    {OPTION_OUTPUT, 'o', "output", "FOLDER", NULL, PROOF,
     "where proof writes (default: NAME-proof, NAME\nbeing FILE without its "
     "ending)"},
    {OPTION_OUTPUT, 'o', "output", "OUT.pdf", NULL, COMPARE,
     "where compare writes the errata sheet (default:\nnone is written)"},
    {OPTION_QUILT, 0, "quilt", "ID", NULL, BUILD | FIGURE | LISTING | PROOF,
     "only this quilt"},
    {OPTION_COLORWAY, 0, "colorway", "ID", NULL,
     BUILD | FIGURE | LISTING | PROOF,
     "only this colorway"},
    {OPTION_QUILT, 0, "quilt", "ID", NULL, KIT,
     "where ORDER is a pattern: the quilt of the kits"},
    {OPTION_COLORWAY, 0, "colorway", "ID", NULL, KIT, "their colorway"},
    {OPTION_KITS, 0, "kits", "NUMBER", NULL, KIT, "how many, 1 to 10000"},
    {OPTION_STYLE, 0, "style", "yardage|fat-quarters|strips|cut", styles, KIT,
     "how cloth goes into them\n(default: yardage)"},
    {OPTION_PAPER, 0, "paper", "letter|a4", papers,
     BUILD | FIGURE | PROOF | COMPARE,
     "page size (default: letter; a4 for a pattern in\ncentimetres)"},
    {OPTION_PAPER, 0, "paper", "letter|a4", papers, KIT,
     "of the papers (default: the order's)"},
    {OPTION_FOLDING, 0, "folding", NULL, NULL, BUILD,
     "build sheets for folding, too: two pages a side"},
    {OPTION_GREY, 0, "grey", NULL, NULL, BUILD,
     "hatch finished cloth, for print without color"},
    {OPTION_PREVIEW, 0, "preview", NULL, NULL, BUILD,
     "build a preview, too: cover, page 2, first step"},
    {OPTION_RESOLUTION, 0, "resolution", "DPI", NULL, FIGURE,
     "dots to the inch of a PNG, 36 to 600 (default: 150)"},
    {OPTION_LANGUAGE, 0, "language", "en|de", NULL,
     BUILD | FIGURE | PROOF | COMPARE,
     "of what is written (default: the pattern's)"},
    {OPTION_LANGUAGE, 0, "language", "en|de", NULL, KIT,
     "of the papers (default: the order's)"},
    {OPTION_JSON, 0, "json", NULL, NULL, LISTING,
     "list as JSON, as pattern.json holds it"},
    {OPTION_JSON, 0, "json", NULL, NULL, COMPARE,
     "what changed as JSON"},
    {OPTION_JSON, 0, "json", NULL, NULL, PROOF,
     "with --gather: what testers found as JSON"},
    {OPTION_CUTTING, 0, "cutting", NULL, NULL, LISTING,
     "list how each cloth is cut, and how near the\nnext smaller amount is"},
    {OPTION_QUILTING, 0, "quilting", NULL, NULL, LISTING,
     "list how each quilt is quilted: lines, areas,\npaths, thread"},
    {OPTION_LEAST, 0, "least", NULL, NULL, LISTING,
     "list the least to sew that has all that a tester\nmust get right"},
    {OPTION_GATHER, 0, "gather", NULL, NULL, PROOF,
     "sum up what testers found: each FILE is a\nclaims.csv that one of them "
     "filled in"},
    {OPTION_TESTERS, 0, "testers", "NUMBER", NULL, PROOF,
     "share the claims among so many, 1 to 99: each\ngoes to two"},
    {OPTION_TESTER, 0, "tester", "NUMBER", NULL, PROOF,
     "for whom of them the packet is, from 1"},
    {OPTION_TOLERANCE, 0, "tolerance", NULL, NULL, LISTING,
     "list how much error the sewing forgives: sizes\nto expect, and chances for "
     "each seam"},
    {OPTION_STRIPS, 0, "strips", "LENGTH", NULL, LISTING,
     "the same for your seam: what your three test\nstrips measure"},
    {OPTION_TRIMMED, 0, "trimmed", NULL, NULL, PLAN,
     "plan pieces lower than their strip, too"},
    {OPTION_KEEP_GRAIN, 0, "keep-grain", NULL, NULL, PLAN,
     "plan without turning pieces"},
    {OPTION_THOROUGH, 0, "thorough", NULL, NULL, PLAN,
     "plan longer: a second or two, whatever the list"},
    {OPTION_DIAGNOSTICS, 0, "diagnostics", "text|json", forms, SOURCES,
     "how mistakes are told"},
    {OPTION_COLOR, 0, "color", "auto|always|never", colors, SOURCES,
     "color in messages"},
    {OPTION_HELP, 'h', "help", NULL, NULL, ALL, "this text"},
    {OPTION_VERSION, 0, "version", NULL, NULL, ALL, "the version"},
};

const struct command_row *command_row(enum command_id id)
{
    return &commands[id];
}

enum command_id find_command(const char *name)
{
    int id = 0;
    while (id < COMMAND_COUNT && strcmp(commands[id].name, name) != 0)
        id++;
    return (enum command_id)id;
}

const struct option_row *option_rows(size_t *count)
{
    *count = sizeof options / sizeof options[0];
    return options;
}

const struct option_row *option_row(enum option_id id)
{
    const struct option_row *row = options;
    while (row->id != id)
        row++;
    return row;
}

unsigned option_commands(enum option_id id)
{
    unsigned all = 0;
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++)
        if (options[i].id == id)
            all |= options[i].commands;
    return all;
}

/* Which languages there are is told by who has their words. */
const char *const *option_choices(const struct option_row *row)
{
    return row->id == OPTION_LANGUAGE ? phrase_languages() : row->choices;
}
