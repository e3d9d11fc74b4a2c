/* owner: read
 *
 * A file that an attribute of the source names.
 */
#ifndef SEAMWRIGHT_NAMED_FILE_H
#define SEAMWRIGHT_NAMED_FILE_H

#include "files.h"
#include "pattern.h"

/* What is asked for in an attribute. */
struct file_kind {
    enum attribute_id attribute;
    enum diag_code code;
    const char *thing; /* "photo" */
    const char *kinds; /* "a PNG or JPEG file" */
    size_t most_bytes;
    const char *too_large, *smaller; /* what is wrong, and what helps */
    const char *from; /* the file in whose folder its name begins */
};

/* Looked for below the source's folder only, so that a pattern from somewhere
 * else cannot put any file of a machine into a booklet.
 * ensures: the content, or NULL. reports: a name that leads out of the folder,
 *   a file that cannot be read or is too large. */
const struct file_content *read_named_file(struct run *run,
                                           const struct file_kind *kind,
                                           const struct value *value);

/* The file at a path from the folder of the source, as named_path gives it.
 * ensures, reports: as above. */
const struct file_content *read_file_at(struct run *run,
                                        const struct file_kind *kind,
                                        const struct value *value,
                                        const char *path);

/* The path, from the folder of the source, of a name that counts from `folder`
 * below it ("" for the folder of the source, else with a slash at its end).
 * ensures: without "." and ".."; or NULL. reports: a name that leads out. */
const char *named_path(struct run *run, const struct file_kind *kind,
                       const struct value *value, const char *folder);

/* reports: what is wrong with the file, and what mends it. ensures: the
 * message. */
struct diagnostic *refuse_file(struct run *run, const struct file_kind *kind,
                               const struct value *value, const char *problem,
                               const char *help);

#endif
