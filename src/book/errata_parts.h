/* Between the files that draw the figures of an errata sheet. */
#ifndef SEAMWRIGHT_ERRATA_PARTS_H
#define SEAMWRIGHT_ERRATA_PARTS_H

#include "errata.h"

/* Of more faces than these it is a quilt, mostly; it is drawn larger. */
#define CLOTH_SIDE MM(36.0)
#define LARGE_SIDE MM(52.0)

/* The first colorway of the quilt as bolts, as drawings ask for. */
const struct colorway *errata_colors(struct arena *arena,
                                     const struct revision *revision,
                                     const struct revision_quilt *quilt);
/* A place of the cloth, in points from the corner of its box. */
struct point errata_point(struct vertex at, double scale);
/* The old one at the left and the new one at the right, each above its caption
 * and so wide; told in words for who does not see them. */
struct box *errata_both(const struct canvas *canvas, struct box *drawings[2],
                        const char *const captions[2], double width);
/* ensures: false where the cloth of one is not at hand: an older build wrote
 * the data, parts do not tell it, or only one revision has the step. */
bool errata_cloths(const struct canvas *canvas,
                   const struct revision_quilt *const quilts[2],
                   const struct change *change,
                   const struct revision_step *steps[2],
                   const struct errata_cloth *cloths[2]);
/* Points to a unit of length, for both. */
double errata_scale(const struct errata_cloth *const cloths[2]);
/* The cloth in `box`, pale, as lines and arrows are drawn on it; `seams`: with
 * those between its faces. */
void errata_pale_cloth(const struct canvas *canvas, struct box *box,
                       const struct cloth *cloth,
                       const struct colorway *colors, double scale,
                       bool seams);

/* Another way to the same cloth; lines of quilting. NULL as errata_figure. */
struct box *press_figure(const struct canvas *canvas,
                         const struct change_wording *w,
                         const struct change *change,
                         const struct revision_quilt *const quilts[2]);
struct box *quilting_difference(const struct canvas *canvas,
                                const struct change_wording *w,
                                const struct revision_quilt *const quilts[2]);

#endif
