/* Which names are offered for a name that is not there. */
#include <string.h>

#include "../unit.h"
#include "diag.h"

static void assert_offer(const char *offered, const char *expected)
{
    if (expected == NULL)
        assert_null(offered);
    else if (offered == NULL)
        fail_msg("nothing was offered, %s expected", expected);
    else
        assert_string_equal(offered, expected);
}

static void test_single_names(void **state)
{
    (void)state;
    static const char *const names[] = {"width", "height",  "fabric", "grid",
                                        "block", "binding", "a",      "b"};
    static const struct {
        const char *wrong, *expected;
    } cases[] = {
        {"widht", "width"}, /* a swap counts one */
        {"wdith", "width"},
        {"hieght", "height"},
        {"heigth", "height"},
        {"fabrik", "fabric"},
        {"fabbric", "fabric"},
        {"fabic", "fabric"},
        {"gird", "grid"},
        {"girdd", NULL}, /* two slips in five */
        {"gr", NULL},
        {"blocks", "block"},
        {"bidning", "binding"},
        {"bidnign", "binding"}, /* two in seven */
        {"ibdnign", NULL},      /* three in seven */
        {"WIDTH", "width"},
        {"Widht", "width"},
        {"c", NULL}, /* nothing in common with `a` or `b` */
        {"B", "b"},
        {"ab", "a"},
        {"", NULL},
        {"moonlight", NULL},
        {"width", NULL}, /* itself is no offer */
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        assert_offer(nearest_name(cases[i].wrong, names, UNIT_COUNT(names)),
                     cases[i].expected);
}

static void test_nearest_first(void **state)
{
    static const char *const names[] = {"lantarns", "lanterna", "Lantern",
                                        "lantern",  "lanterns", "harbor"};
    /* Case apart they are equal; then by distance, ties as listed. */
    assert_offer(near_names(*state, "LANTERN", names, UNIT_COUNT(names)),
                 "`Lantern`, `lantern` or `lanterna`");
    assert_offer(near_names(*state, "lanterm", names, UNIT_COUNT(names)),
                 "`Lantern`, `lantern` or `lanterna`");
    assert_offer(near_names(*state, "lantarn", names, UNIT_COUNT(names)),
                 "`lantarns`, `Lantern` or `lantern`");
    assert_offer(near_names(*state, "harbour", names, UNIT_COUNT(names)),
                 "`harbor`");
    assert_offer(near_names(*state, "quilt", names, UNIT_COUNT(names)), NULL);
    assert_offer(near_names(*state, "quilt", NULL, 0), NULL);
}

static void test_two_names_and_doubles(void **state)
{
    static const char *const names[] = {"star", "stir", "star"};
    assert_offer(near_names(*state, "ster", names, UNIT_COUNT(names)),
                 "`star` or `stir`");
}

/* A later, nearer name takes the place of the farthest of three. */
static void test_three_at_most(void **state)
{
    static const char *const names[] = {"crossbars", "crossbart", "crossbark",
                                        "crossbare", "crossbar"};
    assert_offer(near_names(*state, "krossbar", names, UNIT_COUNT(names)),
                 "`crossbar`, `crossbars` or `crossbart`");
}

static void test_characters_not_bytes(void **state)
{
    (void)state;
    static const char *const names[] = {"caf\xC3\xA9"};
    /* One character is wrong, though two bytes are. */
    assert_offer(nearest_name("cafe", names, 1), names[0]);
    assert_offer(nearest_name("caf\xFF", names, 1), names[0]);
}

static void test_long_names(void **state)
{
    char wrong[100];
    char name[100];
    memset(wrong, 'a', sizeof wrong);
    memset(name, 'a', sizeof name);
    const char *const names[] = {name};

    wrong[64] = name[64] = '\0';
    name[0] = 'b';
    assert_offer(nearest_name(wrong, names, 1), name);
    memset(name, 'b', 21); /* a third of 64 */
    assert_offer(nearest_name(wrong, names, 1), name);
    name[21] = 'b';
    assert_offer(nearest_name(wrong, names, 1), NULL);

    memset(name, 'a', sizeof name);
    wrong[64] = 'a';
    wrong[99] = name[99] = '\0';
    name[0] = 'b'; /* near, but too long to be looked at */
    assert_offer(nearest_name(wrong, names, 1), NULL);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_single_names),
        cmocka_unit_test(test_nearest_first),
        cmocka_unit_test(test_two_names_and_doubles),
        cmocka_unit_test(test_three_at_most),
        cmocka_unit_test(test_characters_not_bytes),
        cmocka_unit_test(test_long_names),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
