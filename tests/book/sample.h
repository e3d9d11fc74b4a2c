/* A sample, or a source of a test, taken through all stages to its cutting
 * plans; and breaches, which are told one by one before a test fails. The
 * functions are inline because no test uses all of them. */
#ifndef SEAMWRIGHT_TESTS_SAMPLE_H
#define SEAMWRIGHT_TESTS_SAMPLE_H

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "../unit.h"
#include "cutplan.h"
#include "files.h"

static const char *const SAMPLES[] = {"samples/lantern-walk.xml",
                                      "samples/turning-lamp.xml",
                                      "samples/vane-harbor.xml"};
enum { SAMPLE_COUNT = 3 };

struct sample {
    const char *name;
    struct run *run;
    const struct design *design;
    const struct sewn *sewn;
    const struct cutplans *plans;
};

static inline struct sample sample_compile(struct arena *arena,
                                           const char *name, const char *text,
                                           size_t length)
{
    struct sample sample = {.name = name};
    sample.run = run_create(arena, source_create(arena, name, text, length));
    const struct pattern *pattern = read_pattern(sample.run);
    assert_non_null(pattern);
    sample.design = resolve_pattern(sample.run, pattern);
    const struct sized *sized = solve_design(sample.run, sample.design);
    check_pictures(sample.run, sized);
    if (diag_count(sample.run, DIAG_ERROR) == 0)
        sample.sewn = sew_design(sample.run, sized);
    const struct quilted *quilted = NULL;
    if (diag_count(sample.run, DIAG_ERROR) == 0)
        quilted = plan_quilting(sample.run, sample.sewn);
    if (diag_count(sample.run, DIAG_ERROR) == 0) {
        struct cutplans *plans = plan_cutting(sample.run, sample.sewn);
        note_quilting(plans, quilted);
        sample.plans = plans;
    }
    if (diag_count(sample.run, DIAG_ERROR) > 0) {
        diag_print(sample.run, (struct diag_style){false, false}, stderr);
        fail_msg("%s is not clean", name);
    }
    return sample;
}

static inline struct sample sample_text(struct arena *arena, const char *text)
{
    return sample_compile(arena, "test.xml", text, strlen(text));
}

/* Compiled anew. */
static inline struct sample sample_fresh(struct arena *arena, const char *path)
{
    const struct file_content file = file_read(arena, path);
    assert_int_equal(file.fault, FILE_OK);
    return sample_compile(arena, path, file.bytes, file.length);
}

/* Compiled once in a program, as this is most of the time of many tests; it
 * stays until the program ends. */
static inline struct sample sample_file(const char *path)
{
    static struct arena *arena;
    static struct sample kept[SAMPLE_COUNT];
    size_t i = 0;
    while (strcmp(path, SAMPLES[i]) != 0)
        assert_true(++i < SAMPLE_COUNT);
    if (arena == NULL)
        arena = arena_create();
    if (kept[i].name == NULL)
        kept[i] = sample_fresh(arena, path);
    return kept[i];
}

/* ---- breaches ---- */

struct breaches {
    const char *where; /* told in front of each; NULL: they are only counted */
    int count;
    int told; /* of this place */
};

__attribute__((format(printf, 2, 3))) static inline void
breach(struct breaches *breaches, const char *format, ...)
{
    enum { TOLD = 4 };
    breaches->count++;
    if (breaches->where == NULL || breaches->told++ >= TOLD)
        return;
    va_list arguments;
    va_start(arguments, format);
    fprintf(stderr, "# %s: ", breaches->where);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
    va_end(arguments);
}

static inline void assert_kept(const struct breaches *breaches)
{
    if (breaches->count > 0)
        fail_msg("%d breaches, told above", breaches->count);
}

#endif
