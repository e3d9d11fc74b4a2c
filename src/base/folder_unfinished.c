/* Folders that a killed build has left beside its target. Their name tells the
 * process. That it is gone is asked of the system; as a process elsewhere (in
 * another container, on another machine) is not seen from here, a folder that
 * is being filled is locked besides. */
#define _DEFAULT_SOURCE /* flock */
#include "folder_unfinished.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

#include "folder_marker.h"

/* Where a file system has no locks, folders are filled all the same; they are
 * then not removed either. */
void unfinished_hold(int folder)
{
    const int error = errno;
    flock(folder, LOCK_SH | LOCK_NB);
    errno = error;
}

/* The process of ".seamwright-new-PID-TRY", or 0 for any other name. */
static pid_t process_of(const char *name)
{
    const size_t head = strlen(UNFINISHED_NAME);
    if (strncmp(name, UNFINISHED_NAME, head) != 0 ||
        strspn(name + head, "0123456789-") != strlen(name + head) ||
        name[head] == '-')
        return 0;
    return (pid_t)strtol(name + head, NULL, 10);
}

static bool is_gone(pid_t process)
{
    return process > 0 && kill(process, 0) != 0 && errno == ESRCH;
}

/* A set that was never finished holds its marker and files of it; one that was
 * swapped away is an old set. In both, a file that the marker does not list is
 * somebody's, and keeps the folder. */
static void remove_one(struct arena *arena, int parent, const char *name)
{
    const int folder =
        openat(parent, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (folder < 0)
        return;
    if (flock(folder, LOCK_EX | LOCK_NB) == 0 &&
        marker_objection(arena, folder) == NULL) {
        marker_delete_files(arena, folder);
        unlinkat(parent, name, AT_REMOVEDIR);
    }
    close(folder);
}

void unfinished_remove(struct arena *arena, int parent)
{
    const int again = openat(parent, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *entries = again < 0 ? NULL : fdopendir(again);
    if (entries == NULL) {
        if (again >= 0)
            close(again);
        return;
    }
    for (const struct dirent *entry; (entry = readdir(entries)) != NULL;)
        if (is_gone(process_of(entry->d_name)))
            remove_one(arena, parent, entry->d_name);
    closedir(entries);
}
