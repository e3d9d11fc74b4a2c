/* owner: mend
 *
 * What a mistake is, told by the least change: every mend that is offered was
 * tried on the source in memory, and where one change alone makes all that the
 * source says agree, that is the mistake.
 */
#ifndef SEAMWRIGHT_MEND_H
#define SEAMWRIGHT_MEND_H

#include "sized.h"

/* Trials for one source in search of one mistake; with those in search of a
 * second one. */
enum { MEND_TRIALS = 400, MEND_TRIALS_OF_TWO = 720 };

/* Looks for the cause of the errors that were reported, and rewrites them.
 * requires: all passes up to the one that found errors; `sized` may be NULL
 *   where there is no tree to speak of.
 * ensures: each mend that is left leaves nothing of its cause; messages of one
 *   cause are one message. The number of trials. */
size_t mend_mistakes(struct run *run, const struct sized *sized);

#endif
