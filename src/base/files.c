/* Reading a source file whole, with a limit. */
#include "files.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FIRST_BYTES = 64 * 1024 };

/* Faults that need no words of the system. */
static struct file_content fault(enum file_fault kind)
{
    return (struct file_content){.fault = kind};
}

static struct file_content unreadable(struct arena *arena, int error)
{
    struct file_content content = fault(FILE_UNREADABLE);
    content.system_error = arena_printf(arena, "%s", strerror(error));
    return content;
}

/* read(2) that goes on after a signal, and waits where a standard input was
 * left in non-blocking mode by another program. */
static ssize_t read_some(int file, char *bytes, size_t room)
{
    for (;;) {
        const ssize_t got = read(file, bytes, room);
        if (got >= 0)
            return got;
        if (errno == EAGAIN || errno == EWOULDBLOCK) {
            struct pollfd ready = {.fd = file, .events = POLLIN};
            if (poll(&ready, 1, -1) < 0 && errno != EINTR)
                return -1;
        } else if (errno != EINTR) {
            return -1;
        }
    }
}

/* Reads to the end, or to one byte over the limit. `guess` is the likely
 * length, which need not be right: the file may grow, or tell none. */
static struct file_content read_all(struct arena *arena, int file, size_t guess,
                                    size_t limit)
{
    struct file_content content = {.fault = FILE_OK};
    size_t room = guess + 1 < FIRST_BYTES ? FIRST_BYTES : guess + 1;
    content.bytes = arena_alloc(arena, room + 1);
    /* One byte more than the limit tells a file that is too large. */
    while (content.length < limit + 1) {
        /* The old bytes stay in the arena, at most as much again. */
        if (content.length == room) {
            char *larger = arena_alloc(arena, room * 2 + 1);
            memcpy(larger, content.bytes, room);
            content.bytes = larger;
            room *= 2;
        }
        const ssize_t got = read_some(file, content.bytes + content.length,
                                      room - content.length);
        if (got < 0)
            return unreadable(arena, errno);
        if (got == 0)
            break;
        content.length += (size_t)got;
    }
    if (content.length > limit)
        return fault(FILE_TOO_LARGE);
    content.bytes[content.length] = '\0';
    return content;
}

/* The size that the system tells saves reading a file that is too large. Some
 * files of the system tell 0 and hold more: read_all copes. */
static struct file_content read_open(struct arena *arena, int file,
                                     size_t limit)
{
    struct stat about;
    if (fstat(file, &about) != 0)
        return unreadable(arena, errno);
    if (!S_ISREG(about.st_mode))
        return fault(FILE_NOT_REGULAR);
    if (about.st_size > (off_t)limit)
        return fault(FILE_TOO_LARGE);
    return read_all(arena, file, (size_t)about.st_size, limit);
}

/* Asked before opening, as opening a device can have effects; and once more
 * when open, as the name may mean another file by then. `link`: it may be one.
 */
static struct file_content read_at(struct arena *arena, int at,
                                   const char *name, size_t limit, bool link)
{
    struct stat about;
    if (fstatat(at, name, &about, link ? 0 : AT_SYMLINK_NOFOLLOW) != 0)
        return unreadable(arena, errno);
    if (S_ISLNK(about.st_mode))
        return fault(FILE_THROUGH_LINK);
    if (!S_ISREG(about.st_mode))
        return fault(FILE_NOT_REGULAR);
    /* Non-blocking: opening a FIFO would else wait for a writer. */
    const int file = openat(at, name,
                            O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY |
                                (link ? 0 : O_NOFOLLOW));
    if (file < 0)
        return unreadable(arena, errno);
    const struct file_content content = read_open(arena, file, limit);
    close(file);
    return content;
}

struct file_content file_read(struct arena *arena, const char *path)
{
    if (strcmp(path, "-") == 0)
        return read_all(arena, STDIN_FILENO, 0, SOURCE_LIMIT_BYTES);
    return read_at(arena, AT_FDCWD, path, SOURCE_LIMIT_BYTES, true);
}

/* Goes down one folder. ensures: `at` closed, and the folder inside, or -1 and
 * what is wrong. */
static int enter(struct arena *arena, int at, const char *part,
                 struct file_content *problem)
{
    struct stat about;
    int inside = -1;
    if (fstatat(at, part, &about, AT_SYMLINK_NOFOLLOW) == 0 &&
        S_ISLNK(about.st_mode))
        *problem = fault(FILE_THROUGH_LINK);
    else if ((inside =
                  openat(at, part,
                         O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC)) < 0)
        *problem = unreadable(arena, errno);
    close(at);
    return inside;
}

/* Part by part, with each folder held open: a name that changes its meaning
 * meanwhile leads nowhere else. */
struct file_content file_read_below(struct arena *arena, const char *folder,
                                    const char *name, size_t limit)
{
    struct file_content content;
    int at = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (at < 0)
        return unreadable(arena, errno);
    for (const char *slash; (slash = strchr(name, '/')) != NULL;
         name = slash + 1) {
        const char *part = arena_copy(arena, name, (size_t)(slash - name));
        if (part[0] != '\0')
            at = enter(arena, at, part, &content);
        if (at < 0)
            return content;
    }
    content = read_at(arena, at, name, limit, false);
    close(at);
    return content;
}
