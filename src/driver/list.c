/* seamwright list: the solved pattern as tables or JSON. */
#include <stdio.h>
#include <string.h>

#include "driver.h"
#include "selection.h"

/* Same passes as build, nothing written. */
int command_list(struct arena *arena, const struct options *options)
{
    const struct compiled compiled = compile_file(arena, options->files[0]);
    if (compiled.status != STATUS_CLEAN)
        return compiled.status;
    const int status = finish_diagnostics(&compiled, options, false);
    if (status != STATUS_CLEAN)
        return status;
    struct selection selection;
    if (!select_outputs(&compiled, options, &selection))
        return STATUS_USAGE;
    const char *text =
        options->json ? render_json(compiled.run, compiled.plans, &selection)
        : options->cutting  ? render_cutting(arena, compiled.plans, &selection)
        : options->least    ? render_least(arena, compiled.plans, &selection)
        : options->quilting ? render_quilting(arena, compiled.plans, &selection)
                            : render_tables(arena, compiled.plans, &selection);
    return write_text(text);
}
