/* The parent of the work, which does nothing but wait. Libraries abort where
 * they cannot have a thread, and the system kills whoever takes too much
 * memory: neither can be caught where it happens. Read next: base/shortage.c
 * for what can. */
#define _GNU_SOURCE /* strsignal */
#include "supervise.h"

#include <errno.h>
#include <malloc.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "files.h"
#include "selection.h"
#include "shortage.h"

/* Nobody has set how much room this process may take, and there is some. */
static bool room_to_spare(size_t bytes)
{
    struct rlimit most;
    return getrlimit(RLIMIT_AS, &most) == 0 && most.rlim_cur == RLIM_INFINITY &&
           memory_to_be_had(bytes);
}

/* Arrays that come and go are given out of memory that the process has already:
 * to have pages of the system's and give them back, time and again, costs more
 * than what is written to them. Room for large work is asked for at once, so
 * that it can lie in huge pages, where the system has some: none of it is
 * memory before it is written to. */
static void keep_memory(void)
{
#if defined(__GLIBC__) && defined(MADV_HUGEPAGE)
    enum { MEGABYTE = 1024 * 1024, MOST = 24 * MEGABYTE, TIMES = 20 };
    const uintptr_t page = 2 * MEGABYTE;
    mallopt(M_MMAP_THRESHOLD, MOST + MEGABYTE);
    mallopt(M_TRIM_THRESHOLD, 2 * TIMES * MOST);
    mallopt(M_TOP_PAD, MEGABYTE);
    if (!room_to_spare(TIMES * MOST))
        return;
    char *room[TIMES];
    for (int i = 0; i < TIMES; i++)
        room[i] = malloc(MOST);
    const uintptr_t first = ((uintptr_t)room[0] + page - 1) / page * page;
    const uintptr_t end = (uintptr_t)room[TIMES - 1] + MOST;
    if (end > first)
        madvise((void *)first, end - first, MADV_HUGEPAGE);
    for (int i = 0; i < TIMES; i++)
        free(room[i]);
#endif
}

/* The child does not outlive its parent: who ends the one means both. */
static _Noreturn void do_work(int (*work)(const struct options *),
                              const struct options *options, pid_t parent)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != parent)
        _exit(STATUS_INTERNAL);
    keep_memory();
    const int status = work(options);
    work_is_done(status);
    exit(status);
}

/* A key pressed in the terminal reaches both: the child ends, and the parent
 * lives on to clear up. requires: a signal. ensures: its old disposition. */
static void (*ignore(int number))(int)
{
    return signal(number, SIG_IGN);
}

/* ensures: the status that waitpid gives. */
static int wait_for(pid_t child)
{
    int ended = 0;
    void (*interrupt)(int) = ignore(SIGINT);
    void (*quit)(int) = ignore(SIGQUIT);
    while (waitpid(child, &ended, 0) < 0 && errno == EINTR)
        continue;
    signal(SIGINT, interrupt);
    signal(SIGQUIT, quit);
    return ended;
}

/* Whoever started this process sees it end as the work did. */
static int end_as(int number)
{
    signal(number, SIG_DFL);
    raise(number);
    return STATUS_INTERNAL;
}

/* GLib stops at a breakpoint where it cannot go on, which is where there is no
 * memory or no thread to be had. */
static int status_of_signal(int number)
{
    switch (number) {
    case SIGTRAP:
        end_out_of_memory("a library could not go on");
    case SIGKILL:
        end_out_of_memory("the work was killed");
    case SIGABRT:
    case SIGBUS:
    case SIGFPE:
    case SIGILL:
    case SIGSEGV:
    case SIGSYS:
        complain("seamwright: internal error: the work ended by a signal (%s)\n"
                 "This is a fault of seamwright, not of the pattern. Please "
                 "report it with the source.\n",
                 strsignal(number));
        return STATUS_INTERNAL;
    default:
        return end_as(number);
    }
}

static bool is_one_of(const char *command, const char *const *commands)
{
    while (*commands != NULL && strcmp(*commands, command) != 0)
        commands++;
    return *commands != NULL;
}

/* Some commands write a set of files, others may write one. A library's thread
 * can end the work while another one writes. */
static void clear_up(const struct options *options, pid_t gone)
{
    static const char *const folders[] = {"build", "kit", "proof", NULL};
    static const char *const files[] = {"figure", "compare", NULL};
    struct arena *arena = arena_create();
    if (is_one_of(options->command, folders) && !options->gather)
        files_remove_unfinished(arena, output_folder(arena, options));
    if (is_one_of(options->command, files) && options->folder != NULL)
        files_remove_unfinished_file(arena, options->folder, (long)gone);
    arena_destroy(arena);
}

int supervise(int (*work)(const struct options *),
              const struct options *options)
{
    const pid_t parent = getpid();
    const pid_t child = fork();
    if (child == 0)
        do_work(work, options, parent);
    if (child < 0)
        end_out_of_memory("no process to work in");
    const int ended = wait_for(child);
    if (!WIFEXITED(ended) || WEXITSTATUS(ended) == STATUS_LIMIT)
        clear_up(options, child);
    if (!WIFEXITED(ended))
        return status_of_signal(WTERMSIG(ended));
    work_is_done(WEXITSTATUS(ended));
    return WEXITSTATUS(ended);
}
