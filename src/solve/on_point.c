/* Settings on point: sizes. A block of side F stands on its corner, F * sqrt 2
 * across and down (derived: Pythagoras), and
 * all blocks of a setting are one square. The finished size is exact, a number
 * with a root; what is cut is rounded up (sew/on_point.c). Read next:
 * half_square.c. */
#include "solver.h"

/* n * sqrt 2, or n * sqrt 2 / 2. */
static struct rational roots_of_2(int64_t n)
{
    return rational_times(rational_root(2), n);
}
static struct rational half_root_of_2(void)
{
    return rational_div(rational_root(2), rational_whole(2));
}

/* Blocks are squares of one size. */
static void equal_blocks(struct system *system, const struct on_point *on_point)
{
    const struct piece *first = on_point->blocks[0].piece;
    for (size_t i = 0; i < on_point->block_count; i++) {
        const struct piece *block = on_point->blocks[i].piece;
        system_equal(system, width_of(first), width_of(block));
        system_equal(system, width_of(first), height_of(block));
    }
}

/* Strips are as long as a block and of one width; cornerstones are as wide. */
static void equal_strips(struct system *system, const struct on_point *on_point)
{
    const struct piece *block = on_point->blocks[0].piece;
    const struct piece *upright = on_point->upright, *level = on_point->level;
    const struct piece *stone = on_point->crossing;
    system_equal(system, height_of(upright), width_of(block));
    if (!on_point->turned) {
        system_equal(system, width_of(level), width_of(block));
        system_equal(system, height_of(level), width_of(upright));
    }
    system_equal(system, width_of(stone), width_of(upright));
    system_equal(system, height_of(stone), width_of(upright));
}

/* The setting is so many diagonals of a block and its sashing, and twice what
 * it floats. */
static void whole_size(struct system *system, const struct piece *piece,
                       variable total, size_t blocks, const char *dimension)
{
    const struct on_point *on_point = piece->on_point;
    const struct rational diagonals = roots_of_2((int64_t)blocks);
    struct sum *sum = system_sum(system, total, piece->element, dimension);
    sum->constant = rational_times(on_point->excess, -2);
    const struct piece *block = on_point->blocks[0].piece;
    system_term(system, sum, width_of(block), diagonals, block->element);
    if (on_point->sashed)
        system_term(system, sum, width_of(on_point->upright), diagonals,
                    on_point->upright->element);
}

/* The legs of a triangle, which are `factor` times a block's side and so much
 * longer as it floats (derived: a side triangle lies on a block with both legs,
 * a corner triangle with its long edge). */
static void triangle_size(struct system *system, const struct piece *piece,
                          const struct piece *triangle, struct rational factor,
                          struct rational longer)
{
    const struct piece *block = piece->on_point->blocks[0].piece;
    struct sum *sum = system_sum(system, width_of(triangle), piece->element,
                                 "wide");
    sum->constant = rational_times(longer, -1);
    system_term(system, sum, width_of(block), factor, block->element);
    system_equal(system, width_of(triangle), height_of(triangle));
}

struct rational triangle_square(const struct pattern *pattern,
                                enum patch_shape shape, struct rational legs)
{
    const bool quartered = shape == PATCH_QUARTERED;
    const struct rational root = rational_root(2), two = rational_whole(2);
    const struct rational seams = rational_mul(
        pattern->seam,
        rational_add(two, quartered ? rational_mul(two, root) : root));
    const struct rational edge = quartered ? rational_mul(legs, root) : legs;
    return rational_round_up(rational_add(edge, seams), pattern->cutting_step);
}

static void on_point_sizes(struct system *system, const struct piece *piece,
                           bool local_grid)
{
    (void)local_grid;
    const struct on_point *on_point = piece->on_point;
    if (on_point == NULL || !rational_known(on_point->excess)) {
        silence_all(system, piece);
        return;
    }
    equal_blocks(system, on_point);
    if (on_point->sashed)
        equal_strips(system, on_point);
    whole_size(system, piece, width_of(piece), on_point->across, "wide");
    whole_size(system, piece, height_of(piece), on_point->down, "high");
    if (on_point->side != NULL)
        triangle_size(system, piece, on_point->side, rational_whole(1),
                      rational_mul(on_point->excess, rational_root(2)));
    triangle_size(system, piece, on_point->corner, half_root_of_2(),
                  rational_times(on_point->excess, 2));
}

const struct sizing sizing_on_point = {.sizes = on_point_sizes};
