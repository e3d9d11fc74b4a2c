/* What one assembly needs: counted in the design, place by place. Read next:
 * steps.c, which compares. */
#ifndef SEAMWRIGHT_NEEDS_H
#define SEAMWRIGHT_NEEDS_H

#include "sewer.h"

/* How often a use stands in one `of`, its rows and columns multiplied. */
struct use_count {
    const struct piece *use;
    long count;
};

/* What one `of` takes of one unit, block or piece with an id, at one scale;
 * mirrored ones are needs of their own where they are heaps of their own. */
struct need {
    const struct definition *make; /* of a unit or block, else NULL */
    const struct piece *piece;     /* with an id, else NULL */
    bool mirror;
    size_t heap; /* in the sewer's spare list */
    long count;
    bool chiral; /* mirrored ones are another heap than plain ones */
    bool told;   /* that no step makes it: said already */
    LIST(struct use_count) uses; /* where, and how often */
    const struct piece *first_use;
    size_t last_step; /* that makes it, from 1; 0 for none */
    size_t next;      /* of the same root, from 1; 0 for none */
};

/* The use was counted last at this place of this need, from 1. */
struct last_count {
    size_t need, place;
};

struct needs {
    struct sewer *sewer;
    const struct assembly *assembly;
    bool by_name; /* sizes are not known: what is of one name is one heap */
    LIST(struct need) items;
    size_t *first; /* the need of this root, by piece index, from 1; 0: none */
    struct last_count *last; /* by piece index of the use */
    const bool *pressed;     /* of find_pressed */
};

/* ensures: by definition index, whether it says of some seam how it is pressed.
 */
const bool *find_pressed(struct arena *arena, const struct design *design);

/* Counts all that what the assembly is of needs, sewn at this scale.
 * requires: all but the items. ensures: the items, in the order in which they
 * are met; what has an assembly of its own is counted, but not entered. */
void collect_needs(struct needs *needs, struct rational factor);
/* "1 + 1 + 30 = 32", a term for each place where it is used. So that a designer
 * finds the row that was forgotten. */
const char *count_sum(struct needs *needs, const struct need *need);

#endif
