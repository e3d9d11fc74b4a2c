/* A table of exact points: open addressing, at most half full. */
#include "arrange_parts.h"

/* Exact numbers have one form, so equal points have one hash. */
static size_t slot_of(const struct point_table *table, struct vertex v)
{
    size_t slot = (size_t)vertex_hash(v) & (table->slot_count - 1);
    while (table->slots[slot] != 0 &&
           !vertex_equal(table->points.items[table->slots[slot] - 1], v))
        slot = (slot + 1) & (table->slot_count - 1);
    return slot;
}

/* Points keep their indices: only the slots are laid anew. */
static void grow_table(struct arena *arena, struct point_table *table)
{
    table->slot_count = table->slot_count == 0 ? 64 : table->slot_count * 4;
    table->slots = ARENA_ARRAY(arena, size_t, table->slot_count);
    for (size_t i = 0; i < table->points.count; i++)
        table->slots[slot_of(table, table->points.items[i])] = i + 1;
}

size_t point_add(struct arena *arena, struct point_table *table,
                 struct vertex v)
{
    if (2 * (table->points.count + 1) > table->slot_count)
        grow_table(arena, table);
    const size_t slot = slot_of(table, v);
    if (table->slots[slot] == 0) {
        *LIST_ADD(arena, &table->points) = v;
        table->slots[slot] = table->points.count;
    }
    return table->slots[slot] - 1;
}

size_t point_find(const struct point_table *table, struct vertex v)
{
    return table->slot_count == 0 ? SIZE_MAX
                                  : table->slots[slot_of(table, v)] - 1;
}
