/* Blossoms: made, turned to another base, taken apart. See match_graph.h. */
#include <string.h>

#include "match_graph.h"

/* ---- duals and labels ---- */

/* What is not a point yet gives way to its ring: never more than all points. */
void match_leaves(struct match_graph *graph, uint32_t node)
{
    uint32_t *items = graph->leaves.items;
    size_t count = 1;
    items[0] = node;
    for (size_t i = 0; i < count;) {
        if (items[i] < graph->points) {
            i++;
            continue;
        }
        const struct match_node *blossom = &graph->nodes[items[i]];
        items[i] = blossom->ring[0];
        memcpy(items + count, blossom->ring + 1,
               (blossom->count - 1) * sizeof *items);
        count += blossom->count - 1;
    }
    graph->leaves.count = count;
}

/* How far the duals of a set moved up to now. */
static int64_t moved_by(const struct match_graph *graph, uint32_t set)
{
    const struct match_set *of = &graph->sets[set];
    const enum match_label label = graph->nodes[of->top].label;
    const int64_t since = graph->now - of->since;
    return of->moved + (label == MATCH_INNER   ? since
                        : label == MATCH_OUTER ? -since
                                               : 0);
}

int64_t match_point_dual(const struct match_graph *graph, uint32_t point)
{
    return graph->nodes[point].dual + moved_by(graph, graph->set[point]);
}

int64_t match_top_dual(const struct match_graph *graph, uint32_t top)
{
    const struct match_node *node = &graph->nodes[top];
    if (top < graph->points)
        return match_point_dual(graph, top);
    if (node->label == MATCH_FREE)
        return node->dual;
    const int64_t moved = 2 * (graph->now - node->since);
    return node->label == MATCH_OUTER ? node->dual + moved : node->dual - moved;
}

int64_t match_slack(const struct match_graph *graph, uint32_t arc)
{
    return match_point_dual(graph, match_tail(graph, arc)) +
           match_point_dual(graph, match_head(graph, arc)) -
           2 * graph->edges[arc / 2].weight;
}

/* Writes down the duals of a top and its set as they are now. */
static void settle(struct match_graph *graph, uint32_t top)
{
    struct match_set *set = &graph->sets[graph->nodes[top].set];
    if (top >= graph->points) {
        graph->nodes[top].dual = match_top_dual(graph, top);
        graph->nodes[top].since = graph->now;
    }
    set->moved = moved_by(graph, graph->nodes[top].set);
    set->since = graph->now;
}

static void make_fresh(struct match_graph *graph, uint32_t node)
{
    match_leaves(graph, node);
    for (size_t i = 0; i < graph->leaves.count; i++)
        *LIST_ADD(graph->arena, &graph->fresh) = graph->leaves.items[i];
}

/* What lies in a tree is kept, so that it alone is taken apart with it. */
static void join_tree(struct match_graph *graph, uint32_t node, uint32_t tree)
{
    graph->nodes[node].tree = tree;
    *LIST_ADD(graph->arena, &graph->members) =
        (struct match_member){node, graph->tree[tree]};
    graph->tree[tree] = (uint32_t)graph->members.count;
}

void match_label(struct match_graph *graph, uint32_t top,
                 enum match_label label, uint32_t entry)
{
    settle(graph, top);
    graph->nodes[top].label = label;
    graph->nodes[top].entry = entry;
    if (label != MATCH_FREE)
        join_tree(graph, top,
                  entry == MATCH_NONE
                      ? graph->nodes[top].base
                      : graph->nodes[match_top(graph, match_tail(graph, entry))]
                            .tree);
    if (label == MATCH_OUTER)
        make_fresh(graph, top);
}

/* The points of a node go from one settled set to another. */
static void change_set(struct match_graph *graph, uint32_t node, uint32_t from,
                       uint32_t to)
{
    if (from == to)
        return;
    const int64_t difference = graph->sets[from].moved - graph->sets[to].moved;
    match_leaves(graph, node);
    for (size_t i = 0; i < graph->leaves.count; i++) {
        graph->nodes[graph->leaves.items[i]].dual += difference;
        graph->set[graph->leaves.items[i]] = to;
    }
}

/* ---- pairs within a blossom ---- */

void match_pair(struct match_graph *graph, uint32_t arc)
{
    graph->pair[match_tail(graph, arc)] = arc;
    graph->pair[match_head(graph, arc)] = arc ^ 1u;
}

/* The place in a blossom's ring of the node that holds a point. */
static uint32_t place_in_ring(const struct match_graph *graph, uint32_t blossom,
                              uint32_t point)
{
    uint32_t node = point;
    while (graph->nodes[node].parent != blossom)
        node = graph->nodes[node].parent;
    uint32_t place = 0;
    while (graph->nodes[blossom].ring[place] != node)
        place++;
    return place;
}

static void reverse(uint32_t *items, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        const uint32_t item = items[i];
        items[i] = items[count - 1 - i];
        items[count - 1 - i] = item;
    }
}

/* The list begins with the item at `place`. */
static void turn(uint32_t *items, size_t count, size_t place)
{
    reverse(items, place);
    reverse(items + place, count - place);
    reverse(items, count);
}

/* The ring has an odd number of nodes, so one of the two ways from the new base
 * to the old one has an even number of ties: along it pairs and other ties
 * change places. */
void match_rebase(struct match_graph *graph, uint32_t node, uint32_t point)
{
    struct match_node *blossom = &graph->nodes[node];
    blossom->base = point;
    if (node < graph->points)
        return;
    const uint32_t place = place_in_ring(graph, node, point);
    match_rebase(graph, blossom->ring[place], point);
    const bool up = place % 2 == 1;
    for (uint32_t at = place; at != 0 && at != blossom->count;
         at = up ? at + 2 : at - 2) {
        const uint32_t tie = up ? at + 1 : at - 2;
        const uint32_t arc = blossom->ties[tie];
        match_rebase(graph, blossom->ring[tie], match_tail(graph, arc));
        match_rebase(graph, blossom->ring[(tie + 1) % blossom->count],
                     match_head(graph, arc));
        match_pair(graph, arc);
    }
    turn(blossom->ring, blossom->count, place);
    turn(blossom->ties, blossom->count, place);
}

/* ---- making one ---- */

/* The outer node above an outer node, or MATCH_NONE at the root. */
static uint32_t above(const struct match_graph *graph, uint32_t outer)
{
    if (graph->nodes[outer].entry == MATCH_NONE)
        return MATCH_NONE;
    const uint32_t inner =
        match_top(graph, match_tail(graph, graph->nodes[outer].entry));
    return match_top(graph, match_tail(graph, graph->nodes[inner].entry));
}

uint32_t match_meeting(struct match_graph *graph, uint32_t a, uint32_t b)
{
    const uint64_t mark = ++graph->meetings;
    while (a != MATCH_NONE || b != MATCH_NONE) {
        if (a == MATCH_NONE) {
            a = b;
            b = MATCH_NONE;
        }
        if (graph->nodes[a].met == mark)
            return a;
        graph->nodes[a].met = mark;
        const uint32_t next = above(graph, a);
        a = b;
        b = next;
    }
    return MATCH_NONE;
}

/* The nodes from an outer node up to, and without, another one above it. */
static size_t way_up(const struct match_graph *graph, uint32_t from,
                     uint32_t to, uint32_t *nodes)
{
    size_t count = 0;
    while (from != to) {
        const uint32_t inner =
            match_top(graph, match_tail(graph, graph->nodes[from].entry));
        if (nodes != NULL) {
            nodes[count] = from;
            nodes[count + 1] = inner;
        }
        count += 2;
        from = match_top(graph, match_tail(graph, graph->nodes[inner].entry));
    }
    return count;
}

/* From `root` down to the arc's tail, over the arc, up to `root` again. */
static void make_ring(struct match_graph *graph, struct match_node *blossom,
                      uint32_t root, uint32_t arc)
{
    const uint32_t left = match_top(graph, match_tail(graph, arc));
    const uint32_t right = match_top(graph, match_head(graph, arc));
    const size_t down = way_up(graph, left, root, NULL);
    const size_t up = way_up(graph, right, root, NULL);
    blossom->count = (uint32_t)(down + 1 + up);
    if (blossom->count > blossom->room) {
        blossom->room = blossom->count;
        blossom->ring = ARENA_ARRAY(graph->arena, uint32_t, 2 * blossom->room);
        blossom->ties = blossom->ring + blossom->room;
    }
    way_up(graph, left, root, blossom->ring);
    reverse(blossom->ring, down);
    memmove(blossom->ring + 1, blossom->ring, down * sizeof *blossom->ring);
    blossom->ring[0] = root;
    way_up(graph, right, root, blossom->ring + down + 1);
    for (size_t i = 0; i < blossom->count; i++) {
        if (i < down)
            blossom->ties[i] = graph->nodes[blossom->ring[i + 1]].entry;
        else
            blossom->ties[i] =
                i == down ? arc : graph->nodes[blossom->ring[i]].entry ^ 1u;
    }
}

void match_shrink(struct match_graph *graph, uint32_t arc, uint32_t root)
{
    const uint32_t number = graph->unused.items[--graph->unused.count];
    struct match_node *blossom = &graph->nodes[number];
    blossom->parent = MATCH_NONE;
    blossom->base = graph->nodes[root].base;
    blossom->entry = graph->nodes[root].entry;
    blossom->label = MATCH_OUTER;
    blossom->dual = 0;
    blossom->since = graph->now;
    make_ring(graph, blossom, root, arc);
    uint32_t largest = root;
    blossom->size = 0;
    for (uint32_t i = 0; i < blossom->count; i++) {
        const uint32_t node = blossom->ring[i];
        settle(graph, node);
        if (graph->nodes[node].label == MATCH_INNER)
            make_fresh(graph, node);
        graph->nodes[node].label = MATCH_FREE;
        graph->nodes[node].parent = number;
        blossom->size += graph->nodes[node].size;
        if (graph->nodes[node].size > graph->nodes[largest].size)
            largest = node;
    }
    blossom->set = graph->nodes[largest].set;
    graph->sets[blossom->set].top = number;
    for (uint32_t i = 0; i < blossom->count; i++)
        change_set(graph, blossom->ring[i], graph->nodes[blossom->ring[i]].set,
                   blossom->set);
    join_tree(graph, number, graph->nodes[root].tree);
}

/* ---- taking one apart ---- */

/* Its nodes are tops again, without labels. */
static void free_ring(struct match_graph *graph,
                      const struct match_node *blossom)
{
    for (uint32_t i = 0; i < blossom->count; i++) {
        const uint32_t node = blossom->ring[i];
        graph->nodes[node].parent = MATCH_NONE;
        graph->nodes[node].label = MATCH_FREE;
        const uint32_t set = graph->nodes[node].set;
        graph->sets[set].top = node;
        change_set(graph, node, blossom->set, set);
    }
}

void match_expand(struct match_graph *graph, uint32_t number)
{
    settle(graph, number);
    struct match_node *blossom = &graph->nodes[number];
    const uint32_t place =
        place_in_ring(graph, number, match_head(graph, blossom->entry));
    free_ring(graph, blossom);
    blossom->label = MATCH_FREE;
    /* The tree goes on from where it came in to the base, by pairs first. */
    const bool up = place % 2 == 1;
    const uint32_t count = blossom->count;
    enum match_label label = MATCH_INNER;
    uint32_t entry = blossom->entry;
    for (uint32_t at = place;; at = (up ? at + 1 : at - 1) % count) {
        match_label(graph, blossom->ring[at], label, entry);
        if (at == 0)
            break;
        label = label == MATCH_INNER ? MATCH_OUTER : MATCH_INNER;
        entry = up ? blossom->ties[at] : blossom->ties[at - 1] ^ 1u;
    }
    graph->freed.count = 0;
    for (uint32_t i = 0; i < count; i++)
        if (graph->nodes[blossom->ring[i]].label == MATCH_FREE)
            *LIST_ADD(graph->arena, &graph->freed) = blossom->ring[i];
    *LIST_ADD(graph->arena, &graph->unused) = number;
}
