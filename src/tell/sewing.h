/* The frames of one step, by what is done in it. */
#ifndef SEAMWRIGHT_SEWING_H
#define SEAMWRIGHT_SEWING_H

#include "contents.h"
#include "told_step.h"

/* A step on its way to contents. */
struct sewing {
    const struct wording *w;
    const struct cutplan *plan;
    const struct told_step *step;
    const struct heap *heap; /* what the step makes */
    struct told_work *work;  /* gets the frames */
    const double *takes;     /* by heap: seams_take */
};

/* Corners, diagonals, squares: laid, drawn, sewn, cut, pressed. */
void add_technique_frames(const struct sewing *sewing);
/* Parts side by side and below each other. requires: joins alone. */
void add_join_frames(const struct sewing *sewing);
/* Borders from the inside, with a table of their lengths. requires: borders
 * alone, without pieces at their corners. */
void add_border_frames(const struct sewing *sewing);
bool is_border_step(const struct sewing *sewing);

/* Under the figures, what stands for each of their parts in another size. */
void add_sizes(const struct sewing *sewing);
/* Are the others of the step of its own size, in other fabrics? */
bool are_casts(const struct sewing *sewing);

/* "Press the seam to the left. It measures 2 × 2 in." */
const char *result_caption(const struct sewing *sewing,
                           const struct action *action, const char *trim);
/* "⅛ in smaller? Each seam is about 1⁄64 in too wide.": where a block or the
 * center is measured; "" elsewhere. */
const char *checkpoint(const struct sewing *sewing);
/* What is seen of a result, in words. */
const char *result_told(const struct sewing *sewing);

#endif
