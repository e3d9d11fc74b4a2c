/* What every step is made of: a head with its number, a line of parts, rows of
 * frames with captions, a note. Sizes come from the grid (look.h). */
#ifndef SEAMWRIGHT_FRAMES_H
#define SEAMWRIGHT_FRAMES_H

#include "section.h"

/* Rule, numeral and title; `right` ends at the right edge ("Make 36"), above
 * `where`, a small picture that the parts beside it leave room for, or NULL.
 * ensures: a box with a heading of level 2. */
struct step_head {
    size_t number; /* 0 for none */
    const char *title, *right;
    const struct box *where;
};
struct box *step_head(struct booklet *booklet, const struct step_head *head,
                      double width);

/* Swatches and pictures of parts are so high. */
#define PART_HEIGHT MM(5.2)
/* A frame of a row: a figure and the words under it. */
struct framed {
    const struct box *figure;
    const char *caption; /* what to do; "" for none */
    const char *told;    /* what is drawn, in words */
    int columns;         /* of the grid; those of a row make 12, or 6 */
    bool result;         /* done: on the panel */
};
/* Frames are as high as the highest figure. Captions get letters from `letter`
 * on ('a'), or none where it is 0. ensures: a box as wide as its columns. */
struct box *frames_row(struct booklet *booklet, const struct framed *frames,
                       size_t count, char letter);
/* What a frame of so many columns leaves for a figure. */
double frame_room(int columns, bool result);

/* The figure as it is told, in a frame of so many columns. */
struct framed framed_as(const struct told_figure *told,
                        const struct box *figure, int columns);

/* What a step takes, with pictures; as many on a line as fit. */
struct box *place_entries(struct booklet *booklet, const struct told_work *work,
                          double width);
/* A bar at the left, and words; the lead is bold. */
struct box *note_box(struct booklet *booklet, const struct told_note *note,
                     double width);

#endif
