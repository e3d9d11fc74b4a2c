/* owner: base
 *
 * Memory that lives as long as its arena, and growing lists inside it.
 *
 * A function that takes a `struct arena *` keeps what it allocates until the
 * arena is destroyed; nobody frees single objects. Running out of memory
 * prints one line and exits with status 3, so no caller checks for it.
 */
#ifndef SEAMWRIGHT_ARENA_H
#define SEAMWRIGHT_ARENA_H

#include <stdarg.h>
#include <stddef.h>

struct arena;

/* ensures: a new, empty arena. */
struct arena *arena_create(void);

/* Frees the arena and everything that was allocated from it. */
void arena_destroy(struct arena *arena);

/* Ends all that was allocated from it, and keeps memory for what comes next:
 * for many short works, one behind the other. */
void arena_empty(struct arena *arena);

/* ensures: `size` zeroed bytes, aligned for any type. */
void *arena_alloc(struct arena *arena, size_t size);

/* requires: `size` bytes from this arena, or NULL and 0; `larger` >= `size`.
 * ensures: `larger` bytes that begin with them; behind them may stand anything.
 * The old ones are gone, so whoever keeps their address, in a copy of a list,
 * too, must not grow the list. */
void *arena_grow(struct arena *arena, void *memory, size_t size, size_t larger);

/* ensures: a copy of `length` bytes with a NUL behind them. */
char *arena_copy(struct arena *arena, const char *bytes, size_t length);

/* ensures: the formatted text. The format must not print floating point
 * numbers that a user wrote; lengths have their own printing (length.h). */
char *arena_printf(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
char *arena_vprintf(struct arena *arena, const char *format, va_list arguments)
    __attribute__((format(printf, 2, 0)));

#define ARENA_NEW(arena, type) ((type *)arena_alloc((arena), sizeof(type)))
#define ARENA_ARRAY(arena, type, count) \
    ((type *)arena_alloc((arena), sizeof(type) * (count)))

/* A list of `type` that grows inside an arena. Pointers to its items are good
 * only until the next LIST_ADD. */
#define LIST(type)       \
    struct {             \
        type *items;     \
        size_t count;    \
        size_t capacity; \
    }

/* Adds a zeroed item and gives its address. */
#define LIST_ADD(arena, list)                                             \
    ((list)->items = list_room((arena), (list)->items, (list)->count,     \
                               &(list)->capacity, sizeof *(list)->items), \
     &(list)->items[(list)->count++])

/* Room for so many more in one piece: a list that grows leaves behind what it
 * was. */
#define LIST_RESERVE(arena, list, more)                               \
    ((list)->items =                                                  \
         list_reserve((arena), (list)->items, (list)->count + (more), \
                      &(list)->capacity, sizeof *(list)->items))

/* Used by LIST_ADD: room for one more item of `size` bytes, which is zeroed. */
void *list_room(struct arena *arena, void *items, size_t count,
                size_t *capacity, size_t size);
/* Used by LIST_RESERVE: room for `most` items in all. */
void *list_reserve(struct arena *arena, void *items, size_t most,
                   size_t *capacity, size_t size);

#endif
