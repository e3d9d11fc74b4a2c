/* A block's picture, and any cloth seen as a picture: for each cell the
 * fabrics of its four quarters (top, right, bottom, left). */
#ifndef SEAMWRIGHT_PICTURE_H
#define SEAMWRIGHT_PICTURE_H

#include "cloth.h"

/* What the picture of a definition shows: its root, or a quilt with its
 * borders.
 */
static inline const struct piece *
pictured_piece(const struct definition *definition)
{
    return definition->picture_borders ? definition->whole : definition->root;
}

/* Of a quarter that shows no one fabric. */
enum { QUARTER_MIXED = -2, QUARTER_EMPTY = -3 };

/* What a face lies in, in whole units, rounded outwards: faces whose boxes are
 * apart share no area, and most are. */
struct whole_box {
    int64_t left, top, right, bottom;
};
struct whole_box whole_box_of(struct face face);
bool boxes_apart(struct whole_box a, struct whole_box b);

/* A convex part of a picture that is told as polygons: what is seen of a
 * shape when those after it were painted over it. */
struct painted {
    struct face face; /* without points where nothing of it is seen any more */
    struct span span; /* of the shape */
    struct whole_box box;
    size_t order; /* of painting */
};

struct picture {
    LIST(struct painted) painted; /* empty where told as cells */
    /* Painted as triangles in rows: in each of `down` rows `across`, the first
     * and the last of them halves. */
    bool triangles, first_down;
    bool ends; /* the halves have cells of their own, told by the designer */
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

/* How many parts a picture has that can differ: cells, or painted faces. */
size_t picture_parts(const struct picture *picture);

/* Compares cloth with a picture of either kind: fills `differs`, a flag a
 * part, and gives how much differs (quarters of cells, or painted faces). */
size_t picture_compare(struct arena *arena, const struct cloth *cloth,
                       const struct picture *picture, bool *differs);

/* Reads the picture of a quilt, told as cells (setting_picture.c).
 * ensures: what it asks for as painted faces, or NULL. reports: as
 * read_picture, and pieces that are not as large as their cells. */
struct picture *read_setting_picture(struct run *run, const struct sized *sized,
                                     const struct definition *quilt);

/* Reads the picture of a quilt whose center is rows of triangles
 * (row_picture.c).
 * ensures: each triangle as a painted face, in reading order, or NULL.
 * reports: as read_picture, and rows that do not fill the center. */
struct picture *read_row_picture(struct run *run, const struct sized *sized,
                                 const struct definition *block);
/* Of a part of such a picture: "triangle 3 (down) of row 2", "the
 * half at the left end of row 2". */
const char *row_place(struct arena *arena, const struct picture *picture,
                      size_t part);

/* The one fabric that the cloth shows in all of a face; NO_FABRIC where it is
 * not one. */
int fabric_shown(struct arena *arena, const struct cloth *cloth,
                 struct face face);

/* Reads a picture told as polygons (paint.c). */
struct picture *paint_picture(struct run *run, const struct sized *sized,
                              const struct definition *block);

/* Fills `differs` (a flag a cell) and gives the number of quarters that
 * differ. */
size_t picture_differences(const struct picture *a, const struct picture *b,
                           bool *differs);

/* "n", "n/f", "n\f", "n+f+g+f" in the fabrics' keys (or ids). */
const char *cell_text(struct arena *arena, const struct design *design,
                      const struct picture_cell *cell);

#endif
