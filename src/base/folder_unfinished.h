/* What builds leave beside their target where they are killed. */
#ifndef SEAMWRIGHT_FOLDER_UNFINISHED_H
#define SEAMWRIGHT_FOLDER_UNFINISHED_H

#include "arena.h"

/* What the name of the folder that a build fills begins with. */
#define UNFINISHED_NAME ".seamwright-new-"

/* Tells others, as long as the folder is open here, that it is being filled. */
void unfinished_hold(int folder);

/* Removes from `parent`, an open folder, the unfinished folders of processes
 * that are gone, and only those. What cannot be removed is left: nobody is
 * harmed by it. */
void unfinished_remove(struct arena *arena, int parent);

#endif
