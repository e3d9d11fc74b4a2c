/* owner: base
 *
 * How the eye tells two colors apart. Colors measure nothing that is cut, so
 * doubles are enough. Parts of a color are those of sRGB, from 0 to 1.
 */
#ifndef SEAMWRIGHT_COLOR_H
#define SEAMWRIGHT_COLOR_H

struct srgb {
    double red, green, blue;
};

/* ensures: the relative luminance, from 0 (black) to 1 (white). Source: WCAG
 * 2.2, "relative luminance", with the threshold of IEC 61966-2-1. WCAG 2.1 has
 * 0.03928 for it; no color of 8 bits a part lies between the two. */
double color_luminance(struct srgb color);

/* ensures: the contrast ratio of two luminances, from 1 to 21, whichever is the
 * lighter. Source: WCAG 2.1, "contrast ratio". */
double color_contrast(double luminance, double other);

/* ensures: how far apart hue and chroma of two colors lie, whatever their
 * lightness: the distance in a* and b*. Source: CIE 15, the space L*a*b* of
 * 1976; its white and the matrix are those of sRGB (IEC 61966-2-1). */
double color_hue_distance(struct srgb color, struct srgb other);

#endif
