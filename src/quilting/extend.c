/* Lines that grow out of seams. Where one begins is told by the straight seams
 * (seams.c), where it ends by a walk over the top from stop to stop (ground.c):
 * the first stop that is what was asked for. All places are exact.
 *
 * Lines that come towards each other over one cloth lie in one line or they do
 * not; so those of one order are sorted by their lines at the end, and what
 * touches in one line becomes one line. Read next: connect.c. */
#include "extend.h"

#include <stdlib.h>

struct extender {
    struct arena *arena;
    const struct ground *ground;
    const struct straight_seams *seams;
    const struct extend_order *order;
    LIST(struct extended_line) lines;
    struct fault fault;
    size_t lost; /* of `lines` */
};

/* ---- where a line begins ---- */

/* The end of a straight seam and the part that ends there. */
struct seam_end {
    size_t seam;
    const struct seam_part *part;
    struct vertex at;
    struct vertex beyond; /* a point straight on */
};

/* A point straight on is the last one seen from the end, as in a mirror: exact,
 * and no root. */
static struct vertex mirrored(struct vertex v, struct vertex center)
{
    const struct vertex by = {number_sub(center.x, v.x),
                              number_sub(center.y, v.y)};
    return (struct vertex){number_add(center.x, by.x),
                           number_add(center.y, by.y)};
}

/* The part that ends there decides whether the seam is asked for. */
static struct seam_end end_of_seam(const struct straight_seams *seams,
                                   size_t index, bool last)
{
    const struct straight_seam *seam = &seams->items[index];
    const struct seam_part *part = &seam->parts[last ? seam->count - 1 : 0];
    const struct vertex at = last ? seam->to : seam->from;
    const struct vertex before = last ? part->from : part->to;
    return (struct seam_end){index, part, at, mirrored(before, at)};
}

/* The end must lie in the place, and the part must run there, not only touch
 * it: a seam of the next block ends at the same corner. */
static bool asked_for(const struct extend_order *order,
                      const struct seam_end *end)
{
    struct segment inside;
    const struct segment part = {end->part->from, end->part->to};
    if (!extent_holds(order->within, end->at) ||
        !segment_within(part, order->within, &inside))
        return false;
    return order->outline ? extent_along(order->within, part.from, part.to)
                          : seam_between(end->part, order->one, order->other);
}

static bool opens(const struct ground *ground, const struct seam_end *end,
                  int into)
{
    return vertex_known(end->beyond) &&
           ground_opens(ground, end->at, end->beyond, into);
}

/* ---- where it ends ---- */

/* Both lie on one line through `from`, on the same side of it. */
static bool nearer(struct vertex from, struct vertex one, struct vertex other)
{
    const int way = vertex_compare(one, from);
    const int order = vertex_compare(one, other);
    return way > 0 ? order < 0 : order > 0;
}

/* Shortens the way to the first of the lines that were told before. */
static bool cut_by_lines(struct extender *x, struct segment *way)
{
    const struct straight line = straight_through(way->from, way->to);
    bool cut = false;
    const struct spot_line whole = {vertex_spot(way->from),
                                    vertex_spot(way->to)};
    size_t count = x->order->line_count;
    const size_t *about = NULL;
    if (x->order->by_place != NULL)
        count = grid_along(x->order->by_place, whole, &about);
    for (size_t i = 0; i < count; i++) {
        const struct segment other =
            x->order->lines[about == NULL ? i : about[i]];
        const struct spot_line a = {vertex_spot(way->from),
                                    vertex_spot(way->to)};
        const struct spot_line b = {vertex_spot(other.from),
                                    vertex_spot(other.to)};
        if (clearly_beside(a, b) || clearly_beside(b, a))
            continue;
        const struct straight across = straight_through(other.from, other.to);
        if (straight_compare_direction(line, across) == 0)
            continue;
        const struct vertex v = straight_meet(line, across);
        const int here = vertex_compare(v, way->from);
        const number at = straight_place(across, v);
        const int begun =
            number_compare(at, straight_place(across, other.from));
        const int ended = number_compare(at, straight_place(across, other.to));
        if (here != 0 && here == vertex_compare(way->to, way->from) &&
            begun * ended <= 0 && !nearer(way->from, way->to, v)) {
            way->to = v;
            cut = true;
        }
    }
    return cut;
}

/* The farthest that the line may come, and what it then has come to. */
static struct segment farthest(struct extender *x, const struct seam_end *end,
                               enum extended_to *to)
{
    const struct extend_order *order = x->order;
    struct segment way = {end->at,
                          extent_exit(x->ground->extent, end->at, end->beyond)};
    *to = EXTENDED_EDGE;
    if (order->until == UNTIL_BORDER && extent_holds(order->center, end->at)) {
        way.to = extent_exit(order->center, end->at, end->beyond);
        *to = EXTENDED_BORDER;
    }
    if (order->until == UNTIL_LINE && vertex_known(way.to) &&
        !vertex_equal(way.from, way.to) && cut_by_lines(x, &way))
        *to = EXTENDED_LINE;
    return way;
}

/* Does the line end at this stop? */
static bool closes_way(const struct extender *x, const struct stop *stop)
{
    return stop->right != x->order->into || stop->left != x->order->into ||
           x->order->until == UNTIL_SEAM;
}

/* The first stop behind the beginning that ends the line; the last one where
 * none does. */
static size_t closing_stop(const struct extender *x, const stops *found)
{
    size_t i = 1;
    while (i + 1 < found->count && !closes_way(x, &found->items[i]))
        i++;
    return i;
}

/* Most lines end after a short way, and a walk takes time by its length: so a
 * sixteenth of the way is walked first, then twice as much, and so on. */
static stops walk_until_closed(struct extender *x, struct segment way)
{
    enum { HALVES = 4 };
    struct vertex ends[HALVES];
    for (int i = 0; i < HALVES; i++)
        ends[i] = vertex_middle(way.from, i == 0 ? way.to : ends[i - 1]);
    for (int i = HALVES - 1; i >= 0; i--) {
        struct fault fault = {0};
        if (!vertex_known(ends[i]))
            continue;
        const stops found =
            ground_walk(x->arena, x->ground, way.from, ends[i], &fault);
        if (fault.kind == FAULT_NONE &&
            closing_stop(x, &found) + 1 < found.count)
            return found;
    }
    return ground_walk(x->arena, x->ground, way.from, way.to, &x->fault);
}

/* The walk goes as far as it may; the first stop that closes the way ends it.
 */
static void extend_end(struct extender *x, const struct seam_end *end)
{
    enum extended_to to;
    const int into = x->order->into;
    const struct segment way = farthest(x, end, &to);
    if (!vertex_known(way.to)) {
        x->fault =
            (struct fault){FAULT_LIMIT, end->part->seam, end->part->seam};
        return;
    }
    if (vertex_equal(way.from, way.to))
        return;
    const stops found = walk_until_closed(x, way);
    if (found.count == 0 || found.items[0].right != into ||
        found.items[0].left != into)
        return;
    const size_t i = closing_stop(x, &found);
    if (i + 1 < found.count)
        to = x->order->until == UNTIL_SEAM ? EXTENDED_SEAM : EXTENDED_CLOTH;
    if ((x->order->until == UNTIL_SEAM || x->order->until == UNTIL_LINE) &&
        to == EXTENDED_EDGE && x->lost == SIZE_MAX)
        x->lost = x->lines.count;
    *LIST_ADD(x->arena, &x->lines) =
        (struct extended_line){.from = way.from,
                               .to = found.items[i].at,
                               .seam = end->seam,
                               .end = to};
}

/* ---- lines that meet in one line ---- */

struct sorted_line {
    struct straight line;
    struct vertex low, high;
    size_t index;
};

static int compare_sorted(const void *left, const void *right)
{
    const struct sorted_line *a = left, *b = right;
    int order = straight_compare(a->line, b->line);
    if (order == 0)
        order = vertex_compare(a->low, b->low);
    return order != 0 ? order : (a->index > b->index) - (a->index < b->index);
}

/* Line by line, so that what meets in one line lies side by side. */
static struct sorted_line *sort_lines(struct extender *x)
{
    struct sorted_line *sorted =
        ARENA_ARRAY(x->arena, struct sorted_line, x->lines.count + 1);
    for (size_t i = 0; i < x->lines.count; i++) {
        const struct extended_line *l = &x->lines.items[i];
        const bool onwards = vertex_compare(l->from, l->to) < 0;
        sorted[i] = (struct sorted_line){straight_through(l->from, l->to),
                                         onwards ? l->from : l->to,
                                         onwards ? l->to : l->from, i};
    }
    qsort(sorted, x->lines.count, sizeof *sorted, compare_sorted);
    return sorted;
}

/* `line` takes in another that touches or covers it and does not begin before
 * it. One that comes from the other side begins at a seam, too. */
static void take_in(struct extended_line *line, struct sorted_line *whole,
                    const struct sorted_line *other,
                    const struct extended_line *its)
{
    const bool onwards = vertex_compare(line->from, line->to) < 0;
    const bool same_way = onwards == (vertex_compare(its->from, its->to) < 0);
    const bool longer = vertex_compare(whole->high, other->high) < 0;
    if (!same_way) {
        line->met = true;
        line->end = EXTENDED_SEAM;
    } else if (onwards && longer) {
        line->end = its->end;
    }
    if (longer)
        whole->high = other->high;
    line->from = onwards ? whole->low : whole->high;
    line->to = onwards ? whole->high : whole->low;
}

/* ensures: the lines, each once, and the first that was lost among them. */
static struct extended_lines join_lines(struct extender *x)
{
    struct extended_lines joined = {.lost = SIZE_MAX, .fault = x->fault};
    struct sorted_line *sorted = sort_lines(x);
    struct extended_line *items =
        ARENA_ARRAY(x->arena, struct extended_line, x->lines.count + 1);
    struct sorted_line whole = {.index = 0};
    for (size_t i = 0; i < x->lines.count; i++) {
        const struct extended_line *its = &x->lines.items[sorted[i].index];
        const bool first =
            i == 0 || !straight_equal(sorted[i - 1].line, sorted[i].line) ||
            vertex_compare(whole.high, sorted[i].low) < 0;
        if (first) {
            items[joined.count++] = *its;
            whole = sorted[i];
        } else {
            take_in(&items[joined.count - 1], &whole, &sorted[i], its);
        }
        if (sorted[i].index == x->lost)
            joined.lost = joined.count - 1;
    }
    joined.items = items;
    return joined;
}

struct extended_lines extend_seams(struct arena *arena,
                                   const struct ground *ground,
                                   const struct straight_seams *seams,
                                   const struct extend_order *order)
{
    struct extender x = {.arena = arena,
                         .ground = ground,
                         .seams = seams,
                         .order = order,
                         .lost = SIZE_MAX};
    size_t count;
    const size_t *ends = ends_about(arena, seams, order->within, &count);
    for (size_t i = 0; i < count; i++) {
        const struct seam_end end =
            end_of_seam(seams, ends[i] / 2, ends[i] % 2 == 1);
        if (asked_for(order, &end) && opens(ground, &end, order->into))
            extend_end(&x, &end);
        if (x.fault.kind != FAULT_NONE)
            return (struct extended_lines){.lost = SIZE_MAX, .fault = x.fault};
    }
    return join_lines(&x);
}

static int compare_vertices(const void *left, const void *right)
{
    return vertex_compare(*(const struct vertex *)left,
                          *(const struct vertex *)right);
}

struct seam_ends find_seam_ends(struct arena *arena,
                                const struct ground *ground,
                                const struct straight_seams *seams,
                                struct extent within, int into)
{
    LIST(struct vertex) found = {0};
    size_t all;
    const size_t *ends = ends_about(arena, seams, within, &all);
    for (size_t i = 0; i < all; i++) {
        const struct seam_end end =
            end_of_seam(seams, ends[i] / 2, ends[i] % 2 == 1);
        if (extent_holds(within, end.at) && opens(ground, &end, into))
            *LIST_ADD(arena, &found) = end.at;
    }
    if (found.count > 0)
        qsort(found.items, found.count, sizeof *found.items, compare_vertices);
    size_t count = 0;
    for (size_t i = 0; i < found.count; i++)
        if (count == 0 || !vertex_equal(found.items[count - 1], found.items[i]))
            found.items[count++] = found.items[i];
    return (struct seam_ends){found.items, count, seams->fault};
}
