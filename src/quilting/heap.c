/* A binary heap in a list: each item comes before its two children. */
#include <stdbool.h>

#include "heap.h"

static bool before(struct heap_item a, struct heap_item b)
{
    return a.key != b.key ? a.key < b.key : a.what < b.what;
}

void heap_add(struct arena *arena, struct heap *heap, int64_t key,
              uint64_t what)
{
    const struct heap_item item = {key, what};
    size_t at = heap->items.count;
    *LIST_ADD(arena, &heap->items) = item;
    struct heap_item *items = heap->items.items;
    for (; at > 0 && before(item, items[(at - 1) / 2]); at = (at - 1) / 2)
        items[at] = items[(at - 1) / 2];
    items[at] = item;
}

struct heap_item heap_take(struct heap *heap)
{
    struct heap_item *items = heap->items.items;
    const struct heap_item top = items[0];
    const size_t count = --heap->items.count;
    const struct heap_item last = items[count];
    size_t at = 0;
    for (size_t child = 1; child < count; at = child, child = 2 * at + 1) {
        child += child + 1 < count && before(items[child + 1], items[child]);
        if (!before(items[child], last))
            break;
        items[at] = items[child];
    }
    items[at] = last;
    return top;
}
