/* Swirls and pebbles as figures show them: whole circles that touch, spirals in
 * rows. A texture, not stitches, as nobody stitches them point by point. Read
 * next: quilting_path.c. */
#include <math.h>

#include "quilting_figure.h"

/* What is laid over one area. */
struct texture {
    const struct quilting_view *view;
    struct box *box;
    const struct quilted_area *area;
    struct area_bounds bounds;
    double spacing, margin; /* on the quilt */
    struct path_item style;
};

/* ---- room ---- */

/* Of a place to the line between two others. */
static double far_from(struct spot p, struct spot a, struct spot b)
{
    const double x = b.x - a.x, y = b.y - a.y;
    const double length = x * x + y * y;
    double share =
        length > 0.0 ? ((p.x - a.x) * x + (p.y - a.y) * y) / length : 0.0;
    share = fmax(0.0, fmin(1.0, share));
    return hypot(p.x - a.x - share * x, p.y - a.y - share * y);
}

double area_room(const struct quilted_area *area, struct spot at)
{
    double least = HUGE_VAL;
    if (!area_shows(area, at))
        return -1.0;
    for (size_t r = 0; r < area->ring_count; r++) {
        const struct quilted_ring *ring = &area->rings[r];
        for (size_t i = 0, k = ring->count - 1; i < ring->count; k = i++)
            least = fmin(least, far_from(at, ring->points[k], ring->points[i]));
    }
    return least;
}

/* ---- pebbles ---- */

struct pebble {
    struct spot at;
    double radius;
};

struct pebbles {
    LIST(struct pebble) items;
};

/* Pebbles may touch each other. */
static bool pebble_fits(const struct texture *texture,
                        const struct pebbles *pebbles, struct pebble one)
{
    static const double HAIR = 1e-6;
    for (size_t i = 0; i < pebbles->items.count; i++) {
        const struct pebble *other = &pebbles->items.items[i];
        if (hypot(one.at.x - other->at.x, one.at.y - other->at.y) <
            one.radius + other->radius - HAIR)
            return false;
    }
    return area_room(texture->area, one.at) >=
           one.radius + texture->margin - HAIR;
}

/* Where the pebble fits, it is kept. */
static void try_pebble(const struct texture *texture, struct pebbles *pebbles,
                       struct pebble one)
{
    if (pebble_fits(texture, pebbles, one))
        *LIST_ADD(texture->view->canvas->arena, &pebbles->items) = one;
}

/* Places in rows from the place in the area that has the most room on; every
 * other row is shifted by half. */
static void try_rows(const struct texture *texture, struct pebbles *pebbles,
                     double radius, double pitch, double rise)
{
    const struct spot from = texture->area->label;
    const struct area_bounds *around = &texture->bounds;
    const long first = lround(floor((around->least.y - from.y) / rise));
    const long last = lround(ceil((around->most.y - from.y) / rise));
    for (long row = first; row <= last; row++) {
        const double x = from.x + (row % 2 == 0 ? 0.0 : pitch / 2.0);
        const long left = lround(floor((around->least.x - x) / pitch));
        const long right = lround(ceil((around->most.x - x) / pitch));
        for (long i = left; i <= right; i++)
            try_pebble(texture, pebbles,
                       (struct pebble){{x + pitch * (double)i,
                                        from.y + rise * (double)row},
                                       radius});
    }
}

/* As an open line that comes back to where it began, as all of a texture. */
static void draw_pebble(const struct texture *texture, struct pebble one)
{
    enum { CHORDS = 24 };
    struct spot points[CHORDS + 1];
    const double turn = 2.0 * acos(-1.0) / CHORDS;
    for (int i = 0; i <= CHORDS; i++)
        points[i] = (struct spot){one.at.x + one.radius * cos(turn * i),
                                  one.at.y + one.radius * sin(turn * i)};
    draw_open_line(texture->view, texture->box, points, CHORDS + 1,
                   texture->style);
}

/* Those of the told size first, packed as closely as circles go; what they leave
 * takes smaller ones, as it does under the needle. Where there are very many,
 * nobody sees the small ones. */
static void draw_pebbles(const struct texture *texture)
{
    enum { MANY = 60 };
    static const double smaller[] = {0.75, 0.55, 0.4};
    const double radius = texture->spacing / 2.0;
    struct pebbles pebbles = {.items = {0}};
    try_rows(texture, &pebbles, radius, 2.0 * radius, radius * sqrt(3.0));
    const bool few = pebbles.items.count < MANY;
    for (size_t i = 0; few && i < sizeof smaller / sizeof *smaller; i++)
        try_rows(texture, &pebbles, radius * smaller[i], radius / 8.0,
                 radius / 8.0);
    for (size_t i = 0; i < pebbles.items.count; i++)
        draw_pebble(texture, pebbles.items.items[i]);
}

/* ---- swirls ---- */

/* So short a piece of a swirl reads as a scratch. */
#define RUN_LEAST MM(2.5)

static void draw_run(const struct texture *texture, const struct spot *run,
                     size_t count)
{
    double length = 0.0;
    for (size_t i = 1; i < count; i++)
        length += hypot(run[i].x - run[i - 1].x, run[i].y - run[i - 1].y);
    if (length * texture->view->scale >= RUN_LEAST)
        draw_open_line(texture->view, texture->box, run, count, texture->style);
}

/* A spiral in and, halfway between its turns, out again, so that lines lie a
 * spacing apart; from the side where `hand` comes from to the other. What lies
 * outside of the area is left out. */
static void draw_swirl(const struct texture *texture, struct spot center,
                       double hand)
{
    enum { CHORDS = 36 };
    const double half = acos(-1.0);
    struct spot run[2 * CHORDS + 1];
    size_t count = 0;
    for (int i = -CHORDS; i <= CHORDS; i++) {
        const double share = fabs((double)i) / CHORDS;
        const double angle = (i < 0 ? half : 0.0) + 2.0 * half * (1.0 - share);
        const double radius = 2.0 * texture->spacing * share;
        const struct spot at = {center.x + hand * radius * cos(angle),
                                center.y + radius * sin(angle)};
        const bool inside = area_room(texture->area, at) >= texture->margin;
        if (inside)
            run[count++] = at;
        if (!inside || i == CHORDS) {
            draw_run(texture, run, count);
            count = 0;
        }
    }
}

/* Rows to and fro, one of them through the middle of the area; in a row each
 * swirl begins where the one before ends. */
static void draw_swirls(const struct texture *texture)
{
    const double radius = 2.0 * texture->spacing,
                 rise = 1.95 * radius; /* rows keep apart */
    const struct spot from = texture->area->label;
    const struct area_bounds *around = &texture->bounds;
    const long first = lround(floor((around->least.y - from.y) / rise));
    const long last = lround(ceil((around->most.y - from.y) / rise));
    for (long row = first; row <= last; row++) {
        const double shift = row % 2 == 0 ? 0.0 : radius;
        const long left = lround(
            floor((around->least.x - from.x - shift) / (2.0 * radius)));
        const long right =
            lround(ceil((around->most.x - from.x - shift) / (2.0 * radius)));
        for (long i = left; i <= right; i++)
            draw_swirl(texture,
                       (struct spot){from.x + shift + 2.0 * radius * (double)i,
                                     from.y + rise * (double)row},
                       row % 2 == 0 ? 1.0 : -1.0);
    }
}

void draw_texture_in(const struct quilting_view *view, struct box *box,
                     const struct quilted_area *area, double margin,
                     struct path_item style)
{
    if (view->plan->kinds.items[area->kind].texture_count == 0)
        return;
    /* A circle is told from the rim although it all but touches it. */
    static const double TOUCHING = 0.25;
    const bool pebbles = area->fill->of.fill.with == TOLD_PEBBLES;
    const struct texture texture = {
        .view = view,
        .box = box,
        .area = area,
        .bounds = area_bounds(area),
        .spacing = rational_double(area->fill->of.fill.spacing),
        .margin = (pebbles ? TOUCHING : 1.0) * margin / view->scale,
        .style = style};
    if (pebbles)
        draw_pebbles(&texture);
    else
        draw_swirls(&texture);
}
