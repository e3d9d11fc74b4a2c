/* All that is stitched or sewn as one graph in doubles: cut at every meeting,
 * points that are nearer than 1e-6 in to each other are one. For paths and for
 * comparing lines; areas come from the exact arrangement. */
#ifndef SEAMWRIGHT_NODES_H
#define SEAMWRIGHT_NODES_H

#include "quilter.h"

/* A stretch between two points that nothing comes to in between. */
struct node_piece {
    size_t a, b; /* points */
    double length;
    size_t line; /* of the plan; QUILTING_NONE for a seam that is not quilted */
    bool ditch;  /* in a seam that is pressed to one side */
};

struct nodes {
    const struct spot *points;
    size_t point_count;
    const struct node_piece *pieces;
    size_t count;
};

/* Lines that cross are cut into more pieces than there are lines: a grid of
 * 1/4 in on a quilt of 108 x 108 in is 400,000. */
enum { NODES_MOST = 1000000 };

/* Of the lines of the plan and, if `seams`, of the seams between them. NULL
 * where there are more than NODES_MOST.
 * reports: that, at the element whose line is one too many. */
struct nodes *find_nodes(struct quilter *quilter, struct arena *arena,
                         bool seams);

#endif
