/* The places of one run. The fonts and the manual lie in the program, so that
 * no library has a file to open; what a library asks for all the same (the zone
 * of the clock) it does without. */
#define _DEFAULT_SOURCE /* realpath */
#include "confine.h"

#include <stdlib.h>
#include <string.h>

#include "sandbox.h"
#include "selection.h"

typedef LIST(struct sandbox_path) path_list;

static void add_path(struct arena *arena, path_list *paths, const char *path,
                     bool writable)
{
    *LIST_ADD(arena, paths) = (struct sandbox_path){path, writable};
}

/* The folder that a path lies in. */
static const char *folder_of(struct arena *arena, const char *path)
{
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    while (length > 0 && path[length - 1] != '/')
        length--;
    return length == 0 ? "." : arena_copy(arena, path, length);
}

/* An output that is there is replaced where it lies and not where a link to it
 * does. */
static void add_output(struct arena *arena, path_list *paths, const char *path)
{
    char *real = realpath(path, NULL);
    add_path(arena, paths, folder_of(arena, real == NULL ? path : real), true);
    free(real);
}

/* What the tools that watch a run need: they read about the process, and call a
 * program that names its functions. */
static void add_watchers(struct arena *arena, path_list *paths)
{
#ifdef SEAMWRIGHT_CHECKED
    static const char *const places[] = {"/proc", "/usr", "/lib", "/etc"};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        add_path(arena, paths, places[i], false);
#else
    (void)arena;
    (void)paths;
#endif
}

bool confine(struct arena *arena, const struct options *options)
{
    path_list paths = {0};
    const bool reads = strcmp(options->command, "explain") != 0;
    const bool figure = strcmp(options->command, "figure") == 0;
    /* The word behind the file of `figure` is a name. */
    const int count = !reads ? 0 : figure ? 1 : options->file_count;
    for (int i = 0; i < count; i++) {
        const char *file = options->files[i];
        add_path(arena, &paths, folder_of(arena, file), false);
        if (strcmp(file, "-") != 0)
            add_path(arena, &paths, file, false);
    }
    const bool compare = strcmp(options->command, "compare") == 0;
    if ((figure || compare) && options->folder != NULL)
        add_output(arena, &paths, options->folder);
    else if (strcmp(options->command, "build") == 0 ||
             strcmp(options->command, "kit") == 0 ||
             (strcmp(options->command, "proof") == 0 && !options->gather))
        add_output(arena, &paths, output_folder(arena, options));
    add_watchers(arena, &paths);
    return sandbox_enter(paths.items, paths.count);
}
