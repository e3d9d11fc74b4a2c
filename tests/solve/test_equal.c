/* Cells that are equal because their row, column or grid says so. */
#include "../resolve/small.h"
#include "solver.h"

#define UNIT(inside)                                             \
    "<unit id=\"u\" width=\"12\" height=\"6\">" inside "</unit>" \
    "<quilt id=\"throw\"><use unit=\"u\"/></quilt>"

static void expect_size(const struct small *s, const char *id, int64_t width,
                        int64_t height)
{
    const size_t index = small_piece(s, id)->index;
    assert_true(rational_equal(s->sized->width[index], rational_whole(width)));
    assert_true(
        rational_equal(s->sized->height[index], rational_whole(height)));
}

/* The size of the whole, or of one cell; a grid needs no other. */
static void test_sizes(void **state)
{
    static const struct {
        const char *body;
        int64_t width, height; /* of each cell */
    } cases[] = {
        {UNIT("<row equal=\"yes\"><patch id=\"a\" fabric=\"night\"/><patch "
              "id=\"b\" fabric=\"glow\"/><patch fabric=\"night\"/></row>"),
         4, 6},
        {UNIT("<column equal=\"yes\"><patch id=\"a\" fabric=\"night\"/><patch "
              "id=\"b\" fabric=\"glow\"/></column>"),
         12, 3},
        {UNIT("<grid across=\"4\" down=\"3\" equal=\"yes\"><patch id=\"a\" "
              "fabric=\"night\" times=\"7\"/><patch id=\"b\" fabric=\"glow\" "
              "times=\"5\"/></grid>"),
         3, 2},
        {"<quilt id=\"throw\"><grid across=\"2\" down=\"2\" "
         "equal=\"yes\"><patch id=\"a\" fabric=\"night\" width=\"5\"/><patch "
         "fabric=\"night\"/><patch id=\"b\" fabric=\"glow\" "
         "height=\"7\"/><patch fabric=\"night\"/></grid></quilt>",
         5, 7},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(*state, cases[i].body);
        expect_clean(&s);
        assert_int_equal(small_count(&s, DIAG_RULER), 0);
        expect_size(&s, "a", cases[i].width, cases[i].height);
        expect_size(&s, "b", cases[i].width, cases[i].height);
    }
}

/* `no` says nothing. */
static void test_no(void **state)
{
    const struct small s = small_solve(
        *state, UNIT("<row equal=\"no\"><patch id=\"a\" fabric=\"night\" "
                     "width=\"5\"/><patch id=\"b\" fabric=\"glow\"/></row>"));
    expect_clean(&s);
    expect_size(&s, "a", 5, 6);
    expect_size(&s, "b", 7, 6);
}

/* A cell that a map turns is measured as it lies. */
static void test_turned(void **state)
{
    const struct small s = small_solve(
        *state, UNIT("<grid across=\"3\" down=\"1\" equal=\"yes\"><patch "
                     "id=\"a\" key=\"a\" fabric=\"night\"/><patch id=\"b\" "
                     "key=\"b\" fabric=\"glow\"/><map>a b.90 a</map></grid>"));
    expect_clean(&s);
    expect_size(&s, "a", 4, 6);
    expect_size(&s, "b", 6, 4);
}

static bool has_note_at(const struct diagnostic *d, uint32_t place)
{
    for (size_t i = 0; i < d->notes.count; i++)
        if (d->notes.items[i].span.start == place)
            return true;
    return false;
}

/* Both places are told, and `equal` between them. */
static void test_contradictions(void **state)
{
    struct small s = small_solve(
        *state,
        UNIT("<row equal=\"yes\"><patch fabric=\"night\" "
             "width=\"5\"/><patch fabric=\"glow\" width=\"7\"/></row>"));
    const struct diagnostic *d =
        expect_at(&s, DIAG_SEAM_SUM, "width=\"7\"", "7");
    assert_true(has_note_at(d, small_place(&s, "equal=\"yes\"", "yes")));
    assert_true(has_note_at(d, small_place(&s, "width=\"5\"", "5\"")));
    s = small_solve(*state,
                    UNIT("<column equal=\"yes\"><patch fabric=\"night\" "
                         "height=\"4\"/><patch fabric=\"glow\"/></column>"));
    d = expect_only(&s, DIAG_SEAM_SUM, "height=\"4\"", "4");
    assert_true(has_note_at(d, small_place(&s, "equal=\"yes\"", "yes")));
    assert_string_equal(d->replacement, "3");
}

/* A third of 10 is told once, at `equal`; one that was written is meant, and of
 * squares that no ruler cuts the grid was told. */
static void test_ruler(void **state)
{
    static const char *const thirds =
        "<quilt id=\"throw\"><row equal=\"yes\" width=\"10\" height=\"4\">"
        "<patch fabric=\"night\"%s/><patch fabric=\"glow\"/><patch "
        "fabric=\"night\"/></row></quilt>";
    struct small s = small_solve(*state, arena_printf(*state, thirds, ""));
    expect_clean(&s);
    expect_at(&s, DIAG_RULER, "equal=\"yes\"", "yes");
    assert_int_equal(small_count(&s, DIAG_RULER), 1);
    s = small_solve(*state, arena_printf(*state, thirds, " width=\"3 1/3\""));
    expect_clean(&s);
    assert_int_equal(small_count(&s, DIAG_RULER), 0);
    s = small_solve(
        *state, "<block id=\"b\" grid=\"3\"><row equal=\"yes\"><patch "
                "fabric=\"night\" times=\"2\"/><patch fabric=\"glow\"/></row>"
                "<picture>3*(2*n g\n)</picture></block><quilt id=\"throw\">"
                "<use block=\"b\" finished=\"10\"/></quilt>");
    expect_clean(&s);
    expect_at(&s, DIAG_RULER, "finished=\"10\"", "10");
    assert_int_equal(small_count(&s, DIAG_RULER), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes),  cmocka_unit_test(test_no),
        cmocka_unit_test(test_turned), cmocka_unit_test(test_contradictions),
        cmocka_unit_test(test_ruler),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
