/* The tops of all samples as the geometry of quilting sees them: every face has
 * a fabric, of which there is as much as was sewn, every seam has cloth on both
 * sides, and symmetries that are found hold for the cloth at random places. */
#include <math.h>
#include <stdlib.h>

#include "areas.h"
#include "planned.h"
#include "seams.h"

/* What of a convex face lies below `most` on one axis, or above 0. */
static size_t clip_axis(struct spot *points, size_t count, bool upright,
                        double sign, double most)
{
    struct spot kept[64];
    size_t left = 0;
    for (size_t i = 0; i < count; i++) {
        const struct spot p = points[i], q = points[(i + 1) % count];
        const double a = most - sign * (upright ? p.y : p.x);
        const double b = most - sign * (upright ? q.y : q.x);
        if (a >= 0)
            kept[left++] = p;
        if ((a > 0) != (b > 0) && a != b)
            kept[left++] = (struct spot){p.x + a / (a - b) * (q.x - p.x),
                                         p.y + a / (a - b) * (q.y - p.y)};
    }
    for (size_t i = 0; i < left; i++)
        points[i] = kept[i];
    return left;
}

static double area_on_top(const struct cloth *cloth, const struct face *face)
{
    struct spot points[64];
    size_t count = face->count;
    for (size_t i = 0; i < count; i++)
        points[i] = vertex_spot(face->points[i]);
    count = clip_axis(points, count, false, -1, 0);
    count = clip_axis(points, count, true, -1, 0);
    count = clip_axis(points, count, false, 1, rational_double(cloth->width));
    count = clip_axis(points, count, true, 1, rational_double(cloth->height));
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        const struct spot p = points[i], q = points[(i + 1) % count];
        sum += p.x * q.y - p.y * q.x;
    }
    return fabs(sum) / 2;
}

static void assert_fabrics(const struct ground *ground)
{
    double sewn[256] = {0}, found[256] = {0}, all = 0;
    const struct cloth *cloth = ground->cloth;
    assert_int_equal(ground->base->fault.kind, FAULT_NONE);
    for (size_t i = 0; i < cloth->faces.count; i++)
        sewn[cloth->faces.items[i].fabric] +=
            area_on_top(cloth, &cloth->faces.items[i]);
    for (size_t f = 0; f < ground->base->face_count; f++) {
        assert_true(ground->fabric[f] != NO_FABRIC);
        found[ground->fabric[f]] += ground->base->faces[f].area;
        all += ground->base->faces[f].area;
    }
    assert_true(fabs(all - rational_double(cloth->width) *
                               rational_double(cloth->height)) < 1e-6);
    for (size_t i = 0; i < 256; i++)
        assert_true(fabs(sewn[i] - found[i]) < 1e-6);
}

static void assert_seams(struct arena *arena, const struct ground *ground)
{
    const struct straight_seams seams = join_seams(arena, ground);
    double sewn = 0, joined = 0;
    for (size_t i = 0; i < ground->cloth->seams.count; i++) {
        const struct seam *seam = &ground->cloth->seams.items[i];
        const struct spot p = vertex_spot(seam->from);
        const struct spot q = vertex_spot(seam->to);
        sewn += hypot(q.x - p.x, q.y - p.y);
    }
    for (size_t i = 0; i < seams.count; i++)
        for (size_t k = 0; k < seams.items[i].count; k++) {
            const struct seam_part *part = &seams.items[i].parts[k];
            const struct spot p = vertex_spot(part->from);
            const struct spot q = vertex_spot(part->to);
            joined += hypot(q.x - p.x, q.y - p.y);
            assert_true(part->right != NO_FABRIC && part->left != NO_FABRIC);
        }
    assert_true(fabs(sewn - joined) < 1e-6);
}

static void assert_symmetries(struct arena *arena, const struct ground *ground,
                              struct unit_random *random)
{
    struct fault fault = {0};
    const unsigned held = top_symmetries(arena, ground, &fault);
    const double w = rational_double(ground->cloth->width);
    const double h = rational_double(ground->cloth->height);
    for (enum symmetry s = SYMMETRY_SAME; s < SYMMETRY_COUNT; s++)
        for (int i = 0; i < 500 && (held & SYMMETRY_BIT(s)); i++) {
            /* Odd parts, so that none falls on a seam. */
            const struct spot at = {
                w * (double)unit_below(random, 99991) / 99991 + 1e-5,
                h * (double)unit_below(random, 99991) / 99991 + 1.7e-5};
            const struct spot image = spot_moved(
                symmetry_motion(s, ground->cloth->width, ground->cloth->height),
                at);
            assert_int_equal(ground_fabric(ground, at),
                             ground_fabric(ground, image));
        }
}

struct looked {
    struct unit_random random;
    size_t tops;
};

static void look_at_top(struct small *small, size_t quilt, void *context)
{
    struct arena *arena = small->run->arena;
    struct looked *looked = context;
    const struct ground *ground =
        ground_of(arena, small->sewn->quilts.items[quilt].cloth);
    assert_fabrics(ground);
    assert_seams(arena, ground);
    assert_symmetries(arena, ground, &looked->random);
    looked->tops++;
}

static void test_samples(void **state)
{
    (void)state;
    struct looked looked = {.random = {99}};
    planned_each(look_at_top, &looked);
    assert_true(looked.tops >= 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_samples)};
    return cmocka_run_group_tests_name("quilting of samples", tests, NULL,
                                       NULL);
}
