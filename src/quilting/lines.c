/* Lines that grow out of the piecing: straight seams that go on, and lines from
 * point to point. What is said of a place is drawn at each of its places, and
 * what comes of all of them lies on the top once. Read next: echoes.c. */
#include "connect.h"
#include "quilter.h"

#include <stdlib.h>

/* ---- extended seams ---- */

static const enum extend_until untils[] = {UNTIL_SEAM, UNTIL_LINE, UNTIL_BORDER,
                                           UNTIL_EDGE};

/* The lines of the plan that a line may end at, for all places alike. */
struct drawn {
    struct segment *lines;
    size_t count;
    struct grid *by_place;
};

static struct drawn drawn_lines(struct quilter *quilter)
{
    const size_t count = quilter->exact.count;
    struct drawn drawn = {
        ARENA_ARRAY(quilter->arena, struct segment, count + 1), count, NULL};
    struct spot_line *spots =
        ARENA_ARRAY(quilter->arena, struct spot_line, count + 1);
    for (size_t i = 0; i < count; i++) {
        drawn.lines[i] = quilter->exact.items[i].segment;
        spots[i] = (struct spot_line){vertex_spot(drawn.lines[i].from),
                                      vertex_spot(drawn.lines[i].to)};
    }
    drawn.by_place = grid_of_lines(quilter->arena, spots, count);
    return drawn;
}

/* reports: a line that comes to the edge before it meets what it should. */
static void say_open(struct quilter *quilter, const struct told_item *item,
                     const struct extended_line *line)
{
    const char *wanted = item->of.until == TOLD_UNTIL_LINE ? "line" : "seam";
    struct diagnostic *d = say_error(
        quilter, DIAG_EXTEND_OPEN, value_span(item->element, ATTR_INTO),
        "an extended line leaves the quilt and meets no %s", wanted);
    diag_note(quilter->run, d, (struct span){0, 0}, "it begins at %s",
              place_words(quilter, vertex_spot(line->from)));
    if (item->limit.written)
        diag_mend(quilter->run, d, item->limit.span, "edge",
                  "until=\"edge\" lets it run to the edge of the quilt");
    else
        diag_help(quilter->run, d,
                  "until=\"edge\" lets it run to the edge of the quilt");
}

/* reports: that no seam ends where it could go on. */
static void say_nothing_to_extend(struct quilter *quilter,
                                  const struct told_item *item)
{
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_SEAM, value_span(item->element, ATTR_INTO),
                  "no such seam ends at open cloth of `%s`",
                  fabric_id(quilter->sized->design, item->into));
    diag_note(quilter->run, d, (struct span){0, 0},
              "a seam is extended where it ends, and the cloth straight on is "
              "that of `into` on both sides");
}

/* Adds what seams between two fabrics give in one place. ensures: false where
 * that is not all told. */
static bool extend_between(struct quilter *quilter,
                           const struct told_item *item,
                           const struct placement *placement,
                           const int fabrics[2], const struct drawn *drawn,
                           segment_list *lines)
{
    const struct extend_order order = {.within = placement->extent,
                                       .outline = item->outline,
                                       .one = fabrics[0],
                                       .other = fabrics[1],
                                       .into = item->into,
                                       .until = untils[item->of.until],
                                       .center = quilter->levels[0],
                                       .lines = drawn->lines,
                                       .line_count = drawn->count,
                                       .by_place = drawn->by_place};
    const struct extended_lines found =
        extend_seams(quilter->arena, quilter->ground, &quilter->seams, &order);
    if (say_fault(quilter, item, found.fault))
        return false;
    if (found.lost != SIZE_MAX) {
        say_open(quilter, item, &found.items[found.lost]);
        return false;
    }
    for (size_t i = 0; i < found.count; i++)
        if (place_holds(quilter, &item->place, placement,
                        vertex_spot(found.items[i].from)))
            *LIST_ADD(quilter->arena, lines) =
                (struct segment){found.items[i].from, found.items[i].to};
    return true;
}

/* Two fabrics that a seam lies between, each pair once. */
struct fabric_pair {
    int fabrics[2];
};
typedef LIST(struct fabric_pair) pair_list;

/* In the order of their numbers, so that a pair is the same either way round.
 */
static void add_pair(struct arena *arena, pair_list *pairs, int a, int b)
{
    const struct fabric_pair pair = {{a < b ? a : b, a < b ? b : a}};
    for (size_t i = 0; i < pairs->count; i++)
        if (pairs->items[i].fabrics[0] == pair.fabrics[0] &&
            pairs->items[i].fabrics[1] == pair.fabrics[1])
            return;
    *LIST_ADD(arena, pairs) = pair;
}

/* Those that are told; of an outline, any; else all that there are. */
static pair_list pairs_of(struct quilter *quilter, const struct told_item *item)
{
    pair_list pairs = {0};
    if (item->outline || item->between[0] != NO_FABRIC) {
        *LIST_ADD(quilter->arena, &pairs) =
            (struct fabric_pair){{item->between[0], item->between[1]}};
        return pairs;
    }
    const int fabric = item->place.fabric;
    for (size_t i = 0; i < quilter->seams.count; i++)
        for (size_t k = 0; k < quilter->seams.items[i].count; k++) {
            const struct seam_part *part = &quilter->seams.items[i].parts[k];
            if (fabric == NO_FABRIC || part->left == fabric ||
                part->right == fabric)
                add_pair(quilter->arena, &pairs, part->left, part->right);
        }
    return pairs;
}

/* Each place and pair of fabrics is asked for itself; lines that meet in one
 * line are put together behind that, as two blocks may send them towards each
 * other. */
void draw_extended(struct quilter *quilter, const struct told_item *item)
{
    const placement_list places = places_of(quilter, &item->place);
    segment_list lines = {0};
    const pair_list pairs = pairs_of(quilter, item);
    const struct drawn drawn = item->of.until == TOLD_UNTIL_LINE
                                   ? drawn_lines(quilter)
                                   : (struct drawn){NULL, 0, NULL};
    for (size_t i = 0; i < places.count; i++)
        for (size_t k = 0; k < pairs.count; k++)
            if (!extend_between(quilter, item, &places.items[i],
                                pairs.items[k].fabrics, &drawn, &lines))
                return;
    if (lines.count == 0 && places.count > 0)
        say_nothing_to_extend(quilter, item);
    unite_segments(quilter->arena, &lines);
    lines = uncovered(quilter, &lines);
    for (size_t i = 0; i < lines.count; i++)
        add_exact_line(quilter, item, STAGE_LINES, lines.items[i]);
}

/* ---- point to point ---- */

/* Which corners, middles or center geometry is asked for; 0 for what no shape
 * has. */
static unsigned shape_kinds(enum point_kind kind)
{
    switch (kind) {
    case POINT_CORNERS:
        return POINTS_CORNERS;
    case POINT_OUTER_CORNERS:
        return POINTS_OUTER_CORNERS;
    case POINT_INNER_CORNERS:
        return POINTS_INNER_CORNERS;
    case POINT_MIDDLES:
        return POINTS_MIDDLES;
    case POINT_CENTER:
        return POINTS_CENTER;
    case POINT_SEAM_ENDS:
    case POINT_LINE_ENDS:
        break;
    }
    return 0;
}

/* The extent of a place as a shape, where no fabric is told. */
static struct shape extent_shape(struct arena *arena, struct extent extent)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, EXTENT_CORNERS);
    extent_corners(extent, points);
    struct shape_ring *ring = ARENA_NEW(arena, struct shape_ring);
    *ring = (struct shape_ring){points, EXTENT_CORNERS};
    return (struct shape){
        .fabric = NO_FABRIC, .rings = ring, .count = 1, .extent = extent};
}

/* Points of the shapes in one place. */
static bool add_points_of_shapes(struct quilter *quilter,
                                 const struct told_item *item,
                                 const struct quilting_place *place,
                                 struct extent extent, enum point_kind kind,
                                 vertices *points)
{
    if (place->fabric == NO_FABRIC) {
        const struct shape whole = extent_shape(quilter->arena, extent);
        add_shape_points(quilter->arena, &whole, shape_kinds(kind), points);
        return true;
    }
    const struct shapes shapes =
        find_shapes(quilter->arena, quilter->ground, extent, place->fabric);
    if (say_fault(quilter, item, shapes.fault))
        return false;
    for (size_t i = 0; i < shapes.count; i++)
        add_shape_points(quilter->arena, &shapes.items[i], shape_kinds(kind),
                         points);
    return true;
}

/* Ends of the lines that seams were extended to. */
static void add_line_ends(struct quilter *quilter, struct extent extent,
                          vertices *points)
{
    for (size_t i = 0; i < quilter->exact.count; i++) {
        const struct exact_line *line = &quilter->exact.items[i];
        if (quilter->plan->lines.items[line->line].item->kind != TOLD_EXTEND)
            continue;
        const struct vertex ends[2] = {line->segment.from, line->segment.to};
        for (int k = 0; k < 2; k++)
            if (extent_has(extent, vertex_spot(ends[k])))
                *LIST_ADD(quilter->arena, points) = ends[k];
    }
}

/* Adds the points of one place. ensures: false where there was a fault. */
static bool add_points(struct quilter *quilter, const struct told_item *item,
                       const struct quilting_place *place,
                       const struct placement *placement, enum point_kind kind,
                       vertices *points)
{
    if (kind == POINT_LINE_ENDS) {
        add_line_ends(quilter, placement->extent, points);
        return true;
    }
    if (kind != POINT_SEAM_ENDS)
        return add_points_of_shapes(quilter, item, place, placement->extent,
                                    kind, points);
    const struct seam_ends ends =
        find_seam_ends(quilter->arena, quilter->ground, &quilter->seams,
                       placement->extent, item->into);
    if (say_fault(quilter, item, ends.fault))
        return false;
    for (size_t i = 0; i < ends.count; i++)
        *LIST_ADD(quilter->arena, points) = ends.items[i];
    return true;
}

/* By x, then by y. */
static int compare_points(const void *first, const void *second)
{
    return vertex_compare(*(const struct vertex *)first,
                          *(const struct vertex *)second);
}

/* All points of that kind, each once. */
static bool gather(struct quilter *quilter, const struct told_item *item,
                   const struct quilting_place *place, enum point_kind kind,
                   vertices *points)
{
    const placement_list places = places_of(quilter, place);
    vertices all = {0};
    for (size_t i = 0; i < places.count; i++) {
        const size_t before = all.count;
        if (!add_points(quilter, item, place, &places.items[i], kind, &all))
            return false;
        size_t kept = before;
        for (size_t k = before; k < all.count; k++)
            if (place_holds(quilter, place, &places.items[i],
                            vertex_spot(all.items[k])))
                all.items[kept++] = all.items[k];
        all.count = kept;
    }
    if (all.count > 1)
        qsort(all.items, all.count, sizeof *all.items, compare_points);
    for (size_t i = 0; i < all.count; i++)
        if (i == 0 || !vertex_equal(all.items[i - 1], all.items[i]))
            *LIST_ADD(quilter->arena, points) = all.items[i];
    return places.count > 0;
}

static const char *const point_words[] = {
    "corners", "outer-corners", "inner-corners", "seam-ends",
    "middles", "center",        "line-ends"};
enum { POINT_KINDS = sizeof point_words / sizeof point_words[0] };

/* Which other kinds of points there are in the same place. */
static void help_points(struct quilter *quilter, struct diagnostic *d,
                        const struct told_item *item, bool from)
{
    const struct quilting_place *place =
        from ? &item->place : &item->of.connect.with;
    for (int i = 0; i < POINT_KINDS; i++) {
        vertices points = {0};
        if (!gather(quilter, item, place, (enum point_kind)i, &points) ||
            points.count == 0)
            continue;
        diag_mend(quilter->run, d,
                  value_span(item->element, from ? ATTR_FROM : ATTR_TO),
                  point_words[i], "%s=\"%s\" has %zu there",
                  from ? "from" : "to", point_words[i], points.count);
        return;
    }
}

/* Over which fabric some of the points do see each other. */
static void help_sight(struct quilter *quilter, struct diagnostic *d,
                       const struct told_item *item,
                       const struct connect_order *asked)
{
    const struct design *design = quilter->sized->design;
    struct connect_order order = *asked;
    for (size_t i = 0; i < design->fabrics.count; i++) {
        order.into = (int)i;
        const struct connected_lines found =
            connect_points(quilter->arena, quilter->ground, &order);
        if (found.fault.kind != FAULT_NONE || found.count == 0)
            continue;
        diag_mend(quilter->run, d, value_span(item->element, ATTR_INTO),
                  fabric_id(design, (int)i),
                  "into=\"%s\" has %zu lines between them",
                  fabric_id(design, (int)i), found.count);
        return;
    }
}

/* reports: no points of a kind, or none that see each other. */
static void say_no_points(struct quilter *quilter, const struct told_item *item,
                          const struct connect_order *order)
{
    const size_t from = order->from_count, to = order->to_count;
    if (from == 0 || to == 0) {
        struct diagnostic *d = say_error(
            quilter, DIAG_NO_POINTS,
            value_span(item->element, from == 0 ? ATTR_FROM : ATTR_TO),
            "there are no %s there",
            point_words[from == 0 ? item->of.connect.from
                                  : item->of.connect.to]);
        diag_note(quilter->run, d, (struct span){0, 0},
                  "points are looked for at each place of `of`");
        help_points(quilter, d, item, from == 0);
        return;
    }
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_POINTS, value_span(item->element, ATTR_INTO),
                  "no two of these points see each other over cloth of `%s`",
                  fabric_id(quilter->sized->design, item->into));
    diag_note(quilter->run, d, (struct span){0, 0},
              "%zu points and %zu points; a line may not leave the cloth, nor "
              "run along its rim",
              from, to);
    help_sight(quilter, d, item, order);
}

/* The same word in geometry. */
static enum connect_pair pair_of(enum told_pair pair)
{
    return pair == TOLD_NEAREST ? PAIR_NEAREST
           : pair == TOLD_ALL   ? PAIR_ALL
                                : PAIR_FACING;
}

/* Points of all places are looked at together: a line may lead from one block
 * to the next. Those of an area are kept where their middle lies in one that
 * it took. */
static bool same_points(const vertices *one, const vertices *other)
{
    size_t i = 0;
    while (i < one->count && i < other->count &&
           vertex_equal(one->items[i], other->items[i]))
        i++;
    return i == one->count && i == other->count;
}

void draw_connected(struct quilter *quilter, const struct told_item *item)
{
    vertices from = {0}, to = {0};
    if (!gather(quilter, item, &item->place, item->of.connect.from, &from) ||
        !gather(quilter, item, &item->of.connect.with, item->of.connect.to,
                &to))
        return;
    /* Among its own corners each pair is asked once. */
    const bool same = same_points(&from, &to);
    const struct connect_order order = {.from = from.items,
                                        .from_count = from.count,
                                        .to = same ? from.items : to.items,
                                        .to_count = to.count,
                                        .into = item->into,
                                        .pair = pair_of(item->of.connect.pair),
                                        .stop = item->of.connect.stop};
    const struct connected_lines found =
        connect_points(quilter->arena, quilter->ground, &order);
    if (say_fault(quilter, item, found.fault))
        return;
    segment_list lines = {0};
    for (size_t i = 0; i < found.count; i++)
        *LIST_ADD(quilter->arena, &lines) =
            (struct segment){found.items[i].from, found.items[i].to};
    if (lines.count == 0)
        say_no_points(quilter, item, &order);
    unite_segments(quilter->arena, &lines);
    lines = uncovered(quilter, &lines);
    for (size_t i = 0; i < lines.count; i++) {
        const struct spot middle =
            vertex_spot(vertex_middle(lines.items[i].from, lines.items[i].to));
        const size_t area =
            item->area == NO_ITEM
                ? QUILTING_NONE
                : area_taken(quilter, &quilter->told->items.items[item->area],
                             middle);
        if (item->area != NO_ITEM && area == QUILTING_NONE)
            continue;
        add_exact_line(quilter, item,
                       item->area == NO_ITEM ? STAGE_LINES : STAGE_FILLERS,
                       lines.items[i]);
        quilter->plan->lines.items[quilter->plan->lines.count - 1].area = area;
    }
    too_many_lines(quilter, item);
}
