/* The photo of the cover, and the logo of both covers: what their files must
 * be. Read next: photo_file.c. */
#include "named_file.h"
#include "resolver.h"

/* 20 MB, as the manual tells it. */
enum { PHOTO_LIMIT_BYTES = 20 * 1000 * 1000 };

static const struct file_kind PHOTO = {
    ATTR_PHOTO,
    DIAG_PHOTO,
    "photo",
    "a PNG or JPEG file",
    PHOTO_LIMIT_BYTES,
    "is larger than 20 MB",
    "a photo of 2000 pixels each way prints well",
    "source"};

static const struct file_kind LOGO = {
    ATTR_LOGO,
    DIAG_PHOTO,
    "logo",
    "a PNG or JPEG file",
    PHOTO_LIMIT_BYTES,
    "is larger than 20 MB",
    "a logo of 1000 pixels each way prints well",
    "source"};

/* The bytes stay in the arena until the booklets are written: pages take them
 * as they are. A photo with a mistake is an error, and no page is made. */
static const struct photo *resolve_picture_file(struct run *run,
                                                const struct element *about,
                                                const struct file_kind *kind)
{
    const struct value *value = value_of(about, kind->attribute);
    const struct file_content *file =
        value == NULL ? NULL : read_named_file(run, kind, value);
    if (file == NULL)
        return NULL;
    struct photo *photo = ARENA_NEW(run->arena, struct photo);
    const char *problem = photo_of_bytes(file->bytes, file->length, photo);
    if (problem == NULL)
        return photo;
    refuse_file(run, kind, value, problem,
                arena_printf(run->arena, "save the %s anew as PNG or JPEG",
                             kind->thing));
    return NULL;
}

const struct photo *resolve_photo(struct run *run, const struct element *about)
{
    return resolve_picture_file(run, about, &PHOTO);
}

const struct photo *resolve_logo(struct run *run, const struct element *about)
{
    return resolve_picture_file(run, about, &LOGO);
}
