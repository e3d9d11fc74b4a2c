/* What lies within a distance of the sides of a shape, in convex pieces: their
 * union is what an echo leaves out (inside) or takes in (outside). The pieces
 * are ours, as buffers of the library, shrunk with pointed corners, lose narrow
 * parts behind such a corner (about one in 16,000 echoes of random shapes), and
 * more where a shape touches itself in a point. */
#ifndef SEAMWRIGHT_OFFSET_H
#define SEAMWRIGHT_OFFSET_H

#include "shape.h"

struct offset {
    double distance;
    bool inside;  /* at the right hand of the rings, where the shape is */
    bool rounded; /* at corners that open: a fan of chords, else a kite up to
                     its point, cut off beyond 20 times the distance */
    double chord; /* how far chords may leave their arc */
};

/* A rectangle for each side, a kite or fan for each corner that opens to that
 * hand. Pieces that touch share their points to the last bit. */
struct offset_pieces {
    spot_rings pieces; /* convex */
    LIST(struct spot_line)
    outer; /* those of their sides that lie away from the
              shape, walked as its rings are */
};
struct offset_pieces offset_pieces(struct arena *arena,
                                   const struct spot_ring *rings, size_t count,
                                   struct offset offset);

/* Is the ring thinner than 1e-6 in? Then it is a rounding, no echo. */
bool ring_is_thin(struct spot_ring ring);
/* Does the ring turn to the right at all corners? */
bool ring_is_convex(struct spot_ring ring);
/* What is left inside of a convex ring; count 0 where nothing is. */
struct spot_ring offset_convex(struct arena *arena, struct spot_ring ring,
                               double distance);

#endif
