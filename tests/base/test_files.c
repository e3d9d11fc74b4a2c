/* Reading a source: limits, what is no file, and never waiting on a FIFO. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <sys/wait.h>

#include "files.h"
#include "scratch.h"

static struct arena *arena_of(void **state)
{
    return ((struct scratch *)*state)->arena;
}

static void a_file_is_read_whole(void **state)
{
    scratch_write("a.xml", "<a/>\n");
    const struct file_content c = file_read(arena_of(state), "a.xml");
    assert_int_equal(c.fault, FILE_OK);
    assert_int_equal(c.length, 5);
    assert_string_equal(c.bytes, "<a/>\n");
    scratch_write("empty", "");
    const struct file_content e = file_read(arena_of(state), "empty");
    assert_int_equal(e.fault, FILE_OK);
    assert_int_equal(e.length, 0);
    assert_string_equal(e.bytes, "");
}

static void noughts_inside_are_kept(void **state)
{
    const int file = open("n", O_WRONLY | O_CREAT, 0600);
    assert_int_equal(write(file, "a\0b", 3), 3);
    close(file);
    const struct file_content c = file_read(arena_of(state), "n");
    assert_int_equal(c.length, 3);
    assert_memory_equal(c.bytes, "a\0b", 4);
}

static void expect_size(void **state, off_t size, enum file_fault fault)
{
    assert_int_equal(truncate("big", size), 0);
    const struct file_content c = file_read(arena_of(state), "big");
    assert_int_equal(c.fault, fault);
    if (fault == FILE_OK)
        assert_int_equal(c.length, size);
}

static void the_limit_is_exact(void **state)
{
    scratch_write("big", "");
    expect_size(state, 65536, FILE_OK);
    expect_size(state, 65537, FILE_OK);
    expect_size(state, SOURCE_LIMIT_BYTES - 1, FILE_OK);
    expect_size(state, SOURCE_LIMIT_BYTES, FILE_OK);
    expect_size(state, SOURCE_LIMIT_BYTES + 1, FILE_TOO_LARGE);
    expect_size(state, (off_t)1 << 40, FILE_TOO_LARGE);
}

static void expect_words(void **state, const char *path, int error)
{
    const struct file_content c = file_read(arena_of(state), path);
    assert_int_equal(c.fault, FILE_UNREADABLE);
    assert_string_equal(c.system_error, strerror(error));
    assert_null(c.bytes);
}

static void the_system_says_why(void **state)
{
    expect_words(state, "none", ENOENT);
    expect_words(state, "", ENOENT);
    scratch_write("file", "x");
    expect_words(state, "file/x", ENOTDIR);
    assert_int_equal(symlink("loop", "loop"), 0);
    expect_words(state, "loop", ELOOP);
}

static void only_regular_files(void **state)
{
    assert_int_equal(mkdir("folder", 0700), 0);
    assert_int_equal(mkfifo("fifo", 0600), 0);
    struct sockaddr_un address = {.sun_family = AF_UNIX, .sun_path = "socket"};
    const int s = socket(AF_UNIX, SOCK_STREAM, 0);
    assert_int_equal(bind(s, (struct sockaddr *)&address, sizeof address), 0);
    const char *const paths[] = {"folder", "fifo", "socket", "/dev/zero"};
    alarm(10);
    for (size_t i = 0; i < UNIT_COUNT(paths); i++)
        assert_int_equal(file_read(arena_of(state), paths[i]).fault,
                         FILE_NOT_REGULAR);
    alarm(0);
    close(s);
}

static void a_link_to_a_file_is_followed(void **state)
{
    scratch_write("file", "x");
    assert_int_equal(symlink("file", "link"), 0);
    assert_int_equal(file_read(arena_of(state), "link").length, 1);
}

/* Reads standard input from `from`, and puts the old one back. */
static struct file_content read_input(void **state, int from)
{
    const int kept = dup(STDIN_FILENO);
    dup2(from, STDIN_FILENO);
    alarm(30);
    const struct file_content c = file_read(arena_of(state), "-");
    alarm(0);
    if (kept >= 0) {
        dup2(kept, STDIN_FILENO);
        close(kept);
    }
    close(from);
    return c;
}

/* A child that writes `size` bytes into a pipe, the second half late. */
static pid_t feed(int into, size_t size)
{
    const pid_t child = fork();
    if (child != 0)
        return child;
    for (size_t i = 0; i < size; i++) {
        if (i == size / 2)
            usleep(100000);
        if (write(into, "x", 1) != 1)
            _exit(1);
    }
    _exit(0);
}

static void expect_piped(void **state, size_t size, int flags)
{
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    fcntl(ends[0], F_SETFL, flags);
    const pid_t child = feed(ends[1], size);
    close(ends[1]);
    const struct file_content c = read_input(state, ends[0]);
    waitpid(child, NULL, 0);
    assert_int_equal(c.fault, FILE_OK);
    assert_int_equal(c.length, size);
    assert_int_equal(strspn(c.bytes, "x"), size);
}

static void a_dash_is_standard_input(void **state)
{
    expect_piped(state, 0, 0);
    expect_piped(state, 200000, 0);
    expect_piped(state, 20000, O_NONBLOCK);
}

static void the_limit_holds_for_standard_input(void **state)
{
    scratch_write("big", "");
    assert_int_equal(truncate("big", SOURCE_LIMIT_BYTES), 0);
    assert_int_equal(read_input(state, open("big", O_RDONLY)).length,
                     SOURCE_LIMIT_BYTES);
    assert_int_equal(read_input(state, open("/dev/zero", O_RDONLY)).fault,
                     FILE_TOO_LARGE);
    const struct file_content c = read_input(state, open(".", O_RDONLY));
    assert_int_equal(c.fault, FILE_UNREADABLE);
    assert_string_equal(c.system_error, strerror(EISDIR));
}

#define IN_SCRATCH(test) \
    cmocka_unit_test_setup_teardown(test, scratch_enter, scratch_leave)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_SCRATCH(a_file_is_read_whole),
        IN_SCRATCH(noughts_inside_are_kept),
        IN_SCRATCH(the_limit_is_exact),
        IN_SCRATCH(the_system_says_why),
        IN_SCRATCH(only_regular_files),
        IN_SCRATCH(a_link_to_a_file_is_followed),
        IN_SCRATCH(a_dash_is_standard_input),
        IN_SCRATCH(the_limit_holds_for_standard_input),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
