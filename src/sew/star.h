/* Inside of stars: their pieces, as star_parts.c gathers them for star.c, which
 * sews them. Read next: star.c. */
#ifndef SEAMWRIGHT_STAR_H
#define SEAMWRIGHT_STAR_H

#include "bench.h"

enum { POINTS = 8, QUARTERS = 4 };
/* The inputs: diamonds, then squares from the top left, then triangles from the
 * top. */
enum { FIRST_SQUARE = POINTS, FIRST_TRIANGLE = FIRST_SQUARE + QUARTERS };
enum { PARTS = FIRST_TRIANGLE + QUARTERS };

/* Adds the inputs to a recipe whose `of.star` is told. */
void add_star_parts(struct sewer *sewer, struct heap *recipe);
/* Its key, for the row of the craft: see craft.h. */
void key_star(struct sewer *sewer, struct buffer *key, const struct heap *heap,
              unsigned turn);

#endif
