/* The linear programme over strip patterns: a row for each size, at least as
 * many pieces as are asked for, and a row for each branch of the search for
 * whole strips. */
#include "roll_master.h"

#include <math.h>
#include <string.h>

enum { MOST_ROUNDS = 20000 };

/* ---- variables and rows ---- */

/* Each row has two variables below zero, so that columns keep their indices
 * from 0 up: odd ones are its surplus or slack, even ones artificial. */
long roll_logical(size_t row)
{
    return -1 - 2 * (long)row;
}

/* Breaks its row at a penalty (the big-M method), so that there is a basis to
 * begin from, whatever the branches say. */
long roll_artificial(size_t row)
{
    return -2 - 2 * (long)row;
}

/* Sizes come first: a new branch is added behind all rows, and the basis of the
 * parent keeps its numbers. */
static size_t row_count(const struct roll_master *master)
{
    return master->problem->count + master->branch_count;
}

/* A surplus takes away from its row, a slack adds to it; an artificial variable
 * does the opposite, so that it can fill a row that is broken. */
static size_t row_entry(const struct roll_master *master, long variable,
                        struct simplex_entry *entries)
{
    const size_t count = master->problem->count;
    const size_t row = (size_t)(-1 - variable) / 2;
    const bool least = row < count || master->branches[row - count].least;
    const bool logical = variable == roll_logical(row);
    entries[0] = (struct simplex_entry){row, least == logical ? -1.0 : 1.0};
    return 1;
}

/* What a strip of this height counts in the row of a branch. */
static double branch_value(const struct roll_branch *branch,
                           const struct roll_column *column)
{
    if (!branch->pieces)
        return 1.0;
    const size_t made = column->made[branch->size];
    return branch->from == 0 ? (double)made : made >= branch->from ? 1.0 : 0.0;
}

/* Without zeros, as a pattern holds few sizes of many. Rows of branches are not
 * stored with the column: they change with each part of the search, while
 * patterns stay. */
static size_t entries_of(const struct roll_master *master, long variable,
                         struct simplex_entry *entries)
{
    if (variable < 0)
        return row_entry(master, variable, entries);
    const struct roll_column *column = &master->columns.items[variable];
    size_t n = 0;
    for (size_t i = 0; i < column->part_count; i++)
        entries[n++] = (struct simplex_entry){column->parts[i].size,
                                              (double)column->parts[i].count};
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->height != column->height)
            continue;
        const double value = branch_value(branch, column);
        if (value > 0.0)
            entries[n++] =
                (struct simplex_entry){master->problem->count + b, value};
    }
    return n;
}

/* The price of a strip is its height: the width is bought anyway. A surplus,
 * a piece more than is asked, costs nothing. */
static double cost_of(const struct roll_master *master, long variable)
{
    if (variable < 0)
        return variable % 2 == 0 ? master->penalty : 0.0;
    return master->columns.items[variable].price;
}

/* As the simplex method takes it; `entries` has room for all rows. */
static struct simplex_column column_of(const struct roll_master *master,
                                       long variable,
                                       struct simplex_entry *entries)
{
    return (struct simplex_column){variable, cost_of(master, variable), entries,
                                   entries_of(master, variable, entries)};
}

/* ---- where the simplex method begins ---- */

size_t roll_own_column(struct roll_master *master, size_t size, size_t demand)
{
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
    memset(master->made, 0, master->problem->count * sizeof *master->made);
    master->made[size] = pieces;
    return roll_master_column(master, best, master->made);
}

/* Starts from a strip of its own for each size. */
void roll_master_start(struct roll_master *master, const size_t *demand)
{
    const size_t count = master->problem->count;
    master->branches = NULL;
    master->branch_count = 0;
    simplex_begin(&master->simplex, count);
    for (size_t i = 0; i < count; i++) {
        if (demand[i] == 0) {
            simplex_start(&master->simplex, i, roll_logical(i), 0.0, -1.0, 0.0);
            continue;
        }
        const size_t own = roll_own_column(master, i, demand[i]);
        const struct roll_column *column = &master->columns.items[own];
        simplex_start(&master->simplex, i, (long)own, column->price,
                      (double)column->made[i], (double)demand[i]);
    }
}

/* Starts from a basis with so many rows. */
static bool restart(struct roll_master *master, const long *variables,
                    const double *asked)
{
    const size_t rows = row_count(master);
    struct arena *scratch = arena_create();
    struct simplex_column *columns =
        ARENA_ARRAY(scratch, struct simplex_column, rows);
    struct simplex_entries all = {0};
    size_t *from = ARENA_ARRAY(scratch, size_t, rows);
    struct simplex_entry *entries =
        ARENA_ARRAY(scratch, struct simplex_entry, rows);
    for (size_t row = 0; row < rows; row++) {
        columns[row] = column_of(master, variables[row], entries);
        from[row] = all.count;
        for (size_t i = 0; i < columns[row].count; i++)
            *LIST_ADD(scratch, &all) = entries[i];
    }
    for (size_t row = 0; row < rows; row++)
        columns[row].entries = all.items + from[row];
    simplex_begin(&master->simplex, rows);
    const bool regular = simplex_restart(&master->simplex, columns, asked);
    master->work += 2 * rows * rows;
    arena_destroy(scratch);
    return regular;
}

bool roll_master_restart(struct roll_master *master, const long *variables,
                         const double *asked)
{
    master->branches = NULL;
    master->branch_count = 0;
    return restart(master, variables, asked);
}

/* The size that a pattern uses up first, and how many strips of it do. */
static size_t use_up(const struct roll_column *column, double *left,
                     double *times)
{
    size_t row = column->parts[0].size;
    *times = HUGE_VAL;
    for (size_t i = 0; i < column->part_count; i++) {
        const struct roll_part part = column->parts[i];
        if (left[part.size] / (double)part.count >= *times)
            continue;
        *times = left[part.size] / (double)part.count;
        row = part.size;
    }
    for (size_t i = 0; i < column->part_count; i++)
        left[column->parts[i].size] -= *times * (double)column->parts[i].count;
    left[row] = 0.0;
    return row;
}

/* Later patterns have none of a size that an earlier one used up, so that they
 * are a basis. */
void roll_master_start_from(struct roll_master *master, const size_t *demand,
                            const double *asked, const size_t *patterns,
                            size_t pattern_count)
{
    const size_t rows = master->problem->count;
    struct arena *scratch = arena_create();
    double *left = ARENA_ARRAY(scratch, double, rows);
    long *variables = ARENA_ARRAY(scratch, long, rows);
    for (size_t row = 0; row < rows; row++) {
        left[row] = asked[row];
        variables[row] = roll_logical(row);
    }
    for (size_t i = 0; i < pattern_count; i++) {
        double times;
        const struct roll_column *column = &master->columns.items[patterns[i]];
        const size_t row = use_up(column, left, &times);
        if (times > 0.0)
            variables[row] = (long)patterns[i];
    }
    for (size_t row = 0; row < rows; row++)
        if (left[row] > 0.0)
            variables[row] = (long)roll_own_column(master, row, demand[row]);
    roll_master_restart(master, variables, asked);
    arena_destroy(scratch);
}

/* What each row asks for. */
static double *asked_by_row(const struct roll_master *master,
                            struct arena *arena, const size_t *demand)
{
    const size_t rows = row_count(master), count = master->problem->count;
    double *asked = ARENA_ARRAY(arena, double, rows);
    for (size_t row = 0; row < rows; row++)
        asked[row] = row < count ? (double)demand[row]
                                 : (double)master->branches[row - count].limit;
    return asked;
}

/* The basis of the parent, and what breaks the newest branch in its row. False
 * where they are none together. */
static bool start_from(struct roll_master *master, const size_t *demand,
                       const long *parent)
{
    const size_t rows = row_count(master);
    struct arena *scratch = arena_create();
    long *variables = ARENA_ARRAY(scratch, long, rows);
    for (size_t row = 0; row + 1 < rows; row++)
        variables[row] = parent[row];
    variables[rows - 1] = roll_artificial(rows - 1);
    const bool regular =
        restart(master, variables, asked_by_row(master, scratch, demand));
    arena_destroy(scratch);
    return regular;
}

/* ---- the simplex method ---- */

/* A surplus or slack that is worth using: its row costs where it should pay. */
static bool enter_logical(const struct roll_master *master, long *entering)
{
    const size_t count = master->problem->count;
    for (size_t row = 0; row < row_count(master); row++) {
        const bool least = row < count || master->branches[row - count].least;
        const double gain =
            least ? -master->simplex.dual[row] : master->simplex.dual[row];
        if (gain > 1e-7) {
            *entering = roll_logical(row);
            return true;
        }
    }
    return false;
}

/* What branches add to the worth of each size in each height, and (returned
 * through `fixed`) to each strip. Those that count what a strip holds are left
 * to worth_of. */
static void spread_branches(struct roll_master *master, double *fixed)
{
    const size_t count = master->problem->count;
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->from > 0)
            continue;
        if (branch->pieces)
            master->extra[branch->height * count + branch->size] +=
                master->simplex.dual[count + b];
        else
            fixed[branch->height] += master->simplex.dual[count + b];
    }
}

/* Undoes it, without touching the places that no branch has. */
static void clear_branches(struct roll_master *master)
{
    const size_t count = master->problem->count;
    for (size_t b = 0; b < master->branch_count; b++)
        if (master->branches[b].pieces)
            master->extra[master->branches[b].height * count +
                          master->branches[b].size] = 0.0;
}

/* Writes the newest patterns down once more, side by side. */
static void add_known(struct roll_master *master)
{
    struct roll_known *known = &master->known;
    while (known->columns.count < master->columns.count) {
        const struct roll_column *column =
            &master->columns.items[known->columns.count];
        struct roll_known_column *own =
            LIST_ADD(master->arena, &known->columns);
        own->height = (uint32_t)column->height;
        own->first = (uint32_t)known->parts.count;
        own->price = column->price;
        for (size_t i = 0; i < column->part_count; i++) {
            const struct roll_part part = column->parts[i];
            own->sizes |= (uint64_t)1 << part.size % 64;
            *LIST_ADD(master->arena, &known->parts) = (struct roll_known_part){
                (uint32_t)part.size, (uint32_t)part.count};
        }
    }
}

/* Where the parts of a pattern end. */
static size_t end_of(const struct roll_known *known, size_t c)
{
    return c + 1 < known->columns.count ? known->columns.items[c + 1].first
                                        : known->parts.count;
}

/* Does a pattern make no more than is asked for? Whole strips of it would waste
 * the rest. */
static bool is_useful(const struct roll_master *master, size_t c)
{
    const struct roll_known *known = &master->known;
    const struct roll_known_column *own = &known->columns.items[c];
    if ((own->sizes & known->spent) != 0)
        return false;
    const size_t *cap = master->cap + own->height * master->problem->count;
    const size_t end = end_of(known, c);
    for (size_t i = own->first; i < end; i++)
        if (known->parts.items[i].count > cap[known->parts.items[i].size])
            return false;
    return true;
}

/* Late in a dive most patterns make more than is left: they are passed over
 * once, not in every round. */
static void begin_useful(struct roll_master *master, const size_t *demand)
{
    master->known.useful.count = 0;
    master->known.seen = 0;
    master->known.spent = UINT64_MAX;
    for (size_t i = 0; i < master->problem->count; i++)
        if (demand[i] > 0)
            master->known.spent &= ~((uint64_t)1 << i % 64);
}

/* Of the patterns that came since. */
static void add_useful(struct roll_master *master)
{
    struct roll_known *known = &master->known;
    add_known(master);
    for (; known->seen < known->columns.count; known->seen++)
        if (is_useful(master, known->seen))
            *LIST_ADD(master->arena, &known->useful) = (uint32_t)known->seen;
}

/* What a pattern is worth. */
static double worth_of(const struct roll_master *master, size_t c)
{
    const struct roll_known *known = &master->known;
    const struct roll_known_column *own = &known->columns.items[c];
    const size_t end = end_of(known, c);
    const double *dual = master->simplex.dual;
    const double *extra = master->extra + own->height * master->problem->count;
    double value = 0.0;
    for (size_t i = own->first; i < end; i++) {
        const struct roll_known_part part = known->parts.items[i];
        value += (dual[part.size] + extra[part.size]) * (double)part.count;
    }
    for (size_t b = master->first_holding; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->from > 0 && branch->height == own->height)
            value += branch_value(branch, &master->columns.items[c]) *
                     dual[master->problem->count + b];
    }
    return value;
}

/* What a known pattern gives for its height, 1 where it neither gains nor
 * loses. */
static double share_of(const struct roll_master *master, const double *fixed,
                       size_t c)
{
    const struct roll_known_column *own = &master->known.columns.items[c];
    return (fixed[own->height] + worth_of(master, c)) / own->price;
}

/* Keeps the few that gain most, best first. */
static void keep_near(struct roll_near *near, size_t column, double share)
{
    size_t at = near->count;
    if (at == ROLL_NEAR && share <= near->share[at - 1])
        return;
    at -= at == ROLL_NEAR;
    for (; at > 0 && near->share[at - 1] < share; at--) {
        near->share[at] = near->share[at - 1];
        near->column[at] = near->column[at - 1];
    }
    near->share[at] = share;
    near->column[at] = column;
    near->count += near->count < ROLL_NEAR;
}

/* The best of those that gained most when all were looked at, if it still gains
 * much (partial pricing). */
static bool enter_near(struct roll_master *master, const double *fixed,
                       long *entering)
{
    const struct roll_near *near = &master->near;
    double most = 1.0 + 1e-7;
    if (near->count > 0 && (near->share[0] - 1.0) * 0.3 > 1e-7)
        most = 1.0 + (near->share[0] - 1.0) * 0.3;
    bool found = false;
    for (size_t i = 0; i < near->count; i++) {
        const double share = share_of(master, fixed, near->column[i]);
        if (share <= most)
            continue;
        most = share;
        *entering = (long)near->column[i];
        found = true;
    }
    return found;
}

/* The known pattern that gains most for its height. Of many, all are looked at
 * now and then only. */
static bool enter_known(struct roll_master *master, double *fixed,
                        long *entering)
{
    enum { FEW = 300, FEW_SIZES = 12 };
    memset(fixed, 0, master->heights.count * sizeof *fixed);
    spread_branches(master, fixed);
    const bool many =
        master->columns.count > FEW && master->problem->count > FEW_SIZES;
    bool found = many && enter_near(master, fixed, entering);
    if (!found) {
        double most = 1.0 + 1e-7;
        master->near.count = 0;
        add_useful(master);
        for (size_t i = 0; i < master->known.useful.count; i++) {
            const size_t c = master->known.useful.items[i];
            const double share = share_of(master, fixed, c);
            if (share <= 1.0 + 1e-7)
                continue;
            if (many)
                keep_near(&master->near, c, share);
            if (share <= most)
                continue;
            most = share;
            *entering = (long)c;
            found = true;
        }
        master->work += 4 * master->columns.count;
    }
    clear_branches(master);
    return found;
}

/* No strip holds more than all that is asked for, or than a branch allows. */
static void find_caps(struct roll_master *master, const size_t *demand)
{
    const size_t count = master->problem->count;
    for (size_t k = 0; k < master->heights.count; k++)
        memcpy(master->cap + k * count, demand, count * sizeof *demand);
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        size_t *cap = master->cap + branch->height * count + branch->size;
        if (branch->from > 0) {
            if (!branch->least && branch->limit == 0 && branch->from - 1 < *cap)
                *cap = branch->from - 1;
            continue;
        }
        if (branch->pieces && !branch->least && (size_t)branch->limit < *cap)
            *cap = (size_t)branch->limit;
    }
}

bool roll_master_enter(struct roll_master *master, long variable)
{
    const size_t rows = row_count(master);
    const uint64_t before = master->simplex.columns.work;
    struct arena *scratch = arena_create();
    const struct simplex_column column = column_of(
        master, variable, ARENA_ARRAY(scratch, struct simplex_entry, rows));
    const bool entered = simplex_pivot(&master->simplex, &column);
    master->work += 8 * rows + 2 * (master->simplex.columns.work - before);
    arena_destroy(scratch);
    return entered;
}

/* Where branches that count what strips hold begin; their number where there
 * are none. */
static size_t first_holding(const struct roll_master *master)
{
    size_t b = 0;
    while (b < master->branch_count && master->branches[b].from == 0)
        b++;
    return b;
}

/* Known patterns first, as looking through them is cheap; new ones when those
 * are used up. The limit on rounds guards against circling. */
static double optimize(struct roll_master *master, const size_t *demand)
{
    const size_t rows = row_count(master);
    struct arena *scratch = arena_create();
    struct simplex_entry *entries =
        ARENA_ARRAY(scratch, struct simplex_entry, rows);
    double *fixed = ARENA_ARRAY(scratch, double, master->heights.count);
    master->bound = 0;
    master->near.count = 0;
    master->first_holding = first_holding(master);
    find_caps(master, demand);
    begin_useful(master, demand);
    for (int round = 0; round < MOST_ROUNDS; round++) {
        long entering = 0;
        simplex_duals(&master->simplex);
        if (enter_logical(master, &entering) ||
            enter_known(master, fixed, &entering)) {
            const struct simplex_column column =
                column_of(master, entering, entries);
            if (!simplex_pivot(&master->simplex, &column))
                break;
            master->work += rows * rows;
        } else if (!roll_master_price(master, demand) ||
                   master->bound >= master->good_bound) {
            break;
        }
    }
    arena_destroy(scratch);
    master->total = simplex_total(&master->simplex);
    return master->total;
}

/* Of what a pattern makes too much, the surplus would fill its row. */
static bool makes_no_more(const struct roll_column *column,
                          const size_t *demand)
{
    for (size_t i = 0; i < column->part_count; i++)
        if (column->parts[i].count > demand[column->parts[i].size])
            return false;
    return true;
}

/* Begins anew rather than from the last basis: that one belongs to other
 * demands and need not be feasible for these. */
double roll_master_solve(struct roll_master *master, const size_t *demand)
{
    master->work += 5000; /* memory for the solution */
    roll_master_start(master, demand);
    return optimize(master, demand);
}

double roll_master_solve_from(struct roll_master *master, const size_t *demand,
                              const size_t *patterns, size_t pattern_count)
{
    master->work += 5000;
    struct arena *scratch = arena_create();
    double *asked = ARENA_ARRAY(scratch, double, master->problem->count);
    for (size_t row = 0; row < master->problem->count; row++)
        asked[row] = (double)demand[row];
    size_t *fitting = ARENA_ARRAY(scratch, size_t, pattern_count + 1);
    size_t count = 0;
    for (size_t i = 0; i < pattern_count; i++)
        if (makes_no_more(&master->columns.items[patterns[i]], demand))
            fitting[count++] = patterns[i];
    roll_master_start_from(master, demand, asked, fitting, count);
    arena_destroy(scratch);
    return optimize(master, demand);
}

/* The penalty drives what breaks the new branch out soon; where it stays, the
 * branches mostly contradict each other. Few pivots lie between parent and
 * child, so this costs far less than to begin anew. */
bool roll_master_resolve(struct roll_master *master, const size_t *demand,
                         const long *parent)
{
    master->work += 5000;
    master->bound = 0;
    if (!start_from(master, demand, parent))
        return false;
    optimize(master, demand);
    return true;
}
