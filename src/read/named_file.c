/* From a name in the source to the bytes of a file below its folder. */
#include "named_file.h"

#include <string.h>

#include "buffer.h"

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

/* At the root. A backslash is a separator on some machines, and such a source
 * would mean another file there. */
static bool begins_elsewhere(const char *name)
{
    return name[0] == '/' || strchr(name, '\\') != NULL;
}

static bool leads_up(const char *name)
{
    for (const char *part = name; part != NULL;) {
        const size_t length = strcspn(part, "/");
        if (length == 2 && memcmp(part, "..", 2) == 0)
            return true;
        part = part[length] == '/' ? part + length + 1 : NULL;
    }
    return false;
}

static void refuse_outside(struct run *run, const struct file_kind *kind,
                           const struct value *value)
{
    refuse_file(run, kind, value, "leads out of the folder of this source",
                arena_printf(run->arena,
                             "put the %s beside the source and give its name "
                             "alone",
                             kind->thing));
}

/* Standard input and a source without a folder: the current one. From the
 * source and not from where the program runs: a pattern must build to the same
 * booklet from any folder. */
static const char *source_folder(struct run *run)
{
    const size_t length = source_folder_length(run->source);
    return length == 0 ? "."
                       : arena_copy(run->arena, run->source->name, length);
}

const struct file_content *read_file_at(struct run *run,
                                        const struct file_kind *kind,
                                        const struct value *value,
                                        const char *path)
{
    struct arena *arena = run->arena;
    struct file_content *file = ARENA_NEW(arena, struct file_content);
    *file = file_read_below(arena, source_folder(run), path, kind->most_bytes);
    switch (file->fault) {
    case FILE_OK:
        return file;
    case FILE_UNREADABLE:
        refuse_file(
            run, kind, value,
            arena_printf(arena, "cannot be read: %s", file->system_error),
            arena_printf(arena, "the name counts from the folder of this %s",
                         kind->from));
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
    if (!begins_elsewhere(value->text) && !leads_up(value->text))
        return read_file_at(run, kind, value, value->text);
    refuse_outside(run, kind, value);
    return NULL;
}

/* Takes the last part of a path away. ensures: false where there is none. */
static bool go_up(struct buffer *path)
{
    if (path->length == 0)
        return false;
    path->length--; /* the slash behind it */
    while (path->length > 0 && path->bytes[path->length - 1] != '/')
        path->length--;
    return true;
}

/* Goes down a path part by part. ensures: false where it leads out. */
static bool follow(struct buffer *path, const char *name)
{
    while (*name != '\0') {
        const size_t length = strcspn(name, "/");
        const bool here = length == 0 || (length == 1 && name[0] == '.');
        if (length == 2 && memcmp(name, "..", 2) == 0) {
            if (!go_up(path))
                return false;
        } else if (!here) {
            buffer_add(path, name, length);
            buffer_char(path, '/');
        }
        name += length;
        name += *name == '/';
    }
    return true;
}

/* Links are not followed, so that the words of the path tell where it leads. */
const char *named_path(struct run *run, const struct file_kind *kind,
                       const struct value *value, const char *folder)
{
    struct buffer path = buffer_in(run->arena);
    if (begins_elsewhere(value->text) || !follow(&path, folder) ||
        !follow(&path, value->text)) {
        refuse_outside(run, kind, value);
        return NULL;
    }
    if (path.length == 0)
        return ".";
    /* A name that ends in a slash is one of a folder. */
    if (value->text[strlen(value->text) - 1] != '/')
        path.length--;
    return arena_copy(run->arena, path.bytes, path.length);
}
