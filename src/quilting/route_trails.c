/* Trails: at each point the passes that end there are tied in twos, those first
 * that go straight on. Ties make trails; two trails that share a point become
 * one by changing two ties, where the turns grow least, until each part that
 * hangs together is as few trails as it can be: half its odd points, or one
 * ring. */
#include <math.h>
#include <stdlib.h>

#include "route_graph.h"

/* Ties a-b and c-d become a-c and b-d. d is ROUTE_NONE where c is an end; then
 * b is one. */
struct change {
    uint32_t a, b, c, d;
};

struct ties {
    struct route_work *work;
    struct route_halves halves; /* of passes */
    uint32_t *tied;             /* to which half, or ROUTE_NONE at an end */
    struct spot *ways;          /* of each half */
    uint32_t *sets;             /* of passes: trails */
    bool *open;                 /* of a set */
    LIST(struct change) changes;
    struct heap heap; /* of changes, by how much turns grow */
};

/* 0 straight on, 1 for a square turn, 2 back. */
static double turn(const struct ties *ties, uint32_t a, uint32_t b)
{
    if (a == ROUTE_NONE || b == ROUTE_NONE)
        return 0;
    return 1 + ties->ways[a].x * ties->ways[b].x +
           ties->ways[a].y * ties->ways[b].y;
}

/* A path begins and ends with a planned piece: where one of the halves of a
 * point must be left without a tie, or may be, travel is tied by preference. */
#define PREFERRED 10.0

static bool is_travel(const struct ties *ties, uint32_t half)
{
    return half != ROUTE_NONE && ties->work->passes.items[half / 2].travel;
}

/* ---- first ties ---- */

struct option {
    int64_t rank;
    uint32_t a, b;
};

static int compare_options(const void *a, const void *b)
{
    const struct option *x = a, *y = b;
    if (x->rank != y->rank)
        return x->rank < y->rank ? -1 : 1;
    if (x->a != y->a)
        return x->a < y->a ? -1 : 1;
    return (x->b > y->b) - (x->b < y->b);
}

static void tie(struct ties *ties, uint32_t a, uint32_t b)
{
    if (a != ROUTE_NONE)
        ties->tied[a] = b;
    if (b != ROUTE_NONE)
        ties->tied[b] = a;
}

static void tie_point(struct ties *ties, const uint32_t *halves, size_t count,
                      struct option *options)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++)
            options[found++] =
                (struct option){llround(1e9 * turn(ties, halves[k], halves[i])),
                                halves[k], halves[i]};
    qsort(options, found, sizeof *options, compare_options);
    for (size_t i = 0; i < found; i++)
        if (ties->tied[options[i].a] == ROUTE_NONE &&
            ties->tied[options[i].b] == ROUTE_NONE)
            tie(ties, options[i].a, options[i].b);
}

static void tie_all(struct ties *ties)
{
    const struct route_work *work = ties->work;
    const uint32_t *first = ties->halves.first;
    size_t most = 1;
    for (size_t i = 0; i < work->input->point_count; i++)
        if (first[i + 1] - first[i] > most)
            most = first[i + 1] - first[i];
    struct option *options =
        ARENA_ARRAY(work->arena, struct option, most * (most - 1) / 2 + 1);
    for (size_t i = 0; i < work->input->point_count; i++)
        tie_point(ties, &ties->halves.items[first[i]], first[i + 1] - first[i],
                  options);
}

/* ---- joining trails ---- */

static uint32_t trail_of(struct ties *ties, uint32_t half)
{
    return route_find(ties->sets, half / 2);
}

static void offer(struct ties *ties, struct change change)
{
    const uint32_t a = trail_of(ties, change.a), c = trail_of(ties, change.c);
    if (a == c || (ties->open[a] && ties->open[c]))
        return;
    const bool leaves = change.d == ROUTE_NONE && is_travel(ties, change.b);
    const double more =
        turn(ties, change.a, change.c) + turn(ties, change.b, change.d) -
        turn(ties, change.a, change.b) - turn(ties, change.c, change.d) +
        (leaves ? PREFERRED : 0);
    heap_add(ties->work->arena, &ties->heap, llround(1e9 * more),
             ties->changes.count);
    *LIST_ADD(ties->work->arena, &ties->changes) = change;
}

/* Both ways to change the tie or end at `c` and one at `a`. */
static void offer_both(struct ties *ties, uint32_t a, uint32_t c)
{
    const uint32_t b = ties->tied[a], d = ties->tied[c];
    if (b == ROUTE_NONE && d == ROUTE_NONE)
        return;
    if (b == ROUTE_NONE) {
        offer_both(ties, c, a);
        return;
    }
    offer(ties, (struct change){a, b, c, d});
    offer(ties, (struct change){b, a, c, d});
}

/* Each tie once: by its lower half. */
static bool is_lower(const struct ties *ties, uint32_t half)
{
    return ties->tied[half] == ROUTE_NONE || ties->tied[half] > half;
}

/* Offers one tie, or end, of a point with all others there. */
static void offer_tie(struct ties *ties, uint32_t half, bool lower_only)
{
    const uint32_t point = route_point(ties->work, half);
    for (uint32_t i = ties->halves.first[point];
         i < ties->halves.first[point + 1]; i++) {
        const uint32_t other = ties->halves.items[i];
        if (other != half && other != ties->tied[half] &&
            is_lower(ties, other) && (!lower_only || other < half))
            offer_both(ties, half, other);
    }
}

static void apply(struct ties *ties, struct change change)
{
    if (ties->tied[change.a] != change.b || ties->tied[change.c] != change.d)
        return;
    const uint32_t a = trail_of(ties, change.a), c = trail_of(ties, change.c);
    if (a == c || (ties->open[a] && ties->open[c]))
        return;
    tie(ties, change.a, change.c);
    tie(ties, change.b, change.d);
    ties->sets[a] = c;
    ties->open[c] |= ties->open[a];
    offer_tie(ties, change.a, false);
    offer_tie(ties, change.b, false);
}

static void join_trails(struct ties *ties)
{
    const uint32_t halves = (uint32_t)(2 * ties->work->passes.count);
    for (uint32_t half = 0; half < halves; half++) {
        if (ties->tied[half] == ROUTE_NONE) {
            ties->open[trail_of(ties, half)] = true;
            continue;
        }
        const uint32_t a = trail_of(ties, half);
        const uint32_t b = trail_of(ties, ties->tied[half]);
        ties->sets[a] = b;
        ties->open[b] |= ties->open[a];
    }
    for (uint32_t half = 0; half < halves; half++)
        if (is_lower(ties, half))
            offer_tie(ties, half, true);
    while (ties->heap.items.count > 0)
        apply(ties, ties->changes.items[heap_take(&ties->heap).what]);
}

/* ---- walking them ---- */

/* From a half until an end, or round. */
static void walk(struct ties *ties, uint32_t from, bool *walked,
                 struct route_trails *trails)
{
    struct arena *arena = ties->work->arena;
    LIST(uint32_t) halves = {0};
    uint32_t half = from;
    while (half != ROUTE_NONE && !walked[half / 2]) {
        walked[half / 2] = true;
        *LIST_ADD(arena, &halves) = half;
        half = ties->tied[half ^ 1u];
    }
    *LIST_ADD(arena, &trails->items) =
        (struct route_trail){halves.items, halves.count, half != ROUTE_NONE};
}

struct route_trails route_make_trails(struct route_work *work)
{
    const size_t count = work->passes.count;
    struct ties ties = {
        .work = work,
        .halves = route_halves(work, 2 * count, NULL, route_point),
        .tied = ARENA_ARRAY(work->arena, uint32_t, 2 * count + 1),
        .ways = ARENA_ARRAY(work->arena, struct spot, 2 * count + 1),
        .sets = route_sets(work->arena, count),
        .open = ARENA_ARRAY(work->arena, bool, count + 1)};
    for (uint32_t i = 0; i < 2 * count; i++) {
        ties.tied[i] = ROUTE_NONE;
        ties.ways[i] =
            route_way(work, 2 * work->passes.items[i / 2].piece + i % 2);
    }
    tie_all(&ties);
    join_trails(&ties);
    struct route_trails trails = {{0}};
    bool *walked = ARENA_ARRAY(work->arena, bool, count + 1);
    for (int ends = 1; ends >= 0; ends--)
        for (uint32_t i = 0; i < 2 * count; i++)
            if (!walked[i / 2] && (ties.tied[i] == ROUTE_NONE || ends == 0))
                walk(&ties, i, walked, &trails);
    return trails;
}
