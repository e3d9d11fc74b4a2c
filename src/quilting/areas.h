/* The areas that lines leave, and which of them are alike. */
#ifndef SEAMWRIGHT_AREAS_H
#define SEAMWRIGHT_AREAS_H

#include "shape.h"
#include "symmetry.h"

struct area {
    size_t face;              /* of the arrangement of all that bounds areas */
    int fabric;               /* of the cloth under it */
    size_t kind;              /* areas that are alike have one, from 0 */
    struct motion from_first; /* from the first area of its kind to this one */
    double area;
};
struct area_kind {
    const char *letter; /* "A", ... "Z", "AA", ... */
    size_t first;       /* its first area */
    size_t count;
};
struct areas {
    const struct area *items; /* by face */
    size_t count;
    const struct area_kind *kinds; /* in the order of their first areas, from
                                      the top down and from the left */
    size_t kind_count;
};

/* A way in which areas may be alike: two areas are, where the one seen through
 * a way and the other through a way of the same group are the same and of one
 * fabric. A symmetry is a way of group 0 over the whole top; a placement of a
 * block is the inverse of its placing_motion, in a group for that block, for
 * the areas within its rectangle. The way that leaves all as it is needs not be
 * told. */
struct area_way {
    size_t group;
    struct extent within;
    struct motion motion;
};

/* requires: an arrangement without fault, whose faces each lie on one fabric
 *   (seams between two fabrics are among its segments). */
struct areas find_areas(struct arena *arena, const struct ground *ground,
                        const struct arrangement *arrangement,
                        const struct area_way *ways, size_t way_count);

/* The rings of an area in doubles, for fillers, echoes and drawing. */
spot_rings area_spots(struct arena *arena, const struct arrangement *a,
                      const struct area *area);
/* The area as a shape, for echoes. */
struct shape area_shape(struct arena *arena, const struct arrangement *a,
                        const struct area *area);

/* Which faces have a stretch in common with one of these sources (`source[i]`
 * for segment i of the arrangement)? What ends inside of one counts, too. By
 * face. */
const bool *faces_touching(struct arena *arena, const struct arrangement *a,
                           const bool *source);

#endif
