/* Sashed settings against a painter that knows no pieces: it tells the fabric
 * at a point by counting widths. What it paints and what is sewn are compared
 * as polygons of GEOS. Random; SETTINGS=2000 in the environment makes that
 * many. */
#include <stdlib.h>

#include "buffer.h"
#include "geometry.h"

enum { SIDE = 4, NONE = -1 };

static unsigned next_random(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

/* Blocks are SIDE square, of four patches; sizes in inches. */
struct setting {
    int across, down, width;
    bool outer, pieced; /* the sashing is two strips: night, then glow */
    int stone;          /* a fabric; NONE for no cornerstones */
    int turns[16];
};

static struct setting draw(unsigned *state)
{
    struct setting setting = {.across = 1 + (int)next_random(state, 4),
                              .down = 1 + (int)next_random(state, 4),
                              .width = 2 * (1 + (int)next_random(state, 2)),
                              .outer = next_random(state, 2) == 1,
                              .pieced = next_random(state, 3) == 0,
                              .stone = (int)next_random(state, 3)};
    if (!setting.pieced && next_random(state, 3) == 0)
        setting.stone = NONE;
    for (int i = 0; i < 16; i++)
        setting.turns[i] = (int)next_random(state, 4);
    return setting;
}

static const char *const fabrics[] = {"night", "flame", "glow"};

static const char *source_of(struct arena *arena, const struct setting *s)
{
    static const char *const words[] = {"B", "B.90", "B.180", "B.270"};
    struct buffer text = buffer_in(arena);
    buffer_printf(&text,
                  "<unit id=\"block\"><column press=\"open\"><row "
                  "press=\"open\"><patch fabric=\"night\" width=\"2\" "
                  "height=\"2\"/><patch fabric=\"flame\" width=\"2\"/></row>"
                  "<patch fabric=\"glow\" height=\"2\"/></column></unit>"
                  "<quilt id=\"mat\"><grid across=\"%d\" "
                  "down=\"%d\"><use key=\"B\" unit=\"block\"/><map>",
                  s->across, s->down);
    for (int i = 0; i < s->across * s->down; i++)
        buffer_printf(&text, "%s ", words[s->turns[i]]);
    buffer_printf(&text, "</map><sashing outer=\"%s\"",
                  s->outer ? "yes" : "no");
    if (s->pieced)
        buffer_printf(&text,
                      "><row press=\"open\"><patch fabric=\"night\" "
                      "width=\"%d\" height=\"%d\"/><patch fabric=\"glow\" "
                      "width=\"%d\"/></row>",
                      s->width / 2, SIDE, s->width / 2);
    else
        buffer_printf(&text, " fabric=\"flame\" width=\"%d\">", s->width);
    if (s->stone != NONE)
        buffer_printf(&text, "<cornerstone fabric=\"%s\"/>", fabrics[s->stone]);
    buffer_text(&text, "</sashing></grid></quilt>");
    return buffer_string(&text);
}

/* ---- the painter ---- */

/* Where on the way across, or down: the cell, or NONE in a strip; `at` becomes
 * the place in it. */
static int cell_at(const struct setting *s, double *at)
{
    if (s->outer && *at < s->width)
        return NONE;
    *at -= s->outer ? s->width : 0;
    int cell = 0;
    while (*at >= SIDE + s->width) {
        *at -= SIDE + s->width;
        cell++;
    }
    if (*at < SIDE)
        return cell;
    *at -= SIDE;
    return NONE;
}

static int block_fabric(double x, double y, int turn)
{
    for (int i = 0; i < turn; i++) { /* back, a quarter at a time */
        const double back = x;
        x = y;
        y = SIDE - back;
    }
    return y > SIDE / 2 ? 2 : x > SIDE / 2 ? 1 : 0;
}

static int painted(const struct setting *s, double x, double y)
{
    const int column = cell_at(s, &x), row = cell_at(s, &y);
    if (column != NONE && row != NONE)
        return block_fabric(x, y, s->turns[row * s->across + column]);
    if (column == NONE && row == NONE && s->stone != NONE)
        return s->stone;
    if (!s->pieced)
        return 1;
    /* Upright: night at the left. Turned a quarter: night above. */
    return (column == NONE ? x : y) < s->width / 2.0 ? 0 : 2;
}

/* ---- what is sewn ---- */

static struct face square(struct arena *arena, int x, int y, int fabric)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
    for (int i = 0; i < 4; i++)
        points[i] = (struct vertex){rational_whole(x + (i == 1 || i == 2)),
                                    rational_whole(y + (i >= 2))};
    return (struct face){.fabric = fabric, .points = points, .count = 4};
}

/* Widths are whole numbers, so that squares of 1 show all. */
static struct cloth painting(struct arena *arena, const struct setting *s,
                             int width, int height)
{
    struct cloth cloth = {.width = rational_whole(width),
                          .height = rational_whole(height)};
    for (int y = 0; y < height; y++)
        for (int x = 0; x < width; x++)
            *LIST_ADD(arena, &cloth.faces) =
                square(arena, x, y, painted(s, x + 0.5, y + 0.5));
    return cloth;
}

static void test_settings_are_what_is_painted(void **state)
{
    const char *asked = getenv("SETTINGS");
    const int settings = asked == NULL ? 60 : atoi(asked);
    const GEOSContextHandle_t geos = geometry_start();
    unsigned random = 7;
    for (int i = 0; i < settings; i++) {
        struct arena *arena = arena_create();
        const struct setting s = draw(&random);
        const struct small small = small_sew(arena, source_of(arena, &s));
        expect_clean(&small);
        const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
        const int more = s.outer ? 1 : -1;
        const int width = s.across * SIDE + (s.across + more) * s.width;
        const int height = s.down * SIDE + (s.down + more) * s.width;
        const struct cloth cloth = painting(arena, &s, width, height);
        assert_close(cloth_difference(geos, quilt->cloth, &cloth, 3), 0);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* ---- what is told ---- */

#define SASHED(inner)                                         \
    "<quilt id=\"mat\"><grid across=\"2\" down=\"2\"><patch " \
    "fabric=\"night\" width=\"4\" height=\"4\"/>" inner "</grid></quilt>"

static void test_a_sashing_of_nothing_or_of_two_things(void **state)
{
    static const char *const sources[] = {
        SASHED("<sashing width=\"1\"/>"), SASHED("<sashing fabric=\"glow\"/>"),
        SASHED("<sashing fabric=\"glow\"><patch fabric=\"flame\" "
               "width=\"1\"/></sashing>"),
        SASHED("<sashing fabric=\"glow\" width=\"1\"><cornerstone/>"
               "</sashing>")};
    for (size_t i = 0; i < UNIT_COUNT(sources); i++) {
        const struct small small = small_solve(*state, sources[i]);
        assert_int_equal(small_count(&small, DIAG_MISSING_ATTRIBUTE), 1);
        assert_int_equal(small_errors(&small), 1);
    }
}

/* A sashing as wide as nothing says, and one whose piece has another length
 * than the block: sums tell it. */
static void test_lengths_must_meet(void **state)
{
    const struct small small = small_solve(
        *state, SASHED("<sashing><patch fabric=\"glow\" width=\"1\" "
                       "height=\"5\"/></sashing>"));
    assert_true(small_errors(&small) > 0);
}

/* Strips of a one-way print are cut for the way that they lie. */
static void test_strips_are_not_turned(void **state)
{
    const struct small small =
        small_resolve(*state, SASHED("<sashing fabric=\"glow\" width=\"1\"/>"));
    expect_clean(&small);
    const struct piece *grid = small.design->definitions.items[0]->root;
    assert_int_equal(grid->across, 1);
    assert_int_equal(grid->down, 3);
    for (size_t i = 0; i < grid->cells.count; i++)
        assert_int_equal(grid->cells.items[i].orientation.turn, 0);
}

static void test_more_cells_than_a_grid_has(void **state)
{
    const struct small small = small_resolve(
        *state, "<quilt id=\"mat\"><grid across=\"199\" down=\"199\"><patch "
                "fabric=\"night\" width=\"4\" height=\"4\"/><sashing "
                "fabric=\"glow\" width=\"1\"/></grid></quilt>");
    assert_int_equal(small_count(&small, DIAG_LIMIT), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_settings_are_what_is_painted),
        cmocka_unit_test(test_a_sashing_of_nothing_or_of_two_things),
        cmocka_unit_test(test_lengths_must_meet),
        cmocka_unit_test(test_strips_are_not_turned),
        cmocka_unit_test(test_more_cells_than_a_grid_has),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
