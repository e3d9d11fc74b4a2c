/* What a point cannot see over one cloth, told at once for most directions, so
 * that few lines of sight are walked. Errs to one side: what it calls hidden is
 * hidden; what it does not is still to be asked. */
#ifndef SEAMWRIGHT_SIGHT_H
#define SEAMWRIGHT_SIGHT_H

#include <stdint.h>

#include "ground.h"

/* Where cloth of one fabric ends, by place. */
struct sight {
    const struct ground *ground;
    int fabric;
    const struct spot_line *walls;
    const size_t *parts; /* whose cloth ends at each wall, or NO_PART */
    size_t count;
    struct grid *by_place;
    double reach; /* about so far a point looks at walls */
};
struct sight sight_over(struct arena *arena, const struct ground *ground,
                        int fabric);

/* Directions, clockwise from the right as numbers from 0 to 4, that walls near
 * a point fill; none overlap, in order. */
struct hidden {
    double from, to;
};
struct sectors {
    const struct hidden *items;
    size_t count;
};
enum { MOST_PARTS = 4 };
#define NO_PART SIZE_MAX
struct view {
    struct spot at;
    /* The parts of the cloth (ground.h) that the point lies at: no line leaves
     * its part. More than MOST_PARTS, or none: not known. */
    size_t parts[MOST_PARTS], part_count;
    double near; /* nothing nearer than this is hidden by `behind` */
    struct sectors behind;
    struct sectors closed; /* where another cloth begins at the point itself */
};
struct view view_from(struct arena *arena, const struct sight *sight,
                      struct spot at);

/* Is the one certainly hidden from the other? Who is hidden from the one cannot
 * see it either; mostly one of the two tells. */
bool are_hidden(const struct view *one, const struct view *other);

#endif
