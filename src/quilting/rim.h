/* The rim of what lies around the sides of a shape: the outer sides of its
 * pieces, less what lies inside of other pieces, put end to end. No library is
 * asked, so it is quick; where ends do not meet one to one (sides that close up
 * on each other, points where many meet) it says so, and the library's union is
 * asked instead. */
#ifndef SEAMWRIGHT_RIM_H
#define SEAMWRIGHT_RIM_H

#include "offset.h"

/* ensures: false where it cannot tell; else all rings of the rim, the thin ones
 * left out, with points only where they turn. */
bool rim_of_pieces(struct arena *arena, const struct spot_ring *shape,
                   size_t count, const struct offset_pieces *pieces,
                   bool inside, spot_rings *rim);

#endif
