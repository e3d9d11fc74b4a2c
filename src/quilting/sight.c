/* A wall is a piece of a seam, or of the rim, that has not the cloth at both
 * its sides: whoever looks through it leaves the cloth. Seen from a point it
 * fills an angle, of which a hair is taken off at both ends, so that what looks
 * past its end is never called hidden for a rounding. Read next: connect.c. */
#include "sight.h"

#include <math.h>
#include <stdlib.h>

/* ---- walls ---- */

/* The part of the cloth at this side of a piece, where it is the one that is
 * looked over. */
static size_t open_part(const struct ground *ground, long face, int fabric)
{
    return face != FACE_OUTSIDE && ground->fabric[face] == fabric
               ? ground->part[face]
               : NO_PART;
}

struct sight sight_over(struct arena *arena, const struct ground *ground,
                        int fabric)
{
    const struct arrangement *base = ground->base;
    const struct spot_line top = extent_box(ground->extent);
    struct spot_line *walls =
        ARENA_ARRAY(arena, struct spot_line, base->piece_count + 1);
    size_t *parts = ARENA_ARRAY(arena, size_t, base->piece_count + 1);
    struct sight sight = {
        .ground = ground, .fabric = fabric, .walls = walls, .parts = parts};
    for (size_t i = 0; i < base->piece_count; i++) {
        const struct arranged_piece *piece = &base->pieces[i];
        const size_t right = open_part(ground, piece->right, fabric);
        const size_t left = open_part(ground, piece->left, fabric);
        if (right != NO_PART && left != NO_PART)
            continue;
        parts[sight.count] = right != NO_PART ? right : left;
        walls[sight.count++] = (struct spot_line){base->spots[piece->from],
                                                  base->spots[piece->to]};
    }
    /* So many walls lie about a point that most of its directions are filled,
     * however large the quilt is. */
    enum { ABOUT = 12 };
    sight.by_place = grid_of_lines(arena, walls, sight.count);
    sight.reach =
        ABOUT / 2.0 * sqrt(top.to.x * top.to.y / ((double)sight.count + 1));
    return sight;
}

/* ---- directions ---- */

/* Rises with the angle, in the same order, without a root or an angle. */
static double direction_of(double x, double y)
{
    const double share = y / (fabs(x) + fabs(y));
    return x < 0 ? 2 - share : share < 0 ? 4 + share : share;
}

static int compare_hidden(const void *first, const void *second)
{
    const struct hidden *a = first, *b = second;
    return a->from < b->from ? -1 : a->from > b->from;
}

typedef LIST(struct hidden) hidden_list;

/* Those that overlap become one. */
static void unite(hidden_list *all)
{
    size_t left = 0;
    if (all->count > 1)
        qsort(all->items, all->count, sizeof *all->items, compare_hidden);
    for (size_t i = 0; i < all->count; i++) {
        if (left > 0 && all->items[i].from <= all->items[left - 1].to)
            all->items[left - 1].to =
                fmax(all->items[left - 1].to, all->items[i].to);
        else
            all->items[left++] = all->items[i];
    }
    all->count = left;
}

/* What is found about a point, wall by wall. */
struct lookout {
    struct arena *scratch;
    struct view *view;
    hidden_list behind;
    LIST(double) touching; /* the directions of walls that begin at the point */
    bool crowded;          /* a wall is so near that its angle cannot be told */
};

static bool has_part(const struct view *view, size_t part)
{
    for (size_t i = 0; i < view->part_count && i < MOST_PARTS; i++)
        if (view->parts[i] == part)
            return true;
    return false;
}

static void add_part(struct view *view, size_t part)
{
    if (part == NO_PART || has_part(view, part))
        return;
    if (view->part_count < MOST_PARTS)
        view->parts[view->part_count] = part;
    view->part_count++;
}

/* The directions in which a wall leads away from a point that lies on it. */
static void add_touching(struct lookout *look, struct spot_line wall)
{
    const struct spot at = look->view->at;
    const struct spot ends[] = {wall.from, wall.to};
    for (size_t i = 0; i < 2; i++) {
        const double x = ends[i].x - at.x, y = ends[i].y - at.y;
        if (fabs(x) + fabs(y) > 1e-6)
            *LIST_ADD(look->scratch, &look->touching) = direction_of(x, y);
    }
}

/* Adds what the wall fills. One that is too near to tell its angle is left out;
 * one on which the point lies is a bound of what is closed. */
static void add_wall(struct lookout *look, struct spot_line wall, size_t part)
{
    struct view *view = look->view;
    const double hair = 1e-9, too_near = 1e-3;
    const double ax = wall.from.x - view->at.x, ay = wall.from.y - view->at.y;
    const double bx = wall.to.x - view->at.x, by = wall.to.y - view->at.y;
    const double off = spot_to_line(view->at, wall);
    if (off < too_near)
        add_part(view, part);
    if (off < 1e-9)
        add_touching(look, wall);
    else
        look->crowded |= off < too_near;
    if (off < too_near)
        return;
    double from = direction_of(ax, ay), to = direction_of(bx, by);
    if (from > to) {
        const double swap = from;
        from = to;
        to = swap;
    }
    view->near = fmax(view->near, fmax(hypot(ax, ay), hypot(bx, by)));
    if (to - from <= 2) {
        if (to - from > 2 * hair)
            *LIST_ADD(look->scratch, &look->behind) =
                (struct hidden){from + hair, to - hair};
        return;
    }
    *LIST_ADD(look->scratch, &look->behind) = (struct hidden){to + hair, 4};
    *LIST_ADD(look->scratch, &look->behind) = (struct hidden){0, from - hair};
}

/* A hair from the point in a direction (the reverse of direction_of). */
static struct spot hair_towards(struct spot at, double direction)
{
    const double hair = 1e-5;
    const double y = direction < 1   ? direction
                     : direction < 3 ? 2 - direction
                                     : direction - 4;
    const double x = direction > 1 && direction < 3 ? fabs(y) - 1 : 1 - fabs(y);
    return (struct spot){at.x + hair * x, at.y + hair * y};
}

static int compare_directions(const void *first, const void *second)
{
    const double a = *(const double *)first, b = *(const double *)second;
    return (a > b) - (a < b);
}

/* Between two walls that begin at the point next to each other lies one cloth:
 * where it is another one, no line leads away. */
static hidden_list find_closed(struct lookout *look, const struct sight *sight)
{
    const double hair = 1e-9;
    hidden_list closed = {0};
    const size_t count = look->touching.count;
    double *at = look->touching.items;
    if (look->crowded || count < 2)
        return closed;
    qsort(at, count, sizeof *at, compare_directions);
    for (size_t i = 0; i < count; i++) {
        const double from = at[i], to = i + 1 < count ? at[i + 1] : at[0] + 4;
        const double middle = fmod((from + to) / 2, 4);
        if (to - from < 1e-6 ||
            ground_fabric(sight->ground, hair_towards(look->view->at,
                                                      middle)) == sight->fabric)
            continue;
        *LIST_ADD(look->scratch, &closed) =
            (struct hidden){from + hair, fmin(to, 4) - hair};
        if (to > 4)
            *LIST_ADD(look->scratch, &closed) =
                (struct hidden){-hair, to - 4 - hair};
    }
    unite(&closed);
    return closed;
}

static struct sectors keep_sectors(struct arena *arena, hidden_list list)
{
    struct hidden *items = ARENA_ARRAY(arena, struct hidden, list.count + 1);
    for (size_t i = 0; i < list.count; i++)
        items[i] = list.items[i];
    return (struct sectors){items, list.count};
}

struct view view_from(struct arena *arena, const struct sight *sight,
                      struct spot at)
{
    const double reach = sight->reach;
    const struct spot_line box = {{at.x - reach, at.y - reach},
                                  {at.x + reach, at.y + reach}};
    struct view view = {.at = at};
    struct arena *scratch = arena_create();
    struct lookout look = {.scratch = scratch, .view = &view};
    size_t count;
    const size_t *walls = grid_numbers(scratch, sight->by_place, box, &count);
    for (size_t i = 0; i < count; i++)
        add_wall(&look, sight->walls[walls[i]], sight->parts[walls[i]]);
    unite(&look.behind);
    view.behind = keep_sectors(arena, look.behind);
    view.closed = keep_sectors(arena, find_closed(&look, sight));
    arena_destroy(scratch);
    return view;
}

static bool lies_in(struct sectors sectors, double direction)
{
    size_t low = 0, high = sectors.count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (sectors.items[middle].to < direction)
            low = middle + 1;
        else
            high = middle;
    }
    return low < sectors.count && sectors.items[low].from < direction;
}

static bool on_other_parts(const struct view *one, const struct view *other)
{
    if (one->part_count == 0 || one->part_count > MOST_PARTS ||
        other->part_count == 0 || other->part_count > MOST_PARTS)
        return false;
    for (size_t i = 0; i < one->part_count; i++)
        if (has_part(other, one->parts[i]))
            return false;
    return true;
}

static bool hides(const struct view *view, struct spot other)
{
    const double x = other.x - view->at.x, y = other.y - view->at.y;
    if (x == 0 && y == 0)
        return false;
    const double direction = direction_of(x, y);
    return lies_in(view->closed, direction) ||
           (x * x + y * y > view->near * view->near &&
            lies_in(view->behind, direction));
}

bool are_hidden(const struct view *one, const struct view *other)
{
    return on_other_parts(one, other) || hides(one, other->at) ||
           hides(other, one->at);
}
