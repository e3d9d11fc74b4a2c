/* Buckets in doubles. A segment lies in each cell that it runs through, found
 * column by column with a little room on all sides, so that rounding never
 * leaves one out. Cells are about as many as what lies in them: for lines that
 * are spread over a quilt a question then costs what it finds. */
#include "grid.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct grid {
    struct spot low;
    double cell; /* its side */
    size_t across, down;
    const size_t *starts; /* of each cell in `items`, and the end of the last */
    const size_t *items;
    /* A question: what was seen in it, and what was found. */
    size_t *asked;
    size_t question;
    size_t *found;
};

/* Cells of a column, or of a row, from the first to the last. */
struct span_of_cells {
    size_t first, last;
};

static const double ROOM = 1e-6; /* of a unit: far above what doubles lose */

/* What lies beyond the grid belongs to its outermost cells, so that nothing is
 * lost there. */
static struct span_of_cells cells_between(double a, double b, double low,
                                          double cell, size_t count)
{
    const double most = (double)count - 1;
    const double from = floor((fmin(a, b) - ROOM - low) / cell);
    const double to = floor((fmax(a, b) + ROOM - low) / cell);
    return (struct span_of_cells){(size_t)fmin(fmax(from, 0), most),
                                  (size_t)fmin(fmax(to, 0), most)};
}

/* The rows that a stretch runs through in a column. */
static struct span_of_cells
rows_in(const struct grid *grid, struct spot_line line, size_t column, bool box)
{
    double from = line.from.y, to = line.to.y;
    const double wide = line.to.x - line.from.x;
    if (!box && fabs(wide) > grid->cell / 2) {
        const double slope = (line.to.y - line.from.y) / wide;
        const double left = grid->low.x + grid->cell * (double)column - ROOM;
        const double right = left + grid->cell + 2 * ROOM;
        const double at_left = line.from.y + slope * (left - line.from.x);
        const double at_right = line.from.y + slope * (right - line.from.x);
        const double low = fmin(from, to), high = fmax(from, to);
        from = fmin(fmax(fmin(at_left, at_right), low), high);
        to = fmin(fmax(fmax(at_left, at_right), low), high);
    }
    return cells_between(from, to, grid->low.y, grid->cell, grid->down);
}

/* Counts the cells of each item up (`items` NULL), or lays the items down. */
static void lay_items(const struct grid *grid, const struct spot_line *lines,
                      size_t count, bool box, size_t *ends, size_t *items)
{
    for (size_t i = 0; i < count; i++) {
        const struct span_of_cells columns =
            cells_between(lines[i].from.x, lines[i].to.x, grid->low.x,
                          grid->cell, grid->across);
        for (size_t x = columns.first; x <= columns.last; x++) {
            const struct span_of_cells rows = rows_in(grid, lines[i], x, box);
            for (size_t y = rows.first; y <= rows.last; y++) {
                size_t *const end = &ends[y * grid->across + x];
                if (items != NULL)
                    items[--*end] = i;
                else
                    ++*end;
            }
        }
    }
}

/* The extent of all, and cells about as many as there are items. */
static void size_cells(struct grid *grid, const struct spot_line *lines,
                       size_t count)
{
    struct spot low = {0, 0}, high = {1, 1};
    for (size_t i = 0; i < count; i++) {
        low.x = fmin(low.x, fmin(lines[i].from.x, lines[i].to.x));
        low.y = fmin(low.y, fmin(lines[i].from.y, lines[i].to.y));
        high.x = fmax(high.x, fmax(lines[i].from.x, lines[i].to.x));
        high.y = fmax(high.y, fmax(lines[i].from.y, lines[i].to.y));
    }
    const double wide = high.x - low.x, tall = high.y - low.y;
    const double cells = fmin((double)count + 1, 1e6);
    grid->low = low;
    grid->cell = fmax(sqrt(wide * tall / cells), fmax(wide, tall) / 2000);
    grid->across = (size_t)(wide / grid->cell) + 1;
    grid->down = (size_t)(tall / grid->cell) + 1;
}

/* Two rounds over the items: the first counts, the second lays them down. */
static struct grid *grid_of(struct arena *arena, const struct spot_line *lines,
                            size_t count, bool box)
{
    struct grid *grid = ARENA_NEW(arena, struct grid);
    size_cells(grid, lines, count);
    const size_t cells = grid->across * grid->down;
    size_t *ends = ARENA_ARRAY(arena, size_t, cells + 1);
    lay_items(grid, lines, count, box, ends, NULL);
    for (size_t i = 1; i <= cells; i++)
        ends[i] += ends[i - 1];
    size_t *items = ARENA_ARRAY(arena, size_t, ends[cells] + 1);
    lay_items(grid, lines, count, box, ends, items);
    grid->starts = ends;
    grid->items = items;
    grid->asked = ARENA_ARRAY(arena, size_t, count + 1);
    grid->found = ARENA_ARRAY(arena, size_t, count + 1);
    return grid;
}

struct grid *grid_of_lines(struct arena *arena, const struct spot_line *lines,
                           size_t count)
{
    return grid_of(arena, lines, count, false);
}

struct grid *grid_of_boxes(struct arena *arena, const struct spot_line *boxes,
                           size_t count)
{
    return grid_of(arena, boxes, count, true);
}

/* Those in the cells of a stretch or a box, each once. */
static size_t grid_question(struct grid *grid, struct spot_line asked, bool box,
                            const size_t **found)
{
    const struct span_of_cells columns = cells_between(
        asked.from.x, asked.to.x, grid->low.x, grid->cell, grid->across);
    size_t count = 0;
    grid->question++;
    for (size_t x = columns.first; x <= columns.last; x++) {
        const struct span_of_cells rows = rows_in(grid, asked, x, box);
        for (size_t y = rows.first; y <= rows.last; y++) {
            const size_t *cell = &grid->starts[y * grid->across + x];
            for (size_t i = cell[0]; i < cell[1]; i++) {
                const size_t item = grid->items[i];
                if (grid->asked[item] != grid->question)
                    grid->found[count++] = item;
                grid->asked[item] = grid->question;
            }
        }
    }
    *found = grid->found;
    return count;
}

size_t grid_along(struct grid *grid, struct spot_line stretch,
                  const size_t **found)
{
    return grid_question(grid, stretch, false, found);
}

size_t grid_within(struct grid *grid, struct spot_line box,
                   const size_t **found)
{
    return grid_question(grid, box, true, found);
}

/* As they rise. */
static int compare_numbers(const void *first, const void *second)
{
    const size_t a = *(const size_t *)first, b = *(const size_t *)second;
    return (a > b) - (a < b);
}

size_t *grid_numbers(struct arena *arena, struct grid *grid,
                     struct spot_line box, size_t *count)
{
    const size_t *found;
    *count = grid_within(grid, box, &found);
    size_t *numbers = ARENA_ARRAY(arena, size_t, *count + 1);
    memcpy(numbers, found, *count * sizeof *found);
    if (*count > 1)
        qsort(numbers, *count, sizeof *numbers, compare_numbers);
    return numbers;
}

size_t grid_at(struct grid *grid, struct spot at, const size_t **found)
{
    return grid_question(grid, (struct spot_line){at, at}, true, found);
}

struct spot_line box_around(const struct spot *points, size_t count)
{
    struct spot_line box = {points[0], points[0]};
    for (size_t i = 1; i < count; i++) {
        box.from.x = fmin(box.from.x, points[i].x);
        box.from.y = fmin(box.from.y, points[i].y);
        box.to.x = fmax(box.to.x, points[i].x);
        box.to.y = fmax(box.to.y, points[i].y);
    }
    return box;
}

bool boxes_meet(struct spot_line one, struct spot_line other)
{
    return one.from.x <= other.to.x + ROOM && other.from.x <= one.to.x + ROOM &&
           one.from.y <= other.to.y + ROOM && other.from.y <= one.to.y + ROOM;
}

bool box_holds(struct spot_line box, struct spot at)
{
    return boxes_meet(box, (struct spot_line){at, at});
}

double spot_to_line(struct spot at, struct spot_line stretch)
{
    const struct spot a = stretch.from;
    const double dx = stretch.to.x - a.x, dy = stretch.to.y - a.y;
    const double length = dx * dx + dy * dy;
    double t =
        length > 0 ? ((at.x - a.x) * dx + (at.y - a.y) * dy) / length : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    return hypot(a.x + t * dx - at.x, a.y + t * dy - at.y);
}

bool clearly_beside(struct spot_line one, struct spot_line other)
{
    const double x = one.to.x - one.from.x, y = one.to.y - one.from.y;
    const double a =
        x * (other.from.y - one.from.y) - y * (other.from.x - one.from.x);
    const double b =
        x * (other.to.y - one.from.y) - y * (other.to.x - one.from.x);
    const double room = 1e-7 * (fabs(x) + fabs(y) + 1);
    return (a > room && b > room) || (a < -room && b < -room);
}
