/* Names by hash. Nothing is ever taken out, so a search ends at the first free
 * place. */
#include "name_table.h"

#include <stdint.h>
#include <string.h>

enum { FIRST_ROOM = 64 };

/* FNV-1a, 64 bits (Fowler, Noll, Vo; draft-eastlake-fnv). */
static uint64_t hash_of(const char *name)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (; *name != '\0'; name++)
        hash = (hash ^ (unsigned char)*name) * UINT64_C(1099511628211);
    return hash;
}

/* The place of the name, or the free one where it would go. */
static struct name_entry *place_of(const struct name_table *table,
                                   const char *name)
{
    size_t at = (size_t)hash_of(name) & (table->room - 1);
    while (table->entries[at].name != NULL &&
           strcmp(table->entries[at].name, name) != 0)
        at = (at + 1) & (table->room - 1);
    return &table->entries[at];
}

static void grow(struct arena *arena, struct name_table *table)
{
    const struct name_table old = *table;
    table->room = old.room == 0 ? FIRST_ROOM : 2 * old.room;
    table->entries = ARENA_ARRAY(arena, struct name_entry, table->room);
    for (size_t i = 0; i < old.room; i++)
        if (old.entries[i].name != NULL)
            *place_of(table, old.entries[i].name) = old.entries[i];
}

bool name_table_add(struct arena *arena, struct name_table *table,
                    const char *name, size_t number)
{
    if (2 * (table->count + 1) > table->room)
        grow(arena, table);
    struct name_entry *place = place_of(table, name);
    if (place->name != NULL)
        return false;
    *place = (struct name_entry){name, number};
    table->count++;
    return true;
}

bool name_table_find(const struct name_table *table, const char *name,
                     size_t *number)
{
    if (table->room == 0)
        return false;
    const struct name_entry *place = place_of(table, name);
    if (place->name != NULL)
        *number = place->number;
    return place->name != NULL;
}
