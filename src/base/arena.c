/* Arena: a chain of blocks that begins small and grows, as many arenas live for
 * one short search. Bytes are zeroed as they are handed out: zeroing whole
 * blocks cost more than all planning. With SEAMWRIGHT_CHECKED each allocation
 * is a block of its own, so that the address sanitizer sees every overrun. */
#include "arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    FIRST_BYTES = 1024,
    MOST_BYTES = 64 * 1024,
    EXIT_NO_MEMORY = 3,
};

struct block {
    struct block *next;
    size_t used;
    size_t size;
    max_align_t bytes[];
};

struct arena {
    struct block *blocks; /* the first is the one that is handed out of */
    struct block *spare;  /* of MOST_BYTES, kept when the arena was emptied */
    size_t next_size;
};

static void out_of_memory(void)
{
    fputs("seamwright: out of memory\n", stderr);
    exit(EXIT_NO_MEMORY);
}

/* `zeroed`: all of it, which costs nothing where the system gives new pages. */
static struct block *new_block(size_t size, bool zeroed)
{
    if (size > SIZE_MAX - sizeof(struct block))
        out_of_memory();
    const size_t whole = sizeof(struct block) + size;
    struct block *block = zeroed ? calloc(1, whole) : malloc(whole);
    if (block == NULL)
        out_of_memory();
    *block = (struct block){NULL, 0, size};
    return block;
}

struct arena *arena_create(void)
{
    struct arena *arena = malloc(sizeof *arena);
    if (arena == NULL)
        out_of_memory();
    *arena = (struct arena){NULL, NULL, FIRST_BYTES};
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

void arena_destroy(struct arena *arena)
{
    free_blocks(arena->blocks);
    free_blocks(arena->spare);
    free(arena);
}

void arena_empty(struct arena *arena)
{
    struct block *block = arena->blocks;
    arena->blocks = NULL;
    while (block != NULL) {
        struct block *next = block->next;
        block->next = NULL;
        if (block->size == MOST_BYTES) {
            block->next = arena->spare;
            arena->spare = block;
        } else {
            free(block);
        }
        block = next;
    }
}

/* To hand out of: a spare one where there is one. */
static struct block *next_block(struct arena *arena)
{
    struct block *block = arena->spare;
    if (block == NULL || arena->next_size != MOST_BYTES)
        return new_block(arena->next_size, false);
    arena->spare = block->next;
    block->used = 0;
    return block;
}

/* Whole, so that the next one is aligned. */
static size_t rounded_up(size_t size)
{
    const size_t unit = _Alignof(max_align_t);
    if (size > SIZE_MAX - unit)
        out_of_memory();
    return (size + unit - 1) / unit * unit;
}

/* A block of its own, behind the first, which goes on being handed out of. */
static void *alloc_alone(struct arena *arena, size_t size)
{
    struct block *block = new_block(size, true);
    block->used = size;
    if (arena->blocks == NULL) {
        arena->blocks = block;
    } else {
        block->next = arena->blocks->next;
        arena->blocks->next = block;
    }
    return block->bytes;
}

/* What takes more than a quarter of a block would waste what is left of the
 * last one. */
void *arena_alloc(struct arena *arena, size_t size)
{
    const size_t rounded = rounded_up(size);
#ifdef SEAMWRIGHT_CHECKED
    (void)rounded;
    return alloc_alone(arena, size == 0 ? 1 : size);
#else
    struct block *block = arena->blocks;
    if (block == NULL || block->size - block->used < rounded) {
        if (rounded > arena->next_size / 4)
            return alloc_alone(arena, rounded);
        block = next_block(arena);
        block->next = arena->blocks;
        arena->blocks = block;
        if (arena->next_size < MOST_BYTES)
            arena->next_size *= 2;
    }
    void *memory = (char *)block->bytes + block->used;
    block->used += rounded;
    return memset(memory, 0, size);
#endif
}

/* Is this what was allocated last, with room behind it? */
static bool grows_in_place(const struct block *block, const void *memory,
                           size_t size, size_t larger)
{
    if (block == NULL || memory == NULL)
        return false;
    const size_t rounded = rounded_up(size);
    return rounded <= block->used &&
           (const char *)memory ==
               (const char *)block->bytes + (block->used - rounded) &&
           larger - rounded <= block->size - block->used;
}

void *arena_grow(struct arena *arena, void *memory, size_t size, size_t larger)
{
    larger = rounded_up(larger);
    if (grows_in_place(arena->blocks, memory, size, larger)) {
        struct block *block = arena->blocks;
        const size_t more = larger - rounded_up(size);
        memset((char *)block->bytes + block->used, 0, more);
        block->used += more;
        return memory;
    }
    void *copy = arena_alloc(arena, larger);
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
    void *room = arena_grow(arena, items, *capacity * size, larger * size);
    *capacity = larger;
    return room;
}
