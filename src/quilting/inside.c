/* A point well inside a face: in the middle of the widest stretch of a level
 * line, halfway between those two heights of corners that lie farthest apart.
 * In doubles: it asks which cloth lies there, no more. */
#include <stdlib.h>

#include "arrange_parts.h"

static int compare_doubles(const void *left, const void *right)
{
    const double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* No corner lies at the level, so each side is crossed or not, without doubt.
 */
static double level_between(double *heights, size_t count)
{
    qsort(heights, count, sizeof *heights, compare_doubles);
    size_t best = 1;
    for (size_t i = 2; i < count; i++)
        if (heights[i] - heights[i - 1] > heights[best] - heights[best - 1])
            best = i;
    return (heights[best] + heights[best - 1]) / 2;
}

/* Where the ring crosses the level; adds to `places`. */
static size_t cross_level(const struct arrangement *a,
                          struct arranged_ring ring, double level,
                          double *places)
{
    size_t count = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct spot p = a->spots[ring.points[i]];
        const struct spot q = a->spots[ring.points[(i + 1) % ring.count]];
        if ((p.y < level) != (q.y < level))
            places[count++] = p.x + (level - p.y) / (q.y - p.y) * (q.x - p.x);
    }
    return count;
}

struct spot face_inside(struct arena *scratch, const struct arrangement *a,
                        const struct arranged_face *face)
{
    size_t count = 0;
    for (size_t r = 0; r < face->count; r++)
        count += face->rings[r].count;
    double *values = ARENA_ARRAY(scratch, double, count);
    size_t filled = 0;
    for (size_t r = 0; r < face->count; r++)
        for (size_t i = 0; i < face->rings[r].count; i++)
            values[filled++] = a->spots[face->rings[r].points[i]].y;
    const double level = level_between(values, count);
    filled = 0;
    for (size_t r = 0; r < face->count; r++)
        filled += cross_level(a, face->rings[r], level, values + filled);
    qsort(values, filled, sizeof *values, compare_doubles);
    size_t best = 1;
    for (size_t i = 3; i < filled; i += 2)
        if (values[i] - values[i - 1] > values[best] - values[best - 1])
            best = i;
    return (struct spot){(values[best] + values[best - 1]) / 2, level};
}
