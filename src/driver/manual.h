/* The manual: pages of plain Markdown below templates/manual/, and where in
 * them each element and attribute is told. */
#ifndef SEAMWRIGHT_MANUAL_H
#define SEAMWRIGHT_MANUAL_H

#include <stdbool.h>

#include "arena.h"

struct manual_page {
    const char *name;    /* as `explain` takes it */
    const char *summary; /* one line, without a full stop */
    const char *part;    /* the heading of contents.md above it */
    const char *text;    /* NULL where there is no such file */
};

/* A section `## Element ...`, or an attribute in it. */
struct manual_entry {
    size_t page;
    const char *heading; /* of its section: "Element `patch`" */
    const char *name;    /* "patch", "width"; "" for what every piece has */
    bool attribute;
    const char *text; /* as it stands in the page, with its line ends */
};

struct manual {
    LIST(struct manual_page) pages; /* as contents.md lists them */
    LIST(struct manual_entry) entries;
};

/* ensures: all pages that contents.md lists, read to their ends. */
const struct manual *read_manual(struct arena *arena);

#endif
