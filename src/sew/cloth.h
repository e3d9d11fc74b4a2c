/* Operations on virtual cloth. Each is a function with a stated geometry. Every
 * function makes a new cloth in the arena and leaves its arguments as they are,
 * unless it adds to one. Lengths are real (in design_faces.h local), exact, x
 * to the right and y down. */
#ifndef SEAMWRIGHT_CLOTH_H
#define SEAMWRIGHT_CLOTH_H

#include "sewn.h"

/* The side of a line where a * x + b * y <= c. */
struct half_plane {
    struct rational a, b, c;
};

/* The half-plane on the left of the way from p to q (y runs down, so what a
 * person walking from p to q has at the left hand). */
struct half_plane half_plane_left(struct vertex p, struct vertex q);
/* The other side of the same line. */
struct half_plane half_plane_other(struct half_plane plane);
/* Below 0 inside, 0 on the line, above 0 outside; a distance only in sign. */
struct rational half_plane_side(struct half_plane plane, struct vertex v);

/* ensures: the part of the face inside; count 0 where there is none; a face of
 * unknown points where a part of one passes 1,024 bits. requires: a convex face; it stays
 * convex, which all else here relies on. */
struct face face_clip(struct arena *arena, struct face face,
                      struct half_plane plane);
/* Twice the area. */
struct rational face_double_area(struct face face);

/* False where a point is unknown. */
bool cloth_known(const struct cloth *cloth);
/* The corners of the box around it. */
void face_box(struct face face, struct vertex *low, struct vertex *high);
/* The part of a face inside another; both convex, either way round. */
struct face face_within(struct arena *arena, struct face face,
                        struct face other);
/* Twice the area of what two convex faces share. */
struct rational face_shared_area(struct arena *arena, struct face a,
                                 struct face b);

/* The rectangle from (x, y), in the order that every outline has. */
struct outline outline_rectangle(struct arena *arena, struct rational x,
                                 struct rational y, struct rational width,
                                 struct rational height);
/* With `seam` added outside each side. requires: sides along the axes. */
struct outline outline_grown(struct arena *arena, struct outline outline,
                             struct rational seam);

/* One piece of cloth, right side up; its finished size is the outline's box
 * less what it was grown by, so the caller gives it. */
struct cloth *cloth_cut(struct arena *arena, int fabric, struct outline outline,
                        struct rational width, struct rational height);
/* A rectangle without seam allowances. */
struct cloth *cloth_rectangle(struct arena *arena, int fabric,
                              struct rational width, struct rational height);
/* Adds to `cloth`; an empty face is passed over. */
void cloth_add(struct arena *arena, struct cloth *cloth, struct face face);
void cloth_add_all(struct arena *arena, struct cloth *cloth,
                   const struct cloth *other);

/* Where a point goes; `how` is the map's own. */
typedef struct vertex point_map(struct vertex v, const void *how);
/* All points of faces and seams moved by one map; presses stay. */
struct cloth *cloth_mapped(struct arena *arena, const struct cloth *cloth,
                           point_map *map, const void *how);
/* Turned and mirrored about its finished rectangle, whose corner stays 0, 0. */
struct cloth *cloth_oriented(struct arena *arena, const struct cloth *cloth,
                             struct orientation o);
/* ensures: a copy, also for a move of nothing. */
struct cloth *cloth_moved(struct arena *arena, const struct cloth *cloth,
                          struct rational x, struct rational y);
/* Cut away what is outside. */
struct cloth *cloth_clipped(struct arena *arena, const struct cloth *cloth,
                            struct half_plane plane);
/* Cut away what is outside of any of them. */
struct cloth *cloth_inside(struct arena *arena, const struct cloth *cloth,
                           const struct half_plane *planes, size_t count);
/* Cut away what is outside of a convex outline. */
struct cloth *cloth_within(struct arena *arena, const struct cloth *cloth,
                           struct outline outline);
/* All lengths multiplied. */
struct cloth *cloth_scaled(struct arena *arena, const struct cloth *cloth,
                           struct rational factor);
/* Turned over about the line through p and q, which lies in any direction: the
 * other side shows. Points are a + b√2 + c√3 + d√6, and so they stay. */
struct cloth *cloth_flipped(struct arena *arena, const struct cloth *cloth,
                            struct vertex p, struct vertex q);

/* Adds a seam; what of it lies outside the plane is cut away by clipping. */
void cloth_add_seam(struct arena *arena, struct cloth *cloth, struct seam seam);

/* Where a point of a width by height rectangle lies when that was mirrored,
 * then turned, and put back to (0, 0). */
struct vertex vertex_oriented(struct vertex v, struct rational width,
                              struct rational height, struct orientation o);

#endif
