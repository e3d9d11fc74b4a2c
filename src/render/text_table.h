/* A table of text for a terminal. */
#ifndef SEAMWRIGHT_TEXT_TABLE_H
#define SEAMWRIGHT_TEXT_TABLE_H

#include "buffer.h"

/* Cells row by row; widths are known only when all are there. requires: as many
 * cells as fill whole rows. */
struct text_table {
    struct arena *arena;
    size_t columns;
    LIST(const char *) cells;
};

enum { TEXT_COLUMNS = 16 };

/* requires: TEXT_COLUMNS at most. */
struct text_table text_table_of(struct arena *arena, size_t columns);

/* Cells come in reading order; a row ends by itself. */
void add_text_cell(struct text_table *table, const char *text);

/* Columns are as wide as their widest cell; the last one is not padded. */
void print_text_table(struct buffer *out, const struct text_table *table);

#endif
