/* What the files of the arrangement share; no other file includes it. */
#ifndef SEAMWRIGHT_ARRANGE_PARTS_H
#define SEAMWRIGHT_ARRANGE_PARTS_H

#include "arrange.h"

/* ---- points.c: each point once ---- */

struct point_table {
    LIST(struct vertex) points;
    size_t *slots; /* index of a point and 1, or 0; a power of 2 of them */
    size_t slot_count;
};
/* The index of the point, which is added where it is new. */
size_t point_add(struct arena *arena, struct point_table *table,
                 struct vertex v);
/* SIZE_MAX where it is not there. */
size_t point_find(const struct point_table *table, struct vertex v);

/* ---- trace.c: ways around faces ---- */

/* A half is a piece walked one way: 2 p from its `from`, 2 p + 1 back. In each
 * point begin some, in order clockwise on paper from upright up. */
struct fans {
    const size_t *starts;      /* by point, and the end of the last */
    const size_t *halves;      /* sorted */
    const size_t *place;       /* of each half in `halves` */
    const size_t *begin;       /* the point of each half */
    const unsigned *direction; /* of each half, rising clockwise */
    size_t half_count;
};

/* `rank[p]`: the direction of piece p among `ranks`, by slope, upright last. */
struct fans *fans_of(struct arena *arena, const struct arrangement *a,
                     const unsigned *rank, unsigned ranks);

/* The next half on the way with its right hand on one face, over halves that
 * may be walked. */
size_t fan_next(const struct fans *fans, const bool *walked, size_t half);

struct cycle {
    size_t first; /* a half that begins in its lowest point, by x, then y */
    bool hole;    /* it runs around what it does not hold */
};

/* The cycles of all halves that may be walked. */
struct cycles {
    size_t *of; /* the cycle of each half; SIZE_MAX where it is not walked */
    LIST(struct cycle) list;
};
struct cycles trace_cycles(struct arena *arena, const struct arrangement *a,
                           const struct fans *fans, const bool *walked);
/* The cycle as a ring. */
struct arranged_ring cycle_ring(struct arena *arena, const struct fans *fans,
                                const bool *walked, size_t first);

/* ---- inside.c, faces.c ---- */

struct spot face_inside(struct arena *scratch, const struct arrangement *a,
                        const struct arranged_face *face);

/* Finds the faces; `line[p]` is the line of piece p. */
void add_faces(struct arena *arena, struct arrangement *a,
               struct arranged_piece *pieces, const struct straight *line);

#endif
