/* Fillers: what covers an area evenly. Lines, grid and echo are worked out line
 * by line; swirls and pebbles are free-hand, with a sample and a law. */
#ifndef SEAMWRIGHT_FILL_H
#define SEAMWRIGHT_FILL_H

#include "shape.h"

enum fill_kind {
    FILL_LINES,
    FILL_GRID,
    FILL_SWIRLS,
    FILL_PEBBLES,
    FILL_ECHO,
    FILL_NONE
};

/* A direction in doubles, of any length above 0; y runs down, so rising is
 * (1, -1), falling (1, 1), across (1, 0), down (0, 1). */
struct fill_order {
    const struct spot_ring *rings; /* the area: outer ring and holes */
    size_t count;
    enum fill_kind kind; /* FILL_LINES or FILL_GRID: both ways */
    struct spot direction;
    /* One line of the family runs through this point: a point of the line that
     * is followed, or fill_center. */
    struct spot through;
    double spacing;
};
typedef LIST(struct spot_line) spot_lines;
struct fill_lines {
    spot_lines lines; /* from one side of the area to the other */
    struct fault fault;
};

/* Above so many lines of one area the answer is FAULT_LIMIT. Who fills many
 * areas counts all together. */
enum { FILL_MOST = 10000 };

/* Lines at multiples of the spacing, clipped to the area; what would lie on its
 * rim is left out. */
struct fill_lines fill_area(struct arena *arena,
                            const struct fill_order *order);

/* The middle of the box around the rings. */
struct spot fill_center(const struct spot_ring *rings, size_t count);

/* How long the stitching of a filler is, by the law of strips: a line whose
 * neighbors lie s away owns a strip s wide. A pebble of diameter d is a circle
 * and a half ("Anatomy of a Pebble", creativequiltingbydebbiestanton, April
 * 2015), packed as closely as circles go: sqrt(3) pi / d a square unit.
 * ensures: 0 for none. Echoes count as lines. */
double fill_length(enum fill_kind kind, double area, double spacing);

/* A drawn sample of free-hand stitching over a rectangle from (0, 0), for
 * swirls and pebbles: lines of points, each stitched without a stop. requires:
 * spacing > 0, and no more than 100 of it to a side. */
typedef LIST(struct spot_ring) fill_sample_lines;
fill_sample_lines fill_sample(struct arena *arena, enum fill_kind kind,
                              double width, double height, double spacing);

#endif
