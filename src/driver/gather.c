/* seamwright proof --gather: what testers found, from the tables that they
 * filled in. Nothing is written but what is printed. Read next:
 * proof/gather.c. */
#include <string.h>

#include "driver.h"
#include "files.h"
#include "gather.h"
#include "render.h"

/* Offsets are 28 bits wide (source.h). */
enum { MOST_BYTES = (1 << 28) - 1 };

/* ensures: the bytes of a table; or false, a status and a message. */
static bool read_table(struct arena *arena, const char *path,
                       struct file_content *file, int *status)
{
    *file = file_read(arena, path);
    if (file->fault == FILE_OK)
        return true;
    complain("seamwright: %s: cannot read: %s\n", path,
             file->fault == FILE_UNREADABLE ? file->system_error
             : file->fault == FILE_TOO_LARGE
                 ? "a table of claims has at most 16 MiB"
                 : "not a table of claims");
    *status = file->fault == FILE_TOO_LARGE ? STATUS_LIMIT : STATUS_FILES;
    return false;
}

/* All tables are one source, so that a message about one may point into
 * another. */
static bool read_tables(struct arena *arena, const struct options *options,
                        struct compiled *compiled)
{
    const struct source *source = NULL;
    for (int i = 0; i < options->file_count; i++) {
        struct file_content file;
        const char *path = options->files[i];
        if (!read_table(arena, path, &file, &compiled->status))
            return false;
        const size_t before = source == NULL ? 0 : source->length + 1;
        if (file.length + before > MOST_BYTES) {
            complain("seamwright: %s: cannot read: all tables together have "
                     "at most 256 MiB\n",
                     path);
            compiled->status = STATUS_LIMIT;
            return false;
        }
        source = source == NULL
                     ? source_create(arena, path, file.bytes, file.length)
                     : source_with(arena, source, path, file.bytes,
                                   file.length);
    }
    compiled->run = run_create(arena, source);
    return true;
}

/* Standard input is read once. */
static bool files_hold(const struct options *options)
{
    int streams = 0;
    for (int i = 0; i < options->file_count; i++)
        streams += strcmp(options->files[i], "-") == 0;
    if (streams > 1)
        complain("seamwright: only one of the tables may be standard input\n"
                 "Try 'seamwright proof --help'.\n");
    return streams <= 1;
}

/* Tables are mended one by one, by those who filled them in: each has a closing
 * line of its own. */
static int finish_tables(const struct run *run, const struct options *options)
{
    const struct diag_style style = {options->color, options->diagnostics_json};
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    diag_print(run, style, stderr);
    for (size_t p = 0; !style.json && p < run->source->parts.count; p++) {
        const struct source_part *part = &run->source->parts.items[p];
        size_t counts[2] = {0, 0};
        for (size_t i = 0; i < count; i++) {
            const enum diag_level level = diag_entry(sorted[i]->code)->level;
            if (source_part(run->source, sorted[i]->span.start) != part)
                continue;
            counts[0] += level == DIAG_ERROR;
            counts[1] += level == DIAG_WARNING;
        }
        print_closing(part->name, counts[0], counts[1], "");
    }
    return diag_count(run, DIAG_ERROR) > 0 ? STATUS_MISTAKES : STATUS_CLEAN;
}

/* Warnings are told and do not stop the sum, as in a build. */
int command_gather(struct arena *arena, const struct options *options)
{
    struct compiled compiled = {.status = STATUS_CLEAN};
    if (!files_hold(options))
        return STATUS_USAGE;
    if (!read_tables(arena, options, &compiled))
        return compiled.status;
    const struct gathered *all = gather_claims(compiled.run);
    const int status = finish_tables(compiled.run, options);
    if (status != STATUS_CLEAN)
        return status;
    return write_text(options->json ? render_gathered_json(arena, all)
                                    : render_gathered(arena, all));
}
