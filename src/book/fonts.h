/* Inside typeset.c and fonts.c. */
#ifndef SEAMWRIGHT_FONTS_H
#define SEAMWRIGHT_FONTS_H

#include "book.h"
#include "design.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

/* The bundled ones, and behind them the designer's own. */
enum { FONT_COUNT = 5, FONT_OWN = FONT_COUNT, FONT_MOST };

struct fonts {
    int count;            /* FONT_COUNT, or FONT_MOST with one of their own */
    int files[FONT_MOST]; /* open as long as a font may be loaded again */
    FcConfig *config;
    PangoFontMap *map;
    PangoContext *context;
    PangoFont *fonts[FONT_MOST]; /* kept, so that none is opened again */
    double own_scale;            /* of sizes, for the designer's own */
};

/* Opens all fonts, and ends the program where one cannot be. `own` is the
 * designer's, or NULL. */
void fonts_open(struct fonts *fonts, struct arena *arena,
                const struct font *own);
/* requires: nothing made with them is alive, nor anything else of Cairo. */
void fonts_close(struct fonts *fonts);

/* The font that a text is set in: for FACE_DISPLAY the designer's own, where it
 * has all letters of the text. ensures: a description that the caller frees. */
PangoFontDescription *fonts_describe(const struct fonts *fonts,
                                     enum text_face face, double size,
                                     const char *text);
/* Is there a font with the character? */
bool fonts_have(const struct fonts *fonts, gunichar character);

#endif
