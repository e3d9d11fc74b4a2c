/* To which side a seam goes where nobody spoke of it: two cloths to the darker
 * (National Quilters Circle), rows of three or more to and fro (common
 * practice). Where an arrow leads is found on the cloth that was sewn, not in
 * the words that were kept for the page. */
#include "../resolve/small.h"

#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"

/* Fabrics of small.h by lightness: night, flame, glow. */
static const char *const names[] = {"night", "flame", "glow"};

static bool in_face(const struct face *face, double x, double y)
{
    int left = 0, right = 0;
    for (size_t i = 0; i < face->count; i++) {
        const struct vertex a = face->points[i];
        const struct vertex b = face->points[(i + 1) % face->count];
        const double ax = rational_double(a.x), ay = rational_double(a.y);
        const double cross = (rational_double(b.x) - ax) * (y - ay) -
                             (rational_double(b.y) - ay) * (x - ax);
        left += cross > 0;
        right += cross < 0;
    }
    return left == 0 || right == 0;
}

/* The fabric that lies so far from the mark as its arrow points; with -1, on
 * the other side of the seam. */
static int fabric_beside(const struct state *state,
                         const struct press_mark *mark, double way)
{
    const double x = rational_double(mark->at.x) + way * mark->x / 8;
    const double y = rational_double(mark->at.y) + way * mark->y / 8;
    for (size_t i = 0; i < state->faces.count; i++)
        if (in_face(&state->faces.items[i].face, x, y))
            return state->faces.items[i].face.fabric;
    fail_msg("no cloth at %.3f, %.3f", x, y);
    return NO_FABRIC;
}

static struct small sewn_clean(struct arena *arena, const char *text)
{
    struct small s = small_whole(arena, text);
    small_finish(&s);
    expect_clean(&s);
    assert_non_null(s.sewn);
    return s;
}

static const struct heap *top_of(const struct small *s)
{
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    return &quilt->heaps.items[quilt->top];
}

/* One seam, which leads from the lighter to the darker cloth; `dark` and
 * `light` are fabrics. */
static void assert_leads(const struct small *s, int dark, int light)
{
    const struct heap *heap = top_of(s);
    assert_int_equal(heap->actions.count, 1);
    const struct action *action = &heap->actions.items[0];
    assert_true(action->pressed_by_rule);
    assert_int_equal(action->after.presses.count, 1);
    const struct press_mark *mark = &action->after.presses.items[0];
    const int toward = fabric_beside(&action->after, mark, 1);
    const int from = fabric_beside(&action->after, mark, -1);
    if (toward != dark || from != light)
        small_show(s);
    assert_int_equal(toward, dark);
    assert_int_equal(from, light);
    /* What the page says is what the arrow shows. */
    if (action->press.side == PRESS_TOWARD_FABRIC)
        assert_int_equal(action->press.fabric, dark);
}

/* Each %s is a fabric, the first one twice told apart by its place. */
static const char *const joins[] = {
    QUILT("<row><patch fabric=\"%s\" width=\"4\" height=\"4\"/>"
          "<patch fabric=\"%s\" width=\"3\"/></row>"),
    QUILT("<column><patch fabric=\"%s\" width=\"4\" height=\"4\"/>"
          "<patch fabric=\"%s\" height=\"3\"/></column>"),
    QUILT("<grid across=\"2\" down=\"1\"><patch fabric=\"%s\" width=\"4\" "
          "height=\"4\"/><patch fabric=\"%s\" width=\"4\"/></grid>"),
    QUILT("<grid across=\"1\" down=\"2\"><patch fabric=\"%s\" width=\"4\" "
          "height=\"4\"/><patch fabric=\"%s\" height=\"4\"/></grid>"),
    QUILT("<diagonal width=\"2\" line=\"rising\"><patch fabric=\"%s\" "
          "height=\"5\"/><patch fabric=\"%s\" height=\"6\"/></diagonal>"),
    QUILT("<diagonal width=\"2\" line=\"falling\"><patch fabric=\"%s\" "
          "height=\"5\"/><patch fabric=\"%s\" height=\"6\"/></diagonal>"),
    QUILT("<diagonal height=\"2\" line=\"rising\"><patch fabric=\"%s\" "
          "width=\"5\"/><patch fabric=\"%s\" width=\"6\"/></diagonal>"),
    QUILT("<diagonal height=\"2\" line=\"falling\"><patch fabric=\"%s\" "
          "width=\"5\"/><patch fabric=\"%s\" width=\"6\"/></diagonal>"),
    QUILT("<half-square size=\"3\" line=\"rising\" left=\"%s\" right=\"%s\" "
          "method=\"one\"/>"),
    QUILT("<half-square size=\"3\" line=\"falling\" left=\"%s\" right=\"%s\" "
          "method=\"one\"/>"),
    QUILT("<half-square size=\"3\" line=\"rising\" left=\"%s\" right=\"%s\" "
          "method=\"two\"/>"),
    QUILT("<half-square size=\"3\" line=\"falling\" left=\"%s\" right=\"%s\" "
          "method=\"two\"/>"),
};

/* A format that is not written out where it is used. */
static const char *join_text(struct arena *arena, size_t join,
                             const char *first, const char *second)
{
    const char *a = strstr(joins[join], "%s");
    const char *b = strstr(a + 2, "%s");
    return arena_printf(arena, "%.*s%s%.*s%s%s", (int)(a - joins[join]),
                        joins[join], first, (int)(b - a - 2), a + 2, second,
                        b + 2);
}

static void test_two_cloths_go_to_the_darker(void **state)
{
    for (size_t join = 0; join < UNIT_COUNT(joins); join++)
        for (int a = 0; a < 3; a++)
            for (int b = 0; b < 3; b++) {
                if (a == b)
                    continue;
                const struct small s = sewn_clean(
                    *state,
                    arena_printf(*state, "%s%s</pattern>\n", SMALL_HEAD,
                                 join_text(*state, join, names[a], names[b])));
                assert_leads(&s, a < b ? a : b, a < b ? b : a);
            }
}

/* A row of two plain cloths of these colours. */
static struct small two_colors(struct arena *arena, const char *left,
                               const char *right)
{
    return sewn_clean(
        arena, arena_printf(
                   arena,
                   "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" "
                   "title=\"Small\" units=\"in\" seam=\"1/4\">"
                   "<fabrics><fabric id=\"l\" key=\"l\"/><fabric id=\"r\" "
                   "key=\"r\"/></fabrics><colorway id=\"c\">"
                   "<cloth fabric=\"l\" color=\"%s\"/><cloth fabric=\"r\" "
                   "color=\"%s\"/></colorway>" QUILT(
                       "<row><patch fabric=\"l\" width=\"4\" height=\"4\"/>"
                       "<patch fabric=\"r\" width=\"4\"/></row>") "</pattern>",
                   left, right));
}

/* Of the primaries at their fullest, blue is darkest and green lightest: 0.07,
 * 0.21 and 0.72 of white (Rec. ITU-R BT.709). Of one lightness, the first. */
static void test_lightness_is_that_of_the_eye(void **state)
{
    static const struct {
        const char *dark, *light;
    } pairs[] = {{"#0000ff", "#ff0000"}, {"#ff0000", "#00ff00"},
                 {"#0000ff", "#00ff00"}, {"#ff00ff", "#00ff00"},
                 {"#000000", "#000010"}, {"#808080", "#808180"},
                 {"#fefefe", "#ffffff"}, {"#ff0000", "#404040"}};
    for (size_t i = 0; i < UNIT_COUNT(pairs); i++) {
        const char *dark = pairs[i].dark, *light = pairs[i].light;
        struct small s = two_colors(*state, dark, light);
        assert_leads(&s, 0, 1);
        s = two_colors(*state, light, dark);
        assert_leads(&s, 1, 0);
    }
    const struct small s = two_colors(*state, "#808080", "#808080");
    assert_leads(&s, 0, 1);
}

/* Cloth of several fabrics is as dark as it looks from afar: three quarters of
 * night and one of glow are darker than flame, a quarter of night is not. */
static void test_pieced_cloth_is_as_dark_as_it_looks(void **state)
{
    for (int quarters = 1; quarters <= 3; quarters += 2)
        for (int first = 0; first < 2; first++) {
            const char *pieced = arena_printf(
                *state,
                "<column><patch fabric=\"night\" width=\"4\" height=\"%d\"/>"
                "<patch fabric=\"glow\" height=\"%d\"/></column>",
                2 * quarters, 8 - 2 * quarters);
            const char *plain = "<patch fabric=\"flame\" width=\"4\"/>";
            const struct small s =
                small_sew(*state, arena_printf(*state, QUILT("<row>%s%s</row>"),
                                               first ? pieced : plain,
                                               first ? plain : pieced));
            expect_clean(&s);
            const struct action *action = &top_of(&s)->actions.items[0];
            const int wanted = (quarters == 3) == (first == 1) ? -1 : 1;
            assert_int_equal(action->after.presses.items[0].x, wanted);
            assert_int_equal(action->after.presses.items[0].y, 0);
        }
}

/* All arrows of the heap that the row with this id makes, as one sum. */
static int row_direction(const struct small *s, const char *id)
{
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    int sum = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_JOIN ||
            heap->piece != small_piece(s, id))
            continue;
        const struct action *action = &heap->actions.items[0];
        for (size_t k = 0; k < action->after.presses.count; k++)
            sum += action->after.presses.items[k].x;
    }
    return sum;
}

#define THREE(id, a, b, c, more)                                            \
    "<row id=\"" id "\"" more "><patch fabric=\"" a "\" width=\"2\" "       \
    "height=\"2\"/><patch fabric=\"" b "\" width=\"2\"/><patch fabric=\"" c \
    "\" width=\"2\"/></row>"

/* However dark, rows go to and fro, so that they nest; a row whose maker spoke
 * goes as he says. Rows have other cloths, as like ones are made once. */
static void test_rows_go_to_and_fro(void **state)
{
    const struct small s = small_sew(
        *state, QUILT("<column>" THREE("one", "night", "flame", "glow", "")
                          THREE("two", "glow", "flame", "flame", "")
                              THREE("three", "night", "glow", "flame", "")
                                  THREE("four", "flame", "flame", "night", "")
                                      THREE("five", "glow", "night", "flame",
                                            " press=\"right\"") "</column>"));
    expect_clean(&s);
    assert_int_equal(row_direction(&s, "one"), 2);
    assert_int_equal(row_direction(&s, "two"), -2);
    assert_int_equal(row_direction(&s, "three"), 2);
    assert_int_equal(row_direction(&s, "four"), -2);
    assert_int_equal(row_direction(&s, "five"), 2);
}

#define PAIR(id, fabric)                         \
    "<row id=\"" id "\"><patch fabric=\"" fabric \
    "\" width=\"3\" height=\"2\"/>"              \
    "<patch fabric=\"" fabric "\" width=\"3\"/></row>"

/* Of one lightness, to the first; below such a row, against it. */
static void test_pairs_of_one_cloth_nest(void **state)
{
    const struct small s = small_sew(
        *state, QUILT("<column>" PAIR("one", "night") PAIR("two", "glow")
                          PAIR("three", "flame") "</column>"));
    expect_clean(&s);
    assert_int_equal(row_direction(&s, "one"), -1);
    assert_int_equal(row_direction(&s, "two"), 1);
    assert_int_equal(row_direction(&s, "three"), -1);
}

/* Rows that are joined go down, whatever is darker above. */
static void test_rows_are_pressed_down(void **state)
{
    const struct small s = small_sew(
        *state,
        QUILT("<grid across=\"2\" down=\"2\"><patch fabric=\"night\" "
              "width=\"2\" height=\"2\"/><patch fabric=\"night\" width=\"2\"/>"
              "<patch fabric=\"glow\" height=\"2\"/>"
              "<patch fabric=\"flame\"/></grid>"));
    expect_clean(&s);
    const struct heap *heap = top_of(&s);
    assert_int_equal(heap->actions.count, 2);
    const struct state *rows = &heap->actions.items[0].after;
    assert_int_equal(rows->presses.count, 2);
    assert_int_equal(rows->presses.items[0].x, 1);
    assert_int_equal(rows->presses.items[1].x, -1);
    const struct state *whole = &heap->actions.items[1].after;
    assert_int_equal(whole->presses.count, 1);
    assert_int_equal(whole->presses.items[0].y, 1);
}

#define UNIT(id, a, b)                                                      \
    "<unit id=\"" id "\"><row><patch fabric=\"" a "\" width=\"2\" "         \
    "height=\"2\"/><patch fabric=\"" b "\" width=\"2\"/><patch fabric=\"" a \
    "\" width=\"2\"/></row></unit>"
#define TIDE_AND_CALM "<use unit=\"tide\"/><use unit=\"calm\"/>"
#define PLAIN "<patch fabric=\"glow\" width=\"6\" height=\"2\"/>"

/* Two units that the rules press alike have to be solved; then the joints of
 * the column go to where fewer ends of seams lie under them, though the cloth
 * there is lighter. Derived: towards the plain strip two ends are folded, the
 * other way four. */
static void test_solved_joints_fold_few_ends(void **state)
{
    for (int first = 0; first < 2; first++) {
        const struct small s = small_sew(
            *state,
            first
                ? UNIT("tide", "night", "flame") UNIT("calm", "flame", "night")
                      QUILT("<column>" PLAIN TIDE_AND_CALM "</column>")
                : UNIT("tide", "night", "flame") UNIT("calm", "flame", "night")
                      QUILT("<column>" TIDE_AND_CALM PLAIN "</column>"));
        expect_clean(&s);
        const struct state *after = &top_of(&s)->actions.items[0].after;
        assert_int_equal(after->presses.count, 2);
        for (size_t i = 0; i < 2; i++)
            assert_int_equal(after->presses.items[i].y, first ? -1 : 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two_cloths_go_to_the_darker),
        cmocka_unit_test(test_lightness_is_that_of_the_eye),
        cmocka_unit_test(test_pieced_cloth_is_as_dark_as_it_looks),
        cmocka_unit_test(test_rows_go_to_and_fro),
        cmocka_unit_test(test_pairs_of_one_cloth_nest),
        cmocka_unit_test(test_rows_are_pressed_down),
        cmocka_unit_test(test_solved_joints_fold_few_ends),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
