/* Pairs of the largest weight in a graph: each point in one pair at most,
 * points may stay alone. Exact, in whole numbers, and proved in each run.
 *
 * The way: blossoms and duals (J. Edmonds, Maximum matching and a polyhedron
 * with 0,1-vertices, 1965, cited from memory). The trees of all points that are
 * alone grow at once; edges wait in a heap for the moment at which they become
 * tight, O(points * edges * log) at worst, and near to edges * log where points
 * lie on a plane. Duals are twice those of the books and begin even: all points
 * of trees are joined by tight edges to their roots, which have moved alike, so
 * their duals are all odd or all even, and halves never come up. */
#ifndef SEAMWRIGHT_MATCH_H
#define SEAMWRIGHT_MATCH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "arena.h"

struct match_edge {
    size_t a, b;    /* two different points */
    int64_t weight; /* below MATCH_HEAVIEST; one of 0 or less is never taken */
};

#define MATCH_HEAVIEST ((int64_t)1 << 40)
#define MATCH_ALONE SIZE_MAX

struct matching {
    size_t *mate;   /* of each point, or MATCH_ALONE */
    size_t *edge;   /* by which it is paired, or MATCH_ALONE */
    int64_t weight; /* of all pairs */
    int64_t *dual;  /* of each point, >= 0, twice that of the books */
    bool proved;    /* the duals hold each edge and weigh, with those of the
                       blossoms, exactly twice the pairs. False is a fault of
                       the program: to be told by internal_error */
};

/* requires: each edge between points below `points`, with a != b; the same two
 * may have several edges.
 * ensures: pairs of the largest sum of weights; the same for the same input.
 * The result lies in `arena`. */
struct matching match_heaviest(struct arena *arena, size_t points,
                               const struct match_edge *edges, size_t count);

#endif
