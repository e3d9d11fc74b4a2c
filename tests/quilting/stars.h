/* A cloth for the tests of quilting: blocks of 12, a star of eight points in
 * four flying geese where row + column is even, else plain. Fabrics: NIGHT,
 * FLAME. */
#ifndef SEAMWRIGHT_TESTS_STARS_H
#define SEAMWRIGHT_TESTS_STARS_H

#include "tops.h"

enum { NIGHT, FLAME };

static inline void add_face(struct arena *arena, struct cloth *cloth,
                            int fabric, int64_t (*points)[2], size_t count,
                            int64_t x, int64_t y)
{
    struct vertex *v = ARENA_ARRAY(arena, struct vertex, count);
    for (size_t i = 0; i < count; i++)
        v[i] = at(x + points[i][0], 1, y + points[i][1], 1);
    *LIST_ADD(arena, &cloth->faces) =
        (struct face){.fabric = fabric, .points = v, .count = count};
}

/* The same triangle or square turned into all four sides of a block. */
static inline void add_turned(struct arena *arena, struct cloth *cloth,
                              int fabric, int64_t (*points)[2], size_t count,
                              int64_t x, int64_t y)
{
    int64_t turned[4][2];
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < 2; k++)
            turned[i][k] = points[i][k];
    for (size_t side = 0; side < 4; side++) {
        add_face(arena, cloth, fabric, turned, count, x, y);
        for (size_t i = 0; i < count; i++) {
            const int64_t old = turned[i][0];
            turned[i][0] = 12 - turned[i][1];
            turned[i][1] = old;
        }
    }
}

static inline void add_seam(struct arena *arena, struct cloth *cloth,
                            int64_t x1, int64_t y1, int64_t x2, int64_t y2)
{
    *LIST_ADD(arena, &cloth->seams) =
        (struct seam){.from = at(x1, 1, y1, 1), .to = at(x2, 1, y2, 1), .x = 1};
}

static inline void add_star(struct arena *arena, struct cloth *cloth, int64_t x,
                            int64_t y)
{
    int64_t corner[4][2] = {{0, 0}, {3, 0}, {3, 3}, {0, 3}};
    int64_t goose[3][2] = {{3, 0}, {9, 0}, {6, 3}};
    int64_t left[3][2] = {{3, 0}, {6, 3}, {3, 3}};
    int64_t right[3][2] = {{9, 0}, {9, 3}, {6, 3}};
    int64_t center[4][2] = {{3, 3}, {9, 3}, {9, 9}, {3, 9}};
    add_turned(arena, cloth, NIGHT, corner, 4, x, y);
    add_turned(arena, cloth, NIGHT, goose, 3, x, y);
    add_turned(arena, cloth, FLAME, left, 3, x, y);
    add_turned(arena, cloth, FLAME, right, 3, x, y);
    add_face(arena, cloth, FLAME, center, 4, x, y);
    /* The rows, then what lies in them. */
    add_seam(arena, cloth, x, y + 3, x + 12, y + 3);
    add_seam(arena, cloth, x, y + 9, x + 12, y + 9);
    for (int64_t k = 0; k < 12; k += 9)
        for (int64_t c = 3; c < 12; c += 6)
            add_seam(arena, cloth, x + c, y + k, x + c, y + k + 3);
    add_seam(arena, cloth, x + 3, y + 3, x + 3, y + 9);
    add_seam(arena, cloth, x + 9, y + 3, x + 9, y + 9);
    static const int64_t wings[8][4] = {
        {6, 3, 3, 0},  {6, 3, 9, 0},  {9, 6, 12, 3}, {9, 6, 12, 9},
        {6, 9, 9, 12}, {6, 9, 3, 12}, {3, 6, 0, 9},  {3, 6, 0, 3}};
    for (size_t i = 0; i < 8; i++)
        add_seam(arena, cloth, x + wings[i][0], y + wings[i][1],
                 x + wings[i][2], y + wings[i][3]);
}

static inline struct cloth *star_cloth(struct arena *arena, int64_t across,
                                       int64_t down)
{
    int64_t plain[4][2] = {{0, 0}, {12, 0}, {12, 12}, {0, 12}};
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = rational_whole(12 * across);
    cloth->height = rational_whole(12 * down);
    for (int64_t x = 0; x < across; x++)
        for (int64_t y = 0; y < down; y++)
            if ((x + y) % 2 == 0)
                add_star(arena, cloth, 12 * x, 12 * y);
            else
                add_face(arena, cloth, NIGHT, plain, 4, 12 * x, 12 * y);
    for (int64_t x = 0; x < across; x++)
        for (int64_t y = 0; y < down; y++) {
            if (y > 0)
                add_seam(arena, cloth, 12 * x, 12 * y, 12 * x + 12, 12 * y);
            if (x > 0)
                add_seam(arena, cloth, 12 * x, 12 * y, 12 * x, 12 * y + 12);
        }
    return cloth;
}

/* The rectangle of a block. */
static inline struct extent block_extent(int64_t x, int64_t y)
{
    return level_extent(at(12 * x, 1, 12 * y, 1),
                           at(12 * x + 12, 1, 12 * y + 12, 1));
}

#endif
