/* Rows of triangles against a painter that knows no pieces: it tells the fabric
 * of each triangle of a lattice, by doubles. What it paints and what is sewn
 * are compared as polygons of GEOS. Random; ROWS=2000 in the environment makes
 * that many. And sizes, against published figures. */
#include <stdlib.h>

#include "buffer.h"
#include "geometry.h"

enum { MOST_ACROSS = 9, MOST_ROWS = 5 };

static unsigned next_random(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

struct rows {
    int across, down;
    bool first_down;
    int ends;   /* a fabric; -1: those of their neighbors */
    int eighth; /* the height of a row, in eighths of an inch */
    int fabric[MOST_ROWS][MOST_ACROSS];
    int places[MOST_ROWS][MOST_ACROSS]; /* of the piece that begins there */
};

static const char *const fabrics[] = {"night", "flame", "glow"};

static struct rows draw(unsigned *state)
{
    struct rows rows = {.across = 1 + (int)next_random(state, MOST_ACROSS),
                        .down = 1 + (int)next_random(state, MOST_ROWS),
                        .first_down = next_random(state, 2) == 1,
                        .ends = (int)next_random(state, 4) - 1,
                        .eighth = 8 + (int)next_random(state, 40)};
    for (int row = 0; row < rows.down; row++)
        for (int place = 0; place < rows.across;) {
            int places = 1 + (int)next_random(state, 3);
            if (places > rows.across - place)
                places = rows.across - place;
            const int fabric = (int)next_random(state, 3);
            rows.places[row][place] = places;
            for (int i = 0; i < places; i++)
                rows.fabric[row][place + i] = fabric;
            place += places;
        }
    return rows;
}

static const char *source_of(struct arena *arena, const struct rows *rows)
{
    struct buffer text = buffer_in(arena);
    buffer_printf(&text,
                  "<quilt id=\"mat\"><triangles across=\"%d\" down=\"%d\" "
                  "size=\"%d/8\" first=\"%s\" ",
                  rows->across, rows->down, rows->eighth,
                  rows->first_down ? "down" : "up");
    if (rows->ends >= 0)
        buffer_printf(&text, "ends=\"%s\"", fabrics[rows->ends]);
    buffer_text(&text, "><patch key=\"n\" fabric=\"night\"/><patch key=\"f\" "
                       "fabric=\"flame\"/><patch key=\"g\" fabric=\"glow\"/>"
                       "<map>");
    for (int row = 0; row < rows->down; row++) {
        for (int place = 0; place < rows->across;
             place += rows->places[row][place]) {
            buffer_printf(&text, "%c", "nfg"[rows->fabric[row][place]]);
            if (rows->places[row][place] > 1)
                buffer_printf(&text, ".%d", rows->places[row][place]);
            buffer_text(&text, " ");
        }
        buffer_text(&text, "\n");
    }
    buffer_text(&text, "</map></triangles></quilt>");
    return buffer_string(&text);
}

/* ---- the painter ---- */

/* Near enough that no area differs by 1e-9. */
static struct rational near_to(double value)
{
    return rational_make(llround(value * 1e13), INT64_C(10000000000000));
}

static struct face triangle(struct arena *arena, int fabric,
                            const double points[6])
{
    struct vertex *vertices = ARENA_ARRAY(arena, struct vertex, 3);
    for (int i = 0; i < 3; i++)
        vertices[i] =
            (struct vertex){near_to(points[2 * i]), near_to(points[2 * i + 1])};
    return (struct face){.fabric = fabric, .points = vertices, .count = 3};
}

/* Place -1 and place `across` are the ends: their triangles are cut by the
 * edge of the quilt. */
static struct cloth painting(struct arena *arena, const struct rows *rows)
{
    const double height = rows->eighth / 8.0, half = height / sqrt(3.0);
    const double width = half * (rows->across + 1);
    struct cloth cloth = {.width = near_to(width),
                          .height = near_to(height * rows->down)};
    for (int row = 0; row < rows->down; row++)
        for (int place = -1; place <= rows->across; place++) {
            const bool end = place < 0 || place == rows->across;
            const int beside = place < 0 ? 0 : rows->across - 1;
            const int fabric = !end              ? rows->fabric[row][place]
                               : rows->ends >= 0 ? rows->ends
                                                 : rows->fabric[row][beside];
            const bool down = rows->first_down != ((row + place + 2) % 2 == 1);
            const double tip = height * (down ? row + 1 : row);
            const double base = height * (down ? row : row + 1);
            const double left = fmax(half * place, 0.0);
            const double right = fmin(half * (place + 2), width);
            /* An end's tip lies on the edge, at the middle of its triangle. */
            const double points[6] = {left, base,  half * (place + 1),
                                      tip,  right, base};
            *LIST_ADD(arena, &cloth.faces) = triangle(arena, fabric, points);
        }
    return cloth;
}

static void test_rows_are_what_is_painted(void **state)
{
    const char *asked = getenv("ROWS");
    const int tries = asked == NULL ? 40 : atoi(asked);
    const GEOSContextHandle_t geos = geometry_start();
    unsigned random = 11;
    for (int i = 0; i < tries; i++) {
        struct arena *arena = arena_create();
        const struct rows rows = draw(&random);
        const struct small small = small_sew(arena, source_of(arena, &rows));
        expect_clean(&small);
        const struct cloth cloth = painting(arena, &rows);
        assert_close(cloth_difference(geos, small.sewn->quilts.items[0].cloth,
                                      &cloth, 3),
                     0);
        arena_destroy(arena);
    }
    GEOS_finish_r(geos);
    (void)state;
}

/* ---- published sizes ---- */

/* "Wanna Tri? Cutting triangles" (quilt-it, 2012): from 8 in strips, 13 across
 * and 10 rows make a quilt of 59 x 72 in, 16 across 72 x 72. Exact: 58.60,
 * 71.16 and 72.5. */
static void test_published_quilts(void **state)
{
    static const struct {
        int across;
        double width;
    } quilts[] = {{13, 58.601}, {16, 71.158}};
    for (size_t i = 0; i < UNIT_COUNT(quilts); i++) {
        const struct small small = small_sew(
            *state, arena_printf(*state,
                                 "<quilt id=\"mat\"><triangles across=\"%d\" "
                                 "down=\"10\" size=\"7 1/4\"><patch "
                                 "fabric=\"night\"/></triangles></quilt>",
                                 quilts[i].across));
        const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
        assert_true(fabs(rational_double(quilt->width) - quilts[i].width) <
                    0.001);
        assert_true(rational_equal(quilt->height, rational_make(145, 2)));
    }
}

static const struct heap *cut_of(const struct sewn_quilt *quilt,
                                 enum patch_shape shape)
{
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].technique == TECHNIQUE_CUT &&
            quilt->heaps.items[i].of.cut.shape == shape)
            return &quilt->heaps.items[i];
    return NULL;
}

/* Strips: finished height and 3/4 in for a triangle (J. Wickell, Rotary
 * cutting, 60 degree triangles), 1/2 in for a diamond (Rotary cutting, part 6).
 * A cut side is the finished one and 0.866, two seams times the root of 3
 * (derived). */
static void test_published_strips(void **state)
{
    const struct small small = small_sew(
        *state, "<quilt id=\"mat\"><triangles across=\"6\" down=\"1\" "
                "size=\"3\"><patch key=\"n\" fabric=\"night\"/><map>n n.2 n.3"
                "</map></triangles></quilt>");
    const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
    const struct cut_piece *triangle = &cut_of(quilt, PATCH_TRIANGLE)->of.cut;
    assert_true(rational_equal(triangle->height, rational_make(15, 4)));
    /* Triangles lie turned against each other: each takes half its side. */
    const double side = 3 * 2 / sqrt(3.0) + 0.8660254;
    assert_true(fabs(rational_double(triangle->strip->advance) - side / 2) <
                1e-6);
    const struct heap *diamond = cut_of(quilt, PATCH_DIAMOND_LEFT);
    assert_true(rational_equal(diamond->of.cut.height, rational_make(7, 2)));
    /* Parallel cuts are as far apart as the strip is wide (trade: a rhombus).
     */
    assert_true(
        fabs(rational_double(diamond->of.cut.strip->advance) * sqrt(3.0) / 2 -
             3.5) < 1e-9);
    const struct cut_piece *hexagon =
        &cut_of(quilt, PATCH_HALF_HEXAGON)->of.cut;
    assert_true(rational_equal(hexagon->height, rational_make(7, 2)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows_are_what_is_painted),
        cmocka_unit_test(test_published_quilts),
        cmocka_unit_test(test_published_strips),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
