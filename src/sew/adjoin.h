/* Which fabrics lie beside each other in a quilt, and where first. */
#ifndef SEAMWRIGHT_ADJOIN_H
#define SEAMWRIGHT_ADJOIN_H

#include "cloth.h"

/* Two fabrics that share a piece of seam; `quilt` is NULL where they do not. */
struct adjoining {
    const struct sewn_quilt *quilt;
    struct vertex
        at; /* the middle of the first piece: topmost, then leftmost */
};

/* Fills the places of `table`, `fabrics` wide and high, for both orders of two
 * fabrics; pairs that another quilt has filled stay. Edges that touch in a
 * point share nothing. Faces are compared by their edges, sorted by line, so
 * time grows with n log n. Limit: an edge whose line has no name because a part
 * of a number passed 1,024 bits is passed over, and so is a cloth with points
 * that are unknown.
 * requires: a quilt with its cloth. */
void find_adjoining(const struct sewn_quilt *quilt, struct adjoining *table,
                    size_t fabrics);

/* ensures: the piece whose seam runs through the point; NULL for none. */
const struct piece *piece_of_seam(const struct cloth *cloth, struct vertex at);

#endif
