/* Areas that lines leave among stars, and their kinds, judged by laying every
 * area upon every other, turned and mirrored. */
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

/* ---- alike ---- */

static bool on_rim(const spot_rings *rings, struct spot at)
{
    for (size_t r = 0; r < rings->count; r++)
        for (size_t i = 0; i < rings->items[r].count; i++) {
            const struct spot_ring *ring = &rings->items[r];
            const struct spot_line side = {
                ring->points[i], ring->points[(i + 1) % ring->count]};
            if (spot_to_line(at, side) < 1e-9)
                return true;
        }
    return false;
}

/* In one of the eight ways to lay an area down; `shift` takes its box to that
 * of the other. */
static struct spot laid(struct spot p, int way, struct spot shift)
{
    const double x = (way & 1) != 0 ? -p.x : p.x;
    const double y = (way & 2) != 0 ? -p.y : p.y;
    const struct spot to = {(way & 4) != 0 ? y : x, (way & 4) != 0 ? x : y};
    return (struct spot){to.x + shift.x, to.y + shift.y};
}

static struct spot low_corner(const spot_rings *rings, int way)
{
    struct spot low = {HUGE_VAL, HUGE_VAL};
    for (size_t i = 0; i < rings->items[0].count; i++) {
        const struct spot p =
            laid(rings->items[0].points[i], way, (struct spot){0, 0});
        low = (struct spot){fmin(low.x, p.x), fmin(low.y, p.y)};
    }
    return low;
}

/* Corners and middles of all sides of the one lie on the rim of the other. */
static bool lies_on(const spot_rings *one, const spot_rings *other, int way)
{
    const struct spot from = low_corner(one, way), to = low_corner(other, 0);
    const struct spot shift = {to.x - from.x, to.y - from.y};
    for (size_t r = 0; r < one->count; r++)
        for (size_t i = 0; i < one->items[r].count; i++) {
            const struct spot p = one->items[r].points[i];
            const struct spot q =
                one->items[r].points[(i + 1) % one->items[r].count];
            const struct spot middle = {(p.x + q.x) / 2, (p.y + q.y) / 2};
            if (!on_rim(other, laid(p, way, shift)) ||
                !on_rim(other, laid(middle, way, shift)))
                return false;
        }
    return true;
}

/* By plain distances: of one fabric, as large, and rim upon rim some way. */
static bool is_alike(struct arena *arena, const struct plan *plan,
                     const struct areas *areas, size_t i, size_t k)
{
    const struct area *one = &areas->items[i], *other = &areas->items[k];
    if (one->fabric != other->fabric || fabs(one->area - other->area) > 1e-9)
        return false;
    const spot_rings rings = area_spots(arena, plan->a, one);
    const spot_rings others = area_spots(arena, plan->a, other);
    for (int way = 0; way < 8; way++)
        if (lies_on(&rings, &others, way))
            return true;
    return false;
}

static void assert_kinds(struct arena *arena, const struct plan *plan,
                         const struct areas *areas)
{
    size_t counted = 0;
    for (size_t k = 0; k < areas->kind_count; k++)
        counted += areas->kinds[k].count;
    assert_int_equal(counted, areas->count);
    for (size_t i = 0; i < areas->count; i++) {
        assert_int_equal(areas->items[i].face, i);
        for (size_t k = 0; k < i; k++)
            assert_int_equal(is_alike(arena, plan, areas, i, k),
                             areas->items[i].kind == areas->items[k].kind);
    }
}

/* Stars in turns over a square top, and in a row that has no mirror. */
static void test_alike(void **state)
{
    for (int64_t down = 1; down <= 3; down += 2) {
        const struct plan plan = plan_of(*state, down == 1 ? 4 : 3, down);
        const struct areas areas = find_areas(*state, plan.ground, plan.a);
        double area = 0;
        for (size_t i = 0; i < areas.count; i++)
            area += areas.items[i].area;
        assert_true(fabs(area - (down == 1 ? 48 * 12 : 36 * 36)) < 1e-9);
        assert_kinds(*state, &plan, &areas);
        /* The first begins at the top left: a corner, or the star around it. */
        const double first = areas.items[areas.kinds[0].first].area;
        assert_true(first == 9 || first == 72);
    }
}

/* What lies in areas tells them apart: a stretch that is not in the other one,
 * as long, the other way round, or a little aside. */
static void test_contents(void **state)
{
    const struct plan plan = plan_of(*state, 3, 3);
    struct areas areas = find_areas(*state, plan.ground, plan.a);
    size_t one = 0, other = 1;
    while (areas.items[one].kind != areas.items[other].kind ||
           areas.items[one].area < 8)
        other = other + 1 < areas.count ? other + 1 : ++one + 1;
    struct area *first = &areas.items[one], *second = &areas.items[other];
    const struct area plain[2] = {*first, *second};
    static const double aside[] = {0, 1e-9, 1.0 / 64};
    for (int i = 0; i < 3; i++) {
        *first = plain[0];
        *second = plain[1];
        /* From the corners of their boxes: some view of the one has both. */
        area_add_stretch(first,
                         (struct spot){first->box.from.x + 1,
                                       first->box.from.y + 2},
                         (struct spot){first->box.from.x + 2,
                                       first->box.from.y + 2.5});
        size_t ways = 0;
        for (int way = 0; way < 8; way++) {
            *second = plain[1];
            const struct spot low = second->box.from, high = second->box.to;
            const double x[2] = {1 + aside[i], 2}, y[2] = {2, 2.5};
            struct spot ends[2];
            for (int k = 0; k < 2; k++) {
                const double u = (way & 4) != 0 ? y[k] : x[k];
                const double v = (way & 4) != 0 ? x[k] : y[k];
                ends[k] = (struct spot){(way & 1) != 0 ? high.x - u : low.x + u,
                                        (way & 2) != 0 ? high.y - v
                                                       : low.y + v};
            }
            area_add_stretch(second, ends[1], ends[0]);
            sort_areas(*state, &areas);
            ways += first->kind == second->kind;
        }
        assert_int_equal(ways > 0, i < 2);
    }
    *second = plain[1];
    *first = plain[0];
    area_add_number(second, 7);
    sort_areas(*state, &areas);
    assert_int_not_equal(first->kind, second->kind);
}

/* A star has its seams with night for border; no line that was told comes in.
 */
static void test_touching(void **state)
{
    const struct plan plan = plan_of(*state, 3, 3);
    const struct areas areas = find_areas(*state, plan.ground, plan.a);
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
        cmocka_unit_test(test_alike),
        cmocka_unit_test(test_contents),
        cmocka_unit_test(test_touching),
    };
    return cmocka_run_group_tests_name("areas", tests, unit_arena,
                                       unit_arena_end);
}
