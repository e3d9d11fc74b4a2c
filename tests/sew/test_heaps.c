/* What is alike is made once and counted; and the cloth of each heap is what
 * the source means, however it is turned. */
#include <stdlib.h>

#include "design_faces.h"
#include "files.h"
#include "geometry.h"

/* ---- counts ---- */

static size_t heaps_of(const struct sewn_quilt *quilt, enum technique technique)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        count += quilt->heaps.items[i].technique == technique &&
                 quilt->heaps.items[i].count > 0;
    return count;
}

/* How many rectangles of this cut size, in eighths of an inch. */
static size_t cut_count(const struct sewn_quilt *quilt, int fabric,
                        int64_t width, int64_t height)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_CUT || heap->of.cut.fabric != fabric)
            continue;
        const struct rational w = rational_make(width, 8);
        const struct rational h = rational_make(height, 8);
        const bool upright = rational_equal(heap->of.cut.width, w) &&
                             rational_equal(heap->of.cut.height, h);
        const bool lying = rational_equal(heap->of.cut.width, h) &&
                           rational_equal(heap->of.cut.height, w);
        if (upright || lying)
            count += heap->count;
    }
    return count;
}

static struct small sample(struct arena *arena, const char *path)
{
    const struct file_content file = file_read(arena, path);
    assert_int_equal(file.fault, FILE_OK);
    struct small s =
        small_whole(arena, arena_copy(arena, file.bytes, file.length));
    small_finish(&s);
    expect_clean(&s);
    assert_non_null(s.sewn);
    return s;
}

/* The check worked by hand in the language's description: one block of 12 in
 * takes, of night, 4 of 2 1/2 x 6 1/2, 4 of 2 1/2 x 4 1/2, 4 of 2 1/2 x 2 1/2;
 * of flame 8 of 2 1/2 x 4 1/2 and 4 of 2 1/2 x 2 1/2; of glow 4 of 2 1/2
 * x 2 1/2. The throw has 5 x 6 blocks. */
static void test_lantern(void **state)
{
    const struct small s = sample(*state, "samples/lantern-walk.xml");
    static const struct {
        int fabric;
        int64_t width, height;
        size_t each;
    } wanted[] = {{0, 20, 52, 4}, {0, 20, 36, 4}, {0, 20, 20, 4},
                  {1, 20, 36, 8}, {1, 20, 20, 4}, {2, 20, 20, 4}};
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    size_t all = 0;
    for (size_t i = 0; i < UNIT_COUNT(wanted); i++) {
        assert_int_equal(cut_count(quilt, wanted[i].fabric, wanted[i].width,
                                   wanted[i].height),
                         30 * wanted[i].each);
        all += 30 * wanted[i].each;
    }
    size_t cut = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        cut += heap->technique == TECHNIQUE_CUT && heap->of.cut.border == 0
                   ? heap->count
                   : 0;
        if (heap->named != NULL && strcmp(heap->named->id, "wing") == 0)
            assert_int_equal(heap->count, 120);
        if (heap->named != NULL && strcmp(heap->named->id, "lantern") == 0)
            assert_int_equal(heap->count, 30);
    }
    assert_int_equal(cut, all); /* and nothing else is cut */
    assert_rational(quilt->width, 66, 1);
    assert_rational(quilt->height, 78, 1);
}

#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"

static struct small pair(struct arena *arena, const char *unit,
                         const char *second)
{
    const struct small s = small_sew(
        arena,
        arena_printf(arena,
                     "<unit id=\"u\" width=\"4\" height=\"4\">%s</unit>\n"
                     QUILT("<row><use unit=\"u\"/><use unit=\"u\" %s/></row>"),
                     unit, second));
    expect_clean(&s);
    assert_non_null(s.sewn);
    return s;
}

#define CORNER(place, fabric, size)                                    \
    "<corner at=\"" place "\" fabric=\"" fabric "\" size=\"" size "\"/>"
#define FOUR(a, b, c, d)                                               \
    CORNER("top-left", a, "1") CORNER("top-right", b, "1")             \
    CORNER("bottom-right", c, "1") CORNER("bottom-left", d, "1")

/* Turned ones are one heap; mirrored ones only where the unit is the same
 * from both sides, perhaps after a turn. */
static void test_mirrored_heaps(void **state)
{
    static const struct {
        const char *unit;
        enum technique technique;
        size_t mirrored; /* heaps of that work in all */
    } cases[] = {
        /* a corner, seen mirrored, is a corner turned */
        {"<patch fabric=\"night\">" CORNER("top-left", "glow", "1")
         "</patch>", TECHNIQUE_CORNERS, 1},
        /* two different ones are not */
        {"<patch fabric=\"night\">" CORNER("top-left", "glow", "1")
         CORNER("top-right", "flame", "1") "</patch>", TECHNIQUE_CORNERS, 2},
        {"<patch fabric=\"night\">" FOUR("glow", "glow", "glow", "glow")
         "</patch>", TECHNIQUE_CORNERS, 1},
        {"<patch fabric=\"night\">" FOUR("glow", "flame", "glow", "flame")
         "</patch>", TECHNIQUE_CORNERS, 1},
        {"<patch fabric=\"night\">" FOUR("glow", "flame", "night", "glow")
         "</patch>", TECHNIQUE_CORNERS, 2},
        {"<half-square line=\"rising\" left=\"night\" right=\"glow\"/>",
         TECHNIQUE_HALF_SQUARE, 1},
        {"<row><diagonal line=\"rising\" width=\"2\"><patch "
         "fabric=\"night\" height=\"3\"/><patch fabric=\"glow\"/>"
         "</diagonal><patch fabric=\"flame\"/></row>", TECHNIQUE_DIAGONAL, 2},
        {"<row><patch fabric=\"night\" width=\"1\"/><patch fabric=\"glow\"/>"
         "</row>", TECHNIQUE_JOIN, 2},
        {"<row><patch fabric=\"night\" width=\"1\"/><patch fabric=\"glow\"/>"
         "<patch fabric=\"night\" width=\"1\"/></row>", TECHNIQUE_JOIN, 2},
        {"<grid across=\"2\" down=\"2\"><patch fabric=\"night\" width=\"2\" "
         "height=\"2\"/><patch fabric=\"glow\"/><patch fabric=\"flame\"/>"
         "<patch fabric=\"glow\"/></grid>", TECHNIQUE_JOIN, 3},
        {"<grid across=\"2\" down=\"2\"><patch fabric=\"night\" width=\"2\" "
         "height=\"2\"/><patch fabric=\"glow\"/><patch fabric=\"flame\"/>"
         "<patch fabric=\"night\"/></grid>", TECHNIQUE_JOIN, 2},
    };
    static const char *const turns[] = {"", "turn=\"90\"", "turn=\"180\"",
                                        "turn=\"270\""};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        /* The row that joins the two is a heap of TECHNIQUE_JOIN itself. */
        const size_t row = cases[i].technique == TECHNIQUE_JOIN;
        for (size_t turn = 0; turn < 4; turn++) {
            struct small s = pair(*state, cases[i].unit, turns[turn]);
            assert_int_equal(heaps_of(&s.sewn->quilts.items[0], cases[i].technique),
                             1 + row);
            s = pair(*state, cases[i].unit,
                     arena_printf(*state, "mirror=\"yes\" %s", turns[turn]));
            const size_t found =
                heaps_of(&s.sewn->quilts.items[0], cases[i].technique);
            if (found != cases[i].mirrored)
                small_show(&s);
            assert_int_equal(found, cases[i].mirrored);
        }
    }
}

/* A square as large as its patch is high: which corner it cuts off is all
 * that tells two such units apart. */
static void test_full_corners(void **state)
{
    static const char *const places[] = {"top-left", "top-right",
                                         "bottom-right", "bottom-left"};
    GEOSContextHandle_t geos = geometry_start();
    for (size_t i = 0; i < 4; i++)
        for (size_t k = 0; k < 4; k++) {
            const struct small s = small_sew(
                *state,
                arena_printf(*state,
                             QUILT("<row><patch fabric=\"night\" width=\"2\" "
                                   "height=\"2\"><corner at=\"%s\" "
                                   "fabric=\"glow\" size=\"2\"/></patch>"
                                   "<patch fabric=\"night\" width=\"2\">"
                                   "<corner at=\"%s\" fabric=\"glow\" "
                                   "size=\"2\"/></patch></row>"),
                             places[i], places[k]));
            expect_clean(&s);
            const struct cloth *meant = design_faces(
                *state, s.sized, design_find(s.design, "throw", DEFINE_QUILT)->root,
                NULL, 0);
            assert_close(cloth_difference(
                             geos, s.sewn->quilts.items[0].cloth, meant, 3), 0);
        }
    GEOS_finish_r(geos);
}

/* Two at a time: n half-squares take ceil(n / 2) pairs of squares; one at a
 * time, n. trade.md 1.2: 3 finished is cut 3 7/8. */
static void test_half_square_pairs(void **state)
{
    for (unsigned n = 1; n <= 9; n++)
        for (unsigned two = 0; two < 2; two++) {
            const struct small s = small_sew(
                *state,
                arena_printf(*state,
                             QUILT("<grid across=\"%u\" down=\"1\">"
                                   "<half-square size=\"3\" line=\"rising\" "
                                   "left=\"night\" right=\"glow\" "
                                   "method=\"%s\"/></grid>"),
                             n, two ? "two" : "one"));
            expect_clean(&s);
            const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
            const int64_t side = two ? 31 : 28;
            const size_t squares = two ? (n + 1) / 2 : n;
            assert_int_equal(cut_count(quilt, 0, side, side), squares);
            assert_int_equal(cut_count(quilt, 2, side, side), squares);
        }
}

/* A sixteenth of an inch is cut as an eighth: two heights may be cut alike, and
 * are two heaps all the same, as they are sewn to two sizes; turned, too. */
static void test_sizes_that_are_cut_alike(void **state)
{
    static const char *const rows[] = {
        "<row><patch fabric=\"night\" width=\"2 1/16\" height=\"4\"/><patch "
        "fabric=\"night\" width=\"2 1/8\" height=\"4\"/></row>",
        "<column><patch fabric=\"night\" width=\"4\" height=\"2 1/16\"/>"
        "<patch fabric=\"night\" width=\"4\" height=\"2 1/8\"/></column>"};
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct small s =
            small_sew(*state, arena_printf(*state, QUILT("%s"), rows[i]));
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
        assert_int_equal(heaps_of(quilt, TECHNIQUE_CUT), 2);
        assert_int_equal(
            cut_count(quilt, 0, i == 0 ? 21 : 36, i == 0 ? 36 : 21), 2);
    }
}

/* Turned and mirrored half-squares come from the same pairs. */
static void test_half_squares_shared(void **state)
{
    const struct small s = small_sew(
        *state,
        QUILT("<row><half-square size=\"3\" line=\"rising\" left=\"night\" "
              "right=\"glow\"/><half-square size=\"3\" line=\"falling\" "
              "left=\"night\" right=\"glow\"/><half-square size=\"3\" "
              "line=\"rising\" left=\"glow\" right=\"night\"/></row>"));
    expect_clean(&s);
    assert_int_equal(
        heaps_of(&s.sewn->quilts.items[0], TECHNIQUE_HALF_SQUARE), 1);
    assert_int_equal(cut_count(&s.sewn->quilts.items[0], 0, 31, 31), 2);
}

/* ---- random designs ---- */

struct writer {
    struct arena *arena;
    struct unit_random random;
};

static const char *const fabrics[] = {"night", "flame", "glow"};

static const char *any_fabric(struct writer *writer)
{
    return fabrics[unit_below(&writer->random, 3)];
}

static const char *any_line(struct writer *writer)
{
    return unit_below(&writer->random, 2) ? "rising" : "falling";
}

/* Corners of halves of a square up to the whole of the shorter side, which
 * may lie over each other; none hides another, or all of a square. */
static const char *any_corners(struct writer *writer, int64_t shorter)
{
    static const char *const places[] = {"top-left", "top-right",
                                         "bottom-right", "bottom-left"};
    const char *text = "";
    int64_t first_at = -1, first_size = 0;
    for (int64_t n = unit_below(&writer->random, 4); n > 1; n--) {
        int64_t at = unit_below(&writer->random, 4);
        const char *fabric = any_fabric(writer);
        const int64_t size =
            1 + unit_below(&writer->random, 2 * (uint64_t)shorter);
        if (first_at >= 0 &&
            ((at == first_at && size >= first_size) ||
             (at == (first_at + 2) % 4 && size == 2 * shorter &&
              first_size == size)))
            at = (at + 1) % 4;
        first_at = at;
        first_size = size;
        text = arena_printf(
            writer->arena,
            "%s<corner at=\"%s\" fabric=\"%s\" size=\"%s\"/>", text,
            places[at], fabric,
            length_plain(writer->arena, rational_make(size, 2), UNIT_IN));
    }
    return text;
}

static const char *any_piece(struct writer *writer, int64_t width,
                             int64_t height, int depth);

static const char *any_strip(struct writer *writer, int64_t width,
                             int64_t height)
{
    const bool across = width > height;
    const int64_t strip = across ? height : width;
    const int64_t length = across ? width : height;
    /* first + second - strip = length, both at least a strip long */
    const int64_t first =
        strip + unit_below(&writer->random, (uint64_t)(length - strip + 1));
    const char *side = across ? "width" : "height";
    return arena_printf(
        writer->arena,
        "<diagonal line=\"%s\" width=\"%d\" height=\"%d\"><patch "
        "fabric=\"%s\" %s=\"%d\"/><patch fabric=\"%s\" %s=\"%d\"/>%s"
        "</diagonal>",
        any_line(writer), (int)width, (int)height, any_fabric(writer), side,
        (int)first, any_fabric(writer), side, (int)(length + strip - first),
        any_corners(writer, strip));
}

static const char *any_split(struct writer *writer, int64_t width,
                             int64_t height, int depth)
{
    const bool row = width > height ||
                     (width == height && unit_below(&writer->random, 2) == 0);
    const int64_t whole = row ? width : height;
    const int64_t part =
        1 + unit_below(&writer->random, (uint64_t)whole - 1);
    const char *name = row ? "row" : "column";
    const char *first = any_piece(writer, row ? part : width,
                                  row ? height : part, depth - 1);
    const char *second = any_piece(writer, row ? whole - part : width,
                                   row ? height : whole - part, depth - 1);
    return arena_printf(writer->arena, "<%s>%s%s%s</%s>", name, first, second,
                        any_corners(writer, width < height ? width : height),
                        name);
}

static const char *any_piece(struct writer *writer, int64_t width,
                             int64_t height, int depth)
{
    const int64_t kind = unit_below(&writer->random, 5);
    if (depth > 0 && (width > 1 || height > 1) && kind < 2)
        return any_split(writer, width, height, depth);
    if (kind == 2 && width == height)
        return arena_printf(writer->arena,
                            "<half-square size=\"%d\" line=\"%s\" left=\"%s\" "
                            "right=\"%s\">%s</half-square>", (int)width,
                            any_line(writer), any_fabric(writer),
                            any_fabric(writer), any_corners(writer, width));
    if (kind == 3 && width != height)
        return any_strip(writer, width, height);
    return arena_printf(writer->arena,
                        "<patch fabric=\"%s\" width=\"%d\" height=\"%d\">%s"
                        "</patch>", any_fabric(writer), (int)width,
                        (int)height,
                        any_corners(writer, width < height ? width : height));
}

static const char *any_use(struct writer *writer, const char *what)
{
    return arena_printf(writer->arena, "<use %s turn=\"%d\" mirror=\"%s\"/>",
                        what, (int)unit_below(&writer->random, 4) * 90,
                        unit_below(&writer->random, 2) ? "yes" : "no");
}

static const char *four_uses(struct writer *writer, const char *what)
{
    const char *a = any_use(writer, what), *b = any_use(writer, what);
    const char *c = any_use(writer, what), *d = any_use(writer, what);
    return arena_printf(writer->arena,
                        "<grid across=\"2\" down=\"2\">%s%s%s%s</grid>", a, b,
                        c, d);
}

/* A unit of 3 x 3 in a block of 6 x 6, four blocks in a quilt of which the
 * whole is laid as `top` says. */
static struct small any_design(struct arena *arena, uint64_t seed,
                               const char *top)
{
    struct writer writer = {arena, {seed * 2654435761u + 1}};
    for (int i = 0; i < 8; i++)
        unit_next(&writer.random);
    const char *unit = any_piece(&writer, 3, 3, 3);
    const char *block = four_uses(&writer, "unit=\"u\"");
    const char *centre =
        four_uses(&writer, "block=\"b\" finished=\"9\"");
    return small_sew(
        arena, arena_printf(arena,
                            "<unit id=\"u\">%s</unit>\n"
                            "<block id=\"b\" grid=\"6\">%s</block>\n"
                            "<unit id=\"centre\">%s</unit>\n"
                            "<quilt id=\"throw\"><use unit=\"centre\" %s/>"
                            "</quilt>\n",
                            unit, block, centre, top));
}

enum { DESIGNS = 30 };

/* Sewn by steps, piece by piece, and what the source means are one picture. */
static void test_sewn_is_meant(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = geometry_start();
    for (uint64_t seed = 1; seed <= DESIGNS; seed++) {
        struct arena *arena = arena_create();
        const struct small s = any_design(arena, seed, "");
        expect_clean(&s);
        const struct cloth *meant = design_faces(
            arena, s.sized, design_find(s.design, "throw", DEFINE_QUILT)->root,
            NULL, 0);
        const double other = cloth_difference(
            geos, s.sewn->quilts.items[0].cloth, meant, 3);
        if (other > 1e-9)
            small_show(&s);
        assert_close(other, 0);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
}

/* Inside its seams each heap is covered once: the exact areas add up to its
 * finished size, and so does the area of all faces together. */
static void test_heaps_covered(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = geometry_start();
    for (uint64_t seed = 1; seed <= DESIGNS; seed++) {
        struct arena *arena = arena_create();
        const struct small s = any_design(arena, seed, "");
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
        for (size_t i = 0; i < quilt->heaps.count; i++) {
            const struct heap *heap = &quilt->heaps.items[i];
            const struct rational finished =
                rational_mul(heap->width, heap->height);
            assert_true(rational_equal(inner_double_area(arena, heap->cloth),
                                       rational_times(finished, 2)));
            GEOSGeometry *all = fabric_geometry(geos, heap->cloth, NO_FABRIC);
            assert_close(geometry_area(geos, all), rational_double(finished));
            GEOSGeom_destroy_r(geos, all);
        }
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
}

/* A heap of one definition's root, whole with its corners, looks as that
 * definition does: scaled, and mirrored where the heap is. */
static void test_heaps_are_meant(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = geometry_start();
    size_t compared = 0;
    for (uint64_t seed = 1; seed <= DESIGNS; seed++) {
        struct arena *arena = arena_create();
        const struct small s = any_design(arena, seed, "");
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
        for (size_t i = 0; i < quilt->heaps.count; i++) {
            const struct heap *heap = &quilt->heaps.items[i];
            const struct definition *owner = heap->piece->owner;
            if (heap->named != owner || owner->root != heap->piece ||
                (heap->piece->corners.count > 0) !=
                    (heap->technique == TECHNIQUE_CORNERS))
                continue;
            struct cloth *meant = cloth_oriented(
                arena, design_faces(arena, s.sized, owner->root, NULL, 0),
                (struct orientation){0, heap->mirror});
            for (size_t f = 0; f < meant->faces.count; f++)
                for (size_t k = 0; k < meant->faces.items[f].count; k++) {
                    struct vertex *v =
                        (struct vertex *)&meant->faces.items[f].points[k];
                    v->x = rational_mul(v->x, heap->factor);
                    v->y = rational_mul(v->y, heap->factor);
                }
            meant->width = rational_mul(meant->width, heap->factor);
            meant->height = rational_mul(meant->height, heap->factor);
            assert_close(cloth_difference(geos, heap->cloth, meant, 3), 0);
            compared++;
        }
        arena_destroy(arena);
    }
    assert_true(compared > 2 * DESIGNS);
    GEOS_finish_r(geos);
}

/* sewn(turned) = turned(sewn), for all eight. */
static void test_sewn_turned(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = geometry_start();
    for (uint64_t seed = 1; seed <= 15; seed++) {
        struct arena *arena = arena_create();
        const struct small plain = any_design(arena, seed, "");
        for (unsigned i = 0; i < 8; i++) {
            const struct orientation o = {i % 4, i >= 4};
            const struct small s = any_design(
                arena, seed,
                arena_printf(arena, "turn=\"%u\" mirror=\"%s\"", o.turn * 90,
                             o.mirror ? "yes" : "no"));
            const struct cloth *wanted = cloth_oriented(
                arena, plain.sewn->quilts.items[0].cloth, o);
            assert_close(cloth_difference(geos, s.sewn->quilts.items[0].cloth,
                                          wanted, 3), 0);
        }
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
}

/* No heap is made for nothing, and all are counted from those above. */
static void test_counts_add_up(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= DESIGNS; seed++) {
        struct arena *arena = arena_create();
        const struct small s = any_design(arena, seed, "");
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
        for (size_t i = 0; i < quilt->heaps.count; i++) {
            size_t wanted = i == quilt->top;
            for (size_t k = 0; k < quilt->heaps.count; k++) {
                const struct heap *above = &quilt->heaps.items[k];
                for (size_t n = 0; n < above->inputs.count; n++)
                    if (above->inputs.items[n].heap == i)
                        wanted += (above->count + above->yield - 1) /
                                  above->yield;
            }
            assert_int_equal(quilt->heaps.items[i].count, wanted);
            assert_true(wanted > 0);
        }
        arena_destroy(arena);
    }
}

/* A piece with corners is a heap on the heap of its base: the words of the step
 * that makes it stand with the whole alone. */
static void test_words_of_a_piece_stand_once(void **state)
{
    const struct small s = small_sew(
        *state,
        "<unit id=\"u\"><row><half-square id=\"tip\" line=\"rising\" "
        "left=\"night\" right=\"glow\" size=\"3\"><corner at=\"top-left\" "
        "fabric=\"flame\" size=\"1\"/></half-square><patch fabric=\"night\" "
        "width=\"2\"/></row></unit><quilt id=\"q\"><use unit=\"u\"/></quilt>"
        "<assembly of=\"u\"><step make=\"tip\"><say>Mind the tip.</say></step>"
        "<step make=\"u\"/></assembly>");
    expect_clean(&s);
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    size_t told = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        told += heap->says.count;
        if (heap->says.count > 0)
            assert_int_equal(heap->technique, TECHNIQUE_CORNERS);
    }
    assert_int_equal(told, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lantern),
        cmocka_unit_test(test_mirrored_heaps),
        cmocka_unit_test(test_full_corners),
        cmocka_unit_test(test_half_square_pairs),
        cmocka_unit_test(test_half_squares_shared),
        cmocka_unit_test(test_sizes_that_are_cut_alike),
        cmocka_unit_test(test_sewn_is_meant),
        cmocka_unit_test(test_heaps_covered),
        cmocka_unit_test(test_heaps_are_meant),
        cmocka_unit_test(test_sewn_turned),
        cmocka_unit_test(test_counts_add_up),
        cmocka_unit_test(test_words_of_a_piece_stand_once),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
