/* What the files that resolve an order tell each other; all of it ends with
 * `struct order`. */
#ifndef SEAMWRIGHT_ORDERING_H
#define SEAMWRIGHT_ORDERING_H

#include "order.h"

/* ensures: what is written and usable, or `otherwise`. */
struct rational order_length(const struct element *element,
                             enum attribute_id id, struct rational otherwise);
/* The same of percents, as a part of one: 5 is 1/20. */
struct rational order_percent(const struct element *element,
                              enum attribute_id id, struct rational otherwise);
size_t order_whole(const struct element *element, enum attribute_id id,
                   size_t otherwise);
int order_choice(const struct element *element, enum attribute_id id,
                 int otherwise);

/* 0xrrggbb of "#rrggbb". */
long color_number(const char *text);

/* Adds a bolt or pieces that are counted. requires: an element that is not
 * faulty. reports: flaws that cannot lie so. */
void resolve_shelf(struct run *run, struct order *order,
                   const struct element *element);
/* reports: labels that do not fit their sheet. */
void resolve_labels(struct run *run, struct order *order,
                    const struct element *element);

#endif
