/* A library to be loaded before all others (LD_PRELOAD): the Nth call of a kind
 * fails, once, in whichever process of the program it comes. FAULT_KIND is
 * `memory` (what the C library's allocator is asked for) or `calls` (files,
 * maps, folders, processes, threads), FAULT_AT the number. Where FAULT_COUNT
 * names a file, the number of calls is written there in the end, and FAULT_NAME
 * one with the name of the call that failed. */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

/* Shared by all processes of one run, so that a number means one call. */
static struct shared {
    atomic_long memory, calls;
} * shared;
static long fault_at;
static bool of_memory;
/* The process has done its work: what is called from here on is not its own. A
 * build that counts which lines were run writes that down then. */
static bool left;

static void *next(const char *name)
{
    return dlsym(RTLD_NEXT, name);
}

/* By number, as the library's own calls are the ones that fail. */
static void note(const char *variable, const char *text)
{
    const char *path = getenv(variable);
    if (path == NULL)
        return;
    const long file = syscall(SYS_openat, AT_FDCWD, path,
                              O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (file >= 0) {
        syscall(SYS_write, file, text, strlen(text));
        syscall(SYS_close, file);
    }
}

__attribute__((constructor)) static void begin(void)
{
    const char *kind = getenv("FAULT_KIND"), *at = getenv("FAULT_AT");
    void *room =
        (void *)syscall(SYS_mmap, NULL, sizeof *shared, PROT_READ | PROT_WRITE,
                        MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (room == MAP_FAILED)
        _exit(99);
    of_memory = kind != NULL && strcmp(kind, "memory") == 0;
    fault_at = at == NULL ? 0 : strtol(at, NULL, 10);
    shared = room;
}

__attribute__((destructor)) static void end(void)
{
    char text[32];
    snprintf(text, sizeof text, "%ld\n",
             atomic_load(of_memory ? &shared->memory : &shared->calls));
    note("FAULT_COUNT", text);
}

/* ensures: true where this one is to fail. */
static bool strikes(bool memory, const char *name)
{
    if (shared == NULL || left)
        return false;
    const long number =
        1 + atomic_fetch_add(memory ? &shared->memory : &shared->calls, 1);
    if (memory != of_memory || number != fault_at)
        return false;
    note("FAULT_NAME", name);
    return true;
}

/* ---- memory ---- */

/* The names that the program's own malloc and its kin hand on to. */
#define MEMORY(name, parameters, arguments) \
    void *name parameters;                  \
    void *name parameters                   \
    {                                       \
        void *(*real)parameters;            \
        *(void **)&real = next(#name);      \
        if (strikes(true, #name)) {         \
            errno = ENOMEM;                 \
            return NULL;                    \
        }                                   \
        return real arguments;              \
    }

MEMORY(__libc_malloc, (size_t size), (size))
MEMORY(__libc_calloc, (size_t count, size_t size), (count, size))
MEMORY(__libc_realloc, (void *memory, size_t size), (memory, size))
MEMORY(__libc_memalign, (size_t alignment, size_t size), (alignment, size))

/* ---- calls ---- */

#define CALL(type, name, parameters, arguments, error, failed) \
    type name parameters                                       \
    {                                                          \
        type(*real) parameters;                                \
        *(void **)&real = next(#name);                         \
        if (strikes(false, #name)) {                           \
            errno = error;                                     \
            return failed;                                     \
        }                                                      \
        return real arguments;                                 \
    }

CALL(void *, mmap,
     (void *at, size_t length, int rights, int flags, int file, off_t offset),
     (at, length, rights, flags, file, offset), ENOMEM, MAP_FAILED)
CALL(ssize_t, read, (int file, void *bytes, size_t length),
     (file, bytes, length), EIO, -1)
CALL(ssize_t, write, (int file, const void *bytes, size_t length),
     (file, bytes, length), ENOSPC, -1)
CALL(int, fsync, (int file), (file), EIO, -1)
CALL(int, fstat, (int file, struct stat *about), (file, about), EIO, -1)
CALL(int, stat, (const char *path, struct stat *about), (path, about), EIO, -1)
CALL(int, lstat, (const char *path, struct stat *about), (path, about), EIO, -1)
CALL(int, fstatat, (int at, const char *path, struct stat *about, int flags),
     (at, path, about, flags), EIO, -1)
CALL(int, mkdir, (const char *path, mode_t mode), (path, mode), ENOSPC, -1)
CALL(int, mkdirat, (int at, const char *path, mode_t mode), (at, path, mode),
     ENOSPC, -1)
CALL(int, rename, (const char *from, const char *to), (from, to), EIO, -1)
CALL(int, renameat, (int at, const char *from, int there, const char *to),
     (at, from, there, to), EIO, -1)
CALL(int, unlink, (const char *path), (path), EIO, -1)
CALL(int, unlinkat, (int at, const char *path, int flags), (at, path, flags),
     EIO, -1)
CALL(int, fchmod, (int file, mode_t mode), (file, mode), EPERM, -1)
CALL(int, faccessat, (int at, const char *path, int mode, int flags),
     (at, path, mode, flags), EIO, -1)
CALL(int, flock, (int file, int operation), (file, operation), ENOLCK, -1)
CALL(int, memfd_create, (const char *name, unsigned flags), (name, flags),
     EMFILE, -1)
CALL(DIR *, opendir, (const char *path), (path), EMFILE, NULL)
CALL(DIR *, fdopendir, (int file), (file), EMFILE, NULL)
CALL(char *, realpath, (const char *path, char *room), (path, room), EIO, NULL)
CALL(FILE *, fopen, (const char *path, const char *mode), (path, mode), EMFILE,
     NULL)

static void leave(void)
{
    left = true;
}

/* Both processes come by here before they work, so that `leave` is called in
 * each before all that was to be done at the end since it was started. */
pid_t fork(void)
{
    pid_t (*real)(void);
    *(void **)&real = next("fork");
    if (strikes(false, "fork")) {
        errno = EAGAIN;
        return -1;
    }
    atexit(leave);
    return real();
}

/* The file is closed all the same, as Linux does it. */
int close(int file)
{
    const bool fails = strikes(false, "close");
    const int closed = (int)syscall(SYS_close, file);
    if (fails)
        errno = EIO;
    return fails ? -1 : closed;
}

#define OPEN(name, first, before)                                       \
    int name(first const char *path, int flags, ...)                    \
    {                                                                   \
        va_list list;                                                   \
        va_start(list, flags);                                          \
        const mode_t mode =                                             \
            (flags & (O_CREAT | O_TMPFILE)) ? va_arg(list, mode_t) : 0; \
        va_end(list);                                                   \
        if (strikes(false, #name)) {                                    \
            errno = EMFILE;                                             \
            return -1;                                                  \
        }                                                               \
        return (int)syscall(SYS_openat, before, path, flags, mode);     \
    }
OPEN(open, , AT_FDCWD)
OPEN(open64, , AT_FDCWD)
#define COMMA ,
OPEN(openat, int at COMMA, at)
OPEN(openat64, int at COMMA, at)

/* The program's one use of it is the exchange of two names. */
long syscall(long number, ...)
{
    va_list list;
    long (*real)(long, ...), a[6];
    va_start(list, number);
    for (int i = 0; i < 6; i++)
        a[i] = va_arg(list, long);
    va_end(list);
    *(void **)&real = next("syscall");
    if (number == SYS_renameat2 && strikes(false, "renameat2")) {
        errno = EIO;
        return -1;
    }
    return real(number, a[0], a[1], a[2], a[3], a[4], a[5]);
}

int pthread_create(pthread_t *thread, const pthread_attr_t *attributes,
                   void *(*work)(void *), void *about)
{
    int (*real)(pthread_t *, const pthread_attr_t *, void *(*)(void *), void *);
    *(void **)&real = next("pthread_create");
    return strikes(false, "pthread_create")
               ? EAGAIN
               : real(thread, attributes, work, about);
}
