/* hostile [--seed N] [--each N] [--only KIND] [--keep FOLDER] PROGRAM WORK
 * SAMPLE...: makes hostile files of each kind from the samples and runs the
 * program on them. Prints `ok` or `not ok` for each kind; a file that breaks
 * the program is kept. Read next: harmed.c, invented.c, several.c, orders.c,
 * data.c, judge.c. */
#define _GNU_SOURCE
#include <getopt.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "driver.h"
#include "files.h"
#include "hostile.h"
#include "render.h"

/* At least 2,000 files in all. */
enum { EACH = 84, TOLD = 5, DATA_MOST = 3 };

struct request {
    uint64_t seed;
    size_t each;
    const char *only; /* one kind, or NULL */
    const char *keep; /* where to keep what breaks it */
    char program[PATH_MAX];
    const char *work;
    char **samples;
    size_t sample_count;
};

/* What hostile files are made from, each a text. */
struct texts {
    const char *const *samples;
    const char *data[DATA_MOST];
    size_t data_count;
};

/* The name of the kind counts as well, so that a new kind changes no other. */
static uint64_t seed_of(const struct request *options, const char *kind,
                        size_t number)
{
    uint64_t hash = options->seed * 1000003 + number;
    for (const char *c = kind; *c != '\0'; c++)
        hash = (hash ^ (unsigned char)*c) * UINT64_C(1099511628211);
    hash ^= hash >> 29;
    return hash == 0 ? 1 : hash;
}

static struct buffer make_file(struct arena *arena, const struct kind *kind,
                               const struct request *options, size_t number,
                               const struct texts *texts)
{
    struct making making = {.arena = arena,
                            .random = {seed_of(options, kind->name, number)},
                            .samples = texts->samples,
                            .sample_count = options->sample_count,
                            .data = texts->data,
                            .data_count = texts->data_count};
    struct buffer file = buffer_in(arena);
    for (int i = 0; i < 8; i++)
        unit_next(&making.random);
    kind->make(&making, &file);
    buffer_string(&file);
    return file;
}

static void keep_file(struct arena *arena, const struct request *options,
                      const char *name, const struct buffer *file)
{
    const char *path = arena_printf(arena, "%s/%s", options->keep, name);
    FILE *out = fopen(path, "w");
    if (out == NULL)
        return;
    fwrite(file->bytes, 1, file->length, out);
    fclose(out);
    printf("#   kept as %s, %zu bytes\n", path, file->length);
}

/* ensures: true where all files of the kind were survived. */
static bool run_kind(const struct kind *kind, const struct request *options,
                     const struct texts *texts)
{
    size_t broken = 0, clean = 0;
    for (size_t i = 0; i < options->each; i++) {
        struct arena *arena = arena_create();
        const struct buffer file = make_file(arena, kind, options, i, texts);
        const struct verdict verdict =
            judge(arena, options->program, options->work, &file, kind->file);
        clean += verdict.clean;
        if (verdict.problem != NULL && broken++ < TOLD) {
            const char *name = arena_printf(arena, "%s-%zu", kind->name, i);
            printf("# %s: %s\n", name, verdict.problem);
            keep_file(arena, options, name, &file);
        }
        arena_destroy(arena);
    }
    printf("%s hostile: %s: %zu files, %zu clean, %zu broke it\n",
           broken == 0 ? "ok" : "not ok", kind->name, options->each, clean,
           broken);
    fflush(stdout);
    return broken == 0;
}

static bool is_wanted(const struct request *options, const struct kind *kind)
{
    return options->only == NULL || strcmp(options->only, kind->name) == 0;
}

/* What a build tells of the pattern for orders, and of the first samples. They
 * are made by this program itself, which is no part of what is judged. */
static void make_data(struct arena *arena, const struct request *options,
                      struct texts *texts)
{
    static const struct selection all = {NULL, NULL};
    while (texts->data_count < DATA_MOST &&
           texts->data_count <= options->sample_count) {
        const size_t i = texts->data_count;
        const char *text = i == 0 ? order_pattern : texts->samples[i - 1];
        const struct compiled compiled = compile_source(
            arena, source_create(arena, "x.xml", text, strlen(text)));
        if (compiled.plans == NULL)
            return;
        texts->data[texts->data_count++] =
            render_json(compiled.run, compiled.plans, &all);
    }
}

/* Data are made where some kind wants them. */
static bool run_kinds(struct arena *arena, const struct kind *kinds,
                      size_t count, const struct request *options,
                      struct texts *texts)
{
    bool survived = true;
    for (size_t i = 0; i < count; i++) {
        if (!is_wanted(options, &kinds[i]))
            continue;
        if (kinds[i].file == HOSTILE_DATA && texts->data_count == 0)
            make_data(arena, options, texts);
        survived &= run_kind(&kinds[i], options, texts);
    }
    return survived;
}

static bool read_words(int count, char **words, struct request *options)
{
    static const struct option names[] = {{"seed", 1, NULL, 's'},
                                          {"each", 1, NULL, 'e'},
                                          {"only", 1, NULL, 'o'},
                                          {"keep", 1, NULL, 'k'},
                                          {NULL, 0, NULL, 0}};
    *options = (struct request){.seed = 1, .each = EACH};
    int code;
    while ((code = getopt_long(count, words, "", names, NULL)) != -1) {
        if (code == 's')
            options->seed = strtoull(optarg, NULL, 10);
        else if (code == 'e')
            options->each = strtoul(optarg, NULL, 10);
        else if (code == 'o')
            options->only = optarg;
        else if (code == 'k')
            options->keep = optarg;
        else
            return false;
    }
    if (count - optind < 3)
        return false;
    options->work = words[optind + 1];
    options->samples = words + optind + 2;
    options->sample_count = (size_t)(count - optind - 2);
    if (options->keep == NULL)
        options->keep = options->work;
    mkdir(options->work, 0700);
    mkdir(options->keep, 0700);
    return realpath(words[optind], options->program) != NULL;
}

int main(int count, char **words)
{
    struct request options;
    struct arena *arena = arena_create();
    if (!read_words(count, words, &options)) {
        fputs("hostile [OPTION]... PROGRAM WORK SAMPLE...\n", stderr);
        return 2;
    }
    const char **samples =
        ARENA_ARRAY(arena, const char *, options.sample_count);
    for (size_t i = 0; i < options.sample_count; i++) {
        const struct file_content file = file_read(arena, options.samples[i]);
        if (file.fault != FILE_OK)
            return 2;
        samples[i] = file.bytes;
    }
    struct texts texts = {.samples = samples};
    static const struct kind *(*const tables[])(size_t *count) = {
        harmed_kinds, invented_kinds, several_kinds, order_kinds, data_kinds};
    bool survived = true;
    for (size_t i = 0; i < UNIT_COUNT(tables); i++) {
        size_t kind_count;
        const struct kind *kinds = tables[i](&kind_count);
        survived &= run_kinds(arena, kinds, kind_count, &options, &texts);
    }
    arena_destroy(arena);
    return survived ? 0 : 1;
}
