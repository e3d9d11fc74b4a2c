/* For pages in true size. */
#ifndef SEAMWRIGHT_SCALE_H
#define SEAMWRIGHT_SCALE_H

#include "section.h"

/* The squares to measure by, side by side: an inch high. */
struct box *test_squares(struct booklet *booklet,
                         const struct contents *contents);

#endif
