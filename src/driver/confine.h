/* What a command needs of the file system, and nothing else. */
#ifndef SEAMWRIGHT_CONFINE_H
#define SEAMWRIGHT_CONFINE_H

#include "driver.h"

/* Gives up, where the kernel can hold the process to it, all but reading the
 * files that are named and the folders they lie in (a photo lies there), and
 * writing beside the output. Elsewhere it does nothing, and says nothing: the
 * program is the same without. requires: no thread but this one.
 * ensures: true where the kernel holds to it. */
bool confine(struct arena *arena, const struct options *options);

#endif
