/* The parts of the cutting section: drawings of the plan, to scale, from the
 * same strips and sheets as its text; labels. */
#ifndef SEAMWRIGHT_CUTTING_H
#define SEAMWRIGHT_CUTTING_H

#include "section.h"

/* How the cloth of one fabric is drawn. */
struct cloth_view {
    struct booklet *booklet;
    const struct fabric_plan *plan;
    double width; /* of the drawing, in points */
};

/* A strip as it lies folded, or as its last one does: selvages left, the fold
 * right, a red line for each cut and under it where the ruler stands.
 * requires: something is cut from it folded. */
struct box *draw_folded_strip(const struct cloth_view *view,
                              const struct strip *strip);
/* What is opened of it: one layer, with its crease. requires: something is. */
struct box *draw_opened_strip(const struct cloth_view *view,
                              const struct strip *strip);
/* Strips from which shapes are cut, opened: each way in which one is filled.
 * requires: a strip of shapes. */
struct box *draw_shapes(const struct cloth_view *view,
                        const struct strip *strip);
/* Lengthwise cloth, folded, on its side: its length from left to right. */
struct box *draw_lengthwise(const struct cloth_view *view,
                            const struct sheet *sheet);
/* A sheet or rest, one layer, each strip with its letter. A rest that is higher
 * than wide lies on its side. */
struct box *draw_sheet(const struct cloth_view *view,
                       const struct sheet *sheet);
/* How cloth is folded, and how a strip is cut from it. */
struct box *draw_fold(struct booklet *booklet);

/* The last part of the section: a label for each heap, to cut out. */
void add_cutting_labels(struct booklet *booklet,
                        const struct contents *contents);

#endif
