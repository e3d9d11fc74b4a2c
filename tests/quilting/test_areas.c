/* Areas that lines leave among stars, and their kinds, judged by comparing
 * every area with every other through every motion. */
#include "stars.h"

#include <math.h>
#include <string.h>

#include "areas.h"
#include "extend.h"

struct plan {
    const struct ground *ground;
    const struct arrangement *a;
    size_t told; /* segments before this are lines, the others seams and rim */
    size_t count;
};

/* The stars' lines carried on through the plain blocks to the next cloth. */
static struct plan plan_of(struct arena *arena, int64_t across, int64_t down)
{
    struct plan plan = {ground_of(arena, star_cloth(arena, across, down)), NULL,
                        0, 0};
    const struct straight_seams seams = join_seams(arena, plan.ground);
    const struct extend_order order = {.within = plan.ground->extent,
                                       .one = NIGHT,
                                       .other = FLAME,
                                       .into = NIGHT,
                                       .until = UNTIL_EDGE,
                                       .center = plan.ground->extent};
    const struct extended_lines lines =
        extend_seams(arena, plan.ground, &seams, &order);
    segments all = {0};
    for (size_t i = 0; i < lines.count; i++)
        add_segment(arena, &all, lines.items[i].from, lines.items[i].to);
    plan.told = all.count;
    for (size_t i = 0; i < seams.count; i++)
        for (size_t k = 0; k < seams.items[i].count; k++) {
            const struct seam_part *part = &seams.items[i].parts[k];
            if (part->right != part->left)
                add_segment(arena, &all, part->from, part->to);
        }
    struct segment sides[4];
    extent_sides(plan.ground->extent, sides);
    for (size_t i = 0; i < 4; i++)
        *LIST_ADD(arena, &all) = sides[i];
    plan.a = arrange_segments(arena, all.items, all.count);
    plan.count = all.count;
    return plan;
}

static bool same_key(struct face_key a, struct face_key b)
{
    return face_key_compare(a, b) == 0;
}

static struct face_key key_of(const struct plan *plan,
                              const struct areas *areas, size_t i,
                              struct motion motion)
{
    return face_key(plan->a, &plan->a->faces[i], areas->items[i].fabric,
                    motion);
}

static size_t symmetry_ways(const struct ground *ground, unsigned held,
                            struct area_way ways[SYMMETRY_COUNT])
{
    size_t count = 0;
    for (enum symmetry s = SYMMETRY_LEFT_RIGHT; s < SYMMETRY_COUNT; s++)
        if (held & SYMMETRY_BIT(s))
            ways[count++] =
                (struct area_way){0, ground->extent,
                                  symmetry_motion(s, ground->cloth->width,
                                                  ground->cloth->height)};
    return count;
}

/* Each area is what its first becomes by its motion. */
static void assert_motions(const struct plan *plan, const struct areas *areas)
{
    const struct motion same = {1, 0, 0, 1, {{0, 1}, {0, 1}}};
    size_t counted = 0;
    for (size_t k = 0; k < areas->kind_count; k++)
        counted += areas->kinds[k].count;
    assert_int_equal(counted, areas->count);
    for (size_t i = 0; i < areas->count; i++) {
        const size_t first = areas->kinds[areas->items[i].kind].first;
        assert_int_equal(areas->items[i].face, i);
        assert_true(
            same_key(key_of(plan, areas, first, areas->items[i].from_first),
                     key_of(plan, areas, i, same)));
    }
}

static void test_symmetric(void **state)
{
    const struct plan plan = plan_of(*state, 3, 3);
    struct fault fault = {0};
    struct area_way ways[SYMMETRY_COUNT];
    const size_t count = symmetry_ways(
        plan.ground, top_symmetries(*state, plan.ground, &fault), ways);
    assert_int_equal(count, 7);
    const struct areas areas =
        find_areas(*state, plan.ground, plan.a, ways, count);
    double area = 0;
    for (size_t i = 0; i < areas.count; i++)
        area += areas.items[i].area;
    assert_true(fabs(area - 36 * 36) < 1e-9);
    assert_motions(&plan, &areas);
    const struct motion same = {1, 0, 0, 1, {{0, 1}, {0, 1}}};
    for (size_t i = 0; i < areas.count; i++)
        for (size_t k = 0; k < areas.count; k++) {
            bool alike = i == k;
            for (size_t w = 0; w < count; w++)
                alike |= same_key(key_of(&plan, &areas, i, ways[w].motion),
                                  key_of(&plan, &areas, k, same));
            assert_int_equal(alike, areas.items[i].kind == areas.items[k].kind);
        }
    assert_string_equal(areas.kinds[0].letter, "A");
    assert_string_equal(areas.kinds[1].letter, "B");
    /* The first begins at the top left: a corner, or the star around it. */
    const double first = areas.items[areas.kinds[0].first].area;
    assert_true(first == 9 || first == 72);
}

/* Stars at the first and third of four blocks: the top has no mirror from left
 * to right, so only the placements of the block tell that the stars are alike.
 */
static void test_placements(void **state)
{
    const struct plan plan = plan_of(*state, 4, 1);
    const struct areas apart = find_areas(*state, plan.ground, plan.a, NULL, 0);
    assert_int_equal(apart.kind_count, apart.count);
    struct area_way ways[2];
    for (int64_t i = 0; i < 2; i++)
        ways[i] = (struct area_way){
            3, block_extent(2 * i, 0),
            motion_inverse(placing_motion(
                (struct orientation){.turn = (unsigned)i}, rational_whole(12),
                rational_whole(12), at(24 * i, 1, 0, 1)))};
    const struct areas tied = find_areas(*state, plan.ground, plan.a, ways, 2);
    assert_motions(&plan, &tied);
    size_t stars = 0, kind = SIZE_MAX;
    for (size_t i = 0; i < tied.count; i++)
        if (tied.items[i].fabric == FLAME) {
            assert_true(stars++ == 0 || tied.items[i].kind == kind);
            kind = tied.items[i].kind;
        }
    assert_int_equal(stars, 2);
    assert_true(tied.kind_count < apart.kind_count);
}

/* A star has its seams with night for border; no line that was told comes in.
 */
static void test_touching(void **state)
{
    const struct plan plan = plan_of(*state, 3, 3);
    const struct areas areas = find_areas(*state, plan.ground, plan.a, NULL, 0);
    bool *lines = ARENA_ARRAY(*state, bool, plan.count);
    bool *rim = ARENA_ARRAY(*state, bool, plan.count);
    for (size_t i = 0; i < plan.count; i++) {
        lines[i] = i < plan.told;
        rim[i] = i >= plan.count - 4;
    }
    const bool *by_line = faces_touching(*state, plan.a, lines);
    const bool *by_rim = faces_touching(*state, plan.a, rim);
    for (size_t i = 0; i < areas.count; i++) {
        const spot_rings rings = area_spots(*state, plan.a, &areas.items[i]);
        bool at_rim = false;
        for (size_t k = 0; k < rings.items[0].count; k++) {
            const struct spot p = rings.items[0].points[k];
            const struct spot q =
                rings.items[0].points[(k + 1) % rings.items[0].count];
            at_rim |= (p.x == q.x && (p.x == 0 || p.x == 36)) ||
                      (p.y == q.y && (p.y == 0 || p.y == 36));
        }
        assert_int_equal(by_rim[i], at_rim);
        if (areas.items[i].fabric == FLAME)
            assert_false(by_line[i]);
        const struct shape shape = area_shape(*state, plan.a, &areas.items[i]);
        assert_true(fabs(shape.area - areas.items[i].area) < 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_symmetric),
        cmocka_unit_test(test_placements),
        cmocka_unit_test(test_touching),
    };
    return cmocka_run_group_tests_name("areas", tests, unit_arena,
                                       unit_arena_end);
}
