/* Which thing is which. Names come and go between revisions, so what a thing
 * makes counts before what it is called; only where that is no longer the same
 * do ids decide, and then likeness. Read next: match_steps.c. */
#include <string.h>

#include "compare_parts.h"
#include "name_table.h"

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
 * side. */
static int *assign_exactly(struct arena *arena, const long *gain, size_t old,
                           size_t changed)
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

/* One after the other, each with the best that is left, the first of equal
 * ones. */
static int *assign_in_turn(struct arena *arena, gain_between *gain,
                           const void *context, size_t old, size_t changed)
{
    int *found = ARENA_ARRAY(arena, int, old + 1);
    bool *taken = ARENA_ARRAY(arena, bool, changed + 1);
    for (size_t i = 0; i < old; i++) {
        long best = 0;
        found[i] = NOWHERE;
        for (size_t j = 0; j < changed; j++) {
            const long own = taken[j] ? 0 : gain(context, i, j);
            if (own > best) {
                best = own;
                found[i] = (int)j;
            }
        }
        if (found[i] != NOWHERE)
            taken[found[i]] = true;
    }
    return found;
}

/* A matrix that was made already. */
struct matrix {
    const long *gain;
    size_t columns;
};

static long gain_of_matrix(const void *context, size_t old, size_t changed)
{
    const struct matrix *matrix = context;
    return matrix->gain[old * matrix->columns + changed];
}

/* Rows and columns that have a gain at all, by their indexes. */
struct gaining {
    size_t *rows, *columns;
    size_t row_count, column_count;
};

static struct gaining find_gaining(struct arena *arena, const long *gain,
                                   size_t old, size_t changed)
{
    struct gaining g = {.rows = ARENA_ARRAY(arena, size_t, old + 1),
                        .columns = ARENA_ARRAY(arena, size_t, changed + 1)};
    bool *has = ARENA_ARRAY(arena, bool, changed + 1);
    for (size_t i = 0; i < old; i++) {
        bool any = false;
        for (size_t j = 0; j < changed; j++)
            if (gain[i * changed + j] > 0)
                any = has[j] = true;
        if (any)
            g.rows[g.row_count++] = i;
    }
    for (size_t j = 0; j < changed; j++)
        if (has[j])
            g.columns[g.column_count++] = j;
    return g;
}

/* A few seconds' worth; beyond it only what has a mate to find is assigned, and
 * beyond that again each in its turn. */
enum { ASSIGN_MOST = 500 };

int *assign_best(struct arena *arena, const long *gain, size_t old,
                 size_t changed)
{
    if (old <= ASSIGN_MOST && changed <= ASSIGN_MOST)
        return assign_exactly(arena, gain, old, changed);
    const struct gaining g = find_gaining(arena, gain, old, changed);
    if (g.row_count > ASSIGN_MOST || g.column_count > ASSIGN_MOST)
        return assign_in_turn(arena, gain_of_matrix,
                              &(struct matrix){gain, changed}, old, changed);
    long *least = ARENA_ARRAY(arena, long, g.row_count *g.column_count + 1);
    int *found = ARENA_ARRAY(arena, int, old + 1);
    for (size_t i = 0; i < g.row_count; i++)
        for (size_t j = 0; j < g.column_count; j++)
            least[i * g.column_count + j] =
                gain[g.rows[i] * changed + g.columns[j]];
    const int *mates =
        assign_exactly(arena, least, g.row_count, g.column_count);
    for (size_t i = 0; i < old; i++)
        found[i] = NOWHERE;
    for (size_t i = 0; i < g.row_count; i++)
        if (mates[i] != NOWHERE)
            found[g.rows[i]] = (int)g.columns[mates[i]];
    return found;
}

int *assign_by(struct arena *arena, gain_between *gain, const void *context,
               size_t old, size_t changed)
{
    if (are_many(old, changed))
        return assign_in_turn(arena, gain, context, old, changed);
    long *all = ARENA_ARRAY(arena, long, old *changed + 1);
    for (size_t i = 0; i < old; i++)
        for (size_t j = 0; j < changed; j++)
            all[i * changed + j] = gain(context, i, j);
    return assign_best(arena, all, old, changed);
}

/* A matrix of them would take more than some ten megabytes. */
bool are_many(size_t old, size_t changed)
{
    enum { MANY = 2000000 };
    return old > 0 && changed > MANY / old;
}

/* ---- fabrics and quilts ---- */

/* How often both revisions cut the same, by old fabric, then new one. */
static long *count_cut_alike(struct arena *arena, const struct revision *old,
                             const struct revision *changed)
{
    const size_t n = changed->fabrics.count;
    long *alike = ARENA_ARRAY(arena, long, old->fabrics.count *n + 1);
    for (size_t q = 0; q < old->quilts.count && q < changed->quilts.count;
         q++) {
        const struct revision_quilt *of = &old->quilts.items[q];
        const struct revision_quilt *to = &changed->quilts.items[q];
        for (size_t i = 0; i < of->pieces.count; i++)
            for (size_t j = 0; j < to->pieces.count; j++) {
                const struct revision_piece *a = &of->pieces.items[i];
                const struct revision_piece *b = &to->pieces.items[j];
                if (a->count == b->count &&
                    rational_equal(a->width, b->width) &&
                    rational_equal(a->height, b->height))
                    alike[(size_t)a->fabric * n + (size_t)b->fabric]++;
            }
    }
    return alike;
}

/* What is asked about two fabrics that have no mate by their ids. */
struct fabric_gains {
    const struct revision *old, *changed;
    const struct pairs *pairs;
    const long *alike; /* NULL: too many to count */
};

static long fabric_gain(const void *context, size_t i, size_t j)
{
    const struct fabric_gains *of = context;
    if (of->pairs->of[0][i] != NOWHERE || of->pairs->of[1][j] != NOWHERE)
        return 0;
    const long alike =
        of->alike == NULL ? 0 : of->alike[i * of->changed->fabrics.count + j];
    return 4 * alike +
           (strcmp(of->old->fabrics.items[i].name,
                   of->changed->fabrics.items[j].name) == 0) +
           (i == j);
}

/* ensures: true where none of the old ones is left. */
static bool match_by_id(struct arena *arena, struct pairs *pairs,
                        const struct revision *old,
                        const struct revision *changed)
{
    struct name_table ids = {0};
    bool all = true;
    for (size_t j = 0; j < changed->fabrics.count; j++)
        name_table_add(arena, &ids, changed->fabrics.items[j].id, j);
    for (size_t i = 0; i < old->fabrics.count; i++) {
        size_t j;
        const bool found =
            name_table_find(&ids, old->fabrics.items[i].id, &j);
        if (found)
            pair_up(pairs, i, j);
        all &= found;
    }
    return all;
}

/* The rest of a list of names, by likeness; the order breaks ties. */
struct pairs match_fabrics(struct arena *arena, const struct revision *old,
                           const struct revision *changed)
{
    const size_t m = old->fabrics.count, n = changed->fabrics.count;
    struct pairs pairs = pairs_new(arena, m, n);
    if (match_by_id(arena, &pairs, old, changed))
        return pairs;
    const struct fabric_gains gains = {
        old, changed, &pairs,
        are_many(m, n) ? NULL : count_cut_alike(arena, old, changed)};
    const int *found = assign_by(arena, fabric_gain, &gains, m, n);
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
