/* Inside typeset.c and fonts.c. */
#ifndef SEAMWRIGHT_FONTS_H
#define SEAMWRIGHT_FONTS_H

#include "book.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

enum { FONT_COUNT = 5 };

struct fonts {
    int files[FONT_COUNT]; /* open as long as a font may be loaded again */
    FcConfig *config;
    PangoFontMap *map;
    PangoContext *context;
    PangoFont *fonts[FONT_COUNT]; /* kept, so that none is opened again */
};

/* Opens all fonts, and ends the program where one cannot be. */
void fonts_open(struct fonts *fonts, struct arena *arena);
/* requires: nothing made with them is alive, nor anything else of Cairo. */
void fonts_close(struct fonts *fonts);

/* ensures: a description that the caller frees. */
PangoFontDescription *fonts_describe(enum text_face face, double size);
/* Is there a font with the character? */
bool fonts_have(const struct fonts *fonts, gunichar character);

#endif
