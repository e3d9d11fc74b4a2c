/* What the rules make once is to be made once by a plan, too: nodes of pieces
 * that are alike are tied to go alike, as far as that costs no pair. Tied nodes
 * are one in a smaller graph. The contracts stand in press_graph.h. Read next:
 * press_ring.c. */
#include <string.h>

#include "arena.h"
#include "press_graph.h"

/* Ties that are tried, and those that are kept. */
struct tying {
    struct press_graph *graph;
    const struct press_tie *ties;
    bool *kept;
    int64_t least; /* pairs without a tie */
    size_t trials; /* left */
};

/* The node that stands for a node, and how the two go to each other. */
struct stand_in {
    size_t node;
    int sign;
};

/* The first of tied nodes stands for all; ties come in the order in which they
 * hang on each other. */
static struct stand_in *find_stand_ins(struct arena *arena,
                                       const struct tying *t, size_t from,
                                       size_t to)
{
    const size_t count = t->graph->nodes.count;
    struct stand_in *all = ARENA_ARRAY(arena, struct stand_in, count + 1);
    for (size_t i = 0; i < count; i++)
        all[i] = (struct stand_in){i, 1};
    for (size_t i = 0; i < to; i++) {
        const struct press_tie *tie = &t->ties[i];
        if (t->kept[i] || i >= from)
            all[tie->other] = (struct stand_in){
                all[tie->first].node, all[tie->first].sign * tie->sign};
    }
    return all;
}

/* Nodes keep their numbers; those that others stand for have no edge. */
static void contract(struct arena *arena, const struct press_graph *graph,
                     const struct stand_in *all, struct press_graph *small)
{
    for (size_t i = 0; i < graph->nodes.count; i++) {
        struct press_node *node = LIST_ADD(arena, &small->nodes);
        *node = graph->nodes.items[i];
        node->first_edge = 0;
        if (all[i].node == i)
            continue;
        struct press_node *first = &small->nodes.items[all[i].node];
        for (int way = 0; way < 2; way++) {
            const int own = all[i].sign > 0 ? way : 1 - way;
            first->lighter[way] += node->lighter[own];
            first->folded[way] += node->folded[own];
        }
        node->lighter[0] = node->lighter[1] = 0;
        node->folded[0] = node->folded[1] = 0;
    }
    for (size_t i = 0; i < graph->edges.count; i++) {
        const struct press_edge *edge = &graph->edges.items[i];
        const struct stand_in a = all[edge->ends[0]], b = all[edge->ends[1]];
        for (int alike = 0; alike < 2; alike++)
            if (edge->pairs[alike] > 0)
                graph_meet(arena, small, a.node, b.node,
                           (alike == 1) == (a.sign == b.sign),
                           edge->pairs[alike], edge->where);
    }
}

/* Solves with the ties that are kept and those from number `from` up to `to`.
 * ensures: the pairs that collide. */
static int64_t solve_with(const struct tying *t, size_t from, size_t to)
{
    struct arena *arena = arena_create();
    const struct stand_in *all = find_stand_ins(arena, t, from, to);
    struct press_graph small = {.steps = t->graph->steps};
    contract(arena, t->graph, all, &small);
    graph_solve(&small);
    for (size_t i = 0; i < t->graph->nodes.count; i++)
        t->graph->nodes.items[i].way =
            all[i].sign * small.nodes.items[all[i].node].way;
    t->graph->proved &= small.proved;
    t->graph->steps = small.steps;
    arena_destroy(arena);
    return graph_collisions(t->graph);
}

/* All of them at once, or each half by itself. */
static void keep_ties(struct tying *t, size_t from, size_t to)
{
    if (from == to || t->trials == 0)
        return;
    t->trials--;
    if (solve_with(t, from, to) <= t->least) {
        memset(t->kept + from, true, to - from);
        return;
    }
    if (to - from == 1)
        return;
    const size_t middle = from + (to - from) / 2;
    keep_ties(t, from, middle);
    keep_ties(t, middle, to);
}

void graph_solve_tied(struct press_graph *graph, const struct press_tie *ties,
                      size_t count)
{
    enum { TRIALS_MOST = 60 };
    graph_solve(graph);
    if (count == 0)
        return;
    struct arena *arena = arena_create();
    struct tying t = {.graph = graph,
                      .ties = ties,
                      .kept = ARENA_ARRAY(arena, bool, count),
                      .least = graph_collisions(graph),
                      .trials = TRIALS_MOST};
    int *ways = ARENA_ARRAY(arena, int, graph->nodes.count);
    for (size_t i = 0; i < graph->nodes.count; i++)
        ways[i] = graph->nodes.items[i].way;
    keep_ties(&t, 0, count);
    /* Without steps enough it may be worse than what was found first. */
    if (solve_with(&t, count, count) > t.least)
        for (size_t i = 0; i < graph->nodes.count; i++)
            graph->nodes.items[i].way = ways[i];
    arena_destroy(arena);
}
