/* A source in memory, taken through all stages without a word: most edits of a
 * sample are refused, and that is no failure. */
#ifndef SEAMWRIGHT_TESTS_COMPILED_H
#define SEAMWRIGHT_TESTS_COMPILED_H

#include <string.h>

#include "../unit.h"
#include "compare.h"
#include "files.h"
#include "render.h"

struct compiled {
    struct run *run;
    const struct pattern *pattern;
    const struct design *design;
    const struct cutplans *plans; /* NULL where there are errors */
};

static inline bool fails(const struct compiled *c)
{
    return diag_count(c->run, DIAG_ERROR) > 0;
}

static inline struct compiled compile_text(struct arena *arena,
                                           const char *text)
{
    struct compiled c = {.run = run_create(
                             arena, source_create(arena, "test.xml", text,
                                                  strlen(text)))};
    c.pattern = read_pattern(c.run);
    if (c.pattern == NULL)
        return c;
    c.design = resolve_pattern(c.run, c.pattern);
    const struct sized *sized = solve_design(c.run, c.design);
    check_pictures(c.run, sized);
    if (fails(&c))
        return c;
    const struct sewn *sewn = sew_design(c.run, sized);
    if (fails(&c))
        return c;
    const struct quilted *quilted = plan_quilting(c.run, sewn);
    if (fails(&c))
        return c;
    struct cutplans *plans = plan_cutting(c.run, sewn);
    if (fails(&c))
        return c;
    note_quilting(plans, quilted);
    c.plans = plans;
    return c;
}

/* As `compare` takes them from a source. */
static inline const struct revision *facts_of(struct arena *arena,
                                              const struct compiled *c)
{
    static const struct selection everything = {NULL, NULL};
    const char *problem = NULL;
    const char *json = render_json(c->run, c->plans, &everything);
    const struct revision *revision =
        read_revision(arena, json, strlen(json), &problem);
    if (revision == NULL)
        fail_msg("%s", problem);
    return revision;
}

#endif
