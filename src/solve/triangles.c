/* Rows of triangles: sizes. The height of an equilateral triangle is its side
 * times the root of 3, halved (derived: Pythagoras), so a place is 2 / sqrt 3
 * of the row's height wide, and each further one half as much. Read next:
 * on_point.c. */
#include "solver.h"

/* Half a side, for a row of height 1. */
static struct rational half_side(void)
{
    return rational_div(rational_root(3), rational_whole(3));
}

/* How many halves of a side a shape is wide. */
static int64_t halves_of(enum patch_shape shape)
{
    return shape == PATCH_TRIANGLE                               ? 2
           : shape == PATCH_HALF_HEXAGON                         ? 4
           : shape == PATCH_END_LEFT || shape == PATCH_END_RIGHT ? 1
                                                                 : 3;
}

/* Of a shape, which lies in many cells. */
static void cell_sizes(struct system *system, const struct piece *whole,
                       const struct piece *cell)
{
    const struct piece *first = whole->cells.items[0].piece;
    system_equal(system, height_of(first), height_of(cell));
    struct sum *sum =
        system_sum(system, width_of(cell), whole->element, "wide");
    system_term(system, sum, height_of(first),
                rational_times(half_side(), halves_of(cell->shape)),
                whole->element);
}

/* A row is as high as its pieces, which are all of one height. */
static void triangle_sizes(struct system *system, const struct piece *piece,
                           bool local_grid)
{
    (void)local_grid;
    const struct triangle_rows *rows = piece->triangles;
    if (rows == NULL) {
        silence_all(system, piece);
        return;
    }
    const struct piece *first = piece->cells.items[0].piece;
    length_fact(system, height_of(first), piece->element, &piece->size);
    struct arena *scratch = arena_create();
    bool *told = ARENA_ARRAY(scratch, bool, system->design->pieces.count);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct piece *cell = piece->cells.items[i].piece;
        if (!told[cell->index])
            cell_sizes(system, piece, cell);
        told[cell->index] = true;
    }
    arena_destroy(scratch);
    struct sum *sum =
        system_sum(system, width_of(piece), piece->element, "wide");
    system_term(system, sum, height_of(first),
                rational_times(half_side(), (int64_t)rows->across + 1),
                piece->element);
    sum = system_sum(system, height_of(piece), piece->element, "high");
    system_term(system, sum, height_of(first),
                rational_whole((int64_t)rows->rows), piece->element);
}

const struct sizing sizing_triangles = {.sizes = triangle_sizes};
