/* Inside the driver: plans of cloth as text. */
#ifndef SEAMWRIGHT_PLAN_PRINT_H
#define SEAMWRIGHT_PLAN_PRINT_H

#include "buffer.h"
#include "piece_list.h"

/* The strips of a roll, then what they come to. */
void print_roll_plan(struct buffer *out, const struct piece_list *list,
                     const struct roll_plan *plan);

/* A block a pattern, then how many sheets. */
void print_sheet_plan(struct buffer *out, const struct piece_list *list,
                      const struct sheet_plan *plan);

/* How the leftovers are cut. */
void print_leftovers(struct buffer *out, const struct piece_list *list,
                     const struct leftover_plan *plan);

#endif
