/* The proof that pairs are the heaviest, by the duals alone. For any choice of
 * pairs, twice its weight is at most the sum of the points' duals and of each
 * blossom's dual times the most pairs that its points can make, if the duals
 * are
 * >= 0 and those of each edge's ends, with those of the blossoms around both,
 * are at least twice its weight (weak duality). So where the two are equal, no
 * choice is heavier. */
#include "match_graph.h"

/* The duals of all blossoms around both points. Blossoms are nested, so a
 * blossom around one holds the other if the other's way up comes through it. */
static int64_t around_both(const struct match_graph *graph, uint32_t a,
                           uint32_t b)
{
    int64_t sum = 0;
    for (uint32_t x = graph->nodes[a].parent; x != MATCH_NONE;
         x = graph->nodes[x].parent)
        for (uint32_t y = graph->nodes[b].parent; y != MATCH_NONE;
             y = graph->nodes[y].parent)
            if (x == y)
                sum += graph->nodes[x].dual;
    return sum;
}

static bool edges_held(const struct match_graph *graph, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct match_edge *edge = &graph->edges[i];
        const uint32_t a = (uint32_t)edge->a, b = (uint32_t)edge->b;
        const int64_t held = graph->nodes[a].dual + graph->nodes[b].dual;
        if (held < 2 * edge->weight &&
            held + around_both(graph, a, b) < 2 * edge->weight)
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
