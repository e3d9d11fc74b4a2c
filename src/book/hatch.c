/* Hatches: a second way beside the letter to tell cloths apart without colour.
 * Angles keep 22.5 degrees from the edges and seams of patchwork (0, 45, 90,
 * 135); spacings lie in the 1.5 to 6 mm of drawing practice, each twice the one
 * before. Also what of light and contrast the figures need. */
#include "figure_parts.h"

#include <math.h>

/* Millimetres in points. */
static const double fine = 4.2520, hatch_line = 0.5102;

/* ---- light ---- */

/* By the numbers of the channels, not by light: what the shade is like is
 * measured by its contrast afterwards. */
struct color mixed(struct color a, struct color b, double share)
{
    return (struct color){a.red + (b.red - a.red) * share,
                          a.green + (b.green - a.green) * share,
                          a.blue + (b.blue - a.blue) * share};
}

/* Relative luminance as WCAG 2.1 defines it, with the threshold of the standard
 * for sRGB (IEC 61966-2-1). */
double lightness(struct color color)
{
    const double parts[3] = {color.red, color.green, color.blue};
    static const double weights[3] = {0.2126, 0.7152, 0.0722};
    double sum = 0.0;
    for (int i = 0; i < 3; i++)
        sum += weights[i] * (parts[i] <= 0.04045
                                 ? parts[i] / 12.92
                                 : pow((parts[i] + 0.055) / 1.055, 2.4));
    return sum;
}

/* The ratio of WCAG 2.1, from 1 to 21, whichever of the two is the lighter. */
static double contrast_of(double a, double b)
{
    const double x = a + 0.05, y = b + 0.05;
    return x > y ? x / y : y / x;
}

double contrast(struct color a, struct color b)
{
    return contrast_of(lightness(a), lightness(b));
}

/* A shade of the cloth that is seen in grey, and does not shout: lighter on
 * dark cloth, darker on light. Contrast grows with the share of black or white,
 * so bisection finds it. */
static struct color hatch_color(struct color cloth)
{
    const double wanted = 2.2, light = lightness(cloth);
    const struct color end =
        light < 0.18 ? white : (struct color){0.0, 0.0, 0.0};
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 30; i++) {
        const double share = (low + high) / 2.0;
        if (contrast_of(light, lightness(mixed(cloth, end, share))) < wanted)
            low = share;
        else
            high = share;
    }
    return mixed(cloth, end, high);
}

/* ---- which hatch ---- */

/* The first cloth is plain. The next four differ by their angle, four more by
 * twice the spacing, four more by four times; then the set begins again behind
 * the plain one. Neighbours by number are 45 degrees apart or more. */
const struct hatch *cloth_hatch(struct arena *arena, int fabric,
                                struct color cloth)
{
    static const double angles[4] = {22.5, 112.5, 67.5, 157.5};
    enum { ANGLES = 4, SPACINGS = 3 };
    if (fabric == 0)
        return NULL;
    const int kind = (fabric - 1) % (ANGLES * SPACINGS);
    struct hatch *hatch = ARENA_NEW(arena, struct hatch);
    *hatch = (struct hatch){angles[kind % ANGLES], fine * (1 << kind / ANGLES),
                            hatch_line, false, hatch_color(cloth)};
    return hatch;
}

/* How far the points reach in a direction of length 1. requires: points on a
 * page, so that none is beyond the first bounds. */
static double reach(const struct point *points, size_t count, double x,
                    double y)
{
    double least = 1e9, most = -1e9;
    for (size_t i = 0; i < count; i++) {
        const double at = points[i].x * x + points[i].y * y;
        least = at < least ? at : least;
        most = at > most ? at : most;
    }
    return most - least;
}

/* A convex shape is least wide square to one of its edges. */
static double least_width(const struct point *points, size_t count)
{
    double least = 1e9;
    for (size_t i = 0; i < count; i++) {
        const struct point a = points[i], b = points[(i + 1) % count];
        const double length = hypot(b.x - a.x, b.y - a.y);
        if (length > 0.0)
            least = fmin(least, reach(points, count, (a.y - b.y) / length,
                                      (b.x - a.x) / length));
    }
    return least;
}

/* Three lines or none; and no row of ticks along a narrow strip. */
bool hatch_fits(const struct hatch *hatch, const struct point *points,
                size_t count)
{
    const double turn = hatch->angle * acos(-1.0) / 180.0;
    return reach(points, count, sin(turn), cos(turn)) >= 3.0 * hatch->spacing &&
           least_width(points, count) >= 1.5 * hatch->spacing;
}
