/* owner: diag
 *
 * Every message the program has about a source goes through here. A stage
 * reports and carries on; nothing is printed until the run is over.
 *
 *     struct diagnostic *d = diag_report(run, DIAG_ROW_SUM, span,
 *                                        "the row is %s wide, ...", ...);
 *     diag_label(run, d, "%s here", ...);
 *     diag_note(run, d, other_span, "the picture is 6 squares wide");
 *     diag_mend(run, d, value_span, "1", "width=\"1\" makes the sum 6");
 */
#ifndef SEAMWRIGHT_DIAG_H
#define SEAMWRIGHT_DIAG_H

#include <stdbool.h>
#include <stdio.h>

#include "diag_catalogue.h"
#include "rational.h"
#include "source.h"

enum diag_level { DIAG_ERROR, DIAG_WARNING, DIAG_REMARK };

#define DIAG_ENUM(code, name, level, summary) code,
enum diag_code { DIAG_CATALOGUE(DIAG_ENUM) DIAG_CODE_COUNT };
#undef DIAG_ENUM

struct diag_entry {
    const char *name; /* stable, in brackets behind a message */
    enum diag_level level;
    const char *summary;
};
const struct diag_entry *diag_entry(enum diag_code code);

struct diag_note_text {
    struct span span; /* empty at 0 where the note has no place */
    const char *text;
};

struct diagnostic {
    enum diag_code code;
    struct span span;
    const char *message;
    const char *label; /* behind the caret, or NULL */
    LIST(struct diag_note_text) notes;
    const char *help;        /* NULL where no mend is likely */
    struct span mend_span;   /* what the mend replaces ... */
    const char *replacement; /* ... with this text; NULL for words only */
    struct rational off[2];  /* by how much two sizes disagree, each way;
                                unknown where they do not */
    struct span about;       /* what does not add up, where `span` is one of its
                                sizes; else empty */
    size_t order;            /* of reporting; breaks ties in sorting */
};

struct diagnostics;

/* The one context that is handed through all stages. */
struct run {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    bool unseen; /* nothing of it is drawn: what the work looks like on the way
                    is not kept */
    bool trial;  /* of a changed source: errors are only found, not searched
                    for a cause, and nothing is proved */
    bool brief;  /* it is only asked whether there is an error: the first ends
                    the planning of cloth */
};

struct run *run_create(struct arena *arena, const struct source *source);

/* ensures: a new message at `span`. The text starts in lower case, has no
 * full stop at its end, and makes sense alone. */
struct diagnostic *diag_report(struct run *run, enum diag_code code,
                               struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void diag_label(struct run *run, struct diagnostic *d, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void diag_note(struct run *run, struct diagnostic *d, struct span span,
               const char *format, ...) __attribute__((format(printf, 4, 5)));
/* A mend in words. Only where it is likely right. */
void diag_help(struct run *run, struct diagnostic *d, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* A mend that a program can apply: `replacement` for the bytes of `span`. */
void diag_mend(struct run *run, struct diagnostic *d, struct span span,
               const char *replacement, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* By how much what was found is more than what was expected. Two for a size;
 * `second` may be unknown. */
void diag_off(struct diagnostic *d, struct rational first,
              struct rational second);

/* The program's own fault: prints it as that, with what to send, and leaves
 * with status 5. */
_Noreturn void internal_error(const char *format, ...)
    __attribute__((format(printf, 1, 2)));

size_t diag_count(const struct run *run, enum diag_level level);

/* Takes a message back, and its doubles: another one tells its cause. */
void diag_drop(struct run *run, struct diagnostic *d);

/* All messages in the order of the source, doubles dropped. */
size_t diag_sorted(const struct run *run, const struct diagnostic ***sorted);

struct diag_style {
    bool color; /* escape sequences for a terminal */
    bool json;  /* one JSON object a line */
};

/* Prints the messages: as text the first 200, errors before all others, and how
 * many more there are; as JSON all. No closing line. */
void diag_print(const struct run *run, struct diag_style style, FILE *out);
/* One message as a JSON object, without a line end. */
char *diag_json(const struct run *run, const struct diagnostic *d);

/* At most three of `names` that are near to `wrong` (edit distance), nearest
 * first, as "`a`, `b` or `c`"; NULL where none is near. */
const char *near_names(struct arena *arena, const char *wrong,
                       const char *const *names, size_t count);
/* The nearest single name, or NULL. */
const char *nearest_name(const char *wrong, const char *const *names,
                         size_t count);

#endif
