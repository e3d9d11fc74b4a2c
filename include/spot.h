/* owner: quilting
 *
 * A place on the top in floating point, in the pattern's unit, in the frame of
 * the finished top: (0, 0) top left, y down. Right to 1e-6 in; what must be
 * exact is a `struct vertex`. */
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
