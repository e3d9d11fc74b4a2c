/* Shapes: all cloth of one fabric that hangs together, a star and not its
 * triangles. Neighbors are joined over their seams, not over a mere point. */
#ifndef SEAMWRIGHT_SHAPE_H
#define SEAMWRIGHT_SHAPE_H

#include "arrange.h"
#include "ground.h"

/* A ring of corners: points between stretches of one line are left out. The
 * shape lies at the right hand of the way (y down). */
struct shape_ring {
    const struct vertex *points;
    size_t count;
};

struct shape {
    int fabric;
    const struct shape_ring *rings; /* the outer ones, then holes; a shape has
                                       one outer ring, unless it touches itself
                                       in a point */
    size_t count;
    struct extent extent; /* the box around it */
    double area;
};
struct shapes {
    const struct shape *items; /* by the top left of their boxes, row by row */
    size_t count;
    struct fault fault; /* indices of the cloth's seams; from its count on, the
                           four sides of the extent */
};

/* The shapes of a fabric in an extent of the top (NO_FABRIC: of every
 * fabric, each for itself). */
struct shapes find_shapes(struct arena *arena, const struct ground *ground,
                          struct extent within, int fabric);

/* One shape out of rings of one label (arrangement_outlines). */
struct shape shape_of_rings(struct arena *arena, const struct arrangement *a,
                            const struct labelled_ring *rings, size_t count,
                            int fabric);

/* The cloth that an echo outside of a shape begins in: of the whole top, the
 * shapes of other cloth that have a stretch of border with it, less the shape.
 * Where a fabric goes on over the rim of the rectangle in which the shape was
 * found, that is other cloth, too.
 * ensures: one shape with all their rings, fabric NO_FABRIC. */
struct shapes shape_surroundings(struct arena *arena,
                                 const struct ground *ground,
                                 const struct shape *shape);
/* The same, as far as it lies in the box around the shape grown by `reach`: all
 * that an echo comes to which reaches no farther (echo_reach), at a cost that
 * does not grow with the top. */
struct shapes shape_surroundings_within(struct arena *arena,
                                        const struct ground *ground,
                                        const struct shape *shape,
                                        double reach);

/* Is corner i of a ring an outer one (the shape is narrower than a half plane
 * there), or an inner one? */
bool shape_corner_outer(struct shape_ring ring, size_t i);

/* Rings in doubles. */
struct spot_ring {
    const struct spot *points;
    size_t count;
};
typedef LIST(struct spot_ring) spot_rings;
spot_rings shape_spots(struct arena *arena, const struct shape *shape);

/* Inside by the even-odd rule; points on a ring may fall either way. */
bool spot_inside(const struct spot_ring *rings, size_t count, struct spot at);

#endif
