/* Light, contrast and hue of colors; see color.h for where they come from. */
#include "color.h"

#include <math.h>

/* A part as light: what a screen gives out. */
static double light(double part)
{
    return part <= 0.04045 ? part / 12.92 : pow((part + 0.055) / 1.055, 2.4);
}

double color_luminance(struct srgb color)
{
    return 0.2126 * light(color.red) + 0.7152 * light(color.green) +
           0.0722 * light(color.blue);
}

double color_contrast(double luminance, double other)
{
    const double x = luminance + 0.05, y = other + 0.05;
    return x > y ? x / y : y / x;
}

/* The cube root of L*a*b*, straight near black. */
static double root(double share)
{
    return share > 216.0 / 24389.0 ? cbrt(share)
                                   : (24389.0 / 27.0 * share + 16.0) / 116.0;
}

struct chroma {
    double a, b;
};

static struct chroma chroma_of(struct srgb color)
{
    const double red = light(color.red), green = light(color.green),
                 blue = light(color.blue);
    const double x =
        root((0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505);
    const double y = root(0.2126 * red + 0.7152 * green + 0.0722 * blue);
    const double z =
        root((0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.0890);
    return (struct chroma){500.0 * (x - y), 200.0 * (y - z)};
}

double color_hue_distance(struct srgb color, struct srgb other)
{
    const struct chroma p = chroma_of(color), q = chroma_of(other);
    return hypot(p.a - q.a, p.b - q.b);
}
