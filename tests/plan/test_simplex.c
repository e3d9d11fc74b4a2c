/* Linear programmes with random columns, proved optimal by duality (Dantzig,
 * Linear Programming and Extensions, 1963, from memory): amounts that meet all
 * rows and prices at which no column gains are both best where their totals are
 * the same. */
#include <math.h>

#include "../unit.h"
#include "linear.h"

enum { ROWS = 7, COLUMNS = 40, TRIALS = 300 };
static const double close = 1e-6;

struct fixture {
    struct arena *arena;
    struct linear linear;
    double asked[ROWS];
    uint64_t seed;
};

/* A generator with a fixed start (Marsaglia, xorshift, 2003). */
static unsigned chance(struct fixture *f, unsigned below)
{
    f->seed ^= f->seed << 13;
    f->seed ^= f->seed >> 7;
    f->seed ^= f->seed << 17;
    return (unsigned)(f->seed % below);
}

static size_t random_column(struct fixture *f, size_t alone)
{
    double *entry = ARENA_ARRAY(f->arena, double, ROWS);
    for (size_t row = 0; row < ROWS; row++)
        if (alone == ROWS && chance(f, 2) == 0)
            entry[row] = (double)chance(f, 6);
    if (alone < ROWS)
        entry[alone] = (double)(1 + chance(f, 5));
    return linear_column(&f->linear, (double)(1 + chance(f, 20)), entry);
}

/* A column of its own for each row to begin with, then any. */
static struct fixture random_programme(struct arena *arena, uint64_t seed)
{
    struct fixture f = {.arena = arena, .seed = seed * 2654435761u + 1};
    linear_init(&f.linear, arena, ROWS);
    for (size_t row = 0; row < ROWS; row++) {
        f.asked[row] = (double)chance(&f, 30);
        linear_start(&f.linear, row, (long)random_column(&f, row),
                     f.asked[row]);
    }
    for (size_t c = ROWS; c < COLUMNS; c++)
        random_column(&f, ROWS);
    return f;
}

static const struct simplex_column *column_of(const struct linear *linear,
                                              long variable)
{
    return &linear->columns
                .items[variable < 0 ? -1 - variable : ROWS + variable];
}

/* What is bought gives each row what is asked. */
static void assert_bought(const struct fixture *f)
{
    const struct simplex *simplex = &f->linear.simplex;
    double given[ROWS] = {0.0};
    for (size_t row = 0; row < ROWS; row++) {
        const struct simplex_column *column =
            column_of(&f->linear, simplex->basis[row]);
        assert_int_equal(column->variable, simplex->basis[row]);
        assert_true(simplex->value[row] >= 0.0);
        for (size_t i = 0; i < column->count; i++)
            given[column->entries[i].row] +=
                column->entries[i].value * simplex->value[row];
    }
    for (size_t row = 0; row < ROWS; row++)
        assert_true(fabs(given[row] - f->asked[row]) < close);
}

/* No column is worth more than it costs; of a surplus that says that no price
 * is below 0. */
static void assert_prices(const struct fixture *f)
{
    const double *dual = f->linear.simplex.dual;
    for (size_t c = 0; c < f->linear.columns.count; c++) {
        const struct simplex_column *column = &f->linear.columns.items[c];
        double worth = 0.0;
        for (size_t i = 0; i < column->count; i++)
            worth += dual[column->entries[i].row] * column->entries[i].value;
        assert_true(worth <= column->cost + close);
    }
}

static void amounts_and_prices_prove_each_other(void **state)
{
    (void)state;
    for (uint64_t trial = 1; trial <= TRIALS; trial++) {
        struct arena *arena = arena_create();
        struct fixture f = random_programme(arena, trial);
        const double cost = linear_solve(&f.linear);
        double worth = 0.0;
        for (size_t row = 0; row < ROWS; row++)
            worth += f.linear.simplex.dual[row] * f.asked[row];
        assert_true(fabs(cost - worth) < close);
        assert_bought(&f);
        assert_prices(&f);
        arena_destroy(arena);
    }
}

/* After many pivots amounts and prices are what they are when the basis is
 * factored afresh. */
static void pivots_lead_to_what_the_basis_says(void **state)
{
    (void)state;
    for (uint64_t trial = 1; trial <= TRIALS; trial++) {
        struct arena *arena = arena_create();
        struct fixture f = random_programme(arena, trial);
        struct simplex *simplex = &f.linear.simplex;
        linear_solve(&f.linear);
        struct simplex_column columns[ROWS];
        double values[ROWS], duals[ROWS];
        for (size_t row = 0; row < ROWS; row++) {
            values[row] = simplex->value[row];
            duals[row] = simplex->dual[row];
            columns[row] = *column_of(&f.linear, simplex->basis[row]);
        }
        assert_true(simplex_restart(simplex, columns, f.asked));
        simplex_duals(simplex);
        for (size_t row = 0; row < ROWS; row++) {
            assert_true(fabs(simplex->value[row] - values[row]) < close);
            assert_true(fabs(simplex->dual[row] - duals[row]) < close);
        }
        arena_destroy(arena);
    }
}

/* Two columns of one row each leave the other row without any. */
static void columns_that_are_no_basis_are_refused(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    struct simplex simplex;
    const struct simplex_entry entries[] = {{0, 1.0}, {0, 3.0}};
    const struct simplex_column columns[] = {{0, 1.0, &entries[0], 1},
                                             {1, 1.0, &entries[1], 1}};
    const double asked[] = {1.0, 1.0};
    simplex_init(&simplex, arena, 2);
    assert_false(simplex_restart(&simplex, columns, asked));
    arena_destroy(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(amounts_and_prices_prove_each_other),
        cmocka_unit_test(pivots_lead_to_what_the_basis_says),
        cmocka_unit_test(columns_that_are_no_basis_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
