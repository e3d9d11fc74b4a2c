/* Flying geese: sizes. Read next: use.c. */
#include "solver.h"

/* A goose is half as high as it is wide: its legs run at 45 degrees. Pointing
 * to the left or right, it is half as wide as it is high. */
static void geese_sizes(struct system *system, const struct piece *piece,
                        bool local_grid)
{
    (void)local_grid;
    const bool level =
        piece->points == SIDE_LEFT || piece->points == SIDE_RIGHT;
    struct sum *sum =
        system_sum(system, level ? height_of(piece) : width_of(piece),
                   piece->element, level ? "high" : "wide");
    system_term(system, sum, level ? width_of(piece) : height_of(piece),
                rational_whole(2), piece->element);
}

const struct sizing sizing_flying_geese = {.sizes = geese_sizes,
                                           .check = check_across};
