/* What a sashing and its cornerstones are made of. */
#ifndef SEAMWRIGHT_SASHING_H
#define SEAMWRIGHT_SASHING_H

#include "resolver.h"

struct sashing {
    const struct element *element, *stone; /* `stone` may be NULL */
    /* What lies upright between neighbors, level between rows, and where both
     * cross; a piece of the designer's is one for both, turned. */
    const struct piece *upright, *level, *crossing;
    bool turned;
};

/* Makes the pieces of a sashing that stands in `whole`. requires: the element.
 * ensures: false where it is not told. reports: a sashing of nothing, or of two
 * things. */
bool read_sashing(struct resolver *resolver, const struct piece *whole,
                  struct sashing *sashing);

/* ensures: the first child of that kind, or NULL. */
const struct element *child_of_kind(const struct element *element,
                                    enum element_kind kind);

/* A press that nobody spoke of. */
struct press press_by_rule(const struct element *element);

#endif
