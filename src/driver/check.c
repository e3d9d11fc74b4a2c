/* seamwright check: every diagnostic, nothing written. */
#include "driver.h"

/* In memory of its own, which goes with it: a folder may hold many files. */
static int check_one(const char *path, const struct options *options)
{
    struct arena *arena = arena_create();
    const struct compiled compiled = check_file(arena, path);
    const int status = compiled.status == STATUS_CLEAN
                           ? finish_diagnostics(&compiled, options, false)
                           : compiled.status;
    arena_destroy(arena);
    return status;
}

/* Several files, so that a folder can be checked at once; the worst status
 * wins. */
int command_check(struct arena *arena, const struct options *options)
{
    (void)arena;
    int worst = STATUS_CLEAN;
    for (int i = 0; i < options->file_count; i++) {
        const int status = check_one(options->files[i], options);
        worst = status > worst ? status : worst;
    }
    return worst;
}
