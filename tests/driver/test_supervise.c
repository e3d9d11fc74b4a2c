/* The end of the work as its parent tells it. */
#define _DEFAULT_SOURCE /* DT_DIR */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../base/scratch.h"
#include "shortage.h"
#include "supervise.h"

/* The number of the signal that ends the work, below 0 its status. */
static int ending;

static int work(const struct options *options)
{
    (void)options;
    const struct rlimit none = {0, 0};
    setrlimit(RLIMIT_CORE, &none);
    if (ending > 0) {
        signal(ending, SIG_DFL); /* the sanitizers take some */
        raise(ending);
    }
    return -ending;
}

/* A supervisor of its own, as it may end by the same signal. Its words are not
 * for the reader of the test. */
static int ended_by(int how)
{
    ending = how;
    const pid_t child = fork();
    if (child == 0) {
        const struct options options = {.command = "check"};
        if (freopen("/dev/null", "w", stderr) == NULL)
            _exit(99);
        _exit(supervise(work, &options));
    }
    int status = 0;
    waitpid(child, &status, 0);
    return status;
}

static void test_each_status_is_handed_on(void **state)
{
    (void)state;
    for (int status = 0; status <= 5; status++) {
        const int ended = ended_by(-status);
        assert_true(WIFEXITED(ended));
        assert_int_equal(WEXITSTATUS(ended), status);
    }
}

static void test_a_signal_is_told(void **state)
{
    static const struct {
        int number, status;
    } cases[] = {{SIGTRAP, 3}, {SIGKILL, 3}, {SIGABRT, 5},
                 {SIGSEGV, 5}, {SIGBUS, 5},  {SIGFPE, 5}};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const int ended = ended_by(cases[i].number);
        assert_true(WIFEXITED(ended));
        assert_int_equal(WEXITSTATUS(ended), cases[i].status);
    }
}

static void test_the_user_ends_both(void **state)
{
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT};
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(numbers); i++) {
        const int ended = ended_by(numbers[i]);
        assert_true(WIFSIGNALED(ended));
        assert_int_equal(WTERMSIG(ended), numbers[i]);
    }
}

/* As a build does that runs out of memory in the middle of writing. */
static int begin_a_folder(const struct options *options)
{
    (void)options;
    char name[64];
    snprintf(name, sizeof name, ".seamwright-new-%ld-0", (long)getpid());
    mkdir(name, 0700);
    end_out_of_memory(NULL);
}

/* As a figure, while a library's thread asks for memory. */
static int begin_a_file(const struct options *options)
{
    (void)options;
    char name[64];
    snprintf(name, sizeof name, ".seamwright-file-%ld-0", (long)getpid());
    scratch_write(name, "half of it");
    end_out_of_memory(NULL);
}

/* `begin` in a supervised process. ensures: nothing but `left` is there. */
static void expect_left(void **state, int (*begin)(const struct options *),
                        const struct options *options, const char *left)
{
    const pid_t child = fork();
    if (child == 0) {
        if (freopen("/dev/null", "w", stderr) == NULL)
            _exit(99);
        _exit(supervise(begin, options));
    }
    int status = 0;
    waitpid(child, &status, 0);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 3);
    assert_string_equal(scratch_content(((struct scratch *)*state)->arena, "."),
                        left);
}

/* Each command that writes. */
static void test_what_was_begun_is_removed(void **state)
{
    static const char *const folders[] = {"build", "kit", "proof"};
    static const char *const files[] = {"figure", "compare"};
    for (size_t i = 0; i < UNIT_COUNT(folders); i++)
        expect_left(
            state, begin_a_folder,
            &(struct options){.command = folders[i], .folder = "out"}, "");
    for (size_t i = 0; i < UNIT_COUNT(files); i++)
        expect_left(
            state, begin_a_file,
            &(struct options){.command = files[i], .folder = "a.svg"}, "");
}

/* The files of a process that may still write, and of no process, are not
 * touched. */
static void test_only_that_is_removed(void **state)
{
    scratch_write(".seamwright-file-1-0", "alive");
    scratch_write("a.svg", "old");
    expect_left(state, begin_a_file,
                &(struct options){.command = "figure", .folder = "a.svg"},
                ".seamwright-file-1-0=alive a.svg=old");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_status_is_handed_on),
        cmocka_unit_test(test_a_signal_is_told),
        cmocka_unit_test(test_the_user_ends_both),
        cmocka_unit_test_setup_teardown(test_what_was_begun_is_removed,
                                        scratch_enter, scratch_leave),
        cmocka_unit_test_setup_teardown(test_only_that_is_removed,
                                        scratch_enter, scratch_leave),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
