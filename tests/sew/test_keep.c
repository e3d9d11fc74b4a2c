/* What stays of the work on a heap: all that was seen where a page is drawn,
 * the same cloth and the same counts where none is, and corners that several
 * faces show only once. */
#include "../resolve/small.h"

static const char quilt[] =
    "<unit id=\"wing\"><row> <patch fabric=\"night\" width=\"2\" height=\"2\">"
    " <corner at=\"top-left\" fabric=\"flame\" size=\"1\"/> </patch>"
    " <patch fabric=\"glow\" width=\"1\"/> </row></unit>"
    "<quilt id=\"mat\"><grid across=\"3\" down=\"2\"> <use unit=\"wing\"/> "
    "</grid>"
    " <border fabric=\"night\" width=\"1\"/> </quilt>";

static struct small sewn(struct arena *arena, bool unseen)
{
    struct small s = small_solve(arena, quilt);
    s.run->unseen = unseen;
    small_finish(&s);
    expect_clean(&s);
    assert_non_null(s.sewn);
    return s;
}

static size_t seen_in(const struct heap *heap)
{
    size_t faces = 0;
    for (size_t i = 0; i < heap->actions.count; i++)
        faces += heap->actions.items[i].before.faces.count +
                 heap->actions.items[i].after.faces.count;
    return faces;
}

static void expect_same_cloth(const struct cloth *a, const struct cloth *b)
{
    assert_int_equal(a->faces.count, b->faces.count);
    assert_int_equal(a->seams.count, b->seams.count);
    for (size_t i = 0; i < a->faces.count; i++) {
        const struct face x = a->faces.items[i], y = b->faces.items[i];
        assert_int_equal(x.fabric, y.fabric);
        assert_int_equal(x.count, y.count);
        assert_memory_equal(x.points, y.points, x.count * sizeof *x.points);
    }
}

static void unseen_work_makes_the_same(void **state)
{
    const struct small seen = sewn(*state, false), unseen = sewn(*state, true);
    const struct sewn_quilt *a = &seen.sewn->quilts.items[0];
    const struct sewn_quilt *b = &unseen.sewn->quilts.items[0];
    assert_int_equal(a->heaps.count, b->heaps.count);
    for (size_t i = 0; i < a->heaps.count; i++) {
        const struct heap *x = &a->heaps.items[i], *y = &b->heaps.items[i];
        assert_int_equal(x->count, y->count);
        assert_int_equal(x->actions.count, y->actions.count);
        expect_same_cloth(x->cloth, y->cloth);
        assert_int_equal(seen_in(y), 0);
        assert_int_equal(seen_in(x) > 0, x->technique != TECHNIQUE_CUT);
    }
    expect_same_cloth(a->cloth, b->cloth);
}

/* Is there a face of other points with the same corners? */
static bool doubled(const struct state *state, struct face face)
{
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct face other = state->faces.items[i].face;
        if (other.count == face.count && other.points != face.points &&
            memcmp(other.points, face.points,
                   face.count * sizeof *face.points) == 0)
            return true;
    }
    return false;
}

static void corners_are_kept_once(void **state)
{
    const struct small s = sewn(*state, false);
    const struct sewn_quilt *q = &s.sewn->quilts.items[0];
    size_t shared = 0;
    for (size_t i = 0; i < q->heaps.count; i++) {
        const struct heap *heap = &q->heaps.items[i];
        for (size_t k = 0; k < heap->actions.count; k++) {
            const struct action *action = &heap->actions.items[k];
            for (size_t f = 0; f < heap->cloth->faces.count; f++) {
                const struct face face = heap->cloth->faces.items[f];
                assert_false(doubled(&action->before, face));
                assert_false(doubled(&action->after, face));
                for (size_t a = 0; a < action->after.faces.count; a++)
                    shared +=
                        action->after.faces.items[a].face.points == face.points;
            }
        }
    }
    assert_true(shared > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(unseen_work_makes_the_same),
        cmocka_unit_test(corners_are_kept_once),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
