/* The display face of a pattern: what its maker permits, what a file must be,
 * and which letters it must have. Bits and offsets are those of the OpenType
 * specification, "OS/2", fsType. */
#define _DEFAULT_SOURCE /* mkdtemp */
#include "font_file.h"
#include "fonts.h"

static const char *problem_of(struct arena *arena, struct buffer bytes,
                              struct font *font)
{
    const struct font_fault fault =
        font_of_bytes(arena, bytes.bytes, bytes.length, "Tide Table", font);
    assert_int_equal(fault.problem == NULL, fault.help == NULL);
    return fault.problem == NULL ? "" : fault.problem;
}

/* ---- what the maker permits ---- */

static void test_permissions(void **state)
{
    static const struct {
        unsigned bits;
        const char *problem; /* how it begins */
    } cases[] = {
        {0x0000, ""}, /* installable */
        {0x0004, ""}, /* preview and print */
        {0x0008, ""}, /* editable */
        {0x000C, ""},
        {0x0002, "may not be embedded (fsType bit 1"},
        {0x0302, "may not be embedded (fsType bit 1"},
        {0x0100, "may only be embedded whole (fsType bit 8)"},
        {0x0104, "may only be embedded whole (fsType bit 8)"},
        {0x0108, "may only be embedded whole (fsType bit 8)"},
        {0x0200, "may be embedded as bitmaps only (fsType bit 9)"},
        {0x0208, "may be embedded as bitmaps only (fsType bit 9)"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        struct font font;
        const char *problem = problem_of(
            *state, font_permitting(*state, "Vollkorn-Bold", cases[i].bits),
            &font);
        if (cases[i].problem[0] == '\0')
            assert_string_equal(problem, "");
        else if (strstr(problem, cases[i].problem) != problem)
            fail_msg("%04x: %s", cases[i].bits, problem);
    }
}

/* Where nothing is said, nothing is permitted. */
static void test_no_word_of_permission(void **state)
{
    struct font font;
    struct buffer bytes = font_copy(*state, "Vollkorn-Bold");
    memcpy(font_entry(bytes, "OS/2"), "OS/3", 4);
    assert_non_null(strstr(problem_of(*state, bytes, &font), "no OS/2 table"));
    bytes = font_copy(*state, "Vollkorn-Bold");
    memcpy(font_entry(bytes, "OS/2") + 12, "\0\0\0\11", 4); /* 9 bytes long */
    assert_non_null(strstr(problem_of(*state, bytes, &font), "no OS/2 table"));
}

/* ---- what a file must be ---- */

static void test_other_kinds_are_refused(void **state)
{
    static const struct {
        const char *begin, *problem;
    } cases[] = {
        {"ttcf", "is a collection of fonts"},
        {"wOFF", "is packed for the web"},
        {"wOF2", "is packed for the web"},
        {"%!PS", "is neither a TrueType nor an OpenType file"},
    };
    struct font font;
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct buffer bytes = font_copy(*state, "Vollkorn-Bold");
        memcpy(bytes.bytes, cases[i].begin, 4);
        assert_string_equal(problem_of(*state, bytes, &font), cases[i].problem);
    }
    assert_non_null(font_of_bytes(*state, "", 0, "", &font).problem);
}

/* Whatever is cut off, the font is refused, and nothing behind it is read. */
static void test_short_files_are_refused(void **state)
{
    const struct buffer whole = font_copy(*state, "Vollkorn-Bold");
    for (size_t length = 0; length < whole.length;
         length += length < 400 ? 1 : 997) {
        struct arena *scratch = arena_create();
        char *part = malloc(length + 1);
        memcpy(part, whole.bytes, length);
        struct font font;
        if (font_of_bytes(scratch, part, length, "T", &font).problem == NULL)
            fail_msg("%zu of %zu bytes pass", length, whole.length);
        free(part);
        arena_destroy(scratch);
    }
}

/* Bytes that changed: refused, or a font of which every glyph can be drawn. */
static void test_damage_is_refused_or_harmless(void **state)
{
    enum { FONTS = 600, CHANGES = 6 };
    struct unit_random random = {20261130};
    const struct buffer whole = font_copy(*state, "Vollkorn-Bold");
    char *bytes = malloc(whole.length);
    size_t refused = 0;
    for (size_t i = 0; i < FONTS; i++) {
        struct arena *scratch = arena_create();
        memcpy(bytes, whole.bytes, whole.length);
        /* One half in the head and the tables that others are found by. */
        const size_t reach = i % 2 == 0 ? 2000 : whole.length;
        for (int k = 0; k < CHANGES; k++)
            bytes[unit_below(&random, reach)] = (char)unit_next(&random);
        struct font font;
        const struct font_fault fault =
            font_of_bytes(scratch, bytes, whole.length, "Tide", &font);
        refused += fault.problem != NULL;
        if (fault.problem == NULL)
            assert_true(font_glyphs_hold(&font));
        arena_destroy(scratch);
    }
    free(bytes);
    assert_in_range(refused, FONTS / 10, FONTS - FONTS / 10);
}

/* In units of a sixteenth of the size, each letter is as high as a page. */
static void test_huge_letters_are_refused(void **state)
{
    struct font font;
    const struct buffer bytes = font_copy(*state, "Vollkorn-Bold");
    char *head = font_table(bytes, "head");
    head[18] = 0;
    head[19] = 16;
    assert_string_equal(problem_of(*state, bytes, &font), FONT_DAMAGED);
}

/* The same bytes whatever came before, and a font that passes again. */
static void test_font_is_made_anew(void **state)
{
    struct font one, other, again;
    const struct buffer bytes = font_copy(*state, "Vollkorn-Bold");
    assert_string_equal(problem_of(*state, bytes, &one), "");
    assert_string_equal(problem_of(*state, bytes, &other), "");
    assert_int_equal(one.length, other.length);
    assert_memory_equal(one.bytes, other.bytes, one.length);
    struct buffer made = buffer_in(*state);
    buffer_add(&made, one.bytes, one.length);
    assert_string_equal(problem_of(*state, made, &again), "");
}

/* ---- letters ---- */

static void test_letters_that_lack(void **state)
{
    struct font font;
    assert_string_equal(
        problem_of(*state, font_copy(*state, "Vollkorn-Bold"), &font), "");
    assert_string_equal(
        font_lacks(*state, &font, "Tide & Sons\u2019 \u2013 \u00c4\u00df 7"),
        "");
    assert_string_equal(font_lacks(*state, &font, "\u0416a\u0416\u0429"),
                        "`\u0416`, `\u0429`");
    assert_string_equal(
        problem_of(*state, font_copy(*state, "DejaVuSans-Symbols"), &font), "");
    assert_string_equal(font_lacks(*state, &font, heading_letters("en")),
                        "`A`, `B`, `C`, `D`, `E`, `F`, `G`, `H`, `I`, `J`");
}

/* ---- from the source ---- */

static void test_face_of_a_source(void **state)
{
    struct arena *arena = *state;
    const char *folder = font_folder(arena), *message;
    const char *source = arena_printf(arena, "%s/tide.xml", folder);
    const char *path = arena_printf(arena, "%s/tide.ttf", folder);
    const char *link = arena_printf(arena, "%s/link.ttf", folder);
    const struct design *design;
    font_write(path, font_copy(arena, "Vollkorn-Bold"));
    design = font_design(arena, source, "Tide", "tide.ttf", &message);
    assert_string_equal(message, "");
    assert_non_null(design->display);
    design = font_design(arena, source, "Tide \u0416", "tide.ttf", &message);
    assert_null(design->display);
    assert_non_null(strstr(message, "lacks `\u0416`"));
    assert_non_null(strstr(message, "the title of the cover is set in it"));
    design = font_design(arena, source, "Tide", "../tide.ttf", &message);
    assert_non_null(strstr(message, "put the font beside the source"));
    assert_int_equal(symlink("tide.ttf", link), 0);
    design = font_design(arena, source, "Tide", "link.ttf", &message);
    assert_non_null(strstr(message, "is a symbolic link"));
    font_write(path, font_copy(arena, "DejaVuSans-Symbols"));
    design = font_design(arena, source, "\u2192", "tide.ttf", &message);
    assert_non_null(strstr(message, "lacks `A`, `B`"));
    assert_null(strstr(message, "the title of the cover"));
    /* What lies behind the tables belongs to none of them. */
    font_write(path, font_copy(arena, "Vollkorn-Bold"));
    assert_int_equal(truncate(path, 10000000), 0);
    design = font_design(arena, source, "Tide", "tide.ttf", &message);
    assert_string_equal(message, "");
    assert_int_equal(truncate(path, 10000001), 0);
    design = font_design(arena, source, "Tide", "tide.ttf", &message);
    assert_non_null(strstr(message, "is larger than 10 MB"));
    unlink(link);
    unlink(path);
    rmdir(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_permissions),
        cmocka_unit_test(test_no_word_of_permission),
        cmocka_unit_test(test_other_kinds_are_refused),
        cmocka_unit_test(test_short_files_are_refused),
        cmocka_unit_test(test_damage_is_refused_or_harmless),
        cmocka_unit_test(test_huge_letters_are_refused),
        cmocka_unit_test(test_font_is_made_anew),
        cmocka_unit_test(test_letters_that_lack),
        cmocka_unit_test(test_face_of_a_source),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
