/* Where two fabrics share a piece of seam. Every edge of every face gets the
 * name of the line on which it lies; sorted by it, one walk along each line
 * meets what lies on its two sides. Exact, as all points are. Read next:
 * contrast.c. */
#include "adjoin.h"

#include <stdlib.h>

/* An edge along its line: from left to right, or down where it is upright. */
struct edge {
    bool upright;
    struct rational slope, offset; /* y = slope * x + offset, or x = offset */
    int side; /* of the line, on which the face is: -1, 1 */
    struct vertex from, to;
    int fabric;
};

struct edges {
    LIST(struct edge) items;
};

/* Along the line. */
static struct rational along(const struct edge *edge, struct vertex v)
{
    return edge->upright ? v.y : v.x;
}

/* A face is convex, so all its corners lie on one side of its edges. ensures: 0
 * where that is not known. */
static int side_of(const struct face *face, const struct edge *edge)
{
    const struct half_plane left = half_plane_left(edge->from, edge->to);
    for (size_t i = 0; i < face->count; i++) {
        const struct rational at = half_plane_side(left, face->points[i]);
        if (!rational_known(at))
            return 0;
        if (rational_sign(at) != 0)
            return rational_sign(at);
    }
    return 0;
}

static void add_edge(struct arena *arena, struct edges *edges,
                     const struct face *face, struct vertex p, struct vertex q)
{
    const bool upright = rational_equal(p.x, q.x);
    const bool swap = upright ? rational_compare(p.y, q.y) > 0
                              : rational_compare(p.x, q.x) > 0;
    struct edge edge = {.upright = upright,
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
    edge.side = side_of(face, &edge);
    if (rational_known(edge.offset) && edge.side != 0)
        *LIST_ADD(arena, &edges->items) = edge;
}

/* Which line, without the side. */
static int compare_lines(const struct edge *a, const struct edge *b)
{
    if (a->upright != b->upright)
        return a->upright ? 1 : -1;
    const int slope = rational_compare(a->slope, b->slope);
    return slope != 0 ? slope : rational_compare(a->offset, b->offset);
}

/* By line, then by side, then along the line. */
static int compare_edges(const void *first, const void *second)
{
    const struct edge *a = first, *b = second;
    const int line = compare_lines(a, b);
    if (line != 0)
        return line;
    return a->side != b->side
               ? a->side - b->side
               : rational_compare(along(a, a->from), along(b, b->from));
}

struct walk {
    const struct sewn_quilt *quilt;
    struct adjoining *table;
    size_t fabrics;
};

static struct rational middle(struct rational a, struct rational b)
{
    return rational_mul(rational_add(a, b), rational_make(1, 2));
}

static bool comes_before(struct vertex a, struct vertex b)
{
    const int down = rational_compare(a.y, b.y);
    return down != 0 ? down < 0 : rational_compare(a.x, b.x) < 0;
}

static void keep(struct walk *walk, int a, int b, struct vertex from,
                 struct vertex to)
{
    const struct vertex at = {middle(from.x, to.x), middle(from.y, to.y)};
    struct adjoining *place =
        &walk->table[(size_t)a * walk->fabrics + (size_t)b];
    if (!rational_known(at.x) || !rational_known(at.y))
        return;
    if (place->quilt != NULL &&
        (place->quilt != walk->quilt || !comes_before(at, place->at)))
        return;
    *place = (struct adjoining){walk->quilt, at};
    walk->table[(size_t)b * walk->fabrics + (size_t)a] = *place;
}

/* One line: `split` edges of one side, then those of the other. Those of one
 * side do not overlap, as faces do not. */
static void walk_line(struct walk *walk, const struct edge *line, size_t split,
                      size_t count)
{
    size_t i = 0, k = split;
    while (i < split && k < count) {
        const struct edge *a = &line[i], *b = &line[k];
        const bool b_begins =
            rational_compare(along(a, a->from), along(b, b->from)) < 0;
        const bool a_ends =
            rational_compare(along(a, a->to), along(b, b->to)) < 0;
        const struct vertex from = b_begins ? b->from : a->from;
        const struct vertex to = a_ends ? a->to : b->to;
        if (a->fabric != b->fabric &&
            rational_compare(along(a, from), along(a, to)) < 0)
            keep(walk, a->fabric, b->fabric, from, to);
        i += a_ends;
        k += !a_ends;
    }
}

static void walk_lines(struct walk *walk, const struct edges *edges)
{
    const size_t all = edges->items.count;
    for (size_t i = 0; i < all;) {
        const struct edge *line = &edges->items.items[i];
        size_t count = 0, split = 0;
        while (i + count < all && compare_lines(line, line + count) == 0) {
            split += line[count].side < 0;
            count++;
        }
        walk_line(walk, line, split, count);
        i += count;
    }
}

void find_adjoining(const struct sewn_quilt *quilt, struct adjoining *table,
                    size_t fabrics)
{
    struct walk walk = {quilt, table, fabrics};
    struct edges edges = {0};
    if (!cloth_known(quilt->cloth))
        return;
    struct arena *arena = arena_create();
    for (size_t i = 0; i < quilt->cloth->faces.count; i++) {
        const struct face *face = &quilt->cloth->faces.items[i];
        for (size_t k = 0; k < face->count; k++)
            add_edge(arena, &edges, face, face->points[k],
                     face->points[(k + 1) % face->count]);
    }
    if (edges.items.count > 0)
        qsort(edges.items.items, edges.items.count, sizeof *edges.items.items,
              compare_edges);
    walk_lines(&walk, &edges);
    arena_destroy(arena);
}

/* `a` and `b` may stand in either order. */
static bool lies_between(struct rational v, struct rational a,
                         struct rational b)
{
    return rational_compare(v, rational_min(a, b)) >= 0 &&
           rational_compare(v, rational_max(a, b)) <= 0;
}

static bool runs_through(const struct seam *seam, struct vertex at)
{
    const struct rational off =
        half_plane_side(half_plane_left(seam->from, seam->to), at);
    return rational_known(off) && rational_sign(off) == 0 &&
           lies_between(at.x, seam->from.x, seam->to.x) &&
           lies_between(at.y, seam->from.y, seam->to.y);
}

const struct piece *piece_of_seam(const struct cloth *cloth, struct vertex at)
{
    for (size_t i = 0; i < cloth->seams.count; i++)
        if (runs_through(&cloth->seams.items[i], at))
            return cloth->seams.items[i].piece;
    return NULL;
}
