/* Settings on point against a painter that knows no rows: it lays squares on
 * their points beside each other in level lines, in floating point, strips and
 * cornerstones around each, and all the rest is the triangles' fabric. What it
 * paints and what is sewn are compared as polygons of GEOS. Random;
 * SEAMWRIGHT_DESIGNS=1000 makes that many. Then sizes and counts that were
 * published. */
#include "buffer.h"
#include "geometry.h"

enum { NIGHT, FLAME, GLOW, FABRICS, MOST = 6, PLACES = 61 };

static const char *const names[] = {"night", "flame", "glow"};

/* Lengths in eighths of an inch. */
struct lying_block {
    int turn;
    bool mirror, plain; /* a patch, no block */
};

struct setting {
    int across, down, side;
    int strip; /* 0: no sashing */
    bool pieced;
    int stone, fabric, excess;
    int borders[2];        /* widths, 0 for none */
    enum { ONE, TWO, MAP } told;
    int cast;              /* what plays the block's role a */
    struct lying_block places[PLACES];
};

static int count_places(const struct setting *s)
{
    return s->across * s->down + (s->across - 1) * (s->down - 1);
}

static int below(struct unit_random *random, uint64_t limit)
{
    return (int)unit_below(random, limit);
}

static struct setting draw(struct unit_random *random)
{
    struct setting s = {.across = 1 + below(random, MOST),
                        .down = 1 + below(random, MOST),
                        .side = 8 + 2 * below(random, 40),
                        .told = below(random, 3),
                        .fabric = below(random, FABRICS),
                        .stone = below(random, FABRICS),
                        .cast = below(random, FABRICS)};
    if (below(random, 2) == 0) {
        s.strip = 2 * (1 + below(random, 8));
        s.pieced = below(random, 2) == 0;
    } else if (below(random, 2) == 0)
        s.excess = below(random, (uint64_t)(s.side * 7 / 10));
    for (int i = 0; i < 2; i++)
        s.borders[i] = below(random, 2) * (1 + below(random, 24));
    for (int i = 0; i < PLACES; i++)
        s.places[i] = (struct lying_block){.turn = below(random, 4),
                                     .mirror = below(random, 2) == 0,
                                     .plain = below(random, 3) == 0};
    return s;
}

/* ---- the source ---- */

/* An asymmetric block: a of its fabric, two more. */
static void write_block(struct buffer *text, const struct setting *s)
{
    buffer_printf(text,
                  "<unit id=\"sail\"><role id=\"a\" fabric=\"night\"/><column "
                  "press=\"open\"><row press=\"open\"><patch fabric=\"a\" "
                  "width=\"%d/8\" height=\"%d/8\"/><patch fabric=\"flame\" "
                  "width=\"%d/8\"/></row><patch fabric=\"glow\" height=\"%d/8\" "
                  "width=\"%d/8\"/></column></unit>",
                  s->side / 2, s->side / 2, s->side / 2, s->side / 2, s->side);
}

static void write_use(struct buffer *text, const struct setting *s,
                      struct lying_block place, bool in_map)
{
    if (place.plain && s->told != ONE) {
        buffer_printf(text,
                      "<patch %sfabric=\"flame\" width=\"%d/8\" "
                      "height=\"%d/8\"/>",
                      in_map ? "key=\"p\" " : "", s->side, s->side);
        return;
    }
    buffer_printf(text, "<use %sunit=\"sail\" with=\"a=%s\"",
                  in_map ? "key=\"s\" " : "", names[s->cast]);
    if (!in_map)
        buffer_printf(text, " turn=\"%d\" mirror=\"%s\"", place.turn * 90,
                      place.mirror ? "yes" : "no");
    buffer_text(text, "/>");
}

static void write_map(struct buffer *text, const struct setting *s)
{
    bool used[2] = {false, false};
    for (int i = 0; i < count_places(s); i++)
        used[s->places[i].plain] = true;
    for (int i = 0; i < 2; i++)
        if (used[i])
            write_use(text, s, (struct lying_block){.plain = i == 1}, true);
    buffer_text(text, "<map>");
    for (int i = 0; i < count_places(s); i++)
        if (s->places[i].plain)
            buffer_text(text, " p");
        else if (s->places[i].turn == 0)
            buffer_text(text, s->places[i].mirror ? " s.m" : " s");
        else
            buffer_printf(text, " s.%s%d", s->places[i].mirror ? "m" : "",
                          90 * s->places[i].turn);
    buffer_text(text, "</map>");
}

static void write_sashing(struct buffer *text, const struct setting *s)
{
    if (s->pieced)
        buffer_printf(text,
                      "<sashing><row press=\"open\"><patch fabric=\"night\" "
                      "width=\"%d/8\" height=\"%d/8\"/><patch fabric=\"glow\" "
                      "width=\"%d/8\"/></row>",
                      s->strip / 2, s->side, s->strip / 2);
    else
        buffer_printf(text, "<sashing fabric=\"flame\" width=\"%d/8\">",
                      s->strip);
    buffer_printf(text, "<cornerstone fabric=\"%s\"/></sashing>",
                  names[s->stone]);
}

static const char *source_of(struct arena *arena, const struct setting *s)
{
    struct buffer text = buffer_in(arena);
    write_block(&text, s);
    buffer_printf(&text,
                  "<quilt id=\"mat\"><on-point across=\"%d\" down=\"%d\" "
                  "fabric=\"%s\"",
                  s->across, s->down, names[s->fabric]);
    if (s->excess > 0)
        buffer_printf(&text, " float=\"%d/8\"", s->excess);
    buffer_text(&text, ">");
    if (s->told == MAP)
        write_map(&text, s);
    else
        for (int i = 0; i <= (s->told == TWO); i++)
            write_use(&text, s, s->places[i], false);
    if (s->strip > 0)
        write_sashing(&text, s);
    buffer_text(&text, "</on-point>");
    for (int i = 0; i < 2; i++)
        if (s->borders[i] > 0)
            buffer_printf(&text, "<border fabric=\"%s\" width=\"%d/8\"/>",
                          names[(s->fabric + 1 + i) % FABRICS], s->borders[i]);
    buffer_text(&text, "</quilt>");
    return buffer_string(&text);
}

/* ---- the painter ---- */

/* A part of the painting: no two lie over each other. */
struct tile {
    int fabric;
    GEOSGeometry *shape;
    double middle[2], reach; /* no point of it is farther away */
};

struct painter {
    struct arena *arena;
    GEOSContextHandle_t geos;
    LIST(struct tile) tiles;
    double left, top, right, bottom; /* of the setting: what sticks out is cut */
};

static GEOSGeometry *polygon(GEOSContextHandle_t geos, double points[4][2])
{
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, 5, 2);
    for (unsigned i = 0; i < 5; i++) {
        GEOSCoordSeq_setX_r(geos, ring, i, points[i % 4][0]);
        GEOSCoordSeq_setY_r(geos, ring, i, points[i % 4][1]);
    }
    return GEOSGeom_createPolygon_r(
        geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

static struct tile tile_of(int fabric, double points[4][2])
{
    struct tile tile = {.fabric = fabric};
    for (int k = 0; k < 2; k++)
        tile.middle[k] = (points[0][k] + points[2][k]) / 2;
    tile.reach = hypot(points[0][0] - tile.middle[0],
                       points[0][1] - tile.middle[1]);
    return tile;
}

/* What is painted twice in one place stays once. */
static void paint(struct painter *painter, int fabric, double points[4][2],
                  bool inside)
{
    struct tile tile = tile_of(fabric, points);
    for (size_t i = 0; i < painter->tiles.count; i++) {
        const double *other = painter->tiles.items[i].middle;
        if (hypot(other[0] - tile.middle[0], other[1] - tile.middle[1]) < 1e-6)
            return;
    }
    tile.shape = polygon(painter->geos, points);
    if (inside) {
        GEOSGeometry *whole = tile.shape;
        tile.shape = GEOSClipByRect_r(painter->geos, whole, painter->left,
                                      painter->top, painter->right,
                                      painter->bottom);
        GEOSGeom_destroy_r(painter->geos, whole);
    }
    assert_non_null(tile.shape);
    *LIST_ADD(painter->arena, &painter->tiles) = tile;
}

static void paint_rectangle(struct painter *painter, int fabric, double x,
                            double y, double width, double height)
{
    if (width > 0 && height > 0)
        paint(painter, fabric,
              (double[4][2]){{x, y},
                             {x + width, y},
                             {x + width, y + height},
                             {x, y + height}},
              false);
}

/* A rectangle of a square of this side, which is mirrored, turned, and then
 * stood on its corner with its middle at x, y: half the diagonals of what lies
 * beside each other. */
struct stand {
    double side, x, y;
    int turn;
    bool mirror;
};

static void paint_part(struct painter *painter, const struct stand *stand,
                       int fabric, const double box[4])
{
    double points[4][2];
    for (int i = 0; i < 4; i++) {
        double x = box[0] + (i == 1 || i == 2 ? box[2] : 0) - stand->side / 2;
        double y = box[1] + (i >= 2 ? box[3] : 0) - stand->side / 2;
        if (stand->mirror)
            x = -x;
        for (int k = 0; k < stand->turn; k++) {
            const double before = x;
            x = -y;
            y = before;
        }
        points[i][0] = stand->x + (x - y) * sqrt(0.5);
        points[i][1] = stand->y + (x + y) * sqrt(0.5);
    }
    paint(painter, fabric, points, true);
}

/* Strips on all four sides, so that those between two blocks are painted twice;
 * of one of two fabrics night is at the left of an upright one, and above in one
 * that is turned. */
static void paint_sashing(struct painter *painter, const struct setting *s,
                          const struct stand *stand)
{
    const struct stand straight = {stand->side, stand->x, stand->y, 0, false};
    const double side = s->side / 8.0, strip = s->strip / 8.0;
    for (int i = 0; i < 2; i++)
        for (int half = 0; half < 2; half++) {
            const int fabric = !s->pieced ? FLAME : half == 0 ? NIGHT : GLOW;
            const double at = (i == 0 ? -strip : side) + half * strip / 2;
            paint_part(painter, &straight, fabric,
                       (double[4]){at, 0, strip / 2, side});
            paint_part(painter, &straight, fabric,
                       (double[4]){0, at, side, strip / 2});
        }
    for (int i = 0; i < 4; i++)
        paint_part(painter, &straight, s->stone,
                   (double[4]){i % 2 ? side : -strip, i / 2 ? side : -strip,
                               strip, strip});
}

static void paint_place(struct painter *painter, const struct setting *s,
                        const struct stand *stand, struct lying_block place)
{
    const double half = stand->side / 2;
    if (s->told != ONE && place.plain)
        paint_part(painter, stand, FLAME,
                   (double[4]){0, 0, stand->side, stand->side});
    else {
        paint_part(painter, stand, s->cast, (double[4]){0, 0, half, half});
        paint_part(painter, stand, FLAME, (double[4]){half, 0, half, half});
        paint_part(painter, stand, GLOW,
                   (double[4]){0, half, stand->side, half});
    }
    if (s->strip > 0)
        paint_sashing(painter, s, stand);
}

static void paint_places(struct painter *painter, const struct setting *s)
{
    const double step = (s->side + s->strip) / 8.0 * sqrt(0.5);
    int at = 0;
    for (int line = 0; line < 2 * s->down - 1; line++)
        for (int i = 0; i < s->across - line % 2; i++, at++) {
            /* Two pieces for two places are one for each. */
            const struct lying_block place =
                s->places[s->told == MAP   ? at
                          : s->told == ONE ? 0
                          : count_places(s) == 2 ? at
                                                 : line % 2];
            const struct stand stand = {
                s->side / 8.0,
                painter->left + s->excess / 8.0 + step * (2 * i + 1 + line % 2),
                painter->top + s->excess / 8.0 + step * (line + 1), place.turn,
                place.mirror};
            paint_place(painter, s, &stand, place);
        }
}

/* From the outermost border inwards. */
static void paint_borders(struct painter *painter, const struct setting *s,
                          double width, double height)
{
    double at = 0;
    for (int i = 1; i >= 0; i--) {
        const int fabric = (s->fabric + 1 + i) % FABRICS;
        const double wide = s->borders[i] / 8.0;
        const double across = width - 2 * at, down = height - 2 * at;
        paint_rectangle(painter, fabric, at, at, across, wide);
        paint_rectangle(painter, fabric, at, at + down - wide, across, wide);
        paint_rectangle(painter, fabric, at, at + wide, wide, down - 2 * wide);
        paint_rectangle(painter, fabric, at + across - wide, at + wide, wide,
                        down - 2 * wide);
        at += wide;
    }
    painter->left = painter->top = at;
    painter->right = width - at;
    painter->bottom = height - at;
}

/* ---- both ---- */

/* Both paintings come from other sums, so that their edges lie apart by the last
 * digits; GEOS takes points to this grid, which makes them one. */
#define GRID 1e-12

/* What of a sewn face shows another fabric than the painting. Where nothing is
 * painted, the triangles' fabric shows. */
static double wrong_of_face(const struct painter *painter, int ground,
                            int fabric, const GEOSGeometry *face)
{
    double wrong = 0, open = geometry_area(painter->geos, face);
    double x[2], y[2];
    GEOSGeom_getXMin_r(painter->geos, face, &x[0]);
    GEOSGeom_getXMax_r(painter->geos, face, &x[1]);
    GEOSGeom_getYMin_r(painter->geos, face, &y[0]);
    GEOSGeom_getYMax_r(painter->geos, face, &y[1]);
    for (size_t i = 0; i < painter->tiles.count; i++) {
        const struct tile *tile = &painter->tiles.items[i];
        if (tile->middle[0] + tile->reach < x[0] ||
            tile->middle[0] - tile->reach > x[1] ||
            tile->middle[1] + tile->reach < y[0] ||
            tile->middle[1] - tile->reach > y[1])
            continue;
        GEOSGeometry *both =
            GEOSIntersectionPrec_r(painter->geos, face, tile->shape, GRID);
        assert_non_null(both);
        const double area = geometry_area(painter->geos, both);
        GEOSGeom_destroy_r(painter->geos, both);
        open -= area;
        wrong += tile->fabric == fabric ? 0 : area;
    }
    return wrong + (fabric == ground ? 0 : fabs(open));
}

static void compare(struct arena *arena, GEOSContextHandle_t geos,
                    const struct setting *s, const struct small *small)
{
    const struct cloth *cloth = small->sewn->quilts.items[0].cloth;
    struct painter painter = {.arena = arena, .geos = geos};
    const double pitch = (s->side + s->strip) / 8.0 * sqrt(2);
    const double more = (s->excess + s->borders[0] + s->borders[1]) / 4.0;
    const double width = s->across * pitch + more;
    const double height = s->down * pitch + more;
    assert_close(rational_double(cloth->width), width);
    assert_close(rational_double(cloth->height), height);
    paint_borders(&painter, s, width, height);
    paint_places(&painter, s);
    double wrong = 0, all = 0; /* of the worst face; of all together */
    for (size_t i = 0; i < cloth->faces.count; i++) {
        GEOSGeometry *whole = face_geometry(geos, cloth->faces.items[i]);
        GEOSGeometry *face = GEOSClipByRect_r(geos, whole, 0, 0, width, height);
        assert_non_null(face);
        all += geometry_area(geos, face);
        if (!GEOSisEmpty_r(geos, face))
            wrong = fmax(wrong, wrong_of_face(&painter, s->fabric,
                                              cloth->faces.items[i].fabric,
                                              face));
        GEOSGeom_destroy_r(geos, face);
        GEOSGeom_destroy_r(geos, whole);
    }
    if (wrong > 1e-9)
        small_show(small);
    assert_close(wrong, 0);
    assert_close(all / width / height, 1);
    for (size_t i = 0; i < painter.tiles.count; i++)
        GEOSGeom_destroy_r(geos, painter.tiles.items[i].shape);
}

static void test_what_is_sewn_is_what_is_painted(void **state)
{
    const char *asked = getenv("SEAMWRIGHT_DESIGNS");
    const int designs = asked == NULL ? 25 : atoi(asked);
    const GEOSContextHandle_t geos = geometry_start();
    struct unit_random random = {.state = 20261130};
    for (int i = 0; i < designs; i++) {
        struct arena *arena = arena_create();
        const struct setting s = draw(&random);
        const struct small small = small_sew(arena, source_of(arena, &s));
        expect_clean(&small);
        compare(arena, geos, &s, &small);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* ---- counts ---- */

static size_t count_parts(const struct sewn_quilt *quilt,
                          enum patch_shape shape)
{
    size_t count = 0;
    const struct heap *top = &quilt->heaps.items[quilt->top];
    for (size_t i = 0; i < top->inputs.count; i++) {
        const struct heap *part = &quilt->heaps.items[top->inputs.items[i].heap];
        count += part->technique == TECHNIQUE_CUT &&
                 part->of.cut.shape == shape;
    }
    return count;
}

/* Blocks and side triangles of published quilts. 6 x 9 and 9 x 10 blocks of 6
 * in: 72 between and 34 sides, 40 and 26; 4 x 5: 12 and 14 (American Patchwork
 * & Quilting, Spring Celebration, 2017), 32 blocks in all (APQS, Reference
 * chart for squares on point); 4 x 4: 9 and 12 (K. Moser, Quilt math made easy). */
static void test_counts_are_the_published_ones(void **state)
{
    static const struct {
        int across, down, between, sides;
    } published[] = {{9, 10, 72, 34}, {6, 9, 40, 26}, {4, 5, 12, 14},
                     {4, 4, 9, 12},   {1, 1, 0, 0},   {1, 3, 0, 4}};
    for (size_t i = 0; i < UNIT_COUNT(published); i++) {
        const int blocks =
            published[i].across * published[i].down + published[i].between;
        const struct small small = small_sew(
            *state,
            arena_printf(*state,
                         "<quilt id=\"mat\"><on-point across=\"%d\" "
                         "down=\"%d\" fabric=\"night\"><patch fabric=\"flame\" "
                         "width=\"6\"/></on-point></quilt>",
                         published[i].across, published[i].down));
        expect_clean(&small);
        const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
        assert_int_equal(count_parts(quilt, PATCH_WHOLE), blocks);
        assert_int_equal(count_parts(quilt, PATCH_QUARTERED),
                         published[i].sides);
        assert_int_equal(count_parts(quilt, PATCH_HALVED), 4);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_is_sewn_is_what_is_painted),
        cmocka_unit_test(test_counts_are_the_published_ones),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
