/* Buckets over the top, in doubles: which segments (or boxes) could come near a
 * stretch. Finds some too many, never one too few. */
#ifndef SEAMWRIGHT_GRID_H
#define SEAMWRIGHT_GRID_H

#include <stdbool.h>

#include "arena.h"
#include "spot.h"

struct grid;

/* Buckets for `count` segments, each by its own cells.
 * requires: `lines` stays. Cells are about as many as segments. */
struct grid *grid_of_lines(struct arena *arena, const struct spot_line *lines,
                           size_t count);
/* The same for boxes from `from` (low) to `to` (high). */
struct grid *grid_of_boxes(struct arena *arena, const struct spot_line *boxes,
                           size_t count);

/* Those in the cells that the stretch runs through, each once, in no order.
 * ensures: `*found` is good until the next question. Not for two threads. */
size_t grid_along(struct grid *grid, struct spot_line stretch,
                  const size_t **found);
/* Those in the cells of a box, from low to high. */
size_t grid_within(struct grid *grid, struct spot_line box,
                   const size_t **found);
/* The same as they rise, in an arena of one's own: `*count` of them. */
size_t *grid_numbers(struct arena *arena, struct grid *grid,
                     struct spot_line box, size_t *count);
/* Those in the cell of a point. */
size_t grid_at(struct grid *grid, struct spot at, const size_t **found);

/* The box around points; from low to high. requires: one at least. */
struct spot_line box_around(const struct spot *points, size_t count);
/* Have two boxes, each a little wider, a place in common? Lies the spot in the
 * box, a little wider? */
bool boxes_meet(struct spot_line one, struct spot_line other);
bool box_holds(struct spot_line box, struct spot at);

/* How far the spot lies from the nearest place of the stretch. */
double spot_to_line(struct spot at, struct spot_line stretch);

/* Are both ends of `other` on one side of the line of `one`, and that by far
 * more than doubles lose? Then the two do not meet. */
bool clearly_beside(struct spot_line one, struct spot_line other);

#endif
