/* A top with hundreds of lines, from its source to its path: the same as the
 * graph that lattice_top.h makes by counting comes to. */
#include "../resolve/small.h"

#include <math.h>

#include "lattice_source.h"
#include "quilting.h"

/* Seams that go on through 15 plain blocks of 14 in, and both diagonals of
 * each: 38 lines a block, 6 upright, 6 level, 13 in each slanted direction. */
static const struct quilting_plan *planned(struct arena *arena, bool bordered,
                                           const char *until)
{
    struct buffer text = buffer_in(arena);
    lattice_blocks(&text);
    lattice_quilt(
        &text, "lattice", 5, 6, bordered,
        arena_printf(
            arena,
            "<quilting start=\"28\"><thread id=\"t\" match=\"night\"/>"
            "<extend of=\"lattice\" into=\"night\" until=\"%s\" thread=\"t\"/>"
            "<connect of=\"plain\" from=\"corners\" to=\"corners\" "
            "pair=\"all\" into=\"night\" thread=\"t\"/></quilting>",
            until));
    struct small small = small_sew(arena, buffer_string(&text));
    expect_clean(&small);
    const struct quilted *quilted = plan_quilting(small.run, small.sewn);
    expect_clean(&small);
    return &quilted->plans.items[0];
}

/* Of 570 lines 558 are there: in the two plain corners of the top, beside which
 * no pieced block lies on two sides, 6 slanted lines each have no seam to come
 * from. A slanted line i squares from its corner is i * 2 * sqrt(2) long. */
static double length_of_lines(void)
{
    const double upright = 6 * 14, slanted = 2 * sqrt(2) * (2 * 21 + 7);
    return 15 * (2 * upright + 2 * slanted) - 2 * 2 * sqrt(2) * 21;
}

/* Where the rim is a seam, one start: what is stitched, its travel and changes
 * of the bobbin alone are left. */
static void test_one_start(void **state)
{
    const struct quilting_plan *plan = planned(*state, true, "seam");
    assert_int_equal(plan->routes.count, 1);
    const struct quilted_route *route = &plan->routes.items[0];
    assert_true(fabs(route->stitched - length_of_lines()) < 1e-6);
    assert_true(fabs(plan->length - length_of_lines()) < 1e-6);
    printf("# without travel %zu starts; %.0f in and %.0f of travel, %zu "
           "changes\n",
           route->starts_alone, route->stitched, route->travelled,
           plan->changes);
    /* 190 with all 570 lines; each end that is not there is one odd point
     * less. */
    assert_int_equal(route->starts_alone, 190 - 12);
    assert_int_equal(route->starts_bound, 1);
    assert_int_equal(plan->starts, 1);
    /* 70 yd feed 1,460 in of line and travel (derived: C = 3, 15 in 100 of
     * waste). */
    const double feeds = 70 * 36 / (1.5 * 1.15);
    assert_true((double)(plan->changes + 1) >=
                (route->stitched + route->travelled) / feeds);
    assert_true((double)plan->changes <=
                ceil((route->stitched + route->travelled) / feeds));
}

/* Where lines end at the edge of the quilt, a path that ends there runs off
 * into the batting and costs a quarter: more starts, and never more than the
 * pairs prove, each of them at the edge. */
static void test_starts_at_the_edge(void **state)
{
    const struct quilting_plan *plan = planned(*state, false, "edge");
    const struct quilted_route *route = &plan->routes.items[0];
    assert_true(route->starts > 1);
    assert_int_equal(route->starts, route->starts_bound);
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        if (step->start)
            assert_true(step->from.x < 1e-6 || step->from.y < 1e-6 ||
                        step->from.x > 70 - 1e-6 || step->from.y > 84 - 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_start),
        cmocka_unit_test(test_starts_at_the_edge),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
