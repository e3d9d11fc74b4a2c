/* Inside the second telling of the design, apart from the crafts: what its
 * files share. Read next: design_faces.c. */
#ifndef SEAMWRIGHT_DESIGN_WALK_H
#define SEAMWRIGHT_DESIGN_WALK_H

#include "design_faces.h"

/* What the walk carries; `changes` are looked up at each piece. */
struct faces {
    struct arena *arena;
    const struct sized *sized;
    const struct change *changes;
    size_t count;
    /* All that a piece shows, in its own place. Kinds of piece call it for their
     * parts: no file of a kind needs another. */
    struct cloth *(*draw)(struct faces *faces, const struct piece *piece);
};

/* The change of this kind on this piece (and corner or cell), or NULL. `first`
 * tells which corner; 0 for kinds that need no number. */
const struct change *find_change(const struct faces *faces,
                                 const struct piece *piece,
                                 enum change_kind kind, size_t first);
/* Which cell stands at place `i` of a container, exchanges applied. */
const struct cell *cell_drawn(const struct faces *faces,
                              const struct piece *piece, size_t i);
/* Fabric number `i` of the piece, changes applied. */
int drawn_fabric(const struct faces *faces, const struct piece *piece,
                 size_t i);
/* A triangle that takes its place among others. */
void add_triangle(struct faces *faces, struct cloth *cloth, int fabric,
                  struct vertex a, struct vertex b, struct vertex c);

/* design_on_point.c: a setting on point. */
struct cloth *on_point_faces(struct faces *faces, const struct piece *piece);
/* design_triangles.c: rows of triangles. */
struct cloth *triangle_faces(struct faces *faces, const struct piece *piece);
/* design_star.c: an eight-pointed star. */
struct cloth *star_faces(struct faces *faces, const struct piece *piece);

#endif
