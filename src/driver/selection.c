/* A name that is not there must not make an empty folder, so names are asked
 * before anything is made. */
#include "selection.h"

#include <stdio.h>
#include <string.h>

/* reports: on standard error, with all names that there are; this is usage, not
 * a diagnostic of the source. */
static bool known_name(const char *wanted, const char *option,
                       const char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (wanted == NULL || strcmp(wanted, names[i]) == 0)
            return true;
    complain("seamwright: %s: there is no `%s`; there is", option, wanted);
    for (size_t i = 0; i < count; i++)
        complain("%s `%s`", i == 0 ? "" : ",", names[i]);
    complain("\n");
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
    return known_name(options->quilt, "--quilt", quilts, sewn->quilts.count) &&
           known_name(options->colorway, "--colorway", colorways,
                      design->colorways.count);
}

bool paper_is_a4(const struct compiled *compiled, const struct options *options)
{
    return options->paper_chosen ? options->paper == PAPER_A4
                                 : compiled->pattern->units == UNIT_CM;
}
