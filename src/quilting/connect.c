/* Lines from point to point. What cloth beside a point hides is left out at
 * once (sight.c), the others are tried from the nearest on, so that few lines
 * are walked; whether one stays on its cloth is exact. */
#include "connect.h"
#include "sight.h"

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

/* Points by place, with what each of them sees. */
struct point_set {
    const struct view *views;
    size_t count;
    struct grid *by_place;
};

struct connector {
    struct arena *scratch;
    const struct ground *ground;
    const struct connect_order *order;
    struct sight sight;
    struct point_set from, to;
    size_t asked, walked; /* pairs, and stretches of the ways between them */
    struct fault fault;
};

/* A look at both ends spares most walks: where the cloth beside an end is
 * another one the line cannot stay on it. */
static bool stays_on(struct connector *c, struct arena *scratch,
                     struct vertex from, struct vertex to, struct fault *fault)
{
    const int into = c->order->into;
    if (vertex_equal(from, to) || !ground_opens(c->ground, from, to, into) ||
        !ground_opens(c->ground, to, from, into))
        return false;
    const stops found = ground_walk(scratch, c->ground, from, to, fault);
    c->walked += found.count + 1;
    for (size_t i = 0; i + 1 < found.count; i++)
        if (found.items[i].right != into || found.items[i].left != into)
            return false;
    return found.count > 1;
}

/* Counted on the way, as nobody knows beforehand how many lines stay on their
 * cloth: lines over half the quilt cost more than those from patch to patch. */
static bool goes_on(struct connector *c)
{
    if (c->fault.kind == FAULT_NONE &&
        (c->asked > CONNECT_PAIRS || c->walked > CONNECT_WALKED))
        c->fault.kind = FAULT_LIMIT;
    return c->fault.kind == FAULT_NONE;
}

static bool sees(struct connector *c, size_t from, size_t to)
{
    struct fault fault = {0};
    struct arena *scratch = arena_create();
    const bool stays =
        stays_on(c, scratch, c->order->from[from], c->order->to[to], &fault);
    arena_destroy(scratch);
    if (fault.kind != FAULT_NONE && c->fault.kind == FAULT_NONE)
        c->fault = (struct fault){FAULT_LIMIT, from, to};
    return stays;
}

/* ---- pairs ---- */

static double apart(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

struct candidate {
    double distance;
    size_t index;
};
typedef LIST(struct candidate) candidate_list;

static int compare_candidates(const void *left, const void *right)
{
    const struct candidate *a = left, *b = right;
    if (a->distance != b->distance)
        return a->distance > b->distance ? 1 : -1;
    return (a->index > b->index) - (a->index < b->index);
}

struct pair {
    size_t from, to;
};
typedef LIST(struct pair) pair_list;

static int compare_pairs(const void *left, const void *right)
{
    const struct pair *a = left, *b = right;
    if (a->from != b->from)
        return a->from > b->from ? 1 : -1;
    return (a->to > b->to) - (a->to < b->to);
}

/* Of the points in a ring about this one, those that are not hidden from it,
 * the nearest first. */
static candidate_list look_around(struct connector *c, struct arena *scratch,
                                  const struct view *view,
                                  struct point_set points, double within,
                                  double without)
{
    const struct spot at = view->at;
    const struct spot_line box = {{at.x - within, at.y - within},
                                  {at.x + within, at.y + within}};
    const size_t *near;
    const size_t count = grid_within(points.by_place, box, &near);
    candidate_list found = {0};
    c->asked += count;
    for (size_t i = 0; i < count; i++) {
        const struct view *other = &points.views[near[i]];
        const double distance = apart(at, other->at);
        if (distance > without && distance <= within &&
            !are_hidden(view, other))
            *LIST_ADD(scratch, &found) = (struct candidate){distance, near[i]};
    }
    if (found.count > 1)
        qsort(found.items, found.count, sizeof *found.items,
              compare_candidates);
    return found;
}

/* Adds those of one ring that the point sees and that are as near as `*least`,
 * the first of them (below 0: none yet). `back`: the point is one of `to`, and
 * looks at `from`. */
static void add_seen(struct connector *c, candidate_list near, size_t point,
                     bool back, double *least, pair_list *pairs)
{
    for (size_t i = 0; i < near.count && goes_on(c); i++) {
        const struct candidate *it = &near.items[i];
        const struct pair pair = {back ? it->index : point,
                                  back ? point : it->index};
        if (*least >= 0 && it->distance > *least * (1 + 1e-9))
            break;
        if (!sees(c, pair.from, pair.to))
            continue;
        if (*least < 0)
            *least = it->distance;
        *LIST_ADD(c->scratch, pairs) = pair;
    }
}

/* Adds, for one point, the nearest that it sees: all that are as near. Most are
 * near, so rings about the point are asked, each twice as wide. */
static void add_nearest(struct connector *c, size_t point, bool back,
                        pair_list *pairs)
{
    struct arena *scratch = arena_create();
    const struct point_set to = back ? c->from : c->to;
    const struct view *view = &(back ? c->to : c->from).views[point];
    const struct spot_line top = extent_box(c->ground->extent);
    const double across = apart(top.from, top.to) + 1;
    double without = -1, within = c->sight.reach, least = -1;
    while (goes_on(c) && without < across &&
           (least < 0 || without <= least * (1 + 1e-9))) {
        add_seen(c, look_around(c, scratch, view, to, within, without), point,
                 back, &least, pairs);
        without = within;
        within *= 2;
    }
    arena_destroy(scratch);
}

/* Adds, for one of `from`, all that it sees. Of two lists that are one list,
 * each pair is asked once. */
static void add_all(struct connector *c, size_t point, pair_list *pairs)
{
    const bool same = c->order->from == c->order->to;
    const size_t first = same ? point + 1 : 0;
    c->asked += c->to.count - first;
    for (size_t i = first; i < c->to.count && goes_on(c); i++)
        if (!are_hidden(&c->from.views[point], &c->to.views[i]) &&
            sees(c, point, i))
            *LIST_ADD(c->scratch, pairs) = (struct pair){point, i};
}

/* What stands in both lists, in its order. */
static void keep_common(pair_list *pairs, pair_list *others)
{
    size_t kept = 0, k = 0;
    if (pairs->count > 0)
        qsort(pairs->items, pairs->count, sizeof *pairs->items, compare_pairs);
    if (others->count > 0)
        qsort(others->items, others->count, sizeof *others->items,
              compare_pairs);
    for (size_t i = 0; i < pairs->count; i++) {
        while (k < others->count &&
               compare_pairs(&others->items[k], &pairs->items[i]) < 0)
            k++;
        if (k < others->count &&
            compare_pairs(&others->items[k], &pairs->items[i]) == 0)
            pairs->items[kept++] = pairs->items[i];
    }
    pairs->count = kept;
}

static pair_list find_pairs(struct connector *c)
{
    const struct connect_order *o = c->order;
    pair_list pairs = {0}, back = {0};
    for (size_t i = 0; i < o->from_count && goes_on(c); i++) {
        if (o->pair == PAIR_ALL)
            add_all(c, i, &pairs);
        else
            add_nearest(c, i, false, &pairs);
    }
    for (size_t i = 0; i < o->to_count && o->pair == PAIR_FACING && goes_on(c);
         i++)
        add_nearest(c, i, true, &back);
    if (o->pair == PAIR_FACING)
        keep_common(&pairs, &back);
    else if (pairs.count > 0)
        qsort(pairs.items, pairs.count, sizeof *pairs.items, compare_pairs);
    return pairs;
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
    const double length = apart(vertex_spot(*from), vertex_spot(*to));
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

static struct point_set points_of(struct connector *c,
                                  const struct vertex *points, size_t count)
{
    struct view *views = ARENA_ARRAY(c->scratch, struct view, count + 1);
    struct spot_line *boxes =
        ARENA_ARRAY(c->scratch, struct spot_line, count + 1);
    for (size_t i = 0; i < count; i++) {
        views[i] = view_from(c->scratch, &c->sight, vertex_spot(points[i]));
        boxes[i] = (struct spot_line){views[i].at, views[i].at};
    }
    return (struct point_set){views, count,
                              grid_of_boxes(c->scratch, boxes, count)};
}

struct connected_lines connect_points(struct arena *arena,
                                      const struct ground *ground,
                                      const struct connect_order *order)
{
    struct connector c = {
        .scratch = arena_create(), .ground = ground, .order = order};
    if (order->pair == PAIR_ALL &&
        order->from_count * order->to_count / 2 > CONNECT_PAIRS) {
        arena_destroy(c.scratch);
        return (struct connected_lines){.fault = {FAULT_LIMIT, 0, 0}};
    }
    c.sight = sight_over(c.scratch, ground, order->into);
    c.from = points_of(&c, order->from, order->from_count);
    c.to = order->to == order->from ? c.from
                                    : points_of(&c, order->to, order->to_count);
    const pair_list pairs = find_pairs(&c);
    whole_lines lines = {0};
    for (size_t i = 0; i < pairs.count; i++)
        add_line(&c, &lines, pairs.items[i].from, pairs.items[i].to);
    struct connected_lines found = each_once(arena, &c, lines);
    if (c.fault.kind != FAULT_NONE)
        found.count = 0;
    arena_destroy(c.scratch);
    return found;
}
