/* One path for each thread in each stage, and one for each kind of area. Swirls
 * and pebbles are stitched from one point of their area's rim and come back to
 * it: two pieces there and back stand for them, as long as their law tells.
 * Read next: thread.c. */
#include "nodes.h"
#include "regions.h"
#include "route.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct placed {
    double x;
    size_t point;
};

/* The graph of all paths. */
struct ways {
    struct quilter *quilter;
    struct arena *scratch;
    const struct nodes *nodes;
    bool *at_edge;
    struct spot *points; /* those of the nodes, then one for each area that is
                            filled freely */
    size_t point_count;
    LIST(struct node_piece) pieces; /* those of the nodes, then two each */
    size_t first_free;              /* of them */
    LIST(size_t) free_areas;        /* of each two */
    bool *travelled; /* by point: something that can be travelled ends there */
    struct placed *by_x; /* the points of the nodes, from the left */
    /* For the sequences: the pieces by where they lie, and by the area whose
     * own they are: own[own_first[a]] up to own[own_first[a + 1]]. */
    struct grid *by_place;
    size_t *own, *own_first;
};

/* ---- the graph ---- */

/* There thread runs off into the batting. */
static bool on_top_edge(const struct quilter *quilter, struct spot at)
{
    const struct spot far = vertex_spot(quilter->ground->extent.high);
    return at.x < 1e-6 || at.y < 1e-6 || at.x > far.x - 1e-6 ||
           at.y > far.y - 1e-6;
}

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* From the left; equal ones in the order of their points. */
static int compare_placed(const void *first, const void *second)
{
    const struct placed *a = first, *b = second;
    return a->x != b->x ? (a->x < b->x ? -1 : 1)
                        : (a->point > b->point) - (a->point < b->point);
}

/* The first point, from the left, that is not left of x. */
static size_t first_from(const struct ways *ways, double x)
{
    size_t low = 0, high = ways->nodes->point_count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (ways->by_x[middle].x < x)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The point on the rim of the area from which it is stitched: one where the
 * needle can travel on, if there is one. A point of the graph; SIZE_MAX where
 * none lies on the rim. */
static size_t rim_point(const struct ways *ways,
                        const struct quilted_area *area)
{
    size_t best = SIZE_MAX;
    for (size_t r = 0; r < area->ring_count; r++)
        for (size_t k = 0; k < area->rings[r].count; k++) {
            const struct spot at = area->rings[r].points[k];
            for (size_t i = first_from(ways, at.x - 2e-6);
                 i < ways->nodes->point_count && ways->by_x[i].x < at.x + 2e-6;
                 i++) {
                const size_t p = ways->by_x[i].point;
                if (span_of(ways->points[p], at) > 2e-6)
                    continue;
                if (ways->travelled[p])
                    return p;
                best = best == SIZE_MAX ? p : best;
            }
        }
    return best;
}

/* From its rim to its middle and back, half of its length each way: a path
 * comes and goes at one point. */
static void add_free_area(struct ways *ways, size_t index)
{
    const struct quilted_area *area = &ways->quilter->plan->areas.items[index];
    const size_t middle = ways->point_count++;
    size_t rim = rim_point(ways, area);
    ways->points[middle] = area->label;
    if (rim == SIZE_MAX) {
        rim = ways->point_count++;
        ways->points[rim] = area->rings[0].points[0];
        ways->at_edge[rim] = on_top_edge(ways->quilter, ways->points[rim]);
    }
    for (int i = 0; i < 2; i++)
        *LIST_ADD(ways->scratch, &ways->pieces) = (struct node_piece){
            rim, middle, area->free / 2, QUILTING_NONE, false};
    *LIST_ADD(ways->scratch, &ways->free_areas) = index;
}

/* All that can be stitched or travelled, once for all stages and threads. Its
 * nodes are NULL where there are too many. */
static struct ways ways_of(struct quilter *quilter, struct arena *scratch)
{
    struct ways ways = {.quilter = quilter, .scratch = scratch};
    ways.nodes = find_nodes(quilter, scratch, true);
    if (ways.nodes == NULL)
        return ways;
    const size_t most =
        ways.nodes->point_count + 2 * quilter->plan->areas.count;
    ways.points = ARENA_ARRAY(scratch, struct spot, most + 1);
    ways.at_edge = ARENA_ARRAY(scratch, bool, most + 1);
    ways.travelled = ARENA_ARRAY(scratch, bool, most + 1);
    ways.by_x = ARENA_ARRAY(scratch, struct placed, most + 1);
    ways.point_count = ways.nodes->point_count;
    for (size_t i = 0; i < ways.point_count; i++) {
        ways.points[i] = ways.nodes->points[i];
        ways.at_edge[i] = on_top_edge(quilter, ways.points[i]);
        ways.by_x[i] = (struct placed){ways.points[i].x, i};
    }
    if (ways.point_count > 1)
        qsort(ways.by_x, ways.point_count, sizeof *ways.by_x, compare_placed);
    for (size_t i = 0; i < ways.nodes->count; i++) {
        const struct node_piece *piece = &ways.nodes->pieces[i];
        *LIST_ADD(scratch, &ways.pieces) = *piece;
        ways.travelled[piece->a] |= piece->ditch;
        ways.travelled[piece->b] |= piece->ditch;
    }
    ways.first_free = ways.pieces.count;
    for (size_t i = 0; i < quilter->plan->areas.count; i++)
        if (quilter->plan->areas.items[i].free > 0)
            add_free_area(&ways, i);
    return ways;
}

/* ---- what is planned ---- */

/* Which pieces a path has to sew: of one thread and stage; `area` unless it is
 * QUILTING_NONE. */
struct wish {
    enum quilting_stage stage;
    size_t thread, area;
};

/* Behind the pieces of the nodes, two stand for each such area. */
static size_t free_area_of(const struct ways *ways, size_t piece)
{
    return piece < ways->first_free
               ? QUILTING_NONE
               : ways->free_areas.items[(piece - ways->first_free) / 2];
}

/* Is it to be sewn on this path? */
static bool is_planned(const struct ways *ways, const struct wish *wish,
                       size_t piece)
{
    const struct quilting_plan *plan = ways->quilter->plan;
    const size_t area = free_area_of(ways, piece);
    if (area != QUILTING_NONE)
        return wish->stage == STAGE_FILLERS &&
               (size_t)plan->areas.items[area].fill->thread == wish->thread &&
               (wish->area == QUILTING_NONE || wish->area == area);
    const size_t line = ways->pieces.items[piece].line;
    if (line == QUILTING_NONE)
        return false;
    const struct quilted_line *found = &plan->lines.items[line];
    return found->thread == wish->thread && found->stage == wish->stage &&
           (wish->area == QUILTING_NONE || found->area == wish->area);
}

/* How the needle may travel there in this stage: what is stitched later cannot
 * be followed yet. */
static enum route_travel travel_on(const struct ways *ways,
                                   const struct wish *wish, size_t piece)
{
    const struct quilting *told = ways->quilter->told;
    const struct node_piece *found = &ways->pieces.items[piece];
    if (told->travel == TRAVEL_NOWHERE || piece >= ways->first_free)
        return ROUTE_TRAVEL_NONE;
    if (found->ditch)
        return ROUTE_TRAVEL_DITCH;
    if (told->travel != TRAVEL_ANYWHERE || found->line == QUILTING_NONE)
        return ROUTE_TRAVEL_NONE;
    return ways->quilter->plan->lines.items[found->line].stage <= wish->stage
               ? ROUTE_TRAVEL_BACK
               : ROUTE_TRAVEL_NONE;
}

/* In the box around the area, with its rim? */
static bool near_area(const struct ways *ways, size_t area, size_t piece)
{
    const struct spot_line box = ways->quilter->regions->boxes[area];
    const struct node_piece *found = &ways->pieces.items[piece];
    return box_holds(box, ways->points[found->a]) &&
           box_holds(box, ways->points[found->b]);
}

/* The area whose own the piece is; QUILTING_NONE for none. */
static size_t own_area(const struct ways *ways, size_t piece)
{
    const size_t free = free_area_of(ways, piece);
    const size_t line = ways->pieces.items[piece].line;
    return free != QUILTING_NONE   ? free
           : line != QUILTING_NONE ? ways->quilter->plan->lines.items[line].area
                                   : QUILTING_NONE;
}

/* The point that stands for all that hang together with this one. */
static size_t root_of(size_t *parents, size_t point)
{
    while (parents[point] != point)
        point = parents[point] = parents[parents[point]];
    return point;
}

/* Areas of one thread whose stitching hangs together with a way to travel, over
 * that of other areas, too. */
static void find_reached_by(const struct ways *ways, size_t thread)
{
    const struct wish wish = {STAGE_FILLERS, thread, QUILTING_NONE};
    size_t *parents = ARENA_ARRAY(ways->scratch, size_t, ways->point_count + 1);
    bool *led = ARENA_ARRAY(ways->scratch, bool, ways->point_count + 1);
    for (size_t i = 0; i < ways->point_count; i++)
        parents[i] = i;
    for (size_t i = 0; i < ways->pieces.count; i++) {
        const struct node_piece *piece = &ways->pieces.items[i];
        if (is_planned(ways, &wish, i))
            parents[root_of(parents, piece->a)] = root_of(parents, piece->b);
    }
    for (size_t i = 0; i < ways->pieces.count; i++) {
        const struct node_piece *piece = &ways->pieces.items[i];
        if (is_planned(ways, &wish, i) ||
            travel_on(ways, &wish, i) == ROUTE_TRAVEL_NONE)
            continue;
        led[root_of(parents, piece->a)] = true;
        led[root_of(parents, piece->b)] = true;
    }
    for (size_t i = 0; i < ways->pieces.count; i++) {
        const size_t area = own_area(ways, i);
        if (area != QUILTING_NONE && is_planned(ways, &wish, i))
            ways->quilter->reached[area] |=
                led[root_of(parents, ways->pieces.items[i].a)];
    }
}

/* By thread: what another thread stitches leads nowhere. */
static void find_reached(const struct ways *ways)
{
    struct quilter *quilter = ways->quilter;
    quilter->reached =
        ARENA_ARRAY(quilter->arena, bool, quilter->plan->areas.count + 1);
    for (size_t i = 0; i < quilter->told->threads.count; i++)
        find_reached_by(ways, i);
}

/* ---- a path ---- */

/* In the frame of the top, from where to where. */
static struct path_step step_of(const struct ways *ways, size_t piece,
                                const struct route_step *step)
{
    const struct node_piece *found = &ways->pieces.items[piece];
    const size_t from = step->backwards ? found->b : found->a;
    const size_t to = step->backwards ? found->a : found->b;
    return (struct path_step){.from = ways->points[from],
                              .to = ways->points[to],
                              .manner = !step->travel  ? PATH_STITCH
                                        : found->ditch ? PATH_TRAVEL_DITCH
                                                       : PATH_TRAVEL_BACK,
                              .line = found->line,
                              .area = free_area_of(ways, piece),
                              .start = step->start,
                              .turn = step->turn,
                              .bobbin = step->bobbin};
}

/* A bobbin feeds its length less what thickness and waste take: half of three,
 * and 15 in a hundred (thread.c). */
static double bobbin_feeds(const struct quilting *told)
{
    return number_double(told->bobbin) / (QUILTING_THREAD * QUILTING_WASTE);
}

/* Pieces for one path, and where they come from. */
struct chosen {
    struct route_piece *pieces;
    size_t *back; /* of each, its number among all */
    size_t count;
    const struct spot *points;
    const bool *at_edge;
    size_t point_count;
};

/* Adds the piece if it is of use for the path. */
static void choose(const struct ways *ways, const struct wish *wish,
                   size_t piece, struct chosen *chosen)
{
    const struct node_piece *found = &ways->pieces.items[piece];
    const bool planned = is_planned(ways, wish, piece);
    const enum route_travel travel = travel_on(ways, wish, piece);
    if (!planned &&
        (travel == ROUTE_TRAVEL_NONE || (wish->area != QUILTING_NONE &&
                                         !near_area(ways, wish->area, piece))))
        return;
    chosen->back[chosen->count] = piece;
    chosen->pieces[chosen->count++] = (struct route_piece){
        found->a, found->b, found->length,
        planned,  travel,   piece >= ways->first_free};
}

static struct chosen choose_all(const struct ways *ways,
                                const struct wish *wish, struct arena *scratch)
{
    const size_t most = ways->pieces.count + 1;
    struct chosen chosen = {
        .pieces = ARENA_ARRAY(scratch, struct route_piece, most),
        .back = ARENA_ARRAY(scratch, size_t, most),
        .points = ways->points,
        .at_edge = ways->at_edge,
        .point_count = ways->point_count};
    for (size_t i = 0; i < ways->pieces.count; i++)
        choose(ways, wish, i, &chosen);
    return chosen;
}

/* As they rise. */
static int compare_numbers(const void *first, const void *second)
{
    const size_t a = *(const size_t *)first, b = *(const size_t *)second;
    return (a > b) - (a < b);
}

/* Sorts numbers and leaves each once; returns how many are left. */
static size_t sort_numbers(size_t *numbers, size_t count)
{
    size_t left = 0;
    if (count > 1)
        qsort(numbers, count, sizeof *numbers, compare_numbers);
    for (size_t i = 0; i < count; i++)
        if (i == 0 || numbers[i] != numbers[i - 1])
            numbers[left++] = numbers[i];
    return left;
}

/* Numbers points anew, those alone that pieces end in, in their old order: a
 * path of one area then costs no more than the area. */
static void number_anew(const struct ways *ways, struct arena *scratch,
                        struct chosen *chosen)
{
    size_t *old = ARENA_ARRAY(scratch, size_t, 2 * chosen->count + 1);
    for (size_t i = 0; i < chosen->count; i++) {
        old[2 * i] = chosen->pieces[i].a;
        old[2 * i + 1] = chosen->pieces[i].b;
    }
    const size_t count = sort_numbers(old, 2 * chosen->count);
    struct spot *points = ARENA_ARRAY(scratch, struct spot, count + 1);
    bool *at_edge = ARENA_ARRAY(scratch, bool, count + 1);
    for (size_t i = 0; i < count; i++) {
        points[i] = ways->points[old[i]];
        at_edge[i] = ways->at_edge[old[i]];
    }
    for (size_t i = 0; i < chosen->count; i++) {
        size_t *const ends[2] = {&chosen->pieces[i].a, &chosen->pieces[i].b};
        for (int k = 0; k < 2; k++)
            *ends[k] = (size_t)((size_t *)bsearch(ends[k], old, count,
                                                  sizeof *old,
                                                  compare_numbers) -
                                old);
    }
    chosen->points = points;
    chosen->at_edge = at_edge;
    chosen->point_count = count;
}

/* What lies about the area, and its own wherever that lies. */
static struct chosen choose_near(const struct ways *ways,
                                 const struct wish *wish, struct arena *scratch)
{
    const size_t first = ways->own_first[wish->area];
    const size_t own = ways->own_first[wish->area + 1] - first;
    const size_t *near;
    const size_t about = grid_within(
        ways->by_place, ways->quilter->regions->boxes[wish->area], &near);
    size_t *numbers = ARENA_ARRAY(scratch, size_t, about + own + 1);
    memcpy(numbers, near, about * sizeof *near);
    memcpy(numbers + about, ways->own + first, own * sizeof *near);
    const size_t count = sort_numbers(numbers, about + own);
    struct chosen chosen = {
        .pieces = ARENA_ARRAY(scratch, struct route_piece, count + 1),
        .back = ARENA_ARRAY(scratch, size_t, count + 1)};
    for (size_t i = 0; i < count; i++)
        choose(ways, wish, numbers[i], &chosen);
    number_anew(ways, scratch, &chosen);
    return chosen;
}

/* Only pieces that are of use are handed on; `back` leads from them to ours.
 * That the pairs are proved is asked each time. */
static struct quilted_route find_route(struct ways *ways,
                                       const struct wish *wish)
{
    struct quilter *quilter = ways->quilter;
    struct arena *scratch = arena_create();
    const struct chosen chosen = wish->area == QUILTING_NONE
                                     ? choose_all(ways, wish, scratch)
                                     : choose_near(ways, wish, scratch);
    const struct extent top = quilter->ground->extent;
    const struct route_input input = {
        .points = chosen.points,
        .at_edge = chosen.at_edge,
        .point_count = chosen.point_count,
        .pieces = chosen.pieces,
        .count = chosen.count,
        .start_worth = quilter->told->travel == TRAVEL_NOWHERE
                           ? 0
                           : number_double(quilter->told->start),
        .bobbin = bobbin_feeds(quilter->told),
        .order = quilter->told->center_out ? ROUTE_CENTRE_OUT : ROUTE_ACROSS,
        .centre = vertex_spot(vertex_middle(top.low, top.high))};
    const struct route route = route_plan(scratch, &input);
    if (!route.proved)
        internal_error("the pairs of a quilting path were not proved");
    struct quilted_route result = {.stage = wish->stage,
                                   .thread = wish->thread,
                                   .starts = route.starts,
                                   .starts_alone = route.starts_alone,
                                   .starts_bound = route.starts_bound,
                                   .turns = route.turns,
                                   .changes = route.changes,
                                   .stitched = route.stitched,
                                   .travelled = route.travelled,
                                   .proved = route.proved};
    for (size_t i = 0; i < route.steps.count; i++)
        *LIST_ADD(quilter->arena, &result.steps) =
            step_of(ways, chosen.back[route.steps.items[i].piece],
                    &route.steps.items[i]);
    arena_destroy(scratch);
    return result;
}

/* Pieces by place and by area, for the sequences alone. */
static void sort_pieces(struct ways *ways)
{
    const size_t count = ways->pieces.count;
    const size_t areas = ways->quilter->plan->areas.count;
    struct spot_line *lines =
        ARENA_ARRAY(ways->scratch, struct spot_line, count + 1);
    ways->own = ARENA_ARRAY(ways->scratch, size_t, count + 1);
    ways->own_first = ARENA_ARRAY(ways->scratch, size_t, areas + 2);
    for (size_t i = 0; i < count; i++) {
        const size_t area = own_area(ways, i);
        lines[i] = (struct spot_line){ways->points[ways->pieces.items[i].a],
                                      ways->points[ways->pieces.items[i].b]};
        if (area != QUILTING_NONE)
            ways->own_first[area + 2]++;
    }
    for (size_t i = 2; i < areas + 2; i++)
        ways->own_first[i] += ways->own_first[i - 1];
    for (size_t i = 0; i < count; i++) {
        const size_t area = own_area(ways, i);
        if (area != QUILTING_NONE)
            ways->own[ways->own_first[area + 1]++] = i;
    }
    ways->by_place = grid_of_lines(ways->scratch, lines, count);
}

/* For the pages alone: each kind of area as if it were stitched by itself,
 * with the ways along its own rim. */
static void plan_sequences(struct ways *ways)
{
    struct quilter *quilter = ways->quilter;
    sort_pieces(ways);
    for (size_t k = 0; k < quilter->plan->kinds.count; k++) {
        struct quilted_kind *kind = &quilter->plan->kinds.items[k];
        for (size_t t = 0; kind->filled > 0 && t < quilter->told->threads.count;
             t++) {
            const struct wish wish = {STAGE_FILLERS, t, kind->sample};
            const struct quilted_route route = find_route(ways, &wish);
            if (route.steps.count > 0)
                *LIST_ADD(quilter->arena, &kind->sequences) = route;
        }
    }
}

/* Stage by stage, and in each the threads in the order of the source. */
void plan_paths(struct quilter *quilter)
{
    struct quilting_plan *plan = quilter->plan;
    struct arena *scratch = arena_create();
    struct ways ways = ways_of(quilter, scratch);
    if (ways.nodes == NULL) {
        arena_destroy(scratch);
        return;
    }
    find_reached(&ways);
    for (int stage = 0; stage < QUILTING_STAGES; stage++)
        for (size_t t = 0; t < quilter->told->threads.count; t++) {
            const struct wish wish = {(enum quilting_stage)stage, t,
                                      QUILTING_NONE};
            const struct quilted_route route = find_route(&ways, &wish);
            if (route.steps.count == 0)
                continue;
            plan->starts += route.starts;
            plan->turns += route.turns;
            plan->changes += route.changes;
            *LIST_ADD(quilter->arena, &plan->routes) = route;
        }
    if (!quilter->run->unseen)
        plan_sequences(&ways);
    arena_destroy(scratch);
}

/* Cut where they meet, so that two plans that look the same have the same
 * pieces, whichever elements drew them. */
struct spot_line *pieces_of_lines(struct quilter *quilter, size_t *count)
{
    struct arena *scratch = arena_create();
    const struct nodes *nodes = find_nodes(quilter, scratch, false);
    *count = nodes == NULL ? 0 : nodes->count;
    struct spot_line *lines =
        ARENA_ARRAY(quilter->arena, struct spot_line, *count + 1);
    for (size_t i = 0; i < *count; i++)
        lines[i] = (struct spot_line){nodes->points[nodes->pieces[i].a],
                                      nodes->points[nodes->pieces[i].b]};
    arena_destroy(scratch);
    return lines;
}
