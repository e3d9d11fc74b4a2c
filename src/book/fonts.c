/* The fonts that text is set in.
 *
 * Everything that could differ from machine to machine is pinned: the fonts
 * come from the program itself, or lie in its memory, Fontconfig gets a
 * configuration of its own and never loads the machine's, nothing is hinted,
 * language and direction are given. Read next: typeset.c. */
#define _GNU_SOURCE /* memfd_create */

#include "fonts.h"

#include "diag.h"
#include "templates.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cairo-ft.h>
#include <hb.h>
#include <pango/pangofc-fontmap.h>

enum { EXIT_FILES = 4 };

struct font_source {
    const char *file; /* below templates/ */
    const char *family;
    PangoWeight weight;
    PangoStyle style;
};

/* The first four are in the order of `enum text_face`. */
static const struct font_source FONTS[FONT_MOST] = {
    {"fonts/NotoSans-Regular.ttf", "Noto Sans", PANGO_WEIGHT_NORMAL,
     PANGO_STYLE_NORMAL},
    {"fonts/NotoSans-Bold.ttf", "Noto Sans", PANGO_WEIGHT_BOLD,
     PANGO_STYLE_NORMAL},
    {"fonts/NotoSans-Italic.ttf", "Noto Sans", PANGO_WEIGHT_NORMAL,
     PANGO_STYLE_ITALIC},
    {"fonts/Vollkorn-Bold.ttf", "Vollkorn", PANGO_WEIGHT_BOLD,
     PANGO_STYLE_NORMAL},
    {"fonts/DejaVuSans-Symbols.ttf", "DejaVu Sans", PANGO_WEIGHT_NORMAL,
     PANGO_STYLE_NORMAL},
    /* Whatever its weight and style are: there is no other of its family. */
    [FONT_OWN] = {"display-face", FONT_FAMILY, PANGO_WEIGHT_NORMAL,
                  PANGO_STYLE_NORMAL},
};

/* What the system refuses is no fault of ours: the bytes are in the program,
 * but the libraries take a font from a file. Where there is no memory for it,
 * that was told before. */
static _Noreturn void refused(const char *font, const char *words)
{
    fprintf(stderr, "seamwright: %s: cannot read this font: %s\n", font, words);
    exit(EXIT_FILES);
}

/* A write may take less than it was given. */
static bool write_whole(int file, const void *whole, size_t length)
{
    const char *bytes = whole;
    while (length > 0) {
        const ssize_t written = write(file, bytes, length);
        if (written <= 0)
            return false;
        bytes += written;
        length -= (size_t)written;
    }
    return true;
}

/* Fontconfig wants files, so the bytes become files in memory, which have a
 * name under /proc and never touch a disk. */
static void add_font(struct arena *arena, struct fonts *fonts, const char *name,
                     const void *bytes, size_t length)
{
    const int file = memfd_create("font", MFD_CLOEXEC);
    if (file < 0 || !write_whole(file, bytes, length))
        refused(name, strerror(errno));
    fonts->files[fonts->count++] = file;
    const char *path = arena_printf(arena, "/proc/self/fd/%d", file);
    if (!FcConfigAppFontAddFile(fonts->config, (const FcChar8 *)path))
        refused(name, "it cannot be opened below /proc/self/fd");
}

static void add_fonts(struct arena *arena, struct fonts *fonts,
                      const struct font *own)
{
    fonts->config = FcConfigCreate();
    for (int i = 0; i < FONT_COUNT; i++) {
        const char *name = FONTS[i].file;
        const struct template_file *font = template_find(name);
        if (font == NULL)
            internal_error("%s: this font is not in the program", name);
        add_font(arena, fonts, name, font->bytes, font->length);
    }
    if (own != NULL)
        add_font(arena, fonts, FONTS[FONT_OWN].file, own->bytes, own->length);
    /* Pango initialises Fontconfig on its own. With a current configuration
     * that finds nothing to do, and the machine's is never loaded. */
    if (!FcConfigSetCurrent(fonts->config))
        internal_error("%s: %s", "fontconfig", "the configuration was refused");
}

static void create_context(struct fonts *fonts)
{
    /* One unit of the page is one point: 72 to the inch. */
    fonts->map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    if (fonts->map == NULL)
        internal_error("%s: %s", "pango", "it cannot use FreeType fonts");
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(fonts->map), fonts->config);
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts->map), 72);
    fonts->context = pango_font_map_create_context(fonts->map);
    /* Hinting would fit the letters to the pixels of some screen, and change
     * their widths with the size. */
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(fonts->context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(fonts->context, FALSE);
    /* Else taken from the environment. */
    pango_context_set_language(fonts->context,
                               pango_language_from_string("en"));
    pango_context_set_base_dir(fonts->context, PANGO_DIRECTION_LTR);
}

/* ensures: a description that the caller frees. */
static PangoFontDescription *describe(const struct font_source *font,
                                      double size)
{
    /* The family's name outlives the description, so it is not copied. */
    PangoFontDescription *description = pango_font_description_new();
    pango_font_description_set_family_static(description, font->family);
    pango_font_description_set_weight(description, font->weight);
    pango_font_description_set_style(description, font->style);
    pango_font_description_set_absolute_size(description, size * PANGO_SCALE);
    return description;
}

/* The letters are chosen by one library and drawn by another, and each opens
 * the file for itself. Where that fails, the one finds no letters and the other
 * draws none, and neither says so. Both are made to open it here: from then on
 * they have it as long as the font is kept.
 * ensures: whether both have all letters. */
static bool font_is_open(PangoFont *font)
{
    hb_face_t *chosen = hb_font_get_face(pango_font_get_hb_font(font));
    cairo_scaled_font_t *drawn =
        pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(font));
    if (drawn == NULL)
        return false;
    const FT_Face face = cairo_ft_scaled_font_lock_face(drawn);
    if (face == NULL) /* a font in error has none */
        return false;
    const bool whole = face->num_glyphs > 1 && (FT_Long)hb_face_get_glyph_count(
                                                   chosen) == face->num_glyphs;
    cairo_ft_scaled_font_unlock_face(drawn);
    return whole;
}

/* Fontconfig gives the nearest font rather than none, silently.
 * ensures: the font, to be kept. */
static PangoFont *open_font(struct fonts *fonts, const struct font_source *font)
{
    PangoFontDescription *wanted = describe(font, 10);
    PangoFont *loaded =
        pango_font_map_load_font(fonts->map, fonts->context, wanted);
    if (loaded == NULL || !font_is_open(loaded))
        refused(font->file, "it cannot be loaded");
    PangoFontDescription *got = pango_font_describe(loaded);
    if (strcmp(pango_font_description_get_family(got), font->family) != 0 ||
        (font != &FONTS[FONT_OWN] &&
         (pango_font_description_get_weight(got) != font->weight ||
          pango_font_description_get_style(got) != font->style)))
        internal_error("%s: %s", font->file, "another font came in its place");
    pango_font_description_free(got);
    pango_font_description_free(wanted);
    return loaded;
}

/* ---- the designer's own ---- */

/* Letters and digits, in units of the size: how high a capital is, and how far
 * any of them reaches up and down. */
struct reach {
    double capital, up, down;
};

static struct reach reach_of(PangoFont *font)
{
    struct reach reach = {0};
    hb_font_t *letters = pango_font_get_hb_font(font);
    int scale;
    hb_font_get_scale(letters, NULL, &scale);
    for (hb_codepoint_t c = '0'; c <= 'z'; c++) {
        hb_codepoint_t glyph;
        hb_glyph_extents_t extents;
        if (!g_ascii_isalnum((gchar)c) ||
            !hb_font_get_nominal_glyph(letters, c, &glyph) ||
            !hb_font_get_glyph_extents(letters, glyph, &extents))
            continue;
        const double top = (double)extents.y_bearing / scale;
        const double bottom = top + (double)extents.height / scale;
        reach.capital = c == 'H' ? top : reach.capital;
        reach.up = fmax(reach.up, top);
        reach.down = fmax(reach.down, -bottom);
    }
    return reach;
}

/* Makers draw letters of one size very differently: its capitals become as high
 * as those of the bundled face, and no letter reaches into the lines around. */
static double own_scale(const struct fonts *fonts)
{
    static const double UP_MOST = 0.95, DOWN_MOST = 0.33;
    const struct reach bundled = reach_of(fonts->fonts[FACE_DISPLAY]);
    const struct reach own = reach_of(fonts->fonts[FONT_OWN]);
    double scale = own.capital > 0.0 ? bundled.capital / own.capital : 1.0;
    if (own.up > 0.0)
        scale = fmin(scale, UP_MOST / own.up);
    if (own.down > 0.0)
        scale = fmin(scale, DOWN_MOST / own.down);
    return scale;
}

/* A line of two faces would look like a mistake. */
static bool own_has_all(const struct fonts *fonts, const char *text)
{
    if (fonts->count <= FONT_OWN)
        return false;
    hb_font_t *own = pango_font_get_hb_font(fonts->fonts[FONT_OWN]);
    hb_codepoint_t glyph;
    for (const char *c = text; *c != '\0'; c = g_utf8_next_char(c))
        if (!hb_font_get_nominal_glyph(own, g_utf8_get_char(c), &glyph))
            return false;
    return true;
}

PangoFontDescription *fonts_describe(const struct fonts *fonts,
                                     enum text_face face, double size,
                                     const char *text)
{
    return face == FACE_DISPLAY && own_has_all(fonts, text)
               ? describe(&FONTS[FONT_OWN], size * fonts->own_scale)
               : describe(&FONTS[face], size);
}

/* ---- all of them ---- */

/* All fonts are loaded at once, so that a font that is missing shows in
 * the first run and not with the first italic word. */
void fonts_open(struct fonts *fonts, struct arena *arena,
                const struct font *own)
{
    add_fonts(arena, fonts, own);
    create_context(fonts);
    for (int i = 0; i < fonts->count; i++)
        fonts->fonts[i] = open_font(fonts, &FONTS[i]);
    fonts->own_scale = own == NULL ? 1.0 : own_scale(fonts);
}

void fonts_close(struct fonts *fonts)
{
    for (int i = 0; i < fonts->count; i++)
        g_object_unref(fonts->fonts[i]);
    g_object_unref(fonts->context);
    /* Pango keeps its reference to the configuration unless told. */
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(fonts->map), NULL);
    g_object_unref(fonts->map);
    FcConfigDestroy(fonts->config);
    /* Cairo remembers fonts by path, and the same path will be another font
     * when a file's number is used again. Cairo before Fontconfig: its fonts
     * hold patterns. */
    cairo_debug_reset_static_data();
    FcFini();
    for (int i = 0; i < fonts->count; i++)
        close(fonts->files[i]);
}

bool fonts_have(const struct fonts *fonts, gunichar character)
{
    hb_codepoint_t glyph;
    for (int i = 0; i < fonts->count; i++)
        if (hb_font_get_nominal_glyph(pango_font_get_hb_font(fonts->fonts[i]),
                                      character, &glyph))
            return true;
    return false;
}
