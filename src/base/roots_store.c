/* Where numbers with roots lie: a table of all that there are, each once. It is
 * the one thing in this program that changes and has no owner in a call, as
 * sums and products of numbers have no place for one; malloc's own heap is
 * another such. Nothing that is printed depends on what lies in it. */
#include <float.h>
#include <math.h>
#include <string.h>

#include "arena.h"
#include "roots.h"

const int64_t roots_squared[UNDER] = {1, 2, 3, 6};
const double roots_near[UNDER] = {1, 1.4142135623730951, 1.7320508075688772,
                                  2.4494897427831779};

enum { FIRST_SLOTS = 256 };

/* Slots are a power of two, each a chain. */
static struct {
    struct arena *arena; /* NULL before the first number */
    struct stored **slots;
    size_t count, slot_count;
} store;

/* All at once: a value knows no file that it is of. */
void rational_forget(void)
{
    if (store.arena != NULL)
        arena_destroy(store.arena);
    store.arena = NULL;
    store.slots = NULL;
    store.count = store.slot_count = 0;
}

static void link_in(struct stored *stored)
{
    struct stored **slot =
        &store.slots[stored->hash & (store.slot_count - 1)];
    stored->next = *slot;
    *slot = stored;
}

/* Twice as many slots; chains stay short. Old ones stay in the arena, which
 * makes them half of all. */
static void grow(void)
{
    struct stored **before = store.slots;
    const size_t count = store.slot_count;
    if (store.arena == NULL)
        store.arena = arena_create();
    store.slot_count = count == 0 ? FIRST_SLOTS : count * 2;
    store.slots = ARENA_ARRAY(store.arena, struct stored *, store.slot_count);
    for (size_t i = 0; i < count; i++)
        for (struct stored *one = before[i], *next; one != NULL; one = next) {
            next = one->next;
            link_in(one);
        }
}

static uint64_t mixed(uint64_t hash, uint64_t word)
{
    hash = (hash ^ word) * 0x9e3779b97f4a7c15u;
    return hash ^ hash >> 29;
}

static size_t limb_count(const int words[PARTS])
{
    size_t count = 0;
    for (int i = 0; i < PARTS; i++)
        count += (size_t)(words[i] < 0 ? -words[i] : words[i]);
    return count;
}

static uint64_t hash_of(const struct stored *like)
{
    uint64_t hash = 0;
    for (int i = 0; i < PARTS; i++)
        hash = mixed(hash, like->limbs == NULL ? (uint64_t)like->part[i]
                                               : (uint64_t)like->words[i]);
    const size_t limbs = like->limbs == NULL ? 0 : limb_count(like->words);
    for (size_t i = 0; i < limbs; i++)
        hash = mixed(hash, like->limbs[i]);
    return hash;
}

/* Part by part; the hash was equal. */
static bool same(const struct stored *a, const struct stored *b)
{
    if (a->hash != b->hash || (a->limbs == NULL) != (b->limbs == NULL))
        return false;
    if (a->limbs == NULL)
        return memcmp(a->part, b->part, sizeof a->part) == 0;
    return memcmp(a->words, b->words, sizeof a->words) == 0 &&
           memcmp(a->limbs, b->limbs,
                  limb_count(a->words) * sizeof *a->limbs) == 0;
}

/* The double decides, else the squares of whole numbers. No number of the store
 * is 0, which is a fraction of 64 bits. */
static int sign_of(const struct stored *stored)
{
    if (fabs(stored->near) > stored->slack)
        return stored->near > 0 ? 1 : -1;
    return wide_compare(of_stored(stored), (struct rational){0, 1});
}

/* Terms that are large beside their sum leave a double little of it: 1e9 √2 less
 * its nearest fraction would be wrong in the ninth digit. Who draws a point, or
 * sorts out by doubles what is not near, counts on twelve. */
static void sharpen(struct stored *stored)
{
    if (stored->slack > fabs(stored->near) * 0x1p-44)
        stored->near = wide_near(of_stored(stored), &stored->slack);
}

static bool has_roots(const struct stored *stored)
{
    for (int i = ROOT2; i < UNDER; i++)
        if (stored->limbs == NULL ? stored->part[i] != 0
                                  : stored->words[i] != 0)
            return true;
    return false;
}

/* The one that is there, or a copy of `like`. */
static struct rational find(struct stored *like)
{
    like->hash = hash_of(like);
    if (store.count >= store.slot_count)
        grow();
    struct stored *one = store.slots[like->hash & (store.slot_count - 1)];
    while (one != NULL && !same(one, like))
        one = one->next;
    if (one != NULL)
        return of_stored(one);
    one = ARENA_ARRAY(store.arena, struct stored, 1);
    *one = *like;
    if (like->limbs != NULL) {
        const size_t bytes = limb_count(like->words) * sizeof *like->limbs;
        one->limbs =
            memcpy(arena_alloc(store.arena, bytes), like->limbs, bytes);
    }
    link_in(one);
    store.count++;
    sharpen(one);
    one->sign = sign_of(one);
    one->irrational = has_roots(one);
    return of_stored(one);
}

/* With u = 2^-53: each term is off by u of the part, of the root and of their
 * product, three sums by u each of what is at most the sum of the sizes, the
 * denominator and the division by u: together below 9 u of the sizes. 16 u of
 * their sum, which is off by as little, is more. */
static void estimate(struct stored *like)
{
    double sum = 0, size = 0;
    for (int i = 0; i < UNDER; i++) {
        const double term = (double)like->part[i] * roots_near[i];
        sum += term;
        size += fabs(term);
    }
    like->near = sum / (double)like->part[UNDER];
    like->slack = size / (double)like->part[UNDER] * (8 * DBL_EPSILON);
}

struct rational store_short(const int64_t part[PARTS])
{
    struct stored like = {.limbs = NULL};
    memcpy(like.part, part, sizeof like.part);
    estimate(&like);
    return find(&like);
}

struct rational store_wide(const uint64_t *limbs, const int words[PARTS],
                           double near, double slack)
{
    struct stored like = {.near = near, .slack = slack, .limbs = limbs};
    memcpy(like.words, words, sizeof like.words);
    return find(&like);
}
