/* owner: base
 *
 * A number for each name: open addressing, for names that a source may have
 * tens of thousands of. All zero is an empty table.
 */
#ifndef SEAMWRIGHT_NAME_TABLE_H
#define SEAMWRIGHT_NAME_TABLE_H

#include <stdbool.h>

#include "arena.h"

struct name_entry {
    const char *name; /* NULL where the place is free */
    size_t number;
};

struct name_table {
    struct name_entry *entries;
    size_t count, room; /* a power of two, at most half full */
};

/* Notes the number of a name, which is not copied. ensures: false where the
 * name was there; it keeps its first number. */
bool name_table_add(struct arena *arena, struct name_table *table,
                    const char *name, size_t number);

/* ensures: true and the number, where the name is there. */
bool name_table_find(const struct name_table *table, const char *name,
                     size_t *number);

#endif
