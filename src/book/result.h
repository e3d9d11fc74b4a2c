/* The result of a step: sizes on two sides, how many to make. */
#ifndef SEAMWRIGHT_RESULT_H
#define SEAMWRIGHT_RESULT_H

#include "section.h"

/* Points above and to the left of a result that its dimensions take. */
enum { RESULT_MARGIN = 31 };

/* requires: the figure of a heap's last state. ensures: the same with the
 * heap's unfinished size above and at the left, and its count below. */
struct box *result_box(const struct booklet *booklet, const struct heap *heap,
                       const struct box *figure);
/* The same in words. */
const char *result_told(const struct booklet *booklet, const struct heap *heap);

/* Words in a filled box. */
struct box *badge(const struct canvas *canvas, const char *text);

#endif
