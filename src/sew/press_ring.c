/* Why not all can nest, and what to press open: odd rings of the graph, and the
 * fewest pieces without which there is none. The contracts stand in
 * press_graph.h. Read next: press_plan.c. */
#include <string.h>

#include "arena.h"
#include "press_graph.h"

/* ensures: the edges of node i are `around` from number first[i] up to
 * first[i + 1]. */
static void list_around(struct arena *arena, const struct press_graph *graph,
                        const size_t **first, const size_t **around)
{
    const size_t nodes = graph->nodes.count, edges = graph->edges.count;
    size_t *starts = ARENA_ARRAY(arena, size_t, nodes + 2);
    size_t *all = ARENA_ARRAY(arena, size_t, 2 * edges + 1);
    /* Two places on, so that filling moves each start to where it belongs. */
    for (size_t i = 0; i < 2 * edges; i++)
        starts[graph->edges.items[i / 2].ends[i % 2] + 2]++;
    for (size_t i = 2; i < nodes + 2; i++)
        starts[i] += starts[i - 1];
    for (size_t i = 0; i < 2 * edges; i++)
        all[starts[graph->edges.items[i / 2].ends[i % 2] + 1]++] = i / 2;
    *first = starts;
    *around = all;
}

/* ---- rings ---- */

/* A walk by width from one node over edges that nest. From one fixed node it
 * goes on to all fixed ones, as none of them can turn against another. */
struct walk {
    const struct press_graph *graph;
    const size_t *first, *around;
    size_t *from; /* the node before, of each; its own number where it began */
    bool *reached;
    size_t *queue;
    size_t count;
    bool all_fixed; /* have been reached */
};

static void reach(struct walk *walk, size_t node, size_t from)
{
    if (walk->reached[node])
        return;
    walk->reached[node] = true;
    walk->from[node] = from;
    walk->queue[walk->count++] = node;
}

static void walk_from(struct walk *walk, size_t start)
{
    const struct press_graph *graph = walk->graph;
    reach(walk, start, start);
    for (size_t i = 0; i < walk->count; i++) {
        const size_t node = walk->queue[i];
        for (size_t k = walk->first[node]; k < walk->first[node + 1]; k++) {
            const size_t edge = walk->around[k];
            const size_t *ends = graph->edges.items[edge].ends;
            if (edge_collisions(graph, edge) == 0)
                reach(walk, ends[0] == node ? ends[1] : ends[0], node);
        }
        if (!graph->nodes.items[node].fixed || walk->all_fixed)
            continue;
        walk->all_fixed = true;
        for (size_t k = 0; k < graph->nodes.count; k++)
            if (graph->nodes.items[k].fixed)
                reach(walk, k, node);
    }
}

size_t graph_ring(struct arena *arena, const struct press_graph *graph,
                  size_t edge, size_t **nodes)
{
    const struct press_edge *e = &graph->edges.items[edge];
    const size_t all = graph->nodes.count;
    struct walk walk = {.graph = graph,
                        .from = ARENA_ARRAY(arena, size_t, all),
                        .reached = ARENA_ARRAY(arena, bool, all),
                        .queue = ARENA_ARRAY(arena, size_t, all)};
    list_around(arena, graph, &walk.first, &walk.around);
    *nodes = ARENA_ARRAY(arena, size_t, all + 1);
    size_t count = 0;
    walk_from(&walk, e->ends[0]);
    if (!walk.reached[e->ends[1]]) { /* it was not solved to the end */
        (*nodes)[count++] = e->ends[0];
        walk.from[e->ends[1]] = e->ends[1];
    }
    for (size_t node = e->ends[1];; node = walk.from[node]) {
        (*nodes)[count++] = node;
        if (walk.from[node] == node)
            return count;
    }
}

/* ---- what is pressed open ---- */

/* Pieces and edges that hang together with one edge. */
struct cluster {
    const struct press_graph *graph;
    size_t *edges;
    size_t edge_count;
    const size_t *first, *around; /* of all nodes: see list_around */
    size_t *nodes;
    size_t node_count;
    const struct piece **pieces; /* each once */
    size_t piece_count;
    size_t *number; /* of each node's piece among them */
    bool *open;     /* of each piece */
    size_t *root;   /* of each node and of one for all fixed ones: the node
                       that it hangs on, */
    bool *against;  /* and whether it goes against that */
    size_t work;    /* edges that may still be looked at */
};

/* ensures: the root of a node; `against` tells how the node goes to it. */
static size_t find_root(const struct cluster *c, size_t node, bool *against)
{
    bool odd = false;
    while (c->root[node] != node) {
        const size_t up = c->root[node];
        /* Half the way is cut short, so that ways stay short. */
        c->against[node] ^= c->against[up];
        c->root[node] = c->root[up];
        odd ^= c->against[node];
        node = c->root[node];
    }
    *against = odd;
    return node;
}

/* ensures: false where that cannot be, by what was bound before. */
static bool bind(struct cluster *c, size_t a, size_t b, bool against)
{
    bool odd_a, odd_b;
    const size_t x = find_root(c, a, &odd_a), y = find_root(c, b, &odd_b);
    const bool odd = odd_a ^ odd_b ^ against;
    if (x == y)
        return !odd;
    c->root[x] = y;
    c->against[x] = odd;
    return true;
}

static bool is_open(const struct cluster *c, size_t node)
{
    return c->open[c->number[node]];
}

/* How many edges cannot nest, as they are met one after the other, with what is
 * open now. */
static size_t count_odd(struct cluster *c)
{
    const size_t hub = c->graph->nodes.count;
    size_t odd = 0;
    for (size_t i = 0; i <= hub; i++) {
        const bool fixed = i < hub && c->graph->nodes.items[i].fixed;
        c->root[i] = fixed ? hub : i;
        c->against[i] = false;
    }
    for (size_t i = 0; i < c->edge_count; i++) {
        const struct press_edge *e = &c->graph->edges.items[c->edges[i]];
        const size_t a = e->ends[0], b = e->ends[1];
        if (is_open(c, a) || is_open(c, b))
            continue;
        /* Ways as they are alike: against where alike ones collide. */
        for (int alike = 0; alike < 2; alike++)
            odd += e->pairs[alike] > 0 && !bind(c, a, b, alike == 1);
    }
    c->work -= c->work < c->edge_count + hub ? c->work : c->edge_count + hub;
    return odd;
}

static void take_node(struct cluster *c, size_t node)
{
    const struct piece *piece = c->graph->nodes.items[node].piece;
    size_t i = 0;
    while (i < c->piece_count && c->pieces[i] != piece)
        i++;
    if (i == c->piece_count)
        c->pieces[c->piece_count++] = piece;
    c->number[node] = i;
}

/* Fixed nodes hang together where they meet, too: one that is open may serve
 * several others. `inside` has the nodes of this cluster and of those before.
 */
static void gather(struct cluster *c, size_t edge, bool *inside, bool *taken)
{
    const struct press_graph *graph = c->graph;
    c->edge_count = c->node_count = c->piece_count = 0;
    c->edges[c->edge_count++] = edge;
    taken[edge] = true;
    for (size_t i = 0; i < c->edge_count; i++) {
        const size_t *ends = graph->edges.items[c->edges[i]].ends;
        for (int k = 0; k < 2; k++) {
            const size_t node = ends[k];
            if (inside[node])
                continue;
            inside[node] = true;
            c->nodes[c->node_count++] = node;
            for (size_t n = c->first[node]; n < c->first[node + 1]; n++)
                if (!taken[c->around[n]]) {
                    taken[c->around[n]] = true;
                    c->edges[c->edge_count++] = c->around[n];
                }
        }
    }
    for (int fixed = 0; fixed < 2; fixed++)
        for (size_t i = 0; i < c->node_count; i++)
            if (graph->nodes.items[c->nodes[i]].fixed == (fixed == 1))
                take_node(c, c->nodes[i]);
}

/* Opens `more` pieces from number `from` on, if that is enough. */
static bool open_so_many(struct cluster *c, size_t from, size_t more)
{
    if (more == 0)
        return count_odd(c) == 0;
    for (size_t i = from; i < c->piece_count && c->work > 0; i++) {
        if (c->open[i])
            continue;
        c->open[i] = true;
        if (open_so_many(c, i + 1, more - 1))
            return true;
        c->open[i] = false;
    }
    return false;
}

/* Opens what leaves the fewest odd edges, one after the other. */
static void open_greedily(struct cluster *c)
{
    for (size_t odd = count_odd(c); odd > 0;) {
        size_t best = c->piece_count, least = odd;
        for (size_t i = 0; i < c->piece_count && c->work > 0; i++) {
            if (c->open[i])
                continue;
            c->open[i] = true;
            const size_t left = count_odd(c);
            c->open[i] = false;
            if (left < least) {
                least = left;
                best = i;
            }
        }
        if (best == c->piece_count)
            return;
        c->open[best] = true;
        odd = least;
    }
}

/* Of one cluster, the fewest pieces where they are few. */
static void open_cluster(struct arena *arena, struct cluster *c,
                         struct press_opens *opens)
{
    enum { FEW = 5, WORK_MOST = 1000000 };
    bool fewest = false;
    memset(c->open, 0, c->piece_count * sizeof *c->open);
    c->work = WORK_MOST;
    for (size_t k = 0; k <= FEW && !fewest && c->work > 0; k++)
        fewest = open_so_many(c, 0, k);
    if (!fewest) {
        memset(c->open, 0, c->piece_count * sizeof *c->open);
        c->work = WORK_MOST;
        open_greedily(c);
    }
    opens->fewest &= fewest;
    opens->enough &= count_odd(c) == 0;
    for (size_t i = 0; i < c->piece_count; i++)
        if (c->open[i])
            *LIST_ADD(arena, &opens->pieces) = c->pieces[i];
}

struct press_opens graph_opens(struct arena *arena,
                               const struct press_graph *graph,
                               const bool *seeds)
{
    const size_t nodes = graph->nodes.count, edges = graph->edges.count;
    struct arena *scratch = arena_create();
    struct cluster c = {
        .graph = graph,
        .edges = ARENA_ARRAY(scratch, size_t, edges + 1),
        .nodes = ARENA_ARRAY(scratch, size_t, nodes + 1),
        .pieces = ARENA_ARRAY(scratch, const struct piece *, nodes + 1),
        .number = ARENA_ARRAY(scratch, size_t, nodes + 1),
        .open = ARENA_ARRAY(scratch, bool, nodes + 1),
        .root = ARENA_ARRAY(scratch, size_t, nodes + 1),
        .against = ARENA_ARRAY(scratch, bool, nodes + 1)};
    bool *inside = ARENA_ARRAY(scratch, bool, nodes + 1);
    bool *taken = ARENA_ARRAY(scratch, bool, edges + 1);
    struct press_opens opens = {.fewest = true, .enough = true};
    list_around(scratch, graph, &c.first, &c.around);
    for (size_t i = 0; i < edges; i++)
        if (seeds[i] && !taken[i]) {
            gather(&c, i, inside, taken);
            open_cluster(arena, &c, &opens);
        }
    arena_destroy(scratch);
    return opens;
}
