/* Which way a diagonal runs after every turn and mirror. A small painter, apart
 * from the program, colours the quarters of grid squares by carrying points
 * through the turn; the program must agree where the picture is right, and
 * must name the one mistake at its place where it is not. */
#include <stdlib.h>

#include "geometry.h"
#include "picture.h"

/* A unit of 6 x 6 squares:
 *   a strip across (2 + 2 - 1 = 3 long) and a half-square at its right;
 *   below, a strip down (3 long), and a patch of 3 x 3 with a corner of 2;
 *   right of these 4 x 4, a goose of 2 x 4 that points left or right; below
 *   them, one of 4 x 2 that points up or down; a square in a square of 2. */
struct spec {
    bool across_rises, down_rises, half_rises, half_swapped;
    enum corner_place corner;
    struct orientation use;
    const char *method; /* of the half-square: nothing is seen of it */
    bool goose_down, goose_left, goose_swapped, square_swapped;
};

/* Four points a square: those of its quarters top, right, bottom, left, in
 * quarters of a square. */
static const int quarter_x[4] = {2, 3, 2, 1}, quarter_y[4] = {1, 2, 3, 2};
enum { SQUARES = 6, SIDE = 4 * SQUARES }; /* of the unit; in quarters */

/* Left of a diagonal of the square at (x, y), 4 quarters wide? */
static bool left_of(bool rising, int px, int py, int x, int y)
{
    const int dx = px - x, dy = py - y;
    return rising ? dx + dy < 4 : dx < dy;
}

static char paint_corner(enum corner_place at, int x, int y)
{
    /* (x, y) from the top left of a patch that is 12 quarters wide. */
    const int from_x = at == TOP_RIGHT || at == BOTTOM_RIGHT ? 12 - x : x;
    const int from_y = at == BOTTOM_LEFT || at == BOTTOM_RIGHT ? 12 - y : y;
    return from_x + from_y < 8 ? 'g' : 'f';
}

/* The geese and the square around the rest, 8 quarters wide. */
static char paint_margin(const struct spec *spec, int x, int y)
{
    if (x >= 16 && y >= 16) {
        const int off = abs(x - 20) + abs(y - 20);
        return (off < 4) != spec->square_swapped ? 'f' : 'n';
    }
    /* How far behind the point, and how far beside it. */
    const int behind = x < 16 ? (spec->goose_down ? 24 - y : y - 16)
                              : (spec->goose_left ? x - 16 : 24 - x);
    const int beside = abs(x < 16 ? x - 8 : y - 8);
    if (x < 16)
        return (beside < behind) != spec->goose_swapped ? 'g' : 'f';
    return beside < behind ? 'n' : 'g';
}

/* The fabric at a point of the unit, as the designer means it. */
static char paint(const struct spec *spec, int x, int y)
{
    if (x >= 16 || y >= 16)
        return paint_margin(spec, x, y);
    if (y < 4 && x < 12) { /* across: the join lies in the second square */
        if (x < 4 || (x < 8 && left_of(spec->across_rises, x, y, 4, 0)))
            return 'n';
        return 'f';
    }
    if (y < 4)
        return left_of(spec->half_rises, x, y, 12, 0) != spec->half_swapped
                   ? 'g' : 'n';
    if (x < 4) { /* down: the upper member is above the join either way */
        const int dy = y - 8;
        const bool above = spec->down_rises ? x + dy < 4 : dy < x;
        return y < 8 || (y < 12 && above) ? 'g' : 'n';
    }
    return paint_corner(spec->corner, x - 4, y - 4);
}

/* Where a point of the unit comes to lie: mirrored, then turned. */
static void carry(struct orientation o, int *x, int *y)
{
    if (o.mirror)
        *x = SIDE - *x;
    for (unsigned i = 0; i < o.turn; i++) {
        const int old = *x;
        *x = SIDE - *y;
        *y = old;
    }
}

struct painting {
    char quarters[SQUARES][2 * SQUARES][4]; /* row, column */
};

/* The number of the quarter that holds a point of its square. */
static int quarter_of(int x, int y)
{
    for (int q = 0; q < 4; q++)
        if (quarter_x[q] == x % 4 && quarter_y[q] == y % 4)
            return q;
    fail_msg("a point in no quarter");
    return 0;
}

/* The unit turned on the left, and as it is on the right. */
static struct painting paint_block(const struct spec *spec)
{
    struct painting painted;
    for (int row = 0; row < SQUARES; row++)
        for (int column = 0; column < SQUARES; column++)
            for (int q = 0; q < 4; q++) {
                const int from_x = 4 * column + quarter_x[q];
                const int from_y = 4 * row + quarter_y[q];
                const char fabric = paint(spec, from_x, from_y);
                int x = from_x, y = from_y;
                carry(spec->use, &x, &y);
                painted.quarters[y / 4][x / 4][quarter_of(x, y)] = fabric;
                painted.quarters[row][SQUARES + column][q] = fabric;
            }
    return painted;
}

static const char *picture_text(struct arena *arena,
                                const struct painting *painted)
{
    const char *text = "\n";
    for (int row = 0; row < SQUARES; row++) {
        for (int column = 0; column < 2 * SQUARES; column++) {
            const char *q = painted->quarters[row][column];
            text = arena_printf(arena, "%s %c+%c+%c+%c", text, q[0], q[1], q[2],
                                q[3]);
        }
        text = arena_printf(arena, "%s\n", text);
    }
    return text;
}

static const char *line(bool rises)
{
    return rises ? "rising" : "falling";
}

/* The source for one spec, with the picture of another. */
static const char *source(struct arena *arena, const struct spec *spec,
                          const struct painting *painted)
{
    return arena_printf(
        arena,
        "<unit id=\"u\" width=\"6\" height=\"6\"><column><row><column>\n"
        "<row><diagonal line=\"%s\" height=\"1\"><patch fabric=\"night\" "
        "width=\"2\"/><patch fabric=\"flame\" width=\"2\"/></diagonal>\n"
        "<half-square line=\"%s\" left=\"%s\" right=\"%s\" method=\"%s\"/>"
        "</row>\n"
        "<row><diagonal line=\"%s\" width=\"1\"><patch fabric=\"glow\" "
        "height=\"2\"/><patch fabric=\"night\" height=\"2\"/></diagonal>\n"
        "<patch fabric=\"flame\"><corner fabric=\"glow\" size=\"2\" "
        "at=\"%s\"/></patch></row></column>\n"
        "<flying-geese goose=\"night\" sky=\"glow\" points=\"%s\" width=\"2\" "
        "method=\"%s\"/></row>\n"
        "<row><flying-geese goose=\"%s\" sky=\"%s\" points=\"%s\" "
        "method=\"%s\"/><square-in-square center=\"%s\" corners=\"%s\" "
        "size=\"2\" method=\"%s\"/></row></column></unit>\n"
        "<block id=\"star\" grid=\"12 x 6\"><row><use unit=\"u\" turn=\"%u\" "
        "mirror=\"%s\"/><use unit=\"u\"/></row>\n<picture>%s</picture>\n"
        "</block>\n<quilt id=\"throw\"><use block=\"star\" "
        "finished=\"24 x 12\"/></quilt>\n",
        line(spec->across_rises), line(spec->half_rises),
        spec->half_swapped ? "night" : "glow",
        spec->half_swapped ? "glow" : "night", spec->method,
        line(spec->down_rises),
        corner_name(spec->corner), spec->goose_left ? "left" : "right",
        spec->half_rises ? "four" : "corners",
        spec->goose_swapped ? "flame" : "glow",
        spec->goose_swapped ? "glow" : "flame",
        spec->goose_down ? "down" : "up",
        spec->down_rises ? "four" : "corners",
        spec->square_swapped ? "night" : "flame",
        spec->square_swapped ? "flame" : "night",
        spec->across_rises ? "triangles" : "corners", spec->use.turn * 90,
        spec->use.mirror ? "yes" : "no", picture_text(arena, painted));
}

static struct spec numbered(unsigned i)
{
    static const char *const methods[] = {"one", "two", "four", "eight"};
    /* All that is new in each of its ways under each turn and mirror, and
     * otherwise mixed with the rest. */
    const unsigned more = i * 5 + i / 16;
    return (struct spec){i & 1,    i & 2,    i & 4,    i & 8,
                         (enum corner_place)(i / 16 % 4),
                         {i / 64 % 4, i / 256 % 2 == 1},
                         methods[(i ^ i / 16) % 4],
                         more & 1, more & 2, more & 4, more & 8};
}

static int fabric_of(char key)
{
    return key == 'n' ? 0 : key == 'f' ? 1 : 2;
}

/* What the steps sew, quarter by quarter, is what was painted. */
static void assert_sewn(struct arena *arena, const struct small *s,
                        const struct painting *painted)
{
    const struct picture like = {.across = 2 * SQUARES,
                                 .down = SQUARES,
                                 .cell_width = {2, 1}, .cell_height = {2, 1}};
    const struct picture *sewn =
        picture_of(arena, s->sewn->quilts.items[0].cloth, &like);
    const int across = 2 * SQUARES;
    for (int i = 0; i < across * SQUARES; i++)
        for (int q = 0; q < 4; q++)
            assert_int_equal(
                sewn->cells[i].quarters[q],
                fabric_of(painted->quarters[i / across][i % across][q]));
}

/* Every line, place and turn: 512 blocks. */
static void test_right_pictures(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 512; i++) {
        struct arena *arena = arena_create();
        const struct spec spec = numbered(i);
        const struct painting painted = paint_block(&spec);
        const struct small s = small_sew(arena, source(arena, &spec, &painted));
        expect_clean(&s);
        assert_sewn(arena, &s, &painted);
        arena_destroy(arena);
    }
}

/* ---- one mistake ---- */

/* The spec is sewn, the picture is that of `meant`. */
static const struct diagnostic *mistake(struct arena *arena,
                                        const struct spec *spec,
                                        const struct spec *meant,
                                        enum diag_code code,
                                        const char *context, const char *part)
{
    const struct painting painted = paint_block(meant);
    const struct small s = small_sew(arena, source(arena, spec, &painted));
    return expect_only(&s, code, context, part);
}

static void wrong_lines(struct arena *arena, const struct spec *meant)
{
    struct spec spec = *meant;
    spec.across_rises = !spec.across_rises;
    const char *written =
        arena_printf(arena, "%s\" height=\"1\"", line(spec.across_rises));
    const struct diagnostic *d = mistake(
        arena, &spec, meant, DIAG_LINE_DIRECTION, written, written);
    assert_string_equal(d->replacement, line(meant->across_rises));

    spec = *meant;
    spec.down_rises = !spec.down_rises;
    written = arena_printf(arena, "%s\" width=\"1\"", line(spec.down_rises));
    d = mistake(arena, &spec, meant, DIAG_LINE_DIRECTION, written, written);
    assert_string_equal(d->replacement, line(meant->down_rises));

    spec = *meant;
    spec.half_rises = !spec.half_rises;
    written = arena_printf(arena, "%s\" left", line(spec.half_rises));
    d = mistake(arena, &spec, meant, DIAG_LINE_DIRECTION, written, written);
    assert_string_equal(d->replacement, line(meant->half_rises));
}

static void wrong_halves(struct arena *arena, const struct spec *meant)
{
    struct spec spec = *meant;
    spec.half_swapped = !spec.half_swapped;
    mistake(arena, &spec, meant, DIAG_SWAPPED, " left=\"",
            spec.half_swapped ? "night" : "glow");
}

/* A goose that points the other way, and cloths in each other's place. */
static void wrong_geese(struct arena *arena, const struct spec *meant)
{
    struct spec spec = *meant;
    spec.goose_down = !spec.goose_down;
    const char *written = spec.goose_down ? "down\" method" : "up\" method";
    const struct diagnostic *d = mistake(
        arena, &spec, meant, DIAG_WRONG_DIRECTION, written, written);
    assert_string_equal(d->replacement, meant->goose_down ? "down" : "up");

    spec = *meant;
    spec.goose_left = !spec.goose_left;
    written = spec.goose_left ? "left\" width" : "right\" width";
    d = mistake(arena, &spec, meant, DIAG_WRONG_DIRECTION, written, written);
    assert_string_equal(d->replacement, meant->goose_left ? "left" : "right");

    spec = *meant;
    spec.goose_swapped = !spec.goose_swapped;
    written = spec.goose_swapped ? "flame\" sky" : "glow\" sky";
    mistake(arena, &spec, meant, DIAG_SWAPPED, written, written);

    spec = *meant;
    spec.square_swapped = !spec.square_swapped;
    mistake(arena, &spec, meant, DIAG_SWAPPED, " center=\"",
            spec.square_swapped ? "night" : "flame");
}

static void wrong_corners(struct arena *arena, const struct spec *meant)
{
    for (unsigned moved = 1; moved < 4; moved++) {
        struct spec spec = *meant;
        spec.corner = (enum corner_place)((meant->corner + moved) % 4);
        const struct diagnostic *d =
            mistake(arena, &spec, meant, DIAG_CORNER_PLACE, " at=\"",
                    corner_name(spec.corner));
        assert_string_equal(d->replacement, corner_name(meant->corner));
    }
}

/* Each of the seven other ways to lay the unit. */
static void wrong_uses(struct arena *arena, const struct spec *meant)
{
    for (unsigned i = 1; i < 8; i++) {
        struct spec spec = *meant;
        spec.use.turn = (meant->use.turn + i) % 4;
        spec.use.mirror = meant->use.mirror != (i >= 4);
        const bool turned = spec.use.turn != meant->use.turn;
        const char *turn =
            arena_printf(arena, "%u\" mirror", spec.use.turn * 90);
        const struct diagnostic *d = mistake(
            arena, &spec, meant, DIAG_USE_TURN, " turn=\"",
            turned ? turn : spec.use.mirror ? "yes" : "no");
        const char *right_turn =
            arena_printf(arena, "%u", meant->use.turn * 90);
        const char *right_mirror = meant->use.mirror ? "yes" : "no";
        if (i < 4)
            assert_string_equal(d->replacement, right_turn);
        else if (!turned)
            assert_string_equal(d->replacement, right_mirror);
        else
            assert_true(says(d, arena_printf(arena, "turn=\"%s\" mirror=\"%s\"",
                                             right_turn, right_mirror)));
    }
}

/* Every symmetry, with three of the 64 units each. */
static void test_mistakes(void **state)
{
    (void)state;
    for (unsigned i = 0; i < 24; i++) {
        struct arena *arena = arena_create();
        const struct spec meant = numbered(i % 8 * 64 + i * 37 % 64);
        wrong_lines(arena, &meant);
        wrong_halves(arena, &meant);
        wrong_geese(arena, &meant);
        wrong_corners(arena, &meant);
        wrong_uses(arena, &meant);
        arena_destroy(arena);
    }
}

/* A stated line that is not the one of its corner. */
static void test_stated_corner_lines(void **state)
{
    for (unsigned at = 0; at < 4; at++)
        for (unsigned i = 0; i < 2; i++) {
            const bool right = corner_line(at) == (enum line_direction)i;
            const struct small s = small_sew(
                *state,
                arena_printf(*state,
                             "<block id=\"b\" grid=\"2\">"
                             "<patch fabric=\"glow\">"
                             "<corner at=\"%s\" fabric=\"night\" size=\"1\" "
                             "line=\"%s\"/></patch></block><quilt id=\"q\">"
                             "<use block=\"b\" finished=\"4\"/></quilt>",
                             corner_name(at), line_name(i)));
            if (right)
                expect_clean(&s);
            else
                expect_only(&s, DIAG_LINE_DIRECTION, "line=\"", line_name(i));
        }
}

/* Two mistakes in different places are two messages. */
static void test_two_mistakes(void **state)
{
    const struct spec meant = numbered(64 + 5);
    struct spec spec = meant;
    spec.across_rises = !spec.across_rises;
    spec.corner = (enum corner_place)((spec.corner + 2) % 4);
    const struct painting painted = paint_block(&meant);
    const struct small s = small_sew(*state, source(*state, &spec, &painted));
    const char *written = arena_printf(*state, "%s\" height=\"1\"",
                                       line(spec.across_rises));
    expect_at(&s, DIAG_LINE_DIRECTION, written, written);
    expect_at(&s, DIAG_CORNER_PLACE, " at=\"", corner_name(spec.corner));
    assert_int_equal(small_errors(&s), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_right_pictures),
        cmocka_unit_test(test_mistakes),
        cmocka_unit_test(test_stated_corner_lines),
        cmocka_unit_test(test_two_mistakes),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
