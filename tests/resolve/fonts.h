/* Fonts that a test makes itself, from those that lie in the program. Before
 * it: #define _DEFAULT_SOURCE (mkdtemp). */
#ifndef SEAMWRIGHT_TESTS_FONTS_H
#define SEAMWRIGHT_TESTS_FONTS_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "about.h"
#include "buffer.h"
#include "design.h"
#include "templates.h"

/* A copy of the file below templates/fonts. */
static inline struct buffer font_copy(struct arena *arena, const char *name)
{
    const struct template_file *file =
        template_find(arena_printf(arena, "fonts/%s.ttf", name));
    assert_non_null(file);
    struct buffer bytes = buffer_in(arena);
    buffer_add(&bytes, (const char *)file->bytes, file->length);
    return bytes;
}

/* The entry of a table in the font's directory: tag, checksum, offset, length
 * (OpenType specification, "Table directory"). */
static inline char *font_entry(struct buffer font, const char *tag)
{
    for (char *at = font.bytes + 12;; at += 16) {
        assert_true(at + 16 <= font.bytes + font.length);
        if (memcmp(at, tag, 4) == 0)
            return at;
    }
}

static inline size_t font_number(const char *at)
{
    const unsigned char *byte = (const unsigned char *)at;
    return (size_t)byte[0] << 24 | (size_t)byte[1] << 16 |
           (size_t)byte[2] << 8 | byte[3];
}

/* Where a table begins. */
static inline char *font_table(struct buffer font, const char *tag)
{
    return font.bytes + font_number(font_entry(font, tag) + 8);
}

/* The embedding permissions become these: fsType is the fifth number of 16 bits
 * in OS/2 (version, average width, weight, width, fsType). */
static inline struct buffer font_permitting(struct arena *arena,
                                            const char *name, unsigned bits)
{
    const struct buffer font = font_copy(arena, name);
    char *at = font_table(font, "OS/2") + 8;
    at[0] = (char)(bits >> 8);
    at[1] = (char)(bits & 0xFF);
    return font;
}

/* ---- a source beside it ---- */

static inline void font_write(const char *path, struct buffer bytes)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes.bytes, 1, bytes.length, file), bytes.length);
    assert_int_equal(fclose(file), 0);
}

/* A new folder below the build folder, where tests may write. */
static inline const char *font_folder(struct arena *arena)
{
    const char *build = getenv("BUILD");
    char *folder = arena_printf(arena, "%s/tests/font-XXXXXX",
                                build == NULL ? "build" : build);
    assert_non_null(mkdtemp(folder));
    return folder;
}

/* The design of a source of that name whose `about` names the face, and the
 * first message about it as JSON, or "". */
static inline const struct design *
font_design(struct arena *arena, const char *source, const char *title,
            const char *name, const char **message)
{
    return about_design(arena, source, title,
                        arena_printf(arena, "display-face=\"%s\"", name),
                        message);
}

/* The face that a source gets from a file of these bytes, or NULL. */
static inline const struct font *
font_passed(struct arena *arena, struct buffer bytes, const char *title)
{
    const char *folder = font_folder(arena), *message;
    const char *path = arena_printf(arena, "%s/tide.ttf", folder);
    font_write(path, bytes);
    const struct design *design =
        font_design(arena, arena_printf(arena, "%s/tide.xml", folder), title,
                    "tide.ttf", &message);
    assert_int_equal(design->display == NULL, message[0] != '\0');
    unlink(path);
    rmdir(folder);
    return design->display;
}

#endif
