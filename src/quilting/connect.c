/* Lines from point to point. For each point the others are tried from the
 * nearest on, so that few lines are walked; whether one stays on its cloth is
 * exact. */
#include "connect.h"

#include <math.h>
#include <stdlib.h>

/* ---- the points of a shape ---- */

static void add_ring_points(struct arena *arena, struct shape_ring ring,
                            unsigned kinds, vertices *points)
{
    for (size_t i = 0; i < ring.count; i++) {
        const struct vertex v = ring.points[i];
        const unsigned kind = shape_corner_outer(ring, i)
                                  ? POINTS_OUTER_CORNERS
                                  : POINTS_INNER_CORNERS;
        if (kinds & kind)
            *LIST_ADD(arena, points) = v;
        if (kinds & POINTS_MIDDLES)
            *LIST_ADD(arena, points) =
                vertex_middle(v, ring.points[(i + 1) % ring.count]);
    }
}

void add_shape_points(struct arena *arena, const struct shape *shape,
                      unsigned kinds, vertices *points)
{
    for (size_t r = 0; r < shape->count; r++)
        add_ring_points(arena, shape->rings[r], kinds, points);
    if (kinds & POINTS_CENTER)
        *LIST_ADD(arena, points) =
            vertex_middle(shape->extent.low, shape->extent.high);
}

/* ---- who sees whom ---- */

struct connector {
    struct arena *scratch;
    const struct ground *ground;
    const struct connect_order *order;
    signed char *seen; /* by from and to: 1 yes, -1 no, 0 not asked yet */
    struct fault fault;
};

/* A look at both ends spares most walks: where the cloth beside an end is
 * another one the line cannot stay on it. */
static bool stays_on(struct connector *c, struct vertex from, struct vertex to,
                     struct fault *fault)
{
    const int into = c->order->into;
    if (vertex_equal(from, to) || !ground_opens(c->ground, from, to, into) ||
        !ground_opens(c->ground, to, from, into))
        return false;
    const stops found = ground_walk(c->scratch, c->ground, from, to, fault);
    for (size_t i = 0; i + 1 < found.count; i++)
        if (found.items[i].right != into || found.items[i].left != into)
            return false;
    return found.count > 1;
}

/* Asked from both sides, so it is kept. */
static bool sees(struct connector *c, size_t from, size_t to)
{
    signed char *seen = &c->seen[from * c->order->to_count + to];
    if (*seen == 0) {
        struct fault fault = {0};
        *seen = stays_on(c, c->order->from[from], c->order->to[to], &fault)
                    ? 1
                    : -1;
        if (fault.kind != FAULT_NONE && c->fault.kind == FAULT_NONE)
            c->fault = (struct fault){FAULT_LIMIT, from, to};
    }
    return *seen > 0;
}

/* ---- pairs ---- */

struct candidate {
    double distance;
    size_t index;
};

static int compare_candidates(const void *left, const void *right)
{
    const struct candidate *a = left, *b = right;
    if (a->distance != b->distance)
        return a->distance > b->distance ? 1 : -1;
    return (a->index > b->index) - (a->index < b->index);
}

static double apart(struct vertex a, struct vertex b)
{
    const struct spot p = vertex_spot(a), q = vertex_spot(b);
    return hypot(q.x - p.x, q.y - p.y);
}

/* Marks, for one point, the nearest that it sees: all that are as near. `back`:
 * the point is one of `to`, and looks at `from`. */
static void mark_nearest(struct connector *c, size_t point, bool back,
                         unsigned char *marks, unsigned char mark)
{
    const struct connect_order *o = c->order;
    const size_t count = back ? o->from_count : o->to_count;
    struct candidate *near =
        ARENA_ARRAY(c->scratch, struct candidate, count + 1);
    for (size_t i = 0; i < count; i++)
        near[i] = (struct candidate){back ? apart(o->from[i], o->to[point])
                                          : apart(o->from[point], o->to[i]),
                                     i};
    qsort(near, count, sizeof *near, compare_candidates);
    double least = -1;
    for (size_t i = 0; i < count; i++) {
        const size_t from = back ? near[i].index : point;
        const size_t to = back ? point : near[i].index;
        if (least >= 0 && near[i].distance > least * (1 + 1e-9))
            break;
        if (!sees(c, from, to))
            continue;
        if (least < 0)
            least = near[i].distance;
        marks[from * o->to_count + to] |= mark;
    }
}

enum { FROM_SEES = 1, TO_SEES = 2 };

/* Marks the pairs that are asked for. ensures: which marks one must have. */
static unsigned char mark_pairs(struct connector *c, unsigned char *marks)
{
    const struct connect_order *o = c->order;
    if (o->pair == PAIR_ALL) {
        for (size_t i = 0; i < o->from_count; i++)
            for (size_t k = 0; k < o->to_count; k++)
                marks[i * o->to_count + k] = sees(c, i, k) ? FROM_SEES : 0;
        return FROM_SEES;
    }
    for (size_t i = 0; i < o->from_count; i++)
        mark_nearest(c, i, false, marks, FROM_SEES);
    if (o->pair == PAIR_NEAREST)
        return FROM_SEES;
    for (size_t k = 0; k < o->to_count; k++)
        mark_nearest(c, k, true, marks, TO_SEES);
    return FROM_SEES | TO_SEES;
}

/* ---- lines ---- */

/* A share of the way keeps the point on the exact line, whatever the share. */
static struct vertex point_on(struct vertex from, struct vertex to,
                              number share)
{
    const number x = number_mul(number_sub(to.x, from.x), share);
    const number y = number_mul(number_sub(to.y, from.y), share);
    return (struct vertex){number_add(from.x, x), number_add(from.y, y)};
}

/* Both ends moved inwards on the exact line, by the share of it that comes
 * nearest in parts so fine that one is below 1e-6. */
static bool shorten(struct vertex *from, struct vertex *to, double stop)
{
    const double length = apart(*from, *to);
    if (2 * stop >= length)
        return false;
    int64_t parts = 1;
    while ((double)parts < length * 1e6)
        parts *= 2;
    const number share = number_div(
        number_whole((int64_t)llround(stop / length * (double)parts)),
        number_whole(parts));
    const struct vertex begin = point_on(*from, *to, share);
    *to = point_on(*to, *from, share);
    *from = begin;
    return true;
}

/* A line with its whole ends in order, to find those that are told twice. */
struct whole_line {
    struct vertex low, high;
    struct connected_line line;
};

static int compare_whole(const void *left, const void *right)
{
    const struct whole_line *a = left, *b = right;
    const int order = vertex_compare(a->low, b->low);
    return order != 0 ? order : vertex_compare(a->high, b->high);
}

static int compare_connected(const void *left, const void *right)
{
    const struct whole_line *a = left, *b = right;
    if (a->line.first != b->line.first)
        return a->line.first > b->line.first ? 1 : -1;
    return (a->line.second > b->line.second) -
           (a->line.second < b->line.second);
}

typedef LIST(struct whole_line) whole_lines;

/* Both the whole ends, to tell lines apart, and where it is stitched are kept.
 */
static void add_line(struct connector *c, whole_lines *lines, size_t first,
                     size_t second)
{
    struct vertex from = c->order->from[first];
    struct vertex to = c->order->to[second];
    const bool onwards = vertex_compare(from, to) < 0;
    const struct vertex low = onwards ? from : to, high = onwards ? to : from;
    if (number_sign(c->order->stop) > 0 &&
        !shorten(&from, &to, number_double(c->order->stop)))
        return;
    if (!vertex_known(from) || !vertex_known(to)) {
        c->fault = (struct fault){FAULT_LIMIT, first, second};
        return;
    }
    *LIST_ADD(c->scratch, lines) =
        (struct whole_line){low, high, {from, to, first, second}};
}

/* In the order of the points, each line once. */
static struct connected_lines
each_once(struct arena *arena, const struct connector *c, whole_lines lines)
{
    struct connected_line *items =
        ARENA_ARRAY(arena, struct connected_line, lines.count + 1);
    size_t count = 0;
    if (lines.count > 0)
        qsort(lines.items, lines.count, sizeof *lines.items, compare_whole);
    for (size_t i = 0; i < lines.count; i++)
        if (i == 0 ||
            compare_whole(&lines.items[count - 1], &lines.items[i]) != 0)
            lines.items[count++] = lines.items[i];
    if (count > 0)
        qsort(lines.items, count, sizeof *lines.items, compare_connected);
    for (size_t i = 0; i < count; i++)
        items[i] = lines.items[i].line;
    return (struct connected_lines){items, count, c->fault};
}

struct connected_lines connect_points(struct arena *arena,
                                      const struct ground *ground,
                                      const struct connect_order *order)
{
    struct connector c = {
        .scratch = arena_create_roomy(), .ground = ground, .order = order};
    const size_t pairs = order->from_count * order->to_count;
    c.seen = ARENA_ARRAY(c.scratch, signed char, pairs + 1);
    unsigned char *marks = ARENA_ARRAY(c.scratch, unsigned char, pairs + 1);
    const unsigned char asked = mark_pairs(&c, marks);
    whole_lines lines = {0};
    for (size_t i = 0; i < pairs; i++)
        if (marks[i] == asked)
            add_line(&c, &lines, i / order->to_count, i % order->to_count);
    struct connected_lines found = each_once(arena, &c, lines);
    if (c.fault.kind != FAULT_NONE)
        found.count = 0;
    arena_destroy(c.scratch);
    return found;
}
