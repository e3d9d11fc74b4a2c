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

#endif
