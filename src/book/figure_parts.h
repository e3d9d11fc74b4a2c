/* Inside the drawing of figures. */
#ifndef SEAMWRIGHT_FIGURE_PARTS_H
#define SEAMWRIGHT_FIGURE_PARTS_H

#include "figure.h"

struct extent {
    double left, top, right, bottom; /* points, with gaps */
};

struct part_view {
    struct extent extent;
    double area; /* of its faces, to tell a rectangle */
};

/* A face of a state as it lies on the page. */
struct shown_edges {
    const struct point *points;
    size_t count;
    int part;
};

/* The word along a drawn line: its direction. */
struct line_label {
    const char *text; /* NULL where there is no room, or no line */
    struct text_style style;
    struct point top;         /* middle of its top edge */
    struct point left, right; /* ends of its middle line */
    double height;
    double angle;
};

/* `share` of b, the rest of a. */
struct color mixed(struct color a, struct color b, double share);
/* Relative luminance, and the ratio of two colours (WCAG 2.2). */
double lightness(struct color color);
double contrast(struct color a, struct color b);
/* The hatch of a fabric's right side, in the arena; NULL for the first fabric,
 * which has none. */
const struct hatch *cloth_hatch(struct arena *arena, int fabric,
                                struct color cloth);
/* Is there room for it in a convex shape? */
bool hatch_fits(const struct hatch *hatch, const struct point *points,
                size_t count);

/* What a state covers, by its faces: marks never reach beyond the cloth that
 * they lie on. */
struct extent state_extent(const struct figure *figure,
                           const struct state *state);
/* Where a point of the cloth lies on the page. */
struct point shown_point(const struct figure *figure, struct vertex v,
                         int gap_x, int gap_y);
struct shown_edges face_edges(const struct figure *figure,
                            const struct shown_face *shown);
/* requires: a convex face. */
bool inside_face(const struct shown_edges *face, struct point p);
/* The word along a drawn line: its direction. */
struct line_label line_label(const struct figure *figure,
                             const struct state *state, size_t line);
/* Puts the label of a part where it lies clear of everything. */
void label_part(const struct figure *figure, struct box *box,
                const struct state *state, const struct part_view *view,
                int part, struct extent origin);
/* What is cut off. */
void draw_waste(const struct figure *figure, struct box *box,
                const struct state *state, struct extent origin);
/* Lines, their words, arrows and turns. */
void draw_signs(const struct figure *figure, struct box *box,
                const struct state *state, struct extent origin);

#endif
