/* One file that appears whole or not at all: written beside its place, then
 * renamed into it. Sets of files are folder.c's. */
#define _DEFAULT_SOURCE /* realpath */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "files.h"
#include "shortage.h"

/* Names may be taken by runs that were cut off. A hundred of them mean that
 * something else is wrong. */
enum { NAME_TRIES = 100 };

/* One run of files_replace_file. Each step is taken only while `words` is NULL:
 * the first problem is the one to tell. */
struct writing {
    struct arena *arena;
    const char *folder;   /* where the file lies */
    const char *path;     /* of the file, links followed */
    const char *new_path; /* beside it, or NULL */
    int file;             /* open at new_path, or -1 */
    mode_t mode;          /* of the file that is replaced; 0 for none */
    const char *words;    /* of the first problem, or NULL */
};

/* Keeps the system's words for the first thing that did not work. ensures: true
 * where anything has failed so far. */
static bool failed(struct writing *w, bool ok)
{
    if (!ok && w->words == NULL)
        w->words = strerror(errno);
    return w->words != NULL;
}

/* A rename would put a file in the place of a device or a pipe. A target that
 * is not there yet keeps the caller's words. Links are followed, so that a link
 * stays one and what it leads to is replaced. */
static void find_target(struct writing *w, const char *path)
{
    struct stat about;
    char *real = realpath(path, NULL);
    w->path = path;
    if (real != NULL) {
        w->path = arena_copy(w->arena, real, strlen(real));
        free(real);
        if (failed(w, stat(w->path, &about) == 0))
            return;
        w->mode = about.st_mode & 0777;
        if (!S_ISREG(about.st_mode))
            w->words = "not a regular file";
        else
            failed(w, access(w->path, W_OK) == 0);
    } else {
        failed(w, errno == ENOENT && lstat(path, &about) != 0);
    }
    const char *slash = strrchr(w->path, '/');
    const size_t above = slash == NULL ? 0 : (size_t)(slash - w->path) + 1;
    w->folder = above == 0 ? "./" : arena_copy(w->arena, w->path, above);
}

/* Of the file that a process writes before it lies in its place. */
static const char *new_name(const struct writing *w, long process, int try)
{
    return arena_printf(w->arena, "%s.seamwright-file-%ld-%d", w->folder,
                        process, try);
}

/* Beside, as a rename cannot leave the file system. Never through a file or a
 * link that is there already (O_EXCL): it would be somebody else's. */
static void open_new(struct writing *w)
{
    for (int try = 0; w->file < 0 && try < NAME_TRIES; try++) {
        const char *name = new_name(w, (long)getpid(), try);
        w->file = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (w->file >= 0)
            w->new_path = name;
        else if (errno != EEXIST)
            break;
    }
    failed(w, w->file >= 0);
}

/* On the disk before the rename: else a crash could leave an empty file in the
 * place of a good one. The system may take a part of the bytes only, so it is
 * asked until all are gone. */
static void fill_new(struct writing *w, const char *bytes, size_t length)
{
    while (length > 0 && w->words == NULL) {
        const ssize_t written = write(w->file, bytes, length);
        if (written < 0 && errno == EINTR)
            continue;
        if (failed(w, written >= 0))
            break;
        bytes += written;
        length -= (size_t)written;
    }
    if (w->words == NULL && w->mode != 0)
        failed(w, fchmod(w->file, w->mode) == 0);
    if (w->words == NULL)
        failed(w, fsync(w->file) == 0);
    failed(w, close(w->file) == 0);
}

/* Some file systems cannot sync a folder; the file is in place all the same. */
static void sync_above(const struct writing *w)
{
    const int folder = open(w->folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder < 0)
        return;
    fsync(folder);
    close(folder);
}

/* A rename is the one step that a reader can see, and it is whole. Whatever
 * fails before it leaves the old file as it was, and nothing beside it. */
bool files_replace_file(struct arena *arena, const char *path,
                        const char *bytes, size_t length, const char **problem)
{
    struct writing w = {.arena = arena, .file = -1};
    find_target(&w, path);
    if (w.words == NULL)
        open_new(&w);
    if (w.words == NULL)
        fill_new(&w, bytes, length);
    output_takes_its_place();
    if (w.words == NULL && !failed(&w, rename(w.new_path, w.path) == 0))
        sync_above(&w);
    else if (w.new_path != NULL)
        unlink(w.new_path);
    *problem = w.words == NULL
                   ? NULL
                   : arena_printf(arena, "%s: cannot write: %s", path, w.words);
    return w.words == NULL;
}

/* Only what has the name of that process, and is a file. */
void files_remove_unfinished_file(struct arena *arena, const char *path,
                                  long process)
{
    struct writing w = {.arena = arena, .file = -1};
    find_target(&w, path);
    for (int try = 0; w.folder != NULL && try < NAME_TRIES; try++) {
        struct stat about;
        const char *name = new_name(&w, process, try);
        if (lstat(name, &about) != 0)
            break;
        if (S_ISREG(about.st_mode))
            unlink(name);
    }
}
