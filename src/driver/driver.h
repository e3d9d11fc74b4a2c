/* Inside the driver. The only folder that reads the command line, prints and
 * decides the exit status. */
#ifndef SEAMWRIGHT_DRIVER_H
#define SEAMWRIGHT_DRIVER_H

#include "buffer.h"
#include <stdbool.h>

#include "cutplan.h"
#include "files.h"
#include "quilting.h"

#define SEAMWRIGHT_VERSION "0.1.0"

/* As the help text and the manual tell them; scripts rely on the numbers. */
enum exit_status {
    STATUS_CLEAN = 0,
    STATUS_MISTAKES = 1,
    STATUS_USAGE = 2,
    STATUS_LIMIT = 3,
    STATUS_FILES = 4,
    STATUS_INTERNAL = 5,
    STATUS_CHANGED = 6 /* of compare alone */
};

enum paper { PAPER_LETTER, PAPER_A4 };

struct options {
    const char *command;      /* "check", "build", ... */
    const char *const *files; /* a name for explain; a name behind the
                                 file for figure */
    int file_count;           /* how many; 0 only for explain */
    const char *folder;       /* -o, or NULL; a file for figure */
    const char *quilt;        /* --quilt, or NULL for all */
    const char *colorway;     /* --colorway, or NULL for all */
    const char *language;     /* --language, or NULL for the pattern's */
    enum paper paper;
    bool paper_chosen;
    bool folding;          /* build --folding */
    bool grey;             /* build --grey */
    bool preview;          /* build --preview */
    int resolution;        /* figure --resolution, or 0 */
    bool trimmed;          /* plan --trimmed */
    bool keep_grain;       /* plan --keep-grain */
    bool thorough;         /* plan --thorough */
    long kits;             /* kit --kits, or 0 */
    int style;             /* kit --style, as kit_style; -1: not chosen */
    bool json;             /* list --json */
    bool cutting;          /* list --cutting */
    bool quilting;         /* list --quilting */
    bool least;            /* list --least */
    long testers, tester;  /* proof --testers, --tester, or 0 */
    bool gather;           /* proof --gather */
    bool tolerance;        /* list --tolerance */
    const char *strips;    /* list --strips: a length; or NULL */
    bool diagnostics_json; /* --diagnostics=json */
    bool color;            /* of messages */
};

/* Reads the command line. ensures: -1 and the options filled, or the status
 * to leave with (help and version were printed, or a usage message). */
int read_options(int count, char **words, struct options *options);

/* What the passes made of one file. */
struct compiled {
    struct run *run;               /* holds source and diagnostics */
    const struct pattern *pattern; /* NULL where the file could not be read */
    const struct design *design;
    const struct sized *sized;
    const struct quilted *quilted; /* NULL where there were errors before; as
                                      far as is known where there are some of
                                      quilting */
    const struct sewn *sewn;       /* NULL where there were errors */
    const struct cutplans *plans;  /* NULL where there were errors */
    size_t trials;                 /* of changes, in the search for a mistake */
    int status;                    /* STATUS_CLEAN, or why there is nothing */
};

/* ensures: a run over the file; or false, a status and a message. */
bool read_source(struct arena *arena, const char *path,
                 struct compiled *compiled);

/* The same for a source that is in memory already. */
struct compiled compile_source(struct arena *arena,
                               const struct source *source);

/* The passes in their order, with a gate on errors after solving. Prints
 * nothing but a message on a file that cannot be read. */
struct compiled compile_file(struct arena *arena, const char *path);

/* The same diagnostics, with no more work than they take; `sewn` and `plans`
 * stay NULL. */
struct compiled check_source(struct arena *arena, const struct source *source);
struct compiled check_file(struct arena *arena, const char *path);

/* A closing line of so many: nothing where there are none. `after` is put behind
 * it. */
void print_closing(const char *name, size_t mistakes, size_t warnings,
                   const char *after);

/* Prints the diagnostics and the closing line on standard error.
 * ensures: the status that they ask for. */
int finish_diagnostics(const struct compiled *compiled,
                       const struct options *options, bool keeps_output);

int command_check(struct arena *arena, const struct options *options);
int command_build(struct arena *arena, const struct options *options);
int command_figure(struct arena *arena, const struct options *options);
int command_list(struct arena *arena, const struct options *options);
int command_plan(struct arena *arena, const struct options *options);
int command_kit(struct arena *arena, const struct options *options);
int command_proof(struct arena *arena, const struct options *options);
/* proof --gather: sums up tables of claims, writes nothing. */
int command_gather(struct arena *arena, const struct options *options);
int command_compare(struct arena *arena, const struct options *options);
int command_explain(struct arena *arena, const struct options *options);

/* Writes to standard output: bytes of a file as they are, or text, in which
 * what a terminal would act on is told as U+XXXX. ensures: STATUS_CLEAN or
 * STATUS_FILES, and then a message. */
int write_bytes(const char *bytes, size_t length);
/* As `write_text` prints it, for who must have it before it is printed. */
struct buffer shown_text(struct arena *arena, const char *text);
int write_text(const char *text);

/* Tells standard error, escaped in the same way; lines end with their own line
 * feeds. */
void complain(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* Writes all files or none into `folder` (files.h), then tells standard output
 * the folder, the names and the lines of `sums`. ensures: STATUS_CLEAN or
 * STATUS_FILES, and then a message. */
int write_folder(struct arena *arena, const char *folder,
                 const struct output_file *files, size_t count,
                 const char *sums);

/* Called first: a file that is opened must not take the number of a standard
 * stream that was closed, or messages would be written into it. */
void hold_streams(void);

#endif
