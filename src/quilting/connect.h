/* Straight lines from point to point over open cloth. */
#ifndef SEAMWRIGHT_CONNECT_H
#define SEAMWRIGHT_CONNECT_H

#include "shape.h"

/* As bits: one question may ask for several kinds. */
enum shape_points {
    POINTS_OUTER_CORNERS = 1,
    POINTS_INNER_CORNERS = 2,
    POINTS_CORNERS = 3,
    POINTS_MIDDLES = 4, /* of the sides between corners */
    POINTS_CENTER = 8   /* of the box around the shape */
};
typedef LIST(struct vertex) vertices;

/* Adds the points of a shape. */
void add_shape_points(struct arena *arena, const struct shape *shape,
                      unsigned kinds, vertices *points);

enum connect_pair {
    PAIR_NEAREST, /* each of `from` with the nearest of `to` that it sees */
    PAIR_FACING,  /* the nearest of each other, both ways */
    PAIR_ALL
};

/* Above so many pairs of points that are asked, or stretches of cloth between
 * them that are walked, nothing is worked out. */
enum { CONNECT_PAIRS = 20000000, CONNECT_WALKED = 1000000 };

struct connect_order {
    const struct vertex *from, *to; /* the same list twice is allowed */
    size_t from_count, to_count;
    int into;
    enum connect_pair pair;
    number stop; /* how far both ends stay away from their points; 0 */
};

struct connected_line {
    struct vertex from, to; /* where it is stitched: less `stop` */
    size_t first, second;   /* its points: of `from`, of `to` */
};
struct connected_lines {
    const struct connected_line *items;
    size_t count;
    struct fault fault; /* indices of `from` and of `to` */
};

/* Two points see each other where the whole stretch between them runs over
 * cloth of `into`, with `into` at both hands (not along its rim). Distances
 * that differ by less than 1e-9 of themselves are the same, and all that are
 * nearest are taken, so that what is symmetric stays so. A pair is told once,
 * and not where `stop` leaves nothing. A `stop` is laid off on the exact line,
 * at an exact point that is less than 1e-6 in from the true one (whose distance
 * is mostly a root). */
struct connected_lines connect_points(struct arena *arena,
                                      const struct ground *ground,
                                      const struct connect_order *order);

#endif
