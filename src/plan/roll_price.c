/* New patterns for the linear programme, and the bound that their worth proves.
 * The duals are rounded to whole numbers first, and everything after that is
 * exact: a bound never rests on floating point. */
#include <string.h>

#include "rational.h"
#include "roll_master.h"

__extension__ typedef __int128 wide;

/* From so many sizes on, one table for all heights is filled sooner than one
 * for each of those that can gain. */
enum { SWEPT = 12 };

/* Duals in whole numbers. */
struct prices {
    int64_t scale;
    int64_t *size;   /* worth of a piece, at least 0 */
    int64_t *branch; /* of one more in a branch; at most 0 where it limits */
    int64_t *fixed;  /* by height: what branches give to each strip */
    wide total;      /* what all rows ask for, at these prices */
};

/* Heights rise, so it is the last. */
static int64_t highest_of(const struct roll_master *master)
{
    return master->heights.items[master->heights.count - 1].height;
}

/* As fine as possible, while no strip's worth leaves 63 bits: a piece is worth
 * its price and what each branch adds, each at most 4096 heights (find_prices),
 * and a strip holds at most a piece for each step of its width. */
static int64_t scale_of(const struct roll_master *master)
{
    const wide room = ((wide)1 << 62) / 8192 /
                      (wide)(1 + master->branch_count) /
                      master->problem->width / highest_of(master);
    const wide fine = (wide)1 << 30;
    return room < 1 ? 1 : (int64_t)(room < fine ? room : fine);
}

/* Any prices of the right sign prove a bound, so clipping does no harm. */
static int64_t whole_price(double dual, double most, int64_t scale, bool least)
{
    if (least ? dual <= 0.0 : dual >= 0.0)
        return 0;
    dual = dual > most ? most : dual < -most ? -most : dual;
    return (int64_t)(dual * (double)scale);
}

/* Breaking a branch costs 16 heights (roll_branch.c), and what one branch
 * forbids may be many pieces of another, so that a dual may be far above what a
 * strip costs: cut off too low, parts without a plan would be split for ever.
 * 4096 leave room for that and still limit the sums. */
static struct prices find_prices(const struct roll_master *master,
                                 struct arena *arena, const size_t *demand,
                                 const double *price)
{
    const size_t count = master->problem->count;
    const double most = 4096.0 * (double)highest_of(master);
    struct prices prices = {
        .scale = scale_of(master),
        .size = ARENA_ARRAY(arena, int64_t, count),
        .branch = ARENA_ARRAY(arena, int64_t, master->branch_count + 1),
        .fixed = ARENA_ARRAY(arena, int64_t, master->heights.count)};
    for (size_t i = 0; i < count; i++) {
        prices.size[i] = whole_price(price[i], most, prices.scale, true);
        prices.total += (wide)prices.size[i] * (int64_t)demand[i];
    }
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        prices.branch[b] = whole_price(master->simplex.dual[count + b], most,
                                       prices.scale, branch->least);
        prices.total += (wide)prices.branch[b] * branch->limit;
        if (!branch->pieces)
            prices.fixed[branch->height] += prices.branch[b];
    }
    return prices;
}

/* What each size is worth in strips of one height. */
static void worth_in(struct roll_master *master, const struct prices *prices,
                     size_t height)
{
    const size_t count = master->problem->count;
    memcpy(master->worth, prices->size, count * sizeof *master->worth);
    for (size_t b = 0; b < master->branch_count; b++)
        if (master->branches[b].pieces && master->branches[b].from == 0 &&
            master->branches[b].height == height)
            master->worth[master->branches[b].size] += prices->branch[b];
}

/* No strip is worth more than its width filled with what is worth most for its
 * side. */
static int64_t most_worth(const struct roll_master *master, size_t height,
                          const size_t *demand)
{
    const struct roll_height *strip = &master->heights.items[height];
    wide most = 0;
    for (size_t i = 0; i < strip->ways.count; i++) {
        const struct roll_way *way = &strip->ways.items[i];
        const wide worth = demand[way->size] == 0
                               ? 0
                               : (wide)master->worth[way->size] *
                                     master->problem->width / way->along;
        most = worth > most ? worth : most;
    }
    return (int64_t)most;
}

/* A plan of length L has z strips of each height H, each worth at most K, and
 * all are worth `total` at least: total <= sum z K, and sum z H = L. So L is at
 * least the least of total x H / K over the heights. So it holds for any
 * prices, not only for the best ones (Farley, 1990). A height whose strips are
 * worth nothing sets no limit. */
static int64_t bound_by(wide total, int64_t height, int64_t worth)
{
    if (total <= 0)
        return 0;
    if (worth <= 0)
        return INT64_MAX;
    return (int64_t)((total * height + worth - 1) / worth);
}

/* What a pattern gives for its height beyond what that costs, as a share. */
static double gain_of(const struct prices *prices, int64_t worth,
                      int64_t height)
{
    return (double)worth / (double)prices->scale / (double)height - 1.0;
}

/* Adds a pattern. False where it is known. */
static bool is_new(struct roll_master *master, size_t height)
{
    const size_t before = master->columns.count;
    roll_master_column(master, height, master->made);
    return master->columns.count > before;
}

/* What strips of a height are worth more where they hold something. */
static size_t find_bonuses(const struct roll_master *master,
                           const struct prices *prices, size_t height,
                           struct roll_bonus *bonuses)
{
    size_t count = 0;
    for (size_t b = master->first_holding; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->from > 0 && branch->height == height)
            bonuses[count++] = (struct roll_bonus){branch->size, branch->from,
                                                   prices->branch[b]};
    }
    return count;
}

/* The most that a strip of a height is worth, and its pattern where that gains.
 * The knapsack is what costs, so it is left out where even the simple limit
 * shows no gain. What it finds serves twice: as a new pattern and for the
 * bound. */
static int64_t price_height(struct roll_master *master,
                            const struct prices *prices, size_t k,
                            const size_t *demand, bool *found)
{
    const int64_t height = master->heights.items[k].height;
    struct roll_bonus bonuses[ROLL_MOST_BRANCHES];
    const size_t bonus_count = find_bonuses(master, prices, k, bonuses);
    worth_in(master, prices, k);
    int64_t worth = most_worth(master, k, demand) + prices->fixed[k];
    if (bonus_count == 0 && worth <= height * prices->scale)
        return worth;
    worth = roll_knapsack_with(master, k, master->worth,
                               master->cap + k * master->problem->count,
                               bonuses, bonus_count, master->made) +
            prices->fixed[k];
    if (gain_of(prices, worth, height) > 1e-7)
        *found |= is_new(master, k);
    return worth;
}

/* The same from a sweep; where its pattern gains nothing, as it held too much
 * of a size, the height is looked at alone. */
static int64_t price_swept(struct roll_master *master,
                           const struct prices *prices, size_t k,
                           const size_t *demand, bool *found)
{
    const int64_t height = master->heights.items[k].height;
    const int64_t most = master->swept[k].worth + prices->fixed[k];
    if (gain_of(prices, most, height) <= 1e-7)
        return most;
    int64_t worth = prices->fixed[k];
    roll_swept_pattern(master, k, demand, master->made);
    for (size_t i = 0; i < master->problem->count; i++)
        worth += prices->size[i] * (int64_t)master->made[i];
    if (gain_of(prices, worth, height) > 1e-7 && is_new(master, k))
        *found = true;
    return most;
}

/* Does a branch say what pieces are worth in some heights alone? */
static bool parts_pieces(const struct roll_master *master)
{
    for (size_t b = 0; b < master->branch_count; b++)
        if (master->branches[b].pieces)
            return true;
    return false;
}

/* Looks through all heights. gives: a bound, of any prices. */
static int64_t price_heights(struct roll_master *master,
                             const struct prices *prices, const size_t *demand,
                             bool swept, bool *found)
{
    int64_t bound = INT64_MAX;
    for (size_t k = 0; k < master->heights.count; k++) {
        const int64_t worth =
            swept ? price_swept(master, prices, k, demand, found)
                  : price_height(master, prices, k, demand, found);
        const int64_t least =
            bound_by(prices->total, master->heights.items[k].height, worth);
        bound = least < bound ? least : bound;
    }
    return bound;
}

/* It only rises: what was proven at earlier prices stays true. */
static void raise_bound(struct roll_master *master, int64_t bound)
{
    if (bound > INT64_MAX / 4)
        master->bound = INT64_MAX; /* no plan obeys the branches */
    else if (bound > master->bound)
        master->bound = roll_reachable(master, bound);
}

/* Where a sweep finds nothing, heights are looked at one by one. */
bool roll_master_price(struct roll_master *master, const size_t *demand)
{
    struct arena *scratch = arena_create();
    const struct prices prices =
        find_prices(master, scratch, demand, master->simplex.dual);
    bool found = false;
    if (master->problem->trimmed && master->problem->count > SWEPT &&
        !parts_pieces(master)) {
        roll_sweep(master, prices.size, demand);
        raise_bound(master,
                    price_heights(master, &prices, demand, true, &found));
    }
    if (!found)
        raise_bound(master,
                    price_heights(master, &prices, demand, false, &found));
    arena_destroy(scratch);
    master->work += 1000 + 4 * master->heights.count * master->problem->count;
    return found;
}

/* Adds the pattern in `made` where it gains at the duals. */
static bool add_gaining(struct roll_master *master, size_t k)
{
    double worth = 0.0;
    for (size_t i = 0; i < master->problem->count; i++)
        worth += master->simplex.dual[i] * (double)master->made[i];
    return worth > (double)master->heights.items[k].height * (1.0 + 1e-7) &&
           is_new(master, k);
}

bool roll_master_price_at(struct roll_master *master, const size_t *demand,
                          const double *price)
{
    struct arena *scratch = arena_create();
    const struct prices prices = find_prices(master, scratch, demand, price);
    const bool swept = master->problem->trimmed;
    int64_t bound = INT64_MAX;
    bool found = false;
    if (swept)
        roll_sweep(master, prices.size, demand);
    for (size_t k = 0; k < master->heights.count; k++) {
        int64_t worth;
        if (swept) {
            worth = master->swept[k].worth;
            roll_swept_pattern(master, k, demand, master->made);
        } else {
            worth = roll_knapsack(master, k, prices.size, demand, master->made);
        }
        found |= add_gaining(master, k);
        const int64_t least =
            bound_by(prices.total, master->heights.items[k].height, worth);
        bound = least < bound ? least : bound;
    }
    raise_bound(master, bound);
    master->work += 4 * master->heights.count * master->problem->count;
    arena_destroy(scratch);
    return found;
}

/* The sums of heights up to `cells` units, each with the next one above. Each
 * height is walked upwards, so that it may be added to itself. */
static void mark_sums(struct roll_master *master, int64_t cells)
{
    int64_t *next = ARENA_ARRAY(master->arena, int64_t, (size_t)cells + 1);
    next[0] = 1;
    for (size_t k = 0; k < master->heights.count; k++) {
        const int64_t step = master->heights.items[k].height / master->unit;
        for (int64_t at = step; at <= cells; at++)
            next[at] |= next[at - step];
    }
    int64_t least = INT64_MAX;
    for (int64_t at = cells; at >= 0; at--) {
        least = next[at] != 0 ? at : least;
        next[at] = least;
    }
    master->work += (uint64_t)cells * master->heights.count;
    master->next_sum = next;
    master->sum_cells = cells;
}

/* A plan is a sum of heights, so a bound between two sums may rise to the upper
 * one: often that is the last step of a proof. Where the table would be too
 * long, multiples of the common unit are weaker, yet sure. */
int64_t roll_reachable(struct roll_master *master, int64_t length)
{
    enum { MOST_CELLS = 200000 };
    if (master->unit == 0)
        for (size_t k = 0; k < master->heights.count; k++)
            master->unit = whole_common_divisor(master->heights.items[k].height,
                                                master->unit);
    const int64_t at = (length + master->unit - 1) / master->unit;
    const int64_t cells = at + highest_of(master) / master->unit;
    if (cells > MOST_CELLS)
        return at * master->unit;
    if (cells > master->sum_cells)
        mark_sums(master, 2 * cells);
    return master->next_sum[at] * master->unit;
}
