/* Parts that the pairs leave apart and closed, each of which would cost a
 * start: joined by travel there and back, the shortest first. Ways between
 * parts come from one search with all of them as sources: where two of its
 * regions meet, a way leads from one part to the other (K. Mehlhorn, A faster
 * approximation algorithm for the Steiner problem in graphs, 1988, cited from
 * memory). Not proved least: that is the rural postman's problem. */
#include <stdlib.h>

#include "route_graph.h"

struct parts {
    uint32_t *sets; /* of points */
    size_t *odd;    /* of a set: points that are alone; 0 for a closed part */
    int64_t *alone; /* of a closed part: what a path of its own costs least */
};

struct meeting {
    int64_t cost; /* one way */
    uint32_t piece;
    uint32_t from, to; /* the points of the parts */
};

static struct parts find_parts(const struct route_work *work)
{
    const size_t points = work->input->point_count;
    struct parts parts = {route_sets(work->arena, points),
                          ARENA_ARRAY(work->arena, size_t, points + 1),
                          ARENA_ARRAY(work->arena, int64_t, points + 1)};
    bool *is_odd = ARENA_ARRAY(work->arena, bool, points + 1);
    for (size_t i = 0; i < work->passes.count; i++) {
        const struct route_piece *piece =
            &work->input->pieces[work->passes.items[i].piece];
        parts.sets[route_find(parts.sets, (uint32_t)piece->a)] =
            route_find(parts.sets, (uint32_t)piece->b);
        is_odd[piece->a] ^= true;
        is_odd[piece->b] ^= true;
        /* Any point of it may be both ends. */
        parts.alone[piece->a] = 2 * work->worth[piece->a];
        parts.alone[piece->b] = 2 * work->worth[piece->b];
    }
    for (uint32_t i = 0; i < points; i++) {
        const uint32_t set = route_find(parts.sets, i);
        parts.odd[set] += is_odd[i];
        if (parts.alone[i] > 0 && parts.alone[i] < parts.alone[set])
            parts.alone[set] = parts.alone[i];
    }
    /* Or the way of one of its pairs is left out. */
    for (size_t i = 0; i < work->pairs.count; i++) {
        const struct route_pair *pair = &work->pairs.items[i];
        const uint32_t set = route_find(parts.sets, pair->from);
        const int64_t cost =
            work->worth[pair->from] + work->worth[pair->to] - pair->way;
        if (cost < parts.alone[set])
            parts.alone[set] = cost;
    }
    return parts;
}

/* Reaches all around from the points of all parts. */
static void reach_all(struct route_work *work)
{
    route_reach_begin(work);
    for (size_t i = 0; i < work->passes.count; i++)
        for (uint32_t end = 0; end < 2; end++)
            route_reach_from(work, route_point(work, (uint32_t)(2 * i) + end));
    for (uint32_t node;
         (node = route_reach_next(work, ROUTE_START / 2)) != ROUTE_NONE;)
        route_reach_on(work, node, 0);
}

static int compare_meetings(const void *a, const void *b)
{
    const struct meeting *x = a, *y = b;
    if (x->cost != y->cost)
        return x->cost < y->cost ? -1 : 1;
    return (x->piece > y->piece) - (x->piece < y->piece);
}

typedef LIST(struct meeting) meeting_list;

/* Where regions of two parts meet. */
static meeting_list find_meetings(struct route_work *work, struct parts *parts)
{
    const struct route_reach *reach = &work->reach;
    meeting_list meetings = {0};
    for (uint32_t i = 0; i < work->input->count; i++) {
        const uint32_t a = (uint32_t)(2 * work->input->pieces[i].a);
        const uint32_t b = (uint32_t)(2 * work->input->pieces[i].b);
        if (work->travel[i] < 0 || !route_reached(work, a) ||
            !route_reached(work, b) ||
            route_find(parts->sets, reach->source[a]) ==
                route_find(parts->sets, reach->source[b]))
            continue;
        *LIST_ADD(work->arena, &meetings) =
            (struct meeting){reach->cost[a] + work->travel[i] + reach->cost[b],
                             i, reach->source[a], reach->source[b]};
    }
    if (meetings.count > 0)
        qsort(meetings.items, meetings.count, sizeof *meetings.items,
              compare_meetings);
    return meetings;
}

/* Whether two parts are joined for less than they cost apart: travel there and
 * back, against a path of its own for one that is closed. Of two closed ones
 * the way need be sewn once only, as the path may begin at its one end and come
 * to its end at the other. `alone` becomes what the whole then costs. */
static bool is_worth(const struct route_work *work, const struct parts *parts,
                     uint32_t a, uint32_t b, const struct meeting *meeting,
                     int64_t *alone)
{
    *alone =
        parts->alone[a] < parts->alone[b] ? parts->alone[a] : parts->alone[b];
    if (parts->odd[a] > 0 && parts->odd[b] > 0)
        return false;
    if (parts->odd[a] > 0 || parts->odd[b] > 0)
        return 2 * meeting->cost < parts->alone[parts->odd[a] > 0 ? b : a];
    const int64_t once =
        work->worth[meeting->from] + work->worth[meeting->to] - meeting->cost;
    *alone = once < *alone ? once : *alone;
    return 2 * meeting->cost + *alone < parts->alone[a] + parts->alone[b];
}

static void join(struct route_work *work, struct parts *parts, uint32_t a,
                 uint32_t b, uint32_t piece)
{
    parts->odd[b] += parts->odd[a];
    parts->sets[a] = b;
    for (int i = 0; i < 2; i++)
        *LIST_ADD(work->arena, &work->passes) =
            (struct route_pass){piece, true};
    route_travel_to(work, (uint32_t)work->input->pieces[piece].a, 2);
    route_travel_to(work, (uint32_t)work->input->pieces[piece].b, 2);
}

void route_join_parts(struct route_work *work)
{
    struct parts parts = find_parts(work);
    reach_all(work);
    const meeting_list meetings = find_meetings(work, &parts);
    for (size_t i = 0; i < meetings.count; i++) {
        const struct meeting *meeting = &meetings.items[i];
        const uint32_t a = route_find(parts.sets, meeting->from);
        const uint32_t b = route_find(parts.sets, meeting->to);
        int64_t alone;
        if (a == b || !is_worth(work, &parts, a, b, meeting, &alone))
            continue;
        join(work, &parts, a, b, meeting->piece);
        parts.alone[b] = alone;
    }
}
