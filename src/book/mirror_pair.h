/* Two heaps that are mirror images, told apart. */
#ifndef SEAMWRIGHT_MIRROR_PAIR_H
#define SEAMWRIGHT_MIRROR_PAIR_H

#include "section.h"

/* ensures: a unit and its mirror image side by side with their names, where
 * `heap` is the later of the two; else NULL. */
struct box *mirror_pair(const struct booklet *booklet, const struct heap *heap);

#endif
