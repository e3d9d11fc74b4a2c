/* The largest circle without stitching: how far apart the quilting holds the
 * batting. Pure functions of what is stitched; lengths are in any one unit, in
 * the frame of spot.h, and gaps are diameters.
 *
 * The way (quilting decisions, our own; a branch and bound): the top is cut
 * into squares. Where the middle of a square of half side h lies d away from
 * the stitching, no place of it is farther than d + h * sqrt 2, as a distance
 * grows no faster than the way. The square with the largest bound is quartered
 * until what is known decides. A square between two or three lines has a
 * sharper bound (gap_square.c), so that lines which lie exactly so far apart as
 * they may need no finer squares than others. */
#ifndef SEAMWRIGHT_GAP_H
#define SEAMWRIGHT_GAP_H

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "spot.h"

struct gap_ring {
    const struct spot *points; /* closed: the last meets the first */
    size_t count;
};

/* What holds the batting. `segments` are stitched lines, also of length 0.
 * `rings` bound filled areas by the even-odd rule, outlines and holes in any
 * order and direction; areas may touch but not overlap. The whole of an area
 * counts as stitched: its filler's own spacing is checked by who asks. The four
 * edges of the quilt count as stitched, as the binding is sewn there. What lies
 * outside the quilt is no place for a circle, but holds as well. */
struct gap_input {
    double width, height; /* of the finished top, > 0 */
    const struct spot (*segments)[2];
    size_t count;
    const struct gap_ring *rings;
    size_t ring_count;
};

/* The largest circle's diameter lies in [least, most]; `at` is the centre of an
 * open circle of diameter `least`. */
struct gap {
    double least, most;
    struct spot at;
    bool proved; /* most - least is what was asked for; false only where
                    GAP_WORK squares were not enough */
};

/* What `gap_holds` found. */
enum gap_verdict {
    GAP_HOLDS,     /* most <= limit + slack */
    GAP_TOO_LARGE, /* least > limit + slack, and `at` shows it */
    GAP_OPEN       /* neither within GAP_WORK squares, or nearer than 1e-9 of
                      the limit to limit + slack: to be taken as too large */
};

/* Squares that are looked at, at most: some ten seconds. */
#define GAP_WORK 20000000

/* Stitching made ready for questions: as good as its input lives, in `arena`.
 */
struct gap_grid;
struct gap_grid *gap_grid(struct arena *arena, const struct gap_input *input);

/* requires: x, y on the quilt.
 * ensures: how far it is to the next stitching, 0 in a filled area. */
double gap_distance(const struct gap_grid *grid, struct spot place);

/* requires: limit, slack > 0.
 * ensures: whether no circle is larger than limit + slack, and in `found` the
 * figures by which that was decided. A gap of `limit` itself holds whatever
 * rounding does to it, if slack is well over 1e-9 of the quilt's width (1/1000
 * in is). */
enum gap_verdict gap_holds(struct arena *scratch, const struct gap_grid *grid,
                           double limit, double slack, struct gap *found);

/* requires: within > 0. ensures: most - least <= within, or most <= smallest, or
 * not `proved`. Gaps up to `smallest` are not told apart: between areas filled
 * by eye each seam is a gap of no width, and to find that takes long. */
struct gap gap_largest(struct arena *scratch, const struct gap_grid *grid,
                       double smallest, double within);

/* The largest open circles, none of which overlap: the largest of all, then the
 * largest beside it, and so on, as long as they are larger than `limit` and
 * fewer than `most` (<= GAP_CIRCLES); each to `within`. Written to `gaps`;
 * returns how many. */
#define GAP_CIRCLES 64
size_t gap_circles(struct arena *scratch, const struct gap_grid *grid,
                   double limit, double within, size_t most, struct gap *gaps);

#endif
