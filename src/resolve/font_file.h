/* Inside font_file.c, font_glyphs.c and display_face.c. */
#ifndef SEAMWRIGHT_FONT_FILE_H
#define SEAMWRIGHT_FONT_FILE_H

#include "design.h"

/* What is wrong with a font, as the end of a sentence, and what helps; both
 * NULL where nothing is. */
struct font_fault {
    const char *problem, *help;
};

#define FONT_DAMAGED "is damaged or cut short"

/* Makes the font anew from the bytes of a TrueType or OpenType file, with the
 * letters of Latin titles and those of `title`. Outlines, widths and the tables
 * that place letters are kept; what runs (hinting) or varies is not.
 * ensures: no fault and the font, in the arena; or the fault. */
struct font_fault font_of_bytes(struct arena *arena, const char *bytes,
                                size_t length, const char *title,
                                struct font *font);

/* ensures: whether every glyph has an outline that can be drawn, of a size that
 * letters have. */
bool font_glyphs_hold(const struct font *font);

/* ensures: the characters of the text that the font has no letter for, each
 * once, up to ten of them with commas between; "" for none. */
const char *font_lacks(struct arena *arena, const struct font *font,
                       const char *text);

#endif
