/* The linear programme over strip patterns, by the revised simplex method: a
 * row for each size, at least as many pieces as are asked for, and a row for
 * each branch of the search for whole strips. */
#include "roll_master.h"

#include <math.h>
#include <string.h>

enum { MOST_ROUNDS = 20000 };
static const double tiny = 1e-9;

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

/* What a variable adds to a row. */
struct entry {
    size_t row;
    double value;
};

/* A surplus takes away from its row, a slack adds to it; an artificial variable
 * does the opposite, so that it can fill a row that is broken. */
static size_t row_entry(const struct roll_master *master, long variable,
                        struct entry *entries)
{
    const size_t count = master->problem->count;
    const size_t row = (size_t)(-1 - variable) / 2;
    const bool least = row < count || master->branches[row - count].least;
    const bool logical = variable == roll_logical(row);
    entries[0] = (struct entry){row, least == logical ? -1.0 : 1.0};
    return 1;
}

/* Without zeros, as a pattern holds few sizes of many. Rows of branches are not
 * stored with the column: they change with each part of the search, while
 * patterns stay. */
static size_t entries_of(const struct roll_master *master, long variable,
                         struct entry *entries)
{
    if (variable < 0)
        return row_entry(master, variable, entries);
    const struct roll_column *column = &master->columns.items[variable];
    size_t n = 0;
    for (size_t i = 0; i < column->part_count; i++)
        entries[n++] = (struct entry){column->parts[i].size,
                                      (double)column->parts[i].count};
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->height != column->height)
            continue;
        const double value =
            branch->pieces ? (double)column->made[branch->size] : 1.0;
        if (value > 0.0)
            entries[n++] =
                (struct entry){master->problem->count + b, value};
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

/* ---- where the simplex method begins ---- */

/* The strip of one size alone that costs least for a piece. */
static size_t own_column(struct roll_master *master, size_t size, size_t demand)
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
    memset(master->inverse, 0, count * count * sizeof *master->inverse);
    for (size_t i = 0; i < count; i++) {
        if (demand[i] == 0) {
            master->basis[i] = roll_logical(i);
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

/* Makes row `at` of [matrix | inverse] a unit row and clears its column
 * elsewhere. False where no row has enough there: a basis that is none. Gauss
 * and Jordan; the largest entry is the pivot, as dividing by a small one would
 * blow up rounding. */
static bool eliminate(double *matrix, double *inverse, size_t rows, size_t at,
                      uint64_t *work)
{
    size_t best = at;
    for (size_t r = at; r < rows; r++)
        if (fabs(matrix[r * rows + at]) > fabs(matrix[best * rows + at]))
            best = r;
    if (fabs(matrix[best * rows + at]) < tiny)
        return false;
    const double scale = 1.0 / matrix[best * rows + at];
    for (size_t i = 0; i < rows; i++) {
        const double a = matrix[best * rows + i] * scale;
        const double b = inverse[best * rows + i] * scale;
        matrix[best * rows + i] = matrix[at * rows + i];
        inverse[best * rows + i] = inverse[at * rows + i];
        matrix[at * rows + i] = a;
        inverse[at * rows + i] = b;
    }
    for (size_t r = 0; r < rows; r++) {
        const double factor = matrix[r * rows + at];
        if (r == at || factor == 0.0)
            continue;
        *work += rows;
        for (size_t i = 0; i < rows; i++) {
            matrix[r * rows + i] -= factor * matrix[at * rows + i];
            inverse[r * rows + i] -= factor * inverse[at * rows + i];
        }
    }
    return true;
}

/* The inverse of the basis, afresh. It does not inherit the rounding of the
 * many pivots that led to the parent. */
static bool invert_basis(struct roll_master *master)
{
    const size_t rows = row_count(master);
    struct arena *scratch = arena_create();
    double *matrix = ARENA_ARRAY(scratch, double, rows *rows);
    struct entry *entries = ARENA_ARRAY(scratch, struct entry, rows);
    memset(master->inverse, 0, rows * rows * sizeof *master->inverse);
    for (size_t c = 0; c < rows; c++) {
        const size_t n = entries_of(master, master->basis[c], entries);
        for (size_t i = 0; i < n; i++)
            matrix[entries[i].row * rows + c] = entries[i].value;
        master->inverse[c * rows + c] = 1.0;
    }
    bool regular = true;
    for (size_t at = 0; at < rows && regular; at++)
        regular = eliminate(matrix, master->inverse, rows, at,
                            &master->work);
    master->work += 2 * rows * rows;
    arena_destroy(scratch);
    return regular;
}

/* value = inverse x what the rows ask for. Rounding below zero is lifted. */
static void find_values(struct roll_master *master, const size_t *demand)
{
    const size_t rows = row_count(master), count = master->problem->count;
    for (size_t row = 0; row < rows; row++) {
        double sum = 0.0;
        for (size_t i = 0; i < rows; i++)
            sum += master->inverse[row * rows + i] *
                   (i < count ? (double)demand[i]
                              : (double)master->branches[i - count].limit);
        master->value[row] = sum < 0.0 ? 0.0 : sum;
    }
}

/* ---- the simplex method ---- */

/* dual = cost of basis x inverse: what one more piece of each size would cost
 * at the margin. */
static void find_duals(struct roll_master *master)
{
    const size_t rows = row_count(master);
    memset(master->dual, 0, rows * sizeof *master->dual);
    for (size_t row = 0; row < rows; row++) {
        const double cost = cost_of(master, master->basis[row]);
        if (cost == 0.0)
            continue;
        const double *line = master->inverse + row * rows;
        for (size_t i = 0; i < rows; i++)
            master->dual[i] += cost * line[i];
    }
}

/* The row whose variable leaves when `entering` grows; the row count where
 * nothing limits it. Fills `change`. Of equal ratios the larger pivot is taken:
 * it keeps the inverse exact. */
static size_t leaving_row(struct roll_master *master, long entering,
                          struct entry *entries)
{
    const size_t rows = row_count(master);
    const size_t n = entries_of(master, entering, entries);
    size_t leaving = rows;
    double least = 0.0;
    for (size_t row = 0; row < rows; row++) {
        double sum = 0.0;
        for (size_t i = 0; i < n; i++)
            sum += master->inverse[row * rows + entries[i].row] *
                   entries[i].value;
        master->change[row] = sum;
        if (sum <= tiny)
            continue;
        const double ratio = master->value[row] / sum;
        if (leaving == rows || ratio < least - tiny ||
            (ratio < least + tiny && sum > master->change[leaving])) {
            leaving = row;
            least = ratio;
        }
    }
    return leaving;
}

/* Brings a variable into the basis. False where nothing limits it (it does not
 * happen with costs above 0). */
static bool pivot(struct roll_master *master, long entering,
                  struct entry *entries)
{
    const size_t rows = row_count(master);
    const size_t leaving = leaving_row(master, entering, entries);
    if (leaving == rows)
        return false;
    const double *change = master->change;
    const double amount = master->value[leaving] / change[leaving];
    double *line = master->inverse + leaving * rows;
    for (size_t i = 0; i < rows; i++)
        line[i] /= change[leaving];
    for (size_t row = 0; row < rows; row++) {
        if (row == leaving || fabs(change[row]) < 1e-14)
            continue;
        double *other = master->inverse + row * rows;
        for (size_t i = 0; i < rows; i++)
            other[i] -= change[row] * line[i];
        master->value[row] -= change[row] * amount;
        if (master->value[row] < 0.0)
            master->value[row] = 0.0;
    }
    master->work += rows * rows;
    master->value[leaving] = amount;
    master->basis[leaving] = entering;
    return true;
}

/* A surplus or slack that is worth using: its row costs where it should pay. */
static bool enter_logical(const struct roll_master *master, long *entering)
{
    const size_t count = master->problem->count;
    for (size_t row = 0; row < row_count(master); row++) {
        const bool least = row < count || master->branches[row - count].least;
        const double gain = least ? -master->dual[row] : master->dual[row];
        if (gain > 1e-7) {
            *entering = roll_logical(row);
            return true;
        }
    }
    return false;
}

/* What branches add to the worth of each size in each height, and (returned
 * through `fixed`) to each strip. */
static void spread_branches(struct roll_master *master, double *fixed)
{
    const size_t count = master->problem->count;
    for (size_t b = 0; b < master->branch_count; b++) {
        const struct roll_branch *branch = &master->branches[b];
        if (branch->pieces)
            master->extra[branch->height * count + branch->size] +=
                master->dual[count + b];
        else
            fixed[branch->height] += master->dual[count + b];
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

/* What a pattern is worth; nothing where it makes more than is asked for, as
 * whole strips of it would waste the rest. */
static double worth_of(const struct roll_master *master,
                       const struct roll_column *column)
{
    const size_t at = column->height * master->problem->count;
    const double *extra = master->extra + at;
    const size_t *cap = master->cap + at;
    double value = 0.0;
    for (size_t i = 0; i < column->part_count; i++) {
        const struct roll_part part = column->parts[i];
        if (part.count > cap[part.size])
            return 0.0;
        value +=
            (master->dual[part.size] + extra[part.size]) * (double)part.count;
    }
    return value;
}

/* The known pattern that gains most for its height. */
static bool enter_known(struct roll_master *master, double *fixed,
                        long *entering)
{
    memset(fixed, 0, master->heights.count * sizeof *fixed);
    spread_branches(master, fixed);
    double most = 1.0 + 1e-7;
    bool found = false;
    for (size_t c = 0; c < master->columns.count; c++) {
        const struct roll_column *column = &master->columns.items[c];
        const double value =
            fixed[column->height] + worth_of(master, column);
        if (value <= most * column->price)
            continue;
        most = value / column->price;
        *entering = (long)c;
        found = true;
    }
    master->work += 4 * master->columns.count;
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
        if (branch->pieces && !branch->least &&
            (size_t)branch->limit < *cap)
            *cap = (size_t)branch->limit;
    }
}

/* Known patterns first, as looking through them is cheap; new ones when those
 * are used up. The limit on rounds guards against circling. */
static double optimize(struct roll_master *master, const size_t *demand)
{
    const size_t rows = row_count(master);
    struct arena *scratch = arena_create();
    struct entry *entries = ARENA_ARRAY(scratch, struct entry, rows);
    double *fixed = ARENA_ARRAY(scratch, double, master->heights.count);
    master->bound = 0;
    find_caps(master, demand);
    for (int round = 0; round < MOST_ROUNDS; round++) {
        long entering = 0;
        find_duals(master);
        if (enter_logical(master, &entering) ||
            enter_known(master, fixed, &entering)) {
            if (!pivot(master, entering, entries))
                break;
        } else if (!roll_master_price(master, demand) ||
                   master->bound >= master->good_bound) {
            break;
        }
    }
    double total = 0.0;
    for (size_t row = 0; row < rows; row++)
        total += cost_of(master, master->basis[row]) * master->value[row];
    arena_destroy(scratch);
    master->total = total;
    return total;
}

/* Begins anew rather than from the last basis: that one belongs to other
 * demands and need not be feasible for these. */
double roll_master_solve(struct roll_master *master, const size_t *demand)
{
    master->work += 5000; /* memory for the solution */
    roll_master_start(master, demand);
    return optimize(master, demand);
}

/* The parent's basis, and in the new row what breaks it. The penalty drives
 * that out soon; where it stays, the branches mostly contradict each other. Few
 * pivots lie between parent and child, so this costs far less than to begin
 * anew. */
bool roll_master_resolve(struct roll_master *master, const size_t *demand,
                         const long *parent)
{
    const size_t rows = row_count(master);
    master->work += 5000;
    for (size_t row = 0; row + 1 < rows; row++)
        master->basis[row] = parent[row];
    master->basis[rows - 1] = roll_artificial(rows - 1);
    master->bound = 0;
    if (!invert_basis(master))
        return false;
    find_values(master, demand);
    optimize(master, demand);
    return true;
}
