/* Sets of numbers, on both sides of each word's border, and the grammar's
 * table that is made of them. */
#include "../unit.h"
#include "design.h"
#include "grammar.h"

/* The first and the last number of each word, and some between. */
static const unsigned numbers[] = {0,   1,   31,  32,  62,  63,  64,  65,
                                   100, 127, 128, 129, 191, 192, 254, 255};

static const struct set all_of_them =
    SET(0, 1, 31, 32, 62, 63, 64, 65, 100, 127, 128, 129, 191, 192, 254, 255);
static const struct set one_of_them = SET(64);

static bool is_among(const unsigned *list, size_t count, unsigned number)
{
    for (size_t i = 0; i < count; i++)
        if (list[i] == number)
            return true;
    return false;
}

static void assert_holds(const struct set *set, const unsigned *list,
                         size_t count)
{
    for (unsigned number = 0; number < SET_LIMIT; number++)
        if (set_has(set, number) != is_among(list, count, number))
            fail_msg("%u is %s the set", number,
                     set_has(set, number) ? "in" : "not in");
}

/* What the compiler makes has these members and no others. */
static void test_constant(void **state)
{
    (void)state;
    const unsigned one[] = {64};
    assert_holds(&all_of_them, numbers, UNIT_COUNT(numbers));
    assert_holds(&one_of_them, one, 1);
}

/* Each member on its own, and all as they come. */
static void test_add(void **state)
{
    (void)state;
    struct set growing = {{0}};
    assert_holds(&growing, numbers, 0);
    for (size_t i = 0; i < UNIT_COUNT(numbers); i++) {
        struct set alone = {{0}};
        set_add(&alone, numbers[i]);
        assert_holds(&alone, &numbers[i], 1);
        set_add(&growing, numbers[i]);
        set_add(&growing, numbers[i]); /* twice is once */
        assert_holds(&growing, numbers, i + 1);
    }
}

/* The elements and attributes with the largest numbers, which older sets of
 * fewer bits would have lost. */
static void test_grammar(void **state)
{
    (void)state;
    assert_true(grammar_allows(ELEMENT_SIZE, ATTR_AS));
    assert_true(grammar_allows(ELEMENT_SHAPE, ATTR_POINTS));
    assert_true(grammar_allows(ELEMENT_PATTERN, ATTR_ID));
    assert_false(grammar_allows(ELEMENT_PATTERN, ATTR_AS));
    assert_false(grammar_allows(ELEMENT_MAP, ATTR_ID));
    const struct grammar_row *say = grammar_row(ELEMENT_SAY);
    assert_true(set_has(&say->children, ELEMENT_CLOTH_NAME));
    assert_false(set_has(&say->children, ELEMENT_PATTERN));
    unsigned pieces = 0;
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++)
        pieces += set_has(grammar_pieces(), kind);
    /* A border is one to those who sew, but stands in a quilt alone. */
    assert_int_equal(pieces, PIECE_KIND_COUNT - 1);
#define ASSERT_PIECE(kind, element, name)      \
    assert_true((element) == ELEMENT_BORDER || \
                set_has(grammar_pieces(), element));
    PIECE_LIST(ASSERT_PIECE)
#undef ASSERT_PIECE
    /* One name, two attributes: the element tells. */
    assert_int_equal(attribute_in(ELEMENT_SHAPE, "points"), ATTR_POINTS);
    assert_int_equal(attribute_in(ELEMENT_FLYING_GEESE, "points"),
                     ATTR_POINTS_TO);
    assert_int_equal(attribute_in(ELEMENT_BORDER, "corners"), ATTR_CORNERS);
    assert_int_equal(attribute_in(ELEMENT_SQUARE_IN_SQUARE, "corners"),
                     ATTR_CORNER_FABRIC);
    assert_int_equal(attribute_in(ELEMENT_PATCH, "points"), ATTRIBUTE_COUNT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_constant),
        cmocka_unit_test(test_add),
        cmocka_unit_test(test_grammar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
