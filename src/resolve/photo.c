/* The photo of the cover: from a name in the source to the bytes of a file. It
 * is looked for below the source's folder only, so that a pattern from
 * somewhere else cannot put any file of a machine into a booklet. Read next:
 * photo_file.c. */
#include <string.h>

#include "files.h"
#include "resolver.h"

/* 20 MB, as the manual tells it. */
enum { PHOTO_LIMIT_BYTES = 20 * 1000 * 1000 };

/* reports: what is wrong with the photo, and what mends it. */
static void refuse(struct run *run, const struct value *value,
                   const char *problem, const char *help)
{
    struct diagnostic *d =
        diag_report(run, DIAG_PHOTO, value->span, "photo=%s %s",
                    quoted(run->arena, value->text), problem);
    diag_help(run, d, "%s", help);
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
static const struct file_content *read_photo(struct run *run,
                                             const struct value *value)
{
    struct file_content *file = ARENA_NEW(run->arena, struct file_content);
    *file = file_read_below(run->arena, source_folder(run), value->text,
                            PHOTO_LIMIT_BYTES);
    switch (file->fault) {
    case FILE_OK:
        return file;
    case FILE_UNREADABLE:
        refuse(
            run, value,
            arena_printf(run->arena, "cannot be read: %s", file->system_error),
            "the name counts from the folder of this source");
        break;
    case FILE_NOT_REGULAR:
        refuse(run, value, "is not a file", "name a PNG or JPEG file");
        break;
    case FILE_THROUGH_LINK:
        refuse(run, value, "is a symbolic link, or lies in one",
               "put the photo itself below the folder of this source");
        break;
    case FILE_TOO_LARGE:
        refuse(run, value, "is larger than 20 MB",
               "a photo of 2000 pixels each way prints well");
        break;
    }
    return NULL;
}

/* The bytes stay in the arena until the booklets are written: pages take them
 * as they are. A photo with a mistake is an error, and no page is made. */
const struct photo *resolve_photo(struct run *run, const struct element *about)
{
    const struct value *value = value_of(about, ATTR_PHOTO);
    if (value == NULL)
        return NULL;
    if (leaves_folder(value->text)) {
        refuse(run, value, "leads out of the folder of this source",
               "put the photo beside the source and give its name alone");
        return NULL;
    }
    const struct file_content *file = read_photo(run, value);
    if (file == NULL)
        return NULL;
    struct photo *photo = ARENA_NEW(run->arena, struct photo);
    const char *problem = photo_of_bytes(file->bytes, file->length, photo);
    if (problem == NULL)
        return photo;
    refuse(run, value, problem, "save the photo anew as PNG or JPEG");
    return NULL;
}
