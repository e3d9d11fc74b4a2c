/* To which side each seam is pressed. Read next: bench.h. */
#ifndef SEAMWRIGHT_PRESS_H
#define SEAMWRIGHT_PRESS_H

#include "buffer.h"
#include "sewer.h"

/* Words of which a seam that follows one has another way to go. */
enum {
    PRESS_TURNS = PRESS_BIT(PRESS_LEFT) | PRESS_BIT(PRESS_UP) |
                  PRESS_BIT(PRESS_TOWARD_FABRIC)
};

/* How a seam of this piece is pressed: its own word, or its step's where that
 * fits the operation, else PRESS_RULE. The side can be asked of any piece; the
 * fabric only while its unit or block is at work, as it may be a role's. */
enum press_side stated_side(const struct sewer *sewer,
                            const struct piece *piece,
                            const struct operation *operation);
struct press stated_press(const struct sewer *sewer, const struct piece *piece,
                          const struct operation *operation);

/* The way that the plan has for seams that no word binds, as the piece lies; 0
 * where there is no plan, or nothing to choose: a flap goes to its corner. */
int planned_way(const struct sewer *sewer, const struct piece *piece,
                const struct operation *operation);

/* Which way the first row of a grid is pressed where its rows go to and fro: 1
 * for right, -1 for left, as the heap lies. */
int first_row_way(const struct sewer *sewer, const struct heap *heap,
                  const struct operation *operation);

/* What stands in a key for the plan's way, after the turn. */
void key_plan(const struct sewer *sewer, struct buffer *key,
              const struct heap *heap, unsigned turn,
              const struct operation *operation);

/* The side a word points to once the heap was turned: what is pressed to the
 * right and turned by half is pressed to the left. */
const char *turned_side(const struct heap *heap, enum press_side side,
                        unsigned turn);

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

/* The work of a piece, which its corners are sewn on. */
struct ref without_corners(const struct sewer *sewer, struct ref ref);

/* The way that the rules chose for seams of a piece that was sewn by them, as a
 * plan would tell it; 0 where that cannot be told of one heap. */
int ruled_way(const struct sewer *sewer, const struct piece *piece,
              const struct operation *operation);

/* From 0 to 1, by the first colorway. */
double fabric_lightness(const struct sewer *sewer, int fabric);
double heap_lightness(const struct sewer *sewer, const struct heap *heap);

/* Sets the side that a seam of the action is pressed to; 0, 0 for open. */
void press_seam(const struct sewer *sewer, const struct heap *heap,
                const struct action *action, struct sewn_seam *seam);

#endif
