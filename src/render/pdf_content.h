/* The marks of a page that belong to no element of the structure. */
#ifndef SEAMWRIGHT_PDF_CONTENT_H
#define SEAMWRIGHT_PDF_CONTENT_H

#include <stdbool.h>
#include <stddef.h>

#include "buffer.h"

/* Puts what is painted outside every marked-content sequence that bears an
 * identifier between "/Artifact BMC" and "EMC" (ISO 32000-1, 14.8.2.2).
 * `stream` holds the operators of a page as plain text.
 * ensures: true and the page's new operators in `out`; false for a stream of
 * an unknown form. */
bool content_mark_artifacts(struct buffer *out, const char *stream,
                            size_t length);

#endif
