/* Paths, walked again: each planned piece once, each step joined to the last,
 * travel only where it is allowed, lengths as told. Pairs against exhaustion
 * with ways found by a second method (R. W. Floyd, Shortest path, 1962). */
#include "../../src/quilting/match.h"
#include "walked.h"

/* ---- small graphs of one's own ---- */

struct drawing {
    struct spot points[64];
    bool at_edge[64];
    struct route_piece pieces[256];
    struct route_input input;
};

static struct drawing *draw(struct arena *arena)
{
    struct drawing *drawing = ARENA_NEW(arena, struct drawing);
    drawing->input = (struct route_input){.points = drawing->points,
                                          .at_edge = drawing->at_edge,
                                          .pieces = drawing->pieces,
                                          .start_worth = 24,
                                          .centre = {10, 10}};
    return drawing;
}

static size_t point_at(struct drawing *drawing, double x, double y)
{
    struct route_input *input = &drawing->input;
    for (size_t i = 0; i < input->point_count; i++)
        if (drawing->points[i].x == x && drawing->points[i].y == y)
            return i;
    drawing->points[input->point_count] = (struct spot){x, y};
    return input->point_count++;
}

static void line(struct drawing *drawing, double x, double y, double to_x,
                 double to_y, bool planned, enum route_travel travel)
{
    const size_t a = point_at(drawing, x, y);
    const size_t b = point_at(drawing, to_x, to_y);
    drawing->pieces[drawing->input.count++] =
        (struct route_piece){a,       b,      hypot(to_x - x, to_y - y),
                             planned, travel, false};
}

static void test_nothing(void **state)
{
    struct drawing *drawing = draw(*state);
    line(drawing, 0, 0, 1, 0, false, ROUTE_TRAVEL_DITCH);
    const struct route route = plan(*state, &drawing->input);
    assert_int_equal(route.steps.count, 0);
    assert_int_equal(route.starts, 0);
    assert_int_equal(route.starts_alone, 0);
    assert_int_equal(route.starts_bound, 0);
}

/* Two lines 3 in apart, with a seam between their ends. */
static void two_lines(struct drawing *drawing, enum route_travel travel)
{
    line(drawing, 0, 0, 10, 0, true, ROUTE_TRAVEL_BACK);
    line(drawing, 0, 3, 10, 3, true, ROUTE_TRAVEL_BACK);
    line(drawing, 10, 0, 10, 3, false, travel);
}

static void test_travel(void **state)
{
    struct drawing *drawing = draw(*state);
    two_lines(drawing, ROUTE_TRAVEL_DITCH);
    struct route route = plan(*state, &drawing->input);
    assert_int_equal(route.starts, 1);
    assert_int_equal(route.starts_alone, 2);
    assert_true(route.travelled == 3 && route.stitched == 20);
    assert_true(route.cost == 24 + 3 && route.bound == 24 + 3);
    assert_int_equal(route.turns, 2);
    drawing = draw(*state); /* back over a line: three times as dear */
    two_lines(drawing, ROUTE_TRAVEL_BACK);
    route = plan(*state, &drawing->input);
    assert_true(route.starts == 1 && route.cost == 24 + 9);
    drawing = draw(*state); /* not along a seam that is pressed open */
    two_lines(drawing, ROUTE_TRAVEL_NONE);
    route = plan(*state, &drawing->input);
    assert_true(route.starts == 2 && route.travelled == 0);
    drawing = draw(*state); /* not where a start is cheaper */
    two_lines(drawing, ROUTE_TRAVEL_DITCH);
    drawing->input.start_worth = 3;
    assert_int_equal(plan(*state, &drawing->input).starts, 2);
    drawing->input.start_worth = 3.1;
    assert_int_equal(plan(*state, &drawing->input).starts, 1);
    drawing->input.start_worth = 0; /* no travel at all */
    assert_int_equal(plan(*state, &drawing->input).starts, 2);
}

/* An end at the edge is worth a quarter: 2 * 3 in are less than 7 of travel,
 * two inner ends are more (christaquilts.com: no knots off the top). */
static void test_edge(void **state)
{
    for (int edge = 0; edge < 2; edge++) {
        struct drawing *drawing = draw(*state);
        line(drawing, 0, 0, 10, 0, true, ROUTE_TRAVEL_NONE);
        line(drawing, 0, 7, 10, 7, true, ROUTE_TRAVEL_NONE);
        line(drawing, 10, 0, 10, 7, false, ROUTE_TRAVEL_DITCH);
        drawing->at_edge[point_at(drawing, 10, 0)] = edge == 1;
        drawing->at_edge[point_at(drawing, 10, 7)] = edge == 1;
        const struct route route = plan(*state, &drawing->input);
        assert_int_equal(route.starts, edge == 1 ? 2 : 1);
        assert_true(route.cost == (edge == 1 ? 24 + 6 : 24 + 7));
    }
}

/* A way back to where one began saves nothing where there is one path. */
static void test_no_idle_travel(void **state)
{
    struct drawing *drawing = draw(*state);
    line(drawing, 0, 0, 10, 0, true, ROUTE_TRAVEL_BACK);
    line(drawing, 10, 0, 10, 4, true, ROUTE_TRAVEL_BACK);
    line(drawing, 10, 4, 0, 4, true, ROUTE_TRAVEL_BACK);
    line(drawing, 0, 4, 0, 0, false, ROUTE_TRAVEL_DITCH);
    const struct route route = plan(*state, &drawing->input);
    assert_true(route.starts == 1 && route.travelled == 0);
    assert_int_equal(route.turns, 2);
}

static void square(struct drawing *drawing, double x, double y, double side)
{
    line(drawing, x, y, x + side, y, true, ROUTE_TRAVEL_NONE);
    line(drawing, x + side, y, x + side, y + side, true, ROUTE_TRAVEL_NONE);
    line(drawing, x + side, y + side, x, y + side, true, ROUTE_TRAVEL_NONE);
    line(drawing, x, y + side, x, y, true, ROUTE_TRAVEL_NONE);
}

/* Two closed parts are one path where the way between them, which is sewn once,
 * costs less than a start. */
static void test_join_two(void **state)
{
    for (int far = 0; far < 2; far++) {
        const double gap = far == 1 ? 25 : 23;
        struct drawing *drawing = draw(*state);
        square(drawing, 0, 0, 4);
        square(drawing, 4 + gap, 0, 4);
        line(drawing, 4, 0, 4 + gap / 2, 0, false, ROUTE_TRAVEL_DITCH);
        line(drawing, 4 + gap / 2, 0, 4 + gap, 0, false, ROUTE_TRAVEL_DITCH);
        const struct route route = plan(*state, &drawing->input);
        assert_int_equal(route.starts, far == 1 ? 2 : 1);
        assert_true(route.travelled == (far == 1 ? 0 : gap));
        assert_int_equal(route.starts_bound, 1);
    }
}

/* A closed part is joined to a line there and back: 2 * 5 in are less than a
 * start, 2 * 13 are not. */
static void test_join_there_and_back(void **state)
{
    for (int far = 0; far < 2; far++) {
        const double gap = far == 1 ? 13 : 5;
        struct drawing *drawing = draw(*state);
        square(drawing, 0, 0, 4);
        line(drawing, 4 + gap, -40, 4 + gap, 0, true, ROUTE_TRAVEL_NONE);
        line(drawing, 4 + gap, 0, 4 + gap, 40, true, ROUTE_TRAVEL_NONE);
        line(drawing, 4, 0, 4 + gap, 0, false, ROUTE_TRAVEL_DITCH);
        const struct route route = plan(*state, &drawing->input);
        assert_int_equal(route.starts, far == 1 ? 2 : 1);
        assert_true(route.travelled == (far == 1 ? 0 : 10));
        assert_true(route.cost == (far == 1 ? 48 : 34));
    }
}

/* Lines that cross go straight on: four lines across four, whose ends are tied
 * by planned pieces, make one path with a turn at its outline only. */
static void test_straight_on(void **state)
{
    struct drawing *drawing = draw(*state);
    for (int i = 1; i <= 4; i++)
        for (int k = 0; k < 5; k++) {
            line(drawing, k, i, k + 1, i, true, ROUTE_TRAVEL_NONE);
            line(drawing, i, k, i, k + 1, true, ROUTE_TRAVEL_NONE);
        }
    struct route route = plan(*state, &drawing->input);
    assert_int_equal(route.starts, 8);
    assert_int_equal(route.turns, 0);
    for (int side = 0; side <= 5; side += 5)
        for (int i = 1; i < 4; i += 2) {
            line(drawing, i, side, i + 1, side, true, ROUTE_TRAVEL_NONE);
            line(drawing, side, i, side, i + 1, true, ROUTE_TRAVEL_NONE);
        }
    route = plan(*state, &drawing->input);
    assert_int_equal(route.starts, 1);
    /* Two turns at each of the eight ties; each joining of the rings costs one
     * or two more, one is saved where the path begins. */
    assert_true(route.turns >= 15 && route.turns <= 22);
}

/* An open path and a ring that meet only where the path ends. */
static void test_ring_at_end(void **state)
{
    struct drawing *drawing = draw(*state);
    square(drawing, 0, 0, 4);
    line(drawing, 4, 4, 9, 9, true, ROUTE_TRAVEL_NONE);
    assert_int_equal(plan(*state, &drawing->input).starts, 1);
}

static double begins_at_x(const struct route_input *input,
                          const struct route_step *step)
{
    return input->points[step_begin(input, step)].x;
}

/* Upright lines: the middle one first, on to the right, then the other half,
 * each from the top (kathykwylie.com, Machine Quilting Sequence, June 2012); or
 * from the centre outwards. */
static void test_orders(void **state)
{
    struct drawing *drawing = draw(*state);
    for (int i = 1; i <= 5; i++)
        line(drawing, 3.5 * i - 1, 20, 3.5 * i - 1, 1, true, ROUTE_TRAVEL_NONE);
    struct route route = plan(*state, &drawing->input);
    static const double across[] = {9.5, 13, 16.5, 6, 2.5};
    assert_int_equal(route.starts, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_true(begins_at_x(&drawing->input, &route.steps.items[i]) ==
                    across[i]);
        assert_true(route.steps.items[i].backwards);
    }
    drawing->input.order = ROUTE_CENTRE_OUT;
    drawing->input.centre = (struct spot){10, 18};
    route = plan(*state, &drawing->input);
    static const double outwards[] = {9.5, 13, 6, 16.5, 2.5};
    for (size_t i = 0; i < 5; i++) {
        assert_true(begins_at_x(&drawing->input, &route.steps.items[i]) ==
                    outwards[i]);
        assert_false(route.steps.items[i].backwards);
    }
}

/* Changes lie at the last turn before the end, else at the last point. */
static void test_bobbins(void **state)
{
    struct drawing *drawing = draw(*state); /* stairs of 3 by 3 */
    for (int stair = 0; stair < 4; stair++)
        for (int i = 0; i < 3; i++) {
            const int x = 3 * stair, y = 3 * stair;
            line(drawing, x + i, y, x + i + 1, y, true, ROUTE_TRAVEL_NONE);
            line(drawing, x + 3, y + i, x + 3, y + i + 1, true,
                 ROUTE_TRAVEL_NONE);
        }
    drawing->input.bobbin = 8;
    struct route route = plan(*state, &drawing->input);
    assert_int_equal(route.starts, 1);
    assert_int_equal(route.turns, 7);
    assert_int_equal(route.changes, 3);
    for (size_t i = 0; i < route.steps.count; i++)
        assert_true(route.steps.items[i].bobbin == (i > 0 && i % 6 == 0));
    drawing->input.bobbin = 2;
    route = plan(*state, &drawing->input);
    assert_true(route.changes >= 11);
    drawing->input.bobbin = 24;
    assert_int_equal(plan(*state, &drawing->input).changes, 0);
    /* No bobbin lasts from the turn to beyond the second long piece, so the
     * change lies between the two. */
    drawing = draw(*state);
    line(drawing, 0, 0, 0, 0.5, true, ROUTE_TRAVEL_NONE);
    line(drawing, 0, 0.5, 7, 0.5, true, ROUTE_TRAVEL_NONE);
    line(drawing, 7, 0.5, 14, 0.5, true, ROUTE_TRAVEL_NONE);
    drawing->input.bobbin = 8;
    route = plan(*state, &drawing->input);
    assert_int_equal(route.changes, 1);
    assert_true(route.steps.items[2].bobbin);
}

/* ---- random graphs ---- */

/* A lattice of 6 x 6 with lengths of its own, some planned, some to travel on,
 * so that up to 8 points are odd; some points are at the edge. */
static bool random_drawing(struct drawing *drawing, struct unit_random *random,
                           size_t most_odd)
{
    for (int y = 0; y < 6; y++)
        for (int x = 0; x < 6; x++)
            for (int side = 0; side < 2; side++) {
                const int to_x = side ? x : x + 1, to_y = side ? y + 1 : y;
                if (to_x == 6 || to_y == 6 || unit_below(random, 10) == 0)
                    continue;
                line(drawing, x, y, to_x, to_y, unit_below(random, 5) == 0,
                     (enum route_travel)unit_below(random, 3));
                drawing->pieces[drawing->input.count - 1].length =
                    (double)unit_below(random, 8000) / 1000;
            }
    for (size_t i = 0; i < drawing->input.point_count; i++)
        drawing->at_edge[i] = unit_below(random, 4) == 0;
    bool is_odd[64];
    return odd_points(&drawing->input, is_odd) <= most_odd;
}

static void all_ways(const struct route_input *input, double ways[64][64])
{
    for (size_t i = 0; i < input->point_count; i++)
        for (size_t k = 0; k < input->point_count; k++)
            ways[i][k] = i == k ? 0 : 1e9;
    for (size_t i = 0; i < input->count; i++) {
        const struct route_piece *piece = &input->pieces[i];
        const double way = piece->travel == ROUTE_TRAVEL_NONE ? 1e9
                           : piece->travel == ROUTE_TRAVEL_BACK
                               ? round(piece->length * 3000) / 1000
                               : piece->length;
        if (way < ways[piece->a][piece->b])
            ways[piece->a][piece->b] = ways[piece->b][piece->a] = way;
    }
    for (size_t m = 0; m < input->point_count; m++)
        for (size_t i = 0; i < input->point_count; i++)
            for (size_t k = 0; k < input->point_count; k++)
                if (ways[i][m] + ways[m][k] < ways[i][k])
                    ways[i][k] = ways[i][m] + ways[m][k];
}

/* The least cost of ends and ways over every choice of pairs. */
static double least_cost(const struct route_input *input, double ways[64][64],
                         const size_t *odd, size_t count)
{
    if (count == 0)
        return 0;
    double best =
        end_cost(input, odd[0]) + least_cost(input, ways, odd + 1, count - 1);
    for (size_t i = 1; i < count; i++) {
        size_t rest[8], left = 0;
        for (size_t k = 1; k < count; k++)
            if (k != i)
                rest[left++] = odd[k];
        const double cost =
            ways[odd[0]][odd[i]] + least_cost(input, ways, rest, left);
        best = cost < best ? cost : best;
    }
    return best;
}

/* The odd points of a drawing; returns how many. */
static size_t list_odd(const struct route_input *input, size_t odd[64])
{
    bool is_odd[64];
    size_t count = 0;
    odd_points(input, is_odd);
    for (size_t i = 0; i < input->point_count; i++)
        if (is_odd[i])
            odd[count++] = i;
    return count;
}

static void test_pairs_exhausted(void **state)
{
    struct unit_random random = {662607015};
    size_t graphs = 0, sums[9] = {0};
    while (graphs < 1000) {
        struct arena *arena = arena_create();
        struct drawing *drawing = draw(arena);
        if (random_drawing(drawing, &random, 8)) {
            const struct route route = plan(arena, &drawing->input);
            size_t odd[64];
            const size_t count = list_odd(&drawing->input, odd);
            double ways[64][64];
            all_ways(&drawing->input, ways);
            const double least = least_cost(&drawing->input, ways, odd, count);
            assert_true(fabs(route.bound - least) < 1e-6);
            sums[count]++;
            graphs++;
        }
        arena_destroy(arena);
    }
    assert_true(sums[8] > 100 && sums[4] > 10);
    (void)state;
}

/* What pairs cost at least where every odd point may be paired with every
 * other, in whole costs. */
static double complete_cost(struct arena *arena,
                            const struct route_input *input)
{
    double ways[64][64];
    size_t odd[64], edges = 0;
    const size_t count = list_odd(input, odd);
    int64_t ends = 0;
    struct match_edge *all = ARENA_ARRAY(arena, struct match_edge, 64 * 64);
    all_ways(input, ways);
    for (size_t i = 0; i < count; i++) {
        ends += llround(1000 * end_cost(input, odd[i]));
        for (size_t k = 0; k < i; k++)
            if (ways[odd[i]][odd[k]] < 1e8)
                all[edges++] = (struct match_edge){
                    i, k,
                    llround(1000 *
                            (end_cost(input, odd[i]) + end_cost(input, odd[k]) -
                             ways[odd[i]][odd[k]]))};
    }
    const struct matching matching = match_heaviest(arena, count, all, edges);
    assert_true(matching.proved);
    return (double)(ends - matching.weight) / 1000;
}

/* Points look at their nearest ones first, and pairs are the best of all the
 * same: with up to 49 odd points, short ways and long ones. */
static void test_pairs_of_all(void **state)
{
    struct unit_random random = {8314462618};
    size_t odd = 0;
    for (int i = 0; i < 600; i++) {
        struct arena *arena = arena_create();
        struct drawing *drawing = draw(arena);
        random_drawing(drawing, &random, 64);
        for (size_t k = 0; k < drawing->input.count; k++)
            drawing->pieces[k].length =
                round(drawing->pieces[k].length * 1000 / (1 << i % 6)) / 1000;
        const struct route route = plan(arena, &drawing->input);
        const double least = complete_cost(arena, &drawing->input);
        size_t points[64];
        if (fabs(route.bound - least) > 1e-6)
            fail_msg("%.3f instead of %.3f", route.bound, least);
        odd += list_odd(&drawing->input, points);
        arena_destroy(arena);
    }
    assert_true(odd > 600 * 12);
    (void)state;
}

static void test_random_walks(void **state)
{
    struct unit_random random = {299792458};
    for (int i = 0; i < 3000; i++) {
        struct arena *arena = arena_create();
        struct drawing *drawing = draw(arena);
        random_drawing(drawing, &random, 64);
        drawing->input.bobbin = i % 3 == 0 ? 20 : 0;
        drawing->input.order = i % 2 ? ROUTE_ACROSS : ROUTE_CENTRE_OUT;
        drawing->input.start_worth = i % 5 == 0 ? 0 : 24;
        plan(arena, &drawing->input);
        arena_destroy(arena);
    }
    (void)state;
}

/* ---- a whole top ---- */

/* 570 extended lines: 1 start instead of 190 (quilting decisions, section 3).
 */
static void test_top(void **state)
{
    const struct top top = top_make(*state, 5, 6, true);
    const struct route_input input = top_input(&top);
    bool *is_odd = ARENA_ARRAY(*state, bool, input.point_count);
    assert_int_equal(top.lines, 570);
    assert_int_equal(odd_points(&input, is_odd), 380);
    const struct route route = plan(*state, &input);
    assert_true(fabs(route.stitched - 5724) < 1);
    assert_int_equal(route.starts, 1);
    assert_int_equal(route.starts_alone, 190);
    assert_int_equal(route.starts_bound, 1);
    /* All odd points paired: 330 in of travel; one way is then left out. */
    assert_true(fabs(route.bound - 330.5) < 0.1);
    assert_true(route.travelled < 330 && route.travelled > 320);
    assert_int_equal(route.changes, 4);
}

/* The same where the outline is the quilt's edge, and nothing to travel on. */
static void test_top_edge(void **state)
{
    const struct top top = top_make(*state, 5, 6, false);
    struct route_input input = top_input(&top);
    const struct route route = plan(*state, &input);
    assert_true(route.starts_bound < 190 && route.starts < 190);
    assert_true(route.cost <= route.bound + 24);
    input.order = ROUTE_CENTRE_OUT;
    input.bobbin = 100;
    assert_true(plan(*state, &input).changes >= 57);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing),
        cmocka_unit_test(test_travel),
        cmocka_unit_test(test_edge),
        cmocka_unit_test(test_no_idle_travel),
        cmocka_unit_test(test_join_two),
        cmocka_unit_test(test_join_there_and_back),
        cmocka_unit_test(test_straight_on),
        cmocka_unit_test(test_ring_at_end),
        cmocka_unit_test(test_orders),
        cmocka_unit_test(test_bobbins),
        cmocka_unit_test(test_pairs_exhausted),
        cmocka_unit_test(test_pairs_of_all),
        cmocka_unit_test(test_random_walks),
        cmocka_unit_test(test_top),
        cmocka_unit_test(test_top_edge),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
