/* Inside the pass: areas while they are found and filled. */
#ifndef SEAMWRIGHT_REGIONS_H
#define SEAMWRIGHT_REGIONS_H

#include "quilter.h"

/* Bounds come in one order: the four sides of the top, seams between fabrics,
 * then the exact lines of the plan, so that a bound tells what it comes from.
 */
struct regions {
    segment_list bounds; /* of the arrangement */
    size_t first_line;   /* from here on, the exact lines of the plan */
    struct areas found;  /* as those of the plan, in their order */
    const struct spot_line *boxes; /* around them, in that order */
};

/* Fills one area as the words say that took it. */
void fill_one(struct quilter *quilter, size_t area);
/* A sample of swirls or pebbles, if the kind has one. */
void draw_texture(struct quilter *quilter, struct quilted_kind *kind);

#endif
