/* seamwright build: booklets, tables and data, all together or none. Everything
 * is made in memory first; files_replace_folder then writes all or nothing, so
 * a failure keeps the last good output. Read next: selection.c. */
#include <string.h>

#include "buffer.h"
#include "compose.h"
#include "confine.h"
#include "files.h"
#include "phrase.h"
#include "selection.h"

/* What build gathers until it is written. `typeset` is opened once for all
 * booklets, as loading fonts is slow. */
struct outputs {
    const struct compiled *compiled;
    struct selection selection;
    struct typeset *typeset;
    bool a4;
    bool folding, grey, preview;
    const struct phrases *phrases;
    LIST(struct output_file) files;
    LIST(struct booklet_pages) pages;
};

/* Bytes stay where they are: the arena outlives the writing. requires: a name
 * that no other file of the run has. */
static void add_file(struct outputs *outputs, const char *name,
                     const char *bytes, size_t length)
{
    struct output_file *file =
        LIST_ADD(outputs->compiled->run->arena, &outputs->files);
    *file = (struct output_file){name, bytes, length};
}

/* Text without its NUL. */
static void add_text(struct outputs *outputs, const char *name,
                     const char *text)
{
    add_file(outputs, name, text, strlen(text));
}

/* A page that cannot be drawn is a fault of ours, not of the source. Only the
 * finished file outlives `arena`. */
static int add_pdf(struct outputs *outputs, struct arena *arena,
                   const char *name, const struct book *book)
{
    const struct rendered pdf = render_pdf(arena, outputs->typeset, book);
    if (pdf.problem != NULL) {
        complain("seamwright: internal error: a page cannot be drawn: %s\n",
                 pdf.problem);
        return STATUS_INTERNAL;
    }
    struct arena *kept = outputs->compiled->run->arena;
    add_file(outputs, arena_copy(kept, name, strlen(name)),
             arena_copy(kept, pdf.bytes, pdf.length), pdf.length);
    return STATUS_CLEAN;
}

/* The booklet; where they are asked for, a few of its pages for a shop, and all
 * of them on sheets for folding. */
static int add_booklet_in(struct outputs *outputs, struct arena *arena,
                          const struct cutplan *plan)
{
    const struct design *design = outputs->compiled->design;
    const unsigned form = (outputs->a4 ? FORM_A4 : FORM_LETTER) |
                          (outputs->grey ? FORM_GREY : 0u);
    const struct book *book = compose_book(
        arena, outputs->typeset, outputs->phrases, design, plan, form);
    const struct definition *quilt = plan->quilt->definition;
    struct arena *kept = outputs->compiled->run->arena;
    *LIST_ADD(kept, &outputs->pages) = find_pages(kept, book, plan);
    int status = add_pdf(
        outputs, arena,
        booklet_name(arena, design, quilt, plan->colorway, BOOKLET_WHOLE),
        book);
    if (status == STATUS_CLEAN && outputs->preview)
        status = add_pdf(
            outputs, arena,
            booklet_name(arena, design, quilt, plan->colorway, BOOKLET_PREVIEW),
            compose_book(arena, outputs->typeset, outputs->phrases, design,
                         plan, form | FORM_PREVIEW));
    if (status != STATUS_CLEAN || !outputs->folding)
        return status;
    return add_pdf(
        outputs, arena,
        booklet_name(arena, design, quilt, plan->colorway, BOOKLET_FOLDING),
        impose_folding(
            arena, outputs->typeset, book,
            say(arena, outputs->phrases, "folding.not-to-scale", NULL)));
}

/* Pages take far more memory than the file that is made of them, so each
 * booklet has memory of its own, which goes with it. */
static int add_booklet(struct outputs *outputs, const struct cutplan *plan)
{
    struct arena *arena = arena_create();
    const int status = add_booklet_in(outputs, arena, plan);
    arena_destroy(arena);
    return status;
}

/* One booklet for each chosen quilt and colorway. */
static int add_booklets(struct outputs *outputs)
{
    const struct cutplans *plans = outputs->compiled->plans;
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct cutplan *plan = &plans->items.items[i];
        const int status = selected(&outputs->selection, plan)
                               ? add_booklet(outputs, plan)
                               : STATUS_CLEAN;
        if (status != STATUS_CLEAN)
            return status;
    }
    return STATUS_CLEAN;
}

/* Tables and data hold all selected booklets together. Booklets come first, as
 * only a page can fail to be made. */
static int make_outputs(struct outputs *outputs)
{
    struct arena *arena = outputs->compiled->run->arena;
    const struct cutplans *plans = outputs->compiled->plans;
    const int status = add_booklets(outputs);
    if (status != STATUS_CLEAN)
        return status;
    add_text(outputs, "materials.csv",
             render_materials_csv(arena, plans, &outputs->selection));
    add_text(outputs, "cutting.csv",
             render_cutting_csv(arena, plans, &outputs->selection));
    add_text(outputs, "pattern.json",
             render_json_in(outputs->compiled->run, plans,
                            &outputs->selection, "en", outputs->pages.items,
                            outputs->pages.count));
    return STATUS_CLEAN;
}

/* A source with mistakes leaves before anything is made, so the last good
 * output stays. The typeset is opened late: nothing between it and its end may
 * return. */
int command_build(struct arena *arena, const struct options *options)
{
    if (!date_holds(arena))
        return STATUS_USAGE;
    const struct compiled compiled = compile_file(arena, options->files[0]);
    if (compiled.status != STATUS_CLEAN)
        return compiled.status;
    int status = finish_diagnostics(&compiled, options, true);
    if (status != STATUS_CLEAN)
        return status;
    struct outputs outputs = {.compiled = &compiled};
    if (!select_outputs(&compiled, options, &outputs.selection))
        return STATUS_USAGE;
    outputs.a4 = paper_is_a4(&compiled, options);
    outputs.folding = options->folding;
    outputs.grey = options->grey;
    outputs.preview = options->preview;
    outputs.phrases = phrases_load(arena, options->language != NULL
                                              ? options->language
                                              : compiled.pattern->language);
    outputs.typeset = typeset_create_with(compiled.design->display);
    status = make_outputs(&outputs);
    typeset_destroy(outputs.typeset);
    return status == STATUS_CLEAN
               ? write_folder(arena, output_folder(arena, options),
                              outputs.files.items, outputs.files.count, "")
               : status;
}
