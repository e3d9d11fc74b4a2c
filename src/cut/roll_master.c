/* The linear programme over strip patterns, solved by the revised simplex
 * method; patterns are priced by a bounded knapsack, one for each height. */
#include "roll_master.h"

#include "rational.h"

#include <math.h>
#include <string.h>

__extension__ typedef __int128 wide;

enum { SCALE = 1 << 20, MOST_ROUNDS = 4000 };
static const double tiny = 1e-9;

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

/* The tables of the knapsack are made once, for the most bundles that any
 * strip can need: the binary digits of all demands. */
bool roll_master_init(struct roll_master *master, struct arena *arena,
                      const struct roll_problem *problem)
{
    *master = (struct roll_master){.arena = arena, .problem = problem};
    const size_t count = problem->count;
    size_t splits = 1;
    for (size_t i = 0; i < count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        if (size->width <= problem->width)
            add_height(master, size->height);
        if (size->turns && size->height <= problem->width)
            add_height(master, size->width);
        for (size_t n = size->demand; n > 0; n /= 2)
            splits++;
    }
    for (size_t i = 0; i < count; i++)
        if (!add_ways(master, i))
            return false;
    const size_t cells = (size_t)problem->width + 1;
    master->inverse = ARENA_ARRAY(arena, double, count *count);
    master->basis = ARENA_ARRAY(arena, long, count);
    master->value = ARENA_ARRAY(arena, double, count);
    master->dual = ARENA_ARRAY(arena, double, count);
    master->best = ARENA_ARRAY(arena, int64_t, cells);
    master->taken = ARENA_ARRAY(arena, unsigned char, cells *splits);
    return true;
}

/* ---- one strip ---- */

/* A bundle of like pieces: bounded counts are split into powers of two. */
struct bundle {
    size_t size, pieces;
    int64_t along, worth;
};

/* 1, 2, 4, ... pieces and the rest: every count from 0 up to the bound is a
 * sum of some of them (Martello and Toth, 1990). Sizes without worth are left
 * out, as they would only fill room. */
static size_t make_bundles(const struct roll_master *master, size_t height,
                           const int64_t *worth, const size_t *most,
                           struct bundle *bundles, size_t limit)
{
    const struct roll_height *strip = &master->heights.items[height];
    size_t count = 0;
    for (size_t i = 0; i < strip->ways.count; i++) {
        const struct roll_way *way = &strip->ways.items[i];
        const size_t fit = (size_t)(master->problem->width / way->along);
        size_t left = most[way->size] < fit ? most[way->size] : fit;
        if (worth[way->size] <= 0)
            continue;
        for (size_t part = 1; left > 0 && count < limit; part *= 2) {
            const size_t pieces = part < left ? part : left;
            bundles[count++] =
                (struct bundle){way->size, pieces, way->along * (int64_t)pieces,
                                worth[way->size] * (int64_t)pieces};
            left -= pieces;
        }
    }
    return count;
}

int64_t roll_knapsack(struct roll_master *master, size_t height,
                      const int64_t *worth, const size_t *most, size_t *made)
{
    enum { MOST_BUNDLES = 4096 };
    struct bundle bundles[MOST_BUNDLES];
    const size_t count =
        make_bundles(master, height, worth, most, bundles, MOST_BUNDLES);
    const int64_t width = master->problem->width;
    const size_t cells = (size_t)width + 1;
    memset(master->best, 0, cells * sizeof *master->best);
    for (size_t b = 0; b < count; b++) {
        unsigned char *taken = master->taken + b * cells;
        if (made != NULL)
            memset(taken, 0, cells);
        for (int64_t w = width; w >= bundles[b].along; w--) {
            const int64_t with =
                master->best[w - bundles[b].along] + bundles[b].worth;
            if (with <= master->best[w])
                continue;
            master->best[w] = with;
            taken[w] = made != NULL;
        }
    }
    /* The table, and what every call costs besides. */
    master->work += count * cells + 300;
    if (made == NULL)
        return master->best[width];
    memset(made, 0, master->problem->count * sizeof *made);
    int64_t w = width;
    for (size_t b = count; b-- > 0;) {
        if (!master->taken[b * cells + (size_t)w])
            continue;
        made[bundles[b].size] += bundles[b].pieces;
        w -= bundles[b].along;
    }
    return master->best[width];
}

/* ---- the linear programme ---- */

size_t roll_master_column(struct roll_master *master, size_t height,
                          const size_t *made)
{
    const size_t count = master->problem->count;
    for (size_t i = 0; i < master->columns.count; i++)
        if (master->columns.items[i].height == height &&
            memcmp(master->columns.items[i].made, made, count * sizeof *made) ==
                0)
            return i;
    size_t *copy = ARENA_ARRAY(master->arena, size_t, count);
    memcpy(copy, made, count * sizeof *copy);
    *LIST_ADD(master->arena, &master->columns) =
        (struct roll_column){height, copy};
    return master->columns.count - 1;
}

/* The price of a strip is its height: the width is bought anyway. A surplus,
 * a piece more than is asked, costs nothing. */
static double column_cost(const struct roll_master *master, long column)
{
    if (column < 0)
        return 0.0;
    const size_t height = master->columns.items[column].height;
    return (double)master->heights.items[height].height;
}

/* The strip of one size alone that costs least for a piece. */
static size_t own_column(struct roll_master *master, size_t size, size_t demand)
{
    const size_t count = master->problem->count;
    size_t *made = ARENA_ARRAY(master->arena, size_t, count);
    size_t best = 0, pieces = 0;
    for (size_t k = 0; k < master->heights.count; k++) {
        const struct roll_height *height = &master->heights.items[k];
        for (size_t i = 0; i < height->ways.count; i++) {
            if (height->ways.items[i].size != size)
                continue;
            size_t fit =
                (size_t)(master->problem->width / height->ways.items[i].along);
            fit = fit < demand ? fit : demand;
            if (pieces == 0 ||
                height->height * (int64_t)pieces <
                    master->heights.items[best].height * (int64_t)fit) {
                best = k;
                pieces = fit;
            }
        }
    }
    made[size] = pieces;
    return roll_master_column(master, best, made);
}

/* Starts from a strip of its own for each size. */
static void start_basis(struct roll_master *master, const size_t *demand)
{
    const size_t count = master->problem->count;
    memset(master->inverse, 0, count * count * sizeof *master->inverse);
    for (size_t i = 0; i < count; i++) {
        if (demand[i] == 0) {
            master->basis[i] = -1 - (long)i;
            master->inverse[i * count + i] = -1.0;
            master->value[i] = 0.0;
            continue;
        }
        const size_t column = own_column(master, i, demand[i]);
        const double made = (double)master->columns.items[column].made[i];
        master->basis[i] = (long)column;
        master->inverse[i * count + i] = 1.0 / made;
        master->value[i] = (double)demand[i] / made;
    }
}

/* dual = cost of basis x inverse: what one more piece of each size would cost
 * at the margin. */
static void find_duals(struct roll_master *master)
{
    const size_t count = master->problem->count;
    for (size_t i = 0; i < count; i++) {
        double sum = 0.0;
        for (size_t row = 0; row < count; row++)
            sum += column_cost(master, master->basis[row]) *
                   master->inverse[row * count + i];
        master->dual[i] = sum;
    }
}

/* Brings a column into the basis. False where nothing limits it (it does not
 * happen with costs above 0). */
static bool pivot(struct roll_master *master, long entering, double *change)
{
    const size_t count = master->problem->count;
    size_t leaving = count;
    double least = 0.0;
    for (size_t row = 0; row < count; row++) {
        double sum = 0.0;
        for (size_t i = 0; i < count; i++) {
            const double coefficient =
                entering < 0 ? (i == (size_t)(-1 - entering) ? -1.0 : 0.0)
                             : (double)master->columns.items[entering].made[i];
            sum += master->inverse[row * count + i] * coefficient;
        }
        change[row] = sum;
        if (sum <= tiny)
            continue;
        const double ratio = master->value[row] / sum;
        if (leaving == count || ratio < least - tiny ||
            (ratio < least + tiny && sum > change[leaving])) {
            leaving = row;
            least = ratio;
        }
    }
    if (leaving == count)
        return false;
    const double scale = change[leaving];
    for (size_t i = 0; i < count; i++)
        master->inverse[leaving * count + i] /= scale;
    for (size_t row = 0; row < count; row++) {
        if (row == leaving || fabs(change[row]) < 1e-14)
            continue;
        for (size_t i = 0; i < count; i++)
            master->inverse[row * count + i] -=
                change[row] * master->inverse[leaving * count + i];
        master->value[row] -= change[row] * least;
        if (master->value[row] < 0.0)
            master->value[row] = 0.0;
    }
    master->work += 4 * count * count;
    master->value[leaving] = least;
    master->basis[leaving] = entering;
    return true;
}

/* The column that gains most, or none (false): a surplus whose piece is worth
 * less than nothing, else the strip worth most above its height. */
static bool price(struct roll_master *master, const size_t *demand,
                  int64_t *worth, size_t *made, size_t *best_made,
                  long *entering)
{
    const size_t count = master->problem->count;
    for (size_t i = 0; i < count; i++) {
        if (master->dual[i] < -1e-7) {
            *entering = -1 - (long)i;
            return true;
        }
        worth[i] = demand[i] == 0 ? 0 : (int64_t)(master->dual[i] * SCALE);
    }
    double most = 1e-5;
    size_t best = master->heights.count;
    for (size_t k = 0; k < master->heights.count; k++) {
        const double height = (double)master->heights.items[k].height;
        const double value =
            (double)roll_knapsack(master, k, worth, demand, made) / SCALE;
        const double gain = value / height - 1.0;
        if (gain <= most)
            continue;
        most = gain;
        best = k;
        memcpy(best_made, made, count * sizeof *made);
    }
    if (best == master->heights.count)
        return false;
    *entering = (long)roll_master_column(master, best, best_made);
    return true;
}

/* Rounds are few: each adds the best strip for the duals of the last. The limit
 * only guards against circling in degenerate programmes. */
double roll_master_solve(struct roll_master *master, const size_t *demand)
{
    const size_t count = master->problem->count;
    master->work += 20000; /* memory for the solution */
    struct arena *scratch = arena_create();
    double *change = ARENA_ARRAY(scratch, double, count);
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    size_t *made = ARENA_ARRAY(scratch, size_t, count);
    size_t *best_made = ARENA_ARRAY(scratch, size_t, count);
    start_basis(master, demand);
    for (int round = 0; round < MOST_ROUNDS; round++) {
        long entering = 0;
        find_duals(master);
        if (!price(master, demand, worth, made, best_made, &entering) ||
            !pivot(master, entering, change))
            break;
    }
    double total = 0.0;
    for (size_t row = 0; row < count; row++)
        total += column_cost(master, master->basis[row]) * master->value[row];
    arena_destroy(scratch);
    return total;
}

/* ---- the bound ---- */

/* The least length from `length` up that heights can add up to. */
static int64_t reachable(const struct roll_master *master, int64_t length)
{
    enum { MOST_CELLS = 4000000 };
    int64_t unit = 0, highest = 0;
    for (size_t k = 0; k < master->heights.count; k++) {
        unit = whole_common_divisor(master->heights.items[k].height, unit);
        highest = master->heights.items[k].height;
    }
    const int64_t cells = (length + highest) / unit + 1;
    if (cells > MOST_CELLS)
        return (length + unit - 1) / unit * unit;
    struct arena *scratch = arena_create();
    bool *can = ARENA_ARRAY(scratch, bool, (size_t)cells + 1);
    can[0] = true;
    for (size_t k = 0; k < master->heights.count; k++) {
        const int64_t step = master->heights.items[k].height / unit;
        for (int64_t at = step; at <= cells; at++)
            can[at] |= can[at - step];
    }
    int64_t at = (length + unit - 1) / unit;
    while (at <= cells && !can[at])
        at++;
    arena_destroy(scratch);
    return at * unit;
}

int64_t roll_bound(struct roll_master *master, const size_t *demand)
{
    const size_t count = master->problem->count;
    struct arena *scratch = arena_create();
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    int64_t total = 0;
    for (size_t i = 0; i < count; i++) {
        worth[i] = master->dual[i] > 0.0
                       ? (int64_t)(master->dual[i] * SCALE + 0.5)
                       : 0;
        total += worth[i] * (int64_t)demand[i];
    }
    /* Every strip of height H is worth at most K, so a plan that is worth
     * `total` has at least total * H / K of length: the least over heights. */
    int64_t bound = INT64_MAX;
    for (size_t k = 0; k < master->heights.count; k++) {
        const int64_t most = roll_knapsack(master, k, worth, demand, NULL);
        const int64_t height = master->heights.items[k].height;
        if (most <= 0)
            continue;
        const int64_t least =
            (int64_t)(((wide)total * height + most - 1) / most);
        bound = least < bound ? least : bound;
    }
    arena_destroy(scratch);
    return bound == INT64_MAX ? 0 : reachable(master, bound);
}
