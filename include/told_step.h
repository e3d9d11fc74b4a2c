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
    bool shared;  /* the same in all casts that are sewn in the step; the count
                     is that of all of them */
};

/* A list of parts has a type of its own, as functions hand it on. */
struct told_parts {
    LIST(struct told_part) items;
};

/* The same in another size or in other fabrics: its parts stand in the order of
 * the step's own. */
struct told_size {
    size_t heap;
    size_t count;
    struct told_parts parts;
};

struct told_step {
    size_t number; /* from 1 */
    size_t heap;   /* what it makes */
    const char *title;
    size_t count;       /* how many of it the quilt needs */
    LIST(size_t) heaps; /* sewn in it, in the order of sewing; `heap` last */
    struct told_parts parts;      /* what it takes from outside, each once */
    LIST(struct told_size) sizes; /* others that are sewn alike */
};

struct told_steps {
    LIST(struct told_step) items;
};

/* ensures: the steps of the wording's quilt in the order of their numbers. */
struct told_steps tell_steps(const struct wording *w);

/* Is the heap sewn in the step of one of its size, in other fabrics? */
static inline bool is_other_cast(const struct sewn_quilt *quilt, size_t heap)
{
    const size_t like = quilt->heaps.items[heap].like;
    return like != heap && rational_equal(quilt->heaps.items[heap].factor,
                                          quilt->heaps.items[like].factor);
}

/* A block that the quilt has and that hands sew, not only cut. */
static inline bool is_sewn_block(const struct heap *heap,
                                 const struct heap_name *name)
{
    return heap->technique != TECHNIQUE_CUT && name->count > 0 &&
           name->definition->kind == DEFINE_BLOCK;
}

/* How many seams join parts of a heap before an action; in all for NULL. */
size_t seams_in(const struct heap *heap, const struct action *action);

/* The same definition in the same size, once as designed and once mirrored. */
bool are_mirrored(const struct heap *a, const struct heap *b);

/* Is one done as the other is, so that telling it once is enough? */
bool told_alike(const struct heap *a, const struct heap *b);

#endif
