/* The top as lines see it that run over it: which cloth lies where, and which
 * seams a line comes to. Made once for a top, asked many times. */
#ifndef SEAMWRIGHT_GROUND_H
#define SEAMWRIGHT_GROUND_H

#include "arrange.h"
#include "grid.h"

struct face_side;

struct ground {
    const struct cloth *cloth;
    struct extent extent; /* the finished top */
    struct grid *faces, *seams;
    struct grid *pieces;           /* of the base */
    const struct spot_line *boxes; /* of the faces */
    /* The sides of face f begin at `first_side[f]`, one more entry at the end.
     */
    const struct face_side *sides;
    const size_t *first_side;
    const struct spot_line *seam_spots; /* the seams in doubles */
    const struct straight *seam_lines;
    /* The arrangement of all seams (segments 0 ...) and the rim (the four
     * behind them), and the cloth of each of its faces: its fabric, and which
     * faces hang together over seams: all of one number. */
    const struct arrangement *base;
    const int *fabric;
    const size_t *part;
};

/* ensures: where `base->fault` is a fault, `fabric` and `part` are empty. */
struct ground *ground_of(struct arena *arena, const struct cloth *cloth);

/* The fabric at a point: that of the face whose sides are farthest away, so a
 * point on a seam gets one of the two. NO_FABRIC off the top. */
int ground_fabric(const struct ground *ground, struct spot at);

/* The fabric of each face of an arrangement with all seams where it lies, and
 * the parts that hang together over pieces between faces of one fabric: the
 * number of one of their faces. */
void ground_parts(const struct ground *ground, const struct arrangement *a,
                  int *fabric, size_t *part);

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

/* Is the cloth that begins at `from` on the way through `toward` this fabric at
 * both hands of the way? Asked a hair (1e-5) onwards. */
bool ground_opens(const struct ground *ground, struct vertex from,
                  struct vertex toward, int fabric);

#endif
