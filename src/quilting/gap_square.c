/* How far from stitching a place of one square can be.
 *
 * The plain bound is that of the next line: the distance to a line is convex,
 * so over a square it is largest at a corner. Between lines this is far too
 * much, as one goes away from one line only towards another. So of two or three
 * lines around the square the mean of the distances is taken: the least of them
 * is not above any mean, a mean of convex functions is convex, and its largest
 * value is at a corner, too. With weights by which the directions away from the
 * lines cancel out, the mean hardly changes over the square: between parallel
 * lines s apart it is s / 2 exactly. */
#include <math.h>

#include "gap_grid.h"

struct around {
    size_t numbers[3];
    double weights[3];
    size_t count;
};

/* The largest weighted mean of distances at the corners. */
static double mean_bound(const struct gap_grid *grid,
                         const struct gap_square *square,
                         const struct around *around)
{
    double largest = 0;
    for (int corner = 0; corner < 4; corner++) {
        const struct spot place = {
            square->at.x + (corner % 2 ? square->half_x : -square->half_x),
            square->at.y + (corner / 2 ? square->half_y : -square->half_y)};
        double mean = 0;
        for (size_t i = 0; i < around->count; i++)
            mean +=
                around->weights[i] * gap_apart(grid, around->numbers[i], place);
        largest = fmax(largest, mean);
    }
    return largest;
}

static double cross(struct spot a, struct spot b)
{
    return a.x * b.y - a.y * b.x;
}

/* Weights by which three directions cancel out (Cramer's rule); false where
 * they all point to one side. */
static bool weigh_three(struct around *around, const struct spot *away)
{
    double sum = 0;
    for (int i = 0; i < 3; i++) {
        around->weights[i] = cross(away[(i + 1) % 3], away[(i + 2) % 3]);
        sum += around->weights[i];
    }
    if (sum == 0)
        return false;
    for (int i = 0; i < 3; i++) {
        around->weights[i] /= sum;
        if (!(around->weights[i] >= 0))
            return false;
    }
    return true;
}

/* What is next to the place as far from the square's middle as its own next
 * line is, in a direction: the line on that side, most likely. */
static struct gap_near look(const struct gap_grid *grid,
                            const struct gap_square *square, struct spot way)
{
    const double far = square->near.distance;
    const struct spot place = {
        fmin(fmax(square->at.x + way.x * far, 0), grid->width),
        fmin(fmax(square->at.y + way.y * far, 0), grid->height)};
    return gap_near(grid, place, square->near.number);
}

static double around_bound(const struct gap_grid *grid,
                           const struct gap_square *square, double enough)
{
    struct around around = {{square->near.number}, {0.5, 0.5}, 2};
    struct spot away[3] = {gap_away(grid, square->near.number, square->at)};
    around.numbers[1] = look(grid, square, away[0]).number;
    if (around.numbers[1] == GAP_NONE || around.numbers[1] == around.numbers[0])
        return HUGE_VAL;
    const double pair = mean_bound(grid, square, &around);
    away[1] = gap_away(grid, around.numbers[1], square->at);
    const struct spot sum = {away[0].x + away[1].x, away[0].y + away[1].y};
    const double size = hypot(sum.x, sum.y);
    if (pair <= enough || !(size > 1e-6))
        return pair;
    around.numbers[2] =
        look(grid, square, (struct spot){sum.x / size, sum.y / size}).number;
    if (around.numbers[2] == GAP_NONE)
        return pair;
    away[2] = gap_away(grid, around.numbers[2], square->at);
    around.count = 3;
    if (!weigh_three(&around, away))
        return pair;
    return fmin(pair, mean_bound(grid, square, &around));
}

double gap_square_bound(const struct gap_grid *grid,
                        const struct gap_square *square, double enough)
{
    const double plain = fmax(0, square->near.distance - square->near.depth +
                                     hypot(square->half_x, square->half_y));
    if (plain <= enough || square->near.number == GAP_NONE)
        return plain;
    const struct around one = {{square->near.number}, {1}, 1};
    const double single = fmin(plain, mean_bound(grid, square, &one));
    if (single <= enough)
        return single;
    return fmin(single, around_bound(grid, square, enough));
}
