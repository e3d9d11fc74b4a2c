/* The photo of a pattern: which names are followed, and what a file must be.
 * Every file is made here. */
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../render/photos.h"
#include "../unit.h"
#include "resolver.h"

/* ---- bytes ---- */

static const char *problem_of(struct buffer bytes, struct photo *photo)
{
    return photo_of_bytes(bytes.bytes, bytes.length, photo);
}

static void test_both_kinds_are_known(void **state)
{
    struct photo photo;
    assert_null(problem_of(jpeg_photo(*state), &photo));
    assert_true(photo.jpeg);
    assert_int_equal(photo.width, 16);
    assert_int_equal(photo.height, 8);
    assert_int_equal(photo.turn, 0);
    assert_null(problem_of(png_photo(*state), &photo));
    assert_false(photo.jpeg);
    assert_int_equal(photo.width, 16);
    assert_int_equal(photo.height, 8);
}

/* Whatever is cut off, the photo is refused, and nothing behind it is read. */
static void test_short_files_are_refused(void **state)
{
    struct photo photo;
    for (int jpeg = 0; jpeg < 2; jpeg++) {
        const struct buffer whole =
            jpeg == 1 ? jpeg_photo(*state) : png_photo(*state);
        /* A PNG may lack its closing chunk of 12 bytes. */
        const size_t most = whole.length - (jpeg == 1 ? 1 : 12);
        for (size_t length = 0; length < most; length++) {
            char *part = malloc(length + 1);
            memcpy(part, whole.bytes, length);
            const char *problem = photo_of_bytes(part, length, &photo);
            free(part);
            if (problem == NULL)
                fail_msg("%zu of %zu bytes pass", length, whole.length);
        }
    }
}

static void test_cameras_on_their_side(void **state)
{
    static const unsigned turns[] = {0, 0, 0, 2, 0, 0, 1, 0, 3, 0};
    struct photo photo;
    for (unsigned char held = 0; held < 10; held++)
        for (int little = 0; little < 2; little++) {
            assert_null(
                problem_of(held_photo(*state, held, little == 1), &photo));
            assert_int_equal(photo.turn, turns[held]);
        }
}

static void test_other_kinds_are_refused(void **state)
{
    struct photo photo;
    struct buffer bytes = jpeg_photo(*state);
    /* The frame's marker stands behind the table of 69 bytes. */
    const size_t frame = 2 + 69;
    assert_int_equal((unsigned char)bytes.bytes[frame + 1], 0xC0);
    bytes.bytes[frame + 1] = (char)0xC9; /* arithmetic codes */
    assert_string_equal(problem_of(bytes, &photo),
                        "is a JPEG of a kind that pages cannot show");
    bytes = jpeg_photo(*state);
    bytes.bytes[frame + 4] = 12; /* bits */
    assert_string_equal(problem_of(bytes, &photo),
                        "is a JPEG of a kind that pages cannot show");
    bytes = jpeg_photo(*state);
    memset(bytes.bytes + frame + 5, 0x7F, 4); /* 32639 x 32639 */
    assert_string_equal(problem_of(bytes, &photo),
                        "has more than 100 million pixels");
    assert_string_equal(photo_of_bytes("GIF89a", 6, &photo),
                        "is neither a PNG nor a JPEG file");
}

/* ---- names ---- */

static void write_file(const char *path, struct buffer bytes)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes.bytes, 1, bytes.length, file), bytes.length);
    assert_int_equal(fclose(file), 0);
}

/* The photo that a source of that name gets. */
static const struct photo *photo_named(struct arena *arena, const char *source,
                                       const char *name, const char **message)
{
    const char *text = arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">"
        "<about photo=\"%s\"/><fabrics><fabric id=\"f\"/></fabrics>"
        "<colorway id=\"c\"><cloth fabric=\"f\" color=\"#88aabb\"/></colorway>"
        "<quilt id=\"q\"><patch fabric=\"f\" width=\"4\" height=\"6\"/></quilt>"
        "</pattern>",
        name);
    struct run *run =
        run_create(arena, source_create(arena, source, text, strlen(text)));
    const struct pattern *pattern = read_pattern(run);
    assert_non_null(pattern);
    const struct design *design = resolve_pattern(run, pattern);
    const struct diagnostic **sorted;
    *message = diag_sorted(run, &sorted) == 0 ? "" : diag_json(run, sorted[0]);
    return design->photo;
}

/* Below the build folder, where tests may write. */
static const char *new_folder(struct arena *arena)
{
    const char *build = getenv("BUILD");
    char *folder = arena_printf(arena, "%s/tests/photo-XXXXXX",
                                build == NULL ? "build" : build);
    assert_non_null(mkdtemp(folder));
    return folder;
}

static void test_names_stay_in_the_folder(void **state)
{
    struct arena *arena = *state;
    const char *folder = new_folder(arena);
    const char *source = arena_printf(arena, "%s/tide.xml", folder);
    const char *inside = arena_printf(arena, "%s/in", folder);
    const char *photo = arena_printf(arena, "%s/in/low..water.png", folder);
    const char *pipe = arena_printf(arena, "%s/pipe", folder);
    assert_int_equal(mkdir(inside, 0700), 0);
    assert_int_equal(mkfifo(pipe, 0600), 0);
    write_file(photo, png_photo(arena));
    const char *message;
    assert_non_null(
        photo_named(arena, source, "in/low..water.png", &message));
    assert_string_equal(message, "");
    const char *const outside[] = {
        "/pier/low-water.png", "../x.png", "in/../in/low..water.png", "in/..",
        "..", "..\\x",
        "/etc/hostname"};
    for (size_t i = 0; i < UNIT_COUNT(outside); i++) {
        assert_null(photo_named(arena, source, outside[i], &message));
        assert_non_null(strstr(message, "leads out of the folder"));
    }
    assert_null(photo_named(arena, source, "none.png", &message));
    assert_non_null(strstr(message, "cannot be read"));
    assert_null(photo_named(arena, source, "in", &message));
    assert_non_null(strstr(message, "is not a file"));
    /* No writer is waited for. */
    assert_null(photo_named(arena, source, "pipe", &message));
    assert_non_null(strstr(message, "is not a file"));
    unlink(photo);
    unlink(pipe);
    rmdir(inside);
    rmdir(folder);
}

static void test_size_is_limited(void **state)
{
    struct arena *arena = *state;
    const char *folder = new_folder(arena);
    const char *source = arena_printf(arena, "%s/tide.xml", folder);
    const char *path = arena_printf(arena, "%s/big.jpg", folder);
    write_file(path, jpeg_photo(arena));
    const char *message;
    assert_int_equal(truncate(path, 20000000), 0);
    assert_non_null(photo_named(arena, source, "big.jpg", &message));
    assert_int_equal(truncate(path, 20000001), 0);
    assert_null(photo_named(arena, source, "big.jpg", &message));
    assert_non_null(strstr(message, "larger than 20 MB"));
    unlink(path);
    rmdir(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_both_kinds_are_known),
        cmocka_unit_test(test_short_files_are_refused),
        cmocka_unit_test(test_cameras_on_their_side),
        cmocka_unit_test(test_other_kinds_are_refused),
        cmocka_unit_test(test_names_stay_in_the_folder),
        cmocka_unit_test(test_size_is_limited),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
