/* The simple method for lists of hundreds of sizes and more: highest first,
 * each piece into the open strip that it fills best, a new strip where it fits
 * in none (first fit by decreasing height; Coffman, Garey, Johnson and Tarjan,
 * 1980, from memory). A strip of an exact plan takes pieces of its height
 * alone. */
#include <stdlib.h>

#include "roll_plan.h"

/* A size as it lies. */
struct laid {
    size_t size;
    int64_t along, height;
};

/* Open strips by the length that is left of them: `first[left]` is one of them,
 * `next` the one behind it, both + 1. `used` has a bit for each length of which
 * there is one. */
struct packing {
    struct arena *arena;
    const struct roll_problem *problem;
    struct roll_plan *plan;
    size_t *first;
    uint64_t *used;
    LIST(size_t) next;
};

enum { BITS = 64 };

/* ---- open strips ---- */

static void put_open(struct packing *packing, size_t strip, int64_t left)
{
    packing->next.items[strip] = packing->first[left];
    packing->first[left] = strip + 1;
    packing->used[left / BITS] |= (uint64_t)1 << left % BITS;
}

static size_t take_open(struct packing *packing, int64_t left)
{
    const size_t strip = packing->first[left] - 1;
    packing->first[left] = packing->next.items[strip];
    if (packing->first[left] == 0)
        packing->used[left / BITS] &= ~((uint64_t)1 << left % BITS);
    return strip;
}

/* The least length that is open and at least `along`; -1 where there is none.
 */
static int64_t best_open(const struct packing *packing, int64_t along)
{
    const int64_t words = packing->problem->width / BITS + 1;
    uint64_t word = packing->used[along / BITS] >> along % BITS << along % BITS;
    for (int64_t i = along / BITS; i < words; word = packing->used[i]) {
        if (word != 0)
            return i * BITS + __builtin_ctzll(word);
        if (++i == words)
            break;
    }
    return -1;
}

/* Strips of another height take nothing more. */
static void close_all(struct packing *packing)
{
    for (int64_t left; (left = best_open(packing, 0)) >= 0;)
        take_open(packing, left);
}

/* ---- pieces ---- */

static size_t add_strip(struct packing *packing, const struct laid *laid,
                        size_t pieces, size_t repeat)
{
    struct roll_strip *strip = LIST_ADD(packing->arena, &packing->plan->strips);
    LIST_ADD(packing->arena, &packing->next);
    strip->height = laid->height;
    strip->repeat = repeat;
    *LIST_ADD(packing->arena, &strip->cuts) =
        (struct roll_cut){laid->size, pieces, laid->along};
    return packing->plan->strips.count - 1;
}

/* Parts `alike` strips of a line from the others, which stay open as they are.
 */
static void split_line(struct packing *packing, size_t line, size_t alike,
                       int64_t left)
{
    const struct roll_strip whole = packing->plan->strips.items[line];
    if (whole.repeat == alike)
        return;
    struct roll_strip *others =
        LIST_ADD(packing->arena, &packing->plan->strips);
    LIST_ADD(packing->arena, &packing->next);
    others->height = whole.height;
    others->repeat = whole.repeat - alike;
    for (size_t i = 0; i < whole.cuts.count; i++)
        *LIST_ADD(packing->arena, &others->cuts) = whole.cuts.items[i];
    packing->plan->strips.items[line].repeat = alike;
    put_open(packing, packing->plan->strips.count - 1, left);
}

/* Strips that are alike are filled alike, so that thousands of equal pieces are
 * one line. */
static void pack(struct packing *packing, const struct laid *laid)
{
    const int64_t width = packing->problem->width;
    size_t left = packing->problem->sizes[laid->size].demand;
    while (left > 0) {
        int64_t room = best_open(packing, laid->along);
        const bool open = room >= 0;
        room = open ? room : width;
        const size_t most = (size_t)(room / laid->along);
        const size_t pieces = left < most ? left : most;
        size_t alike = left / pieces, line;
        if (open) {
            line = take_open(packing, room);
            const size_t repeat = packing->plan->strips.items[line].repeat;
            alike = alike < repeat ? alike : repeat;
            split_line(packing, line, alike, room);
            *LIST_ADD(packing->arena, &packing->plan->strips.items[line].cuts) =
                (struct roll_cut){laid->size, pieces, laid->along};
        } else {
            line = add_strip(packing, laid, pieces, alike);
        }
        put_open(packing, line, room - laid->along * (int64_t)pieces);
        left -= pieces * alike;
    }
}

/* The longer side along the strip where the cloth is wide enough: low strips
 * take less cloth, and fill better. */
static struct laid laid_of(const struct roll_problem *problem, size_t index)
{
    const struct roll_size *size = &problem->sizes[index];
    const bool turned =
        size->turns &&
        (size->width > problem->width ||
         (size->height > size->width && size->height <= problem->width));
    return turned ? (struct laid){index, size->height, size->width}
                  : (struct laid){index, size->width, size->height};
}

/* Highest first, of equal heights longest first. */
static int compare_laid(const void *first, const void *second)
{
    const struct laid *a = first, *b = second;
    if (a->height != b->height)
        return a->height > b->height ? -1 : 1;
    if (a->along != b->along)
        return a->along > b->along ? -1 : 1;
    return (a->size > b->size) - (a->size < b->size);
}

struct roll_plan *plan_roll_simply(struct arena *arena,
                                   const struct roll_problem *problem)
{
    struct arena *scratch = arena_create();
    struct laid *laid = ARENA_ARRAY(scratch, struct laid, problem->count + 1);
    size_t count = 0;
    bool fits = true;
    for (size_t i = 0; i < problem->count; i++)
        if (problem->sizes[i].demand > 0) {
            laid[count] = laid_of(problem, i);
            fits = fits && laid[count++].along <= problem->width;
        }
    if (count > 1)
        qsort(laid, count, sizeof *laid, compare_laid);
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    const size_t lengths = (size_t)problem->width + 1;
    struct packing packing = {
        .arena = arena,
        .problem = problem,
        .plan = plan,
        .first = ARENA_ARRAY(scratch, size_t, lengths),
        .used = ARENA_ARRAY(scratch, uint64_t, lengths / BITS + 1)};
    for (size_t i = 0; fits && i < count; i++) {
        if (i > 0 && !problem->trimmed && laid[i].height != laid[i - 1].height)
            close_all(&packing);
        pack(&packing, &laid[i]);
    }
    arena_destroy(scratch);
    if (!fits)
        return NULL;
    roll_plan_settle(arena, problem, plan);
    /* Never worse than a person would do it. */
    struct roll_plan *hand = plan_roll_by_hand(arena, problem);
    if (hand->length < plan->length)
        plan = hand;
    plan->bound = roll_area_bound(problem);
    return plan;
}
