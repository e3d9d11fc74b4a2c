/* Where the fabric of a cloth changes: what is left of its seams for someone
 * who looks at it from afar. */
#ifndef SEAMWRIGHT_CLOTH_EDGES_H
#define SEAMWRIGHT_CLOTH_EDGES_H

#include "sewn.h"

struct cloth_edge {
    struct vertex from, to;
};
struct cloth_edges {
    LIST(struct cloth_edge) items;
};
/* requires: faces that do not overlap. ensures: the parts of their edges that
 * no two faces of one fabric share; those that go on in one line are one. */
struct cloth_edges cloth_edges(struct arena *arena, const struct cloth *cloth);

/* A rectangle of the quilt, finished. */
struct block_place {
    double x, y, width, height;
};
struct block_places {
    LIST(struct block_place) items;
};
/* ensures: where each block of the quilt lies. */
struct block_places block_places(struct arena *arena,
                                 const struct sewn_quilt *quilt);

#endif
