/* Inside pairing: points, blossoms and the trees that grow. Only match*.c
 * include this.
 *
 * A node is a point (below `points`) or a blossom: an odd ring of nodes, each
 * tied to the next, in which every second tie is a pair, so that one point, the
 * base, is paired outside or alone. A node that lies in no other is a top. An
 * arc is an edge with a direction: twice its number, one more from b to a. */
#ifndef SEAMWRIGHT_MATCH_GRAPH_H
#define SEAMWRIGHT_MATCH_GRAPH_H

#include "heap.h"
#include "match.h"

#define MATCH_NONE UINT32_MAX

/* Of a top, in a tree that grows: outer nodes are an even way from the root,
 * and their duals fall; inner ones an odd way, theirs rise. */
enum match_label { MATCH_FREE, MATCH_OUTER, MATCH_INNER };

struct match_node {
    uint32_t parent; /* the blossom it lies in, or MATCH_NONE for a top */
    uint32_t base;   /* a point */
    uint32_t entry;  /* of a labelled node: the arc from its parent in the tree,
                        or MATCH_NONE at the root */
    enum match_label label;
    uint32_t tree;       /* of a labelled node: the root of its tree, a point */
    int64_t dual, since; /* of a blossom: as it was at the moment `since`; of a
                            point: without what its set moved */
    uint32_t set, size;  /* of points: see struct match_set; how many */
    uint32_t *ring; /* of a blossom: its nodes, that of the base first ... */
    uint32_t *ties; /* ... and the arc from each to the next */
    uint32_t count;
    uint32_t room; /* `room` nodes fit, also when the number is used anew */
    uint64_t met;  /* the last meeting that was looked for through it */
};

/* The points of a top, whose duals move together. A blossom takes over the set
 * of its largest node, which has it back when the blossom is taken apart, so
 * that only the points of smaller ones change sets. */
struct match_set {
    uint32_t top;
    int64_t moved, since; /* how far, as it was at the moment `since` */
};

/* What happens when its moment comes: an outer point's dual is 0; an arc to a
 * free node that is alone, or between outer nodes of two trees, is tight; an
 * inner blossom's dual is 0; an arc to another free node is tight, or one
 * between outer nodes of one tree. At one moment they come in this order: what
 * ends trees first, and blossoms, which take most work, last; where many ways
 * are as long as each other (lines at one distance), most trees then never take
 * in what others leave, and most blossoms are never made. */
enum match_kind {
    MATCH_LET,
    MATCH_REACH,
    MATCH_JOIN,
    MATCH_EXPAND,
    MATCH_GROW,
    MATCH_SHRINK
};

/* A node that was labelled in a tree; it may be none of its tops any more. */
struct match_member {
    uint32_t node, before; /* the member before it, plus 1 */
};

struct match_graph {
    struct arena *arena;
    const struct match_edge *edges;
    uint32_t points;
    uint32_t *first, *arcs;   /* those that leave point v: arcs[first[v]] up to
                                 arcs[first[v + 1]]; of weight over 0 only */
    struct match_node *nodes; /* points, and room for as many blossoms */
    LIST(uint32_t) unused;    /* numbers of blossoms */
    struct match_set *sets;   /* as many as points */
    uint32_t *set;            /* of each point */
    uint32_t *pair;           /* of each point: the arc to its mate */
    int64_t now;              /* how far duals of outer nodes moved */
    uint64_t meetings;        /* that were looked for so far */
    struct heap events; /* by their moments: kind << 32 | point, blossom, arc */
    LIST(uint32_t) fresh; /* outer points that were not scanned yet */
    LIST(struct match_member) members; /* of all trees */
    uint32_t *tree;                    /* of a root: its last member, plus 1 */
    size_t roots;                      /* whose trees still grow */
    LIST(uint32_t) leaves;             /* scratch of match_leaves */
    LIST(uint32_t) freed;              /* nodes that were left free just now */
};

static inline uint32_t match_tail(const struct match_graph *graph, uint32_t arc)
{
    const struct match_edge *edge = &graph->edges[arc / 2];
    return (uint32_t)(arc % 2 ? edge->b : edge->a);
}

static inline uint32_t match_head(const struct match_graph *graph, uint32_t arc)
{
    return match_tail(graph, arc ^ 1u);
}

static inline uint32_t match_top(const struct match_graph *graph,
                                 uint32_t point)
{
    return graph->sets[graph->set[point]].top;
}

/* The points of a node, in graph->leaves: good until the next call. */
void match_leaves(struct match_graph *graph, uint32_t node);

/* The dual of a point now, of a top now, and how far an edge is from tight. */
int64_t match_point_dual(const struct match_graph *graph, uint32_t point);
int64_t match_top_dual(const struct match_graph *graph, uint32_t top);
int64_t match_slack(const struct match_graph *graph, uint32_t arc);

/* Gives a top a label from now on, in the tree of the arc's tail, or as a root;
 * points that become outer are fresh. */
void match_label(struct match_graph *graph, uint32_t top,
                 enum match_label label, uint32_t entry);

/* Pairs tail and head. */
void match_pair(struct match_graph *graph, uint32_t arc);

/* Pairs the points within a node anew so that `point` is its base. */
void match_rebase(struct match_graph *graph, uint32_t node, uint32_t point);

/* The outer node in which the ways of two outer tops to the root meet;
 * MATCH_NONE for two of different trees. Both are gone up in turns, each node
 * marked: so it is found within twice the longer of the ways to it, however far
 * the root is.
 */
uint32_t match_meeting(struct match_graph *graph, uint32_t a, uint32_t b);

/* Makes a blossom of the ring that an arc between two outer tops of one tree
 * closes, whose ways meet in `root`. */
void match_shrink(struct match_graph *graph, uint32_t arc, uint32_t root);

/* Takes an inner blossom of dual 0 apart. The tree goes on through half of its
 * ring; the nodes of the other half are free, and are in graph->freed. */
void match_expand(struct match_graph *graph, uint32_t blossom);

/* Whether duals and pairs prove each other; the weight of the pairs. */
bool match_proved(struct match_graph *graph, size_t count, int64_t *weight);

#endif
