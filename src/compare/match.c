/* Which thing is which. Names come and go between revisions, so what a thing
 * makes counts before what it is called; only where that is no longer the same
 * do ids decide, and then likeness. Read next: match_steps.c. */
#include <string.h>

#include "compare_parts.h"

/* Nothing has its mate yet. */
struct pairs pairs_new(struct arena *arena, size_t old, size_t changed)
{
    struct pairs pairs = {.counts = {old, changed}};
    for (int side = 0; side < 2; side++) {
        pairs.of[side] = ARENA_ARRAY(arena, int, pairs.counts[side] + 1);
        for (size_t i = 0; i < pairs.counts[side]; i++)
            pairs.of[side][i] = NOWHERE;
    }
    return pairs;
}

/* Both ways, so that either revision can be asked. */
void pair_up(struct pairs *pairs, size_t old, size_t changed)
{
    pairs->of[0][old] = (int)changed;
    pairs->of[1][changed] = (int)old;
}

/* ---- assignment ---- */

/* Who is whose successor is one choice for all together: the best mate of one
 * may be the only one of another. The gain of all pairs in sum is greatest; of
 * several such choices it is the one that the order of the lists gives, so that
 * two runs never differ. */

/* One row more is assigned: the shortest way from it over tight columns to a
 * free one, by which the columns on the way change their rows (the Hungarian
 * method, from memory; tests hold it to a search over all assignments). Rows
 * and columns count from 1; column 0 holds the row that is on its way. */
static void assign_row(const long *cost, size_t size, long *row_price,
                       long *column_price, size_t *row_of, size_t row,
                       long *least, size_t *from, bool *seen)
{
    size_t column = 0;
    row_of[0] = row;
    for (size_t j = 0; j <= size; j++) {
        least[j] = INT64_MAX;
        seen[j] = false;
    }
    do {
        const size_t at = row_of[column];
        size_t next = 0;
        long step = INT64_MAX;
        seen[column] = true;
        for (size_t j = 1; j <= size; j++) {
            const long reduced = cost[(at - 1) * size + j - 1] -
                                 row_price[at] - column_price[j];
            if (!seen[j] && reduced < least[j]) {
                least[j] = reduced;
                from[j] = column;
            }
            if (!seen[j] && least[j] < step) {
                step = least[j];
                next = j;
            }
        }
        for (size_t j = 0; j <= size; j++) {
            if (seen[j]) {
                row_price[row_of[j]] += step;
                column_price[j] -= step;
            } else {
                least[j] -= step;
            }
        }
        column = next;
    } while (row_of[column] != 0);
    for (; column != 0; column = from[column])
        row_of[column] = row_of[from[column]];
}

/* The matrix is made square by rows and columns without gain; whatever they are
 * given to counts as without a mate. Time grows with the cube of the longer
 * side, and only what nothing else could match comes here. */
int *assign_best(struct arena *arena, const long *gain, size_t old, size_t changed)
{
    const size_t size = old > changed ? old : changed;
    int *found = ARENA_ARRAY(arena, int, old + 1);
    long *cost = ARENA_ARRAY(arena, long, size *size + 1);
    long *prices = ARENA_ARRAY(arena, long, 3 * (size + 1));
    size_t *rows = ARENA_ARRAY(arena, size_t, 2 * (size + 1));
    bool *seen = ARENA_ARRAY(arena, bool, size + 1);
    for (size_t i = 0; i < old; i++)
        for (size_t j = 0; j < changed; j++)
            cost[i * size + j] = -gain[i * changed + j];
    for (size_t i = 1; i <= size; i++)
        assign_row(cost, size, prices, prices + size + 1, rows, i,
                   prices + 2 * (size + 1), rows + size + 1, seen);
    for (size_t i = 0; i < old; i++)
        found[i] = NOWHERE;
    for (size_t j = 1; j <= size; j++) {
        const size_t i = rows[j] - 1;
        if (i < old && j <= changed && gain[i * changed + j - 1] > 0)
            found[i] = (int)j - 1;
    }
    return found;
}

/* ---- fabrics and quilts ---- */

/* How often both revisions cut the same from the two fabrics. */
static long cut_alike(const struct revision *old,
                      const struct revision *changed, int a, int b)
{
    long alike = 0;
    for (size_t q = 0; q < old->quilts.count && q < changed->quilts.count;
         q++) {
        const struct revision_quilt *of = &old->quilts.items[q];
        const struct revision_quilt *to = &changed->quilts.items[q];
        for (size_t i = 0; i < of->pieces.count; i++)
            for (size_t j = 0; j < to->pieces.count; j++) {
                const struct revision_piece *p = &of->pieces.items[i];
                const struct revision_piece *n = &to->pieces.items[j];
                alike += p->fabric == a && n->fabric == b &&
                         p->count == n->count &&
                         rational_equal(p->width, n->width) &&
                         rational_equal(p->height, n->height);
            }
    }
    return alike;
}

/* The rest of a list of names, by likeness; the order breaks ties. */
struct pairs match_fabrics(struct arena *arena, const struct revision *old,
                           const struct revision *changed)
{
    const size_t m = old->fabrics.count, n = changed->fabrics.count;
    struct pairs pairs = pairs_new(arena, m, n);
    long *gain = ARENA_ARRAY(arena, long, m *n + 1);
    for (size_t i = 0; i < m; i++)
        for (size_t j = 0; j < n; j++)
            if (strcmp(old->fabrics.items[i].id, changed->fabrics.items[j].id) ==
                0)
                pair_up(&pairs, i, j);
    for (size_t i = 0; i < m; i++)
        for (size_t j = 0; j < n; j++)
            if (pairs.of[0][i] == NOWHERE && pairs.of[1][j] == NOWHERE)
                gain[i * n + j] =
                    4 * cut_alike(old, changed, (int)i, (int)j) +
                    (strcmp(old->fabrics.items[i].name,
                            changed->fabrics.items[j].name) == 0) +
                    (i == j);
    const int *found = assign_best(arena, gain, m, n);
    for (size_t i = 0; i < m; i++)
        if (found[i] != NOWHERE)
            pair_up(&pairs, i, (size_t)found[i]);
    return pairs;
}

/* Quilts keep their order where they are renamed. */
struct pairs match_quilts(struct arena *arena, const struct revision *old,
                          const struct revision *changed)
{
    struct pairs pairs =
        pairs_new(arena, old->quilts.count, changed->quilts.count);
    for (size_t i = 0; i < old->quilts.count; i++)
        for (size_t j = 0; j < changed->quilts.count; j++)
            if (strcmp(old->quilts.items[i].id, changed->quilts.items[j].id) ==
                0)
                pair_up(&pairs, i, j);
    size_t j = 0;
    for (size_t i = 0; i < old->quilts.count; i++) {
        while (j < changed->quilts.count && pairs.of[1][j] != NOWHERE)
            j++;
        if (pairs.of[0][i] == NOWHERE && j < changed->quilts.count)
            pair_up(&pairs, i, j);
    }
    return pairs;
}

/* ---- pieces ---- */

/* Cloth without a way may be cut either way round. */
bool same_piece(const struct quilt_pair *pair, size_t old, size_t changed)
{
    const struct revision_piece *a = &pair->quilt[0]->pieces.items[old];
    const struct revision_piece *b = &pair->quilt[1]->pieces.items[changed];
    const struct revision *const *r = pair->comparison->revisions;
    if (pair->fabrics->of[0][a->fabric] != b->fabric ||
        a->border != b->border || a->strip != b->strip)
        return false;
    const bool way = r[0]->fabrics.items[a->fabric].one_way ||
                     r[1]->fabrics.items[b->fabric].one_way;
    return (rational_equal(a->width, b->width) &&
            rational_equal(a->height, b->height)) ||
           (!way && rational_equal(a->width, b->height) &&
            rational_equal(a->height, b->width));
}

/* Those of one label first, so that two that are alike keep theirs. */
void match_pieces(struct quilt_pair *of)
{
    const struct revision_quilt *old = of->quilt[0], *changed = of->quilt[1];
    of->pieces = pairs_new(of->arena, old->pieces.count, changed->pieces.count);
    for (int labels = 1; labels >= 0; labels--)
        for (size_t i = 0; i < old->pieces.count; i++)
            for (size_t j = 0; j < changed->pieces.count; j++)
                if (of->pieces.of[0][i] == NOWHERE &&
                    of->pieces.of[1][j] == NOWHERE && same_piece(of, i, j) &&
                    (labels == 0 || strcmp(old->pieces.items[i].label,
                                           changed->pieces.items[j].label) == 0))
                    pair_up(&of->pieces, i, j);
}
