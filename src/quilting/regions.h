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
/* ---- strips.c ---- */

/* Opens the room in which strips are kept, for all areas. */
void open_strips(struct quilter *quilter);
void close_strips(struct quilter *quilter);
/* Sets what the strips of echoes leave of the area: where its filler goes.
 * ensures: false where geometry gave up; that was reported. */
bool find_rest(struct quilter *quilter, const struct told_item *item,
               size_t area);

/* ---- fillers.c ---- */

/* The stretches of one element's lines, by place. */
struct leads {
    LIST(struct spot_line) stretches;
    struct grid *by_place;
};

/* A sample of swirls or pebbles, if the kind has one. */
void draw_texture(struct quilter *quilter, struct quilted_kind *kind);

#endif
