/* Seams that meet: the rule looks for a way in which they nest; where it finds
 * none the quilt is solved; where that cannot be it is told, once a heap, with
 * the ring of seams, and the mend that is told is applied here, and helps. */
#include "../resolve/small.h"

#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"
#define P(fabric, more) "<patch fabric=\"" fabric "\" " more "/>"
#define SQUARE(fabric) P(fabric, "width=\"2\" height=\"2\"")

static size_t collisions(const struct small *s)
{
    return small_count(s, DIAG_SEAMS_COLLIDE);
}

static const struct diagnostic *collision(const struct small *s)
{
    const struct diagnostic **sorted;
    for (size_t i = 0, all = diag_sorted(s->run, &sorted); i < all; i++)
        if (sorted[i]->code == DIAG_SEAMS_COLLIDE)
            return sorted[i];
    fail_msg("nothing collides");
    return NULL;
}

/* ---- the rule ---- */

/* Darker on the left, lighter on the left; night is the darkest. */
#define DARK_LIGHT(more) "<row" more ">" SQUARE("night") SQUARE("glow") "</row>"
#define LIGHT_DARK(more) "<row" more ">" SQUARE("glow") SQUARE("night") "</row>"
#define THREE(more) \
    "<row" more ">" SQUARE("night") SQUARE("glow") SQUARE("flame") "</row>"
/* Of other cloths, as like rows are made once. */
#define ALSO_THREE(more) \
    "<row" more ">" SQUARE("flame") SQUARE("flame") SQUARE("glow") "</row>"
#define COLUMN_TWO(a, b, more) \
    "<column" more ">" SQUARE(a) SQUARE(b) "</column>"
#define COLUMN_THREE(a, b, more) \
    "<column" more ">" SQUARE(a) SQUARE(b) SQUARE(a) "</column>"

static const char *const nesting[] = {
    /* A four-patch: both rows to the dark. */
    "<column>" DARK_LIGHT("") LIGHT_DARK("") "</column>",
    "<column>" LIGHT_DARK("") DARK_LIGHT("") "</column>",
    "<column>" DARK_LIGHT("") DARK_LIGHT("") "</column>",
    "<column>" LIGHT_DARK("") LIGHT_DARK("") LIGHT_DARK("") "</column>",
    "<column>" DARK_LIGHT("") LIGHT_DARK("") DARK_LIGHT("")
        DARK_LIGHT("") "</column>",
    "<column>" THREE("") ALSO_THREE("") THREE("") "</column>",
    /* A maker's word above or below. */
    "<column>" THREE(" press=\"left\"") ALSO_THREE("") THREE("") "</column>",
    "<column>" THREE("") ALSO_THREE(" press=\"right\"") THREE("") "</column>",
    "<column>" DARK_LIGHT("") LIGHT_DARK(" press=\"left\"") "</column>",
    /* Columns side by side. */
    "<row>" COLUMN_TWO("night", "glow", "")
        COLUMN_TWO("glow", "night", "") "</row>",
    "<row>" COLUMN_TWO("night", "glow", "")
        COLUMN_TWO("night", "flame", "") "</row>",
    "<row>" COLUMN_THREE("night", "glow", "") COLUMN_THREE("flame", "night", "")
        COLUMN_THREE("glow", "flame", "") "</row>",
    "<row>" COLUMN_THREE("night", "glow", " press=\"up\"")
        COLUMN_THREE("flame", "night", "") "</row>",
};

static void test_the_rule_nests(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(nesting); i++) {
        const struct small s =
            small_sew(*state, arena_printf(*state, QUILT("%s"), nesting[i]));
        expect_clean(&s);
        if (collisions(&s) > 0)
            small_show(&s);
        assert_int_equal(collisions(&s), 0);
    }
}

/* Inside a unit, turned and mirrored: beside seams there is nothing else. */
static void test_the_rule_nests_in_any_place(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(nesting); i++)
        for (int turn = 0; turn < 360; turn += 90)
            for (int mirror = 0; mirror < 2; mirror++) {
                const struct small s = small_sew(
                    *state,
                    arena_printf(*state,
                                 "<unit id=\"tile\">%s</unit>" QUILT(
                                     "<use unit=\"tile\" turn=\"%d\" "
                                     "mirror=\"%s\"/>"),
                                 nesting[i], turn, mirror ? "yes" : "no"));
                expect_clean(&s);
                if (collisions(&s) > 0)
                    small_show(&s);
                assert_int_equal(collisions(&s), 0);
            }
}

/* Plain and mirrored in one quilt: each has its own rows. */
static void test_mirrored_heaps_nest(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(nesting); i++) {
        const struct small s = small_sew(
            *state,
            arena_printf(
                *state,
                "<unit id=\"tile\">%s</unit>" QUILT(
                    "<row><use unit=\"tile\"/>" P(
                        "flame", "width=\"1\"") "<use unit=\"tile\" "
                                                "mirror=\"yes\"/></row>"),
                nesting[i]));
        expect_clean(&s);
        assert_int_equal(collisions(&s), 0);
    }
}

/* All arrows of the row with this id, as one sum. */
static int direction(const struct small *s, const char *id)
{
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    int sum = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->piece != small_piece(s, id) || heap->actions.count == 0)
            continue;
        const struct action *action = &heap->actions.items[0];
        for (size_t k = 0; k < action->after.presses.count; k++)
            sum += action->after.presses.items[k].x;
    }
    return sum;
}

/* Seams that do not meet need not nest: two go to the darker, as ever. */
static void test_rows_that_do_not_meet(void **state)
{
    const struct small s = small_sew(
        *state,
        QUILT(
            "<column>"
            "<row id=\"one\">" SQUARE("night") P(
                "glow",
                "width=\"4\" height=\"2\"") "</row>"
                                            "<row id=\"two\">" P(
                                                "night",
                                                "width=\"4\" height=\"2\"")
                                                SQUARE(
                                                    "glow") "</row>"
                                                            "<row "
                                                            "id="
                                                            "\"three\">" SQUARE(
                                                                "night")
                                                                P("flame",
                                                                  "width=\"4\" "
                                                                  "height="
                                                                  "\"2\"") "</"
                                                                           "row"
                                                                           "></"
                                                                           "col"
                                                                           "umn"
                                                                           ">"));
    expect_clean(&s);
    assert_int_equal(collisions(&s), 0);
    assert_int_equal(direction(&s, "one"), -1);
    assert_int_equal(direction(&s, "two"), -1);
    assert_int_equal(direction(&s, "three"), -1);
}

/* A four-patch goes to the dark in both of its rows. */
static void test_four_patch_goes_to_the_dark(void **state)
{
    const struct small s =
        small_sew(*state, QUILT("<column>" DARK_LIGHT(
                              " id=\"one\"") "<row id=\"two\">" SQUARE("glow")
                                    SQUARE("flame") "</row></column>"));
    expect_clean(&s);
    assert_int_equal(direction(&s, "one"), -1);
    assert_int_equal(direction(&s, "two"), 1);
}

/* ---- where no rule helps ---- */

/* Units are made once, wherever they lie, so the rule does not look at what
 * stands beside them: the compiler solves the quilt. */
#define UNIT(id, inside) "<unit id=\"" id "\">" inside "</unit>\n"
#define USES(a, b) "<row><use unit=\"" a "\"/><use unit=\"" b "\"/></row>"
#define OVER(a, b) "<column><use unit=\"" a "\"/><use unit=\"" b "\"/></column>"
#define LEFT_ROW                                          \
    "<row press=\"left\">" SQUARE("glow") SQUARE("night") \
        SQUARE("glow") "</row>"
#define CORNERS(a, b)                                             \
    "<border fabric=\"glow\" width=\"6\" corners=\"blocks\">" a b \
    "<patch fabric=\"night\"/><patch fabric=\"night\"/></border>"
#define ROUND_C(a)                                                 \
    "<column><use unit=\"" a "\"/><use unit=\"c\"/><use unit=\"" a \
    "\"/></column>"

static const char *const solved[] = {
    UNIT("a", COLUMN_THREE("night", "glow", ""))
        UNIT("b", COLUMN_THREE("flame", "night", "")) QUILT(USES("a", "b")),
    UNIT("a", COLUMN_THREE("night", "glow", " press=\"down\""))
        UNIT("b", COLUMN_THREE("flame", "night", "")) QUILT(USES("a", "b")),
    UNIT("a", COLUMN_THREE("night", "glow", ""))
        UNIT("b", COLUMN_THREE("flame", "night", " press=\"down\""))
            QUILT(USES("a", "b")),
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE("")) QUILT(OVER("a", "b")),
    UNIT("a", DARK_LIGHT(""))
        UNIT("b", "<row>" SQUARE("flame") SQUARE("glow") "</row>")
            QUILT(OVER("a", "b")),
    /* One that lies in two places: turning it over helps in both. */
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE(""))
        QUILT("<column><use unit=\"a\"/><use unit=\"b\"/><use unit=\"a\"/>"
              "</column>"),
    /* Mirrored and turned by half, so that the rule's right is left. */
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE(""))
        QUILT("<column><use unit=\"a\" mirror=\"yes\"/><use unit=\"b\" "
              "turn=\"180\"/></column>"),
    UNIT("a", COLUMN_TWO("night", "glow", ""))
        UNIT("b", COLUMN_TWO("flame", "glow", ""))
            QUILT("<column><use unit=\"a\" turn=\"90\"/><use unit=\"b\" "
                  "turn=\"90\"/></column>"),
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE(""))
        QUILT("<column><use unit=\"a\"/><use unit=\"b\"/><use unit=\"b\" "
              "turn=\"180\"/></column>"),
    /* Turning the first of the two would harm in a corner of the border. */
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE("")) UNIT("c", LEFT_ROW)
        QUILT(OVER("a", "b") CORNERS(P("night", ""), ROUND_C("a"))),
    /* Grids go to and fro, beginning on either side. */
    UNIT("a", "<grid across=\"2\" down=\"2\">" SQUARE("night") SQUARE("glow")
                  SQUARE("flame") SQUARE("night") "</grid>")
        UNIT("b", "<grid across=\"2\" down=\"2\">" SQUARE("glow") SQUARE("glow")
                      SQUARE("night") SQUARE("flame") "</grid>")
            QUILT("<row><use unit=\"a\"/><use unit=\"b\" turn=\"90\"/></row>"),
};

static void test_what_can_nest_does(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(solved); i++) {
        const struct small s = small_sew(*state, solved[i]);
        expect_clean(&s);
        if (collisions(&s) > 0)
            small_show(&s);
        assert_int_equal(collisions(&s), 0);
    }
}

/* Where words, or a unit that meets itself, leave no way. */
static const char *const colliding[] = {
    UNIT("a", COLUMN_THREE("night", "glow", " press=\"down\""))
        UNIT("b", COLUMN_THREE("flame", "night", " press=\"down\""))
            QUILT(USES("a", "b")),
    UNIT("a", THREE(" press=\"right\""))
        UNIT("b", ALSO_THREE(" press=\"right\"")) QUILT(OVER("a", "b")),
    /* The same unit above itself: only open helps. */
    UNIT("a", THREE("")) QUILT(OVER("a", "a")),
    UNIT("a", DARK_LIGHT(" press=\"left\"")) QUILT(OVER("a", "a")),
    /* Turning either of the two would harm in a corner: only open helps, though
     * the two meet twice. */
    UNIT("a", THREE("")) UNIT("b", ALSO_THREE("")) UNIT("c", LEFT_ROW)
        QUILT(OVER("a", "b") CORNERS(ROUND_C("b"), ROUND_C("a"))),
};

/* The source with the mend in it. */
static const char *mended(struct arena *arena, const struct small *s,
                          const struct diagnostic *d)
{
    return arena_printf(arena, "%.*s%s%s", (int)d->mend_span.start, s->text,
                        d->replacement, s->text + d->mend_span.end);
}

static void test_the_mend_works(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(colliding); i++) {
        const struct small s = small_sew(*state, colliding[i]);
        expect_clean(&s);
        if (collisions(&s) != 1 || collision(&s)->replacement == NULL)
            small_show(&s);
        assert_int_equal(collisions(&s), 1);
        assert_non_null(collision(&s)->replacement);
        struct small after =
            small_whole(*state, mended(*state, &s, collision(&s)));
        small_finish(&after);
        expect_clean(&after);
        if (collisions(&after) > 0)
            small_show(&after);
        assert_int_equal(collisions(&after), 0);
    }
}

/* Which piece, which word. */
static void test_the_mend_is_named(void **state)
{
    struct small s = small_sew(*state, colliding[0]);
    assert_true(says(collision(&s), "press=\"up\""));
    s = small_sew(*state, colliding[1]);
    assert_true(says(collision(&s), "press=\"left\""));
    s = small_sew(*state, colliding[2]);
    assert_true(says(collision(&s), "press=\"open\""));
}

/* A block that lies a hundred times is one heap, and one remark. */
static void test_once_a_heap(void **state)
{
    const struct small s = small_sew(
        *state,
        UNIT("a", THREE(" press=\"left\""))
            UNIT("b", ALSO_THREE(" press=\"left\"")) "<block id=\"star\">" OVER(
                "a",
                "b") "</block>" QUILT("<grid across=\"10\" down=\"10\"><use "
                                      "block=\"star\"/></grid>"));
    expect_clean(&s);
    /* The block's own, and the grid of them. */
    assert_int_equal(collisions(&s), 2);
}

/* What would only move the ridge elsewhere is no mend: here each way of each
 * of the two rows meets one beside it. */
#define HARMED                                                   \
    "<column><use unit=\"a\"/><use unit=\"b\"/><use unit=\"a\" " \
    "turn=\"180\"/></column>"

static void test_no_mend_that_harms(void **state)
{
    static const char *const sources[] = {
        UNIT("a", THREE(" press=\"right\""))
            UNIT("b", ALSO_THREE(" press=\"right\"")) QUILT(HARMED),
        /* In one corner of a border. */
        UNIT("a", THREE(" press=\"right\""))
            UNIT("b", ALSO_THREE(" press=\"right\""))
                QUILT(P("night", "width=\"12\" height=\"12\"")
                          CORNERS(P("night", ""), HARMED))};
    for (size_t i = 0; i < UNIT_COUNT(sources); i++) {
        const struct small s = small_sew(*state, sources[i]);
        expect_clean(&s);
        assert_int_equal(collisions(&s), 1);
        if (collision(&s)->replacement == NULL)
            continue;
        struct small after =
            small_whole(*state, mended(*state, &s, collision(&s)));
        small_finish(&after);
        assert_int_equal(collisions(&after), 0);
    }
}

/* ---- what is told of a ring ---- */

/* Each seam of it stands in a note with its place. */
static size_t placed_notes(const struct diagnostic *d)
{
    size_t count = 0;
    for (size_t i = 0; i < d->notes.count; i++)
        count += d->notes.items[i].span.end > 0;
    return count;
}

static void test_the_ring_is_named(void **state)
{
    /* A meets B meets C meets A, of one width each. */
    static const char three[] = UNIT("a", THREE("")) UNIT("b", ALSO_THREE(""))
        UNIT("c",
             "<row>" SQUARE("glow") SQUARE("night") SQUARE("glow") "</row>")
            QUILT("<column><use unit=\"a\"/><use unit=\"b\"/><use "
                  "unit=\"c\"/><use unit=\"a\"/></column>");
    struct small s = small_sew(*state, three);
    expect_clean(&s);
    assert_int_equal(collisions(&s), 1);
    assert_int_equal(placed_notes(collision(&s)), 3);
    assert_true(says(collision(&s), "a ring of 3"));
    assert_true(says(collision(&s), "press=\"open\""));
    s = small_sew(*state, colliding[2]);
    assert_int_equal(placed_notes(collision(&s)), 1);
    assert_true(says(collision(&s), "meet their own kind"));
}

/* Two rings that share no seam: none opens both, two do. */
static void test_fewest_are_opened(void **state)
{
    const struct small s = small_sew(
        *state,
        UNIT("a", THREE("")) UNIT("b", LEFT_ROW)
            QUILT("<column><use unit=\"a\"/><use unit=\"a\"/>" P(
                "flame", "height=\"1\"") "<use unit=\"b\"/><use unit=\"b\"/>"
                                         "</column>"));
    expect_clean(&s);
    assert_int_equal(collisions(&s), 1);
    assert_null(collision(&s)->replacement);
    assert_true(says(collision(&s), "lets all lie flat; no fewer do"));
    assert_true(says(collision(&s), " and "));
}

/* ---- solve, as a word ---- */

/* It takes a row out of what its step says; alone it says nothing. */
static void test_solve_is_a_word(void **state)
{
    static const char assembly[] =
        "<assembly of=\"throw\"><step make=\"a\" press=\"right\"/>"
        "<step make=\"b\" press=\"right\"/><step make=\"throw\"/></assembly>";
    for (int solve = 0; solve < 2; solve++) {
        const struct small s = small_sew(
            *state,
            arena_printf(*state,
                         UNIT("a", THREE("%s")) UNIT("b", ALSO_THREE(""))
                             QUILT(OVER("a", "b")) "%s",
                         solve ? " press=\"solve\"" : "", assembly));
        expect_clean(&s);
        assert_int_equal(collisions(&s), 1 - solve);
    }
    const struct small s =
        small_sew(*state, QUILT("<row press=\"solve\">" SQUARE("night")
                                    SQUARE("glow") SQUARE("night") "</row>"));
    expect_clean(&s);
    const struct small wrong = small_sew(
        *state, QUILT(P("night", "width=\"4\" height=\"4\" press=\"solve\"")));
    assert_int_equal(small_count(&wrong, DIAG_PRESS), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_rule_nests),
        cmocka_unit_test(test_the_rule_nests_in_any_place),
        cmocka_unit_test(test_mirrored_heaps_nest),
        cmocka_unit_test(test_rows_that_do_not_meet),
        cmocka_unit_test(test_four_patch_goes_to_the_dark),
        cmocka_unit_test(test_what_can_nest_does),
        cmocka_unit_test(test_the_mend_works),
        cmocka_unit_test(test_the_mend_is_named),
        cmocka_unit_test(test_once_a_heap),
        cmocka_unit_test(test_no_mend_that_harms),
        cmocka_unit_test(test_the_ring_is_named),
        cmocka_unit_test(test_fewest_are_opened),
        cmocka_unit_test(test_solve_is_a_word),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
