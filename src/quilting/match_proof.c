/* The proof that pairs are the heaviest, by the duals alone. For any choice of
 * pairs, twice its weight is at most the sum of the points' duals and of each
 * blossom's dual times the most pairs that its points can make, if the duals
 * are
 * >= 0 and those of each edge's ends, with those of the blossoms around both,
 * are at least twice its weight (weak duality). So where the two are equal, no
 * choice is heavier. */
#include "match_graph.h"

/* Of each node: how many blossoms lie around it, and the sum of their duals. */
struct around {
    uint32_t *depth;
    int64_t *sum;
};

/* From a point up to the first node that is known, and down again. */
static void know(struct match_graph *graph, uint32_t point, bool *known,
                 struct around *around)
{
    graph->leaves.count = 0;
    uint32_t node = point;
    for (; node != MATCH_NONE && !known[node]; node = graph->nodes[node].parent)
        *LIST_ADD(graph->arena, &graph->leaves) = node;
    for (size_t i = graph->leaves.count; i > 0; i--) {
        const uint32_t at = graph->leaves.items[i - 1];
        const uint32_t parent = graph->nodes[at].parent;
        known[at] = true;
        if (parent == MATCH_NONE)
            continue;
        around->depth[at] = around->depth[parent] + 1;
        around->sum[at] = around->sum[parent] + graph->nodes[parent].dual;
    }
}

static struct around find_around(struct match_graph *graph)
{
    const size_t nodes = 2 * graph->points + 1;
    struct around around = {ARENA_ARRAY(graph->arena, uint32_t, nodes),
                            ARENA_ARRAY(graph->arena, int64_t, nodes)};
    bool *known = ARENA_ARRAY(graph->arena, bool, nodes);
    for (uint32_t i = 0; i < graph->points; i++)
        know(graph, i, known, &around);
    return around;
}

/* The duals of all blossoms around both points: of the first in which their
 * ways up meet, and those around that. */
static int64_t around_both(const struct match_graph *graph,
                           const struct around *around, uint32_t a, uint32_t b)
{
    while (a != b) {
        if (a == MATCH_NONE || b == MATCH_NONE)
            return 0;
        const bool up_a = around->depth[a] >= around->depth[b];
        const bool up_b = around->depth[b] >= around->depth[a];
        a = up_a ? graph->nodes[a].parent : a;
        b = up_b ? graph->nodes[b].parent : b;
    }
    return a == MATCH_NONE ? 0 : around->sum[a] + graph->nodes[a].dual;
}

static bool edges_held(struct match_graph *graph, size_t count)
{
    const struct around around = find_around(graph);
    for (size_t i = 0; i < count; i++) {
        const struct match_edge *edge = &graph->edges[i];
        const uint32_t a = (uint32_t)edge->a, b = (uint32_t)edge->b;
        const int64_t held = graph->nodes[a].dual + graph->nodes[b].dual;
        if (held < 2 * edge->weight &&
            held + around_both(graph, &around, a, b) < 2 * edge->weight)
            return false;
    }
    return true;
}

/* The weight of the pairs, or -1 where they are none. */
static int64_t weigh_pairs(const struct match_graph *graph)
{
    int64_t weight = 0;
    for (uint32_t i = 0; i < graph->points; i++) {
        const uint32_t arc = graph->pair[i];
        if (arc == MATCH_NONE)
            continue;
        if (match_tail(graph, arc) != i ||
            graph->pair[match_head(graph, arc)] != (arc ^ 1u))
            return -1;
        weight += arc % 2 == 0 ? graph->edges[arc / 2].weight : 0;
    }
    return weight;
}

bool match_proved(struct match_graph *graph, size_t count, int64_t *weight)
{
    *weight = weigh_pairs(graph);
    int64_t sum = 0;
    bool negative = *weight < 0;
    for (uint32_t i = 0; i < graph->points; i++) {
        sum += graph->nodes[i].dual;
        negative |= graph->nodes[i].dual < 0;
    }
    bool *seen = ARENA_ARRAY(graph->arena, bool, 2 * graph->points + 1);
    for (uint32_t i = 0; i < graph->points; i++)
        for (uint32_t node = graph->nodes[i].parent;
             node != MATCH_NONE && !seen[node];
             node = graph->nodes[node].parent) {
            seen[node] = true;
            match_leaves(graph, node);
            sum += graph->nodes[node].dual * (int64_t)(graph->leaves.count / 2);
            negative |= graph->nodes[node].dual < 0;
        }
    return !negative && sum == 2 * *weight && edges_held(graph, count);
}
