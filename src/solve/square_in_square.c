/* Squares in squares: sizes. Read next: use.c. */
#include "solver.h"

/* Square by nature; `size` fixes both sides. */
static void square_sizes(struct system *system, const struct piece *piece,
                         bool local_grid)
{
    (void)local_grid;
    system_equal(system, width_of(piece), height_of(piece));
    length_fact(system, width_of(piece), piece->element, &piece->size);
}

const struct sizing sizing_square_in_square = {.sizes = square_sizes,
                                               .check = check_across};
