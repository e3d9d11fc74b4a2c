/* How the parts of a block lie when it is taken apart. Read next:
 * exploded_block.c. */
#ifndef SEAMWRIGHT_EXPLOSION_H
#define SEAMWRIGHT_EXPLOSION_H

#include "section.h"

struct explosion;

/* A part: another heap, turned, in a place of the block. */
struct exploded_part {
    size_t heap;
    unsigned turn;
    double x, y, width, height; /* in the block, in units of length */
    double left, top;           /* on the page, in points ... */
    double wide, high;          /* ... and its size there */
    struct explosion *inside;   /* its own parts, or NULL */
};

struct explosion {
    LIST(struct exploded_part) parts;
    double across, down;  /* in units of length */
    double width, height; /* in points, once it is laid */
};

/* ensures: the parts that the block's step takes, and those of one of each unit
 * that it repeats. */
struct explosion *explode(const struct booklet *booklet,
                          const struct heap *block);
/* Lays the parts at that scale, with gaps between. */
void lay_explosion(struct arena *arena, struct explosion *explosion,
                   double scale);
/* ensures: the largest scale at which it fits. */
double explosion_scale(struct arena *arena, struct explosion *explosion,
                       double width, double height);

#endif
