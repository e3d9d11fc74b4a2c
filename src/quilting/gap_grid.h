/* Inside the search for the gap: stitching in a grid of cells, and the bound of
 * one square. Only gap*.c include this. */
#ifndef SEAMWRIGHT_GAP_GRID_H
#define SEAMWRIGHT_GAP_GRID_H

#include <stdint.h>

#include "gap.h"

struct gap_line {
    struct spot from;
    double dx, dy, length2; /* to its end; the square of its length */
};

struct gap_disk {
    struct spot at;
    double radius;
};

/* Lists of line numbers by cell, or by row: those of place i are
 * items[first[i]] up to items[first[i + 1]]. */
struct gap_lists {
    uint32_t *first, *items;
};

struct gap_grid {
    double width, height;
    struct gap_line *lines;  /* segments, edges of the quilt, sides of rings */
    size_t count, ring_from; /* sides of rings stand from `ring_from` on */
    double cell;             /* side of a cell */
    size_t across, down;
    struct gap_lists cells;
    double row; /* height of a row of sides of rings */
    size_t rows;
    struct gap_lists ring_rows;
    const struct gap_disk *disks; /* circles that were found already; numbered
                                     behind the lines */
    size_t disk_count;
};

#define GAP_NONE SIZE_MAX

/* The stitching next to a place. In a filled area: GAP_NONE, 0, and how deep in
 * it the place lies at least. */
struct gap_near {
    size_t number;
    double distance, depth;
};

/* requires: `hint` the number of any stitching, best one that is near. */
struct gap_near gap_near(const struct gap_grid *grid, struct spot place,
                         size_t hint);

/* How far it is from a place to one line, or to one disk. A convex function. */
double gap_apart(const struct gap_grid *grid, size_t number, struct spot place);

/* The unit vector from the next point of one stitching to the place; 0 on it.
 */
struct spot gap_away(const struct gap_grid *grid, size_t number,
                     struct spot place);

/* A square, or nearly one: half its width and height. */
struct gap_square {
    struct spot at;
    double half_x, half_y;
    struct gap_near near; /* of its middle */
    double bound;         /* no place of it is farther from stitching */
};

/* ensures: a bound for a square whose `near` is known, as sharp as it needs to
 * be to come down to `enough`, or as it gets. */
double gap_square_bound(const struct gap_grid *grid,
                        const struct gap_square *square, double enough);

#endif
