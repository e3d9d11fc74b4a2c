/* What a reader aloud and a pointer find on a page: links inside text, items of
 * lists, figures told in words. Read next: flow.h, which opens and closes what
 * runs over several boxes. */
#ifndef SEAMWRIGHT_STRUCTURE_H
#define SEAMWRIGHT_STRUCTURE_H

#include "section.h"

/* Words of a text that lead to a place of the booklet (box.h). */
struct link {
    const char *text;  /* the words */
    const char *place; /* where they lead */
    const char *told;  /* the same, in words */
};

/* A paragraph like box_heading's; each link is looked for behind the one before
 * it, and left out where its words are not there. */
struct box *box_linked(const struct canvas *canvas, const char *text,
                       struct text_style style, double width, const char *tag,
                       const struct link *links, size_t count);
/* A row of a table whose first cell is a link, or none where `link` is NULL. */
struct box *table_row_linked(const struct canvas *canvas,
                             const struct table_row *row,
                             const struct link *link);
/* One line of text that is an element of its own, for box_label. */
void box_tagged_label(const struct canvas *canvas, struct box *box,
                      const char *tag, double x, double y, const char *text,
                      struct text_style style);

/* Opens an item of a list: its label, and what the label stands for, up to
 * end_list_item. */
void begin_list_item(const struct canvas *canvas, struct box *box, double x,
                     double y, const char *label, struct text_style style);
void end_list_item(const struct canvas *canvas, struct box *box);
/* The box belongs to a list that runs over several; `begins` for its first. */
void box_in_list(struct box *box, enum tag_role role, bool begins);
/* A paragraph whose lines begin with a number and a colon: a list of its own.
 * It looks like box_text's. */
struct box *box_numbered_lines(const struct canvas *canvas, const char *text,
                               struct text_style style, double width);

/* Puts a drawing as a figure. What stands for it are `words`, and the labels in
 * the drawing, each once. */
void put_figure(struct booklet *booklet, struct box *box,
                const struct box *drawing, double x, double y,
                const char *words);

/* ensures: names of places: the cutting of a cloth, a step,
 * the binding. */
const char *place_cloth(struct arena *arena, int fabric);
const char *place_step(struct arena *arena, size_t step);
const char *place_binding(void);
/* The box that was added last is such a place. */
void flow_place(struct flow *flow, const char *place);

/* Where a part of a step comes from: a step, or the cutting of its cloth. */
struct link link_to_step(const struct booklet *booklet, size_t heap);
struct link link_to_cutting(const struct booklet *booklet, size_t heap);
/* Where a cut piece goes: a step, a border or the binding.
 * ensures: false where that is nowhere. */
bool link_to_use(const struct booklet *booklet, const struct cut_item *item,
                 struct link *link);

#endif
