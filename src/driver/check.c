/* seamwright check: every diagnostic, nothing written. */
#include "driver.h"
#include "kitting.h"
#include "rational.h"

/* An order is planned to its end, since only that tells what a shelf lacks. */
static struct compiled check_any(struct arena *arena, const char *path)
{
    struct compiled compiled = {.status = STATUS_CLEAN};
    if (!read_source(arena, path, &compiled))
        return compiled;
    if (!is_order(compiled.run->source))
        return check_source(arena, compiled.run->source);
    plan_order(compiled.run, NULL);
    return compiled;
}

/* In memory of its own, which goes with it: a folder may hold many files. */
static int check_one(const char *path, const struct options *options)
{
    struct arena *arena = arena_create();
    const struct compiled compiled = check_any(arena, path);
    const int status = compiled.status == STATUS_CLEAN
                           ? finish_diagnostics(&compiled, options, false)
                           : compiled.status;
    arena_destroy(arena);
    rational_forget();
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
