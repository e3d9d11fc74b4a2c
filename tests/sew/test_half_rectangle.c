/* Half-rectangles: random quilts against a painter of its own with GEOS, what
 * is made once, prints, slips. SEAMWRIGHT_DESIGNS=2000 makes that many quilts.
 */
#include "buffer.h"
#include "geometry.h"

#define HALF(line, width, height, more)                                \
    "<half-rectangle line=\"" line "\" left=\"night\" right=\"glow\" " \
    "width=\"" width "\" height=\"" height "\" " more "/>"

/* ---- random quilts ---- */

struct half {
    int width, height; /* of the unit, in eighths */
    bool rising;
    char left, right;
    struct orientation o;
};

struct quilt {
    struct half cells[16];
    int across, down;
    int rows[4], columns[4]; /* in eighths */
};

static int below(struct unit_random *random, int limit)
{
    return (int)unit_below(random, (uint64_t)limit);
}

static struct quilt any_quilt(struct unit_random *random)
{
    struct quilt quilt = {.across = 1 + below(random, 4),
                          .down = 1 + below(random, 4)};
    for (int i = 0; i < 4; i++) {
        quilt.rows[i] = 8 + below(random, 40);
        quilt.columns[i] = 8 + below(random, 40);
    }
    for (int i = 0; i < quilt.across * quilt.down; i++) {
        struct half *half = &quilt.cells[i];
        const int width = quilt.columns[i % quilt.across];
        const int height = quilt.rows[i / quilt.across];
        half->o = (struct orientation){(unsigned)below(random, 4),
                                       below(random, 2) == 1};
        half->width = half->o.turn % 2 == 0 ? width : height;
        half->height = half->o.turn % 2 == 0 ? height : width;
        half->rising = below(random, 2) == 1;
        half->left = "nfg"[below(random, 3)];
        half->right = "nfg"[below(random, 3)];
    }
    return quilt;
}

/* A triangle as it lies in its cell: first mirrored, then turned clockwise. */
struct triangle {
    int x[3], y[3];
};

static struct triangle triangle_of(const struct half *half, bool left)
{
    const int w = half->width, h = half->height;
    /* The corners of the line, then the one that is not on it. */
    struct triangle t = {{0, w, left ? 0 : w},
                         {half->rising ? h : 0, half->rising ? 0 : h,
                          half->rising == left ? 0 : h}};
    for (int i = 0; i < 3; i++) {
        int wide = w, high = h;
        if (half->o.mirror)
            t.x[i] = w - t.x[i];
        for (unsigned k = 0; k < half->o.turn; k++) {
            const int x = high - t.y[i], swap = wide;
            t.y[i] = t.x[i];
            t.x[i] = x;
            wide = high;
            high = swap;
        }
    }
    return t;
}

static const char *fabric_id_of(char key)
{
    return key == 'n' ? "night" : key == 'f' ? "flame" : "glow";
}

/* All triangles of the quilt in their places, one after the other. */
static void each_triangle(const struct quilt *quilt,
                          void (*take)(void *what, char fabric,
                                       const struct triangle *t),
                          void *what)
{
    for (int row = 0, y = 0; row < quilt->down; y += quilt->rows[row++])
        for (int column = 0, x = 0; column < quilt->across;
             x += quilt->columns[column++]) {
            const struct half *half =
                &quilt->cells[row * quilt->across + column];
            for (int left = 0; left < 2; left++) {
                struct triangle t = triangle_of(half, left == 1);
                for (int i = 0; i < 3; i++) {
                    t.x[i] += x;
                    t.y[i] += y;
                }
                take(what, left == 1 ? half->left : half->right, &t);
            }
        }
}

static void write_shape(void *text, char fabric, const struct triangle *t)
{
    buffer_printf(text, "<shape fabric=\"%s\" points=\"", fabric_id_of(fabric));
    for (int i = 0; i < 3; i++)
        buffer_printf(text, "%d.%03d,%d.%03d ", t->x[i] / 8, t->x[i] % 8 * 125,
                      t->y[i] / 8, t->y[i] % 8 * 125);
    buffer_text(text, "\"/>\n");
}

static const char *eighths(struct arena *arena, int length)
{
    return length_plain(arena, rational_make(length, 8), UNIT_IN);
}

static int sum_of(const int *lengths, int count)
{
    int sum = 0;
    for (int i = 0; i < count; i++)
        sum += lengths[i];
    return sum;
}

/* Units, and a block of them with the picture that the painter draws. */
static const char *source_of(struct arena *arena, const struct quilt *quilt)
{
    struct buffer text = buffer_in(arena);
    const int width = sum_of(quilt->columns, quilt->across);
    const int height = sum_of(quilt->rows, quilt->down);
    for (int i = 0; i < quilt->across * quilt->down; i++) {
        const struct half *half = &quilt->cells[i];
        buffer_printf(&text,
                      "<unit id=\"u%d\" width=\"%s\" height=\"%s\">"
                      "<half-rectangle line=\"%s\" left=\"%s\" right=\"%s\"/>"
                      "</unit>\n",
                      i, eighths(arena, half->width),
                      eighths(arena, half->height),
                      half->rising ? "rising" : "falling",
                      fabric_id_of(half->left), fabric_id_of(half->right));
    }
    buffer_printf(&text, "<block id=\"b\" width=\"%s\" height=\"%s\"><column>",
                  eighths(arena, width), eighths(arena, height));
    for (int i = 0; i < quilt->across * quilt->down; i++) {
        const struct half *half = &quilt->cells[i];
        if (i % quilt->across == 0)
            buffer_text(&text, "<row>");
        buffer_printf(&text, "<use unit=\"u%d\" turn=\"%u\"%s/>", i,
                      half->o.turn * 90,
                      half->o.mirror ? " mirror=\"yes\"" : "");
        if ((i + 1) % quilt->across == 0)
            buffer_text(&text, "</row>\n");
    }
    buffer_text(&text, "</column><picture>");
    each_triangle(quilt, write_shape, &text);
    buffer_printf(&text,
                  "</picture></block>\n<quilt id=\"q\"><use block=\"b\" "
                  "finished=\"%s x %s\"/></quilt>\n",
                  eighths(arena, width), eighths(arena, height));
    return buffer_string(&text);
}

/* The painter's cloth of one fabric. */
struct painting {
    GEOSContextHandle_t geos;
    GEOSGeometry *parts[64];
    unsigned count;
    char fabric;
};

static void paint(void *what, char fabric, const struct triangle *t)
{
    struct painting *painting = what;
    if (fabric != painting->fabric)
        return;
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(painting->geos, 4, 2);
    for (unsigned i = 0; i <= 3; i++) {
        GEOSCoordSeq_setX_r(painting->geos, ring, i, t->x[i % 3] / 8.0);
        GEOSCoordSeq_setY_r(painting->geos, ring, i, t->y[i % 3] / 8.0);
    }
    painting->parts[painting->count++] = GEOSGeom_createPolygon_r(
        painting->geos, GEOSGeom_createLinearRing_r(painting->geos, ring), NULL,
        0);
}

/* What the cloth shows of a fabric is what was painted. */
static void assert_painted(const struct small *s, const struct quilt *quilt)
{
    static const char keys[] = "nfg";
    GEOSContextHandle_t geos = geometry_start();
    for (int fabric = 0; fabric < 3; fabric++) {
        struct painting painting = {.geos = geos, .fabric = keys[fabric]};
        each_triangle(quilt, paint, &painting);
        GEOSGeometry *apart = GEOSGeom_createCollection_r(
            geos, GEOS_GEOMETRYCOLLECTION, painting.parts, painting.count);
        GEOSGeometry *wanted = GEOSUnaryUnion_r(geos, apart);
        GEOSGeometry *found =
            fabric_geometry(geos, s->sewn->quilts.items[0].cloth, fabric);
        GEOSGeometry *other = GEOSSymDifference_r(geos, wanted, found);
        assert_non_null(other);
        const double off = geometry_area(geos, other);
        if (off > 1e-9)
            small_show(s);
        assert_true(off <= 1e-9);
        GEOSGeom_destroy_r(geos, apart);
        GEOSGeom_destroy_r(geos, wanted);
        GEOSGeom_destroy_r(geos, found);
        GEOSGeom_destroy_r(geos, other);
    }
    GEOS_finish_r(geos);
}

static long designs(void)
{
    const char *asked = getenv("SEAMWRIGHT_DESIGNS");
    const long count = asked == NULL ? 0 : strtol(asked, NULL, 10);
    return count > 0 ? count : 200;
}

/* Sewn without an error, so that the proofs on the cloth and the picture of
 * polygons hold, too. */
static void test_random_quilts(void **state)
{
    (void)state;
    for (long seed = 1; seed <= designs(); seed++) {
        struct arena *arena = arena_create();
        struct unit_random random = {(uint64_t)seed * 6364136223846793005u};
        for (int i = 0; i < 8; i++)
            unit_next(&random);
        const struct quilt quilt = any_quilt(&random);
        const struct small s = small_sew(arena, source_of(arena, &quilt));
        expect_clean(&s);
        assert_painted(&s, &quilt);
        arena_destroy(arena);
    }
}

/* ---- heaps ---- */

static const struct sewn_quilt *quilt_of(const struct small *s)
{
    expect_clean(s);
    return &s->sewn->quilts.items[0];
}

static size_t heaps_of(const struct sewn_quilt *quilt, enum technique technique,
                       const struct heap **first)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != technique)
            continue;
        if (count++ == 0 && first != NULL)
            *first = heap;
    }
    return count;
}

#define KITE "<unit id=\"kite\" width=\"2\" height=\"4\">" HALF_KITE "</unit>"
#define HALF_KITE \
    "<half-rectangle line=\"rising\" left=\"night\" right=\"glow\"/>"

/* Turned by half it is itself; its mirror image is made apart; two come from a
 * rectangle of each fabric. */
static void test_mirror_is_no_turn(void **state)
{
    const struct small s = small_sew(
        *state, KITE "<quilt id=\"q\"><row><use unit=\"kite\" times=\"3\"/>"
                     "<use unit=\"kite\" turn=\"180\" times=\"2\"/>"
                     "<use unit=\"kite\" mirror=\"yes\"/></row></quilt>");
    const struct heap *heap = NULL;
    const struct sewn_quilt *quilt = quilt_of(&s);
    assert_int_equal(heaps_of(quilt, TECHNIQUE_HALF_RECTANGLE, &heap), 2);
    assert_int_equal(heap->count, 5);
    assert_int_equal(heap->yield, 2);
    assert_int_equal(heap->symmetry, 4);
    const struct heap *cut = NULL;
    assert_int_equal(heaps_of(quilt, TECHNIQUE_CUT, &cut), 2);
    assert_int_equal(cut->count, 3 + 1);
    assert_rational(cut->of.cut.width, 3, 1);
    assert_rational(cut->of.cut.height, 6, 1);
}

/* With other room it is cut from other rectangles, and is another heap. */
static void test_room_is_told_apart(void **state)
{
    const struct small s = small_sew(
        *state,
        "<quilt id=\"q\"><row>" HALF("rising", "2", "4", "cut=\"3 x 6\"")
            HALF("rising", "2", "4", "room=\"0\" cut=\"2 3/4 x 5 1/2\"") HALF(
                "rising", "2", "4", "room=\"1\" cut=\"3 3/4 x 7 1/2\"")
                HALF("falling", "2", "4", "cut=\"6 x 3\"") "</row></quilt>");
    assert_int_equal(heaps_of(quilt_of(&s), TECHNIQUE_HALF_RECTANGLE, NULL), 4);
}

/* trade.md 7.5: of 1 : 2 the seam meets the unfinished edge 1/8 beside the
 * corner (generations-quilt-patterns.com/half-rectangle-triangle.html). */
static void test_points_on_edges(void **state)
{
    static const struct {
        const char *half;
        int64_t x[2], y[2]; /* in eighths, of the left and the right end */
        int64_t reach, parts;
    } cases[] = {{HALF("rising", "2", "4", ""), {-1, 17}, {34, -2}, 1, 8},
                 {HALF("falling", "2", "4", ""), {-1, 17}, {-2, 34}, 1, 8},
                 {HALF("rising", "4", "2", ""), {-2, 34}, {17, -1}, 1, 8},
                 {HALF("falling", "4", "2", ""), {-2, 34}, {-1, 17}, 1, 8},
                 {HALF("rising", "3", "3", ""), {-2, 26}, {26, -2}, 0, 1}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s =
            small_sew(*state, arena_printf(*state, "<quilt id=\"q\">%s</quilt>",
                                           cases[i].half));
        const struct heap *heap = NULL;
        heaps_of(quilt_of(&s), TECHNIQUE_HALF_RECTANGLE, &heap);
        const struct state *opened = &heap->actions.items[0].opened;
        assert_int_equal(opened->points.count, 2);
        for (size_t k = 0; k < 2; k++) {
            const struct edge_point *point = &opened->points.items[k];
            assert_rational(point->at.x, cases[i].x[k], 8);
            assert_rational(point->at.y, cases[i].y[k], 8);
            assert_rational(point->reach, cases[i].reach, cases[i].parts);
        }
    }
}

/* What lies in the states: each triangle on its side, all right side up when it
 * is opened, and no larger than the rectangles when it is cut. */
static double area_of(const struct state *state)
{
    struct cloth cloth = {0};
    double area = 0;
    (void)cloth;
    for (size_t i = 0; i < state->faces.count; i++)
        area += rational_double(face_double_area(state->faces.items[i].face));
    return area / 2.0;
}

static void test_states(void **state)
{
    struct unit_random random = {77};
    for (int i = 0; i < 200; i++) {
        struct arena *arena = arena_create();
        const int width = 8 + below(&random, 50);
        const int height = 8 + below(&random, 50);
        const struct small s = small_sew(
            arena, arena_printf(arena,
                                "<quilt id=\"q\"><half-rectangle line=\"%s\" "
                                "left=\"night\" right=\"glow\" width=\"%s\" "
                                "height=\"%s\"/></quilt>",
                                i % 2 == 0 ? "rising" : "falling",
                                eighths(arena, width), eighths(arena, height)));
        const struct heap *heap = NULL;
        heaps_of(quilt_of(&s), TECHNIQUE_HALF_RECTANGLE, &heap);
        const struct half_rectangle_cut *cut = &heap->of.half_rectangle.cut;
        const struct action *action = &heap->actions.items[0];
        const double whole =
            rational_double(cut->width) * rational_double(cut->height);
        assert_close(area_of(&action->parted), 2.0 * whole);
        assert_close(area_of(&action->before), whole);
        /* Opened, each has lost a seam along the slant. */
        const double unfinished = (rational_double(heap->width) + 0.5) *
                                  (rational_double(heap->height) + 0.5);
        assert_close(area_of(&action->after), unfinished);
        assert_true(area_of(&action->opened) > unfinished);
        assert_true(area_of(&action->opened) < whole);
        arena_destroy(arena);
    }
    (void)state;
}

/* ---- prints ---- */

static struct small sew_print(struct arena *arena, const char *turn)
{
    struct small s = small_whole(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">"
            "<fabrics><fabric id=\"mud\" print=\"one-way\"/><fabric "
            "id=\"sand\"/></fabrics><colorway id=\"a\"><cloth fabric=\"mud\" "
            "color=\"#112233\"/><cloth fabric=\"sand\" color=\"#445566\"/>"
            "</colorway><unit id=\"u\" width=\"2\" height=\"4\">"
            "<half-rectangle line=\"falling\" left=\"mud\" right=\"sand\"/>"
            "</unit><quilt id=\"q\"><row><use unit=\"u\"/><use unit=\"u\" "
            "turn=\"%s\"/></row></quilt></pattern>",
            turn));
    small_finish(&s);
    return s;
}

/* A print stands upright as it was cut, and one half of a rectangle serves. */
static void test_one_way_print(void **state)
{
    const struct small upright = sew_print(*state, "0");
    const struct heap *heap = NULL;
    heaps_of(quilt_of(&upright), TECHNIQUE_HALF_RECTANGLE, &heap);
    assert_int_equal(heap->yield, 1);
    assert_int_equal(heap->count, 2);
    assert_int_equal(small_count(&upright, DIAG_ONE_WAY_PRINT), 0);
    const struct small turned = sew_print(*state, "180");
    assert_int_equal(small_count(&turned, DIAG_ONE_WAY_PRINT), 1);
}

/* ---- slips ---- */

static void test_slips(void **state)
{
    static const struct {
        const char *half;
        enum diag_code code;
    } slips[] = {
        {HALF("falling", "2", "4", ""), DIAG_LINE_DIRECTION},
        {"<half-rectangle line=\"rising\" left=\"glow\" right=\"night\" "
         "width=\"2\" height=\"4\"/>",
         DIAG_SWAPPED},
        {"<half-rectangle line=\"rising\" left=\"night\" right=\"flame\" "
         "width=\"2\" height=\"4\"/>",
         DIAG_WRONG_FABRIC},
        {"<use unit=\"kite\" mirror=\"yes\"/>", DIAG_USE_TURN},
        {"<use unit=\"kite\" turn=\"180\"/>", DIAG_USE_TURN}};
    for (size_t i = 0; i < UNIT_COUNT(slips); i++) {
        const struct small s = small_sew(
            *state,
            arena_printf(*state,
                         KITE "<block id=\"b\" width=\"2\" height=\"4\">%s"
                              "<picture><shape fabric=\"glow\" points=\"0,0 "
                              "2,0 2,4 0,4\"/><shape fabric=\"night\" "
                              "points=\"0,0 2,0 0,4\"/></picture></block>"
                              "<quilt id=\"q\"><use block=\"b\"/></quilt>",
                         slips[i].half));
        if (small_count(&s, slips[i].code) != 1)
            small_show(&s);
        assert_int_equal(small_count(&s, slips[i].code), 1);
        assert_int_equal(small_errors(&s), 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_quilts),
        cmocka_unit_test(test_mirror_is_no_turn),
        cmocka_unit_test(test_room_is_told_apart),
        cmocka_unit_test(test_points_on_edges),
        cmocka_unit_test(test_states),
        cmocka_unit_test(test_one_way_print),
        cmocka_unit_test(test_slips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
