/* The compiler on one screen. Passes and gates, and nothing else. Read next:
 * read/read.c for the first pass. */
#include <stdio.h>

#include "driver.h"
#include "files.h"
#include "mend.h"
#include "quilting.h"

bool read_source(struct arena *arena, const char *path,
                 struct compiled *compiled)
{
    const struct file_content file = file_read(arena, path);
    const char *problem = NULL;
    compiled->status = STATUS_FILES;
    switch (file.fault) {
    case FILE_OK:
        compiled->status = STATUS_CLEAN;
        compiled->run = run_create(
            arena, source_create(arena, path, file.bytes, file.length));
        return true;
    case FILE_UNREADABLE:
        problem = file.system_error;
        break;
    case FILE_THROUGH_LINK: /* a source may be one */
    case FILE_NOT_REGULAR:
        problem = "not a regular file";
        break;
    case FILE_TOO_LARGE:
        problem = "larger than 16 MiB";
        compiled->status = STATUS_LIMIT;
        break;
    }
    complain("seamwright: %s: cannot read: %s\n", path, problem);
    return false;
}

/* Warnings and remarks never close a gate. */
static bool errors(const struct compiled *compiled)
{
    return diag_count(compiled->run, DIAG_ERROR) > 0;
}

/* ensures: all that was made before the first gate that closed. Comparing comes
 * before the gate, as a slip in one block should not hide a wrong picture of
 * another; so does counting, as it should not hide a wrong step. */
static struct compiled compile_passes(struct arena *arena,
                                      const struct source *source,
                                      bool only_check)
{
    struct compiled c = {.status = STATUS_CLEAN};
    c.run = run_create(arena, source);
    c.run->unseen = only_check;
    c.pattern = read_pattern(c.run);
    if (c.pattern == NULL)
        return c;
    c.design = resolve_pattern(c.run, c.pattern);
    c.sized = solve_design(c.run, c.design);
    check_pictures(c.run, c.sized);
    /* No cloth is sewn from sizes that may be wrong; steps are counted. */
    if (errors(&c)) {
        check_steps(c.run, c.sized);
        return c;
    }
    const struct sewn *sewn = sew_design(c.run, c.sized);
    if (errors(&c))
        return c;
    c.quilted = plan_quilting(c.run, sewn);
    if (errors(&c))
        return c;
    if (only_check) {
        check_cutting(c.run, sewn);
        return c;
    }
    struct cutplans *plans = plan_cutting(c.run, sewn);
    if (errors(&c))
        return c;
    note_quilting(plans, c.quilted);
    check_numbers(c.run, plans);
    /* Only now, so that no command can use a half-planned pattern. */
    c.sewn = sewn;
    c.plans = plans;
    return c;
}

/* Errors are told by their cause; what is offered as a mend was tried. */
static struct compiled run_passes(struct arena *arena,
                                  const struct source *source, bool only_check)
{
    struct compiled c = compile_passes(arena, source, only_check);
    /* What quilting lacks is told by its own figures: no cause is searched. */
    const bool of_quilting =
        c.quilted != NULL && c.plans == NULL && quilting_failed(c.quilted);
    if (errors(&c) && !of_quilting)
        c.trials = mend_mistakes(c.run, c.sized);
    return c;
}

struct compiled compile_source(struct arena *arena, const struct source *source)
{
    return run_passes(arena, source, false);
}

struct compiled check_source(struct arena *arena, const struct source *source)
{
    return run_passes(arena, source, true);
}

/* The file is read whole before anything is asked of it; spans point into its
 * bytes until the arena ends. */
static struct compiled run_file(struct arena *arena, const char *path,
                                bool only_check)
{
    struct compiled compiled = {.status = STATUS_CLEAN};
    if (!read_source(arena, path, &compiled))
        return compiled;
    return run_passes(arena, compiled.run->source, only_check);
}

struct compiled compile_file(struct arena *arena, const char *path)
{
    return run_file(arena, path, false);
}

struct compiled check_file(struct arena *arena, const char *path)
{
    return run_file(arena, path, true);
}

static const char *plural(size_t count)
{
    return count == 1 ? "" : "s";
}

void print_closing(const char *name, size_t mistakes, size_t warnings,
                   const char *after)
{
    if (mistakes + warnings > 0)
        complain("%s: %zu error%s, %zu warning%s%s\n", name, mistakes,
                 plural(mistakes), warnings, plural(warnings), after);
}

/* JSON has no closing line: it is for programs. */
int finish_diagnostics(const struct compiled *compiled,
                       const struct options *options, bool keeps_output)
{
    const struct diag_style style = {options->color, options->diagnostics_json};
    diag_print(compiled->run, style, stderr);
    const size_t mistakes = diag_count(compiled->run, DIAG_ERROR);
    const size_t warnings = diag_count(compiled->run, DIAG_WARNING);
    if (!style.json)
        print_closing(compiled->run->source->name, mistakes, warnings,
                      mistakes > 0 && keeps_output
                          ? "; nothing was written, the last output is kept"
                          : "");
    return mistakes > 0 ? STATUS_MISTAKES : STATUS_CLEAN;
}
