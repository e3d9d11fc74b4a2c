/* The figures of page 2: parts of a block by their names, the quilt with its
 * borders, and the way from parts to quilt. Lengths are points; each figure
 * fills at most the box it is given. */
#ifndef SEAMWRIGHT_OVERVIEW_H
#define SEAMWRIGHT_OVERVIEW_H

#include "section.h"

/* The block apart, one of each unit that it repeats taken further apart; each
 * distinct part named once, outside. requires: a sewn heap. */
struct box *exploded_block(const struct booklet *booklet,
                           const struct heap *block, double width,
                           double height);
/* The top, with a name for each of its borders, from the inside. */
struct box *bordered_quilt(const struct booklet *booklet,
                           const char *const *names, double width,
                           double height);
/* Every step with number, name and count, each right of all that it takes; or,
 * where they are too many for `height`, a list of pictures. */
struct box *step_map(const struct booklet *booklet, double width,
                     double height);

/* ---- shared by them ---- */

/* A leader: a fine line with a white casing, and a dot where it ends. */
void draw_leader(const struct canvas *canvas, struct box *box,
                 const struct point *points, size_t count);
/* A finished cloth turned clockwise by quarters, so that its box begins at
 * (x, y). */
void draw_cloth(const struct booklet *booklet, struct box *box,
                const struct cloth *cloth, unsigned turn, double x, double y,
                double scale);

#endif
