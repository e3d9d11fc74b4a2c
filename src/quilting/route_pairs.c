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
 * that comes up to a paired point goes down again, and ends at the next one. */
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

typedef LIST(struct match_edge) edge_list;

/* Ways from one odd point to the next ones of higher number that are worth it.
 */
static void look_around(struct route_work *work, const struct odd *odd,
                        uint32_t number, edge_list *edges)
{
    const uint32_t from = odd->points[number];
    route_reach_begin(work);
    route_reach_from(work, from);
    const int64_t limit = work->worth[from] + ROUTE_START / 2;
    for (uint32_t node; (node = route_reach_next(work, limit)) != ROUTE_NONE;) {
        const uint32_t at = node / 2, other = odd->numbers[at];
        const int64_t weight =
            work->worth[from] + work->worth[at] - work->reach.cost[node];
        if (other != ROUTE_NONE && other > number && weight > 0)
            *LIST_ADD(work->arena, edges) =
                (struct match_edge){number, other, weight};
        const bool over = at != from && other != ROUTE_NONE &&
                          work->worth[at] == ROUTE_START / 2;
        const uint32_t ways =
            work->halves.first[at + 1] - work->halves.first[at];
        if (!over || (node % 2 == 0 && ways > 2))
            route_reach_on(work, node, over || node % 2 == 1);
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
    edge_list edges = {0};
    for (uint32_t i = 0; i < odd.count; i++) {
        look_around(work, &odd, i, &edges);
        work->bound += work->worth[odd.points[i]];
    }
    const struct matching matching =
        match_heaviest(work->arena, odd.count, edges.items, edges.count);
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
