/* Inside the planner of bolts: the best cuts of one roll, at a worth a cut, for
 * all kinds of rolls at once. */
#ifndef SEAMWRIGHT_BOLTS_FILL_H
#define SEAMWRIGHT_BOLTS_FILL_H

#include "bolts_store.h"

/* Like cuts that are taken together: a power of two, or the rest. */
struct bolts_layer {
    size_t cut, pieces;
    int64_t length, worth;
};

/* What can be cut is known by its sum: `sums` has all that the cuts can add up
 * to, rising, up to the longest roll. */
struct bolts_filler {
    const struct bolts_store *store;
    int64_t *sums;
    size_t count;
    int64_t *best;        /* by sum: the most that cuts of it are worth */
    unsigned char *taken; /* by layer and sum */
    struct bolts_layer *layers;
    size_t layer_count, most_layers;
};

/* ensures: false where there are too many sums. */
bool bolts_filler_init(struct bolts_filler *filler, struct arena *arena,
                       const struct bolts_store *store);

/* Fills for these worths by cut, with at most `most` of each. */
void bolts_fill(struct bolts_filler *filler, struct bolts_store *store,
                const int64_t *worth, const size_t *most);

/* The best filling of a kind after bolts_fill. ensures: its worth with the
 * factors; `at` gets its place among the sums. A roll that is not opened is no
 * filling: the worth may be below 0. */
bolts_wide bolts_fill_best(const struct bolts_filler *filler, size_t kind,
                           const struct bolts_factors *factors, size_t *at);

/* The cuts of that filling. */
void bolts_fill_made(const struct bolts_filler *filler, size_t at,
                     size_t *made);

#endif
