/* Numbers that figures have inside, as parts of their claims. */
#ifndef SEAMWRIGHT_MARKS_H
#define SEAMWRIGHT_MARKS_H

#include "content.h"

/* "marks at 2½, 5, 7½": the places on the ruler, and the sizes of what is left
 * over; "" for none. */
const char *marks_of_strip(const struct wording *w,
                           const struct fabric_plan *plan,
                           const struct told_figure *figure);
/* "seams 1 to 29": of all that a step joins; "" where no seam has a number. */
const char *marks_of_work(const struct wording *w,
                          const struct told_work *work);
/* "lines 1 to 46": of the path in an area of quilting; else "". */
const char *marks_of_path(const struct wording *w,
                          const struct told_figure *figure);

#endif
