/* owner: base
 *
 * The files below templates/, which lie inside the program: it needs no
 * installed data to run.
 */
#ifndef SEAMWRIGHT_TEMPLATES_H
#define SEAMWRIGHT_TEMPLATES_H

#include <stddef.h>

struct template_file {
    const char *name; /* below templates/, as "fonts/NAME.ttf" */
    const unsigned char *bytes;
    size_t length;
};

/* ensures: the file of that name, or NULL. */
const struct template_file *template_find(const char *name);

/* All of them, sorted by name. */
const struct template_file *template_all(size_t *count);

#endif
