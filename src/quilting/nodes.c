/* Stretches are looked up in buckets, each is cut where another comes to it,
 * and the ends of what is left are joined by a table of small squares. Read
 * next: paths.c. */
#include "nodes.h"

#include <math.h>
#include <stdlib.h>

/* Ends within it are one point. */
static const double NEAR = 1e-6;

/* A stretch before it is cut. */
struct strand {
    struct spot_line at;
    size_t line;
    bool ditch;
};
typedef LIST(struct strand) strand_list;

/* ---- what there is ---- */

/* A line closes with a stretch of its own. */
static void add_line_strands(struct quilter *quilter, struct arena *arena,
                             strand_list *strands)
{
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        const size_t pieces = line->count - (line->closed ? 0 : 1);
        for (size_t k = 0; k < pieces; k++)
            *LIST_ADD(arena, strands) = (struct strand){
                {line->points[k], line->points[(k + 1) % line->count]},
                i,
                line->stage == STAGE_DITCH && !line->seam_open};
    }
}

/* Seams that nothing is stitched in; those pressed open are no way. */
static void add_seam_strands(struct quilter *quilter, struct arena *arena,
                             strand_list *strands)
{
    segment_list parts = {0};
    for (size_t i = 0; i < quilter->seams.count; i++)
        for (size_t k = 0; k < quilter->seams.items[i].count; k++) {
            const struct seam_part *part = &quilter->seams.items[i].parts[k];
            if (part->x != 0 || part->y != 0)
                *LIST_ADD(arena, &parts) =
                    (struct segment){part->from, part->to};
        }
    const segment_list rest = uncovered(quilter, &parts);
    for (size_t i = 0; i < rest.count; i++)
        *LIST_ADD(arena, strands) = (struct strand){
            {vertex_spot(rest.items[i].from), vertex_spot(rest.items[i].to)},
            QUILTING_NONE,
            true};
}

/* ---- cuts ---- */

/* Where a stretch is cut, as a share of it. */
typedef LIST(double) share_list;

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* ensures: the share at which the spot lies on the stretch; below 0 where it
 * does not. */
static double share_on(struct spot_line s, struct spot at)
{
    const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y;
    const double length = dx * dx + dy * dy;
    const double t = ((at.x - s.from.x) * dx + (at.y - s.from.y) * dy) / length;
    const struct spot foot = {s.from.x + t * dx, s.from.y + t * dy};
    const double ends = NEAR / sqrt(length);
    return t > -ends && t < 1 + ends && span_of(foot, at) < NEAR
               ? fmin(1, fmax(0, t))
               : -1;
}

/* Where ends of the other touch it, they cut it; else where the two cross.
 * Lines that run in one line cut each other at their ends. */
static void add_cuts(struct arena *arena, share_list *cuts, struct spot_line s,
                     struct spot_line other)
{
    const double first = share_on(s, other.from);
    const double second = share_on(s, other.to);
    if (first >= 0)
        *LIST_ADD(arena, cuts) = first;
    if (second >= 0)
        *LIST_ADD(arena, cuts) = second;
    if (first >= 0 || second >= 0)
        return;
    const double rx = s.to.x - s.from.x, ry = s.to.y - s.from.y;
    const double ox = other.to.x - other.from.x;
    const double oy = other.to.y - other.from.y;
    const double det = rx * oy - ry * ox;
    if (fabs(det) < 1e-12)
        return;
    const double px = other.from.x - s.from.x, py = other.from.y - s.from.y;
    const double t = (px * oy - py * ox) / det;
    const double u = (px * ry - py * rx) / det;
    if (t > 0 && t < 1 && u > 0 && u < 1)
        *LIST_ADD(arena, cuts) = t;
}

/* As they rise. */
static int compare_shares(const void *first, const void *second)
{
    const double a = *(const double *)first, b = *(const double *)second;
    return a < b ? -1 : a > b;
}

/* ---- points ---- */

/* Points in squares of a grid that is coarser than what is near. */
struct point_table {
    struct arena *arena;
    LIST(struct spot) points;
    size_t *heads, *next; /* plus 1; by square, by point */
    size_t room;          /* of both, a power of two */
};

/* Mixed well: neighbors along a line must not all fall into one place. */
static size_t square_of(const struct point_table *table, int64_t x, int64_t y)
{
    uint64_t h = (uint64_t)x * 0x9e3779b97f4a7c15u + (uint64_t)y;
    h = (h ^ h >> 31) * 0xbf58476d1ce4e5b9u;
    return (size_t)(h ^ h >> 29) & (table->room - 1);
}

static const double SQUARE = 16 * 1e-6;

/* Lines that cross have far more points than ends: the squares grow with the
 * points, or each question would walk through all of them. */
static void make_room(struct point_table *table)
{
    if (table->points.count < table->room)
        return;
    table->room *= 2;
    table->heads = ARENA_ARRAY(table->arena, size_t, table->room);
    table->next = ARENA_ARRAY(table->arena, size_t, table->room);
    for (size_t i = 0; i < table->points.count; i++) {
        const struct spot at = table->points.items[i];
        size_t *head =
            &table->heads[square_of(table, (int64_t)floor(at.x / SQUARE),
                                    (int64_t)floor(at.y / SQUARE))];
        table->next[i] = *head;
        *head = i + 1;
    }
}

/* Looked for in the square and in those around it, as what is near may lie
 * across a side. The first of near ones stands for all. */
static size_t point_of(struct point_table *table, struct spot at)
{
    const int64_t x = (int64_t)floor(at.x / SQUARE);
    const int64_t y = (int64_t)floor(at.y / SQUARE);
    for (int64_t dx = -1; dx <= 1; dx++)
        for (int64_t dy = -1; dy <= 1; dy++) {
            size_t i = table->heads[square_of(table, x + dx, y + dy)];
            for (; i > 0; i = table->next[i - 1])
                if (span_of(table->points.items[i - 1], at) < 2 * NEAR)
                    return i - 1;
        }
    make_room(table);
    size_t *head = &table->heads[square_of(table, x, y)];
    *LIST_ADD(table->arena, &table->points) = at;
    table->next[table->points.count - 1] = *head;
    *head = table->points.count;
    return table->points.count - 1;
}

/* ---- all of it ---- */

/* Ends stay what they are, to the last bit. */
static struct spot along(struct spot_line s, double share)
{
    return share <= 0   ? s.from
           : share >= 1 ? s.to
                        : (struct spot){s.from.x + share * (s.to.x - s.from.x),
                                        s.from.y + share * (s.to.y - s.from.y)};
}

typedef LIST(struct node_piece) piece_list;

/* Cuts one strand at what the others bring to it. */
static void cut_strand(struct arena *arena, struct point_table *table,
                       const strand_list *strands, struct grid *grid, size_t i,
                       piece_list *pieces)
{
    const struct strand *strand = &strands->items[i];
    share_list cuts = {0};
    *LIST_ADD(arena, &cuts) = 0;
    *LIST_ADD(arena, &cuts) = 1;
    const size_t *found;
    const size_t count = grid_along(grid, strand->at, &found);
    for (size_t k = 0; k < count; k++)
        if (found[k] != i)
            add_cuts(arena, &cuts, strand->at, strands->items[found[k]].at);
    qsort(cuts.items, cuts.count, sizeof *cuts.items, compare_shares);
    size_t before = point_of(table, strand->at.from);
    for (size_t k = 1; k < cuts.count; k++) {
        const size_t point = point_of(table, along(strand->at, cuts.items[k]));
        if (point == before)
            continue;
        *LIST_ADD(arena, pieces) = (struct node_piece){
            before, point,
            span_of(table->points.items[before], table->points.items[point]),
            strand->line, strand->ditch};
        before = point;
    }
}

/* A seam is the fault of no element. */
static void say_over(struct quilter *quilter, const strand_list *strands,
                     size_t strand)
{
    const size_t line = strands->items[strand].line;
    say_fault(quilter,
              line == QUILTING_NONE ? NULL
                                    : quilter->plan->lines.items[line].item,
              (struct fault){FAULT_LIMIT, 0, 0});
}

/* Strands of no length would be points without a way. */
struct nodes *find_nodes(struct quilter *quilter, struct arena *arena,
                         bool seams)
{
    strand_list strands = {0};
    add_line_strands(quilter, arena, &strands);
    if (seams)
        add_seam_strands(quilter, arena, &strands);
    struct spot_line *lines =
        ARENA_ARRAY(arena, struct spot_line, strands.count + 1);
    size_t kept = 0;
    for (size_t i = 0; i < strands.count; i++) {
        if (span_of(strands.items[i].at.from, strands.items[i].at.to) < NEAR)
            continue;
        strands.items[kept] = strands.items[i];
        lines[kept++] = strands.items[i].at;
    }
    strands.count = kept;
    struct point_table table = {.arena = arena, .room = 1024};
    while (table.room < 4 * strands.count)
        table.room *= 2;
    table.heads = ARENA_ARRAY(arena, size_t, table.room);
    table.next = ARENA_ARRAY(arena, size_t, table.room);
    piece_list pieces = {0};
    struct grid *grid =
        kept > 0 ? grid_of_lines(arena, lines, strands.count) : NULL;
    for (size_t i = 0; i < strands.count; i++) {
        cut_strand(arena, &table, &strands, grid, i, &pieces);
        if (pieces.count > NODES_MOST) {
            say_over(quilter, &strands, i);
            return NULL;
        }
    }
    struct nodes *nodes = ARENA_NEW(arena, struct nodes);
    *nodes = (struct nodes){table.points.items, table.points.count,
                            pieces.items, pieces.count};
    return nodes;
}
