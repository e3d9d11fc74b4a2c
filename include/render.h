/* owner: render
 *
 * A book and the solved facts become files, as bytes in memory. The driver
 * writes them.
 */
#ifndef SEAMWRIGHT_RENDER_H
#define SEAMWRIGHT_RENDER_H

#include "book.h"
#include "cutplan.h"
#include "typeset.h"

struct rendered {
    const char *bytes;
    size_t length;
    const char *problem; /* NULL, or the library's words */
};

/* The book as PDF 1.4 with outline, labels, language and structure; the same
 * bytes for the same book on every run. */
struct rendered render_pdf(struct arena *arena, struct typeset *typeset,
                           const struct book *book);

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

/* The whole solved model as JSON (RFC 8259). Lengths are exact texts in the
 * pattern's unit. */
const char *render_json(const struct run *run, const struct cutplans *plans,
                        const struct selection *selection);

/* The solved model as tables for a terminal. */
const char *render_tables(struct arena *arena, const struct cutplans *plans,
                          const struct selection *selection);

/* How each cloth is cut, in short: the step to the next smaller amount, what
 * causes it, the effort, the bound. */
const char *render_cutting(struct arena *arena, const struct cutplans *plans,
                           const struct selection *selection);

#endif
