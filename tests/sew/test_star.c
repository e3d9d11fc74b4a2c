/* Eight-pointed stars: random quilts of stars and patches, told by size, by
 * strip, cast, turned and mirrored, against a painter that knows neither pieces
 * nor roots: it draws the outline of a star by sines, cuts it in eight by rays
 * from the middle, and paints one over the other. Both are compared as polygons
 * of GEOS. SEAMWRIGHT_DESIGNS=2000 makes that many. Then heaps, prints, slips.
 */
#include "buffer.h"
#include "geometry.h"

enum { NIGHT, FLAME, GLOW, FABRICS, MOST = 3 };
static const char *const names[] = {"night", "flame", "glow"};

/* ---- random quilts ---- */

struct told_cell {
    bool plain;           /* a patch of the first fabric */
    int fabrics[4];       /* first and second diamond, corners, sides */
    struct orientation o; /* of the use */
    bool cast;            /* its diamonds are roles */
};

struct quilt {
    struct told_cell cells[MOST * MOST];
    int across, down;
    int side;    /* in eighths, */
    bool strip;  /* or of its strip */
    double size; /* of a block */
};

static int below(struct unit_random *random, uint64_t limit)
{
    return (int)unit_below(random, limit);
}

static struct quilt any_quilt(struct unit_random *random)
{
    struct quilt quilt = {.across = 1 + below(random, MOST),
                          .down = 1 + below(random, MOST),
                          .strip = below(random, 3) == 0};
    quilt.side = quilt.strip ? 8 + below(random, 40) : 24 + below(random, 150);
    quilt.size = quilt.strip ? (quilt.side / 8.0 - 0.5) * (2 + 2 * sqrt(2.0))
                             : quilt.side / 8.0;
    for (int i = 0; i < quilt.across * quilt.down; i++) {
        struct told_cell *cell = &quilt.cells[i];
        cell->plain = i > 0 && below(random, 4) == 0;
        cell->cast = below(random, 3) == 0;
        for (int k = 0; k < 4; k++)
            cell->fabrics[k] = below(random, FABRICS);
        cell->o = (struct orientation){(unsigned)below(random, 4),
                                       below(random, 2) == 1};
    }
    return quilt;
}

static void write_unit(struct buffer *text, const struct quilt *quilt, int i)
{
    const struct told_cell *cell = &quilt->cells[i];
    buffer_printf(text, "<unit id=\"u%d\">", i);
    if (cell->cast)
        buffer_text(text, "<role id=\"a\" fabric=\"glow\"/>"
                          "<role id=\"b\" fabric=\"glow\"/>");
    buffer_printf(
        text,
        "<eight-pointed-star points=\"%s\" second=\"%s\" corners=\"%s\" "
        "sides=\"%s\" %s=\"%s\"/></unit>\n",
        cell->cast ? "a" : names[cell->fabrics[0]],
        cell->cast ? "b" : names[cell->fabrics[1]], names[cell->fabrics[2]],
        names[cell->fabrics[3]], quilt->strip ? "strip" : "size",
        length_plain(text->arena, rational_make(quilt->side, 8), UNIT_IN));
}

static const char *source_of(struct arena *arena, const struct quilt *quilt)
{
    struct buffer text = buffer_in(arena);
    for (int i = 0; i < quilt->across * quilt->down; i++)
        if (!quilt->cells[i].plain)
            write_unit(&text, quilt, i);
    buffer_printf(&text,
                  "<quilt id=\"q\"><grid across=\"%d\" down=\"%d\" "
                  "equal=\"yes\">",
                  quilt->across, quilt->down);
    for (int i = 0; i < quilt->across * quilt->down; i++) {
        const struct told_cell *cell = &quilt->cells[i];
        if (cell->plain) {
            buffer_printf(&text, "<patch fabric=\"%s\"/>",
                          names[cell->fabrics[0]]);
            continue;
        }
        buffer_printf(&text, "<use unit=\"u%d\" turn=\"%u\" mirror=\"%s\"", i,
                      cell->o.turn * 90, cell->o.mirror ? "yes" : "no");
        if (cell->cast)
            buffer_printf(&text, " with=\"a=%s b=%s\"", names[cell->fabrics[0]],
                          names[cell->fabrics[1]]);
        buffer_text(&text, "/>");
    }
    buffer_text(&text, "</grid></quilt>\n");
    return buffer_string(&text);
}

/* ---- the painter ---- */

struct painter {
    GEOSContextHandle_t geos;
    GEOSGeometry *painted[FABRICS];
};

static GEOSGeometry *polygon(GEOSContextHandle_t geos, double points[][2],
                             unsigned count)
{
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; i++) {
        GEOSCoordSeq_setX_r(geos, ring, i, points[i % count][0]);
        GEOSCoordSeq_setY_r(geos, ring, i, points[i % count][1]);
    }
    return GEOSGeom_createPolygon_r(
        geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

/* Of the fabric, and of no other any more. Takes the shape. */
static void paint(struct painter *painter, int fabric, GEOSGeometry *shape)
{
    for (int i = 0; i < FABRICS; i++) {
        GEOSGeometry *now =
            i == fabric
                ? GEOSUnion_r(painter->geos, painter->painted[i], shape)
                : GEOSDifference_r(painter->geos, painter->painted[i], shape);
        assert_non_null(now);
        GEOSGeom_destroy_r(painter->geos, painter->painted[i]);
        painter->painted[i] = now;
    }
    GEOSGeom_destroy_r(painter->geos, shape);
}

/* A regular figure about the middle: corners at `first` eighths of a turn. */
static void around(double x, double y, double reach, double first, int count,
                   double points[][2])
{
    for (int i = 0; i < count; i++) {
        const double turn = acos(-1.0) * 2 * (first + 8.0 / count * i) / 8.0;
        points[i][0] = x + reach * sin(turn);
        points[i][1] = y - reach * cos(turn);
    }
}

/* An eighth of a turn, from so many eighths behind the top on. */
static GEOSGeometry *wedge(GEOSContextHandle_t geos, double x, double y,
                           double size, int eighth)
{
    double points[3][2] = {{x, y}};
    for (int i = 0; i < 2; i++) {
        const double turn = acos(-1.0) / 4 * (eighth + i);
        points[1 + i][0] = x + 2 * size * sin(turn);
        points[1 + i][1] = y - 2 * size * cos(turn);
    }
    return polygon(geos, points, 3);
}

/* The sides' fabric, squares in the corners over it, then the star: its points
 * lie 22.5 degrees beside each axis, at the edge of the block, and the corners
 * between them halfway along the rhombus. In a mirror the first diamond is a
 * second one. */
static void paint_star(struct painter *painter, const struct told_cell *cell,
                       double left, double top, double size)
{
    GEOSContextHandle_t geos = painter->geos;
    const double x = left + size / 2, y = top + size / 2;
    double block[4][2] = {{left, top},
                          {left + size, top},
                          {left + size, top + size},
                          {left, top + size}};
    paint(painter, cell->fabrics[3], polygon(geos, block, 4));
    for (int i = 0; i < 4; i++) {
        const double pi = acos(-1.0), reach = size / 2 / cos(pi / 8);
        const double a = size / 2 - reach * sin(pi / 8);
        const double cx = i % 2 == 0 ? left : left + size - a;
        const double cy = i / 2 == 0 ? top : top + size - a;
        double square[4][2] = {
            {cx, cy}, {cx + a, cy}, {cx + a, cy + a}, {cx, cy + a}};
        paint(painter, cell->fabrics[2], polygon(geos, square, 4));
    }
    /* The star is what eight points and the corners between them enclose. */
    double points[16][2], tips[8][2], dots[8][2];
    const double reach = size / 2 / cos(acos(-1.0) / 8);
    around(x, y, reach, 0.5, 8, tips);
    around(x, y, reach / 2 / cos(acos(-1.0) / 8), 0, 8, dots);
    for (int i = 0; i < 8; i++) {
        memcpy(points[2 * i], dots[i], sizeof dots[i]);
        memcpy(points[2 * i + 1], tips[i], sizeof tips[i]);
    }
    GEOSGeometry *star = polygon(geos, points, 16);
    for (int i = 0; i < 8; i++) {
        GEOSGeometry *part = wedge(geos, x, y, size, i);
        const bool second = (i % 2 == 1) != cell->o.mirror;
        paint(painter, cell->fabrics[second],
              GEOSIntersection_r(geos, star, part));
        GEOSGeom_destroy_r(geos, part);
    }
    GEOSGeom_destroy_r(geos, star);
}

static void paint_quilt(struct painter *painter, const struct quilt *quilt)
{
    for (int i = 0; i < quilt->across * quilt->down; i++) {
        const double left = quilt->size * (i % quilt->across);
        const double top = quilt->size * (i / quilt->across);
        double block[4][2] = {{left, top},
                              {left + quilt->size, top},
                              {left + quilt->size, top + quilt->size},
                              {left, top + quilt->size}};
        if (quilt->cells[i].plain)
            paint(painter, quilt->cells[i].fabrics[0],
                  polygon(painter->geos, block, 4));
        else
            paint_star(painter, &quilt->cells[i], left, top, quilt->size);
    }
}

/* What the cloth shows of each fabric is what was painted. */
static void assert_painted(const struct small *s, const struct quilt *quilt)
{
    struct painter painter = {.geos = geometry_start()};
    for (int i = 0; i < FABRICS; i++)
        painter.painted[i] = GEOSGeom_createEmptyPolygon_r(painter.geos);
    paint_quilt(&painter, quilt);
    double off = 0;
    for (int i = 0; i < FABRICS; i++) {
        GEOSGeometry *found =
            fabric_geometry(painter.geos, s->sewn->quilts.items[0].cloth, i);
        GEOSGeometry *other =
            GEOSSymDifference_r(painter.geos, painter.painted[i], found);
        assert_non_null(other);
        off += geometry_area(painter.geos, other);
        GEOSGeom_destroy_r(painter.geos, found);
        GEOSGeom_destroy_r(painter.geos, other);
        GEOSGeom_destroy_r(painter.geos, painter.painted[i]);
    }
    if (off > 1e-9)
        small_show(s);
    if (off > 1e-9)
        fail_msg("%.3g square inches are of another fabric", off);
    GEOS_finish_r(painter.geos);
}

static long designs(void)
{
    const char *asked = getenv("SEAMWRIGHT_DESIGNS");
    const long count = asked == NULL ? 0 : strtol(asked, NULL, 10);
    return count > 0 ? count : 60;
}

/* Sewn without an error, so that the proofs on the cloth hold, too. */
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

static const struct heap *only_star(const struct small *s)
{
    expect_clean(s);
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    const struct heap *star = NULL;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].technique == TECHNIQUE_STAR) {
            assert_null(star);
            star = &quilt->heaps.items[i];
        }
    assert_non_null(star);
    return star;
}

#define STAR(fabrics) "<eight-pointed-star " fabrics " size=\"12\"/>"
#define TWO STAR("points=\"night\" second=\"flame\" corners=\"glow\"")

/* However it is turned it is one heap; its mirror image is the star whose
 * fabrics are exchanged, and of one fabric itself. */
static void test_turns_are_one(void **state)
{
    const struct small s = small_sew(
        *state, "<unit id=\"u\">" TWO "</unit><unit id=\"v\">" STAR(
                    "points=\"flame\" second=\"night\" "
                    "corners=\"glow\"") "</unit>"
                                        "<quilt id=\"q\"><grid "
                                        "across=\"3\" down=\"2\"><use "
                                        "unit=\"u\"/>"
                                        "<use unit=\"u\" "
                                        "turn=\"90\"/><use unit=\"u\" "
                                        "turn=\"180\"/>"
                                        "<use unit=\"u\" "
                                        "turn=\"270\"/><use unit=\"v\" "
                                        "mirror=\"yes\"/>"
                                        "<use unit=\"v\" "
                                        "mirror=\"yes\" "
                                        "turn=\"90\"/></grid></quilt>");
    const struct heap *star = only_star(&s);
    assert_int_equal(star->count, 6);
    assert_int_equal(star->symmetry, 1);
}

/* What is cut: diamonds by fabric, squares, and triangles four to a square;
 * each by the number that a star takes of it. */
static void test_parts(void **state)
{
    const struct small s = small_sew(*state, "<quilt id=\"q\">" TWO "</quilt>");
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    const struct heap *star = only_star(&s);
    size_t diamonds = 0, squares = 0, triangles = 0;
    for (size_t i = 0; i < star->inputs.count; i++) {
        const struct cut_piece *cut =
            &quilt->heaps.items[star->inputs.items[i].heap].of.cut;
        diamonds += cut->shape == PATCH_STAR_DIAMOND;
        squares += cut->shape == PATCH_WHOLE;
        triangles += cut->shape == PATCH_QUARTERED;
        if (cut->shape != PATCH_STAR_DIAMOND)
            continue;
        assert_rational(cut->height, 3, 1);
        assert_int_equal(cut->strip->degrees, 45);
        assert_false(cut->strip->turned);
        /* Four equal sides: across the cuts as far as between the edges. */
        assert_true(
            rational_equal(cut->strip->advance,
                           rational_mul(rational_whole(3), rational_root(2))));
    }
    assert_int_equal(diamonds, 8);
    assert_int_equal(squares, 4);
    assert_int_equal(triangles, 4);
}

/* No seam crosses a dot: of 24 seams 8 run from the middle, and 16 from a dot
 * to a point at the edge; each is as long as a diamond's side. */
static void test_seams(void **state)
{
    const struct small s = small_sew(*state, "<quilt id=\"q\">" TWO "</quilt>");
    const struct heap *star = only_star(&s);
    const double a = 12 / (2 + sqrt(2.0));
    assert_int_equal(star->cloth->seams.count, 24);
    size_t from_middle = 0, to_edge = 0;
    for (size_t i = 0; i < star->cloth->seams.count; i++) {
        const struct seam *seam = &star->cloth->seams.items[i];
        const double x = rational_double(seam->from.x);
        const double y = rational_double(seam->from.y);
        const double u = rational_double(seam->to.x);
        const double v = rational_double(seam->to.y);
        assert_close(hypot(u - x, v - y), a);
        assert_int_equal(seam->x, 0); /* pressed open */
        assert_int_equal(seam->y, 0);
        from_middle += x == 6 && y == 6;
        to_edge += u == 0 || v == 0 || u == 12 || v == 12;
    }
    assert_int_equal(from_middle, 8);
    assert_int_equal(to_edge, 16);
}

/* Smaller than its seams are wide: cloth lies mostly beyond them, and the
 * proofs on the cloth hold all the same. */
static void test_small(void **state)
{
    static const char *const sizes[] = {"size=\"1/8\"", "size=\"1/100\"",
                                        "size=\"1\"", "strip=\"5/8\""};
    for (size_t i = 0; i < UNIT_COUNT(sizes); i++) {
        const struct small s = small_sew(
            *state,
            arena_printf(*state,
                         "<quilt id=\"q\"><eight-pointed-star "
                         "points=\"night\" corners=\"glow\" %s/></quilt>",
                         sizes[i]));
        assert_int_equal(only_star(&s)->cloth->faces.count, 16);
    }
}

/* A print that has one way lies upright in the squares, in one diamond and in
 * one triangle, whose long edges lie along it, and aslant in four diamonds. */
static void test_prints(void **state)
{
    const struct small s = small_whole(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" "
        "title=\"Small\"><fabrics><fabric id=\"gull\" print=\"one-way\"/>"
        "</fabrics><colorway id=\"c\"><cloth fabric=\"gull\" "
        "color=\"#c8553d\"/></colorway><quilt id=\"q\"><row>"
        "<eight-pointed-star points=\"gull\" corners=\"gull\" size=\"12\"/>"
        "<patch fabric=\"gull\" width=\"1\"/></row></quilt></pattern>");
    struct small sewn = s;
    small_finish(&sewn);
    const struct heap *star = only_star(&sewn);
    size_t upright = 0, aslant = 0;
    for (size_t i = 0; i < star->cloth->faces.count; i++) {
        const struct face *face = &star->cloth->faces.items[i];
        upright += face->turn == 0 && !face->slanted;
        aslant += face->slanted;
    }
    assert_int_equal(star->cloth->faces.count, 16);
    assert_int_equal(upright, 4 + 1 + 1);
    assert_int_equal(aslant, 4);
}

/* ---- slips ---- */

#define BLOCK(star)                                                           \
    "<block id=\"b\" width=\"12\" height=\"12\">" star "<picture>"            \
    "<shape fabric=\"glow\" points=\"0,0 12,0 12,12 0,12\"/>"                 \
    "<shape fabric=\"flame\" points=\"12-6r2,0 6r2,0 6,6r2-6\"/>"             \
    "<shape fabric=\"flame\" points=\"12,12-6r2 12,6r2 18-6r2,6\"/>"          \
    "<shape fabric=\"flame\" points=\"12-6r2,12 6r2,12 6,18-6r2\"/>"          \
    "<shape fabric=\"flame\" points=\"0,12-6r2 0,6r2 6r2-6,6\"/>"             \
    "<shape fabric=\"night\" points=\"6,6 6,6r2-6 6r2,0 6r2,12-6r2\"/>"       \
    "<shape fabric=\"night\" points=\"6,6 18-6r2,6 12,6r2 6r2,6r2\"/>"        \
    "<shape fabric=\"night\" points=\"6,6 6,18-6r2 12-6r2,12 12-6r2,6r2\"/>"  \
    "<shape fabric=\"night\" points=\"6,6 6r2-6,6 0,12-6r2 12-6r2,12-6r2\"/>" \
    "<shape fabric=\"glow\" points=\"6,6 6,6r2-6 12-6r2,0 12-6r2,12-6r2\"/>"  \
    "</picture></block><quilt id=\"q\"><use block=\"b\"/></quilt>"

/* One slip at a time is found: two fabrics exchanged, one named wrongly. */
static void test_slips(void **state)
{
    const struct small right =
        small_sew(*state, BLOCK(STAR("points=\"night\" second=\"glow\" "
                                     "corners=\"glow\" sides=\"flame\"")));
    expect_clean(&right);
    static const char *const wrong[] = {
        BLOCK(STAR("points=\"glow\" second=\"night\" corners=\"glow\" "
                   "sides=\"flame\"")),
        BLOCK(STAR("points=\"night\" second=\"glow\" corners=\"flame\" "
                   "sides=\"glow\"")),
        BLOCK(STAR("points=\"night\" second=\"glow\" corners=\"glow\" "
                   "sides=\"night\"")),
        BLOCK(STAR("points=\"night\" second=\"flame\" corners=\"glow\" "
                   "sides=\"flame\""))};
    for (size_t i = 0; i < UNIT_COUNT(wrong); i++) {
        const struct small s = small_sew(*state, wrong[i]);
        assert_int_equal(small_errors(&s), 1);
        assert_int_equal(small_count(&s, DIAG_SWAPPED) +
                             small_count(&s, DIAG_WRONG_FABRIC),
                         1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_quilts),
        cmocka_unit_test(test_turns_are_one),
        cmocka_unit_test(test_parts),
        cmocka_unit_test(test_seams),
        cmocka_unit_test(test_small),
        cmocka_unit_test(test_prints),
        cmocka_unit_test(test_slips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
