/* The solved geometry of a definition, without seams: what the source means.
 * A what-if changes one thing in it, to find the mistake in a block that is
 * not its picture. */
#ifndef SEAMWRIGHT_DESIGN_FACES_H
#define SEAMWRIGHT_DESIGN_FACES_H

#include "cloth.h"

enum change_kind {
    CHANGE_NONE,
    CHANGE_LINE,              /* a diagonal's or half-square's line */
    CHANGE_ORIENTATION,       /* of a use */
    CHANGE_CORNER_PLACE,      /* of corner number `first` */
    CHANGE_FABRIC,            /* fabric number `first` of a piece */
    CHANGE_CORNER_FABRIC,     /* of corner number `first` */
    CHANGE_FABRICS_EXCHANGED, /* numbers `first` and `second` of a piece */
    CHANGE_CELL,              /* orientation of cell `first` of a map */
    CHANGE_SWAP,              /* cells `first` and `second` exchanged */
    CHANGE_PATCH,             /* cell `first` of rows of triangles is another
                                 patch, of `fabric` */
    CHANGE_WORD               /* another choice of an attribute */
};

struct change {
    enum change_kind kind;
    const struct piece *piece;
    struct orientation
        orientation;      /* what it would be, for CHANGE_ORIENTATION */
    enum corner_place at; /* for CHANGE_CORNER_PLACE */
    int fabric;           /* for both changes of a fabric, and of a patch */
    size_t first, second;
    /* for CHANGE_WORD, one a piece: */
    enum attribute_id attribute;
    int choice;               /* index into its choices */
    const char *found, *word; /* as it is, as it would be */
};

/* ensures: the faces of the piece in the local unit of its definition,
 * `changes` applied. */
struct cloth *design_faces(struct arena *arena, const struct sized *sized,
                           const struct piece *piece,
                           const struct change *changes, size_t count);

/* ensures: the cloth of a definition with what plays its roles in their place.
 */
struct cloth *cloth_cast(struct arena *arena, struct cloth *cloth,
                         const struct design *design,
                         const struct definition *definition, const int *cast);

#endif
