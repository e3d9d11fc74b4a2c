/* A name that is not there must not make an empty folder, so names are asked
 * before anything is made. */
#include "selection.h"

#include <stdio.h>
#include <string.h>

#include "diag.h"

/* reports: on standard error, with all names and those that are near;
 * this is usage, not a diagnostic of the source. */
static bool known_name(struct arena *arena, const char *wanted,
                       const char *option, const char *const *names,
                       size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (wanted == NULL || strcmp(wanted, names[i]) == 0)
            return true;
    complain("seamwright: %s: there is no %s; there is", option,
             quoted(arena, wanted));
    for (size_t i = 0; i < count; i++)
        complain("%s %s", i == 0 ? "" : ",", quoted(arena, names[i]));
    complain("\n");
    const char *near = near_names(arena, wanted, names, count);
    if (near != NULL)
        complain("help: did you mean %s?\n", near);
    return false;
}

/* ensures: names that exist; a NULL chooses all. Both are looked up in what was
 * sewn, not in the source. */
bool select_outputs(const struct compiled *compiled,
                    const struct options *options, struct selection *selection)
{
    struct arena *arena = compiled->run->arena;
    const struct sewn *sewn = compiled->sewn;
    const struct design *design = compiled->design;
    const char **quilts = ARENA_ARRAY(arena, const char *, sewn->quilts.count);
    const char **colorways =
        ARENA_ARRAY(arena, const char *, design->colorways.count);
    for (size_t i = 0; i < sewn->quilts.count; i++)
        quilts[i] = sewn->quilts.items[i].definition->id;
    for (size_t i = 0; i < design->colorways.count; i++)
        colorways[i] = design->colorways.items[i].id;
    *selection = (struct selection){options->quilt, options->colorway};
    return known_name(arena, options->quilt, "--quilt", quilts,
                      sewn->quilts.count) &&
           known_name(arena, options->colorway, "--colorway", colorways,
                      design->colorways.count);
}

bool paper_is_a4(const struct compiled *compiled, const struct options *options)
{
    return options->paper_chosen          ? options->paper == PAPER_A4
           : compiled->design->paper >= 0 ? compiled->design->paper == 1
                                          : compiled->pattern->units == UNIT_CM;
}

/* The source's name without folder and ending. Beside nothing: in the folder
 * where the program runs. A name without an ending gets one more word, or the
 * folder would take the file's own name. */
static const char *default_folder(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    const char *dot = strrchr(name, '.');
    if (strcmp(path, "-") == 0)
        return "pattern";
    if (dot == NULL || dot == name)
        return arena_printf(arena, "%s-booklet", name);
    return arena_copy(arena, name, (size_t)(dot - name));
}

const char *output_folder(struct arena *arena, const struct options *options)
{
    if (options->folder != NULL)
        return options->folder;
    const char *folder = default_folder(arena, options->files[0]);
    return strcmp(options->command, "proof") == 0
               ? arena_printf(arena, "%s-proof", folder)
               : folder;
}
