/* owner: render
 *
 * A book and the solved facts become files, as bytes in memory. The driver
 * writes them.
 */
#ifndef SEAMWRIGHT_RENDER_H
#define SEAMWRIGHT_RENDER_H

#include "book.h"
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

#endif
