/* A cover on its way: which facts and candidates are still open. Shared by the
 * reductions (cover.c) and the search (cover_search.c). */
#ifndef SEAMWRIGHT_COVER_SEARCH_H
#define SEAMWRIGHT_COVER_SEARCH_H

#include "cover.h"

struct cover {
    struct arena *arena;
    const struct cover_problem *problem;
    bool *needed;  /* by fact: not brought yet */
    bool *allowed; /* by candidate: may still be chosen */
    bool *chosen;
    LIST(size_t) * bringing;    /* by fact: all candidates that bring it */
    struct cover_weight weight; /* of the chosen */
    size_t work;
};

static inline size_t cover_work_left(const struct cover *cover)
{
    return cover->work < cover->problem->most_work
               ? cover->problem->most_work - cover->work
               : 0;
}

/* Branch and bound on what the reductions left. requires: each needed fact has
 * an allowed candidate. ensures: chosen candidates that bring all, added to
 * those before; the least weight that was proven. */
struct cover_weight search_cover(struct cover *cover);

#endif
