/* The table of names against a plain list of them. */
#include "../unit.h"

#include "name_table.h"

/* Each name is found with its first number, and no other name is. */
static void test_against_a_list(void **state)
{
    enum { NAMES = 5000 };
    struct arena *arena = *state;
    struct name_table table = {0};
    size_t number;
    assert_false(name_table_find(&table, "a", &number));
    for (size_t i = 0; i < NAMES; i++)
        assert_true(name_table_add(arena, &table,
                                   arena_printf(arena, "n%zu", i * i), i));
    for (size_t i = 0; i < NAMES; i++) {
        const char *name = arena_printf(arena, "n%zu", i * i);
        assert_false(name_table_add(arena, &table, name, NAMES));
        assert_true(name_table_find(&table, name, &number));
        assert_int_equal(number, i);
        assert_false(name_table_find(
            &table, arena_printf(arena, "n%zu", i * i + 2), &number));
    }
    assert_int_equal(table.count, NAMES);
}

static void test_the_empty_name_is_one(void **state)
{
    struct name_table table = {0};
    size_t number;
    assert_true(name_table_add(*state, &table, "", 7));
    assert_true(name_table_find(&table, "", &number));
    assert_int_equal(number, 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_a_list),
        cmocka_unit_test(test_the_empty_name_is_one),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
