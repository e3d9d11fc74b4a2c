/* A top to quilt, with many lines: 5 x 6 blocks of 12 in. Where row and column
 * together are even, a block is pieced of 7 x 7 squares, each with a diagonal,
 * falling where its own row and column are odd together, else rising. In the
 * plain blocks between them the seams go on: 6 lines upright, 6 level and 13 in
 * each slanted direction. All lies on a lattice, so its arrangement is made by
 * counting: points are numbered along it, two for each seventh of a block. */
#ifndef SEAMWRIGHT_TESTS_QUILTING_LATTICE_TOP_H
#define SEAMWRIGHT_TESTS_QUILTING_LATTICE_TOP_H

#include <math.h>

#include "../../src/quilting/route.h"
#include "../unit.h"

struct top {
    struct spot *points;
    bool *at_edge;
    LIST(struct route_piece) pieces;
    size_t across, down; /* blocks */
    size_t lines;        /* extended */
    struct arena *arena;
};

/* A lattice point, counted in half sevenths. */
static inline size_t top_point(const struct top *top, size_t x, size_t y)
{
    return y * (14 * top->across + 1) + x;
}

static inline void top_add(struct top *top, size_t x, size_t y, size_t to_x,
                           size_t to_y, bool planned)
{
    const size_t a = top_point(top, x, y), b = top_point(top, to_x, to_y);
    *LIST_ADD(top->arena, &top->pieces) = (struct route_piece){
        a, b,
        hypot(top->points[a].x - top->points[b].x,
              top->points[a].y - top->points[b].y),
        planned, planned ? ROUTE_TRAVEL_BACK : ROUTE_TRAVEL_DITCH, false};
}

/* The two halves of a slanted piece through one square. */
static inline void top_add_slanted(struct top *top, size_t x, size_t y,
                                   bool rising, bool planned)
{
    const size_t from = rising ? y + 2 : y, to = rising ? y : y + 2;
    top_add(top, x, from, x + 1, y + 1, planned);
    top_add(top, x + 1, y + 1, x + 2, to, planned);
}

/* One square of a block, with the sides to its right and below. */
static inline void top_add_square(struct top *top, size_t column, size_t row,
                                  bool plain)
{
    const size_t x = 2 * column, y = 2 * row;
    const size_t right = 14 * top->across, bottom = 14 * top->down;
    if (x + 2 < right)
        top_add(top, x + 2, y, x + 2, y + 2, plain && (x + 2) % 14 != 0);
    if (y + 2 < bottom)
        top_add(top, x, y + 2, x + 2, y + 2, plain && (y + 2) % 14 != 0);
    const bool falling = (column % 7 + row % 7) % 2 == 1;
    if (plain || falling)
        top_add_slanted(top, x, y, false, plain);
    if (plain || !falling)
        top_add_slanted(top, x, y, true, plain);
}

/* Along the quilt's outline, where a border would be sewn on: travel there is
 * allowed or not, and lines end at the edge or not. */
static inline void top_add_outline(struct top *top)
{
    const size_t right = 14 * top->across, bottom = 14 * top->down;
    for (size_t x = 0; x < right; x += 2) {
        top_add(top, x, 0, x + 2, 0, false);
        top_add(top, x, bottom, x + 2, bottom, false);
    }
    for (size_t y = 0; y < bottom; y += 2) {
        top_add(top, 0, y, 0, y + 2, false);
        top_add(top, right, y, right, y + 2, false);
    }
}

/* `bordered`: the outline is a seam; else it is the edge of the quilt. */
static inline struct top top_make(struct arena *arena, size_t across,
                                  size_t down, bool bordered)
{
    struct top top = {.arena = arena, .across = across, .down = down};
    const size_t right = 14 * across, bottom = 14 * down;
    const size_t count = (right + 1) * (bottom + 1);
    top.points = ARENA_ARRAY(arena, struct spot, count);
    top.at_edge = ARENA_ARRAY(arena, bool, count);
    for (size_t y = 0; y <= bottom; y++)
        for (size_t x = 0; x <= right; x++) {
            const size_t at = top_point(&top, x, y);
            top.points[at] =
                (struct spot){(double)x * 6 / 7, (double)y * 6 / 7};
            top.at_edge[at] =
                !bordered && (x == 0 || y == 0 || x == right || y == bottom);
        }
    for (size_t row = 0; row < 7 * down; row++)
        for (size_t column = 0; column < 7 * across; column++)
            top_add_square(&top, column, row, (row / 7 + column / 7) % 2 == 1);
    if (bordered)
        top_add_outline(&top);
    for (size_t row = 0; row < down; row++)
        for (size_t column = 0; column < across; column++)
            top.lines += (row + column) % 2 == 1 ? 6 + 6 + 2 * 13 : 0;
    return top;
}

static inline struct route_input top_input(const struct top *top)
{
    return (struct route_input){
        .points = top->points,
        .at_edge = top->at_edge,
        .point_count = (14 * top->across + 1) * (14 * top->down + 1),
        .pieces = top->pieces.items,
        .count = top->pieces.count,
        .start_worth = 24,
        .bobbin = 1460,
        .centre = {6.0 * (double)top->across, 6.0 * (double)top->down}};
}

#endif
