/* The back cover's table of what to buy. */
#ifndef SEAMWRIGHT_BACK_H
#define SEAMWRIGHT_BACK_H

#include "shop.h"

struct back_rows {
    LIST(struct box *) items; /* the head first */
};

/* ensures: a row for each part, over all colorways and quilts of the pattern.
 */
struct back_rows back_rows(const struct booklet *booklet);

#endif
