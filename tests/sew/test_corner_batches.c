/* Squares that are flipped at one go, against the same squares sewn one after
 * the other: other steps, one cloth. GEOS compares them; the areas are worked
 * out by hand. */
#include "geometry.h"

static const char *const places[] = {"top-left", "top-right", "bottom-right",
                                     "bottom-left"};

/* Two corners of these sizes on a patch of 8, in two fabrics. Other methods
 * force one after the other. */
static const struct heap *two_corners(struct arena *arena, size_t first,
                                      size_t second, const char *sizes[2],
                                      const char *second_method)
{
    struct small s = small_sew(
        arena,
        arena_printf(arena,
                     "<quilt id=\"throw\"><patch fabric=\"night\" width=\"8\" "
                     "height=\"8\"><corner at=\"%s\" fabric=\"flame\" "
                     "size=\"%s\"/><corner at=\"%s\" fabric=\"glow\" "
                     "size=\"%s\" method=\"%s\"/></patch></quilt>",
                     places[first], sizes[0], places[second], sizes[1],
                     second_method));
    assert_non_null(s.sewn);
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    return &quilt->heaps.items[quilt->top];
}

static double fabric_area(GEOSContextHandle_t geos, const struct cloth *cloth,
                          int fabric)
{
    GEOSGeometry *shape = fabric_geometry(geos, cloth, fabric);
    const double area = geometry_area(geos, shape);
    GEOSGeom_destroy_r(geos, shape);
    return area;
}

/* Squares on opposite corners are laid at one go up to where they would lie on
 * each other; tips may meet. Neighbors keep two seams apart. Whatever the
 * steps, each fabric has half of its square, less what the later one covers. */
static void test_at_one_go_as_one_after_the_other(void **state)
{
    static const struct {
        const char *sizes[2];
        bool opposite, neighbors; /* at one go */
        bool apart;               /* no cloth lies on the other square's */
    } cases[] = {{{"2", "3"}, true, true, true},
                 {{"3 1/2", "4"}, true, true, true},
                 {{"3 3/4", "4"}, true, false, true},
                 {{"4", "4"}, true, false, true},
                 {{"5", "4"}, false, false, false}};
    GEOSContextHandle_t geos = geometry_start();
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        for (size_t n = 0; n < 16; n++) {
            const size_t first = n % 4, second = n / 4;
            if (first == second)
                continue;
            const char *sizes[2] = {cases[i].sizes[0], cases[i].sizes[1]};
            const bool opposite = (first + 2) % 4 == second;
            const struct heap *batch =
                two_corners(*state, first, second, sizes, "drawn");
            const struct heap *apart =
                two_corners(*state, first, second, sizes, "cut-first");
            const bool at_once =
                opposite ? cases[i].opposite : cases[i].neighbors;
            assert_int_equal(batch->actions.count, at_once ? 1 : 2);
            assert_int_equal(apart->actions.count, 2);
            assert_close(cloth_difference(geos, batch->cloth, apart->cloth, 3),
                         0);
            if (!cases[i].apart)
                continue;
            double wanted[2];
            for (int k = 0; k < 2; k++) {
                double whole = 0, up = 0, down = 1;
                if (sscanf(sizes[k], "%lf %lf/%lf", &whole, &up, &down) < 2)
                    up = 0;
                wanted[k] = (whole + up / down) * (whole + up / down) / 2;
            }
            assert_close(fabric_area(geos, batch->cloth, 1), wanted[0]);
            assert_close(fabric_area(geos, batch->cloth, 2), wanted[1]);
        }
    GEOS_finish_r(geos);
}

/* The lower corner of what is laid at one go is not covered by the other: each
 * flap shows its whole triangle, in its own corner. */
static void test_each_flap_lies_in_its_corner(void **state)
{
    static const double x[] = {0.5, 7.5, 7.5, 0.5}, y[] = {0.5, 0.5, 7.5, 7.5};
    GEOSContextHandle_t geos = geometry_start();
    for (size_t first = 0; first < 4; first++) {
        const size_t second = (first + 2) % 4;
        const char *sizes[2] = {"4", "4"};
        const struct heap *heap =
            two_corners(*state, first, second, sizes, "drawn");
        for (int k = 0; k < 2; k++) {
            GEOSGeometry *flap = fabric_geometry(geos, heap->cloth, k + 1);
            GEOSGeometry *point = GEOSGeom_createPointFromXY_r(
                geos, x[k == 0 ? first : second], y[k == 0 ? first : second]);
            assert_int_equal(GEOSContains_r(geos, flap, point), 1);
            GEOSGeom_destroy_r(geos, flap);
            GEOSGeom_destroy_r(geos, point);
        }
    }
    GEOS_finish_r(geos);
}

/* Four squares at one go, and on all four corners of half the side in two. */
static void test_four_corners(void **state)
{
    static const struct {
        const char *size;
        size_t actions;
    } cases[] = {{"3", 1}, {"3 3/4", 1}, {"3 7/8", 2}, {"4", 2}};
    GEOSContextHandle_t geos = geometry_start();
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *size = cases[i].size;
        struct small s = small_sew(
            *state,
            arena_printf(
                *state,
                "<quilt id=\"throw\"><patch fabric=\"night\" width=\"8\" "
                "height=\"8\"><corner at=\"top-left\" fabric=\"flame\" "
                "size=\"%s\"/><corner at=\"bottom-right\" fabric=\"flame\" "
                "size=\"%s\"/><corner at=\"top-right\" fabric=\"flame\" "
                "size=\"%s\"/><corner at=\"bottom-left\" fabric=\"flame\" "
                "size=\"%s\"/></patch></quilt>",
                size, size, size, size));
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
        const struct heap *heap = &quilt->heaps.items[quilt->top];
        assert_int_equal(heap->actions.count, cases[i].actions);
        const double side = rational_double(heap->inputs.items[2].x);
        assert_close(fabric_area(geos, heap->cloth, 1),
                     2 * (8 - side) * (8 - side));
    }
    GEOS_finish_r(geos);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_at_one_go_as_one_after_the_other),
        cmocka_unit_test(test_each_flap_lies_in_its_corner),
        cmocka_unit_test(test_four_corners),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
