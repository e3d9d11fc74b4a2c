/* Cloths that meet in a seam and can hardly be told apart: which colors, which
 * pairs, where it is told, and what helps. */
#include <stdlib.h>

#include "adjoin.h"
#include "buffer.h"
#include "color.h"
#include "files.h"
#include "geometry.h"

/* Three fabrics and their cloths; a colorway may say more of a cloth behind its
 * color. */
#define HEAD                                                    \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" " \
    "title=\"Small\">\n<fabrics><fabric id=\"night\"/>"         \
    "<fabric id=\"flame\"/><fabric id=\"glow\"/></fabrics>\n"
#define CLOTH(fabric, color) \
    "<cloth fabric=\"" fabric "\" color=\"" color "\"/>\n"
#define WAY(id, night, flame, glow)                                        \
    "<colorway id=\"" id "\">" CLOTH("night", night) CLOTH("flame", flame) \
        CLOTH("glow", glow) "</colorway>\n"
#define QUILT(id, inside) "<quilt id=\"" id "\">" inside "</quilt>\n"
#define PATCH(fabric, more) "<patch fabric=\"" fabric "\" " more "/>"
#define TWO_BY_TWO "width=\"2\" height=\"2\""
#define END "</pattern>\n"

/* night and flame are one grey but for a step, glow is far from both. */
#define ALIKE HEAD WAY("dusk", "#808080", "#828282", "#f2cf63")

static struct small sewn(struct arena *arena, const char *text)
{
    struct small s = small_whole(arena, text);
    small_finish(&s);
    expect_clean(&s);
    return s;
}

static size_t remarks(struct arena *arena, const char *text)
{
    const struct small s = sewn(arena, text);
    return small_count(&s, DIAG_CONTRAST);
}

/* ---- colors ---- */

/* Two patches, side by side in these colors. */
static struct small side_by_side(struct arena *arena, const char *night,
                                 const char *flame)
{
    return sewn(
        arena,
        arena_printf(
            arena,
            HEAD
            "<colorway id=\"dusk\">"
            "<cloth fabric=\"night\" color=\"%s\"/>"
            "<cloth fabric=\"flame\" color=\"%s\"/>" CLOTH(
                "glow",
                "#000000") "</colorway>\n" QUILT("mat",
                                                 "<row>" PATCH("night",
                                                               TWO_BY_TWO)
                                                     PATCH(
                                                         "flame",
                                                         "width=\"2\"") "</"
                                                                        "row>")
                END,
            night, flame));
}

/* Contrasts and hues were worked out by a script apart from the program. */
static void test_limits_of_likeness(void **state)
{
    static const struct {
        const char *night, *flame, *words; /* NULL where nothing is said */
    } cases[] = {
        {"#808080", "#808080",
         "told from `night` in `dusk`: contrast 1.00 : 1"},
        {"#808080", "#868989", "contrast 1.11 : 1"}, /* 1.1196 */
        {"#868989", "#808080", "contrast 1.11 : 1"},
        {"#808080", "#8a8888", NULL}, /* 1.1205 */
        {"#8a8888", "#808080", NULL},
        /* hue 7.99 and 8.01 from the grey, contrast 1.037 and 1.043 */
        {"#808080", "#898275", "can hardly be told from"},
        {"#808080", "#848476", NULL},
        /* hue 46 from the rust, contrast 1.01996 and 1.02003 */
        {"#b8683c", "#708645", "is as light as `night` in `dusk`"},
        {"#b8683c", "#718246", NULL},
        {"#ffffff", "#000000", NULL},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s =
            side_by_side(*state, cases[i].night, cases[i].flame);
        const size_t wanted = cases[i].words != NULL;
        /* the black `glow` is nowhere in the quilt */
        if (small_count(&s, DIAG_CONTRAST) != wanted)
            small_show(&s);
        assert_int_equal(small_count(&s, DIAG_CONTRAST), wanted);
        if (wanted)
            assert_true(says(
                expect_at(&s, DIAG_CONTRAST, "\"flame\" color", cases[i].flame),
                cases[i].words));
    }
}

/* ---- who meets whom ---- */

#define UNIT(id, first, second)                          \
    "<unit id=\"" id "\"><row>" PATCH(first, TWO_BY_TWO) \
        PATCH(second, TWO_BY_TWO) "</row></unit>\n"

/* What meets in a point alone does not count; all else does, also across the
 * seam of a unit, however it lies. */
static void test_pairs_that_meet(void **state)
{
    static const struct {
        const char *text;
        size_t wanted;
    } cases[] = {
        {ALIKE QUILT("mat",
                     "<grid across=\"2\" down=\"2\">" PATCH("night", TWO_BY_TWO)
                         PATCH("glow", TWO_BY_TWO) PATCH("glow", TWO_BY_TWO)
                             PATCH("flame", TWO_BY_TWO) "</grid>") END,
         0},
        {ALIKE QUILT("mat",
                     "<grid across=\"2\" down=\"2\">" PATCH("night", TWO_BY_TWO)
                         PATCH("glow", TWO_BY_TWO) PATCH("flame", TWO_BY_TWO)
                             PATCH("glow", TWO_BY_TWO) "</grid>") END,
         1},
        /* the joint of two units */
        {ALIKE UNIT("l", "glow", "night") UNIT("r", "flame", "glow")
             QUILT("mat", "<row><use unit=\"l\"/><use unit=\"r\"/></row>") END,
         1},
        {ALIKE UNIT("l", "glow", "night") UNIT("r", "flame", "glow")
             QUILT("mat", "<row><use unit=\"r\"/><use unit=\"l\"/></row>") END,
         0},
        {ALIKE UNIT("l", "glow", "night") UNIT("r", "glow", "flame")
             QUILT("mat", "<row><use unit=\"l\"/><use unit=\"r\"/></row>") END,
         0},
        {ALIKE UNIT("l", "glow", "night") UNIT("r", "glow", "flame")
             QUILT("mat", "<row><use unit=\"l\"/>"
                          "<use unit=\"r\" mirror=\"yes\"/></row>") END,
         1},
        {ALIKE UNIT("l", "glow", "night") UNIT("r", "glow", "flame")
             QUILT("mat", "<row><use unit=\"l\"/>"
                          "<use unit=\"r\" turn=\"180\"/></row>") END,
         1},
        /* a diagonal; corners that touch each other in a point */
        {ALIKE QUILT("mat", "<half-square line=\"rising\" left=\"night\" "
                            "right=\"flame\" size=\"3\"/>") END,
         1},
        {ALIKE QUILT("mat",
                     "<patch fabric=\"glow\" width=\"4\" height=\"2\">"
                     "<corner at=\"top-left\" fabric=\"night\" size=\"2\"/>"
                     "<corner at=\"top-right\" fabric=\"flame\" size=\"2\"/>"
                     "</patch>") END,
         0},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = sewn(*state, cases[i].text);
        if (small_count(&s, DIAG_CONTRAST) != cases[i].wanted)
            small_show(&s);
        assert_int_equal(small_count(&s, DIAG_CONTRAST), cases[i].wanted);
    }
}

/* The seam that they share is a part of the edge of each: from 1 to 2 down. */
static void test_where_they_meet(void **state)
{
    const struct small s = sewn(
        *state,
        ALIKE QUILT("mat",
                    "<row id=\"both\"><column>" PATCH("night", TWO_BY_TWO)
                        PATCH("glow", "height=\"2\"") "</column><column>" PATCH(
                            "glow", "width=\"3\" height=\"1\"")
                            PATCH("flame", "height=\"3\"") "</column></row>")
            END);
    const struct diagnostic *d =
        expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#828282");
    assert_true(says(d, "they meet in this `row`, first at 2 from the left and "
                        "1 1/2 from the top of `mat`"));
    assert_int_equal(d->notes.items[0].span.start,
                     small_place(&s, "\"night\" color", "#808080"));
    assert_int_equal(d->notes.items[1].span.start,
                     small_place(&s, "<row id", "row"));
}

/* Seams that run on one line, or beside each other, are not mistaken: the
 * second row of the first column, and the joint of the second. */
static void test_whose_seam(void **state)
{
    struct small s =
        sewn(*state,
             ALIKE QUILT(
                 "mat",
                 "<column><row id=\"a\">" PATCH("night", TWO_BY_TWO)
                     PATCH("glow", TWO_BY_TWO) "</row><row id=\"b\">" PATCH(
                         "glow", TWO_BY_TWO)
                         PATCH("glow", TWO_BY_TWO) "</row><row id=\"c\">" PATCH(
                             "night", TWO_BY_TWO)
                             PATCH("flame", TWO_BY_TWO) "</row></column>") END);
    const struct diagnostic *d =
        expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#828282");
    assert_int_equal(d->notes.items[1].span.start,
                     small_place(&s, "<row id=\"c\"", "row"));
    s = sewn(
        *state,
        ALIKE QUILT(
            "mat",
            "<row><column id=\"a\">" PATCH("night", TWO_BY_TWO) PATCH(
                "glow",
                TWO_BY_TWO) "</column><column id=\"b\">" PATCH("glow",
                                                               TWO_BY_TWO)
                PATCH("glow", TWO_BY_TWO) "</column><column id=\"c\">" PATCH(
                    "night", TWO_BY_TWO)
                    PATCH("flame", TWO_BY_TWO) "</column></row>") END);
    d = expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#828282");
    assert_int_equal(d->notes.items[1].span.start,
                     small_place(&s, "<column id=\"c\"", "column"));
}

/* What lies in the box of a diagonal lies not on it. */
static void test_seam_of_a_point(void **state)
{
#define AT(h, v) ((struct vertex){rational_whole(h), rational_whole(v)})
    const struct piece diagonal = {.id = "d"}, upright = {.id = "u"};
    struct cloth cloth = {.width = rational_whole(4)};
    cloth_add_seam(*state, &cloth,
                   (struct seam){AT(0, 4), AT(4, 0), .piece = &diagonal});
    cloth_add_seam(*state, &cloth,
                   (struct seam){AT(1, 0), AT(1, 2), .piece = &upright});
    assert_ptr_equal(piece_of_seam(&cloth, AT(2, 2)), &diagonal);
    assert_ptr_equal(piece_of_seam(&cloth, AT(4, 0)), &diagonal);
    assert_ptr_equal(piece_of_seam(&cloth, AT(1, 1)), &upright);
    assert_ptr_equal(piece_of_seam(&cloth, AT(1, 3)), &diagonal);
    assert_null(piece_of_seam(&cloth, AT(2, 1)));
    assert_null(piece_of_seam(&cloth, AT(5, -1)));
}

/* Of places that are as high, the one that is further left. */
static void test_leftmost_is_told(void **state)
{
    const struct small s = sewn(
        *state,
        ALIKE QUILT(
            "mat", "<row>" PATCH("flame", TWO_BY_TWO) PATCH("night", TWO_BY_TWO)
                       PATCH("glow", TWO_BY_TWO) PATCH("night", TWO_BY_TWO)
                           PATCH("flame", TWO_BY_TWO) "</row>") END);
    assert_true(says(expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#828282"),
                     "first at 2 from the left and 1 from the top"));
}

/* Of several places the topmost is told; of a border, the border. */
static void test_border_is_told(void **state)
{
    const struct small s = sewn(
        *state,
        ALIKE QUILT(
            "mat", PATCH("night",
                         "width=\"6\" height=\"8\"") "<border fabric=\"flame\" "
                                                     "width=\"2\"/>") END);
    const struct diagnostic *d =
        expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#828282");
    assert_true(says(d, "they meet in this `border`, first at 5 from the left "
                        "and 2 from the top of `mat`"));
    assert_int_equal(d->notes.items[1].span.start,
                     small_place(&s, "<border", "border"));
}

/* GEOS finds the same pairs in the samples, by the length of what the outlines
 * of two fabrics share. */
static void compare_with_geos(GEOSContextHandle_t geos, struct arena *arena,
                              const struct small *s)
{
    const size_t fabrics = s->design->fabrics.count;
    for (size_t q = 0; q < s->sewn->quilts.count; q++) {
        const struct sewn_quilt *quilt = &s->sewn->quilts.items[q];
        struct adjoining *table =
            ARENA_ARRAY(arena, struct adjoining, fabrics * fabrics);
        find_adjoining(quilt, table, fabrics);
        for (size_t a = 0; a < fabrics; a++)
            for (size_t b = a + 1; b < fabrics; b++) {
                GEOSGeometry *one = fabric_geometry(geos, quilt->cloth, (int)a);
                GEOSGeometry *other =
                    fabric_geometry(geos, quilt->cloth, (int)b);
                GEOSGeometry *shared = GEOSIntersection_r(geos, one, other);
                double length = -1;
                assert_non_null(shared);
                assert_int_equal(GEOSLength_r(geos, shared, &length), 1);
                assert_int_equal(table[a * fabrics + b].quilt != NULL,
                                 length > 1e-6);
                assert_int_equal(table[b * fabrics + a].quilt != NULL,
                                 length > 1e-6);
                GEOSGeom_destroy_r(geos, shared);
                GEOSGeom_destroy_r(geos, other);
                GEOSGeom_destroy_r(geos, one);
            }
    }
}

static void test_samples(void **state)
{
    static const char *const paths[] = {
        "samples/turning-lamp.xml", "samples/vane-harbor.xml",
        "samples/gull-rock.xml", "tests/mutants/triangles.xml"};
    GEOSContextHandle_t geos = geometry_start();
    for (size_t i = 0; i < UNIT_COUNT(paths); i++) {
        struct arena *arena = *state;
        const struct file_content file = file_read(arena, paths[i]);
        assert_int_equal(file.fault, FILE_OK);
        const struct small s =
            sewn(arena, arena_copy(arena, file.bytes, file.length));
        assert_int_equal(small_count(&s, DIAG_CONTRAST), 0);
        compare_with_geos(geos, arena, &s);
    }
    GEOS_finish_r(geos);
}

/* ---- how often it is told ---- */

#define SIDE(first, second) \
    "<row>" PATCH(first, TWO_BY_TWO) PATCH(second, TWO_BY_TWO) "</row>"

#define LOW(first, second)                           \
    "<row>" PATCH(first, "width=\"1\" height=\"1\"") \
        PATCH(second, "width=\"1\"") "</row>"

/* One colorway of two; and of two quilts the first in which they meet,
 * though they meet further up in a later one. */
static void test_one_remark(void **state)
{
    struct small s =
        sewn(*state, HEAD WAY("noon", "#1d2540", "#d9552b", "#f2cf63")
                         WAY("dusk", "#808080", "#828282", "#f2cf63")
                             QUILT("one", SIDE("night", "glow"))
                                 QUILT("two", SIDE("night", "flame"))
                                     QUILT("three", LOW("flame", "night")) END);
    assert_int_equal(small_count(&s, DIAG_CONTRAST), 1);
    const struct diagnostic *d =
        expect_at(&s, DIAG_CONTRAST, "#828282", "#828282");
    assert_true(says(d, "from the top of `two`"));
    assert_int_equal(diag_entry(DIAG_CONTRAST)->level, DIAG_REMARK);
}

/* Cloths stand in any order; the second is the later one. */
static void test_second_is_the_later(void **state)
{
    const struct small s =
        sewn(*state, HEAD "<colorway id=\"dusk\">" CLOTH("glow", "#f2cf63")
                         CLOTH("flame", "#828282")
                             CLOTH("night", "#808080") "</colorway>" QUILT(
                                 "mat", SIDE("night", "flame")) END);
    assert_true(says(expect_at(&s, DIAG_CONTRAST, "#808080", "#808080"),
                     "`night` can hardly be told from `flame`"));
}

/* One cloth that plays two roles is meant so. */
static void test_one_cloth_in_two_roles(void **state)
{
#define ROLES(code)                                                            \
    HEAD                                                                       \
        "<colorway id=\"dusk\">"                                               \
        "<cloth fabric=\"night\" name=\"Ash\" code=\"7\" color=\"#808080\"/>"  \
        "<cloth fabric=\"flame\" name=\"Ash\" code=\"" code                    \
        "\" color=\"#808080\"/>" CLOTH("glow", "#f2cf63") "</colorway>" QUILT( \
            "mat", SIDE("night", "flame")) END
    assert_int_equal(remarks(*state, ROLES("7")), 0);
    assert_int_equal(remarks(*state, ROLES("8")), 1);
}

/* A row of so many fabrics, two greys in turns: one pair fewer. */
static size_t remarks_of_row(struct arena *arena, int fabrics, bool trial)
{
    struct buffer text = {.arena = arena};
    buffer_text(&text, "<pattern xmlns=\"urn:seamwright:pattern:1\" "
                       "id=\"small\" title=\"Small\">\n<fabrics>");
    for (int i = 0; i < fabrics; i++)
        buffer_printf(&text, "<fabric id=\"f%d\"/>", i);
    buffer_text(&text, "</fabrics><colorway id=\"dusk\">\n");
    for (int i = 0; i < fabrics; i++)
        buffer_printf(&text, "<cloth fabric=\"f%d\" color=\"#%s\"/>", i,
                      i % 2 == 0 ? "808080" : "828282");
    buffer_text(&text, "</colorway><quilt id=\"mat\"><row>\n");
    for (int i = 0; i < fabrics; i++)
        buffer_printf(&text, "<patch fabric=\"f%d\" " TWO_BY_TWO "/>", i);
    buffer_text(&text, "</row></quilt></pattern>\n");
    struct small s = small_whole(arena, text.bytes);
    s.run->trial = trial;
    small_finish(&s);
    expect_clean(&s);
    return small_count(&s, DIAG_CONTRAST);
}

static void test_limits(void **state)
{
    assert_int_equal(remarks_of_row(*state, 5, false), 4);
    assert_int_equal(remarks_of_row(*state, 5, true), 0);
    assert_int_equal(remarks_of_row(*state, 101, false), 100);
    assert_int_equal(remarks_of_row(*state, 102, false), 100);
    assert_int_equal(remarks_of_row(*state, 200, false), 100);
    assert_int_equal(remarks_of_row(*state, 201, false), 0);
}

/* ---- the help ---- */

/* ensures: the color that the help offers, which is `what`. */
static const char *offered(struct arena *arena, const struct diagnostic *d,
                           const char *what)
{
    assert_non_null(d->help);
    const char *at = strstr(d->help, what);
    assert_non_null(at);
    return arena_copy(arena, at - strlen("#rrggbb "), strlen("#rrggbb"));
}

/* Three in a row, flame between the others; its cloth is the last. */
static struct small three(struct arena *arena, const char *night,
                          const char *flame, const char *glow)
{
    return sewn(
        arena,
        arena_printf(
            arena,
            HEAD
            "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"%s\"/>\n"
            "<cloth fabric=\"glow\" color=\"%s\"/>\n"
            "<cloth fabric=\"flame\" color=\"%s\"/></colorway>\n" QUILT(
                "mat",
                "<row>" PATCH("night", TWO_BY_TWO) PATCH("flame", TWO_BY_TWO)
                    PATCH("glow", TWO_BY_TWO) "</row>") END,
            night, glow, flame));
}

/* Of two fabrics, by the definition that tests/base holds to the standard. */
static double contrast_in(const struct small *s, int fabric, int other)
{
    const struct bolt *a = &s->design->colorways.items[0].bolts[fabric];
    const struct bolt *b = &s->design->colorways.items[0].bolts[other];
    return color_contrast(
        color_luminance((struct srgb){a->red, a->green, a->blue}),
        color_luminance((struct srgb){b->red, b->green, b->blue}));
}

/* What is offered for flame leaves nothing to say of it, also where glow lies
 * just beside it; and where nothing lies there it is but a step away. */
static void test_help_holds(void **state)
{
    static const struct {
        const char *night, *flame, *glow;
    } cases[] = {{"#808080", "#828282", "#f2cf63"},
                 {"#808080", "#828282", "#898989"},
                 {"#808080", "#828282", "#767676"},
                 {"#b8683c", "#708347", "#7b8f50"},
                 {"#d9552b", "#d9552b", "#f2cf63"}};
    static const char *const ways[] = {"(lighter)", "(darker)"};
    struct arena *arena = *state;
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s =
            three(arena, cases[i].night, cases[i].flame, cases[i].glow);
        const struct diagnostic *d =
            expect_at(&s, DIAG_CONTRAST, "\"flame\" color", cases[i].flame);
        for (size_t w = 0; w < UNIT_COUNT(ways); w++) {
            const struct small mended =
                three(arena, cases[i].night, offered(arena, d, ways[w]),
                      cases[i].glow);
            assert_int_equal(small_count(&mended, DIAG_CONTRAST), 0);
            assert_true(contrast_in(&mended, 0, 1) >= 1.12);
        }
    }
}

/* Beside white there is nothing lighter, beside black nothing darker. */
static void test_help_at_the_ends(void **state)
{
    struct small s = side_by_side(*state, "#fafafa", "#ffffff");
    const struct diagnostic *d =
        expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#ffffff");
    assert_null(strstr(d->help, "lighter"));
    assert_non_null(strstr(d->help, "(darker) is told from all that it meets"));
    s = side_by_side(*state, "#050505", "#000000");
    d = expect_at(&s, DIAG_CONTRAST, "\"flame\" color", "#000000");
    assert_null(strstr(d->help, "darker"));
    assert_non_null(strstr(d->help, "`flame` like #"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_limits_of_likeness),
        cmocka_unit_test(test_pairs_that_meet),
        cmocka_unit_test(test_where_they_meet),
        cmocka_unit_test(test_whose_seam),
        cmocka_unit_test(test_seam_of_a_point),
        cmocka_unit_test(test_leftmost_is_told),
        cmocka_unit_test(test_border_is_told),
        cmocka_unit_test(test_samples),
        cmocka_unit_test(test_one_remark),
        cmocka_unit_test(test_second_is_the_later),
        cmocka_unit_test(test_one_cloth_in_two_roles),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_help_holds),
        cmocka_unit_test(test_help_at_the_ends),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
