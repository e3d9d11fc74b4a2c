/* The rows of figures of one step, by what is done in it; steps.c puts heads
 * and parts above them. Each row has its captions and stays whole. */
#ifndef SEAMWRIGHT_STEPS_H
#define SEAMWRIGHT_STEPS_H

#include "frames.h"
#include "portion.h"
#include "result.h"
#include "told_step.h"

struct step_view {
    struct booklet *booklet;
    const struct told_step *step;
    const struct heap *heap; /* what the step makes */
    int columns;             /* of the grid: 12, or 6 beside another step */
    double size;             /* of figures, of their usual one */
    size_t told_in;          /* the step that tells the technique in full; this
                                one where they are equal, 0 for none */
};

struct rows {
    LIST(struct box *) items;
    size_t heads; /* so many of them come before the first figure */
};

/* `columns` is 12 for a step of its own and 6 for one of a pair. */
struct step_view view_of(struct booklet *booklet,
                         const struct told_steps *steps, size_t index,
                         int columns, double size);
/* Head, parts and notes, then its figures; all as wide as the view. Names the
 * figures. */
struct rows step_rows(const struct step_view *view);
/* The same definition in the same size, once as designed and once mirrored:
 * such a pair is shown side by side. */
bool are_mirrored(const struct heap *a, const struct heap *b);
/* Adds the first `count` steps. */
void step_portions(struct booklet *booklet, const struct told_steps *steps,
                   size_t count, struct portions *portions);
/* Backing, layers and binding go on with the numbers of the steps; their
 * section has a head of its own. Nothing is added that the source does not ask
 * for. */
void finishing_portions(struct booklet *booklet, struct portions *portions);
/* Between two steps, at least. */
#define STEP_GAP MM(6.6)
/* What a frame leaves for a figure, in the view's size: never more than there
 * is. */
double view_room(const struct step_view *view, int columns, bool result);

/* Corners, diagonals, squares: laid, drawn, sewn, cut, pressed. */
void technique_rows(const struct step_view *view, struct rows *rows);
/* Parts side by side and below each other. requires: joins alone. */
void join_rows(const struct step_view *view, struct rows *rows);
/* Borders from the inside, with a table of their lengths. requires: borders
 * alone, without pieces at their corners. */
void border_rows(const struct step_view *view, struct rows *rows);
bool is_border_step(const struct step_view *view);

/* One of the scales that figures have: the largest under which what scales and
 * what does not fit the room together; smaller ones where none of them does. */
double step_scale(const struct booklet *booklet, struct figure_size scaled,
                  struct figure_size fixed, double width, double height);
/* "Press the seam to the left. It measures 2 × 2 in." */
const char *result_caption(const struct step_view *view,
                           const struct action *action, const char *trim);
/* The first block that takes the heap, pale, with this unit's places in full
 * color. ensures: a box of at most that side; NULL where no block takes it, or
 * it is all of the block. */
struct box *where_it_goes(struct booklet *booklet, size_t heap, double side);

#endif
