/* Cloths that meet in a seam and can hardly be told apart: a picture of the
 * quilt loses its line there. Once all quilts are sewn, for each colorway; a
 * remark, as it may be meant. Colors alone are looked at first, so that a
 * pattern whose colors differ costs nothing. */
#include "adjoin.h"
#include "color.h"
#include "sewer.h"

#include <math.h>
#include <string.h>

/* Beneath this contrast, and with hues that are as near, two cloths are one
 * from a step away. 1.12 is 3 to 4.3 of lightness in CIELAB, for greys above a
 * fifth of white; a hue is near within 8 of a* and b*. Both chosen by looking
 * at triangles of pairs of colors, so that neither pale grounds that are meant
 * to be quiet (white on oat, 1.2) nor tones of one color (1.15) are spoken of.
 */
static const double HARDLY = 1.12, NEAR_HUE = 8.0;
/* Beneath this contrast hue alone parts them. It is less than 1 of lightness in
 * CIELAB at any lightness: no eye sees it, and no print in grey shows it. */
static const double ONE_LIGHTNESS = 1.02;

/* Beyond these nothing more is said: pairs grow with the square of fabrics, and
 * remarks with that of colorways, too. */
enum { MANY_FABRICS = 200, MANY_REMARKS = 100 };

enum likeness { TOLD_APART, ONE_COLOR, ONE_LIGHT };

struct shade {
    struct srgb color;
    double luminance;
    const struct bolt *bolt; /* NULL for a color that is tried */
};

static struct shade shade_of(struct srgb color)
{
    return (struct shade){color, color_luminance(color), NULL};
}

/* One cloth in two roles: the designer says so. */
static bool is_one_cloth(const struct bolt *a, const struct bolt *b)
{
    return a != NULL && b != NULL && strcmp(a->name, b->name) == 0 &&
           strcmp(a->code, b->code) == 0;
}

static enum likeness likeness(const struct shade *a, const struct shade *b)
{
    const double contrast = color_contrast(a->luminance, b->luminance);
    if (contrast >= HARDLY || is_one_cloth(a->bolt, b->bolt))
        return TOLD_APART;
    if (color_hue_distance(a->color, b->color) < NEAR_HUE)
        return ONE_COLOR;
    return contrast < ONE_LIGHTNESS ? ONE_LIGHT : TOLD_APART;
}

/* What all functions below look at: the shades of each colorway in turn, and
 * which fabrics adjoin. */
struct look {
    struct run *run;
    const struct design *design;
    size_t fabrics;
    const struct shade *shades;
    const struct adjoining *table;
    size_t remarks;
};

/* The shades of one colorway. */
static const struct shade *shades_in(const struct look *look, size_t colorway)
{
    return &look->shades[colorway * look->fabrics];
}

static const struct shade *all_shades(struct arena *arena,
                                      const struct design *design)
{
    const size_t fabrics = design->fabrics.count;
    struct shade *shades =
        ARENA_ARRAY(arena, struct shade, design->colorways.count * fabrics);
    for (size_t c = 0; c < design->colorways.count; c++)
        for (size_t f = 0; f < fabrics; f++) {
            const struct bolt *bolt = &design->colorways.items[c].bolts[f];
            struct shade *shade = &shades[c * fabrics + f];
            *shade =
                shade_of((struct srgb){bolt->red, bolt->green, bolt->blue});
            shade->bolt = bolt;
        }
    return shades;
}

/* Whether they meet or not. */
static bool any_alike(const struct look *look)
{
    for (size_t c = 0; c < look->design->colorways.count; c++)
        for (size_t a = 0; a < look->fabrics; a++)
            for (size_t b = a + 1; b < look->fabrics; b++)
                if (likeness(&shades_in(look, c)[a], &shades_in(look, c)[b]) !=
                    TOLD_APART)
                    return true;
    return false;
}

/* ---- what is said ---- */

static struct span color_span(const struct bolt *bolt)
{
    return value_span(bolt->element, ATTR_COLOR);
}

/* Is the color told from that of each fabric that adjoins `fabric`? From that
 * of `other` by lightness. */
static bool serves(const struct look *look, const struct shade *shades,
                   const struct shade *tried, size_t fabric, size_t other)
{
    for (size_t f = 0; f < look->fabrics; f++)
        if (look->table[fabric * look->fabrics + f].quilt != NULL &&
            likeness(tried, &shades[f]) != TOLD_APART)
            return false;
    return color_contrast(tried->luminance, shades[other].luminance) >= HARDLY;
}

static int eighth_bits(double part)
{
    return (int)lround(part * 255.0);
}

/* The color mixed with as little of black (0) or white (1) as serves, in steps
 * of a hundredth, which leaves its hue. ensures: NULL where none serves. */
static const char *mixed(const struct look *look, const struct shade *shades,
                         size_t fabric, size_t other, double end)
{
    enum { STEPS = 100 };
    const struct srgb color = shades[fabric].color;
    for (int i = 1; i <= STEPS; i++) {
        const double share = i / (double)STEPS;
        const int red = eighth_bits(color.red + (end - color.red) * share);
        const int green =
            eighth_bits(color.green + (end - color.green) * share);
        const int blue = eighth_bits(color.blue + (end - color.blue) * share);
        const struct shade tried =
            shade_of((struct srgb){red / 255.0, green / 255.0, blue / 255.0});
        if (serves(look, shades, &tried, fabric, other))
            return arena_printf(look->run->arena, "#%02x%02x%02x",
                                (unsigned)red, (unsigned)green, (unsigned)blue);
    }
    return NULL;
}

/* A color is that of real cloth, so it is told in words, and never mended. */
static void say_help(const struct look *look, struct diagnostic *d,
                     const struct shade *shades, size_t fabric, size_t other)
{
    const char *lighter = mixed(look, shades, fabric, other, 1.0);
    const char *darker = mixed(look, shades, fabric, other, 0.0);
    if (lighter == NULL && darker == NULL)
        return;
    diag_help(look->run, d,
              "a cloth for `%s` like %s%s%s%s%s is told from all that it meets",
              look->design->fabrics.items[fabric].id,
              lighter == NULL ? "" : lighter,
              lighter == NULL ? "" : " (lighter)",
              lighter != NULL && darker != NULL ? " or " : "",
              darker == NULL ? "" : darker, darker == NULL ? "" : " (darker)");
}

/* As a designer can measure: from the corner of the quilt. */
static void say_where(const struct look *look, struct diagnostic *d,
                      const struct adjoining *place)
{
    struct arena *arena = look->run->arena;
    const enum length_unit units = look->design->pattern->units;
    const struct piece *piece = piece_of_seam(place->quilt->cloth, place->at);
    diag_note(
        look->run, d,
        piece == NULL ? (struct span){0, 0} : piece->element->name,
        "they meet%s%s%s first at %s from the left and %s from the top "
        "of `%s`",
        piece == NULL ? "" : " in this `",
        piece == NULL ? "" : element_name(piece->element->kind),
        piece == NULL ? "" : "`,", length_plain(arena, place->at.x, units),
        length_plain(arena, place->at.y, units), place->quilt->definition->id);
}

/* At the one that stands later in the source. Rounded down, so that what is
 * beneath a limit is not printed as the limit. */
static void say_alike(const struct look *look, size_t colorway, size_t a,
                      size_t b, enum likeness how)
{
    const struct shade *shades = shades_in(look, colorway);
    const bool turned =
        color_span(shades[a].bolt).start > color_span(shades[b].bolt).start;
    const size_t first = turned ? b : a, second = turned ? a : b;
    const struct fabric *fabrics = look->design->fabrics.items;
    const double contrast =
        color_contrast(shades[a].luminance, shades[b].luminance);
    struct diagnostic *d = diag_report(
        look->run, DIAG_CONTRAST, color_span(shades[second].bolt),
        "`%s` %s `%s` in `%s`: contrast %.2f : 1", fabrics[second].id,
        how == ONE_COLOR ? "can hardly be told from" : "is as light as",
        fabrics[first].id, look->design->colorways.items[colorway].id,
        floor(contrast * 100.0) / 100.0);
    diag_note(look->run, d, color_span(shades[first].bolt), "`%s` is %s",
              fabrics[first].id,
              how == ONE_COLOR ? "here"
                               : "here; they part by hue alone, not in grey");
    say_where(look, d, &look->table[a * look->fabrics + b]);
    say_help(look, d, shades, second, first);
}

static void look_at_colorway(struct look *look, size_t colorway)
{
    const struct shade *shades = shades_in(look, colorway);
    for (size_t a = 0; a < look->fabrics; a++)
        for (size_t b = a + 1; b < look->fabrics; b++) {
            if (look->table[a * look->fabrics + b].quilt == NULL)
                continue;
            const enum likeness how = likeness(&shades[a], &shades[b]);
            if (how != TOLD_APART && look->remarks++ < MANY_REMARKS)
                say_alike(look, colorway, a, b, how);
        }
}

void check_contrast(struct run *run, const struct sewn *sewn)
{
    const struct design *design = sewn->sized->design;
    struct look look = {
        .run = run, .design = design, .fabrics = design->fabrics.count};
    if (run->trial || look.fabrics > MANY_FABRICS)
        return;
    struct arena *scratch = arena_create();
    look.shades = all_shades(scratch, design);
    if (any_alike(&look)) {
        struct adjoining *table =
            ARENA_ARRAY(scratch, struct adjoining, look.fabrics * look.fabrics);
        for (size_t i = 0; i < sewn->quilts.count; i++)
            find_adjoining(&sewn->quilts.items[i], table, look.fabrics);
        look.table = table;
        for (size_t c = 0; c < design->colorways.count; c++)
            look_at_colorway(&look, c);
    }
    arena_destroy(scratch);
}
