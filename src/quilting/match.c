/* Pairs of the largest weight: the trees of all points that are alone grow at
 * once. See match.h; read next match_graph.h and match_blossom.c.
 *
 * Invariant: all duals are >= 0 and hold each edge; pairs and the ties of
 * blossoms are tight. What is left to reach is that each point that is alone
 * has dual 0. Each that has not is the root of a tree, in which duals move. A
 * tree ends with its root paired, to that of another tree where the two meet,
 * or with a point of it alone whose dual is 0. Then it is taken apart, and what
 * was in it is free for the trees around it: so each tree holds its part of the
 * graph, and no search walks over all of it. */
#include "match_graph.h"

/* ---- events ---- */

static void await(struct match_graph *graph, int64_t time, enum match_kind kind,
                  uint32_t what)
{
    heap_add(graph->arena, &graph->events, time, (uint64_t)kind << 32 | what);
}

/* An arc waits for the moment when it is tight: from an outer point to a free
 * one, or between two outer ones, whose duals both fall. */
static void await_arc(struct match_graph *graph, uint32_t arc)
{
    const uint32_t from = match_top(graph, match_tail(graph, arc));
    const uint32_t to = match_top(graph, match_head(graph, arc));
    if (from == to || graph->nodes[from].label != MATCH_OUTER)
        return;
    if (graph->nodes[to].label == MATCH_FREE)
        await(graph, graph->now + match_slack(graph, arc),
              graph->pair[graph->nodes[to].base] == MATCH_NONE ? MATCH_REACH
                                                               : MATCH_GROW,
              arc);
    else if (graph->nodes[to].label == MATCH_OUTER)
        await(graph, graph->now + match_slack(graph, arc) / 2,
              graph->nodes[from].tree == graph->nodes[to].tree ? MATCH_SHRINK
                                                               : MATCH_JOIN,
              arc);
}

static void scan(struct match_graph *graph, uint32_t point)
{
    await(graph, graph->now + match_point_dual(graph, point), MATCH_LET, point);
    for (uint32_t i = graph->first[point]; i < graph->first[point + 1]; i++)
        await_arc(graph, graph->arcs[i]);
}

static void await_expanding(struct match_graph *graph, uint32_t top)
{
    if (top >= graph->points && graph->nodes[top].label == MATCH_INNER)
        await(graph, graph->now + match_top_dual(graph, top) / 2, MATCH_EXPAND,
              top);
}

/* ---- trees ---- */

/* Pairs change places on the way from an outer point up to the root: `point` is
 * left without a mate, for who calls to pair. */
static void flip_to_root(struct match_graph *graph, uint32_t point)
{
    for (;;) {
        const uint32_t outer = match_top(graph, point);
        const uint32_t entry = graph->nodes[outer].entry;
        match_rebase(graph, outer, point);
        if (entry == MATCH_NONE)
            return;
        const uint32_t inner = match_top(graph, match_tail(graph, entry));
        const uint32_t arc = graph->nodes[inner].entry;
        match_rebase(graph, inner, match_head(graph, arc));
        match_pair(graph, arc);
        point = match_tail(graph, arc);
    }
}

/* Nodes that are free now may be reached by trees around them. */
static void await_freed(struct match_graph *graph)
{
    for (size_t i = 0; i < graph->freed.count; i++) {
        match_leaves(graph, graph->freed.items[i]);
        for (size_t k = 0; k < graph->leaves.count; k++) {
            const uint32_t point = graph->leaves.items[k];
            for (uint32_t j = graph->first[point]; j < graph->first[point + 1];
                 j++)
                await_arc(graph, graph->arcs[j] ^ 1u);
        }
    }
}

/* Takes a tree apart. A number of a blossom may have come to another tree since
 * it was noted here. */
static void free_tree(struct match_graph *graph, uint32_t tree)
{
    for (uint32_t at = graph->tree[tree]; at > 0;
         at = graph->members.items[at - 1].before) {
        const uint32_t node = graph->members.items[at - 1].node;
        const struct match_node *it = &graph->nodes[node];
        if (it->parent != MATCH_NONE || it->label == MATCH_FREE ||
            it->tree != tree)
            continue;
        match_label(graph, node, MATCH_FREE, MATCH_NONE);
        *LIST_ADD(graph->arena, &graph->freed) = node;
    }
    graph->tree[tree] = 0;
    graph->roots--;
}

/* Ends the tree of an outer top, and that of another one unless it is
 * MATCH_NONE. */
static void end_trees(struct match_graph *graph, uint32_t one, uint32_t other)
{
    const uint32_t tree = graph->nodes[one].tree;
    const uint32_t second =
        other == MATCH_NONE ? MATCH_NONE : graph->nodes[other].tree;
    graph->freed.count = 0;
    free_tree(graph, tree);
    if (second != MATCH_NONE)
        free_tree(graph, second);
    await_freed(graph);
}

/* Takes a free node into the tree, with its mate; one that is alone ends it. */
static void grow(struct match_graph *graph, uint32_t arc)
{
    const uint32_t point = match_head(graph, arc);
    const uint32_t top = match_top(graph, point);
    const uint32_t mate = graph->pair[graph->nodes[top].base];
    if (mate == MATCH_NONE) {
        const uint32_t from = match_top(graph, match_tail(graph, arc));
        flip_to_root(graph, match_tail(graph, arc));
        match_rebase(graph, top, point);
        match_pair(graph, arc);
        end_trees(graph, from, MATCH_NONE);
        return;
    }
    match_label(graph, top, MATCH_INNER, arc);
    await_expanding(graph, top);
    match_label(graph, match_top(graph, match_head(graph, mate)), MATCH_OUTER,
                mate);
}

static void expand(struct match_graph *graph, uint32_t blossom)
{
    const uint32_t count = graph->nodes[blossom].count;
    const uint32_t *ring = graph->nodes[blossom].ring;
    match_expand(graph, blossom);
    for (uint32_t i = 0; i < count; i++)
        await_expanding(graph, ring[i]);
    await_freed(graph);
}

/* Outer nodes of two trees pair their roots. */
static void join(struct match_graph *graph, uint32_t arc)
{
    const uint32_t one = match_top(graph, match_tail(graph, arc));
    const uint32_t other = match_top(graph, match_head(graph, arc));
    flip_to_root(graph, match_tail(graph, arc));
    flip_to_root(graph, match_head(graph, arc));
    match_pair(graph, arc);
    end_trees(graph, one, other);
}

/* The point stays alone instead of its root. */
static void let(struct match_graph *graph, uint32_t point)
{
    const uint32_t top = match_top(graph, point);
    flip_to_root(graph, point);
    graph->pair[point] = MATCH_NONE;
    end_trees(graph, top, MATCH_NONE);
}

/* Whether an event still holds: labels may have changed since it was awaited.
 */
static bool still_holds(const struct match_graph *graph, enum match_kind kind,
                        uint32_t what)
{
    if (kind == MATCH_LET)
        return graph->nodes[match_top(graph, what)].label == MATCH_OUTER &&
               match_point_dual(graph, what) == 0;
    if (kind == MATCH_EXPAND) {
        const struct match_node *blossom = &graph->nodes[what];
        return blossom->parent == MATCH_NONE && blossom->label == MATCH_INNER &&
               match_top_dual(graph, what) == 0;
    }
    const uint32_t from = match_top(graph, match_tail(graph, what));
    const uint32_t to = match_top(graph, match_head(graph, what));
    const bool one_tree = graph->nodes[from].tree == graph->nodes[to].tree;
    if (from == to || match_slack(graph, what) != 0 ||
        graph->nodes[from].label != MATCH_OUTER)
        return false;
    return kind == MATCH_JOIN || kind == MATCH_SHRINK
               ? graph->nodes[to].label == MATCH_OUTER &&
                     one_tree == (kind == MATCH_SHRINK)
               : graph->nodes[to].label == MATCH_FREE;
}

static void happen(struct match_graph *graph, enum match_kind kind,
                   uint32_t what)
{
    switch (kind) {
    case MATCH_LET:
        let(graph, what);
        break;
    case MATCH_EXPAND:
        expand(graph, what);
        break;
    case MATCH_JOIN:
        join(graph, what);
        break;
    case MATCH_SHRINK:
        match_shrink(graph, what,
                     match_meeting(graph,
                                   match_top(graph, match_tail(graph, what)),
                                   match_top(graph, match_head(graph, what))));
        break;
    case MATCH_REACH:
    case MATCH_GROW:
        grow(graph, what);
        break;
    }
}

/* Grows the trees of all points that are alone, until each is paired or may
 * stay so. There is always an event: the dual of a root comes to 0. */
static void search(struct match_graph *graph)
{
    for (uint32_t point = 0; point < graph->points; point++)
        if (graph->pair[point] == MATCH_NONE && graph->nodes[point].dual > 0) {
            match_label(graph, point, MATCH_OUTER, MATCH_NONE);
            graph->roots++;
        }
    while (graph->roots > 0) {
        while (graph->fresh.count > 0)
            scan(graph, graph->fresh.items[--graph->fresh.count]);
        const struct heap_item next = heap_take(&graph->events);
        const enum match_kind kind = (enum match_kind)(next.what >> 32);
        graph->now = next.key;
        if (still_holds(graph, kind, (uint32_t)next.what))
            happen(graph, kind, (uint32_t)next.what);
    }
}

/* ---- all of it ---- */

/* Arcs by the point that they leave, in the order of edges. */
static void make_arcs(struct match_graph *graph, size_t count)
{
    graph->first = ARENA_ARRAY(graph->arena, uint32_t, graph->points + 2);
    for (size_t i = 0; i < 2 * count; i++)
        if (graph->edges[i / 2].weight > 0)
            graph->first[match_tail(graph, (uint32_t)i) + 2]++;
    for (uint32_t i = 2; i <= graph->points + 1; i++)
        graph->first[i] += graph->first[i - 1];
    graph->arcs =
        ARENA_ARRAY(graph->arena, uint32_t, graph->first[graph->points + 1]);
    for (size_t i = 0; i < 2 * count; i++)
        if (graph->edges[i / 2].weight > 0)
            graph->arcs[graph->first[match_tail(graph, (uint32_t)i) + 1]++] =
                (uint32_t)i;
}

/* Each dual becomes as small as its edges allow, the others given; where that
 * makes an edge to a point tight that is alone as well, the two are paired. All
 * are even, so that what lies between the outer points of two trees is, too. */
static void begin_greedily(struct match_graph *graph)
{
    for (uint32_t point = 0; point < graph->points; point++)
        for (uint32_t i = graph->first[point]; i < graph->first[point + 1];
             i++) {
            const int64_t weight = graph->edges[graph->arcs[i] / 2].weight;
            if (graph->nodes[point].dual < weight)
                graph->nodes[point].dual = weight + weight % 2;
        }
    for (uint32_t point = 0; point < graph->points; point++) {
        int64_t dual = 0;
        uint32_t tight = MATCH_NONE;
        for (uint32_t i = graph->first[point]; i < graph->first[point + 1];
             i++) {
            const uint32_t arc = graph->arcs[i];
            const uint32_t other = match_head(graph, arc);
            const int64_t least =
                2 * graph->edges[arc / 2].weight - graph->nodes[other].dual;
            if (least < dual)
                continue;
            if (least > dual || tight == MATCH_NONE ||
                graph->pair[match_head(graph, tight)] != MATCH_NONE)
                tight = arc;
            dual = least;
        }
        if (graph->pair[point] != MATCH_NONE)
            continue;
        graph->nodes[point].dual = dual;
        if (tight != MATCH_NONE &&
            graph->pair[match_head(graph, tight)] == MATCH_NONE)
            match_pair(graph, tight);
    }
}

static struct match_graph *make_graph(struct arena *arena, size_t points,
                                      const struct match_edge *edges,
                                      size_t count)
{
    struct match_graph *graph = ARENA_NEW(arena, struct match_graph);
    graph->arena = arena;
    graph->edges = edges;
    graph->points = (uint32_t)points;
    graph->nodes = ARENA_ARRAY(arena, struct match_node, 2 * points + 1);
    graph->sets = ARENA_ARRAY(arena, struct match_set, points + 1);
    graph->set = ARENA_ARRAY(arena, uint32_t, points + 1);
    graph->pair = ARENA_ARRAY(arena, uint32_t, points + 1);
    graph->tree = ARENA_ARRAY(arena, uint32_t, points + 1);
    for (uint32_t i = 0; i < graph->points; i++) {
        graph->nodes[i].parent = MATCH_NONE;
        graph->nodes[i].base = graph->nodes[i].set = i;
        graph->nodes[i].size = 1;
        graph->sets[i].top = graph->set[i] = i;
        graph->pair[i] = MATCH_NONE;
        *LIST_ADD(arena, &graph->unused) = 2 * graph->points - 1 - i;
    }
    LIST_RESERVE(arena, &graph->leaves, 2 * points + 1);
    make_arcs(graph, count);
    return graph;
}

static struct matching result(struct arena *arena, struct match_graph *graph,
                              size_t count)
{
    struct matching matching = {
        .mate = ARENA_ARRAY(arena, size_t, graph->points + 1),
        .edge = ARENA_ARRAY(arena, size_t, graph->points + 1),
        .dual = ARENA_ARRAY(arena, int64_t, graph->points + 1)};
    for (uint32_t i = 0; i < graph->points; i++) {
        graph->nodes[i].dual = match_point_dual(graph, i);
        const uint32_t pair = graph->pair[i];
        const bool alone = pair == MATCH_NONE;
        matching.mate[i] = alone ? MATCH_ALONE : match_head(graph, pair);
        matching.edge[i] = alone ? MATCH_ALONE : pair / 2;
        matching.dual[i] = graph->nodes[i].dual;
    }
    matching.proved = match_proved(graph, count, &matching.weight);
    return matching;
}

struct matching match_heaviest(struct arena *arena, size_t points,
                               const struct match_edge *edges, size_t count)
{
    struct arena *scratch = arena_create();
    struct match_graph *graph = make_graph(scratch, points, edges, count);
    begin_greedily(graph);
    search(graph);
    const struct matching matching = result(arena, graph, count);
    arena_destroy(scratch);
    return matching;
}
