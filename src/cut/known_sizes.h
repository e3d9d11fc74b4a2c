/* All sizes that a pattern has, of any quilt and colorway. */
#ifndef SEAMWRIGHT_KNOWN_SIZES_H
#define SEAMWRIGHT_KNOWN_SIZES_H

#include "cutplan.h"

struct known_size {
    struct rational width, height;
    bool length;       /* a length alone: both are the same */
    const char *owner; /* the id of what has it, or NULL */
    enum size_as as;   /* which of the owner's sizes */
    size_t order;      /* of finding: names come before what has none */
};

/* Distinct, smaller ones first. */
struct known_sizes {
    struct arena *arena;
    LIST(struct known_size) items;
};

struct known_sizes find_known_sizes(struct arena *arena,
                                    const struct cutplans *plans);

#endif
