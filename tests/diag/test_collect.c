/* The order of messages, doubles, levels, and the catalogue. */
#include <string.h>

#include "../unit.h"
#include "printed.h"

static void test_order_and_doubles(void **state)
{
    struct run *run = run_over(state, "abcdef");
    diag_report(run, DIAG_VALUE, (struct span){3, 4}, "late");
    diag_report(run, DIAG_VALUE, (struct span){1, 4}, "longer");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "second");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "first by letters");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "second");
    diag_report(run, DIAG_LENGTH, (struct span){1, 2}, "second");
    diag_report(run, DIAG_VALUE, (struct span){0, 0}, "the file");
    static const char *const expected[] = {
        "the file", "second", "first by letters", "second", "longer", "late"};

    const struct diagnostic **sorted;
    assert_int_equal(diag_sorted(run, &sorted), 6);
    for (size_t i = 0; i < 6; i++)
        assert_string_equal(sorted[i]->message, expected[i]);
    assert_int_equal(sorted[1]->code, DIAG_VALUE);
    assert_int_equal(sorted[3]->code, DIAG_LENGTH);
    assert_int_equal(diag_count(run, DIAG_ERROR), 6);

    diag_report(run, DIAG_VALUE, (struct span){2, 3}, "one more");
    assert_int_equal(diag_count(run, DIAG_ERROR), 7);
    assert_int_equal(diag_sorted(run, &sorted), 7);
    assert_string_equal(sorted[5]->message, "one more");
}

/* A double that nobody was shown does not take the place of what was dropped. */
static void test_dropped_with_its_doubles(void **state)
{
    struct run *run = run_over(state, "abcdef");
    struct diagnostic *first =
        diag_report(run, DIAG_VALUE, (struct span){1, 2}, "twice");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "another");
    diag_report(run, DIAG_VALUE, (struct span){1, 2}, "twice");
    diag_drop(run, first);
    const struct diagnostic **sorted;
    assert_int_equal(diag_sorted(run, &sorted), 1);
    assert_string_equal(sorted[0]->message, "another");
}

static void test_nothing_reported(void **state)
{
    struct run *run = run_over(state, "<pattern/>");
    const struct diagnostic **sorted;
    assert_int_equal(diag_sorted(run, &sorted), 0);
    assert_int_equal(diag_count(run, DIAG_ERROR), 0);
    assert_string_equal(plain(run), "");
}

/* Every level that the catalogue uses prints its own word and counts apart. */
static void test_levels(void **state)
{
    static const char *const words[] = {": error: x", ": warning: x",
                                        ": remark: x"};
    /* Bold, and red, magenta or blue by ECMA-48 (SGR 31, 35, 34). */
    static const char *const colors[] = {"\033[1;31merror", "\033[1;35mwarning",
                                         "\033[1;34mremark"};
    for (enum diag_code code = 0; code < DIAG_CODE_COUNT; code++) {
        const enum diag_level level = diag_entry(code)->level;
        struct run *run = run_over(state, "abc");
        diag_report(run, code, (struct span){0, 1}, "x");
        assert_non_null(strstr(plain(run), words[level]));
        assert_non_null(strstr(printed(run, (struct diag_style){true, false}),
                               colors[level]));
        for (enum diag_level l = DIAG_ERROR; l <= DIAG_REMARK; l++)
            assert_int_equal(diag_count(run, l), l == level);
    }
}

/* Names are stable words for a command line, and no two are the same. */
static void test_catalogue(void **state)
{
    (void)state;
    for (enum diag_code a = 0; a < DIAG_CODE_COUNT; a++) {
        const char *name = diag_entry(a)->name;
        assert_true(strlen(name) > 0);
        assert_int_equal(strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-"),
                         strlen(name));
        assert_true(strlen(diag_entry(a)->summary) > 0);
        for (enum diag_code b = 0; b < a; b++)
            assert_string_not_equal(name, diag_entry(b)->name);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_order_and_doubles),
        cmocka_unit_test(test_dropped_with_its_doubles),
        cmocka_unit_test(test_nothing_reported),
        cmocka_unit_test(test_levels),
        cmocka_unit_test(test_catalogue),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
