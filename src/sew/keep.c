/* What stays of the work on one heap. Crafts cut, move and join as they like in
 * scratch memory; here its actions and its cloth are copied, without room to
 * grow, and the same corners of several faces, which the states before and
 * after mostly show, are one. */
#include <string.h>

#include "bench.h"

/* Kept corners by their hash: open addressing, a power of two places. */
struct keeper {
    struct arena *arena, *scratch;
    const struct face **kept; /* NULL for an empty place */
    size_t capacity, count;
};

/* A copy of the items of a list, and no room behind it. */
static void *kept_items(const struct keeper *keeper, const void *items,
                        size_t bytes)
{
    if (bytes == 0)
        return NULL;
    return memcpy(arena_alloc(keeper->arena, bytes), items, bytes);
}

#define KEEP_LIST(keeper, list)                                         \
    ((list)->items = kept_items((keeper), (list)->items,                \
                                (list)->count * sizeof *(list)->items), \
     (list)->capacity = (list)->count)

/* Both words are the number, even where they only say where it lies; the table
 * is gone before that changes. */
static size_t add_to_hash(size_t hash, struct rational number)
{
    hash = (hash ^ (size_t)number.num) * 1099511628211u;
    return (hash ^ (size_t)number.den) * 1099511628211u;
}

/* FNV-1a, a number at a time; its high bits go down, as the table takes the low
 * ones. */
static size_t hash_of(const struct face *face)
{
    size_t hash = 14695981039346656037u;
    for (size_t i = 0; i < face->count; i++)
        hash = add_to_hash(add_to_hash(hash, face->points[i].x),
                           face->points[i].y);
    return hash ^ hash >> 29;
}

static const struct face **place_of(struct keeper *keeper,
                                    const struct face *face)
{
    size_t at = hash_of(face);
    for (;; at++) {
        const struct face **place = &keeper->kept[at & (keeper->capacity - 1)];
        if (*place == NULL || ((*place)->count == face->count &&
                               memcmp((*place)->points, face->points,
                                      face->count * sizeof *face->points) == 0))
            return place;
    }
}

/* Half of the places stay free. */
static void grow(struct keeper *keeper)
{
    if (keeper->count * 2 < keeper->capacity)
        return;
    const struct face **old = keeper->kept;
    const size_t count = keeper->capacity;
    keeper->capacity = count == 0 ? 16 : count * 2;
    keeper->kept =
        ARENA_ARRAY(keeper->scratch, const struct face *, keeper->capacity);
    for (size_t i = 0; i < count; i++)
        if (old[i] != NULL)
            *place_of(keeper, old[i]) = old[i];
}

static void keep_corners(struct keeper *keeper, struct face *face)
{
    grow(keeper);
    const struct face **place = place_of(keeper, face);
    if (*place == NULL) {
        face->points = kept_items(keeper, face->points,
                                  face->count * sizeof *face->points);
        struct face *first = ARENA_NEW(keeper->scratch, struct face);
        *first = *face;
        *place = first;
        keeper->count++;
    }
    face->points = (*place)->points;
}

static void keep_state(struct keeper *keeper, struct state *state)
{
    KEEP_LIST(keeper, &state->points);
    KEEP_LIST(keeper, &state->turns);
    KEEP_LIST(keeper, &state->marks);
    KEEP_LIST(keeper, &state->presses);
    KEEP_LIST(keeper, &state->faces);
    for (size_t i = 0; i < state->faces.count; i++)
        keep_corners(keeper, &state->faces.items[i].face);
}

static const struct cloth *kept_cloth(struct keeper *keeper,
                                      const struct heap *heap)
{
    struct cloth *cloth = ARENA_NEW(keeper->arena, struct cloth);
    *cloth = *heap->cloth;
    cloth->width = heap->width;
    cloth->height = heap->height;
    KEEP_LIST(keeper, &cloth->seams);
    KEEP_LIST(keeper, &cloth->faces);
    for (size_t i = 0; i < cloth->faces.count; i++)
        keep_corners(keeper, &cloth->faces.items[i]);
    return cloth;
}

void keep_work(struct sewer *sewer, struct heap *heap)
{
    struct keeper keeper = {.arena = sewer->run->arena,
                            .scratch = sewer->scratch};
    heap->cloth = kept_cloth(&keeper, heap);
    KEEP_LIST(&keeper, &heap->actions);
    for (size_t i = 0; i < heap->actions.count; i++) {
        struct action *action = &heap->actions.items[i];
        KEEP_LIST(&keeper, &action->parts);
        KEEP_LIST(&keeper, &action->seams);
        keep_state(&keeper, &action->before);
        keep_state(&keeper, &action->after);
        keep_state(&keeper, &action->other);
        keep_state(&keeper, &action->parted);
        keep_state(&keeper, &action->opened);
    }
}
