/* How long the geometry of quilting takes, in seconds of the processor: the
 * arrangement of a top of 30 blocks with up to 570 lines, then each part on
 * stars among plain blocks of 60 x 72, and on four times as many. Run by `make
 * bench`. */
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "areas.h"
#include "connect.h"
#include "echo.h"
#include "extend.h"
#include "fill.h"
#include "stars.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* ensures: the time, for the next. */
static double report(const char *what, double start, size_t count)
{
    printf("%-44s %8.4f s   (%zu)\n", what, seconds() - start, count);
    return seconds();
}

static void bench_arrangements(struct arena *arena)
{
    segments list = {0};
    add_top(arena, &list);
    double start = seconds();
    const struct arrangement *a =
        arrange_segments(arena, list.items, list.count);
    report("arrangement of 2,066 seams", start, a->piece_count);
    add_to_plain(arena, &list, add_extended);
    start = seconds();
    a = arrange_segments(arena, list.items, list.count);
    report("with 570 extended lines", start, a->piece_count);
    add_to_plain(arena, &list, add_corner_lines);
    start = seconds();
    a = arrange_segments(arena, list.items, list.count);
    report("with 540 lines from corners", start, a->piece_count);
}

/* Three echoes on both sides of each star, on the cloth around it. */
static size_t echo_stars(struct arena *arena, const struct ground *ground,
                         struct shapes stars)
{
    size_t count = 0;
    for (size_t i = 0; i < stars.count; i++) {
        struct echo_order order = {.shape = &stars.items[i],
                                   .side = ECHO_BOTH,
                                   .first = rational_make(1, 2),
                                   .spacing = rational_make(1, 2),
                                   .times = 3};
        const struct shapes around = shape_surroundings_within(
            arena, ground, &stars.items[i], echo_reach(&order));
        order.ground = &around.items[0];
        count += echo_shape(arena, &order).count;
    }
    return count;
}

static size_t fill_all(struct arena *arena, const struct arrangement *a,
                       const struct areas *areas)
{
    size_t count = 0;
    for (size_t i = 0; i < areas->count; i++) {
        const spot_rings rings = area_spots(arena, a, &areas->items[i]);
        const struct fill_order order = {
            .rings = rings.items,
            .count = rings.count,
            .kind = FILL_LINES,
            .direction = {1, 1},
            .through = fill_center(rings.items, rings.count),
            .spacing = 0.5};
        count += fill_area(arena, &order).lines.count;
    }
    return count;
}

static double bench_lines(struct arena *arena, const struct ground *ground,
                          double start, segments *all)
{
    const struct straight_seams seams = join_seams(arena, ground);
    start = report("straight seams", start, seams.count);
    const struct extend_order order = {.within = ground->extent,
                                       .one = NIGHT,
                                       .other = FLAME,
                                       .into = NIGHT,
                                       .until = UNTIL_EDGE,
                                       .center = ground->extent};
    const struct extended_lines lines =
        extend_seams(arena, ground, &seams, &order);
    start = report("extended", start, lines.count);
    for (size_t i = 0; i < lines.count; i++)
        add_segment(arena, all, lines.items[i].from, lines.items[i].to);
    for (size_t i = 0; i < ground->cloth->seams.count; i++)
        add_segment(arena, all, ground->cloth->seams.items[i].from,
                    ground->cloth->seams.items[i].to);
    struct segment sides[4];
    extent_sides(ground->extent, sides);
    for (size_t i = 0; i < 4; i++)
        *LIST_ADD(arena, all) = sides[i];
    return start;
}

static void bench_stars(struct arena *arena, int64_t across, int64_t down)
{
    struct cloth *cloth = star_cloth(arena, across, down);
    segments all = {0};
    double start = seconds();
    const struct ground *ground = ground_of(arena, cloth);
    start = report("ground", start, cloth->seams.count);
    start = bench_lines(arena, ground, start, &all);
    const struct shapes stars =
        find_shapes(arena, ground, ground->extent, FLAME);
    start = report("shapes", start, stars.count);
    start = report("echoes", start, echo_stars(arena, ground, stars));
    vertices points = {0};
    for (size_t i = 0; i < stars.count; i++)
        add_shape_points(arena, &stars.items[i], POINTS_OUTER_CORNERS, &points);
    const struct connect_order order = {
        points.items, points.items, points.count, points.count,
        NIGHT,        PAIR_FACING,  {0, 1}};
    start =
        report("connected", start, connect_points(arena, ground, &order).count);
    const struct arrangement *a = arrange_segments(arena, all.items, all.count);
    start = report("arrangement", start, a->piece_count);
    const struct areas areas = find_areas(arena, ground, a);
    start = report("areas", start, areas.count);
    report("filled with lines 1/2 apart", start, fill_all(arena, a, &areas));
}

int main(void)
{
    struct arena *arena = arena_create();
    bench_arrangements(arena);
    printf("stars, 60 x 72\n");
    bench_stars(arena, 5, 6);
    printf("stars, 120 x 144\n");
    bench_stars(arena, 10, 12);
    arena_destroy(arena);
    return 0;
}
