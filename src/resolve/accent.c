/* The color of headings: stated by the designer, and dark enough to be read. */
#include "color.h"
#include "resolver.h"

#include <math.h>

/* Against white: WCAG 2.2, 1.4.3. */
static double contrast_on_white(const struct accent *accent)
{
    const struct srgb color = {accent->red, accent->green, accent->blue};
    return color_contrast(1.0, color_luminance(color));
}

static int hex_part(double part, double share)
{
    return (int)lround(floor(part * share * 255.0));
}

/* The same hue, as much darker as is needed, in steps of a hundredth. */
static const char *darker(struct run *run, struct accent accent)
{
    enum { STEPS = 100 };
    for (int i = STEPS; i > 0; i--) {
        const double share = i / (double)STEPS;
        const struct accent tried = {true, hex_part(accent.red, share) / 255.0,
                                     hex_part(accent.green, share) / 255.0,
                                     hex_part(accent.blue, share) / 255.0};
        if (contrast_on_white(&tried) >= 4.5)
            return arena_printf(run->arena, "#%02x%02x%02x",
                                hex_part(accent.red, share),
                                hex_part(accent.green, share),
                                hex_part(accent.blue, share));
    }
    return "#000000";
}

struct accent resolve_accent(struct run *run, const struct element *about)
{
    const struct value *value = value_of(about, ATTR_ACCENT);
    struct accent accent = {.stated = value != NULL};
    if (value == NULL)
        return accent;
    accent.red = color_part(value->text, 1);
    accent.green = color_part(value->text, 3);
    accent.blue = color_part(value->text, 5);
    const double contrast = contrast_on_white(&accent);
    if (contrast >= 4.5)
        return accent;
    struct diagnostic *d = diag_report(
        run, DIAG_VALUE, value->span,
        "accent=%s is too pale for headings: its contrast on white is %.1f, and "
        "text needs 4.5",
        quoted(run->arena, value->text), floor(contrast * 10.0) / 10.0);
    const char *mend = darker(run, accent);
    diag_mend(run, d, value->span, mend, "accent=\"%s\" can be read", mend);
    return accent;
}
