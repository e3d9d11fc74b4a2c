/* seamwright compare: what changed between two revisions, for those who hold
 * the old one. A source is compiled and told as data, so that it and the data
 * of an earlier build are read alike. Read next: compare/compare.c. */
#include <string.h>

#include "buffer.h"
#include "compose.h"
#include "diag.h"
#include "files.h"
#include "phrase.h"
#include "selection.h"

/* Both files are read before anything is compiled, both are compiled before
 * anything is compared, and the sheet is written before anything is printed: a
 * run that fails has done nothing. */

/* One of the two on its way. */
struct compared {
    const char *path;
    struct file_content file;
    struct compiled compiled; /* plans are NULL for data */
    bool is_data;
    const struct revision *revision;
};

/* Data begin with a brace; no XML does. */
static bool begins_as_data(const struct file_content *file)
{
    const size_t blanks = strspn(file->bytes, " \t\r\n");
    return file->bytes[blanks] == '{' || file->bytes[blanks] == '[';
}

/* ensures: the bytes, or a message and the status. */
static int read_side(struct arena *arena, const char *path, struct compared *side)
{
    *side = (struct compared){.path = path};
    side->file = file_read(arena, path);
    switch (side->file.fault) {
    case FILE_OK:
        side->is_data = begins_as_data(&side->file);
        return STATUS_CLEAN;
    case FILE_UNREADABLE:
        complain("seamwright: %s: cannot read: %s\n", path,
                 side->file.system_error);
        return STATUS_FILES;
    case FILE_TOO_LARGE:
        complain("seamwright: %s: cannot read: larger than 16 MiB\n", path);
        return STATUS_LIMIT;
    case FILE_NOT_REGULAR:
    case FILE_THROUGH_LINK:
        break;
    }
    complain("seamwright: %s: cannot read: not a regular file\n", path);
    return STATUS_FILES;
}

/* A source with mistakes has no facts that could be compared. */
static int compile_side(struct arena *arena, const struct options *options,
                        struct compared *side)
{
    side->compiled = compile_source(
        arena, source_create(arena, side->path, side->file.bytes,
                             side->file.length));
    return finish_diagnostics(&side->compiled, options, false);
}

/* ---- facts ---- */

/* The pages of the booklets that are out: only the sheet names them. */
static const struct booklet_pages *find_all_pages(struct arena *arena,
                                                  const struct options *options,
                                                  const struct compared *side)
{
    const struct cutplans *plans = side->compiled.plans;
    struct booklet_pages *pages =
        ARENA_ARRAY(arena, struct booklet_pages, plans->items.count + 1);
    struct typeset *typeset =
        typeset_create_with(side->compiled.design->display);
    const struct phrases *phrases =
        phrases_load(arena, side->compiled.pattern->language);
    for (size_t i = 0; i < plans->items.count; i++) {
        struct arena *booklet = arena_create();
        const struct book *book = compose_book(
            booklet, typeset, phrases, side->compiled.design,
            &plans->items.items[i],
            paper_is_a4(&side->compiled, options) ? FORM_A4 : FORM_LETTER);
        pages[i] = find_pages(arena, book, &plans->items.items[i]);
        arena_destroy(booklet);
    }
    typeset_destroy(typeset);
    return pages;
}

/* The same reader for both kinds, so that no difference comes of the way. */
static int take_facts(struct arena *arena, const struct options *options,
                      bool with_pages, const char *language, struct compared *side)
{
    static const struct selection everything = {NULL, NULL};
    const char *problem = NULL;
    const char *bytes = side->file.bytes;
    size_t length = side->file.length;
    if (!side->is_data) {
        const struct cutplans *plans = side->compiled.plans;
        bytes = render_json_in(
            side->compiled.run, plans, &everything, language,
            with_pages ? find_all_pages(arena, options, side) : NULL,
            with_pages ? plans->items.count : 0);
        length = strlen(bytes);
    }
    side->revision = read_revision(arena, bytes, length, &problem);
    if (side->revision != NULL)
        return STATUS_CLEAN;
    complain("seamwright: %s: %s\n", side->path, problem);
    if (side->is_data)
        complain("help: name a source, or a pattern.json that build wrote\n");
    return STATUS_MISTAKES;
}

/* ---- the sheet ---- */

/* In memory first, then in one step to its place: a failure leaves an older
 * sheet as it was. */
static int write_sheet(struct arena *arena, const struct options *options,
                       const struct comparison *comparison, bool a4,
                       const char *language)
{
    const char *problem = NULL;
    struct typeset *typeset = typeset_create();
    const struct book *book =
        compose_errata(arena, typeset, phrases_load(arena, language),
                       comparison, a4 ? FORM_A4 : FORM_LETTER);
    const struct rendered pdf = render_pdf(arena, typeset, book);
    typeset_destroy(typeset);
    if (pdf.problem != NULL) {
        complain("seamwright: internal error: a page cannot be drawn: %s\n",
                 pdf.problem);
        return STATUS_INTERNAL;
    }
    if (files_replace_file(arena, options->folder, pdf.bytes, pdf.length,
                           &problem))
        return STATUS_CLEAN;
    complain("seamwright: %s\n", problem);
    return STATUS_FILES;
}

/* Wrong usage is told before anything is read. */
static bool usage_holds(const struct options *options)
{
    const char *path = options->folder;
    const char *dot = path == NULL ? NULL : strrchr(path, '.');
    const char *problem = NULL;
    if (path != NULL && (dot == NULL || strcmp(dot, ".pdf") != 0))
        problem = "compare writes a file that ends in .pdf";
    else if (path == NULL && (options->language != NULL ||
                              options->paper_chosen))
        problem = "--language and --paper are for the errata sheet (-o)";
    else if (strcmp(options->files[0], "-") == 0 &&
             strcmp(options->files[1], "-") == 0)
        problem = "only one of the two files may be standard input";
    if (problem != NULL)
        complain("seamwright: %s\nTry 'seamwright compare --help'.\n",
                 problem);
    return problem == NULL;
}

/* The sheet's language: as asked for; else the new pattern's, else English. */
static const char *sheet_language(const struct options *options,
                                  const struct compared *changed)
{
    return options->language != NULL ? options->language
           : changed->is_data        ? "en"
                                     : changed->compiled.pattern->language;
}

/* ensures: both sides' facts, or a message and the status. */
static int take_both(struct arena *arena, const struct options *options,
                     struct compared sides[2])
{
    int status = STATUS_CLEAN;
    for (int i = 0; i < 2 && status == STATUS_CLEAN; i++)
        status = read_side(arena, options->files[i], &sides[i]);
    for (int i = 0; i < 2 && status == STATUS_CLEAN; i++)
        if (!sides[i].is_data)
            status = compile_side(arena, options, &sides[i]);
    /* Sentences of a step in data are English; both sides speak alike. */
    const bool sources = !sides[0].is_data && !sides[1].is_data;
    for (int i = 0; i < 2 && status == STATUS_CLEAN; i++)
        status = take_facts(arena, options, options->folder != NULL && i == 0,
                            sources && options->folder != NULL
                                ? sheet_language(options, &sides[1])
                                : "en",
                            &sides[i]);
    return status;
}

/* Wrong usage and no mistake in a source: either of the two may be right. */
static int not_the_same(const struct compared sides[2])
{
    complain("seamwright: %s and %s are not the same pattern: they are `%s` "
             "and `%s`, and less than half of their pieces are the same\n",
             sides[0].path, sides[1].path, sides[0].revision->id,
             sides[1].revision->id);
    complain("help: compare two revisions of one pattern; nothing was "
             "written\n");
    return STATUS_USAGE;
}

/* As build chooses it; data do not tell the paper, but the unit. */
static bool sheet_is_a4(const struct options *options,
                        const struct compared *changed)
{
    return !changed->is_data       ? paper_is_a4(&changed->compiled, options)
           : options->paper_chosen ? options->paper == PAPER_A4
                                   : changed->revision->unit == UNIT_CM;
}

/* The sheet is written before anything is told, so that a failure leaves
 * nothing half done. */
int command_compare(struct arena *arena, const struct options *options)
{
    struct compared sides[2];
    if (!usage_holds(options))
        return STATUS_USAGE;
    int status = take_both(arena, options, sides);
    if (status != STATUS_CLEAN)
        return status;
    struct comparison *comparison =
        compare_revisions(arena, sides[0].revision, sides[1].revision);
    if (!comparison->same_pattern)
        return not_the_same(sides);
    for (int i = 0; i < 2; i++) {
        comparison->names[i] = sides[i].path;
        if (!sides[i].revision->whole)
            complain("seamwright: %s: data of an older build: compared as far "
                     "as they go%s\n",
                     sides[i].path,
                     sides[i].revision->version < 2
                         ? ", which is words alone"
                         : "; what is sewn, and looks, only in part");
    }
    /* What needs memory comes before the sheet takes the place of an old one.
     */
    const char *text = options->json ? render_changes_json(arena, comparison)
                                     : render_changes(arena, comparison);
    const struct buffer shown = shown_text(arena, text);
    const char *bytes = buffer_string(&shown);
    if (options->folder != NULL && comparison->total > 0)
        status = write_sheet(arena, options, comparison,
                             sheet_is_a4(options, &sides[1]),
                             sheet_language(options, &sides[1]));
    if (status == STATUS_CLEAN)
        status = write_bytes(bytes, shown.length);
    return status == STATUS_CLEAN && comparison->total > 0 ? STATUS_CHANGED
                                                           : status;
}
