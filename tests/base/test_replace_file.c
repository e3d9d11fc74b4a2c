/* One file whole or not at all: new, in the place of an old one, through a
 * link, and what must not be replaced. */
#define _DEFAULT_SOURCE /* d_type */

#include <signal.h>
#include <sys/resource.h>

#include "files.h"
#include "scratch.h"

static bool put(void **state, const char *path, const char *text,
                const char **problem)
{
    const struct scratch *s = *state;
    *problem = NULL;
    return files_replace_file(s->arena, path, text, strlen(text), problem);
}

static void assert_folder(void **state, const char *folder, const char *wanted)
{
    const struct scratch *s = *state;
    assert_string_equal(scratch_content(s->arena, folder), wanted);
}

static void test_new_and_again(void **state)
{
    const char *problem;
    assert_true(put(state, "a", "one", &problem));
    assert_null(problem);
    assert_folder(state, ".", "a=one");
    assert_true(put(state, "./a", "", &problem));
    assert_folder(state, ".", "a=");
}

static void test_rights_stay(void **state)
{
    const char *problem;
    scratch_write("a", "old");
    assert_int_equal(chmod("a", 0640), 0);
    assert_true(put(state, "a", "new", &problem));
    struct stat about;
    assert_int_equal(stat("a", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
}

static void test_link_is_followed(void **state)
{
    const char *problem;
    assert_int_equal(mkdir("there", 0777), 0);
    scratch_write("there/a", "old");
    assert_int_equal(symlink("there/a", "link"), 0);
    assert_true(put(state, "link", "new", &problem));
    struct stat about;
    assert_int_equal(lstat("link", &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_folder(state, "there", "a=new");
}

static void assert_refused(void **state, const char *path, const char *words)
{
    const char *problem;
    assert_false(put(state, path, "new", &problem));
    assert_non_null(problem);
    if (strstr(problem, words) == NULL ||
        strncmp(problem, path, strlen(path)) != 0)
        fail_msg("%s", problem);
}

static void test_what_is_no_file_stays(void **state)
{
    assert_int_equal(mkdir("folder", 0777), 0);
    assert_int_equal(mkfifo("pipe", 0666), 0);
    assert_int_equal(symlink("nowhere", "broken"), 0);
    assert_refused(state, "folder", "not a regular file");
    assert_refused(state, "pipe", "not a regular file");
    assert_refused(state, "/dev/null", "not a regular file");
    assert_refused(state, "broken", "cannot write");
    assert_refused(state, "missing/a", "cannot write");
    assert_refused(state, "", "cannot write");
    struct stat about;
    assert_int_equal(stat("/dev/null", &about), 0);
    assert_true(S_ISCHR(about.st_mode));
    assert_folder(state, "folder", "");
}

/* Half a file would be worse than the old one. A limit on the size of files
 * stands for a full disk. */
static void test_failure_keeps_the_old(void **state)
{
    static const char text[] = "this is longer than the limit";
    const char *problem;
    scratch_write("a", "old");
    signal(SIGXFSZ, SIG_IGN);
    const struct rlimit small = {8, RLIM_INFINITY};
    const struct rlimit large = {RLIM_INFINITY, RLIM_INFINITY};
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    const bool done = put(state, "a", text, &problem);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &large), 0);
    assert_false(done);
    assert_non_null(problem);
    assert_folder(state, ".", "a=old");
}

#define CASE(test) \
    cmocka_unit_test_setup_teardown(test, scratch_enter, scratch_leave)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_new_and_again),         CASE(test_rights_stay),
        CASE(test_link_is_followed),      CASE(test_what_is_no_file_stays),
        CASE(test_failure_keeps_the_old),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
