/* Drawings of the cutting plan, to scale, from the same strips and sheets as
 * its text. */
#ifndef SEAMWRIGHT_CUTTING_H
#define SEAMWRIGHT_CUTTING_H

#include "section.h"

/* How the cloth of one fabric is drawn. */
struct cloth_view {
    struct booklet *booklet;
    const struct fabric_plan *plan;
    double scale; /* points for one unit of length */
};

/* Left of every drawing, for heights of strips; beside a roll, the selvages. */
enum { DIMENSION_WIDTH = 34, SELVAGE_WIDTH = 4 };

/* The drawing of a strip across the cloth, from selvage to selvage, with its
 * height on the left. As wide as the cloth and what stands beside it. */
struct box *draw_strip(const struct cloth_view *view, const struct strip *strip);
/* The words "selvage", "fold", "selvage" above such drawings. */
struct box *draw_strip_head(const struct cloth_view *view);
/* A sheet with its strips numbered from `first` in the order of cutting, each
 * with its height. */
struct box *draw_sheet(const struct cloth_view *view, const struct sheet *sheet,
                       size_t first);

#endif
