/* The photo and the logo of a pattern: which names are followed, and what a
 * file must be. Every file is made here. */
#define _DEFAULT_SOURCE /* realpath, symlink */
#include <png.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../render/photos.h"
#include "about.h"
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

/* A long row of pixels, as png.h writes it. */
static struct buffer long_photo(struct arena *arena, unsigned width,
                                unsigned height)
{
    png_image image;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.format = PNG_FORMAT_GRAY;
    image.width = width;
    image.height = height;
    png_alloc_size_t length = 0;
    const void *pixels =
        arena_alloc(arena, (size_t)width * height); /* all black */
    assert_true(
        png_image_write_to_memory(&image, NULL, &length, 0, pixels, 0, NULL));
    char *bytes = arena_alloc(arena, length);
    assert_true(
        png_image_write_to_memory(&image, bytes, &length, 0, pixels, 0, NULL));
    return (struct buffer){arena, bytes, length, length};
}

/* Both sides of the limit, in both directions. */
static void test_long_sides(void **state)
{
    struct photo photo;
    assert_null(problem_of(long_photo(*state, 32767, 1), &photo));
    assert_null(problem_of(long_photo(*state, 1, 32767), &photo));
    static const unsigned sides[][2] = {
        {32768, 1}, {1, 32768}, {1, 1000000}, {1000000, 1}};
    for (size_t i = 0; i < UNIT_COUNT(sides); i++)
        assert_string_equal(
            problem_of(long_photo(*state, sides[i][0], sides[i][1]), &photo),
            "is longer than 32,767 pixels");
}

/* Asked before anything of that size is made. */
static void test_no_memory_for_the_pixels(void **state)
{
    struct buffer bytes = jpeg_photo(*state);
    memset(bytes.bytes + 2 + 69 + 5, 0x23, 4); /* 8995 x 8995 */
    int words[2];
    assert_int_equal(pipe(words), 0);
    const pid_t child = fork();
    if (child == 0) {
        const struct rlimit little = {64 * 1024 * 1024, 64 * 1024 * 1024};
        struct photo photo;
        dup2(words[1], STDERR_FILENO);
        if (setrlimit(RLIMIT_AS, &little) == 0)
            problem_of(bytes, &photo);
        _exit(0);
    }
    char said[200] = "";
    int status = 0;
    close(words[1]);
    assert_true(read(words[0], said, sizeof said - 1) > 0);
    waitpid(child, &status, 0);
    close(words[0]);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
    assert_string_equal(said,
                        "seamwright: out of memory: the photo of 8995 x 8995 "
                        "pixels takes 486 MB\n");
}

/* The headers are sound, and what is behind them is not. */
static void test_damaged_pictures_are_refused(void **state)
{
    struct photo photo;
    const struct buffer whole = jpeg_photo(*state);
    struct buffer bytes = jpeg_photo(*state);
    memset(bytes.bytes + whole.length - 5, 0xFE, 3); /* not in the table */
    assert_string_equal(problem_of(bytes, &photo), "is damaged or cut short");
    bytes = jpeg_photo(*state);
    memmove(bytes.bytes + whole.length - 5, bytes.bytes + whole.length - 2, 2);
    bytes.length -= 3; /* no codes at all */
    assert_string_equal(problem_of(bytes, &photo), "is damaged or cut short");
    bytes = jpeg_photo(*state);
    memset(bytes.bytes + 2 + 69 + 15, 0x7F, 16); /* tables of codes */
    assert_string_equal(problem_of(bytes, &photo), "is damaged or cut short");
    /* Cameras write more behind the end. */
    bytes = jpeg_photo(*state);
    buffer_add(&bytes, "pier 4", 6);
    assert_null(problem_of(bytes, &photo));
}

/* ---- names ---- */

static void write_file(const char *path, struct buffer bytes)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes.bytes, 1, bytes.length, file), bytes.length);
    assert_int_equal(fclose(file), 0);
}

/* What a source of that name gets, with `photo` or `logo` named. */
static const struct design *design_with(struct arena *arena, const char *source,
                                        const char *attribute, const char *name,
                                        const char **message)
{
    return about_design(arena, source, "T",
                        arena_printf(arena, "%s=\"%s\"", attribute, name),
                        message);
}

static const struct photo *photo_named(struct arena *arena, const char *source,
                                       const char *name, const char **message)
{
    return design_with(arena, source, "photo", name, message)->photo;
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
    assert_non_null(photo_named(arena, source, "in/low..water.png", &message));
    assert_string_equal(message, "");
    const char *const outside[] = {"/pier/low-water.png",
                                   "../x.png",
                                   "in/../in/low..water.png",
                                   "in/..",
                                   "..",
                                   "..\\x",
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

/* A link leads out of the folder under a name that stays in it. Links above the
 * source are the user's own. */
static void test_links_are_not_followed(void **state)
{
    struct arena *arena = *state;
    const char *folder = new_folder(arena), *other = new_folder(arena);
    const char *photo = arena_printf(arena, "%s/out.png", other);
    const char *link = arena_printf(arena, "%s/photo.png", folder);
    const char *part = arena_printf(arena, "%s/pictures", folder);
    const char *above = arena_printf(arena, "%s/above", other);
    const char *message;
    write_file(photo, png_photo(arena));
    char *target = realpath(photo, NULL), *place = realpath(other, NULL);
    assert_int_equal(symlink(target, link), 0);
    assert_int_equal(symlink(place, part), 0);
    assert_int_equal(symlink(place, above), 0);
    const char *source = arena_printf(arena, "%s/tide.xml", folder);
    static const char *const names[] = {"photo.png", "pictures/out.png",
                                        "./pictures//out.png"};
    for (size_t i = 0; i < UNIT_COUNT(names); i++) {
        assert_null(photo_named(arena, source, names[i], &message));
        assert_non_null(strstr(message, "is a symbolic link"));
    }
    source = arena_printf(arena, "%s/tide.xml", above);
    assert_non_null(photo_named(arena, source, ".//out.png", &message));
    const char *const made[] = {link, part, above, photo};
    for (size_t i = 0; i < UNIT_COUNT(made); i++)
        unlink(made[i]);
    free(target);
    free(place);
    rmdir(folder);
    rmdir(other);
}

/* The same rules hold for it, and its words are its own. */
static void test_logo_is_read_as_a_photo(void **state)
{
    struct arena *arena = *state;
    const char *folder = new_folder(arena);
    const char *source = arena_printf(arena, "%s/tide.xml", folder);
    const char *path = arena_printf(arena, "%s/mark.png", folder);
    write_file(path, png_photo(arena));
    const char *message;
    const struct design *design =
        design_with(arena, source, "logo", "mark.png", &message);
    assert_string_equal(message, "");
    assert_null(design->photo);
    assert_int_equal(design->logo->width, 16);
    design = design_with(arena, source, "logo", "../mark.png", &message);
    assert_null(design->logo);
    assert_non_null(strstr(message, "leads out of the folder"));
    assert_non_null(strstr(message, "put the logo beside the source"));
    assert_int_equal(truncate(path, 40), 0);
    design = design_with(arena, source, "logo", "mark.png", &message);
    assert_null(design->logo);
    assert_non_null(strstr(message, "save the logo anew"));
    unlink(path);
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
        cmocka_unit_test(test_long_sides),
        cmocka_unit_test(test_no_memory_for_the_pixels),
        cmocka_unit_test(test_damaged_pictures_are_refused),
        cmocka_unit_test(test_names_stay_in_the_folder),
        cmocka_unit_test(test_links_are_not_followed),
        cmocka_unit_test(test_logo_is_read_as_a_photo),
        cmocka_unit_test(test_size_is_limited),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
