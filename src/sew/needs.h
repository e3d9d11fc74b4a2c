/* Inside the sewing stage: what an assembly takes, counted place by place.
 * needs.c counts, steps.c compares. */
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
};

struct needs {
    struct sewer *sewer;
    const struct assembly *assembly;
    bool by_name; /* sizes are not known: what is of one name is one heap */
    LIST(struct need) items;
};

/* Walks the plan as it is, cell by cell: a grid of 30 uses is 30. What has an
 * assembly of its own is counted, but not entered: that assembly checks it. */
void collect_needs(struct needs *needs, const struct piece *piece,
                   struct rational factor, bool mirror);
/* "1 + 1 + 30 = 32", a term for each place where it is used. So that a designer
 * finds the row that was forgotten. */
const char *count_sum(struct needs *needs, const struct need *need);

#endif
