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

/* The way in which a row or column leans so that it nests with the one beside
 * it, as its piece lies; PRESS_RULE where somebody spoke of its seams, or where
 * it need not lean. */
enum press_side lean_of(const struct sewer *sewer, const struct heap *heap,
                        const struct operation *operation);

/* Where all seams between the parts of a row or column go: x or y is 1 or -1,
 * as the piece lies in its source; 0, 0 where they are open, go to both sides,
 * or are not sewn yet. */
struct way {
    int x, y;
};
struct way way_of(const struct sewer *sewer, const struct piece *piece,
                  struct rational factor, bool mirror);

/* From 0 to 1, by the first colorway. */
double fabric_lightness(const struct sewer *sewer, int fabric);

/* Sets the side that the seam is pressed to; 0, 0 for open. */
void press_seam(const struct sewer *sewer, const struct heap *heap,
                const struct press *press, struct sewn_seam *seam);

#endif
