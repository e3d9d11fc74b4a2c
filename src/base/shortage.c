/* The end of memory, and the allocator's own names. GLib aborts where there is
 * no memory, libxml2 calls it a mistake in the XML, and the libraries of
 * letters leave them out and say nothing. So no library is ever told: this
 * program defines the names that all of them call (the C library allows that:
 * "Replacing malloc" in its manual) and hands the work to the C library. Only
 * the answer "none" stops here. */
#define _GNU_SOURCE /* MAP_ANONYMOUS, syscall */
#include "shortage.h"

#include <errno.h>
#include <malloc.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/syscall.h>
#include <unistd.h>

enum { EXIT_NO_MEMORY = 3 };

/* What was said of the work: the allocator asks, whom nobody can hand it to, in
 * any thread. */
static struct {
    atomic_bool placed, done;
    atomic_int status;
} work;

void output_takes_its_place(void)
{
    work.placed = true;
}

void work_is_done(int status)
{
    work.status = status;
    work.done = true;
}

static bool beside_the_work(void)
{
    return syscall(SYS_gettid) != getpid();
}

/* In one write and not by stderr, which might want memory. Nothing can be done
 * where standard error is closed. */
void end_out_of_memory(const char *words)
{
    enum { SECONDS = 5 };
    char line[200];
    if (work.placed && !work.done && beside_the_work())
        sleep(SECONDS);
    if (work.done)
        _exit(work.status);
    snprintf(line, sizeof line, "seamwright: out of memory%s%s\n",
             words == NULL ? "" : ": ", words == NULL ? "" : words);
    const ssize_t told = write(STDERR_FILENO, line, strlen(line));
    (void)told;
    _exit(EXIT_NO_MEMORY);
}

bool memory_to_be_had(size_t bytes)
{
    void *room = mmap(NULL, bytes, PROT_READ | PROT_WRITE,
                      MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (room == MAP_FAILED)
        return false;
    munmap(room, bytes);
    return true;
}

/* The sanitizers bring an allocator of their own, and another C library may
 * have no such names: there a library is told, and what it makes of that is
 * caught as far as it can be. */
#if defined(__GLIBC__) && !defined(SEAMWRIGHT_CHECKED)

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
void *__libc_memalign(size_t alignment, size_t size);

/* Nothing may be given for nothing: realloc to no bytes frees. */
static void *given(void *memory, size_t size)
{
    if (memory == NULL && size > 0)
        end_out_of_memory(NULL);
    return memory;
}

void *malloc(size_t size)
{
    return given(__libc_malloc(size), size);
}

void *calloc(size_t count, size_t size)
{
    return given(__libc_calloc(count, size), count == 0 ? 0 : size);
}

void *realloc(void *memory, size_t size)
{
    return given(__libc_realloc(memory, size), size);
}

void *memalign(size_t alignment, size_t size)
{
    return given(__libc_memalign(alignment, size), size);
}

void *aligned_alloc(size_t alignment, size_t size)
{
    return memalign(alignment, size);
}

int posix_memalign(void **memory, size_t alignment, size_t size)
{
    if (alignment % sizeof(void *) != 0 || alignment == 0 ||
        (alignment & (alignment - 1)) != 0)
        return EINVAL;
    *memory = memalign(alignment, size);
    return 0;
}

#endif
