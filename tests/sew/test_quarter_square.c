/* Quarter-squares: what they are made from, how many, and how they are pressed.
 * What they show is in test_triangles.c. */
#include "../resolve/small.h"

#define QUARTER(t, r, b, l, more)                                      \
    "<quarter-square top=\"" t "\" right=\"" r "\" bottom=\"" b        \
    "\" left=\"" l "\" size=\"3\" " more "/>"

/* A quilt of 6 x 8 of one piece. */
static const struct sewn_quilt *quilt_of(struct arena *arena, const char *piece)
{
    const struct small s =
        small_sew(arena, arena_printf(arena,
                                      "<quilt id=\"q\"><grid across=\"6\" "
                                      "down=\"8\">%s</grid></quilt>",
                                      piece));
    expect_clean(&s);
    return &s.sewn->quilts.items[0];
}

static const struct heap *heap_of(const struct sewn_quilt *quilt,
                                  enum technique technique)
{
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].technique == technique)
            return &quilt->heaps.items[i];
    fail_msg("no heap of technique %d", technique);
    return NULL;
}

/* How many squares of a fabric and a cut side, in eighths, are cut. */
static size_t squares(const struct sewn_quilt *quilt, int fabric, int64_t side)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique == TECHNIQUE_CUT &&
            heap->of.cut.fabric == fabric &&
            rational_equal(heap->of.cut.width, rational_make(side, 8)) &&
            rational_equal(heap->of.cut.height, rational_make(side, 8)))
            count += heap->count;
    }
    return count;
}

/* trade.md 2.6: 48 units of 3 in, two at a time, from 24 squares of one fabric
 * and 12 and 12 of two others (https://www.quiltingboard.com/8425110-post33.html
 * , which cuts them 4 1/2; the rule of 2.1 is 4 1/4). */
static void test_published_count(void **state)
{
    const struct sewn_quilt *quilt =
        quilt_of(*state, QUARTER("night", "flame", "night", "glow", ""));
    assert_int_equal(squares(quilt, 0, 34), 24);
    assert_int_equal(squares(quilt, 1, 34), 12);
    assert_int_equal(squares(quilt, 2, 34), 12);
    assert_int_equal(heap_of(quilt, TECHNIQUE_QUARTER_SQUARE)->yield, 2);
}

/* Of an hourglass, both half-squares are alike. */
static void test_hourglass(void **state)
{
    const struct sewn_quilt *quilt =
        quilt_of(*state, QUARTER("night", "glow", "night", "glow", ""));
    assert_int_equal(squares(quilt, 0, 34), 24);
    assert_int_equal(squares(quilt, 2, 34), 24);
    const struct heap *half = heap_of(quilt, TECHNIQUE_HALF_SQUARE);
    assert_int_equal(half->count, 48);
    assert_true(rational_equal(half->width, rational_make(27, 8)));
    /* What is sewn is shown in one piece, where its marks are. */
    const struct heap *heap = heap_of(quilt, TECHNIQUE_QUARTER_SQUARE);
    const struct state *shown = &heap->actions.items[0].after;
    for (size_t i = 0; i < shown->faces.count; i++) {
        assert_int_equal(shown->faces.items[i].gap_x, 0);
        assert_int_equal(shown->faces.items[i].gap_y, 0);
    }
}

/* The second of a pair is a mirror image, and serves only where turning makes
 * the first of it. */
static void test_mirror_images(void **state)
{
    static const struct {
        const char *piece;
        size_t yield;
    } cases[] = {
        {QUARTER("night", "flame", "glow", "flame", ""), 2},
        {QUARTER("night", "flame", "night", "glow", ""), 2},
        {QUARTER("night", "night", "flame", "flame", ""), 2},
        {QUARTER("night", "flame", "flame", "night", ""), 2},
        {QUARTER("night", "night", "flame", "glow", ""), 1},
        {QUARTER("night", "flame", "glow", "night", ""), 1},
        {QUARTER("night", "night", "flame", "glow", "plain=\"top-right\""), 1},
        {QUARTER("night", "flame", "night", "glow", "method=\"one\""), 1},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        assert_int_equal(heap_of(quilt_of(*state, cases[i].piece),
                                 TECHNIQUE_QUARTER_SQUARE)
                             ->yield,
                         cases[i].yield);
}

/* Three patches: the plain half is a square as large as the half-square, 3 7/8
 * for 3 (trade.md 1.2), and one of each goes into each unit. */
static void test_three_patches(void **state)
{
    static const char *const places[] = {"top-left", "top-right",
                                         "bottom-right", "bottom-left"};
    for (size_t i = 0; i < UNIT_COUNT(places); i++) {
        const char *const sides[4] = {
            i == 0 || i == 1 ? "glow" : "night", i == 1 || i == 2 ? "glow"
                                                 : i == 0         ? "night"
                                                                  : "flame",
            i == 2 || i == 3 ? "glow" : "flame",
            i == 3 || i == 0 ? "glow" : i == 1 ? "night" : "flame"};
        const struct sewn_quilt *quilt = quilt_of(
            *state,
            arena_printf(*state,
                         "<quarter-square top=\"%s\" right=\"%s\" "
                         "bottom=\"%s\" left=\"%s\" plain=\"%s\" size=\"3\"/>",
                         sides[0], sides[1], sides[2], sides[3], places[i]));
        assert_int_equal(squares(quilt, 2, 31), 48);
        assert_int_equal(squares(quilt, 2, 34), 0);
        assert_int_equal(heap_of(quilt, TECHNIQUE_HALF_SQUARE)->count, 48);
    }
}

/* One at a time: squares as for a patch, and the half-squares of a block's own
 * are of the same heap. */
static void test_one_at_a_time(void **state)
{
    const struct small s = small_sew(
        *state,
        "<quilt id=\"q\"><row>"
        "<half-square line=\"rising\" left=\"night\" right=\"glow\" size=\"3\" "
        "method=\"one\"/>" QUARTER("night", "glow", "night", "glow",
                                   "method=\"one\"") "</row></quilt>");
    expect_clean(&s);
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    assert_int_equal(squares(quilt, 0, 28), 3);
    assert_int_equal(heap_of(quilt, TECHNIQUE_HALF_SQUARE)->count, 3);
}

/* With any fabrics the seams of the two halves lie on opposite sides of their
 * common line when nobody spoke of them: the cloth's first two seams. */
static void test_halves_nest(void **state)
{
    (void)state;
    static const char *const ids[] = {"night", "flame", "glow"};
    for (unsigned n = 0; n < 81; n++) {
        struct arena *arena = arena_create();
        const unsigned f[4] = {n % 3, n / 3 % 3, n / 9 % 3, n / 27};
        const struct sewn_quilt *quilt = quilt_of(
            arena, arena_printf(arena,
                                "<quarter-square top=\"%s\" right=\"%s\" "
                                "bottom=\"%s\" left=\"%s\" size=\"3\"/>",
                                ids[f[0]], ids[f[1]], ids[f[2]], ids[f[3]]));
        const struct heap *heap = heap_of(quilt, TECHNIQUE_QUARTER_SQUARE);
        const struct seam *seams = heap->cloth->seams.items;
        assert_int_equal(heap->cloth->seams.count, 3);
        assert_true(seams[0].x != 0);
        /* A half of one fabric has no cloth to name; either diagonal may part
         * the four. */
        const bool one_fabric = (f[0] == f[3] || f[1] == f[2]) &&
                                (f[0] == f[1] || f[2] == f[3]);
        assert_true(one_fabric || heap->of.quarter_square.nested);
        if (heap->of.quarter_square.nested) {
            assert_int_equal(seams[0].x, -seams[1].x);
            assert_int_equal(seams[0].y, -seams[1].y);
        }
        arena_destroy(arena);
    }
}

/* What the designer says of the seams stands. */
static void test_pressed_open(void **state)
{
    const struct sewn_quilt *quilt = quilt_of(
        *state, QUARTER("night", "flame", "night", "glow", "press=\"open\""));
    const struct heap *heap = heap_of(quilt, TECHNIQUE_QUARTER_SQUARE);
    assert_false(heap->of.quarter_square.nested);
    for (size_t i = 0; i < heap->cloth->seams.count; i++) {
        assert_int_equal(heap->cloth->seams.items[i].x, 0);
        assert_int_equal(heap->cloth->seams.items[i].y, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_count),
        cmocka_unit_test(test_hourglass),
        cmocka_unit_test(test_mirror_images),
        cmocka_unit_test(test_three_patches),
        cmocka_unit_test(test_one_at_a_time),
        cmocka_unit_test(test_halves_nest),
        cmocka_unit_test(test_pressed_open),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
