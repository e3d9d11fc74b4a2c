/* The paths of every sample that is quilted, walked again: each line once and
 * as a whole, each step where the last one ended, travel only where it is
 * allowed, lengths and starts as they are told. Seams and lines are looked for
 * by plain distances. */
#include <math.h>
#include <stdlib.h>

#include "planned.h"

static double to_line(struct spot at, struct spot from, struct spot to)
{
    const double dx = to.x - from.x, dy = to.y - from.y;
    const double square = dx * dx + dy * dy;
    const double along = (at.x - from.x) * dx + (at.y - from.y) * dy;
    const double t = square > 0 ? fmin(1, fmax(0, along / square)) : 0;
    return hypot(from.x + t * dx - at.x, from.y + t * dy - at.y);
}

static double length_of(const struct path_step *step)
{
    return hypot(step->to.x - step->from.x, step->to.y - step->from.y);
}

static struct spot middle_of(const struct path_step *step)
{
    return (struct spot){(step->from.x + step->to.x) / 2,
                         (step->from.y + step->to.y) / 2};
}

static bool is_on_line(const struct quilted_line *line, struct spot at)
{
    for (size_t i = 0; i + (line->closed ? 0 : 1) < line->count; i++)
        if (to_line(at, line->points[i],
                    line->points[(i + 1) % line->count]) < 1e-5)
            return true;
    return false;
}

/* In a seam that is pressed to one side, or in a ditch that is quilted. */
static bool is_in_ditch(const struct quilting_plan *plan, struct spot at)
{
    const struct cloth *cloth = plan->quilt->cloth;
    for (size_t i = 0; i < cloth->seams.count; i++) {
        const struct seam *seam = &cloth->seams.items[i];
        if ((seam->x != 0 || seam->y != 0) &&
            to_line(at, vertex_spot(seam->from), vertex_spot(seam->to)) < 1e-5)
            return true;
    }
    for (size_t i = 0; i < plan->lines.count; i++)
        if (plan->lines.items[i].stage == STAGE_DITCH &&
            is_on_line(&plan->lines.items[i], at))
            return true;
    return false;
}

/* What of each line and area was stitched. */
struct walk {
    const struct quilting_plan *plan;
    double *lines; /* length, by line */
    bool *areas;
    double stitched, travelled;
    size_t starts, steps;
};

/* Back over what is stitched by then, and only where that may be. */
static void walk_back(const struct walk *walk, const struct path_step *step)
{
    assert_int_equal(walk->plan->told->travel, TRAVEL_ANYWHERE);
    for (size_t i = 0; i < walk->plan->lines.count; i++)
        if (walk->lines[i] > 0 &&
            is_on_line(&walk->plan->lines.items[i], middle_of(step)))
            return;
    fail_msg("back over no line");
}

static void walk_stitch(struct walk *walk, const struct quilted_route *route,
                        const struct path_step *step)
{
    if (step->area != QUILTING_NONE) {
        /* To its middle and back: all of it is stitched on the way. */
        if (!walk->areas[step->area])
            walk->stitched += walk->plan->areas.items[step->area].free;
        walk->areas[step->area] = true;
        return;
    }
    const struct quilted_line *line = &walk->plan->lines.items[step->line];
    assert_int_equal(line->stage, route->stage);
    assert_int_equal(line->thread, route->thread);
    assert_true(is_on_line(line, middle_of(step)));
    walk->lines[step->line] += length_of(step);
    walk->stitched += length_of(step);
}

static void walk_route(struct walk *walk, const struct quilted_route *route)
{
    size_t starts = 0;
    walk->stitched = walk->travelled = 0;
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        starts += step->start;
        assert_true(i > 0 || step->start);
        if (!step->start)
            assert_true(hypot(step->from.x - step[-1].to.x,
                              step->from.y - step[-1].to.y) < 1e-6);
        if (step->manner == PATH_STITCH) {
            walk_stitch(walk, route, step);
            continue;
        }
        walk->travelled += length_of(step);
        if (step->manner == PATH_TRAVEL_BACK)
            walk_back(walk, step);
        else
            assert_true(is_in_ditch(walk->plan, middle_of(step)));
    }
    assert_int_equal(starts, route->starts);
    assert_true(route->starts <= route->starts_alone);
    assert_true(fabs(walk->travelled - route->travelled) < 1e-4);
    assert_true(fabs(walk->stitched - route->stitched) < 1e-4);
    walk->starts += starts;
    walk->steps += route->steps.count;
}

/* Each line as long as it is, each area that is filled by eye once. */
static void assert_all(struct arena *arena, const struct quilting_plan *plan)
{
    struct walk walk = {
        .plan = plan,
        .lines = ARENA_ARRAY(arena, double, plan->lines.count + 1),
        .areas = ARENA_ARRAY(arena, bool, plan->areas.count + 1)};
    for (size_t i = 0; i < plan->routes.count; i++)
        walk_route(&walk, &plan->routes.items[i]);
    double lines = 0;
    for (size_t i = 0; i < plan->lines.count; i++) {
        lines += plan->lines.items[i].length;
        if (fabs(walk.lines[i] - plan->lines.items[i].length) > 1e-5)
            fail_msg("%s: of line %zu %.6f is stitched, not %.6f",
                     plan->quilt->definition->id, i, walk.lines[i],
                     plan->lines.items[i].length);
    }
    for (size_t i = 0; i < plan->areas.count; i++) {
        lines += plan->areas.items[i].free;
        assert_int_equal(walk.areas[i], plan->areas.items[i].free > 0);
    }
    assert_true(fabs(lines - plan->length) < 1e-4);
    assert_int_equal(walk.starts, plan->starts);
    printf("# %s: %zu lines, %zu starts, %zu steps\n",
           plan->quilt->definition->id, plan->lines.count, walk.starts,
           walk.steps);
}

static void look_at_paths(struct small *small, size_t quilt, void *context)
{
    size_t *quilted = context;
    const struct quilted *plans = plan_quilting(small->run, small->sewn);
    if (plans->plans.items[quilt].told == NULL)
        return;
    assert_all(small->run->arena, &plans->plans.items[quilt]);
    ++*quilted;
}

static void test_samples(void **state)
{
    (void)state;
    size_t quilted = 0;
    planned_each(look_at_paths, &quilted);
    assert_true(quilted >= 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_samples)};
    return cmocka_run_group_tests_name("paths of samples", tests, NULL, NULL);
}
