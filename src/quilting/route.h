/* One long path: in which order and direction the lines of one thread and stage
 * are stitched, with few starts, little travel and few turns of the quilt. Pure
 * functions over a graph of points and straight pieces, in any one unit.
 *
 * The way (quilting decisions, our own). Points in which an odd number of
 * planned pieces end are where paths must begin or end, or from where the
 * needle travels on. An end costs half of what a start is worth, a quarter of
 * that at the edge of the quilt, where thread runs off into the batting and
 * needs no knot (christaquilts.com, 30 Sep 2015). Two odd points are worth
 * pairing by what their ends cost, less the way; pairs of the largest sum are
 * found exactly (match.h). Parts that stay apart and closed are joined by
 * travel there and back where that costs less than a start, the shortest first:
 * that step is not proved least. Then the path goes straight on at each
 * crossing, and closed paths are joined where the turn is least, as a quilt is
 * hard to turn under a home machine (kathykwylie.com, Machine Quilting
 * Sequence, June 2012). */
#ifndef SEAMWRIGHT_ROUTE_H
#define SEAMWRIGHT_ROUTE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "arena.h"
#include "spot.h"

/* Travel along a piece, besides the one time that it is planned. */
enum route_travel {
    ROUTE_TRAVEL_NONE,  /* never: a seam pressed open, a line that is not there,
                           or travel is not wanted */
    ROUTE_TRAVEL_DITCH, /* unseen, in the ditch: costs its length */
    ROUTE_TRAVEL_BACK   /* over a line that shows: costs three times that */
};

#define ROUTE_BACK_COST 3

/* A straight piece between two points. */
struct route_piece {
    size_t a, b;
    double length; /* >= 0; measured where the points are exact */
    bool planned;  /* to be stitched now, once */
    enum route_travel travel;
    bool by_eye; /* stands for stitching that goes every way: no turn of the
                    quilt comes of where it leads */
};

enum route_order {
    ROUTE_ACROSS,    /* the path nearest the middle first, then on to the right
                        (down), then the other half; from the left (the top) */
    ROUTE_CENTRE_OUT /* from the centre outwards, each from its inner end */
};

struct route_input {
    const struct spot *points;
    const bool *at_edge; /* of each point: on the edge of the quilt */
    size_t point_count;
    const struct route_piece *pieces;
    size_t count;
    double start_worth; /* in length of travel (24 in); 0: no travel at all */
    double bobbin;      /* line that one bobbin feeds (about 1,460 in); 0: no
                           limit */
    enum route_order order;
    struct spot centre; /* of the quilt */
};

/* One piece, sewn over once. */
struct route_step {
    size_t piece;
    bool backwards; /* from b to a */
    bool travel;    /* not the one time that it is planned */
    bool start;     /* a new path begins here; else it goes on from the step
                       before */
    bool turn;   /* the quilt is turned before it: since the last turn, or the
                    start, the direction changed by ROUTE_TURN or more */
    bool bobbin; /* a full bobbin is put in before it */
};

#define ROUTE_TURN 45 /* degrees; our choice */

struct route {
    LIST(struct route_step) steps;
    size_t starts;       /* paths */
    size_t starts_alone; /* paths without any travel: of each part that hangs
                            together, half its odd points or 1 */
    size_t starts_bound; /* paths that the pairs by themselves leave */
    size_t turns,
        changes; /* of the quilt; of the bobbin, the first not counted */
    double stitched, travelled; /* lengths */
    double cost;                /* ends and travel, as travel in the ditch */
    double bound; /* what ends and ways cost at least, whatever odd points are
                     paired. Where no point is at the edge no choice of paths
                     costs less; else one might, by an end at an even point of
                     the edge */
    bool proved;  /* the pairs are proved. False is a fault of the program */
};

/* requires: points of pieces below point_count; finite numbers.
 * ensures: paths that begin and end with planned pieces, sew over each of them
 * once, and besides only over pieces on which travel is allowed; `starts` <=
 * `starts_alone`. Costs are whole 24,000ths of a start: 1/1000 in where it is
 * worth 24 in. Nothing planned gives no step. */
struct route route_plan(struct arena *arena, const struct route_input *input);

#endif
