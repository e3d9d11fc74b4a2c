/* To which side each seam is pressed. Read next: bench.h. */
#ifndef SEAMWRIGHT_PRESS_H
#define SEAMWRIGHT_PRESS_H

#include "sewer.h"

/* How a seam of this piece is pressed: its own word, or its step's where that
 * fits the operation, else PRESS_RULE. */
struct press stated_press(const struct sewer *sewer, const struct piece *piece,
                          const struct operation *operation);

/* Chooses for the action: what the piece or its step says, else the trade's
 * rule. */
void choose_press(const struct sewer *sewer, const struct heap *heap,
                  struct action *action);

/* A second, fourth, ... row of a column whose seams nobody spoke of: it is
 * pressed to the left, as its neighbors go to the right. */
bool leans_left(const struct sewer *sewer, const struct heap *heap,
                const struct operation *operation);

/* From 0 to 1, by the first colorway. */
double fabric_lightness(const struct sewer *sewer, int fabric);

/* Sets the side that the seam is pressed to; 0, 0 for open. */
void press_seam(const struct sewer *sewer, const struct heap *heap,
                const struct press *press, struct sewn_seam *seam);

#endif
