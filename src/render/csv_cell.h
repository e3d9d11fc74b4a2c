/* Cells of a comma-separated table (RFC 4180, CRLF). */
#ifndef SEAMWRIGHT_CSV_CELL_H
#define SEAMWRIGHT_CSV_CELL_H

#include "buffer.h"

/* Adds a cell, with a comma before it where it is not the first of its row. */
void csv_cell(struct buffer *out, const char *text);
/* Ends the row. */
void csv_end_row(struct buffer *out);

#endif
