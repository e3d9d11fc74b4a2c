/* owner: tell
 *
 * The steps of a booklet: what hands do between the parts of a unit and the
 * unit.
 */
#ifndef SEAMWRIGHT_TOLD_STEP_H
#define SEAMWRIGHT_TOLD_STEP_H

#include "wording.h"

/* A part that a step takes, of all that the quilt needs. */
struct told_part {
    size_t heap;
    size_t count; /* for the whole quilt */
};

struct told_step {
    size_t number; /* from 1 */
    size_t heap;   /* what it makes */
    const char *title;
    size_t count;       /* how many of it the quilt needs */
    LIST(size_t) heaps; /* sewn in it, in the order of sewing; `heap` last */
    LIST(struct told_part) parts; /* what it takes from outside, each once */
};

struct told_steps {
    LIST(struct told_step) items;
};

/* ensures: the steps of the wording's quilt in the order of their numbers. */
struct told_steps tell_steps(const struct wording *w);

/* Is one done as the other is, so that telling it once is enough? */
bool told_alike(const struct heap *a, const struct heap *b);

#endif
