/* owner: read
 *
 * Tables of comma-separated values (RFC 4180) that come back from people, row
 * by row, each cell with its place. Line ends may be LF, CRLF or CR, a byte
 * order mark may stand first, and the cells may be parted by semicolons or
 * tabs, as spreadsheets write them in other countries.
 */
#ifndef SEAMWRIGHT_CSV_TABLE_H
#define SEAMWRIGHT_CSV_TABLE_H

#include "diag.h"

/* More than any table that is gathered; what is larger is told as none. */
enum { CSV_MOST_CELLS = 100, CSV_MOST_ROWS = 100000 };

struct csv_text {
    const char *text; /* quotes taken off, blanks round it too */
    struct span span; /* as it is written, quotes not counted */
};

struct csv_reader {
    struct run *run;
    uint32_t at, end; /* what is to be read of the file */
    char separator;
    bool failed; /* and it was reported */
    size_t rows;
    LIST(struct csv_text) cells; /* of the row that was read last */
    struct span row;             /* from its first to its last cell */
};

/* requires: a file of the run's source.
 * reports: bytes that are no text, and fails. */
struct csv_reader csv_open(struct run *run, const struct source_part *part);

/* Goes to the next row that has more than empty cells. ensures: true and its
 * cells; or false at the end, or where it failed.
 * reports: quotes that do not close or stand inside a cell, too many rows. */
bool csv_next(struct csv_reader *reader);

#endif
