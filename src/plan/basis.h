/* Inside the planner: the columns of a basis, factored, so that equations in
 * them are solved without an inverse: rows and columns in an order in which
 * the basis is a lower times an upper triangle, both with few entries, and a
 * list of the columns that were exchanged since (the product form; Dantzig and
 * Orchard-Hays, 1954, from memory). */
#ifndef SEAMWRIGHT_BASIS_H
#define SEAMWRIGHT_BASIS_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

/* What one of a variable adds to a row. */
struct simplex_entry {
    size_t row;
    double value;
};

struct simplex_entries {
    struct simplex_entry *items;
    size_t count, capacity;
};

/* Columns one behind the other: that of index i ends before `ends[i]`. */
struct basis_columns {
    struct simplex_entries all;
    size_t *ends;
};

/* A step takes a row and a place of the basis. In `lower` and `changes` the
 * entries are told by row and by place, in `upper` by step. */
struct basis {
    struct arena *arena;
    size_t rows;
    struct simplex_entries *columns; /* by place */
    bool factored;
    size_t *row_of, *place_of; /* by step */
    double *diagonal;
    struct basis_columns lower, upper;
    size_t changed; /* columns exchanged since it was factored */
    struct basis_columns changes;
    size_t *changed_place;
    double *changed_entry;
    /* scratch */
    size_t *step_of, *row_count, *order;
    double *line, *by_step;
    uint64_t work;
};

/* Columns that may be exchanged before it is factored anew: beyond it the list
 * costs more than the triangles, and rounding adds up. */
enum { BASIS_CHANGES = 64 };

/* Memory for at most so many rows; `rows` may then be set to fewer. */
void basis_init(struct basis *basis, struct arena *arena, size_t rows);

/* Puts a column in a place; it has to be factored then. */
void basis_place(struct basis *basis, size_t place,
                 const struct simplex_entry *entries, size_t count);

/* ensures: false where the columns are no basis. */
bool basis_factor(struct basis *basis);

/* How much of each place makes `given`, by row. requires: factored, so below.
 */
void basis_solve(struct basis *basis, const double *given, double *amounts);

/* What each row is worth where each place is worth `given`. */
void basis_price(struct basis *basis, const double *given, double *worths);

/* Exchanges the column of a place for one that the basis makes of `amounts`.
 */
void basis_exchange(struct basis *basis, size_t place, const double *amounts,
                    const struct simplex_entry *entries, size_t count);

#endif
