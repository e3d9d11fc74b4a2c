/* The rows of figures of one step, by what is done in it; steps.c puts heads
 * and parts above them. Each row has its captions and stays whole. */
#ifndef SEAMWRIGHT_STEPS_H
#define SEAMWRIGHT_STEPS_H

#include "frames.h"
#include "result.h"
#include "told_step.h"

struct step_view {
    struct booklet *booklet;
    const struct told_step *step;
    const struct heap *heap; /* what the step makes */
    int columns;             /* of the grid: 12, or 6 beside another step */
    double size;             /* 1, or less where figures have to be smaller */
    size_t told_in;          /* the step that tells the technique in full; this
                                one where they are equal, 0 for none */
};

struct rows {
    LIST(struct box *) items;
    size_t heads; /* so many of them come before the first figure */
};

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
