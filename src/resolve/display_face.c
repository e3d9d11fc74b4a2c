/* The face of titles: a font that lies beside the source. Read next:
 * font_file.c. */
#include "font_file.h"
#include "named_file.h"
#include "resolver.h"

#include <string.h>

/* 10 MB, as the manual tells it: the letters of all the world's scripts. */
enum { FONT_LIMIT_BYTES = 10 * 1000 * 1000 };

static const struct file_kind FACE = {ATTR_DISPLAY_FACE,
                                      DIAG_FONT,
                                      "font",
                                      "a TrueType or OpenType file",
                                      FONT_LIMIT_BYTES,
                                      "is larger than 10 MB",
                                      "name a font of Latin letters",
                                      "source"};

/* What the booklet itself sets in this face: heads of sections, and numbers. */
const char *heading_letters(const char *language)
{
    return strcmp(language, "de") == 0
               ? "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                 "0123456789 \u00c4\u00d6\u00dc\u00e4\u00f6\u00fc\u00df"
               : "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                 "0123456789 ";
}

/* A heading of two faces, letter by letter, looks like a mistake: it is one.
 * reports: what the title, or else the headings, would lack. */
static bool has_letters(struct run *run, const struct design *design,
                        const struct value *value, const struct font *font)
{
    const char *lacking = font_lacks(run->arena, font, design->title);
    const bool title = lacking[0] != '\0';
    if (!title)
        lacking = font_lacks(run->arena, font,
                             heading_letters(design->pattern->language));
    if (lacking[0] == '\0')
        return true;
    struct diagnostic *d = refuse_file(
        run, &FACE, value, arena_printf(run->arena, "lacks %s", lacking),
        title ? "name a font that has them, or write the title without them"
              : "name a font that has all letters and digits");
    const struct value *at = value_of(design->pattern->root, ATTR_TITLE);
    if (title && at != NULL)
        diag_note(run, d, at->span, "the title of the cover is set in it");
    return false;
}

const struct font *resolve_display_face(struct run *run,
                                        const struct design *design,
                                        const struct element *about)
{
    const struct value *value = value_of(about, ATTR_DISPLAY_FACE);
    const struct file_content *file =
        value == NULL ? NULL : read_named_file(run, &FACE, value);
    if (file == NULL)
        return NULL;
    struct font *font = ARENA_NEW(run->arena, struct font);
    const struct font_fault fault = font_of_bytes(
        run->arena, file->bytes, file->length, design->title, font);
    if (fault.problem == NULL)
        return has_letters(run, design, value, font) ? font : NULL;
    refuse_file(run, &FACE, value, fault.problem, fault.help);
    return NULL;
}
