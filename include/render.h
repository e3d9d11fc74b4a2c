/* owner: render
 *
 * A book and the solved facts become files, as bytes in memory. The driver
 * writes them.
 */
#ifndef SEAMWRIGHT_RENDER_H
#define SEAMWRIGHT_RENDER_H

#include "book.h"
#include "claims.h"
#include "compose.h"
#include "cutplan.h"
#include "gather.h"
#include "kits.h"
#include "told_changes.h"
#include "typeset.h"

struct rendered {
    const char *bytes;
    size_t length;
    const char *problem; /* NULL, or the library's words */
};

/* ensures: whether SOURCE_DATE_EPOCH, where it is set, is a time that a file can
 * bear. */
bool render_date_holds(void);

/* The book as PDF 1.4 with outline, labels, language and structure; the same
 * bytes for the same book on every run. */
struct rendered render_pdf(struct arena *arena, struct typeset *typeset,
                           const struct book *book);

/* What one figure is called in a file of its own. */
struct figure_words {
    const char *name;  /* every id in the file begins with it */
    const char *title; /* for people */
};

/* The first page as SVG 1.1: text as text, ids of its own, sizes in
 * millimetres. The same bytes for the same book on every run. */
struct rendered render_svg(struct arena *arena, struct typeset *typeset,
                           const struct book *book,
                           const struct figure_words *words);

/* The first page as PNG on white, with its resolution in it. */
struct rendered render_png(struct arena *arena, struct typeset *typeset,
                           const struct book *book, int dots_per_inch);

/* The book on landscape sheets of the same paper, two pages a side: printed on
 * both sides (turned over the short edge) and folded in the middle, the pages
 * follow each other. Blank pages fill the last sheet.
 * requires: tags that are balanced on each page. `not_to_scale` is said below
 * pages that are true to scale in the book. */
struct book *impose_folding(struct arena *arena, struct typeset *typeset,
                            const struct book *book, const char *not_to_scale);

/* Which quilts and colorways an output tells of; NULL means all. */
struct selection {
    const char *quilt;
    const char *colorway;
};
bool selected(const struct selection *selection, const struct cutplan *plan);

/* Comma-separated tables (RFC 4180, CRLF, UTF-8). Cells that a spreadsheet
 * would take for a formula are guarded. */
const char *render_materials_csv(struct arena *arena,
                                 const struct cutplans *plans,
                                 const struct selection *selection);
const char *render_cutting_csv(struct arena *arena,
                               const struct cutplans *plans,
                               const struct selection *selection);

/* The same of an order of kits. */
const char *render_purchase_csv(struct arena *arena, const struct kits *kits);
const char *render_bolts_csv(struct arena *arena, const struct kits *kits);
const char *render_strips_csv(struct arena *arena, const struct kits *kits);
const char *render_picking_csv(struct arena *arena, const struct kits *kits);
const char *render_slips_csv(struct arena *arena, const struct kits *kits);
const char *render_count_csv(struct arena *arena, const struct kits *kits);
const char *render_costs_csv(struct arena *arena, const struct kits *kits);
/* What lies on the shelf afterwards: an XML file whose root is `shelf`. */
const char *render_next_shelf(struct arena *arena, const struct kits *kits);

/* The claims of the booklets, in their language, for one of several testers;
 * `answer` and `measure` are empty. */
const char *render_claims_csv(struct arena *arena,
                              const struct phrases *phrases,
                              const struct cutplans *plans,
                              const struct selection *selection,
                              struct testers testers);

/* What testers found, from their tables of claims: for a terminal, and as
 * JSON. */
const char *render_gathered(struct arena *arena, const struct gathered *all);
const char *render_gathered_json(struct arena *arena,
                                 const struct gathered *all);

/* The whole solved model as JSON (RFC 8259). Lengths are exact texts in the
 * pattern's unit. */
const char *render_json(const struct run *run, const struct cutplans *plans,
                        const struct selection *selection);

/* The same, its sentences in that language, with the pages on which the
 * booklets tell of steps and cloths. */
const char *render_json_in(const struct run *run, const struct cutplans *plans,
                           const struct selection *selection,
                           const char *language,
                           const struct booklet_pages *pages,
                           size_t page_count);

/* The solved model as tables for a terminal. */
const char *render_tables(struct arena *arena, const struct cutplans *plans,
                          const struct selection *selection);

/* How each cloth is cut, in short: the step to the next smaller amount, what
 * causes it, the effort, the bound. */
const char *render_cutting(struct arena *arena, const struct cutplans *plans,
                           const struct selection *selection);

/* The least to sew of each quilt: what to make, cut from which scraps, and what
 * it has. The same in all colorways. */
const char *render_least(struct arena *arena, const struct cutplans *plans,
                         const struct selection *selection);

/* How each quilt is quilted, in short: lines and how they are found, areas,
 * paths, thread, the gap. */
const char *render_quilting(struct arena *arena, const struct cutplans *plans,
                            const struct selection *selection);

/* How much error the sewing of each quilt forgives, for a terminal or as JSON
 * (RFC 8259): sizes to expect and chances for each seam, where the spread comes
 * from, where trimming pays, other ways to a unit. `strips`: what a person's
 * three test strips measure, in the pattern's unit; unknown: they come right. */
const char *render_tolerance(struct arena *arena, const struct sewn *sewn,
                             const struct selection *selection,
                             struct rational strips);
const char *render_tolerance_json(struct arena *arena, const struct sewn *sewn,
                                  const struct selection *selection,
                                  struct rational strips);
/* What changed between two revisions: for a terminal, and as JSON. */
const char *render_changes(struct arena *arena,
                           const struct comparison *comparison);
const char *render_changes_json(struct arena *arena,
                                const struct comparison *comparison);

#endif
