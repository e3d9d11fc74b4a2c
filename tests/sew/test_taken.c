/* Sizes in the words of steps, of what no quilt takes. */
#include "../resolve/small.h"

/* In the first step and in the second. */
static void test_sizes_of_nothing(void **state)
{
    static const char *const steps[] = {
        "<step make=\"wave\"><say>Like <size of=\"bell\"/>.</say></step>"
        "<step make=\"throw\"><say>Sew.</say></step>",
        "<step make=\"wave\"><say>Sew.</say></step>"
        "<step make=\"throw\"><say>Like <size of=\"bell\"/>.</say></step>"};
    for (size_t i = 0; i < UNIT_COUNT(steps); i++) {
        const struct small s = small_sew(
            *state,
            arena_printf(
                *state,
                "<block id=\"wave\" grid=\"2\"><row><patch fabric=\"night\" "
                "width=\"1\"/><patch fabric=\"glow\"/></row></block>"
                "<block id=\"bell\" grid=\"1\"><patch "
                "fabric=\"night\"/></block>"
                "<quilt id=\"throw\"><use block=\"wave\" finished=\"6\"/>"
                "</quilt><assembly of=\"throw\">%s</assembly>",
                steps[i]));
        expect_at(&s, DIAG_SIZE_OPEN, "<size of=\"bell\"", "bell");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes_of_nothing),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
