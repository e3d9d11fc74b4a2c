/* Solves the graph: part by part, as nodes that do not fix each other are
 * independent. A part that can nest is coloured in two colours; any other is
 * searched. The contracts stand in press_graph.h. Read next: press_ties.c. */
#include "press_graph.h"

#include <stdlib.h>
#include <string.h>

#include "arena.h"

enum { NONE = -1 };

void graph_meet(struct arena *arena, struct press_graph *graph, size_t a,
                size_t b, bool alike, int64_t pairs, const struct piece *where)
{
    const size_t low = a < b ? a : b, high = a < b ? b : a;
    struct press_node *node = &graph->nodes.items[low];
    for (size_t i = node->first_edge; i > 0;
         i = graph->edges.items[i - 1].next) {
        struct press_edge *edge = &graph->edges.items[i - 1];
        if (edge->ends[1] == high) {
            edge->pairs[alike] += pairs;
            return;
        }
    }
    struct press_edge *edge = LIST_ADD(arena, &graph->edges);
    *edge = (struct press_edge){
        .ends = {low, high}, .where = where, .next = node->first_edge};
    edge->pairs[alike] = pairs;
    node->first_edge = graph->edges.count;
}

int64_t edge_collisions(const struct press_graph *graph, size_t edge)
{
    const struct press_edge *e = &graph->edges.items[edge];
    return e->pairs[graph->nodes.items[e->ends[0]].way ==
                    graph->nodes.items[e->ends[1]].way];
}

int64_t graph_collisions(const struct press_graph *graph)
{
    int64_t sum = 0;
    for (size_t i = 0; i < graph->edges.count; i++)
        sum += edge_collisions(graph, i);
    return sum;
}

/* ---- what is worse ---- */

/* The first counts most. Such costs add up, and the least of sums is the sum of
 * the least, so that they bound a search. */
struct cost {
    int64_t pairs, folded, lighter, against;
};

static struct cost plus(struct cost a, struct cost b, int sign)
{
    return (struct cost){a.pairs + sign * b.pairs, a.folded + sign * b.folded,
                         a.lighter + sign * b.lighter,
                         a.against + sign * b.against};
}

static int compare_costs(struct cost a, struct cost b)
{
    if (a.pairs != b.pairs)
        return a.pairs < b.pairs ? -1 : 1;
    if (a.folded != b.folded)
        return a.folded < b.folded ? -1 : 1;
    if (a.lighter != b.lighter)
        return a.lighter < b.lighter ? -1 : 1;
    return a.against < b.against ? -1 : a.against > b.against;
}

static struct cost least_cost(const struct cost *two)
{
    return compare_costs(two[0], two[1]) <= 0 ? two[0] : two[1];
}

/* ---- a part of the graph ---- */

/* An edge as one of its nodes sees it. */
struct link {
    size_t to;
    const int64_t *pairs;
};

/* Ways are kept as 0 for -1 and 1 for 1 while they are looked for. */
struct solving {
    struct arena *arena;
    struct press_graph *graph;
    size_t *first; /* link of each node, one more at the end */
    struct link *links;
    int *part;       /* of each node that is not fixed; else NONE */
    size_t *members; /* of the part at work, in the order of a walk */
    size_t count;    /* of them */
    int *way, *best; /* of each node; NONE where not chosen */
    struct cost (
        *due)[2]; /* of a node: what each way costs by what is chosen */
    struct cost best_cost;
};

static void link_nodes(struct solving *s)
{
    const struct press_graph *graph = s->graph;
    for (size_t i = 0; i < graph->edges.count; i++)
        for (int k = 0; k < 2; k++)
            s->first[graph->edges.items[i].ends[k] + 1]++;
    for (size_t i = 0; i < graph->nodes.count; i++)
        s->first[i + 1] += s->first[i];
    size_t *next = ARENA_ARRAY(s->arena, size_t, graph->nodes.count + 1);
    memcpy(next, s->first, graph->nodes.count * sizeof *next);
    s->links = ARENA_ARRAY(s->arena, struct link, 2 * graph->edges.count + 1);
    for (size_t i = 0; i < graph->edges.count; i++) {
        const struct press_edge *edge = &graph->edges.items[i];
        for (int k = 0; k < 2; k++)
            s->links[next[edge->ends[k]]++] =
                (struct link){edge->ends[1 - k], edge->pairs};
    }
}

/* All that can be walked to from a node without a step on a fixed one. */
static void collect_part(struct solving *s, size_t from, int part)
{
    s->count = 0;
    s->members[s->count++] = from;
    s->part[from] = part;
    for (size_t i = 0; i < s->count; i++) {
        const size_t node = s->members[i];
        for (size_t k = s->first[node]; k < s->first[node + 1]; k++) {
            const size_t to = s->links[k].to;
            if (s->graph->nodes.items[to].fixed || s->part[to] != NONE)
                continue;
            s->part[to] = part;
            s->members[s->count++] = to;
        }
    }
}

/* What the node costs by itself: a meeting with itself cannot be helped and
 * counts nowhere. */
static void own_due(struct solving *s, size_t node)
{
    const struct press_node *n = &s->graph->nodes.items[node];
    for (int way = 0; way < 2; way++)
        s->due[node][way] =
            (struct cost){0, n->folded[way], n->lighter[way],
                          n->ruled != 0 && n->ruled != 2 * way - 1};
    for (size_t k = s->first[node]; k < s->first[node + 1]; k++)
        for (int way = 0; way < 2; way++)
            if (s->graph->nodes.items[s->links[k].to].fixed)
                s->due[node][way].pairs += s->links[k].pairs[way];
}

/* What the chosen way of a node adds to what its neighbors cost. */
static void spread_due(struct solving *s, size_t node, int sign)
{
    for (size_t k = s->first[node]; k < s->first[node + 1]; k++) {
        const struct link *link = &s->links[k];
        if (link->to == node || s->part[link->to] == NONE)
            continue;
        for (int way = 0; way < 2; way++)
            s->due[link->to][way].pairs +=
                sign * link->pairs[way == s->way[node]];
    }
}

static void choose(struct solving *s, size_t node, int way)
{
    s->way[node] = way;
    spread_due(s, node, 1);
}

static void take_back(struct solving *s, size_t node)
{
    spread_due(s, node, -1);
    s->way[node] = NONE;
}

/* Of the ways that are chosen for all members. An edge between two of them is
 * due at both, and a meeting with itself nowhere. */
static struct cost whole_cost(const struct solving *s)
{
    struct cost sum = {0, 0, 0, 0};
    for (size_t i = 0; i < s->count; i++) {
        const size_t node = s->members[i];
        const int way = s->way[node];
        sum = plus(sum, s->due[node][way], 1);
        for (size_t k = s->first[node]; k < s->first[node + 1]; k++) {
            const struct link *link = &s->links[k];
            if (link->to > node && s->part[link->to] != NONE)
                sum.pairs -= link->pairs[way == s->way[link->to]];
        }
    }
    return sum;
}

static void keep_best(struct solving *s, struct cost cost)
{
    s->best_cost = cost;
    for (size_t i = 0; i < s->count; i++)
        s->best[s->members[i]] = s->way[s->members[i]];
}

/* Turns single nodes over as long as that helps, and keeps what comes of it
 * where it is the best so far. */
static void descend(struct solving *s, bool first)
{
    for (bool better = true; better;) {
        better = false;
        for (size_t i = 0; i < s->count; i++) {
            const size_t node = s->members[i];
            const int way = s->way[node];
            if (compare_costs(s->due[node][1 - way], s->due[node][way]) >= 0)
                continue;
            take_back(s, node);
            choose(s, node, 1 - way);
            better = true;
        }
    }
    const struct cost cost = whole_cost(s);
    if (first || compare_costs(cost, s->best_cost) < 0)
        keep_best(s, cost);
}

static void begin_part(struct solving *s)
{
    for (size_t i = 0; i < s->count; i++) {
        s->way[s->members[i]] = NONE;
        own_due(s, s->members[i]);
    }
}

/* Where the walk begins: at what a fixed node binds most, so that what follows
 * from it is found by colouring alone. */
static void begin_bound(struct solving *s)
{
    int64_t most = 0;
    size_t at = s->members[0];
    for (size_t i = 0; i < s->count; i++) {
        const struct cost *due = s->due[s->members[i]];
        const int64_t bound = due[0].pairs > due[1].pairs
                                  ? due[0].pairs - due[1].pairs
                                  : due[1].pairs - due[0].pairs;
        if (bound > most) {
            most = bound;
            at = s->members[i];
        }
    }
    const int part = s->part[at];
    for (size_t i = 0; i < s->count; i++)
        s->part[s->members[i]] = NONE;
    collect_part(s, at, part);
}

/* Two colours along the walk, each node as its neighbors so far want it;
 * `other` begins with the other one. ensures: the best of the part that can
 * nest, in one of the two. */
static void color_part(struct solving *s, bool other)
{
    begin_part(s);
    for (size_t i = 0; i < s->count; i++) {
        const struct cost *due = s->due[s->members[i]];
        const int way = compare_costs(due[0], due[1]) > 0;
        choose(s, s->members[i], i == 0 && other ? 1 - way : way);
    }
    descend(s, !other);
}

/* ---- the search ---- */

/* Depth first over the members from `depth` on; `bound` is the cost of what is
 * chosen and the least that is due for the rest. */
static void search(struct solving *s, size_t depth, struct cost bound)
{
    if (compare_costs(bound, s->best_cost) >= 0 || s->graph->steps == 0)
        return;
    s->graph->steps--;
    if (depth == s->count) {
        keep_best(s, bound);
        return;
    }
    const size_t node = s->members[depth];
    const int likely = compare_costs(s->due[node][0], s->due[node][1]) > 0;
    const struct cost own[2] = {s->due[node][0], s->due[node][1]};
    for (int i = 0; i < 2; i++) {
        const int way = i == 0 ? likely : 1 - likely;
        struct cost next = plus(bound, least_cost(own), -1);
        next = plus(next, own[way], 1);
        for (int after = 0; after < 2; after++) {
            if (after == 1)
                choose(s, node, way);
            for (size_t k = s->first[node]; k < s->first[node + 1]; k++) {
                const size_t to = s->links[k].to;
                if (to != node && s->part[to] != NONE && s->way[to] == NONE)
                    next =
                        plus(next, least_cost(s->due[to]), after == 1 ? 1 : -1);
            }
        }
        search(s, depth + 1, next);
        take_back(s, node);
    }
}

/* Beyond that, the stack and the time of a search are better spent otherwise.
 */
enum { MEMBERS_MOST = 400 };

static void search_part(struct solving *s)
{
    if (s->count > MEMBERS_MOST || s->graph->steps == 0) {
        s->graph->proved = false;
        return;
    }
    begin_part(s);
    struct cost bound = {0, 0, 0, 0};
    for (size_t i = 0; i < s->count; i++)
        bound = plus(bound, least_cost(s->due[s->members[i]]), 1);
    search(s, 0, bound);
    if (s->graph->steps == 0)
        s->graph->proved = false;
}

/* By the rules, a way that many keep: one more beginning of a descent. */
static void follow_rules(struct solving *s)
{
    begin_part(s);
    for (size_t i = 0; i < s->count; i++)
        choose(s, s->members[i],
               s->graph->nodes.items[s->members[i]].ruled != -1);
    descend(s, false);
}

/* A part that can nest has two colourings, or one where a fixed node binds it:
 * both were looked at, as long as descending kept them. */
static void solve_part(struct solving *s, size_t from, int part)
{
    collect_part(s, from, part);
    begin_part(s);
    begin_bound(s);
    color_part(s, false);
    color_part(s, true);
    if (s->best_cost.pairs > 0) {
        follow_rules(s);
        search_part(s);
    }
    for (size_t i = 0; i < s->count; i++)
        s->graph->nodes.items[s->members[i]].way =
            2 * s->best[s->members[i]] - 1;
}

void graph_solve(struct press_graph *graph)
{
    struct arena *arena = arena_create();
    const size_t count = graph->nodes.count;
    struct solving s = {.arena = arena,
                        .graph = graph,
                        .first = ARENA_ARRAY(arena, size_t, count + 2),
                        .part = ARENA_ARRAY(arena, int, count + 1),
                        .members = ARENA_ARRAY(arena, size_t, count + 1),
                        .way = ARENA_ARRAY(arena, int, count + 1),
                        .best = ARENA_ARRAY(arena, int, count + 1)};
    s.due = arena_alloc(arena, (count + 1) * sizeof *s.due);
    graph->proved = true;
    link_nodes(&s);
    for (size_t i = 0; i < count; i++) {
        s.part[i] = NONE;
        graph->nodes.items[i].way = 1;
    }
    int part = 0;
    for (size_t i = 0; i < count; i++)
        if (!graph->nodes.items[i].fixed && s.part[i] == NONE)
            solve_part(&s, i, part++);
    arena_destroy(arena);
}
