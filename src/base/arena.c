/* Arena: a chain of blocks that begins small and grows, as many arenas live for
 * one short search. Bytes are zeroed as they are handed out: zeroing whole
 * blocks cost more than all planning. What is large lies in a block of its own,
 * which the system can make larger in its place: a list that grows leaves
 * nothing behind. With SEAMWRIGHT_CHECKED each allocation is such a block, so
 * that the address sanitizer sees every overrun and every use of what a list
 * was before it grew. What takes megabytes is given huge pages: small ones that
 * are touched once cost more than what is written to them. */
#define _GNU_SOURCE /* madvise */
#include "arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

enum {
    FIRST_BYTES = 1024,
    SPARE_BYTES = 64 * 1024, /* a block is kept from here on */
#ifdef SEAMWRIGHT_CHECKED
    LARGE_BYTES = 0,
#else
    LARGE_BYTES = SPARE_BYTES / 4, /* beyond that, a block of its own */
#endif
    PAGE_BYTES = 2 * 1024 * 1024, /* of a huge page, on most machines */
    MOST_BYTES = 4 * PAGE_BYTES,
    LIST_BYTES = 4 * SPARE_BYTES, /* a list grows by half from here on */
    ITEM_BYTES = 32,              /* an item is large from here on */
    EXIT_NO_MEMORY = 3,
};

struct block {
    struct block *next;
    size_t used;
    size_t size;
    max_align_t bytes[];
};

/* A block of its own, in a ring with its arena's others. Its bytes follow. */
struct large {
    _Alignas(max_align_t) struct large *next;
    struct large *before;
};

struct arena {
    struct block *blocks; /* the first is the one that is handed out of */
    struct block *spare;  /* kept when the arena was emptied */
    size_t next_size;
    struct large ring; /* where it starts and ends */
};

static void out_of_memory(void)
{
    fputs("seamwright: out of memory\n", stderr);
    exit(EXIT_NO_MEMORY);
}

static void *never_null(void *memory)
{
    if (memory == NULL)
        out_of_memory();
    return memory;
}

static size_t checked_sum(size_t head, size_t size)
{
    if (size > SIZE_MAX - head)
        out_of_memory();
    return head + size;
}

struct arena *arena_create(void)
{
    struct arena *arena = never_null(malloc(sizeof *arena));
    *arena = (struct arena){.next_size = FIRST_BYTES};
    arena->ring.next = arena->ring.before = &arena->ring;
    return arena;
}

static void free_blocks(struct block *block)
{
    while (block != NULL) {
        struct block *next = block->next;
        free(block);
        block = next;
    }
}

static void free_large(struct arena *arena)
{
    struct large *large = arena->ring.next;
    while (large != &arena->ring) {
        struct large *next = large->next;
        free(large);
        large = next;
    }
    arena->ring.next = arena->ring.before = &arena->ring;
}

void arena_destroy(struct arena *arena)
{
    free_blocks(arena->blocks);
    free_blocks(arena->spare);
    free_large(arena);
    free(arena);
}

void arena_empty(struct arena *arena)
{
    struct block *block = arena->blocks;
    arena->blocks = NULL;
    while (block != NULL) {
        struct block *next = block->next;
        block->next = NULL;
        if (block->size >= SPARE_BYTES) {
            block->next = arena->spare;
            arena->spare = block;
        } else {
            free(block);
        }
        block = next;
    }
    free_large(arena);
}

/* Whole, so that the next one is aligned. */
static size_t rounded_up(size_t size)
{
    const size_t unit = _Alignof(max_align_t);
    if (size > SIZE_MAX - unit)
        out_of_memory();
    return (size + unit - 1) / unit * unit;
}

static bool is_large(size_t rounded)
{
    return LARGE_BYTES == 0 || rounded > LARGE_BYTES;
}

/* Its neighbors in the ring learn where it lies. */
static void *linked(struct large *large)
{
    large->next->before = large->before->next = large;
    return large + 1;
}

/* What is large enough to hold some lies in huge pages, where there are any. */
static void in_huge_pages(void *memory, size_t size)
{
#ifdef MADV_HUGEPAGE
    if (size < 2 * PAGE_BYTES)
        return;
    const uintptr_t from = (uintptr_t)memory + PAGE_BYTES - 1;
    const uintptr_t to = (uintptr_t)memory + size;
    madvise((void *)(from - from % PAGE_BYTES),
            (to - to % PAGE_BYTES) - (from - from % PAGE_BYTES), MADV_HUGEPAGE);
#endif
}

/* Zeroed by the system, which costs nothing where it gives new pages. */
static void *alloc_large(struct arena *arena, size_t size)
{
    struct large *large =
        never_null(calloc(1, checked_sum(sizeof *large, size)));
    in_huge_pages(large, size);
    large->next = arena->ring.next;
    large->before = &arena->ring;
    return linked(large);
}

/* What is not written to is not memory yet, so nothing is set to zero. */
static void *grow_large(void *memory, size_t larger)
{
    struct large *large = (struct large *)memory - 1;
    large = never_null(realloc(large, checked_sum(sizeof *large, larger)));
    in_huge_pages(large, larger);
    return linked(large);
}

/* ensures: an empty block that is the first, with room for `least` bytes; a
 * spare one where there is one. */
static void add_block(struct arena *arena, size_t least)
{
    struct block *block = arena->spare;
    if (block != NULL && block->size >= least) {
        arena->spare = block->next;
    } else {
        while (arena->next_size < least)
            arena->next_size *= 2;
        block = never_null(malloc(sizeof *block + arena->next_size));
        block->size = arena->next_size;
        in_huge_pages(block, block->size);
    }
    *block = (struct block){arena->blocks, 0, block->size};
    arena->blocks = block;
    if (arena->next_size < MOST_BYTES)
        arena->next_size *= 2;
}

/* Of the first block, as they are. requires: not large. */
static void *take(struct arena *arena, size_t rounded)
{
    const struct block *first = arena->blocks;
    if (first == NULL || first->size - first->used < rounded)
        add_block(arena, rounded);
    struct block *block = arena->blocks;
    void *memory = (char *)block->bytes + block->used;
    block->used += rounded;
    return memory;
}

void *arena_alloc(struct arena *arena, size_t size)
{
    const size_t rounded = rounded_up(size);
    return is_large(rounded) ? alloc_large(arena, size)
                             : memset(take(arena, rounded), 0, size);
}

/* Is this what was allocated last, with room behind it? What becomes large must
 * move, as its size alone tells where it lies. */
static bool grows_in_place(const struct block *block, const void *memory,
                           size_t size, size_t larger)
{
    if (block == NULL || memory == NULL || larger > LARGE_BYTES)
        return false;
    const size_t rounded = rounded_up(size);
    return rounded <= block->used &&
           (const char *)memory ==
               (const char *)block->bytes + (block->used - rounded) &&
           larger - rounded <= block->size - block->used;
}

void *arena_grow(struct arena *arena, void *memory, size_t size, size_t larger)
{
    if (memory != NULL && is_large(rounded_up(size)))
        return grow_large(memory, larger);
    larger = rounded_up(larger);
    if (grows_in_place(arena->blocks, memory, size, larger)) {
        arena->blocks->used += larger - rounded_up(size);
        return memory;
    }
    void *copy =
        is_large(larger) ? alloc_large(arena, larger) : take(arena, larger);
    if (size > 0)
        memcpy(copy, memory, size);
    return copy;
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length)
{
    char *copy = arena_alloc(arena, length + 1);
    if (length > 0)
        memcpy(copy, bytes, length);
    return copy;
}

char *arena_vprintf(struct arena *arena, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    char begin[128]; /* which is mostly all */
    const int length = vsnprintf(begin, sizeof begin, format, arguments);
    char *text = arena_alloc(arena, length < 0 ? 1 : (size_t)length + 1);
    if (length >= 0 && (size_t)length < sizeof begin)
        memcpy(text, begin, (size_t)length);
    else if (length >= 0)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

char *arena_printf(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_vprintf(arena, format, arguments);
    va_end(arguments);
    return text;
}

/* Large ones by half, large items one by one at first: what is not used yet is
 * memory, too. */
static size_t larger_capacity(size_t capacity, size_t size)
{
    const size_t larger = capacity > 0        ? capacity * 2
                          : size > ITEM_BYTES ? 1
                                              : 8;
    return capacity * size > LIST_BYTES ? larger - capacity / 2 : larger;
}

void *list_reserve(struct arena *arena, void *items, size_t most,
                   size_t *capacity, size_t size)
{
    if (most <= *capacity)
        return items;
    if (most > SIZE_MAX / size)
        out_of_memory();
    items = arena_grow(arena, items, *capacity * size, most * size);
    *capacity = most;
    return items;
}

void *list_room(struct arena *arena, void *items, size_t count,
                size_t *capacity, size_t size)
{
    if (count >= *capacity)
        items = list_reserve(arena, items, larger_capacity(*capacity, size),
                             capacity, size);
    memset((char *)items + count * size, 0, size);
    return items;
}
