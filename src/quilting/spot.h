/* A point in doubles, in the pattern's unit, in the frame of the finished top:
 * (0, 0) is its top left corner, y runs down. For what cannot be exact: echoes,
 * fillers that are clipped, distances. Right to 1e-6 in. */
#ifndef SEAMWRIGHT_SPOT_H
#define SEAMWRIGHT_SPOT_H

#include <stddef.h>

struct spot {
    double x, y;
};

/* A straight stretch between two points. */
struct spot_line {
    struct spot from, to;
};

#endif
