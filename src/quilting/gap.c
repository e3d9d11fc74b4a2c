/* The largest gap by branch and bound over squares, best first: see gap.h. Read
 * next gap_square.c for the bound, gap_grid.c for distances. */
#include <math.h>

#include "gap_grid.h"

/* A square is not quartered below this share of the quilt: rounding. */
#define GAP_FINEST 1e-11

struct search {
    struct arena *scratch;
    const struct gap_grid *grid;
    LIST(struct gap_square) heap; /* the largest bound first */
    double best;                  /* the farthest place that was seen ... */
    struct spot at;               /* ... and where */
    double dropped; /* the largest bound of a square that was let go */
    size_t work;
};

/* ---- heap ---- */

static void push(struct search *search, const struct gap_square *square)
{
    *LIST_ADD(search->scratch, &search->heap) = *square;
    struct gap_square *items = search->heap.items;
    size_t at = search->heap.count - 1;
    for (; at > 0 && items[(at - 1) / 2].bound < square->bound;
         at = (at - 1) / 2)
        items[at] = items[(at - 1) / 2];
    items[at] = *square;
}

static struct gap_square pop(struct search *search)
{
    struct gap_square *items = search->heap.items;
    const struct gap_square top = items[0];
    const struct gap_square last = items[--search->heap.count];
    const size_t count = search->heap.count;
    size_t at = 0;
    for (size_t child = 1; child < count; at = child, child = 2 * at + 1) {
        child +=
            child + 1 < count && items[child + 1].bound > items[child].bound;
        if (items[child].bound <= last.bound)
            break;
        items[at] = items[child];
    }
    items[at] = last;
    return top;
}

/* ---- search ---- */

/* Looks at a square, and keeps it if it may hold a place farther than
 * `enough`, or than the best by `within`. */
static void look_at(struct search *search, struct gap_square square,
                    size_t hint, double enough, double within)
{
    square.near = gap_near(search->grid, square.at, hint);
    search->work++;
    if (square.near.distance > search->best) {
        search->best = square.near.distance;
        search->at = square.at;
    }
    const double least = fmax(enough, search->best + within);
    square.bound = gap_square_bound(search->grid, &square, least);
    if (square.bound > least)
        push(search, &square);
    else
        search->dropped = fmax(search->dropped, square.bound);
}

static void look_at_quarters(struct search *search,
                             const struct gap_square *square, double enough,
                             double within)
{
    const double half_x = square->half_x / 2, half_y = square->half_y / 2;
    const size_t hint = square->near.number;
    for (int i = 0; i < 4; i++) {
        const struct gap_square quarter = {
            .at = {square->at.x + (i % 2 ? half_x : -half_x),
                   square->at.y + (i / 2 ? half_y : -half_y)},
            .half_x = half_x,
            .half_y = half_y};
        look_at(search, quarter, hint, enough, within);
    }
}

/* The quilt as squares, as nearly as whole numbers of them allow. */
static void begin(struct search *search, double enough, double within)
{
    const double width = search->grid->width, height = search->grid->height;
    const double side = fmin(width, height);
    const double across = fmin(rint(width / side), 1024);
    const double down = fmin(rint(height / side), 1024);
    const struct gap_square first = {.half_x = width / across / 2,
                                     .half_y = height / down / 2};
    for (size_t y = 0; y < (size_t)down; y++)
        for (size_t x = 0; x < (size_t)across; x++) {
            struct gap_square square = first;
            square.at.x = (double)(2 * x + 1) * first.half_x;
            square.at.y = (double)(2 * y + 1) * first.half_y;
            look_at(search, square, 0, enough, within);
        }
}

/* Until a place is farther than `too_far`, or no square may hold one that is
 * farther than `enough` and than the best by `within`. Radii. Whether it ended
 * so, and not because work or fineness did. */
static bool run(struct search *search, double enough, double within,
                double too_far)
{
    begin(search, enough, within);
    const double finest = GAP_FINEST * search->grid->width;
    while (search->heap.count > 0 && search->best <= too_far) {
        if (search->heap.items[0].bound <= fmax(enough, search->best + within))
            break;
        if (search->work >= GAP_WORK || search->heap.items[0].half_x < finest)
            return false;
        const struct gap_square square = pop(search);
        look_at_quarters(search, &square, enough, within);
    }
    return true;
}

static struct gap found_by(const struct search *search)
{
    double most = fmax(search->best, search->dropped);
    if (search->heap.count > 0)
        most = fmax(most, search->heap.items[0].bound);
    return (struct gap){2 * search->best, 2 * most, search->at, false};
}

enum gap_verdict gap_holds(struct arena *scratch, const struct gap_grid *grid,
                           double limit, double slack, struct gap *found)
{
    struct search search = {.scratch = scratch, .grid = grid};
    const double enough = (limit + slack) / 2;
    const bool ended = run(&search, enough, -HUGE_VAL, enough);
    *found = found_by(&search);
    found->proved = ended;
    if (!ended)
        return GAP_OPEN;
    return search.best > enough ? GAP_TOO_LARGE : GAP_HOLDS;
}

struct gap gap_largest(struct arena *scratch, const struct gap_grid *grid,
                       double smallest, double within)
{
    struct search search = {.scratch = scratch, .grid = grid};
    const bool ended = run(&search, smallest / 2, within / 2, HUGE_VAL);
    struct gap found = found_by(&search);
    found.proved = ended;
    return found;
}

size_t gap_circles(struct arena *scratch, const struct gap_grid *grid,
                   double limit, double within, size_t most, struct gap *gaps)
{
    struct gap_disk disks[GAP_CIRCLES];
    struct gap_grid with = *grid;
    with.disks = disks;
    size_t count = 0;
    for (; count < most && count < GAP_CIRCLES; count++) {
        gaps[count] = gap_largest(scratch, &with, limit, within);
        if (!(gaps[count].least > limit))
            break;
        disks[count] = (struct gap_disk){gaps[count].at, gaps[count].least / 2};
        with.disk_count = count + 1;
    }
    return count;
}
