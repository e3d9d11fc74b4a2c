/* Strips from which shapes are cut. */
#include <math.h>

#include "../resolve/small.h"
#include "cutplan.h"

/* ---- what one strip gives ---- */

static bool lies_right_of(const struct cut_outline *a,
                          const struct cut_outline *b, double y)
{
    double right = -1e9, left = 1e9;
    for (size_t i = 0; i < a->corners; i++)
        if (fabs(rational_double(a->coordinates[2 * i + 1]) - y) < 1e-9)
            right = fmax(right, rational_double(a->coordinates[2 * i]));
    for (size_t i = 0; i < b->corners; i++)
        if (fabs(rational_double(b->coordinates[2 * i + 1]) - y) < 1e-9)
            left = fmin(left, rational_double(b->coordinates[2 * i]));
    return left > right - 1e-9;
}

/* An 8 in strip of 40 in gives 7 triangles and the halves at its two ends
 * (quilt-it, 2012: a quarter of a yard, selvage to selvage). */
static void test_published_count_of_a_strip(void **state)
{
    struct small small = small_whole(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" "
        "title=\"Small\"><fabrics><fabric id=\"night\"/></fabrics>"
        "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"#1d2540\" "
        "width=\"40\"/></colorway>"
        "<quilt id=\"mat\"><triangles across=\"7\" down=\"2\" "
        "size=\"7 1/4\"><patch fabric=\"night\"/></triangles></quilt>"
        "</pattern>");
    small_finish(&small);
    expect_clean(&small);
    const struct cutplans *plans = plan_cutting(small.run, small.sewn);
    const struct fabric_plan *plan = &plans->items.items[0].fabrics[0];
    const struct cut_item *item = &plan->items.items[0];
    assert_int_equal(plan->items.count, 1);
    assert_true(rational_equal(item->height, rational_whole(8)));
    assert_true(rational_equal(plan->strip_length, rational_whole(40)));
    assert_int_equal(item->count, 2);
    for (size_t i = 0; i < item->shaped_strips.count; i++) {
        const struct placement placed =
            place_shapes(*state, item, &item->shaped_strips.items[i]);
        assert_int_equal(placed.pieces.count, 9);
        for (size_t k = 1; k < placed.pieces.count; k++) {
            const struct cut_outline *before =
                placed.pieces.items[k - 1].outline;
            const struct cut_outline *piece = placed.pieces.items[k].outline;
            assert_true(lies_right_of(before, piece, 0.0));
            assert_true(lies_right_of(before, piece, 8.0));
        }
    }
    assert_true(cutplan_holds(plan));
}

/* All shapes of one height share their strips, and each strip keeps them apart:
 * as many as were asked for, in the length of the cloth. */
static void test_every_piece_is_cut(void **state)
{
    const struct small small = small_sew(
        *state,
        "<quilt id=\"mat\"><triangles across=\"9\" down=\"6\" "
        "size=\"2 1/2\"><patch key=\"n\" fabric=\"night\"/><map>6*(n n.2 n.3 "
        "n n.2)</map></triangles></quilt>");
    const struct cutplans *plans = plan_cutting(small.run, small.sewn);
    const struct fabric_plan *plan = &plans->items.items[0].fabrics[0];
    size_t asked = 0, cut = 0;
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        for (size_t k = 0; k < item->shaped.count; k++)
            asked += item->shaped.items[k].count;
        for (size_t k = 0; k < item->shaped_strips.count; k++) {
            const struct shaped_strip *strip = &item->shaped_strips.items[k];
            const struct placement placed = place_shapes(*state, item, strip);
            const struct placed_piece *last =
                &placed.pieces.items[placed.pieces.count - 1];
            cut += placed.pieces.count * strip->repeat;
            assert_true(rational_compare(rational_add(last->x, last->width),
                                         plan->strip_length) <= 0);
        }
    }
    /* Five pieces and two ends in each of six rows. */
    assert_int_equal(asked, 6 * 7);
    assert_int_equal(cut, asked);
    assert_true(cutplan_holds(plan));
}

/* By hand: with seams of 1/4 in, finished 6 in high, a triangle takes 6 3/4 /
 * root 3 = 3.90 in of its strip on the mean, a row's end 2.20; ten rows of two
 * ends with 26 triangles between take 26 x 3.90 + 20 x 2.20 = 145.3 in, so that
 * three strips of 42 in are too few. Two strips hold nine triangles between two
 * ends (39.5 in), one the last eight, and what ends are left lie in pairs that
 * fill 4.40 in from upright edge to upright edge: four strips do. */
static void test_ends_of_rows_lie_in_pairs(void **state)
{
    const struct small small = small_sew(
        *state,
        "<quilt id=\"mat\"><triangles across=\"11\" down=\"10\" size=\"6\" "
        "ends=\"night\"><patch key=\"n\" fabric=\"night\"/>"
        "<patch key=\"f\" fabric=\"flame\"/><map>"
        "4*(n f n f n f n f n f f) 6*(f f f n f f f f f f f)</map></triangles></quilt>");
    const struct cutplans *plans = plan_cutting(small.run, small.sewn);
    const struct fabric_plan *plan = &plans->items.items[0].fabrics[0];
    const struct cut_item *item = &plan->items.items[0];
    size_t ends = 0, triangles = 0;
    for (size_t i = 0; i < item->shaped.count; i++)
        if (item->shaped.items[i].shape == PATCH_TRIANGLE)
            triangles += item->shaped.items[i].count;
        else
            ends += item->shaped.items[i].count;
    assert_int_equal(triangles, 26);
    assert_int_equal(ends, 20);
    assert_int_equal(item->count, 4);
    assert_true(cutplan_holds(plan));
}

/* Diamonds that lean one way lie together: between those that lean either way
 * a triangle is lost. */
static void test_diamonds_of_one_way_lie_together(void **state)
{
    const struct small small = small_sew(
        *state,
        "<quilt id=\"mat\"><triangles across=\"9\" down=\"2\" size=\"3\" "
        "ends=\"flame\"><patch key=\"n\" fabric=\"night\"/>"
        "<patch key=\"f\" fabric=\"flame\"/><map>"
        "n.2 n.2 f n.2 n.2 f n.2 n.2 n.2 n.2</map></triangles></quilt>");
    const struct cutplans *plans = plan_cutting(small.run, small.sewn);
    const struct cut_item *item =
        &plans->items.items[0].fabrics[0].items.items[0];
    size_t changes = 0;
    assert_int_equal(item->shaped.count, 2);
    for (size_t i = 0; i < item->shaped_strips.count; i++) {
        const struct shaped_strip *strip = &item->shaped_strips.items[i];
        for (size_t k = 1; k < strip->pieces.count; k++)
            changes += strip->pieces.items[k] != strip->pieces.items[k - 1];
    }
    assert_true(changes <= 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_count_of_a_strip),
        cmocka_unit_test(test_every_piece_is_cut),
        cmocka_unit_test(test_ends_of_rows_lie_in_pairs),
        cmocka_unit_test(test_diamonds_of_one_way_lie_together),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
