/* What texts measure, kept for a run. */
#include <string.h>

#include "../../src/book/measures.h"
#include "../unit.h"

static struct text_extent extent_of(double width)
{
    struct text_extent extent;
    memset(&extent, 0, sizeof extent);
    extent.width = width;
    return extent;
}

static const struct text_style regular = {.face = FACE_REGULAR, .size = 10.0};

static void test_nothing_is_found_at_first(void **state)
{
    const struct measures measures = {.arena = *state};
    assert_null(measures_find(&measures, "dusk", regular, 100.0));
}

static void test_a_text_is_found_by_all_that_it_depends_on(void **state)
{
    struct measures measures = {.arena = *state};
    char text[] = "dusk";
    measures_keep(&measures, text, regular, 100.0, extent_of(21.5));
    /* A copy was kept. */
    text[0] = 'm';
    const struct text_extent *found =
        measures_find(&measures, "dusk", regular, 100.0);
    assert_non_null(found);
    assert_true(found->width > 21.4 && found->width < 21.6);
    assert_null(measures_find(&measures, "musk", regular, 100.0));
    assert_null(measures_find(&measures, "dusk", regular, 99.0));
    struct text_style other = regular;
    other.size = 9.0;
    assert_null(measures_find(&measures, "dusk", other, 100.0));
    other = regular;
    other.face = FACE_BOLD;
    assert_null(measures_find(&measures, "dusk", other, 100.0));
    /* Colour and alignment change no extent. */
    other = regular;
    other.align = ALIGN_CENTER;
    other.color.red = 1.0;
    assert_ptr_equal(measures_find(&measures, "dusk", other, 100.0), found);
}

/* Beyond the first table, which is made anew several times. */
static void test_thousands_are_all_found_again(void **state)
{
    enum { COUNT = 5000 };
    struct measures measures = {.arena = *state};
    for (int i = 0; i < COUNT; i++) {
        const char *text = arena_printf(*state, "%d pieces", i / 2);
        const double width = i % 2 == 0 ? 50.0 : 60.0;
        assert_null(measures_find(&measures, text, regular, width));
        measures_keep(&measures, text, regular, width, extent_of(i));
    }
    assert_int_equal(measures.count, COUNT);
    assert_true(measures.count * 2 <= measures.capacity);
    for (int i = 0; i < COUNT; i++) {
        const struct text_extent *found =
            measures_find(&measures, arena_printf(*state, "%d pieces", i / 2),
                          regular, i % 2 == 0 ? 50.0 : 60.0);
        assert_non_null(found);
        assert_int_equal((int)found->width, i);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_is_found_at_first),
        cmocka_unit_test(test_a_text_is_found_by_all_that_it_depends_on),
        cmocka_unit_test(test_thousands_are_all_found_again),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
