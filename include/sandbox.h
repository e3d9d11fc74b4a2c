/* owner: base
 *
 * What the process may still reach of the file system once it knows what it
 * needs. A pattern comes from anyone; should a fault of ours or of a library
 * let it steer the program, no file elsewhere can be read or changed.
 */
#ifndef SEAMWRIGHT_SANDBOX_H
#define SEAMWRIGHT_SANDBOX_H

#include <stdbool.h>
#include <stddef.h>

/* A file, or a folder and all below it; a link means what it leads to. One that
 * is not there is passed over: who needs it will say so. */
struct sandbox_path {
    const char *path;
    bool writable; /* a folder in which files are made and replaced; else it can
                      only be read */
};

/* From here on, and for all children, nothing but the paths can be opened (what
 * is open stays so), nothing can be executed, and no connection be made, as far
 * as the kernel can refuse it (Landlock, Linux 5.13 and later).
 *
 * ensures: true where the kernel holds to it; false where it cannot, or not
 * for this process, with everything as it was. Cannot be taken back. */
bool sandbox_enter(const struct sandbox_path *paths, size_t count);

#endif
