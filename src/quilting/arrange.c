/* The arrangement, first half:
 *
 * 1. Each segment gets its line in the one form of straight.h; segments of one
 *    line that touch or overlap are one strand.
 * 2. Strands are cut at the ends of their segments and where they meet others.
 *    Doubles sort out what cannot meet; whether it does is decided with exact
 *    numbers.
 * 3. What lies between two cuts is a piece. It knows the segments that cover
 * it.
 * 4. Pieces are walked around each face (trace.c, faces.c).
 *
 * Nothing here compares with a tolerance: two points are the same or they are
 * not. Read next: trace.c, faces.c. */
#include "arrange.h"

#include <math.h>
#include <stdlib.h>

#include "arrange_parts.h"
#include "grid.h"

/* A segment with its line and its two ends, the lower by x, then y, first. */
struct laid_segment {
    struct straight line;
    struct vertex low, high;
    size_t index;
    size_t low_point, high_point;
};

struct strand {
    struct straight line;
    struct vertex low, high;
    size_t first, last; /* its segments: [first, last) as they are sorted */
};

struct cut {
    size_t strand, point;
    double near; /* its place along the strand, and */
    number place;
};

struct arranger {
    struct arena *arena; /* what is kept */
    struct arena *scratch;
    LIST(struct laid_segment) laid;
    LIST(struct strand) strands;
    struct spot_line *spots; /* of the strands */
    LIST(struct cut) cuts;
    struct point_table *table;
    struct fault fault;
};

/* The first is told: what comes behind may follow from it. */
static void note_limit(struct arranger *r, size_t first, size_t second)
{
    if (r->fault.kind == FAULT_NONE)
        r->fault = (struct fault){FAULT_LIMIT, first, second};
}

/* ---- strands ---- */

/* Line by line, and along each line by where segments begin; the index decides
 * between equal ones, so that one source has one order. */
static int compare_laid(const void *left, const void *right)
{
    const struct laid_segment *a = left, *b = right;
    int order = straight_compare(a->line, b->line);
    if (order == 0)
        order = vertex_compare(a->low, b->low);
    return order != 0 ? order : (a->index > b->index) - (a->index < b->index);
}

/* A line that leaves the number type is told at once: nothing on it could be
 * placed. */
static void lay_segments(struct arranger *r, const struct segment *segments,
                         size_t count)
{
    for (size_t i = 0; i < count && r->fault.kind == FAULT_NONE; i++) {
        const struct segment s = segments[i];
        if (!vertex_known(s.from) || !vertex_known(s.to)) {
            note_limit(r, i, i);
            continue;
        }
        const int order = vertex_compare(s.from, s.to);
        if (order == 0)
            continue;
        const struct straight line = straight_through(s.from, s.to);
        if (!straight_known(line))
            note_limit(r, i, i);
        *LIST_ADD(r->scratch, &r->laid) =
            (struct laid_segment){.line = line,
                                  .low = order < 0 ? s.from : s.to,
                                  .high = order < 0 ? s.to : s.from,
                                  .index = i};
    }
}

static void add_cut(struct arranger *r, size_t strand, struct vertex v,
                    size_t point)
{
    const number place = straight_place(r->strands.items[strand].line, v);
    *LIST_ADD(r->scratch, &r->cuts) =
        (struct cut){strand, point, number_double(place), place};
}

/* Segments of one line that touch or overlap become one strand; both ends of
 * each are cuts. */
static void join_strands(struct arranger *r)
{
    qsort(r->laid.items, r->laid.count, sizeof *r->laid.items, compare_laid);
    for (size_t i = 0; i < r->laid.count; i++) {
        struct laid_segment *s = &r->laid.items[i];
        struct strand *strand = r->strands.count == 0
                                    ? NULL
                                    : &r->strands.items[r->strands.count - 1];
        if (strand == NULL || !straight_equal(strand->line, s->line) ||
            vertex_compare(strand->high, s->low) < 0) {
            strand = LIST_ADD(r->scratch, &r->strands);
            *strand = (struct strand){s->line, s->low, s->high, i, i};
        }
        strand->last = i + 1;
        if (vertex_compare(strand->high, s->high) < 0)
            strand->high = s->high;
        s->low_point = point_add(r->arena, r->table, s->low);
        s->high_point = point_add(r->arena, r->table, s->high);
        add_cut(r, r->strands.count - 1, s->low, s->low_point);
        add_cut(r, r->strands.count - 1, s->high, s->high_point);
    }
}

/* ---- meetings ---- */

static bool between(const struct strand *strand, struct vertex v)
{
    const number at = straight_place(strand->line, v);
    return number_compare(at, straight_place(strand->line, strand->low)) >= 0 &&
           number_compare(at, straight_place(strand->line, strand->high)) <= 0;
}

/* Doubles leave out what lies apart by far; for all others the meeting is
 * worked out, and whether it lies on both is asked of exact numbers. */
static void meet_strands(struct arranger *r, size_t one, size_t other)
{
    const struct strand *a = &r->strands.items[one],
                        *b = &r->strands.items[other];
    if (straight_compare_direction(a->line, b->line) == 0 ||
        clearly_beside(r->spots[one], r->spots[other]) ||
        clearly_beside(r->spots[other], r->spots[one]))
        return;
    const struct vertex v = straight_meet(a->line, b->line);
    if (!vertex_known(v)) {
        note_limit(r, r->laid.items[a->first].index,
                   r->laid.items[b->first].index);
        return;
    }
    if (!between(a, v) || !between(b, v))
        return;
    const size_t point = point_add(r->arena, r->table, v);
    add_cut(r, one, v, point);
    add_cut(r, other, v, point);
}

/* Each pair once. Long lines meet many, so the cost is what they meet, not the
 * square of their number; that is counted, as a thousand lines may meet in a
 * million points. */
static void meet_all(struct arranger *r)
{
    r->spots = ARENA_ARRAY(r->scratch, struct spot_line, r->strands.count + 1);
    for (size_t i = 0; i < r->strands.count; i++)
        r->spots[i] = (struct spot_line){vertex_spot(r->strands.items[i].low),
                                         vertex_spot(r->strands.items[i].high)};
    struct grid *grid = grid_of_lines(r->scratch, r->spots, r->strands.count);
    for (size_t i = 0; i < r->strands.count && r->fault.kind == FAULT_NONE;
         i++) {
        const size_t *near;
        const size_t count = grid_along(grid, r->spots[i], &near);
        for (size_t k = 0; k < count; k++)
            if (near[k] > i)
                meet_strands(r, i, near[k]);
        if (r->cuts.count > 4 * r->laid.count + ARRANGE_CUTS)
            note_limit(r, r->laid.items[r->strands.items[i].first].index,
                       r->laid.items[r->strands.items[i].first].index);
    }
}

/* ---- pieces ---- */

/* Doubles decide where they can; cuts nearer than that are compared exactly. */
static int compare_cuts(const void *left, const void *right)
{
    const struct cut *a = left, *b = right;
    if (a->strand != b->strand)
        return a->strand > b->strand ? 1 : -1;
    if (fabs(a->near - b->near) > 1e-9 * (1 + fabs(a->near)))
        return a->near > b->near ? 1 : -1;
    return number_compare(a->place, b->place);
}

/* Several lines through one point cut a strand there once. */
static size_t unique_cuts(struct arranger *r)
{
    size_t count = 0;
    qsort(r->cuts.items, r->cuts.count, sizeof *r->cuts.items, compare_cuts);
    for (size_t i = 0; i < r->cuts.count; i++)
        if (count == 0 ||
            r->cuts.items[i].strand != r->cuts.items[count - 1].strand ||
            r->cuts.items[i].point != r->cuts.items[count - 1].point)
            r->cuts.items[count++] = r->cuts.items[i];
    return count;
}

/* The pieces and the lines that they lie on. `place[point]` becomes the piece
 * that begins in the point, strand by strand. */
struct laid_pieces {
    LIST(struct arranged_piece) pieces;
    struct straight *line;
    size_t
        *begins; /* the first piece of each strand, and the end of the last */
};

static struct laid_pieces lay_pieces(struct arranger *r, size_t cuts)
{
    struct laid_pieces laid = {0};
    LIST_RESERVE(r->arena, &laid.pieces, cuts + 1);
    laid.line = ARENA_ARRAY(r->scratch, struct straight, cuts + 1);
    laid.begins = ARENA_ARRAY(r->scratch, size_t, r->strands.count + 1);
    for (size_t i = 0; i < cuts; i++) {
        const struct cut *cut = &r->cuts.items[i];
        if (i == 0 || cut->strand != cut[-1].strand) {
            laid.begins[cut->strand] = laid.pieces.count;
            continue;
        }
        laid.line[laid.pieces.count] = r->strands.items[cut->strand].line;
        *LIST_ADD(r->arena, &laid.pieces) =
            (struct arranged_piece){.from = cut[-1].point, .to = cut->point};
    }
    laid.begins[r->strands.count] = laid.pieces.count;
    return laid;
}

/* Goes over the pieces that each segment covers: counts them (`sources` NULL),
 * or fills them in, behind `last` of each. */
static void cover_pieces(const struct arranger *r, struct laid_pieces *laid,
                         size_t *place, size_t *sources)
{
    struct arranged_piece *pieces = laid->pieces.items;
    for (size_t i = 0; i < r->strands.count; i++) {
        const struct strand *strand = &r->strands.items[i];
        for (size_t p = laid->begins[i]; p < laid->begins[i + 1]; p++)
            place[pieces[p].from] = p;
        place[pieces[laid->begins[i + 1] - 1].to] = laid->begins[i + 1];
        for (size_t s = strand->first; s < strand->last; s++) {
            const struct laid_segment *segment = &r->laid.items[s];
            for (size_t p = place[segment->low_point];
                 p < place[segment->high_point]; p++) {
                if (sources != NULL)
                    sources[pieces[p].last] = segment->index;
                pieces[p].last++;
            }
        }
    }
}

/* Sources of all pieces lie in one array: counted first, then filled in. */
static void add_sources(struct arranger *r, struct laid_pieces *laid,
                        struct arrangement *a)
{
    size_t *place = ARENA_ARRAY(r->scratch, size_t, r->table->points.count + 1);
    cover_pieces(r, laid, place, NULL);
    size_t count = 0;
    for (size_t p = 0; p < laid->pieces.count; p++) {
        struct arranged_piece *piece = &laid->pieces.items[p];
        const size_t own = piece->last;
        piece->first = piece->last = count;
        count += own;
    }
    size_t *sources = ARENA_ARRAY(r->arena, size_t, count + 1);
    cover_pieces(r, laid, place, sources);
    a->sources = sources;
}

/* Pieces need points in their final order, and faces need pieces. */
static void fill_arrangement(struct arranger *r, struct arrangement *a)
{
    struct laid_pieces laid = lay_pieces(r, unique_cuts(r));
    struct spot *spots =
        ARENA_ARRAY(r->arena, struct spot, r->table->points.count + 1);
    for (size_t i = 0; i < r->table->points.count; i++)
        spots[i] = vertex_spot(r->table->points.items[i]);
    a->points = r->table->points.items;
    a->spots = spots;
    a->point_count = r->table->points.count;
    add_sources(r, &laid, a);
    a->pieces = laid.pieces.items;
    a->piece_count = laid.pieces.count;
    add_faces(r->arena, a, laid.pieces.items, laid.line);
}

struct arrangement *arrange_segments(struct arena *arena,
                                     const struct segment *segments,
                                     size_t count)
{
    struct arrangement *a = ARENA_NEW(arena, struct arrangement);
    struct arranger r = {.arena = arena,
                         .scratch = arena_create(),
                         .table = ARENA_NEW(arena, struct point_table)};
    a->table = r.table;
    lay_segments(&r, segments, count);
    if (r.fault.kind == FAULT_NONE) {
        join_strands(&r);
        meet_all(&r);
    }
    if (r.fault.kind == FAULT_NONE && r.strands.count > 0)
        fill_arrangement(&r, a);
    a->fault = r.fault;
    arena_destroy(r.scratch);
    return a;
}

number ring_double_area(const struct arrangement *a, struct arranged_ring ring)
{
    number sum = number_whole(0);
    const struct vertex o = a->points[ring.points[0]];
    for (size_t i = 1; i + 1 < ring.count; i++) {
        const struct vertex p = a->points[ring.points[i]];
        const struct vertex q = a->points[ring.points[i + 1]];
        const number one =
            number_mul(number_sub(p.x, o.x), number_sub(q.y, o.y));
        const number other =
            number_mul(number_sub(p.y, o.y), number_sub(q.x, o.x));
        sum = number_add(sum, number_sub(one, other));
    }
    return sum;
}

size_t arrangement_point(const struct arrangement *a, struct vertex v)
{
    return vertex_known(v) ? point_find(a->table, v) : SIZE_MAX;
}

static int compare_labelled(const void *left, const void *right)
{
    const struct labelled_ring *a = left, *b = right;
    if (a->label != b->label)
        return a->label > b->label ? 1 : -1;
    if (a->hole != b->hole)
        return a->hole ? 1 : -1;
    return (a->ring.points[0] > b->ring.points[0]) -
           (a->ring.points[0] < b->ring.points[0]);
}

static long label_at(const long *label, long face)
{
    return face < 0 ? -1 : label[face];
}

/* A half bounds the set at its right hand where another lies at its left.
 * Pieces with one set on both sides are passed over on the way around a point.
 */
labelled_rings arrangement_outlines(struct arena *arena,
                                    const struct arrangement *a,
                                    const long *label)
{
    labelled_rings rings = {0};
    if (a->piece_count == 0)
        return rings;
    struct arena *scratch = arena_create();
    bool *walked = ARENA_ARRAY(scratch, bool, 2 * a->piece_count + 1);
    for (size_t p = 0; p < a->piece_count; p++) {
        const long right = label_at(label, a->pieces[p].right);
        const long left = label_at(label, a->pieces[p].left);
        walked[2 * p] = right >= 0 && right != left;
        walked[2 * p + 1] = left >= 0 && left != right;
    }
    const struct cycles cycles = trace_cycles(scratch, a, a->fans, walked);
    for (size_t c = 0; c < cycles.list.count; c++) {
        const struct cycle cycle = cycles.list.items[c];
        const struct arranged_piece *piece = &a->pieces[cycle.first / 2];
        *LIST_ADD(arena, &rings) = (struct labelled_ring){
            label_at(label, cycle.first % 2 == 0 ? piece->right : piece->left),
            cycle.hole, cycle_ring(arena, a->fans, walked, cycle.first)};
    }
    if (rings.count > 0)
        qsort(rings.items, rings.count, sizeof *rings.items, compare_labelled);
    arena_destroy(scratch);
    return rings;
}
