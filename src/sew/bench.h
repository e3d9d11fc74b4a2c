/* The bench: one heap being sewn, and the operations that the crafts' programs
 * share. All geometry is in the heap's own place: real lengths, finished corner
 * at (0, 0). Read next: corners.c, the fullest program. */
#ifndef SEAMWRIGHT_BENCH_H
#define SEAMWRIGHT_BENCH_H

#include "craft.h"
#include "press.h"

struct bench {
    struct sewer *sewer;
    struct arena *arena;  /* gone once the heap is sewn */
    struct heap *heap;    /* gets actions and cloth */
    struct rational seam; /* the pattern's allowance */
};

/* An input's cloth, turned and put where it lies. */
struct cloth *placed(const struct bench *bench, const struct input *input);
/* What of input `index`, placed as `all`, stays in sight: without the allowances
 * that go under its neighbors. */
const struct cloth *seen_input(const struct bench *bench, size_t index,
                               const struct cloth *all);
/* What is sewn in the frame of `slanted` inputs, as it lies in the heap: turned
 * by an eighth, clockwise. */
struct cloth *slanted_cloth(const struct bench *bench,
                            const struct cloth *cloth);
/* A direction among eight, an eighth further clockwise. */
void turn_eighth(int *x, int *y);
/* Keeps the faces of `cloth` in a state, as input number `part` or WHOLE, moved
 * by so many gaps of the page; not where no page is drawn. */
void show(const struct bench *bench, struct state *state,
          const struct cloth *cloth, int part, int gap_x, int gap_y);
/* Keeps a line that is drawn, sewn or cut. */
void mark_line(const struct bench *bench, struct state *state,
               enum mark_kind kind, struct vertex from, struct vertex to);
/* The point (x, y) further on. */
struct vertex moved(struct vertex v, struct rational x, struct rational y);
/* The new action is the heap's last, its press chosen; the pointer holds until
 * the next one is added. */
struct action *add_action(const struct bench *bench,
                          const struct operation *operation);
/* The base is added first: words and figures count on it. */
void add_part(const struct bench *bench, struct action *action, size_t input);
/* The ends of the diagonal of a square with its top left finished corner at
 * (x, y), drawn over its seam allowances from corner to corner. */
void square_diagonal(const struct bench *bench, struct rational x,
                     struct rational y, struct rational size,
                     enum line_direction line, struct vertex *p,
                     struct vertex *q);
/* The line beside the diagonal from p to q of a square, a seam's width across
 * to the side (x, y), as far as the square goes. A width of s across a diagonal
 * is s * sqrt 2 along an edge; for drawing that may be rounded. Beyond a cut
 * lies waste. */
void mark_beside(const struct bench *bench, struct state *state,
                 enum mark_kind kind, struct vertex p, struct vertex q, int x,
                 int y);
/* A seam on a drawn diagonal, and the cut beside it, towards the waste. */
void mark_seam(const struct bench *bench, struct state *state, struct vertex p,
               struct vertex q, int waste_x, int waste_y);
/* The stitch line of a drawn diagonal, from corner to corner of the finished
 * square at (x, y); its sides are left to the caller. */
struct sewn_seam diagonal_seam(struct rational x, struct rational y,
                               struct rational size, enum line_direction line);
/* Adds the seam to the action and its press mark to what is seen after it. The
 * side that it is pressed to is chosen here, unless the caller did.
 * ensures: the seam as it lies in the cloth. */
struct seam sew_seam(const struct bench *bench, struct action *action,
                     struct sewn_seam seam);
/* Tells in the action which cloth its last seam is pressed to, where the darker
 * one was chosen or a cloth was named. */
void name_pressed_cloth(const struct bench *bench, struct action *action);
/* The flap turns over its seam. The mark crosses the line towards its right
 * end, so that words have room at the left one. */
void mark_turn(const struct bench *bench, struct state *state, struct vertex p,
               struct vertex q, struct rational size, int x, int y);

/* A seam's width across a diagonal, told along an edge: seam * sqrt 2, with
 * sqrt 2 as 47321/33461 (a convergent of its continued fraction, 3.2e-10 below
 * it). For drawn lines, and for cloth whose edges beyond the seams are only
 * looked at: no seam and no finished edge comes from it. */
struct rational diagonal_offset(const struct bench *bench);

/* join.c: seams between neighbors side by side, and between rows. */
extern const struct operation join_row, join_column;

/* corners.c: a square laid on a corner, sewn on its diagonal and flipped. */
extern const struct operation corner_flip;
/* One action: the squares from input `first` up to `last`, which is left out,
 * laid and sewn at one go on `*cloth`, which becomes what they make. */
void sew_corner_batch(const struct bench *bench, struct cloth **cloth,
                      size_t first, size_t last);
/* Moves a line from p (its left end) to q, the diagonal of a square, to the
 * side (x, y), its ends so far along the edges of the square. */
void beside(struct vertex *p, struct vertex *q, struct rational along, int x,
            int y);

/* ---- pair.c: two squares, right sides together, sewn along a diagonal ----
 * Both lie in one place, their finished corner at (0, 0). They are inputs 0 and
 * 1 of the heap. */
struct pair {
    const struct cloth *base; /* right side up */
    const struct cloth *laid; /* wrong side up */
    struct rational side;     /* finished: as cut, less two seams */
    enum corner_place kept;   /* the line cuts this corner off, and it stays */
};

/* What is seen before, and the line that is drawn. */
void lay_pair(const struct bench *bench, struct action *action,
              const struct pair *pair);
/* Sewn on the line, trimmed a seam beyond it, away from the kept corner; or
 * sewn on both sides of the line and cut on it. */
void mark_pair_on(const struct bench *bench, struct state *state,
                  const struct pair *pair);
void mark_pair_beside(const struct bench *bench, struct state *state,
                      const struct pair *pair);
/* ensures: the part at the kept corner, opened, without seams; beside the line
 * it is trimmed to the heap's size. */
struct cloth *sew_pair_on(const struct bench *bench, const struct pair *pair);
struct cloth *sew_pair_beside(const struct bench *bench,
                              const struct pair *pair);
/* The proof that squares suffice: ends the program where the length is below
 * the side times the square root of 2. reports: squares whose parts pass 1,024
 * bits. */
void prove_room(const struct bench *bench, struct rational length,
                struct rational side);
/* The stitch line in the finished heap, from the base to the laid square. */
struct sewn_seam pair_seam(const struct bench *bench, const struct pair *pair);

/* Takes what was made of the heap, its actions and its cloth, out of the
 * bench's arena into that of the run, where corners that lie alike are kept
 * once; the cloth gets the heap's size. */
void keep_work(struct sewer *sewer, struct heap *heap);

/* Puts the heap on the bench, has its craft sew it, and proves its outline. */
void sew_on_bench(struct sewer *sewer, struct heap *heap);

#endif
