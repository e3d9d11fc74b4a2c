/* Pairs of the largest weight: against every choice of pairs on small graphs,
 * and by their own proof on large ones, where the test counts weights and pairs
 * again. A proof that is false must be seen: see test_false_proof. */
#include <stdlib.h>
#include <string.h>

#include "../unit.h"
#include "match.h"
#include "match_graph.h"

struct graph {
    struct match_edge edges[40000];
    size_t count, points;
};

static void add(struct graph *graph, size_t a, size_t b, int64_t weight)
{
    graph->edges[graph->count++] = (struct match_edge){a, b, weight};
}

/* The largest weight of pairs among the points of a set, by every choice. */
static int64_t exhausted(const struct graph *graph)
{
    static int64_t best[1 << 14], weights[14][14];
    memset(weights, 0, sizeof weights);
    for (size_t i = 0; i < graph->count; i++) {
        const struct match_edge *edge = &graph->edges[i];
        if (edge->weight > weights[edge->a][edge->b])
            weights[edge->a][edge->b] = weights[edge->b][edge->a] =
                edge->weight;
    }
    for (size_t set = 1; set < (size_t)1 << graph->points; set++) {
        size_t first = 0;
        while ((set >> first & 1) == 0)
            first++;
        const size_t rest = set & ~((size_t)1 << first);
        best[set] = best[rest];
        for (size_t other = first + 1; other < graph->points; other++)
            if ((rest >> other & 1) != 0) {
                const int64_t with =
                    weights[first][other] + best[rest & ~((size_t)1 << other)];
                best[set] = with > best[set] ? with : best[set];
            }
    }
    return best[((size_t)1 << graph->points) - 1];
}

/* Pairs are pairs, made by edges of the graph, and weigh what is said. */
static void assert_pairs(const struct graph *graph,
                         const struct matching *matching)
{
    int64_t twice = 0;
    assert_true(matching->proved);
    for (size_t i = 0; i < graph->points; i++) {
        assert_true(matching->dual[i] >= 0);
        const size_t mate = matching->mate[i];
        if (mate == MATCH_ALONE) {
            assert_true(matching->dual[i] == 0);
            assert_true(matching->edge[i] == MATCH_ALONE);
            continue;
        }
        assert_true(mate < graph->points && mate != i);
        assert_int_equal(matching->mate[mate], i);
        assert_int_equal(matching->edge[mate], matching->edge[i]);
        const struct match_edge *edge = &graph->edges[matching->edge[i]];
        assert_true((edge->a == i && edge->b == mate) ||
                    (edge->b == i && edge->a == mate));
        assert_true(edge->weight > 0);
        twice += edge->weight;
    }
    assert_true(twice == 2 * matching->weight);
}

/* Edges between some of the pairs of points; few different weights make many
 * choices equal and blossoms many. */
static void random_graph(struct graph *graph, struct unit_random *random,
                         size_t points, uint64_t weights, uint64_t dense)
{
    graph->count = 0;
    graph->points = points;
    for (size_t a = 0; a < points; a++)
        for (size_t b = 0; b < a; b++)
            if (unit_below(random, 100) < (int64_t)dense) {
                const bool turned = unit_below(random, 2) == 0;
                add(graph, turned ? a : b, turned ? b : a,
                    unit_below(random, weights) - (int64_t)weights / 10);
            }
}

static void compare(struct unit_random *random, size_t most, int graphs)
{
    static const uint64_t weights[] = {3, 10, 1000, 24000, 1ull << 39};
    for (int i = 0; i < graphs; i++) {
        struct arena *arena = arena_create();
        struct graph *graph = ARENA_NEW(arena, struct graph);
        random_graph(graph, random, 1 + (size_t)unit_below(random, most),
                     weights[unit_below(random, 5)],
                     20 + (uint64_t)unit_below(random, 81));
        const struct matching matching =
            match_heaviest(arena, graph->points, graph->edges, graph->count);
        assert_pairs(graph, &matching);
        assert_true(matching.weight == exhausted(graph));
        arena_destroy(arena);
    }
}

static void test_exhausted(void **state)
{
    struct unit_random random = {161803398};
    compare(&random, 8, 1000);
    compare(&random, 14, 300);
    (void)state;
}

static void test_empty(void **state)
{
    struct matching matching = match_heaviest(*state, 0, NULL, 0);
    assert_true(matching.proved && matching.weight == 0);
    matching = match_heaviest(*state, 3, NULL, 0);
    assert_true(matching.proved && matching.mate[2] == MATCH_ALONE);
    const struct match_edge none = {0, 1, 0};
    matching = match_heaviest(*state, 2, &none, 1);
    assert_true(matching.proved && matching.mate[0] == MATCH_ALONE);
}

/* Of two edges between the same points the heavier is taken. */
static void test_twice(void **state)
{
    const struct match_edge edges[] = {{0, 1, 5}, {1, 0, 7}, {0, 1, 6}};
    const struct matching matching = match_heaviest(*state, 2, edges, 3);
    assert_true(matching.proved && matching.weight == 7);
    assert_int_equal(matching.edge[0], 1);
}

/* Points on a plane, as odd points of a quilt lie: weight is what two ends
 * cost, less the way. */
static void plane(struct graph *graph, struct unit_random *random,
                  size_t points, int64_t side, int64_t worth)
{
    int64_t x[400], y[400];
    graph->count = 0;
    graph->points = points;
    for (size_t i = 0; i < points; i++) {
        x[i] = unit_below(random, (uint64_t)side) / 500 * 500;
        y[i] = unit_below(random, (uint64_t)side) / 500 * 500;
        for (size_t k = 0; k < i; k++) {
            const int64_t way = llabs(x[i] - x[k]) + llabs(y[i] - y[k]);
            if (way < worth && graph->count < UNIT_COUNT(graph->edges))
                add(graph, i, k, worth - way);
        }
    }
}

static void test_large(void **state)
{
    struct unit_random random = {577215664};
    for (int i = 0; i < 120; i++) {
        struct arena *arena = arena_create();
        struct graph *graph = ARENA_NEW(arena, struct graph);
        if (i % 2 == 0)
            plane(graph, &random, 100 + (size_t)unit_below(&random, 300), 60000,
                  24000);
        else
            random_graph(graph, &random, 50 + (size_t)unit_below(&random, 150),
                         i % 4 == 1 ? 4 : 1000,
                         3 + (uint64_t)unit_below(&random, 20));
        const struct matching matching =
            match_heaviest(arena, graph->points, graph->edges, graph->count);
        assert_pairs(graph, &matching);
        arena_destroy(arena);
    }
    (void)state;
}

/* Rings of odd length, tied to each other: blossoms in blossoms. */
static void test_rings(void **state)
{
    struct graph *graph = ARENA_NEW(*state, struct graph);
    for (size_t ring = 0; ring < 30; ring++)
        for (size_t i = 0; i < 7; i++) {
            add(graph, 7 * ring + i, 7 * ring + (i + 1) % 7, 10);
            if (ring > 0)
                add(graph, 7 * ring + i, 7 * (ring - 1) + (3 * i) % 7,
                    9 - (int64_t)(i % 3));
        }
    graph->points = 210;
    const struct matching matching =
        match_heaviest(*state, graph->points, graph->edges, graph->count);
    assert_pairs(graph, &matching);
    /* 3 pairs of each ring, and one of the points left of every two rings. */
    assert_true(matching.weight <= 10 * 105 && matching.weight >= 10 * 90);
}

/* The proof does not hold for pairs that are not the heaviest, nor for duals
 * that do not hold an edge. */
static void test_false_proof(void **state)
{
    const struct match_edge edges[] = {{0, 1, 5}, {1, 2, 7}, {2, 3, 5}};
    struct match_node nodes[8] = {{0}};
    uint32_t pair[] = {MATCH_NONE, 2, 3, MATCH_NONE};
    struct match_graph graph = {.arena = *state,
                                .edges = edges,
                                .points = 4,
                                .nodes = nodes,
                                .pair = pair};
    LIST_RESERVE(*state, &graph.leaves, 8);
    const int64_t duals[] = {3, 7, 7, 3};
    for (int i = 0; i < 4; i++) {
        nodes[i].parent = MATCH_NONE;
        nodes[i].dual = duals[i];
    }
    int64_t weight;
    assert_false(match_proved(&graph, 3, &weight)); /* 1-2 alone: 7 of 10 */
    pair[0] = 0;
    pair[1] = 1;
    pair[2] = 4;
    pair[3] = 5;
    assert_true(match_proved(&graph, 3, &weight));
    assert_int_equal(weight, 10);
    nodes[1].dual = 6; /* does not hold 0-1 */
    nodes[0].dual = 4;
    assert_false(match_proved(&graph, 3, &weight));
    nodes[1].dual = 13;
    nodes[0].dual = -3;
    assert_false(match_proved(&graph, 3, &weight));
    nodes[1].dual = 7;
    nodes[0].dual = 3;
    pair[3] = MATCH_NONE; /* one half of a pair */
    assert_false(match_proved(&graph, 3, &weight));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_exhausted), cmocka_unit_test(test_empty),
        cmocka_unit_test(test_twice),     cmocka_unit_test(test_large),
        cmocka_unit_test(test_rings),     cmocka_unit_test(test_false_proof),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
