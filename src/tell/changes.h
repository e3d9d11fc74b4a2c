/* Inside telling of changes: facts of a revision as words. */
#ifndef SEAMWRIGHT_CHANGES_H
#define SEAMWRIGHT_CHANGES_H

#include "told_changes.h"

const char *change_length(const struct change_wording *w,
                          struct rational length);
/* With its unit. */
const char *change_size(const struct change_wording *w, struct rational width,
                        struct rational height);
/* "" for NOWHERE. `side` is 0 for the old revision. */
const char *change_fabric(const struct change_wording *w, int side, int fabric);
/* "Step 3, Wing (Dusk), comes out otherwise"; `all_casts`: "Step 3, Wing, ...".
 * requires: a change of a step. */
const char *change_step_title(const struct change_wording *w,
                              const struct change *change, bool all_casts);
/* A piece of the quilt with count, cloth and size. */
const char *change_piece(const struct change_wording *w,
                         const struct revision_quilt *quilt, int side,
                         int index);

#endif
