/* What can be saved of cloth that was cut by the old revision: kept as it is,
 * trimmed to another size, or cut anew. */
#include "compare_parts.h"

#include <stdlib.h>
#include <string.h>

/* Looks for another one to give are counted, for a quilt of thousands of sizes:
 * beyond so many, what is given stays given. */
enum { EXCHANGE_WORK = 20000000 };

/* Pieces that are left to be served, and to serve. */
struct stock {
    size_t *left, *wanted;
    size_t *flow; /* by old, then new */
    size_t old, changed;
    size_t work; /* looks that are left */
};

/* May the new one be cut from the old one? */
static bool fits(const struct quilt_pair *pair, size_t old, size_t changed)
{
    const struct revision_piece *a = &pair->quilt[0]->pieces.items[old];
    const struct revision_piece *b = &pair->quilt[1]->pieces.items[changed];
    /* One strip of a border would serve as one small piece. */
    if (a->strip || b->strip || (a->border > 0) != (b->border > 0) ||
        pair->fabrics->of[0][a->fabric] != b->fabric)
        return false;
    /* What has slanted edges is trimmed to no other size. */
    if (a->shape[0] != '\0' || b->shape[0] != '\0')
        return strcmp(a->shape, b->shape) == 0 &&
               rational_equal(a->width, b->width) &&
               rational_equal(a->height, b->height);
    const bool way =
        pair->comparison->revisions[1]->fabrics.items[b->fabric].one_way;
    if (!rational_known(rational_mul(a->width, a->height)) ||
        !rational_known(rational_mul(b->width, b->height)))
        return false; /* data without a size */
    return (rational_compare(b->width, a->width) <= 0 &&
            rational_compare(b->height, a->height) <= 0) ||
           (!way && rational_compare(b->width, a->height) <= 0 &&
            rational_compare(b->height, a->width) <= 0);
}

/* Does it serve as it is? */
static bool is_whole(const struct quilt_pair *pair, size_t old, size_t changed)
{
    const struct revision_piece *a = &pair->quilt[0]->pieces.items[old];
    const struct revision_piece *b = &pair->quilt[1]->pieces.items[changed];
    return fits(pair, old, changed) &&
           rational_equal(rational_mul(a->width, a->height),
                          rational_mul(b->width, b->height));
}

/* Of two counts. */
static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* One more piece of `target` from cloth that is left, perhaps by giving another
 * old one to those that have it: a way of steps old to new to old. ensures:
 * how many, and they are noted; 0 for none. */
static size_t serve(const struct quilt_pair *pair, struct stock *stock,
                    size_t target, bool *visited)
{
    for (size_t i = 0; i < stock->old; i++) {
        if (visited[i] || !fits(pair, i, target))
            continue;
        visited[i] = true;
        if (stock->left[i] > 0) {
            const size_t count = least(stock->left[i], stock->wanted[target]);
            stock->left[i] -= count;
            stock->flow[i * stock->changed + target] += count;
            return count;
        }
        /* Those that have it get another; this one is free for us then. */
        for (size_t j = 0; j < stock->changed && stock->work > 0; j++) {
            stock->work--;
            size_t *taken = &stock->flow[i * stock->changed + j];
            if (*taken == 0 || j == target || is_whole(pair, i, j))
                continue;
            const size_t before = stock->wanted[j];
            stock->wanted[j] = least(*taken, stock->wanted[target]);
            const size_t count = serve(pair, stock, j, visited);
            stock->wanted[j] = before;
            if (count == 0)
                continue;
            *taken -= count;
            stock->flow[i * stock->changed + target] += count;
            return count;
        }
    }
    return 0;
}

/* What serves as it is: whoever else took it would leave a larger one for this
 * size, which serves that one as well, so that none is lost by it. */
static void keep_whole(struct quilt_pair *pair, struct stock *stock)
{
    for (size_t i = 0; i < stock->old; i++)
        for (size_t j = 0; j < stock->changed; j++) {
            if (!is_whole(pair, i, j))
                continue;
            const size_t count = least(stock->left[i], stock->wanted[j]);
            stock->left[i] -= count;
            stock->wanted[j] -= count;
            stock->flow[i * stock->changed + j] += count;
        }
}

/* A new piece, to be sorted by its area. */
struct sized_piece {
    struct rational area;
    size_t index;
};

/* The largest first; equal ones in their order. */
static int by_area(const void *a, const void *b)
{
    const struct sized_piece *one = a, *other = b;
    const int order = compare_lengths(other->area, one->area);
    return order != 0 ? order : one->index < other->index ? -1 : 1;
}

static struct sized_piece *sort_by_area(const struct quilt_pair *pair)
{
    const struct revision_quilt *quilt = pair->quilt[1];
    struct sized_piece *sorted = ARENA_ARRAY(pair->arena, struct sized_piece,
                                             quilt->pieces.count + 1);
    for (size_t j = 0; j < quilt->pieces.count; j++)
        sorted[j] = (struct sized_piece){
            rational_mul(quilt->pieces.items[j].width,
                         quilt->pieces.items[j].height),
            j};
    qsort(sorted, quilt->pieces.count, sizeof *sorted, by_area);
    return sorted;
}

/* The largest first: which sets of new pieces can be served is a matroid, as of
 * any matching, so that greed serves the most area (tests try all ways of small
 * ones). */
static void serve_all(struct quilt_pair *pair, struct stock *stock)
{
    bool *visited = ARENA_ARRAY(pair->arena, bool, stock->old + 1);
    const struct sized_piece *sorted = sort_by_area(pair);
    for (size_t turn = 0; turn < stock->changed; turn++) {
        const size_t largest = sorted[turn].index;
        size_t count = 1;
        while (stock->wanted[largest] > 0 && count > 0) {
            for (size_t i = 0; i < stock->old; i++)
                visited[i] = false;
            count = serve(pair, stock, largest, visited);
            stock->wanted[largest] -= count;
        }
    }
}

/* Nothing is no line of the list. */
static void add_saved(struct quilt_pair *pair, enum saving saving, int old,
                      int changed, size_t count)
{
    if (count > 0)
        *LIST_ADD(pair->arena, &pair->comparison->saved) =
            (struct saved){
                saving, pair->index[1], old, changed,
                old == NOWHERE ? "" : pair->quilt[0]->pieces.items[old].label,
                count};
}

/* Strips of a binding are no pieces: they are sewn together, and fit or not. */
static struct stock take_stock(const struct quilt_pair *pair)
{
    struct stock stock = {.old = pair->pieces.counts[0],
                          .changed = pair->pieces.counts[1],
                          .work = EXCHANGE_WORK};
    stock.left = ARENA_ARRAY(pair->arena, size_t, stock.old + 1);
    stock.wanted = ARENA_ARRAY(pair->arena, size_t, stock.changed + 1);
    stock.flow = ARENA_ARRAY(pair->arena, size_t, stock.old *stock.changed + 1);
    for (size_t i = 0; i < stock.old; i++)
        if (!pair->quilt[0]->pieces.items[i].strip)
            stock.left[i] = cut_by_hand(&pair->quilt[0]->pieces.items[i]);
    for (size_t j = 0; j < stock.changed; j++)
        if (!pair->quilt[1]->pieces.items[j].strip)
            stock.wanted[j] = cut_by_hand(&pair->quilt[1]->pieces.items[j]);
    return stock;
}

/* Of so many sizes it would be no list that anyone goes by. Else by the new
 * pieces in their order: what serves for each, then what of it must
 * be cut anew; in the end what of the old ones is left over. */
void save_pieces(struct quilt_pair *pair)
{
    if (!pair->pieces_changed ||
        are_many(pair->pieces.counts[0], pair->pieces.counts[1]))
        return;
    struct stock stock = take_stock(pair);
    keep_whole(pair, &stock);
    serve_all(pair, &stock);
    for (size_t j = 0; j < stock.changed; j++) {
        for (size_t i = 0; i < stock.old; i++)
            if (stock.flow[i * stock.changed + j] > 0)
                add_saved(pair,
                          is_whole(pair, i, j) ? SAVED_WHOLE : SAVED_TRIMMED,
                          (int)i, (int)j, stock.flow[i * stock.changed + j]);
        add_saved(pair, SAVED_NOT, NOWHERE, (int)j, stock.wanted[j]);
    }
    for (size_t i = 0; i < stock.old; i++)
        add_saved(pair, SAVED_NOT, (int)i, NOWHERE, stock.left[i]);
}
