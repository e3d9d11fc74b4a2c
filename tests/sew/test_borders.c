/* Borders are sewn: strips, corners, seams and pressing, against a second
 * telling with GEOS and against numbers worked by hand. */
#include "geometry.h"

/* A center of 6 by 4 with borders inside the quilt. */
static struct small quilt_of(struct arena *arena, const char *borders)
{
    return small_whole(
        arena,
        arena_printf(
            arena,
            SMALL_HEAD
            "<block id=\"mark\" grid=\"2\"><patch fabric=\"glow\" width=\"2\" "
            "height=\"2\"><corner at=\"top-left\" fabric=\"flame\" size=\"1\"/>"
            "</patch></block><quilt id=\"throw\"><patch fabric=\"night\" "
            "width=\"6\" height=\"4\"/>%s</quilt></pattern>",
            borders));
}

static const struct sewn_quilt *sewn_of(struct small *s)
{
    s->sized = solve_design(s->run, s->design);
    if (diag_count(s->run, DIAG_ERROR) > 0)
        fail_msg("the source has errors");
    s->sewn = sew_design(s->run, s->sized);
    return &s->sewn->quilts.items[0];
}

static const struct heap *border_heap(const struct sewn_quilt *quilt, size_t i)
{
    return &quilt->heaps.items[quilt->borders.items[i].heap];
}

static void expect_strip(const struct sewn_quilt *quilt, size_t heap,
                         int64_t width, int64_t height, size_t count)
{
    const struct heap *strip = &quilt->heaps.items[heap];
    assert_int_equal(strip->technique, TECHNIQUE_CUT);
    assert_true(rational_equal(strip->width, rational_whole(width)));
    assert_true(rational_equal(strip->height, rational_whole(height)));
    assert_int_equal(strip->count, count);
}

/* The sides are as long as the center, the ends reach over them; the other way
 * round where the ends come first (published by several teachers). */
static void test_butted(void **state)
{
    struct small s = quilt_of(*state, "<border fabric=\"flame\" width=\"2\"/>");
    const struct sewn_quilt *quilt = sewn_of(&s);
    assert_int_equal(quilt->borders.count, 1);
    expect_strip(quilt, quilt->borders.items[0].side, 2, 4, 2);
    expect_strip(quilt, quilt->borders.items[0].end, 10, 2, 2);
    s = quilt_of(*state,
                 "<border fabric=\"flame\" width=\"2\" first=\"ends\"/>");
    quilt = sewn_of(&s);
    expect_strip(quilt, quilt->borders.items[0].side, 2, 8, 2);
    expect_strip(quilt, quilt->borders.items[0].end, 6, 2, 2);
    assert_true(rational_equal(quilt->width, rational_whole(10)));
    assert_true(rational_equal(quilt->height, rational_whole(8)));
}

/* How many seams of the top lie on a line, and whether they are pressed to
 * (x, y). */
static size_t seams_on(const struct sewn_quilt *quilt, bool level, int64_t at,
                       int x, int y)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->cloth->seams.count; i++) {
        const struct seam *seam = &quilt->cloth->seams.items[i];
        const struct rational line = rational_whole(at);
        const bool on = level ? rational_equal(seam->from.y, line) &&
                                    rational_equal(seam->to.y, line)
                              : rational_equal(seam->from.x, line) &&
                                    rational_equal(seam->to.x, line);
        if (!on)
            continue;
        count++;
        assert_int_equal(seam->x, x);
        assert_int_equal(seam->y, y);
    }
    return count;
}

/* There is a ditch beside a border on all four sides. */
static void test_seams(void **state)
{
    struct small s = quilt_of(*state, "<border fabric=\"flame\" width=\"2\"/>");
    const struct sewn_quilt *quilt = sewn_of(&s);
    assert_int_equal(seams_on(quilt, false, 2, -1, 0), 1);
    assert_int_equal(seams_on(quilt, false, 8, 1, 0), 1);
    assert_int_equal(seams_on(quilt, true, 2, 0, -1), 1);
    assert_int_equal(seams_on(quilt, true, 6, 0, 1), 1);
    s = quilt_of(*state,
                 "<border fabric=\"flame\" width=\"2\" press=\"open\"/>");
    quilt = sewn_of(&s);
    assert_int_equal(seams_on(quilt, false, 2, 0, 0), 1);
    assert_int_equal(seams_on(quilt, true, 6, 0, 0), 1);
}

/* What is told to be at a point of the quilt, by its cloth. */
static int fabric_at(const struct sewn_quilt *quilt, double x, double y)
{
    for (size_t i = 0; i < quilt->cloth->faces.count; i++) {
        const struct face *face = &quilt->cloth->faces.items[i];
        bool left = true, right = true;
        for (size_t k = 0; k < face->count; k++) {
            const struct vertex p = face->points[k];
            const struct vertex q = face->points[(k + 1) % face->count];
            const double px = rational_double(p.x), py = rational_double(p.y);
            const double side = (rational_double(q.x) - px) * (y - py) -
                                (rational_double(q.y) - py) * (x - px);
            left &= side >= 0;
            right &= side <= 0;
        }
        if (left || right)
            return face->fabric;
    }
    return NO_FABRIC;
}

/* One piece is turned so that each corner looks at the center as the top left
 * one does; four lie as they are written. */
static void test_corner_blocks(void **state)
{
    struct small s = quilt_of(*state, "<border fabric=\"night\" width=\"2\" "
                                      "corners=\"blocks\"><use "
                                      "block=\"mark\"/></border>");
    const struct sewn_quilt *quilt = sewn_of(&s);
    expect_strip(quilt, quilt->borders.items[0].side, 2, 4, 2);
    expect_strip(quilt, quilt->borders.items[0].end, 6, 2, 2);
    assert_int_equal(border_heap(quilt, 0)->actions.count, 3);
    /* The flame is at the outer corner everywhere: 10 by 8. */
    assert_int_equal(fabric_at(quilt, 0.2, 0.2), 1);
    assert_int_equal(fabric_at(quilt, 9.8, 0.2), 1);
    assert_int_equal(fabric_at(quilt, 9.8, 7.8), 1);
    assert_int_equal(fabric_at(quilt, 0.2, 7.8), 1);
    assert_int_equal(fabric_at(quilt, 8.2, 1.8), 2);
    s = quilt_of(*state,
                 "<border fabric=\"night\" width=\"2\" corners=\"blocks\">"
                 "<use block=\"mark\"/><use block=\"mark\"/><use "
                 "block=\"mark\" turn=\"180\"/><patch fabric=\"flame\"/>"
                 "</border>");
    quilt = sewn_of(&s);
    assert_int_equal(fabric_at(quilt, 0.2, 0.2), 1);
    assert_int_equal(fabric_at(quilt, 9.8, 0.2), 2);
    assert_int_equal(fabric_at(quilt, 8.2, 0.2), 1);
    assert_int_equal(fabric_at(quilt, 9.8, 7.8), 1);
    assert_int_equal(fabric_at(quilt, 0.2, 7.8), 1);
    assert_int_equal(fabric_at(quilt, 1.8, 6.2), 1);
}

/* Seams and states of each action: what is laid apart becomes one, and the
 * faces of the last state are the heap's cloth. */
static void test_states(void **state)
{
    struct small s = quilt_of(*state, "<border fabric=\"flame\" width=\"1\"/>"
                                      "<border fabric=\"glow\" width=\"2\" "
                                      "corners=\"blocks\"><patch "
                                      "fabric=\"night\"/></border>");
    const struct sewn_quilt *quilt = sewn_of(&s);
    assert_int_equal(quilt->borders.count, 2);
    static const size_t seams[2][3] = {{2, 2, 0}, {2, 4, 2}};
    for (size_t b = 0; b < 2; b++) {
        const struct heap *heap = border_heap(quilt, b);
        assert_int_equal(heap->actions.count, b == 0 ? 2 : 3);
        for (size_t i = 0; i < heap->actions.count; i++) {
            const struct action *action = &heap->actions.items[i];
            assert_string_equal(action->operation->name, "join-border");
            assert_int_equal(action->seams.count, seams[b][i]);
            assert_int_equal(action->after.presses.count, seams[b][i]);
        }
        const struct state *last =
            &heap->actions.items[heap->actions.count - 1].after;
        assert_int_equal(last->faces.count, heap->cloth->faces.count);
    }
}

/* A strip is never the same heap as a piece of its size. */
static void test_strip_and_piece(void **state)
{
    struct small s = quilt_of(*state, "<border fabric=\"night\" width=\"6\" "
                                      "corners=\"blocks\"><patch "
                                      "fabric=\"night\"/></border>");
    const struct sewn_quilt *quilt = sewn_of(&s);
    const struct sewn_border *border = &quilt->borders.items[0];
    assert_int_equal(quilt->heaps.items[border->end].count, 2);
    assert_string_equal(quilt->heaps.items[border->end].of.cut.label, "A4");
    assert_string_equal(quilt->heaps.items[border->side].of.cut.label, "A3");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_butted),
        cmocka_unit_test(test_seams),
        cmocka_unit_test(test_corner_blocks),
        cmocka_unit_test(test_states),
        cmocka_unit_test(test_strip_and_piece),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
