/* Inside gathering: reading tables of claims, and judging what was measured. */
#ifndef SEAMWRIGHT_PROOF_GATHER_PARTS_H
#define SEAMWRIGHT_PROOF_GATHER_PARTS_H

#include "csv_table.h"
#include "gather.h"

/* One row of a table, its cells by their columns. */
struct claims_row {
    struct run *run;
    struct csv_text cells[CLAIMS_COLUMNS];
};

/* Where each column stands in a file. requires: a reader before its first row.
 * ensures: true; or false, and reported: no columns of claims, or one that
 * lacks or stands twice. One that is not known is told and passed over. */
bool read_claims_head(struct csv_reader *reader, size_t *columns);

/* Reports a cell that testers do not fill in and that is not what the program
 * wrote. ensures: false. */
bool tell_changed(const struct claims_row *row, enum claims_column column,
                  const char *message);

/* The values of a row; false, and reported, where one cannot be read. */
bool read_row_number(const struct claims_row *row, enum claims_column column,
                     size_t most, size_t *number);
bool read_row_kind(const struct claims_row *row, enum claim_kind *kind);
bool read_row_answer(const struct claims_row *row, enum claim_answer *answer);
/* The numbers of `told` to `bound`, of what is measured. */
bool read_row_measures(const struct claims_row *row,
                       struct claim_measure *measure);
/* What the tester measured, in the unit of the row. requires: a text there. */
bool read_row_measure(const struct claims_row *row, enum claim_kind kind,
                      const struct claim_measure *measure, double *measured);

/* Once all rows are read: claims in their order, what each tester did and lost,
 * and each size judged by the strips of the same tester. */
void sum_book(struct arena *arena, const struct gathered *all,
              struct gathered_book *book);

#endif
