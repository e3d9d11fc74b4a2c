/* What files of the second telling share: fabrics with changes applied, and
 * triangles. Read next: design_on_point.c, design_triangles.c. */
#include "design_walk.h"

const struct change *find_change(const struct faces *faces,
                                 const struct piece *piece,
                                 enum change_kind kind, size_t first)
{
    for (size_t i = 0; i < faces->count; i++)
        if (faces->changes[i].piece == piece->first &&
            faces->changes[i].kind == kind && faces->changes[i].first == first)
            return &faces->changes[i];
    return NULL;
}

const struct cell *cell_drawn(const struct faces *faces,
                              const struct piece *piece, size_t i)
{
    for (size_t k = 0; k < faces->count; k++) {
        const struct change *change = &faces->changes[k];
        if (change->kind != CHANGE_SWAP || change->piece != piece->first)
            continue;
        if (change->first == i)
            return &piece->cells.items[change->second];
        if (change->second == i)
            return &piece->cells.items[change->first];
    }
    return &piece->cells.items[i];
}

/* The strips of sashing are two pieces of one element, upright and level: a
 * change is of the element. */
int drawn_fabric(const struct faces *faces, const struct piece *piece,
                 size_t i)
{
    for (size_t k = 0; k < faces->count; k++) {
        const struct change *change = &faces->changes[k];
        if (change->piece->element != piece->element)
            continue;
        if (change->kind == CHANGE_FABRIC && change->first == i)
            return change->fabric;
        if (change->kind != CHANGE_FABRICS_EXCHANGED)
            continue;
        if (change->first == i)
            return piece->fabrics.items[change->second].fabric;
        if (change->second == i)
            return piece->fabrics.items[change->first].fabric;
    }
    return piece->fabrics.items[i].fabric;
}

void add_triangle(struct faces *faces, struct cloth *cloth, int fabric,
                  struct vertex a, struct vertex b, struct vertex c)
{
    struct vertex *points = ARENA_ARRAY(faces->arena, struct vertex, 3);
    points[0] = a;
    points[1] = b;
    points[2] = c;
    cloth_add(faces->arena, cloth,
              (struct face){.fabric = fabric, .points = points, .count = 3});
}
