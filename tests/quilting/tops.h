/* Tops for the tests of quilting: one with known figures, and random ones. */
#ifndef SEAMWRIGHT_TESTS_TOPS_H
#define SEAMWRIGHT_TESTS_TOPS_H

#include "../unit.h"
#include "arrange.h"

typedef LIST(struct segment) segments;

static inline struct vertex at(int64_t x, int64_t x_den, int64_t y,
                               int64_t y_den)
{
    return (struct vertex){rational_make(x, x_den), rational_make(y, y_den)};
}

/* A point in sevenths of twelve, in the block of a column and row. */
static inline struct vertex seventh(int64_t column, int64_t row, int64_t x,
                                    int64_t y)
{
    return at(12 * (7 * column + x), 7, 12 * (7 * row + y), 7);
}

/* For numbers that are long. */
static inline number power(int64_t base, int times)
{
    number result = number_whole(1);
    for (int i = 0; i < times; i++)
        result = number_mul(result, number_whole(base));
    return result;
}

static inline void add_segment(struct arena *arena, segments *list,
                               struct vertex from, struct vertex to)
{
    *LIST_ADD(arena, list) = (struct segment){from, to};
}

/* 7 x 7 squares, each with its diagonal, falling where row + column is odd. */
static inline void add_pieced_block(struct arena *arena, segments *list,
                                    int64_t column, int64_t row)
{
    for (int64_t x = 0; x < 7; x++)
        for (int64_t y = 0; y < 7; y++) {
            const bool falling = (x + y) % 2 == 1;
            add_segment(arena, list, seventh(column, row, x, y + !falling),
                        seventh(column, row, x + 1, y + falling));
            if (x > 0)
                add_segment(arena, list, seventh(column, row, x, y),
                            seventh(column, row, x, y + 1));
            if (y > 0)
                add_segment(arena, list, seventh(column, row, x, y),
                            seventh(column, row, x + 1, y));
        }
}

/* The seams of 5 x 6 blocks of 12 in, pieced where row + column is even, with
 * the sides of blocks, which are seams or the rim. */
static inline void add_top(struct arena *arena, segments *list)
{
    for (int64_t x = 0; x < 5; x++)
        for (int64_t y = 0; y < 6; y++)
            if ((x + y) % 2 == 0)
                add_pieced_block(arena, list, x, y);
    for (int64_t x = 0; x <= 5; x++)
        for (int64_t y = 0; y <= 6; y++) {
            if (x < 5)
                add_segment(arena, list, seventh(x, y, 0, 0),
                            seventh(x + 1, y, 0, 0));
            if (y < 6)
                add_segment(arena, list, seventh(x, y, 0, 0),
                            seventh(x, y + 1, 0, 0));
        }
}

/* All lines of the neighbors, through a plain block: 6 upright, 6 level and 26
 * at 45 degrees. */
static inline void add_extended(struct arena *arena, segments *list, int64_t x,
                                int64_t y)
{
    for (int64_t k = 1; k < 7; k++) {
        add_segment(arena, list, seventh(x, y, k, 0), seventh(x, y, k, 7));
        add_segment(arena, list, seventh(x, y, 0, k), seventh(x, y, 7, k));
    }
    for (int64_t k = 1; k < 7; k++) {
        add_segment(arena, list, seventh(x, y, k, 0), seventh(x, y, 0, k));
        add_segment(arena, list, seventh(x, y, k, 7), seventh(x, y, 7, k));
        add_segment(arena, list, seventh(x, y, k, 0), seventh(x, y, 7, 7 - k));
        add_segment(arena, list, seventh(x, y, 0, k), seventh(x, y, 7 - k, 7));
    }
    add_segment(arena, list, seventh(x, y, 0, 0), seventh(x, y, 7, 7));
    add_segment(arena, list, seventh(x, y, 7, 0), seventh(x, y, 0, 7));
}

/* From corners of a plain block to the sevenths of sides across: 36. */
static inline void add_corner_lines(struct arena *arena, segments *list,
                                    int64_t x, int64_t y)
{
    for (int64_t k = 1; k < 7; k++) {
        const struct vertex right = seventh(x, y, 7, k);
        const struct vertex left = seventh(x, y, 0, k);
        const struct vertex top = seventh(x, y, k, 0);
        const struct vertex bottom = seventh(x, y, k, 7);
        add_segment(arena, list, seventh(x, y, 0, 0), right);
        add_segment(arena, list, seventh(x, y, 0, 0), bottom);
        add_segment(arena, list, seventh(x, y, 7, 7), left);
        add_segment(arena, list, seventh(x, y, 7, 7), top);
        add_segment(arena, list, seventh(x, y, 7, 0), left);
        add_segment(arena, list, seventh(x, y, 0, 7), right);
    }
}

static inline void add_to_plain(struct arena *arena, segments *list,
                                void (*add)(struct arena *, segments *, int64_t,
                                            int64_t))
{
    for (int64_t x = 0; x < 5; x++)
        for (int64_t y = 0; y < 6; y++)
            if ((x + y) % 2 == 1)
                add(arena, list, x, y);
}

/* A random top of blocks of 12 in, each over a grid of thirds, sevenths or
 * eighths of its own: lines between points of that grid, and loose ones. The
 * rim is with it. ensures: its size in blocks. */
static inline struct extent add_random_top(struct arena *arena, segments *list,
                                           struct unit_random *random)
{
    static const int64_t grids[] = {3, 7, 8};
    const int64_t across = 1 + unit_below(random, 3);
    const int64_t down = 1 + unit_below(random, 3);
    const struct extent extent = level_extent(at(0, 1, 0, 1),
                                  at(12 * across, 1, 12 * down, 1));
    struct segment sides[4];
    extent_sides(extent, sides);
    for (size_t i = 0; i < 4; i++)
        *LIST_ADD(arena, list) = sides[i];
    for (int64_t block = 0; block < across * down; block++) {
        const int64_t grid = grids[unit_below(random, 3)];
        const int64_t x = block % across, y = block / across;
        for (int64_t k = unit_below(random, 30); k >= 0; k--) {
            struct vertex ends[2];
            for (size_t e = 0; e < 2; e++)
                ends[e] =
                    at(12 * (x * grid + unit_below(random, 1 + (uint64_t)grid)),
                       grid,
                       12 * (y * grid + unit_below(random, 1 + (uint64_t)grid)),
                       grid);
            add_segment(arena, list, ends[0], ends[1]);
        }
    }
    return extent;
}

#endif
