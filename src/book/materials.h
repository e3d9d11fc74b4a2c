/* The table of materials, for page 2; its words for the back cover, too. */
#ifndef SEAMWRIGHT_MATERIALS_H
#define SEAMWRIGHT_MATERIALS_H

#include "shop.h"

struct materials {
    LIST(struct box *) rows; /* the head first; a table */
    struct box *notes;       /* below it */
};

/* ensures: all that is bought for the booklet's quilt. */
struct materials materials_of(const struct booklet *booklet, double width);

/* How close the batting of a plan asks to be quilted. */
const char *batting_words(const struct wording *w, const struct cutplan *plan);

#endif
