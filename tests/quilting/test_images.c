/* Symmetry that is stated, on every sample that is quilted: each stretch of the
 * plan, moved, lies on stretches of the plan, all along; areas that are filled
 * by eye go to areas that are filled alike. The check says so, and it says when
 * one line lies 1/64 in beside its place. */
#include <math.h>

#include "planned.h"

static const struct {
    unsigned told;
    enum symmetry which;
} symmetries[] = {{TOLD_LEFT_RIGHT, SYMMETRY_LEFT_RIGHT},
                  {TOLD_TOP_BOTTOM, SYMMETRY_TOP_BOTTOM},
                  {TOLD_HALF_TURN, SYMMETRY_HALF_TURN},
                  {TOLD_QUARTER_TURN, SYMMETRY_QUARTER_TURN},
                  {TOLD_RISING, SYMMETRY_RISING},
                  {TOLD_FALLING, SYMMETRY_FALLING}};

/* ---- the plan, moved ---- */

/* Where a point comes to, told here a second time. */
static struct spot moved(enum symmetry which, struct spot at, double width,
                         double height)
{
    switch (which) {
    case SYMMETRY_LEFT_RIGHT:
        return (struct spot){width - at.x, at.y};
    case SYMMETRY_TOP_BOTTOM:
        return (struct spot){at.x, height - at.y};
    case SYMMETRY_HALF_TURN:
        return (struct spot){width - at.x, height - at.y};
    case SYMMETRY_QUARTER_TURN:
        return (struct spot){width - at.y, at.x};
    case SYMMETRY_RISING:
        return (struct spot){width - at.y, height - at.x};
    case SYMMETRY_FALLING:
        return (struct spot){at.y, at.x};
    case SYMMETRY_SAME:
    case SYMMETRY_THREE_QUARTERS:
    case SYMMETRY_COUNT:
        break;
    }
    fail_msg("no symmetry that is stated");
    return at;
}

struct stretch {
    struct spot_line at;
    enum quilting_stage stage;
};
typedef LIST(struct stretch) stretches;

static stretches stretches_of(const struct quilter *quilter)
{
    stretches all = {0};
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++)
            *LIST_ADD(quilter->arena, &all) = (struct stretch){
                {line->points[k], line->points[(k + 1) % line->count]},
                line->stage};
    }
    return all;
}

static double to_stretch(struct spot at, struct spot_line s)
{
    const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y;
    const double square = dx * dx + dy * dy;
    const double along = (at.x - s.from.x) * dx + (at.y - s.from.y) * dy;
    const double t = square > 0 ? fmin(1, fmax(0, along / square)) : 0;
    return hypot(s.from.x + t * dx - at.x, s.from.y + t * dy - at.y);
}

/* Lies the spot on a stretch of the same stage? */
static bool is_stitched_at(const stretches *all, enum quilting_stage stage,
                           struct spot at)
{
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].stage == stage &&
            to_stretch(at, all->items[i].at) < 1e-5)
            return true;
    return false;
}

/* Asked at both ends of each stretch and at three places between them. */
static void assert_lines(const struct quilter *quilter, enum symmetry which)
{
    const stretches all = stretches_of(quilter);
    const double width = number_double(quilter->plan->quilt->width);
    const double height = number_double(quilter->plan->quilt->height);
    for (size_t i = 0; i < all.count; i++)
        for (int k = 0; k <= 4; k++) {
            const struct spot_line s = all.items[i].at;
            const struct spot at = {s.from.x + k / 4.0 * (s.to.x - s.from.x),
                                    s.from.y + k / 4.0 * (s.to.y - s.from.y)};
            if (!is_stitched_at(&all, all.items[i].stage,
                                moved(which, at, width, height)))
                fail_msg("%s: (%.4f, %.4f) has no image",
                         quilter->plan->quilt->definition->id, at.x, at.y);
        }
}

static void assert_areas(const struct quilter *quilter, enum symmetry which)
{
    const struct quilting_plan *plan = quilter->plan;
    const double width = number_double(plan->quilt->width);
    const double height = number_double(plan->quilt->height);
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct quilted_area *area = &plan->areas.items[i];
        const struct spot at = moved(which, area->label, width, height);
        size_t image = 0;
        while (image < plan->areas.count && !area_holds(quilter, image, at))
            image++;
        assert_true(image < plan->areas.count);
        assert_ptr_equal(area->fill, plan->areas.items[image].fill);
        assert_true(fabs(area->free - plan->areas.items[image].free) < 1e-6);
    }
}

/* ---- what the check says ---- */

static bool is_told(struct quilter *quilter)
{
    quilter->failed = false;
    quilter->plan->symmetry = quilter->plan->top_symmetry = 0;
    check_symmetry(quilter);
    return quilter->failed;
}

/* A line of each stage, moved by 1/64 in across its way, and a little along it,
 * as a level line that lies higher may still be its own image from left to
 * right. */
static void assert_moved_is_told(struct quilter *quilter)
{
    for (int stage = 0; stage < QUILTING_STAGES; stage++) {
        struct quilting_plan *plan = quilter->plan;
        size_t i = 0;
        while (i < plan->lines.count &&
               plan->lines.items[i].stage != (enum quilting_stage)stage)
            i++;
        if (i == plan->lines.count)
            continue;
        struct quilted_line *line = &plan->lines.items[i];
        const struct spot *before = line->points;
        struct spot *points =
            ARENA_ARRAY(quilter->arena, struct spot, line->count);
        const double dx = before[1].x - before[0].x;
        const double dy = before[1].y - before[0].y;
        const double across = 1.0 / 64 / hypot(dx, dy), along = across / 3;
        for (size_t k = 0; k < line->count; k++)
            points[k] =
                (struct spot){before[k].x - dy * across + dx * along,
                              before[k].y + dx * across + dy * along};
        line->points = points;
        assert_true(is_told(quilter));
        line->points = before;
    }
    assert_false(is_told(quilter));
}

static void look_at_images(struct small *small, size_t quilt, void *context)
{
    size_t *stated = context;
    const struct quilting *told =
        small->sewn->quilts.items[quilt].definition->quilting;
    struct definition definition;
    if (told == NULL || told->symmetry == 0)
        return;
    struct quilter *quilter = planned_quilter(small, quilt, &definition);
    for (size_t k = 0; k < UNIT_COUNT(symmetries); k++) {
        if ((told->symmetry & symmetries[k].told) == 0)
            continue;
        assert_lines(quilter, symmetries[k].which);
        assert_areas(quilter, symmetries[k].which);
        ++*stated;
    }
    assert_moved_is_told(quilter);
}

static void test_samples(void **state)
{
    (void)state;
    size_t stated = 0;
    planned_each(look_at_images, &stated);
    assert_true(stated >= 4);
}

/* ---- fillers ---- */

/* Night, flame, night: with these fillers at the left and at the right. */
static size_t errors_of(struct arena *arena, const char *left,
                        const char *right)
{
    struct small small = small_sew(
        arena,
        arena_printf(
            arena,
            "<quilt id=\"q\"><row><patch fabric=\"night\" width=\"4\" "
            "height=\"4\"/><patch fabric=\"flame\" width=\"4\"/>"
            "<patch fabric=\"night\" width=\"4\"/></row>"
            "<quilting symmetry=\"left-right\"><thread id=\"t\" "
            "match=\"night\"/><thread id=\"u\" match=\"flame\"/>"
            "<ditch thread=\"t\"/>"
            "<area fabric=\"night\" column=\"1\"><fill %s/></area>"
            "<area fabric=\"night\" column=\"3\"><fill %s/></area></quilting>"
            "</quilt>",
            left, right));
    expect_clean(&small);
    plan_quilting(small.run, small.sewn);
    return small_count(&small, DIAG_ASYMMETRIC);
}

static void test_fillers(void **state)
{
    const char *swirls = "with=\"swirls\" spacing=\"1\" thread=\"t\"";
    const char *others[] = {"with=\"swirls\" spacing=\"1/2\" thread=\"t\"",
                            "with=\"swirls\" spacing=\"1\" thread=\"u\"",
                            "with=\"pebbles\" spacing=\"1\" thread=\"t\"",
                            "with=\"lines\" spacing=\"1\" thread=\"t\"",
                            "with=\"none\""};
    assert_int_equal(errors_of(*state, swirls, swirls), 0);
    for (size_t i = 0; i < UNIT_COUNT(others); i++) {
        assert_int_equal(errors_of(*state, swirls, others[i]), 1);
        assert_int_equal(errors_of(*state, others[i], swirls), 1);
        assert_int_equal(errors_of(*state, others[i], others[i]), 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_samples),
                                       cmocka_unit_test(test_fillers)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
