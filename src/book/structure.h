/* What a reader aloud and a pointer find on a page: links inside text, items of
 * lists, figures told in words. Read next: flow.h, which opens and closes what
 * runs over several boxes. */
#ifndef SEAMWRIGHT_STRUCTURE_H
#define SEAMWRIGHT_STRUCTURE_H

#include "section.h"

/* A paragraph like box_heading's, of runs that follow each other. */
struct box *box_runs(const struct canvas *canvas, const struct told_text *runs,
                     size_t count, struct text_style style, double width,
                     const char *tag);
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
/* Puts a drawing as a figure. What stands for it are `words`, and the labels in
 * the drawing, each once. */
void put_figure(struct booklet *booklet, struct box *box,
                const struct box *drawing, double x, double y,
                const char *words);

#endif
