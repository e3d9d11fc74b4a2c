/* Inside the solving stage. Two variables a piece, numbered from its index, so
 * that no table is needed to go from one to the other; take_facts tells wide
 * from high by the last bit. */
#ifndef SEAMWRIGHT_SOLVER_H
#define SEAMWRIGHT_SOLVER_H

#include "system.h"

/* The variables of a piece: its width and its height as it lies. */
static inline variable width_of(const struct piece *piece)
{
    return 2 * piece->index;
}
static inline variable height_of(const struct piece *piece)
{
    return 2 * piece->index + 1;
}

/* The piece whose width or height it is. */
static inline const struct piece *piece_of(const struct design *design,
                                           variable v)
{
    return design->pieces.items[v / 2];
}

/* True where the lengths inside are grid squares: a block with a grid, and a
 * unit that such a block uses. */
bool *find_local_grids(struct run *run, const struct design *design);

/* Makes the system of all sizes of a design. */
void build_system(struct system *system, const bool *local_grid);

/* Scales of all definitions, from the quilts down. reports: squares that do
 * not cut on a ruler. */
void find_scales(struct run *run, struct sized *sized);

/* Checks corners, and what is stated of sizes and counts. */
void check_sizes(struct run *run, const struct sized *sized);

#endif
