/* What is put on pages as a whole: a step, or two beside each other. Each is
 * drawn in a few sizes, and so much of them shares a page that fewest pages are
 * needed, least is left empty, and figures get least smaller. Lengths are
 * points.
 */
#ifndef SEAMWRIGHT_PORTION_H
#define SEAMWRIGHT_PORTION_H

#include "section.h"

/* Of the usual size of figures; the largest first. */
enum { SIZES = 7, USUAL_SIZE = 2 };
extern const double figure_sizes[SIZES];

/* A portion in one size. */
struct drawn {
    LIST(struct box *) boxes; /* with the spaces between them */
    LIST(struct named_box) named;
    double height; /* without the space above it */
};

struct portion {
    double space;   /* above it, at least; dropped at the head of a page */
    bool one_size;  /* only `drawn[USUAL_SIZE]` is there */
    bool left_page; /* opens a spread, if that costs no page */
    struct drawn drawn[SIZES];
};

struct portions {
    LIST(struct portion) items;
};

/* Adds a box below the others. */
void drawn_add(struct arena *arena, struct drawn *drawn, struct box *box,
               double space);
/* Moves the names of figures that were given since there were `count` of them:
 * they count only if this size is chosen. */
void drawn_take_names(struct booklet *booklet, size_t count,
                      struct drawn *drawn);
/* Puts all of them under what the flow holds, and names the figures of the
 * sizes that were chosen. */
void place_portions(struct booklet *booklet, const struct portions *portions);

#endif
