/* Rims by intervals: of each outer side of a piece stays what no other piece
 * covers. A stretch that is left lies inside of the shape or outside of it as a
 * whole, as the border of the shape runs along pieces. Put end to end the
 * stretches are closed lines, walked as the rings of the shape are.
 *
 * Sides that close up on each other at exactly twice the distance leave two
 * stretches in one place, and corners may meet in one point by chance: then an
 * end has two ways on, or none, and nothing is told. Of echoes of random shapes
 * that is one in a hundred. */
#include "rim.h"

#include <math.h>
#include <stdlib.h>

#include "grid.h"

struct interval {
    double from, to; /* shares of a side */
};

/* A stretch of the rim, walked as the ring of its side is. */
struct rim_part {
    struct spot_line line;
    size_t next; /* the part that begins where it ends */
    bool used;
};

struct rimmer {
    struct arena *arena, *scratch;
    const struct spot_ring *shape;
    size_t count;
    const struct offset_pieces *pieces;
    bool inside;
    struct grid *grid; /* of the pieces */
    struct spot_line *sides; /* of the shape */
    struct grid *by_place;   /* of its sides */
    double right;            /* where it ends */
    LIST(struct interval) covered;
    LIST(struct rim_part) parts;
};

/* ---- what is covered ---- */

/* What of the side lies truly inside the convex piece, by more than 1e-9. */
static struct interval inside_piece(struct spot_line side,
                                    struct spot_ring piece)
{
    const double hair = 1e-9;
    struct interval left = {0, 1};
    double turn = 0;
    for (size_t i = 1; i + 1 < piece.count; i++) {
        const struct spot o = piece.points[0], p = piece.points[i];
        const struct spot q = piece.points[i + 1];
        turn += (p.x - o.x) * (q.y - o.y) - (p.y - o.y) * (q.x - o.x);
    }
    for (size_t i = 0; i < piece.count && left.from < left.to; i++) {
        const struct spot p = piece.points[i];
        const struct spot q = piece.points[(i + 1) % piece.count];
        const double length = hypot(q.x - p.x, q.y - p.y);
        const double x = (turn < 0 ? p.x - q.x : q.x - p.x) / length;
        const double y = (turn < 0 ? p.y - q.y : q.y - p.y) / length;
        const double a =
            x * (side.from.y - p.y) - y * (side.from.x - p.x) - hair;
        const double b = x * (side.to.y - p.y) - y * (side.to.x - p.x) - hair;
        if (a <= 0 && b <= 0)
            return (struct interval){0, 0};
        if (a < 0)
            left.from = fmax(left.from, a / (a - b));
        if (b < 0)
            left.to = fmin(left.to, a / (a - b));
    }
    return left;
}

static int compare_intervals(const void *left, const void *right)
{
    const struct interval *a = left, *b = right;
    return (a->from > b->from) - (a->from < b->from);
}

/* Only pieces near the side are asked. */
static void find_covered(struct rimmer *r, struct spot_line side)
{
    const size_t *near;
    const size_t count = grid_along(r->grid, side, &near);
    r->covered.count = 0;
    for (size_t i = 0; i < count; i++) {
        const struct interval in =
            inside_piece(side, r->pieces->pieces.items[near[i]]);
        if (in.from < in.to)
            *LIST_ADD(r->scratch, &r->covered) = in;
    }
    if (r->covered.count > 0)
        qsort(r->covered.items, r->covered.count, sizeof *r->covered.items,
              compare_intervals);
}

static struct spot point_at(struct spot_line side, double share)
{
    return (struct spot){side.from.x + share * (side.to.x - side.from.x),
                         side.from.y + share * (side.to.y - side.from.y)};
}

/* By the even-odd rule, as spot_inside: only sides that the level line to the
 * right comes to are asked, as cloth may have thousands of holes. */
static bool is_inside(struct rimmer *r, struct spot at)
{
    const struct spot_line ray = {at, {fmax(at.x, r->right), at.y}};
    const size_t *near;
    const size_t count = grid_within(r->by_place, ray, &near);
    bool inside = false;
    for (size_t i = 0; i < count; i++) {
        const struct spot p = r->sides[near[i]].from, q = r->sides[near[i]].to;
        inside ^= (p.y < at.y) != (q.y < at.y) &&
                  at.x < p.x + (at.y - p.y) / (q.y - p.y) * (q.x - p.x);
    }
    return inside;
}

/* Parts shorter than what counts as equal would link to themselves. */
static void add_part(struct rimmer *r, struct spot_line side, double from,
                     double to)
{
    const double length =
        hypot(side.to.x - side.from.x, side.to.y - side.from.y);
    if ((to - from) * length < 1e-7)
        return;
    const struct spot middle = point_at(side, (from + to) / 2);
    if (is_inside(r, middle) == r->inside)
        *LIST_ADD(r->scratch, &r->parts) = (struct rim_part){
            .line = {point_at(side, from), point_at(side, to)}};
}

/* What lies between the covered stretches, which may overlap. */
static void add_parts(struct rimmer *r, struct spot_line side)
{
    double open = 0;
    find_covered(r, side);
    for (size_t i = 0; i < r->covered.count; i++) {
        if (r->covered.items[i].from > open)
            add_part(r, side, open, r->covered.items[i].from);
        open = fmax(open, r->covered.items[i].to);
    }
    if (open < 1)
        add_part(r, side, open, 1);
}

/* ---- end to end ---- */

/* Ends come from two sides that were cut by two formulas. */
static bool meets(struct spot a, struct spot b)
{
    return hypot(a.x - b.x, a.y - b.y) < 1e-6;
}

/* Each part ends where one other begins, and no two end in one. */
static bool link_parts(struct rimmer *r)
{
    struct spot_line *begins =
        ARENA_ARRAY(r->scratch, struct spot_line, r->parts.count + 1);
    for (size_t i = 0; i < r->parts.count; i++) {
        const struct spot at = r->parts.items[i].line.from;
        begins[i] = (struct spot_line){at, at};
    }
    struct grid *grid = grid_of_boxes(r->scratch, begins, r->parts.count);
    for (size_t i = 0; i < r->parts.count; i++) {
        const size_t *near;
        size_t found = 0, next = 0;
        const struct spot end = r->parts.items[i].line.to;
        const size_t count = grid_at(grid, end, &near);
        for (size_t k = 0; k < count; k++)
            if (meets(begins[near[k]].from, end)) {
                next = near[k];
                found++;
            }
        if (found != 1 || r->parts.items[next].used)
            return false;
        r->parts.items[i].next = next;
        r->parts.items[next].used = true;
    }
    return true;
}

/* A rectangle and the kite beside it go on in one line. */
static bool goes_straight(struct spot_line a, struct spot_line b)
{
    const double x = a.to.x - a.from.x, y = a.to.y - a.from.y;
    const double u = b.to.x - b.from.x, v = b.to.y - b.from.y;
    return fabs(x * v - y * u) < 1e-9 * hypot(x, y) * hypot(u, v) &&
           x * u + y * v > 0;
}

/* Adds the ring of a part, and marks its parts as walked. */
static void add_ring(struct rimmer *r, size_t first, spot_rings *rim)
{
    size_t count = 0, i = first;
    do
        count++;
    while ((i = r->parts.items[i].next) != first);
    struct spot *points = ARENA_ARRAY(r->arena, struct spot, count);
    size_t kept = 0;
    for (size_t k = 0; k < count; k++) {
        struct rim_part *part = &r->parts.items[i];
        const struct rim_part *next = &r->parts.items[part->next];
        part->used = false;
        if (!goes_straight(part->line, next->line))
            points[kept++] = next->line.from;
        i = part->next;
    }
    const struct spot_ring ring = {points, kept};
    if (!ring_is_thin(ring))
        *LIST_ADD(r->arena, rim) = ring;
}

static struct grid *grid_of_pieces(struct arena *arena, spot_rings pieces)
{
    struct spot_line *boxes =
        ARENA_ARRAY(arena, struct spot_line, pieces.count + 1);
    for (size_t i = 0; i < pieces.count; i++) {
        struct spot_line box = {{HUGE_VAL, HUGE_VAL}, {-HUGE_VAL, -HUGE_VAL}};
        for (size_t k = 0; k < pieces.items[i].count; k++) {
            const struct spot p = pieces.items[i].points[k];
            box.from =
                (struct spot){fmin(box.from.x, p.x), fmin(box.from.y, p.y)};
            box.to = (struct spot){fmax(box.to.x, p.x), fmax(box.to.y, p.y)};
        }
        boxes[i] = box;
    }
    return grid_of_boxes(arena, boxes, pieces.count);
}

/* The sides of the shape by where they lie. */
static void place_sides(struct rimmer *r)
{
    size_t count = 0;
    for (size_t i = 0; i < r->count; i++)
        count += r->shape[i].count;
    r->sides = ARENA_ARRAY(r->scratch, struct spot_line, count + 1);
    count = 0;
    r->right = -HUGE_VAL;
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < r->shape[i].count; k++) {
            const struct spot *points = r->shape[i].points;
            r->sides[count++] = (struct spot_line){
                points[k], points[(k + 1) % r->shape[i].count]};
            r->right = fmax(r->right, points[k].x);
        }
    r->by_place = grid_of_lines(r->scratch, r->sides, count);
}

bool rim_of_pieces(struct arena *arena, const struct spot_ring *shape,
                   size_t count, const struct offset_pieces *pieces,
                   bool inside, spot_rings *rim)
{
    struct rimmer r = {.arena = arena,
                       .scratch = arena_create(),
                       .shape = shape,
                       .count = count,
                       .pieces = pieces,
                       .inside = inside};
    r.grid = grid_of_pieces(r.scratch, pieces->pieces);
    place_sides(&r);
    for (size_t i = 0; i < pieces->outer.count; i++)
        add_parts(&r, pieces->outer.items[i]);
    const bool linked = link_parts(&r);
    for (size_t i = 0; linked && i < r.parts.count; i++)
        if (r.parts.items[i].used)
            add_ring(&r, i, rim);
    arena_destroy(r.scratch);
    return linked;
}
