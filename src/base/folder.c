/* A set of files that appears whole or not at all. The set is written into a
 * folder with a hidden name beside the target; then the two change places. */
#define _DEFAULT_SOURCE /* syscall */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <linux/fs.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "files.h"
#include "folder_marker.h"
#include "folder_unfinished.h"
#include "shortage.h"

enum { NAME_TRIES = 100 };

/* One replacing of a folder. Names are relative to `parent`, so that nothing
 * depends on what is renamed above it meanwhile. */
struct replacing {
    struct arena *arena;
    struct arena *late;    /* with room for all that is asked after the swap */
    const char *shown;     /* the target as the caller named it */
    const char *name;      /* of the target in its parent */
    const char *new_name;  /* of the folder that is being written */
    const char *away_name; /* for the old one, without RENAME_EXCHANGE */
    int parent, old, new;  /* open folders, or -1 */
    DIR *entries;          /* of the old folder, or NULL */
    const char *problem;   /* the first one, or NULL */
};

/* Keeps the first problem. The steps below do nothing after one, so that
 * files_replace_folder reads as a plain list of them. */
static void fail(struct replacing *r, const char *file, const char *words)
{
    if (r->problem != NULL)
        return;
    r->problem =
        file == NULL
            ? arena_printf(r->arena, "%s: cannot write: %s", r->shown, words)
            : arena_printf(r->arena, "%s/%s: cannot write: %s", r->shown, file,
                           words);
}

static void fail_errno(struct replacing *r, const char *file)
{
    fail(r, file, strerror(errno));
}

/* Some file systems cannot sync a folder, and say EINVAL. */
static bool sync_folder(int folder)
{
    return fsync(folder) == 0 || errno == EINVAL;
}

static int open_folder(int at, const char *name)
{
    return openat(at, name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

static char *without_slashes(struct arena *arena, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    return arena_copy(arena, path, length);
}

/* The target's path; where it exists, without links and dots, as a rename
 * would replace a link and not the folder that it leads to. A target that is
 * not there yet keeps the words of the caller. */
static char *real_path(struct replacing *r, const char *folder)
{
    char *resolved = realpath(folder, NULL);
    if (resolved != NULL) {
        char *path = arena_copy(r->arena, resolved, strlen(resolved));
        free(resolved);
        return path;
    }
    struct stat about;
    if (errno != ENOENT || lstat(folder, &about) == 0 || folder[0] == '\0')
        fail_errno(r, NULL);
    return without_slashes(r->arena, folder);
}

/* Splits the path, and opens the folder above the target. That one must be
 * there: a slip in a long path should not make a tree of folders. */
static void open_parent(struct replacing *r, char *path)
{
    char *slash = strrchr(path, '/');
    const char *above = slash == NULL ? "." : slash == path ? "/" : path;
    r->name = slash == NULL ? path : slash + 1;
    if (slash != NULL && slash != path)
        *slash = '\0';
    if (r->name[0] == '\0')
        fail(r, NULL, strerror(EBUSY)); /* the root has no place beside it */
    if (r->problem == NULL && (r->parent = open_folder(AT_FDCWD, above)) < 0)
        fail_errno(r, NULL);
}

/* ensures: NULL, or why the old folder must stay, in words. */
static const char *objection_to_old(struct replacing *r, struct arena *arena)
{
    r->entries = marker_entries(r->old);
    return r->entries == NULL ? strerror(errno)
                              : marker_objection_in(arena, r->old, r->entries);
}

/* Opens the old folder, where there is one, and asks whether it may go. Its
 * files will be deleted, so that it must be possible to write in it; better
 * to know that now than after the swap. */
static void open_old(struct replacing *r)
{
    if (r->problem != NULL)
        return;
    r->old = open_folder(r->parent, r->name);
    if (r->old < 0) {
        if (errno != ENOENT)
            fail_errno(r, NULL);
        return;
    }
    const char *objection = objection_to_old(r, r->arena);
    if (objection != NULL)
        fail(r, NULL, objection);
    else if (faccessat(r->old, ".", W_OK | X_OK, 0) != 0)
        fail_errno(r, NULL);
}

/* A hidden name beside the target. Beside, as a rename cannot leave the file
 * system; with the process's number, so that builds do not meet. */
static const char *hidden_name(const struct replacing *r, const char *head,
                               int try)
{
    return arena_printf(r->arena, "%s%ld-%d", head, (long)getpid(), try);
}

/* The new folder is no more open than the old one while it is filled. */
static mode_t new_mode(const struct replacing *r)
{
    struct stat about;
    if (r->old < 0 || fstat(r->old, &about) != 0)
        return 0777;
    return (about.st_mode & 0777) | S_IRWXU;
}

static void make_new(struct replacing *r)
{
    if (r->problem != NULL)
        return;
    unfinished_remove(r->arena, r->parent);
    int made = -1;
    for (int try = 0; made != 0 && try < NAME_TRIES; try++) {
        const char *name = hidden_name(r, UNFINISHED_NAME, try);
        made = mkdirat(r->parent, name, new_mode(r));
        if (made == 0)
            r->new_name = name;
        else if (errno != EEXIST)
            break;
    }
    if (made != 0 || (r->new = open_folder(r->parent, r->new_name)) < 0)
        fail_errno(r, NULL);
    else
        unfinished_hold(r->new);
}

/* write(2) may take less than it was given, and signals may come between. */
static bool write_bytes(int file, const char *bytes, size_t length)
{
    while (length > 0) {
        const ssize_t written = write(file, bytes, length);
        if (written < 0 && errno != EINTR)
            return false;
        if (written > 0) {
            bytes += written;
            length -= (size_t)written;
        }
    }
    return true;
}

/* Each file is on the disk before the next: an error that the system only
 * finds when it stores the bytes belongs to the file's name. */
static void write_file(struct replacing *r, const char *name, const char *bytes,
                       size_t length)
{
    if (r->problem != NULL)
        return;
    const int file =
        openat(r->new, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) {
        fail_errno(r, name);
        return;
    }
    if (!write_bytes(file, bytes, length) || fsync(file) != 0)
        fail_errno(r, name);
    if (close(file) != 0)
        fail_errno(r, name);
}

/* The marker holds a name a line, and decides what is deleted later. */
static bool name_is_plain(const char *name)
{
    return name[0] != '\0' && strpbrk(name, "/\n") == NULL &&
           strcmp(name, ".") != 0 && strcmp(name, "..") != 0;
}

/* The marker comes first: whatever else lies in an unfinished folder is listed
 * there. */
static void write_set(struct replacing *r, const struct output_file *files,
                      size_t count)
{
    const char *marker = marker_text(r->arena, files, count);
    write_file(r, FOLDER_MARKER, marker, strlen(marker));
    for (size_t i = 0; i < count; i++) {
        if (!name_is_plain(files[i].name))
            fail(r, files[i].name, strerror(EINVAL));
        write_file(r, files[i].name, files[i].bytes, files[i].length);
    }
}

/* The new folder gets the old one's permissions, and reaches the disk. */
static void finish_new(struct replacing *r)
{
    if (r->problem != NULL)
        return;
    struct stat about;
    if (r->old >= 0 && (fstat(r->old, &about) != 0 ||
                        fchmod(r->new, about.st_mode & 07777) != 0))
        fail_errno(r, NULL);
    else if (!sync_folder(r->new))
        fail_errno(r, NULL);
}

/* By number, as older C libraries have no renameat2. */
static bool exchange(const struct replacing *r)
{
#ifdef SYS_renameat2
    return syscall(SYS_renameat2, r->parent, r->new_name, r->parent, r->name,
                   RENAME_EXCHANGE) == 0;
#else
    errno = ENOSYS;
    return false;
#endif
}

/* Where folders cannot change places (some network and stacked file systems),
 * the old one steps aside first: for a moment there is none. */
static bool step_aside(struct replacing *r)
{
    const char *away = hidden_name(r, ".seamwright-old-", 0);
    if (renameat(r->parent, r->name, r->parent, away) != 0)
        return false;
    if (renameat(r->parent, r->new_name, r->parent, r->name) == 0) {
        r->away_name = away;
        return true;
    }
    const int error = errno;
    renameat(r->parent, away, r->parent, r->name);
    errno = error;
    return false;
}

/* Puts the new folder in place. ensures: away_name is the old folder's name
 * by now, NULL where there is none. */
static void swap(struct replacing *r)
{
    if (r->problem != NULL)
        return;
    output_takes_its_place();
    if (r->old < 0) {
        if (renameat(r->parent, r->new_name, r->parent, r->name) != 0)
            fail_errno(r, NULL);
    } else if (exchange(r)) {
        r->away_name = r->new_name;
    } else if ((errno != ENOSYS && errno != EINVAL) || !step_aside(r)) {
        fail_errno(r, NULL);
    }
}

/* Undoes swap: the new folder has its hidden name again. Nothing can be done
 * where this fails; the problem that led here is told all the same. */
static void swap_back(struct replacing *r, bool replaces)
{
    if (!replaces) {
        renameat(r->parent, r->name, r->parent, r->new_name);
    } else if (r->away_name == r->new_name) {
        exchange(r);
    } else {
        renameat(r->parent, r->name, r->parent, r->new_name);
        renameat(r->parent, r->away_name, r->parent, r->name);
    }
}

static bool same_folder(const struct replacing *r)
{
    struct stat open, named;
    return fstat(r->old, &open) == 0 &&
           fstatat(r->parent, r->away_name, &named, AT_SYMLINK_NOFOLLOW) == 0 &&
           open.st_dev == named.st_dev && open.st_ino == named.st_ino;
}

/* Asks again what the swap took away. Another build may have changed the
 * folder since it was asked first; nothing can come in by its name any more,
 * so that this second answer holds. For the folder that was asked first it
 * needs no memory that is not there already: from the swap on, running out of
 * it would be told though the new set is in place. */
static const char *ask_again(struct replacing *r)
{
    if (same_folder(r))
        return marker_objection_in(r->late, r->old, r->entries);
    close(r->old);
    closedir(r->entries);
    r->entries = NULL;
    r->old = open_folder(r->parent, r->away_name);
    return r->old < 0 ? strerror(errno) : objection_to_old(r, r->late);
}

/* The swap must be on the disk before the old files go. */
static void confirm(struct replacing *r)
{
    if (r->problem != NULL)
        return;
    const bool replaces = r->old >= 0;
    if (!sync_folder(r->parent))
        fail_errno(r, NULL);
    const char *objection = replaces ? ask_again(r) : NULL;
    if (objection != NULL)
        fail(r, NULL, objection);
    if (r->problem != NULL)
        swap_back(r, replaces);
}

/* By now the new set is in place and on the disk; what goes wrong here is no
 * failure of the build, and the old files are in nobody's way. */
static void delete_old(struct replacing *r)
{
    if (r->problem != NULL || r->old < 0)
        return;
    marker_delete_files(r->late, r->old);
    unlinkat(r->parent, r->away_name, AT_REMOVEDIR);
}

/* Nothing of a set that failed stays. Files are deleted by the names of the
 * set, some of which were not reached: those are not there to delete. */
static void delete_new(struct replacing *r, const struct output_file *files,
                       size_t count)
{
    if (r->problem == NULL || r->new_name == NULL)
        return;
    for (size_t i = 0; r->new >= 0 && i < count; i++) {
        if (name_is_plain(files[i].name))
            unlinkat(r->new, files[i].name, 0);
    }
    if (r->new >= 0)
        unlinkat(r->new, FOLDER_MARKER, 0);
    unlinkat(r->parent, r->new_name, AT_REMOVEDIR);
}

static void close_folders(const struct replacing *r)
{
    if (r->entries != NULL)
        closedir(r->entries);
    const int folders[] = {r->new, r->old, r->parent};
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        if (folders[i] >= 0)
            close(folders[i]);
    }
}

bool files_replace_folder(struct arena *arena, const char *folder,
                          const struct output_file *files, size_t count,
                          const char **problem)
{
    struct replacing r = {.arena = arena, .late = arena_create()};
    arena_alloc(r.late, 1); /* a block, most of which is left */
    r.shown = without_slashes(arena, folder);
    r.parent = r.old = r.new = -1;
    open_parent(&r, real_path(&r, folder));
    open_old(&r);
    make_new(&r);
    write_set(&r, files, count);
    finish_new(&r);
    swap(&r);
    confirm(&r);
    delete_old(&r);
    delete_new(&r, files, count);
    close_folders(&r);
    *problem = r.problem;
    arena_destroy(r.late);
    return r.problem == NULL;
}

void files_remove_unfinished(struct arena *arena, const char *folder)
{
    struct replacing r = {.arena = arena, .shown = folder, .parent = -1};
    open_parent(&r, real_path(&r, folder));
    if (r.parent < 0)
        return;
    unfinished_remove(arena, r.parent);
    close(r.parent);
}
