/* Pictures told as polygons: their corners may run either way round. */
#include "../resolve/small.h"

/* An L of night around a square of flame, in a grid of 4. */
static struct small painted(struct arena *arena, const char *l,
                            const char *square)
{
    struct small s = small_solve(
        arena, arena_printf(arena,
                            "<block id=\"pier\" grid=\"4\"><column><row>"
                            "<patch fabric=\"flame\" width=\"2\" height=\"2\"/>"
                            "<patch fabric=\"night\"/></row>"
                            "<patch fabric=\"night\" height=\"2\"/></column>"
                            "<picture><shape fabric=\"night\" points=\"%s\"/>"
                            "<shape fabric=\"flame\" points=\"%s\"/></picture>"
                            "</block><quilt id=\"throw\">"
                            "<use block=\"pier\" finished=\"8\"/></quilt>",
                            l, square));
    small_finish(&s);
    return s;
}

static const char *const ls[] = {"2,0 4,0 4,4 0,4 0,2 2,2",
                                 "2,2 0,2 0,4 4,4 4,0 2,0"};
static const char *const squares[] = {"0,0 2,0 2,2 0,2", "0,2 2,2 2,0 0,0"};

static void test_either_way_round(void **state)
{
    for (int i = 0; i < 4; i++) {
        const struct small s = painted(*state, ls[i / 2], squares[i % 2]);
        expect_clean(&s);
        assert_non_null(s.sewn);
    }
}

/* The L the other way up leaves the square at another corner. */
static void test_another_shape_is_told(void **state)
{
    static const char *const others[] = {"0,0 2,0 2,2 4,2 4,4 0,4",
                                         "0,4 4,4 4,2 2,2 2,0 0,0"};
    static const char *const corners[] = {"2,0 4,0 4,2 2,2", "2,2 4,2 4,0 2,0"};
    for (int i = 0; i < 4; i++) {
        const struct small s = painted(*state, others[i / 2], corners[i % 2]);
        assert_true(small_errors(&s) > 0);
        assert_null(s.sewn);
    }
}

/* What is painted later lies on what was there: a square on all of the block,
 * or on an L that reaches under it. Nothing is left bare. */
static void test_painted_over(void **state)
{
    static const char *const under[] = {"0,0 4,0 4,4 0,4", "0,4 4,4 4,0 0,0",
                                        "1,0 4,0 4,4 0,4 0,1 1,1",
                                        "1,1 0,1 0,4 4,4 4,0 1,0"};
    for (int i = 0; i < 8; i++) {
        const struct small s = painted(*state, under[i / 2], squares[i % 2]);
        expect_clean(&s);
        assert_non_null(s.sewn);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_either_way_round),
        cmocka_unit_test(test_another_shape_is_told),
        cmocka_unit_test(test_painted_over),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
