/* Leftovers before the roll. A linear programme over strips of the roll, which
 * cost their height, and over sheets of each leftover, which cost nothing but
 * are few, tells what each piece is worth; leftovers are filled with what is
 * worth most, in many ways, and the filling after which the roll needs least
 * is kept. */
#include <string.h>

#include "linear.h"
#include "roll_master.h"
#include "sheet_fill.h"
#include "sheet_plan.h"
#include "sheet_trial.h"

/* Demands times scaled worths can leave 64 bits. */
__extension__ typedef __int128 wide;

/* Worths are whole multiples of 1 / SCALE of a dual. Of all fillings KEPT are
 * planned shortly and AGAIN of them at length: more would cost time, fewer
 * might miss the best. */
enum { SCALE = 1 << 20, MOST_ROUNDS = 2000, KEPT = 48, AGAIN = 4 };

/* The leftovers at hand. */
struct stock {
    const struct roll_problem *problem;
    const struct leftover *kinds;
    size_t count;
    struct sheet_problem *sheets;
    struct sheet_filler *fillers; /* by kind */
    uint64_t random;
};

/* A filling that was tried, and the length that the roll needs at least: by the
 * programme, and in whole steps. */
struct tried {
    struct leftover_fill *fill;
    double length;
    int64_t bound;
};

/* As in the other searches: a fixed start (Marsaglia, xorshift, 2003). */
static uint64_t chance(struct stock *stock, uint64_t below)
{
    stock->random ^= stock->random << 13;
    stock->random ^= stock->random >> 7;
    stock->random ^= stock->random << 17;
    return stock->random % below;
}

/* Each kind is a sheet problem of its own with the same sizes and demands;
 * either first cut will do, as a leftover is turned at will on the mat,
 * while the grain stays with the cloth. */
static void init_stock(struct stock *stock, struct arena *arena,
                       const struct roll_problem *problem,
                       const struct leftover *kinds, size_t count)
{
    *stock = (struct stock){.problem = problem,
                            .kinds = kinds,
                            .count = count,
                            .random = 0x9E3779B97F4A7C15u};
    stock->sheets = ARENA_ARRAY(arena, struct sheet_problem, count);
    stock->fillers = ARENA_ARRAY(arena, struct sheet_filler, count);
    for (size_t k = 0; k < count; k++) {
        stock->sheets[k] = (struct sheet_problem){
            .width = kinds[k].width,
            .height = kinds[k].height,
            .sizes = problem->sizes,
            .count = problem->count,
        };
        /* A size that fits on no sheet of this kind is simply never taken. */
        sheet_filler_init(&stock->fillers[k], arena, &stock->sheets[k]);
    }
}

/* All tables that were filled for the leftovers. */
static uint64_t stock_work(const struct stock *stock)
{
    uint64_t work = 0;
    for (size_t k = 0; k < stock->count; k++)
        work += stock->fillers[k].work;
    return work;
}

/* ---- filling ---- */

/* One filling while it is made. */
struct filling {
    struct stock *stock;
    struct arena *arena;
    const int64_t *worth; /* by size */
    uint64_t spread;      /* thousandths that chance may add to a worth */
    int64_t *noisy;       /* worths for the sheet at hand */
    size_t *left, *made;
    struct leftover_fill *fill;
};

/* The sheets of a kind need not be alike: each has chances of its own. */
static void make_noise(struct filling *filling, bool *turned)
{
    for (size_t i = 0; i < filling->stock->problem->count; i++) {
        turned[i] = chance(filling->stock, 2) == 1;
        filling->noisy[i] =
            filling->worth[i] +
            filling->worth[i] / 1000 *
                (int64_t)chance(filling->stock, filling->spread);
    }
}

/* Fills all sheets of one kind. What does not fit on one of them fits on none,
 * so the first that stays empty is the last. */
static void fill_kind(struct filling *filling, size_t kind)
{
    const size_t sizes = filling->stock->problem->count;
    struct leftover_fill *fill = filling->fill;
    for (size_t sheets = filling->stock->kinds[kind].count; sheets > 0;) {
        struct sheet_pattern pattern;
        make_noise(filling, filling->stock->fillers[kind].turned);
        if (sheet_fill(&filling->stock->fillers[kind], filling->arena,
                       filling->noisy, filling->left, filling->made,
                       &pattern) <= 0)
            return;
        size_t repeat = sheet_repeats(sizes, filling->made, filling->left);
        repeat = repeat < sheets ? repeat : sheets;
        /* Else sheets of one kind would always be alike. */
        if (filling->spread > 1 && chance(filling->stock, 2) == 0)
            repeat = (repeat + 1) / 2;
        pattern.repeat = repeat;
        sheets -= repeat;
        sheet_pattern_settle(&pattern);
        *LIST_ADD(filling->arena, &fill->uses) =
            (struct leftover_use){kind, pattern};
        for (size_t i = 0; i < sizes; i++) {
            filling->left[i] -= filling->made[i] * repeat;
            fill->taken[i] += filling->made[i] * repeat;
        }
    }
}

/* In the order of `order`, by kind. */
static struct leftover_fill *fill_all(struct stock *stock, struct arena *arena,
                                      const size_t *order, const int64_t *worth,
                                      uint64_t spread)
{
    const size_t sizes = stock->problem->count;
    struct filling filling = {.stock = stock,
                              .arena = arena,
                              .worth = worth,
                              .spread = spread,
                              .fill = ARENA_NEW(arena, struct leftover_fill)};
    filling.noisy = ARENA_ARRAY(arena, int64_t, sizes);
    filling.made = ARENA_ARRAY(arena, size_t, sizes);
    filling.left = ARENA_ARRAY(arena, size_t, sizes);
    filling.fill->taken = ARENA_ARRAY(arena, size_t, sizes);
    for (size_t i = 0; i < sizes; i++)
        filling.left[i] = stock->problem->sizes[i].demand;
    for (size_t n = 0; n < stock->count; n++)
        fill_kind(&filling, order[n]);
    return filling.fill;
}

/* Smallest first: what fits there is not taken by a sheet that could hold
 * more. */
static void order_kinds(const struct stock *stock, size_t *order)
{
    for (size_t n = 0; n < stock->count; n++) {
        const struct leftover *kind = &stock->kinds[n];
        size_t at = n;
        for (; at > 0; at--) {
            const struct leftover *other = &stock->kinds[order[at - 1]];
            if (other->width * other->height <= kind->width * kind->height)
                break;
            order[at] = order[at - 1];
        }
        order[at] = n;
    }
}

/* Without chance: the same worths give the same filling. */
struct leftover_fill *plan_leftovers(struct arena *arena,
                                     const struct roll_problem *problem,
                                     const struct leftover *kinds, size_t count,
                                     const int64_t *worth)
{
    struct stock stock;
    init_stock(&stock, arena, problem, kinds, count);
    size_t *order = ARENA_ARRAY(arena, size_t, count);
    order_kinds(&stock, order);
    return fill_all(&stock, arena, order, worth, 1);
}

/* ---- what pieces are worth ---- */

/* Roll and leftovers in one programme: a row for each size, and one for each
 * kind, which says that there are no more. */
struct mixture {
    struct arena *arena;
    struct stock *stock;
    struct roll_master *roll;
    struct linear linear;
    size_t *demand;
    int64_t *worth;
    size_t *made;
};

/* A strip of the roll (`kind` = SIZE_MAX) or a sheet of a leftover. */
static size_t add_column(struct mixture *mixture, double cost, size_t kind)
{
    const size_t sizes = mixture->stock->problem->count;
    double *entry =
        ARENA_ARRAY(mixture->arena, double, mixture->linear.simplex.rows);
    for (size_t i = 0; i < sizes; i++)
        entry[i] = (double)mixture->made[i];
    if (kind != SIZE_MAX)
        entry[sizes + kind] = -1.0;
    return linear_column(&mixture->linear, cost, entry);
}

/* Starts from the cheapest strip of each size alone. */
static void start_rows(struct mixture *mixture)
{
    const size_t sizes = mixture->stock->problem->count;
    const struct roll_master *roll = mixture->roll;
    for (size_t i = 0; i < sizes; i++) {
        if (mixture->demand[i] == 0) {
            linear_start(&mixture->linear, i, -1, 0.0);
            continue;
        }
        int64_t best = 0, most = 0;
        memset(mixture->worth, 0, sizes * sizeof *mixture->worth);
        memset(mixture->made, 0, sizes * sizeof *mixture->made);
        mixture->worth[i] = 1;
        for (size_t k = 0; k < roll->heights.count; k++) {
            const int64_t height = roll->heights.items[k].height;
            const int64_t pieces = roll_knapsack(
                mixture->roll, k, mixture->worth, mixture->demand, NULL);
            if (pieces > 0 && (most == 0 || height * most < best * pieces)) {
                best = height;
                most = pieces;
            }
        }
        mixture->made[i] = (size_t)most;
        linear_start(&mixture->linear, i,
                     (long)add_column(mixture, (double)best, SIZE_MAX),
                     (double)mixture->demand[i]);
    }
    for (size_t k = 0; k < mixture->stock->count; k++)
        linear_start(&mixture->linear, sizes + k, -1,
                     -(double)mixture->stock->kinds[k].count);
}

/* Duals of the sizes in whole numbers. */
static void take_worths(struct mixture *mixture)
{
    for (size_t i = 0; i < mixture->stock->problem->count; i++) {
        const double dual = mixture->linear.simplex.dual[i];
        mixture->worth[i] =
            mixture->demand[i] > 0 && dual > 0.0 ? (int64_t)(dual * SCALE) : 0;
    }
}

/* Adds each strip and each sheet that gains at the duals. ensures: any? Gains
 * within the margins are rounding, and would go on for ever. */
static bool price(struct mixture *mixture)
{
    bool gains = false;
    take_worths(mixture);
    for (size_t k = 0; k < mixture->roll->heights.count; k++) {
        const double height = (double)mixture->roll->heights.items[k].height;
        const int64_t value = roll_knapsack(mixture->roll, k, mixture->worth,
                                            mixture->demand, mixture->made);
        if ((double)value / SCALE <= height * (1.0 + 1e-5))
            continue;
        add_column(mixture, height, SIZE_MAX);
        gains = true;
    }
    for (size_t k = 0; k < mixture->stock->count; k++) {
        struct sheet_pattern pattern;
        const double price_of_sheet =
            mixture->linear.simplex.dual[mixture->stock->problem->count + k];
        const int64_t value = sheet_fill_bound(
            &mixture->stock->fillers[k], mixture->arena, mixture->worth,
            mixture->demand, mixture->made, &pattern);
        if ((double)value / SCALE <= price_of_sheet * (1.0 + 1e-5) + 1e-4)
            continue;
        add_column(mixture, 0.0, k);
        gains = true;
    }
    return gains;
}

/* Columns join until none gains, or the work is spent; the bound needs no
 * finished programme. */
static void solve_mixture(struct mixture *mixture, uint64_t work)
{
    start_rows(mixture);
    for (int round = 0; round < MOST_ROUNDS; round++) {
        linear_solve(&mixture->linear);
        if (mixture->linear.work + mixture->roll->work +
                    stock_work(mixture->stock) >
                work ||
            !price(mixture))
            break;
    }
    take_worths(mixture);
}

/* The roll must be worth what all pieces are worth less what the leftovers can
 * hold at most, at any worths: total x height / worth of a strip, the least
 * over the heights. As in bound_by (Farley, 1990), in whole numbers. */
static int64_t mixture_bound(struct mixture *mixture)
{
    wide total = 0;
    int64_t bound = INT64_MAX;
    for (size_t i = 0; i < mixture->stock->problem->count; i++)
        total += (wide)mixture->worth[i] * (int64_t)mixture->demand[i];
    for (size_t k = 0; k < mixture->stock->count; k++)
        total -= (wide)mixture->stock->kinds[k].count *
                 sheet_fill_bound(&mixture->stock->fillers[k], mixture->arena,
                                  mixture->worth, mixture->demand, NULL, NULL);
    if (total <= 0)
        return 0;
    for (size_t k = 0; k < mixture->roll->heights.count; k++) {
        const int64_t most = roll_knapsack(mixture->roll, k, mixture->worth,
                                           mixture->demand, NULL);
        if (most <= 0)
            continue;
        const int64_t height = mixture->roll->heights.items[k].height;
        const int64_t least = (int64_t)((total * height + most - 1) / most);
        bound = least < bound ? least : bound;
    }
    return bound == INT64_MAX ? 0 : bound;
}

/* ---- choosing a filling ---- */

/* Keeps the few best, without doubles, shortest first. */
static void keep_tried(struct tried *kept, struct tried trial)
{
    size_t at = 0;
    while (at < KEPT && kept[at].fill != NULL &&
           kept[at].length < trial.length - 1e-6)
        at++;
    if (at == KEPT ||
        (kept[at].fill != NULL && kept[at].length < trial.length + 1e-6))
        return;
    for (size_t i = KEPT - 1; i > at; i--)
        kept[i] = kept[i - 1];
    kept[at] = trial;
}

/* Worths and order with a little chance, the first time without. */
static struct leftover_fill *fill_by_chance(struct mixture *mixture,
                                            struct arena *arena, bool first)
{
    /* Where the leftovers could hold all, no piece is worth anything at the
     * margin; then the largest go first. */
    const struct roll_problem *problem = mixture->stock->problem;
    int64_t *worth = ARENA_ARRAY(arena, int64_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        worth[i] = mixture->worth[i] +
                   problem->sizes[i].width * problem->sizes[i].height;
    struct stock *stock = mixture->stock;
    size_t *order = ARENA_ARRAY(arena, size_t, stock->count);
    const uint64_t spread = 1 + (first ? 0 : 20 + 100 * chance(stock, 4));
    order_kinds(stock, order);
    for (size_t n = stock->count; n > 1 && !first; n--) {
        const size_t other = chance(stock, n);
        const size_t kind = order[n - 1];
        order[n - 1] = order[other];
        order[other] = kind;
    }
    return fill_all(stock, arena, order, worth, spread);
}

/* By the programme: not in whole strips, but at once; the best are planned
 * later. `left` is scratch. */
static struct tried try_filling(struct mixture *mixture,
                                struct leftover_fill *fill, size_t *left)
{
    for (size_t i = 0; i < mixture->stock->problem->count; i++)
        left[i] = mixture->demand[i] - fill->taken[i];
    const double length = roll_master_solve(mixture->roll, left);
    const int64_t bound = mixture->roll->bound > 0 ? mixture->roll->bound : 1;
    /* Where nothing is left, no price proves anything. */
    return (struct tried){fill, length, length > 0.0 ? bound : 0};
}

/* The demands that a filling leaves to the roll. */
static struct roll_problem rest_of(struct arena *arena,
                                   const struct roll_problem *problem,
                                   const struct leftover_fill *fill)
{
    struct roll_problem rest = *problem;
    struct roll_size *sizes =
        ARENA_ARRAY(arena, struct roll_size, problem->count);
    for (size_t i = 0; i < problem->count; i++) {
        sizes[i] = problem->sizes[i];
        sizes[i].demand -= fill->taken[i];
    }
    rest.sizes = sizes;
    return rest;
}

/* Plans the roll after one filling; keeps it where it is shorter. */
static int64_t plan_one(struct mixture *mixture,
                        const struct leftover_fill *fill, uint64_t work,
                        struct leftover_plan *plan)
{
    struct roll_problem *rest = ARENA_NEW(mixture->arena, struct roll_problem);
    *rest = rest_of(mixture->arena, mixture->stock->problem, fill);
    struct roll_plan *roll = plan_roll(mixture->arena, rest, work);
    if (plan->roll == NULL || roll->length < plan->roll->length)
        *plan = (struct leftover_plan){fill, *rest, roll, false};
    return roll->length;
}

/* Tries fillings as long as the work lasts. ensures: true where the roll behind
 * one is no longer than `most`, which is enough. */
static bool try_fillings(struct mixture *mixture, struct tried *kept,
                         uint64_t work, int64_t most,
                         struct leftover_plan *plan)
{
    const size_t sizes = mixture->stock->problem->count;
    size_t *left = ARENA_ARRAY(mixture->arena, size_t, sizes);
    for (bool first = true;
         first || mixture->roll->work + stock_work(mixture->stock) < work;
         first = false) {
        const struct tried trial = try_filling(
            mixture, fill_by_chance(mixture, mixture->arena, first), left);
        if (trial.bound <= most &&
            plan_one(mixture, trial.fill, work / 2 / KEPT, plan) <= most)
            return true;
        keep_tried(kept, trial);
    }
    return false;
}

/* No leftovers at all is a way, too, and whole strips may like it. */
static void plan_without(struct mixture *mixture, uint64_t work,
                         struct leftover_plan *plan)
{
    const size_t sizes = mixture->stock->problem->count;
    size_t *left = ARENA_ARRAY(mixture->arena, size_t, sizes);
    struct leftover_fill *none =
        ARENA_NEW(mixture->arena, struct leftover_fill);
    none->taken = ARENA_ARRAY(mixture->arena, size_t, sizes);
    if (try_filling(mixture, none, left).bound < plan->roll->length)
        plan_one(mixture, none, work, plan);
}

/* Plans the roll after each of the best fillings, shortly; then at length after
 * those that came out best: whole strips are longer than the programme says,
 * and by how much is seen only so. What cannot be shorter than the best so far
 * is left out. */
static void plan_rest(struct mixture *mixture, const struct tried *kept,
                      uint64_t work, struct leftover_plan *plan)
{
    struct tried best[KEPT] = {{NULL, 0.0, 0}};
    for (size_t n = 0; n < KEPT && kept[n].fill != NULL; n++) {
        if (plan->roll != NULL && kept[n].bound >= plan->roll->length)
            continue;
        const int64_t length =
            plan_one(mixture, kept[n].fill, work / 2 / KEPT, plan);
        /* The programme breaks ties. */
        keep_tried(best, (struct tried){kept[n].fill,
                                        (double)length + kept[n].length * 0.001,
                                        kept[n].bound});
    }
    for (size_t n = 0; n < AGAIN && best[n].fill != NULL; n++)
        if (plan->roll->length > best[n].bound)
            plan_one(mixture, best[n].fill, work / 2 / AGAIN, plan);
    plan_without(mixture, work / 2, plan);
}

/* What pieces are worth, found with a quarter of the work. NULL where a piece
 * is wider than the roll. */
static struct mixture *make_mixture(struct arena *arena,
                                    const struct roll_problem *problem,
                                    const struct leftover *kinds, size_t count,
                                    uint64_t work)
{
    struct mixture *mixture = ARENA_NEW(arena, struct mixture);
    mixture->arena = arena;
    mixture->stock = ARENA_NEW(arena, struct stock);
    mixture->roll = ARENA_NEW(arena, struct roll_master);
    if (!roll_master_init(mixture->roll, arena, problem))
        return NULL;
    init_stock(mixture->stock, arena, problem, kinds, count);
    mixture->demand = ARENA_ARRAY(arena, size_t, problem->count);
    mixture->worth = ARENA_ARRAY(arena, int64_t, problem->count);
    mixture->made = ARENA_ARRAY(arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        mixture->demand[i] = problem->sizes[i].demand;
    linear_init(&mixture->linear, arena, problem->count + count);
    solve_mixture(mixture, work / 4);
    return mixture;
}

/* A quarter of the work tells what pieces are worth, a quarter finds
 * fillings, half plans the roll behind them. */
struct leftover_plan *plan_with_leftovers(struct arena *arena,
                                          const struct roll_problem *problem,
                                          const struct leftover *kinds,
                                          size_t count, uint64_t work,
                                          const struct leftover_goal *goal)
{
    struct mixture *mixture = make_mixture(arena, problem, kinds, count, work);
    if (mixture == NULL)
        return NULL;
    const int64_t bound = mixture_bound(mixture);
    const int64_t most = goal == NULL ? -1 : goal->enough(goal->asker, bound);
    struct tried kept[KEPT] = {0};
    struct leftover_plan *plan = ARENA_NEW(arena, struct leftover_plan);
    plan->soon = try_fillings(mixture, kept, work / 2, most, plan);
    if (!plan->soon)
        plan_rest(mixture, kept, work / 2, plan);
    plan->roll->bound = bound;
    return plan;
}

/* ---- the proof ---- */

/* What leftovers give and what the roll is asked for must be all and no
 * more. */
bool leftover_plan_holds(const struct roll_problem *problem,
                         const struct leftover *kinds, size_t count,
                         const struct leftover_plan *plan)
{
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, problem->count + 1);
    size_t *used = ARENA_ARRAY(scratch, size_t, count + 1);
    bool holds = roll_plan_holds(&plan->rest, plan->roll);
    for (size_t n = 0; holds && n < plan->fill->uses.count; n++) {
        const struct leftover_use *use = &plan->fill->uses.items[n];
        if (use->kind >= count) {
            holds = false;
            break;
        }
        const struct sheet_problem sheet = {.width = kinds[use->kind].width,
                                            .height = kinds[use->kind].height,
                                            .sizes = problem->sizes,
                                            .count = problem->count};
        holds = sheet_pattern_holds(&sheet, &use->pattern, made);
        used[use->kind] += use->pattern.repeat;
    }
    for (size_t k = 0; k < count; k++)
        holds = holds && used[k] <= kinds[k].count;
    for (size_t i = 0; holds && i < problem->count; i++)
        holds =
            plan->rest.sizes[i].width == problem->sizes[i].width &&
            plan->rest.sizes[i].height == problem->sizes[i].height &&
            plan->rest.sizes[i].turns <= problem->sizes[i].turns &&
            made[i] + plan->rest.sizes[i].demand == problem->sizes[i].demand;
    arena_destroy(scratch);
    return holds && plan->rest.width == problem->width &&
           plan->rest.trimmed == problem->trimmed;
}
