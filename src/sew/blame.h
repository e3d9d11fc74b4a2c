/* Inside the search for the mistake that makes a block differ from its
 * picture. */
#ifndef SEAMWRIGHT_BLAME_H
#define SEAMWRIGHT_BLAME_H

#include "craft.h"
#include "picture.h"

enum { MOST_CHANGES = 8, WORK_LIMIT = 400000, ALL_WORK_LIMIT = 800000 };

struct blame {
    struct slips slips; /* what crafts see of it; first, as it leads back */
    struct run *run;
    const struct sized *sized;
    const struct definition *block;
    const struct picture *wanted;
    struct change changes[MOST_CHANGES]; /* mistakes found so far */
    size_t change_count;
    bool *differs; /* cells that differ, with those changes */
    size_t differences;
    bool *trial; /* the same for the change on trial */
    /* the best change of this round */
    struct change best;
    size_t best_differences;
    size_t work;   /* faces looked at */
    size_t before; /* the same, for blocks before this one */
};

/* Reports the change that mends the block, as the mistake that it mends. */
void say_change(struct blame *blame, const struct change *change);
/* Reports what no single change mends. */
void say_rest(struct blame *blame);

/* blame_rows.c, of pictures of triangles: tries what a map may have wrong;
 * reports another patch in a place; tells of one part what the picture asks for
 * and the cloth shows: in a note, as a mend of the picture, as a message. */
void try_places(struct blame *blame, const struct piece *piece);
struct diagnostic *say_patch(struct blame *blame, const struct change *change);
void note_row_part(struct blame *blame, struct diagnostic *d, size_t part);
void mend_row_part(struct blame *blame, struct diagnostic *d, size_t part);
void say_row_part(struct blame *blame, size_t part);

/* True where a quarter of a cell shows two fabrics. */
bool picture_hides(const struct picture *made);
/* The fewest cells across in which the cloth can be drawn; 0 for none. */
size_t picture_cells_needed(const struct cloth *cloth);
/* Reports that the picture has too few cells for the cloth that it hides. */
void say_hidden(struct blame *blame, const struct cloth *cloth,
                const struct picture *made);

#endif
