/* One long path: see route.h. The steps in their order are those of route_plan;
 * read next route_graph.h. */
#include <math.h>
#include <string.h>

#include "route_graph.h"

/* ---- what is planned, and what it costs ---- */

/* What an end costs: half a start, a quarter of that at the edge. */
static int64_t end_worth(const struct route_input *input, size_t point)
{
    return input->at_edge[point] ? ROUTE_START / 8 : ROUTE_START / 2;
}

/* In the steps in which the pairing counts. */
static int64_t travel_cost(const struct route_input *input, size_t number)
{
    const struct route_piece *piece = &input->pieces[number];
    if (piece->travel == ROUTE_TRAVEL_NONE || !(input->start_worth > 0))
        return -1;
    const double cost =
        piece->length / input->start_worth * ROUTE_START *
        (piece->travel == ROUTE_TRAVEL_BACK ? ROUTE_BACK_COST : 1);
    /* No way is longer than a start is worth, and none leads nowhere. */
    return cost < ROUTE_START && piece->a != piece->b ? llround(cost) : -1;
}

static struct route_work *begin_work(struct arena *arena,
                                     const struct route_input *input)
{
    struct route_work *work = ARENA_NEW(arena, struct route_work);
    work->arena = arena;
    work->input = input;
    work->travel = ARENA_ARRAY(arena, int64_t, input->count + 1);
    work->worth = ARENA_ARRAY(arena, int64_t, input->point_count + 1);
    bool *wanted = ARENA_ARRAY(arena, bool, input->count + 1);
    for (size_t i = 0; i < input->point_count; i++)
        work->worth[i] = end_worth(input, i);
    for (size_t i = 0; i < input->count; i++) {
        work->travel[i] = travel_cost(input, i);
        wanted[i] = work->travel[i] >= 0;
        if (input->pieces[i].planned)
            *LIST_ADD(arena, &work->passes) =
                (struct route_pass){(uint32_t)i, false};
    }
    work->halves =
        route_halves(work, 2 * input->count, wanted, route_piece_point);
    return work;
}

/* Paths of what is planned if there were no travel. */
static size_t starts_alone(struct arena *arena, const struct route_input *input)
{
    uint32_t *sets = route_sets(arena, input->point_count);
    uint32_t *ends = ARENA_ARRAY(arena, uint32_t, input->point_count + 1);
    size_t *odd = ARENA_ARRAY(arena, size_t, input->point_count + 1);
    for (size_t i = 0; i < input->count; i++) {
        const struct route_piece *piece = &input->pieces[i];
        if (!piece->planned)
            continue;
        ends[piece->a]++;
        ends[piece->b]++;
        sets[route_find(sets, (uint32_t)piece->a)] =
            route_find(sets, (uint32_t)piece->b);
    }
    for (uint32_t i = 0; i < input->point_count; i++)
        odd[route_find(sets, i)] += ends[i] % 2;
    size_t starts = 0;
    for (uint32_t i = 0; i < input->point_count; i++)
        if (ends[i] > 0 && (sets[i] == i || route_find(sets, i) == i))
            starts += odd[i] > 2 ? odd[i] / 2 : 1;
    return starts;
}

/* ---- steps ---- */

/* Which of the times that a planned piece is sewn over is the one planned: the
 * first, as one goes back over a line only when it is there. */
static void add_steps(const struct route_work *work, struct arena *arena,
                      const struct route_trails *trails, struct route *route)
{
    const struct route_piece *pieces = work->input->pieces;
    bool *stitched = ARENA_ARRAY(work->arena, bool, work->input->count + 1);
    for (size_t i = 0; i < trails->items.count; i++) {
        const struct route_trail *trail = &trails->items.items[i];
        for (size_t k = 0; k < trail->count; k++) {
            const uint32_t half = trail->halves[k];
            const uint32_t piece = work->passes.items[half / 2].piece;
            const bool travel = stitched[piece] || !pieces[piece].planned;
            stitched[piece] = true;
            *LIST_ADD(arena, &route->steps) =
                (struct route_step){.piece = piece,
                                    .backwards = half % 2 == 1,
                                    .travel = travel,
                                    .start = k == 0};
            if (travel)
                route->travelled += pieces[piece].length;
            else
                route->stitched += pieces[piece].length;
        }
    }
    route->starts = trails->items.count;
}

/* The quilt is turned where the direction leaves that of the last turn. What is
 * stitched by eye needs no turn, and the quilt lies as before behind it. */
static void count_turns(const struct route_work *work, struct route *route)
{
    const double least = cos(ROUTE_TURN * acos(-1) / 180) + 1e-9;
    struct spot heading = {0, 0};
    for (size_t i = 0; i < route->steps.count; i++) {
        struct route_step *step = &route->steps.items[i];
        const struct spot way =
            route_way(work, (uint32_t)(2 * step->piece + step->backwards));
        if (step->start)
            heading = (struct spot){0, 0};
        if (work->input->pieces[step->piece].by_eye ||
            (way.x == 0 && way.y == 0))
            continue;
        const bool set = heading.x != 0 || heading.y != 0;
        step->turn = set && heading.x * way.x + heading.y * way.y <= least;
        if (step->turn || !set)
            heading = way;
        route->turns += step->turn;
    }
}

static double length_of(const struct route_work *work,
                        const struct route *route, size_t step)
{
    return work->input->pieces[route->steps.items[step].piece].length;
}

/* Travel hides there, on its way to the next line. */
static bool in_ditch(const struct route_work *work, const struct route *route,
                     size_t step)
{
    return work->input->pieces[route->steps.items[step].piece].travel ==
           ROUTE_TRAVEL_DITCH;
}

/* Whether a change of bobbin hides before a step. */
static bool hides(const struct route_work *work, const struct route *route,
                  size_t step)
{
    const struct route_step *at = &route->steps.items[step];
    return at->start || at->turn || in_ditch(work, route, step) ||
           in_ditch(work, route, step - 1);
}

/* The last place up to a step, and behind `last`, that hides a change and from
 * which one bobbin lasts beyond the step; else the step itself. */
static size_t change_before(const struct route_work *work,
                            const struct route *route, size_t last, size_t step)
{
    double length = 0;
    for (size_t at = step; at > last; at--) {
        length += length_of(work, route, at);
        if (length > work->input->bobbin)
            break;
        if (hides(work, route, at))
            return at;
    }
    return step;
}

/* Where the thread ends, or sooner, where it hides. */
static void change_bobbins(const struct route_work *work, struct route *route)
{
    const double full = work->input->bobbin;
    double used = 0;
    size_t last = 0;
    for (size_t i = 0; full > 0 && i < route->steps.count; i++) {
        used += length_of(work, route, i);
        if (used <= full || i == last)
            continue;
        last = change_before(work, route, last, i);
        route->steps.items[last].bobbin = true;
        route->changes++;
        used = 0;
        for (size_t k = last; k <= i; k++)
            used += length_of(work, route, k);
    }
}

/* ---- all of it ---- */

/* Ends and travel of the paths. */
static int64_t cost_of(const struct route_work *work, const struct route *route)
{
    int64_t cost = 0;
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct route_step *step = &route->steps.items[i];
        const uint32_t half = (uint32_t)(2 * step->piece + step->backwards);
        if (step->travel)
            cost += work->travel[step->piece];
        if (step->start)
            cost += work->worth[route_piece_point(work, half)];
        if (i + 1 == route->steps.count || step[1].start)
            cost += work->worth[route_piece_point(work, half ^ 1u)];
    }
    return cost;
}

struct route route_plan(struct arena *arena, const struct route_input *input)
{
    struct arena *scratch = arena_create();
    struct route_work *work = begin_work(scratch, input);
    route_pair_odd(work);
    route_join_parts(work);
    struct route_trails trails = route_make_trails(work);
    route_order_trails(work, &trails);
    struct route route = {.starts_alone = starts_alone(scratch, input),
                          .starts_bound = work->starts_bound,
                          .proved = work->proved};
    add_steps(work, arena, &trails, &route);
    count_turns(work, &route);
    change_bobbins(work, &route);
    const double unit = input->start_worth / ROUTE_START;
    route.cost = (double)cost_of(work, &route) * unit;
    route.bound = (double)work->bound * unit;
    arena_destroy(scratch);
    return route;
}
