/* What may lack in a row, a column or a grid: parts.c collects the pieces,
 * lacking.c tries them. */
#ifndef SEAMWRIGHT_LACKING_H
#define SEAMWRIGHT_LACKING_H

#include "mender.h"

enum { PIECES_MOST = 24 };

/* A piece that may lack. */
struct kind_of_piece {
    const char *text;
    const struct element *like; /* is written so; NULL where none is */
    const char *fabric;         /* of a plain patch, else NULL */
};

/* What lacks a piece, and what may be put into it. */
struct lack {
    const struct element *parent;
    struct kind_of_piece kinds[PIECES_MOST];
    size_t count;
    size_t most; /* trials */
};

/* A piece of its own, no row, column or grid of others. */
bool is_single(const struct element *element);
bool holds_single(const struct element *parent);
/* The element on one line, as messages name lines. */
const char *flat_text(const struct mender *mender,
                      const struct element *element);
/* A patch that takes what is left of its row. */
struct kind_of_piece patch_of(const struct mender *mender, size_t fabric);
/* Units that are not used, pieces as they are written, then plain patches. */
void fill_kinds(struct mender *mender, struct lack *lack);
/* Once for each text. */
void add_kind(struct lack *lack, struct kind_of_piece kind);
/* The same but for sizes. */
bool alike(const struct kind_of_piece *a, const struct kind_of_piece *b);
/* The piece that a cell of a picture is drawn as: triangles, where it is of
 * several fabrics. NULL where it is of one. */
const char *drawn_text(const struct mender *mender, struct span cell);
/* The tag with another value of the attribute, written or not, or without it
 * where the value is empty. NULL for what has children. */
const char *with_value(const struct mender *mender, const char *tag,
                       const char *name, const char *value);
/* What the tag has for the attribute, or NULL. */
const char *value_in(const struct mender *mender, const char *tag,
                     const char *name);

#endif
