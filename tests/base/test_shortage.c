/* Running out of memory before, while and after output takes its place: in the
 * work itself, and in a thread that lives on beside it, as libraries have. */
#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "../unit.h"
#include "shortage.h"

enum { STATUS_OF_WORK = 6 };

/* Kept from the compiler, which knows that this is too much. */
static volatile size_t too_much = SIZE_MAX / 2;

static void ask_too_much(void)
{
    void *volatile memory = malloc(too_much);
    (void)memory;
}

static void *ask_in_thread(void *nothing)
{
    ask_too_much();
    return nothing;
}

static void pause_a_little(void)
{
    nanosleep(&(struct timespec){0, 200 * 1000 * 1000}, NULL);
}

/* The status of a process that does what `work` says. */
static int status_of(void (*work)(void))
{
    const pid_t child = fork();
    if (child == 0) {
        close(STDERR_FILENO);
        work();
        _exit(STATUS_OF_WORK);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void beside(void)
{
    pthread_t thread;
    pthread_create(&thread, NULL, ask_in_thread, NULL);
    pause_a_little();
}

static void beside_after_place(void)
{
    output_takes_its_place();
    beside();
}

static void in_work_after_place(void)
{
    output_takes_its_place();
    ask_too_much();
}

static void after_work(void)
{
    work_is_done(STATUS_OF_WORK);
    ask_too_much();
    _exit(0);
}

static void beside_after_work(void)
{
    work_is_done(STATUS_OF_WORK);
    beside();
    _exit(0);
}

static void before_the_place_all_end(void **state)
{
    assert_int_equal(status_of(ask_too_much), 3);
    assert_int_equal(status_of(beside), 3);
    (void)state;
}

static void threads_do_not_end_what_is_in_place(void **state)
{
    assert_int_equal(status_of(beside_after_place), STATUS_OF_WORK);
    assert_int_equal(status_of(in_work_after_place), 3);
    (void)state;
}

static void nothing_changes_how_work_ended(void **state)
{
    assert_int_equal(status_of(after_work), STATUS_OF_WORK);
    assert_int_equal(status_of(beside_after_work), STATUS_OF_WORK);
    (void)state;
}

/* The sanitizers bring an allocator of their own. */
static void not_under_the_sanitizers(void **state)
{
    (void)state;
    skip();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(before_the_place_all_end),
        cmocka_unit_test(threads_do_not_end_what_is_in_place),
        cmocka_unit_test(nothing_changes_how_work_ended),
    };
    const struct CMUnitTest none[] = {
        cmocka_unit_test(not_under_the_sanitizers),
    };
#ifdef SEAMWRIGHT_CHECKED
    (void)tests;
    return cmocka_run_group_tests(none, NULL, NULL);
#else
    (void)none;
    return cmocka_run_group_tests(tests, NULL, NULL);
#endif
}
