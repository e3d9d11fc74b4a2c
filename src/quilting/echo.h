/* Echoes: lines parallel to a shape or around lines, in doubles, made by the
 * geometry library out of exact whole numbers. */
#ifndef SEAMWRIGHT_ECHO_H
#define SEAMWRIGHT_ECHO_H

#include "shape.h"

enum echo_side { ECHO_INSIDE = 1, ECHO_OUTSIDE = 2, ECHO_BOTH = 3 };

/* How far chords of rounded corners may leave their arc, in the pattern's unit. */
#define ECHO_CHORD (1.0 / 2000)

/* Above so many echoes, or points of them, the answer is FAULT_LIMIT; or above
 * so much work: sides of the shape that are moved, and sides of the cloth that
 * echoes are clipped to, as cloth with a thousand holes makes a few echoes
 * slow. Convex shapes are quick and count nothing. */
enum { ECHO_MOST = 400, ECHO_MOST_POINTS = 1000000, ECHO_MOST_WORK = 100000 };

struct echo_order {
    const struct shape *shape;   /* or NULL, and then */
    const struct segment *lines; /* ... around these, on both sides */
    size_t line_count;
    enum echo_side side;
    number first, spacing; /* from the shape to the first; between echoes */
    size_t times;          /* 0: until none is left */
    bool rounded; /* at corners; else pointed, up to 20 times the distance,
                     beyond that cut off */
    /* Outside echoes stay on this cloth (shape_surroundings); inside ones need
     * none. NULL: nothing is clipped. */
    const struct shape *ground;
};

struct echo_line {
    const struct spot *points;
    size_t count;
    bool closed;   /* the last point is joined to the first, not told twice */
    size_t number; /* of the echo, from 1 */
    enum echo_side side;
};
struct echoes {
    const struct echo_line
        *items; /* inside ones by number, then outside ones */
    size_t count;
    size_t fit;         /* inside: how many of the asked spacing are there; with
                           `times` above that the caller says so */
    size_t work;        /* as ECHO_MOST_WORK counts it */
    struct fault fault; /* indices are 0 */
};

/* How far from its shape the order's echoes can come, points at corners and
 * all; HUGE_VAL where they have no end. requires: a shape. */
double echo_reach(const struct echo_order *order);

/* Spacing is the distance of parallel sides, right to 1e-6 in. A shape with a
 * waist falls into parts, each a line of its own with the same number. Rounded
 * corners are chords that leave their arc by 1/2000 in at most.
 * requires: first, spacing > 0. */
struct echoes echo_shape(struct arena *arena, const struct echo_order *order);

#endif
