/* The faces of an arrangement. Loose ends and bridges, which have one face on
 * both sides, are taken out first; what is left falls into cycles, and a cycle
 * around a part that lies inside a face is a hole of it. Which face that is, is
 * told by the piece right above the lowest point of the hole. */
#include "arrange_parts.h"

#include <math.h>
#include <stdlib.h>

#include "grid.h"

struct finder {
    struct arena *arena;
    struct arrangement *a;
    const struct straight *line; /* of each piece */
    struct fans *fans;
    bool *walked; /* halves that bound faces */
    struct cycles cycles;
    long *face; /* of each cycle */
    struct grid *grid;
};

static unsigned *direction_ranks(struct arena *arena,
                                 const struct straight *line, size_t count,
                                 unsigned *ranks);

/* Where the line of the piece stands at the x of a point, in doubles. */
static double height_over(const struct finder *f, size_t piece, struct spot at)
{
    const struct spot p = f->a->spots[f->a->pieces[piece].from];
    const struct spot q = f->a->spots[f->a->pieces[piece].to];
    return p.y + (q.y - p.y) / (q.x - p.x) * (at.x - p.x);
}

/* Does the piece pass over the point, when both are moved to the right by less
 * than anything? */
static bool passes_over(const struct finder *f, size_t piece, struct vertex v)
{
    const struct arranged_piece *p = &f->a->pieces[piece];
    if (number_compare(f->a->points[p->from].x, v.x) > 0 ||
        number_compare(f->a->points[p->to].x, v.x) <= 0)
        return false;
    const double off =
        number_double(v.y) - height_over(f, piece, vertex_spot(v));
    if (fabs(off) > 1e-9)
        return off > 0;
    const int side = straight_side(f->line[piece], v);
    return side == 2 ? off > 0 : side > 0;
}

/* Pieces do not cross, so where they are level they begin in one point. */
static bool passes_lower(const struct finder *f, size_t piece, size_t than,
                         struct spot at)
{
    const struct arranged_piece *p = &f->a->pieces[piece];
    if (p->from == f->a->pieces[than].from)
        return f->fans->direction[2 * piece] > f->fans->direction[2 * than];
    return height_over(f, piece, at) > height_over(f, than, at);
}

/* The face around a part of the arrangement, told by a lowest point of it. */
static long face_around(const struct finder *f, size_t point)
{
    const struct vertex v = f->a->points[point];
    const struct spot at = f->a->spots[point];
    const size_t *near;
    const size_t count =
        grid_along(f->grid, (struct spot_line){at, {at.x, -1e9}}, &near);
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < count; i++)
        if (f->walked[2 * near[i]] && passes_over(f, near[i], v) &&
            (best == SIZE_MAX || passes_lower(f, near[i], best, at)))
            best = near[i];
    return best == SIZE_MAX ? FACE_OUTSIDE : f->face[f->cycles.of[2 * best]];
}

struct hole {
    struct vertex at;
    size_t point, cycle;
};

static int compare_holes(const void *left, const void *right)
{
    const struct hole *a = left, *b = right;
    return vertex_compare(a->at, b->at);
}

/* The piece above a hole belongs to its face, or to the rim of a part that
 * begins before it: so from the left. */
static void settle_holes(struct finder *f)
{
    struct hole *holes =
        ARENA_ARRAY(f->arena, struct hole, f->cycles.list.count + 1);
    size_t count = 0;
    for (size_t c = 0; c < f->cycles.list.count; c++) {
        const size_t point = f->fans->begin[f->cycles.list.items[c].first];
        if (f->cycles.list.items[c].hole)
            holes[count++] = (struct hole){f->a->points[point], point, c};
    }
    qsort(holes, count, sizeof *holes, compare_holes);
    for (size_t i = 0; i < count; i++)
        f->face[holes[i].cycle] = face_around(f, holes[i].point);
}

/* From a point of the ring, so that a far place on the top loses no digits. */
static double ring_area(const struct arrangement *a, struct arranged_ring ring)
{
    double sum = 0;
    const struct spot o = a->spots[ring.points[0]];
    for (size_t i = 0; i < ring.count; i++) {
        const struct spot p = a->spots[ring.points[i]];
        const struct spot q = a->spots[ring.points[(i + 1) % ring.count]];
        sum += (p.x - o.x) * (q.y - o.y) - (p.y - o.y) * (q.x - o.x);
    }
    return sum / 2;
}

/* The faces in the order of their outer cycles, each with its rings. */
static void lay_faces(struct arena *keep, struct finder *f, size_t count)
{
    struct arranged_face *faces =
        ARENA_ARRAY(keep, struct arranged_face, count + 1);
    for (size_t c = 0; c < f->cycles.list.count; c++)
        if (f->face[c] >= 0)
            faces[f->face[c]].count++;
    size_t *filled = ARENA_ARRAY(f->arena, size_t, count + 1);
    for (size_t i = 0; i < count; i++) {
        faces[i].rings =
            ARENA_ARRAY(keep, struct arranged_ring, faces[i].count);
        filled[i] = 1;
    }
    for (size_t c = 0; c < f->cycles.list.count; c++) {
        const long face = f->face[c];
        if (face < 0)
            continue;
        const struct cycle *cycle = &f->cycles.list.items[c];
        const size_t at = cycle->hole ? filled[face]++ : 0;
        struct arranged_ring *rings = (struct arranged_ring *)faces[face].rings;
        rings[at] = cycle_ring(keep, f->fans, f->walked, cycle->first);
        faces[face].area += ring_area(f->a, rings[at]);
    }
    for (size_t i = 0; i < count; i++)
        faces[i].inside = face_inside(f->arena, f->a, &faces[i]);
    f->a->faces = faces;
    f->a->face_count = count;
}

/* Pieces that bound nothing hang, by ways over others like them, in one face:
 * that of a half which bounds, on the same way around, or that around all. */
static void settle_loose(struct finder *f, const struct cycles *all,
                         struct arranged_piece *pieces)
{
    long *face = ARENA_ARRAY(f->arena, long, all->list.count + 1);
    bool *known = ARENA_ARRAY(f->arena, bool, all->list.count + 1);
    for (size_t h = 0; h < f->fans->half_count; h++)
        if (f->walked[h]) {
            face[all->of[h]] = f->face[f->cycles.of[h]];
            known[all->of[h]] = true;
        }
    for (size_t p = 0; p < f->a->piece_count; p++) {
        const size_t cycle = all->of[2 * p];
        if (f->walked[2 * p])
            continue;
        if (!known[cycle])
            face[cycle] =
                face_around(f, f->fans->begin[all->list.items[cycle].first]);
        known[cycle] = true;
        pieces[p].right = pieces[p].left = face[cycle];
    }
}

/* For the question which piece lies above a hole. */
static struct grid *grid_of_pieces(struct arena *arena,
                                   const struct arrangement *a)
{
    struct spot_line *lines =
        ARENA_ARRAY(arena, struct spot_line, a->piece_count + 1);
    for (size_t p = 0; p < a->piece_count; p++)
        lines[p] = (struct spot_line){a->spots[a->pieces[p].from],
                                      a->spots[a->pieces[p].to]};
    return grid_of_lines(arena, lines, a->piece_count);
}

/* What bounds: halves whose ways back belong to another cycle. */
static void mark_walked(struct finder *f, const struct cycles *all)
{
    f->walked = ARENA_ARRAY(f->arena, bool, f->fans->half_count + 1);
    for (size_t h = 0; h < f->fans->half_count; h++)
        f->walked[h] = all->of[h] != all->of[h ^ 1];
}

/* Numbers the faces by their outer cycles. */
static size_t number_faces(struct finder *f)
{
    size_t count = 0;
    f->face = ARENA_ARRAY(f->arena, long, f->cycles.list.count + 1);
    for (size_t c = 0; c < f->cycles.list.count; c++)
        f->face[c] =
            f->cycles.list.items[c].hole ? FACE_OUTSIDE : (long)count++;
    return count;
}

/* Two traces: the first finds what bounds nothing, the second the faces. */
void add_faces(struct arena *arena, struct arrangement *a,
               struct arranged_piece *pieces, const struct straight *line)
{
    struct arena *scratch = arena_create();
    struct finder f = {.arena = scratch, .a = a, .line = line};
    unsigned ranks;
    const unsigned *rank =
        direction_ranks(scratch, line, a->piece_count, &ranks);
    f.fans = fans_of(arena, a, rank, ranks);
    bool *every = ARENA_ARRAY(scratch, bool, f.fans->half_count + 1);
    for (size_t h = 0; h < f.fans->half_count; h++)
        every[h] = true;
    const struct cycles all = trace_cycles(scratch, a, f.fans, every);
    mark_walked(&f, &all);
    f.cycles = trace_cycles(scratch, a, f.fans, f.walked);
    f.grid = grid_of_pieces(scratch, a);
    const size_t count = number_faces(&f);
    settle_holes(&f);
    for (size_t p = 0; p < a->piece_count; p++)
        if (f.walked[2 * p]) {
            pieces[p].right = f.face[f.cycles.of[2 * p]];
            pieces[p].left = f.face[f.cycles.of[2 * p + 1]];
        }
    settle_loose(&f, &all, pieces);
    lay_faces(arena, &f, count);
    a->fans = f.fans;
    arena_destroy(scratch);
}

/* ---- directions ---- */

struct ranked {
    struct straight line;
    size_t piece;
};

static int compare_ranked(const void *left, const void *right)
{
    const struct ranked *a = left, *b = right;
    return straight_compare_direction(a->line, b->line);
}

/* The rank of each piece's direction, of so many. Pieces of one line lie one
 * behind the other, so only the first of each is sorted. */
static unsigned *direction_ranks(struct arena *arena,
                                 const struct straight *line, size_t count,
                                 unsigned *ranks)
{
    struct ranked *sorted = ARENA_ARRAY(arena, struct ranked, count + 1);
    unsigned *rank = ARENA_ARRAY(arena, unsigned, count + 1);
    size_t lines = 0;
    for (size_t p = 0; p < count; p++)
        if (p == 0 || !straight_equal(line[p - 1], line[p]))
            sorted[lines++] = (struct ranked){line[p], p};
    qsort(sorted, lines, sizeof *sorted, compare_ranked);
    unsigned now = 0;
    for (size_t i = 0; i < lines; i++) {
        now += i > 0 && compare_ranked(&sorted[i - 1], &sorted[i]) != 0;
        rank[sorted[i].piece] = now + 1;
    }
    for (size_t p = 0; p < count; p++)
        rank[p] = rank[p] > 0 ? rank[p] - 1 : rank[p - 1];
    *ranks = now + 1;
    return rank;
}
