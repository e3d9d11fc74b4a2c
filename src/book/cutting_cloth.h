/* Cloth on the mat, as all drawings of cutting show it. */
#ifndef SEAMWRIGHT_CUTTING_CLOTH_H
#define SEAMWRIGHT_CUTTING_CLOTH_H

#include "cutting.h"

/* A rectangle on the page. */
struct frame {
    double x, y, width, height;
};

/* Cloth on the page: where it lies, points for one unit of length, and whether
 * the cloth's length runs from left to right. */
struct lying {
    const struct cloth_view *view;
    struct box *box;
    double x, y, scale;
    bool on_side;
};

/* Room for what stands beside and below cloth. */
enum { FOLD = 4, POSITIONS = 12, LETTERS = 14, ARROW = 12 };

const struct canvas *canvas_of(const struct lying *lying);
/* As all cloth in work. */
struct path_item pale_cloth(const struct cloth_view *view);
/* A label goes only where it fits; one that is not upright lies on its side. */
void label_frame(const struct lying *lying, struct frame at, const char *text,
                 bool upright);
void red_line(const struct lying *lying, double x1, double y1, double x2,
              double y2);
/* From the cloth to the page. */
struct frame frame_at(const struct lying *lying, struct rational x,
                      struct rational y, struct rational width,
                      struct rational height);
/* Hatched, with its size where that fits. */
void draw_leftover(const struct lying *lying, struct frame at,
                   struct rational width, struct rational height);
/* A piece; with what its strip leaves above it; the cuts around it. */
void draw_piece(const struct lying *lying, const struct placed_piece *piece);
void draw_segment(const struct lying *lying, const struct placed_piece *piece,
                  struct rational height);
void cut_piece(const struct lying *lying, const struct placed_piece *piece,
               struct rational height, struct rational end);
void draw_outline(const struct lying *lying, double width, double height);
/* An arrow along a one-way print, beside the cloth. */
void draw_way(const struct lying *lying, double height);
bool one_way(const struct cloth_view *view);

#endif
