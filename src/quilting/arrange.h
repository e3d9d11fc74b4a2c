/* The exact arrangement of straight segments: cut at every meeting, stretches
 * that lie on each other merged, and the faces that they leave. Exact fractions
 * decide all: "ends in the corner" or "misses it by a hair".
 *
 * Faces: rings of points. On every ring the face lies at the right hand of the
 * way (y down), so outer rings run clockwise on paper and holes the other way
 * round. Pieces with one face on both sides (loose ends, bridges) bound
 * nothing and stand in no ring.
 */
#ifndef SEAMWRIGHT_ARRANGE_H
#define SEAMWRIGHT_ARRANGE_H

#include "fault.h"
#include "extent.h"

enum { FACE_OUTSIDE = -1 };

/* A stretch between two neighboring points; nothing meets it in between. */
struct arranged_piece {
    size_t from, to;    /* points; `from` is the lower by x, then by y */
    long right, left;   /* faces at the hands of the way from `from` to `to`,
                           or FACE_OUTSIDE */
    size_t first, last; /* its sources: [first, last) of `sources` */
};

/* Segments meet seldom more than twice on average where cloth is sewn. Above so
 * many cuts beyond four a segment (two for each meeting) they are not worked
 * out. */
enum { ARRANGE_CUTS = 400000 };

struct fans;
struct point_table;

struct arranged_ring {
    const size_t *points; /* of the arrangement, in the order of the way */
    const size_t *pieces; /* pieces[i] goes from points[i] to the next */
    size_t count;
};

struct arranged_face {
    const struct arranged_ring *rings; /* the outer one first, then holes */
    size_t count;
    double area;        /* in square units */
    struct spot inside; /* a point well inside */
};

struct arrangement {
    const struct vertex *points;
    const struct spot *spots; /* the same in doubles */
    size_t point_count;
    const struct arranged_piece *pieces;
    size_t piece_count;
    const size_t *sources; /* indices of the segments that cover a piece */
    const struct arranged_face *faces;
    size_t face_count;
    struct fault fault;
    const struct fans *fans; /* of arrange.c and its files alone */
    const struct point_table *table;
};

/* requires: known points. Segments without length are passed over.
 * ensures: an arrangement in the arena. Where its fault is not FAULT_NONE it
 *   is empty and the fault names the two segments (by index) whose meeting
 *   leaves the number type, or one segment with which the meetings are too many.
 * The frame of the top must be among the segments if its faces are wanted. */
struct arrangement *arrange_segments(struct arena *arena,
                                     const struct segment *segments,
                                     size_t count);

/* Twice the area inside a ring, below 0 for a hole; unknown where the sum
 * leaves the number type. */
number ring_double_area(const struct arrangement *a, struct arranged_ring ring);

/* The point with these coordinates, SIZE_MAX where there is none. */
size_t arrangement_point(const struct arrangement *a, struct vertex v);

/* A ring around faces of one label. */
struct labelled_ring {
    long label;
    bool hole;
    struct arranged_ring ring;
};
typedef LIST(struct labelled_ring) labelled_rings;

/* The rings around sets of faces, each joined over the pieces between its
 * faces: `label[f]` tells the set of face f, below 0 none. By label, outer
 * rings before holes, ways as above. Where a set touches itself in a point
 * only, its rings keep to their own sides of it. */
labelled_rings arrangement_outlines(struct arena *arena,
                                    const struct arrangement *a,
                                    const long *label);

#endif
