/* Figures from states of the sewn cloth. Nothing here knows how anything is
 * sewn: it draws the faces, marks and pressing that it is given. Points on one
 * side, exact lengths on the other: scale and gap are all that lies between.
 * Read next: figure.c, then steps.c. */
#ifndef SEAMWRIGHT_FIGURE_H
#define SEAMWRIGHT_FIGURE_H

#include "box.h"
#include "told_step.h"

/* How strong cloth is drawn: in full where it is done, pale while it is in
 * work, so that labels and lines lie on it without plates. */
enum shade { SHADE_DONE, SHADE_WORK };

/* A part of a state, by its number there. */
struct figure_part {
    size_t heap;
    unsigned turn; /* clockwise quarter turns of that heap's cloth */
    bool marked;   /* its turn is marked at `mark`, a place of the whole */
    struct vertex mark;
};

struct figure {
    const struct canvas *canvas;     /* where it is drawn and measured */
    const struct wording *wording;   /* names of parts; NULL for no labels */
    const struct colorway *colorway; /* what cloth looks like */
    const struct figure_part *parts; /* that are labelled; NULL for no labels */
    size_t part_count;
    double scale; /* points for one unit of length */
    double gap;   /* points between parts that lie apart */
    enum shade shade;
    bool bare; /* a whole quilt: patches that are tiny have no lines */
};

/* Size of the drawn state in points, without captions. */
struct figure_size {
    double width, height;
};
/* requires: a state with faces. */
struct figure_size figure_size(const struct figure *figure,
                               const struct state *state);

/* The state, its top left at the box's. requires: that the lists of the state
 * and the parts of the figure stay as they are; it is drawn later (box.h). */
struct box *figure_state(const struct figure *figure,
                         const struct state *state);

/* A whole cloth, for covers: fills the box of that width. */
struct box *figure_cloth(const struct canvas *canvas,
                         const struct colorway *colorway,
                         const struct cloth *cloth, double width,
                         double height);

/* How a cloth is filled: its color, or 40 % of it while it is in work; the
 * wrong side a tenth of it, with dots. `canvas` says whether it is hatched. */
struct path_item face_fill(const struct canvas *canvas,
                           const struct colorway *colorway, int fabric,
                           bool wrong_side, enum shade shade);

/* Which way a print runs: an arrow with an open head, its middle at (x, y), so
 * many eighths of a turn clockwise from upright. Not red, as it is no move. */
void draw_print(const struct canvas *canvas, struct box *box, double x,
                double y, unsigned eighths, double length, struct color color);
/* Does the cloth's print have a way? */
bool has_way(const struct canvas *canvas, int fabric);
/* An arrow from (x1, y1) to (x2, y2) with a filled head, in the color of what
 * hands do. */
void draw_arrow(const struct canvas *canvas, struct box *box, double x1,
                double y1, double x2, double y2);

/* Two such heads back to back at `at`, (dx, dy) and the other way: a seam that is
 * pressed open. */
void draw_open_arrow(const struct canvas *canvas, struct box *box,
                     struct point at, double dx, double dy);

/* A bow from where a flap lies to where it comes to lie. */
void draw_turn(const struct canvas *canvas, struct box *box, struct point from,
               struct point to);

/* Across a number of a seam. */
#define SEAM_NUMBER MM(4.3)
/* A number in a circle around (x, y). */
void draw_number(const struct canvas *canvas, struct box *box, double x,
                 double y, size_t number);
/* Numbers the seams of an action that joins parts, from `first`: into the gaps
 * of its figure of before, or at the left ends in its figure of after.
 * requires: the box as figure_state made it. */
void number_gaps(const struct figure *figure, struct box *box,
                 const struct action *action, size_t first);
void number_ends(const struct figure *figure, struct box *box,
                 const struct action *action, size_t first);

/* Rows that lie aslant, counted at their upper ends, with room around the box.
 * requires: the box as figure_state made it of the state, in which all parts of
 * the heap's rows lie apart. ensures: the larger box. */
#define ROW_NUMBER MM(4.0)
struct box *number_rows(const struct figure *figure, const struct box *box,
                        const struct state *state, const struct heap *heap);
/* The same of level rows, at their left; and at both ends the labels of pieces
 * that are too narrow for them. */
struct box *number_level_rows(const struct figure *figure,
                              const struct box *box, const struct state *state,
                              const struct heap *heap);

/* Cloth that is left over or thrown away. */
struct path_item waste_fill(const struct canvas *canvas);
/* Lines of the four kinds of mark, for figures and the legend. */
struct path_item mark_style(enum mark_kind kind);
/* One such line, with its casing where it is red; a cut has scissors at its
 * beginning where it is long enough. */
void draw_mark(const struct canvas *canvas, struct box *box,
               enum mark_kind kind, struct point from, struct point to);

/* A quarter, half or three-quarter turn clockwise: a ring with its number; a
 * small one where it would hide the part that is turned. `ring` is one of the
 * two widths. requires: 1 to 3 quarters. */
#define TURN_RING MM(6.4)
#define TURN_SMALL MM(4.6)
void draw_turned(const struct canvas *canvas, struct box *box, double x,
                 double y, double ring, unsigned quarters);

#endif
