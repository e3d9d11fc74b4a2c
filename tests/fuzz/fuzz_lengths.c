/* Lengths and sizes in every unit. What was read is printed, and reads the same
 * again; a fault lies within the text. */
#include <string.h>

#include "fuzz.h"
#include "length.h"

/* Data have a root in full, and it reads again, by itself and as a length where
 * it is none too fine for one. */
static void root_again(struct arena *arena, struct rational value,
                       enum length_unit unit)
{
    const char *exact = length_exact(arena, value, unit);
    MUST(strstr(exact, "\u221a") != NULL);
    MUST(rational_equal(rational_read(exact, strlen(exact)), value));
    const struct length_result again = length_parse(exact, strlen(exact), unit);
    MUST(again.fault == LENGTH_OK ? rational_equal(again.value, value)
                                  : again.fault == LENGTH_TOO_FINE ||
                                        again.fault == LENGTH_TOO_LARGE);
}

static void same_again(struct arena *arena, struct rational value,
                       enum length_unit unit)
{
    MUST(length_glyphs(arena, value, unit) != NULL);
    MUST(length_plain(arena, value, unit) != NULL);
    if (rational_is_irrational(value))
        root_again(arena, value, unit);
    const char *plain = length_written(arena, value, unit);
    /* A decimal of centimetres is rounded where it has no end. */
    if (unit != UNIT_IN && unit != UNIT_YD)
        return;
    const struct length_result again = length_parse(plain, strlen(plain), unit);
    MUST(again.fault != LENGTH_OK || rational_compare(again.value, value) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_create();
    const char *text = arena_copy(arena, (const char *)bytes, length);
    for (int unit = UNIT_IN; unit <= UNIT_M; unit++) {
        const struct length_result one =
            length_parse(text, length, (enum length_unit)unit);
        const struct size_result two =
            size_parse(text, length, (enum length_unit)unit);
        MUST(one.start <= one.end && one.end <= length);
        MUST(two.start <= two.end && two.end <= length);
        MUST((one.fault == LENGTH_OK) == rational_known(one.value));
        MUST((two.fault == LENGTH_OK) == rational_known(two.width));
        if (one.fault == LENGTH_OK)
            same_again(arena, one.value, (enum length_unit)unit);
        if (two.fault == LENGTH_OK)
            same_again(arena, two.height, (enum length_unit)unit);
    }
    arena_destroy(arena);
    return 0;
}
