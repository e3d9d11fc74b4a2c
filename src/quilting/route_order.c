/* Where each trail begins, and which comes first.
 *
 * A ring may begin anywhere: where its two ends and the travel that is left out
 * there cost least, then where the turn that is saved is greatest, then where
 * the order begins. Travel at the end of a path leads nowhere and is left out.
 *
 * Orders: from the middle on to the right (down), then the other half, and each
 * path from the left (the top): kathykwylie.com, Machine Quilting Sequence,
 * June 2012; or all from the centre outwards: quiltingsolutions.blogspot.com,
 * October 2016. Customs differ, so it is a setting. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "route_graph.h"

static bool is_travel(const struct route_work *work, uint32_t half)
{
    return work->passes.items[half / 2].travel;
}

static int64_t cost_of(const struct route_work *work, uint32_t half)
{
    return work->travel[work->passes.items[half / 2].piece];
}

static struct spot spot_of(const struct route_work *work, uint32_t half)
{
    return work->input->points[route_point(work, half)];
}

/* How far from where an order likes to begin. */
static double begin_rank(const struct route_work *work, struct spot spot)
{
    const struct spot centre = work->input->centre;
    return work->input->order == ROUTE_CENTRE_OUT
               ? hypot(spot.x - centre.x, spot.y - centre.y)
               : spot.x + spot.y;
}

/* ---- where a ring begins ---- */

struct cut {
    size_t from, left_out; /* steps from `from` on, so many are left out */
    int64_t cost;
    double straight, rank;
};

static bool better(const struct cut *a, const struct cut *b)
{
    if (a->cost != b->cost)
        return a->cost < b->cost;
    if (fabs(a->straight - b->straight) > 1e-9)
        return a->straight < b->straight;
    return a->rank < b->rank - 1e-9;
}

/* The cut before step `from`, behind one that is planned, without the run of
 * travel that begins there. */
static struct cut cut_at(const struct route_work *work,
                         const struct route_trail *trail, size_t from)
{
    const size_t count = trail->count;
    const uint32_t half = trail->halves[from];
    const uint32_t before = trail->halves[(from + count - 1) % count];
    struct cut cut = {.from = from,
                      .rank = begin_rank(work, spot_of(work, half))};
    for (;; cut.left_out++) {
        const uint32_t left = trail->halves[(from + cut.left_out) % count];
        if (!is_travel(work, left))
            break;
        cut.cost -= cost_of(work, left);
    }
    const uint32_t next = trail->halves[(from + cut.left_out) % count];
    cut.cost += work->worth[route_point(work, half)] +
                work->worth[route_point(work, next)];
    const struct spot in =
        route_way(work, 2 * work->passes.items[before / 2].piece + before % 2);
    const struct spot out =
        route_way(work, 2 * work->passes.items[half / 2].piece + half % 2);
    cut.straight = in.x * out.x + in.y * out.y;
    return cut;
}

static void open_ring(const struct route_work *work, struct route_trail *trail)
{
    struct cut best = {.cost = INT64_MAX};
    for (size_t i = 0; i < trail->count; i++) {
        const size_t before = (i + trail->count - 1) % trail->count;
        if (is_travel(work, trail->halves[before]))
            continue;
        const struct cut cut = cut_at(work, trail, i);
        if (better(&cut, &best))
            best = cut;
    }
    uint32_t *opened = ARENA_ARRAY(work->arena, uint32_t, trail->count);
    const size_t left = trail->count - best.left_out;
    for (size_t i = 0; i < left; i++)
        opened[i] =
            trail->halves[(best.from + best.left_out + i) % trail->count];
    trail->halves = opened;
    trail->count = left;
    trail->closed = best.left_out == 0;
}

/* ---- ends of a path ---- */

/* Takes off what need not be sewn at the beginning: pieces that are not
 * planned, or are sewn over again. `times` is how often each still is. */
static void trim_begin(const struct route_work *work, struct route_trail *trail,
                       uint32_t *times)
{
    for (;;) {
        const uint32_t piece = work->passes.items[trail->halves[0] / 2].piece;
        if (work->input->pieces[piece].planned && times[piece] == 1)
            return;
        times[piece]--;
        trail->halves++;
        trail->count--;
        trail->closed = false;
    }
}

static void count_times(const struct route_work *work,
                        const struct route_trail *trail, uint32_t *times)
{
    for (size_t i = 0; i < trail->count; i++)
        times[work->passes.items[trail->halves[i] / 2].piece]++;
}

static void reverse(struct route_trail *trail)
{
    for (size_t i = 0; i < trail->count - 1 - i; i++) {
        const uint32_t half = trail->halves[i];
        trail->halves[i] = trail->halves[trail->count - 1 - i];
        trail->halves[trail->count - 1 - i] = half;
    }
    for (size_t i = 0; i < trail->count; i++)
        trail->halves[i] ^= 1u;
}

/* ---- order of paths ---- */

struct placed {
    struct route_trail trail;
    bool level;          /* more of it runs level than upright */
    double length;       /* stitched */
    double middle, near; /* from the quilt's middle across its run; from the
                            centre at its nearest point */
    size_t number;
};

static struct placed place(const struct route_work *work,
                           const struct route_trail *trail, size_t number)
{
    struct placed placed = {
        .trail = *trail, .number = number, .near = HUGE_VAL};
    const struct spot centre = work->input->centre;
    struct spot low = {HUGE_VAL, HUGE_VAL}, high = {-HUGE_VAL, -HUGE_VAL};
    double along_x = 0, along_y = 0;
    for (size_t i = 0; i < trail->count; i++) {
        const struct spot a = spot_of(work, trail->halves[i]);
        const struct spot b = spot_of(work, trail->halves[i] ^ 1u);
        low = (struct spot){fmin(low.x, fmin(a.x, b.x)),
                            fmin(low.y, fmin(a.y, b.y))};
        high = (struct spot){fmax(high.x, fmax(a.x, b.x)),
                             fmax(high.y, fmax(a.y, b.y))};
        placed.near =
            fmin(placed.near, fmin(hypot(a.x - centre.x, a.y - centre.y),
                                   hypot(b.x - centre.x, b.y - centre.y)));
        along_x += fabs(b.x - a.x);
        along_y += fabs(b.y - a.y);
    }
    placed.level = along_x >= along_y;
    placed.length = along_x + along_y;
    placed.middle = placed.level ? (low.y + high.y) / 2 - centre.y
                                 : (low.x + high.x) / 2 - centre.x;
    return placed;
}

/* Whether the path is better begun at its other end. */
static bool is_backwards(const struct route_work *work,
                         const struct placed *placed)
{
    const struct route_trail *trail = &placed->trail;
    const struct spot begin = spot_of(work, trail->halves[0]);
    const struct spot end = spot_of(work, trail->halves[trail->count - 1] ^ 1u);
    if (work->input->order == ROUTE_CENTRE_OUT)
        return begin_rank(work, end) < begin_rank(work, begin) - 1e-9;
    const double along = placed->level ? end.x - begin.x : end.y - begin.y;
    const double across = placed->level ? end.y - begin.y : end.x - begin.x;
    return along < -1e-9 || (along < 1e-9 && across < -1e-9);
}

/* Sorted by these, in turn. */
struct rank {
    int first;
    double then;
    size_t number;
};

static int compare_ranks(const void *a, const void *b)
{
    const struct rank *x = a, *y = b;
    if (x->first != y->first)
        return x->first < y->first ? -1 : 1;
    if (fabs(x->then - y->then) > 1e-9)
        return x->then < y->then ? -1 : 1;
    return (x->number > y->number) - (x->number < y->number);
}

/* The direction that more is stitched in comes first; of each, the path next to
 * the middle, those beyond it, then the other half. */
static struct rank rank_across(const struct placed *placed,
                               const double *lengths, const double *middles)
{
    const double beyond = placed->middle - middles[placed->level];
    const bool later = lengths[placed->level] < lengths[!placed->level] ||
                       (!placed->level && lengths[0] == lengths[1]);
    return (struct rank){2 * later + (beyond < -1e-9), fabs(beyond),
                         placed->number};
}

static void rank_all(const struct route_work *work, const struct placed *placed,
                     size_t count, struct rank *ranks)
{
    double lengths[2] = {0}, middles[2] = {HUGE_VAL, HUGE_VAL};
    for (size_t i = 0; i < count; i++) {
        lengths[placed[i].level] += placed[i].length;
        if (fabs(placed[i].middle) < fabs(middles[placed[i].level]) - 1e-9)
            middles[placed[i].level] = placed[i].middle;
    }
    for (size_t i = 0; i < count; i++)
        ranks[i] = work->input->order == ROUTE_CENTRE_OUT
                       ? (struct rank){0, placed[i].near, i}
                       : rank_across(&placed[i], lengths, middles);
    qsort(ranks, count, sizeof *ranks, compare_ranks);
}

void route_order_trails(struct route_work *work, struct route_trails *trails)
{
    const size_t count = trails->items.count;
    struct placed *placed = ARENA_ARRAY(work->arena, struct placed, count + 1);
    uint32_t *times =
        ARENA_ARRAY(work->arena, uint32_t, work->input->count + 1);
    for (size_t i = 0; i < count; i++) {
        if (trails->items.items[i].closed)
            open_ring(work, &trails->items.items[i]);
        count_times(work, &trails->items.items[i], times);
    }
    for (size_t i = 0; i < count; i++) {
        struct route_trail *trail = &trails->items.items[i];
        trim_begin(work, trail, times);
        reverse(trail);
        trim_begin(work, trail, times);
        placed[i] = place(work, trail, i);
        if (!trail->closed && is_backwards(work, &placed[i]))
            reverse(trail);
    }
    struct rank *ranks = ARENA_ARRAY(work->arena, struct rank, count + 1);
    rank_all(work, placed, count, ranks);
    for (size_t i = 0; i < count; i++)
        trails->items.items[i] = placed[ranks[i].number].trail;
}
