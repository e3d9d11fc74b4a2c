/* The room of GEOS, the geometry library: nothing else in the program includes
 * its header. What goes in are exact points times their common denominator,
 * whole numbers as long as 2^52 holds them (geos_scale.c); in inches its noding
 * makes areas that are not there. Three of its functions are never called: GEOSOffsetCurve
 * (a closed line loses sides), GEOSMaximumInscribedCircle (does not come back
 * from thin areas), GEOSLargestEmptyCircle (proves nothing). */
#ifndef SEAMWRIGHT_GEOS_ROOM_H
#define SEAMWRIGHT_GEOS_ROOM_H

#include "fault.h"
#include "shape.h"

struct geos_room;

/* ensures: a room of its own context, whose errors come back as faults. */
struct geos_room *geos_room_open(struct arena *arena);
/* Frees all that the library holds. */
void geos_room_close(struct geos_room *room);

/* What is buffered, kept in the room until it is closed. `scale` is what turned
 * lengths into its whole numbers. NULL where the library refused. */
struct geos_body;
struct geos_body *geos_polygon(struct geos_room *room,
                               const struct shape *shape, double scale);
struct geos_body *geos_lines(struct geos_room *room,
                             const struct segment *lines, size_t count,
                             double scale);

/* The common denominator of all coordinates as a scale: one for all that meets
 * in the library. Where that leaves 2^44 for the farthest of them, or one has
 * a root, the largest power of 2 that does not, and points are then rounded by
 * less than 1e-9 in. What is decided there is right to that, and no more: which
 * lines meet, and what is an area, is asked of the arrangement. */
double geos_scale(const struct shape *const *shapes, size_t count,
                  const struct segment *lines, size_t line_count);

struct geos_line {
    const struct spot *points; /* in the pattern's unit */
    size_t count;
    bool closed; /* the last point is not told twice */
};
typedef LIST(struct geos_line) geos_lines_list;

/* The rim of what lies within a distance of lines, as closed ones. `rounded`
 * corners and ends keep within `chord` of their arc. All add to `lines`.
 * ensures: false where the library refused. */
bool geos_line_rim(struct geos_room *room, const struct geos_body *body,
                   double distance, bool rounded, double chord,
                   geos_lines_list *lines);

/* The rim of the body less convex pieces, in the pattern's unit. */
bool geos_less(struct geos_room *room, const struct geos_body *body,
               const struct spot_ring *pieces, size_t count,
               geos_lines_list *lines);
/* The rim of the body with them. */
bool geos_with(struct geos_room *room, const struct geos_body *body,
               const struct spot_ring *pieces, size_t count,
               geos_lines_list *lines);

/* What echoes cover beside a body: from its rim out to their outermost line, as
 * far as that lies on the ground, and in to their innermost. One of the two
 * distances is above 0. */
struct geos_strip {
    double outside, inside; /* 0: no echo on that side */
    bool rounded, of_lines;
    double chord;                   /* as of geos_line_rim */
    const struct geos_body *ground; /* or NULL */
};
/* All bodies that meet here have one scale. NULL where the library refused. */
struct geos_body *geos_beside(struct geos_room *room,
                              const struct geos_body *body,
                              const struct geos_strip *strip);
/* The same of one straight stretch, on both sides of it and behind its ends: as
 * geos_line_rim goes round lines that are not rounded. */
struct geos_body *geos_beside_stretch(struct geos_room *room,
                                      struct segment stretch, double distance,
                                      double scale);
/* The rim of what the strips leave of the body, and its size. */
bool geos_rest(struct geos_room *room, const struct geos_body *body,
               struct geos_body *const *strips, size_t count, double *size,
               geos_lines_list *lines);

/* What of a line lies on the body: closed where it does as a whole. */
bool geos_clip(struct geos_room *room, const struct geos_body *clip,
               const struct geos_line *line, geos_lines_list *lines);

#endif
