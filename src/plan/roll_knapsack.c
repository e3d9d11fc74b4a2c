/* The best filling of a strip by dynamic programming: of one height, or of all
 * heights in one go. */
#include <string.h>

#include "roll_master.h"

/* 1, 2, 4, ... pieces and the rest: every count from 0 up to the bound is a
 * sum of some of them (Martello and Toth, 1990). Sizes without worth are left
 * out, as they would only fill room.
 * gives: how many layers there are then. */
static size_t add_layers(const struct roll_master *master,
                         const struct roll_way *way, int64_t worth, size_t most,
                         size_t count)
{
    struct roll_layer *layers = master->layers;
    const size_t fit = (size_t)(master->problem->width / way->along);
    if (worth <= 0)
        return count;
    if (most >= fit && fit > 1) {
        layers[count++] =
            (struct roll_layer){way->size, 1, way->along, worth, true};
        return count;
    }
    for (size_t part = 1; most > 0; part *= 2) {
        const size_t pieces = part < most ? part : most;
        layers[count++] =
            (struct roll_layer){way->size, pieces, way->along * (int64_t)pieces,
                                worth * (int64_t)pieces, false};
        most -= pieces;
    }
    return count;
}

/* From the left where a layer may be taken again, from the right where only
 * once. */
static void fill_layer(int64_t *best, unsigned char *taken, int64_t width,
                       const struct roll_layer *layer)
{
    const int64_t along = layer->along, worth = layer->worth;
    if (layer->any) {
        for (int64_t w = along; w <= width; w++) {
            const int64_t with = best[w - along] + worth;
            taken[w] = with > best[w];
            best[w] = taken[w] ? with : best[w];
        }
        return;
    }
    for (int64_t w = width; w >= along; w--) {
        const int64_t with = best[w - along] + worth;
        taken[w] = with > best[w];
        best[w] = taken[w] ? with : best[w];
    }
}

/* Fills the layers from `first` on into the table. */
static void fill_layers(struct roll_master *master, size_t first, size_t end)
{
    const int64_t width = master->problem->width;
    const size_t cells = (size_t)width + 1;
    for (size_t b = first; b < end; b++)
        fill_layer(master->best, master->taken + b * cells, width,
                   &master->layers[b]);
    master->work += (end - first) * cells / 2;
}

/* The pattern of so many layers in a width, from the last one to the first: the
 * reverse of how the table was filled. */
static void read_pattern(const struct roll_master *master, size_t layers,
                         int64_t w, size_t *made)
{
    const size_t cells = (size_t)master->problem->width + 1;
    for (size_t b = layers; b-- > 0;) {
        const struct roll_layer *layer = &master->layers[b];
        const unsigned char *taken = master->taken + b * cells;
        while (w >= layer->along && taken[w]) {
            made[layer->size] += layer->pieces;
            w -= layer->along;
            if (!layer->any)
                break;
        }
    }
}

/* In whole numbers, as its value takes part in proofs. */
int64_t roll_knapsack(struct roll_master *master, size_t height,
                      const int64_t *worth, const size_t *most, size_t *made)
{
    const struct roll_height *strip = &master->heights.items[height];
    const int64_t width = master->problem->width;
    size_t count = 0;
    for (size_t i = 0; i < strip->ways.count; i++) {
        const struct roll_way *way = &strip->ways.items[i];
        count =
            add_layers(master, way, worth[way->size], most[way->size], count);
    }
    memset(master->best, 0, ((size_t)width + 1) * sizeof *master->best);
    fill_layers(master, 0, count);
    master->work += 300; /* what every call costs besides */
    if (made != NULL) {
        memset(made, 0, master->problem->count * sizeof *made);
        read_pattern(master, count, width, made);
    }
    return master->best[width];
}

/* ---- strips that are worth more for what they hold ---- */

static int64_t bonus_of(const struct roll_bonus *bonuses, size_t bonus_count,
                        size_t size, size_t pieces)
{
    int64_t bonus = 0;
    for (size_t i = 0; i < bonus_count; i++)
        if (bonuses[i].size == size && pieces >= bonuses[i].from)
            bonus += bonuses[i].bonus;
    return bonus;
}

static bool has_bonus(const struct roll_bonus *bonuses, size_t bonus_count,
                      size_t size)
{
    for (size_t i = 0; i < bonus_count; i++)
        if (bonuses[i].size == size)
            return true;
    return false;
}

/* Every count of a size that fits, from the right: the table to the left is
 * still without it. `chosen` gets the best count by width. */
static void fill_counts(struct roll_master *master, const struct roll_way *way,
                        const int64_t *value, size_t most, size_t *chosen)
{
    int64_t *best = master->best;
    for (int64_t w = master->problem->width; w >= 0; w--) {
        chosen[w] = 0;
        for (size_t n = 1; n <= most && way->along * (int64_t)n <= w; n++) {
            const int64_t with = best[w - way->along * (int64_t)n] + value[n];
            if (with <= best[w])
                continue;
            best[w] = with;
            chosen[w] = n;
        }
    }
    master->work += (uint64_t)master->problem->width * most / 2;
}

int64_t roll_knapsack_with(struct roll_master *master, size_t height,
                           const int64_t *worth, const size_t *most,
                           const struct roll_bonus *bonuses, size_t bonus_count,
                           size_t *made)
{
    if (bonus_count == 0)
        return roll_knapsack(master, height, worth, most, made);
    const struct roll_height *strip = &master->heights.items[height];
    const int64_t width = master->problem->width;
    const size_t cells = (size_t)width + 1;
    struct arena *scratch = arena_create();
    size_t *chosen = ARENA_ARRAY(scratch, size_t, cells * bonus_count);
    int64_t *value = ARENA_ARRAY(scratch, int64_t, cells);
    const struct roll_way **ways =
        ARENA_ARRAY(scratch, const struct roll_way *, bonus_count);
    size_t layers = 0, counted = 0;
    for (size_t i = 0; i < strip->ways.count; i++) {
        const struct roll_way *way = &strip->ways.items[i];
        if (has_bonus(bonuses, bonus_count, way->size))
            ways[counted++] = way;
        else
            layers = add_layers(master, way, worth[way->size], most[way->size],
                                layers);
    }
    memset(master->best, 0, cells * sizeof *master->best);
    fill_layers(master, 0, layers);
    for (size_t c = 0; c < counted; c++) {
        const size_t size = ways[c]->size;
        const size_t fit = (size_t)(width / ways[c]->along);
        const size_t limit = most[size] < fit ? most[size] : fit;
        for (size_t n = 1; n <= limit; n++)
            value[n] = worth[size] * (int64_t)n +
                       bonus_of(bonuses, bonus_count, size, n);
        fill_counts(master, ways[c], value, limit, chosen + c * cells);
    }
    memset(made, 0, master->problem->count * sizeof *made);
    int64_t w = width;
    for (size_t c = counted; c-- > 0;) {
        const size_t n = chosen[c * cells + (size_t)w];
        made[ways[c]->size] = n;
        w -= ways[c]->along * (int64_t)n;
    }
    read_pattern(master, layers, w, made);
    arena_destroy(scratch);
    return master->best[width];
}

/* ---- all heights ---- */

/* What fits a strip fits all higher ones of a trimmed plan, so that one table
 * serves them all, filled by what each height adds. A size may lie in it both
 * ways, and then more often than it is asked for: what a strip is worth is
 * never too little. */
void roll_sweep(struct roll_master *master, const int64_t *worth,
                const size_t *most)
{
    const int64_t width = master->problem->width;
    size_t count = 0;
    memset(master->best, 0, ((size_t)width + 1) * sizeof *master->best);
    for (size_t k = 0; k < master->heights.count; k++) {
        const struct roll_height *height = &master->heights.items[k];
        const size_t first = count;
        for (size_t i = 0; i < height->begun.count; i++) {
            const struct roll_way *way = &height->begun.items[i];
            count = add_layers(master, way, worth[way->size], most[way->size],
                               count);
        }
        fill_layers(master, first, count);
        master->swept[k] = (struct roll_swept){master->best[width], count};
    }
    master->work += 300;
}

void roll_swept_pattern(const struct roll_master *master, size_t height,
                        const size_t *most, size_t *made)
{
    memset(made, 0, master->problem->count * sizeof *made);
    read_pattern(master, master->swept[height].layers, master->problem->width,
                 made);
    for (size_t i = 0; i < master->problem->count; i++)
        if (made[i] > most[i])
            made[i] = most[i];
}
