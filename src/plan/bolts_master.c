/* The programme is solved in floating point; what is claimed of it is proven
 * in whole numbers: its worths are rounded down to whole numbers, each kind of
 * roll is filled as well as it can be for them, and what a roll then gains is
 * taken off for as many of it as there are (Lagrangian bound). */
#include "bolts_master.h"

#include <math.h>
#include <string.h>

/* Only guards against rounding that goes in circles. */
enum { MOST_ROUNDS = 5000 };

/* Columns below it gain nothing but rounding. */
static const double tiny = 1e-7;

bool bolts_master_init(struct bolts_master *master, struct arena *arena,
                       struct bolts_store *store)
{
    *master = (struct bolts_master){
        .arena = arena, .store = store, .random = 0x2545F4914F6CDD1Du};
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        master->proof[g].worth = ARENA_ARRAY(arena, int64_t, store->cuts + 1);
        master->proof[g].gain =
            ARENA_ARRAY(arena, bolts_wide, store->kinds + 1);
    }
    return bolts_filler_init(&master->filler, arena, store);
}

/* Patterns are compared in full only where this is equal. */
static uint64_t hash_of(const struct bolts_store *store, size_t kind,
                        const size_t *made)
{
    uint64_t hash = kind * 0x9E3779B97F4A7C15u + 1;
    for (size_t i = 0; i < store->cuts; i++)
        if (made[i] > 0)
            hash = (hash ^ (made[i] * 1000003u + i)) * 0xBF58476D1CE4E5B9u;
    return hash ^ hash >> 29;
}

/* Dives find the same patterns again and again; each is kept once, so that the
 * programme has no column twice. */
void bolts_master_add(struct bolts_master *master, size_t kind,
                      const size_t *made)
{
    const struct bolts_store *store = master->store;
    const uint64_t hash = hash_of(store, kind, made);
    for (size_t p = 0; p < master->patterns.count; p++) {
        const struct bolts_pattern *known = &master->patterns.items[p];
        if (known->hash == hash && known->kind == kind &&
            memcmp(known->made, made, store->cuts * sizeof *made) == 0)
            return;
    }
    size_t *copy = ARENA_ARRAY(master->arena, size_t, store->cuts);
    int64_t sum = 0;
    for (size_t i = 0; i < store->cuts; i++) {
        copy[i] = made[i];
        sum += (int64_t)made[i] * store->length[i];
    }
    *LIST_ADD(master->arena, &master->patterns) =
        (struct bolts_pattern){kind, copy, sum, hash};
}

/* ---- the programme ---- */

/* Rows: a cut each, a kind of limited stock each, and one for each goal before
 * that any roll adds to. What is too much of a goal costs as much as what is
 * too little; so do cuts that nobody asked for, where they would make a loss
 * smaller than it is. */
struct rows {
    struct bolts_master *master;
    const struct bolts_programme *programme;
    struct arena *arena;
    struct linear linear;
    size_t *of_cut, *of_kind; /* SIZE_MAX: none */
    size_t of_goal[BOLTS_GOALS];
    size_t count;
    LIST(size_t) pattern; /* by column: SIZE_MAX where artificial */
    double *entry;        /* scratch, by row */
    size_t *made;         /* scratch */
    size_t known;         /* patterns that are columns, or cannot be */
    double penalty;
    int64_t scale;
    int64_t *worth;
    struct bolts_factors factors;
};

/* A goal to which no roll adds needs no row: it is 0 in every plan. */
static bool adds_up(const struct bolts_store *store, enum bolts_goal goal)
{
    for (size_t k = 0; k < store->kinds; k++) {
        const struct bolts_kind *kind = &store->kind[k];
        if ((goal == GOAL_COST && kind->cost + kind->step_cost > 0) ||
            (goal == GOAL_LOST && store->keep > 0) || goal == GOAL_OPENED ||
            (goal == GOAL_AGE && kind->age > 0))
            return true;
    }
    return false;
}

/* Cuts that are done need no row, nor do kinds of which there is no lack. */
static void number_rows(struct rows *rows)
{
    const struct bolts_store *store = rows->master->store;
    const struct bolts_rest *rest = &rows->programme->rest;
    size_t pieces = 0;
    rows->of_cut = ARENA_ARRAY(rows->arena, size_t, store->cuts + 1);
    rows->of_kind = ARENA_ARRAY(rows->arena, size_t, store->kinds + 1);
    for (size_t i = 0; i < store->cuts; i++) {
        pieces += rest->demand[i];
        rows->of_cut[i] = rest->demand[i] > 0 ? rows->count++ : SIZE_MAX;
    }
    for (size_t k = 0; k < store->kinds; k++)
        rows->of_kind[k] = rest->stock[k] > 0 && rest->stock[k] < pieces
                               ? rows->count++
                               : SIZE_MAX;
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        rows->of_goal[g] = SIZE_MAX;
        if (g < GOAL_COST || g >= rows->programme->goal ||
            !adds_up(store, (enum bolts_goal)g))
            continue;
        rows->of_goal[g] = rows->count++;
    }
}

/* What a variable stands for is kept beside the programme, by its number. */
static size_t add_column(struct rows *rows, double cost, size_t pattern)
{
    *LIST_ADD(rows->arena, &rows->pattern) = pattern;
    return linear_column(&rows->linear, cost, rows->entry);
}

/* What gives a row what it asks for at first: at a price that no roll has. */
static void start_row(struct rows *rows, size_t row, double asked, bool equal)
{
    if (equal)
        rows->linear.columns.items[row].cost = rows->penalty;
    memset(rows->entry, 0, rows->count * sizeof *rows->entry);
    rows->entry[row] = 1.0;
    const size_t own = add_column(rows, rows->penalty, SIZE_MAX);
    linear_start(&rows->linear, row, (long)own, asked);
}

/* Nothing is opened at first: each cut comes from the artificial columns, and
 * each kind has all its stock left. */
static void start_rows(struct rows *rows)
{
    const struct bolts_store *store = rows->master->store;
    const struct bolts_programme *programme = rows->programme;
    const bool equal = programme->goal >= GOAL_LOST && store->keep > 0;
    for (size_t i = 0; i < store->cuts; i++)
        if (rows->of_cut[i] != SIZE_MAX)
            start_row(rows, rows->of_cut[i], (double)programme->rest.demand[i],
                      equal);
    for (size_t k = 0; k < store->kinds; k++)
        if (rows->of_kind[k] != SIZE_MAX)
            linear_start(&rows->linear, rows->of_kind[k], -1,
                         -(double)programme->rest.stock[k]);
    for (size_t g = 0; g < BOLTS_GOALS; g++)
        if (rows->of_goal[g] != SIZE_MAX)
            start_row(rows, rows->of_goal[g], (double)programme->held.of[g],
                      true);
}

/* The penalty must be above all duals that are wanted, and the scale such that
 * worths stay below 2^42, and sums of them within 64 bits. */
static void choose_scale(struct rows *rows)
{
    const struct bolts_store *store = rows->master->store;
    const enum bolts_goal goal = rows->programme->goal;
    int64_t most = rows->programme->enough;
    rows->penalty = 1.0;
    if (goal != GOAL_MISSING) {
        for (size_t k = 0; k < store->kinds; k++) {
            const struct bolts_score full =
                bolts_score_of(store, k, store->kind[k].length);
            most = full.of[goal] > most ? full.of[goal] : most;
            /* A loss is worth as much as a cut is long. */
            if (goal >= GOAL_LOST && store->kind[k].length > most)
                most = store->kind[k].length;
        }
        rows->penalty = 2.0 * (double)most + 2.0;
    }
    rows->scale = (int64_t)(1099511627776.0 / rows->penalty) + 1; /* 2^40 */
}

/* Patterns that the rest allows become columns. */
static void add_patterns(struct rows *rows)
{
    const struct bolts_master *master = rows->master;
    const struct bolts_store *store = master->store;
    const struct bolts_rest *rest = &rows->programme->rest;
    for (; rows->known < master->patterns.count; rows->known++) {
        const struct bolts_pattern *pattern =
            &master->patterns.items[rows->known];
        bool fits = rest->stock[pattern->kind] > 0;
        for (size_t i = 0; i < store->cuts && fits; i++)
            fits = pattern->made[i] <= rest->demand[i];
        if (!fits)
            continue;
        const struct bolts_score score =
            bolts_score_of(store, pattern->kind, pattern->sum);
        memset(rows->entry, 0, rows->count * sizeof *rows->entry);
        for (size_t i = 0; i < store->cuts; i++)
            if (pattern->made[i] > 0)
                rows->entry[rows->of_cut[i]] = (double)pattern->made[i];
        if (rows->of_kind[pattern->kind] != SIZE_MAX)
            rows->entry[rows->of_kind[pattern->kind]] = -1.0;
        for (size_t g = 0; g < BOLTS_GOALS; g++)
            if (rows->of_goal[g] != SIZE_MAX)
                rows->entry[rows->of_goal[g]] = (double)score.of[g];
        add_column(rows, (double)score.of[rows->programme->goal], rows->known);
    }
}

/* Down, and within what the filling can add up. What is proven holds for any
 * worths; only how good it is depends on how near they are to the duals. */
static int64_t rounded(const struct rows *rows, double dual)
{
    const double scaled = floor(dual * (double)rows->scale);
    const double most = 4.0 * 1099511627776.0;
    return (int64_t)(scaled < -most ? -most : scaled > most ? most : scaled);
}

/* Worths and factors as whole numbers. */
static void take_duals(struct rows *rows)
{
    const struct bolts_store *store = rows->master->store;
    const double *dual = rows->linear.simplex.dual;
    const bool missing = rows->programme->goal == GOAL_MISSING;
    for (size_t i = 0; i < store->cuts; i++) {
        rows->worth[i] = rows->of_cut[i] == SIZE_MAX
                             ? 0
                             : rounded(rows, dual[rows->of_cut[i]]);
        if (missing && rows->worth[i] > rows->scale)
            rows->worth[i] = rows->scale;
    }
    for (size_t g = 0; g < BOLTS_GOALS; g++) {
        const size_t row = rows->of_goal[g];
        rows->factors.of[g] = row == SIZE_MAX ? 0 : rounded(rows, dual[row]);
    }
    if (!missing)
        rows->factors.of[rows->programme->goal] = -rows->scale;
}

/* Up to a whole one. */
static int64_t whole_bound(bolts_wide bound, int64_t scale)
{
    return bound <= 0 ? 0 : (int64_t)((bound + scale - 1) / scale);
}

/* For the dynamic programme, which asks it about parts of plans. */
static void keep_proof(const struct rows *rows, const bolts_wide *gain,
                       struct bolts_proof *proof)
{
    const struct bolts_store *store = rows->master->store;
    proof->goal = rows->programme->goal;
    proof->scale = rows->scale;
    proof->factors = rows->factors;
    memcpy(proof->worth, rows->worth, store->cuts * sizeof *proof->worth);
    memcpy(proof->gain, gain, store->kinds * sizeof *proof->gain);
}

/* Fills each kind at the worths: patterns that gain are added, and a bound is
 * proven. gives: whether any was added. */
static bool price(struct rows *rows, struct bolts_solution *solution,
                  struct bolts_proof *proof)
{
    struct bolts_master *master = rows->master;
    struct bolts_store *store = master->store;
    const struct bolts_rest *rest = &rows->programme->rest;
    const size_t before = master->patterns.count;
    bolts_wide *gain = ARENA_ARRAY(rows->arena, bolts_wide, store->kinds + 1);
    bolts_wide bound = 0;
    take_duals(rows);
    bolts_fill(&master->filler, store, rows->worth, rest->demand);
    for (size_t i = 0; i < store->cuts; i++)
        bound += (bolts_wide)rows->worth[i] * (int64_t)rest->demand[i];
    for (size_t g = 0; g < rows->programme->goal; g++)
        bound += (bolts_wide)rows->factors.of[g] * rows->programme->held.of[g];
    for (size_t k = 0; k < store->kinds; k++) {
        size_t at = 0;
        if (rest->stock[k] == 0)
            continue;
        const bolts_wide most =
            bolts_fill_best(&master->filler, k, &rows->factors, &at);
        gain[k] = at > 0 && most > 0 ? most : 0;
        bound -= gain[k] * (int64_t)rest->stock[k];
        /* The dual of the row of a kind is what one more roll of it would save:
         * a pattern must gain more than that. */
        const double asked = rows->of_kind[k] == SIZE_MAX
                                 ? 0.0
                                 : rows->linear.simplex.dual[rows->of_kind[k]];
        if (at == 0 || (double)most / (double)rows->scale <= asked + tiny)
            continue;
        bolts_fill_made(&master->filler, at, rows->made);
        bolts_master_add(master, k, rows->made);
    }
    const int64_t whole = whole_bound(bound, rows->scale);
    if (whole > solution->bound ||
        (proof != NULL && proof->scale == 0 && bound > 0)) {
        solution->bound = whole > solution->bound ? whole : solution->bound;
        if (proof != NULL)
            keep_proof(rows, gain, proof);
    }
    return master->patterns.count > before;
}

/* From nothing each time: what the last programme knew comes back as patterns.
 */
static void prepare(struct rows *rows)
{
    const struct bolts_store *store = rows->master->store;
    number_rows(rows);
    choose_scale(rows);
    linear_init(&rows->linear, rows->arena, rows->count);
    rows->entry = ARENA_ARRAY(rows->arena, double, rows->count + 1);
    rows->made = ARENA_ARRAY(rows->arena, size_t, store->cuts + 1);
    rows->worth = ARENA_ARRAY(rows->arena, int64_t, store->cuts + 1);
    start_rows(rows);
}

/* Only basic variables are bought at all. */
static void take_amounts(const struct rows *rows, struct arena *arena,
                         struct bolts_solution *solution)
{
    const struct simplex *simplex = &rows->linear.simplex;
    solution->count = rows->known;
    solution->amount = ARENA_ARRAY(arena, double, rows->known + 1);
    for (size_t row = 0; row < simplex->rows; row++) {
        const long variable = simplex->basis[row];
        if (variable < 0 || rows->pattern.items[variable] == SIZE_MAX)
            continue;
        solution->amount[rows->pattern.items[variable]] = simplex->value[row];
    }
}

/* It ends where no pattern gains, or where the value says that no better bound
 * can come of it. */
struct bolts_solution
bolts_master_solve(struct bolts_master *master, struct arena *arena,
                   const struct bolts_programme *programme,
                   struct bolts_proof *proof)
{
    struct arena *scratch = arena_create();
    struct rows rows = {
        .master = master, .programme = programme, .arena = scratch};
    struct bolts_solution solution = {0};
    prepare(&rows);
    for (int round = 0; round < MOST_ROUNDS; round++) {
        add_patterns(&rows);
        const uint64_t before = rows.linear.work;
        solution.value = linear_solve(&rows.linear);
        /* It counts zeros, too: a step of it is sooner done than one here. */
        master->store->work += (rows.linear.work - before) / 16;
        if (!price(&rows, &solution, proof) ||
            solution.bound >= programme->enough ||
            (double)solution.bound >= ceil(solution.value - 1e-6) ||
            master->store->work >= programme->work)
            break;
    }
    take_amounts(&rows, arena, &solution);
    arena_destroy(scratch);
    return solution;
}
