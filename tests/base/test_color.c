/* Luminance, contrast and hue of colors, against published values. */
#include "../unit.h"
#include "color.h"

#include <math.h>

static struct srgb hex(unsigned value)
{
    return (struct srgb){(value >> 16 & 255) / 255.0,
                         (value >> 8 & 255) / 255.0, (value & 255) / 255.0};
}

static double contrast(unsigned one, unsigned other)
{
    return color_contrast(color_luminance(hex(one)),
                          color_luminance(hex(other)));
}

/* W3C, WCAG 2.1: white and black have 21:1. W3C, Understanding 1.4.3 and
 * technique G18 on greys on white: #777777 has 4.48:1 and just fails 4.5,
 * #767676 has 4.54:1 and passes. Luminances of red, green and blue are the
 * weights of the formula. */
static void contrasts_that_are_published(void **state)
{
    (void)state;
    assert_true(fabs(contrast(0xffffff, 0x000000) - 21.0) < 1e-9);
    assert_true(fabs(contrast(0x000000, 0xffffff) - 21.0) < 1e-9);
    assert_true(fabs(contrast(0x777777, 0xffffff) - 4.48) < 0.005);
    assert_true(fabs(contrast(0x767676, 0xffffff) - 4.54) < 0.005);
    assert_true(contrast(0xd9552b, 0xd9552b) == 1.0);
    assert_true(fabs(color_luminance(hex(0xff0000)) - 0.2126) < 1e-9);
    assert_true(fabs(color_luminance(hex(0x00ff00)) - 0.7152) < 1e-9);
    assert_true(fabs(color_luminance(hex(0x0000ff)) - 0.0722) < 1e-9);
}

/* Below the threshold light is a twelfth of the part: 10 of 255 and less. */
static void dark_parts_are_straight(void **state)
{
    (void)state;
    assert_true(fabs(color_luminance(hex(0x0a0a0a)) - 10 / 255.0 / 12.92) <
                1e-12);
    assert_true(fabs(color_luminance(hex(0x0b0b0b)) -
                     pow((11 / 255.0 + 0.055) / 1.055, 2.4)) < 1e-12);
}

/* a* and b* of the three primaries of sRGB under D65, to two places (widely
 * published; here from memory): red 80.09, 67.20; green -86.18, 83.18; blue
 * 79.19, -107.86. Greys have none. */
static void hues_that_are_published(void **state)
{
    static const struct {
        unsigned color;
        double a, b;
    } known[] = {{0xff0000, 80.09, 67.20},
                 {0x00ff00, -86.18, 83.18},
                 {0x0000ff, 79.19, -107.86},
                 {0x777777, 0.0, 0.0},
                 {0x030303, 0.0, 0.0}};
    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
            const double wanted =
                hypot(known[i].a - known[k].a, known[i].b - known[k].b);
            const double found =
                color_hue_distance(hex(known[i].color), hex(known[k].color));
            assert_true(fabs(found - wanted) < 0.1);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contrasts_that_are_published),
        cmocka_unit_test(dark_parts_are_straight),
        cmocka_unit_test(hues_that_are_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
