/* A wall is a piece of a seam, or of the rim, that has not the cloth at both
 * its sides: whoever looks through it leaves the cloth. Seen from a point it
 * fills an angle, of which a hair is taken off at both ends, so that what looks
 * past its end is never called hidden for a rounding. Read next: connect.c. */
#include "sight.h"

#include <math.h>
#include <stdlib.h>

/* ---- walls ---- */

/* Is the cloth at this side of a piece the one that is looked over? */
static bool is_open(const struct ground *ground, long face, int fabric)
{
    return face != FACE_OUTSIDE && ground->fabric[face] == fabric;
}

struct sight sight_over(struct arena *arena, const struct ground *ground,
                        int fabric)
{
    const struct arrangement *base = ground->base;
    const struct spot_line top = extent_box(ground->extent);
    struct spot_line *walls =
        ARENA_ARRAY(arena, struct spot_line, base->piece_count + 1);
    struct sight sight = {.walls = walls};
    for (size_t i = 0; i < base->piece_count; i++) {
        const struct arranged_piece *piece = &base->pieces[i];
        if (!is_open(ground, piece->right, fabric) ||
            !is_open(ground, piece->left, fabric))
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

/* Adds what the wall fills. One that is too near to tell its angle, or on which
 * the point lies, is left out. */
static void add_wall(struct arena *scratch, struct view *view,
                     struct spot_line wall, hidden_list *all)
{
    const double hair = 1e-9, too_near = 1e-3;
    const double ax = wall.from.x - view->at.x, ay = wall.from.y - view->at.y;
    const double bx = wall.to.x - view->at.x, by = wall.to.y - view->at.y;
    const double far = fmax(hypot(ax, ay), hypot(bx, by));
    if (spot_to_line(view->at, wall) < too_near)
        return;
    double from = direction_of(ax, ay), to = direction_of(bx, by);
    if (from > to) {
        const double swap = from;
        from = to;
        to = swap;
    }
    view->near = fmax(view->near, far);
    if (to - from <= 2) {
        if (to - from > 2 * hair)
            *LIST_ADD(scratch, all) = (struct hidden){from + hair, to - hair};
        return;
    }
    *LIST_ADD(scratch, all) = (struct hidden){to + hair, 4};
    *LIST_ADD(scratch, all) = (struct hidden){0, from - hair};
}

struct view view_from(struct arena *scratch, const struct sight *sight,
                      struct spot at)
{
    const double reach = sight->reach;
    const struct spot_line box = {{at.x - reach, at.y - reach},
                                  {at.x + reach, at.y + reach}};
    struct view view = {.at = at};
    hidden_list all = {0};
    size_t count;
    const size_t *walls = grid_numbers(scratch, sight->by_place, box, &count);
    for (size_t i = 0; i < count; i++)
        add_wall(scratch, &view, sight->walls[walls[i]], &all);
    unite(&all);
    view.hidden = all.items;
    view.count = all.count;
    return view;
}

bool is_hidden(const struct view *view, struct spot other)
{
    const double x = other.x - view->at.x, y = other.y - view->at.y;
    if (x * x + y * y <= view->near * view->near)
        return false;
    const double direction = direction_of(x, y);
    size_t low = 0, high = view->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (view->hidden[middle].to < direction)
            low = middle + 1;
        else
            high = middle;
    }
    return low < view->count && view->hidden[low].from < direction;
}
