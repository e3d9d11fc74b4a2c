/* What Cairo cannot say in a PDF, added behind it. */
#ifndef SEAMWRIGHT_PDF_UPDATE_H
#define SEAMWRIGHT_PDF_UPDATE_H

#include <stddef.h>

#include "buffer.h"

struct pdf_additions {
    const char *language;            /* "en", or NULL */
    const char *const *alternatives; /* one a figure, NULL where it has none */
    size_t figures;                  /* Figure elements, in order of opening */
};

/* Appends an incremental update (ISO 32000-1, 7.5.6) to a whole PDF with one
 * classic cross-reference table: the language, the words that stand for each
 * figure, and that a viewer shows the title.
 * ensures: NULL, or why it could not be done; the PDF is then unchanged. */
const char *pdf_update(struct buffer *pdf,
                       const struct pdf_additions *additions);

#endif
