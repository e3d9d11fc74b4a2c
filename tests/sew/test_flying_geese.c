/* Flying geese: cut sizes against published ones, the slack that is stated
 * against what the cut pieces give, prints with a direction, slips. */
#include <math.h>

#include "../resolve/small.h"

static const double root2 = 1.4142135623730951;

/* One goose of this height by itself in a quilt. */
static struct small sew_goose(struct arena *arena, const char *more,
                              struct rational height)
{
    return small_sew(
        arena, arena_printf(arena,
                            "<quilt id=\"q\"><flying-geese goose=\"night\" "
                            "sky=\"glow\" height=\"%s\" %s/></quilt>",
                            length_plain(arena, height, UNIT_IN), more));
}

static const struct sewn_quilt *quilt_of(const struct small *s)
{
    expect_clean(s);
    return &s->sewn->quilts.items[0];
}

/* The cut piece of a fabric; a goose has one of each. */
static const struct heap *cut_of(const struct sewn_quilt *quilt, int fabric)
{
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].technique == TECHNIQUE_CUT &&
            quilt->heaps.items[i].of.cut.fabric == fabric)
            return &quilt->heaps.items[i];
    fail_msg("nothing is cut from fabric %d", fabric);
    return NULL;
}

static const struct heap *goose_of(const struct sewn_quilt *quilt)
{
    return &quilt->heaps.items[quilt->top];
}

/* In eighths of an inch; all squares. */
static void assert_four(int64_t height, int64_t large, int64_t small)
{
    struct arena *arena = arena_create();
    const struct small s =
        sew_goose(arena, "method=\"four\"", rational_make(height, 8));
    const struct sewn_quilt *quilt = quilt_of(&s);
    assert_rational(cut_of(quilt, 0)->of.cut.width, large, 8);
    assert_rational(cut_of(quilt, 0)->of.cut.height, large, 8);
    assert_rational(cut_of(quilt, 2)->of.cut.width, small, 8);
    assert_int_equal(cut_of(quilt, 0)->count, 1);
    assert_int_equal(cut_of(quilt, 2)->count, 4);
    assert_int_equal(goose_of(quilt)->yield, 4);
    arena_destroy(arena);
}

/* trade.md 3.1: 2 x 4 from one 5 1/4 and four 2 7/8 (Quilter's World, June
 * 2024, pressreader.com/usa/quilters-world/20240601/281758454251130); 3.7: the
 * same in a star of 8 (sewingwithstitcher.com, block 6).
 * 3.2: H 4, 3 1/2, 3, 2 1/2, 2, 1 1/2, 1 (members.shaw.ca/
 * beverlysquiltingpage/ffg.htm). 3.3: H 1 1/4, 1 3/4, 2 1/4, 2 3/4
 * (alinequilts.blogspot.com, March 2011). */
static void test_four_published(void **state)
{
    (void)state;
    static const struct {
        int64_t height, large, small;
    } published[] = {{32, 74, 39}, {28, 66, 35}, {24, 58, 31}, {20, 50, 27},
                     {16, 42, 23}, {12, 34, 19}, {8, 26, 15},  {10, 30, 17},
                     {14, 38, 21}, {18, 46, 25}, {22, 54, 29}};
    for (size_t i = 0; i < UNIT_COUNT(published); i++)
        assert_four(published[i].height, published[i].large,
                    published[i].small);
}

/* The same rule, W + 1 1/4 and H + 7/8, at every eighth; the second is also the
 * one for triangles of K. Combs, "Formulas for Quilters", 2002,
 * karencombs.com/page.php?ID=31. */
static void test_four_rule(void **state)
{
    (void)state;
    for (int64_t height = 4; height < 72; height++)
        assert_four(height, 2 * height + 10, height + 7);
}

/* trade.md 3.5: 1 1/2 x 3 from 2 x 3 1/2 and two 2; 5 x 10 from 5 1/2 x 10 1/2
 * and two 5 1/2 (arbeedesigns.com/blogs/free-lessons/flying-geese-units). The
 * rule, + 1/2 on all sides, at every quarter. */
static void test_corners_published(void **state)
{
    (void)state;
    for (int64_t quarters = 2; quarters < 40; quarters++) {
        struct arena *arena = arena_create();
        const struct small s =
            sew_goose(arena, "", rational_make(quarters, 4));
        const struct sewn_quilt *quilt = quilt_of(&s);
        const struct cut_piece base = cut_of(quilt, 0)->of.cut;
        assert_rational(base.width, 2 * quarters + 2, 4);
        assert_rational(base.height, quarters + 2, 4);
        assert_rational(cut_of(quilt, 2)->of.cut.width, quarters + 2, 4);
        assert_int_equal(cut_of(quilt, 2)->count, 2);
        assert_int_equal(goose_of(quilt)->yield, 1);
        arena_destroy(arena);
    }
}

/* ---- slack ---- */

static struct small sew_any(struct arena *arena, const char *units,
                            const char *seam, const char *points,
                            const char *size)
{
    const bool level = points[0] == 'l' || points[0] == 'r';
    return small_whole(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\" "
            "units=\"%s\" seam=\"%s\"><fabrics><fabric id=\"mud\"/>"
            "<fabric id=\"sand\"/><fabric id=\"reed\"/></fabrics>"
            "<colorway id=\"a\"><cloth fabric=\"mud\" color=\"#112233\"/>"
            "<cloth fabric=\"sand\" color=\"#445566\"/>"
            "<cloth fabric=\"reed\" color=\"#ddeeff\"/></colorway>"
            "<quilt id=\"q\"><flying-geese goose=\"mud\" sky=\"reed\" "
            "points=\"%s\" method=\"four\" %s=\"%s\"/></quilt></pattern>",
            units, seam, points, level ? "width" : "height", size));
}

/* What two squares give, worked out in another way: the seams of a goose meet s
 * * root 2 from the middle of the large square, and a sky is a half of a small
 * one less that much. Never less than the size with its seams, and just the
 * slack more. */
static void assert_slack(const struct small *s)
{
    const struct sewn_quilt *quilt = quilt_of(s);
    const struct heap *goose = goose_of(quilt);
    const struct flying_geese *of = &goose->of.flying_geese;
    const double seam = rational_double(s->pattern->seam);
    const double height = fmin(rational_double(goose->width),
                               rational_double(goose->height));
    const double large = rational_double(cut_of(quilt, 0)->of.cut.width);
    const double small = rational_double(cut_of(quilt, 2)->of.cut.width);
    const double along = large - 2.0 * root2 * seam - 2.0 * (height + seam);
    const double up = small - root2 * seam - (height + 2.0 * seam);
    const double step = rational_double(s->pattern->cutting_step);
    assert_true(along >= -1e-9 && along < step);
    assert_true(up >= -1e-9 && up < 2.0 * step);
    assert_true(fabs(along - rational_double(of->long_slack)) < 1e-6);
    assert_true(fabs(up - rational_double(of->short_slack)) < 1e-6);
    /* The sky reaches a seam above the point, wherever the corners lie. */
    assert_true(small - large / 2.0 >= seam - 1e-12);
}

/* Units, seams, directions and sizes; cloth that does not fill its outline ends
 * the program. */
static void test_slack(void **state)
{
    (void)state;
    static const char *const units[] = {"in", "cm"};
    static const char *const ways[] = {"up", "right", "down", "left"};
    static const char *const seams[] = {"1/4 in", "3/8 in", "0.3 in",
                                        "0.75 cm", "5 mm",  "1 cm"};
    static const char *const sizes[] = {"1",   "2 in",  "4.5",   "6",
                                        "7.3", "15 cm", "6 1/3", "20"};
    size_t seen = 0;
    for (size_t i = 0; i < 2 * 6 * 8; i++) {
        struct arena *arena = arena_create();
        struct small s = sew_any(arena, units[i % 2], seams[i / 2 % 6],
                                 ways[(i + i / 8) % 4], sizes[i / 12]);
        small_finish(&s);
        assert_slack(&s);
        seen++;
        arena_destroy(arena);
    }
    assert_int_equal(seen, 96);
}

/* ---- prints ---- */

/* A print with a direction lies right in one of the four only. */
static void test_one_way_print(void **state)
{
    static const char *const texts[] = {"id=\"mud\"", "id=\"reed\""};
    for (size_t i = 0; i < 2; i++) {
        const struct small plain =
            sew_any(*state, "in", "1/4", "right", "2");
        char *text = arena_printf(*state, "%s", plain.text);
        char *at = strstr(text, texts[i]);
        const size_t name = strlen(texts[i]);
        struct small s = small_whole(
            *state, arena_printf(*state, "%.*s print=\"one-way\"%s",
                                 (int)(at - text) + (int)name, text, at + name));
        small_finish(&s);
        const struct sewn_quilt *quilt = quilt_of(&s);
        assert_int_equal(goose_of(quilt)->yield, 1);
        assert_int_equal(quilt->whole_turn, 0);
        assert_int_equal(small_count(&s, DIAG_ONE_WAY_PRINT), 0);
    }
}

/* ---- what is alike ---- */

/* Geese that point elsewhere are one heap, turned; and a patch with the same
 * two corners is the goose. */
static void test_one_heap(void **state)
{
    const struct small s = small_sew(
        *state,
        "<quilt id=\"q\"><column><row>"
        "<flying-geese goose=\"night\" sky=\"glow\" points=\"right\" "
        "width=\"2\"/><flying-geese goose=\"night\" sky=\"glow\" "
        "points=\"left\" width=\"2\"/></row>"
        "<flying-geese goose=\"night\" sky=\"glow\" points=\"down\"/>"
        "<patch fabric=\"night\" height=\"2\">"
        "<corner at=\"top-left\" fabric=\"glow\" size=\"2\"/>"
        "<corner at=\"top-right\" fabric=\"glow\" size=\"2\"/></patch>"
        "</column></quilt>");
    const struct sewn_quilt *quilt = quilt_of(&s);
    size_t geese = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        geese += heap->technique == TECHNIQUE_FLYING_GEESE ? heap->count : 0;
        assert_int_not_equal(heap->technique, TECHNIQUE_CORNERS);
    }
    assert_int_equal(geese, 4);
}

/* ---- slips ---- */

static void test_slips(void **state)
{
    static const struct {
        const char *written, *wanted;
        enum diag_code code;
    } slips[] = {
        {"goose=\"night\" sky=\"glow\"", "n\\g g/n", DIAG_SWAPPED},
        {"goose=\"night\" sky=\"flame\" points=\"down\"", "g\\n n/g",
         DIAG_WRONG_FABRIC},
        {"goose=\"flame\" sky=\"glow\" points=\"down\"", "g\\n n/g",
         DIAG_WRONG_FABRIC},
        {"goose=\"night\" sky=\"glow\" points=\"up\"", "g\\n n/g",
         DIAG_WRONG_DIRECTION}};
    for (size_t i = 0; i < UNIT_COUNT(slips); i++) {
        const char *more = i == 0 ? "points=\"down\"" : "";
        const struct small s = small_sew(
            *state,
            arena_printf(*state,
                         "<block id=\"b\" grid=\"2 x 1\"><flying-geese %s %s/>"
                         "<picture>%s</picture></block><quilt id=\"q\"><use "
                         "block=\"b\" finished=\"4 x 2\"/></quilt>",
                         slips[i].written, more, slips[i].wanted));
        if (small_count(&s, slips[i].code) != 1)
            small_show(&s);
        assert_int_equal(small_count(&s, slips[i].code), 1);
        assert_int_equal(small_errors(&s), 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_four_published),
        cmocka_unit_test(test_four_rule),
        cmocka_unit_test(test_corners_published),
        cmocka_unit_test(test_slack),
        cmocka_unit_test(test_one_way_print),
        cmocka_unit_test(test_one_heap),
        cmocka_unit_test(test_slips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
