/* The linear programme of hundreds of sizes, to within a small gap. Its duals
 * leap about for long before they settle, and patterns that are found at them
 * are then of no use: so patterns are looked for at prices between those that
 * proved the best bound and the duals (smoothing; Wentges, 1997, from memory),
 * and soon again, before the programme is solved over those that are known. */
#include <math.h>
#include <string.h>

#include "roll_master.h"

/* A little more than is asked for, for each size as much as for no other: else
 * many variables fall to 0 at once, and thousands of pivots lead nowhere
 * (perturbation; Charnes, 1952, from memory). Fractions of multiples of the
 * golden ratio lie apart. */
static double spread_of(size_t row)
{
    const double at = (double)(row + 1) * 0.6180339887498949;
    return 1e-4 * (1.0 + at - floor(at));
}

/* From the patterns of a plan, and a little more than is asked for. */
static void start_from(struct roll_master *master, const size_t *demand,
                       const size_t *patterns, size_t pattern_count)
{
    const size_t rows = master->problem->count;
    struct arena *scratch = arena_create();
    double *asked = ARENA_ARRAY(scratch, double, rows);
    for (size_t row = 0; row < rows; row++)
        asked[row] =
            demand[row] > 0 ? (double)demand[row] + spread_of(row) : 0.0;
    roll_master_start_from(master, demand, asked, patterns, pattern_count);
    arena_destroy(scratch);
}

/* Amounts for what is asked for indeed. */
static void ask_exactly(struct roll_master *master, const size_t *demand)
{
    for (size_t row = 0; row < master->problem->count; row++)
        master->simplex.asked[row] = (double)demand[row];
    master->simplex.columns.factored = false;
    simplex_duals(&master->simplex);
}

/* Beyond its price, at the duals; none where it makes more than is asked for.
 */
static double gain_of(const struct roll_master *master,
                      const struct roll_column *column, const size_t *demand)
{
    double gain = -column->price;
    for (size_t i = 0; i < column->part_count; i++) {
        const struct roll_part part = column->parts[i];
        if (part.count > demand[part.size])
            return 0.0;
        gain += master->simplex.dual[part.size] * (double)part.count;
    }
    return gain;
}

/* What a variable gains, to what it moves: the length of its column stands in
 * for the edge of the simplex (after Devex; Harris, 1973, from memory). Rows
 * compete with patterns. */
static double steepness_of(const struct roll_master *master, long variable,
                           const size_t *demand)
{
    if (variable < 0)
        return -master->simplex.dual[(size_t)(-1 - variable) / 2] * sqrt(0.5);
    const struct roll_column *column = &master->columns.items[variable];
    return gain_of(master, column, demand) * column->steepness;
}

enum { CANDIDATES = 24 };

/* The steepest variables of all, steepest first. */
struct candidates {
    long variable[CANDIDATES];
    double gain[CANDIDATES];
    size_t count;
};

static void add_candidate(struct candidates *candidates, long variable,
                          double gain)
{
    size_t at = candidates->count;
    if (gain <= 1e-7 || (at == CANDIDATES && gain <= candidates->gain[at - 1]))
        return;
    at -= at == CANDIDATES;
    for (; at > 0 && candidates->gain[at - 1] < gain; at--) {
        candidates->gain[at] = candidates->gain[at - 1];
        candidates->variable[at] = candidates->variable[at - 1];
    }
    candidates->gain[at] = gain;
    candidates->variable[at] = variable;
    candidates->count += candidates->count < CANDIDATES;
}

static void find_candidates(struct roll_master *master, const size_t *demand,
                            struct candidates *candidates)
{
    candidates->count = 0;
    for (size_t row = 0; row < master->problem->count; row++)
        add_candidate(candidates, roll_logical(row),
                      steepness_of(master, roll_logical(row), demand));
    for (size_t c = 0; c < master->columns.count; c++)
        add_candidate(candidates, (long)c,
                      steepness_of(master, (long)c, demand));
    master->work += 8 * master->columns.count;
}

/* Some of the candidates enter, as long as they are steep, before all variables
 * are looked at again (partial pricing).
 * gives: were there fewer pivots than allowed? */
static bool pivot(struct roll_master *master, const size_t *demand,
                  size_t pivots)
{
    struct candidates found;
    while (pivots > 0) {
        simplex_duals(&master->simplex);
        find_candidates(master, demand, &found);
        if (found.count == 0)
            return true;
        const double least = found.gain[0] * 0.3;
        for (size_t i = 0; i < found.count && pivots > 0; i++) {
            if (steepness_of(master, found.variable[i], demand) < least)
                continue;
            if (!roll_master_enter(master, found.variable[i]))
                return true;
            simplex_duals(&master->simplex);
            pivots--;
        }
    }
    return false;
}

/* Prices between the best ones and the duals. */
static void mix(const struct roll_master *master, const double *best,
                double share, double *mixed)
{
    for (size_t i = 0; i < master->problem->count; i++) {
        const double dual = master->simplex.dual[i];
        mixed[i] = share * best[i] + (1.0 - share) * (dual > 0.0 ? dual : 0.0);
    }
}

void roll_master_approach(struct roll_master *master, const size_t *demand,
                          const size_t *patterns, size_t pattern_count,
                          double *best, double gap, uint64_t work)
{
    const size_t count = master->problem->count;
    struct arena *scratch = arena_create();
    double *mixed = ARENA_ARRAY(scratch, double, count);
    double share = 0.9;
    start_from(master, demand, patterns, pattern_count);
    master->bound = 0;
    simplex_duals(&master->simplex);
    roll_master_price_at(master, demand, best);
    while (master->work < work) {
        const bool solved = pivot(master, demand, 20 + count / 8);
        const double total = simplex_total(&master->simplex);
        if ((double)master->bound >= total * (1.0 - gap))
            break;
        const int64_t before = master->bound;
        mix(master, best, share, mixed);
        const bool found = roll_master_price_at(master, demand, mixed);
        if (master->bound > before)
            memcpy(best, mixed, count * sizeof *best);
        else if (!found && solved && share == 0.0)
            break;
        share = found || !solved ? 0.9 : share > 0.2 ? share - 0.3 : 0.0;
    }
    ask_exactly(master, demand);
    master->total = simplex_total(&master->simplex);
    arena_destroy(scratch);
}
