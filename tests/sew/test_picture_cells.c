/* Seams that run inside the cells of a picture: no cell can show them, and the
 * message tells in how many cells the picture can be drawn. */
#include "../resolve/small.h"

#define PATCH(more) "<patch fabric=\"night\" " more "/>"
#define CORNER(at, size)                                                  \
    "<corner at=\"" at "\" fabric=\"flame\" size=\"" size "\"/>"
#define USED(size)                                                        \
    "<quilt id=\"throw\"><use block=\"star\" finished=\"" size "\"/></quilt>"

/* A picture of so many plain cells. */
static const char *plain(struct arena *arena, size_t across, size_t down)
{
    const char *text = "";
    for (size_t i = 0; i < across * down; i++)
        text = arena_printf(arena, "%sn%s", text,
                            (i + 1) % across == 0 ? "\n" : " ");
    return text;
}

static struct small compile(struct arena *arena, const char *grid,
                            const char *inside, const char *cells,
                            const char *picture, const char *used)
{
    struct small s = small_solve(
        arena, arena_printf(arena, "<block id=\"star\" %s>%s<picture%s>%s"
                            "</picture></block>%s", grid, inside, cells,
                            picture, used));
    small_finish(&s);
    return s;
}

static const struct {
    const char *grid, *inside, *used;
    size_t across, down, needs, high; /* cells */
} cases[] = {
    /* A corner of half a square. */
    {"grid=\"3\"", "<patch fabric=\"night\">" CORNER("top-left", "1/2")
     "</patch>", USED("6"), 3, 3, 6, 6},
    /* A line that begins and ends in the middle of a side. */
    {"grid=\"3\"", "<patch fabric=\"night\">" CORNER("top-left", "1 1/2")
     "</patch>", USED("6"), 3, 3, 2, 2},
    {"grid=\"2\"", "<patch fabric=\"night\">" CORNER("top-left", "1/2")
     CORNER("bottom-right", "2/3") "</patch>", USED("6"), 2, 2, 12, 12},
    {"grid=\"2 x 3\"", "<row>" PATCH("width=\"3/4\"")
     "<patch fabric=\"glow\"/></row>", USED("6 x 9"), 2, 3, 8, 12},
    /* Seams between two pieces of one cloth are not seen. */
    {"grid=\"2\"", "<row>" PATCH("width=\"1/3\"") PATCH("width=\"7/6\"")
     "<patch fabric=\"glow\"/></row>", USED("6"), 2, 2, 4, 4},
    /* Half-squares of 1 1/2: none of their corners lies on the squares. */
    {"grid=\"3\"", "<column><row><half-square size=\"1 1/2\" line=\"rising\" "
     "left=\"night\" right=\"glow\"/>" PATCH("") "</row>" PATCH("")
     "</column>", USED("6"), 3, 3, 2, 2},
    /* One quarter of a cell is night; a seam in the glow is not seen. */
    {"grid=\"3\"", "<row><column><quarter-square size=\"1 1/2\" top=\"night\" "
     "right=\"glow\" bottom=\"glow\" left=\"glow\"/>"
     "<patch fabric=\"glow\"/></column><column>"
     "<patch fabric=\"glow\" height=\"3/4\"/><patch fabric=\"glow\"/></column>"
     "</row>", USED("6"), 3, 3, 2, 2},
    /* No grid: a cell for each inch, here 5 of 9/10. */
    {"width=\"4 1/2\" height=\"6\"", "<column>" PATCH("height=\"3\"")
     "<patch fabric=\"glow\"/></column>",
     "<quilt id=\"throw\"><use block=\"star\"/></quilt>", 5, 6, 3, 4},
};

static void test_cells_that_it_needs(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        if (cases[i].grid[0] == 'w')
            continue; /* rows can be shown, see below */
        const struct small s = compile(
            *state, cases[i].grid, cases[i].inside, "",
            plain(*state, cases[i].across, cases[i].down), cases[i].used);
        const struct diagnostic *d =
            expect_only(&s, DIAG_PICTURE_SIZE, "<picture", "picture");
        assert_true(says(d, arena_printf(*state, "cells=\"%zu\"",
                                         cases[i].needs)));
    }
}

/* With the number that was told the picture can be read: whatever differs is a
 * mistake in it. With fewer it is told again. */
static void test_no_fewer_cells(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const size_t needs = cases[i].needs;
        for (size_t n = 1; n <= needs; n++) {
            if (n * cases[i].high % needs != 0)
                continue; /* cells that are not square */
            const struct small s = compile(
                *state, cases[i].grid, cases[i].inside,
                arena_printf(*state, " cells=\"%zu\"", n),
                plain(*state, n, n * cases[i].high / needs), cases[i].used);
            assert_true(small_errors(&s) > 0);
            const size_t told = small_count(&s, DIAG_PICTURE_SIZE);
            if (told != (n < needs))
                small_show(&s);
            assert_int_equal(told, n < needs);
        }
    }
}

/* The picture that the help asks for is the block. */
static void test_picture_in_those_cells(void **state)
{
    static const struct {
        size_t which;
        const char *cells, *picture;
    } drawn[] = {
        {0, " cells=\"6\"",
         "f/n n n n n n\n n n n n n n\n n n n n n n\n"
         "n n n n n n\n n n n n n n\n n n n n n n\n"},
        {1, " cells=\"2\"", "f/n n\n n n\n"},
        {4, " cells=\"4\"",
         "n n n g\n n n n g\n n n n g\n n n n g\n"},
    };
    for (size_t i = 0; i < UNIT_COUNT(drawn); i++) {
        const size_t n = drawn[i].which;
        const struct small s =
            compile(*state, cases[n].grid, cases[n].inside, drawn[i].cells,
                    drawn[i].picture, cases[n].used);
        expect_clean(&s);
    }
}

/* One slip that alone brings a seam into a square is told as that slip. */
static void test_slip_comes_first(void **state)
{
    const struct small s = compile(
        *state, "grid=\"3\"",
        "<row><patch fabric=\"glow\" width=\"1/2\"/>" PATCH("width=\"2\"")
        "<patch fabric=\"glow\"/></row>", " cells=\"3\"", plain(*state, 3, 3),
        USED("6"));
    expect_only(&s, DIAG_PICTURE_SIZE, "cells=\"3\"", "3");
    const struct small slip = compile(
        *state, "grid=\"3\"",
        "<row>" PATCH("width=\"1/2\"") "<patch fabric=\"glow\"/>"
        PATCH("width=\"1/2\"") PATCH("width=\"1\"") "</row>", "",
        "n g n\nn g n\nn g n\n", USED("6"));
    expect_at(&slip, DIAG_SWAPPED, "<patch fabric=\"night\" width=\"1/2\"/>"
              "<patch fabric=\"glow\"", "patch");
    assert_int_equal(small_count(&slip, DIAG_PICTURE_SIZE), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cells_that_it_needs),
        cmocka_unit_test(test_no_fewer_cells),
        cmocka_unit_test(test_picture_in_those_cells),
        cmocka_unit_test(test_slip_comes_first),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
