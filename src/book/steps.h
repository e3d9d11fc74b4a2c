/* The rows of figures of one step, by what is done in it; steps.c puts heads
 * and parts above them. Each row has its captions and stays whole. */
#ifndef SEAMWRIGHT_STEPS_H
#define SEAMWRIGHT_STEPS_H

#include "frames.h"
#include "portion.h"
#include "result.h"
#include "told_step.h"

struct step_view {
    struct booklet *booklet;
    const struct told_work *told;
    const struct told_step *step;
    const struct heap *heap; /* what the step makes */
    int columns;             /* of the grid: 12, or 6 beside another step */
    double size;             /* of figures, of their usual one */
};

/* Steps in their order. */
struct works {
    LIST(const struct told_work *) items;
};

struct rows {
    LIST(struct box *) items;
    size_t heads; /* so many of them come before the first figure */
};

/* `columns` is 12 for a step of its own and 6 for one of a pair. requires: a
 * step that is sewn. */
struct step_view view_of(struct booklet *booklet, const struct told_work *told,
                         int columns, double size);
/* Head, parts and notes, then its figures; all as wide as the view. Names the
 * figures. */
struct rows step_rows(const struct step_view *view);
/* As wide as the view. */
void add_note(const struct step_view *view, const struct told_note *note,
              struct rows *rows);
/* Row by row. */
void add_table_rows(const struct step_view *view,
                    const struct told_table *table, const double *widths,
                    struct rows *rows);
/* Adds the first `count` steps. A unit and its mirror image are shown side by
 * side. */
void step_portions(struct booklet *booklet, const struct works *works,
                   size_t count, struct portions *portions);
/* Backing, layers and binding go on with the numbers of the steps; their
 * section has a head of its own. Nothing is added that the source does not ask
 * for. */
void finishing_portions(struct booklet *booklet, enum content_part part,
                        struct portions *portions);
/* Between two steps, at least. */
#define STEP_GAP MM(6.6)
/* What a frame leaves for a figure, in the view's size: never more than there
 * is. */
double view_room(const struct step_view *view, int columns, bool result);

/* Frames of the moves of a technique. */
void technique_rows(const struct step_view *view, struct rows *rows);
/* Parts side by side and below each other. */
void join_rows(const struct step_view *view, struct rows *rows);
/* Borders from the inside. ensures: how many of the tables were placed. */
size_t border_rows(const struct step_view *view, struct rows *rows);

/* One of the scales that figures have: the largest under which what scales and
 * what does not fit the room together; smaller ones where none of them does. */
double step_scale(const struct booklet *booklet, struct figure_size scaled,
                  struct figure_size fixed, double width, double height);
/* The first block that takes the heap, pale, with this unit's places in full
 * color. ensures: a box of at most that side; NULL where no block takes it, or
 * it is all of the block. */
struct box *where_it_goes(struct booklet *booklet, size_t heap, double side);

#endif
