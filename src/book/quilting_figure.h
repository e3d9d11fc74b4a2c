/* Figures of a quilting plan: its lines on the pale top, by area and by stage,
 * and the path in one kind of area. Lengths are points, places those of the
 * finished top. Read next: quilting.c. */
#ifndef SEAMWRIGHT_QUILTING_FIGURE_H
#define SEAMWRIGHT_QUILTING_FIGURE_H

#include "section.h"

/* A part of the top as it lies in a box. */
struct quilting_view {
    const struct canvas *canvas;
    const struct quilting_plan *plan;
    const struct colorway *colorway;
    size_t colorway_index;
    double left, top; /* of the top, at the box's corner */
    double scale;     /* points for one unit */
    double x, y;      /* of the drawing, in the box */
};

/* The top as it fits, or the box around `left` to `bottom`. */
struct quilting_view quilting_view(const struct canvas *canvas,
                                   const struct quilting_plan *plan,
                                   const struct colorway *colorway);
struct point quilting_point(const struct quilting_view *view, struct spot at);

/* The line of a thread: its color, darker where it would not be seen on paper,
 * and a pattern by its number, for print in grey. */
struct path_item thread_line(const struct canvas *canvas,
                             const struct quilting_plan *plan,
                             const struct colorway *colorway, size_t thread);
/* One sample of it, for tables. */
struct box *thread_sample(const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, size_t thread,
                          double width, double height);

/* All lines and fillers, and a letter in each area that has room for it. */
struct box *quilting_map(const struct canvas *canvas,
                         const struct quilting_plan *plan,
                         const struct colorway *colorway, double width,
                         double height);
struct box *quilting_stage(const struct canvas *canvas,
                           const struct quilting_plan *plan,
                           const struct colorway *colorway,
                           enum quilting_stage stage, double width,
                           double height);
/* One area of the kind, with its filler. */
struct box *quilting_area(const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, size_t kind,
                          double width, double height);
/* The path in it: numbers, starts, ends, travel. */
struct box *quilting_sequence(const struct canvas *canvas,
                              const struct quilting_plan *plan,
                              const struct colorway *colorway, size_t kind,
                              double width, double height);
/* How an area fits the page: one that is wide gets the measure, one that is
 * high much of the page, one with many steps half of the measure. */
struct path_room {
    int columns;
    double height;
};
/* A tall area leaves room for others on its page. */
#define PATH_MOST MM(64.0)
#define PATH_TALL MM(112.0)
/* A path of many turns needs more room than its area does. */
struct path_room path_room(const struct told_figure *told);
/* The largest circles without stitching. */
struct box *quilting_gaps(const struct wording *w, const struct canvas *canvas,
                          const struct quilting_plan *plan,
                          const struct colorway *colorway, double width,
                          double height);

/* ---- their names ---- */

/* "quilting-ditch"; "quilting-area-a" or "quilting-area-a-sequence". In the
 * wording's arena. */
const char *stage_figure(struct booklet *booklet, enum quilting_stage stage);
const char *area_figure(struct booklet *booklet,
                        const struct quilted_kind *kind, bool sequence);

/* ---- parts of them ---- */

/* The pale top with its lines as seams, in `box`. */
void draw_pale_top(const struct quilting_view *view, struct box *box);
void draw_quilted_line(const struct quilting_view *view, struct box *box,
                       const struct quilted_line *line, struct path_item style);
/* From the first point to the last. */
void draw_open_line(const struct quilting_view *view, struct box *box,
                    const struct spot *points, size_t count,
                    struct path_item style);
/* The sample of a free-hand filler, over the area; `margin` points off its edge.
 */
void draw_texture_in(const struct quilting_view *view, struct box *box,
                     const struct quilted_area *area, double margin,
                     struct path_item style);
/* Rings of an area as shapes; holes are white. */
void draw_area(const struct quilting_view *view, struct box *box,
               const struct quilted_area *area);
/* How far the rim of the area is; less than 0 outside of it. */
double area_room(const struct quilted_area *area, struct spot at);
bool area_shows(const struct quilted_area *area, struct spot at);
/* Does the line begin in the area? */
bool line_within(const struct quilted_line *line,
                 const struct quilted_area *area);
struct area_bounds {
    struct spot least, most;
};
struct area_bounds area_bounds(const struct quilted_area *area);
/* A dot where a path starts, or, open, where it ends. */
void draw_path_end(const struct canvas *canvas, struct box *box,
                   struct point at, double radius, bool start);
/* Arrows, numbers, travel, starts and ends of paths. By turns, legs are counted
 * from turn to turn and the lines are there already; else they are counted by
 * lines, and drawn here. */
void draw_path_way(const struct quilting_view *view, struct box *box,
                   const struct quilted_route *routes, size_t count,
                   bool by_turns);
/* Starts and ends alone. */
void draw_path_ends(const struct quilting_view *view, struct box *box,
                    const struct quilted_route *routes, size_t count);
/* Where paths are crowded, dots are small. */
double path_dot(size_t starts);

#endif
