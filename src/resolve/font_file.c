/* What a font's bytes are, and whether its maker lets a booklet hold it. What
 * goes on to the pages is made anew by HarfBuzz from the tables that it could
 * read, so that no other library meets the file as it came. Tables and bits are
 * those of the OpenType specification (ISO/IEC 14496-22). Read next:
 * font_glyphs.c. */
#include "font_file.h"

#include <stdint.h>
#include <string.h>

#include <hb-ot.h>
#include <hb-subset.h>

#include "buffer.h"
#include "character.h"

/* Of the table directory. */
enum { HEAD_BYTES = 12, ENTRY_BYTES = 16, ENTRIES_MOST = 100 };

/* Bits of fsType, in the table OS/2. Bits 2 and 3 (preview and print, editable)
 * allow what is done here, as does 0 (installable). Up to version 2 of the
 * table bit 1 could stand beside them; such a font is refused, too. */
enum {
    FS_TYPE_AT = 8,
    RESTRICTED = 1 << 1,
    NO_SUBSETTING = 1 << 8,
    BITMAPS_ONLY = 1 << 9
};

static uint32_t big(const char *at, size_t bytes)
{
    uint32_t value = 0;
    for (size_t i = 0; i < bytes; i++)
        value = value << 8 | (unsigned char)at[i];
    return value;
}

/* By its signature and not by its name. */
static struct font_fault fault_of_kind(const char *bytes, size_t length)
{
    const uint32_t kind = length < HEAD_BYTES ? 0 : big(bytes, 4);
    switch (kind) {
    case 0x00010000:
    case HB_TAG('t', 'r', 'u', 'e'):
    case HB_TAG('O', 'T', 'T', 'O'):
        return (struct font_fault){0};
    case HB_TAG('t', 't', 'c', 'f'):
        return (struct font_fault){"is a collection of fonts",
                                   "name a file of one font"};
    case HB_TAG('w', 'O', 'F', 'F'):
    case HB_TAG('w', 'O', 'F', '2'):
        return (struct font_fault){
            "is packed for the web",
            "name the TrueType or OpenType file that it was made from"};
    default:
        return (struct font_fault){"is neither a TrueType nor an OpenType file",
                                   "name a .ttf or .otf file"};
    }
}

/* Readers take what is left of a table that ends behind the file. */
static bool tables_lie_inside(const char *bytes, size_t length)
{
    const size_t count = big(bytes + 4, 2);
    if (count == 0 || count > ENTRIES_MOST ||
        length < HEAD_BYTES + count * ENTRY_BYTES)
        return false;
    for (size_t i = 0; i < count; i++) {
        const char *entry = bytes + HEAD_BYTES + i * ENTRY_BYTES;
        const size_t from = big(entry + 8, 4), size = big(entry + 12, 4);
        if (from > length || size > length - from)
            return false;
    }
    return true;
}

static struct font_fault fault_of_license(hb_face_t *face)
{
    static const char *const ask =
        "ask its maker for a license that allows it, or name another font";
    hb_blob_t *table =
        hb_face_reference_table(face, HB_TAG('O', 'S', '/', '2'));
    unsigned length;
    const char *bytes = hb_blob_get_data(table, &length);
    const bool told = length >= FS_TYPE_AT + 2;
    const uint32_t bits = told ? big(bytes + FS_TYPE_AT, 2) : 0;
    hb_blob_destroy(table);
    if (!told)
        return (struct font_fault){
            "does not say whether it may be embedded (no OS/2 table)", ask};
    if ((bits & RESTRICTED) != 0)
        return (struct font_fault){
            "may not be embedded (fsType bit 1: restricted)", ask};
    if ((bits & NO_SUBSETTING) != 0)
        return (struct font_fault){"may only be embedded whole (fsType bit 8)",
                                   ask};
    if ((bits & BITMAPS_ONLY) != 0)
        return (struct font_fault){
            "may be embedded as bitmaps only (fsType bit 9)", ask};
    return (struct font_fault){0};
}

/* ---- the font made anew ---- */

/* Signs of Latin titles: as in the bundled face, see templates/fonts. */
static void add_letters(hb_set_t *letters, const char *title)
{
    hb_set_add_range(letters, 0x20, 0x7E);
    hb_set_add_range(letters, 0xA0, 0x17F);
    hb_set_add_range(letters, 0x300, 0x30C);
    hb_set_add_range(letters, 0x2010, 0x203A);
    for (size_t at = 0, end = strlen(title); at < end;) {
        const struct character c = character_at(title + at, end - at);
        hb_set_add(letters, c.code);
        at += c.size;
    }
}

/* Of a font that varies the default stays. Pictures in the place of outlines,
 * and the tall brackets of formulas, are not drawn. */
static hb_face_t *reduced_face(hb_face_t *face, const char *title)
{
    static const char dropped[][5] = {
        "fvar", "gvar", "avar", "cvar", "HVAR", "VVAR", "MVAR", "STAT", "COLR",
        "CPAL", "SVG ", "CBDT", "CBLC", "sbix", "EBDT", "EBLC", "EBSC", "MATH"};
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    add_letters(hb_subset_input_unicode_set(input), title);
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING);
    hb_set_t *drop = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (size_t i = 0; i < sizeof dropped / sizeof dropped[0]; i++)
        hb_set_add(drop, hb_tag_from_string(dropped[i], 4));
    /* Figures of the height of capitals, as typeset.c asks for them. */
    hb_set_add(hb_subset_input_set(input, HB_SUBSET_SETS_LAYOUT_FEATURE_TAG),
               HB_TAG('l', 'n', 'u', 'm'));
    hb_face_t *reduced = hb_subset_or_fail(face, input);
    hb_subset_input_destroy(input);
    if (reduced == NULL)
        return NULL;
    /* What was put together has no list of its tables before it is bytes. */
    hb_blob_t *bytes = hb_face_reference_blob(reduced);
    hb_face_destroy(reduced);
    hb_face_t *whole = hb_face_create(bytes, 0);
    hb_blob_destroy(bytes);
    return whole;
}

/* The name that the PDF tells, of the signs that such names are made of. */
static const char *postscript_name(struct arena *arena, hb_face_t *face)
{
    char told[64];
    unsigned size = sizeof told;
    hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME,
                        hb_language_from_string("en", -1), &size, told);
    struct buffer name = buffer_in(arena);
    for (unsigned i = 0; i < size && told[i] != '\0'; i++)
        if ((told[i] >= 'a' && told[i] <= 'z') ||
            (told[i] >= 'A' && told[i] <= 'Z') ||
            (told[i] >= '0' && told[i] <= '9') || told[i] == '-')
            buffer_char(&name, told[i]);
    return name.length == 0 ? "Display" : buffer_string(&name);
}

static void add_big(struct buffer *table, size_t value)
{
    buffer_char(table, (char)(value >> 8 & 0xFF));
    buffer_char(table, (char)(value & 0xFF));
}

/* A table `name` with the family by which the font is asked for, which is no
 * other font's, whatever it was called (format 0, Windows, Unicode, English).
 */
static hb_blob_t *name_table(struct arena *arena, const char *postscript)
{
    static const size_t ids[] = {1, 2, 6};
    const char *const names[] = {FONT_FAMILY, "Regular", postscript};
    enum { COUNT = 3, RECORD = 12 };
    struct buffer table = buffer_in(arena), texts = buffer_in(arena);
    add_big(&table, 0);
    add_big(&table, COUNT);
    add_big(&table, 6 + COUNT * RECORD);
    for (size_t i = 0; i < COUNT; i++) {
        const size_t length = strlen(names[i]);
        const size_t record[] = {3, 1, 0x409, ids[i], 2 * length, texts.length};
        for (size_t k = 0; k < sizeof record / sizeof record[0]; k++)
            add_big(&table, record[k]);
        for (size_t k = 0; k < length; k++)
            add_big(&texts, (unsigned char)names[i][k]);
    }
    buffer_add(&table, texts.bytes, texts.length);
    return hb_blob_create(table.bytes, (unsigned)table.length,
                          HB_MEMORY_MODE_DUPLICATE, NULL, NULL);
}

/* ensures: the bytes of a font of the face's tables, but for its names. */
static struct font renamed(struct arena *arena, hb_face_t *face,
                           const char *postscript)
{
    hb_face_t *builder = hb_face_builder_create();
    hb_tag_t tags[ENTRIES_MOST];
    unsigned count = ENTRIES_MOST;
    hb_face_get_table_tags(face, 0, &count, tags);
    for (unsigned i = 0; i < count; i++) {
        hb_blob_t *table = tags[i] == HB_TAG('n', 'a', 'm', 'e')
                               ? name_table(arena, postscript)
                               : hb_face_reference_table(face, tags[i]);
        hb_face_builder_add_table(builder, tags[i], table);
        hb_blob_destroy(table);
    }
    hb_blob_t *whole = hb_face_reference_blob(builder);
    unsigned length;
    const char *bytes = hb_blob_get_data(whole, &length);
    const struct font font = {arena_copy(arena, bytes, length), length};
    hb_blob_destroy(whole);
    hb_face_destroy(builder);
    return font;
}

static struct font_fault make_anew(struct arena *arena, hb_face_t *face,
                                   const char *title, struct font *font)
{
    struct font_fault fault = fault_of_license(face);
    if (fault.problem != NULL)
        return fault;
    hb_face_t *reduced = reduced_face(face, title);
    if (reduced != NULL) {
        *font = renamed(arena, reduced, postscript_name(arena, face));
        hb_face_destroy(reduced);
    }
    if (reduced == NULL || !font_glyphs_hold(font))
        fault = (struct font_fault){FONT_DAMAGED,
                                    "get the file anew from who made the font"};
    return fault;
}

struct font_fault font_of_bytes(struct arena *arena, const char *bytes,
                                size_t length, const char *title,
                                struct font *font)
{
    *font = (struct font){0};
    struct font_fault fault = fault_of_kind(bytes, length);
    if (fault.problem != NULL)
        return fault;
    if (!tables_lie_inside(bytes, length))
        return (struct font_fault){FONT_DAMAGED,
                                   "get the file anew from who made the font"};
    hb_blob_t *blob = hb_blob_create(bytes, (unsigned)length,
                                     HB_MEMORY_MODE_READONLY, NULL, NULL);
    hb_face_t *face = hb_face_create(blob, 0);
    fault = make_anew(arena, face, title, font);
    hb_face_destroy(face);
    hb_blob_destroy(blob);
    return fault;
}
