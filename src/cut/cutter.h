/* Inside the cutting stage. What the files of this folder tell each other. One
 * cutter makes one plan. Read next: cut.c. */
#ifndef SEAMWRIGHT_CUTTER_H
#define SEAMWRIGHT_CUTTER_H

#include "cutplan.h"

struct cutter {
    struct run *run;
    const struct design *design;
    const struct pattern *pattern; /* units, seam, cutting step, allowance */
    struct cutplan *plan;          /* the one that is made */
};

/* Fills the items of all fabrics: pieces, borders, binding. */
void gather_items(struct cutter *cutter);

/* First fit, longest first: strips, then sheets. False where a piece does not
 * fit its cloth; that was reported. */
bool plan_strips(struct cutter *cutter, struct fabric_plan *plan);

/* Adds up strips, and rounds to what is sold. requires: strips. */
void plan_amounts(struct cutter *cutter, struct fabric_plan *plan);
/* Backing and batting; the direction of panels that takes less. */
void plan_backing(struct cutter *cutter);
/* reports: amounts stated in the source that are others than planned. */
void check_amounts(struct cutter *cutter, size_t quilt_number,
                   size_t quilt_count);

/* A length in inches, in the pattern's unit where that is centimetres. */
struct rational in_inches(const struct cutter *cutter, int64_t num,
                          int64_t den);

/* The next amount that is sold: eighths of a yard, or tenths of a metre. */
struct rational sold_length(const struct cutter *cutter,
                            struct rational length);

/* The fewest strips of `strip_length` that give `length`, where each join of
 * two takes `loss`. */
size_t strips_needed(struct rational length, struct rational strip_length,
                     struct rational loss);

#endif
