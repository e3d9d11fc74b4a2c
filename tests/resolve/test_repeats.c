/* Pieces that say how often they lie in their row, column, diagonal or grid, up
 * to the heaps that they make. */
#include "small.h"

#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"
#define TWO                                        \
    "<patch fabric=\"night\" width=\"2\"/><patch " \
    "fabric=\"glow\" width=\"2\"/>"

/* A patch is one piece in several cells; a grid counts them all. */
static void test_one_piece(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<grid id=\"set\" across=\"3\" down=\"2\"><patch "
                      "id=\"tile\" fabric=\"night\" times=\"4\"/><patch "
                      "fabric=\"glow\" times=\"2\"/></grid>"));
    expect_clean(&s);
    const struct piece *set = small_piece(&s, "set");
    assert_int_equal(set->cells.count, 6);
    assert_int_equal(s.design->pieces.count, 3);
    assert_int_equal(s.design->repeats, 4);
    for (size_t i = 0; i < 6; i++) {
        assert_int_equal(set->cells.items[i].piece == small_piece(&s, "tile"),
                         i < 4);
        assert_ptr_equal(set->cells.items[i].piece->first,
                         set->cells.items[i].piece);
    }
}

/* Rows of a column know what lies beside them, and have the same cells. */
static void test_rows_in_turns(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<column id=\"set\"><patch fabric=\"night\" "
                      "height=\"1\"/><row id=\"band\" times=\"3\" "
                      "height=\"1\">" TWO "</row></column>"));
    expect_clean(&s);
    const struct piece *set = small_piece(&s, "set");
    assert_int_equal(set->cells.count, 4);
    for (size_t i = 1; i < 4; i++) {
        const struct piece *row = set->cells.items[i].piece;
        assert_ptr_equal(row->first, small_piece(&s, "band"));
        assert_int_equal(row == row->first, i == 1);
        assert_int_equal(row->second_row, i % 2 == 1);
        assert_ptr_equal(row->before, set->cells.items[i - 1].piece);
        assert_ptr_equal(row->after,
                         i == 3 ? NULL : set->cells.items[i + 1].piece);
        assert_ptr_equal(row->cells.items, row->first->cells.items);
    }
}

/* The sizes are those of one: what is left is shared out. */
static void test_one_size(void **state)
{
    const struct small s = small_solve(
        *state, QUILT("<column height=\"7\"><patch fabric=\"night\" "
                      "height=\"1\"/><row id=\"band\" times=\"3\">" TWO
                      "</row></column>"));
    expect_clean(&s);
    for (size_t i = 0; i < s.design->pieces.count; i++)
        if (s.design->pieces.items[i]->first == small_piece(&s, "band"))
            assert_true(rational_equal(s.sized->height[i], rational_whole(2)));
}

/* An id names all of them: rows that are pressed to and fro are two heaps, and
 * one step makes both, whose count is that of all. */
static void test_id_of_several(void **state)
{
    static const char *const body =
        "<block id=\"reel\" grid=\"4\"><column><row id=\"band\" "
        "times=\"%s\" height=\"1\">" TWO "</row></column><picture>%s"
        "</picture></block>" QUILT(
            "<use block=\"reel\" finished=\"8\"/>") "<assembly "
                                                    "of=\"reel\"><step "
                                                    "make=\"band\" "
                                                    "count=\"4\"><say>Sew <qty "
                                                    "of=\"band\"/>.</say></"
                                                    "step><step "
                                                    "make=\"reel\"/></"
                                                    "assembly>";
    struct small s =
        small_sew(*state, arena_printf(*state, body, "4", "4*(2*n 2*g\n)"));
    expect_clean(&s);
    const struct piece *band = small_piece(&s, "band");
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    size_t heaps = 0, rows = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->piece->first != band || heap->count == 0)
            continue;
        heaps++;
        rows += heap->count;
    }
    assert_int_equal(heaps, 2);
    assert_int_equal(rows, 4);
    assert_int_equal(piece_taken(quilt, band)->count, 4);
    /* One row less is another count. */
    s = small_sew(*state, arena_printf(*state, body, "3", "3*(2*n 2*g\n)"));
    assert_true(small_errors(&s) > 0);
}

/* Nothing blows up before the limit is told, and it is told once. */
static void test_too_many(void **state)
{
    const char *inside = "<patch fabric=\"night\" width=\"1\" height=\"1\" "
                         "count=\"3\" times=\"10000\"/>";
    for (size_t i = 0; i < 40; i++)
        inside = arena_printf(*state, "<%s times=\"10000\">%s</%s>",
                              i % 2 == 0 ? "row" : "column", inside,
                              i % 2 == 0 ? "row" : "column");
    const struct small s = small_solve(
        *state,
        arena_printf(*state, "<quilt id=\"throw\"><row>%s</row></quilt>",
                     inside));
    assert_int_equal(small_count(&s, DIAG_LIMIT) > 0, 1);
    assert_int_equal(small_count(&s, DIAG_STATEMENT), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_piece), cmocka_unit_test(test_rows_in_turns),
        cmocka_unit_test(test_one_size),  cmocka_unit_test(test_id_of_several),
        cmocka_unit_test(test_too_many),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
