/* The bytes of a font: what they are taken for, and, where they pass, that all
 * of the font that is made of them can be drawn, and passes again. */
#include "font_file.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_create();
    struct font font, again;
    const struct font_fault fault =
        font_of_bytes(arena, (const char *)bytes, length, "Tide", &font);
    if (fault.problem != NULL) {
        MUST(fault.problem[0] != '\0' && fault.help != NULL);
    } else {
        MUST(font.length > 0 && font_glyphs_hold(&font));
        MUST(font_lacks(arena, &font, "Tide") != NULL);
        MUST(font_of_bytes(arena, font.bytes, font.length, "Tide", &again)
                 .problem == NULL);
    }
    arena_destroy(arena);
    return 0;
}
