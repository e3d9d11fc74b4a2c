/* The best filling of a strip by dynamic programming: of one height, or of all
 * heights in one go. */
#include <string.h>

#include "roll_master.h"

/* 1, 2, 4, ... pieces and the rest: every count from 0 up to the bound is a
 * sum of some of them (Martello and Toth, 1990). Sizes without worth are left
 * out, as they would only fill room. */
static size_t make_layers(const struct roll_master *master, size_t height,
                          const int64_t *worth, const size_t *most,
                          struct roll_layer *layers)
{
    const struct roll_height *strip = &master->heights.items[height];
    size_t count = 0;
    for (size_t i = 0; i < strip->ways.count; i++) {
        const struct roll_way *way = &strip->ways.items[i];
        const size_t fit = (size_t)(master->problem->width / way->along);
        size_t left = most[way->size];
        if (worth[way->size] <= 0)
            continue;
        if (left >= fit && fit > 1) {
            layers[count++] = (struct roll_layer){way->size, 1, way->along,
                                                  worth[way->size], true};
            continue;
        }
        for (size_t part = 1; left > 0; part *= 2) {
            const size_t pieces = part < left ? part : left;
            layers[count++] = (struct roll_layer){
                way->size, pieces, way->along * (int64_t)pieces,
                worth[way->size] * (int64_t)pieces, false};
            left -= pieces;
        }
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

/* In whole numbers, as its value takes part in proofs. The pattern is read back
 * from the last layer to the first, the reverse of how the table was filled. */
int64_t roll_knapsack(struct roll_master *master, size_t height,
                      const int64_t *worth, const size_t *most, size_t *made)
{
    struct roll_layer *layers = master->layers;
    const size_t count = make_layers(master, height, worth, most, layers);
    const int64_t width = master->problem->width;
    const size_t cells = (size_t)width + 1;
    memset(master->best, 0, cells * sizeof *master->best);
    for (size_t b = 0; b < count; b++)
        fill_layer(master->best, master->taken + b * cells, width, &layers[b]);
    /* The table, and what every call costs besides. */
    master->work += count * cells / 2 + 300;
    if (made == NULL)
        return master->best[width];
    memset(made, 0, master->problem->count * sizeof *made);
    int64_t w = width;
    for (size_t b = count; b-- > 0;) {
        const unsigned char *taken = master->taken + b * cells;
        while (w >= layers[b].along && taken[w]) {
            made[layers[b].size] += layers[b].pieces;
            w -= layers[b].along;
            if (!layers[b].any)
                break;
        }
    }
    return master->best[width];
}
