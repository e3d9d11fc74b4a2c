/* Inside the reader: what may have been meant by a value that cannot be read.
 * All give the text to write instead, in the arena; NULL where there is none,
 * or where it is what was written. */
#ifndef SEAMWRIGHT_MEANT_H
#define SEAMWRIGHT_MEANT_H

#include "reader.h"

/* Of a length, or of a size where the attribute holds one. Marks of inches and
 * of quotation, straight and curly, are left out; a comma becomes a point; of
 * a size, "by" and "*" become the sign between its two lengths. */
const char *meant_length(struct run *run, const struct value *value,
                         enum length_unit units);

/* Three digits are doubled, and what lacks its sign gets it. */
const char *meant_color(struct arena *arena, const char *text);

/* Three numbers with the year first, or day, month and year with points. */
const char *meant_date(struct arena *arena, const char *text);

/* A comma becomes a point; signs and names of money are left out. */
const char *meant_number(struct arena *arena, const char *text);

#endif
