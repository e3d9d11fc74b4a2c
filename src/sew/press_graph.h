/* Which way each seam is pressed, as a graph that knows no cloth. A node is
 * what one word presses: the seams of one operation of a piece, wherever they
 * lie. An edge is where seams of two nodes meet. Which way a node goes is 1 (as
 * it went when it was looked at) or -1. Read next: press_plan.c, which makes
 * one. */
#ifndef SEAMWRIGHT_PRESS_GRAPH_H
#define SEAMWRIGHT_PRESS_GRAPH_H

#include <stdint.h>

#include "sewn.h"

struct press_node {
    const struct piece *piece;
    const struct operation *operation;
    bool fixed; /* goes 1, whatever is wished: stated, or to its corner */
    int64_t folded[2];  /* ends of seams that its seams fold, where it goes -1
                           and 1 */
    int64_t lighter[2]; /* thousandths of the pattern's unit that go towards
                           the lighter cloth, where it goes -1 and 1 */
    int ruled;          /* the way that the rules choose; 0 where unknown */
    int way;            /* as solved */
    size_t first_edge;  /* number, from 1, of the last that was added with it as
                           its lower end; 0 for none */
};

/* Once for each pair of nodes; a node may meet itself. */
struct press_edge {
    size_t ends[2];            /* the lower first */
    int64_t pairs[2];          /* of seams in the quilt that collide where both
                                  go different ways, and one way */
    const struct piece *where; /* the first that joins them */
    size_t next;               /* of the same lower end; 0 for none */
};

struct press_graph {
    LIST(struct press_node) nodes;
    LIST(struct press_edge) edges;
    bool proved;  /* no other ways have fewer collisions */
    size_t steps; /* of searches that may still be taken */
};

/* Adds to the edge between two nodes, in either order. `alike`: they collide
 * where both go one way. */
void graph_meet(struct arena *arena, struct press_graph *graph, size_t a,
                size_t b, bool alike, int64_t pairs, const struct piece *where);

/* Sets the ways such that the fewest pairs collide, of these the fewest ends of
 * seams are folded, of these the least length goes towards the lighter cloth,
 * and of these the fewest nodes go against the rules. Exact for parts of the graph that can nest, and for others as far as
 * its steps go; then `proved` is false. Deterministic. */
void graph_solve(struct press_graph *graph);

/* Two nodes of pieces that were made as one: they are to go alike, or against
 * each other where `sign` is -1. */
struct press_tie {
    size_t first, other; /* no node is the other of two */
    int sign;
};
/* The same as graph_solve, with as many ties kept as cost no pair, as far as 60
 * trials tell. Ties stand behind those of their first node. */
void graph_solve_tied(struct press_graph *graph, const struct press_tie *ties,
                      size_t count);

/* Pairs of the edge, or of all, that collide as it is solved. */
int64_t edge_collisions(const struct press_graph *graph, size_t edge);
int64_t graph_collisions(const struct press_graph *graph);

/* An odd ring through an edge that collides: nodes, of which each meets the
 * next and the last the first; none can go a way in which all nest. Fixed
 * nodes may stand side by side in it without meeting.
 * ensures: how many; the array is in `arena`. */
size_t graph_ring(struct arena *arena, const struct press_graph *graph,
                  size_t edge, size_t **nodes);

/* Pieces that can be pressed open so that all nests that hangs together with an
 * edge of those that `seeds` marks: as few as can be, where `fewest` is set;
 * else what a greedy choice finds, which need not be `enough`. */
struct press_opens {
    LIST(const struct piece *) pieces;
    bool fewest, enough;
};
struct press_opens graph_opens(struct arena *arena,
                               const struct press_graph *graph,
                               const bool *seeds);

#endif
