/* Odd points in pairs: the ways between them, and the choice that costs least.
 *
 * A way need not lead over more than one other odd point, but for those at the
 * edge, nor over one from which travel leads two ways only. So each odd point
 * looks only as far as the second ones around it, mostly the first, and pairs
 * stay few. For: take pairs that cost least, with as few pieces of travel as
 * can be, so that no piece is travelled twice. Over an odd point that stays
 * alone no way leads, else the one end with it, and the other end alone, would
 * cost no more, as no end costs more than one that is not at the edge. At a
 * paired point the pieces of travel are odd in number: one, or three and more.
 * And all travel together is a forest, as a circle could be left out. Let each
 * tree hang from one of its points, and at each paired point let the way end
 * that comes from above; ways from below are tied with each other. Then a way
 * that comes up to a paired point goes down again, and ends at the next one.
 *
 * Nor need a point look as far as an end is worth, in dense fillers over half
 * of the quilt. It looks at its nearest ones, and pairs are chosen among what
 * was found. A way that was not looked at changes nothing where the duals hold
 * its edge all the same: where the doubled way is as long as what both ends
 * cost, doubled, less both duals. One of the two must then be nearer than what
 * it costs itself, so each looks again as far as that tells, until all are held
 * (what is left out is priced by the duals: U. Derigs and A. Metz, Solving
 * large scale matching problems combinatorially, 1991, from memory). */
#include <stdlib.h>

#include "match.h"
#include "route_graph.h"

struct odd {
    uint32_t *points;
    uint32_t *numbers; /* of each point among them, or ROUTE_NONE */
    size_t count;
};

static struct odd find_odd(const struct route_work *work)
{
    const struct route_input *input = work->input;
    struct odd odd = {
        ARENA_ARRAY(work->arena, uint32_t, input->point_count + 1),
        ARENA_ARRAY(work->arena, uint32_t, input->point_count + 1), 0};
    bool *is_odd = ARENA_ARRAY(work->arena, bool, input->point_count + 1);
    for (size_t i = 0; i < input->count; i++)
        if (input->pieces[i].planned) {
            is_odd[input->pieces[i].a] ^= true;
            is_odd[input->pieces[i].b] ^= true;
        }
    for (uint32_t i = 0; i < input->point_count; i++) {
        odd.numbers[i] = is_odd[i] ? (uint32_t)odd.count : ROUTE_NONE;
        if (is_odd[i])
            odd.points[odd.count++] = i;
    }
    return odd;
}

/* Ways that were looked at, and from each odd point how far: of all shorter
 * ways the edges are there. */
struct looked {
    LIST(struct match_edge) edges;
    int64_t *far;
};

/* Others that a point looks at before any pairs are chosen. */
enum { NEAREST = 4 };

/* Looks from one odd point below `limit`, or until it found `enough` others,
 * and adds the ways that are worth it and that neither end had come to before.
 */
static void look_around(struct route_work *work, const struct odd *odd,
                        struct looked *looked, uint32_t number, int64_t limit,
                        size_t enough)
{
    const uint32_t from = odd->points[number];
    const int64_t before = looked->far[number];
    size_t found = 0;
    route_reach_begin(work);
    route_reach_from(work, from);
    looked->far[number] = limit;
    for (uint32_t node; (node = route_reach_next(work, limit)) != ROUTE_NONE;) {
        const uint32_t at = node / 2, other = odd->numbers[at];
        const int64_t way = work->reach.cost[node];
        const int64_t weight = work->worth[from] + work->worth[at] - way;
        const bool is_other = other != ROUTE_NONE && at != from;
        if (is_other && way >= before && way >= looked->far[other] &&
            weight > 0)
            *LIST_ADD(work->arena, &looked->edges) =
                (struct match_edge){number < other ? number : other,
                                    number < other ? other : number, weight};
        found += is_other;
        if (found == enough) {
            looked->far[number] = way;
            return;
        }
        const bool over = is_other && work->worth[at] == ROUTE_START / 2;
        const uint32_t ways =
            work->halves.first[at + 1] - work->halves.first[at];
        if (!over || (node % 2 == 0 && ways > 2))
            route_reach_on(work, node, over || node % 2 == 1);
    }
}

/* How far a look may lead at all: to another end that costs as much as one
 * can. */
static int64_t farthest(const struct route_work *work, const struct odd *odd,
                        uint32_t number)
{
    return work->worth[odd->points[number]] + ROUTE_START / 2;
}

/* By their points, the heaviest of the same two first. */
static int compare_edges(const void *first, const void *second)
{
    const struct match_edge *x = first, *y = second;
    if (x->a != y->a || x->b != y->b)
        return x->a != y->a ? (x->a < y->a ? -1 : 1) : (x->b < y->b ? -1 : 1);
    return (x->weight < y->weight) - (x->weight > y->weight);
}

/* Both ends may have looked at one way: of the same two, the best one stays.
 * The order is that of the points, whoever looked first. */
static void sort_edges(struct looked *looked)
{
    struct match_edge *edges = looked->edges.items;
    const size_t count = looked->edges.count;
    if (count > 1)
        qsort(edges, count, sizeof *edges, compare_edges);
    looked->edges.count = 0;
    for (size_t i = 0; i < count; i++)
        if (i == 0 || edges[i].a != edges[i - 1].a ||
            edges[i].b != edges[i - 1].b)
            edges[looked->edges.count++] = edges[i];
}

/* Looks on from each point whose dual does not tell that it looked far enough,
 * by half as far again: with what is found there duals often fall at once.
 * ensures: whether any looked; `*lost`: an edge was found that the duals do not
 * hold. */
static bool look_on(struct route_work *work, const struct odd *odd,
                    struct looked *looked, const int64_t *dual, bool *lost)
{
    const size_t known = looked->edges.count;
    bool any = false;
    for (uint32_t i = 0; i < odd->count; i++) {
        const int64_t most = farthest(work, odd, i), far = looked->far[i];
        if (far >= most || far >= 2 * work->worth[odd->points[i]] - dual[i])
            continue;
        const int64_t on = far + far / 2 + ROUTE_START / 100;
        look_around(work, odd, looked, i, on < most ? on : most, SIZE_MAX);
        any = true;
    }
    for (size_t i = known; i < looked->edges.count; i++) {
        const struct match_edge *edge = &looked->edges.items[i];
        *lost |= dual[edge->a] + dual[edge->b] < 2 * edge->weight;
    }
    return any;
}

/* Rounds end, as each looks farther, and none farther than an end is worth. */
static struct matching pair_points(struct route_work *work,
                                   const struct odd *odd)
{
    struct looked looked = {
        .far = ARENA_ARRAY(work->arena, int64_t, odd->count + 1)};
    for (uint32_t i = 0; i < odd->count; i++)
        look_around(work, odd, &looked, i, farthest(work, odd, i), NEAREST);
    for (;;) {
        sort_edges(&looked);
        const struct matching matching = match_heaviest(
            work->arena, odd->count, looked.edges.items, looked.edges.count);
        bool lost = false;
        while (!lost && look_on(work, odd, &looked, matching.dual, &lost))
            ;
        if (!lost || !matching.proved)
            return matching;
    }
}

/* The way of a pair is found again, as all ways together would fill memory. */
static void add_way(struct route_work *work, uint32_t from, uint32_t to)
{
    route_reach_begin(work);
    route_reach_from(work, from);
    uint32_t node;
    while ((node = route_reach_next(work, ROUTE_START)) != 2 * to)
        route_reach_on(work, node, 0);
    route_travel_to(work, to, 1);
    *LIST_ADD(work->arena, &work->pairs) =
        (struct route_pair){from, to, work->reach.cost[2 * to]};
}

void route_pair_odd(struct route_work *work)
{
    const struct odd odd = find_odd(work);
    for (uint32_t i = 0; i < odd.count; i++)
        work->bound += work->worth[odd.points[i]];
    const struct matching matching = pair_points(work, &odd);
    work->bound -= matching.weight;
    work->proved = matching.proved;
    size_t alone = 0;
    for (uint32_t i = 0; i < odd.count; i++) {
        if (matching.mate[i] == MATCH_ALONE)
            alone++;
        else if (matching.mate[i] > i)
            add_way(work, odd.points[i], odd.points[matching.mate[i]]);
    }
    const bool some = work->passes.count > 0;
    work->starts_bound = alone > 2 ? alone / 2 : some;
}
