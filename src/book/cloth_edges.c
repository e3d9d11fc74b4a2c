/* Edges are sorted by the line on which they lie, then by the side of it on
 * which their face is, so that one walk along each line meets both sides. All
 * is exact: edges that are one line in the quilt are one here. Read next:
 * coloring.c. */
#include "cloth_edges.h"

#include <stdlib.h>

/* ---- edges of faces ---- */

/* An edge along its line: from left to right, or down where it is upright. */
struct face_edge {
    bool upright;
    struct rational slope, offset; /* y = slope * x + offset, or x = offset */
    int side;                      /* of the line, on which the face is: 0, 1 */
    struct vertex from, to;
    int fabric;
};

struct face_edges {
    LIST(struct face_edge) items;
};

/* Along the line. */
static struct rational along(const struct face_edge *edge, struct vertex v)
{
    return edge->upright ? v.y : v.x;
}

/* To which side c lies of the line from a to b; 0 on it, or not known. */
static int turn_of(struct vertex a, struct vertex b, struct vertex c)
{
    const struct rational right =
        rational_mul(rational_sub(b.x, a.x), rational_sub(c.y, a.y));
    const struct rational left =
        rational_mul(rational_sub(b.y, a.y), rational_sub(c.x, a.x));
    return rational_known(right) && rational_known(left)
               ? rational_compare(right, left)
               : 0;
}

/* A face is convex, so all of its corners lie on one side of its edges. */
static int side_of(const struct face *face, struct vertex from,
                   struct vertex to)
{
    for (size_t i = 0; i < face->count; i++) {
        const int turn = turn_of(from, to, face->points[i]);
        if (turn != 0)
            return turn > 0;
    }
    return 0;
}

/* Points have no common name for their line where its numbers are unknown:
 * then the edge stays, whatever lies beside it. */
static void add_edge(struct arena *arena, struct arena *scratch,
                     struct face_edges *edges, struct cloth_edges *alone,
                     const struct face *face, struct vertex p, struct vertex q)
{
    const bool upright = rational_equal(p.x, q.x);
    if (upright && rational_equal(p.y, q.y))
        return;
    const bool swap = upright ? rational_compare(p.y, q.y) > 0
                              : rational_compare(p.x, q.x) > 0;
    struct face_edge edge = {.upright = upright,
                             .slope = rational_whole(0),
                             .offset = p.x,
                             .from = swap ? q : p,
                             .to = swap ? p : q,
                             .fabric = face->fabric};
    if (!upright) {
        edge.slope =
            rational_div(rational_sub(q.y, p.y), rational_sub(q.x, p.x));
        edge.offset = rational_sub(p.y, rational_mul(edge.slope, p.x));
    }
    if (!rational_known(edge.slope) || !rational_known(edge.offset)) {
        *LIST_ADD(arena, &alone->items) = (struct cloth_edge){p, q};
        return;
    }
    edge.side = side_of(face, edge.from, edge.to);
    *LIST_ADD(scratch, &edges->items) = edge;
}

/* Which line, without the side. */
static int compare_lines(const struct face_edge *a, const struct face_edge *b)
{
    if (a->upright != b->upright)
        return a->upright ? 1 : -1;
    const int slope = rational_compare(a->slope, b->slope);
    return slope != 0 ? slope : rational_compare(a->offset, b->offset);
}

/* For qsort: by line, then by the side of it that the face lies on, then along
 * the line. */
static int compare_edges(const void *left, const void *right)
{
    const struct face_edge *a = left, *b = right;
    const int line = compare_lines(a, b);
    if (line != 0)
        return line;
    if (a->side != b->side)
        return a->side - b->side;
    return rational_compare(along(a, a->from), along(b, b->from));
}

/* ---- along one line ---- */

/* What goes on where the last one ends is a part of it. */
static void emit(struct arena *arena, struct cloth_edges *edges,
                 struct vertex from, struct vertex to, bool new_line)
{
    struct cloth_edge *last = edges->items.count == 0
                                  ? NULL
                                  : &edges->items.items[edges->items.count - 1];
    if (last != NULL && !new_line && rational_equal(last->to.x, from.x) &&
        rational_equal(last->to.y, from.y))
        last->to = to;
    else
        *LIST_ADD(arena, &edges->items) = (struct cloth_edge){from, to};
}

/* Does a come before b along the line of the edge? */
static bool before(const struct face_edge *edge, struct vertex a,
                   struct vertex b)
{
    return rational_compare(along(edge, a), along(edge, b)) < 0;
}

/* One line: `split` edges of one side, then those of the other. */
static void walk_line(struct arena *arena, struct cloth_edges *edges,
                      const struct face_edge *line, size_t split, size_t count)
{
    size_t i = 0, k = split;
    struct vertex at = {rational_unknown(), rational_unknown()};
    bool new_line = true;
    while (i < split || k < count) {
        const struct face_edge *a = i < split ? &line[i] : NULL;
        const struct face_edge *b = k < count ? &line[k] : NULL;
        const struct face_edge *first =
            a == NULL || (b != NULL && before(line, b->from, a->from)) ? b : a;
        const bool going =
            rational_known(at.x) && !before(line, at, first->from);
        const struct vertex start = going ? at : first->from;
        const bool on_a = a != NULL && !before(line, start, a->from);
        const bool on_b = b != NULL && !before(line, start, b->from);
        struct vertex end = on_a ? a->to : b->to;
        if (on_a && b != NULL) {
            const struct vertex other = on_b ? b->to : b->from;
            end = before(line, other, end) ? other : end;
        } else if (on_b && a != NULL) {
            end = before(line, a->from, end) ? a->from : end;
        }
        if (!(on_a && on_b && a->fabric == b->fabric)) {
            emit(arena, edges, start, end, new_line);
            new_line = false;
        }
        at = end;
        i += on_a && !before(line, end, a->to);
        k += on_b && !before(line, end, b->to);
    }
}

/* Sorting takes the most of its time: n log n of all edges. */
struct cloth_edges cloth_edges(struct arena *arena, const struct cloth *cloth)
{
    struct arena *scratch = arena_create();
    struct face_edges all = {0};
    struct cloth_edges edges = {0};
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        for (size_t k = 0; k < face->count; k++)
            add_edge(arena, scratch, &all, &edges, face, face->points[k],
                     face->points[(k + 1) % face->count]);
    }
    if (all.items.count > 0)
        qsort(all.items.items, all.items.count, sizeof *all.items.items,
              compare_edges);
    for (size_t i = 0; i < all.items.count;) {
        const struct face_edge *line = &all.items.items[i];
        size_t count = 0, split = 0;
        while (i + count < all.items.count &&
               compare_lines(line, line + count) == 0) {
            split += line[count].side == 0;
            count++;
        }
        walk_line(arena, &edges, line, split, count);
        i += count;
    }
    arena_destroy(scratch);
    return edges;
}

/* ---- blocks ---- */

struct walk {
    struct arena *arena;
    const struct sewn_quilt *quilt;
    struct block_places places;
};

/* One that is cut in one piece, too: its edge parts it from its neighbors. */
static bool is_block(const struct heap *heap)
{
    bool is = false;
    for (size_t i = 0; i < heap->names.count; i++)
        is |= heap->names.items[i].count > 0 &&
              heap->names.items[i].definition->kind == DEFINE_BLOCK;
    return is;
}

/* The box of an input in the box of its heap, when that is turned. */
static struct block_place turned_place(const struct heap *heap, unsigned turn,
                                       const struct block_place *in)
{
    const double width = rational_double(heap->width);
    const double height = rational_double(heap->height);
    switch (turn % 4) {
    case 1:
        return (struct block_place){height - in->y - in->height, in->x,
                                    in->height, in->width};
    case 2:
        return (struct block_place){width - in->x - in->width,
                                    height - in->y - in->height, in->width,
                                    in->height};
    case 3:
        return (struct block_place){in->y, width - in->x - in->width,
                                    in->height, in->width};
    default:
        return *in;
    }
}

/* From a heap that lies turned at a place of the quilt to its blocks. Rows and
 * borders alone have blocks inside. */
static void walk_heap(struct walk *walk, size_t index, unsigned turn,
                      struct block_place at)
{
    const struct heap *heap = &walk->quilt->heaps.items[index];
    if (is_block(heap)) {
        *LIST_ADD(walk->arena, &walk->places.items) = at;
        return;
    }
    if (heap->technique != TECHNIQUE_JOIN &&
        heap->technique != TECHNIQUE_BORDER)
        return;
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *part = &walk->quilt->heaps.items[input->heap];
        const bool across = input->turn % 2 == 1;
        const struct block_place in = {
            rational_double(input->x), rational_double(input->y),
            rational_double(across ? part->height : part->width),
            rational_double(across ? part->width : part->height)};
        struct block_place place = turned_place(heap, turn, &in);
        place.x += at.x;
        place.y += at.y;
        walk_heap(walk, input->heap, input->turn + turn, place);
    }
}

/* From the outermost border inwards. */
struct block_places block_places(struct arena *arena,
                                 const struct sewn_quilt *quilt)
{
    struct walk walk = {.arena = arena, .quilt = quilt};
    walk_heap(&walk, quilt->whole, quilt->whole_turn,
              (struct block_place){0.0, 0.0, rational_double(quilt->width),
                                   rational_double(quilt->height)});
    return walk.places;
}
