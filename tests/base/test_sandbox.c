/* What a confined process can still do. Each try is made by a child, as a
 * sandbox cannot be left again. Where the kernel has none, the tests are
 * skipped and say so. */
#define _DEFAULT_SOURCE /* mkdtemp, symlink */
#include "sandbox.h"

#include <errno.h>
#include <sys/wait.h>

#include "scratch.h"

/* ensures: what the child gave back: 0 where `act` had what it wanted, else the
 * system's error; 255 where it did not enter. */
static int confined(const struct sandbox_path *paths, size_t count,
                    int (*act)(const char *), const char *name)
{
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0)
        _exit(sandbox_enter(paths, count) ? act(name) : 255);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static int nothing(const char *name)
{
    (void)name;
    return 0;
}

static int read_it(const char *name)
{
    return open(name, O_RDONLY | O_CLOEXEC) < 0 ? errno : 0;
}

static int write_it(const char *name)
{
    return open(name, O_WRONLY | O_CLOEXEC) < 0 ? errno : 0;
}

static int make_it(const char *name)
{
    return open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600) < 0 ? errno
                                                                         : 0;
}

static int delete_it(const char *name)
{
    return unlink(name) != 0 ? errno : 0;
}

static int run_it(const char *name)
{
    char *const words[] = {(char[]){"x"}, NULL};
    execve(name, words, words);
    return errno;
}

/* Two folders and back: what a build does beside its output. */
static int exchange_names(const char *name)
{
    char new_name[64];
    snprintf(new_name, sizeof new_name, "%s-new", name);
    if (mkdir(new_name, 0700) != 0 || rename(new_name, name) != 0 ||
        rmdir(name) != 0)
        return errno;
    return 0;
}

static void need_sandbox(void)
{
    if (confined(NULL, 0, nothing, "") == 0)
        return;
    print_message("# this kernel has no Landlock: skipped\n");
    skip();
}

static void put_file(const char *name)
{
    FILE *file = fopen(name, "w");
    assert_non_null(file);
    fputs("words\n", file);
    fclose(file);
}

static void reads_what_is_named(void **state)
{
    (void)state;
    need_sandbox();
    assert_int_equal(
        mkdir("in", 0700) | mkdir("in/deep", 0700) | mkdir("out", 0700), 0);
    put_file("in/a");
    put_file("in/deep/b");
    put_file("out/c");
    put_file("out/d");
    assert_int_equal(symlink("../out/c", "in/link"), 0);
    const struct sandbox_path paths[] = {{"in", false}, {"out/d", false}};
    assert_int_equal(confined(paths, 2, read_it, "in/a"), 0);
    assert_int_equal(confined(paths, 2, read_it, "in/deep/b"), 0);
    assert_int_equal(confined(paths, 2, read_it, "in"), 0);
    assert_int_equal(confined(paths, 2, read_it, "out/d"), 0);
    assert_int_equal(confined(paths, 2, read_it, "out/c"), EACCES);
    assert_int_equal(confined(paths, 2, read_it, "out"), EACCES);
    assert_int_equal(confined(paths, 2, read_it, "in/link"), EACCES);
    assert_int_equal(confined(paths, 2, read_it, "/etc/passwd"), EACCES);
    assert_int_equal(confined(paths, 2, read_it, "in/none"), ENOENT);
}

static void does_not_write_what_it_reads(void **state)
{
    (void)state;
    need_sandbox();
    assert_int_equal(mkdir("in2", 0700), 0);
    put_file("in2/a");
    const struct sandbox_path paths[] = {{"in2", false}, {"none", false}};
    assert_int_equal(confined(paths, 2, write_it, "in2/a"), EACCES);
    assert_int_equal(confined(paths, 2, make_it, "in2/b"), EACCES);
    assert_int_equal(confined(paths, 2, delete_it, "in2/a"), EACCES);
}

static void writes_where_it_may(void **state)
{
    (void)state;
    need_sandbox();
    assert_int_equal(mkdir("made", 0700) | mkdir("kept", 0700), 0);
    put_file("made/a");
    put_file("kept/a");
    const struct sandbox_path paths[] = {{"made", true}};
    assert_int_equal(confined(paths, 1, make_it, "made/b"), 0);
    assert_int_equal(confined(paths, 1, write_it, "made/a"), 0);
    assert_int_equal(confined(paths, 1, delete_it, "made/b"), 0);
    assert_int_equal(confined(paths, 1, exchange_names, "made/folder"), 0);
    assert_int_equal(confined(paths, 1, make_it, "kept/b"), EACCES);
    assert_int_equal(confined(paths, 1, delete_it, "kept/a"), EACCES);
    assert_int_equal(confined(paths, 1, exchange_names, "kept/f"), EACCES);
}

static void runs_nothing(void **state)
{
    (void)state;
    need_sandbox();
    const struct sandbox_path paths[] = {{"/", false}};
    assert_int_equal(confined(paths, 1, read_it, "/bin/sh"), 0);
    assert_int_equal(confined(paths, 1, run_it, "/bin/sh"), EACCES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_what_is_named),
        cmocka_unit_test(does_not_write_what_it_reads),
        cmocka_unit_test(writes_where_it_may),
        cmocka_unit_test(runs_nothing),
    };
    return cmocka_run_group_tests_name("sandbox", tests, scratch_enter,
                                       scratch_leave);
}
