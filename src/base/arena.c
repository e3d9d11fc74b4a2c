/* Arena: a chain of zeroed blocks. With SEAMWRIGHT_CHECKED each allocation is
 * a block of its own, so that the address sanitizer sees every overrun. */
#include "arena.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_BYTES = 64 * 1024, EXIT_NO_MEMORY = 3 };

struct block {
    struct block *next;
    size_t used;
    size_t size;
    max_align_t bytes[];
};

struct arena {
    struct block *blocks;
};

static void out_of_memory(void)
{
    fputs("seamwright: out of memory\n", stderr);
    exit(EXIT_NO_MEMORY);
}

static struct block *new_block(struct block *next, size_t size)
{
    if (size > SIZE_MAX - sizeof(struct block))
        out_of_memory();
    struct block *block = calloc(1, sizeof *block + size);
    if (block == NULL)
        out_of_memory();
    block->next = next;
    block->size = size;
    return block;
}

struct arena *arena_create(void)
{
    struct arena *arena = calloc(1, sizeof *arena);
    if (arena == NULL)
        out_of_memory();
    return arena;
}

void arena_destroy(struct arena *arena)
{
    struct block *block = arena->blocks;
    while (block != NULL) {
        struct block *next = block->next;
        free(block);
        block = next;
    }
    free(arena);
}

void *arena_alloc(struct arena *arena, size_t size)
{
    const size_t unit = _Alignof(max_align_t);
    if (size > SIZE_MAX - unit)
        out_of_memory();
    const size_t rounded = (size + unit - 1) / unit * unit;
#ifdef SEAMWRIGHT_CHECKED
    arena->blocks = new_block(arena->blocks, size == 0 ? 1 : size);
    (void)rounded;
    return arena->blocks->bytes;
#else
    struct block *block = arena->blocks;
    if (block == NULL || block->size - block->used < rounded) {
        const size_t want = rounded > BLOCK_BYTES ? rounded : BLOCK_BYTES;
        block = arena->blocks = new_block(arena->blocks, want);
    }
    void *memory = (char *)block->bytes + block->used;
    block->used += rounded;
    return memory;
#endif
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
    const int length = vsnprintf(NULL, 0, format, arguments);
    char *text = arena_alloc(arena, length < 0 ? 1 : (size_t)length + 1);
    if (length >= 0)
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

void *list_room(struct arena *arena, void *items, size_t count,
                size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    const size_t larger = *capacity == 0 ? 8 : *capacity * 2;
    if (larger > SIZE_MAX / size)
        out_of_memory();
    void *room = arena_alloc(arena, larger * size);
    if (count > 0)
        memcpy(room, items, count * size);
    *capacity = larger;
    return room;
}
