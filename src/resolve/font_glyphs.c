/* The glyphs of a font that was made anew: drawn once by FreeType, which draws
 * them on the pages, too, and there has nobody to tell of a fault. */
#include "font_file.h"

#include <string.h>

#include <freetype/freetype.h>

#include "buffer.h"
#include "character.h"
#include "shortage.h"

/* A font that is open, in a library of its own. */
struct opened {
    FT_Library library;
    FT_Face face; /* NULL where it cannot be opened */
};

static struct opened open_face(const struct font *font)
{
    struct opened opened = {0};
    if (FT_Init_FreeType(&opened.library) != 0)
        end_out_of_memory(NULL);
    if (font->length == 0 ||
        FT_New_Memory_Face(opened.library, (const FT_Byte *)font->bytes,
                           (FT_Long)font->length, 0, &opened.face) != 0)
        opened.face = NULL;
    return opened;
}

static void close_face(struct opened opened)
{
    if (opened.face != NULL)
        FT_Done_Face(opened.face);
    FT_Done_FreeType(opened.library);
}

/* In the units of the font: outlines as they are written. */
static bool load(FT_Face face, FT_UInt glyph)
{
    return FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING) ==
               0 &&
           face->glyph->format == FT_GLYPH_FORMAT_OUTLINE;
}

/* No letter is wider than three times the size, or reaches further up or down:
 * where numbers are damaged, that is where it shows, and a title of such
 * letters has no room on any page. */
static bool of_letter_size(FT_Face face)
{
    const FT_Long most = 3 * (FT_Long)face->units_per_EM;
    const FT_Glyph_Metrics *metrics = &face->glyph->metrics;
    return metrics->horiAdvance >= 0 && metrics->horiAdvance <= most &&
           metrics->width <= most && metrics->height <= most &&
           metrics->horiBearingX >= -most && metrics->horiBearingX <= most &&
           metrics->horiBearingY >= -most && metrics->horiBearingY <= most;
}

bool font_glyphs_hold(const struct font *font)
{
    const struct opened opened = open_face(font);
    const FT_Face face = opened.face;
    bool hold = face != NULL && FT_IS_SCALABLE(face) && face->num_glyphs > 1 &&
                face->family_name != NULL &&
                strcmp(face->family_name, FONT_FAMILY) == 0;
    for (FT_Long i = 0; hold && i < face->num_glyphs; i++)
        hold = load(face, (FT_UInt)i) && of_letter_size(face);
    close_face(opened);
    return hold;
}

/* Blanks are letters without an outline. */
static bool has_letter(FT_Face face, uint32_t code)
{
    const bool blank =
        code == 0x20 || code == 0xA0 || (code >= 0x2000 && code <= 0x200F);
    const FT_UInt glyph = FT_Get_Char_Index(face, code);
    return glyph != 0 && load(face, glyph) &&
           (blank || face->glyph->outline.n_points > 0);
}

const char *font_lacks(struct arena *arena, const struct font *font,
                       const char *text)
{
    enum { TOLD = 10 };
    const struct opened opened = open_face(font);
    struct buffer lacking = buffer_in(arena);
    size_t count = 0;
    const size_t end = strlen(text);
    for (size_t at = 0; at < end && count < TOLD;) {
        const struct character c = character_at(text + at, end - at);
        const char *letter = arena_copy(arena, text + at, c.size);
        at += c.size;
        if (strstr(text, letter) != text + at - c.size ||
            (opened.face != NULL && has_letter(opened.face, c.code)))
            continue;
        buffer_text(&lacking, count++ == 0 ? "" : ", ");
        buffer_text(&lacking, quoted(arena, letter));
    }
    close_face(opened);
    return buffer_string(&lacking);
}
