/* Figures of what comes after the top, from the plan: nothing in them has a
 * size of its own but what the paper gives. Lengths are points. */
#ifndef SEAMWRIGHT_FINISHING_FIGURES_H
#define SEAMWRIGHT_FINISHING_FIGURES_H

#include "section.h"

/* Their height is alike, as they stand in one row. */

/* The panels from behind: seams, what is trimmed off, the size.
 * requires: a backing is wanted. */
struct box *backing_figure(struct booklet *booklet, double width);
/* Top, batting and backing apart, seen from above at a slant.
 * requires: batting is wanted. */
struct box *layers_figure(struct booklet *booklet, double width);
/* The top in work, lines as far apart as the batting allows; where nothing is
 * stated, without a size. */
struct box *quilting_figure(struct booklet *booklet, double width);

/* Binding strip and edge of the quilt at one scale. */
struct binding_view {
    struct booklet *booklet;
    double width, height;         /* of each figure */
    double strip, folded, seam;   /* as drawn */
    struct path_item laid, wrong; /* the strip folded, from behind, */
    struct path_item done;        /* and when it is sewn down */
    struct path_item quilt, back;
};
/* `size`: of the figures, of their usual one; seven tenths at least.
 * requires: a binding is wanted. */
struct binding_view binding_view(struct booklet *booklet, double width,
                                 double size);

/* In the order of the work. */
struct box *binding_join(const struct binding_view *view);
struct box *binding_fold(const struct binding_view *view);
struct box *binding_start(const struct binding_view *view, const char *tail);
struct box *binding_stop(const struct binding_view *view);
struct box *binding_up(const struct binding_view *view);
struct box *binding_down(const struct binding_view *view);
struct box *binding_close(const struct binding_view *view);
struct box *binding_back(const struct binding_view *view, double width);

#endif
