/* Replacing a folder: the whole set or nothing, and never a folder that
 * holds anything else. */
#define _GNU_SOURCE
#include <errno.h>
#include <grp.h>
#include <sched.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "files.h"
#include "scratch.h"

static const struct output_file first_set[] = {{"a", "one", 3},
                                               {"b", "two", 3}};
static const struct output_file second_set[] = {{"b", "TWO", 3}, {"c", "", 0}};
static const char FIRST[] = ".seamwright-files=a\nb\n a=one b=two";
static const char SECOND[] = ".seamwright-files=b\nc\n b=TWO c=";

static struct arena *arena_of(void **state)
{
    return ((struct scratch *)*state)->arena;
}

static const char *write_set(void **state, const char *folder,
                             const struct output_file *files, size_t count)
{
    const char *problem = "unset";
    const bool done =
        files_replace_folder(arena_of(state), folder, files, count, &problem);
    assert_int_equal(done, problem == NULL);
    return problem;
}

static void expect(void **state, const char *folder, const char *content)
{
    assert_string_equal(scratch_content(arena_of(state), folder), content);
}

static void a_new_folder_appears(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    expect(state, "out", FIRST);
    expect(state, ".", "out/");
    assert_null(write_set(state, "slashes///", first_set, 2));
    expect(state, "slashes", FIRST);
    struct stat about;
    const mode_t mask = umask(0);
    umask(mask);
    assert_int_equal(stat("out", &about), 0);
    assert_int_equal(about.st_mode & 0777, 0777 & ~mask);
}

static void the_next_set_takes_its_place(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    assert_null(write_set(state, "out", second_set, 2));
    expect(state, "out", SECOND);
    assert_null(write_set(state, "./out/", NULL, 0));
    expect(state, "out", ".seamwright-files=");
    assert_null(write_set(state, "out", first_set, 2));
    expect(state, "out", FIRST);
    expect(state, ".", "out/");
}

static void an_empty_folder_is_replaced(void **state)
{
    assert_int_equal(mkdir("out", 0750), 0);
    assert_int_equal(chmod("out", 0750), 0);
    assert_null(write_set(state, "out", first_set, 2));
    expect(state, "out", FIRST);
    struct stat about;
    assert_int_equal(stat("out", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0750);
}

static void a_link_to_a_folder_stays_a_link(void **state)
{
    assert_null(write_set(state, "real", first_set, 2));
    assert_int_equal(symlink("real", "link"), 0);
    assert_null(write_set(state, "link", second_set, 2));
    expect(state, "real", SECOND);
    struct stat about;
    assert_int_equal(lstat("link", &about), 0);
    assert_true(S_ISLNK(about.st_mode));
}

static void the_folder_one_stands_in(void **state)
{
    assert_int_equal(mkdir("out", 0700), 0);
    assert_int_equal(chdir("out"), 0);
    assert_null(write_set(state, ".", first_set, 2));
    assert_int_equal(fchdir(((struct scratch *)*state)->home), 0);
    assert_int_equal(chdir(((struct scratch *)*state)->path), 0);
    expect(state, "out", FIRST);
}

static void bytes_are_written_as_they_are(void **state)
{
    enum { SIZE = 3000000 };
    char *bytes = arena_alloc(arena_of(state), SIZE);
    for (size_t i = 0; i < SIZE; i++)
        bytes[i] = (char)(i * 7);
    const struct output_file file = {"big", bytes, SIZE};
    assert_null(write_set(state, "out", &file, 1));
    const struct file_content c = file_read(arena_of(state), "out/big");
    assert_int_equal(c.length, SIZE);
    assert_memory_equal(c.bytes, bytes, SIZE);
}

/* Writing into "out" must be refused with these words, and change nothing. */
static void refused(void **state, const char *words)
{
    struct arena *arena = arena_of(state);
    const char *before = scratch_content(arena, "out");
    const char *around = scratch_content(arena, ".");
    const char *problem = write_set(state, "out", second_set, 2);
    assert_non_null(problem);
    assert_string_equal(problem,
                        arena_printf(arena, "out: cannot write: %s", words));
    assert_string_equal(scratch_content(arena, "out"), before);
    assert_string_equal(scratch_content(arena, "."), around);
}

static void a_folder_of_other_files_is_refused(void **state)
{
    assert_int_equal(mkdir("out", 0700), 0);
    scratch_write("out/notes.txt", "mine");
    scratch_write("out/zebra", "mine");
    refused(state, "the folder holds other files, such as `notes.txt`; "
                   "name a new or an empty folder");
    remove("out/notes.txt");
    remove("out/zebra");
    assert_int_equal(mkdir("out/sub", 0700), 0);
    refused(state, "the folder holds other files, such as `sub`; "
                   "name a new or an empty folder");
}

static void a_foreign_file_among_ours_is_refused(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    scratch_write("out/.hidden", "mine");
    refused(state, "`.hidden` in the folder was not written by seamwright; "
                   "move it elsewhere first");
    remove("out/.hidden");
    assert_int_equal(mkdir("out/a b", 0700), 0);
    refused(state, "`a b` in the folder was not written by seamwright; "
                   "move it elsewhere first");
    rmdir("out/a b");
    remove("out/a");
    assert_int_equal(mkdir("out/a", 0700), 0);
    refused(state, "`a` in the folder was not written by seamwright; "
                   "move it elsewhere first");
    rmdir("out/a");
    assert_null(write_set(state, "out", second_set, 2));
    expect(state, "out", SECOND);
}

/* Part of a listed name, or more than it, is not the name. */
static void names_are_compared_whole(void **state)
{
    const struct output_file long_name = {"pages.pdf", "x", 1};
    assert_null(write_set(state, "out", &long_name, 1));
    scratch_write("out/pages", "mine");
    refused(state, "`pages` in the folder was not written by seamwright; "
                   "move it elsewhere first");
    assert_int_equal(rename("out/pages", "out/pages.pdf.bak"), 0);
    refused(state, "`pages.pdf.bak` in the folder was not written by "
                   "seamwright; move it elsewhere first");
}

static void names_cannot_steer_a_terminal(void **state)
{
    assert_int_equal(mkdir("out", 0700), 0);
    scratch_write("out/a\x1b[2J\n`", "mine");
    refused(state, "the folder holds other files, such as `a?[2J??`; "
                   "name a new or an empty folder");
}

static void a_marker_must_be_a_file(void **state)
{
    assert_int_equal(mkdir("out", 0700), 0);
    scratch_write("list", "a\n");
    scratch_write("out/a", "mine");
    assert_int_equal(symlink("../list", "out/.seamwright-files"), 0);
    const char *words = "the folder holds other files, such as "
                        "`.seamwright-files`; name a new or an empty folder";
    refused(state, words);
    remove("out/.seamwright-files");
    assert_int_equal(mkfifo("out/.seamwright-files", 0600), 0);
    alarm(10);
    refused(state, words);
    alarm(0);
}

/* Names in a marker that lead out of the folder delete nothing there. */
static void a_marker_cannot_reach_out(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    scratch_write("precious", "mine");
    scratch_write("out/.seamwright-files", "a\nb\n../precious\n..\n.\n\n");
    assert_null(write_set(state, "out", second_set, 2));
    expect(state, "out", SECOND);
    expect(state, ".", "out/ precious=mine");
}

static void files_that_were_deleted_do_not_matter(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    remove("out/a");
    assert_null(write_set(state, "out", second_set, 2));
    expect(state, "out", SECOND);
}

static void a_target_that_is_no_folder(void **state)
{
    struct arena *arena = arena_of(state);
    scratch_write("out", "mine");
    refused(state, strerror(ENOTDIR));
    assert_string_equal(scratch_content(arena, "."), "out=mine");
    remove("out");
    assert_int_equal(symlink("nowhere", "out"), 0);
    refused(state, strerror(ENOENT));
    remove("out");
    assert_int_equal(mkfifo("out", 0600), 0);
    refused(state, strerror(ENOTDIR));
}

static void a_parent_that_is_missing(void **state)
{
    const char *problem = write_set(state, "none/out", first_set, 2);
    assert_string_equal(problem, arena_printf(arena_of(state),
                                              "none/out: cannot write: %s",
                                              strerror(ENOENT)));
    assert_non_null(write_set(state, "", first_set, 2));
    assert_string_equal(
        write_set(state, "/", first_set, 2),
        arena_printf(arena_of(state), "/: cannot write: %s", strerror(EBUSY)));
    expect(state, ".", "");
}

static void names_that_do_not_fit(void **state)
{
    const char *const names[] = {
        "", ".", "..", "a/b", "/a", "a\nb", ".seamwright-files"};
    for (size_t i = 0; i < UNIT_COUNT(names); i++) {
        const struct output_file files[] = {{"a", "x", 1}, {names[i], "x", 1}};
        assert_non_null(write_set(state, "out", files, 2));
        expect(state, ".", "");
    }
    const struct output_file twice[] = {{"a", "x", 1}, {"a", "y", 1}};
    assert_non_null(write_set(state, "out", twice, 2));
    expect(state, ".", "");
}

static void a_full_set_needs_all_its_files(void **state)
{
    char *longer = arena_alloc(arena_of(state), 300);
    memset(longer, 'n', 299);
    const struct output_file files[] = {{"a", "x", 1}, {longer, "x", 1}};
    const char *problem = write_set(state, "out", files, 2);
    assert_string_equal(problem, arena_printf(arena_of(state),
                                              "out/%s: cannot write: %s",
                                              longer, strerror(ENAMETOOLONG)));
    expect(state, ".", "");
}

/* Runs in a child: what it changes about the process stays there. */
static int in_child(int (*act)(void **state), void **state)
{
    const pid_t child = fork();
    if (child == 0)
        _exit(act(state));
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 100;
}

static int ends_with(const char *text, const char *end)
{
    return text != NULL && strlen(text) >= strlen(end) &&
           strcmp(text + strlen(text) - strlen(end), end) == 0;
}

static int write_without_rights(void **state)
{
    const char *problem = NULL;
    if (geteuid() == 0 &&
        (setgroups(0, NULL) != 0 || setgid(65534) != 0 || setuid(65534) != 0))
        return 3;
    files_replace_folder(arena_of(state), "locked/out", first_set, 2, &problem);
    return ends_with(problem, strerror(EACCES)) ? 0 : 1;
}

static void a_parent_that_cannot_be_written(void **state)
{
    assert_int_equal(mkdir("locked", 0755), 0);
    assert_int_equal(chmod("locked", 0555), 0);
    assert_int_equal(chmod(".", 0755), 0);
    assert_int_equal(in_child(write_without_rights, state), 0);
    expect(state, "locked", "");
}

static const struct output_file large_set[] = {
    {"a", "one", 3}, {"b", "0123456789012345678901234567890123456789", 40}};

static int write_over_limit(void **state)
{
    const struct rlimit limit = {20, 20};
    const char *problem = NULL;
    signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0)
        return 3;
    files_replace_folder(arena_of(state), "out", large_set, 2, &problem);
    return ends_with(problem, strerror(EFBIG)) ? 0 : 1;
}

static void a_file_that_may_not_grow(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    assert_int_equal(in_child(write_over_limit, state), 0);
    expect(state, "out", FIRST);
    expect(state, ".", "out/");
}

/* A disk of 64 KiB in a name space of the child's own. Status 3: such a disk
 * may not be made here. */
static int fill_a_small_disk(void **state)
{
    struct arena *arena = arena_of(state);
    const size_t size = 200000;
    const struct output_file files[] = {
        {"a", "one", 3}, {"big", arena_alloc(arena, size), size}};
    const char *problem = NULL;
    if (unshare(CLONE_NEWNS) != 0 ||
        mount("none", "/", "", MS_REC | MS_PRIVATE, "") != 0 ||
        mount("none", "disk", "tmpfs", 0, "size=64k") != 0)
        return 3;
    if (!files_replace_folder(arena, "disk/out", first_set, 2, &problem))
        return 4;
    if (files_replace_folder(arena, "disk/out", files, 2, &problem))
        return 5;
    if (strcmp(problem, arena_printf(arena, "disk/out/big: cannot write: %s",
                                     strerror(ENOSPC))) != 0)
        return 6;
    if (strcmp(scratch_content(arena, "disk/out"), FIRST) != 0)
        return 7;
    return strcmp(scratch_content(arena, "disk"), "out/") == 0 ? 0 : 8;
}

static void a_disk_that_is_full(void **state)
{
    assert_int_equal(mkdir("disk", 0700), 0);
    const int status = in_child(fill_a_small_disk, state);
    if (status == 3)
        skip();
    assert_int_equal(status, 0);
}

enum { BUILDERS = 4, ROUNDS = 50 };

static int build_often(void **state)
{
    for (int i = 0; i < ROUNDS; i++) {
        const char *problem = NULL;
        const bool odd = (getpid() + i) % 2 != 0;
        files_replace_folder(arena_of(state), "out",
                             odd ? first_set : second_set, 2, &problem);
    }
    return 0;
}

/* Several at once: some may be refused, but the folder is one whole set at
 * the end, and no other folder is left. */
static void builders_at_the_same_time(void **state)
{
    assert_null(write_set(state, "out", first_set, 2));
    pid_t children[BUILDERS];
    for (int i = 0; i < BUILDERS; i++) {
        children[i] = fork();
        if (children[i] == 0)
            _exit(build_often(state));
    }
    for (int i = 0; i < BUILDERS; i++) {
        int status = 0;
        waitpid(children[i], &status, 0);
        assert_int_equal(status, 0);
    }
    const char *content = scratch_content(arena_of(state), "out");
    assert_true(strcmp(content, FIRST) == 0 || strcmp(content, SECOND) == 0);
    expect(state, ".", "out/");
}

#define IN_SCRATCH(test) \
    cmocka_unit_test_setup_teardown(test, scratch_enter, scratch_leave)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_SCRATCH(a_new_folder_appears),
        IN_SCRATCH(the_next_set_takes_its_place),
        IN_SCRATCH(an_empty_folder_is_replaced),
        IN_SCRATCH(a_link_to_a_folder_stays_a_link),
        IN_SCRATCH(the_folder_one_stands_in),
        IN_SCRATCH(bytes_are_written_as_they_are),
        IN_SCRATCH(a_folder_of_other_files_is_refused),
        IN_SCRATCH(a_foreign_file_among_ours_is_refused),
        IN_SCRATCH(names_are_compared_whole),
        IN_SCRATCH(names_cannot_steer_a_terminal),
        IN_SCRATCH(a_marker_must_be_a_file),
        IN_SCRATCH(a_marker_cannot_reach_out),
        IN_SCRATCH(files_that_were_deleted_do_not_matter),
        IN_SCRATCH(a_target_that_is_no_folder),
        IN_SCRATCH(a_parent_that_is_missing),
        IN_SCRATCH(names_that_do_not_fit),
        IN_SCRATCH(a_full_set_needs_all_its_files),
        IN_SCRATCH(a_parent_that_cannot_be_written),
        IN_SCRATCH(a_file_that_may_not_grow),
        IN_SCRATCH(a_disk_that_is_full),
        IN_SCRATCH(builders_at_the_same_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
