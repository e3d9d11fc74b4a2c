/* Texts as a PDF holds them. */
#ifndef SEAMWRIGHT_PDF_TEXT_H
#define SEAMWRIGHT_PDF_TEXT_H

#include "buffer.h"

/* A text string (ISO 32000-1, 7.9.2.2): plain ASCII as it is, else UTF-16BE. */
void pdf_add_text_string(struct buffer *out, const char *text);

/* What the file says of itself (ISO 32000-1, 14.3.2; ISO 16684-1). Any may be
 * NULL and is then left out; `date` is ISO 8601. */
struct pdf_facts {
    const char *title, *author, *subject, *language, *date;
};

/* The same facts as XMP, a packet of RDF in UTF-8. */
void pdf_add_xmp(struct buffer *out, const struct pdf_facts *facts);

#endif
