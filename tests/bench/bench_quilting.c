/* How long the largest gap and the paths take: cases of growing size. Run by
 * `make bench`; the figures are to be read, no test depends on them. */
#include <stdio.h>
#include <sys/resource.h>
#include <time.h>

#include "../../src/quilting/gap.h"
#include "../quilting/lattice_top.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static long megabytes(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
}

/* ---- gap ---- */

static void measure_gap(const char *name, const struct gap_input *input,
                        double limit)
{
    struct arena *arena = arena_create();
    const double start = seconds();
    const struct gap_grid *grid = gap_grid(arena, input);
    const double made = seconds();
    const struct gap gap = gap_largest(arena, grid, 0, 1.0 / 64);
    const double printed = seconds();
    struct gap found;
    const enum gap_verdict verdict =
        gap_holds(arena, grid, limit, 0.001, &found);
    const double decided = seconds();
    printf("gap   %-28s %6zu lines: grid %5.1f ms, to 1/64 %6.1f ms (%.4f to "
           "%.4f%s), against %g %6.1f ms (%s)\n",
           name, input->count, 1000 * (made - start), 1000 * (printed - made),
           gap.least, gap.most, gap.proved ? "" : ", open", limit,
           1000 * (decided - printed),
           verdict == GAP_HOLDS       ? "holds"
           : verdict == GAP_TOO_LARGE ? "too large"
                                      : "open");
    arena_destroy(arena);
}

typedef LIST(struct spot_line) lines;

static struct gap_input gap_input(struct arena *arena, const lines *from,
                                  double width, double height)
{
    struct spot(*segments)[2] =
        arena_alloc(arena, (from->count + 1) * sizeof *segments);
    for (size_t i = 0; i < from->count; i++) {
        segments[i][0] = from->items[i].from;
        segments[i][1] = from->items[i].to;
    }
    return (struct gap_input){.width = width,
                              .height = height,
                              .segments = (const struct spot(*)[2])segments,
                              .count = from->count};
}

static void add(struct arena *arena, lines *to, double x, double y, double to_x,
                double to_y)
{
    *LIST_ADD(arena, to) = (struct spot_line){{x, y}, {to_x, to_y}};
}

static double any(struct unit_random *random, double below)
{
    return below * (double)unit_below(random, 1000001) / 1e6;
}

/* Short lines anywhere, as dense on any size. */
static void gap_random(struct arena *arena, size_t count)
{
    struct unit_random random = {99};
    const double scale = sqrt((double)count / 15000);
    lines all = {0};
    for (size_t i = 0; i < count; i++) {
        const double x = any(&random, 59 * scale), y = any(&random, 71 * scale);
        add(arena, &all, x, y, x + any(&random, 1), y + any(&random, 1));
    }
    const struct gap_input input =
        gap_input(arena, &all, 60 * scale, 72 * scale);
    measure_gap("short, anywhere", &input, 3);
}

/* Lines from edge to edge exactly as far apart as they may be. */
static void gap_parallel(struct arena *arena, double apart, bool slanted)
{
    const double step = slanted ? apart * sqrt(2) : apart;
    lines all = {0};
    for (double at = step; at < (slanted ? 132 : 60); at += step)
        if (slanted)
            add(arena, &all, fmin(at, 60), fmax(0, at - 60), fmax(0, at - 72),
                fmin(at, 72));
        else
            add(arena, &all, at, 0, at, 72);
    const struct gap_input input = gap_input(arena, &all, 60, 72);
    measure_gap(slanted ? "slanted, at the limit" : "upright, at the limit",
                &input, apart);
}

/* Squares, or squares with both diagonals, so that all circles are equal. */
static void gap_grid_lines(struct arena *arena, double side, bool diagonals)
{
    lines all = {0};
    for (double x = 0; x < 60; x += side)
        for (double y = 0; y < 72; y += side) {
            add(arena, &all, x, y, x + side, y);
            add(arena, &all, x, y, x, y + side);
            if (diagonals) {
                add(arena, &all, x, y, x + side, y + side);
                add(arena, &all, x, y + side, x + side, y);
            }
        }
    const struct gap_input input = gap_input(arena, &all, 60, 72);
    measure_gap(diagonals ? "quarter squares, at the limit"
                          : "squares, at the limit",
                &input, diagonals ? side * (sqrt(2) - 1) : side);
}

/* ---- paths ---- */

static void measure_route(const char *name, size_t lines_count,
                          const struct route_input *input)
{
    struct arena *arena = arena_create();
    const double start = seconds();
    const struct route route = route_plan(arena, input);
    printf("route %-18s %6zu lines, %6zu pieces: %7.1f ms; %zu starts (%zu "
           "without travel, bound %zu), %.0f in and %.0f of travel, %zu turns, "
           "%zu bobbins, cost %.0f, bound %.0f%s; %ld MB so far\n",
           name, lines_count, input->count, 1000 * (seconds() - start),
           route.starts, route.starts_alone, route.starts_bound, route.stitched,
           route.travelled, route.turns, route.changes, route.cost, route.bound,
           route.proved ? "" : " NOT PROVED", megabytes());
    fflush(stdout);
    arena_destroy(arena);
}

static void route_top(size_t across, size_t down, bool bordered)
{
    struct arena *arena = arena_create();
    const struct top top = top_make(arena, across, down, bordered);
    const struct route_input input = top_input(&top);
    measure_route(bordered ? "top, bordered" : "top, to the edge", top.lines,
                  &input);
    arena_destroy(arena);
}

/* Filler lines in blocks, each clipped to its block: their ends lie along the
 * ditch around it. In small blocks travel back over them is worth it, too. */
static void route_filler(size_t across, size_t down, double side,
                         size_t lines_in_block)
{
    struct arena *arena = arena_create();
    const size_t steps = lines_in_block + 1;
    const size_t width = across * steps + 1, height = down * steps + 1;
    size_t *ids = ARENA_ARRAY(arena, size_t, width * height);
    LIST(struct spot) points = {0};
    for (size_t i = 0; i < width * height; i++)
        if (i % width % steps == 0 || i / width % steps == 0) {
            ids[i] = points.count;
            *LIST_ADD(arena, &points) =
                (struct spot){side * (double)(i % width) / (double)steps,
                              side * (double)(i / width) / (double)steps};
        }
    LIST(struct route_piece) pieces = {0};
    const double short_piece = side / (double)steps;
    for (size_t y = 0; y < height; y++)
        for (size_t x = 0; x < width; x++) {
            const size_t at = y * width + x;
            if (x + 1 < width && y % steps == 0)
                *LIST_ADD(arena, &pieces) = (struct route_piece){
                    at, at + 1, short_piece, false, ROUTE_TRAVEL_DITCH, false};
            if (y + 1 < height && x % steps == 0)
                *LIST_ADD(arena, &pieces) = (struct route_piece){
                    at, at + width, short_piece, false, ROUTE_TRAVEL_DITCH, false};
            const bool level = (x / steps + y / steps) % 2 == 0;
            if (level && x % steps == 0 && y % steps != 0 && x + 1 < width)
                *LIST_ADD(arena, &pieces) = (struct route_piece){
                    at, at + steps, side, true, ROUTE_TRAVEL_BACK, false};
            if (!level && y % steps == 0 && x % steps != 0 && y + 1 < height)
                *LIST_ADD(arena, &pieces) = (struct route_piece){
                    at, at + steps * width, side, true, ROUTE_TRAVEL_BACK, false};
        }
    for (size_t i = 0; i < pieces.count; i++) {
        pieces.items[i].a = ids[pieces.items[i].a];
        pieces.items[i].b = ids[pieces.items[i].b];
    }
    const struct route_input input = {
        .points = points.items,
        .at_edge = ARENA_ARRAY(arena, bool, points.count),
        .point_count = points.count,
        .pieces = pieces.items,
        .count = pieces.count,
        .start_worth = 24,
        .bobbin = 1460,
        .centre = {side / 2 * (double)across, side / 2 * (double)down}};
    measure_route("filler", across * down * lines_in_block, &input);
    arena_destroy(arena);
}

int main(void)
{
    struct arena *arena = arena_create();
    gap_random(arena, 15000);
    gap_random(arena, 30000);
    for (double apart = 8; apart >= 0.25; apart /= 2) {
        gap_parallel(arena, apart, false);
        gap_parallel(arena, apart, true);
    }
    for (double side = 12; side >= 0.75; side /= 2) {
        gap_grid_lines(arena, side, false);
        gap_grid_lines(arena, side, true);
    }
    arena_destroy(arena);
    route_top(5, 6, true);
    route_top(5, 6, false);
    route_top(10, 12, true);
    route_top(15, 18, true);
    route_filler(5, 6, 12, 23);
    route_filler(5, 6, 12, 47);
    route_filler(5, 6, 12, 167);
    route_filler(10, 6, 12, 167);
    route_filler(10, 12, 12, 83);
    route_filler(10, 12, 6, 23);
    route_filler(20, 24, 3, 11);
    route_filler(28, 34, 3, 11);
    return 0;
}
