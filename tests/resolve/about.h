/* A pattern whose `about` names a file: a photo, a logo or a font. */
#ifndef SEAMWRIGHT_TESTS_ABOUT_H
#define SEAMWRIGHT_TESTS_ABOUT_H

#include <string.h>

#include "../unit.h"
#include "design.h"

/* The design of a source of that name, and the first message about it as JSON,
 * or "". */
static inline const struct design *
about_design(struct arena *arena, const char *source, const char *title,
             const char *attributes, const char **message)
{
    const char *text = arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"%s\">"
        "<about %s/><fabrics><fabric id=\"f\"/></fabrics>"
        "<colorway id=\"c\"><cloth fabric=\"f\" color=\"#88aabb\"/></colorway>"
        "<quilt id=\"q\"><patch fabric=\"f\" width=\"4\" height=\"6\"/></quilt>"
        "</pattern>",
        title, attributes);
    struct run *run =
        run_create(arena, source_create(arena, source, text, strlen(text)));
    const struct pattern *pattern = read_pattern(run);
    assert_non_null(pattern);
    const struct design *design = resolve_pattern(run, pattern);
    const struct diagnostic **sorted;
    *message = diag_sorted(run, &sorted) == 0 ? "" : diag_json(run, sorted[0]);
    return design;
}

#endif
