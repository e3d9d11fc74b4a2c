/* Replacing a folder while the system fails. The calls below stand in for the
 * library's: the Nth of them fails or kills the process, for every N, with
 * and without an old folder, and with no exchange of names to be had. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/syscall.h>
#include <sys/wait.h>

#include "files.h"
#include "scratch.h"

static struct {
    int countdown;    /* the call that it brings to 0 fails; 0 for none */
    bool kill;        /* ... or ends the process */
    bool no_exchange; /* renameat2 is not there */
} plan;

static long (*real_syscall(void))(long, ...)
{
    long (*real)(long, ...);
    *(void **)&real = dlsym(RTLD_NEXT, "syscall");
    return real;
}

/* ensures: true where this call is the one to fail. */
static bool strikes(void)
{
    if (plan.countdown == 0 || --plan.countdown > 0)
        return false;
    if (plan.kill)
        raise(SIGKILL);
    errno = ENOSPC;
    return true;
}

int fsync(int file)
{
    return strikes() ? -1 : (int)real_syscall()(SYS_fsync, file);
}

ssize_t write(int file, const void *bytes, size_t length)
{
    return strikes() ? -1 : real_syscall()(SYS_write, file, bytes, length);
}

int mkdirat(int at, const char *path, mode_t mode)
{
    return strikes() ? -1 : (int)real_syscall()(SYS_mkdirat, at, path, mode);
}

int fchmod(int file, mode_t mode)
{
    return strikes() ? -1 : (int)real_syscall()(SYS_fchmod, file, mode);
}

int renameat(int from, const char *old, int to, const char *new)
{
    return strikes()
               ? -1
               : (int)real_syscall()(SYS_renameat2, from, old, to, new, 0u);
}

/* The library's one use of it is renameat2. */
long syscall(long number, ...)
{
    va_list list;
    va_start(list, number);
    const int from = va_arg(list, int);
    const char *old = va_arg(list, const char *);
    const int to = va_arg(list, int);
    const char *new = va_arg(list, const char *);
    const unsigned flags = va_arg(list, unsigned);
    va_end(list);
    if (plan.no_exchange) {
        errno = ENOSYS;
        return -1;
    }
    return strikes() ? -1 : real_syscall()(number, from, old, to, new, flags);
}

static const struct output_file old_set[] = {{"a", "one", 3}, {"b", "two", 3}};
static const struct output_file new_set[] = {{"b", "TWO", 3}, {"c", "six", 3}};
static const char OLD[] = ".seamwright-files=a\nb\n a=one b=two";
static const char NEW[] = ".seamwright-files=b\nc\n b=TWO c=six";

static struct arena *arena_of(void **state)
{
    return ((struct scratch *)*state)->arena;
}

/* Writes the new set with the Nth call failing. */
static bool write_new(void **state, int nth, const char **problem)
{
    plan.countdown = nth;
    const bool done =
        files_replace_folder(arena_of(state), "out", new_set, 2, problem);
    plan.countdown = 0;
    return done;
}

/* Every failing call leaves `before` in "out", and nothing beside it.
 * ensures: how many calls there were until it went well. */
static int fail_each_call(void **state, const char *before, const char *around)
{
    for (int nth = 1; nth < 100; nth++) {
        const char *problem = NULL;
        if (write_new(state, nth, &problem))
            return nth - 1;
        assert_non_null(strstr(problem, ": cannot write: No space left"));
        assert_int_equal(strncmp(problem, "out", 3), 0);
        assert_string_equal(scratch_content(arena_of(state), "out"), before);
        assert_string_equal(scratch_content(arena_of(state), "."), around);
    }
    return 0;
}

static void write_old(void **state)
{
    const char *problem = NULL;
    assert_true(
        files_replace_folder(arena_of(state), "out", old_set, 2, &problem));
}

static void expect_new(void **state)
{
    assert_string_equal(scratch_content(arena_of(state), "out"), NEW);
    assert_string_equal(scratch_content(arena_of(state), "."), "out/");
}

/* 1 mkdirat, 3 write, 3 fsync of files, 1 of the new folder, 1 renameat,
 * 1 fsync of the parent; with an old folder 1 fchmod, and renameat2. */
static void without_an_old_folder(void **state)
{
    assert_int_equal(fail_each_call(state, "-", ""), 10);
    expect_new(state);
}

static void with_an_old_folder(void **state)
{
    write_old(state);
    assert_int_equal(fail_each_call(state, OLD, "out/"), 11);
    expect_new(state);
}

static void without_exchange(void **state)
{
    write_old(state);
    plan.no_exchange = true;
    const int calls = fail_each_call(state, OLD, "out/");
    plan.no_exchange = false;
    assert_int_equal(calls, 12);
    expect_new(state);
}

static bool was_killed(void **state, int nth)
{
    const pid_t child = fork();
    if (child == 0) {
        const char *problem = NULL;
        plan.kill = true;
        _exit(write_new(state, nth, &problem) ? 0 : 1);
    }
    int status = 0;
    waitpid(child, &status, 0);
    assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) == 0);
    return WIFSIGNALED(status);
}

/* Whoever looks sees the old set or the new one, whenever the process ends. */
static void killed_at_each_call(void **state)
{
    int kills = 0;
    write_old(state);
    while (was_killed(state, kills + 1)) {
        const char *content = scratch_content(arena_of(state), "out");
        assert_true(strcmp(content, OLD) == 0 || strcmp(content, NEW) == 0);
        kills++;
    }
    assert_int_equal(kills, 11);
    expect_new(state); /* nothing of the killed is left */
}

/* ensures: the number of a process that is no more. */
static pid_t ended_process(void)
{
    const pid_t child = fork();
    if (child == 0)
        _exit(0);
    waitpid(child, NULL, 0);
    return child;
}

/* Who is still at work keeps its folder, and so does a file that is not ours;
 * names that only look alike are nobody's. */
static void only_what_is_gone_is_removed(void **state)
{
    const long gone = ended_process();
    const char *const names[] = {
        arena_printf(arena_of(state), ".seamwright-new-%ld-0", (long)getpid()),
        arena_printf(arena_of(state), ".seamwright-new-%ld-1", gone),
        arena_printf(arena_of(state), ".seamwright-new-%ld-2", gone),
        arena_printf(arena_of(state), ".seamwright-new-%ld-3", gone),
        arena_printf(arena_of(state), ".seamwright-new-%ld-x", gone),
        arena_printf(arena_of(state), ".seamwright-new--%ld-4", gone)};
    for (size_t i = 0; i < UNIT_COUNT(names); i++)
        assert_int_equal(mkdir(names[i], 0700), 0);
    const char *theirs = arena_printf(arena_of(state), "%s/theirs", names[2]);
    close(open(theirs, O_WRONLY | O_CREAT | O_CLOEXEC, 0600));
    /* Locked by who is not seen from here. */
    const int held = open(names[3], O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    assert_int_equal(flock(held, LOCK_SH), 0);
    write_old(state);
    for (size_t i = 0; i < UNIT_COUNT(names); i++)
        assert_int_equal(access(names[i], F_OK), i == 1 ? -1 : 0);
    close(held);
}

#define IN_SCRATCH(test) \
    cmocka_unit_test_setup_teardown(test, scratch_enter, scratch_leave)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_SCRATCH(without_an_old_folder),
        IN_SCRATCH(with_an_old_folder),
        IN_SCRATCH(without_exchange),
        IN_SCRATCH(killed_at_each_call),
        IN_SCRATCH(only_what_is_gone_is_removed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
