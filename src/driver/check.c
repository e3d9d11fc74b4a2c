/* seamwright check: every diagnostic, nothing written. */
#include "driver.h"

/* Several files, so that a folder can be checked at once; the worst status
 * wins. */
int command_check(struct arena *arena, const struct options *options)
{
    int worst = STATUS_CLEAN;
    for (int i = 0; i < options->file_count; i++) {
        const struct compiled compiled = compile_file(arena, options->files[i]);
        int status = compiled.status;
        if (status == STATUS_CLEAN)
            status = finish_diagnostics(&compiled, options, false);
        worst = status > worst ? status : worst;
    }
    return worst;
}
