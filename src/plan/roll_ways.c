/* How sizes lie in strips of each height, and patterns. */
#include <math.h>
#include <string.h>

#include "roll_master.h"

/* ---- ways of lying ---- */

/* Keeps the heights rising and without doubles. Strips of other heights than
 * pieces have are never better: they could be cut down to the next one. */
static void add_height(struct roll_master *master, int64_t height)
{
    size_t at = 0;
    while (at < master->heights.count &&
           master->heights.items[at].height < height)
        at++;
    if (at < master->heights.count &&
        master->heights.items[at].height == height)
        return;
    LIST_ADD(master->arena, &master->heights);
    for (size_t i = master->heights.count - 1; i > at; i--)
        master->heights.items[i] = master->heights.items[i - 1];
    master->heights.items[at] = (struct roll_height){.height = height};
}

/* The side along a strip of this height, or 0 where the size cannot lie in it:
 * of two ways the shorter. */
static int64_t side_along(const struct roll_problem *problem,
                          const struct roll_size *size, int64_t height)
{
    const int64_t along[2] = {size->width, size->height};
    const int64_t across[2] = {size->height, size->width};
    int64_t best = 0;
    for (int way = 0; way < (size->turns ? 2 : 1); way++) {
        const bool fits =
            problem->trimmed ? across[way] <= height : across[way] == height;
        if (fits && along[way] <= problem->width &&
            (best == 0 || along[way] < best))
            best = along[way];
    }
    return best;
}

/* All heights that the size can lie in.
 * ensures: false where there is none, so no plan exists. */
static bool add_ways(struct roll_master *master, size_t size)
{
    const struct roll_problem *problem = master->problem;
    bool fits = false;
    for (size_t k = 0; k < master->heights.count; k++) {
        struct roll_height *height = &master->heights.items[k];
        const int64_t along =
            side_along(problem, &problem->sizes[size], height->height);
        if (along == 0)
            continue;
        *LIST_ADD(master->arena, &height->ways) =
            (struct roll_way){size, along};
        fits = true;
    }
    return fits;
}

/* Both ways of a size where it is as high as the strip. A piece that is too
 * long for the cloth has none. */
static void add_begun(struct roll_master *master, size_t size)
{
    const struct roll_problem *problem = master->problem;
    const struct roll_size *piece = &problem->sizes[size];
    for (size_t k = 0; k < master->heights.count; k++) {
        struct roll_height *height = &master->heights.items[k];
        if (piece->height == height->height && piece->width <= problem->width)
            *LIST_ADD(master->arena, &height->begun) =
                (struct roll_way){size, piece->width};
        if (piece->turns && piece->width == height->height &&
            piece->width != piece->height && piece->height <= problem->width)
            *LIST_ADD(master->arena, &height->begun) =
                (struct roll_way){size, piece->height};
    }
}

/* Every size and height gets its arrays once; the knapsack has a row for each
 * bundle that any strip can need: the binary digits of all demands, of pieces
 * that lie both ways twice. */
static void make_tables(struct roll_master *master, size_t splits)
{
    struct arena *arena = master->arena;
    const size_t count = master->problem->count;
    const size_t cells = (size_t)master->problem->width + 1;
    simplex_init(&master->simplex, arena, count + ROLL_MOST_BRANCHES);
    master->best = ARENA_ARRAY(arena, int64_t, cells);
    master->taken = ARENA_ARRAY(arena, unsigned char, cells *splits);
    master->layers = ARENA_ARRAY(arena, struct roll_layer, splits);
    master->swept =
        ARENA_ARRAY(arena, struct roll_swept, master->heights.count);
    master->worth = ARENA_ARRAY(arena, int64_t, count);
    master->made = ARENA_ARRAY(arena, size_t, count);
    master->most = ARENA_ARRAY(arena, size_t, count);
    master->extra = ARENA_ARRAY(arena, double, count * master->heights.count);
    master->cap = ARENA_ARRAY(arena, size_t, count * master->heights.count);
    master->slot_count = 1024;
    master->slots = ARENA_ARRAY(arena, size_t, master->slot_count);
    master->good_bound = INT64_MAX;
}

/* Heights are complete before ways are added: each new one moves those above
 * it. */
bool roll_master_init(struct roll_master *master, struct arena *arena,
                      const struct roll_problem *problem)
{
    *master = (struct roll_master){.arena = arena, .problem = problem};
    size_t splits = 1;
    for (size_t i = 0; i < problem->count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        if (size->width <= problem->width)
            add_height(master, size->height);
        if (size->turns && size->height <= problem->width)
            add_height(master, size->width);
        for (size_t n = size->demand; n > 0; n /= 2)
            splits += problem->trimmed ? 2 : 1;
    }
    for (size_t i = 0; i < problem->count; i++) {
        if (!add_ways(master, i) && problem->sizes[i].demand > 0)
            return false;
        if (problem->trimmed)
            add_begun(master, i);
    }
    make_tables(master, splits);
    return true;
}

/* ---- patterns ---- */

/* Fowler, Noll, Vo: FNV-1a over whole counts. A collision costs time alone, as
 * counts are compared after it. */
static uint64_t hash_of(size_t height, const size_t *made, size_t count)
{
    uint64_t hash = 14695981039346656037u ^ height;
    for (size_t i = 0; i < count; i++)
        hash = (hash ^ made[i]) * 1099511628211u;
    return hash ^ (hash >> 29);
}

/* Twice the places as soon as half of them are taken. Beyond that, open
 * addressing becomes slow (Knuth, volume 3, section 6.4). */
static void grow_slots(struct roll_master *master)
{
    if (master->columns.count * 2 < master->slot_count)
        return;
    master->slot_count *= 2;
    master->slots = ARENA_ARRAY(master->arena, size_t, master->slot_count);
    for (size_t i = 0; i < master->columns.count; i++) {
        size_t at = master->columns.items[i].hash % master->slot_count;
        while (master->slots[at] != 0)
            at = (at + 1) % master->slot_count;
        master->slots[at] = i + 1;
    }
}

/* The search comes upon the same patterns over and over; kept twice, each would
 * slow down every round of the programme. */
size_t roll_master_column(struct roll_master *master, size_t height,
                          const size_t *made)
{
    const size_t count = master->problem->count;
    const uint64_t hash = hash_of(height, made, count);
    size_t at = hash % master->slot_count;
    for (; master->slots[at] != 0; at = (at + 1) % master->slot_count) {
        const struct roll_column *old =
            &master->columns.items[master->slots[at] - 1];
        if (old->hash == hash && old->height == height &&
            memcmp(old->made, made, count * sizeof *made) == 0)
            return master->slots[at] - 1;
    }
    size_t *copy = ARENA_ARRAY(master->arena, size_t, count);
    size_t part_count = 0;
    for (size_t i = 0; i < count; i++) {
        copy[i] = made[i];
        part_count += made[i] > 0;
    }
    struct roll_part *parts =
        ARENA_ARRAY(master->arena, struct roll_part, part_count);
    part_count = 0;
    for (size_t i = 0; i < count; i++)
        if (made[i] > 0)
            parts[part_count++] = (struct roll_part){i, made[i]};
    double squares = 1.0;
    for (size_t i = 0; i < part_count; i++)
        squares += (double)(parts[i].count * parts[i].count);
    *LIST_ADD(master->arena, &master->columns) =
        (struct roll_column){height,
                             copy,
                             parts,
                             part_count,
                             (double)master->heights.items[height].height,
                             1.0 / sqrt(squares),
                             hash};
    master->slots[at] = master->columns.count;
    grow_slots(master);
    return master->columns.count - 1;
}
