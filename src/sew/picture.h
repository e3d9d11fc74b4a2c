/* A block's picture, and any cloth seen as a picture: for each cell the
 * fabrics of its four quarters (top, right, bottom, left). */
#ifndef SEAMWRIGHT_PICTURE_H
#define SEAMWRIGHT_PICTURE_H

#include "cloth.h"

enum { QUARTER_MIXED = -2, QUARTER_EMPTY = -3 };

struct picture_cell {
    int quarters[4];
    struct span span; /* of the token, in the source */
};

struct picture {
    size_t across, down;
    struct rational cell_width, cell_height; /* in the cloth's unit */
    struct picture_cell *cells;              /* in reading order */
};

/* Reads the picture of a block.
 * ensures: the picture, or NULL. reports: tokens that cannot be read, rows of
 *   different length, a size that is not the block's. */
struct picture *read_picture(struct run *run, const struct sized *sized,
                             const struct definition *block);

/* The cloth as a picture with the cells of `like`. */
struct picture *picture_of(struct arena *arena, const struct cloth *cloth,
                           const struct picture *like);

/* Fills `differs` (a flag a cell) and gives the number of quarters that
 * differ. */
size_t picture_differences(const struct picture *a, const struct picture *b,
                           bool *differs);

/* "n", "n/f", "n\f", "n+f+g+f" in the fabrics' keys (or ids). */
const char *cell_text(struct arena *arena, const struct design *design,
                      const struct picture_cell *cell);

#endif
