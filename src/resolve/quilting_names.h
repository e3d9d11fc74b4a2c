/* Inside the resolving stage: what the two files about quilting tell each
 * other. */
#ifndef SEAMWRIGHT_QUILTING_NAMES_H
#define SEAMWRIGHT_QUILTING_NAMES_H

#include "resolver.h"
#include "told_quilting.h"

/* The quilting of one quilt while it is read. */
struct telling_quilting {
    struct resolver *resolver;
    struct quilting *quilting;
    struct name_table threads, lines, areas; /* by their ids */
};

/* ensures: the index of the thread, or NO_ITEM. reports: one that is not
 * there. */
int bind_thread(struct telling_quilting *telling, const struct element *element,
                enum attribute_id id);
/* ensures: the item of that id before this one, or NO_ITEM. reports: one that
 * is not there, or stands behind. */
int bind_line(struct telling_quilting *telling, const struct element *element,
              const char *wanted, struct span span);
/* Notes an item that has an id. reports: an id that is taken. */
void note_line(struct telling_quilting *telling, const struct told_item *item);
/* ensures: false where none are written. reports: more or fewer than two. */
bool bind_two_fabrics(struct resolver *resolver, const struct element *element,
                      enum attribute_id id, int fabrics[2]);
/* Adds the item that the element tells, and what is inside it. `area`: the item
 * that it stands in. */
void read_item(struct telling_quilting *telling, const struct element *element,
               int area);

#endif
