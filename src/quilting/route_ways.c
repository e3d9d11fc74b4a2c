/* Ways of travel over a graph, in whole costs (E. W. Dijkstra, A note on two
 * problems in connexion with graphs, 1959, cited from memory). Arrays are made
 * once: a stamp tells what belongs to this search, so that many short ones cost
 * no more than what they reach. */
#include <math.h>

#include "route_graph.h"

struct spot route_way(const struct route_work *work, uint32_t piece_half)
{
    const struct spot *points = work->input->points;
    const struct spot from = points[route_piece_point(work, piece_half)];
    const struct spot to = points[route_piece_point(work, piece_half ^ 1u)];
    const double length = hypot(to.x - from.x, to.y - from.y);
    if (!(length > 0))
        return (struct spot){0, 0};
    return (struct spot){(to.x - from.x) / length, (to.y - from.y) / length};
}

struct route_halves
route_halves(const struct route_work *work, size_t count, const bool *wanted,
             uint32_t (*point_of)(const struct route_work *, uint32_t))
{
    const size_t points = work->input->point_count;
    struct route_halves halves = {
        ARENA_ARRAY(work->arena, uint32_t, points + 2),
        ARENA_ARRAY(work->arena, uint32_t, count + 1)};
    for (uint32_t i = 0; i < count; i++)
        if (wanted == NULL || wanted[i / 2])
            halves.first[point_of(work, i) + 2]++;
    for (size_t i = 2; i < points + 2; i++)
        halves.first[i] += halves.first[i - 1];
    for (uint32_t i = 0; i < count; i++)
        if (wanted == NULL || wanted[i / 2])
            halves.items[halves.first[point_of(work, i) + 1]++] = i;
    return halves;
}

uint32_t *route_sets(struct arena *arena, size_t count)
{
    uint32_t *sets = ARENA_ARRAY(arena, uint32_t, count + 1);
    for (uint32_t i = 0; i < count; i++)
        sets[i] = i;
    return sets;
}

uint32_t route_find(uint32_t *sets, uint32_t item)
{
    while (sets[item] != item) {
        sets[item] = sets[sets[item]];
        item = sets[item];
    }
    return item;
}

void route_reach_begin(struct route_work *work)
{
    struct route_reach *reach = &work->reach;
    const size_t nodes = 2 * work->input->point_count;
    if (reach->cost == NULL) {
        reach->cost = ARENA_ARRAY(work->arena, int64_t, nodes + 1);
        reach->via = ARENA_ARRAY(work->arena, uint32_t, nodes + 1);
        reach->source = ARENA_ARRAY(work->arena, uint32_t, nodes + 1);
        reach->seen = ARENA_ARRAY(work->arena, uint32_t, nodes + 1);
        reach->settled = ARENA_ARRAY(work->arena, bool, nodes + 1);
    }
    reach->search++;
    reach->heap.items.count = 0;
}

bool route_reached(const struct route_work *work, uint32_t node)
{
    return work->reach.seen[node] == work->reach.search &&
           work->reach.settled[node];
}

static void offer(struct route_work *work, uint32_t node, int64_t cost,
                  uint32_t via, uint32_t source)
{
    struct route_reach *reach = &work->reach;
    if (reach->seen[node] == reach->search &&
        (reach->settled[node] || reach->cost[node] <= cost))
        return;
    reach->seen[node] = reach->search;
    reach->settled[node] = false;
    reach->cost[node] = cost;
    reach->via[node] = via;
    reach->source[node] = source;
    heap_add(work->arena, &reach->heap, cost, node);
}

void route_reach_from(struct route_work *work, uint32_t point)
{
    offer(work, 2 * point, 0, ROUTE_NONE, point);
}

/* A way that is bound is of no use where a free one was found before it. */
uint32_t route_reach_next(struct route_work *work, int64_t limit)
{
    struct route_reach *reach = &work->reach;
    while (reach->heap.items.count > 0) {
        const struct heap_item next = heap_take(&reach->heap);
        const uint32_t node = (uint32_t)next.what;
        if (reach->settled[node] ||
            (node % 2 == 1 && route_reached(work, node - 1)))
            continue;
        if (next.key >= limit)
            return ROUTE_NONE;
        reach->settled[node] = true;
        return node;
    }
    return ROUTE_NONE;
}

void route_reach_on(struct route_work *work, uint32_t node, uint32_t bound)
{
    const struct route_reach *reach = &work->reach;
    for (uint32_t i = work->halves.first[node / 2];
         i < work->halves.first[node / 2 + 1]; i++) {
        const uint32_t half = work->halves.items[i];
        offer(work, 2 * route_piece_point(work, half ^ 1u) + bound,
              reach->cost[node] + work->travel[half / 2], half,
              reach->source[node]);
    }
}

void route_travel_to(struct route_work *work, uint32_t point, int times)
{
    while (work->reach.via[2 * point] != ROUTE_NONE) {
        const uint32_t half = work->reach.via[2 * point];
        for (int i = 0; i < times; i++)
            *LIST_ADD(work->arena, &work->passes) =
                (struct route_pass){half / 2, true};
        point = route_piece_point(work, half);
    }
}
