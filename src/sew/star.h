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

/* The heap of a star and its key, for the row of the craft: see craft.h. */
struct ref build_star(struct sewer *sewer, const struct piece *piece,
                      struct rational factor, bool mirror);
void key_star(struct sewer *sewer, struct buffer *key, const struct heap *heap,
              unsigned turn);

#endif
