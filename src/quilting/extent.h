/* What lies where: rectangles with sides along the axes, and what a piece covers
 * that lies aslant. Exact where points are exact. */
#ifndef SEAMWRIGHT_EXTENT_H
#define SEAMWRIGHT_EXTENT_H

#include "straight.h"

/* A rectangle with sides along the axes. With corners of its own it is what lies
 * between these, and the rectangle is the box around it: a block on point, or a
 * triangle, one of whose corners is told twice. */
enum { EXTENT_CORNERS = 4 };
struct extent {
    struct vertex low, high;      /* top left, bottom right */
    const struct vertex *corners; /* NULL, or four, convex, clockwise */
};

/* A rectangle with sides along the axes. */
static inline struct extent level_extent(struct vertex low, struct vertex high)
{
    return (struct extent){low, high, NULL};
}
/* Its corners, clockwise; of a rectangle from the top left. */
void extent_corners(struct extent extent, struct vertex corners[EXTENT_CORNERS]);
/* Its sides, each from one corner to the next. */
void extent_sides(struct extent extent, struct segment sides[EXTENT_CORNERS]);
/* With these corners, which lie in the arena. */
struct extent extent_of_corners(struct arena *arena,
                                const struct vertex corners[EXTENT_CORNERS]);

/* Is the point in it, or on its rim? requires: known. */
bool extent_holds(struct extent extent, struct vertex v);
/* Do both points lie in the line of one of its sides? */
bool extent_along(struct extent extent, struct vertex a, struct vertex b);
/* What of the segment lies in it, its rim with it. ensures: false where that is
 * less than a stretch; unknown ends where that leaves the number type, which
 * whoever arranges them tells. */
bool segment_within(struct segment segment, struct extent extent,
                    struct segment *inside);

/* Where the line leaves the rectangle on the way from a point in it (or on its
 * rim) through `toward`; `from` itself where it leaves at once; unknown where
 * that leaves the number type. requires: no corners of its own. */
struct vertex extent_exit(struct extent extent, struct vertex from,
                          struct vertex toward);

/* ---- in doubles ---- */

/* The box around it, as grids ask for it. */
struct spot_line extent_box(struct extent extent);
/* The middle of that box. */
struct spot extent_middle(struct extent extent);
/* The way to it from a spot outside; not above 0 inside, where it tells how near
 * the nearest side is. */
double extent_off(struct extent extent, struct spot at);
/* Lies the spot in it? Spots come from doubles, so the rim is as wide as what
 * they are right to. */
bool extent_has(struct extent extent, struct spot at);

#endif
