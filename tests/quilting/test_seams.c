/* Straight seams and the lines that grow out of them, on stars among plain
 * blocks; all figures are counted on paper. */
#include "stars.h"

#include "extend.h"
#include "shape.h"

struct top {
    const struct ground *ground;
    struct straight_seams seams;
};

static struct top top_of(struct arena *arena, int64_t across, int64_t down)
{
    struct top top = {ground_of(arena, star_cloth(arena, across, down)), {0}};
    top.seams = join_seams(arena, top.ground);
    assert_int_equal(top.seams.fault.kind, FAULT_NONE);
    return top;
}

/* One star: rows at 3 and 9, columns at 3 and 9 (of three seams each), and
 * eight wings of which none goes on in another. */
static void test_one_star(void **state)
{
    const struct top top = top_of(*state, 1, 1);
    assert_int_equal(top.seams.count, 12);
    size_t upright = 0, level = 0;
    for (size_t i = 0; i < top.seams.count; i++) {
        const struct straight_seam *seam = &top.seams.items[i];
        if (!seam->line.upright && number_sign(seam->line.slope) != 0) {
            assert_int_equal(seam->count, 1);
            assert_true(seam_between(&seam->parts[0], NIGHT, FLAME));
            continue;
        }
        upright += seam->line.upright;
        level += !seam->line.upright;
        /* Night and flame, flame on both sides, flame and night. */
        assert_int_equal(seam->count, 3);
        assert_true(seam_between(&seam->parts[0], NIGHT, FLAME));
        assert_true(seam_between(&seam->parts[1], FLAME, FLAME));
        assert_true(seam_between(&seam->parts[2], FLAME, NIGHT));
        assert_true(vertex_equal(seam->parts[0].to, seam->parts[1].from));
    }
    assert_int_equal(upright, 2);
    assert_int_equal(level, 2);
}

static void test_fabrics(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    const struct ground *g = top.ground;
    assert_int_equal(ground_fabric(g, (struct spot){6, 6}), FLAME);
    assert_int_equal(ground_fabric(g, (struct spot){6, 1}), NIGHT);
    assert_int_equal(ground_fabric(g, (struct spot){18, 6}), NIGHT);
    assert_int_equal(ground_fabric(g, (struct spot){-1, 6}), NO_FABRIC);
    assert_int_equal(ground_fabric(g, (struct spot){6, 36.1}), NO_FABRIC);
}

/* From the center of a star to that of the next: the sides of the center, the
 * point of a goose, the block's, and the same again. */
static void test_walk(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    struct fault fault = {0};
    const stops found = ground_walk(*state, top.ground, at(6, 1, 6, 1),
                                    at(6, 1, 30, 1), &fault);
    static const int64_t places[] = {6, 9, 12, 24, 27, 30};
    static const int fabrics[] = {FLAME, NIGHT, NIGHT, NIGHT, FLAME, NO_FABRIC};
    assert_int_equal(found.count, 6);
    for (size_t i = 0; i < 6; i++) {
        assert_true(vertex_equal(found.items[i].at, at(6, 1, places[i], 1)));
        assert_int_equal(found.items[i].right, fabrics[i]);
        assert_int_equal(found.items[i].left, fabrics[i]);
        assert_int_equal(found.items[i].seam, i > 0 && i < 5);
    }
    const stops along = ground_walk(*state, top.ground, at(24, 1, 3, 1),
                                    at(36, 1, 3, 1), &fault);
    /* The points of a wing, the tip of a goose, and both ends. */
    assert_int_equal(along.count, 5);
    assert_true(along.items[0].right != along.items[0].left);
    assert_true(along.items[4].edge && along.items[0].seam);
    const stops back = ground_walk(*state, top.ground, at(6, 1, 30, 1),
                                   at(6, 1, 6, 1), &fault);
    assert_true(vertex_equal(back.items[1].at, at(6, 1, 27, 1)));
}

static struct extend_order order_of(const struct top *top, struct extent place,
                                    enum extend_until until)
{
    return (struct extend_order){.within = place,
                                 .one = NIGHT,
                                 .other = FLAME,
                                 .into = NIGHT,
                                 .until = until,
                                 .center = top->ground->extent};
}

/* Through a plain block among four stars: two level, two upright, and one
 * across each corner; each is met from its other end. */
static void test_phantom(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    struct extend_order order = order_of(&top, top.ground->extent, UNTIL_SEAM);
    const struct extended_lines all =
        extend_seams(*state, top.ground, &top.seams, &order);
    assert_int_equal(all.fault.kind, FAULT_NONE);
    /* Four plain blocks at the rim: each has three neighbors, so two lines
     * across and two corners that are met, and two lines and two corners that
     * come to the rim. */
    assert_int_equal(all.count, 4 * 8);
    size_t met = 0, edge = 0;
    for (size_t i = 0; i < all.count; i++) {
        met += all.items[i].met;
        edge += all.items[i].end == EXTENDED_EDGE;
        assert_int_equal(all.items[i].met, all.items[i].end == EXTENDED_SEAM);
    }
    assert_int_equal(met, 4 * 4);
    assert_int_equal(edge, 4 * 4);
    assert_true(all.lost < all.count);
    assert_int_equal(all.items[all.lost].end, EXTENDED_EDGE);
    order.until = UNTIL_EDGE;
    const struct extended_lines edges =
        extend_seams(*state, top.ground, &top.seams, &order);
    assert_int_equal(edges.count, 4 * 8);
    assert_int_equal(edges.lost, SIZE_MAX);
}

/* Of one star alone only its own lines: sixteen, none met; eight before the
 * nearest seam, and through the neighbors up to the rim else. */
static void test_place(void **state)
{
    const struct top top = top_of(*state, 5, 5);
    struct extend_order order = order_of(&top, block_extent(2, 2), UNTIL_SEAM);
    struct extended_lines lines =
        extend_seams(*state, top.ground, &top.seams, &order);
    assert_int_equal(lines.count, 16);
    for (size_t i = 0; i < lines.count; i++) {
        assert_false(lines.items[i].met);
        assert_int_equal(lines.items[i].end, EXTENDED_SEAM);
    }
    /* Straight ones come to the next star, and do not go on into it. */
    order.until = UNTIL_BORDER;
    lines = extend_seams(*state, top.ground, &top.seams, &order);
    size_t cloth = 0;
    for (size_t i = 0; i < lines.count; i++)
        cloth += lines.items[i].end == EXTENDED_CLOTH;
    assert_int_equal(lines.count, 16);
    assert_int_equal(cloth, 16);
}

/* A center that ends 3 beyond the star: what grows up, down and across comes to
 * its rim, and to the edge where the rim is not asked for. */
static void test_until_border(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    struct extend_order order =
        order_of(&top, block_extent(1, 1), UNTIL_BORDER);
    order.center = level_extent(at(9, 1, 9, 1), at(27, 1, 27, 1));
    struct extended_lines lines =
        extend_seams(*state, top.ground, &top.seams, &order);
    assert_int_equal(lines.count, 16);
    for (size_t i = 0; i < lines.count; i++) {
        const struct extended_line *l = &lines.items[i];
        assert_int_equal(l->end, EXTENDED_BORDER);
        assert_true(number_equal(l->to.x, rational_whole(9)) ||
                    number_equal(l->to.x, rational_whole(27)) ||
                    number_equal(l->to.y, rational_whole(9)) ||
                    number_equal(l->to.y, rational_whole(27)));
    }
    order.until = UNTIL_EDGE;
    lines = extend_seams(*state, top.ground, &top.seams, &order);
    size_t edge = 0;
    for (size_t i = 0; i < lines.count; i++)
        edge += lines.items[i].end == EXTENDED_EDGE;
    /* The eight straight ones; the others come to stars in the corners. */
    assert_int_equal(edge, 8);
}

/* A seam whose line leaves the number type is told: its ends have parts of up to
 * 1,008 bits, but where it comes to the edge has some of 1,055. */
static void test_limit(void **state)
{
    struct arena *arena = *state;
    struct cloth *cloth = star_cloth(arena, 1, 1);
    const number one = number_whole(1);
    const number hair = number_div(one, power(3, 300));
    const number across = number_div(one, power(7, 190));
    const number down = number_div(one, power(5, 250));
    *LIST_ADD(arena, &cloth->seams) =
        (struct seam){.from = {hair, number_whole(0)},
                      .to = {number_add(hair, across), down}};
    const struct ground *ground = ground_of(arena, cloth);
    assert_int_equal(ground->base->fault.kind, FAULT_LIMIT);
    assert_int_equal(join_seams(arena, ground).fault.kind, FAULT_LIMIT);
    assert_int_equal(join_seams(arena, ground).count, 0);
    assert_int_equal(
        find_shapes(arena, ground, ground->extent, FLAME).fault.kind,
        FAULT_LIMIT);
}

/* A line that was told before stops what comes to it. */
static void test_until_line(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    const struct segment told = {at(12, 1, 14, 1), at(0, 1, 14, 1)};
    struct extend_order order = order_of(&top, block_extent(0, 0), UNTIL_LINE);
    order.lines = &told;
    order.line_count = 1;
    const struct extended_lines lines =
        extend_seams(*state, top.ground, &top.seams, &order);
    size_t stopped = 0;
    for (size_t i = 0; i < lines.count; i++)
        if (lines.items[i].end == EXTENDED_LINE) {
            assert_true(number_equal(lines.items[i].to.y, rational_whole(14)));
            stopped++;
        }
    /* Upright at 3 and 9; of the wings one from (3, 12), one from (9, 12). */
    assert_int_equal(stopped, 4);
}

/* Around a plain block: two ends on each side. */
static void test_seam_ends(void **state)
{
    const struct top top = top_of(*state, 5, 5);
    const struct seam_ends ends = find_seam_ends(*state, top.ground, &top.seams,
                                                 block_extent(1, 2), NIGHT);
    assert_int_equal(ends.count, 8);
    for (size_t i = 0; i < ends.count; i++) {
        const struct spot v = vertex_spot(ends.items[i]);
        assert_true(v.x == 12 || v.x == 24 || v.y == 24 || v.y == 36);
    }
}

/* The sides of the blocks, where they are seams that end before open cloth:
 * here all go on, as the next block's side lies in one line with them. */
static void test_outline_goes_on(void **state)
{
    const struct top top = top_of(*state, 3, 3);
    struct extend_order order = order_of(&top, block_extent(1, 1), UNTIL_SEAM);
    order.outline = true;
    const struct extended_lines lines =
        extend_seams(*state, top.ground, &top.seams, &order);
    assert_int_equal(lines.count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_star),
        cmocka_unit_test(test_fabrics),
        cmocka_unit_test(test_walk),
        cmocka_unit_test(test_phantom),
        cmocka_unit_test(test_place),
        cmocka_unit_test(test_until_border),
        cmocka_unit_test(test_limit),
        cmocka_unit_test(test_until_line),
        cmocka_unit_test(test_seam_ends),
        cmocka_unit_test(test_outline_goes_on),
    };
    return cmocka_run_group_tests_name("seams", tests, unit_arena,
                                       unit_arena_end);
}
