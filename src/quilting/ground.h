/* The top as lines see it that run over it: which cloth lies where, and which
 * seams a line comes to. Made once for a top, asked many times. */
#ifndef SEAMWRIGHT_GROUND_H
#define SEAMWRIGHT_GROUND_H

#include "fault.h"
#include "grid.h"
#include "straight.h"

struct ground {
    const struct cloth *cloth;
    struct extent extent; /* the finished top */
    struct grid *faces, *seams;
    const struct spot_line *boxes;      /* of the faces */
    const struct spot_line *seam_spots; /* the seams in doubles */
    const struct straight *seam_lines;
};

struct ground *ground_of(struct arena *arena, const struct cloth *cloth);

/* The fabric at a point: that of the face whose sides are farthest away, so a
 * point on a seam gets one of the two. NO_FABRIC off the top. */
int ground_fabric(const struct ground *ground, struct spot at);

/* A place along a line where it comes to a seam, another line or the edge. */
struct stop {
    struct vertex at;
    bool seam, edge; /* it lies on a seam that crosses or ends there; on the
                        rim of the top */
    /* The fabrics beside the stretch that begins here, as far as the next stop;
     * they differ where that stretch runs along a seam. NO_FABRIC at the end.
     */
    int right, left;
};
typedef LIST(struct stop) stops;

/* The way from `from` to `to`: both ends and all seams between, in order.
 * requires: both on the top, not the same. ensures: `*fault` as for the
 *   arrangement, with seams as its indices. */
stops ground_walk(struct arena *arena, const struct ground *ground,
                  struct vertex from, struct vertex to, struct fault *fault);

/* Where the line leaves the rectangle on the way from a point in it (or on its
 * rim) through `toward`; `from` itself where it leaves at once. */
struct vertex extent_exit(struct extent extent, struct vertex from,
                          struct vertex toward);

#endif
