/* owner: base
 *
 * Reading one source file, and writing a set of files that appears whole or
 * not at all.
 */
#ifndef SEAMWRIGHT_FILES_H
#define SEAMWRIGHT_FILES_H

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"

enum { SOURCE_LIMIT_BYTES = 16 * 1024 * 1024 };

enum file_fault {
    FILE_OK,
    FILE_UNREADABLE, /* `system_error` says why */
    FILE_NOT_REGULAR,
    FILE_THROUGH_LINK, /* of file_read_below alone */
    FILE_TOO_LARGE     /* over SOURCE_LIMIT_BYTES */
};

struct file_content {
    enum file_fault fault;
    const char *system_error; /* words of the system, or NULL */
    char *bytes;              /* NUL-terminated, in the arena */
    size_t length;
};

/* Reads a regular file; "-" reads standard input. Never blocks on a FIFO. */
struct file_content file_read(struct arena *arena, const char *path);
/* Reads a regular file below `folder`, up to `limit` bytes. No part of `name`
 * may be a symbolic link, as that could lead anywhere; links in `folder` are
 * followed. requires: a relative name without "..". */
struct file_content file_read_below(struct arena *arena, const char *folder,
                                    const char *name, size_t limit);

/* One file of a set. `name` holds no slash. */
struct output_file {
    const char *name;
    const char *bytes;
    size_t length;
};

/* Writes all files into a new folder beside `folder`, syncs them, and puts
 * the new folder in the old one's place in one step (renameat2 with
 * RENAME_EXCHANGE, or rename where there is no old folder). The file
 * `.seamwright-files` in it lists the names that were written.
 *
 * An old folder is replaced, and then deleted, only where it is empty or all
 * that lies in it is listed in its own `.seamwright-files`; so a user's folder
 * of other files is never touched. A link to a folder is followed. Folders
 * above `folder` are not made.
 *
 * ensures: true; or false, the old folder untouched, nothing left behind, and
 * *problem a message of the form "NAME: cannot write: WORDS". */
bool files_replace_folder(struct arena *arena, const char *folder,
                          const struct output_file *files, size_t count,
                          const char **problem);

/* Removes what a process that is gone has left beside `folder`. */
void files_remove_unfinished(struct arena *arena, const char *folder);

/* Writes one file: beside it under a hidden name, synced, then in its place. A
 * link to a file is followed; what is no regular file is not replaced.
 * ensures: as above, for the file at `path`. */
bool files_replace_file(struct arena *arena, const char *path,
                        const char *bytes, size_t length, const char **problem);

/* Removes what a process that is gone has left beside `path`, which it was to
 * write. */
void files_remove_unfinished_file(struct arena *arena, const char *path,
                                  long process);

#endif
