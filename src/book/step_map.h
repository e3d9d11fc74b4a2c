/* The steps as nodes in columns, each right of all that it takes. Read next:
 * step_map.c, which draws them. */
#ifndef SEAMWRIGHT_STEP_MAP_H
#define SEAMWRIGHT_STEP_MAP_H

#include "section.h"

struct map_node {
    const char *number, *name, *count;
    const struct cloth *cloth; /* finished */
    size_t depth;              /* its column */
    LIST(size_t) from;         /* nodes that it takes, each once */
};

/* A place in a column: a node, or where the line of one passes on to a later
 * column. */
struct map_slot {
    size_t node;
    bool passes;
    double y, height; /* middle and height, in points */
};

struct map_column {
    LIST(struct map_slot) slots; /* from the top */
    double left, width;          /* in points */
};

struct step_graph {
    LIST(struct map_node) nodes; /* in the order of the steps */
    struct map_column *columns;
    size_t depth; /* columns */
};

/* ensures: a node for each step; the center and all borders are one, the last.
 */
struct step_graph step_graph(const struct booklet *booklet);
/* Puts nodes into columns, in an order with few crossings, and the slots of
 * each column below each other; `heights` has that of each node.
 * ensures: how high the highest column is. */
double place_slots(struct arena *arena, struct step_graph *graph,
                   const double *heights);
/* ensures: the slot of a node in a column, or NULL. */
const struct map_slot *slot_of(const struct step_graph *graph, size_t column,
                               size_t node);

#endif
