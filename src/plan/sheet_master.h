/* Inside the planner of sheets: the linear programme over whole sheets. */
#ifndef SEAMWRIGHT_SHEET_MASTER_H
#define SEAMWRIGHT_SHEET_MASTER_H

#include "linear.h"
#include "sheet_fill.h"

struct sheet_column {
    struct sheet_pattern pattern;
    const size_t *made; /* by size */
};

struct sheet_master {
    struct arena *arena;
    const struct sheet_problem *problem;
    struct sheet_filler filler;
    struct linear linear;
    LIST(struct sheet_column) columns; /* beside those of the programme */
    size_t *own;                       /* by size: its sheet of one size */
    uint64_t limit; /* of work: no more sheets are looked for beyond it */
};

/* ensures: false where a size fits on no sheet. */
bool sheet_master_init(struct sheet_master *master, struct arena *arena,
                       const struct sheet_problem *problem);

/* Solves for these demands (by size), finding sheets as they are needed.
 * ensures: the number of sheets; the basis, values and duals in `linear`. */
double sheet_master_solve(struct sheet_master *master, const size_t *demand);

/* A number of sheets below which no plan can go, by the duals of the last
 * solution in whole numbers: sum of demand x worth over the worth of the best
 * sheet. */
size_t sheet_bound(struct sheet_master *master, const size_t *demand);

/* Cells that were filled so far. */
uint64_t sheet_work(const struct sheet_master *master);

#endif
