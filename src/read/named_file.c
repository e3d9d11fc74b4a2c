/* From a name in the source to the bytes of a file below its folder. */
#include "named_file.h"

#include <string.h>

struct diagnostic *refuse_file(struct run *run, const struct file_kind *kind,
                               const struct value *value, const char *problem,
                               const char *help)
{
    struct diagnostic *d =
        diag_report(run, kind->code, value->span, "%s=%s %s",
                    attribute_name(kind->attribute),
                    quoted(run->arena, value->text), problem);
    diag_help(run, d, "%s", help);
    return d;
}

/* A name that leads up, or begins at the root. A backslash is a separator on
 * some machines, and such a source would mean another file there. */
static bool leaves_folder(const char *name)
{
    if (name[0] == '/' || strchr(name, '\\') != NULL)
        return true;
    for (const char *part = name; part != NULL;) {
        const size_t length = strcspn(part, "/");
        if (length == 2 && memcmp(part, "..", 2) == 0)
            return true;
        part = part[length] == '/' ? part + length + 1 : NULL;
    }
    return false;
}

/* Standard input and a source without a folder: the current one. From the
 * source and not from where the program runs: a pattern must build to the same
 * booklet from any folder. */
static const char *source_folder(struct run *run)
{
    const char *slash = strrchr(run->source->name, '/');
    return slash == NULL ? "."
                         : arena_copy(run->arena, run->source->name,
                                      (size_t)(slash + 1 - run->source->name));
}

/* ensures: the content, or NULL. reports: a file that cannot be read. */
static const struct file_content *read_below(struct run *run,
                                             const struct file_kind *kind,
                                             const struct value *value)
{
    struct arena *arena = run->arena;
    struct file_content *file = ARENA_NEW(arena, struct file_content);
    *file = file_read_below(arena, source_folder(run), value->text,
                            kind->most_bytes);
    switch (file->fault) {
    case FILE_OK:
        return file;
    case FILE_UNREADABLE:
        refuse_file(
            run, kind, value,
            arena_printf(arena, "cannot be read: %s", file->system_error),
            "the name counts from the folder of this source");
        break;
    case FILE_NOT_REGULAR:
        refuse_file(run, kind, value, "is not a file",
                    arena_printf(arena, "name %s", kind->kinds));
        break;
    case FILE_THROUGH_LINK:
        refuse_file(
            run, kind, value, "is a symbolic link, or lies in one",
            arena_printf(arena,
                         "put the %s itself below the folder of this source",
                         kind->thing));
        break;
    case FILE_TOO_LARGE:
        refuse_file(run, kind, value, kind->too_large, kind->smaller);
        break;
    }
    return NULL;
}

const struct file_content *read_named_file(struct run *run,
                                           const struct file_kind *kind,
                                           const struct value *value)
{
    if (!leaves_folder(value->text))
        return read_below(run, kind, value);
    refuse_file(run, kind, value, "leads out of the folder of this source",
                arena_printf(run->arena,
                             "put the %s beside the source and give its name "
                             "alone",
                             kind->thing));
    return NULL;
}
