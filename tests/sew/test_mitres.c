/* Borders whose strips meet at 45 degrees: numbers worked by hand, published
 * sums, and random quilts against rings and trapezoids painted with GEOS.
 * SEAMWRIGHT_MITRES=500 paints that many, other ones with SEAMWRIGHT_SEED. */
#include <stdlib.h>

#include "buffer.h"
#include "geometry.h"

/* A center of `night` with borders inside the quilt; all prints have a way. */
static struct small mitred_quilt(struct arena *arena, const char *center,
                                 const char *borders)
{
    struct small small = small_whole(
        arena,
        arena_printf(
            arena,
            "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"kelp\" "
            "title=\"Kelp Line\"><fabrics>"
            "<fabric id=\"night\" key=\"n\" print=\"one-way\"/>"
            "<fabric id=\"flame\" key=\"f\" print=\"one-way\"/>"
            "<fabric id=\"glow\" key=\"g\" print=\"one-way\"/></fabrics>"
            "<colorway id=\"ebb\"><cloth fabric=\"night\" color=\"#1d2540\"/>"
            "<cloth fabric=\"flame\" color=\"#d9552b\"/>"
            "<cloth fabric=\"glow\" color=\"#f2cf63\"/></colorway>"
            "<quilt id=\"cover\"><patch fabric=\"night\" %s/>%s</quilt>"
            "</pattern>",
            center, borders));
    small_finish(&small);
    if (small.sewn == NULL) {
        small_show(&small);
        fail_msg("the source has errors");
    }
    return small;
}

static const struct sewn_quilt *quilt_in(const struct small *small)
{
    return &small->sewn->quilts.items[0];
}

static void expect_length(struct rational found, int64_t num, int64_t den)
{
    assert_true(rational_equal(found, rational_make(num, den)));
}

static struct rational cut_length_of(const struct sewn_quilt *quilt,
                                     size_t strip)
{
    const struct cut_piece *cut = &quilt->heaps.items[strip].of.cut;
    return rational_max(cut->width, cut->height);
}

static struct vertex at(int64_t x, int64_t y)
{
    return (struct vertex){rational_whole(x), rational_whole(y)};
}

static bool same_point(struct vertex a, struct vertex b)
{
    return rational_equal(a.x, b.x) && rational_equal(a.y, b.y);
}

/* The seam between two points of the top, whichever way it was sewn. */
static const struct seam *seam_between(const struct sewn_quilt *quilt,
                                       struct vertex a, struct vertex b)
{
    for (size_t i = 0; i < quilt->cloth->seams.count; i++) {
        const struct seam *seam = &quilt->cloth->seams.items[i];
        if ((same_point(seam->from, a) && same_point(seam->to, b)) ||
            (same_point(seam->from, b) && same_point(seam->to, a)))
            return seam;
    }
    fail_msg("no seam between the two points");
    return NULL;
}

static void expect_pressed(const struct seam *seam, int x, int y)
{
    assert_int_equal(seam->x, x);
    assert_int_equal(seam->y, y);
}

/* ---- by hand ---- */

/* Center 6 by 4, a border of 2: the whole is 10 by 8. Strips: 10 + 1/2 + 1/2
 * and 8 + 1 long. */
static void test_one(void **state)
{
    struct small s = mitred_quilt(
        *state, "width=\"6\" height=\"4\"",
        "<border fabric=\"flame\" width=\"2\" corners=\"mitred\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    assert_int_equal(quilt->borders.count, 1);
    expect_length(cut_length_of(quilt, quilt->borders.items[0].end), 11, 1);
    expect_length(cut_length_of(quilt, quilt->borders.items[0].side), 9, 1);
    expect_pressed(seam_between(quilt, at(2, 2), at(8, 2)), 0, -1);
    expect_pressed(seam_between(quilt, at(2, 2), at(2, 6)), -1, 0);
    expect_pressed(seam_between(quilt, at(0, 0), at(2, 2)), 0, 0);
    expect_pressed(seam_between(quilt, at(10, 0), at(8, 2)), 0, 0);
    expect_pressed(seam_between(quilt, at(10, 8), at(8, 6)), 0, 0);
    expect_pressed(seam_between(quilt, at(0, 8), at(2, 6)), 0, 0);
    assert_int_equal(quilt->cloth->seams.count, 8);
    assert_int_equal(quilt->cloth->faces.count, 5);
}

/* A word for the corners leaves the seams of the strips alone. */
static void test_words(void **state)
{
    struct small s =
        mitred_quilt(*state, "width=\"6\" height=\"4\"",
                     "<border fabric=\"flame\" width=\"2\" corners=\"mitred\" "
                     "press=\"left\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    expect_pressed(seam_between(quilt, at(2, 2), at(8, 2)), 0, -1);
    expect_pressed(seam_between(quilt, at(0, 0), at(2, 2)), -1, 1);
    expect_pressed(seam_between(quilt, at(10, 0), at(8, 2)), -1, -1);
    s = mitred_quilt(*state, "width=\"6\" height=\"4\"",
                     "<border fabric=\"flame\" width=\"2\" corners=\"mitred\" "
                     "press=\"open\"/>");
    quilt = quilt_in(&s);
    for (size_t i = 0; i < quilt->cloth->seams.count; i++)
        expect_pressed(&quilt->cloth->seams.items[i], 0, 0);
}

/* Two that follow each other: the seam between them meets itself in each
 * corner, pressed outward on the sides and inward above and below. */
static void test_matched(void **state)
{
    struct small s = mitred_quilt(
        *state, "width=\"6\" height=\"4\"",
        "<border fabric=\"flame\" width=\"1\" corners=\"mitred\"/>"
        "<border fabric=\"glow\" width=\"2\" corners=\"mitred\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    assert_int_equal(quilt->borders.count, 2);
    assert_int_equal(quilt->borders.items[0].heap,
                     quilt->borders.items[1].heap);
    for (size_t i = 0; i < 2; i++) { /* 12 by 10, and 1/2 of room */
        expect_length(cut_length_of(quilt, quilt->borders.items[i].end), 13, 1);
        expect_length(cut_length_of(quilt, quilt->borders.items[i].side), 11,
                      1);
    }
    expect_pressed(seam_between(quilt, at(2, 2), at(10, 2)), 0, 1);
    expect_pressed(seam_between(quilt, at(2, 2), at(2, 8)), -1, 0);
    expect_pressed(seam_between(quilt, at(2, 8), at(10, 8)), 0, -1);
    expect_pressed(seam_between(quilt, at(10, 2), at(10, 8)), 1, 0);
    expect_pressed(seam_between(quilt, at(0, 0), at(3, 3)), 0, 0);
    assert_int_equal(quilt->cloth->seams.count, 4 + 4 + 4);
}

/* What is not mitred parts them. */
static void test_parted(void **state)
{
    struct small s = mitred_quilt(
        *state, "width=\"6\" height=\"4\"",
        "<border fabric=\"flame\" width=\"1\" corners=\"mitred\"/>"
        "<border fabric=\"night\" width=\"1\"/>"
        "<border fabric=\"glow\" width=\"2\" corners=\"mitred\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    assert_int_equal(quilt->borders.count, 3);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(quilt->borders.items[i].border->number, i + 1);
    assert_true(quilt->borders.items[0].heap != quilt->borders.items[2].heap);
    seam_between(quilt, at(3, 3), at(4, 4));
    seam_between(quilt, at(0, 0), at(2, 2));
}

/* ---- published ---- */

/* Calculating required border lengths, multiple borders, mitered corners,
 * quiltingboard.com, thread 168402: borders of 1, 2 1/2 and 3 1/2 around 50 by
 * 60 take strips of 65 and 75. */
static void test_published_three(void **state)
{
    struct small s = mitred_quilt(
        *state, "width=\"50\" height=\"60\"",
        "<border fabric=\"flame\" width=\"1\" corners=\"mitred\"/>"
        "<border fabric=\"glow\" width=\"2 1/2\" corners=\"mitred\"/>"
        "<border fabric=\"night\" width=\"3 1/2\" corners=\"mitred\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    for (size_t i = 0; i < 3; i++) {
        expect_length(cut_length_of(quilt, quilt->borders.items[i].end), 65, 1);
        expect_length(cut_length_of(quilt, quilt->borders.items[i].side), 75,
                      1);
    }
}

/* American Patchwork & Quilting, 2015, a wall hanging of 49 1/2 unfinished:
 * center 40, strips cut 5 wide. It cuts them 51 long, the border's cut width
 * taken twice: 1 more than with the finished one, for the same top. */
static void test_published_one(void **state)
{
    struct small s = mitred_quilt(
        *state, "width=\"40\" height=\"40\"",
        "<border fabric=\"flame\" width=\"4 1/2\" corners=\"mitred\"/>");
    const struct sewn_quilt *quilt = quilt_in(&s);
    const struct rational length =
        cut_length_of(quilt, quilt->borders.items[0].side);
    expect_length(rational_add(quilt->width, rational_make(1, 2)), 99, 2);
    expect_length(rational_add(length, rational_whole(1)), 51, 1);
}

/* ---- painted ---- */

/* One border as it was drawn by lot: doubles are the painter's. */
struct lot {
    double width, inset; /* from the outer edge of the top to its own */
    int fabric;
    bool mitred, matched, lengthwise;
};

struct painter {
    GEOSContextHandle_t geos;
    struct lot lots[5];
    size_t count;
    double width, height; /* of the top */
};

static GEOSGeometry *polygon(GEOSContextHandle_t geos, const double (*xy)[2],
                             unsigned count)
{
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; i++)
        GEOSCoordSeq_setXY_r(geos, ring, i, xy[i % count][0], xy[i % count][1]);
    return GEOSGeom_createPolygon_r(
        geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

/* The top without so much at each edge. */
static GEOSGeometry *inner(const struct painter *p, double inset)
{
    const double right = p->width - inset, low = p->height - inset;
    const double xy[4][2] = {
        {inset, inset}, {right, inset}, {right, low}, {inset, low}};
    return polygon(p->geos, xy, 4);
}

/* Side k of a mitred border, clockwise from the top. */
static GEOSGeometry *trapezoid(const struct painter *p, const struct lot *lot,
                               unsigned k)
{
    const double o = lot->inset, i = o + lot->width;
    const double w = p->width, h = p->height;
    const double outer[4][2] = {{o, o}, {w - o, o}, {w - o, h - o}, {o, h - o}};
    const double within[4][2] = {
        {i, i}, {w - i, i}, {w - i, h - i}, {i, h - i}};
    const unsigned n = (k + 1) % 4;
    const double xy[4][2] = {{outer[k][0], outer[k][1]},
                             {outer[n][0], outer[n][1]},
                             {within[n][0], within[n][1]},
                             {within[k][0], within[k][1]}};
    return polygon(p->geos, xy, 4);
}

/* The area of what only one of two shows; takes both. */
static double differ(GEOSContextHandle_t geos, GEOSGeometry *a, GEOSGeometry *b)
{
    GEOSGeometry *other = GEOSSymDifference_r(geos, a, b);
    assert_non_null(other);
    const double area = geometry_area(geos, other);
    GEOSGeom_destroy_r(geos, a);
    GEOSGeom_destroy_r(geos, b);
    GEOSGeom_destroy_r(geos, other);
    return area;
}

/* What is seen of a fabric, painted from the outside in. */
static GEOSGeometry *painted(const struct painter *p, int fabric)
{
    GEOSGeometry *seen = GEOSGeom_createEmptyPolygon_r(p->geos);
    for (size_t i = p->count + 1; i-- > 0;) {
        const double inset =
            i > 0 ? p->lots[i - 1].inset : p->lots[0].inset + p->lots[0].width;
        GEOSGeometry *whole = inner(p, inset);
        const bool ours = (i > 0 ? p->lots[i - 1].fabric : 0) == fabric;
        GEOSGeometry *next = ours ? GEOSUnion_r(p->geos, seen, whole)
                                  : GEOSDifference_r(p->geos, seen, whole);
        GEOSGeom_destroy_r(p->geos, seen);
        GEOSGeom_destroy_r(p->geos, whole);
        seen = next;
    }
    return seen;
}

/* The cloth of one print that lies turned so often, in the band of a border. */
static GEOSGeometry *turned_cloth(const struct painter *p,
                                  const struct cloth *cloth,
                                  const struct lot *lot, unsigned turn)
{
    struct cloth some = {.width = cloth->width, .height = cloth->height};
    struct arena *arena = arena_create();
    for (size_t i = 0; i < cloth->faces.count; i++)
        if (cloth->faces.items[i].turn == turn &&
            cloth->faces.items[i].fabric == lot->fabric)
            *LIST_ADD(arena, &some.faces) = cloth->faces.items[i];
    GEOSGeometry *all = fabric_geometry(p->geos, &some, lot->fabric);
    arena_destroy(arena);
    GEOSGeometry *outer = inner(p, lot->inset);
    GEOSGeometry *center = inner(p, lot->inset + lot->width);
    GEOSGeometry *band = GEOSDifference_r(p->geos, outer, center);
    GEOSGeometry *found = GEOSIntersection_r(p->geos, all, band);
    GEOSGeom_destroy_r(p->geos, all);
    GEOSGeom_destroy_r(p->geos, outer);
    GEOSGeom_destroy_r(p->geos, center);
    GEOSGeom_destroy_r(p->geos, band);
    return found;
}

/* Each side of a mitred border, its print turned as the side is. */
static void expect_sides(const struct painter *p, const struct cloth *cloth,
                         const struct lot *lot)
{
    for (unsigned k = 0; k < 4; k++) {
        const unsigned turn = (k + (lot->lengthwise ? 1 : 0)) % 4;
        assert_close(differ(p->geos, turned_cloth(p, cloth, lot, turn),
                            trapezoid(p, lot, k)),
                     0.0);
    }
}

static double rounded_up(double length)
{
    return ceil(length * 8.0 - 1e-9) / 8.0;
}

/* Strips are as long as the outermost of those that are sewn as one. */
static void expect_strips(const struct painter *p,
                          const struct sewn_quilt *quilt, size_t i)
{
    size_t last = i;
    while (last + 1 < p->count && p->lots[last + 1].matched)
        last++;
    const double both = 2.0 * p->lots[last].inset;
    const struct sewn_border *border = &quilt->borders.items[i];
    assert_close(rational_double(cut_length_of(quilt, border->side)),
                 rounded_up(p->height - both + 1.0));
    assert_close(rational_double(cut_length_of(quilt, border->end)),
                 rounded_up(p->width - both + 1.0));
}

static const char *some_length(struct arena *arena, struct unit_random *random,
                               int64_t least, int64_t most, double *value)
{
    static const int parts[] = {1, 2, 4, 8, 3, 16};
    const int part = parts[unit_below(random, UNIT_COUNT(parts))];
    const int64_t num =
        least * part + unit_below(random, (uint64_t)(most * part));
    *value = (double)num / part;
    return num % part == 0
               ? arena_printf(arena, "%lld", (long long)(num / part))
               : arena_printf(arena, "%lld/%d", (long long)num, part);
}

/* One to five borders, most of them mitred. */
static struct small draw_lots(struct arena *arena, struct unit_random *random,
                              struct painter *p)
{
    static const char *const fabrics[] = {"night", "flame", "glow"};
    struct buffer text = buffer_in(arena);
    p->count = 1 + (size_t)unit_below(random, 5);
    for (size_t i = 0; i < p->count; i++) {
        struct lot *lot = &p->lots[i];
        const char *width = some_length(arena, random, 1, 4, &lot->width);
        lot->fabric = (int)unit_below(random, 3);
        lot->mitred = unit_below(random, 4) > 0;
        lot->matched = i > 0 && lot->mitred && p->lots[i - 1].mitred;
        lot->lengthwise = unit_below(random, 4) == 0;
        buffer_printf(&text, "<border fabric=\"%s\" width=\"%s\"%s%s/>",
                      fabrics[lot->fabric], width,
                      lot->mitred ? " corners=\"mitred\"" : "",
                      lot->lengthwise ? " grain=\"lengthwise\"" : "");
    }
    const char *across = some_length(arena, random, 4, 30, &p->width);
    const char *down = unit_below(random, 3) == 0
                           ? (p->height = p->width, across)
                           : some_length(arena, random, 4, 30, &p->height);
    double inset = 0.0;
    for (size_t i = p->count; i-- > 0;) {
        p->lots[i].inset = inset;
        inset += p->lots[i].width;
    }
    p->width += 2.0 * inset;
    p->height += 2.0 * inset;
    return mitred_quilt(
        arena, arena_printf(arena, "width=\"%s\" height=\"%s\"", across, down),
        buffer_string(&text));
}

static size_t number_of(const char *name, size_t usual)
{
    const char *text = getenv(name);
    return text == NULL ? usual : (size_t)strtoul(text, NULL, 10);
}

static void test_painted(void **state)
{
    (void)state;
    const size_t quilts = number_of("SEAMWRIGHT_MITRES", 60);
    struct unit_random random = {number_of("SEAMWRIGHT_SEED", 1) * 7919};
    struct painter p = {.geos = geometry_start()};
    size_t mitred = 0, matched = 0;
    for (size_t i = 0; i < quilts; i++) {
        struct arena *arena = arena_create();
        struct small s = draw_lots(arena, &random, &p);
        const struct sewn_quilt *quilt = quilt_in(&s);
        for (int fabric = 0; fabric < 3; fabric++)
            assert_close(differ(p.geos,
                                fabric_geometry(p.geos, quilt->cloth, fabric),
                                painted(&p, fabric)),
                         0.0);
        for (size_t k = 0; k < p.count; k++) {
            mitred += p.lots[k].mitred;
            matched += p.lots[k].matched;
            if (p.lots[k].mitred) {
                expect_sides(&p, quilt->cloth, &p.lots[k]);
                expect_strips(&p, quilt, k);
            }
        }
        arena_destroy(arena);
    }
    GEOS_finish_r(p.geos);
    print_message("# %zu quilts, %zu mitred borders, %zu of them matched\n",
                  quilts, mitred, matched);
    assert_true(matched > quilts / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_matched),
        cmocka_unit_test(test_parted),
        cmocka_unit_test(test_published_three),
        cmocka_unit_test(test_published_one),
        cmocka_unit_test(test_painted),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
