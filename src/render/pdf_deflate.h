/* The deflated streams of a PDF. */
#ifndef SEAMWRIGHT_PDF_DEFLATE_H
#define SEAMWRIGHT_PDF_DEFLATE_H

#include <stdbool.h>
#include <stddef.h>

#include "buffer.h"

/* Appends the plain bytes of a stream in the form of zlib (RFC 1950).
 * ensures: false for bytes that are no such stream, or not a whole one. */
bool pdf_inflate(struct buffer *plain, const char *deflated, size_t length);

/* Appends `plain` as such a stream. The same bytes give the same bytes. */
void pdf_deflate(struct buffer *out, const char *plain, size_t length);

#endif
