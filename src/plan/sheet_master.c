/* The linear programme over whole sheets (Gilmore and Gomory, 1965): its duals
 * price pieces, and the best sheet at those prices is the next column. */
#include "sheet_master.h"

#include <string.h>

enum { SCALE = 1 << 24, MOST_COLUMNS = 3000 };

/* Room in the programme for a sheet of the filler. */
static size_t add_column(struct sheet_master *master,
                         struct sheet_pattern pattern, const size_t *made)
{
    const size_t count = master->problem->count;
    size_t *copy = ARENA_ARRAY(master->arena, size_t, count);
    double *entry = ARENA_ARRAY(master->arena, double, count);
    for (size_t i = 0; i < count; i++) {
        copy[i] = made[i];
        entry[i] = (double)made[i];
    }
    *LIST_ADD(master->arena, &master->columns) =
        (struct sheet_column){pattern, copy};
    return linear_column(&master->linear, 1.0, entry);
}

/* The sheet that holds most of one size alone. */
static size_t own_column(struct sheet_master *master, size_t size)
{
    struct arena *scratch = arena_create();
    const size_t count = master->problem->count;
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    size_t *most = ARENA_ARRAY(scratch, size_t, count);
    size_t *made = ARENA_ARRAY(scratch, size_t, count);
    struct sheet_pattern pattern;
    worth[size] = 1;
    most[size] = master->problem->sizes[size].demand;
    sheet_fill(&master->filler, master->arena, worth, most, made, &pattern);
    const size_t column = add_column(master, pattern, made);
    arena_destroy(scratch);
    return column;
}

/* A sheet of each size alone, once: every later programme starts from them. */
bool sheet_master_init(struct sheet_master *master, struct arena *arena,
                       const struct sheet_problem *problem)
{
    *master = (struct sheet_master){.arena = arena, .problem = problem};
    if (!sheet_filler_init(&master->filler, arena, problem))
        return false;
    linear_init(&master->linear, arena, problem->count);
    master->own = ARENA_ARRAY(arena, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        if (problem->sizes[i].demand > 0)
            master->own[i] = own_column(master, i);
    return true;
}

/* The best sheet at the duals, if it is worth more than a sheet costs. */
static bool price(struct sheet_master *master, const size_t *demand)
{
    struct arena *scratch = arena_create();
    const size_t count = master->problem->count;
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    size_t *made = ARENA_ARRAY(scratch, size_t, count);
    struct sheet_pattern pattern;
    for (size_t i = 0; i < count; i++)
        if (demand[i] > 0 && master->linear.simplex.dual[i] > 0.0)
            worth[i] = (int64_t)(master->linear.simplex.dual[i] * SCALE);
    const int64_t value = sheet_fill_bound(&master->filler, master->arena,
                                           worth, demand, made, &pattern);
    /* Less is noise of the duals and would never end. */
    const bool gains = value > SCALE + SCALE / 100000;
    if (gains)
        add_column(master, pattern, made);
    arena_destroy(scratch);
    return gains;
}

/* Sheets found for other demands stay: they are often good here, too, and a
 * surplus costs nothing in the programme. */
double sheet_master_solve(struct sheet_master *master, const size_t *demand)
{
    for (size_t i = 0; i < master->problem->count; i++)
        linear_start(&master->linear, i,
                     demand[i] > 0 ? (long)master->own[i] : -1,
                     (double)demand[i]);
    double sheets = linear_solve(&master->linear);
    /* Duals of an unfinished programme still give a bound. */
    while (master->columns.count < MOST_COLUMNS &&
           sheet_work(master) < master->limit && price(master, demand))
        sheets = linear_solve(&master->linear);
    return sheets;
}

/* No sheet holds more than its own area. */
static size_t area_bound(const struct sheet_problem *problem,
                         const size_t *demand)
{
    const int64_t sheet = problem->width * problem->height;
    int64_t area = 0;
    for (size_t i = 0; i < problem->count; i++)
        area += (int64_t)demand[i] * problem->sizes[i].width *
                problem->sizes[i].height;
    return (size_t)((area + sheet - 1) / sheet);
}

/* Rounding up is safe: any worths at all give a bound, these a good one. */
size_t sheet_bound(struct sheet_master *master, const size_t *demand)
{
    struct arena *scratch = arena_create();
    const size_t count = master->problem->count;
    int64_t *worth = ARENA_ARRAY(scratch, int64_t, count);
    int64_t total = 0;
    for (size_t i = 0; i < count; i++) {
        if (master->linear.simplex.dual[i] > 0.0)
            worth[i] = (int64_t)(master->linear.simplex.dual[i] * SCALE + 0.5);
        total += worth[i] * (int64_t)demand[i];
    }
    const int64_t most =
        sheet_fill_bound(&master->filler, scratch, worth, demand, NULL, NULL);
    arena_destroy(scratch);
    /* Where the programme was not finished, area alone may say more. */
    const size_t by_area = area_bound(master->problem, demand);
    const size_t by_worth = most == 0 ? 0 : (size_t)((total + most - 1) / most);
    return by_area > by_worth ? by_area : by_worth;
}

/* Both kinds of table count alike: a cell is a cell. */
uint64_t sheet_work(const struct sheet_master *master)
{
    return master->filler.work + master->linear.work;
}
