/* The work is done in a process of its own, so that its end can be told. */
#ifndef SEAMWRIGHT_SUPERVISE_H
#define SEAMWRIGHT_SUPERVISE_H

#include "driver.h"

/* Runs `work` in a child of this process and waits for it. Where a library
 * gives up by a signal, that is told as what it is; signals of the user end
 * this process, too. What the child left unfinished beside the place of its
 * output is removed. requires: no thread but this one, nothing buffered.
 * ensures: the status to leave with. */
int supervise(int (*work)(const struct options *),
              const struct options *options);

#endif
