/* The papers of an order as files. One PDF a paper: who fetches, cuts and packs
 * take their own, costs are not handed on by mistake, and labels are printed on
 * other stock. Pages take far more memory than the file that is made of them,
 * so each paper has memory of its own, which goes with it. */
#include "compose_kits.h"
#include "kitting.h"
#include "phrase.h"
#include "render.h"

/* What all papers share. */
struct printing {
    struct arena *arena; /* of the files */
    struct typeset *typeset;
    const struct kits *kits;
    const char *language;
    bool a4;
};

static int add_paper_in(const struct printing *printing, struct arena *scratch,
                        struct kit_files *files, enum kit_paper paper)
{
    const struct book *book = compose_kit_paper(
        scratch, printing->typeset, phrases_load(scratch, printing->language),
        printing->kits, paper, printing->a4);
    if (book == NULL)
        return STATUS_CLEAN;
    const struct rendered pdf = render_pdf(scratch, printing->typeset, book);
    if (pdf.problem != NULL) {
        complain("seamwright: internal error: a page cannot be drawn: %s\n",
                 pdf.problem);
        return STATUS_INTERNAL;
    }
    *LIST_ADD(printing->arena, &files->items) = (struct output_file){
        arena_printf(printing->arena, "%s.pdf", kit_paper_file(paper)),
        arena_copy(printing->arena, pdf.bytes, pdf.length), pdf.length};
    return STATUS_CLEAN;
}

/* The typeset is opened once, as loading fonts is slow; nothing between it and
 * its end may return. */
int add_kit_papers(struct arena *arena, struct kit_files *files,
                   const struct kits *kits, const char *language, bool a4)
{
    const struct printing printing = {arena, typeset_create(), kits, language,
                                      a4};
    int status = STATUS_CLEAN;
    for (int i = 0; i < KIT_PAPERS && status == STATUS_CLEAN; i++) {
        struct arena *scratch = arena_create();
        status =
            add_paper_in(&printing, scratch, files, (enum kit_paper)i);
        arena_destroy(scratch);
    }
    typeset_destroy(printing.typeset);
    return status;
}
