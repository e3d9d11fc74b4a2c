/* A path, walked again: each planned piece once, each step joined to the last,
 * travel only where it is allowed, lengths and costs as told. */
#ifndef SEAMWRIGHT_TESTS_QUILTING_WALKED_H
#define SEAMWRIGHT_TESTS_QUILTING_WALKED_H

#include <stdlib.h>
#include <string.h>

#include "lattice_top.h"

static inline size_t step_begin(const struct route_input *input,
                                const struct route_step *step)
{
    const struct route_piece *piece = &input->pieces[step->piece];
    return step->backwards ? piece->b : piece->a;
}

static inline size_t step_end(const struct route_input *input,
                              const struct route_step *step)
{
    const struct route_piece *piece = &input->pieces[step->piece];
    return step->backwards ? piece->a : piece->b;
}

struct walked {
    size_t starts, changes, turns;
    double stitched, travelled, cost, since_bobbin;
};

static inline double end_cost(const struct route_input *input, size_t point)
{
    return input->start_worth / (input->at_edge[point] ? 8 : 2);
}

/* One step: joined to the last, and allowed. */
static inline void walk_step(const struct route_input *input,
                             const struct route *route, size_t number,
                             bool *stitched, struct walked *walked)
{
    const struct route_step *step = &route->steps.items[number];
    const struct route_piece *piece = &input->pieces[step->piece];
    if (!step->start) {
        assert_true(number > 0);
        assert_int_equal(step_begin(input, step), step_end(input, step - 1));
    } else {
        assert_false(step->travel || step->turn);
        assert_true(number == 0 || !step[-1].travel);
        walked->starts++;
        walked->cost += end_cost(input, step_begin(input, step));
    }
    if (number + 1 == route->steps.count || step[1].start) {
        assert_false(step->travel);
        walked->cost += end_cost(input, step_end(input, step));
    }
    if (step->travel) {
        assert_true(piece->travel != ROUTE_TRAVEL_NONE);
        /* Back only over a line that is there by now. */
        assert_true(!piece->planned || stitched[step->piece]);
        walked->travelled += piece->length;
        walked->cost +=
            piece->length * (piece->travel == ROUTE_TRAVEL_BACK ? 3 : 1);
    } else {
        assert_true(piece->planned && !stitched[step->piece]);
        stitched[step->piece] = true;
        walked->stitched += piece->length;
    }
    if (step->bobbin) {
        walked->changes++;
        walked->since_bobbin = 0;
    }
    walked->since_bobbin += piece->length;
    if (input->bobbin > 0)
        assert_true(walked->since_bobbin <= input->bobbin);
    walked->turns += step->turn;
}

static inline size_t odd_points(const struct route_input *input, bool *is_odd)
{
    memset(is_odd, 0, input->point_count * sizeof *is_odd);
    for (size_t i = 0; i < input->count; i++)
        if (input->pieces[i].planned) {
            is_odd[input->pieces[i].a] ^= true;
            is_odd[input->pieces[i].b] ^= true;
        }
    size_t count = 0;
    for (size_t i = 0; i < input->point_count; i++)
        count += is_odd[i];
    return count;
}

static inline struct walked walk_again(const struct route_input *input,
                                       const struct route *route)
{
    struct walked walked = {0};
    bool *stitched = calloc(input->count + 1, sizeof *stitched);
    for (size_t i = 0; i < route->steps.count; i++)
        walk_step(input, route, i, stitched, &walked);
    for (size_t i = 0; i < input->count; i++)
        assert_true(stitched[i] == input->pieces[i].planned);
    free(stitched);
    assert_true(route->proved);
    assert_int_equal(walked.starts, route->starts);
    assert_int_equal(walked.changes, route->changes);
    assert_int_equal(walked.turns, route->turns);
    assert_true(route->starts <= route->starts_alone);
    assert_true(fabs(walked.stitched - route->stitched) < 1e-6);
    assert_true(fabs(walked.travelled - route->travelled) < 1e-6);
    /* Costs are whole 24,000ths of a start: half of one off for each step. */
    const double off = input->start_worth / 48000 *
                       (double)(route->steps.count + input->count);
    if (input->start_worth > 0)
        assert_true(fabs(walked.cost - route->cost) <= off);
    bool any_edge = false;
    for (size_t i = 0; i < input->point_count; i++)
        any_edge |= input->at_edge[i];
    assert_true(any_edge || route->cost >= route->bound - 1e-9);
    return walked;
}

static inline struct route plan(struct arena *arena,
                                const struct route_input *input)
{
    const struct route route = route_plan(arena, input);
    walk_again(input, &route);
    return route;
}

#endif
