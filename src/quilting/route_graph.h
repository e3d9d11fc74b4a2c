/* Inside the search for paths: costs, ways and trails. Only route*.c include
 * this. A half of a piece or pass is twice its number, one more at the end b.
 */
#ifndef SEAMWRIGHT_ROUTE_GRAPH_H
#define SEAMWRIGHT_ROUTE_GRAPH_H

#include "heap.h"
#include "route.h"

#define ROUTE_NONE UINT32_MAX
#define ROUTE_START 24000 /* a start, in whole costs */

/* One time that a piece is sewn over. */
struct route_pass {
    uint32_t piece;
    bool travel;
};

/* Halves in the order of the points that they leave. */
struct route_halves {
    uint32_t *first, *items; /* items[first[p]] up to items[first[p + 1]] */
};

/* Ways by Dijkstra's method: of each node that was reached in this search. A
 * point is two nodes: twice its number for ways that are free to go on, one
 * more for ways that may go on only to the next odd point (route_pairs.c). */
struct route_reach {
    int64_t *cost;
    uint32_t *via;    /* the half by whose other end it was reached */
    uint32_t *source; /* the point from which */
    uint32_t *seen;   /* the search in which it was reached */
    bool *settled;    /* its way is known: no other is shorter */
    uint32_t search;
    struct heap heap;
};

/* Two odd points that travel makes one way. */
struct route_pair {
    uint32_t from, to;
    int64_t way;
};

struct route_work {
    struct arena *arena; /* ends with the search */
    const struct route_input *input;
    int64_t *travel;            /* of each piece: what travel costs, or -1 */
    int64_t *worth;             /* of each point: what an end costs there */
    struct route_halves halves; /* of pieces on which travel is allowed */
    struct route_reach reach;
    LIST(struct route_pass) passes; /* all that is sewn */
    LIST(struct route_pair) pairs;
    int64_t bound;       /* the costs that the pairs leave */
    size_t starts_bound; /* see route.h */
    bool proved;
};

/* A path, or a ring whose end is its beginning: halves, from each of which the
 * pass is sewn to its other end. */
struct route_trail {
    uint32_t *halves;
    size_t count;
    bool closed;
};

struct route_trails {
    LIST(struct route_trail) items;
};

/* The point at a half of a piece, or of a pass. */
static inline uint32_t route_piece_point(const struct route_work *work,
                                         uint32_t half)
{
    const struct route_piece *piece = &work->input->pieces[half / 2];
    return (uint32_t)(half % 2 ? piece->b : piece->a);
}

static inline uint32_t route_point(const struct route_work *work, uint32_t half)
{
    return route_piece_point(work,
                             2 * work->passes.items[half / 2].piece + half % 2);
}

/* The direction in which a half of a piece leaves its point; 0 where the piece
 * has no length. */
struct spot route_way(const struct route_work *work, uint32_t piece_half);

/* Sorts the halves below `count` that are wanted (all, for NULL) by the points
 * that `point_of` tells. */
struct route_halves
route_halves(const struct route_work *work, size_t count, const bool *wanted,
             uint32_t (*point_of)(const struct route_work *, uint32_t));

/* Sets of numbers that grow together (union-find). */
uint32_t route_find(uint32_t *sets, uint32_t item);
uint32_t *route_sets(struct arena *arena, size_t count);

/* route_pairs.c: adds what is planned, pairs odd points, adds their ways. */
void route_pair_odd(struct route_work *work);

/* route_ways.c: begins a search; takes a point as a source; gives the next node
 * by its way, below `limit`, or ROUTE_NONE; goes on from it, to nodes that are
 * bound to end (1) or free (0). */
void route_reach_begin(struct route_work *work);
void route_reach_from(struct route_work *work, uint32_t point);
uint32_t route_reach_next(struct route_work *work, int64_t limit);
void route_reach_on(struct route_work *work, uint32_t node, uint32_t bound);

/* Whether this search found the way to a node. */
bool route_reached(const struct route_work *work, uint32_t node);

/* Adds travel from the source of a free node to its point, so many times. */
void route_travel_to(struct route_work *work, uint32_t point, int times);

/* route_join.c: joins closed parts to others where that is cheaper than a
 * start. */
void route_join_parts(struct route_work *work);

/* route_trails.c: the passes as as few trails as they make, straight on where
 * they cross. */
struct route_trails route_make_trails(struct route_work *work);

/* route_order.c: begins each trail where it is best, leaves out travel at its
 * ends, and brings trails in order. */
void route_order_trails(struct route_work *work, struct route_trails *trails);

#endif
