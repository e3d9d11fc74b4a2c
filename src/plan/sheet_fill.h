/* Inside the planner of sheets: the best filling of one sheet, by a knapsack
 * for each height of strip and one over the heights (Gilmore and Gomory,
 * 1965). */
#ifndef SEAMWRIGHT_SHEET_FILL_H
#define SEAMWRIGHT_SHEET_FILL_H

#include "sheets.h"

/* A size as it may lie in a strip. */
struct sheet_way {
    size_t size;
    int64_t along, across;
    bool turned;
    int64_t rival; /* `across` of the other way, or INT64_MAX */
};

/* A stack of equal pieces that is as high as some strip. */
struct sheet_stack {
    size_t size, pieces;
};

struct sheet_height {
    int64_t height;
    LIST(struct sheet_stack) stacks; /* what gives the strip its height */
};

/* All that can be cut with one first cut. */
struct sheet_grid {
    bool down;
    int64_t length; /* of a strip */
    int64_t room;   /* what the heights of strips add up to, at most */
    LIST(struct sheet_way) ways;
    LIST(struct sheet_height) heights; /* rising */
};

/* Segments that are taken together; `any` may be taken again and again. */
struct sheet_bundle {
    const struct sheet_way *way;
    size_t beside, stack;
    int64_t along, worth;
    bool any;
};

struct sheet_filler {
    const struct sheet_problem *problem;
    struct sheet_grid grids[2];
    size_t grid_count;
    int64_t *row;         /* of the strip's knapsack: the best by width */
    unsigned char *taken; /* by bundle and width: is it used there? */
    struct sheet_bundle *bundles;
    int64_t *column; /* best of all strips by the height that they use */
    size_t *choice;  /* 1 + index of the height that was used last, or 0 */
    size_t *left;
    /* By size: which way pieces lie in a strip that could take too few of them
     * both ways. Chosen by the caller of sheet_fill, as neither is better. */
    bool *turned;
    bool one_way; /* keep to it; a bound must not */
    uint64_t work;
};

/* ensures: false where some size fits on no sheet. */
bool sheet_filler_init(struct sheet_filler *filler, struct arena *arena,
                       const struct sheet_problem *problem);

/* The most that a sheet can be worth where each strip alone keeps to `most` of
 * a size: never less than what any real sheet is worth. `made`, unless NULL,
 * gets what that sheet makes, and `pattern` its strips. */
int64_t sheet_fill_bound(struct sheet_filler *filler, struct arena *arena,
                         const int64_t *worth, const size_t *most, size_t *made,
                         struct sheet_pattern *pattern);

/* A good sheet that keeps to `left` as a whole. ensures: its worth; `made`
 * (by size) and `pattern`. */
int64_t sheet_fill(struct sheet_filler *filler, struct arena *arena,
                   const int64_t *worth, const size_t *left, size_t *made,
                   struct sheet_pattern *pattern);

#endif
