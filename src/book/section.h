/* The sections of a booklet, in their order; each adds its boxes to the flow.
 */
#ifndef SEAMWRIGHT_SECTION_H
#define SEAMWRIGHT_SECTION_H

#include "claims.h"
#include "content.h"
#include "figure.h"
#include "flow.h"
#include "told_step.h"

/* A figure that can be asked for alone. */
struct named_box {
    const char *name, *title;
    LIST(struct box *) parts;      /* under each other */
    const struct heap_name *cloth; /* of a finished unit or block; else NULL */
};

/* Swatches that were made, of a fabric and a side in points. */
struct kept_swatch {
    int fabric;
    double side;
    struct box *box;
};

struct booklet {
    struct flow flow;
    struct wording wording; /* with typographic signs */
    const struct design *design;
    const struct sewn_quilt *quilt;
    const struct cutplan *plan; /* of one quilt and colorway */
    bool preview;               /* only the cover, page 2 and the first step */
    LIST(struct named_box) named;
    LIST(struct kept_swatch) swatches; /* parts lists have thousands of few */
};

/* Sections tell here what they draw, so that a figure alone is the box of the
 * booklet (named.c). The box stays the caller's and is not changed. */
void name_quilt_figure(struct booklet *booklet, const struct box *box);
/* Forgets those that were named since there were `count` of them, as another
 * way to put them on the page was chosen. */
void unname_figures(struct booklet *booklet, size_t count);
/* Several of one step stand below each other. */
void name_step_figure(struct booklet *booklet, const struct heap *heap,
                      struct box *box);
/* The finished units and blocks, which the booklet shows only with their
 * allowances. requires: called once, last. */
void name_cloth_figures(struct booklet *booklet);
/* `text` says in words what is drawn. */
void name_cutting_figure(struct booklet *booklet, int fabric, size_t number,
                         const char *text, const struct box *box);

/* The page of line drawings, whether the booklet has room for it or not. */
void name_coloring_figure(struct booklet *booklet, const char *title,
                          struct box *box);
/* One of quilting; `title` tells it in words, too. */
void name_quilting_figure(struct booklet *booklet, const char *name,
                          const char *title, const struct box *box);
/* Those of quilting that no page shows: areas with their fillers, and the
 * largest places without stitching. Nothing where none is planned. */
void name_area_figures(struct booklet *booklet);
void name_gaps_figure(struct booklet *booklet);

/* ensures: the cloth without its seam allowances, as it will be seen. */
struct cloth *finished_cloth(struct arena *arena, const struct cloth *cloth);

/* requires: an empty flow. The others follow in the order in which they stand
 * here; each begins with its own heading. */
void section_cover(struct booklet *booklet);
void section_glance(struct booklet *booklet);
void section_cutting(struct booklet *booklet);
void section_sewing(struct booklet *booklet);   /* to the last stitch */
struct portions;
void section_quilting(struct booklet *booklet,
                      struct portions *portions); /* within it */
void section_quilting_marks(struct booklet *booklet);
/* Line drawings to color, and marks to check ruler and machine by. */
void section_coloring(struct booklet *booklet);
void section_scale(struct booklet *booklet);
/* The last page, for those who have not opened the booklet yet. */
/* The packet for a tester, all of it. */
void section_proof(struct booklet *booklet, struct testers testers);
void section_back(struct booklet *booklet);

/* A panel with each sign and its words; it stays with what follows. */
struct box *legend_box(struct booklet *booklet, const struct told_list *signs);

/* A swatch that is not told apart by colour alone: it carries the letter. */
const struct box *swatch_box(struct booklet *booklet, int fabric, double side);
/* The same in any colorway. */
struct box *swatch_of(const struct canvas *canvas,
                      const struct colorway *colorway, int fabric, double width,
                      double side);
/* The same of a cloth of an order. */
struct box *told_swatch_box(const struct canvas *canvas,
                            const struct told_swatch *swatch, double width,
                            double side);

#endif
