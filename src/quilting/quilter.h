/* Inside the quilting stage: what the files of its pass tell each other. They
 * call each other one way: walk.c, places.c, ditch.c, lines.c, echoes.c,
 * regions.c, paths.c, thread.c, checks.c, images.c, and quilting.c, which has
 * the order.
 * Geometry, gap and paths (the other headers of this folder) know nothing of
 * it. */
#ifndef SEAMWRIGHT_QUILTER_H
#define SEAMWRIGHT_QUILTER_H

#include "areas.h"
#include "echo.h"
#include "extend.h"
#include "quilting.h"
#include "symmetry.h"

struct leads;     /* regions.h */
struct geos_room; /* geos_room.h */
struct geos_body;

/* A cell of the setting, in the top. Strips and cornerstones of a sashing are
 * none, and rows of columns are counted through. On point the rows are level
 * lines; of triangles each place is a cell. */
struct setting_cell {
    struct extent extent;
    size_t row, column; /* from 1 */
};

/* One place of a unit, a block or a piece with an id. */
struct placement {
    const struct definition *definition; /* NULL of a piece */
    const struct piece *piece;           /* as it was written; NULL else */
    struct extent extent;
};

/* An exact stretch that is stitched, and the told item that asked for it. */
struct exact_line {
    struct segment segment;
    size_t line; /* of the plan */
};
typedef LIST(struct segment) segment_list;
typedef LIST(struct placement) placement_list;

/* The strip that the echoes of one shape, or of lines, cover: fillers stop at
 * it. */
struct echo_band {
    const struct told_item *item;
    struct shape shape;          /* without rings where lines were echoed */
    const struct segment *lines; /* then these */
    size_t line_count;
    const struct shape *ground; /* that outer echoes stay on; NULL for all */
    double outside, inside; /* to the farthest echo on that side; 0 for none */
    struct spot_line box;   /* around all of it */
    /* Made when the first area asks (strips.c): all of it, or, of lines, where
     * they lie, as they may run over the whole top. */
    struct geos_body *body;
    struct grid *by_place;
};

/* One quilt while it is planned. Lists grow, so that what points into them is
 * kept by index. What is only needed on the way lives in the arena of the run
 * as well: it is little, beside what stays. */
struct quilter {
    struct run *run;
    struct arena *arena; /* of the run: what is kept */
    const struct sized *sized;
    const struct quilting *told;
    struct quilting_plan *plan;
    struct ground *ground;
    struct straight_seams seams;
    LIST(struct setting_cell) cells;
    placement_list placements;   /* of all that has a name */
    const struct extent *levels; /* the center, then with each border */
    size_t border_count;
    LIST(struct exact_line) exact; /* the lines of the plan that are exact */
    struct arrangement *areas;     /* NULL until they are found */
    struct regions *regions; /* the same */
    LIST(struct echo_band) bands;
    struct geos_room *room; /* open while areas are filled, for the strips */
    double room_scale;
    struct leads **leads; /* by element: what fillers run along; NULL where none
                             asked yet */
    bool *reached;        /* by area: travel leads to what is stitched in it */
    size_t stretches;     /* of all lines of the plan */
    size_t echo_work;     /* of all echoes */
    bool failed;          /* an error was reported */
    bool one_sided;       /* a symmetry that lacks was remarked */
    unsigned top_symmetries; /* SYMMETRY_BITs of the top */
};

/* ---- walk.c ---- */

/* Walks the quilt: fills cells, placements and levels. */
void find_places(struct quilter *quilter);

/* ---- places.c ---- */

/* The places that the words mean: the whole top is one where they name nothing.
 * reports: a place that the top has not, once an item. */
placement_list places_of(struct quilter *quilter,
                         const struct quilting_place *place);
/* Lies the spot in the place, by its row, column and border as well? */
bool place_holds(const struct quilter *quilter,
                 const struct quilting_place *place,
                 const struct placement *placement, struct spot at);
/* The cell of the setting that is nearest; NULL where there is none. */
const struct setting_cell *nearest_cell(const struct quilter *quilter,
                                        struct spot at);

/* ---- ditch.c ---- */

/* Straight stretches of one line that overlap or touch become one. */
void unite_segments(struct arena *arena, segment_list *segments);
/* What of the segments no exact line of the plan covers yet. */
segment_list uncovered(struct quilter *quilter, const segment_list *segments);
/* Adds a line of two exact points; its way of being found comes later. */
void add_exact_line(struct quilter *quilter, const struct told_item *item,
                    enum quilting_stage stage, struct segment segment);
void draw_ditch(struct quilter *quilter, const struct told_item *item);

/* ---- lines.c ---- */

void draw_extended(struct quilter *quilter, const struct told_item *item);
/* Of an area's own, what lies in areas that it took. */
void draw_connected(struct quilter *quilter, const struct told_item *item);

/* ---- echoes.c ---- */

void draw_echoes(struct quilter *quilter, const struct told_item *item,
                 size_t area);
/* Adds a line in doubles. */
struct quilted_line *add_line(struct quilter *quilter,
                              const struct told_item *item,
                              enum quilting_stage stage,
                              const struct spot *points, size_t count,
                              bool closed);

/* Above so many stretches of all lines a quilt's quilting is not worked out. */
enum { QUILTING_MOST = 100000, QUILTING_ECHO_WORK = 4 * ECHO_MOST_WORK };
/* ensures: whether there are more. reports: that, once a quilt. */
bool too_many_lines(struct quilter *quilter, const struct told_item *item);

/* ---- regions.c ---- */

/* Finds the areas that the lines leave, gives each to the first `area` whose
 * words fit, and fills it. */
void fill_areas(struct quilter *quilter);

/* The outline of an area of the plan. */
struct shape shape_of_area(struct quilter *quilter, size_t area);
/* Lies the spot in that area of the plan? */
bool area_holds(const struct quilter *quilter, size_t area, struct spot at);

/* Of those that the item, an `area`, took, the one in which the spot lies. */
size_t area_taken(const struct quilter *quilter, const struct told_item *item,
                  struct spot at);

/* ---- strips.c ---- */

/* How much of the line lies in the area. */
double length_in_area(const struct quilter *quilter, size_t area,
                      const struct quilted_line *line);

/* ---- found.c ---- */

/* How each line is found, and the rows of the table. */
void find_ways(struct quilter *quilter);

/* ---- paths.c ---- */

void plan_paths(struct quilter *quilter);
/* All lines in straight pieces, cut where they meet: for symmetry. None where
 * there are too many; that was reported. */
struct spot_line *pieces_of_lines(struct quilter *quilter, size_t *count);

/* ---- thread.c ---- */

/* Of each of both threads, on a line: C = 2 + 2TS for both with T = 0.05 in, S
 * = 10 stitches an inch (textiletechinsight.com, Sewing thread consumption);
 * and with the waste (15 to 20 in a hundred: Estimating Thread Consumption,
 * scribd.com/document/75439238). */
#define QUILTING_THREAD 1.5
#define QUILTING_WASTE 1.15

void count_thread(struct quilter *quilter);

/* ---- checks.c ---- */

/* reports: many ends in one point. */
void check_ends(struct quilter *quilter);
/* reports: areas that no travel leads to. */
void check_starts_extra(struct quilter *quilter);
/* The longest straight stretch among the lines of the row. */
double longest_straight(const struct quilter *quilter,
                        const struct quilted_row *row);
void check_gap(struct quilter *quilter);
void check_lines(struct quilter *quilter);
void check_density(struct quilter *quilter);
void check_statements(struct quilter *quilter);

/* ---- images.c ---- */

/* reports: what has no image under a stated symmetry. */
void check_symmetry(struct quilter *quilter);

/* ---- say.c ---- */

/* A fault of geometry in words. ensures: true where there was one. */
bool say_fault(struct quilter *quilter, const struct told_item *item,
               struct fault fault);
/* A number as messages print it, to 1/1000: "3.029", "6"; a length with its
 * unit: "3.029 in". */
const char *size_words(struct quilter *quilter, double size);
const char *length_words(struct quilter *quilter, double length);
/* "row 2, column 3 of the setting, 14.2 from the left and 7 from the top". */
const char *place_words(struct quilter *quilter, struct spot at);
/* reports: as diag_report, and the quilt has no plan. */
struct diagnostic *say_error(struct quilter *quilter, enum diag_code code,
                             struct span span, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
