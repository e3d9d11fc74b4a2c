/* What Cairo cannot say in a PDF, added to it. */
#ifndef SEAMWRIGHT_PDF_UPDATE_H
#define SEAMWRIGHT_PDF_UPDATE_H

#include <stdbool.h>
#include <stddef.h>

#include "book.h"
#include "buffer.h"
#include "pdf_text.h"

struct pdf_additions {
    struct pdf_facts facts;
    /* of each structure element, in the order of opening */
    const struct tag_item *const *elements;
    size_t count;
    bool true_scale; /* printers are asked to print without scaling */
};

/* Rewrites a whole PDF with one classic cross-reference table as one of PDF 1.5
 * with its small objects in a stream. Added are: language,
 * metadata, how a viewer shows and prints it; the words that stand for each
 * figure and for each link, the scope of heads of tables, the numbering of
 * lists; what is painted outside the structure becomes an artifact. All objects
 * keep their numbers.
 * ensures: NULL, or why it could not be done; the PDF is then unchanged. */
const char *pdf_update(struct buffer *pdf,
                       const struct pdf_additions *additions);

#endif
