/* The list that a folder of output carries, which tells what may be deleted
 * in it. */
#ifndef SEAMWRIGHT_FOLDER_MARKER_H
#define SEAMWRIGHT_FOLDER_MARKER_H

#include <dirent.h>

#include "files.h"

#define FOLDER_MARKER ".seamwright-files"

/* ensures: the marker's text: the files' names, one a line. */
const char *marker_text(struct arena *arena, const struct output_file *files,
                        size_t count);

/* requires: `folder` is an open folder.
 * ensures: NULL where all that lies in it was written by this program; else
 * why it must stay, in words. */
const char *marker_objection(struct arena *arena, int folder);
/* The same in two steps, for who asks twice.
 * ensures: the entries, for closedir, or NULL and errno. */
DIR *marker_entries(int folder);
const char *marker_objection_in(struct arena *arena, int folder, DIR *entries);

/* requires: marker_objection has none. Deletes what the marker lists, and the
 * marker. */
void marker_delete_files(struct arena *arena, int folder);

#endif
