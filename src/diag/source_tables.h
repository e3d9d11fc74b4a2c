/* Inside source_parts.c, which makes the tables of a file, and source.c, which
 * looks into them. */
#ifndef SEAMWRIGHT_DIAG_SOURCE_TABLES_H
#define SEAMWRIGHT_DIAG_SOURCE_TABLES_H

#include "source.h"

enum { MARK_BYTES = 4096 };

/* Moves one character on in the bytes of a file; `column` counts from 0. */
struct column_mark column_step(const char *bytes, size_t length,
                               struct column_mark at);

#endif
