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
};

/* Looked for below the source's folder only, so that a pattern from somewhere
 * else cannot put any file of a machine into a booklet.
 * ensures: the content, or NULL. reports: a name that leads out of the folder,
 *   a file that cannot be read or is too large. */
const struct file_content *read_named_file(struct run *run,
                                           const struct file_kind *kind,
                                           const struct value *value);

/* reports: what is wrong with the file, and what mends it. ensures: the
 * message. */
struct diagnostic *refuse_file(struct run *run, const struct file_kind *kind,
                               const struct value *value, const char *problem,
                               const char *help);

#endif
