/* The result of a step: sizes on two sides. */
#ifndef SEAMWRIGHT_RESULT_H
#define SEAMWRIGHT_RESULT_H

#include "section.h"

/* Points above and to the left of a result that its dimensions take. */
#define RESULT_MARGIN MM(10.5)

/* requires: the figure of a heap's last state. ensures: the same with the
 * heap's unfinished size above and at the left. */
struct box *measured_cloth(const struct booklet *booklet,
                           const struct heap *heap, const struct box *cloth);

#endif
