/* Stitching in a grid: each line is listed in every cell that it touches, so
 * the next one to a place is found ring by ring around its cell. Cells are
 * about as wide as lines lie apart on average. Outside the quilt nothing is
 * listed: the edge of the quilt is stitched, and is nearer. */
#include <math.h>
#include <string.h>

#include "gap_grid.h"

#define CELLS_MOST 262144.0
#define CELLS_LEAST 16.0
/* Cells are taken as wider by this share, so that rounding loses no line. */
#define CELL_MARGIN 1e-7

/* ---- lines ---- */

static void add_line(struct gap_grid *grid, struct spot from, struct spot to)
{
    const double dx = to.x - from.x, dy = to.y - from.y;
    grid->lines[grid->count++] =
        (struct gap_line){from, dx, dy, dx * dx + dy * dy};
}

static void add_ring(struct gap_grid *grid, const struct gap_ring *ring)
{
    for (size_t i = 0; i < ring->count; i++)
        add_line(grid, ring->points[i], ring->points[(i + 1) % ring->count]);
}

static void add_lines(struct arena *arena, struct gap_grid *grid,
                      const struct gap_input *input)
{
    size_t sides = 4;
    for (size_t i = 0; i < input->ring_count; i++)
        sides += input->rings[i].count;
    grid->lines = ARENA_ARRAY(arena, struct gap_line, input->count + sides);
    const struct spot edge[4] = {{0, 0},
                                 {input->width, 0},
                                 {input->width, input->height},
                                 {0, input->height}};
    for (size_t i = 0; i < 4; i++)
        add_line(grid, edge[i], edge[(i + 1) % 4]);
    for (size_t i = 0; i < input->count; i++)
        add_line(grid, input->segments[i][0], input->segments[i][1]);
    grid->ring_from = grid->count;
    for (size_t i = 0; i < input->ring_count; i++)
        add_ring(grid, &input->rings[i]);
}

/* ---- cells ---- */

/* The cell of a coordinate, held to 0 .. count - 1. */
static size_t cell_of(double where, double cell, size_t count)
{
    const double at = floor(where / cell);
    if (!(at > 0))
        return 0;
    return at < (double)(count - 1) ? (size_t)at : count - 1;
}

/* The part of a line between two heights, as an interval of x; false where it
 * has none. */
static bool line_between(const struct gap_line *line, double top, double bottom,
                         double *left, double *right)
{
    double from = 0, to = 1;
    if (line->dy != 0) {
        const double a = (top - line->from.y) / line->dy;
        const double b = (bottom - line->from.y) / line->dy;
        from = fmax(from, fmin(a, b));
        to = fmin(to, fmax(a, b));
    } else if (line->from.y < top || line->from.y > bottom) {
        return false;
    }
    const double x = line->from.x + from * line->dx;
    const double end = line->from.x + to * line->dx;
    *left = fmin(x, end);
    *right = fmax(x, end);
    return from <= to;
}

/* Counts a line into the cells that it touches, or writes it there. */
static void list_line(struct gap_grid *grid, size_t number, uint32_t *counts)
{
    const struct gap_line *line = &grid->lines[number];
    const double margin = CELL_MARGIN * grid->cell;
    const double low = fmin(line->from.y, line->from.y + line->dy) - margin;
    const double high = fmax(line->from.y, line->from.y + line->dy) + margin;
    if (high < 0 || low > grid->height)
        return;
    const size_t last = cell_of(high, grid->cell, grid->down);
    for (size_t y = cell_of(low, grid->cell, grid->down); y <= last; y++) {
        double left, right;
        if (!line_between(line, (double)y * grid->cell - margin,
                          (double)(y + 1) * grid->cell + margin, &left,
                          &right) ||
            right + margin < 0 || left - margin > grid->width)
            continue;
        const size_t end = cell_of(right + margin, grid->cell, grid->across);
        for (size_t x = cell_of(left - margin, grid->cell, grid->across);
             x <= end; x++) {
            uint32_t *count = &counts[y * grid->across + x];
            if (grid->cells.items != NULL)
                grid->cells.items[*count] = (uint32_t)number;
            ++*count;
        }
    }
}

/* Counts of places become their first item; the last is the sum. */
static size_t sum_counts(uint32_t *first, size_t places)
{
    uint32_t sum = 0;
    for (size_t i = 0; i <= places; i++) {
        const uint32_t count = i < places ? first[i] : 0;
        first[i] = sum;
        sum += count;
    }
    return sum;
}

/* After writing, each place's counter stands at the first of the next. */
static void shift_back(uint32_t *first, size_t places)
{
    memmove(first + 1, first, places * sizeof *first);
    first[0] = 0;
}

static void make_cells(struct arena *arena, struct gap_grid *grid)
{
    double length = 0;
    for (size_t i = 0; i < grid->count; i++)
        length += sqrt(grid->lines[i].length2);
    const double area = grid->width * grid->height;
    const double side = fmin(fmax(area / length, sqrt(area / CELLS_MOST)),
                             sqrt(area / CELLS_LEAST));
    grid->cell = fmax(side, fmax(grid->width, grid->height) / CELLS_MOST);
    grid->across = (size_t)ceil(grid->width / grid->cell);
    grid->down = (size_t)ceil(grid->height / grid->cell);
    const size_t places = grid->across * grid->down;
    grid->cells.first = ARENA_ARRAY(arena, uint32_t, places + 1);
    for (size_t i = 0; i < grid->count; i++)
        list_line(grid, i, grid->cells.first);
    const size_t items = sum_counts(grid->cells.first, places);
    grid->cells.items = ARENA_ARRAY(arena, uint32_t, items + 1);
    for (size_t i = 0; i < grid->count; i++)
        list_line(grid, i, grid->cells.first);
    shift_back(grid->cells.first, places);
}

/* ---- rows of sides of rings, for the even-odd rule ---- */

static void list_side(struct gap_grid *grid, size_t number, uint32_t *counts)
{
    const struct gap_line *line = &grid->lines[number];
    const double end = line->from.y + line->dy;
    const size_t last = cell_of(fmax(line->from.y, end), grid->row, grid->rows);
    for (size_t y = cell_of(fmin(line->from.y, end), grid->row, grid->rows);
         y <= last; y++) {
        if (grid->ring_rows.items != NULL)
            grid->ring_rows.items[counts[y]] = (uint32_t)number;
        counts[y]++;
    }
}

static void make_rows(struct arena *arena, struct gap_grid *grid)
{
    const size_t sides = grid->count - grid->ring_from;
    if (sides == 0)
        return;
    grid->rows = sides < 4096 ? sides / 2 + 1 : 2048;
    grid->row = grid->height / (double)grid->rows;
    grid->ring_rows.first = ARENA_ARRAY(arena, uint32_t, grid->rows + 1);
    for (size_t i = grid->ring_from; i < grid->count; i++)
        list_side(grid, i, grid->ring_rows.first);
    const size_t items = sum_counts(grid->ring_rows.first, grid->rows);
    grid->ring_rows.items = ARENA_ARRAY(arena, uint32_t, items);
    for (size_t i = grid->ring_from; i < grid->count; i++)
        list_side(grid, i, grid->ring_rows.first);
    shift_back(grid->ring_rows.first, grid->rows);
}

struct gap_grid *gap_grid(struct arena *arena, const struct gap_input *input)
{
    struct gap_grid *grid = ARENA_NEW(arena, struct gap_grid);
    grid->width = input->width;
    grid->height = input->height;
    add_lines(arena, grid, input);
    make_cells(arena, grid);
    make_rows(arena, grid);
    return grid;
}

/* ---- distances ---- */

/* The point of a line next to a place. */
static struct spot line_foot(const struct gap_line *line, struct spot place)
{
    double along = 0;
    if (line->length2 > 0)
        along = ((place.x - line->from.x) * line->dx +
                 (place.y - line->from.y) * line->dy) /
                line->length2;
    along = along > 0 ? along < 1 ? along : 1 : 0;
    return (struct spot){line->from.x + along * line->dx,
                         line->from.y + along * line->dy};
}

static double line_apart2(const struct gap_line *line, struct spot place)
{
    const struct spot foot = line_foot(line, place);
    const double x = place.x - foot.x, y = place.y - foot.y;
    return x * x + y * y;
}

double gap_apart(const struct gap_grid *grid, size_t number, struct spot place)
{
    if (number < grid->count)
        return sqrt(line_apart2(&grid->lines[number], place));
    const struct gap_disk *disk = &grid->disks[number - grid->count];
    return fmax(0, hypot(place.x - disk->at.x, place.y - disk->at.y) -
                       disk->radius);
}

struct spot gap_away(const struct gap_grid *grid, size_t number,
                     struct spot place)
{
    const struct spot foot = number < grid->count
                                 ? line_foot(&grid->lines[number], place)
                                 : grid->disks[number - grid->count].at;
    const double x = place.x - foot.x, y = place.y - foot.y;
    const double far = hypot(x, y);
    return far > 0 ? (struct spot){x / far, y / far} : (struct spot){0, 0};
}

/* Whether a ray to the right crosses an odd number of sides. A side has its
 * upper end, not its lower, so that a corner counts once. */
static bool in_ring(const struct gap_grid *grid, struct spot place)
{
    if (grid->rows == 0)
        return false;
    const size_t row = cell_of(place.y, grid->row, grid->rows);
    bool inside = false;
    for (uint32_t i = grid->ring_rows.first[row];
         i < grid->ring_rows.first[row + 1]; i++) {
        const struct gap_line *side = &grid->lines[grid->ring_rows.items[i]];
        const double end = side->from.y + side->dy;
        if ((side->from.y > place.y) == (end > place.y))
            continue;
        const double x =
            side->from.x + (place.y - side->from.y) / side->dy * side->dx;
        inside ^= x > place.x;
    }
    return inside;
}

/* What is nearer in one cell. */
static void near_in_cell(const struct gap_grid *grid, size_t cell,
                         struct spot place, size_t *number, double *best2)
{
    const uint32_t end = grid->cells.first[cell + 1];
    for (uint32_t i = grid->cells.first[cell]; i < end; i++) {
        const uint32_t line = grid->cells.items[i];
        const double apart2 = line_apart2(&grid->lines[line], place);
        if (apart2 < *best2) {
            *best2 = apart2;
            *number = line;
        }
    }
}

/* What is nearer in the cells that are `ring` cells away from (x, y). */
static void near_in_ring(const struct gap_grid *grid, long x, long y, long ring,
                         struct spot place, size_t *number, double *best2)
{
    const long across = (long)grid->across, down = (long)grid->down;
    const long top = y - ring < 0 ? 0 : y - ring;
    const long bottom = y + ring >= down ? down - 1 : y + ring;
    for (long row = top; row <= bottom; row++) {
        const bool whole = row == y - ring || row == y + ring;
        const long step = whole || ring == 0 ? 1 : 2 * ring;
        for (long column = x - ring; column <= x + ring; column += step)
            if (column >= 0 && column < across)
                near_in_cell(grid, (size_t)(row * across + column), place,
                             number, best2);
    }
}

static void near_disks(const struct gap_grid *grid, struct spot place,
                       struct gap_near *near)
{
    for (size_t i = 0; i < grid->disk_count; i++) {
        const double apart = gap_apart(grid, grid->count + i, place);
        if (apart < near->distance)
            *near = (struct gap_near){grid->count + i, apart, 0};
    }
}

/* The hint keeps the search from cells that are farther than what is known. */
struct gap_near gap_near(const struct gap_grid *grid, struct spot place,
                         size_t hint)
{
    size_t number = hint < grid->count ? hint : 0;
    double best2 = line_apart2(&grid->lines[number], place);
    const size_t x = cell_of(place.x, grid->cell, grid->across);
    const size_t y = cell_of(place.y, grid->cell, grid->down);
    const double left = place.x - (double)x * grid->cell;
    const double above = place.y - (double)y * grid->cell;
    const double inner =
        fmin(fmin(left, grid->cell - left), fmin(above, grid->cell - above));
    const size_t most = grid->across > grid->down ? grid->across : grid->down;
    for (size_t ring = 0; ring <= most; ring++) {
        const double reach = inner + ((double)ring - 1) * grid->cell;
        if (ring > 0 && reach > 0 && reach * reach >= best2)
            break;
        near_in_ring(grid, (long)x, (long)y, (long)ring, place, &number,
                     &best2);
    }
    if (in_ring(grid, place))
        return (struct gap_near){GAP_NONE, 0, sqrt(best2)};
    struct gap_near near = {number, sqrt(best2), 0};
    near_disks(grid, place, &near);
    return near;
}

double gap_distance(const struct gap_grid *grid, struct spot place)
{
    return gap_near(grid, place, 0).distance;
}
