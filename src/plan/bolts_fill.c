/* A bounded knapsack over the sums that cuts can reach, which are often far
 * fewer than there are units in a roll. */
#include "bolts_fill.h"

#include <string.h>

/* A million sums of a roll are some megabytes, and a second for some hundred
 * fillings; the table of what was taken may be 128 MB at most. */
enum { MOST_SUMS = 1 << 20, MOST_TAKEN = 1 << 27 };

/* A worth may be below 0, where a cut that nobody asked for costs something. */
static const int64_t unreached = INT64_MIN;

/* The sums of a list with and without one more layer, both rising. */
static size_t join_sums(const int64_t *sums, size_t count, int64_t length,
                        int64_t longest, int64_t *joined)
{
    size_t plain = 0, more = 0, all = 0;
    while (all <= MOST_SUMS) {
        const int64_t one = plain < count ? sums[plain] : INT64_MAX;
        const int64_t other = more < count && sums[more] + length <= longest
                                  ? sums[more] + length
                                  : INT64_MAX;
        if (one == INT64_MAX && other == INT64_MAX)
            break;
        joined[all++] = one < other ? one : other;
        plain += one <= other;
        more += other <= one;
    }
    return all;
}

/* Pieces of the layer that comes after so many: 1, 2, 4 and so on. */
static size_t next_layer(size_t done, size_t most)
{
    const size_t pieces = done + 1;
    return pieces < most - done ? pieces : most - done;
}

/* The most that one roll holds of a cut. */
static size_t most_in_roll(const struct bolts_store *store, size_t cut,
                           int64_t longest, size_t asked)
{
    const size_t fit = (size_t)(longest / store->length[cut]);
    return fit < asked ? fit : asked;
}

/* Rolls of all kinds are filled at once, up to the longest; a shorter one then
 * looks only at the sums that fit in it. */
static int64_t longest_roll(const struct bolts_store *store)
{
    int64_t longest = 0;
    for (size_t k = 0; k < store->kinds; k++)
        if (store->kind[k].length > longest)
            longest = store->kind[k].length;
    return longest;
}

/* Sums of a few long cuts are few, whatever the unit: 20 cuts of each of three
 * lengths in a bolt have some hundred, where the bolt has thousands of units.
 */
bool bolts_filler_init(struct bolts_filler *filler, struct arena *arena,
                       const struct bolts_store *store)
{
    struct arena *scratch = arena_create();
    int64_t *sums = ARENA_ARRAY(scratch, int64_t, MOST_SUMS + 2);
    int64_t *joined = ARENA_ARRAY(scratch, int64_t, MOST_SUMS + 2);
    const int64_t longest = longest_roll(store);
    *filler = (struct bolts_filler){.store = store, .count = 1};
    for (size_t i = 0; i < store->cuts; i++) {
        const size_t most = most_in_roll(store, i, longest, store->demand[i]);
        for (size_t done = 0; done < most && filler->count <= MOST_SUMS;) {
            const size_t pieces = next_layer(done, most);
            filler->count =
                join_sums(sums, filler->count,
                          (int64_t)pieces * store->length[i], longest, joined);
            int64_t *swap = sums;
            sums = joined;
            joined = swap;
            done += pieces;
            filler->most_layers++;
        }
    }
    const bool fits = filler->count <= MOST_SUMS &&
                      filler->count * filler->most_layers <= MOST_TAKEN;
    if (fits) {
        filler->sums = ARENA_ARRAY(arena, int64_t, filler->count);
        memcpy(filler->sums, sums, filler->count * sizeof *sums);
        filler->best = ARENA_ARRAY(arena, int64_t, filler->count);
        filler->taken = ARENA_ARRAY(arena, unsigned char,
                                    filler->count * filler->most_layers + 1);
        filler->layers =
            ARENA_ARRAY(arena, struct bolts_layer, filler->most_layers + 1);
    }
    arena_destroy(scratch);
    return fits;
}

/* Layers of 1, 2, 4, ... and the rest make each count up to the most, and only
 * those, so a layer is taken or not (binary splitting, from memory). */
static void lay_layers(struct bolts_filler *filler, const int64_t *worth,
                       const size_t *most)
{
    const struct bolts_store *store = filler->store;
    const int64_t longest = filler->sums[filler->count - 1];
    filler->layer_count = 0;
    for (size_t i = 0; i < store->cuts; i++) {
        const size_t in_roll = most_in_roll(store, i, longest, most[i]);
        for (size_t done = 0; done < in_roll;) {
            const size_t pieces = next_layer(done, in_roll);
            filler->layers[filler->layer_count++] = (struct bolts_layer){
                i, pieces, (int64_t)pieces * store->length[i],
                (int64_t)pieces * worth[i]};
            done += pieces;
        }
    }
}

/* Takes the layer where that is worth more; from long sums to short ones, so
 * that it is taken once. `end`: sums from it on cannot be reached. */
static void fill_layer(struct bolts_filler *filler, size_t index, size_t end)
{
    const struct bolts_layer *layer = &filler->layers[index];
    unsigned char *taken = filler->taken + index * filler->count;
    const int64_t *sums = filler->sums;
    int64_t *best = filler->best;
    memset(taken, 0, filler->count);
    /* Both places only fall, so the sum without the layer is found by walking.
     */
    size_t before = end;
    for (size_t at = end; at-- > 0 && sums[at] >= layer->length;) {
        const int64_t sum = sums[at] - layer->length;
        while (sums[before - 1] > sum)
            before--;
        if (sums[before - 1] != sum || best[before - 1] == unreached ||
            best[before - 1] + layer->worth <= best[at])
            continue;
        best[at] = best[before - 1] + layer->worth;
        taken[at] = 1;
    }
}

/* Only sums that the layers so far can reach are looked at. */
void bolts_fill(struct bolts_filler *filler, struct bolts_store *store,
                const int64_t *worth, const size_t *most)
{
    int64_t reached = 0;
    size_t end = 1;
    lay_layers(filler, worth, most);
    for (size_t at = 0; at < filler->count; at++)
        filler->best[at] = unreached;
    filler->best[0] = 0;
    for (size_t l = 0; l < filler->layer_count; l++) {
        reached += filler->layers[l].length;
        while (end < filler->count && filler->sums[end] <= reached)
            end++;
        fill_layer(filler, l, end);
        store->work += 2 * end;
    }
}

/* The first of equal ones: the shortest sum, which leaves the longest end. */
bolts_wide bolts_fill_best(const struct bolts_filler *filler, size_t k,
                           const struct bolts_factors *factors, size_t *at)
{
    const struct bolts_store *store = filler->store;
    bolts_wide best = 0;
    *at = 0;
    for (size_t s = 1; s < filler->count; s++) {
        if (filler->sums[s] > store->kind[k].length)
            break;
        if (filler->best[s] == unreached)
            continue;
        const struct bolts_score score =
            bolts_score_of(store, k, filler->sums[s]);
        bolts_wide worth = filler->best[s];
        for (size_t g = GOAL_COST; g < BOLTS_GOALS; g++)
            worth += (bolts_wide)factors->of[g] * score.of[g];
        if (*at > 0 && worth <= best)
            continue;
        best = worth;
        *at = s;
    }
    return best;
}

/* Back through the layers, from the last to the first. */
void bolts_fill_made(const struct bolts_filler *filler, size_t at, size_t *made)
{
    memset(made, 0, filler->store->cuts * sizeof *made);
    for (size_t l = filler->layer_count; l > 0; l--) {
        const struct bolts_layer *layer = &filler->layers[l - 1];
        if (filler->taken[(l - 1) * filler->count + at] == 0)
            continue;
        made[layer->cut] += layer->pieces;
        const int64_t sum = filler->sums[at] - layer->length;
        while (filler->sums[at] != sum)
            at--;
    }
}
