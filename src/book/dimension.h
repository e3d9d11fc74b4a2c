/* Sizes beside what is drawn: a line with oblique ends (ISO 129-1), in the
 * second ink. Lengths are points. */
#ifndef SEAMWRIGHT_DIMENSION_H
#define SEAMWRIGHT_DIMENSION_H

#include "box.h"

/* From (x, y) to the right or, `down`, downwards: the outline that is measured
 * begins there. Line and words stand above it or to the left, DIMENSION_SPACE
 * in all. */
#define DIMENSION_SPACE MM(7.0)
void draw_dimension(const struct canvas *canvas, struct box *box, double x,
                    double y, double length, bool down, const char *text);
/* The same below an outline whose lower edge begins at (x, y). */
void draw_dimension_below(const struct canvas *canvas, struct box *box,
                          double x, double y, double length, const char *text);
/* Between two parallel edges that are drawn already, square to them: `from` is
 * the end of one, `to` of the other, both at the edge of the cloth, beyond which
 * they run on in the direction `up`, of length 1. Words stand at the right, or,
 * where `up` runs to the left, there. requires: a line from `from`, square to
 * the edges, meets the other one beyond the cloth. */
void draw_distance(const struct canvas *canvas, struct box *box,
                   struct point from, struct point to, struct point up,
                   const char *text);
/* How far above the cloth that reaches. */
double distance_space(struct point from, struct point to, struct point up);

#endif
