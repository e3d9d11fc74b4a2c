/* What comes first: numbers in the order of their keys, those of one key in the
 * order of the numbers. */
#ifndef SEAMWRIGHT_HEAP_H
#define SEAMWRIGHT_HEAP_H

#include <stddef.h>
#include <stdint.h>

#include "arena.h"

struct heap_item {
    int64_t key;
    uint64_t what;
};

/* Begins as {0}; empty again with `count = 0`. */
struct heap {
    LIST(struct heap_item) items;
};

void heap_add(struct arena *arena, struct heap *heap, int64_t key,
              uint64_t what);

/* requires: it is not empty. ensures: the least is taken out. */
struct heap_item heap_take(struct heap *heap);

#endif
