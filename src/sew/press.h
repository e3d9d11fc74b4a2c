/* To which side each seam is pressed, and how a figure shows it. Each function
 * writes into the action that is being made; check_presses alone reports. */
#ifndef SEAMWRIGHT_PRESS_H
#define SEAMWRIGHT_PRESS_H

#include "sewer.h"

/* Chooses for the action: what the piece or its step says, else the trade's
 * rule. */
void choose_press(const struct sewer *sewer, const struct heap *heap,
                  struct action *action);

/* A second, fourth, ... row of a column whose seams nobody spoke of: it is
 * pressed to the left, as its neighbors go to the right. */
bool leans_left(const struct sewer *sewer, const struct heap *heap);

/* reports: words that no seam of their piece or step can follow. */
void check_presses(struct run *run, const struct design *design);

/* Adds the mark of a diagonal seam at `at`; (x, y) points to the part that was
 * added as input `next`. */
void press_diagonal(const struct sewer *sewer, const struct heap *heap,
                    struct action *action, struct vertex at, int x, int y,
                    size_t next);

/* Adds the mark of the seam before input `next`: the one on its left, or the
 * one above its row. */
void press_join(const struct sewer *sewer, const struct heap *heap,
                struct action *action, size_t next, bool above);

#endif
