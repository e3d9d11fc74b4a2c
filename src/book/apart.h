/* How the parts of a block lie when it is taken apart. Read next:
 * exploded_block.c. */
#ifndef SEAMWRIGHT_APART_H
#define SEAMWRIGHT_APART_H

#include "section.h"

struct apart;

/* A part: another heap, turned, in a place of the block. */
struct loose_part {
    size_t heap;
    unsigned turn;
    double x, y, width, height; /* in the block, in units of length */
    double left, top;           /* on the page, in points ... */
    double wide, high;          /* ... and its size there */
    struct apart *inside;       /* its own parts, or NULL */
};

struct apart {
    LIST(struct loose_part) parts;
    double across, down;  /* in units of length */
    double width, height; /* in points, once it is laid */
};

/* ensures: the parts that the block's step takes, and those of one of each unit
 * that it repeats. */
struct apart *take_apart(const struct booklet *booklet,
                         const struct heap *block);
/* Lays the parts at that scale, with gaps between. */
void lay_apart(struct arena *arena, struct apart *apart, double scale);
/* ensures: the largest scale at which it fits. */
double apart_scale(struct arena *arena, struct apart *apart, double width,
                   double height);

#endif
