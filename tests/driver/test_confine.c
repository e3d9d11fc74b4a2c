/* What each command leaves itself of the file system: the folder of its source
 * to read, that of its output to write, and nothing else. Skipped, and said so,
 * where the kernel cannot hold a process to it. */
#define _DEFAULT_SOURCE /* mkdtemp, symlink */
#include "confine.h"

#include <errno.h>
#include <sys/wait.h>

#include "../base/scratch.h"

enum { NOT_CONFINED = 255 };

/* ensures: 0 where the confined command can open the file so, else the system's
 * error. */
static int opened(const struct options *options, const char *name, int how)
{
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (!confine(arena_create(), options))
            _exit(NOT_CONFINED);
        _exit(open(name, how | O_CLOEXEC, 0600) < 0 ? errno : 0);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void need_sandbox(void)
{
    const struct options options = {.command = "explain"};
    if (opened(&options, ".", O_RDONLY) != NOT_CONFINED)
        return;
    print_message("# this kernel has no Landlock: skipped\n");
    skip();
}

static int place(void **state)
{
    if (scratch_enter(state) != 0)
        return 1;
    static const char *const names[] = {"src/a.xml", "src/photo.png", "far/b",
                                        "out/old/c"};
    mkdir("src", 0700);
    mkdir("far", 0700);
    mkdir("out", 0700);
    mkdir("out/old", 0700);
    for (size_t i = 0; i < UNIT_COUNT(names); i++) {
        FILE *file = fopen(names[i], "w");
        if (file == NULL)
            return 1;
        fclose(file);
    }
    return symlink("../out/old", "far/link") | symlink("../far/b", "src/l.xml");
}

static void check_reads_the_folder_of_its_source(void **state)
{
    (void)state;
    need_sandbox();
    const char *const files[] = {"src/a.xml", "none.xml"};
    const struct options options = {
        .command = "check", .files = files, .file_count = 1};
    assert_int_equal(opened(&options, "src/a.xml", O_RDONLY), 0);
    assert_int_equal(opened(&options, "src/photo.png", O_RDONLY), 0);
    assert_int_equal(opened(&options, "far/b", O_RDONLY), EACCES);
    assert_int_equal(opened(&options, "src/l.xml", O_RDONLY), EACCES);
    assert_int_equal(opened(&options, "src/a.xml", O_WRONLY), EACCES);
    assert_int_equal(opened(&options, "src/new", O_WRONLY | O_CREAT), EACCES);
}

static void build_writes_beside_its_output(void **state)
{
    (void)state;
    need_sandbox();
    const char *const files[] = {"src/a.xml"};
    struct options options = {.command = "build",
                              .files = files,
                              .file_count = 1,
                              .folder = "out/old/"};
    assert_int_equal(opened(&options, "out/new", O_WRONLY | O_CREAT), 0);
    assert_int_equal(opened(&options, "out/old/d", O_WRONLY | O_CREAT), 0);
    assert_int_equal(opened(&options, "src/a.xml", O_RDONLY), 0);
    assert_int_equal(opened(&options, "src/new", O_WRONLY | O_CREAT), EACCES);
    assert_int_equal(opened(&options, "far/b", O_RDONLY), EACCES);
    /* What a link leads to is replaced, not the link. */
    options.folder = "far/link";
    assert_int_equal(opened(&options, "out/again", O_WRONLY | O_CREAT), 0);
    assert_int_equal(opened(&options, "far/new", O_WRONLY | O_CREAT), EACCES);
    /* Left out: where the program runs. */
    options.folder = NULL;
    assert_int_equal(opened(&options, "new", O_WRONLY | O_CREAT), 0);
}

static void figure_writes_its_file(void **state)
{
    (void)state;
    need_sandbox();
    const char *const files[] = {"src/a.xml", "far/b"};
    struct options options = {.command = "figure",
                              .files = files,
                              .file_count = 2,
                              .folder = "out/x.svg"};
    assert_int_equal(opened(&options, "out/x.svg", O_WRONLY | O_CREAT), 0);
    assert_int_equal(opened(&options, "src/new", O_WRONLY | O_CREAT), EACCES);
    /* The second word is the name of a figure. */
    assert_int_equal(opened(&options, "far/b", O_RDONLY), EACCES);
    options.folder = NULL;
    assert_int_equal(opened(&options, "out/y.svg", O_WRONLY | O_CREAT), EACCES);
}

static void a_source_through_a_link_can_be_read(void **state)
{
    (void)state;
    need_sandbox();
    const char *const files[] = {"src/l.xml"};
    const struct options options = {
        .command = "list", .files = files, .file_count = 1};
    assert_int_equal(opened(&options, "src/l.xml", O_RDONLY), 0);
    assert_int_equal(opened(&options, "src/photo.png", O_RDONLY), 0);
    assert_int_equal(opened(&options, "out/old/c", O_RDONLY), EACCES);
}

static void explain_opens_nothing(void **state)
{
    (void)state;
    need_sandbox();
    const char *const files[] = {"src/a.xml"};
    const struct options options = {
        .command = "explain", .files = files, .file_count = 1};
    assert_int_equal(opened(&options, "src/a.xml", O_RDONLY), EACCES);
    assert_int_equal(opened(&options, "new2", O_WRONLY | O_CREAT), EACCES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(check_reads_the_folder_of_its_source),
        cmocka_unit_test(build_writes_beside_its_output),
        cmocka_unit_test(figure_writes_its_file),
        cmocka_unit_test(a_source_through_a_link_can_be_read),
        cmocka_unit_test(explain_opens_nothing),
    };
    return cmocka_run_group_tests_name("confine", tests, place, scratch_leave);
}
