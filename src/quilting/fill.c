/* Fillers, line by line or as a sample. A family of parallel lines is laid over
 * an area turned so that they are level: each is cut where it crosses a ring.
 */
#include "fill.h"

#include <math.h>
#include <stdlib.h>

/* ---- lines ---- */

struct stretch {
    double from, to;
};

struct filler {
    struct arena *arena;
    const struct spot_ring *rings; /* turned: lines are level */
    size_t count;
    double *places; /* where a level crosses, room for all sides */
    struct stretch *gaps;
};

static int compare_doubles(const void *left, const void *right)
{
    const double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static int compare_stretches(const void *left, const void *right)
{
    return compare_doubles(&((const struct stretch *)left)->from,
                           &((const struct stretch *)right)->from);
}

/* Sides that lie in the level are gaps; the others are crossed, each at its
 * lower end but not at its upper one, so that corners are counted right. */
static void cross_rings(const struct filler *f, double level, size_t *places,
                        size_t *gaps)
{
    *places = *gaps = 0;
    for (size_t r = 0; r < f->count; r++)
        for (size_t i = 0; i < f->rings[r].count; i++) {
            const struct spot p = f->rings[r].points[i];
            const struct spot q =
                f->rings[r].points[(i + 1) % f->rings[r].count];
            if (fabs(p.y - level) < 1e-9 && fabs(q.y - level) < 1e-9)
                f->gaps[(*gaps)++] =
                    (struct stretch){fmin(p.x, q.x), fmax(p.x, q.x)};
            if ((p.y < level) != (q.y < level))
                f->places[(*places)++] =
                    p.x + (level - p.y) / (q.y - p.y) * (q.x - p.x);
        }
    qsort(f->places, *places, sizeof *f->places, compare_doubles);
    qsort(f->gaps, *gaps, sizeof *f->gaps, compare_stretches);
}

/* Stretches shorter than this are no lines. */
static const double LEAST = 1e-6;

/* Adds [from, to] without the gaps, turned back by the direction. */
static void add_stretch(const struct filler *f, struct stretch stretch,
                        size_t gaps, double level, struct spot direction,
                        spot_lines *lines)
{
    double from = stretch.from;
    for (size_t g = 0; g <= gaps; g++) {
        const double to =
            g == gaps ? stretch.to : fmin(f->gaps[g].from, stretch.to);
        if (to - from > LEAST)
            *LIST_ADD(f->arena, lines) =
                (struct spot_line){{from * direction.x - level * direction.y,
                                    from * direction.y + level * direction.x},
                                   {to * direction.x - level * direction.y,
                                    to * direction.y + level * direction.x}};
        if (g < gaps)
            from = fmax(from, f->gaps[g].to);
    }
}

/* Crossings come in pairs: into the area and out of it. */
static void add_level(const struct filler *f, double level,
                      struct spot direction, spot_lines *lines)
{
    size_t places, gaps;
    cross_rings(f, level, &places, &gaps);
    for (size_t i = 0; i + 1 < places; i += 2) {
        struct stretch stretch = {f->places[i], f->places[i + 1]};
        /* Parts that touch in a corner are one line. */
        while (i + 3 < places && f->places[i + 2] - stretch.to < LEAST) {
            stretch.to = f->places[i + 3];
            i += 2;
        }
        add_stretch(f, stretch, gaps, level, direction, lines);
    }
}

/* Seen with the direction to the right. */
static struct spot turned(struct spot at, struct spot direction)
{
    return (struct spot){at.x * direction.x + at.y * direction.y,
                         at.y * direction.x - at.x * direction.y};
}

/* Turned once for the family, so that each line is a level one. */
static struct filler turn_rings(struct arena *arena,
                                const struct fill_order *order,
                                struct spot direction)
{
    struct filler f = {.arena = arena, .count = order->count};
    struct spot_ring *rings =
        ARENA_ARRAY(arena, struct spot_ring, order->count + 1);
    size_t sides = 0;
    for (size_t r = 0; r < order->count; r++) {
        struct spot *points =
            ARENA_ARRAY(arena, struct spot, order->rings[r].count);
        for (size_t i = 0; i < order->rings[r].count; i++)
            points[i] = turned(order->rings[r].points[i], direction);
        rings[r] = (struct spot_ring){points, order->rings[r].count};
        sides += order->rings[r].count;
    }
    f.rings = rings;
    f.places = ARENA_ARRAY(arena, double, sides + 1);
    f.gaps = ARENA_ARRAY(arena, struct stretch, sides + 1);
    return f;
}

/* ensures: false where there would be too many. */
static bool add_family(struct arena *arena, const struct fill_order *order,
                       struct spot direction, spot_lines *lines)
{
    const struct filler f = turn_rings(arena, order, direction);
    const double through = turned(order->through, direction).y;
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (size_t r = 0; r < f.count; r++)
        for (size_t i = 0; i < f.rings[r].count; i++) {
            low = fmin(low, f.rings[r].points[i].y);
            high = fmax(high, f.rings[r].points[i].y);
        }
    const double first = ceil((low - through) / order->spacing - 1e-9);
    const double last = floor((high - through) / order->spacing + 1e-9);
    if (last - first > FILL_MOST)
        return false;
    for (double k = first; k <= last && lines->count <= FILL_MOST; k++)
        add_level(&f, through + k * order->spacing, direction, lines);
    return lines->count <= FILL_MOST;
}

struct fill_lines fill_area(struct arena *arena, const struct fill_order *order)
{
    struct fill_lines found = {0};
    const double length = hypot(order->direction.x, order->direction.y);
    const struct spot along = {order->direction.x / length,
                               order->direction.y / length};
    const struct spot across = {-along.y, along.x};
    bool all = add_family(arena, order, along, &found.lines);
    if (all && order->kind == FILL_GRID)
        all = add_family(arena, order, across, &found.lines);
    if (!all) {
        found.fault.kind = FAULT_LIMIT;
        found.lines.count = 0;
    }
    return found;
}

struct spot fill_center(const struct spot_ring *rings, size_t count)
{
    struct spot low = {HUGE_VAL, HUGE_VAL}, high = {-HUGE_VAL, -HUGE_VAL};
    for (size_t r = 0; r < count; r++)
        for (size_t i = 0; i < rings[r].count; i++) {
            const struct spot p = rings[r].points[i];
            low = (struct spot){fmin(low.x, p.x), fmin(low.y, p.y)};
            high = (struct spot){fmax(high.x, p.x), fmax(high.y, p.y)};
        }
    return (struct spot){(low.x + high.x) / 2, (low.y + high.y) / 2};
}

/* ---- the law ---- */

static const double PI = 3.14159265358979323846;

double fill_length(enum fill_kind kind, double area, double spacing)
{
    switch (kind) {
    case FILL_LINES:
    case FILL_SWIRLS:
    case FILL_ECHO:
        return area / spacing;
    case FILL_GRID:
        return 2 * area / spacing;
    case FILL_PEBBLES:
        return sqrt(3) * PI * area / spacing;
    case FILL_NONE:
        break;
    }
    return 0;
}

/* ---- samples ---- */

typedef LIST(struct spot) spot_path;

/* Circles on a grid of triangles, each begun where it touches the one before.
 */
static void add_pebbles(struct arena *arena, double width, double height,
                        double size, fill_sample_lines *sample)
{
    enum { CHORDS = 24 };
    const double rise = size * sqrt(3) / 2;
    for (size_t row = 0; size / 2 + (double)row * rise < height; row++) {
        const double y = size / 2 + (double)row * rise;
        for (double x = row % 2 == 0 ? size / 2 : size; x < width; x += size) {
            struct spot *points = ARENA_ARRAY(arena, struct spot, CHORDS + 1);
            for (size_t i = 0; i <= CHORDS; i++) {
                const double angle = PI + 2 * PI * (double)i / CHORDS;
                points[i] = (struct spot){x + size / 2 * cos(angle),
                                          y + size / 2 * sin(angle)};
            }
            *LIST_ADD(arena, sample) = (struct spot_ring){points, CHORDS + 1};
        }
    }
}

/* A spiral in and, halfway between its turns, out again, so that lines lie a
 * spacing apart: from the side where `hand` comes from to the side where it
 * goes, 1 to the right, -1 to the left. */
static void add_swirl(struct arena *arena, spot_path *path, struct spot center,
                      double spacing, double hand)
{
    enum { CHORDS = 36 };
    for (int i = -CHORDS; i <= CHORDS; i++) {
        const double share = fabs((double)i) / CHORDS;
        const double angle = (i < 0 ? PI : 0) + 2 * PI * (1 - share);
        const double radius = 2 * spacing * share;
        *LIST_ADD(arena, path) =
            (struct spot){center.x + hand * radius * cos(angle),
                          center.y + radius * sin(angle)};
    }
}

/* Rows to and fro, each swirl begun where the one before ends. */
static void add_swirls(struct arena *arena, double width, double height,
                       double spacing, fill_sample_lines *sample)
{
    const double radius = 2 * spacing, rise = radius * sqrt(3);
    spot_path path = {0};
    for (size_t row = 0; (double)row * rise < height; row++) {
        const double y = radius + (double)row * rise;
        const double first = row % 2 == 0 ? radius : 2 * radius;
        const size_t count = (size_t)ceil(width / (2 * radius));
        for (size_t i = 0; i < count; i++) {
            const size_t at = row % 2 == 0 ? i : count - 1 - i;
            const struct spot center = {first + 2 * radius * (double)at, y};
            add_swirl(arena, &path, center, spacing, row % 2 == 0 ? 1 : -1);
        }
    }
    *LIST_ADD(arena, sample) = (struct spot_ring){path.items, path.count};
}

fill_sample_lines fill_sample(struct arena *arena, enum fill_kind kind,
                              double width, double height, double spacing)
{
    fill_sample_lines sample = {0};
    if (kind == FILL_PEBBLES)
        add_pebbles(arena, width, height, spacing, &sample);
    if (kind == FILL_SWIRLS)
        add_swirls(arena, width, height, spacing, &sample);
    return sample;
}
