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
        s.excess = below(random, 20);
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

struct painter {
    GEOSContextHandle_t geos;
    GEOSGeometry *shown[FABRICS]; /* what is seen of each */
    double left, top;             /* of the setting in the quilt */
    GEOSGeometry *inside;         /* the setting; what sticks out is cut off */
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

static GEOSGeometry *rectangle(GEOSContextHandle_t geos, double x, double y,
                               double width, double height)
{
    return polygon(geos, (double[4][2]){{x, y},
                                        {x + width, y},
                                        {x + width, y + height},
                                        {x, y + height}});
}

/* Over all that was painted there. Takes the shape. */
static void paint(struct painter *painter, int fabric, GEOSGeometry *shape)
{
    for (int i = 0; i < FABRICS; i++) {
        GEOSGeometry *before = painter->shown[i];
        painter->shown[i] =
            i == fabric ? GEOSUnion_r(painter->geos, before, shape)
                        : GEOSDifference_r(painter->geos, before, shape);
        assert_non_null(painter->shown[i]);
        GEOSGeom_destroy_r(painter->geos, before);
    }
    GEOSGeom_destroy_r(painter->geos, shape);
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
    GEOSGeometry *whole = polygon(painter->geos, points);
    paint(painter, fabric,
          GEOSIntersection_r(painter->geos, whole, painter->inside));
    GEOSGeom_destroy_r(painter->geos, whole);
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
            const struct lying_block place =
                s->places[s->told == MAP ? at : s->told == TWO ? line % 2 : 0];
            const struct stand stand = {
                s->side / 8.0,
                painter->left + s->excess / 8.0 + step * (2 * i + 1 + line % 2),
                painter->top + s->excess / 8.0 + step * (line + 1), place.turn,
                place.mirror};
            paint_place(painter, s, &stand, place);
        }
}

static void paint_all(struct painter *painter, const struct setting *s,
                      double width, double height)
{
    double out = (s->borders[0] + s->borders[1]) / 8.0;
    painter->left = painter->top = out;
    for (int i = 1; i >= -1; i--) {
        paint(painter, (s->fabric + 1 + i) % FABRICS,
              rectangle(painter->geos, painter->left - out,
                        painter->top - out, width + 2 * out,
                        height + 2 * out));
        out -= i >= 0 ? s->borders[i] / 8.0 : 0;
    }
    painter->inside = rectangle(painter->geos, painter->left, painter->top,
                                width, height);
    paint_places(painter, s);
    GEOSGeom_destroy_r(painter->geos, painter->inside);
}

/* ---- both ---- */

static void compare(GEOSContextHandle_t geos, const struct setting *s,
                    const struct cloth *cloth)
{
    struct painter painter = {.geos = geos};
    const double pitch = (s->side + s->strip) / 8.0 * sqrt(2);
    const double width = s->across * pitch + s->excess / 4.0;
    const double height = s->down * pitch + s->excess / 4.0;
    const double borders = (s->borders[0] + s->borders[1]) / 4.0;
    assert_close(rational_double(cloth->width), width + borders);
    assert_close(rational_double(cloth->height), height + borders);
    for (int i = 0; i < FABRICS; i++)
        painter.shown[i] = GEOSGeom_createEmptyPolygon_r(geos);
    paint_all(&painter, s, width, height);
    for (int i = 0; i < FABRICS; i++) {
        GEOSGeometry *sewn = fabric_geometry(geos, cloth, i);
        GEOSGeometry *other =
            GEOSSymDifference_r(geos, sewn, painter.shown[i]);
        assert_non_null(other);
        assert_close(geometry_area(geos, other), 0);
        GEOSGeom_destroy_r(geos, other);
        GEOSGeom_destroy_r(geos, sewn);
        GEOSGeom_destroy_r(geos, painter.shown[i]);
    }
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
if (getenv("SHOW")) fprintf(stderr, "%d: %s\n", i, source_of(arena, &s));
        const struct small small = small_sew(arena, source_of(arena, &s));
        expect_clean(&small);
        compare(geos, &s, small.sewn->quilts.items[0].cloth);
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
